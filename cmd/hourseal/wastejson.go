package main

import (
	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/waste"
	"hourseal/sign"
)

// The JSON of "hourseal waste", one object: keys are stable, absent values null.
// Litres are as measured; kilograms stand where all that was measured was weighed.
type wasteReport struct {
	Yard        string           `json:"yard"`
	Year        int              `json:"year"`
	Machines    []string         `json:"machines"` // that were named; null: the whole yard
	MachinesN   int              `json:"machines_read"`
	LeftOut     []string         `json:"left_out"`     // machines whose records could not be read
	Records     int              `json:"records_read"` // of any year
	Counted     int              `json:"records"`      // of the year, and neither voided nor corrected
	Totals      []wasteTotalJSON `json:"totals"`
	Entries     []wasteEntryJSON `json:"entries"`
	Unaccounted []wasteDrainJSON `json:"unaccounted"` // drained, and no record of where it went
}

type wasteTotalJSON struct {
	System      string           `json:"system"`
	To          *string          `json:"to"`   // null beside held null: not stated
	Held        *string          `json:"held"` // kept by the yard
	Jobs        int              `json:"jobs"`
	Entries     int              `json:"entries"`
	NotMeasured int              `json:"not_measured"` // of the entries
	Litres      *quantity.Volume `json:"litres"`
	Kilograms   *quantity.Mass   `json:"kilograms"`
	Receipts    []string         `json:"receipts"`
}

// wasteJobJSON is the job that an amount is of.
type wasteJobJSON struct {
	Date   quantity.Date `json:"date"`
	ID     string        `json:"machine"`
	Vessel *string       `json:"vessel"`
	Make   string        `json:"make"`
	Model  string        `json:"model"`
	Serial string        `json:"serial"`
	Job    *string       `json:"job_number"`
	Number uint32        `json:"record_number"`
	Record string        `json:"record"`
}

type wasteAmountJSON struct {
	System    string            `json:"system"`
	Written   string            `json:"as_written"`
	Litres    *quantity.Volume  `json:"litres"`
	Kilograms *quantity.Mass    `json:"kilograms"`
	Density   *quantity.Density `json:"density"`         // by which masses were made litres
	Assumed   *bool             `json:"density_assumed"` // null where there were none
}

type wasteEntryJSON struct {
	wasteJobJSON
	wasteAmountJSON
	To      *string `json:"to"`
	Held    *string `json:"held"`
	Receipt *string `json:"receipt"`
}

type wasteDrainJSON struct {
	wasteJobJSON
	wasteAmountJSON
}

func wasteJSON(made yardWaste) wasteReport {
	answer := wasteReport{
		Yard: made.yard, Year: made.Year, Machines: made.named, MachinesN: made.machines, LeftOut: append([]string{}, made.leftOut...),
		Records: made.Read, Counted: made.Counted,
		Totals: []wasteTotalJSON{}, Entries: []wasteEntryJSON{}, Unaccounted: []wasteDrainJSON{},
	}
	for _, t := range made.Totals() {
		row := wasteTotalJSON{
			System: t.System, Jobs: t.Jobs, Entries: t.Amounts, NotMeasured: t.NotMeasured,
			Litres: t.Litres, Kilograms: t.Weighed, Receipts: append([]string{}, t.Receipts...),
		}
		switch t.Where {
		case waste.Taken:
			row.To = &t.Name
		case waste.Held:
			row.Held = &t.Name
		}
		answer.Totals = append(answer.Totals, row)
	}
	for _, e := range made.Entries {
		answer.Entries = append(answer.Entries, wasteEntryJSON{
			wasteJobOf(e.From), wasteAmountOf(e.Waste.System, e.Waste.Amount, e.Amount),
			orNull(e.Waste.To), orNull(e.Waste.Held), orNull(e.Waste.Receipt),
		})
	}
	for _, d := range made.Unaccounted {
		answer.Unaccounted = append(answer.Unaccounted, wasteDrainJSON{wasteJobOf(d.From), wasteAmountOf(d.System, d.Drained, d.Amount)})
	}
	return answer
}

func wasteJobOf(e record.Earlier) wasteJobJSON {
	r := e.Record
	return wasteJobJSON{
		Date: r.Job.Date, ID: r.Machine.ID, Vessel: orNull(r.Machine.Vessel), Make: r.Machine.Make, Model: r.Machine.Model,
		Serial: r.Machine.Serial, Job: orNull(r.Job.Number), Number: r.Number, Record: sign.ID(e.ID).Hex(),
	}
}

func wasteAmountOf(system string, written quantity.Measured, a waste.Amount) wasteAmountJSON {
	row := wasteAmountJSON{System: system, Written: written.String(), Litres: a.Litres, Kilograms: a.Weighed}
	if a.Density > 0 {
		row.Density, row.Assumed = &a.Density, &a.Assumed
	}
	return row
}
