package quantity

import "encoding/json"

// portionJSON is a portion as programs read it: as it was written, and in
// litres or kilograms.
type portionJSON struct {
	Written   string       `json:"written"`
	Litres    *Volume      `json:"litres"`
	Kilograms *Mass        `json:"kilograms"`
	At        *Temperature `json:"at"`
}

// MarshalJSON gives the amount as written, and as a number in litres or in
// kilograms, and its temperature in degC; the absent ones are null.
func (p Portion) MarshalJSON() ([]byte, error) {
	out := portionJSON{Written: p.Written(), At: p.At}
	if v, ok := p.Volume(); ok {
		out.Litres = &v
	}
	if m, ok := p.Mass(); ok {
		out.Kilograms = &m
	}
	return json.Marshal(out)
}

// MarshalJSON gives the list of portions, or the text "not measured".
func (m Measured) MarshalJSON() ([]byte, error) {
	if m.NotMeasured {
		return json.Marshal(notMeasured)
	}
	return json.Marshal(m.Portions)
}

// MarshalJSON gives the figure as written, as a text.
func (f Figure) MarshalJSON() ([]byte, error) { return json.Marshal(f.String()) }
