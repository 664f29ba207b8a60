package verifytest_test

import (
	"bytes"
	"crypto/sha256"
	"fmt"

	"hourseal/record"
	"hourseal/record/list"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// must takes what this package wrote itself, in a table made before any test runs.
func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

func day(text string) quantity.Date    { return must(quantity.ParseDate(text)) }
func daysOf(text string) int64         { return int64(day(text)) }
func hours(text string) quantity.Hours { return must(quantity.ParseHours(text)) }

// issuedAt is 2026-05-04 15:20:00 UTC, the issue time of all records of the kit.
const issuedAt = 1777908000

// service is a short record of the Gannet's port engine on 2026-05-04.
func service() *record.Record {
	done := record.Last{Date: day("2026-05-04"), Hours: hours("812.6")}
	every := schedule.Interval{Hours: 200 * quantity.Hour, Months: 12}
	return &record.Record{
		Format: 1, Renderer: 1, Paper: record.A4, PageHost: host, Kind: record.Service,
		Machine: record.Machine{ID: "gannet-port", Vessel: "Gannet", Kind: "propulsion diesel", Make: "Corrin", Model: "4T-75",
			Serial: "0045120", InService: schedule.Point{Date: day("2024-03-18")}},
		Job: record.Job{Date: done.Date, Hours: done.Hours, Reason: record.Scheduled,
			Meter: record.Meter{State: record.Running, Reading: new(hours("812.6"))}},
		Schedule: record.ScheduleRef{ID: "diesel-inboard", Edition: 2, Basis: schedule.Basis{Kind: schedule.CommonPractice}},
		Tasks: []record.Task{
			{ID: "engine-oil", Title: "Change the engine oil", Kind: schedule.Replace, Every: every, Last: &done, Result: record.Done,
				Due: schedule.Due{Hours: new(hours("1012.6")), Date: new(day("2027-05-04"))}},
		},
		Issuer: record.Issuer{Name: "Ellery Slip Boatyard", Kind: record.YardIssuer},
		Number: 1, IssuedAt: issuedAt,
	}
}

// with is the record with something changed.
func with(changes ...func(*record.Record)) *record.Record {
	r := service()
	for _, change := range changes {
		change(r)
	}
	return r
}

func starboard(r *record.Record) {
	r.Machine.ID, r.Machine.Serial = "gannet-starboard", "0045121"
}

func withoutHost(r *record.Record) { r.PageHost = "" }

func by(kind record.IssuerKind, name string) func(*record.Record) {
	return func(r *record.Record) { r.Issuer = record.Issuer{Name: name, Kind: kind} }
}

// about makes it a record about the service record.
func about(kind record.Kind, why string) func(*record.Record) {
	return func(r *record.Record) {
		r.Kind, r.Number = kind, 2
		first := sha256.Sum256(sealed(service(), yardSeed))
		r.Subject = &record.Subject{Record: first, Why: why}
		r.Previous = &record.Previous{Record: first, Date: r.Job.Date, Hours: r.Job.Hours}
	}
}

// manyTasks fill more than one code.
func manyTasks(r *record.Record) {
	for i := range 40 {
		t := r.Tasks[0]
		t.ID, t.Title = fmt.Sprint("item-", i+1), fmt.Sprintf("Look over item %d of sheet %x", i+1, sha256.Sum256([]byte{byte(i)}))[:40]
		t.Kind, t.Result = schedule.Inspect, record.OK
		r.Tasks = append(r.Tasks, t)
	}
}

func meterStopped(r *record.Record) {
	r.Job.Meter = record.Meter{State: record.Stopped, Basis: "the skipper's log"}
}

// meterChanged is a second meter, which reads 700 hours less than the machine has run.
func meterChanged(r *record.Record) {
	r.Job.Meter = record.Meter{State: record.Running, Reading: new(hours("112.6")), Offset: hours("700")}
}

func payloadOf(r *record.Record) []byte { return must(record.Encode(r)) }

func sealed(r *record.Record, seed byte) []byte { return seal(asRecord, payloadOf(r), seed) }

// records is a signed list of the records of the Gannet's port engine.
func records(ends ...list.End) *list.List {
	l := &list.List{
		Format: 1, Machine: list.Machine{Make: "Corrin", Model: "4T-75", Serial: "0045120", Vessel: "Gannet"},
		Issuer: record.Issuer{Name: "Ellery Slip Boatyard", Kind: record.YardIssuer},
		Ends:   ends, Until: day("2026-11-02"), For: "Marlin Cover, claim 4471", IssuedAt: 1_793_637_000, // 2026-11-02 16:30 UTC
	}
	for _, e := range ends {
		l.Count += e.Number
	}
	return l
}

func oneRecord() *list.List {
	return records(list.End{Number: 1, ID: sha256.Sum256(sealed(service(), yardSeed))})
}

func sealedList(l *list.List, seed byte) []byte { return seal(asList, must(list.Encode(l)), seed) }

// rewritten is a payload with bytes replaced that stand in it once, and its outer map
// counting so many pairs more.
func rewritten(payload []byte, from, to string, pairs int) []byte {
	if n := bytes.Count(payload, []byte(from)); n != 1 {
		panic(fmt.Sprintf("%q stands in the payload %d times", from, n))
	}
	out := bytes.Replace(payload, []byte(from), []byte(to), 1)
	out[0] += byte(pairs)
	return out
}

// firstPairs begin the payload of service after its map's head: format 1, renderer 1,
// A4, and the key of the page host.
const firstPairs = "\x01\x01\x02\x01\x03\x01\x04\x78\x1a" + host

// odd is the service record's payload in another form than the canonical one, signed
// by the yard all the same.
func odd(from, to string, pairs int) []byte {
	return seal(asRecord, rewritten(payloadOf(service()), from, to, pairs), yardSeed)
}
