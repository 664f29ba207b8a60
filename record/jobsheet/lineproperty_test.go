package jobsheet_test

import (
	"errors"
	"reflect"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
)

// trickyPieces are what a text is made of that looks like something else in some form.
var trickyPieces = []string{"to", "at", "after", "by", "held", "in", "receipt", "batch", "serial", "name", "number", "or", "and",
	"none", "seen", "found", "left", "viscosity", "15W-40", "SAE 30", "ethylene", "- ", "-", "[", "]", ",", ", ", `"`, `""`, "|", ":", " ", "  ",
	"5 min", "10 L", "2 x ", " x 2", "900 h", "12", "0", "Ellery", "ü", "\u00a0", "不", "not measured", "no number", "+", "="}

// trickyText draws a text that a job sheet takes.
func trickyText(least, limit int) *rapid.Generator[string] {
	return rapid.Custom(func(t *rapid.T) string {
		text := strings.TrimSpace(strings.Join(rapid.SliceOfN(rapid.SampledFrom(trickyPieces), least, 12).Draw(t, "pieces"), ""))
		if runes := []rune(text); len(runes) > limit {
			text = strings.TrimSpace(string(runes[:limit]))
		}
		return text
	}).Filter(func(text string) bool { return record.CheckText(text, limit) == nil && len(text) >= least })
}

func anyWord[T ~uint8 | ~uint16](t *rapid.T, words []string) T {
	return T(rapid.IntRange(1, len(words)).Draw(t, "word"))
}

func orNone[T any](t *rapid.T, draw func(*rapid.T) T) *T {
	if rapid.Bool().Draw(t, "none") {
		return nil
	}
	return ptr(draw(t))
}

func within[T ~int64](low, high T) func(*rapid.T) T {
	return func(t *rapid.T) T { return T(rapid.Int64Range(int64(low), int64(high)).Draw(t, "figure")) }
}

var (
	someHours   = within(0, quantity.MaxHours)
	someMinutes = within(0, quantity.MaxMinutes)
	someDate    = within(quantity.MinDate, quantity.MaxDate)
	oilDegrees  = within(-100*quantity.Degree, 300*quantity.Degree)
	someText    = trickyText(0, record.MaxText)
	namedText   = trickyText(1, record.MaxText)
	reasonText  = trickyText(1, record.MaxReason)
)

func anyAmount(t *rapid.T) quantity.Measured {
	if rapid.IntRange(0, 9).Draw(t, "not measured") == 0 {
		return quantity.Measured{NotMeasured: true}
	}
	var m quantity.Measured
	for range rapid.IntRange(1, quantity.MaxPortions).Draw(t, "portions") {
		figure := rapid.StringMatching(`[1-9][0-9]{0,2}(\.[0-9])?`).Draw(t, "figure")
		unit := rapid.SampledFrom([]string{"L", "US gal", "US qt", "US pt", "imp gal", "imp pt", "kg", "lb"}).Draw(t, "unit")
		p := must(quantity.ParsePortion(figure + " " + unit))
		p.At = orNone(t, within(quantity.MinTemperature, quantity.MaxTemperature))
		m.Portions = append(m.Portions, p)
	}
	return m
}

func anyFigure(t *rapid.T) quantity.Figure {
	return must(quantity.ParseFigure(rapid.StringMatching(`(-?[1-9][0-9]?|[1-9][0-9]{2})(\.[0-9])?( (C|mm|in|bar|psi|V|lbf ft|%|h))?`).Draw(t, "figure")))
}

func anyAnswer(t *rapid.T) record.Answer {
	a := record.Answer{Told: orNone(t, someDate)}
	if rapid.Bool().Draw(t, "advice") {
		a.Advice = anyWord[record.Advice](t, record.AdviceWords)
	}
	if rapid.Bool().Draw(t, "owner") || a == (record.Answer{}) {
		a.Owner = anyWord[record.OwnerAnswer](t, record.OwnerWords)
	}
	return a
}

// anyWhy is an answer with why, or none at all.
func anyWhy(t *rapid.T) *record.Answer {
	switch rapid.IntRange(0, 3).Draw(t, "why") {
	case 0:
		return nil
	case 1:
		return &record.Answer{Why: reasonText.Draw(t, "why")}
	case 2:
		return ptr(anyAnswer(t))
	}
	a := anyAnswer(t)
	a.Why = reasonText.Draw(t, "why")
	return &a
}

// anyValue draws a value of each form that a job sheet could have given.
var anyValue = map[string]func(t *rapid.T) any{
	"amount": func(t *rapid.T) any { return anyAmount(t) },
	"level": func(t *rapid.T) any {
		if rapid.IntRange(0, 5).Draw(t, "not measured") == 0 {
			return record.Level{}
		}
		return record.Level{Reading: ptr(within(quantity.MinRatio, quantity.MaxRatio)(t)), After: orNone(t, someMinutes), At: orNone(t, oilDegrees)}
	},
	"meter": func(t *rapid.T) any {
		if rapid.Bool().Draw(t, "running") {
			return meterLine{Meter: record.Meter{State: record.Running, Reading: ptr(someHours(t))}}
		}
		state := rapid.SampledFrom([]record.MeterState{record.Stopped, record.NoMeter}).Draw(t, "state")
		return meterLine{record.Meter{State: state, Basis: reasonText.Draw(t, "basis")}, ptr(someHours(t))}
	},
	"meter change": func(t *rapid.T) any {
		return record.MeterChange{RemovedAt: orNone(t, someHours), FittedAt: someHours(t), Why: namedText.Draw(t, "why")}
	},
	"by": func(t *rapid.T) any {
		by := record.By{Number: someText.Draw(t, "number"), Name: someText.Draw(t, "name"), Credential: someText.Draw(t, "credential")}
		if by == (record.By{}) {
			by.Number = "118"
		}
		return by
	},
	"product": func(t *rapid.T) any {
		p := jobsheet.Product{Name: someText.Draw(t, "name"), Viscosity: someText.Draw(t, "viscosity"), Batch: someText.Draw(t, "batch"),
			Meets: rapid.SliceOfNDistinct(namedText, 0, record.MaxMeets, rapid.ID).Draw(t, "meets")}
		if len(p.Meets) == 0 {
			p.Meets = nil
		}
		if rapid.Bool().Draw(t, "coolant") {
			p.Glycol = anyWord[record.Glycol](t, record.GlycolWords)
		}
		return p
	},
	"waste": func(t *rapid.T) any {
		w := record.Waste{System: "engine-oil", Amount: anyAmount(t)}
		if rapid.Bool().Draw(t, "held") {
			w.Held = namedText.Draw(t, "held")
		} else {
			w.To, w.Receipt = someText.Draw(t, "to"), someText.Draw(t, "receipt")
		}
		return w
	},
	"part": func(t *rapid.T) any {
		return record.Part{Item: "oil filter", Number: someText.Draw(t, "number"), Serial: someText.Draw(t, "serial"),
			Quantity: uint(rapid.IntRange(1, 10_000).Draw(t, "quantity")), SuppliedBy: anyWord[record.Supplier](t, record.SupplierWords)}
	},
	"leak check": func(t *rapid.T) any {
		return record.LeakCheck{Result: anyWord[record.LeakResult](t, record.LeakWords), After: orNone(t, someMinutes), Where: trickyText(0, record.MaxReason).Draw(t, "where")}
	},
	"look again": func(t *rapid.T) any {
		again := record.LookAgain{Hours: orNone(t, someHours), Date: orNone(t, someDate)}
		if again == (record.LookAgain{}) {
			again.Hours = ptr(someHours(t))
		}
		return againLine{again, trickyText(0, record.MaxReason).Draw(t, "why")}
	},
	"answer": func(t *rapid.T) any { return anyAnswer(t) },
	"reading": func(t *rapid.T) any {
		r := record.Reading{Name: "gap"}
		switch rapid.IntRange(0, 3).Draw(t, "figures") {
		case 0:
			r.Value = ptr(anyFigure(t))
		case 1:
			r.AsFound = ptr(anyFigure(t))
		case 2:
			r.AsLeft = ptr(anyFigure(t))
		default:
			r.AsFound, r.AsLeft = ptr(anyFigure(t)), ptr(anyFigure(t))
		}
		return r
	},
	"result": func(t *rapid.T) any {
		return resultLine{anyWord[record.Result](t, record.ResultWords), someText.Draw(t, "by")}
	},
	"seen": func(t *rapid.T) any {
		if rapid.IntRange(0, 5).Draw(t, "nothing") == 0 {
			return seenLine{Saw: []record.Sight{record.SawNothing}}
		}
		saw := rapid.SliceOfNDistinct(rapid.SampledFrom([]record.Sight{record.SawWater, record.SawMetal, record.SawFuel}), 1, 3, rapid.ID).Draw(t, "saw")
		return seenLine{saw, anyWhy(t)}
	},
	"other work": func(t *rapid.T) any {
		return record.OtherWork{Text: reasonText.Draw(t, "text"), Result: anyWord[record.Result](t, record.ResultWords), Answer: anyWhy(t), DoneBy: someText.Draw(t, "by")}
	},
}

// lineOf is the line of a value, by the inverse of its form.
func lineOf(value any) string {
	switch v := value.(type) {
	case quantity.Measured:
		return jobsheet.AmountLine(v)
	case record.Level:
		return jobsheet.LevelLine(v)
	case meterLine:
		return jobsheet.MeterLine(v.Meter, v.Estimate)
	case record.MeterChange:
		return jobsheet.MeterChangeLine(v)
	case record.By:
		return jobsheet.ByLine(v)
	case jobsheet.Product:
		return jobsheet.ProductLine(v)
	case record.Waste:
		return jobsheet.WasteLine(v)
	case record.Part:
		return jobsheet.PartLine(v)
	case record.LeakCheck:
		return jobsheet.LeakCheckLine(v)
	case againLine:
		return jobsheet.LookAgainLine(v.Again, v.Why)
	case record.Answer:
		return jobsheet.AnswerLine(v)
	case record.Reading:
		return jobsheet.ReadingLine(v)
	case resultLine:
		return jobsheet.ResultLine(v.Result, v.By)
	case seenLine:
		return jobsheet.SeenLine(v.Saw, v.Answer)
	case record.OtherWork:
		return jobsheet.OtherWorkLine(v)
	}
	panic("no form of such a value")
}

// What a form reads from the line of a value is the value.
func TestLineOfAnyValueReadsBack(t *testing.T) {
	for _, form := range lineForms {
		t.Run(form.name, rapid.MakeCheck(func(t *rapid.T) {
			value := anyValue[form.name](t)
			line := lineOf(value)
			got, _, err := form.read(line)
			if err != nil || !reflect.DeepEqual(got, value) {
				t.Fatalf("%s\n got %+v, %v\nwant %+v", line, got, err, value)
			}
		}))
	}
}

// Quotes are written only where the bare line would be read as something else.
func TestLinesAreBareWhereTheyCan(t *testing.T) {
	for _, value := range []any{
		record.By{Number: "118", Credential: "Ellery Slip card"},
		record.Waste{System: "engine-oil", Amount: must(jobsheet.LineAmount("5 L, 4 L")), To: "Tern, east quay", Receipt: "5521"},
		record.LeakCheck{Result: record.Seen, Where: "the union after the cooler"},
		record.OtherWork{Text: `Fitted a 3/4" hose: old one cracked`, Result: record.Done},
	} {
		if line := lineOf(value); strings.HasPrefix(line, `"`) || strings.Contains(line, ` "`) {
			t.Errorf("%s: needless quotes", line)
		}
	}
}

// FuzzLines holds all forms to this: no line makes one panic; what one takes is what it reads
// from the line that its inverse writes, and that line stays as it is; what is
// let in a record takes; and no message brings anything to a terminal raw.
func FuzzLines(f *testing.F) {
	for _, seed := range []string{"5 L at 16 C, 4.3 L", "0.85 after 15 min at 45 C", "stopped, 810 by engine log", "1482.3 to 12.0, glass broken",
		"118, name Pat Ellery, Ellery Slip card", `"Harrow HD, old", 15W-40, API CK-4, batch H-0612, ethylene`, "8.8 L to harbour oil bank, receipt 5521",
		"8.8 L held in tank 2", "2 x CR-2214, serial 007, by customer", "seen at drain plug after 5 min", "900 h or 2026-10-01, light glaze", "n a 2026-05-04",
		"found 0.25 mm, left 0.20 mm", "found A left A", "done by Slipway Pumps", "metal | filings | n a", "done: Tightened the clamp | why | m", `"`, `""`, `a ""`, "|", ",", "-", "oil filter=CR-2214", `"a=""b"=c`, "[", "[]", "by", "+", "١"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, line string) {
		for _, form := range lineForms {
			value, again, err := form.read(line)
			if err != nil {
				if !reflect.ValueOf(value).IsZero() {
					t.Errorf("%s: %q: a value was handed out with %v: %+v", form.name, line, err, value)
				}
				for _, r := range err.Error() {
					if unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || r == utf8.RuneError {
						t.Errorf("%s: %q: %q would reach a terminal raw", form.name, line, err)
					}
				}
				continue
			}
			back, same, err := form.read(again)
			if err != nil || !reflect.DeepEqual(back, value) || same != again {
				t.Errorf("%s: %q: %+v is written %q, which is read as %+v, %q, %v", form.name, line, value, again, back, same, err)
			}
			if err := taken(value); err != nil {
				t.Errorf("%s: %q: let in, and refused of a record: %v", form.name, line, err)
			}
		}
		if key, value, err := jobsheet.LineKey(line); err == nil {
			k, v, err := jobsheet.LineKey(jobsheet.KeyLine(key, value))
			if k != key || v != value || err != nil {
				t.Errorf("%q: key %q, value %q, read back as %q, %q, %v", line, key, value, k, v, err)
			}
		}
		for _, read := range []func(string) (string, error){jobsheet.LineText, jobsheet.LineWhy, jobsheet.LineNotes} {
			if text, err := read(line); err == nil && (text == "" || record.CheckNotes(text) != nil) {
				t.Errorf("%q: %q was let in", line, text)
			}
		}
		_, _ = jobsheet.LinePart("", line)
		_, _ = jobsheet.LinePart(line, "CR-2214")
		_, _ = jobsheet.LineReading(line, "3")
		_, _ = jobsheet.LineWaste(line, "8 L")
	})
}

// taken holds the texts and amounts of a value to the rules of a record.
func taken(value any) error {
	var errs []error
	var walk func(v reflect.Value)
	walk = func(v reflect.Value) {
		switch v.Kind() {
		case reflect.String:
			errs = append(errs, record.CheckText(v.String(), record.MaxReason))
		case reflect.Pointer:
			if !v.IsNil() {
				walk(v.Elem())
			}
		case reflect.Slice:
			for i := range v.Len() {
				walk(v.Index(i))
			}
		case reflect.Struct:
			if m, ok := v.Interface().(quantity.Measured); ok {
				errs = append(errs, m.Valid())
			}
			for i := range v.NumField() {
				walk(v.Field(i))
			}
		}
	}
	walk(reflect.ValueOf(value))
	return errors.Join(errs...)
}
