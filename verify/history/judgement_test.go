package history_test

import (
	"fmt"
	"strings"

	"hourseal/record/quantity"
	"hourseal/sign"
	"hourseal/verify/history"
	"hourseal/verify/history/historytest"
)

// judgementOf puts a history into those words.
func (w *told) judgementOf(h history.History) historytest.Judgement {
	j := historytest.Judgement{Exit: h.ExitCode(), AsStand: h.AsTheyStand}
	for _, a := range h.Aside {
		j.Aside = append(j.Aside, a.Name+": "+string(a.Why))
	}
	for i := range h.Machines {
		j.Machines = append(j.Machines, w.judgedOf(&h.Machines[i]))
	}
	return j
}

func (w *told) judgedOf(m *history.Machine) historytest.MachineJudgement {
	j := historytest.MachineJudgement{Serial: m.Serial, Exit: m.ExitCode(), Sentence: m.Sentence(), Tasks: map[string]historytest.TaskJudgement{}, Exists: map[string]string{},
		Match: map[int]string{1: "same", 2: "probably", 3: "different"}[int(m.SerialMatch)]}
	for _, c := range m.Chains {
		j.Chains = append(j.Chains, runs(w.labelsOf(m, c.Entries)))
		tail := w.Name(c.Tail.ID) + ": open"
		if b := c.Tail.Bounded; b != nil {
			tail = fmt.Sprintf("%s: until %v by %s", w.Name(c.Tail.ID), b.Until, b.By)
		}
		j.Tails = append(j.Tails, tail)
	}
	for i := range m.Entries {
		e := &m.Entries[i]
		if e.Counts != history.Counts {
			if j.Counts == nil {
				j.Counts = map[string]string{}
			}
			text := string(e.Counts)
			if e.By != nil {
				text += " by " + w.Name(e.By.ID)
			}
			j.Counts[w.Name(e.ID)] = text
		}
		j.Exists[w.Name(e.ID)] = w.existsOf(m, e.Exists)
	}
	for _, f := range m.Faults {
		j.Faults = append(j.Faults, w.faultOf(m, f))
	}
	for _, t := range m.Tasks {
		j.Tasks[t.ID] = w.taskOf(m, t)
	}
	for _, q := range m.Questions {
		text := q.Code
		if len(q.Entries) > 0 {
			text += ": " + strings.Join(w.labelsOf(m, q.Entries), " ")
		}
		j.Questions = append(j.Questions, text)
	}
	if m.Stands != nil {
		j.Stands = w.standsOf(m, m.Stands)
	}
	return j
}

func (w *told) labelsOf(m *history.Machine, places []int) []string {
	var labels []string
	for _, i := range places {
		if i < 0 {
			return []string{"no record: -1"}
		}
		labels = append(labels, w.Name(m.Entries[i].ID))
	}
	return labels
}

// runs writes many labels short: "r1 … r500".
func runs(labels []string) string {
	if len(labels) > 20 {
		return labels[0] + " … " + labels[len(labels)-1]
	}
	return strings.Join(labels, " ")
}

func (w *told) existsOf(m *history.Machine, e history.Existence) string {
	of := func(b *history.Bound) string {
		if b == nil {
			return "?"
		}
		text := fmt.Sprintf("%v %s", b.Date, b.Because)
		if b.Entry >= 0 {
			text += " " + w.Name(m.Entries[b.Entry].ID)
		}
		if b.Another {
			text += " of another"
		}
		return text
	}
	return of(e.NotBefore) + " … " + of(e.NotAfter)
}

func (w *told) faultOf(m *history.Machine, f history.Fault) string {
	text := string(f.Code)
	if f.Entry >= 0 {
		text += " of " + w.Name(m.Entries[f.Entry].ID)
	}
	if f.Other >= 0 {
		text += " against " + w.Name(m.Entries[f.Other].ID)
	}
	if f.Missing != nil {
		name := w.Name(f.Missing.ID)
		if name != "" {
			name = " " + name
		}
		if since := f.Missing.Since; since > 0 && since < f.Missing.Number {
			text += fmt.Sprintf(", numbers %d to %d%s", since, f.Missing.Number, name)
		} else {
			text += fmt.Sprintf(", number %d%s", f.Missing.Number, name)
		}
	}
	if f.Signer != (sign.PublicKey{}) {
		text += ", " + m.SignerName(f.Signer)
	}
	return text
}

func reachedOf(r history.Reached) string {
	text := string(r.State)
	if r.Hours != nil {
		text += fmt.Sprintf(", %v h", *r.Hours)
	}
	if r.Days != nil {
		text += fmt.Sprintf(", %d d", *r.Days)
	}
	if r.About {
		text += ", about"
	}
	return text
}

func (w *told) taskOf(m *history.Machine, t history.Task) historytest.TaskJudgement {
	j := historytest.TaskJudgement{Now: "nothing due", Overdue: fmt.Sprintf("%v of %v h", t.Overdue, t.Run), Inside: "-"}
	if t.Unknown > 0 {
		j.Overdue += fmt.Sprintf(", %v h not known", t.Unknown)
	}
	if t.Now != nil {
		j.Now = reachedOf(t.At)
	}
	if t.About {
		j.Overdue = "about " + j.Overdue
	}
	if share := t.InsideShare(); share != nil {
		j.Inside = share.Percent()
	}
	if t.Stated != nil {
		j.Stated = fmt.Sprintf("%v, %v h", t.Stated.Date, t.Stated.Hours)
	}
	var same []string // labels of those about which the same is told
	for i, d := range t.Done {
		same = append(same, w.Name(m.Entries[d.Entry].ID))
		if i+1 < len(t.Done) && reachedOf(t.Done[i+1].When) == reachedOf(d.When) {
			continue
		}
		j.Done = append(j.Done, runs(same)+": "+reachedOf(d.When))
		same = nil
	}
	for _, wait := range t.Waits {
		text := fmt.Sprintf("%v in %s, %v h, %d d", wait.Result, strings.Join(w.labelsOf(m, wait.Entries), " "), wait.Ran, wait.Took)
		if wait.Until != nil {
			text += fmt.Sprintf(", to %v", wait.Until.Date)
		} else {
			text += ", open"
		}
		if a := wait.Answer; a != nil {
			text += fmt.Sprintf(" (%s, %v, %v)", a.Why, a.Advice, a.Owner)
		}
		j.Waits = append(j.Waits, text)
	}
	if len(t.By) > 1 {
		for _, by := range t.By {
			j.By = append(j.By, fmt.Sprintf("edition %d from %v, %v", by.Edition, by.From.Date, by.Basis.Kind))
		}
	}
	return j
}

func (w *told) standsOf(m *history.Machine, s *history.Stands) *historytest.StandsJudgement {
	or := func(h *quantity.Hours) string {
		if h == nil {
			return "?"
		}
		return h.String()
	}
	j := &historytest.StandsJudgement{Hours: fmt.Sprintf("at %s, from %s to %s", or(s.Hours.At), or(s.Hours.Low), or(s.Hours.High)),
		Of: fmt.Sprintf("%d shown of %d", s.Shown, s.All), Shown: map[string]string{}, All: map[string]string{}}
	stood := func(s history.Stood) string {
		if s.Was == nil {
			return "no record"
		}
		text := reachedOf(s.At)
		if s.Most != "" {
			text += "; " + string(s.Most) + " at most"
		}
		return text
	}
	for _, t := range s.Tasks {
		j.Shown[t.Task], j.All[t.Task] = stood(t.Shown), stood(t.All)
	}
	return j
}
