// Package quantity holds what is measured on a job as whole numbers of a
// small unit, and reads and prints it in the words people write on a sheet.
// No quantity here is ever a float.
//
// # Stored units
//
//	Volume       millilitres        Power    watts
//	Mass         grams              Density  kilograms a cubic metre
//	Hours        1/100 h            Ratio    1/1000 (a level 0.85 is 850, 10 % is 100)
//	Temperature  1/10 degC          Minutes  minutes
//	Date         days since 1970-01-01 (proleptic Gregorian, no time zone)
//	Months, Days calendar months and days, plain counts
//
// # Written form
//
//	scalar      = figure [gap] unit
//	portion     = scalar [gap "at" gap temperature]
//	measured    = portion | "not measured"
//	reading     = figure [gap unit], with the units of an engine handbook (mm, bar, V, ...)
//	figure      = "0" | digit1-9 *digit, then optionally "." 1*digit
//	gap         = spaces (no-break spaces too)
//	plain       = figure            (hours, months, days, ratio: no unit)
//	date        = YYYY-MM-DD, a day of the calendar in 1900 to 2199
//
// Temperatures, ratios and readings may carry a leading "-"; nothing else has
// a sign. Units are read in any letter case ("l", "L", "us gal"), in full
// ("litres", "imperial gallons") and without the gap ("9.4L"). Refused with a
// hint: a decimal comma, thousands separators, exponents, fractions, digits
// other than 0 to 9, leading zeros, and a bare gal, qt, pt or oz, which means
// one thing in the United States and another in the Imperial system.
//
// # Exactness
//
// Units are converted by their exact definitions in 128-bit integers and
// rounded once, half away from zero, to the stored unit. The number of
// decimals a unit takes is limited so that one step of the last decimal is
// never smaller than 1 mL (1 g); the stored millilitres, the unit and the
// number of decimals then give back the figure as it was written. See
// [Portion].
//
// A [Figure], a reading of any other kind, keeps its figure and unit as
// written and is never converted.
//
// Temperatures are stored in degC whatever they were written in: 154 F is
// kept, and printed, as 67.8 degC.
//
// # Text for people
//
// The String methods print the written form, with a point and ISO 8601 dates. A
// [Style] prints the same values as a yard likes them: a second unit of volume behind
// litres, dates with the month in letters, a decimal comma. What is printed so is not
// read back: typed as it stands, it is refused with what to type instead.
//
// # JSON
//
// Numbers with a fixed count of decimals: Volume in litres and Mass in
// kilograms with three, Hours with two, Temperature in degC with one, Ratio
// with three; Power in watts, Density in kg/m3, Months, Days and Minutes
// whole. A Date is the text "2026-05-04". In CBOR every type is its plain
// integer; none of them has a text or binary marshaller, so that it stays so.
package quantity
