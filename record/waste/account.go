package waste

import (
	"cmp"
	"slices"

	"hourseal/record"
	"hourseal/record/logbook"
	"hourseal/record/quantity"
)

// Account is a year's waste, of one machine or of several.
type Account struct {
	Year        int
	Read        int     // records that were read, of any year
	Counted     int     // those of them that count and are of the year
	Entries     []Entry // by date, machine, record and place in the record
	Unaccounted []Drain // likewise
}

// Entry is one waste entry of a record.
type Entry struct {
	From   record.Earlier
	Waste  record.Waste
	Amount Amount
}

// Drain is what was drained on a job whose record does not say where it went.
type Drain struct {
	From    record.Earlier
	System  string
	Drained quantity.Measured
	Amount  Amount
}

// Of is the account of one machine, by its chain as it is stored.
func Of(year int, chain []record.Earlier) Account {
	a := Account{Year: year, Read: len(chain)}
	if len(chain) == 0 {
		return a
	}
	inService := chain[0].Record.Machine.InService
	for _, e := range logbook.New(inService, nil, nil, chain, nil).Own {
		if e.Record.Job.Date.Year() == year {
			a.add(e)
		}
	}
	a.sort()
	return a
}

func (a *Account) add(e record.Earlier) {
	a.Counted++
	r := e.Record
	for _, w := range r.Waste {
		a.Entries = append(a.Entries, Entry{e, w, amountOf(r, w.System, w.Amount)})
	}
	for i := range r.Fluids {
		f := &r.Fluids[i]
		if f.Drained == nil || slices.ContainsFunc(r.Waste, func(w record.Waste) bool { return w.System == f.System }) {
			continue
		}
		if out := amountOf(r, f.System, *f.Drained); out.Litres == nil || *out.Litres > 0 {
			a.Unaccounted = append(a.Unaccounted, Drain{e, f.System, *f.Drained, out})
		}
	}
}

// Together is the account of several machines, of the same year.
func Together(year int, accounts []Account) Account {
	all := Account{Year: year}
	for _, a := range accounts {
		all.Read += a.Read
		all.Counted += a.Counted
		all.Entries = append(all.Entries, a.Entries...)
		all.Unaccounted = append(all.Unaccounted, a.Unaccounted...)
	}
	all.sort()
	return all
}

func (a *Account) sort() {
	slices.SortStableFunc(a.Entries, func(x, y Entry) int { return byJob(x.From.Record, y.From.Record) })
	slices.SortStableFunc(a.Unaccounted, func(x, y Drain) int { return byJob(x.From.Record, y.From.Record) })
}

func byJob(a, b *record.Record) int {
	return cmp.Or(cmp.Compare(a.Job.Date, b.Job.Date), cmp.Compare(a.Machine.ID, b.Machine.ID), cmp.Compare(a.Number, b.Number))
}
