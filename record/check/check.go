package check

import (
	"hourseal/record"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// Input is everything that a check works from. Nothing else decides.
type Input struct {
	Yard     jobsheet.Yard
	Machine  jobsheet.Machine
	Driver   *jobsheet.Machine // the engine whose hours count, where Machine is driven by one
	Schedule schedule.Schedule
	Job      jobsheet.Job
	Kind     record.Kind      // what is made of it; 0: a service
	Subject  *record.Subject  // the record that it corrects, voids or adds to, and why; nil for a service
	Earlier  []record.Earlier // the machine's chain, oldest first; it may begin at another yard's record, of any number
	Engine   []record.Earlier // that of its driver
	Twins    []Twin           // the like machines of the vessel
	Files    []record.File    // those that the job sheet names, in its order, with the hashes of what is kept; without a sheet, those that go with it
	Now      int64            // seconds since 1970: the time of issue, by the yard's clock
	Today    quantity.Date    // where the yard is
	Renderer uint             // id of the page layout that the report will have
}

// Outcome is what can be done with a job.
type Outcome string

// The outcomes, best first.
const (
	Issuable  Outcome = "issuable"
	Undecided Outcome = "undecided"
	Refused   Outcome = "refused"
	Malformed Outcome = "malformed"
)

// Result is what a check found.
type Result struct {
	Outcome   Outcome
	Findings  []Finding
	Faults    jobsheet.Faults // what is malformed: see the package comment
	SinceLast *SinceLast      // nil without an earlier record that counts
	Next      []Next          // every task of the schedule, in its order
	Draft     *record.Record  // the record as it would be, whatever the outcome
	Passed    *Passed         // set when the outcome is Issuable
}

// Finding is one finding with the place in the job sheet that it speaks of.
type Finding struct {
	record.Finding
	Path string // as in jobsheet.Source
	At   string // file:line:col
}

// SinceLast is what has passed since the machine's nearest record that counts
// and is not dated after the job.
type SinceLast struct {
	Hours  quantity.Hours
	Days   quantity.Days
	Record record.ID
}

// Next is when a task falls due next.
type Next struct {
	Task  string
	Due   schedule.Due
	By    string // "hours" or "date": which is expected first; "" when not due
	State schedule.State
}

// Passed is a job that may be signed. The zero value is of no use.
type Passed struct{ r *record.Record }

// CheckedRecord implements record.Checked.
func (p Passed) CheckedRecord() *record.Record { return p.r }

// Run checks one job.
func Run(in Input) Result {
	b := newBench(in)
	for _, rule := range rules {
		rule(b)
	}
	return b.result()
}

// result is what came of the rules.
func (b *bench) result() Result {
	in := b.Input
	result := Result{Findings: b.findings, SinceLast: b.sinceLast(), Next: b.next(), Draft: b.draft}
	result.Faults = append(b.faults(), accept(in.Job.Accept, result.Findings)...)
	result.Outcome = outcome(result)
	for _, f := range result.Findings {
		b.draft.Findings = append(b.draft.Findings, f.Finding)
	}
	if result.Outcome == Issuable {
		if r, err := proven(b.draft); err != nil {
			result.Outcome = Malformed
			result.Faults = jobsheet.Faults{in.Job.Source.Fault("", "", "no record can be made of this job: %v", err)}
		} else {
			result.Passed = &Passed{r}
		}
	}
	return result
}

// proven encodes a record and reads it back: what passes can be signed and read
// again, and shares nothing with what the caller holds.
func proven(draft *record.Record) (*record.Record, error) {
	data, err := record.Encode(draft)
	if err != nil {
		return nil, err
	}
	return record.Decode(data)
}

func outcome(r Result) Outcome {
	worst := Issuable
	for _, f := range r.Findings {
		switch {
		case f.Severity == record.Refuse:
			return Refused
		case f.Severity == record.Decide && f.Accepted == "":
			worst = Undecided
		}
	}
	if len(r.Faults) > 0 {
		return Malformed
	}
	return worst
}

// rules are run in this order, which is the order of the findings.
var rules = []func(*bench){
	dateRules,
	hoursRules,
	useRule,
	twinRule,
	engineRule,
	jobNumberRule,
	sameVisitRule,
	hullRule,
	answerRules,
	evidenceRules,
	leakRules,
	timelinessRules,
	notMentionedRule,
	togetherRule,
	severeDutyRule,
	levelRules,
	fillRules,
	balanceRules,
	wasteRule,
	seenRule,
	oilRules,
	coolantRule,
	glycolRule,
	unmeasuredRules,
}
