package statement_test

import (
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/list"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
	"hourseal/record/treehead"
	"hourseal/render/statement"
	"hourseal/sign"
	"hourseal/verify"
	"hourseal/verify/history"
)

func day(text string) quantity.Date {
	d, err := quantity.ParseDate(text)
	if err != nil {
		panic(err)
	}
	return d
}

func at(date string, hours int64) schedule.Point {
	return schedule.Point{Date: day(date), Hours: quantity.Hours(hours) * quantity.Hour}
}

func key(name string) sign.PublicKey { return sign.PublicKey(sha256.Sum256([]byte(name))) }

// asked is a task as the yard's schedule has it.
type asked struct {
	id, title  string
	kind       schedule.Kind
	hours      int64
	months     quantity.Months
	graceHours int64
	graceDays  quantity.Days
}

// schedule200 is a short schedule of common practice. Its figures are invented.
var schedule200 = []asked{
	{"engine-oil", "Change the engine oil", schedule.Replace, 200, 12, 20, 30},
	{"oil-filter", "Fit a new oil filter", schedule.Replace, 200, 12, 20, 30},
	{"belt-look", "Look over the drive belt", schedule.Inspect, 100, 12, 10, 30},
	{"impeller", "Fit a new raw-water impeller", schedule.Replace, 600, 24, 60, 60},
	{"fuel-filter-primary", "Fit a new element in the primary fuel filter, drain its water", schedule.Replace, 400, 12, 40, 30},
	{"coolant", "Change the coolant", schedule.Replace, 0, 36, 0, 60},
	{"anodes", "Fit new anodes in the engine's raw-water side", schedule.Replace, 0, 12, 0, 30},
	{"valve-clearances", "Check the valve clearances and set them", schedule.Adjust, 800, 0, 80, 0},
	{"alarms", "Try the oil-pressure and temperature alarms", schedule.Test, 0, 12, 0, 30},
}

var all = []string{"engine-oil", "oil-filter", "belt-look", "impeller", "fuel-filter-primary", "coolant", "anodes", "valve-clearances", "alarms"}

// book keeps the records of one machine as a yard would write them.
type book struct {
	signer string
	tasks  []asked
	last   map[string]record.Last
	items  []history.Item
	change func(*record.Record) // of the next record
}

func newBook(signer string) *book {
	return &book{signer: signer, tasks: schedule200, last: map[string]record.Last{}}
}

// visit writes the next record: what was done, and what was put off.
func (b *book) visit(p schedule.Point, done []string, put ...string) record.ID {
	r := &record.Record{
		Format: record.Format, Renderer: 1, Paper: record.A4, Kind: record.Service,
		Machine: record.Machine{ID: "gannet-port", Vessel: "Gannet", Hull: "GB-ELS00042A323", Kind: "propulsion diesel", Position: "port",
			Make: "Corrin", Model: "4T-75", Serial: "0045120", InService: at("2021-03-01", 0)},
		Job: record.Job{Date: p.Date, Hours: p.Hours, Reason: record.Scheduled, Meter: record.Meter{State: record.Running, Reading: new(p.Hours)}},
		By:  record.By{Number: "118", Name: "Ines Tolland"},
		Schedule: record.ScheduleRef{ID: "diesel-inboard-ellery", Edition: 2,
			Basis: schedule.Basis{Kind: schedule.CommonPractice, Document: "the yard's own sheet", Edition: "2"}},
		Issuer: record.Issuer{Name: "Ellery Slip Boatyard", Kind: record.YardIssuer},
		Number: uint32(len(b.items) + 1), IssuedAt: int64(p.Date)*86400 + 16*3600,
	}
	if n := len(b.items); n > 0 {
		before := b.items[n-1].Result
		r.Previous = &record.Previous{Record: *before.Record, Date: before.Signed.Job.Date, Hours: before.Signed.Job.Hours}
		r.Number = before.Signed.Number + 1
	}
	for _, t := range b.tasks {
		row := record.Task{ID: t.id, Title: t.title, Kind: t.kind,
			Every:  schedule.Interval{Hours: quantity.Hours(t.hours) * quantity.Hour, Months: t.months},
			Leeway: schedule.Leeway{Hours: quantity.Hours(t.graceHours) * quantity.Hour, Days: t.graceDays}}
		from := r.Machine.InService
		if slices.Contains(done, t.id) {
			b.last[t.id] = record.Last{Date: p.Date, Hours: p.Hours}
			row.Result = record.Done
		}
		if slices.Contains(put, t.id) {
			row.Result = record.Deferred
			row.Answer = &record.Answer{Why: "part on order", Advice: 2, Owner: 1}
		}
		if last, known := b.last[t.id]; known {
			row.Last, from = new(last), schedule.Point{Date: last.Date, Hours: last.Hours}
		}
		if t.hours != 0 {
			row.Due.Hours = new(from.Hours + row.Every.Hours)
		}
		if t.months != 0 {
			row.Due.Date = new(from.Date.AddMonths(t.months))
		}
		r.Tasks = append(r.Tasks, row)
	}
	if b.change != nil {
		b.change(r)
		b.change = nil
	}
	return b.seal(r)
}

// seal gives a record an id that follows from its content, and a result as package
// verify gives it. No signature is made: none is looked at here.
func (b *book) seal(r *record.Record) record.ID {
	bytes, err := json.Marshal(r)
	if err != nil {
		panic(err)
	}
	id := record.ID(sha256.Sum256(bytes))
	signer := verify.Signer{Key: key(b.signer)}
	if b.signer != "" {
		trusted := sign.Trusted{Name: b.signer, Key: key(b.signer)}
		signer = verify.Signer{Key: key(b.signer), Known: true, Validity: sign.Valid,
			Standing: sign.Standing{Root: key(b.signer), Trusted: trusted}}
	}
	b.items = append(b.items, history.Item{Name: fmt.Sprintf("report-%03d.pdf", r.Number), Result: verify.Result{Verdict: verify.Genuine, Record: &id, Signed: r, Signer: signer}})
	return id
}

const ellery = "Ellery Slip Boatyard (rung 2026-04-01)"

// known is whom the reader of the scenarios has named.
var known = sign.TrustList{{Name: ellery, Key: key(ellery)}, {Name: other, Key: key(other)}}

const other = "Port Ellery Marine Works"

// clean is five years in which everything was done in time.
func clean() history.Input {
	b := newBook(ellery)
	b.visit(at("2021-04-12", 22), all)
	b.visit(at("2021-10-04", 118), []string{"belt-look"})
	b.visit(at("2022-03-21", 210), []string{"engine-oil", "oil-filter", "belt-look", "fuel-filter-primary", "anodes", "alarms"})
	b.visit(at("2022-09-19", 305), []string{"belt-look"})
	b.visit(at("2023-03-13", 398), []string{"engine-oil", "oil-filter", "belt-look", "impeller", "fuel-filter-primary", "anodes", "alarms"})
	b.visit(at("2023-09-25", 492), []string{"belt-look"})
	b.visit(at("2024-03-11", 585), []string{"engine-oil", "oil-filter", "belt-look", "fuel-filter-primary", "anodes", "alarms", "coolant"})
	b.visit(at("2024-10-07", 683), []string{"belt-look"})
	b.visit(at("2025-03-10", 770), []string{"engine-oil", "oil-filter", "belt-look", "impeller", "fuel-filter-primary", "anodes", "alarms", "valve-clearances"})
	b.visit(at("2025-09-22", 866), []string{"belt-look"})
	b.visit(at("2026-03-09", 955), []string{"engine-oil", "oil-filter", "belt-look", "fuel-filter-primary", "anodes", "alarms"})
	return history.Input{Items: b.items, Trust: known}
}

// late has the third record missing, oil run overdue, an impeller put off without an
// end, a change of meter whose removed reading is not known, and a corrected record.
func late() history.Input {
	b := newBook(ellery)
	b.visit(at("2021-04-12", 22), all)
	b.visit(at("2022-03-21", 212), []string{"engine-oil", "oil-filter", "belt-look", "fuel-filter-primary", "anodes", "alarms"})
	b.visit(at("2022-11-14", 330), []string{"belt-look"})
	b.visit(at("2023-06-19", 469), []string{"engine-oil", "oil-filter", "belt-look", "anodes"}, "impeller")
	b.visit(at("2024-05-06", 640), []string{"engine-oil", "oil-filter", "belt-look", "fuel-filter-primary", "anodes"}, "impeller")
	wrong := b.visit(at("2025-02-24", 815), []string{"engine-oil", "oil-filter"})
	b.change = func(r *record.Record) {
		r.Kind, r.Subject = record.Correction, &record.Subject{Record: wrong, Why: "the filter was not changed"}
		r.Job.Meter.Change = &record.MeterChange{Why: "stopped counting"}
		r.Job.Meter.Offset = 800 * quantity.Hour
	}
	b.visit(at("2025-02-24", 816), []string{"engine-oil"})
	b.change = func(r *record.Record) { r.Job.Meter.Offset = 800 * quantity.Hour }
	b.visit(at("2026-01-19", 902), []string{"belt-look", "anodes"}, "impeller")
	items := slices.Delete(b.items, 2, 3)
	stranger := newBook("")
	stranger.last = b.last
	stranger.visit(at("2023-01-10", 420), []string{"alarms"})
	items = append(items, stranger.items...)
	bad := history.Item{Name: "gannet-2020.pdf", Result: verify.Result{Verdict: verify.Altered}}
	on := day("2024-12-01")
	return history.Input{Items: append(items, bad), Trust: known, On: &on, Received: map[record.ID]quantity.Date{*items[1].Result.Record: day("2022-04-02")}}
}

// many is five hundred records, of a workboat that comes every ten days.
func many() history.Input {
	b := newBook(ellery)
	date, hours := day("2012-01-09"), int64(0)
	for n := range 500 {
		var done []string
		if n%10 == 0 {
			done = all
		} else if n%3 == 0 {
			done = []string{"belt-look"}
		}
		if n > 300 && n < 345 {
			done = nil // a year and more in which the oil waits
		}
		b.visit(schedule.Point{Date: date, Hours: quantity.Hours(hours) * quantity.Hour}, done)
		date, hours = date.AddDays(quantity.Days(9+n%4)), hours+int64(15+n*7%11)
	}
	return history.Input{Items: b.items, Trust: known}
}

func one() history.Input {
	b := newBook(ellery)
	b.visit(at("2021-04-12", 22), all)
	return history.Input{Items: b.items, Trust: known}
}

// stranger is two records that nobody known signed, so that none counts.
func stranger() history.Input {
	b := newBook("")
	b.visit(at("2021-04-12", 22), all)
	b.visit(at("2022-03-21", 212), []string{"engine-oil"})
	return history.Input{Items: b.items, Trust: known}
}

// parallel is two known yards that did not know of each other, the first with a signed
// list and a ledger line.
func parallel() history.Input {
	first, second := newBook(ellery), newBook(other)
	first.visit(at("2021-04-12", 22), all)
	first.visit(at("2022-03-21", 210), []string{"engine-oil", "oil-filter", "belt-look"})
	last := first.visit(at("2023-03-13", 398), []string{"engine-oil", "oil-filter", "belt-look"})
	second.visit(at("2022-06-02", 260), []string{"belt-look"})
	second.visit(at("2023-09-14", 455), []string{"impeller", "coolant"})
	signed := verify.Result{Verdict: verify.Genuine, Record: new(record.ID(sha256.Sum256([]byte("list")))), Signer: verify.Signer{Key: key(ellery)}, List: &list.List{
		Format: 1, Machine: list.Machine{Make: "Corrin", Model: "4T-75", Serial: "0045120"},
		Issuer: record.Issuer{Name: "Ellery Slip Boatyard", Kind: record.YardIssuer}, Count: 3,
		Ends: []list.End{{Number: 3, ID: last}}, Until: day("2026-10-01"), For: "Marlin Cover, claim 4471", IssuedAt: int64(day("2026-10-01")) * 86400}}
	in := history.Input{Items: append(append(first.items, second.items...), history.Item{Name: "gannet-list.cose", Result: signed}), Trust: known}
	in.Heads = []history.Head{{Line: treehead.Line{Time: int64(day("2026-02-01")) * 86400, Chains: 3}, Received: day("2026-02-02")}}
	return in
}

// foreign is a yard whose name, as the reader wrote it, the faces cannot print.
func foreign() history.Input {
	in := one()
	in.Trust = sign.TrustList{{Name: "水運港 Slip", Key: key(ellery)}}
	return in
}

var inputs = map[string]func() history.Input{"clean": clean, "late": late, "many": many, "one": one, "stranger": stranger, "parallel": parallel, "foreign": foreign,
	"trusting-nobody": func() history.Input { in := late(); in.Trust = nil; return in }}

func judged(in history.Input) (*history.Machine, statement.Settings) {
	h := history.Assess(in)
	return &h.Machines[0], statement.Settings{Paper: record.A4, MadeOn: day("2026-11-25"), AsTheyStand: h.AsTheyStand, Aside: h.Aside}
}

// crowded has more of everything than any page holds, in the longest words.
func crowded(letters string) (*history.Machine, statement.Settings) {
	m, settings := judged(late())
	long := strings.TrimSpace(strings.Repeat(letters, record.MaxText)[:record.MaxText-1]) + "x"
	for _, text := range []*string{&m.Make, &m.Model, &m.Serial, &m.Vessel, &m.Hull, &m.Kind} {
		*text = long
	}
	task := m.Tasks[3]
	for n := len(m.Tasks); n < record.MaxTasks; n++ {
		task.ID, task.Title = fmt.Sprint("task-", n), long
		m.Tasks = append(m.Tasks, task)
	}
	m.Stands.Tasks = nil
	for _, t := range m.Tasks {
		m.Stands.Tasks = append(m.Stands.Tasks, history.Standing{Task: t.ID, Title: t.Title})
	}
	for range 200 {
		m.Faults = append(m.Faults, m.Faults[0])
	}
	for range 40 {
		m.Chains = append(m.Chains, m.Chains[0])
	}
	m.Questions = nil
	for n := range history.MostQuestions {
		m.Questions = append(m.Questions, history.Question{Code: fmt.Sprint(n), Text: fmt.Sprint(n, " ", strings.TrimSpace(strings.Repeat(long+"; ", 20)), "?")})
	}
	settings.SignedList = &long
	for range 60 {
		settings.Aside = append(settings.Aside, history.SetAside{Name: long, Sentence: long})
	}
	return m, settings
}

// listed goes with a signed list.
func listed() (*history.Machine, statement.Settings) {
	m, settings := judged(clean())
	settings.SignedList = new("gannet-port-list.cose")
	return m, settings
}

var scenarios = func() map[string]func() (*history.Machine, statement.Settings) {
	all := map[string]func() (*history.Machine, statement.Settings){
		"listed":       listed,
		"crowded":      func() (*history.Machine, statement.Settings) { return crowded("mw Wi") },
		"crowded-wide": func() (*history.Machine, statement.Settings) { return crowded("W") },
	}
	for name, in := range inputs {
		all[name] = func() (*history.Machine, statement.Settings) { return judged(in()) }
	}
	return all
}()

func printed(t testing.TB, m *history.Machine, settings statement.Settings, paper record.Paper) (*history.Machine, []byte) {
	t.Helper()
	settings.Paper = paper
	pdf, err := statement.Statement(m, settings)
	if err != nil {
		t.Fatal(err)
	}
	return m, pdf
}

func printedFrom(t testing.TB, in history.Input) (*history.Machine, []byte) {
	m, settings := judged(in)
	return printed(t, m, settings, record.A4)
}
