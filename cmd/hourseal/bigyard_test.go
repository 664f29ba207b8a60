//go:build linux

package main

import (
	"crypto/rand"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/recordtest"
	"hourseal/sign"
)

// The size of a big yard: every tenth machine is a gearbox on the engine before
// it.
const (
	bigYardMachines = 2000
	bigYardRecords  = 20
)

// newBigYard is a yard folder with so many machines, each with a chain of
// records over five years.
func newBigYard(t testing.TB, machines, records int) folder {
	t.Helper()
	f := newFolder(t)
	if err := copyFiles(scenarioFolder, f.dir); err != nil {
		t.Fatal(err)
	}
	engine := string(f.read(t, "machines/gannet-port.yaml"))
	gearbox := string(f.read(t, "machines/gannet-port-gearbox.yaml"))
	for _, name := range []string{"gannet-port", "gannet-starboard", "gannet-port-gearbox"} {
		if err := os.Remove(f.path("machines/" + name + ".yaml")); err != nil {
			t.Fatal(err)
		}
	}
	signer, err := sign.NewKey(rand.Reader)
	if err != nil {
		t.Fatal(err)
	}
	for i := range machines {
		id := fmt.Sprintf("boat%04d-port", i)
		text := strings.ReplaceAll(engine, "gannet-port", id)
		if i%10 == 9 {
			text = strings.ReplaceAll(strings.ReplaceAll(gearbox, "gannet-port-gearbox", id), "driven_by: gannet-port", fmt.Sprintf("driven_by: boat%04d-port", i-1))
		}
		text = strings.Replace(text, "2024-03-18", "2021-03-18", 1)
		f.write(t, "machines/"+id+".yaml", []byte(text))
		storeChain(t, f, signer, id, i, records)
	}
	return f
}

// storeChain writes the records of one machine as the ledger keeps them. They
// are sealed here since the ledger itself waits for the disk after each.
func storeChain(t testing.TB, f folder, signer sign.Signer, id string, machine, records int) {
	t.Helper()
	if err := os.MkdirAll(f.path("records/"+id), 0o755); err != nil {
		t.Fatal(err)
	}
	start := quantity.FromYMD(2021, time.April, 1)
	var previous *record.Previous
	for n := 1; n <= records; n++ {
		r := recordtest.Example()
		r.Machine.ID, r.Machine.Serial, r.Number, r.Previous = id, fmt.Sprintf("%07d", machine), uint32(n), previous
		r.Job.Date = start.AddDays(quantity.Days(n*85 + machine%40))
		r.Job.Hours = quantity.Hours(n*7500 + machine%1000)
		r.Job.Meter = record.Meter{State: record.Running, Reading: new(r.Job.Hours)}
		r.IssuedAt = int64(r.Job.Date)*86_400 + 60_000
		payload, err := record.Encode(r)
		if err != nil {
			t.Fatal(err)
		}
		envelope, err := sign.Seal(sign.RecordV1, payload, signer)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(f.path(fmt.Sprintf("records/%s/%04d.cose", id, n)), envelope, 0o644); err != nil {
			t.Fatal(err)
		}
		previous = &record.Previous{Record: record.ID(sign.IDOf(envelope)), Date: r.Job.Date, Hours: r.Job.Hours}
	}
}

// The bars for "hourseal due" over a big yard, on two cores.
const (
	dueTime   = 2 * time.Second
	dueMemory = 200 << 20
)

// TestDueOverABigYard holds the whole process to its bars: the best of several
// runs, since a busy machine only ever makes it slower.
func TestDueOverABigYard(t *testing.T) {
	if !longRun() {
		t.Skip("half a minute: only with HOURSEAL_LONG=1")
	}
	program := builtProgram(t)
	f := newBigYard(t, bigYardMachines, bigYardRecords)
	best, busy, most := time.Hour, time.Hour, int64(0)
	for runs := 0; runs < 5 || best > dueTime && runs < 20; runs++ {
		took, cpu, memory, out := dueRun(t, program, f)
		if lines := strings.Count(out, "\n"); lines != bigYardMachines {
			t.Fatalf("%d lines for %d machines", lines, bigYardMachines)
		}
		best, busy, most = min(best, took), min(busy, cpu), max(most, memory)
	}
	t.Logf("%d machines with %d records each: %v, %v of processor time, %d MiB", bigYardMachines, bigYardRecords, best, busy, most>>20)
	if best > dueTime {
		t.Errorf("took %v, over %v", best, dueTime)
	}
	if most > dueMemory {
		t.Errorf("took %d MiB, over %d", most>>20, dueMemory>>20)
	}
}

// dueRun runs the program once, on two cores.
func dueRun(t testing.TB, program string, f folder) (took, cpu time.Duration, memory int64, out string) {
	t.Helper()
	cmd := exec.Command(program, "due", "--json", "--on", "2026-05-04")
	cmd.Dir, cmd.Env = f.dir, append(f.environment(), "GOMAXPROCS=2")
	start := time.Now()
	answer, err := cmd.Output()
	if code := cmd.ProcessState.ExitCode(); code != int(exitDecide) {
		t.Fatalf("exit %d: %v\n%.2000s", code, err, answer)
	}
	took = time.Since(start)
	return took, cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime(), residentKiB(cmd) << 10, string(answer)
}

// BenchmarkDueYard is the whole process over a big yard.
func BenchmarkDueYard(b *testing.B) {
	program := builtProgram(b)
	f := newBigYard(b, bigYardMachines, bigYardRecords)
	for b.Loop() {
		dueRun(b, program, f)
	}
	b.ReportMetric(bigYardMachines*bigYardRecords, "records/op")
}
