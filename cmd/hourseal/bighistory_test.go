//go:build linux

package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"hourseal/sign"
)

// A surveyor's stack: so many machines with a chain each.
const (
	stackMachines = 500
	stackRecords  = 20
)

// The bars for "hourseal history" over the stack, on two cores: at most so many
// times as long as reading the same files and working out their signatures takes, and
// nothing else, in the same run; and memory.
const (
	historyTimes  = 2.0
	historyMemory = 256 << 20
)

// TestHistoryOfAStack holds the whole process, from record files to a judgement of each
// machine, to its bars:
// the best of several runs on both sides, since a busy machine only makes them slower.
func TestHistoryOfAStack(t *testing.T) {
	if !longRun() {
		t.Skip("half a minute: only with HOURSEAL_LONG=1")
	}
	program := builtProgram(t)
	f := newBigYard(t, stackMachines, stackRecords)
	f.trustSigner(t)
	files := f.recordFiles(t)
	bare, judged, most := time.Hour, time.Hour, int64(0)
	for runs := 0; runs < 5 || judged > time.Duration(historyTimes*float64(bare)) && runs < 20; runs++ {
		bare = min(bare, openAll(t, files))
		took, memory, out := historyRun(t, program, f)
		if judgements := strings.Count(out, "Corrin 4T-75, serial "); judgements != stackMachines {
			t.Fatalf("%d judgements of %d machines", judgements, stackMachines)
		}
		judged, most = min(judged, took), max(most, memory)
	}
	times := float64(judged) / float64(bare)
	t.Logf("%d records of %d machines: judged in %v, read and opened in %v: %.2f times; %d MiB", len(files), stackMachines, judged, bare, times, most>>20)
	if times > historyTimes {
		t.Errorf("took %.2f times the verifications, over %.1f", times, historyTimes)
	}
	if most > historyMemory {
		t.Errorf("took %d MiB, over %d", most>>20, historyMemory>>20)
	}
}

// TestHistoryOfSeveralMachines: all about two are given; of more a line each, and how to
// have the rest.
func TestHistoryOfSeveralMachines(t *testing.T) {
	f := newBigYard(t, 3, 1)
	f.trustSigner(t)
	all := []string{"history", "records", "--trust", "trust.yaml"}
	const each, told = "How each task was kept", "3 machines. All about one: --serial TEXT; about all: --full"
	if said := f.run(t, all...).stdout; strings.Contains(said, each) || !strings.Contains(said, told) || strings.Count(said, "Corrin 4T-75, serial ") != 3 {
		t.Errorf("of three machines:\n%s", said)
	}
	if said := f.run(t, append(all, "--full")...).stdout; strings.Count(said, each) != 3 || strings.Contains(said, told) {
		t.Errorf("all about three machines:\n%s", said)
	}
	if err := os.RemoveAll(f.path("records/boat0002-port")); err != nil {
		t.Fatal(err)
	}
	if said := f.run(t, all...).stdout; strings.Count(said, each) != 2 {
		t.Errorf("of two machines:\n%s", said)
	}
}

// recordFiles are all records of the folder.
func (f folder) recordFiles(t testing.TB) []string {
	t.Helper()
	files, err := filepath.Glob(f.path("records/*/*.cose"))
	if err != nil || len(files) == 0 {
		t.Fatal(err, len(files))
	}
	return files
}

// openAll reads all files and works their signatures out, on two cores.
func openAll(t testing.TB, files []string) time.Duration {
	t.Helper()
	start := time.Now()
	var all sync.WaitGroup
	half := len(files) / 2
	for _, part := range [][]string{files[:half], files[half:]} {
		all.Go(func() {
			for _, file := range part {
				envelope, err := os.ReadFile(file)
				if err == nil {
					_, err = sign.Open(sign.RecordV1, envelope)
				}
				if err != nil {
					t.Error(err)
				}
			}
		})
	}
	all.Wait()
	return time.Since(start)
}

// historyRun judges the folder once, on two cores.
func historyRun(t testing.TB, program string, f folder) (took time.Duration, memory int64, out string) {
	t.Helper()
	cmd := exec.Command(program, "history", "records", "--trust", "trust.yaml")
	cmd.Dir, cmd.Env = f.dir, append(f.environment(), "GOMAXPROCS=2")
	start := time.Now()
	answer, err := cmd.Output()
	if code := cmd.ProcessState.ExitCode(); code != int(exitDecide) {
		t.Fatalf("exit %d: %v\n%.2000s", code, err, answer)
	}
	return time.Since(start), residentKiB(cmd) << 10, string(answer)
}

// trustSigner writes the trust list of a reader who knows the stack's one key.
func (f folder) trustSigner(t testing.TB) {
	t.Helper()
	envelope, err := os.ReadFile(f.recordFiles(t)[0])
	if err != nil {
		t.Fatal(err)
	}
	opened, err := sign.Open(sign.RecordV1, envelope)
	if err != nil {
		t.Fatal(err)
	}
	text, err := sign.TrustList{{Name: "Ellery Slip Boatyard", Key: opened.Signer}}.Format()
	if err != nil {
		t.Fatal(err)
	}
	f.write(t, "trust.yaml", text)
}

// BenchmarkHistory is the whole process over the stack.
func BenchmarkHistory(b *testing.B) {
	program := builtProgram(b)
	f := newBigYard(b, stackMachines, stackRecords)
	f.trustSigner(b)
	for b.Loop() {
		historyRun(b, program, f)
	}
	b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*stackMachines*stackRecords), "us/record")
}
