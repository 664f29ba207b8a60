package record

import (
	"slices"
	"strings"

	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// Task is one task of the schedule: what was done about it on this job (Result
// is zero where the job sheet does not mention it), and where it stands after.
type Task struct {
	ID     string            `cbor:"1,keyasint" json:"id"`
	Title  string            `cbor:"2,keyasint,omitempty" json:"title"`
	Kind   schedule.Kind     `cbor:"3,keyasint" json:"kind"`
	Every  schedule.Interval `cbor:"4,keyasint" json:"every"`
	Leeway schedule.Leeway   `cbor:"5,keyasint" json:"leeway"`
	Last   *Last             `cbor:"6,keyasint,omitempty" json:"last"` // nil: no record of it
	Due    schedule.Due      `cbor:"7,keyasint" json:"due"`

	Result    Result     `cbor:"8,keyasint,omitempty" json:"result"`
	Answer    *Answer    `cbor:"9,keyasint,omitempty" json:"answer"`
	LookAgain *LookAgain `cbor:"10,keyasint,omitempty" json:"look_again"`
	Readings  []Reading  `cbor:"11,keyasint,omitempty" json:"readings"`
	DoneBy    string     `cbor:"12,keyasint,omitempty" json:"done_by"` // a subcontractor

	// Once: the task falls due one time only; once it was done, Due is empty.
	Once bool `cbor:"13,keyasint,omitempty" json:"once"`
}

// Last is when a task was last done. Stated marks what somebody says was done
// before the first sealed record.
type Last struct {
	Date   quantity.Date  `cbor:"1,keyasint" json:"date"`
	Hours  quantity.Hours `cbor:"2,keyasint" json:"hours"`
	Stated bool           `cbor:"3,keyasint,omitempty" json:"stated"`
}

// Answer is why something waits, what the yard advised, and what the owner said.
type Answer struct {
	Why    string         `cbor:"1,keyasint,omitempty" json:"why"`
	Advice Advice         `cbor:"2,keyasint,omitempty" json:"advice"`
	Told   *quantity.Date `cbor:"3,keyasint,omitempty" json:"told"`
	Owner  OwnerAnswer    `cbor:"4,keyasint,omitempty" json:"owner"`
}

// LookAgain is when to look at a serviceable item again.
type LookAgain struct {
	Hours *quantity.Hours `cbor:"1,keyasint,omitempty" json:"hours"`
	Date  *quantity.Date  `cbor:"2,keyasint,omitempty" json:"date"`
}

// Due is that point with its hours in total: they were written as the meter read,
// offset below it. Zero where no second look was asked for.
func (l *LookAgain) Due(offset quantity.Hours) schedule.Due {
	if l == nil {
		return schedule.Due{}
	}
	due := schedule.Due{Date: l.Date}
	if l.Hours != nil {
		due.Hours = new(*l.Hours + offset)
	}
	return due
}

// Reading is a measured figure: a single Value, or as found and as left.
type Reading struct {
	Name    string           `cbor:"1,keyasint" json:"name"`
	Value   *quantity.Figure `cbor:"2,keyasint,omitempty" json:"value"`
	AsFound *quantity.Figure `cbor:"3,keyasint,omitempty" json:"as_found"`
	AsLeft  *quantity.Figure `cbor:"4,keyasint,omitempty" json:"as_left"`
}

// OtherWork is a repair or anything else that is no item of the schedule.
type OtherWork struct {
	Text   string  `cbor:"1,keyasint" json:"text"`
	Result Result  `cbor:"2,keyasint" json:"result"`
	Answer *Answer `cbor:"3,keyasint,omitempty" json:"answer"`
	DoneBy string  `cbor:"4,keyasint,omitempty" json:"done_by"`
}

// Fluid is what was measured of one system. The machine file's figures that the
// reader needs to judge it stand beside (AtUpper to Density).
type Fluid struct {
	System       string             `cbor:"1,keyasint" json:"system"`
	LevelBefore  *Level             `cbor:"2,keyasint,omitempty" json:"level_before"`
	Drained      *quantity.Measured `cbor:"3,keyasint,omitempty" json:"drained"`     // nil: not mentioned
	WithFilter   *bool              `cbor:"4,keyasint,omitempty" json:"with_filter"` // drained includes what the filter held
	Filled       *quantity.Measured `cbor:"5,keyasint,omitempty" json:"filled"`
	Level        *Level             `cbor:"6,keyasint,omitempty" json:"level"`
	Product      string             `cbor:"7,keyasint,omitempty" json:"product"`
	Batch        string             `cbor:"8,keyasint,omitempty" json:"batch"`
	Viscosity    string             `cbor:"9,keyasint,omitempty" json:"viscosity"`
	Meets        []string           `cbor:"10,keyasint,omitempty" json:"meets"`
	AtUpper      quantity.Volume    `cbor:"11,keyasint,omitempty" json:"at_upper"` // 0: unknown
	BetweenMarks quantity.Volume    `cbor:"12,keyasint,omitempty" json:"between_marks"`
	FilterHolds  quantity.Volume    `cbor:"13,keyasint,omitempty" json:"filter_holds"`
	Holds        quantity.Volume    `cbor:"14,keyasint,omitempty" json:"holds"`
	Density      quantity.Density   `cbor:"15,keyasint,omitempty" json:"density"`    // at 15 degC, when the machine file gives it
	DrawnDown    *quantity.Measured `cbor:"16,keyasint,omitempty" json:"drawn_down"` // drawn off again after the fill; nil: not mentioned
	Glycol       Glycol             `cbor:"17,keyasint,omitempty" json:"glycol"`     // of the coolant filled; 0: not stated
	Saw          []Sight            `cbor:"18,keyasint,omitempty" json:"seen"`       // in what was drained; none: not stated
	Answer       *Answer            `cbor:"19,keyasint,omitempty" json:"answer"`     // to what was seen
	Balance      *Balance           `cbor:"20,keyasint,omitempty" json:"balance"`    // nil: nothing follows from the figures
}

// IsCoolant says whether a fluid is coolant, as far as a record tells: its glycol is
// stated, or its system is called so.
func (f *Fluid) IsCoolant() bool {
	return f.Glycol != 0 || slices.Contains(strings.Split(f.System, "-"), "coolant")
}

// Balance is what follows from the figures of a fluid, worked out by the check.
// Oil volumes are at 15 degC, those of coolant as measured. What does not follow
// is nil or 0.
type Balance struct {
	Drained *Estimate      `cbor:"1,keyasint,omitempty" json:"drained"`
	Filled  *Estimate      `cbor:"2,keyasint,omitempty" json:"filled"`
	Level   *LevelEstimate `cbor:"3,keyasint,omitempty" json:"expected_level"` // after the job, as its dipstick was read
	Carried *Estimate      `cbor:"4,keyasint,omitempty" json:"carried_over"`   // old oil still in after the change
	Used    *Estimate      `cbor:"5,keyasint,omitempty" json:"used"`           // since the last service; below 0: gained
	Over    quantity.Hours `cbor:"6,keyasint,omitempty" json:"used_over"`      // hours run that Used is over
	By      Method         `cbor:"7,keyasint,omitempty" json:"used_by"`        // how Used was worked out

	OfFuelPPM      int64 `cbor:"8,keyasint,omitempty" json:"used_of_fuel_ppm"` // Used in millionths of the fuel's volume
	PerEnergyMgKWh int64 `cbor:"9,keyasint,omitempty" json:"used_mg_per_kwh"`  // Used in mg a kWh, from the fuel
	Trend          []Use `cbor:"10,keyasint,omitempty" json:"trend"`           // oldest first, at most MaxTrend; the last is this job's
}

// Estimate is a volume that was worked out, and its standard uncertainty.
type Estimate struct {
	Volume quantity.Volume `cbor:"1,keyasint" json:"volume"` // may be below 0
	Within quantity.Volume `cbor:"2,keyasint" json:"standard_uncertainty"`
}

// LevelEstimate is a dipstick reading that was worked out, and the standard
// uncertainty of what was read less what is expected.
type LevelEstimate struct {
	Reading quantity.Ratio `cbor:"1,keyasint" json:"reading"`
	Within  quantity.Ratio `cbor:"2,keyasint" json:"standard_uncertainty"`
}

// Use is the oil used in 100 h up to a job, by the hours in total at that job.
type Use struct {
	Hours  quantity.Hours  `cbor:"1,keyasint" json:"hours"`
	Per100 quantity.Volume `cbor:"2,keyasint" json:"per_100h"` // may be below 0
	Within quantity.Volume `cbor:"3,keyasint" json:"standard_uncertainty"`
}

// Per100 is the oil used in 100 h up to this job; nil where it does not follow, or
// too few hours were run to tell.
func (b *Balance) Per100() *Estimate {
	if b == nil || len(b.Trend) == 0 {
		return nil
	}
	last := b.Trend[len(b.Trend)-1]
	return &Estimate{Volume: last.Per100, Within: last.Within}
}

// Level is a dipstick reading: 0 the lower mark, 1000 the upper, beyond is below
// or above. After is how long the engine had stood.
type Level struct {
	Reading *quantity.Ratio       `cbor:"1,keyasint,omitempty" json:"reading"` // nil: not measured
	After   *quantity.Minutes     `cbor:"2,keyasint,omitempty" json:"after"`
	At      *quantity.Temperature `cbor:"3,keyasint,omitempty" json:"at"`
}

// TopUp is what was added between services, as the owner's log has it.
type TopUp struct {
	System string            `cbor:"1,keyasint" json:"system"`
	Amount quantity.Measured `cbor:"2,keyasint" json:"amount"`
}

// Waste is where what came out went.
type Waste struct {
	System  string            `cbor:"1,keyasint" json:"system"`
	Amount  quantity.Measured `cbor:"2,keyasint" json:"amount"`
	To      string            `cbor:"3,keyasint,omitempty" json:"to"`
	Receipt string            `cbor:"4,keyasint,omitempty" json:"receipt"`
	Held    string            `cbor:"5,keyasint,omitempty" json:"held"` // where the yard keeps it until a receiver takes it
}

// Part is a part that was fitted.
type Part struct {
	Item       string   `cbor:"1,keyasint" json:"item"`
	Number     string   `cbor:"2,keyasint,omitempty" json:"number"`
	Quantity   uint     `cbor:"3,keyasint" json:"quantity"`
	SuppliedBy Supplier `cbor:"4,keyasint" json:"supplied_by"`
	Serial     string   `cbor:"5,keyasint,omitempty" json:"serial"` // its own, as it is stamped on the part
}

// LeakCheck is the look for leaks with the engine run up.
type LeakCheck struct {
	Result LeakResult        `cbor:"1,keyasint" json:"result"`
	After  *quantity.Minutes `cbor:"2,keyasint,omitempty" json:"after"` // running
	Where  string            `cbor:"3,keyasint,omitempty" json:"where"` // where oil was seen
}

// Finding is one thing that the check said of the job. Its words are made from
// these values; Accepted is the reason given where it needed one.
type Finding struct {
	Code     Code     `cbor:"1,keyasint" json:"code"`
	Severity Severity `cbor:"2,keyasint" json:"severity"`
	Subject  string   `cbor:"3,keyasint,omitempty" json:"subject"` // task, system or machine that it is about
	Value    *int64   `cbor:"4,keyasint,omitempty" json:"value"`   // in units of Unit
	Limit    *int64   `cbor:"5,keyasint,omitempty" json:"limit"`
	Unit     Unit     `cbor:"6,keyasint,omitempty" json:"unit"`
	Text     string   `cbor:"7,keyasint,omitempty" json:"text"` // what was written, where that matters
	Accepted string   `cbor:"8,keyasint,omitempty" json:"accepted"`
	Within   *int64   `cbor:"9,keyasint,omitempty" json:"standard_uncertainty"` // of Value, in units of Unit
}
