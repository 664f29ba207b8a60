package closeout

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"hourseal/record"
	"hourseal/record/check"
	"hourseal/record/dialogue"
	"hourseal/record/fluid"
	"hourseal/record/jobsheet"
	"hourseal/record/plan"
	"hourseal/record/quantity"
)

// fluids asks what came out and went in of each system that the done tasks speak of.
// The levels afterwards come later, once the engine was run and stood.
func (s *session) fluids() {
	for _, e := range jobsheet.EvidenceFor(s.done) {
		system, has := s.Machine.System(e.System)
		if !has {
			s.a.Say(fmt.Sprintf("The machine file has no system %s, which the schedule speaks of: it has to be written there first.", e.System))
			continue
		}
		at := fluidPath(len(s.job.Fluids))
		s.job.Fluids = append(s.job.Fluids, record.Fluid{System: system.Name})
		f := &s.job.Fluids[len(s.job.Fluids)-1]
		if e.Level {
			s.toppedUp(system)
			f.LevelBefore = s.levelBefore(at, system)
			s.look(at + "/level_before")
		}
		if e.Drained {
			s.drained(at, system, f)
		}
		if e.Filled {
			s.filled(at, system, f)
			s.look(at, "topped_up")
		}
	}
}

func fluidPath(i int) string { return fmt.Sprintf("fluids/%d", i) }

func fluidKey(system jobsheet.System, what string) string { return "fluid/" + system.Name + "/" + what }

// amountHelp explains how an amount is typed.
var amountHelp = []string{
	"An amount with its unit, as 9.4 L, 450 mL, 2.5 US gal, 4.5 US qt, 1 imp gal, 3 imp pt or 7.7 kg. How warm it was stands behind it, as 9.4 L at 60 C: oil at 68 °C takes up 4 % more room than at 15.",
	"A sum: 5 L at 16 C, 4.3 L at 16 C.",
}

const notMeasured = "not measured"

// amount asks for one; nil where it was not stated or the script waits.
func (s *session) amount(path string, q dialogue.Question) *quantity.Measured {
	q.Read = dialogue.Reading(jobsheet.LineAmount)
	q.Help = slices.Concat(q.Help, amountHelp)
	text := s.ask(path, q)
	if text == "" {
		return nil
	}
	m, err := jobsheet.LineAmount(text) // of a dash: not measured
	if err != nil {
		return nil
	}
	return &m
}

func (s *session) toppedUp(system jobsheet.System) {
	path := fmt.Sprintf("topped_up/%d", len(s.job.ToppedUp))
	m := s.amount(path, dialogue.Question{
		Key: fluidKey(system, "topped-up"), Text: spoken(system.Name) + ": topped up since the last service, by the owner's log",
		Offer: dialogue.Dash, Dashed: "none known",
	})
	if m != nil && !m.NotMeasured {
		s.job.ToppedUp = append(s.job.ToppedUp, record.TopUp{System: system.Name, Amount: *m})
	}
}

func (s *session) drained(at string, system jobsheet.System, f *record.Fluid) {
	f.Drained = s.amount(at+"/drained", dialogue.Question{
		Key: fluidKey(system, "drained"), Text: spoken(system.Name) + ": drained, as " + likeAmount(system, 90) + " at 60 C",
		Dashed: notMeasured, Said: s.contentSaid(system, f.LevelBefore),
	})
	if f.Drained == nil {
		return
	}
	s.look(at + "/drained")
	if system.FilterHolds > 0 && !f.Drained.NotMeasured && s.filterChanged(system) {
		text := s.ask(at+"/drained_includes_filter", dialogue.Question{
			Key: fluidKey(system, "with-filter"), Text: "Does that have in it what the old filter held? y or n", Offer: "no", Read: dialogue.YesNo.Read,
			Help: []string{"The filter holds " + s.Words.Style.Volume(system.FilterHolds) + ". Yes where it was emptied into the same jug, no where it was thrown away full."},
		})
		if text != "" {
			f.WithFilter = new(text == "yes")
		}
	}
	s.look(at+"/drained", at+"/drained_includes_filter")
	s.seen(at, system, f)
}

func (s *session) filterChanged(system jobsheet.System) bool {
	return slices.ContainsFunc(s.job.Tasks, func(t record.Task) bool {
		return t.Result == record.Done && check.IsFilterOf(t.ID, system.Name)
	})
}

// likeAmount is an amount as it may be drained of a system, or filled in: so many hundredths
// of what it holds.
func likeAmount(system jobsheet.System, hundredths quantity.Volume) string {
	holds := max(system.AtUpper, system.Holds)
	if holds == 0 {
		holds = 10 * quantity.Litre
	}
	return (max(holds*hundredths/100, 50) / 50 * 50).String()
}

// contentSaid says how much there is to come out, cold and warm: by the level where
// it was read, else between the marks.
func (s *session) contentSaid(system jobsheet.System, before *record.Level) []string {
	if system.AtUpper <= 0 || system.BetweenMarks <= 0 || system.IsCoolant() {
		if system.Holds > 0 {
			return []string{"It holds " + s.Words.Style.Volume(system.Holds) + "."}
		}
		return nil
	}
	of := fluid.System{AtUpper: system.AtUpper, BetweenMarks: system.BetweenMarks}
	low, high := system.AtUpper-system.BetweenMarks, system.AtUpper
	if before != nil && before.Reading != nil {
		in := system.AtUpper - fluid.ToUpper(of, *before.Reading) + fluid.OverUpper(of, *before.Reading)
		margin := system.BetweenMarks * quantity.Volume(s.Doubt.Dipstick) / quantity.Volume(quantity.One)
		low, high = in-margin, in+margin
	}
	warmLow, err := fluid.From15(low, plan.Warm, system.Density)
	if err != nil {
		return nil
	}
	warmHigh, err := fluid.From15(high, plan.Warm, system.Density)
	if err != nil {
		return nil
	}
	style := s.Words.Style
	said := fmt.Sprintf("About %s to %s is in; at %v that takes up %s to %s.", style.Tenths(low), style.Tenths(high), plan.Warm, style.Tenths(warmLow), style.Tenths(warmHigh))
	if system.FilterHolds > 0 {
		said += " The filter keeps " + style.Volume(system.FilterHolds) + " of it."
	}
	return []string{said}
}

// seen asks what was seen in what came out, and what was done about it.
func (s *session) seen(at string, system jobsheet.System, f *record.Fluid) {
	text := s.ask(at+"/seen", dialogue.Question{
		Key: fluidKey(system, "seen"), Text: "Seen in it: nothing, or water, metal, fuel", Offer: dialogue.Dash, Dashed: "not looked at",
		Help: []string{"One or several, with commas: water, metal. Nothing is an answer for whoever looked; whoever did not leaves it empty."},
		Read: dialogue.Reading(sights),
	})
	f.Saw = dialogue.Value(sights, text)
	if len(f.Saw) == 0 || f.Saw[0] == record.SawNothing {
		return
	}
	key := fluidKey(system, "seen")
	why := s.ask(at+"/seen", dialogue.Question{
		Key: key + "/why", Text: "What was done about it", Read: s.reasonText,
		Help: []string{"As sample sent to the laboratory. It is printed on the report."},
	})
	if why == "" {
		return
	}
	f.Answer = s.advice(key, at+"/seen", record.Answer{Why: why})
}

// sights reads what was seen, without an answer to it, which is asked for by itself.
func sights(text string) ([]record.Sight, error) {
	saw, _, err := jobsheet.LineSeen(text)
	return saw, err
}

func (s *session) filled(at string, system jobsheet.System, f *record.Fluid) {
	last := s.lastFilled(system)
	offer := jobsheet.Product{Name: last.Product, Viscosity: last.Viscosity, Batch: last.Batch, Meets: last.Meets, Glycol: last.Glycol}
	example := "Harrow HD, 15W-40, API CK-4, batch H-0612"
	if system.IsCoolant() {
		example = "Harrow LL, ethylene, batch C-0127"
	}
	text := s.ask(at+"/product", dialogue.Question{
		Key:  fluidKey(system, "product"),
		Text: spoken(system.Name) + " filled, as on the can: name, grade, specifications, batch",
		Said: asked(system), Offer: cmp.Or(jobsheet.ProductLine(offer), dialogue.Dash), Dashed: "not stated",
		Help: []string{"With commas between, as " + example + "."},
		Read: s.line(s.product),
	})
	for _, key := range []string{"batch", "viscosity", "meets", "glycol"} {
		s.places[at+"/"+key] = s.places[at+"/product"]
	}
	product := dialogue.Value(jobsheet.LineProduct, text)
	f.Product, f.Viscosity, f.Batch, f.Meets, f.Glycol = product.Name, product.Viscosity, product.Batch, product.Meets, product.Glycol
	s.look(at+"/viscosity", at+"/meets", at+"/glycol")
	f.Filled = s.amount(at+"/filled", dialogue.Question{
		Key: fluidKey(system, "filled"), Text: "Filled in, as " + likeAmount(system, 93) + " at 16 C", Dashed: notMeasured, Said: s.fillSaid(system),
	})
}

// product reads what stands on a can.
func (s *session) product(typed string) (string, error) {
	p, err := jobsheet.LineProduct(typed)
	if err == nil && p.Name != "" {
		_, err = s.named(p.Name)
	}
	return typed, err
}

// lastFilled is what the system was filled with last, or another machine's on this
// visit; the batch is that of this visit only.
func (s *session) lastFilled(system jobsheet.System) record.Fluid {
	for _, f := range s.Visit.Fluids {
		if f.System == system.Name && f.Filled != nil {
			return f
		}
	}
	last := plan.LastFilling(s.Log, system.Name)
	last.Batch = ""
	return last
}

// asked says what the machine file asks for.
func asked(system jobsheet.System) []string {
	var parts []string
	if len(system.Viscosity) > 0 {
		parts = append(parts, strings.Join(system.Viscosity, " or "))
	}
	if len(system.Meets) > 0 {
		parts = append(parts, strings.Join(system.Meets, " or "))
	}
	if system.Glycol != "" {
		parts = append(parts, system.Glycol+" glycol")
	}
	if len(parts) == 0 {
		return nil
	}
	return []string{"Asked for: " + strings.Join(parts, "; ") + "."}
}

// fillSaid says what the system takes.
func (s *session) fillSaid(system jobsheet.System) []string {
	style := s.Words.Style
	switch {
	case system.AtUpper > 0 && system.BetweenMarks > 0:
		return []string{fmt.Sprintf("Empty, it takes %s to the lower mark and %s to the upper.",
			style.Volume(system.AtUpper-system.BetweenMarks), style.Volume(system.AtUpper))}
	case system.Holds > 0 || system.AtUpper > 0:
		return []string{"It holds " + style.Volume(max(system.Holds, system.AtUpper)) + "."}
	}
	return nil
}

// waste asks where what came out went.
func (s *session) waste() {
	for _, f := range s.job.Fluids {
		if f.Drained == nil {
			continue
		}
		system, _ := s.Machine.System(f.System)
		path := fmt.Sprintf("waste/%d", len(s.job.Waste))
		parse := func(text string) (record.Waste, error) { return jobsheet.LineWaste(f.System, text) }
		text := s.ask(path, dialogue.Question{
			Key: fluidKey(system, "waste"), Text: "Waste of the " + strings.ToLower(spoken(f.System)) + ": how much, and where it went", Dashed: "not stated",
			Help: []string{"To a receiver: 8.8 L to harbour oil bank, receipt 5521. Kept at the yard until one takes it: 8.8 L held in waste oil tank 2.",
				"Used oil, filters and rags go to a proper receiver, by the local rules."},
			Read: s.line(dialogue.Reading(parse)),
		})
		if w := dialogue.Parsed(parse, text); w != nil {
			s.job.Waste = append(s.job.Waste, *w)
		}
		if text != "" {
			s.look("waste")
		}
	}
}
