// Package logbook puts what is on record of one machine together: which of its
// records count, what its meter read and when, when each task was done, and what
// was left open. It judges nothing.
//
// # What counts
//
// Services and corrections count; a record that was voided or corrected does not,
// and neither do those that speak of others only. They go by date, then hours,
// then their order in the chain, which late paperwork may leave behind.
//
// # Hours
//
// Hours are hours in total: the sum over all meters of (removed - fitted). A
// machine that another drives (a reduction gear, a sail drive) has no meter of
// its own; it is on its engine's axis of hours, and the engine's readings and
// changes of meter are its own. The hours at its entry into service are its
// engine's on that day.
//
// # Done
//
// A replacement counts only when it was made, a look also when it found
// something. What each task does goes by the schedule as it is now. A task counts
// as done by another that covers it. What the machine
// file states as done earlier counts from its date, and is marked. Of a chain that
// another yard began, what the first record at hand has as last done counts as well.
package logbook
