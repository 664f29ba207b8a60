// Package waste adds up what the records say became of waste fluids in a calendar
// year: what came out, where it went, and what was drained without a word of where
// it went. It judges nothing.
//
// # What counts
//
// Records count as in package logbook: services and corrections, unless they were
// voided or corrected. They belong to the year of the job's date, whenever they were
// written. Filters and rags are in no entry, and so in no sum.
//
// # Amounts
//
// Volumes are as measured, hot or cold, and not corrected to 15 degC: the waste's
// temperature is not asked for. A mass is divided by the density that the record
// states for the system at 15 degC. Where it states none, fluid.AssumedDensity is
// taken, or fluid.AssumedCoolantDensity for a coolant: a system with "coolant" as a
// word of its id, or with a glycol on the record. Kilograms are what a scale
// showed, never worked out: they are nil unless all that was measured was weighed.
//
// # Sums
//
// Sums are by system and by where it went, both exactly as written: no two ids and
// no two names are taken for one. What was not measured is counted beside the sum,
// which is then less than what there was.
//
// # Drained, and no record of where it went
//
// A drain is unaccounted for where its record has no waste entry of that system,
// as in fluid.WasteRemark. A drain of 0 L is none.
package waste
