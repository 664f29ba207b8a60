package worksheet

import (
	"cmp"
	"slices"

	"hourseal/record/plan"
	"hourseal/render/sheet"
	"hourseal/render/words"
)

// drained are the fluid systems that the work empties, in its order.
func (p *page) drained() []string {
	var all []string
	for _, item := range p.Work {
		if name := item.Task.Needs.Drained; name != "" && !slices.Contains(all, name) {
			all = append(all, name)
		}
	}
	return all
}

// emptiedBy is how a system is emptied on this sheet: as its steps do it, and
// those of coolant and of a leg do it one way only, through the bottom. A task
// without steps of its own leaves it to the machine file and the yard.
func (p *page) emptiedBy(system string) string {
	for _, phase := range words.Steps(p.job()) {
		for _, step := range phase.Steps {
			switch {
			case step.Unlisted && step.Tasks[0].Needs.Drained == system:
				return p.drain(system)
			case step.System == system && step.Drain != "":
				return step.Drain
			}
		}
	}
	return words.DrainPlug
}

// emptying is what to bring to empty a system: the extractor, and how often it
// fills, or a pan, and what it has to hold.
func (p *page) emptying(name string) (what, much sheet.Cell) {
	t := p.texts.Kit
	var e plan.Extraction
	if i := slices.IndexFunc(p.Kit.Extractions, func(e plan.Extraction) bool { return e.System == name }); i >= 0 {
		e = p.Kit.Extractions[i]
	}
	hot, at := p.style.Tenths(e.Hot), p.style.Marked(e.At.String())
	if p.emptiedBy(name) == words.DrainExtractor {
		what = says(strong, t.Extractor.With("system", words.LowerName(name)))
		switch {
		case e.Holds > 0:
			return what, says(body, t.Extraction.With(
				"content", p.style.Volume(e.Content), "hot", hot, "at", at, "fillings", p.fillings(e)))
		case p.Yard.Extractor == 0:
			return what, says(body, t.NoExtractor)
		}
		return what, says(body, t.ExtractorSize.With("holds", p.known(p.Yard.Extractor)))
	}
	what = says(strong, t.Pan.With("system", words.LowerName(name)))
	system, _ := p.Plan.Machine.System(name)
	content := cmp.Or(system.AtUpper, system.Holds)
	switch {
	case e.System != "":
		return what, says(body, t.PanHolds.With("content", p.style.Volume(e.Content), "hot", hot, "at", at))
	case content > 0:
		return what, says(body, t.PanPlain.With("content", p.style.Volume(content)))
	}
	return what, says(body, t.PanUnknown)
}

// oilForFilter are the systems that fill a new filter without being filled
// themselves by the work: their oil is no supply of the kit.
func (p *page) oilForFilter() []string {
	var list []string
	for _, phase := range words.Steps(p.job()) {
		for _, step := range phase.Steps {
			filled := slices.ContainsFunc(p.Work, func(item plan.Item) bool { return item.Task.Needs.Filled == step.System })
			if _, there := p.Plan.Machine.System(step.System); step.Takes && there && !filled {
				list = append(list, step.System)
			}
		}
	}
	return list
}
