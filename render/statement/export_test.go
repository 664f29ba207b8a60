package statement

import (
	"fmt"

	"hourseal/render/sheet"
	"hourseal/render/words"
	"hourseal/verify/history"
)

// Fault says what is wrong with a statement as it was set: something outside the area
// of its page and foot, or text that runs into text; "" if nothing is.
func Fault(m *history.Machine, in Settings) string {
	p, err := set(m, in)
	if err != nil {
		return err.Error()
	}
	across := pageArea(p.doc.Paper())
	across.H += sheet.MM(10) // the foot
	var texts []sheet.Placed
	for _, m := range p.doc.Placed() {
		if !across.Contains(m.Box) && m.Text != "" {
			return fmt.Sprintf("page %d: %q at %v is outside %v", m.Page, m.Text, m.Box, across)
		}
		if m.Text == "" {
			continue
		}
		for _, other := range texts {
			if other.Page == m.Page && m.Box.Overlaps(other.Box) {
				return fmt.Sprintf("page %d: %q at %v runs into %q at %v", m.Page, m.Text, m.Box, other.Text, other.Box)
			}
		}
		if len(texts) > 0 && texts[0].Page != m.Page {
			texts = nil
		}
		texts = append(texts, m)
	}
	return ""
}

// Texts are all texts of a statement, page by page.
func Texts(m *history.Machine, in Settings) ([][]string, error) {
	p, err := set(m, in)
	if err != nil {
		return nil, err
	}
	pages := make([][]string, p.doc.Pages())
	for _, m := range p.doc.Placed() {
		if m.Text != "" {
			pages[m.Page-1] = append(pages[m.Page-1], m.Text)
		}
	}
	return pages, nil
}

// Bars are the words at the ends of the bars, by task.
func Bars(m *history.Machine, in Settings) map[string]string {
	p, said := &page{m: m, in: in}, map[string]string{}
	p.texts = words.Statement()
	for i := range m.Tasks {
		said[m.Tasks[i].ID] = p.barWords(&m.Tasks[i])
	}
	return said
}

var (
	TicksOf    = ticksOf
	HoursScale = hoursScaleOf
)

// Tick is a tick of the axis of dates.
func (t tick) String() string { return t.text }
func (t tick) Date() string   { return t.date.String() }
func (s hoursScale) Ends() (low, high, step int64) {
	return int64(s.low), int64(s.high), int64(s.step)
}

// Clean is text as it is printed.
func Clean(text string) string { return (&page{}).clean(text) }
