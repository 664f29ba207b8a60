package jobsheet

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// Blank is a job sheet that is still to be filled in: who was where, and what is
// to be done there.
type Blank struct {
	Machine Machine
	Date    quantity.Date
	Reason  record.Reason // 0: left to be filled in
	Tasks   []schedule.Task
	// Parts are those expected, by item and number; what a task needs besides is
	// added without a number. How many were fitted is left to be filled in.
	Parts []record.Part
	// Fluids are what a system was last filled with: product, viscosity, meets.
	Fluids []record.Fluid
}

// YAML is the sheet as text, its keys in the order of the package comment. No
// result, amount or reading is filled in: nothing that nobody stated is ever
// signed. Each blank is a key with nothing after its colon but a comment that
// says what it takes, and ParseJob finds fault with each that is left so. Keys
// that are mostly left out stand in comments.
func (b Blank) YAML() []byte {
	var w blankText
	b.head(&w)
	b.tasks(&w)
	b.fluids(&w)
	b.waste(&w)
	b.parts(&w)
	b.leakCheck(&w)
	w.say("# files: []", "photographs of plate and meter, a laboratory sheet: hourseal attach puts them in")
	w.say("# accept:", "{ level-high: the reason in your own words }, as the check names the finding")
	w.say("# notes: |", "on the lines below, each set in by two spaces; at most 600 characters")
	return []byte(w.String())
}

func (b Blank) head(w *blankText) {
	m := b.Machine
	what := []string{m.Vessel.Name, m.Position, m.Kind, m.Make + " " + m.Model, "serial " + m.Serial}
	what = slices.DeleteFunc(what, func(s string) bool { return s == "" })
	w.say("# "+oneLine(strings.Join(what, ", ")), "")
	w.say("#", "")
	w.say("# Fill in what stands empty. Take out the lines that nothing can be said to, and", "")
	w.say("# entries for what was not there or not used; a # in front of a key takes it out, too.", "")
	w.say("# All of it, notes too, is in the QR code of the report and cannot be taken back:", "")
	w.say("# write no owner's name or address.", "")
	w.set("machine", quote(m.ID), "")
	w.set("date", b.Date.String(), "the day of the work")
	meter := "as the meter reads, as 812.6"
	if m.DrivenBy != "" {
		meter = "as the engine's meter reads, as 812.6"
	}
	w.set("hours", "", meter)
	w.say("# hours: { meter: , estimate: , basis: }", "in its place: stopped or none; the hours in total, as 810; engine log")
	w.say("# meter_change: { removed_at: , fitted_at: , why: }", "since the last record: 1482.3 or unknown; 12.0; glass broken")
	reason := ""
	if b.Reason != 0 {
		reason = b.Reason.String()
	}
	w.set("reason", reason, strings.Join(record.ReasonWords, " | "))
	w.set("job_number", "", "the yard's own, as J-2217")
	w.set("place", "", "as east slip")
	w.say("# severe_duty: ["+quoteKnown(firstDuty(b.Tasks))+"]", "what it runs under from this job until the next, in the schedule's words")
	w.say("# fuel_used:", "burnt since the last service, as logged, as 1850 L")
	w.set("technician", "", "")
	w.set("  number", "", `as "118"`)
	w.say("  # name:", "may be left out")
	w.say("  # credential:", "what the technician is qualified by")
}

func firstDuty(tasks []schedule.Task) string {
	for _, t := range tasks {
		if t.Severe.When != "" {
			return t.Severe.When
		}
	}
	return ""
}

func (b Blank) tasks(w *blankText) {
	none := ""
	if len(b.Tasks) == 0 {
		none = "[]"
	}
	w.set("tasks", none, "")
	w.say("  # done      replaced, cleaned or adjusted", "")
	w.say("  # ok        inspected, nothing to do", "")
	w.say("  # watch     serviceable, look again", "")
	w.say("  # defect    found and left", "")
	w.say("  # deferred  put off", "")
	w.say("  # Below a result may stand, each on a line of its own:", "")
	w.say("  #   why:", "the reason; defect and deferred need one")
	w.say("  #   advice:", strings.Join(record.AdviceWords, " | "))
	w.say("  #   told:", "the date on which the owner was told, as "+b.Date.String())
	w.say("  #   owner:", strings.Join(record.OwnerWords, " | "))
	w.say("  #   look_again:", "{ hours: 900 }, or { date: "+b.Date.AddMonths(6).String()+" }, or both in one")
	w.say("  #   done_by:", "a subcontractor")
	for _, t := range b.Tasks {
		w.set("  - id", quote(t.ID), t.Title)
		w.set("    result", "", strings.Join(record.ResultWords, " | "))
		if name := t.Needs.Reading; name != "" {
			w.set("    reading", "", "or { as_found: , as_left: } for each")
			w.set("      "+quote(name), "", "a figure with its unit, as "+UsualFigure(name))
		}
	}
	w.say("# other_work:", "repairs, and whatever is no item of the schedule")
	w.say("#   - { text: , result: }", "what was done or found, and a result as above; why, advice, told, owner, done_by")
}

// UsualFigure is an example of a reading, as it is written in a sheet.
func UsualFigure(name string) string { return cmp.Or(usualFigures[name], "0.25 mm") }

// usualFigures are examples of the readings that the built-in schedules ask for.
var usualFigures = map[string]string{
	"freezing_point": "-27 C",
	"voltage":        "12.6 V",
	"frequency":      "50 Hz",
	"flange_gap":     "0.05 mm",
}

// Evidence is what tasks need to be stated of one system.
type Evidence struct {
	System                 string
	Drained, Filled, Level bool
}

// EvidenceFor gives it for every system that a task needs, in the order of the
// tasks.
func EvidenceFor(tasks []schedule.Task) []Evidence {
	var list []Evidence
	of := func(system string) *Evidence {
		i := slices.IndexFunc(list, func(e Evidence) bool { return e.System == system })
		if i < 0 {
			i = len(list)
			list = append(list, Evidence{System: system})
		}
		return &list[i]
	}
	for _, t := range tasks {
		if t.Needs.Drained != "" {
			of(t.Needs.Drained).Drained = true
		}
		if t.Needs.Filled != "" {
			of(t.Needs.Filled).Filled = true
		}
		if t.Needs.Level != "" {
			of(t.Needs.Level).Level = true
		}
	}
	return list
}

const (
	drainedRemark = "as 9.1 L at 60 C, or 7.7 kg; a sum, as [5 L, 4.1 L]; or: not measured"
	filledRemark  = "as 9.3 L at 16 C; a sum, as [5 L, 4.3 L]; or: not measured"
	wasteRemark   = "as 8.8 L; or: not measured"
)

func (b Blank) fluids(w *blankText) {
	list := w.list("fluids", "each system of the machine once")
	for _, e := range EvidenceFor(b.Tasks) {
		s, there := b.Machine.System(e.System)
		if !there {
			w.say("# The machine file has no system "+oneLine(e.System)+", which the schedule speaks of: write it there first.", "")
			continue
		}
		list("system", quote(s.Name), systemRemark(s))
		if e.Level {
			w.say("    # level_before: { reading: , after: , at: }", "before draining, as level is below; or: not measured")
		}
		if e.Drained {
			w.set("    drained", "", drainedRemark)
			if s.FilterHolds > 0 {
				w.set("    drained_includes_filter", "", "true | false: whether that has in it what the old filter held")
			}
			w.say("    # seen:", "in what came out: nothing; or { what: [water, metal, fuel], why: the reason }")
		}
		if e.Filled {
			b.filled(w, s)
		}
		if e.Level {
			w.set("    level", "", "afterwards; or without the lines below: not measured")
			w.set("      reading", "", "0 is the lower mark, 1 the upper, as 0.85")
			w.set("      after", "", "how long the engine had stood, as 15 min")
			w.set("      at", "", "how warm the oil was, as 45 C")
		}
	}
	w.say("# topped_up:", "since the last service, as the owner's log has it")
	w.say("#   - { system: , amount: }", "")
}

func (b Blank) filled(w *blankText, s System) {
	const lastTime = "as last time: correct it where it was another"
	last := record.Fluid{}
	if i := slices.IndexFunc(b.Fluids, func(f record.Fluid) bool { return f.System == s.Name }); i >= 0 {
		last = b.Fluids[i]
	}
	known := func(key, value, remark string, asked bool) {
		switch {
		case value != "":
			w.set(key, value, lastTime)
		case asked:
			w.set(key, "", remark)
		default:
			w.say("    # "+strings.TrimSpace(key)+":", remark)
		}
	}
	w.set("    filled", "", filledRemark)
	w.say("    # drawn_down:", "taken out again after that, as 0.5 L")
	known("    product", quoteKnown(last.Product), "its name, as on the container", true)
	w.say("    # batch:", "as on the container")
	known("    viscosity", quoteKnown(last.Viscosity), asked("the grade", s.Viscosity), len(s.Viscosity) > 0)
	known("    meets", quoteList(last.Meets), asked("a list of what is on the container", s.Meets), len(s.Meets) > 0)
	if s.Glycol != "" {
		w.say("    # glycol:", strings.Join(record.GlycolWords, " | ")+": what it is made with")
	}
}

// asked says beside a blank what the machine file asks for.
func asked(what string, any []string) string {
	if len(any) == 0 {
		return what
	}
	return what + "; asked for: " + strings.Join(any, " or ")
}

func systemRemark(s System) string {
	switch {
	case s.AtUpper > 0 && s.FilterHolds > 0:
		return s.AtUpper.String() + " at the upper mark, new filter included"
	case s.AtUpper > 0:
		return s.AtUpper.String() + " at the upper mark"
	case s.Holds > 0:
		return "holds " + s.Holds.String()
	default:
		return ""
	}
}

func (b Blank) waste(w *blankText) {
	list := w.list("waste", "what came out, and where it went")
	for _, e := range EvidenceFor(b.Tasks) {
		s, there := b.Machine.System(e.System)
		if !there || !e.Drained {
			continue
		}
		list("system", quote(s.Name), "")
		w.set("    amount", "", wasteRemark)
		w.set("    to", "", "who took it, as harbour oil bank")
		w.say("    # receipt:", "its number")
		w.say("    # held:", "in the place of these two: where it is kept until somebody takes it, as waste oil tank 2")
	}
}

func (b Blank) parts(w *blankText) {
	parts := slices.Clone(b.Parts)
	for _, t := range b.Tasks {
		item := t.Needs.Part
		if item != "" && !slices.ContainsFunc(parts, func(p record.Part) bool { return strings.EqualFold(p.Item, item) }) {
			parts = append(parts, record.Part{Item: item})
		}
	}
	list := w.list("parts", "each part that was fitted")
	for _, p := range parts {
		list("item", quote(p.Item), "")
		if p.Number != "" {
			w.set("    number", quote(p.Number), "as expected: correct it where it was another")
		} else {
			w.set("    number", "", "the part number")
		}
		expected := "how many were fitted"
		if p.Quantity > 0 {
			expected += "; expected: " + strconv.FormatUint(uint64(p.Quantity), 10)
		}
		w.set("    quantity", "", expected)
		w.say("    # serial:", `its own serial number, where it has one, in quotes, as "0000714"`)
		w.say("    # supplied_by:", strings.Join(record.SupplierWords, " | ")+"; yard where left out")
	}
}

// leakCheck asks for one after whatever the check wants one for.
func (b Blank) leakCheck(w *blankText) {
	if !slices.ContainsFunc(b.Tasks, schedule.Task.WantsLeakCheck) {
		w.say("# leak_check: { result: , after: }", strings.Join(record.LeakWords, " | ")+"; and minutes running, as 10 min")
		return
	}
	w.set("leak_check", "", "")
	w.set("  result", "", strings.Join(record.LeakWords, " | "))
	w.set("  after", "", "minutes running, as 10 min")
	w.say("  # where:", "where it was seen")
}
