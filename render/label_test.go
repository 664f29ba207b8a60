package render

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"slices"
	"strings"
	"sync"
	"testing"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
	"hourseal/render/sheet"
	"hourseal/sign"
)

// labelID is what the tests' labels name: 3f2a 91c0 77de 0b14 and no more.
var labelID = sign.ID{0x3f, 0x2a, 0x91, 0xc0, 0x77, 0xde, 0x0b, 0x14}

var bothSizes = []LabelSize{Label62x29, Label40x40}

// leastDone is the shortest record that there is a label of.
func leastDone() *record.Record {
	r := shortest()
	r.Tasks = []record.Task{{ID: "exhaust", Title: "Look over the exhaust elbow, mixer, hose and clamps", Kind: schedule.Inspect, Result: record.OK,
		Every: schedule.Interval{Months: 12}, Due: schedule.Due{Date: new(r.Job.Date + 365)}}}
	return r
}

// fullest has as much on its label as a record may say.
func fullest() *record.Record {
	r := example()
	full := func(text string, limit int) string { return strings.TrimSpace(strings.Repeat(text, limit)[:limit]) }
	r.Machine.Vessel, r.Machine.Position = full("Gannet of Port Ellery ", record.MaxText), full("port ", record.MaxText)
	r.Machine.Serial, r.Machine.Make = full("0045120-", record.MaxText), full("Corrin and Daughters ", record.MaxText)
	r.Fluids[0].Product, r.Issuer.Name = full("Harrow HD ", record.MaxText), full("WWWW ", record.MaxText)
	r.PageHost = full("w", 60) + "." + full("i", 59)
	r.Job.Hours, r.Job.Meter.Offset = hours("999999.99"), hours("12345.67")
	r.Job.Meter.Reading = new(r.Job.Hours - r.Job.Meter.Offset)
	for i := range 2 {
		r.Tasks[i].Due.Hours = new(quantity.MaxHours)
	}
	return r
}

// labelScenarios are the records whose labels the layout is held to; they were
// looked at as pictures.
var labelScenarios = []struct {
	name string
	make func() *record.Record
}{{"shortest", leastDone}, {"example", example}, {"longest, meter changed", longest}, {"fullest", fullest}}

// said is every line of text on a label, from the top, the left column first.
func said(t testing.TB, l *label) []string {
	t.Helper()
	var lines []string
	for _, m := range l.doc.Placed() {
		if m.Text != "" {
			lines = append(lines, m.Text)
		}
	}
	return lines
}

func set(t testing.TB, r *record.Record, size LabelSize, task string) *label {
	t.Helper()
	l, err := setLabel(r, labelID, size, task)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func TestLabelSays(t *testing.T) {
	const id, warning, warning1, warning2 = "3f2a 91c0 77de 0b14", "Do not trust a page that this code opens.", "Do not trust a page that", "this code opens."
	for _, c := range []struct {
		name   string
		make   func() *record.Record
		wide   []string // 62 by 29 mm
		square []string // 40 by 40 mm
	}{
		{"example", example,
			[]string{"Oil and filter", "2026-05-04 · 812.6 h", "Next by 1012.6 h or 2027-05-04", "whichever first",
				"Gannet, port", "Serial 0045120 · Corrin 4T-75", "Harrow HD 15W-40", "Service record · Ellery Slip Boatyard", id, warning1, warning2},
			[]string{warning, "Oil and filter", "2026-05-04 · 812.6 h", "Next by 1012.6 h or 2027-05-04", "whichever first",
				"Gannet, port", "Serial 0045120", "Corrin 4T-75", "Harrow HD", "15W-40", "Service record · Ellery", "Slip Boatyard", id}},
		// 700 h on an earlier meter: this one reads 112.6, and 312.6 when the
		// total is 1012.6.
		{"meter changed", longest,
			[]string{"Oil and filter", "2026-05-04 · 112.6 h", "as the meter reads; 812.6 h in total", "Next by 312.6 h or 2027-05-04", "1012.6 h in total, whichever first",
				"Gannet, port", "Serial 0045120 · Corrin 4T-75", "Harrow HD 15W-40", "Service record · Ellery Slip Boatyard", id, warning1, warning2},
			[]string{warning, "Oil and filter", "2026-05-04 · 112.6 h", "as the meter reads; 812.6 h in total", "Next by 312.6 h or 2027-05-04", "1012.6 h in total, whichever first",
				"Gannet, port", "Serial 0045120", "Corrin 4T-75", "Harrow HD", "15W-40", "Service record · Ellery", "Slip Boatyard", id}},
		// No vessel, no position, no page, no meter, nothing filled, an owner.
		{"shortest", leastDone,
			[]string{"Look over the exhaust", "elbow, mixer, hose and", "clamps", "2026-01-02 · 3 h", "hours in total, an estimate", "Next by 2027-01-02",
				"Serial 7 · Corrin G6", "Service record · E. Slip", id},
			[]string{"Look over the exhaust elbow,", "mixer, hose and clamps", "2026-01-02 · 3 h", "hours in total, an estimate", "Next by 2027-01-02",
				"Serial 7", "Corrin G6", "Service record · E. Slip", id}},
	} {
		for size, want := range map[LabelSize][]string{Label62x29: c.wide, Label40x40: c.square} {
			if got := said(t, set(t, c.make(), size, "")); !slices.Equal(got, want) {
				t.Errorf("%s, %v: got\n%q, want\n%q", c.name, size, got, want)
			}
		}
	}
}

// Hours and due hours, and the notes beside them, as the meter has it.
func TestLabelHours(t *testing.T) {
	due := func(h, date string) schedule.Due {
		var d schedule.Due
		if h != "" {
			d.Hours = new(hours(h))
		}
		if date != "" {
			d.Date = new(must(quantity.ParseDate(date)))
		}
		return d
	}
	ran := func(reading, offset string) record.Meter {
		m := record.Meter{State: record.Running, Reading: new(hours(reading))}
		if offset != "" {
			m.Offset = hours(offset)
		}
		return m
	}
	const both, byHours, byDate = "1012.6", "1012.6", "2027-05-04"
	for _, c := range []struct {
		name  string
		meter record.Meter
		due   schedule.Due
		want  [4]string // done and its note, next and its note
	}{
		{"both", ran("812.6", ""), due(both, byDate), [4]string{"812.6 h", "", "Next by 1012.6 h or 2027-05-04", "whichever first"}},
		{"hours", ran("812.6", ""), due(byHours, ""), [4]string{"812.6 h", "", "Next by 1012.6 h", ""}},
		{"date", ran("812.6", ""), due("", byDate), [4]string{"812.6 h", "", "Next by 2027-05-04", ""}},
		{"once", ran("812.6", ""), due("", ""), [4]string{"812.6 h", "", "No next one recorded as due", ""}},
		{"changed, hours", ran("112.6", "700"), due(byHours, ""), [4]string{"112.6 h", "as the meter reads; 812.6 h in total", "Next by 312.6 h", "1012.6 h in total"}},
		{"changed, date", ran("112.6", "700"), due("", byDate), [4]string{"112.6 h", "as the meter reads; 812.6 h in total", "Next by 2027-05-04", ""}},
		{"changed, due under the old meter", ran("112.6", "700"), due("650", byDate), [4]string{"112.6 h", "as the meter reads; 812.6 h in total", "Next by 650 h or 2027-05-04", "hours in total, whichever first"}},
		{"fitted with hours on it", record.Meter{State: record.Running, Reading: new(hours("912.6")), Offset: -100 * quantity.Hour}, due(byHours, ""),
			[4]string{"912.6 h", "as the meter reads; 812.6 h in total", "Next by 1112.6 h", "1012.6 h in total"}},
		{"stopped", record.Meter{State: record.Stopped, Basis: "log"}, due(both, byDate), [4]string{"812.6 h", "hours in total, an estimate", "Next by 1012.6 h or 2027-05-04", "whichever first"}},
		{"none", record.Meter{State: record.NoMeter, Basis: "log"}, due(byHours, ""), [4]string{"812.6 h", "hours in total, an estimate", "Next by 1012.6 h", ""}},
	} {
		r := example()
		r.Job.Meter = c.meter
		l := &label{r: r, texts: labelTexts(), task: labelTask{due: c.due}}
		done, doneNote := l.done()
		next, nextNote := l.next()
		if got := [4]string{strings.TrimPrefix(done, "2026-05-04 · "), doneNote, next, nextNote}; got != c.want {
			t.Errorf("%s: got\n%q, want\n%q", c.name, got, c.want)
		}
	}
}

// The same record gives the same bytes, from many goroutines at once too, and
// each argument makes a difference.
func TestLabelIsTheSameEveryTime(t *testing.T) {
	for _, s := range labelScenarios {
		for _, size := range bothSizes {
			r := s.make()
			first := must(Label(r, labelID, size, ""))
			var wg sync.WaitGroup
			for range 4 {
				wg.Go(func() {
					for range 2 {
						if again, err := Label(r, labelID, size, ""); err != nil || !bytes.Equal(again, first) {
							t.Errorf("%s, %v: another file (%v)", s.name, size, err)
						}
					}
				})
			}
			wg.Wait()
			if !bytes.Equal(must(record.Encode(r)), must(record.Encode(s.make()))) {
				t.Errorf("%s: the record was changed", s.name)
			}
		}
	}
	seen := map[[32]byte]bool{}
	for _, task := range []string{"", "engine-oil"} {
		for _, size := range bothSizes {
			for _, id := range []sign.ID{{}, labelID} {
				seen[sha256.Sum256(must(Label(example(), id, size, task)))] = true
			}
		}
	}
	if len(seen) != 8 {
		t.Errorf("%d files for 8 labels", len(seen))
	}
}

func TestLabelRefuses(t *testing.T) {
	glyphless, outside, void, badHost := example(), example(), example(), example()
	glyphless.Machine.Vessel = "水"
	outside.Job.Hours = -1
	void.Kind, void.Subject = record.Void, &record.Subject{Why: "two meters were mixed up"}
	badHost.PageHost = "ellery"
	hidden := fullest()
	hidden.Issuer.Name = hidden.Issuer.Name[:record.MaxText-2] + "水"
	for name, c := range map[string]struct {
		r    *record.Record
		size LabelSize
		want string
	}{
		"nothing done":                       {shortest(), Label62x29, "no task was done on this job: there is nothing to put on a label"},
		"no record":                          {nil, Label62x29, "no record to print"},
		"no size":                            {example(), 0, "no label of size LabelSize(0): take 62x29 or 40x40"},
		"another size":                       {example(), 9, "no label of size LabelSize(9)"},
		"void":                               {void, Label40x40, "this record says that another does not count"},
		"not valid":                          {outside, Label40x40, "hours: -1 is outside 0 to"},
		"not a host":                         {badHost, Label40x40, `host name "ellery" has no dot`},
		"no glyph":                           {glyphless, Label40x40, "has no glyph in the fonts"},
		"no glyph, where an ellipsis stands": {hidden, Label40x40, "has no glyph in the fonts"},
	} {
		pdf, err := Label(c.r, labelID, c.size, "")
		if err == nil || pdf != nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: got %v, want %s", name, err, c.want)
		}
		if glyph := strings.HasPrefix(name, "no glyph"); glyph != errors.Is(err, sheet.ErrNoGlyph) {
			t.Errorf("%s: error of another kind: %v", name, err)
		}
	}
}

func TestParseLabelSize(t *testing.T) {
	for _, size := range bothSizes {
		if got, err := ParseLabelSize(size.String()); err != nil || got != size {
			t.Errorf("%v: %v, %v", size, got, err)
		}
	}
	for _, text := range []string{"", "62", "29x62", "62 x 29", "40x40mm", "LabelSize(0)"} {
		if _, err := ParseLabelSize(text); err == nil || !strings.HasSuffix(err.Error(), "write 62x29 or 40x40") {
			t.Errorf("%q: %v", text, err)
		}
	}
}
