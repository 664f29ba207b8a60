package worksheet

import (
	"strconv"
	"strings"

	"hourseal/record/plan"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
	"hourseal/render/sheet"
	"hourseal/render/words"
)

// job is what the steps and cautions are chosen by.
func (p *page) job() words.Job {
	return words.Job{MachineKind: p.Plan.Machine.Kind, Tasks: p.tasks(), Drain: p.drain}
}

// The columns of a step: its box and number, what it is about, what to do.
const (
	boxColumn   = 31 * sheet.Pt
	aboutColumn = 53 * sheet.Pt
	stepGap     = 7 * sheet.Pt
	stepPadding = 17 * sheet.Pt / 10
)

// steps are the steps in the order of the work, numbered through, so that one
// technician can tell another where they are. A step is a block of its own, so
// that no page parts it from its lines to write on.
func (p *page) steps() {
	width := p.flow.Area().W - boxColumn - aboutColumn - 2*stepGap
	number := 0
	for i, phase := range words.Steps(p.job()) {
		p.flow.Section(p.texts.Steps.Heading.With("number", strconv.Itoa(i+1), "phase", phase.Title))
		about := ""
		for _, step := range phase.Steps {
			number++
			places := p.places(step)
			name := step.About.With(places...)
			shown := name
			if name == about { // named once, as long as it stays the same
				shown = ""
			}
			about = name
			p.step(sheet.Cell{numbered(number)}, says(strong, shown),
				sheet.TextAndBlanks(body, step.Text.With(places...), small, grey, writing, width, p.blanksOf(step)))
		}
		p.flow.End()
	}
}

func (p *page) step(box, about, what sheet.Cell) {
	width := p.flow.Area().W - boxColumn - aboutColumn - 2*stepGap
	h := max(box.Height(boxColumn), about.Height(aboutColumn), what.Height(width))
	p.flow.Block(h+2*stepPadding+sheet.Pt/4, func(page int, b sheet.Box) {
		b.Y, b.H = b.Y+stepPadding, h
		x := b.X
		box.Place(p.doc, page, sheet.Box{X: x, Y: b.Y, W: boxColumn, H: h})
		x += boxColumn + stepGap
		about.Place(p.doc, page, sheet.Box{X: x, Y: b.Y, W: aboutColumn, H: h})
		x += aboutColumn + stepGap
		what.Place(p.doc, page, sheet.Box{X: x, Y: b.Y, W: width, H: h})
		p.doc.Rule(page, b.X, b.Bottom()+stepPadding, b.W, sheet.Pt/4, hair)
	})
}

// numbered is a box to tick with the step's number before it.
func numbered(n int) sheet.Item {
	box := tick(sheet.Right)
	draw := box.Draw
	box.Draw = func(d *sheet.Document, page int, b sheet.Box) {
		d.TextIn(page, b.X, b.W-tickSide-4*sheet.Pt, b.Y, sheet.Right, body.In(grey), strconv.Itoa(n))
		draw(d, page, b)
	}
	return box
}

// blanksOf are a step's lines to write on. A task without a list of its own has
// what its evidence asks for.
func (p *page) blanksOf(step words.Step) []sheet.Blank {
	var list []sheet.Blank
	for _, b := range step.Blanks {
		list = append(list, sheet.Blank{Label: b.Label, Unit: b.Unit, Rule: map[string]sheet.Len{"short": shortLine, "long": longLine}[b.Line]})
	}
	if !step.Unlisted {
		return list
	}
	t := p.texts.Steps
	for _, task := range step.Tasks {
		if task.Needs.Reading != "" {
			list = append(list, sheet.Blank{Label: t.Reading.With("name", words.LowerName(task.Needs.Reading)), Rule: longLine})
		}
		if task.Needs.Part != "" {
			list = append(list, sheet.Blank{Label: t.Part, Rule: longLine}, sheet.Blank{Label: t.Count, Rule: shortLine})
		}
	}
	return append(list, sheet.Blank{Label: t.Noted})
}

// places are what fills the places of a step's text.
func (p *page) places(step words.Step) []string {
	task := step.Tasks[0]
	item := task.Needs.Part
	if item == "" {
		item = task.ID
	}
	pairs := []string{"title", task.Title, "item", words.Name(item), "serial", p.Plan.Machine.Serial, "part", p.partNumber(task)}
	if step.System == "" {
		return pairs
	}
	return append(pairs, p.figures(step.System)...)
}

// figures are what is known of a fluid system; what is not is empty.
func (p *page) figures(name string) []string {
	system, _ := p.Plan.Machine.System(name)
	supply := plan.Supply{
		FilterHolds: system.FilterHolds, BetweenMarks: system.BetweenMarks, Viscosity: system.Viscosity, Meets: system.Meets,
	}
	for _, s := range p.Kit.Supplies {
		if s.System == name {
			supply = s
		}
	}
	var hot, fillings string
	for _, e := range p.Kit.Extractions {
		if e.System == name {
			hot, fillings = p.style.Tenths(e.Hot), p.fillings(e)
		}
	}
	protect := ""
	if system.ProtectTo != nil {
		protect = p.style.Marked(system.ProtectTo.String())
	}
	or := p.texts.Kit.Or
	return []string{
		"needs", p.known(supply.Needs), "to_lower", p.known(supply.ToLower), "between", p.known(supply.BetweenMarks),
		"filter_holds", p.known(supply.FilterHolds), "hot", hot, "fillings", fillings,
		"viscosity", strings.Join(supply.Viscosity, or), "meets", strings.Join(supply.Meets, or),
		"glycol", system.Glycol, "protect_to", protect,
	}
}

func (p *page) known(v quantity.Volume) string {
	if v <= 0 {
		return ""
	}
	return p.style.Volume(v)
}

// partNumber is the number of the part that a task takes, from the last record.
func (p *page) partNumber(task schedule.Task) string {
	for _, part := range p.Kit.Parts {
		if part.Task == task.ID || task.Needs.Part != "" && strings.EqualFold(part.Item, task.Needs.Part) {
			return part.Number
		}
	}
	return ""
}
