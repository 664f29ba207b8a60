package record

import (
	"encoding/json"

	"hourseal/record/quantity"
)

// In JSON absent figures are null and none is missing; absent texts and words
// are empty. In a record a figure of 0 is what stands for an absent one where
// the figure could not be 0; these types say null for it.

// MarshalJSON gives null for a power that was not stated.
func (m Machine) MarshalJSON() ([]byte, error) {
	type plain Machine
	return json.Marshal(struct {
		plain
		RatedPower *quantity.Power `json:"rated_power"`
	}{plain(m), orNull(m.RatedPower)})
}

// MarshalJSON gives null for the machine file's figures that are not known.
func (f Fluid) MarshalJSON() ([]byte, error) {
	type plain Fluid
	return json.Marshal(struct {
		plain
		AtUpper      *quantity.Volume  `json:"at_upper"`
		BetweenMarks *quantity.Volume  `json:"between_marks"`
		FilterHolds  *quantity.Volume  `json:"filter_holds"`
		Holds        *quantity.Volume  `json:"holds"`
		Density      *quantity.Density `json:"density"`
	}{plain(f), orNull(f.AtUpper), orNull(f.BetweenMarks), orNull(f.FilterHolds), orNull(f.Holds), orNull(f.Density)})
}

// MarshalJSON gives null for what does not follow from the figures.
func (b Balance) MarshalJSON() ([]byte, error) {
	type plain Balance
	return json.Marshal(struct {
		plain
		Over           *quantity.Hours `json:"used_over"`
		OfFuelPPM      *int64          `json:"used_of_fuel_ppm"`
		PerEnergyMgKWh *int64          `json:"used_mg_per_kwh"`
	}{plain(b), orNull(b.Over), orNull(b.OfFuelPPM), orNull(b.PerEnergyMgKWh)})
}

// MarshalJSON gives null for what a task's interval does not go by.
func (t Task) MarshalJSON() ([]byte, error) {
	type plain Task
	type every struct {
		Hours  *quantity.Hours  `json:"hours"`
		Months *quantity.Months `json:"months"`
	}
	return json.Marshal(struct {
		plain
		Every every `json:"every"`
	}{plain(t), every{orNull(t.Every.Hours), orNull(t.Every.Months)}})
}

func orNull[T ~int64](v T) *T {
	if v == 0 {
		return nil
	}
	return &v
}
