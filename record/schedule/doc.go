// Package schedule holds service schedules: which tasks a machine needs, how
// often, with what leeway, and when each falls due next.
//
// # Due
//
// An interval is so many hours or so many months, whichever comes first
// (wording of 40 CFR 94.9). A task that was never recorded counts from the
// machine's entry into service; its first interval may be shorter.
//
// Months are added to the anchor date all at once and clamped to the month's
// last day (Regulation (EEC, Euratom) 1182/71, Article 3(2)(c)); a chain of
// intervals never drifts, because it is counted from its anchor.
//
// # Next from
//
// What the next interval is counted from, hours and months each for themselves:
//
//   - done: from when the task was done (the rule of the Part-ML minimum
//     inspection programme).
//   - grid: done when due or late, the old grid is kept, so that an overrun
//     shortens the next interval (14 CFR 91.409(b)); done early, from when done.
//   - window: done within the grace of the due point, either side, the due
//     point is kept as the anniversary; done earlier, from when done; done
//     later, from the old due point (SOLAS harmonised surveys).
//
// Late by a whole interval or more, grid and window skip the points that have
// passed: the next due point is the first one after the work.
//
// # Canonical form
//
// A schedule's digest is the SHA-256 of its canonical form: the JSON object
// that Canonical returns, one line, keys in the order of the Go types, ended by
// a newline. The same text is printed by "hourseal schedule show ID --json", so
// that sha256sum gives the digest that stands in a record.
package schedule
