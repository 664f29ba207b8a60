package plan

import (
	"cmp"
	"slices"
	"strings"

	"hourseal/record"
	"hourseal/record/fluid"
	"hourseal/record/jobsheet"
	"hourseal/record/logbook"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// Kit is what to bring for some items of a plan.
type Kit struct {
	Supplies    []Supply
	Extractions []Extraction
	Parts       []Part
}

// Supply is the fluid to bring for one system.
type Supply struct {
	System    string
	Viscosity []string // any of these suits
	Meets     []string // any of these
	Product   string   // of the last record that filled it; "" without one
	// Needs is what the machine file says the system takes: at_upper or holds.
	// 0: unknown, and nothing below is worked out.
	Needs  quantity.Volume
	Margin quantity.Ratio
	Bring  quantity.Volume // Needs with the margin
	Cans   []Can           // of the yard's sizes, largest first; none: the yard names no sizes
	Holds  quantity.Volume // what the cans hold together
	// Where the machine file has them, for the steps:
	ToLower, BetweenMarks, FilterHolds quantity.Volume
}

// Can is so many containers of a size.
type Can struct {
	Size  quantity.Volume
	Count int
}

// Extraction is how much oil comes out Warm, and how often the extractor fills.
type Extraction struct {
	System   string
	Content  quantity.Volume // at the upper mark, at 15 degC
	At       quantity.Temperature
	Hot      quantity.Volume // the same oil at that temperature
	Holds    quantity.Volume // the extractor; 0: the yard states none
	Fillings int             // of it
}

// Part is a part to bring.
type Part struct {
	Item     string
	Number   string // of the last record that fitted it; "" without one
	Quantity uint
	Task     string // id
	// For is the task's title where the schedule names no part for a replacement;
	// Item is then empty.
	For string
}

// Warm is how hot oil is reckoned to be drained: soon after stopping (TM 5-685),
// and warm is enough. How hot that is: common practice, no source.
const Warm = 70 * quantity.Degree

// bringStep is what a volume to bring is rounded up to: 0.1 L.
const bringStep = 100

// KitFor is what to bring for some items of a machine's plan, in their order. The
// chain is the machine's records as they are stored. A system that the machine
// file does not have is left out.
func KitFor(yard jobsheet.Yard, m jobsheet.Machine, work []Item, chain []record.Earlier) Kit {
	log := m.Log(chain, nil)
	var kit Kit
	var filled, drained []string // systems that have their entry
	for _, item := range work {
		needs := item.Task.Needs
		if s, ok := m.System(needs.Filled); ok && !slices.Contains(filled, s.Name) {
			filled = append(filled, s.Name)
			kit.Supplies = append(kit.Supplies, supply(yard, s, LastFilling(log, s.Name)))
		}
		if s, ok := m.System(needs.Drained); ok && !slices.Contains(drained, s.Name) {
			drained = append(drained, s.Name)
			if e, ok := extraction(yard, s); ok {
				kit.Extractions = append(kit.Extractions, e)
			}
		}
		if needs.Part != "" && !slices.ContainsFunc(kit.Parts, func(p Part) bool { return strings.EqualFold(p.Item, needs.Part) }) {
			kit.Parts = append(kit.Parts, parts(log, needs.Part, item.Task.ID)...)
		}
		if item.Task.Kind == schedule.Replace && needs.Part == "" && needs.Filled == "" {
			kit.Parts = append(kit.Parts, Part{Quantity: 1, Task: item.Task.ID, For: item.Task.Title})
		}
	}
	return kit
}

func supply(yard jobsheet.Yard, s jobsheet.System, last record.Fluid) Supply {
	supply := Supply{System: s.Name, Viscosity: s.Viscosity, Meets: s.Meets, Product: last.Product}
	supply.Needs = cmp.Or(s.AtUpper, s.Holds)
	if supply.Needs <= 0 {
		return supply
	}
	supply.Margin = yard.Margin
	supply.Bring = withMargin(supply.Needs, yard.Margin)
	supply.Cans = cansFor(supply.Bring, yard.Containers)
	for _, can := range supply.Cans {
		supply.Holds += can.Size * quantity.Volume(can.Count)
	}
	supply.FilterHolds = s.FilterHolds
	if s.AtUpper > 0 {
		supply.BetweenMarks = s.BetweenMarks
	}
	if s.BetweenMarks > 0 && s.BetweenMarks < s.AtUpper {
		supply.ToLower = s.AtUpper - s.BetweenMarks
	}
	return supply
}

// withMargin is a volume and a share of it more, rounded up to 0.1 L.
func withMargin(v quantity.Volume, margin quantity.Ratio) quantity.Volume {
	const divisor = quantity.Volume(quantity.One) * bringStep
	return (v*quantity.Volume(quantity.One+margin) + divisor - 1) / divisor * bringStep
}

// extraction is how often the extractor fills with the oil of a system: with all
// of it up to the upper mark, though some stays in the filter, so that there is
// room for more rather than less. There is none for coolant, for a system without
// a known upper mark, and for an oil that is not corrected for its temperature
// (fluid.From15).
func extraction(yard jobsheet.Yard, s jobsheet.System) (Extraction, bool) {
	coolant := s.Glycol != "" || s.ProtectTo != nil
	if s.AtUpper <= 0 || coolant {
		return Extraction{}, false
	}
	hot, err := fluid.From15(s.AtUpper, Warm, s.Density)
	if err != nil {
		return Extraction{}, false
	}
	e := Extraction{System: s.Name, Content: s.AtUpper, At: Warm, Hot: hot, Holds: yard.Extractor}
	if e.Holds > 0 {
		e.Fillings = int((hot + e.Holds - 1) / e.Holds)
	}
	return e, true
}

// parts are what the last record that fitted an item fitted of it, one a number;
// one of it and no number without such a record.
func parts(log logbook.Log, item, task string) []Part {
	for _, e := range slices.Backward(log.Own) {
		var list []Part
		for _, p := range e.Record.Parts {
			if !strings.EqualFold(p.Item, item) {
				continue
			}
			if i := slices.IndexFunc(list, func(other Part) bool { return other.Number == p.Number }); i >= 0 {
				list[i].Quantity += p.Quantity
				continue
			}
			list = append(list, Part{Item: item, Number: p.Number, Quantity: p.Quantity, Task: task})
		}
		if len(list) > 0 {
			return list
		}
	}
	return []Part{{Item: item, Quantity: 1, Task: task}}
}

// LastFilling is the fluid of the last record that filled a system; zero without
// one.
func LastFilling(log logbook.Log, system string) record.Fluid {
	for _, e := range slices.Backward(log.Own) {
		for _, f := range e.Record.Fluids {
			if f.System == system && f.Filled != nil {
				return f
			}
		}
	}
	return record.Fluid{}
}

// BlankFor is the empty job sheet for the same items, with the products and parts
// of the last records.
func BlankFor(m jobsheet.Machine, on quantity.Date, reason record.Reason, work []Item, chain []record.Earlier) jobsheet.Blank {
	blank := jobsheet.Blank{Machine: m, Date: on, Reason: reason}
	for _, item := range work {
		blank.Tasks = append(blank.Tasks, item.Task)
	}
	kit, log := KitFor(jobsheet.Yard{}, m, work, chain), m.Log(chain, nil)
	for _, s := range kit.Supplies {
		if last := LastFilling(log, s.System); last.System != "" {
			blank.Fluids = append(blank.Fluids, last)
		}
	}
	for _, p := range kit.Parts {
		if p.Item == "" { // what it is called stands on no record and in no schedule
			continue
		}
		blank.Parts = append(blank.Parts, record.Part{Item: p.Item, Number: p.Number, Quantity: p.Quantity})
	}
	return blank
}
