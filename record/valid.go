package record

import (
	"fmt"
	"strings"

	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// mostFigure bounds a finding's figures: beyond it JSON readers do not agree on
// a number (RFC 8259, section 6).
const mostFigure = 1<<53 - 1

// checker collects the first fault of a record, with the place it is in.
type checker struct{ err error }

func (c *checker) fail(field, format string, args ...any) {
	if c.err == nil {
		c.err = fmt.Errorf("%s: %s", field, fmt.Sprintf(format, args...))
	}
}

// require fails when a condition that must hold does not.
func (c *checker) require(ok bool, field, message string) {
	if !ok {
		c.fail(field, "%s", message)
	}
}

// in takes over what was found in one element of a list, with its place before
// it. Elements are checked by plain calls, not by a func value handed in here:
// that would put every checker on the heap.
func (c *checker) in(field string, i int, found checker) {
	if c.err == nil && found.err != nil {
		c.err = fmt.Errorf("%s %d: %w", field, i+1, found.err)
	}
}

func (c *checker) text(field, text string, limit int) {
	if err := CheckText(text, limit); err != nil {
		c.fail(field, "%v", err)
	}
}

func (c *checker) required(field, text string) {
	c.require(text != "", field, "is empty")
	c.text(field, text, MaxText)
}

func (c *checker) within(field string, value, low, high int64) {
	if value < low || value > high {
		c.fail(field, "%d is outside %d to %d", value, low, high)
	}
}

func (c *checker) id(field, id string) {
	c.require(id != "", field, "is empty")
	c.require(isID(id), field, "ids are small letters, digits and hyphens, at most 40 of them")
}

// host takes what may be a host name; whether it is one, the QR text says.
func (c *checker) host(field, host string) {
	c.text(field, host, MaxText)
	for _, r := range host {
		plain := r == '.' || r == '-' || '0' <= r && r <= '9' || 'a' <= r && r <= 'z' || 'A' <= r && r <= 'Z'
		c.require(plain, field, "a host has letters, digits, hyphens and dots only")
	}
}

// enum holds an enumeration's number to its words; zero passes when optional.
func enum[T ~uint8 | ~uint16](c *checker, field string, value T, words []string, optional bool) {
	if value == 0 && optional {
		return
	}
	if value == 0 || int(value) > len(words) {
		c.fail(field, "unknown value %d", value)
	}
}

func (c *checker) date(field string, d quantity.Date) {
	c.within(field, int64(d), int64(quantity.MinDate), int64(quantity.MaxDate))
}

func (c *checker) hours(field string, h quantity.Hours) {
	c.within(field, int64(h), 0, int64(quantity.MaxHours))
}

func (c *checker) count(field string, n, limit int) {
	if n > limit {
		c.fail(field, "%d entries, at most %d fit", n, limit)
	}
}

func (c *checker) measured(field string, m *quantity.Measured) {
	if m == nil {
		return
	}
	if err := m.Valid(); err != nil {
		c.fail(field, "%v", err)
	}
}

// Validate checks every value of a record against the format.
func (r *Record) Validate() error {
	var c checker
	c.require(r.Format == Format, "format", "this program reads format 1 only")
	c.within("renderer", int64(min(r.Renderer, 1<<20)), 1, 1<<16)
	enum(&c, "paper", r.Paper, PaperWords, false)
	c.host("page host", r.PageHost)
	enum(&c, "kind", r.Kind, KindWords, false)
	c.require((r.Subject == nil) == (r.Kind == Service), "subject", "an addendum, correction or void names a record, and only these do")
	if r.Subject != nil {
		c.text("subject why", r.Subject.Why, MaxReason)
		c.require(r.Subject.Why != "", "subject why", "is empty")
	}
	r.Machine.check(&c)
	r.Job.check(&c)
	c.text("technician number", r.By.Number, MaxText)
	c.text("technician name", r.By.Name, MaxText)
	c.text("technician credential", r.By.Credential, MaxText)
	c.require((r.Previous == nil) == (r.Number <= 1), "previous", "the first record of a chain cites none before it, and all others cite one")
	if r.Previous != nil {
		c.date("previous date", r.Previous.Date)
		c.hours("previous hours", r.Previous.Hours)
	}
	r.Schedule.check(&c)
	r.checkLists(&c)
	if err := CheckNotes(r.Notes); err != nil {
		c.fail("notes", "%v", err)
	}
	c.required("issuer name", r.Issuer.Name)
	enum(&c, "issuer kind", r.Issuer.Kind, IssuerWords, false)
	c.text("issuer contact", r.Issuer.Contact, MaxText)
	c.text("issuer address", r.Issuer.Address, MaxText)
	c.within("number", int64(r.Number), 1, 1_000_000)
	c.within("issued at", r.IssuedAt, 0, int64(quantity.MaxDate)*86400)
	return c.err
}

func (m Machine) check(c *checker) {
	c.id("machine id", m.ID)
	c.text("vessel", m.Vessel, MaxText)
	c.text("hull", m.Hull, MaxText)
	c.required("machine kind", m.Kind)
	c.text("position", m.Position, MaxText)
	c.required("make", m.Make)
	c.required("model", m.Model)
	c.required("serial", m.Serial)
	c.within("rated power", int64(m.RatedPower), 0, int64(quantity.MaxPower))
	c.text("driven by", m.DrivenBy, MaxText)
	c.date("in service", m.InService.Date)
	c.hours("in service", m.InService.Hours)
}

func (j Job) check(c *checker) {
	c.date("date", j.Date)
	c.hours("hours", j.Hours)
	enum(c, "reason", j.Reason, ReasonWords, false)
	c.text("place", j.Place, MaxText)
	c.text("job number", j.Number, MaxText)
	c.count("severe duty", len(j.SevereDuty), MaxDuties)
	for _, duty := range j.SevereDuty {
		c.required("severe duty", duty)
	}
	c.measured("fuel used", j.FuelUsed)
	m := j.Meter
	enum(c, "meter", m.State, MeterStateWords, false)
	c.text("meter basis", m.Basis, MaxReason)
	c.within("meter offset", int64(m.Offset), -int64(quantity.MaxHours), int64(quantity.MaxHours))
	if m.State == Running {
		c.require(m.Reading != nil && m.Basis == "", "meter", "a running meter has a reading and no estimate")
		if m.Reading != nil {
			c.hours("meter reading", *m.Reading)
			c.require(*m.Reading+m.Offset == j.Hours, "hours", "reading and offset do not add up to the hours in total")
		}
	} else {
		c.require(m.Reading == nil && m.Basis != "", "meter", "an estimate has a basis and no reading")
	}
	if ch := m.Change; ch != nil {
		if ch.RemovedAt != nil {
			c.hours("meter removed at", *ch.RemovedAt)
		}
		c.hours("meter fitted at", ch.FittedAt)
		c.required("meter change why", ch.Why)
	}
}

func (s ScheduleRef) check(c *checker) {
	c.id("schedule id", s.ID)
	c.within("schedule edition", int64(min(s.Edition, 1<<20)), 1, 100_000)
	enum(c, "schedule basis", s.Basis.Kind, schedule.BasisKinds(), false)
	c.text("schedule document", s.Basis.Document, MaxText)
	c.text("schedule document edition", s.Basis.Edition, MaxText)
	c.text("schedule page", s.Basis.Page, MaxText)
}

func (r *Record) checkLists(c *checker) {
	c.count("tasks", len(r.Tasks), MaxTasks)
	c.count("other work", len(r.OtherWork), MaxOtherWork)
	c.count("fluids", len(r.Fluids), MaxFluids)
	c.count("topped up", len(r.ToppedUp), MaxTopUps)
	c.count("waste", len(r.Waste), MaxWaste)
	c.count("parts", len(r.Parts), MaxParts)
	c.count("findings", len(r.Findings), MaxFindings)
	c.count("files", len(r.Files), MaxFiles)
	if c.err != nil {
		return
	}
	for i := range r.Tasks {
		var found checker
		r.Tasks[i].check(&found)
		c.in("task", i, found)
		for j := range i {
			c.require(r.Tasks[j].ID != r.Tasks[i].ID, "tasks", "the same task twice")
		}
	}
	for i := range r.OtherWork {
		var found checker
		r.OtherWork[i].check(&found)
		c.in("other work", i, found)
	}
	for i := range r.Fluids {
		var found checker
		r.Fluids[i].check(&found)
		c.in("fluid", i, found)
		for j := range i {
			c.require(r.Fluids[j].System != r.Fluids[i].System, "fluids", "the same system twice")
		}
	}
	for i, t := range r.ToppedUp {
		var found checker
		found.id("system", t.System)
		found.measured("amount", &t.Amount)
		c.in("topped up", i, found)
		for j := range i {
			c.require(r.ToppedUp[j].System != t.System, "topped up", "the same system twice")
		}
	}
	for i, w := range r.Waste {
		var found checker
		found.id("system", w.System)
		found.measured("amount", &w.Amount)
		found.text("to", w.To, MaxText)
		found.text("receipt", w.Receipt, MaxText)
		found.text("held", w.Held, MaxText)
		found.require(w.Held == "" || w.To == "" && w.Receipt == "", "held", "what is held was taken by nobody yet")
		c.in("waste", i, found)
	}
	for i, p := range r.Parts {
		var found checker
		found.required("item", p.Item)
		found.text("number", p.Number, MaxText)
		found.within("quantity", int64(min(p.Quantity, 1<<20)), 1, 10_000)
		enum(&found, "supplied by", p.SuppliedBy, SupplierWords, false)
		found.text("serial", p.Serial, MaxText)
		c.in("part", i, found)
	}
	if l := r.LeakCheck; l != nil {
		enum(c, "leak check", l.Result, LeakWords, false)
		c.minutes("leak check", l.After)
		c.text("leak check where", l.Where, MaxReason)
	}
	for i := range r.Findings {
		var found checker
		r.Findings[i].check(&found)
		c.in("finding", i, found)
	}
	for i, f := range r.Files {
		var found checker
		found.required("name", f.Name)
		// It is looked for beside the record, and nowhere else.
		found.require(!strings.ContainsAny(f.Name, `/\:`) && f.Name != "." && f.Name != "..", "name", "is a path, not the name of a file")
		c.in("file", i, found)
	}
}

func (c *checker) minutes(field string, m *quantity.Minutes) {
	if m != nil {
		c.within(field, int64(*m), 0, int64(quantity.MaxMinutes))
	}
}

func (f *Finding) check(c *checker) {
	rule, known := Rules[f.Code]
	c.require(known, "code", "unknown rule")
	enum(c, rule.Name, f.Severity, SeverityWords, false)
	c.require(f.Severity != Refuse, rule.Name, "a job that cannot be true is never signed")
	c.require(f.Severity != Decide || f.Accepted != "", rule.Name, "has no reason")
	c.text(rule.Name, f.Subject, MaxText)
	c.text(rule.Name, f.Text, MaxReason)
	c.text(rule.Name, f.Accepted, MaxReason)
	c.require(f.Unit.Valid(), rule.Name, "unknown unit")
	for _, n := range []*int64{f.Value, f.Limit} {
		switch {
		case n == nil:
		case f.Unit == AsDate:
			c.date(rule.Name, quantity.Date(*n))
		default:
			c.within(rule.Name, *n, -mostFigure, mostFigure)
		}
	}
	if f.Within != nil {
		c.within(rule.Name+" uncertainty", *f.Within, 0, mostFigure)
	}
}
