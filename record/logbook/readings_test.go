package logbook_test

import (
	"cmp"
	"fmt"
	"slices"
	"testing"

	"hourseal/record"
	"hourseal/record/logbook"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// meter puts a job's meter at a reading, the hours in total being that and the
// offset.
func meter(t testing.TB, when, offset string) *record.Record {
	t.Helper()
	r := job(t, when)
	r.Job.Meter.Offset = hours(t, offset)
	r.Job.Hours += r.Job.Meter.Offset
	return r
}

// estimated is a job whose hours in total nobody read.
func estimated(t testing.TB, when string, state record.MeterState, offset string) *record.Record {
	t.Helper()
	r := job(t, when)
	r.Job.Meter = record.Meter{State: state, Basis: "the owner's log", Offset: hours(t, offset)}
	return r
}

// TestReadings: a gearbox has its engine's readings beside its own, in one order;
// its own first where both are the same.
func TestReadings(t *testing.T) {
	own := chain(job(t, "2025-06-20 500"), job(t, "2026-05-04 812.6"))
	engine := chain(job(t, "2026-05-04 812.6"), job(t, "2024-09-01 150"), job(t, "2025-06-20 499"))
	for i := range engine {
		engine[i].Record.Number += 10
	}
	log := logOf(t, own, engine)
	if got, want := numbers(log.Readings()), []uint32{12, 13, 1, 2, 11}; !slices.Equal(got, want) {
		t.Errorf("readings %v, want %v", got, want)
	}
	if got, want := numbers(log.Own), []uint32{1, 2}; !slices.Equal(got, want) {
		t.Errorf("own %v, want %v", got, want)
	}
	if got, want := numbers(logOf(t, own, nil).Readings()), []uint32{1, 2}; !slices.Equal(got, want) {
		t.Errorf("without an engine %v, want %v", got, want)
	}
	if e := logOf(t, nil, nil).ReadingBefore(day(t, "2030-01-01")); e != nil {
		t.Errorf("no reading at all: %v", e)
	}
}

// TestOffset: hours in total are the sum over the meters of (removed - fitted).
// Meter A ran from 0 to 1482.3, B was fitted at 12.0 and reads 87.5: 1557.8 h
// (worked out from that definition); C was fitted at 3 when B read 100.
func TestOffset(t *testing.T) {
	change := func(r *record.Record, removed, fitted string) *record.Record {
		r.Job.Meter.Change = &record.MeterChange{RemovedAt: new(hours(t, removed)), FittedAt: hours(t, fitted), Why: "stopped"}
		return r
	}
	own := chain(
		meter(t, "2024-09-01 900", "0"),
		change(meter(t, "2025-05-04 40", "1470.3"), "1482.3", "12"), // 1482.3 - 12
		meter(t, "2025-08-01 87.5", "1470.3"),
		change(meter(t, "2025-09-01 8", "1567.3"), "100", "3"), // and 100 - 3
		estimated(t, "2025-10-01 1580", record.Stopped, "1567.3"),
	)
	if total := own[2].Record.Job.Hours; total != hours(t, "1557.8") {
		t.Fatalf("%v in total", total)
	}
	if total := own[3].Record.Job.Hours; total != hours(t, "1575.3") { // 1482.3 + 88 + 5
		t.Fatalf("%v in total", total)
	}
	gearbox := chain(estimated(t, "2025-05-04 1510.3", record.NoMeter, "1470.3"))
	for name, log := range map[string]logbook.Log{"engine": logOf(t, own, nil), "gearbox without a record": logOf(t, nil, own), "gearbox": logOf(t, gearbox, own)} {
		for date, want := range map[string]string{
			"2024-03-18": "0", "2024-08-31": "0", "2025-05-03": "0", "2025-05-04": "1470.3", "2025-08-31": "1470.3", "2025-09-01": "1567.3", "2026-09-01": "1567.3",
		} {
			if got := log.Offset(day(t, date)); got != hours(t, want) {
				t.Errorf("%s on %s: offset %v, want %s", name, date, got, want)
			}
		}
	}
	// A correction that takes the change of meter back takes its offset back.
	wrong := append(slices.Clone(own[:2]), record.Earlier{ID: record.ID{9}, Record: speaking(meter(t, "2025-05-04 1510.3", "0"), record.Correction, 2)})
	if got := logOf(t, wrong, nil).Offset(day(t, "2026-01-01")); got != 0 {
		t.Errorf("corrected: offset %v", got)
	}
}

func sorted(points []schedule.Point) []schedule.Point {
	return slices.SortedFunc(slices.Values(points), func(a, b schedule.Point) int {
		return cmp.Or(cmp.Compare(a.Date, b.Date), cmp.Compare(a.Hours, b.Hours))
	})
}

// TestKnown: the use comes from what a meter read, from what was stated and from
// entry into service, and never from an estimate.
func TestKnown(t *testing.T) {
	stated := []logbook.Stated{{Task: "engine-oil", Source: "invoice", Point: at(t, "2025-06-20 501")}}
	own := chain(job(t, "2026-05-04 812.6"), estimated(t, "2026-06-01 850", record.Stopped, "0"), estimated(t, "2026-07-01 880", record.NoMeter, "0"))
	engine := chain(job(t, "2026-08-01 900"), estimated(t, "2026-09-01 930", record.Stopped, "0"), meter(t, "2026-10-01 40", "910"))
	log := logbook.New(at(t, "2024-03-18 0"), stated, nil, own, engine)
	all := []schedule.Point{at(t, "2024-03-18 0"), at(t, "2025-06-20 501"), at(t, "2026-05-04 812.6"), at(t, "2026-08-01 900"), at(t, "2026-10-01 950")}
	for date, n := range map[string]int{"2024-03-18": 1, "2025-06-19": 1, "2025-06-20": 2, "2026-07-31": 3, "2026-08-01": 4, "2026-09-30": 4, "2026-10-01": 5, "2030-01-01": 5} {
		if got := sorted(log.Known(day(t, date))); !slices.Equal(got, all[:n]) {
			t.Errorf("known on %s: %v, want %v", date, got, all[:n])
		}
	}
}

// TestLatest: the last that is known, estimates too, and the last that was read.
func TestLatest(t *testing.T) {
	stated := []logbook.Stated{
		{Task: "engine-oil", Source: "invoice", Point: at(t, "2025-06-20 501")},
		{Task: "oil-filter", Source: "invoice", Point: at(t, "2025-06-20 503")},
		{Task: "belt", Source: "owner", Point: at(t, "2024-12-01 300")},
	}
	own := chain(job(t, "2026-05-04 812.6"), estimated(t, "2026-06-01 850", record.Stopped, "0"))
	engine := chain(job(t, "2026-08-01 900"), job(t, "2026-05-04 812"), estimated(t, "2026-09-01 880", record.NoMeter, "0"))
	log := logbook.New(at(t, "2024-03-18 20"), stated, nil, own, engine)
	for _, c := range []struct {
		on, latest string
		estimated  bool
		read       string // the last that somebody read
	}{
		{"2024-03-18", "2024-03-18 20", false, "2024-03-18 20"},
		{"2024-11-30", "2024-03-18 20", false, "2024-03-18 20"},
		{"2024-12-01", "2024-12-01 300", false, "2024-12-01 300"},
		{"2025-06-20", "2025-06-20 503", false, "2025-06-20 503"},
		{"2026-05-03", "2025-06-20 503", false, "2025-06-20 503"},
		{"2026-05-04", "2026-05-04 812.6", false, "2026-05-04 812.6"},
		{"2026-06-01", "2026-06-01 850", true, "2026-05-04 812.6"},
		{"2026-07-31", "2026-06-01 850", true, "2026-05-04 812.6"},
		{"2026-08-01", "2026-08-01 900", false, "2026-08-01 900"},
		{"2026-09-01", "2026-09-01 880", true, "2026-08-01 900"}, // fewer hours than were read
	} {
		got, basis := log.Latest(day(t, c.on))
		estimated := basis != ""
		if got != at(t, c.latest) || estimated != c.estimated || log.LatestRead(day(t, c.on)) != at(t, c.read) {
			t.Errorf("on %s: latest %v %v, estimated %v; read %v; want %s, %v; %s", c.on, got.Date, got.Hours, estimated, log.LatestRead(day(t, c.on)).Hours, c.latest, c.estimated, c.read)
		}
	}
	// Stated on the day of a record, with more hours.
	late := append(slices.Clone(stated), logbook.Stated{Task: "belt", Source: "owner", Point: at(t, "2026-05-04 813")})
	if got, _ := logbook.New(at(t, "2024-03-18 20"), late, nil, own, nil).Latest(day(t, "2026-05-10")); got != at(t, "2026-05-04 813") {
		t.Errorf("stated on the day: %v", got)
	}
}

// TestReadingsNotShared: putting the readings together leaves the log's own
// lists as they are.
func TestReadingsNotShared(t *testing.T) {
	log := logOf(t, chain(job(t, "2026-05-04 812.6")), chain(job(t, "2024-09-01 150")))
	before := fmt.Sprint(numbers(log.Own), numbers(log.Engine), logbook.PointOf(log.Own[0].Record))
	log.Readings()[0] = record.Earlier{Record: &record.Record{}}
	if after := fmt.Sprint(numbers(log.Own), numbers(log.Engine), logbook.PointOf(log.Own[0].Record)); after != before {
		t.Errorf("%s became %s", before, after)
	}
	if got := log.ReadingBefore(quantity.MaxDate); got == nil || got.Record.Job.Hours != hours(t, "812.6") {
		t.Errorf("last reading %v", got)
	}
}
