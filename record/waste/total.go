package waste

import (
	"cmp"
	"slices"

	"hourseal/record"
	"hourseal/record/quantity"
)

// Where is where waste went.
type Where uint8

const (
	Taken     Where = iota + 1 // by a receiver
	Held                       // by the yard, until a receiver takes it
	NotStated                  // what came out is on record, and not where it went
)

// Place is where waste went, and the name of that as it was written.
type Place struct {
	Where Where
	Name  string // "" where it is not stated
}

// PlaceOf is where the waste of an entry went.
func PlaceOf(w record.Waste) Place {
	switch {
	case w.To != "":
		return Place{Taken, w.To}
	case w.Held != "":
		return Place{Held, w.Held}
	}
	return Place{Where: NotStated}
}

// Sum is several amounts together.
type Sum struct {
	Jobs        int // records; one with two of the amounts counts once
	Amounts     int
	NotMeasured int              // of the amounts
	Litres      *quantity.Volume // nil: none was measured
	Weighed     *quantity.Mass   // nil unless all that was measured was weighed
}

// Total is the waste of one system that went to one place.
type Total struct {
	System string
	Place
	Sum
	Receipts []string // as they come by date, each once
}

// Totals adds the entries up, by system and by place; receivers before what the
// yard holds, and that before what is not stated.
func (a Account) Totals() []Total {
	type key struct {
		system string
		place  Place
	}
	list := grouped(a.Entries, func(e Entry) key { return key{e.Waste.System, PlaceOf(e.Waste)} })
	slices.SortFunc(list, func(a, b group[key, Entry]) int {
		return cmp.Or(cmp.Compare(a.key.system, b.key.system), cmp.Compare(a.key.place.Where, b.key.place.Where),
			cmp.Compare(a.key.place.Name, b.key.place.Name))
	})
	var totals []Total
	for _, g := range list {
		t := Total{System: g.key.system, Place: g.key.place, Sum: sumOf(g.members, Entry.part)}
		for _, e := range g.members {
			if e.Waste.Receipt != "" && !slices.Contains(t.Receipts, e.Waste.Receipt) {
				t.Receipts = append(t.Receipts, e.Waste.Receipt)
			}
		}
		totals = append(totals, t)
	}
	return totals
}

// SystemTotal is a sum over one system.
type SystemTotal struct {
	System string
	Sum
}

// BySystem adds the entries up by system, wherever they went.
func (a Account) BySystem() []SystemTotal {
	return bySystem(a.Entries, func(e Entry) string { return e.Waste.System }, Entry.part)
}

// UnaccountedBySystem adds up what was drained and has no record of where it went.
func (a Account) UnaccountedBySystem() []SystemTotal {
	return bySystem(a.Unaccounted, func(d Drain) string { return d.System }, Drain.part)
}

func bySystem[T any](list []T, system func(T) string, part func(T) (record.ID, Amount)) []SystemTotal {
	groups := grouped(list, system)
	slices.SortFunc(groups, func(a, b group[string, T]) int { return cmp.Compare(a.key, b.key) })
	var totals []SystemTotal
	for _, g := range groups {
		totals = append(totals, SystemTotal{g.key, sumOf(g.members, part)})
	}
	return totals
}

func (e Entry) part() (record.ID, Amount) { return e.From.ID, e.Amount }
func (d Drain) part() (record.ID, Amount) { return d.From.ID, d.Amount }

type group[K comparable, T any] struct {
	key     K
	members []T
}

// grouped puts what has one key together, in its order.
func grouped[K comparable, T any](list []T, keyOf func(T) K) []group[K, T] {
	var groups []group[K, T]
	place := map[K]int{}
	for _, member := range list {
		key := keyOf(member)
		i, known := place[key]
		if !known {
			i = len(groups)
			place[key] = i
			groups = append(groups, group[K, T]{key: key})
		}
		groups[i].members = append(groups[i].members, member)
	}
	return groups
}

func sumOf[T any](list []T, part func(T) (record.ID, Amount)) Sum {
	s := Sum{Amounts: len(list)}
	jobs := map[record.ID]bool{}
	var litres quantity.Volume
	var mass quantity.Mass
	weighed := true
	for _, member := range list {
		id, a := part(member)
		jobs[id] = true
		if a.Litres == nil {
			s.NotMeasured++
			continue
		}
		litres += *a.Litres
		if a.Weighed == nil {
			weighed = false
		} else {
			mass += *a.Weighed
		}
	}
	s.Jobs = len(jobs)
	if s.NotMeasured < s.Amounts {
		s.Litres = &litres
		if weighed {
			s.Weighed = &mass
		}
	}
	return s
}
