// Package schedule holds service schedules: which tasks a machine needs, how
// often, with what leeway, and when each falls due next.
//
// # Due
//
// An interval is so many hours or so many months, whichever comes first
// (wording of 40 CFR 94.9). A task that was never recorded counts from the
// machine's entry into service, or from what is stated without a record; it may
// be due, and is never late. Its first interval may be another one. A one-time
// task (a break-in) falls due once, so far from entry into service, and never
// again.
//
// Months are added to the anchor date all at once and clamped to the month's
// last day (Regulation (EEC, Euratom) 1182/71, Article 3(2)(c)); a chain of
// intervals never drifts, because it is counted from its anchor.
//
// The grace is how far past due a task still counts as in time: hours, or a
// share of the interval that runs (of a first interval of 50 h, 10 % are 5 h),
// rounded to 1/100 h, half away from zero; and days.
//
// Under a severe duty that the schedule names, a task's interval is shortened by
// its factor: hours to 1/100 h, half away from zero, months down to whole ones.
// The interval that runs is the one of the duty now: a duty that begins in the
// middle of an interval shortens it at once. It brings nothing later: where grid or
// window skip points that have passed, the nearer one counts, of the shortened
// interval or of the usual.
//
// A task counts as done when one that covers it was done, also by way of others.
// Tasks that go with another are done together with it whenever it is; their own
// due points stay their own.
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
// # Editions
//
// A record keeps the schedule that it was checked by: id, edition and digest, and
// of each task the interval, the grace and the due point. A new edition changes
// none of that; what is due from then on is counted by the new one, from the same
// times that the tasks were done.
//
// # Canonical form
//
// A schedule's digest is the SHA-256 of its canonical form: the JSON object
// that Canonical returns, one line, keys in the order of the Go types, ended by
// a newline. The same text is printed by "hourseal schedule show ID --json", so
// that sha256sum gives the digest that stands in a record.
package schedule
