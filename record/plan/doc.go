// Package plan looks ahead: what a machine needs at a date and reading, when the
// rest will be due, and what to bring for the work. It signs and judges nothing.
//
// # Hours
//
// Hours are in total over all meters (see package logbook). A reading that is
// given is off the meter that is fitted; it may not lie below what was read
// before, above what was read after, or beyond what a clock allows. Without one,
// the last known hours are carried on by the machine's use, in whole hours, and
// Given is false. Hours that nobody read make an item due, never overdue.
//
// # Items
//
// Every task of the schedule, as package schedule has it stand, with three things
// that a record adds. A second look that was asked for is due when its time has
// come, where that is before the schedule's. What was found and left is soon due
// at least, and due where the advice was to see to it before use. What was put off
// is asked for as it was before. A new part that covers the item, on the same
// visit or later, settles all three but a second look of that same visit.
//
// An item is soon due when it is expected within schedule.SoonDays, by its date or
// by the hours that will have run.
//
// # Work and kit
//
// The work of a visit is what is due or soon due, what is taken along, and what
// the schedule has done together with those. The kit is what that takes by the
// machine file, with a margin; nothing is guessed where the file says unknown.
package plan
