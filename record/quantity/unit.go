package quantity

import "fmt"

// Unit is what a volume or mass was written in. The numbers stand in signed records
// and are never given a second meaning.
type Unit uint8

const (
	UnitMillilitre         Unit = 1
	UnitLitre              Unit = 2
	UnitUSGallon           Unit = 3
	UnitUSQuart            Unit = 4
	UnitUSPint             Unit = 5
	UnitUSFluidOunce       Unit = 6
	UnitImperialGallon     Unit = 7
	UnitImperialQuart      Unit = 8
	UnitImperialPint       Unit = 9
	UnitImperialFluidOunce Unit = 10

	UnitGram     Unit = 20
	UnitKilogram Unit = 21
	UnitPound    Unit = 22
)

// Valid reports whether u is one of the units above.
func (u Unit) Valid() bool { return u.row().unit != 0 }

// IsVolume reports whether amounts in u are millilitres.
func (u Unit) IsVolume() bool { return u.row().of == volume }

// IsMass reports whether amounts in u are grams.
func (u Unit) IsMass() bool { return u.row().of == mass }

// MaxPlaces is the number of decimals that a figure in u may have.
func (u Unit) MaxPlaces() uint8 { return u.row().scale.places }

// String is the unit as typed on a job sheet: "US gal".
func (u Unit) String() string {
	if u.Valid() {
		return u.row().scale.name
	}
	return fmt.Sprintf("unit %d", uint8(u))
}

// Definition is what one of the unit is by definition, in litres or kilograms:
// "3.785411784 L". It is "" for what is no unit of volume or mass.
func (u Unit) Definition() string {
	base := " L"
	if u.IsMass() {
		base = " kg"
	}
	if !u.Valid() {
		return ""
	}
	// In 10^-10 mL (g), as unitTable has them: 13 decimals of a litre.
	return shortest(int64(u.row().scale.factor), 13) + base
}

// noUnit has no dimension, so that it passes for nothing.
var noUnit unitRow

// row is never nil; an unknown unit has the row of none.
func (u Unit) row() *unitRow {
	for i := range unitTable {
		if u != 0 && unitTable[i].unit == u {
			return &unitTable[i]
		}
	}
	return &noUnit
}
