package quantity

import "slices"

// dimension is what a unit measures.
type dimension uint8

const (
	volume dimension = iota + 1
	mass
	temperature
	power
	density
	minutes
	share
)

// dimensionNouns are for refusals: "kg is a mass".
var dimensionNouns = map[dimension]string{
	volume: "a volume", mass: "a mass", temperature: "a temperature", power: "a power",
	density: "a density", minutes: "a time", share: "a percentage",
}

// unitRow is all that is known of a unit.
type unitRow struct {
	unit  Unit // 0 for those in which no Portion is measured
	of    dimension
	scale scale
}

// Volumes and masses are defined in 10^-10 mL (10^-10 g): every definition
// below is then a whole number.
const tenBillion = 1_0000000000

// unitTable holds the exact definitions, in the order in which refusals list them.
//
// US measures: NIST Handbook 44, Appendix C (gallon of 231 cubic inches of
// 2.54 cm). Imperial: UK Weights and Measures Act 1985, Schedule 1 (gallon of
// 4.54609 dm3). Pound: 0.45359237 kg, the same Act. Horsepower: NIST SP 811
// B.8, exact from the foot of 0.3048 m, the pound and 9.80665 m/s2.
//
// A volume or mass takes the most decimals for which a step of the last is
// at least 1 mL (1 g).
var unitTable = []unitRow{
	{UnitLitre, volume, scale{"L", []string{"l", "litre", "litres", "liter", "liters"}, 1000_0000000000, tenBillion, 3}},
	{UnitMillilitre, volume, scale{"mL", []string{"ml", "millilitre", "millilitres", "milliliter", "milliliters"}, 1_0000000000, tenBillion, 0}},
	{UnitUSGallon, volume, scale{"US gal", both(american, gallons), 3785_4117840000, tenBillion, 3}},
	{UnitUSQuart, volume, scale{"US qt", both(american, quarts), 946_3529460000, tenBillion, 2}},
	{UnitUSPint, volume, scale{"US pt", both(american, pints), 473_1764730000, tenBillion, 2}},
	{UnitUSFluidOunce, volume, scale{"US fl oz", both(american, fluidOunces), 29_5735295625, tenBillion, 1}},
	{UnitImperialGallon, volume, scale{"imp gal", both(imperial, gallons), 4546_0900000000, tenBillion, 3}},
	{UnitImperialQuart, volume, scale{"imp qt", both(imperial, quarts), 1136_5225000000, tenBillion, 3}},
	{UnitImperialPint, volume, scale{"imp pt", both(imperial, pints), 568_2612500000, tenBillion, 2}},
	{UnitImperialFluidOunce, volume, scale{"imp fl oz", both(imperial, fluidOunces), 28_4130625000, tenBillion, 1}},
	{UnitKilogram, mass, scale{"kg", []string{"kg", "kilogram", "kilograms"}, 1000_0000000000, tenBillion, 3}},
	{UnitGram, mass, scale{"g", []string{"g", "gram", "grams"}, 1_0000000000, tenBillion, 0}},
	{UnitPound, mass, scale{"lb", []string{"lb", "lbs", "pound", "pounds"}, 453_5923700000, tenBillion, 2}},

	// No factor: see toTemperature.
	{0, temperature, scale{"C", []string{"c", "°c", "° c", "degc", "deg c"}, 0, 0, 1}},
	{0, temperature, scale{"F", []string{"f", "°f", "° f", "degf", "deg f"}, 0, 0, 1}},

	{0, power, scale{"kW", []string{"kw"}, 1000, 1, 3}},
	{0, power, scale{"W", []string{"w"}, 1, 1, 0}},
	{0, power, scale{"hp", []string{"hp"}, 745_69987158227022, 1_00000000000000, 2}},
	{0, power, scale{"PS", []string{"ps"}, 735_49875, 1_00000, 2}},

	{0, density, scale{"kg/m3", []string{"kg/m3", "kg/m³", "kg/m^3"}, 1, 1, 0}},
	{0, density, scale{"kg/L", []string{"kg/l"}, 1000, 1, 3}},

	{0, minutes, scale{"min", []string{"min", "minute", "minutes"}, 1, 1, 0}},
	{0, share, scale{"%", []string{"%", "percent", "per cent"}, 10, 1, 1}},
}

var (
	american = []string{"us", "u.s"}
	imperial = []string{"imp", "imperial", "uk"}

	gallons     = []string{"gal", "gals", "gallon", "gallons"}
	quarts      = []string{"qt", "qts", "quart", "quarts"}
	pints       = []string{"pt", "pts", "pint", "pints"}
	fluidOunces = []string{"fl oz", "floz", "fluid ounce", "fluid ounces"}
	ounces      = []string{"oz", "ozs", "ounce", "ounces"} // could be a mass, too: never taken
)

// bareWords are the words that two systems share, and the size of each.
var bareWords = []struct {
	words        []string
	us           Unit
	usSize       string
	imperial     Unit
	imperialSize string
}{
	{gallons, UnitUSGallon, "3.785 L", UnitImperialGallon, "4.546 L"},
	{quarts, UnitUSQuart, "0.946 L", UnitImperialQuart, "1.137 L"},
	{pints, UnitUSPint, "0.473 L", UnitImperialPint, "0.568 L"},
	{slices.Concat(fluidOunces, ounces), UnitUSFluidOunce, "29.6 mL", UnitImperialFluidOunce, "28.4 mL"},
}

// both joins the words of a system with those of a measure, with and
// without a gap ("2.5USgal").
func both(systems, measures []string) []string {
	var words []string
	for _, s := range systems {
		for _, m := range measures {
			words = append(words, s+" "+m, s+m)
		}
	}
	return words
}
