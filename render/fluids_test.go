package render

import (
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/render/sheet"
)

// setting is a report of a record that has a place to set things in.
func setting(r *record.Record) *report {
	p := &report{r: r, texts: textsForTest()}
	p.doc = sheet.NewDocument(p.paper())
	p.flow = sheet.NewFlow(p.doc, pageArea(p.paper()), p.look())
	return p
}

// linesOf are the texts of a cell, each with its mark.
func linesOf(cell sheet.Cell) string {
	var lines []string
	for _, item := range cell {
		if item.Text != "" {
			lines = append(lines, sentences(" ", item.Mark, item.Text))
		}
	}
	return strings.Join(lines, "\n")
}

func finding(code record.Code, subject string) record.Finding {
	return record.Finding{Code: code, Severity: record.Decide, Subject: subject}
}

func estimated(volume, within quantity.Volume) *record.Estimate {
	return &record.Estimate{Volume: volume, Within: within}
}

func TestWhatFollows(t *testing.T) {
	for _, c := range []struct {
		name     string
		change   func(r *record.Record, f *record.Fluid)
		say, not []string
	}{
		{"nothing", func(r *record.Record, f *record.Fluid) { f.Balance = nil }, nil, []string{"What follows"}},
		{"all", func(r *record.Record, f *record.Fluid) {}, []string{
			"What follows",
			"Old oil left in: 0.41 L, 5 % of the fill, give or take 0.39 L.",
			"Expected level 0.87, give or take 0.20; read 0.85. They agree within what the measuring allows.",
			"Oil used since the last service: 1.44 L in 202.4 h (from the levels). In 100 h 0.71 L, give or take 0.12 L.",
			"That is about 0.08 % of the fuel burnt; about 0.2 g a kWh, the load worked out from the fuel at 230 g a kWh, assumed.",
			"Fuel or coolant getting in cannot be excluded by volumes: less than 0.7 L would not show.",
		}, nil},
		// 0.412 L in 9.093 L, less the 2 L that were drawn off again: 5.8 %.
		{"a share of what stayed in", func(r *record.Record, f *record.Fluid) { f.DrawnDown = sum("2 L") }, []string{"0.41 L, 6 % of the fill"}, nil},
		{"no fill", func(r *record.Record, f *record.Fluid) { f.Balance.Filled = nil }, []string{"Old oil left in: 0.41 L, give or take"}, nil},
		{"less than nothing left in", func(r *record.Record, f *record.Fluid) { f.Balance.Carried = estimated(-120, 380) },
			[]string{"Old oil left in: less than the measuring can tell, give or take 0.38 L."}, []string{"of the fill"}},
		{"level not read", func(r *record.Record, f *record.Fluid) { f.Level = nil },
			[]string{"Expected level 0.87, give or take 0.20; no level read after."}, []string{"agree"}},
		// 2.7 times 0.204 is 0.551: 0.317 and 1.419 are the last that agree with 0.868.
		{"level just agrees", func(r *record.Record, f *record.Fluid) { f.Level.Reading = ptr(quantity.Ratio(318)) }, []string{"read 0.318. They agree"}, nil},
		{"level just off", func(r *record.Record, f *record.Fluid) { f.Level.Reading = ptr(quantity.Ratio(317)) }, []string{"read 0.317."}, []string{"agree"}},
		{"level off by the check", func(r *record.Record, f *record.Fluid) {
			r.Findings = append(r.Findings, finding(record.UnitSwapped, f.System))
		},
			[]string{"read 0.85. See: What the figures say."}, []string{"agree"}},
		{"another system's level off", func(r *record.Record, f *record.Fluid) {
			r.Findings = append(r.Findings, finding(record.FillOffLevel, "gear-oil"))
		}, []string{"They agree"}, nil},
		{"too few hours", func(r *record.Record, f *record.Fluid) { f.Balance.Trend = nil },
			[]string{"Oil used since the last service: 1.44 L in 202.4 h (from the levels), give or take 0.25 L."}, []string{"In 100 h"}},
		{"none used", func(r *record.Record, f *record.Fluid) {
			f.Balance.Used, f.Balance.By, f.Balance.OfFuelPPM, f.Balance.PerEnergyMgKWh = estimated(-80, 251), record.ByVolumes, 0, 0
		}, []string{"none that shows (-0.08 L in 202.4 h, from the volumes), give or take 0.25 L.", "cannot be excluded"}, []string{"That is"}},
		{"gained", func(r *record.Record, f *record.Fluid) {
			f.Balance.Used, f.Balance.OfFuelPPM, f.Balance.PerEnergyMgKWh = estimated(-1240, 251), 0, 0
			r.Findings = append(r.Findings, finding(record.OilGained, f.System))
		}, []string{"More oil in than was left in and topped up: 1.24 L in 202.4 h (from the levels), give or take 0.25 L."}, []string{"cannot be excluded", "Oil used"}},
		{"a petrol engine", func(r *record.Record, f *record.Fluid) { r.Machine.Kind = "Petrol outboard" }, []string{"at 320 g a kWh, assumed"}, nil},
		{"hardly any of the fuel", func(r *record.Record, f *record.Fluid) { f.Balance.OfFuelPPM, f.Balance.PerEnergyMgKWh = 49, 0 },
			[]string{"That is less than 0.01 % of the fuel burnt."}, []string{"kWh"}},
		{"hardly any a kWh", func(r *record.Record, f *record.Fluid) { f.Balance.OfFuelPPM, f.Balance.PerEnergyMgKWh = 0, 49 },
			[]string{"That is less than 0.1 g a kWh"}, []string{"of the fuel burnt"}},
		{"a gearbox", func(r *record.Record, f *record.Fluid) { f.System = "gear-oil" }, []string{"Water getting in cannot be excluded"}, []string{"Fuel or"}},
		// 2.7 times 37 mL is 99.9 mL, and 2.7 times 38 is 102.6.
		{"a tenth would not show", func(r *record.Record, f *record.Fluid) { f.Balance.Used.Within = 37 }, []string{"less than 0.1 L would not show"}, nil},
		{"two tenths would not show", func(r *record.Record, f *record.Fluid) { f.Balance.Used.Within = 38 }, []string{"less than 0.2 L would not show"}, nil},
	} {
		r := accounted()
		f := &r.Fluids[0]
		f.Balance.Trend = f.Balance.Trend[1:] // no chart: the sentences stand as they are
		c.change(r, f)
		got := linesOf(setting(r).follows(f, 150*sheet.Pt))
		for _, want := range c.say {
			if !strings.Contains(got, want) {
				t.Errorf("%s: no %q in\n%s", c.name, want, got)
			}
		}
		for _, not := range c.not {
			if strings.Contains(got, not) {
				t.Errorf("%s: %q in\n%s", c.name, not, got)
			}
		}
	}
}

func TestOutAndIn(t *testing.T) {
	const wide, narrow = 400 * sheet.Pt, 150 * sheet.Pt
	r := accounted()
	p := setting(r)
	for _, c := range []struct {
		name  string
		fluid record.Fluid
		width sheet.Len
		want  string
	}{
		{"the example", r.Fluids[0], wide, "out 2.4 US gal at 68 °C = 9.085 L\n8.74 L at 15 °C, give or take 0.27 L\nwhat the filter held is not included\n" +
			"seen in it: water, metal\nwhy: milky on the dipstick, bright flakes in the filter\n" +
			"in 5 L at 16 °C + 4.3 L at 16 °C = 9.3 L\n9.09 L at 15 °C, give or take 0.11 L\n0.2 L at 40 °C drawn off again"},
		{"coolant", r.Fluids[1], wide, "out 10.5 L\nas measured, give or take 0.32 L\nlooked at, nothing seen in it\nin 10.8 L\nas measured, give or take 0.22 L"},
		{"coolant weighed", record.Fluid{System: "coolant", Drained: sum("11 kg"), Balance: &record.Balance{Drained: estimated(10_377, 94)}}, wide,
			"out 11 kg\n10.38 L as measured, give or take 0.09 L"},
		{"a long sum", record.Fluid{System: "engine-oil", Filled: sum("5 L at 16 C", "5 L at 16 C", "0.6 L")}, narrow, "in 5 L at 16 °C + 5 L at 16 °C + 0.6 L\n= 10.6 L"},
		{"not measured", record.Fluid{System: "gear-oil", Drained: &quantity.Measured{NotMeasured: true}, WithFilter: ptr(true)}, wide,
			"out not measured\nwhat the filter held is included"},
		{"only drawn off", record.Fluid{System: "gear-oil", DrawnDown: sum("0.2 L")}, wide, "in 0.2 L drawn off again"},
		{"only seen", record.Fluid{System: "gear-oil", Saw: []record.Sight{record.SawFuel}}, wide, "out seen in it: fuel"},
		{"nothing", record.Fluid{System: "gear-oil"}, wide, ""},
	} {
		if got := linesOf(p.outAndIn(&c.fluid, c.width)); got != c.want {
			t.Errorf("%s: got\n%s\nwant\n%s", c.name, got, c.want)
		}
	}
}

// The bars are drawn on one scale, and only where there is something to compare.
func TestBars(t *testing.T) {
	for _, c := range []struct {
		name                     string
		fluid                    record.Fluid
		out, in, drawnOff, scale quantity.Volume
	}{
		{"worked out", accounted().Fluids[0], 8742, 9093, 200, 10_000},
		{"as measured", record.Fluid{Drained: sum("2.4 US gal"), Filled: sum("9 L")}, 9085, 9000, 0, 9085},
		{"weighed", record.Fluid{Drained: sum("8.8 kg"), AtUpper: 8000}, 10_000, 0, 0, 10_000},
		{"weighed, density stated", record.Fluid{Drained: sum("8.6 kg", "1 L"), AtUpper: 8000, Density: 860}, 11_000, 0, 0, 11_000},
		{"by what it holds", record.Fluid{Filled: sum("3 L"), Holds: 4000}, 0, 3000, 0, 4000},
		{"more drawn off than filled", record.Fluid{Filled: sum("1 L"), DrawnDown: sum("3 L"), Holds: 4000}, 0, 1000, 1000, 4000},
		{"one figure", record.Fluid{Filled: sum("3 L"), DrawnDown: sum("1 L")}, 0, 3000, 0, 0},
		{"the mark alone", record.Fluid{AtUpper: 9000}, 0, 0, 0, 0},
		{"not measured", record.Fluid{Drained: &quantity.Measured{NotMeasured: true}, Filled: sum("3 L")}, 0, 3000, 0, 0},
		{"below nothing", record.Fluid{AtUpper: 9000, Balance: &record.Balance{Drained: estimated(-5, 0), Filled: estimated(5, 0)}}, 0, 5, 0, 9000},
	} {
		got := (&report{texts: textsForTest()}).bars(&c.fluid)
		if got.out != c.out || got.in != c.in || got.drawnOff != c.drawnOff || got.scale != c.scale {
			t.Errorf("%s: got %+v", c.name, got)
		}
	}
}

// What the drawings mean is said as far as there are any.
func TestFluidsKey(t *testing.T) {
	r := accounted()
	if got, want := setting(r).fluidsKey(), "Levels: 0 is the lower mark, 1 the upper. Dark: after the job. Notch: before it. "+
		"Frame: expected, give or take. Hatched: drawn off again. Give or take: one standard uncertainty."; got != want {
		t.Errorf("got %q", got)
	}
	r.Fluids = []record.Fluid{{System: "gear-oil", Filled: sum("1 L")}}
	if got := setting(r).fluidsKey(); got != "" {
		t.Errorf("of nothing: %q", got)
	}
}

// A density that was assumed is said to be, but of coolant.
func TestDensityIsSaid(t *testing.T) {
	p := setting(accounted())
	f := p.r.Fluids[0]
	const file = "By the machine file: 10 L at the upper mark, 1.6 L between the marks, filter holds 0.6 L"
	if got := linesOf(p.machineFigures(&f)); got != file+", 880 kg/m3 at 15 °C" {
		t.Errorf("got %q", got)
	}
	f.Density = 0
	if got := linesOf(p.machineFigures(&f)); got != "Density not stated, 880 kg/m3 assumed. "+file {
		t.Errorf("got %q", got)
	}
	f.Balance = nil
	if got := linesOf(p.machineFigures(&f)); got != file {
		t.Errorf("without volumes: %q", got)
	}
	if got := linesOf(p.machineFigures(&p.r.Fluids[1])); got != "By the machine file: holds 11.5 L" {
		t.Errorf("coolant: %q", got)
	}
}

// What was seen in a fluid stands with what was put off or left, and its answer.
func TestSeenStandsWithWhatWasLeft(t *testing.T) {
	for _, c := range []struct {
		saw  []record.Sight
		want bool
	}{{nil, false}, {[]record.Sight{record.SawNothing}, false}, {[]record.Sight{record.SawWater}, true}} {
		r := accounted()
		f := &r.Fluids[0]
		if f.Saw = c.saw; !c.want {
			f.Answer = nil
		}
		p := setting(r)
		p.left()
		var said strings.Builder
		for _, m := range p.doc.Placed() {
			said.WriteString(m.Text + " ")
		}
		for _, want := range []string{"Engine oil: water", "seen in the fluid", "milky on the dipstick,", "before the machine is"} {
			if strings.Contains(said.String(), want) != c.want {
				t.Errorf("%v: %q in %q: want %t", c.saw, want, said.String(), c.want)
			}
		}
	}
}

func TestAside(t *testing.T) {
	table := setting(accounted()).aside()
	var titles, cells []string
	for _, c := range table.Columns {
		titles = append(titles, c.Title)
	}
	for _, row := range table.Rows {
		for _, cell := range row.Cells {
			cells = append(cells, linesOf(cell))
		}
	}
	if got := strings.Join(titles, "|"); got != "Topped up since the last service, as stated|Fuel burnt since the last service, as logged|What came out, and where it went" {
		t.Errorf("got %s", got)
	}
	if got := strings.Join(cells, "|"); got != "Engine oil: 0.5 L|1850 L|Engine oil: 8.8 L, harbour oil bank, receipt 5521|||Coolant: 10.5 L, kept by the yard: drum 3, oil store" {
		t.Errorf("got %s", got)
	}
}
