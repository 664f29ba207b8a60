// Package fluid holds what fluids say: whether what came out, what went in and what
// the dipstick reads agree with each other, with the machine, with the temperatures
// they were measured at and with the visits before; which oil suits a machine; and
// how strong a coolant is.
//
// # Volumes at 15 degC
//
// Volumes of oil are compared at 15 degC, by ASTM D1250-80 Table 54D (correction.go);
// masses are divided by the density. Coolant is taken as measured. The content by a
// level is
//
//	content = (at_upper - (1 - level) x between_marks) x VCF at the level's temperature
//
// # Balance
//
// With everything at 15 degC, of a visit with an oil change:
//
//	expected old oil  = content before - drained - what left with the old filter
//	old oil left in   = content after - filled (less what was drawn down)
//	expected content  = expected old oil + filled
//	oil used          = content at the last level + topped up - content before
//
// Once a system has three changes of its own on record that agree, what they left
// in counts as expected old oil too, and the figure of the machine file cancels.
// Where no level was read before a drain, oil used is what was filled last time +
// topped up - drained, and its uncertainty has in it that no two drains leave the
// same.
//
// # Uncertainty
//
// Every quantity carries its standard uncertainty (Doubt), and every figure that
// follows the root of the sum of the squares of what each independent error moves
// it by (JCGM 100:2008, 5.1.2). An error that is common to two figures, of at_upper
// or of where the dipstick's marks are, cancels where they are subtracted (5.2). A
// temperature that was not written is taken as usual, with a rectangular
// distribution (4.3.7).
//
// # Remarks
//
// A rule fires where a figure is more than Factor standard uncertainties beyond its
// limit, so that all rules together ask about fewer than one honest job in fifty.
// Of several that one fault would set off only the first speaks: more drained than
// was in; fill and level; where no level was read, more filled than the system holds;
// old oil left in. Before it does, what would explain it is tried: the other gallon,
// then the filter.
//
// Volumes cannot exclude that fuel or coolant gets in: what is less than Factor
// standard uncertainties does not show.
package fluid
