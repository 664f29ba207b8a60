package jobsheet

import (
	"strings"

	"go.yaml.in/yaml/v3"

	"hourseal/record"
	"hourseal/record/quantity"
)

var jobForm = form{
	{"machine", "the machine's id, as gannet-port", required},
	{"date", "the date of the job, as 2026-05-04", required},
	{"hours", "the hour-meter reading, as 812.6, or { meter: stopped, estimate: 810, basis: engine log }", required},
	{"meter_change", "{ removed_at: 1482.3, fitted_at: 12.0, why: glass broken }", optional},
	{"reason", "why the job was done, one of " + strings.Join(record.ReasonWords, ", "), required},
	{"job_number", "the yard's job number, as J-2217", optional},
	{"place", "where the job was done, as Port Ellery, east slip", optional},
	{"severe_duty", "the severe duties that it runs under from this job until the next, as [fuel sulphur over 0.5 %]", optional},
	{"fuel_used", amountWanted, optional},
	{"technician", `{ number: "118", credential: Ellery Slip card }`, optional},
	{"tasks", "{ id: engine-oil, result: done }", blank},
	{"other_work", "{ text: Tightened the exhaust clamp, result: done }", blank},
	{"fluids", "{ system: engine-oil, drained: 9 L, filled: 9.3 L }", blank},
	{"topped_up", "{ system: engine-oil, amount: 0.5 L }", blank},
	{"waste", "{ system: engine-oil, amount: 8.8 L, to: harbour oil bank }", blank},
	{"parts", "{ item: oil filter, number: CR-2214, quantity: 1 }", blank},
	{"leak_check", "{ result: none seen, after: 10 min }", optional},
	{"files", "the names of the files that go with the record, as [plate.jpg, meter.jpg]", optional},
	{"accept", "{ level-high: a reason in your own words }", blank},
	{"notes", "what the next reader should know", blank},
}

var (
	noMeterForm = form{
		{"meter", "stopped or none", required},
		{"estimate", "the hours in total as estimated, as 810", required},
		{"basis", "what the estimate rests on, as engine log", required},
	}
	meterChangeForm = form{
		{"removed_at", "the old meter's last reading, as 1482.3, or unknown", required},
		{"fitted_at", "the new meter's first reading, as 12.0", required},
		{"why", "why it was changed, as glass broken", required},
	}
	technicianForm = form{
		{"number", `the technician's number, as "118"`, optional},
		{"name", "the technician's name", optional},
		{"credential", "what the technician is qualified by, as Ellery Slip card", optional},
	}
	partForm = form{
		{"item", "what was fitted, as oil filter", required},
		{"number", "the part number, as CR-2214", optional},
		{"serial", `the part's own serial number in quotes, as "0000714"`, optional},
		{"quantity", "how many, as 1", optional},
		{"supplied_by", "yard, customer or warranty", optional},
	}
	leakCheckForm = form{
		{"result", "none seen, or seen", required},
		{"after", "minutes running, as 10 min", optional},
		{"where", "where it was seen, as drain plug", optional},
	}
)

// ParseJob reads a job sheet. File is its name in messages.
func ParseJob(file string, data []byte) (Job, error) {
	s := newSheet(file)
	root, ok := s.read(data)
	if !ok {
		return done(s, Job{})
	}
	f := root.fields(jobForm)
	job := Job{
		Machine:    one(f, "machine", id),
		Date:       one(f, "date", quantity.ParseDate),
		Reason:     one(f, "reason", enum[record.Reason](record.ReasonWords)),
		Place:      one(f, "place", text),
		Number:     one(f, "job_number", text),
		SevereDuty: severeDuty(f),
		FuelUsed:   measured(f, "fuel_used"),
		Tasks:      list(f, "tasks", record.MaxTasks, taskForm, task),
		OtherWork:  list(f, "other_work", record.MaxOtherWork, otherWorkForm, otherWork),
		Fluids:     list(f, "fluids", record.MaxFluids, fluidForm, fluidOf),
		ToppedUp:   list(f, "topped_up", record.MaxTopUps, topUpForm, topUp),
		Waste:      list(f, "waste", record.MaxWaste, wasteForm, waste),
		Parts:      list(f, "parts", record.MaxParts, partForm, part),
		LeakCheck:  group(f, "leak_check", leakCheckForm, leakCheck),
		Files:      files(f),
		Accept:     accepted(f),
		Notes:      notes(f),
		Source:     s.source(),
	}
	job.Meter, job.Estimate = meter(f)
	job.Meter.Change = group(f, "meter_change", meterChangeForm, meterChange)
	if by := group(f, "technician", technicianForm, technician); by != nil {
		job.By = *by
	}
	return done(s, job)
}

// meter reads hours: the reading of a meter that runs, or an estimate.
func meter(f fields) (record.Meter, *quantity.Hours) {
	e, there := f.values["hours"]
	if !there || e.node.Kind != yaml.MappingNode {
		return record.Meter{State: record.Running, Reading: maybe(f, "hours", quantity.ParseHours)}, nil
	}
	g := e.fields(noMeterForm)
	state := one(g, "meter", oneOf("stopped", "none"))
	m := record.Meter{State: record.Stopped, Basis: one(g, "basis", reason)}
	if state == "none" {
		m.State = record.NoMeter
	}
	return m, maybe(g, "estimate", quantity.ParseHours)
}

func meterChange(f fields) record.MeterChange {
	c := record.MeterChange{FittedAt: one(f, "fitted_at", quantity.ParseHours), Why: one(f, "why", text)}
	if at := maybe(f, "removed_at", orUnknown(quantity.ParseHours)); at != nil {
		c.RemovedAt = *at
	}
	return c
}

func technician(f fields) record.By {
	return record.By{Number: one(f, "number", text), Name: one(f, "name", text), Credential: one(f, "credential", text)}
}

const maxPartQuantity = 10_000

func part(f fields) record.Part {
	p := record.Part{Item: one(f, "item", text), Number: one(f, "number", text), Serial: one(f, "serial", text), Quantity: 1, SuppliedBy: record.ByYard}
	if n := maybe(f, "quantity", count(maxPartQuantity)); n != nil {
		p.Quantity = uint(*n)
	}
	if by := maybe(f, "supplied_by", enum[record.Supplier](record.SupplierWords)); by != nil {
		p.SuppliedBy = *by
	}
	return p
}

func leakCheck(f fields) record.LeakCheck {
	return record.LeakCheck{
		Result: one(f, "result", enum[record.LeakResult](record.LeakWords)),
		After:  maybe(f, "after", quantity.ParseMinutes),
		Where:  one(f, "where", reason),
	}
}

// accepted reads the reasons given for findings. The codes are looked at by
// Resolve.
func accepted(f fields) []Accept {
	e, there := f.values["accept"]
	if !there || e.left() || !e.usable(yaml.MappingNode) {
		return nil
	}
	var read []Accept
	for k, value := range e.pairs() {
		if e.leavesOut(value) {
			continue
		}
		child := e.child(k, value, key{name: k.Value, want: "the reason in your own words", need: required})
		a, err := findingNamed(k.Value)
		if err != nil {
			e.sheet.fault(posOf(k), e.field, "%v", err)
			continue
		}
		a.Reason, _ = scalar(child, reason)
		a.At = Fault{File: e.sheet.file, Pos: posOf(k)}.At()
		read = append(read, a)
	}
	if len(read) > record.MaxFindings {
		e.fail("%d entries, at most %d fit", len(read), record.MaxFindings)
	}
	return read
}

// notes reads the only text that may have several lines. White space around
// it, which a block of lines brings with it, is no part of it, and Windows line
// ends, which a program may put between quotes, are line ends.
func notes(f fields) string {
	e, there := f.values["notes"]
	if !there || e.left() || !e.usable(yaml.ScalarNode) {
		return ""
	}
	value := strings.TrimSpace(strings.ReplaceAll(e.node.Value, "\r\n", "\n"))
	if err := record.CheckNotes(value); err != nil {
		e.fail("%v", err)
	}
	return value
}
