package main

import (
	"os/exec"
	"strings"
	"testing"

	"hourseal/record/recordtest/outside"
)

// onTypedTerminal is a Python program that runs a command on a pseudo-terminal and types
// a line whenever the command waits at a question, a line that ends in a colon and a
// space. It prints what the terminal showed. The command fails that asks for more.
const onTypedTerminal = `
import os, pty, select, subprocess, sys
lines, command = sys.argv[1].split("\n"), sys.argv[2:]
master, slave = pty.openpty()
child = subprocess.Popen(command, stdin=slave, stderr=slave, stdout=slave, start_new_session=True)
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
    if since.endswith(b": "):
        if not lines:
            child.kill()
            sys.exit("it asks for more: %r" % shown)
        os.write(master, lines.pop(0).encode() + b"\n")
        since = b""
sys.stdout.buffer.write(shown)
sys.exit(child.wait())
`

// typing runs the program on a terminal where these lines are typed, and gives what the
// terminal showed.
func typing(t *testing.T, f folder, lines []string, args ...string) ran {
	t.Helper()
	cmd := exec.Command(outside.Program(t, "python3"), append([]string{"-c", onTypedTerminal, strings.Join(lines, "\n"), "hourseal"}, args...)...)
	cmd.Dir, cmd.Env = f.dir, f.environment()
	r := ended(t, cmd)
	if r.stderr != "" {
		t.Fatalf("%s", r)
	}
	r.stdout = strings.ReplaceAll(r.stdout, "\r\n", "\n")
	return r
}
