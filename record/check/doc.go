// Package check works a job out: it holds the job sheet against the machine, its
// schedule and its earlier records, says everything that it finds, and makes the
// record that may be signed.
//
// # Findings
//
// A rule that finds something returns a finding: refuse for what cannot be,
// decide for what is true but needs a reason, note for the rest. All findings of
// a job are made at once, in the order of the rules. A finding that needs a
// reason gets it from the job sheet's accept map, by its code or, where several
// have the same code, by code/subject.
//
// Hours off a meter prove other hours wrong; an estimate proves nothing, so that
// what does not agree with an earlier estimate is decided, not refused. Records
// that were voided or corrected do not count.
//
// # Later records
//
// A correction is held to the chain without the record that it corrects, and why
// it comes late is what it is made for. An addendum is a look or a word more: it is
// held to what it states, and never to what a service should have had. A void, and
// an addendum of words alone, have no job sheet; their hours are those of the record
// that they are about. Number and the record before go by the whole chain.
//
// An overdue job is signed: lateness is a fact worth recording. Without an
// earlier sealed record there is no lateness.
//
// # Outcome
//
//	issuable    nothing stands in the way: Result.Passed is set
//	undecided   a person has to give a reason first
//	refused     something cannot be true
//	malformed   the sheet contradicts itself or what it is held to, its reasons
//	            do not fit the findings, or no record can be made of it
//
// Only Run and WithoutSheet make a Passed, and the ledger signs nothing else.
package check
