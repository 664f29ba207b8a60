// Package worksheet prints the sheet that the technician takes aboard.
//
// # What is on it
//
// [PDF] is a pure function of the [Sheet]: the same plan, work and kit give the
// same bytes. It reads no clock; both dates of the file are the plan's date.
//
// In this order: the machine and where its hours stand, with lines for the
// reading found today; the cautions, before anything else; the items and why
// each is on the sheet; what to bring, with the arithmetic; the steps in the
// order of the work (templates/steps), each with a box to tick and lines for
// what is read; at the end a table for what came of each item, the look for
// leaks, other work and the waste, from which the job sheet is filled in.
//
// With no work it is a page that says that nothing is recorded as due, and what
// comes next; without cautions and steps.
//
// # What it says
//
// An item without a sealed record is due, never late, and the words say what it
// is counted from, or that the last record asked for it. Hours that were worked
// out are given as about so many, in whole hours; so is what is left of them. What
// the machine file does not state is said to be unknown, and where to write it.
// Due points are hours in total; where earlier meters add to them, the meter's own
// reading stands beside. Figures are as the yard writes them ([jobsheet.Yard].Style).
//
// A fluid system is emptied as the sheet says, else as the machine file does,
// else by extractor where the yard has one, else by its plug; coolant, and the leg
// of an outboard, through the bottom only. What it is emptied with is brought, too.
package worksheet
