package main

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"hourseal/record/recordtest/outside"
)

// TestInterruptedRuns begins to issue two jobs again and again, and stops each run with a
// signal at a moment of its own. After each the ledger loads, nothing is half written,
// and what is said of where things stand is so; the same command then does the rest.
func TestInterruptedRuns(t *testing.T) {
	runs := 24
	if longRun() {
		runs = 120
	}
	random := rand.New(rand.NewPCG(7, 7))
	f := newYard(t)
	began := time.Now()
	f.must(t, 0, "issue", portJob, starboardJob)
	whole := time.Since(began)
	signals := []os.Signal{syscall.SIGINT, syscall.SIGTERM, syscall.SIGHUP}
	stopped := map[string]int{}
	now := 1
	sheets := visit(t, &f, now)
	for n := range runs {
		signal := signals[n%len(signals)]
		cmd := f.command(append([]string{"issue"}, sheets...)...)
		var out, said limited
		cmd.Stdout, cmd.Stderr = &out, &said
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		timer := time.AfterFunc(time.Duration(random.Int64N(int64(whole*5/4))), func() { _ = cmd.Process.Signal(signal) })
		err := cmd.Wait()
		timer.Stop()
		if left, _ := filepath.Glob(f.path("*/.new-*")); len(left) > 0 {
			t.Fatalf("half written: %q", left)
		}
		if left, _ := filepath.Glob(f.path("records/*/.new-*")); len(left) > 0 {
			t.Fatalf("half written: %q", left)
		}
		lengths := chains(t, f)
		stored := lengths == [2]int{now + 1, now + 1}
		if !stored && lengths != [2]int{now, now} {
			t.Fatalf("%v records of %d jobs: a visit is stored in whole or not at all", lengths, now+1)
		}
		words := string(said)
		switch code := cmd.ProcessState.ExitCode(); {
		case code == -1: // before the program was there to take the signal
			stopped["before it began"]++
		case err == nil:
			stopped["too late"]++
		case code != int(exitOf[signal]):
			t.Fatalf("%v: ended with %d\n%s", signal, code, words)
		case !stored:
			stopped["before"]++
			if words != "Stopped. Nothing is signed or stored.\n" && words != "Stopped. Nothing was written.\n" {
				t.Errorf("nothing is stored, and it says %q", words)
			}
		default:
			stopped["after"]++
			if !strings.HasPrefix(words, "Stopped. The records are stored") {
				t.Errorf("the records are stored, and it says %q", words)
			}
		}
		if stored {
			f.must(t, 0, append([]string{"issue"}, sheets...)...) // the reports, if they are not all there
			now++
			sheets = visit(t, &f, now)
		}
	}
	t.Logf("of %d runs of about %v: %v", runs, whole, stopped)
	if stopped["before"] == 0 {
		t.Error("none was stopped at work: the moments are badly chosen")
	}
	f.must(t, 0, append([]string{"issue"}, sheets...)...)
	reports, err := filepath.Glob(f.path("reports/*.pdf"))
	if err != nil || len(reports) != 2*(now+1) {
		t.Errorf("%d reports of %d records, %v", len(reports), 2*(now+1), err)
	}
	f.must(t, 0, "verify", "records", "reports", "--trust", "trust.yaml")
}

// onInterrupt is a Python program that starts a command on a pseudo-terminal, waits for
// its question with what is typed not shown, presses Ctrl-C, and prints what the
// terminal showed and whether it shows again what is typed.
const onInterrupt = `
import os, pty, select, signal, subprocess, sys, termios, time
master, slave = pty.openpty()
before = termios.tcgetattr(slave)
def own():
    os.setsid()
    signal.signal(signal.SIGINT, signal.SIG_DFL) # the caller may have it ignored
    import fcntl
    fcntl.ioctl(0, termios.TIOCSCTTY, 0)
child = subprocess.Popen(sys.argv[1:], stdin=slave, stdout=slave, stderr=slave, preexec_fn=own)
shown = b""
while b"Name of your" not in shown:
    shown += os.read(master, 4096)
os.write(master, b"\n")
while b"assphrase" not in shown or termios.tcgetattr(slave)[3] & termios.ECHO:
    if not select.select([master], [], [], 0.05)[0]:
        if child.poll() is not None:
            sys.exit("it ended: %r" % shown)
        continue
    shown += os.read(master, 4096)
os.write(master, b"half a passph\x03")
try:
    code = child.wait(30)
except subprocess.TimeoutExpired:
    child.kill()
    sys.exit("Ctrl-C did not end it: %r" % shown)
time.sleep(0.1)
while select.select([master], [], [], 0.2)[0]:
    shown += os.read(master, 4096)
after = termios.tcgetattr(slave)
print(shown.decode())
print("code", code)
print("as before" if after == before else "echo %s" % bool(after[3] & termios.ECHO))
`

// Ctrl-C while a passphrase is typed: the terminal is as it was, and nothing is made.
func TestInterruptedPassphrase(t *testing.T) {
	python := outside.Program(t, "python3")
	f := newFolder(t)
	cmd := f.command()
	cmd.Path, cmd.Args = python, []string{"python3", "-c", onInterrupt, "hourseal", "init", "yard"}
	r := ended(t, cmd)
	for _, want := range []string{"\r\nStopped. Written before that, and whole: ", "yard.yaml", "\ncode 130\n", "\nas before\n"} {
		if !strings.Contains(r.stdout, want) {
			t.Errorf("no %q in\n%s", want, r)
		}
	}
	if strings.Contains(r.stdout, "half a") {
		t.Errorf("it shows what was typed:\n%s", r)
	}
	if keys, _ := filepath.Glob(f.path("yard/keys/*")); len(keys) > 0 {
		t.Errorf("made: %q", keys)
	}
}

// What a caller has set to be ignored, as nohup does, does not end the program.
func TestIgnoredSignals(t *testing.T) {
	sh := outside.Program(t, "sh")
	f := newYard(t)
	cmd := f.command()
	cmd.Path = sh
	cmd.Args = []string{"sh", "-c", `trap '' HUP INT; (sleep 0.1; kill -HUP $$; kill -INT $$) & exec hourseal issue "$@"`, "sh", portJob, starboardJob}
	if r := ended(t, cmd); r.code != 0 || !strings.Contains(r.stdout, "record 1") {
		t.Errorf("%s", r)
	}
}

// A reader that has seen enough ends the program without a word.
func TestClosedPipe(t *testing.T) {
	sh := outside.Program(t, "sh")
	f := newYard(t)
	for _, line := range []string{"due | head -1", "issue " + portJob + " --json | head -c 1", "manual | head -1", "schedule show diesel-inboard --json | head -c 1", "verify reports --full | true"} {
		cmd := f.command()
		cmd.Path, cmd.Args = sh, []string{"sh", "-c", "hourseal " + line}
		if r := ended(t, cmd); r.code != 0 || strings.Contains(r.stderr, "pipe") || strings.Contains(r.stderr, "hourseal:") {
			t.Errorf("%s: %s", line, r)
		}
	}
	f.must(t, 0, "verify", "reports", "records", "--trust", "trust.yaml")
}

// An interruption waits for a write that has begun; a second one does not.
func TestUndisturbed(t *testing.T) {
	var i interruption
	i.writing = 1
	signals := make(chan os.Signal, 2)
	settled := make(chan bool)
	go func() { i.settle(signals); settled <- true }()
	select {
	case <-settled:
		t.Fatal("it did not wait for the write")
	case <-time.After(50 * time.Millisecond):
	}
	signals <- syscall.SIGINT // a second one does not wait
	<-settled
	i.mu.Unlock()
}
