package quantity

import (
	"errors"
	"fmt"
	"math"
	"strings"
)

// MaxPortions is the most that one sum may have.
const MaxPortions = 8

// Measured is what was measured of one fluid: a sum of one to MaxPortions
// portions, or an honest "not measured". The zero value says nothing at all
// and is not Valid.
type Measured struct {
	Portions    []Portion `cbor:"1,keyasint,omitempty"`
	NotMeasured bool      `cbor:"2,keyasint,omitempty"`
}

const notMeasured = "not measured"

// ParseMeasured reads one scalar: a portion, or "not measured". A sum is a
// list on the sheet: read each with ParsePortion and put them together with
// SumOf.
func ParseMeasured(text string) (Measured, error) {
	if unitKey(text) == notMeasured {
		return Measured{NotMeasured: true}, nil
	}
	if strings.Contains(text, " + ") {
		return Measured{}, refuse(text, "write a sum as a list: [%s]", escaped(strings.ReplaceAll(text, " + ", ", ")))
	}
	p, err := parsePortion(kind{noun: `an amount or "not measured"`, example: "9.4 L"}, text)
	if err != nil {
		return Measured{}, err
	}
	return Measured{Portions: []Portion{p}}, nil
}

// SumOf puts portions together; the slice is copied. It refuses what Valid refuses.
func SumOf(portions ...Portion) (Measured, error) {
	m := Measured{Portions: append([]Portion(nil), portions...)}
	if err := m.Valid(); err != nil {
		return Measured{}, err
	}
	return m, nil
}

// IsZero reports whether nothing at all is said.
func (m Measured) IsZero() bool { return len(m.Portions) == 0 && !m.NotMeasured }

// TotalVolume adds up the volumes as measured. It reports false when there
// are none, when one of them is a mass, or past int64.
func (m Measured) TotalVolume() (Volume, bool) {
	return total(m.Portions, Portion.Volume)
}

// TotalMass adds up the masses. It reports false when there are none, when
// one of them is a volume, or past int64.
func (m Measured) TotalMass() (Mass, bool) {
	return total(m.Portions, Portion.Mass)
}

func total[T ~int64](portions []Portion, of func(Portion) (T, bool)) (T, bool) {
	var sum T
	for _, p := range portions {
		amount, ok := of(p)
		if !ok || amount < 0 || sum > math.MaxInt64-amount {
			return 0, false
		}
		sum += amount
	}
	return sum, len(portions) > 0
}

// String is what was written: "5 L at 16 C + 4.3 L at 16 C" or "not
// measured", and nothing for the zero value.
func (m Measured) String() string {
	if m.NotMeasured {
		return notMeasured
	}
	words := make([]string, len(m.Portions))
	for i, p := range m.Portions {
		words[i] = p.String()
	}
	return strings.Join(words, " + ")
}

// Valid refuses the zero value, portions beside "not measured", more than
// MaxPortions of them, and any portion that is not valid. Volumes and masses
// may stand in one sum: only a density can add them up.
func (m Measured) Valid() error {
	switch n := len(m.Portions); {
	case m.IsZero():
		return errors.New(`nothing measured: write an amount, as 9.4 L, or "not measured"`)
	case m.NotMeasured && n > 0:
		return fmt.Errorf(`%d amounts beside "not measured": one or the other`, n)
	case n > MaxPortions:
		return fmt.Errorf("%d amounts in one sum: at most %d", n, MaxPortions)
	}
	for i, p := range m.Portions {
		if err := p.Valid(); err != nil {
			return fmt.Errorf("amount %d of the sum: %w", i+1, err)
		}
	}
	return nil
}
