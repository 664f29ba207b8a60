package main

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"hourseal/record/ledger"
	"hourseal/record/quantity"
	"hourseal/record/recordtest/outside"
)

var engines = []string{"gannet-port", "gannet-starboard"}

// visit writes the sheets of a short visit to both engines, n days after the
// last service, and sets the clock to that evening.
func visit(t testing.TB, f *folder, n int) (sheets []string) {
	t.Helper()
	date, err := quantity.ParseDate("2026-05-04")
	if err != nil {
		t.Fatal(err)
	}
	date += quantity.Date(n)
	for i, engine := range engines {
		name := fmt.Sprintf("jobs/visit-%d-%s.yaml", n, engine)
		f.write(t, name, fmt.Appendf(nil, "machine: %s\ndate: %s\nhours: %d\nreason: inspection\njob_number: V-%d-%d\ntasks:\n  - { id: belt-look, result: ok }\n",
			engine, date, 815+n-3*i, n, i))
		sheets = append(sheets, name)
	}
	f.now = date.String() + "T17:30:00Z"
	return sheets
}

// chains loads both chains, which proves them, and holds each job number to one
// record.
func chains(t testing.TB, f folder) (lengths [2]int) {
	t.Helper()
	for i, engine := range engines {
		chain, err := ledger.Open(f.path("records")).Chain(engine)
		if err != nil {
			t.Fatalf("the ledger does not load: %v", err)
		}
		seen := map[string]bool{}
		for _, stored := range chain {
			if seen[stored.Record.Job.Number] {
				t.Fatalf("job %s of %s has two records", stored.Record.Job.Number, engine)
			}
			seen[stored.Record.Job.Number] = true
		}
		lengths[i] = len(chain)
	}
	return lengths
}

// TestKilledRuns kills 200 runs, in the short run 40, that issue two jobs each, at moments spread over
// a run's duration and a little more. After each the ledger loads, and nothing
// that was there has gone; in the end every job has its record and its report.
func TestKilledRuns(t *testing.T) {
	runs := 20
	if longRun() {
		runs = 100
	}
	for seed := range uint64(2) { // two yards, for the sake of time
		t.Run(fmt.Sprint("yard ", seed+1), func(t *testing.T) {
			t.Parallel()
			killRuns(t, runs, rand.New(rand.NewPCG(1, seed)))
		})
	}
}

func killRuns(t *testing.T, runs int, random *rand.Rand) {
	f := newYard(t)
	f.must(t, 0, "issue", portJob, starboardJob)
	now := 1
	sheets := visit(t, &f, now)
	began := time.Now()
	f.must(t, 0, append([]string{"issue"}, sheets...)...)
	whole := time.Since(began)

	killed, halfway := 0, 0
	before := chains(t, f)
	now++
	sheets = visit(t, &f, now)
	for range runs {
		cmd := f.command(append([]string{"issue"}, sheets...)...)
		var said bytes.Buffer
		cmd.Stdout, cmd.Stderr = &said, &said
		began := time.Now()
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		timer := time.AfterFunc(time.Duration(random.Int64N(int64(whole*5/4))), func() { cmd.Process.Kill() })
		err := cmd.Wait()
		timer.Stop()
		switch code := cmd.ProcessState.ExitCode(); {
		case code == -1:
			killed++
		case err != nil:
			t.Fatalf("a run that was not killed ended with %d\n%s", code, &said)
		}
		after := chains(t, f)
		for i := range after {
			if after[i] < before[i] || after[i] > now+1 {
				t.Fatalf("%s has %d records; it had %d, and %d jobs", engines[i], after[i], before[i], now+1)
			}
		}
		if after[0] != after[1] {
			halfway++
		}
		before = after
		if err == nil {
			whole = min(whole, time.Since(began)) // the first may have found the machine busy
			if after != [2]int{now + 1, now + 1} {
				t.Fatalf("a run ended well and left %v records of %d jobs", after, now+1)
			}
			now++
			sheets = visit(t, &f, now)
		}
	}
	f.must(t, 0, append([]string{"issue"}, sheets...)...)
	if after := chains(t, f); after != [2]int{now + 1, now + 1} {
		t.Errorf("%v records of %d jobs", after, now+1)
	}
	if killed < runs/4 {
		t.Errorf("only %d of %d runs were killed: the moments are badly chosen", killed, runs)
	}
	orphans, _ := filepath.Glob(f.path("reports/.new-*"))
	t.Logf("of %d runs of about %v, %d were killed; %d times one record of two was there; %d torn reports were left aside", runs, whole, killed, halfway, len(orphans))

	left, err := filepath.Glob(f.path("records/*/.new-*"))
	if err != nil || len(left) > 0 {
		t.Errorf("temporary files are left: %q, %v", left, err)
	}
	// A run killed after its records were stored and before its reports were
	// printed gives the reports when it is run again.
	reports, err := filepath.Glob(f.path("reports/*.pdf"))
	if err != nil || len(reports) != 2*(now+1) {
		t.Errorf("%d reports of %d records, %v", len(reports), 2*(now+1), err)
	}
	f.must(t, 0, "verify", "records", "reports", "--trust", "trust.yaml")
}

// A crash between the two records of a visit: run again, the first is kept as it
// is and the second is made.
func TestCrashBetweenTwoRecordsIsCompleted(t *testing.T) {
	f := newYard(t)
	f.must(t, 0, "issue", portJob, starboardJob)
	port := f.read(t, "records/gannet-port/0001.cose")
	for _, gone := range []string{"records/gannet-starboard/0001.cose", "reports/gannet-starboard-0001.pdf", "reports/gannet-port-0001.pdf"} {
		if err := os.Remove(f.path(gone)); err != nil {
			t.Fatal(err)
		}
	}
	f.write(t, "records/gannet-starboard/.new-0001.cose", port[:500]) // torn
	f.now = "2026-05-05T08:00:00Z"
	f.must(t, 0, "issue", portJob, starboardJob)
	if !bytes.Equal(f.read(t, "records/gannet-port/0001.cose"), port) {
		t.Error("the record that was stored before is another one now")
	}
	if got := chains(t, f); got != [2]int{1, 1} {
		t.Errorf("%v records", got)
	}
	if _, err := os.Stat(f.path("records/gannet-starboard/.new-0001.cose")); err == nil {
		t.Error("the torn file is still there")
	}
	f.must(t, 0, "verify", "reports", "--trust", "trust.yaml")
}

// Runs at the same time: different jobs get numbers of their own, the same job
// gets one record, and all end well.
func TestRunsAtTheSameTime(t *testing.T) {
	f := newYard(t)
	f.must(t, 0, "issue", portJob, starboardJob)
	const rounds, alike, runs = 6, 2, 6 // of the runs, so many issue the same job
	for round := range rounds {
		f.now = fmt.Sprintf("2026-06-%02dT17:30:00Z", round+1)
		job := func(i int) string { return fmt.Sprintf("jobs/round-%d-%d.yaml", round, i) }
		for i := range runs {
			f.write(t, job(i), fmt.Appendf(nil, "machine: gannet-port\ndate: 2026-06-%02d\nhours: %d\nreason: inspection\njob_number: R-%d-%d\ntasks:\n  - { id: belt-look, result: ok }\n",
				round+1, 820+round, round, i))
		}
		answers := make([]ran, runs)
		var all sync.WaitGroup
		for i := range runs {
			all.Go(func() { answers[i] = ended(t, f.command("issue", "--json", job(max(0, i-alike+1)))) })
		}
		all.Wait()
		numbers := map[uint32]string{}
		for i, r := range answers {
			if r.code != 0 {
				t.Fatalf("run %d of round %d\n%s", i, round, r)
			}
			var answer issuedAnswer
			mustDecode(t, r.stdout, &answer)
			if known, twice := numbers[answer.Number]; twice && known != answer.Record {
				t.Fatalf("number %d was given to two records", answer.Number)
			}
			numbers[answer.Number] = answer.Record
		}
		want := runs - alike + 1
		if len(numbers) != want {
			t.Errorf("round %d: %d records of %d jobs", round, len(numbers), want)
		}
		if got := chains(t, f)[0]; got != 1+(round+1)*want {
			t.Errorf("after round %d: %d records, want %d", round, got, 1+(round+1)*want)
		}
	}
}

// Two runs that name the same machines in opposite order never wait for each
// other for ever.
func TestOppositeOrders(t *testing.T) {
	f := newYard(t)
	f.must(t, 0, "issue", portJob, starboardJob)
	for n := 1; n <= 6; n++ {
		sheets := visit(t, &f, n)
		var all sync.WaitGroup
		for i := range 4 {
			names := []string{"issue", sheets[i%2], sheets[1-i%2]}
			all.Go(func() {
				cmd := f.command(names...)
				timer := time.AfterFunc(20*time.Second, func() { cmd.Process.Kill() })
				defer timer.Stop()
				if r := ended(t, cmd); r.code != 0 {
					t.Errorf("%q\n%s", names, r)
				}
			})
		}
		all.Wait()
		if got := chains(t, f); got != [2]int{n + 1, n + 1} {
			t.Fatalf("after visit %d: %v records", n, got)
		}
	}
}

// A full disk as a limit on the size of a file: before the record is stored
// nothing is changed; after it only the report is wanting, and it says so.
func TestNoRoom(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("there is no such limit")
	}
	f := newYard(t)
	f.must(t, 0, "issue", portJob, starboardJob)
	stored := f.read(t, "records/gannet-port/0001.cose")
	sheets := visit(t, &f, 1)
	limited := func(blocks int) ran { // of 512 bytes: POSIX, ulimit
		script := fmt.Sprintf("ulimit -f %d; exec hourseal issue %s", blocks, strings.Join(sheets, " "))
		cmd := f.command()
		cmd.Path, cmd.Args = outside.Program(t, "sh"), []string{"sh", "-c", script}
		return ended(t, cmd)
	}
	r := limited(0)
	if r.code != int(exitFailed) || !strings.Contains(r.stderr, "nothing was stored") || !strings.Contains(r.stderr, "too large") || r.stdout != "" {
		t.Errorf("no room for a record\n%s", r)
	}
	if got := chains(t, f); got != [2]int{1, 1} {
		t.Errorf("%v records", got)
	}
	if left, _ := filepath.Glob(f.path("records/*/.new-*")); len(left) > 0 {
		t.Errorf("left: %q", left)
	}
	r = limited(8)
	if r.code != int(exitFailed) || !strings.Contains(r.stderr, "the records are stored, their reports are not all printed") || !strings.Contains(r.stderr, "hourseal report ") {
		t.Errorf("no room for a report\n%s", r)
	}
	if got := chains(t, f); got != [2]int{2, 2} {
		t.Errorf("%v records", got)
	}
	if left, _ := filepath.Glob(f.path("reports/.new-*")); len(left) > 0 {
		t.Errorf("left: %q", left)
	}
	f.must(t, 0, append([]string{"issue"}, sheets...)...)
	if !bytes.Equal(stored, f.read(t, "records/gannet-port/0001.cose")) {
		t.Error("an earlier record was changed")
	}
	f.must(t, 0, "verify", "reports", "records", "--trust", "trust.yaml")
}

// A full disk for real, a small one of its own in memory: clear words, an
// unchanged ledger, and the work done once there is room.
func TestFullDisk(t *testing.T) {
	unshare := outside.Program(t, "unshare")
	f := newYard(t)
	f.must(t, 0, "issue", portJob, starboardJob)
	sheets := visit(t, &f, 1)
	const script = `
mkdir disk && mount -t tmpfs -o size=600k tmpfs disk || { echo NO-MOUNT; exit 0; }
cp -r yard.yaml keys machines schedules jobs records trust.yaml disk && cd disk || exit 99
cat /dev/zero > filling 2>/dev/null
sha256sum records/*/*.cose > before
sha256sum records/*/*.cose > ../before
hourseal issue "$@"; echo "full: $?"
sha256sum records/*/*.cose > ../after
find . -name '.new-*'
hourseal verify records --trust trust.yaml; echo "ledger: $?"
rm filling
hourseal issue "$@"; echo "room: $?"
hourseal verify records reports --trust trust.yaml --json > ../verified; echo "verified: $?"
ls records/*/*.cose
`
	cmd := f.command()
	cmd.Path = unshare
	cmd.Args = append([]string{"unshare", "--mount", "--map-root-user", "sh", "-c", script, "sh"}, sheets...)
	r := ended(t, cmd)
	if strings.Contains(r.stdout, "NO-MOUNT") || strings.Contains(r.stderr, "unshare: ") {
		t.Skipf("no disk can be mounted here, see TestNoRoom\n%s", r)
	}
	for _, want := range []string{"full: 1\n", "ledger: 0\n", "room: 0\n", "verified: 0\n", "gannet-port/0002.cose", "gannet-starboard/0002.cose"} {
		if !strings.Contains(r.stdout, want) {
			t.Errorf("not there: %q", want)
		}
	}
	if !strings.Contains(r.stderr, "no space left on device") || !strings.Contains(r.stderr, "nothing was stored") {
		t.Error("it does not say why")
	}
	if strings.Contains(r.stdout, ".new-") {
		t.Error("temporary files are left")
	}
	if before := f.read(t, "before"); len(before) == 0 || !bytes.Equal(before, f.read(t, "after")) {
		t.Error("the ledger was changed")
	}
	if t.Failed() {
		t.Log(r)
	}
}
