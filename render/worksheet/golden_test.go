package worksheet

import (
	"bytes"
	"flag"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"hourseal/record"
	"hourseal/record/jobsheet"
	"hourseal/record/plan"
	"hourseal/record/quantity"
	"hourseal/record/recordtest/outside"
	"hourseal/record/schedule"
	"hourseal/render/sheet/sheettest"
	"hourseal/render/words"
)

var update = flag.Bool("update", false, "write the golden files anew: read them line by line afterwards")

// plugged is the port engine's sheet of a yard without an extractor.
func plugged(t testing.TB) Sheet {
	s := gannet(t)
	s.Yard.Extractor, s.Yard.Paper, s.Kit.Extractions = 0, record.Letter, nil
	return s
}

var goldens = []struct {
	name string
	make func(testing.TB) Sheet
}{{"due", gannet}, {"plug", plugged}, {"nothing", quiet}, {"forty", forty}}

func TestGoldenText(t *testing.T) {
	for _, g := range goldens {
		t.Run(g.name, func(t *testing.T) {
			got := sheettest.TextLayer(t, draw(t, g.make(t)))
			path := filepath.Join("..", "..", "testdata", "golden", "worksheet-"+g.name+".txt")
			sheettest.Golden(t, path, got, *update)
		})
	}
}

// The same sheet gives the same bytes, also at the same time.
func TestSameBytes(t *testing.T) {
	s := gannet(t)
	want := draw(t, s)
	var wait sync.WaitGroup
	got := make([][]byte, 4)
	for i := range got {
		wait.Go(func() { got[i], _ = PDF(s) })
	}
	wait.Wait()
	for i := range got {
		if !bytes.Equal(got[i], want) {
			t.Errorf("sheet %d differs", i)
		}
	}
}

// qpdf, an independent reader of PDF files, finds nothing to warn of; the number
// of pages is what the size of the job is worth.
func TestQPDFReadsTheFile(t *testing.T) {
	for _, c := range []struct {
		name  string
		sheet Sheet
		pages string
	}{{"due", gannet(t), "3"}, {"plug", plugged(t), "3"}, {"nothing", quiet(t), "1"}, {"forty", forty(t), "9"}} {
		path := onDisk(t, draw(t, c.sheet))
		if said := outside.Run(t, "qpdf", "--check", path); strings.Contains(said, "WARNING") || !strings.Contains(said, "No syntax or stream encoding errors found") {
			t.Errorf("%s: %s", c.name, said)
		}
		if pages := strings.TrimSpace(outside.Run(t, "qpdf", "--show-npages", path)); pages != c.pages {
			t.Errorf("%s: %s pages, want %s", c.name, pages, c.pages)
		}
	}
}

func TestUnknownDrainIsRefused(t *testing.T) {
	s := gannet(t)
	s.Drain = "pump"
	if _, err := PDF(s); err == nil || err.Error() != `drain: no way of draining is called "pump": write extractor or plug` {
		t.Errorf("got %v", err)
	}
}

// A system is emptied as the sheet says, else as the machine file does, else by
// what the yard has.
func TestDrain(t *testing.T) {
	for _, c := range []struct {
		sheet, machine string
		extractor      quantity.Volume
		want           string
	}{
		{"", "", litres("6"), words.DrainExtractor},
		{"", "", 0, words.DrainPlug},
		{"", "plug", litres("6"), words.DrainPlug},
		{"", "extractor", 0, words.DrainExtractor},
		{"extractor", "plug", 0, words.DrainExtractor},
		{"plug", "extractor", litres("6"), words.DrainPlug},
	} {
		s := gannet(t)
		s.Drain, s.Yard.Extractor, s.Plan.Machine.Systems[0].Drain = c.sheet, c.extractor, c.machine
		said := textOf(t, s)
		if got := strings.Contains(said, "Draw off until only air comes"); got != (c.want == words.DrainExtractor) {
			t.Errorf("%+v: by extractor %v", c, got)
		}
		if got := strings.Contains(said, "Plug out"); got != (c.want == words.DrainPlug) {
			t.Errorf("%+v: by plug %v", c, got)
		}
		// The oil that the kit works out for the extractor is what a pan has to hold.
		if got := strings.Contains(said, "have a pan for more"); got != (c.want == words.DrainPlug) {
			t.Errorf("%+v: pan %v", c, got)
		}
	}
}

// textOf is what a sheet says, all of it in a row, with single spaces.
func textOf(t testing.TB, s Sheet) string {
	t.Helper()
	p, err := set(s)
	if err != nil {
		t.Fatal(err)
	}
	var said []string
	for _, m := range p.doc.Placed() {
		said = append(said, m.Text)
	}
	return strings.Join(strings.Fields(strings.Join(said, " ")), " ")
}

// The hours say how they came about, and what the meter reads where that is
// another figure. Those that were worked out are whole hours.
func TestHours(t *testing.T) {
	last := schedule.Point{Date: date("2026-05-04"), Hours: hours("812.6")}
	for _, c := range []struct {
		what string
		now  plan.HoursNow
		use  schedule.UseBasis
		want []string
		not  string
	}{
		{"read", plan.HoursNow{Total: hours("1031.25"), Given: true}, 0, []string{"1031.25 h", "as the meter reads"}, "about"},
		{"a second meter", plan.HoursNow{Total: hours("1031.2"), Offset: hours("700"), Given: true}, 0,
			[]string{"1031.2 h", "the meter reads 331.2 h", "earlier meters add 700 h", "1012.6 h meter 312.6 h", "Hours are hours in total."}, "about"},
		{"a meter ahead", plan.HoursNow{Total: hours("1031.2"), Offset: -hours("50"), Given: true}, 0,
			[]string{"the meter reads 1081.2 h", "the meter reads 50 h more"}, "earlier meters"},
		{"carried on", plan.HoursNow{Total: hours("1031.51"), Last: last}, schedule.FromMachineFile,
			[]string{"Hours in total, worked out about 1032 h", "from 812.6 h on 2026-05-04, carried on at 420 h a year, as the machine file expects", "18 h past"}, "1031.51"},
		{"by readings", plan.HoursNow{Total: hours("1031.49"), Offset: hours("700"), Last: last}, schedule.FromReadings,
			[]string{"about 1031 h", "by its readings", "the meter should read about 331 h"}, "as the meter reads"},
		{"no use known", plan.HoursNow{Total: hours("812.6"), Last: last}, schedule.UseUnknown,
			[]string{"about 813 h", "the last known, of 2026-05-04; its use since is not known"}, "carried on"},
		{"of the same day", plan.HoursNow{Total: hours("812.6"), Last: last}, schedule.FromFewReadings, []string{"the last known, of 2026-05-04"}, "carried on"},
	} {
		s := gannet(t)
		s.Plan.Hours, s.Plan.Use.Basis = c.now, c.use
		said := textOf(t, s)
		for _, want := range c.want {
			if !strings.Contains(said, want) {
				t.Errorf("%s: no %q in %.700s", c.what, want, said)
			}
		}
		if strings.Contains(strings.Split(said, "Cautions")[0], c.not) {
			t.Errorf("%s: says %q", c.what, c.not)
		}
	}
}

// The arithmetic of the kit is shown, and what is unknown is said to be, with
// the place to write it.
func TestKit(t *testing.T) {
	supply := oilSupply()
	for _, c := range []struct {
		what   string
		change func(*Sheet, *plan.Supply)
		want   []string
	}{
		{"as it is", func(*Sheet, *plan.Supply) {}, []string{
			"10 L at the upper mark with a new filter + 5 % = 10.5 L: 2 cans of 5 L and 1 of 1 L, 11 L in all",
			"10 L at 15 °C are 10.4 L at 70 °C: 2 fillings of 6 L", "any of: 15W-40 or 10W-40", "marked any of: API CI-4 or ACEA E7", "last time: Harrow HD", "Oil filter CR-2214 1",
			"Impeller no record of a number: 1"}},
		{"rounded, three sizes", func(_ *Sheet, s *plan.Supply) {
			*s = plan.Supply{System: "coolant", Needs: litres("11.5"), Margin: 50, Bring: litres("12.1"), Holds: litres("26"),
				Cans: []plan.Can{{Size: litres("20"), Count: 1}, {Size: litres("5"), Count: 1}, {Size: litres("1"), Count: 1}}}
		}, []string{"11.5 L that it holds + 5 % = 12.1 L, rounded up: 1 can of 20 L, 1 of 5 L and 1 of 1 L, 26 L in all", "ethylene glycol, to protect to -25 °C"}},
		{"no cans", func(_ *Sheet, s *plan.Supply) { s.Cans, s.Holds = nil, 0 },
			[]string{"= 10.5 L The yard file names no sizes of can: write them there, under containers."}},
		{"unknown oil", func(_ *Sheet, s *plan.Supply) { *s = plan.Supply{System: "engine-oil"} },
			[]string{"How much it takes is unknown. Once measured, write it into the machine file of gannet-port: systems, engine-oil, at_upper."}},
		{"unknown coolant", func(_ *Sheet, s *plan.Supply) { *s = plan.Supply{System: "coolant"} }, []string{"systems, coolant, holds."}},
		{"one filling", func(s *Sheet, _ *plan.Supply) {
			s.Kit.Extractions[0].Fillings, s.Kit.Extractions[0].Holds = 1, litres("20")
		}, []string{": 1 filling of 20 L"}},
		{"nothing", func(s *Sheet, _ *plan.Supply) { s.Kit, s.Work = plan.Kit{}, s.Work[2:] }, []string{"Nothing that the machine file or the records name."}},
		{"an extractor, and no content", func(s *Sheet, _ *plan.Supply) { s.Kit.Extractions = nil },
			[]string{"Extractor, engine oil 6 L a filling; how many it takes is unknown, empty it in time"}},
		{"no extractor in the yard", func(s *Sheet, _ *plan.Supply) { s.Kit.Extractions, s.Yard.Extractor, s.Drain = nil, 0, "extractor" },
			[]string{"Extractor, engine oil The yard file names none: write it there, under extractor."}},
		{"a pan, and no content", func(s *Sheet, _ *plan.Supply) {
			s.Kit.Extractions, s.Drain, s.Plan.Machine.Systems[0].AtUpper = nil, "plug", 0
		}, []string{"Pan, engine oil How much comes out is unknown: have a large pan."}},
		{"a pan", func(s *Sheet, _ *plan.Supply) { s.Kit.Extractions, s.Drain = nil, "plug" }, []string{"Pan, engine oil up to 10 L come out: have a pan for more"}},
		{"a pan for warm oil", func(s *Sheet, _ *plan.Supply) { s.Drain = "plug" }, []string{"Pan, engine oil 10 L at 15 °C are 10.4 L at 70 °C: have a pan for more"}},
		{"a filter without the oil", func(s *Sheet, _ *plan.Supply) { s.Kit, s.Work = plan.Kit{}, s.Work[1:2] },
			[]string{"Engine oil 0.6 L for the new filter, and some to top up: without new oil no new filter"}},
	} {
		s, one := gannet(t), supply
		c.change(&s, &one)
		if len(s.Kit.Supplies) > 0 {
			s.Kit.Supplies = []plan.Supply{one}
		}
		said := textOf(t, s)
		for _, want := range c.want {
			if !strings.Contains(said, want) {
				_, kit, _ := strings.Cut(said, "What to bring")
				t.Errorf("%s: no %q in %.600s", c.what, want, kit)
			}
		}
	}
}

// The figures of the machine and the kit stand in the steps.
func TestStepsHaveTheFigures(t *testing.T) {
	said := textOf(t, gannet(t))
	for _, want := range []string{
		"as far as it holds, about 0.6 L", "LOWER mark first: 8.4 L with a new filter, what it took included", "1.6 L lie between the marks",
		"it holds 10.4 L when warm: 2 fillings of 6 L", "Read the can: 15W-40 or 10W-40, marked API CI-4 or ACEA E7.", "height. Last: CR-2214.", "on the plate: 0045120.",
	} {
		if !strings.Contains(said, want) {
			t.Errorf("no %q", want)
		}
	}
}

// The grades that suit stand by the new filter, also where no oil is changed.
func TestFilterAloneHasItsGrade(t *testing.T) {
	s := gannet(t)
	s.Work, s.Kit = s.Work[1:2], plan.Kit{}
	if said := textOf(t, s); !strings.Contains(said, "Read the can: 15W-40 or 10W-40, marked API CI-4 or ACEA E7.") {
		t.Errorf("got %s", said)
	}
}

// The oil of an outboard's leg comes out at the bottom, also in a yard that has an
// extractor.
func TestLegIsEmptiedThroughTheBottom(t *testing.T) {
	s := all(t, "petrol outboard", "petrol-outboard")
	s.Plan.Machine.Systems = append(s.Plan.Machine.Systems, jobsheet.System{Name: "gear-oil", AtUpper: litres("0.5")})
	said := textOf(t, s)
	for _, want := range []string{"Extractor, engine oil 6 L a filling", "Pan, gear oil up to 0.5 L come out"} {
		if !strings.Contains(said, want) {
			t.Errorf("no %q in %.2500s", want, said)
		}
	}
}

// The sheet of a machine with nothing due says so, and when what comes next; it
// has no steps. Where items are due and none was chosen it does not say it.
func TestNothingDue(t *testing.T) {
	said := textOf(t, quiet(t))
	// 47 h at 420 h a year are 41 days; at 525 and 315, 33 and 55.
	for _, want := range []string{"Nothing is recorded as due on 2026-11-25 at 1003 h.", "What comes next", "1050 h", "2027-10-20", "about 2027-01-05 2026-12-28 to 2027-01-19",
		"47 h, 329 days left", "local codes and licensed practice govern"} {
		if !strings.Contains(said, want) {
			t.Errorf("no %q in %s", want, said)
		}
	}
	for _, not := range []string{"On arrival", "Cautions", "put on this sheet", "Technician"} {
		if strings.Contains(said, not) {
			t.Errorf("says %q", not)
		}
	}
	s := quiet(t)
	s.Plan.Hours.Given = false
	if said := textOf(t, s); !strings.Contains(said, "Nothing is recorded as due on 2026-11-25 at about 1003 h.") {
		t.Errorf("worked out: %s", said)
	}
	s.Plan.Items[0].State = schedule.Now
	if said := textOf(t, s); strings.Contains(said, "Nothing is recorded") || !strings.Contains(said, "No item was put on this sheet; what is due stands below.") {
		t.Errorf("something is due: %s", said)
	}
	s.Plan.Items = nil
	if said := textOf(t, s); !strings.Contains(said, "The schedule names nothing that falls due.") {
		t.Errorf("an empty schedule: %s", said)
	}
}

// A schedule that has changed since the last record is said to have.
func TestEdition(t *testing.T) {
	s := gannet(t)
	s.Plan.Edition = &plan.EditionChange{Then: record.ScheduleRef{ID: "diesel-inboard-ellery", Edition: 1}, Record: plan.Cited{Number: 3}}
	if said := textOf(t, s); !strings.Contains(said, "The last record, 3, was checked by diesel-inboard-ellery, edition 1; the schedule has changed since.") {
		t.Errorf("got %s", said)
	}
}
