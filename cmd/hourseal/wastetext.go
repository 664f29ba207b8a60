package main

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"hourseal/record/quantity"
	"hourseal/record/waste"
)

// wasteText prints the year: by system and by where it went, then what was drained
// with no record of where it went, then what the figures are.
func (p *program) wasteText(made yardWaste) {
	p.paragraph("", fmt.Sprintf("%s: waste fluids of %d", made.yard, made.Year))
	if made.soFar != "" {
		p.paragraph("", "The year is not over: as of "+made.soFar+".")
	}
	p.paragraph("", fmt.Sprintf("Read: %s of %s; of %d there are %d that count.",
		countOf(strconv.Itoa(made.Read), "record"), countOf(strconv.Itoa(made.machines), "machine"), made.Year, made.Counted))
	if made.named != nil {
		p.paragraph("", "Of "+strings.Join(made.named, ", ")+" only, not of the whole yard.")
	}
	if len(made.leftOut) > 0 {
		p.paragraph("", "Not in it, since the records could not be read: "+strings.Join(made.leftOut, ", ")+".")
	}
	p.say("")
	if made.Counted == 0 {
		p.paragraph("", fmt.Sprintf("No record of a job in %d.", made.Year))
		return
	}
	if len(made.Entries) == 0 {
		p.paragraph("", fmt.Sprintf("No record of %d says what became of waste.", made.Year))
		p.say("")
	}
	totals := made.Totals()
	w := wasteWords{made.style}
	for _, system := range made.BySystem() {
		p.wasteSystem(w, system, totals)
	}
	p.wasteUnaccounted(w, made.Account)
	p.wasteRemarks(made.Account)
}

// wasteWords says what became of waste, with figures in a style.
type wasteWords struct{ quantity.Style }

// wasteSystem prints one kind of waste, and the places where it went.
func (p *program) wasteSystem(w wasteWords, system waste.SystemTotal, totals []waste.Total) {
	p.paragraph("", system.System+": "+w.sumText(system.Sum))
	heads := append(w.litresHeads(), "kg", "jobs", "not measured")
	rows, notes := [][]string{append(heads, "where it went")}, []string{""}
	for _, t := range totals {
		if t.System != system.System {
			continue
		}
		rows = append(rows, append(w.litresCells(t.Litres), w.kilogramsOrDash(t.Weighed), strconv.Itoa(t.Jobs), countOrDash(t.NotMeasured), placeText(t.Place)))
		note := ""
		if n := len(t.Receipts); n > 0 {
			note = countOf(strconv.Itoa(n), "receipt") + ": " + strings.Join(t.Receipts, "; ")
		}
		notes = append(notes, note)
	}
	figuresRight(rows, len(heads))
	p.tableWithNotes("  ", rows, notes)
	p.say("")
}

// wasteUnaccounted prints what was drained with no record of where it went.
func (p *program) wasteUnaccounted(w wasteWords, a waste.Account) {
	if len(a.Unaccounted) == 0 {
		return
	}
	p.paragraph("", "Drained, and no record of where it went:")
	for _, system := range a.UnaccountedBySystem() {
		p.paragraph("  ", system.System+": "+w.sumText(system.Sum))
		rows, figures := [][]string{}, 0
		for _, d := range a.Unaccounted {
			if d.System != system.System {
				continue
			}
			r := d.From.Record
			cells := append([]string{w.Date(r.Job.Date)}, w.litresCells(d.Amount.Litres)...)
			if w.Second != 0 { // this table has no heads
				cells[2] = fmt.Sprintf("(%s %v)", cells[2], w.Second)
			}
			figures = len(cells)
			rows = append(rows, append(cells, fmt.Sprintf("%s, record %d (%s)", r.Machine.ID, r.Number, w.Marked(d.Drained.String()))))
		}
		figuresRight(rows, figures)
		p.table("    ", rows)
	}
	p.say("")
}

// wasteRemarks say what the figures are, and what they are not.
func (p *program) wasteRemarks(a waste.Account) {
	p.paragraph("", "Volumes are as measured, hot or cold, and not corrected to 15 °C. Filters and rags are not counted here.")
	for _, line := range densityLines(a) {
		p.paragraph("", line)
	}
	if slices.ContainsFunc(a.Entries, func(e waste.Entry) bool { return e.Waste.Held != "" }) {
		p.paragraph("", "Held is what was put there in the year; what a receiver has taken from there since is on no record.")
	}
	p.paragraph("", "Used oil goes to a proper receiver, kept apart and not mixed (2008/98/EC, article 21). Local codes govern.")
}

// densityLines say at which densities masses were turned into litres.
func densityLines(a waste.Account) []string {
	type basis struct {
		density quantity.Density
		assumed bool
	}
	counts := map[basis]int{}
	var order []basis
	count := func(amount waste.Amount) {
		if amount.Density == 0 {
			return
		}
		b := basis{amount.Density, amount.Assumed}
		if counts[b] == 0 {
			order = append(order, b)
		}
		counts[b]++
	}
	for _, e := range a.Entries {
		count(e.Amount)
	}
	for _, d := range a.Unaccounted {
		count(d.Amount)
	}
	var lines []string
	for _, b := range order {
		from := "as the record states"
		if b.assumed {
			from = "assumed, since the record states none"
		}
		lines = append(lines, fmt.Sprintf("%s turned into litres at %v, %s.", countOf(strconv.Itoa(counts[b]), "weighed amount"), b.density, from))
	}
	return lines
}

// sumText is a sum in words: "17.6 L in 2 jobs".
func (w wasteWords) sumText(s waste.Sum) string {
	jobs := countOf(strconv.Itoa(s.Jobs), "job")
	switch {
	case s.Litres == nil:
		return "not measured, in " + jobs
	case s.NotMeasured > 0:
		return fmt.Sprintf("%s in %s, and %s not measured", w.Hundredths(*s.Litres), jobs, countOf(strconv.Itoa(s.NotMeasured), "amount"))
	}
	return w.Hundredths(*s.Litres) + " in " + jobs
}

func placeText(place waste.Place) string {
	switch place.Where {
	case waste.Taken:
		return "to " + place.Name
	case waste.Held:
		return "held by the yard: " + place.Name
	}
	return "not stated"
}

// litresHeads are the heads of the columns that litresCells fills.
func (w wasteWords) litresHeads() []string {
	if w.Second == 0 {
		return []string{"litres"}
	}
	return []string{"litres", w.Second.String()}
}

// litresCells are litres without their unit, and the second unit where there is one.
func (w wasteWords) litresCells(v *quantity.Volume) []string {
	litres, second := "-", "-"
	if v != nil {
		litres = w.Marked(strings.TrimSuffix(v.Hundredths(), " L"))
		second, _ = w.InSecond(*v, 2)
	}
	return []string{litres, second}[:len(w.litresHeads())]
}

func (w wasteWords) kilogramsOrDash(m *quantity.Mass) string {
	if m == nil {
		return "-"
	}
	return w.Marked(m.Kilograms())
}

func countOrDash(n int) string {
	if n == 0 {
		return "-"
	}
	return strconv.Itoa(n)
}

// figuresRight puts the first columns of a table flush right.
func figuresRight(rows [][]string, columns int) {
	for column := range columns {
		width := 0
		for _, row := range rows {
			width = max(width, utf8.RuneCountInString(row[column]))
		}
		for _, row := range rows {
			row[column] = strings.Repeat(" ", width-utf8.RuneCountInString(row[column])) + row[column]
		}
	}
}
