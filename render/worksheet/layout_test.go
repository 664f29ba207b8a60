package worksheet

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/plan"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
	"hourseal/render/sheet"
	"hourseal/render/words"
)

// sound says what is wrong with a sheet as it was set: something outside the
// page, or text that runs into text, a rule or a box to tick.
func sound(p *page) string {
	paper, area := p.doc.Paper(), pageArea(p.paper())
	across := area
	across.Y, across.H = sheet.MM(6), paper.H-2*sheet.MM(6)
	placed := p.doc.Placed()
	for i, m := range placed {
		if !across.Contains(m.Box) {
			return fmt.Sprintf("page %d: %q at %v is outside %v", m.Page, m.Text, m.Box, across)
		}
		for _, other := range placed[:i] {
			if m.Page != other.Page || !m.Box.Overlaps(other.Box) || m.Text == "" && other.Text == "" {
				continue
			}
			if m.Text != "" && other.Text != "" || thin(m) || thin(other) {
				return fmt.Sprintf("page %d: %q at %v runs into %q at %v", m.Page, m.Text, m.Box, other.Text, other.Box)
			}
		}
	}
	return ""
}

// thin is a rule to write on, or a box to tick.
func thin(m sheet.Placed) bool {
	return m.Text == "" && (m.Box.H <= sheet.Pt && m.Box.W > 12*sheet.Pt || m.Box.W == tickSide && m.Box.H == tickSide)
}

func TestSheetsAreSound(t *testing.T) {
	sheets := map[string]Sheet{"due": gannet(t), "plug": plugged(t), "nothing": quiet(t), "forty": forty(t), "wide": longest(t, "W"), "narrow": longest(t, "i"), "otherwise": otherwise(t), "longest otherwise": longestOtherwise(t), "words": longest(t, "m ")}
	for _, m := range machines {
		sheets[m.schedule+" on a "+m.kind] = all(t, m.kind, m.schedule)
	}
	for name, s := range sheets {
		for _, paper := range []record.Paper{record.A4, record.Letter} {
			s.Yard.Paper = paper
			p, err := set(s)
			if err != nil {
				t.Errorf("%s: %v", name, err)
				continue
			}
			if fault := sound(p); fault != "" {
				t.Errorf("%s on %v: %s", name, paper, fault)
			}
		}
	}
}

// letters are what random text is made of: wide ones, narrow ones, spaces, and
// some that are not Latin.
var letters = []rune("WMmw il.,-/0189 aeEnorstX ÄéłΩЖ°[]{}")

func line(t *rapid.T, name string, limit int) string {
	n := rapid.OneOf(rapid.IntRange(0, 12), rapid.IntRange(0, limit), rapid.Just(limit)).Draw(t, name+" length")
	return strings.TrimSpace(rapid.StringOfN(rapid.SampledFrom(letters), n, n, -1).Draw(t, name))
}

func anyDue(t *rapid.T) schedule.Due {
	var due schedule.Due
	if rapid.Bool().Draw(t, "by hours") {
		due.Hours = new(quantity.Hours(rapid.Int64Range(0, int64(quantity.MaxHours)).Draw(t, "due hours")))
	}
	if rapid.Bool().Draw(t, "by date") {
		due.Date = new(quantity.Date(rapid.Int64Range(0, 60000).Draw(t, "due date")))
	}
	return due
}

func anyItem(t *rapid.T, id string) plan.Item {
	item := plan.Item{
		Task: schedule.Task{ID: id, Title: "x" + line(t, "title", record.MaxText-1), Kind: schedule.Kind(rapid.IntRange(1, 5).Draw(t, "kind")),
			Needs: schedule.Needs{Part: line(t, "part", record.MaxText), Reading: line(t, "reading", record.MaxText), LeakCheck: rapid.Bool().Draw(t, "leaks"),
				Drained: rapid.SampledFrom([]string{"", "engine-oil", strings.Repeat("w", 40)}).Draw(t, "drained")}},
		State: schedule.State(rapid.IntRange(1, 4).Draw(t, "state")), Due: anyDue(t), By: rapid.SampledFrom([]string{"", "hours", "date"}).Draw(t, "by"),
	}
	if rapid.Bool().Draw(t, "left") {
		item.HoursLeft = new(quantity.Hours(rapid.Int64Range(-99_999_999, 99_999_999).Draw(t, "hours left")))
		item.DaysLeft = new(quantity.Days(rapid.Int64Range(-9999, 9999).Draw(t, "days left")))
	}
	if rapid.Bool().Draw(t, "done") {
		item.Last = &plan.Last{Source: "invoice"}
	}
	if rapid.Bool().Draw(t, "open") {
		item.Open = &plan.Open{Result: record.Result(rapid.IntRange(3, 5).Draw(t, "result")), LookAgain: anyDue(t),
			Answer: &record.Answer{Why: line(t, "why", record.MaxReason)}}
	}
	return item
}

// Over random sheets: nothing is outside, nothing runs into anything, every title,
// reason and part is there, and no page parts a step from its lines to write on.
func TestNothingIsLostOrOutside(t *testing.T) {
	known := loadSchedule(t, "diesel-inboard").Tasks
	example := gannet(t)
	rapid.Check(t, func(t *rapid.T) {
		s := Sheet{Yard: example.Yard, Plan: example.Plan, Kit: plan.Kit{}}
		s.Yard.Paper = record.Paper(rapid.IntRange(1, 2).Draw(t, "paper"))
		s.Yard.Name = "x" + line(t, "yard", record.MaxText-1)
		m := &s.Plan.Machine
		for _, text := range []*string{&m.Make, &m.Model, &m.Serial, &m.Vessel.Name, &m.Position} {
			*text = "x" + line(t, "text", record.MaxText-1)
		}
		m.Kind = rapid.SampledFrom([]string{"propulsion diesel", "petrol outboard", "sail drive", "reduction gear", "winch"}).Draw(t, "kind")
		s.Plan.Hours.Given = rapid.Bool().Draw(t, "given")
		s.Plan.Hours.Offset = quantity.Hours(rapid.Int64Range(-9999, 9999).Draw(t, "offset"))
		s.Drain = rapid.SampledFrom([]string{"", "extractor", "plug"}).Draw(t, "drain")
		for i := range rapid.IntRange(0, record.MaxTasks).Draw(t, "tasks") {
			id := rapid.SampledFrom([]string{fmt.Sprint("t", i), known[i%len(known)].ID}).Draw(t, "id")
			s.Work = append(s.Work, anyItem(t, id))
		}
		s.Plan.Items = s.Work
		for range rapid.IntRange(0, 4).Draw(t, "parts") {
			s.Kit.Parts = append(s.Kit.Parts, plan.Part{Item: "x" + line(t, "item", record.MaxText-1), Number: line(t, "number", record.MaxText), Quantity: 1})
		}
		if len(s.Work) == 0 {
			s.Plan.Items = example.Plan.Items
		}
		p, err := set(s)
		if err != nil {
			t.Fatal(err)
		}
		if fault := sound(p); fault != "" {
			t.Fatal(fault)
		}
		area := pageArea(p.paper())
		var all strings.Builder
		for _, m := range p.doc.Placed() {
			if area.Contains(m.Box) && !strings.HasSuffix(m.Text, "(continued)") {
				all.WriteString(m.Text)
			}
		}
		said := squeeze(all.String())
		want := []string{s.Yard.Name, m.Serial, m.Make, m.Model, m.Vessel.Name, m.Position}
		for _, item := range s.Work {
			want = append(want, item.Task.Title)
			if item.Open != nil {
				want = append(want, item.Open.Answer.Why)
			}
		}
		if len(s.Work) > 0 {
			for _, part := range s.Kit.Parts {
				want = append(want, part.Number)
			}
		}
		for _, text := range want {
			if !strings.Contains(said, squeeze(text)) {
				t.Fatalf("the sheet does not have %q", text)
			}
		}
		numbersWithTheirSteps(t, p)
	})
}

// numbersWithTheirSteps: every step's number, its box and its first words are on
// one page, and there are as many as the job has steps.
func numbersWithTheirSteps(t *rapid.T, p *page) {
	boxes, steps := 0, 0
	for _, phase := range words.Steps(p.job()) {
		steps += len(phase.Steps)
	}
	area := p.flow.Area()
	for _, m := range p.doc.Placed() {
		if m.Text == "" && m.Box.W == tickSide && m.Box.H == tickSide && m.Box.Right() == area.X+boxColumn {
			boxes++
		}
	}
	if len(p.Work) == 0 {
		steps = 0
	}
	if boxes != steps {
		t.Fatalf("%d boxes for %d steps", boxes, steps)
	}
}

func squeeze(text string) string { return strings.NewReplacer(" ", "", "\n", "").Replace(text) }

// A page never begins with lines to write on: they stand with their step. A
// heading never ends one, and every page has its number, machine and date.
func TestPagesBreakWell(t *testing.T) {
	for _, paper := range []record.Paper{record.A4, record.Letter} {
		s := forty(t)
		s.Yard.Paper = paper
		p, err := set(s)
		if err != nil {
			t.Fatal(err)
		}
		area := p.flow.Area()
		lowest := map[int]sheet.Placed{}
		furniture := map[int]string{}
		numbers := map[sheet.Len]bool{}
		for _, m := range p.doc.Placed() {
			if !area.Contains(m.Box) {
				furniture[m.Page] += m.Text + "|"
				continue
			}
			if m.Text != "" && m.Box.Y > lowest[m.Page].Box.Y {
				lowest[m.Page] = m
			}
			numbers[m.Box.Y] = true
		}
		headings := map[string]bool{p.texts.Results.Heading: true, p.texts.Results.Waste: true, p.texts.Due.Heading: true, p.texts.Kit.Heading: true}
		for i, phase := range words.Steps(p.job()) {
			headings[fmt.Sprintf("%d %s", i+1, phase.Title)] = true
		}
		for page := 1; page <= p.doc.Pages(); page++ {
			if at := lowest[page]; headings[at.Text] || headings[strings.TrimSuffix(at.Text, " (continued)")] {
				t.Errorf("page %d ends with the heading %q", page, at.Text)
			}
			for _, want := range []string{fmt.Sprintf("Page %d of %d", page, p.doc.Pages()), "Gannet, Corrin 4T-75, port · 2026-11-25", "serial 0045120"} {
				if !strings.Contains(furniture[page], want) {
					t.Errorf("page %d has no %q: %s", page, want, furniture[page])
				}
			}
		}
		// The table of the items and that of the results go over a page each: the
		// titles of their columns come again.
		for title, least := range map[string]int{"Why now": 2, "put off": 2} {
			n := 0
			for _, m := range p.doc.Placed() {
				if m.Text == title {
					n++
				}
			}
			if n < least {
				t.Errorf("%v: column title %q stands %d times", paper, title, n)
			}
		}
	}
}
