package render

import (
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/recordtest"
	"hourseal/record/recordtest/outside"
	"hourseal/render/sheet"
	"hourseal/sign/qrtext"
)

// The rule for what does not fit, step by step, in a column of 60 pt.
func TestStackShrinksThenWrapsThenCuts(t *testing.T) {
	const width = 60 * sheet.Pt
	one := func(text string, height sheet.Len) setText {
		t.Helper()
		set, err := stack([]labelText{{text: text, style: labelNext}}, width, height)
		if err != nil {
			t.Fatal(err)
		}
		return set[0]
	}
	for _, c := range []struct {
		name   string
		text   string
		height sheet.Len
		size   sheet.Len // in 1/100 pt
		lines  []string
		cut    bool
	}{
		{"fits", "Harrow", 9 * sheet.Pt, 750, []string{"Harrow"}, false},
		{"smaller", "Serial 0045120", 9 * sheet.Pt, 750, []string{"Serial 0045120"}, false},
		{"smaller still", "Harrow HD 15W-40", 9 * sheet.Pt, 650, []string{"Harrow HD 15W-40"}, false},
		{"no room for two lines", "Harrow HD 15W-40 oil", 9 * sheet.Pt, 550, []string{"Harrow HD 15W-40 oil"}, false},
		{"two lines sooner than 5 pt", "Harrow HD 15W-40 oil", 18 * sheet.Pt, 750, []string{"Harrow HD", "15W-40 oil"}, false},
		{"two lines, no taller than there is room for", "Harrow HD 15W-40 oil", 15 * sheet.Pt, 625, []string{"Harrow HD 15W-40", "oil"}, false},
		{"two lines of 5 pt", "Harrow HD 15W-40 oil for diesels", 12 * sheet.Pt, 500, []string{"Harrow HD 15W-40 oil", "for diesels"}, false},
		{"an ellipsis", "Harrow HD 15W-40 oil for diesels", 9 * sheet.Pt, 500, []string{"Harrow HD 15W-40 oil…"}, true},
		{"an ellipsis in the last line", "Harrow HD 15W-40 oil for diesels, gears and generators", 12 * sheet.Pt, 500, []string{"Harrow HD 15W-40 oil", "for diesels, gears and…"}, true},
	} {
		got := one(c.text, c.height)
		if got.style.Size != c.size || !slices.Equal(got.lines, c.lines) || got.cut != c.cut {
			t.Errorf("%s: %d, %q, cut %v", c.name, got.style.Size, got.lines, got.cut)
		}
	}
}

// No line is wider than its column, the ellipsis included: also where the rest of
// a text is narrower joined than it was, by spaces at a break.
func TestNoLineOfALabelIsTooWide(t *testing.T) {
	cut := 0
	for _, text := range []string{
		"MMMM  WWWW  MMMM  WWWW  MMMM", "WeWW  °WiÄwMMr.,WeWW ", "Harrow HD 15W-40 oil  for diesels   and gears  ", "MWMWMWMWMWMWMWMWMWMWMW ", "a b  c   d    e     f",
	} {
		for width := 4 * sheet.Pt; width < 120*sheet.Pt; width += 7 {
			for most := 1; most <= 3; most++ {
				set := labelText{text: text, style: labelBody}.inLines(width, most)
				for _, line := range set.lines {
					if len([]rune(line)) > 1 && set.style.Width(line) > width {
						t.Fatalf("%q in %d, %d lines: %q is %d wide", text, width, most, line, set.style.Width(line))
					}
				}
				if set.cut {
					cut++
				}
			}
		}
	}
	if cut == 0 {
		t.Error("nothing was cut")
	}
}

// Room for further lines goes by rank; figures that would be cut are an error,
// and so is a box that is too low for one line each.
func TestStackKeepsWhatMatters(t *testing.T) {
	const width = 60 * sheet.Pt
	long := "Harrow HD 15W-40 oil for diesels, gears and generators"
	texts := []labelText{{text: long, style: labelBody, rank: 2}, {text: long, style: labelBody, rank: 1}}
	set, err := stack(texts, width, 24*sheet.Pt)
	if err != nil || len(set[0].lines) != 1 || len(set[1].lines) != 3 || !set[0].cut || set[1].cut {
		t.Errorf("%+v, %v", set, err)
	}
	texts[0].whole = true
	if _, err := stack(texts, width, 24*sheet.Pt); err == nil || !strings.Contains(err.Error(), "does not fit the label") {
		t.Errorf("a figure was cut: %v", err)
	}
	if _, err := stack(texts, width, 11*sheet.Pt); err == nil {
		t.Error("two lines in the height of one")
	}
}

// layoutFault says what is wrong with a label's page: a mark in the margin, text
// in text or in the white around the code, text under the smallest size, figures
// that are cut, modules too small to read.
func layoutFault(l *label) (string, *sheet.Placed) {
	placed := l.doc.Placed()
	safe := l.doc.Paper().Safe()
	codes := 0
	for i := range placed {
		m := &placed[i]
		if m.Page != 1 || !safe.Contains(m.Box) {
			return "outside", m
		}
		if least := leastSize * 96 / 100; m.Text != "" && m.Box.H < least { // ascent and descent
			return "too small", m
		}
		around := m.Box
		if m.Text == "" {
			codes++
			module := m.Box.W / sheet.Len(len(l.code.dark))
			if module < 100 { // 4.2 dots at 300 dpi
				return "modules too small", m
			}
			around = m.Box.Inset(-quietModules * module)
			if !safe.Contains(around) {
				return "white around the code outside", m
			}
		}
		for j := range placed {
			if i != j && around.Overlaps(placed[j].Box) {
				return "overlaps " + placed[j].Text, m
			}
		}
	}
	if codes != 1 {
		return "not one code", nil
	}
	return "", nil
}

func TestLabelsAreInOrder(t *testing.T) {
	for _, s := range labelScenarios {
		for _, size := range bothSizes {
			if fault, m := layoutFault(set(t, s.make(), size, "")); fault != "" {
				t.Errorf("%s, %v: %s: %+v", s.name, size, fault, m)
			}
		}
	}
}

// labelFits holds what is true of every label that could be set.
func labelFits(t *rapid.T, l *label) {
	if fault, m := layoutFault(l); fault != "" {
		t.Fatalf("%s: %+v", fault, m)
	}
	var all strings.Builder
	for _, m := range l.doc.Placed() {
		all.WriteString(m.Text)
	}
	said := squeeze(all.String())
	done, doneNote := l.done()
	next, nextNote := l.next()
	want := []string{done, doneNote, next, nextNote, l.id.String(), l.texts.Record, "Serial"}
	if l.r.PageHost != "" {
		want = append(want, l.texts.Warning)
	}
	for _, figure := range want {
		if !strings.Contains(said, squeeze(figure)) {
			t.Fatalf("%q is not on the label: %s", figure, said)
		}
	}
}

// Over records with texts as long as they may be, every one of them printable:
// each has its label, of both sizes, in order.
func TestLabelOfLongRecords(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := anyRecord(t)
		r.Tasks = append(r.Tasks, anyTask(t, len(r.Tasks)+1000))
		last := &r.Tasks[len(r.Tasks)-1]
		last.Result = record.Done
		if id := rapid.SampledFrom([]string{"", "engine-oil", "oil-filter", "coolant"}).Draw(t, "well known"); id != "" {
			last.ID = id
		}
		if last.Due.Hours != nil {
			last.Due.Hours = new(number[quantity.Hours](t, "due", 0, quantity.MaxHours))
		}
		if len(r.Fluids) > 0 && rapid.Bool().Draw(t, "filled") {
			r.Fluids[0].System, r.Fluids[0].Filled = last.ID, ptr(anyMeasured(t))
		}
		if r.Kind == record.Void {
			r.Kind = record.Correction
		}
		if m := &r.Job.Meter; m.State == record.Running && rapid.Bool().Draw(t, "meter changed") {
			r.Job.Hours = number[quantity.Hours](t, "total", 0, quantity.MaxHours)
			m.Reading = new(number[quantity.Hours](t, "reading", 0, quantity.MaxHours))
			m.Offset = r.Job.Hours - *m.Reading
		}
		if err := r.Validate(); err != nil {
			t.Fatalf("the generator made a record that is not valid: %v", err)
		}
		for _, size := range bothSizes {
			l, err := setLabel(r, labelID, size, "")
			if err != nil {
				t.Fatal(err)
			}
			labelFits(t, l)
		}
	})
}

// Over any records whatever, printable or not: a label in order, or an error
// that says why there is none.
func TestLabelOfAnyRecord(t *testing.T) {
	made := 0
	reasons := regexp.MustCompile(`has no glyph in the fonts$|^no task was done on this job|^this record says that another does not count|^task .* was not done|^the record has no task`)
	rapid.Check(t, func(t *rapid.T) {
		r := recordtest.Random(t)
		task := rapid.SampledFrom([]string{"", "", "engine-oil", "impeller"}).Draw(t, "task")
		size := rapid.SampledFrom(bothSizes).Draw(t, "size")
		if rapid.Bool().Draw(t, "plain") { // else nearly none is printable
			plain(reflect.ValueOf(r).Elem())
		}
		l, err := setLabel(r, labelID, size, task)
		if err != nil {
			if !reasons.MatchString(err.Error()) {
				t.Fatalf("error of another kind: %v", err)
			}
			return
		}
		made++
		labelFits(t, l)
	})
	if made == 0 {
		t.Error("no record of them had a label")
	}
}

// plain puts an x for every character that cannot be printed.
func plain(v reflect.Value) {
	switch v.Kind() {
	case reflect.String:
		v.SetString(strings.Map(func(r rune) rune {
			if sheet.CheckGlyphs(string(r)) != nil {
				return 'x'
			}
			return r
		}, v.String()))
	case reflect.Pointer:
		if !v.IsNil() {
			plain(v.Elem())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			plain(v.Field(i))
		}
	case reflect.Slice:
		for i := range v.Len() {
			plain(v.Index(i))
		}
	}
}

// poppler and zbar: one page of exactly the size, with a code that is read at
// 300 dpi as exactly the text, by gozxing too.
func TestLabelOnThePrinter(t *testing.T) {
	sizes := map[LabelSize]string{Label62x29: "175.75 x 82.2 pts", Label40x40: "113.39 x 113.39 pts"}
	for _, s := range labelScenarios {
		for _, size := range bothSizes {
			t.Run(s.name+" "+size.String(), func(t *testing.T) {
				r := s.make()
				path := onDisk(t, "label.pdf", must(Label(r, labelID, size, "")))
				info := outside.Run(t, "pdfinfo", path)
				if !regexp.MustCompile(`(?m)^Pages: +1$`).MatchString(info) || !regexp.MustCompile(`(?m)^Page size: +`+regexp.QuoteMeta(sizes[size])+`( |$)`).MatchString(info) {
					t.Errorf("not one page of %s:\n%s", sizes[size], info)
				}
				if said := outside.Run(t, "qpdf", "--check", path); strings.Contains(said, "WARNING") {
					t.Error(said)
				}
				file, img := raster(t, path, 1, 300)
				want := must(qrtext.Reference(r.PageHost, [qrtext.ShortBytes]byte(labelID[:qrtext.ShortBytes])))
				if got := strings.TrimSuffix(outside.Run(t, "zbarimg", "--quiet", "--raw", "-Sdisable", "-Sqrcode.enable", file), "\n"); got != want {
					t.Errorf("zbar read %q, want %q", got, want)
				}
				for _, m := range set(t, r, size, "").doc.Placed() {
					if m.Text == "" {
						if got := decode(t, cut(img, m.Box, 300)); got != want {
							t.Errorf("gozxing read %q, want %q", got, want)
						}
					}
				}
			})
		}
	}
}

// Every word of a label can be printed.
func TestLabelWordsHaveGlyphs(t *testing.T) {
	texts := labelTexts()
	var walk func(v reflect.Value)
	walk = func(v reflect.Value) {
		switch v.Kind() {
		case reflect.String:
			if err := sheet.CheckGlyphs(v.String()); err != nil {
				t.Errorf("%q: %v", v.String(), err)
			}
		case reflect.Map:
			for _, key := range v.MapKeys() {
				walk(v.MapIndex(key))
			}
		case reflect.Struct:
			for i := range v.NumField() {
				walk(v.Field(i))
			}
		case reflect.Slice:
			for i := range v.Len() {
				walk(v.Index(i))
			}
		}
	}
	walk(reflect.ValueOf(texts))
}
