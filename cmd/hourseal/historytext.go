package main

import (
	"fmt"
	"strconv"
	"strings"

	"hourseal/sign"
	"hourseal/verify"
	"hourseal/verify/history"
)

// sayHistory prints the judgement of each machine, then what was set aside.
func (p *program) sayHistory(h history.History, full bool) {
	if h.AsTheyStand && len(h.Machines) > 0 {
		p.paragraph("", "You have named nobody whom you trust: this is what the records say of themselves. Ask each yard for its key, on a number that you found yourself; then: hourseal trust add YARD.pub --name NAME")
		p.say("")
	}
	for i := range h.Machines {
		if m := &h.Machines[i]; full || len(h.Machines) <= fewAnswers {
			p.sayMachine(m)
		} else {
			p.paragraph("", m.Title()+": "+m.Sentence())
		}
	}
	if len(h.Machines) > fewAnswers && !full {
		p.say("")
		p.say("%d machines. All about one: --serial TEXT; about all: --full", len(h.Machines))
	}
	if len(h.Machines) == 0 {
		p.say("No record is left to judge.")
	}
	if len(h.Aside) > 0 {
		p.say("")
		p.say("Set aside")
		for _, a := range h.Aside {
			p.paragraph("  ", fmt.Sprintf("%s: %s", a.Name, a.Sentence))
		}
	}
}

// sayMachine prints one machine, the sentence first.
func (p *program) sayMachine(m *history.Machine) {
	p.paragraph("", m.Sentence())
	where := m.Title()
	if m.Vessel != "" {
		where += ", of " + m.Vessel
	}
	p.paragraph("", "("+where+")")
	switch m.SerialMatch {
	case verify.Same:
		p.paragraph("", "The serial number that you gave is the records'.")
	case verify.Probably:
		p.paragraph("", "The serial number that you gave is nearly, not quite, the records': look at the plate again.")
	}
	if len(m.Faults) > 0 {
		p.heading("What to know first")
		for _, f := range m.Faults {
			p.paragraph("  ", m.FaultWords(f))
		}
	}
	if m.Stands != nil {
		p.sayStands(m)
	}
	if len(m.Tasks) > 0 {
		p.heading("How each task was kept")
		p.table("  ", keptRows(m))
		for _, t := range m.Tasks {
			for _, line := range waitLines(m, t) {
				p.paragraph("  ", line)
			}
		}
		p.paragraph("  ", basisLine(m))
	}
	p.heading("Records")
	p.sayEntries(m)
	p.heading("Where it ends")
	for _, c := range m.Tails() {
		p.paragraph("  ", m.TailWords(c))
	}
	if len(m.Questions) > 0 {
		p.heading("Ask the yard or the seller")
		for _, q := range m.Questions {
			p.paragraph("  ", q.Text)
		}
	}
	p.heading("What this does not show")
	for _, line := range history.NotShown {
		p.paragraph("  ", line)
	}
	p.say("")
}

func (p *program) heading(text string) {
	p.say("")
	p.say("%s", text)
}

// sayEntries prints the records, in their order, with what each counts for and since
// when it is known to exist.
func (p *program) sayEntries(m *history.Machine) {
	rows, notes := [][]string{{"no.", "date", "hours", "id", "signed by"}}, []string{""}
	for i := range m.Entries {
		e := &m.Entries[i]
		by, key := m.SignerName(e.Root), ""
		if !e.Signer.Known { // the fingerprint is wider than the table
			by, key = "not known to you", "key "+e.Signer.Key.Fingerprint()
		}
		hours := "-"
		if read := e.ReadHours(); read != nil {
			hours = read.String()
		}
		rows = append(rows, []string{strconv.Itoa(int(e.Record.Number)), e.Record.Job.Date.String(), hours, sign.ID(e.ID).String(), by})
		var said []string
		for _, text := range []string{key, m.CountsWords(e), m.ExistsWords(e)} {
			if text != "" {
				said = append(said, text)
			}
		}
		notes = append(notes, strings.Join(said, "; "))
	}
	p.tableWithNotes("  ", rows, notes)
	p.paragraph("  ", "A date is its signer's word where nobody else is named who shows that the record existed.")
}

// keptRows are the tasks, in the order of the schedule.
func keptRows(m *history.Machine) [][]string {
	rows := [][]string{{"task", "done", "overdue", "hours overdue of run", "at the last record"}}
	for _, t := range m.Tasks {
		done, late := strconv.Itoa(len(t.Done)), strconv.Itoa(t.DoneLate())
		if len(t.Done) == 0 {
			done, late = "no record", "-"
		}
		overdue := fmt.Sprintf("%s of %s h", overdueText(t), t.Run)
		if t.Unknown > 0 {
			overdue += fmt.Sprintf(", %s not known", t.Unknown)
		}
		rows = append(rows, []string{t.ID, done, late, overdue, t.NowWords()})
	}
	return rows
}

func overdueText(t history.Task) string {
	if t.About {
		return "about " + t.Overdue.Whole().String()
	}
	return t.Overdue.String()
}

// waitLines say what was put off, for how long, on what advice and whose decision.
func waitLines(m *history.Machine, t history.Task) []string {
	var lines []string
	for _, w := range t.Waits {
		lines = append(lines, t.ID+": "+m.WaitWords(w))
	}
	for _, d := range t.Done {
		if in := map[history.Adherence]string{history.Late: "overdue", history.InGrace: "within grace"}[d.When.State]; in != "" {
			lines = append(lines, fmt.Sprintf("%s: done on %s at %s h, %s: %s.", t.ID, d.Date, d.Hours, in, d.When.Words()))
		}
	}
	if t.Stated != nil {
		lines = append(lines, fmt.Sprintf("%s: stated as done on %s at %s h, not under seal; it counts for nothing here.", t.ID, t.Stated.Date, t.Stated.Hours))
	}
	return lines
}

// basisLine says by whose schedules the tasks were judged.
func basisLine(m *history.Machine) string {
	var said []string
	for _, s := range m.Schedules() {
		said = append(said, fmt.Sprintf("%s, edition %d (%s), from %s", s.ID, s.Edition, s.Basis.Kind, s.From.Date))
	}
	return "Schedule: " + strings.Join(said, "; ") + ". Early and late are counted from due; overdue is past due and beyond the schedule's own grace."
}

// standsWidth is how wide each of the two columns is.
const standsWidth = 26

func (p *program) sayStands(m *history.Machine) {
	s := m.Stands
	p.heading(fmt.Sprintf("Where it stood on %s", s.On))
	p.paragraph("  ", s.Hours.Words())
	p.paragraph("  ", fmt.Sprintf("%d of %d records up to then are shown by others, or by your own log, to have existed by that day.", s.Shown, s.All))
	rows := [][]string{{"task", "by records shown to exist", "by all records"}}
	for _, t := range s.Tasks {
		shown, all := wrap(t.Shown.Words(), standsWidth), wrap(t.All.Words(), standsWidth)
		for i := range max(len(shown), len(all)) {
			row := []string{"", "", ""}
			if i == 0 {
				row[0] = t.Task
			}
			if i < len(shown) {
				row[1] = shown[i]
			}
			if i < len(all) {
				row[2] = all[i]
			}
			rows = append(rows, row)
		}
	}
	p.table("  ", rows)
}
