package render

import (
	"cmp"
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
	"hourseal/render/sheet"
	"hourseal/render/words"
)

// letters are what random text is made of: wide ones, narrow ones, spaces, and
// some that are not Latin.
var letters = []rune("WMmw il.,-/0189 aeEnorstX ÄéłΩЖ°")

func line(t *rapid.T, name string, limit int) string {
	// Short text is usual, text at the limit is where layouts break.
	n := rapid.OneOf(rapid.IntRange(0, 12), rapid.IntRange(0, limit), rapid.Just(limit)).Draw(t, name+" length")
	return strings.TrimSpace(rapid.StringOfN(rapid.SampledFrom(letters), n, n, -1).Draw(t, name))
}

func required(t *rapid.T, name string) string { return "x" + line(t, name, record.MaxText-1) }

func maybe[T any](t *rapid.T, name string, make func() T) *T {
	if !rapid.Bool().Draw(t, name) {
		return nil
	}
	return ptr(make())
}

func number[T ~int64 | ~uint8 | ~uint](t *rapid.T, name string, low, high T) T {
	return T(rapid.Int64Range(int64(low), int64(high)).Draw(t, name))
}

func list[T any](t *rapid.T, name string, limit int, make func() T) []T {
	n := rapid.OneOf(rapid.IntRange(0, 2), rapid.IntRange(0, limit)).Draw(t, name+" count")
	out := []T{}
	for range n {
		out = append(out, make())
	}
	return out
}

func anyDate(t *rapid.T) quantity.Date { return number[quantity.Date](t, "date", 0, 60000) }
func anyHours(t *rapid.T) quantity.Hours {
	return number[quantity.Hours](t, "hours", 0, 99_999_999)
}

func anyMeasured(t *rapid.T) quantity.Measured {
	if rapid.Bool().Draw(t, "not measured") {
		return quantity.Measured{NotMeasured: true}
	}
	var portions []quantity.Portion
	for range rapid.IntRange(1, quantity.MaxPortions).Draw(t, "portions") {
		text := rapid.SampledFrom([]string{"5 L at 16 C", "4.25 US gal at 68 C", "7.711 kg", "33 imp fl oz at -2.5 C", "99999.999 L"}).Draw(t, "portion")
		portions = append(portions, must(quantity.ParsePortion(text)))
	}
	return quantity.Measured{Portions: portions}
}

func anyAnswer(t *rapid.T) record.Answer {
	return record.Answer{Why: "x" + line(t, "why", record.MaxReason-1),
		Advice: number[record.Advice](t, "advice", 0, 3), Owner: number[record.OwnerAnswer](t, "owner", 0, 3),
		Told: maybe(t, "told", func() quantity.Date { return anyDate(t) })}
}

func anyLevel(t *rapid.T) record.Level {
	return record.Level{
		Reading: maybe(t, "reading", func() quantity.Ratio { return number[quantity.Ratio](t, "level", -1_000_000, 1_000_000) }),
		After:   maybe(t, "after", func() quantity.Minutes { return number[quantity.Minutes](t, "minutes", 0, 100_000) }),
		At:      maybe(t, "at", func() quantity.Temperature { return number[quantity.Temperature](t, "at", -1000, 3000) }),
	}
}

func anyFigure(t *rapid.T) quantity.Figure {
	return must(quantity.ParseFigure(rapid.SampledFrom([]string{"-27 C", "0.2500 mm", "123456 rpm", "3"}).Draw(t, "figure")))
}

func anyTask(t *rapid.T, id int) record.Task {
	task := record.Task{
		ID: fmt.Sprint("t", id), Title: required(t, "title"), Kind: number[schedule.Kind](t, "kind", 1, 5),
		Leeway: schedule.Leeway{Hours: number[quantity.Hours](t, "leeway", 0, 9999), Days: number[quantity.Days](t, "grace", 0, 99)},
		Last: maybe(t, "last", func() record.Last {
			return record.Last{Date: anyDate(t), Hours: anyHours(t), Stated: rapid.Bool().Draw(t, "stated")}
		}),
		Result: number[record.Result](t, "result", 0, 5),
	}
	by := rapid.IntRange(1, 3).Draw(t, "by hours, by date or both")
	if by&1 != 0 {
		task.Every.Hours, task.Due.Hours = number[quantity.Hours](t, "every", 1, 100_000), ptr(anyHours(t))
	}
	if by&2 != 0 {
		task.Every.Months, task.Due.Date = number[quantity.Months](t, "months", 1, 120), ptr(anyDate(t))
	}
	if task.Result != 0 {
		task.Answer, task.DoneBy = ptr(anyAnswer(t)), line(t, "done by", record.MaxText)
		task.LookAgain = maybe(t, "look again", func() record.LookAgain {
			return record.LookAgain{Hours: ptr(anyHours(t)), Date: maybe(t, "on", func() quantity.Date { return anyDate(t) })}
		})
		task.Readings = list(t, "readings", 3, func() record.Reading {
			if rapid.Bool().Draw(t, "single") {
				return record.Reading{Name: required(t, "reading"), Value: ptr(anyFigure(t))}
			}
			return record.Reading{Name: required(t, "reading"), AsFound: ptr(anyFigure(t)), AsLeft: ptr(anyFigure(t))}
		})
	}
	return task
}

// anyEstimate is as large as a record may have it, or as small.
func anyEstimate(t *rapid.T) record.Estimate {
	most := rapid.SampledFrom([]quantity.Volume{0, 9, 999, 9999, quantity.MaxVolume}).Draw(t, "most")
	return record.Estimate{Volume: number(t, "estimate", -most, most), Within: number(t, "within", 0, most)}
}

// anyBalance is a balance that a record may hold, or none.
func anyBalance(t *rapid.T) *record.Balance {
	estimate := func() record.Estimate { return anyEstimate(t) }
	b := record.Balance{
		Drained: maybe(t, "worked out", estimate), Filled: maybe(t, "worked out", estimate),
		Carried: maybe(t, "carried", estimate), Used: maybe(t, "used", estimate),
		Level: maybe(t, "expected", func() record.LevelEstimate {
			return record.LevelEstimate{Reading: number[quantity.Ratio](t, "level", -1_000_000, 1_000_000), Within: number[quantity.Ratio](t, "level within", 0, 1_000_000)}
		}),
		Trend: list(t, "trend", record.MaxTrend, func() record.Use {
			e := anyEstimate(t)
			return record.Use{Hours: anyHours(t), Per100: e.Volume, Within: e.Within}
		}),
	}
	slices.SortFunc(b.Trend, func(a, b record.Use) int { return cmp.Compare(a.Hours, b.Hours) })
	if b.Used != nil {
		b.Over, b.By = number(t, "over", 1, quantity.MaxHours), number[record.Method](t, "by", 1, 2)
		if b.Used.Volume > 0 {
			b.OfFuelPPM, b.PerEnergyMgKWh = number[int64](t, "of fuel", 0, 1_000_000_000), number[int64](t, "per kWh", 0, 1_000_000_000)
		}
	}
	if b.Drained == nil && b.Filled == nil && b.Level == nil && b.Carried == nil && b.Used == nil && len(b.Trend) == 0 {
		return nil
	}
	return &b
}

// anyRecord is a valid record of whatever size: the layout must not rely on the
// limit of 8 KiB, which a later format may raise.
func anyRecord(t *rapid.T) *record.Record {
	r := example()
	r.Paper = number[record.Paper](t, "paper", 1, 2)
	for _, text := range []*string{&r.Machine.Kind, &r.Machine.Make, &r.Machine.Model, &r.Machine.Serial, &r.Issuer.Name} {
		*text = required(t, "text")
	}
	for _, text := range []*string{&r.Machine.Vessel, &r.Machine.Hull, &r.Machine.Position, &r.Machine.DrivenBy, &r.Job.Place, &r.Job.Number,
		&r.By.Number, &r.By.Name, &r.By.Credential, &r.Issuer.Contact, &r.Issuer.Address,
		&r.Schedule.Basis.Document, &r.Schedule.Basis.Edition, &r.Schedule.Basis.Page} {
		*text = line(t, "text", record.MaxText)
	}
	r.Issuer.Kind = number[record.IssuerKind](t, "issuer", 1, 3)
	r.Job.Reason = number[record.Reason](t, "reason", 1, 9)
	if rapid.Bool().Draw(t, "estimate") {
		r.Job.Meter = record.Meter{State: record.Stopped, Basis: "x" + line(t, "basis", record.MaxReason-1)}
	}
	r.Job.Meter.Change = maybe(t, "change", func() record.MeterChange {
		return record.MeterChange{RemovedAt: maybe(t, "removed", func() quantity.Hours { return anyHours(t) }), FittedAt: anyHours(t), Why: required(t, "why")}
	})
	if rapid.Bool().Draw(t, "void") {
		r.Kind, r.Subject = record.Void, &record.Subject{Why: "x" + line(t, "why", record.MaxReason-1)}
	}
	r.Previous = maybe(t, "previous", func() record.Previous { return record.Previous{Date: anyDate(t), Hours: anyHours(t)} })
	if r.Previous != nil {
		r.Number = 999_999
	}
	if rapid.Bool().Draw(t, "long host") {
		r.PageHost = strings.Repeat("w", 60) + "." + strings.Repeat("i", 59)
	}
	id := 0
	system := func() string { // each once; as long as an id may be
		id++
		return rapid.SampledFrom([]string{"", strings.Repeat("w", 36), "a-" + strings.Repeat("b-", 17)}).Draw(t, "system") + fmt.Sprint("s", id)
	}
	r.Tasks = list(t, "tasks", 12, func() record.Task { id++; return anyTask(t, id) })
	r.OtherWork = list(t, "other work", 6, func() record.OtherWork {
		return record.OtherWork{Text: "x" + line(t, "work", record.MaxReason-1), Result: number[record.Result](t, "result", 1, 5),
			Answer: ptr(anyAnswer(t)), DoneBy: line(t, "done by", record.MaxText)}
	})
	r.Job.FuelUsed = maybe(t, "fuel", func() quantity.Measured { return anyMeasured(t) })
	r.Fluids = list(t, "fluids", 8, func() record.Fluid {
		f := record.Fluid{System: system(), Product: line(t, "product", record.MaxText), Batch: line(t, "batch", record.MaxText),
			Viscosity:   line(t, "viscosity", record.MaxText),
			Meets:       list(t, "meets", record.MaxMeets, func() string { return required(t, "meets") }),
			LevelBefore: maybe(t, "before", func() record.Level { return anyLevel(t) }), Level: maybe(t, "level", func() record.Level { return anyLevel(t) }),
			Drained: maybe(t, "drained", func() quantity.Measured { return anyMeasured(t) }), WithFilter: maybe(t, "filter", func() bool { return true }),
			Filled:    maybe(t, "filled", func() quantity.Measured { return anyMeasured(t) }),
			DrawnDown: maybe(t, "drawn down", func() quantity.Measured { return anyMeasured(t) }), Glycol: number[record.Glycol](t, "glycol", 0, 2),
			Balance: anyBalance(t),
			AtUpper: number[quantity.Volume](t, "upper", 0, 100_000_000), Holds: number[quantity.Volume](t, "holds", 0, 100_000_000),
			Density: number[quantity.Density](t, "density", 0, 2000)}
		f.Saw = rapid.SampledFrom([][]record.Sight{nil, {record.SawNothing}, {record.SawFuel}, {record.SawWater, record.SawMetal, record.SawFuel}}).Draw(t, "saw")
		if isSeen(&f) {
			f.Answer = maybe(t, "answer", func() record.Answer { return anyAnswer(t) })
		}
		return f
	})
	r.ToppedUp = list(t, "topped up", 6, func() record.TopUp { return record.TopUp{System: system(), Amount: anyMeasured(t)} })
	r.Waste = list(t, "waste", 6, func() record.Waste {
		if rapid.Bool().Draw(t, "held") {
			return record.Waste{System: system(), Amount: anyMeasured(t), Held: required(t, "held")}
		}
		return record.Waste{System: system(), Amount: anyMeasured(t), To: line(t, "to", record.MaxText), Receipt: line(t, "receipt", record.MaxText)}
	})
	r.Parts = list(t, "parts", 8, func() record.Part {
		return record.Part{Item: required(t, "item"), Number: line(t, "number", record.MaxText), Quantity: number[uint](t, "quantity", 1, 10_000), SuppliedBy: record.ByCustomer, Serial: line(t, "serial", record.MaxText)}
	})
	r.Findings = list(t, "findings", 8, func() record.Finding {
		return record.Finding{Code: rapid.SampledFrom([]record.Code{record.LevelOverfilled, record.OilCategory, record.HoursOutrunUse}).Draw(t, "code"),
			Severity: record.Decide, Subject: line(t, "subject", record.MaxText), Text: line(t, "text", record.MaxReason),
			Value: ptr(int64(1180)), Unit: record.InShare, Accepted: "x" + line(t, "accepted", record.MaxReason-1)}
	})
	r.Files = list(t, "files", 4, func() record.File { return record.File{Name: strings.ReplaceAll(required(t, "file"), "/", "-")} })
	r.Notes = strings.ReplaceAll(line(t, "notes", record.MaxNotes), ",", "\n")
	r.Notes = strings.TrimSpace(r.Notes)
	return r
}

// Over random records: nothing is outside the text area, no text runs into other
// text or into a code, and every word of the record is on the page.
func TestNothingIsLostOrOutside(t *testing.T) {
	small := seal(t, shortest()).texts
	rapid.Check(t, func(t *rapid.T) {
		r := anyRecord(t)
		if err := r.Validate(); err != nil {
			t.Fatalf("the generator made a record that is not valid: %v", err)
		}
		if err := Printable(r); err != nil {
			t.Fatal(err)
		}
		symbols, err := symbolsOf(small)
		if err != nil {
			t.Fatal(err)
		}
		for len(symbols) < rapid.IntRange(1, 4).Draw(t, "codes") {
			symbols = append(symbols, symbols[0])
		}
		p := &report{r: r, texts: words.Report()}
		if err := p.set(func() ([]symbol, error) { return symbols, nil }); err != nil {
			t.Fatal(err)
		}
		if err := p.doc.Err(); err != nil {
			t.Fatal(err)
		}
		placed := p.doc.Placed()
		paper := p.doc.Paper()
		area := pageArea(paper)
		across := area
		across.Y, across.H = sheet.MM(6), paper.H-2*sheet.MM(6)
		var all strings.Builder
		for i, m := range placed {
			if !across.Contains(m.Box) {
				t.Fatalf("page %d: %q at %v is outside %v", m.Page, m.Text, m.Box, across)
			}
			// Heads, feet and headings stand between two pages of one text.
			if area.Contains(m.Box) && !strings.HasSuffix(m.Text, "(continued)") {
				all.WriteString(m.Text)
			}
			for _, other := range placed[:i] {
				if m.Page == other.Page && m.Box.Overlaps(other.Box) && (m.Text != "" || m.Runs > 50) && (other.Text != "" || other.Runs > 50) {
					t.Fatalf("page %d: %q at %v runs into %q at %v", m.Page, m.Text, m.Box, other.Text, other.Box)
				}
			}
		}
		// Words are cut over lines and lines stand in columns, so look for each
		// text of the record without its spaces, line by line of what was set.
		said := squeeze(all.String())
		for _, text := range []string{r.Issuer.Name, r.Machine.Serial, r.Machine.Make, r.Machine.Hull, r.Job.Number, r.By.Credential, r.Machine.DrivenBy,
			r.Schedule.Basis.Document, r.PageHost, r.Job.Place, r.Job.Meter.Basis, r.Notes, r.Issuer.Address} {
			if !strings.Contains(said, squeeze(text)) {
				t.Fatalf("the page does not have %q", text)
			}
		}
		for i := range r.Tasks {
			task := &r.Tasks[i]
			texts := []string{task.Title, task.ID, task.DoneBy}
			if task.Answer != nil {
				texts = append(texts, task.Answer.Why)
			}
			for _, text := range texts {
				if !strings.Contains(said, squeeze(text)) {
					t.Fatalf("the page does not have %q of task %d", text, i+1)
				}
			}
		}
		for i := range r.OtherWork {
			if !strings.Contains(said, squeeze(r.OtherWork[i].Text)) || !strings.Contains(said, squeeze(r.OtherWork[i].Answer.Why)) {
				t.Fatalf("the page does not have other work %d", i+1)
			}
		}
		for i := range r.Fluids {
			f := &r.Fluids[i]
			texts := append([]string{words.Name(f.System), f.Product, f.Viscosity, f.Batch}, f.Meets...)
			if f.Answer != nil {
				texts = append(texts, f.Answer.Why)
			}
			for _, text := range texts {
				if !strings.Contains(said, squeeze(text)) {
					t.Fatalf("the page does not have %q of fluid %d", text, i+1)
				}
			}
		}
		for i := range r.Waste {
			if !strings.Contains(said, squeeze(r.Waste[i].To)) || !strings.Contains(said, squeeze(r.Waste[i].Held)) {
				t.Fatalf("the page does not have waste %d", i+1)
			}
		}
		for i := range r.Parts {
			if !strings.Contains(said, squeeze(r.Parts[i].Item)) || !strings.Contains(said, squeeze(r.Parts[i].Number)) ||
				r.Parts[i].Serial != "" && !strings.Contains(said, "serial"+squeeze(r.Parts[i].Serial)) {
				t.Fatalf("the page does not have part %d", i+1)
			}
		}
	})
}

func squeeze(text string) string { return strings.NewReplacer(" ", "", "\n", "").Replace(text) }

// Every caption can be printed.
func TestCaptionsHaveGlyphs(t *testing.T) {
	var walk func(v reflect.Value)
	walk = func(v reflect.Value) {
		switch v.Kind() {
		case reflect.String:
			if err := sheet.CheckGlyphs(v.String()); err != nil {
				t.Errorf("%q: %v", v.String(), err)
			}
		case reflect.Struct:
			for i := range v.NumField() {
				walk(v.Field(i))
			}
		case reflect.Map:
			for _, key := range v.MapKeys() {
				walk(v.MapIndex(key))
			}
		case reflect.Slice:
			for i := range v.Len() {
				walk(v.Index(i))
			}
		}
	}
	walk(reflect.ValueOf(words.Report()))
	for _, c := range words.Cautions(words.WorkNamed("diesel petrol", "engine-oil", "coolant", "fuel", "mounts", "running")) {
		walk(reflect.ValueOf(c))
	}
	for code := range record.Rules {
		walk(reflect.ValueOf(words.Finding(record.Finding{Code: code})))
	}
}
