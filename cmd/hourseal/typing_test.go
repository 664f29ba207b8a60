package main

import (
	"os/exec"
	"strings"
	"testing"

	"hourseal/record/recordtest/outside"
)

// onTerminal is a Python program that runs a command on a pseudo-terminal and types a
// line whenever the command waits at a question, a line that ends in a colon and a space.
// It prints what the terminal showed. The command fails that asks for more. With "errors"
// only standard error is the terminal, and nothing is typed.
const onTerminal = `
import os, pty, select, subprocess, sys, termios, time
errors, lines, command = sys.argv[1] == "errors", sys.argv[2].split("\n"), sys.argv[3:]
master, slave = pty.openpty()
child = subprocess.Popen(command, stdin=subprocess.DEVNULL if errors else slave, stderr=slave,
    stdout=subprocess.DEVNULL if errors else slave, start_new_session=True)
os.close(slave)
shown, since = b"", b""
while True:
    ready, _, _ = select.select([master], [], [], 30)
    if not ready:
        child.kill()
        sys.exit("nothing more came: %r" % shown)
    try:
        data = os.read(master, 4096)
    except OSError:
        data = b""
    if not data:
        break
    shown, since = shown + data, since + data
    if errors or not since.endswith(b": "):
        continue
    if not lines:
        child.kill()
        sys.exit("it asks for more: %r" % shown)
    # No hand is as quick as this program: the question for a passphrase comes just
    # before the terminal stops to show what is typed.
    for _ in range(100):
        if not (b"assphrase" in since or b"same again" in since) or not termios.tcgetattr(master)[3] & termios.ECHO:
            break
        time.sleep(0.02)
    os.write(master, lines.pop(0).encode() + b"\n")
    since = b""
sys.stdout.buffer.write(shown)
sys.exit(child.wait())
`

// terminal runs the program on a terminal, "all" of it or its "errors" only, where these
// lines are typed, and gives what the terminal showed.
func terminal(t *testing.T, f folder, mode string, typed []string, args ...string) ran {
	t.Helper()
	cmd := exec.Command(outside.Program(t, "python3"), append([]string{"-c", onTerminal, mode, strings.Join(typed, "\n"), "hourseal"}, args...)...)
	cmd.Dir, cmd.Env = f.dir, f.environment()
	r := ended(t, cmd)
	if r.stderr != "" {
		t.Fatalf("%s", r)
	}
	return r
}

// typing is terminal with the line ends of a file.
func typing(t *testing.T, f folder, lines []string, args ...string) ran {
	t.Helper()
	r := terminal(t, f, "all", lines, args...)
	r.stdout = strings.ReplaceAll(r.stdout, "\r\n", "\n")
	return r
}
