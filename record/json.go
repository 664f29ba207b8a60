package record

import (
	"encoding/json"
	"strconv"

	"hourseal/record/quantity"
)

// findingJSON is a finding as programs read it: its code by name, its figures
// in the unit named. Absent figures are null.
type findingJSON struct {
	Code     string          `json:"code"`
	Severity Severity        `json:"severity"`
	Subject  string          `json:"subject"`
	Value    json.RawMessage `json:"value"`
	Limit    json.RawMessage `json:"limit"`
	Unit     *string         `json:"unit"`
	Text     string          `json:"text"`
	Accepted string          `json:"accepted"`
	Within   json.RawMessage `json:"standard_uncertainty"`
}

// MarshalJSON gives the code's name, and value, limit and standard uncertainty in
// hours with two decimals, litres with three, degC and per cents with one,
// thousandths as a plain number with three, days and minutes whole, dates as text.
func (f Finding) MarshalJSON() ([]byte, error) {
	out := findingJSON{Code: f.Code.String(), Severity: f.Severity, Subject: f.Subject, Text: f.Text, Accepted: f.Accepted}
	if f.Unit != NoUnit {
		name := f.Unit.String()
		out.Unit = &name
	}
	var err error
	if out.Value, err = f.Unit.JSON(f.Value); err != nil {
		return nil, err
	}
	if out.Limit, err = f.Unit.JSON(f.Limit); err != nil {
		return nil, err
	}
	if out.Within, err = f.Unit.Difference().JSON(f.Within); err != nil {
		return nil, err
	}
	return json.Marshal(out)
}

// Difference is the unit of what lies between two figures of the unit.
func (u Unit) Difference() Unit {
	if u == AsDate {
		return InDays
	}
	return u
}

// JSON writes a finding's figure, which is a count of the unit's small parts; nil
// (null) for none.
func (u Unit) JSON(n *int64) (json.RawMessage, error) {
	if n == nil {
		return nil, nil
	}
	switch u {
	case InHours:
		return quantity.Hours(*n).MarshalJSON()
	case AsDate:
		return quantity.Date(*n).MarshalJSON()
	case InShare:
		return quantity.Ratio(*n).MarshalJSON()
	case InVolume, InPer100Hours:
		return quantity.Volume(*n).MarshalJSON()
	case InDegrees:
		return quantity.Temperature(*n).MarshalJSON()
	case InPercent:
		return []byte(quantity.Figure{Digits: *n, Places: 1}.String()), nil
	default:
		return strconv.AppendInt(nil, *n, 10), nil
	}
}
