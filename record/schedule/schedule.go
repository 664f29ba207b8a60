package schedule

import (
	"crypto/sha256"
	"encoding/json"
	"slices"
	"strings"

	"hourseal/record/quantity"
)

// Schedule is one edition of a service schedule.
type Schedule struct {
	ID       string   `json:"id"`
	Edition  int      `json:"edition"`
	Title    string   `json:"title"`
	Basis    Basis    `json:"basis"`
	NextFrom NextFrom `json:"next_from"`
	Grace    Grace    `json:"grace"`
	Tasks    []Task   `json:"tasks"`
}

// Task is one item of a schedule.
type Task struct {
	ID    string   `json:"id"`
	Title string   `json:"title"`
	Kind  Kind     `json:"kind"`
	Every Interval `json:"every"`
	// Once: the task falls due one time, Every after entry into service, and
	// never again once it was done (a break-in).
	Once bool `json:"once,omitempty"`
	// First replaces Every, component by component, until the task has been
	// done the first time.
	First  Interval `json:"first,omitzero"`
	With   []string `json:"with,omitempty"`   // tasks done together with this one
	Covers []string `json:"covers,omitempty"` // tasks that count as done when this one is
	Needs  Needs    `json:"needs,omitzero"`
	// Grace and NextFrom replace the schedule's own when set.
	Grace    *Grace   `json:"grace,omitempty"`
	NextFrom NextFrom `json:"next_from,omitzero"`
	Severe   Severe   `json:"severe,omitzero"`
}

// Interval is hours or months, whichever comes first; zero means "not by this".
type Interval struct {
	Hours  quantity.Hours  `json:"hours,omitempty" cbor:"1,keyasint,omitempty"`
	Months quantity.Months `json:"months,omitempty" cbor:"2,keyasint,omitempty"`
}

// Grace is how far past due a task may be done and still count as in time.
// Hours are fixed (Hours) or a share of the interval (HoursShare), not both.
type Grace struct {
	Hours      quantity.Hours `json:"hours,omitempty"`
	HoursShare quantity.Ratio `json:"hours_share,omitempty"`
	Days       quantity.Days  `json:"days,omitempty"`
}

// Leeway is a grace worked out for one interval: hours and days.
type Leeway struct {
	Hours quantity.Hours `json:"hours" cbor:"1,keyasint,omitempty"`
	Days  quantity.Days  `json:"days" cbor:"2,keyasint,omitempty"`
}

// For works the grace out for an interval; a share of the hours is rounded to
// 1/100 h, half away from zero.
func (g Grace) For(every Interval) Leeway {
	hours := g.Hours
	if g.HoursShare != 0 {
		hours = every.Hours.Times(g.HoursShare)
	}
	return Leeway{Hours: hours, Days: g.Days}
}

// Needs is the evidence that a task marked done must show in the job sheet.
type Needs struct {
	Drained   string `json:"drained,omitempty"` // a system whose drained quantity is stated
	Filled    string `json:"filled,omitempty"`  // a system whose filled quantity is stated
	Level     string `json:"level,omitempty"`   // a system whose level was read
	LeakCheck bool   `json:"leak_check,omitempty"`
	Part      string `json:"part,omitempty"`    // an item in the list of parts
	Reading   string `json:"reading,omitempty"` // a reading named so in the task
}

// WantsLeakCheck says whether a look for leaks is wanted after the task: where its
// evidence is one, and after a fluid was filled or a filter of fluid was fitted.
func (t Task) WantsLeakCheck() bool {
	part := strings.ToLower(t.Needs.Part)
	filter := strings.Contains(part, "filter") && !strings.Contains(part, "air")
	return t.Needs.LeakCheck || t.Needs.Filled != "" || filter
}

// Basis says whose schedule it is.
type Basis struct {
	Kind     BasisKind `json:"kind" cbor:"1,keyasint"`
	Document string    `json:"document,omitempty" cbor:"2,keyasint,omitempty"`
	Edition  string    `json:"edition,omitempty" cbor:"3,keyasint,omitempty"`
	Page     string    `json:"page,omitempty" cbor:"4,keyasint,omitempty"`
}

// Task returns the task with that id.
func (s Schedule) Task(id string) (Task, bool) {
	for i := range s.Tasks {
		if s.Tasks[i].ID == id {
			return s.Tasks[i], true
		}
	}
	return Task{}, false
}

// Leeway is the grace of one of the schedule's tasks for the interval that runs.
func (s Schedule) Leeway(t Task, runs Interval) Leeway {
	if runs == (Interval{}) {
		return Leeway{}
	}
	if t.Grace != nil {
		return t.Grace.For(runs)
	}
	return s.Grace.For(runs)
}

// Does says whether doing one task counts as doing another: the same one, or
// one that covers it, also by way of others.
func (s Schedule) Does(done, task string) bool {
	if done == task {
		return true
	}
	reached := []string{done}
	for i := 0; i < len(reached); i++ {
		t, _ := s.Task(reached[i])
		for _, covered := range t.Covers {
			if covered == task {
				return true
			}
			if !slices.Contains(reached, covered) { // a ring comes to an end
				reached = append(reached, covered)
			}
		}
	}
	return false
}

// Policy is what the task's next interval counts from.
func (s Schedule) Policy(t Task) NextFrom {
	if t.NextFrom != 0 {
		return t.NextFrom
	}
	return s.NextFrom
}

// Canonical returns the canonical form described in the package comment.
func (s Schedule) Canonical() []byte {
	text, err := json.Marshal(s)
	if err != nil { // every field is a plain value with an encoder that cannot fail
		panic("schedule: canonical form: " + err.Error())
	}
	return append(text, '\n')
}

// Digest is the SHA-256 of the canonical form.
func (s Schedule) Digest() [32]byte { return sha256.Sum256(s.Canonical()) }
