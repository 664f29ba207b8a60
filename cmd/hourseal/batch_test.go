//go:build linux

package main

import (
	"bytes"
	"fmt"
	"os/exec"
	"syscall"
	"testing"
	"time"
)

// mostResidentKiB is what a batch may take, whatever the number of its files.
const mostResidentKiB = 128 << 10

// reportsIn makes a folder of n reports: port and starboard in turn, one in ten
// of them saved by another program, which takes the reader longest.
func reportsIn(t *testing.T, f folder, n int) string {
	t.Helper()
	name := fmt.Sprintf("batch-%d", n)
	port, starboard := f.read(t, "reports/gannet-port-0001.pdf"), f.read(t, "reports/gannet-starboard-0001.pdf")
	for i := range n {
		data := port
		if i%2 == 1 {
			data = starboard
		}
		if i%10 == 0 {
			data = append([]byte("\n"), data...)
		}
		f.write(t, fmt.Sprintf("%s/%05d.pdf", name, i), data)
	}
	return f.path(name)
}

// residentKiB is the most memory that a process which has ended held.
func residentKiB(cmd *exec.Cmd) int64 { return cmd.ProcessState.SysUsage().(*syscall.Rusage).Maxrss }

// A batch of 2,000 reports stays under 128 MiB of resident memory, and takes no
// more than one of 500 but for what the collector happens to leave.
func TestBatchMemory(t *testing.T) {
	if !longRun() {
		t.Skip("two minutes: only with HOURSEAL_LONG=1")
	}
	program := builtProgram(t)
	f := newYard(t)
	f.must(t, 0, "issue", portJob, starboardJob, "--no-input")
	verify := func(n int) (resident int64) {
		folder := reportsIn(t, f, n)
		cmd := exec.Command(program, "verify", folder, "--json", "--trust", f.path("trust.yaml"))
		var out bytes.Buffer
		cmd.Stdout = &out
		start := time.Now()
		if err := cmd.Run(); cmd.ProcessState.ExitCode() != int(exitNotAsked) {
			t.Fatalf("%v", err)
		}
		took := time.Since(start)
		if lines := bytes.Count(out.Bytes(), []byte("\n")); lines != n {
			t.Errorf("%d answers to %d reports", lines, n)
		}
		if good := bytes.Count(out.Bytes(), []byte(`"verdict":"genuine"`)); good != n-n/10 {
			t.Errorf("%d of %d genuine, want %d", good, n, n-n/10)
		}
		resident = residentKiB(cmd)
		t.Logf("%d reports: %d MiB, %v, %v a report", n, resident>>10, took.Round(time.Millisecond), (took / time.Duration(n)).Round(time.Microsecond))
		return resident
	}
	few, many := verify(500), verify(2000)
	if many > mostResidentKiB {
		t.Errorf("%d KiB, the limit is %d", many, mostResidentKiB)
	}
	if many > few+few/4 {
		t.Errorf("%d KiB for 2,000 reports, %d for 500: it grows with their number", many, few)
	}
}
