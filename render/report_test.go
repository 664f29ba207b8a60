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
	"hourseal/render/sheet"
	"hourseal/sign"
)

// The same record gives the same bytes: in a row, and from many goroutines at
// once (run it with -race).
func TestReportIsTheSameEveryTime(t *testing.T) {
	for _, s := range scenarios {
		x := seal(t, s.make())
		want := sha256.Sum256(x.report(t))
		for range 3 {
			if sha256.Sum256(x.report(t)) != want {
				t.Fatalf("%s: another file the second time", s.name)
			}
		}
		var wg sync.WaitGroup
		for range 8 {
			wg.Go(func() {
				for range 2 {
					pdf, err := Report(x.record, x.envelope, x.texts, nil)
					if err != nil || sha256.Sum256(pdf) != want {
						t.Errorf("%s: another file under several goroutines (%v)", s.name, err)
					}
				}
			})
		}
		wg.Wait()
	}
}

// What Report is given it does not write to.
func TestReportLeavesItsArgumentsAlone(t *testing.T) {
	x := seal(t, example())
	keys := []byte("key statements")
	envelope, texts := bytes.Clone(x.envelope), strings.Join(x.texts, "|")
	if _, err := Report(x.record, x.envelope, x.texts, keys); err != nil {
		t.Fatal(err)
	}
	payload, err := record.Encode(x.record)
	if err != nil {
		t.Fatal(err)
	}
	if opened, err := sign.Open(sign.RecordV1, envelope); err != nil || !bytes.Equal(opened.Payload, payload) {
		t.Error("the record was changed")
	}
	if !bytes.Equal(envelope, x.envelope) || texts != strings.Join(x.texts, "|") || string(keys) != "key statements" {
		t.Error("an argument was changed")
	}
}

// Every argument is in the file: changing one changes the bytes.
func TestReportDependsOnEveryArgument(t *testing.T) {
	x := seal(t, example())
	seen := map[[32]byte]string{sha256.Sum256(x.report(t)): "nothing"}
	add := func(name string, pdf []byte, err error) {
		t.Helper()
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		sum := sha256.Sum256(pdf)
		if other, twice := seen[sum]; twice {
			t.Errorf("%s and %s: the same file", name, other)
		}
		seen[sum] = name
	}
	pdf, err := Report(x.record, x.envelope, x.texts, []byte("statements"))
	add("key statements", pdf, err)
	pdf, err = Report(x.record, x.envelope, append(slices.Clone(x.texts), x.texts[0]), nil)
	add("one text more", pdf, err)
	later := example()
	later.IssuedAt++
	y := seal(t, later)
	pdf, err = Report(y.record, y.envelope, y.texts, nil)
	add("a second later", pdf, err)
}

func TestReportRefuses(t *testing.T) {
	x, other := seal(t, example()), seal(t, shortest())
	foreign := example()
	foreign.Renderer = RendererID + 1
	y := seal(t, foreign)
	broken := bytes.Clone(x.envelope)
	broken[len(broken)-1] ^= 1
	glyphless := example()
	glyphless.Notes = "水"
	z := seal(t, glyphless)
	statement, err := sign.Seal(sign.KeyStatementV1, []byte("x"), testKey())
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name     string
		record   *record.Record
		envelope []byte
		texts    []string
		is       error
	}{
		{"no record", nil, x.envelope, x.texts, nil},
		{"another layout", y.record, y.envelope, y.texts, ErrUnknownRenderer},
		{"a broken signature", x.record, broken, x.texts, sign.ErrBadSignature},
		{"no envelope", x.record, nil, x.texts, sign.ErrMalformed},
		{"a key statement", x.record, statement, x.texts, sign.ErrBadSignature},
		{"another record's envelope", x.record, other.envelope, x.texts, nil},
		{"no text", x.record, x.envelope, nil, nil},
		{"an empty text", x.record, x.envelope, []string{""}, nil},
		{"a text beyond any code", x.record, x.envelope, []string{strings.Repeat("9", 8000)}, nil},
		{"a hundred texts", x.record, x.envelope, make([]string, 100), nil},
		{"a character without a glyph", z.record, z.envelope, z.texts, sheet.ErrNoGlyph},
		{"a record that is not valid", &record.Record{Renderer: RendererID}, x.envelope, x.texts, nil},
	} {
		pdf, err := Report(c.record, c.envelope, c.texts, nil)
		if err == nil || pdf != nil {
			t.Errorf("%s: passed", c.name)
		} else if c.is != nil && !errors.Is(err, c.is) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

func TestPrintable(t *testing.T) {
	for _, s := range scenarios {
		if err := Printable(s.make()); err != nil {
			t.Errorf("%s: %v", s.name, err)
		}
	}
	for _, c := range []struct {
		change func(*record.Record)
		want   string
	}{
		{func(r *record.Record) { r.Machine.Serial = "00½水" }, "machine, serial: character '水' (U+6C34) has no glyph in the fonts: leave it out"},
		{func(r *record.Record) { r.Tasks[1].Title = "✓ oil" }, "tasks 2, title: character '✓' (U+2713) has no glyph in the fonts: leave it out"},
		{func(r *record.Record) { r.Tasks[2].Answer.Why = "שמן" }, "tasks 3, answer, why: character 'ש' (U+05E9) has no glyph in the fonts: leave it out"},
		{func(r *record.Record) { r.Fluids[0].Meets[0] = "API 🚤" }, "fluids 1, meets 1: character '🚤' (U+1F6A4) has no glyph in the fonts: leave it out"},
		{func(r *record.Record) { r.Tasks[4].Readings[0].Name = "ⅷ" }, "tasks 5, readings 1, name: character 'ⅷ' (U+2177) has no glyph in the fonts: leave it out"},
		{func(r *record.Record) { r.OtherWork[0].DoneBy = "\u202e" }, `other work 1, done by: character '\u202e' (U+202E) has no glyph in the fonts: leave it out`},
		{func(r *record.Record) { r.Issuer.Name = "a\x00" }, `issuer, name: character '\x00' (U+0000) has no glyph in the fonts: leave it out`},
		{func(r *record.Record) { r.Notes = "a\nb✗" }, "notes: character '✗' (U+2717) has no glyph in the fonts: leave it out"},
	} {
		r := example()
		c.change(r)
		err := Printable(r)
		if !errors.Is(err, sheet.ErrNoGlyph) || err.Error() != c.want {
			t.Errorf("got %v\nwant %s", err, c.want)
		}
	}
	if Printable(nil) == nil {
		t.Error("no record passed")
	}
}

func BenchmarkReport(b *testing.B) {
	x := seal(b, example())
	x.texts = x.texts[:1] // as for a record that fits one code
	for b.Loop() {
		if _, err := Report(x.record, x.envelope, x.texts, nil); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkQR(b *testing.B) {
	x := seal(b, example())
	for b.Loop() {
		if _, err := symbolOf(x.texts[0]); err != nil {
			b.Fatal(err)
		}
	}
}
