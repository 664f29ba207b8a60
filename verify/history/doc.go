// Package history judges a machine's records together: their order and what is
// missing, when each is known to have existed, which count, how each task of the
// schedule was kept, and where the machine stood on a date. It states facts and
// asks questions; it judges nobody.
//
// # What comes in
//
// Results of package verify, in any order and from any number of yards. What is
// altered or unreadable is named and set aside. Records are grouped by make, model
// and serial number; the same record read twice is one record. The same inputs
// give the same answer in any order.
//
// # What counts
//
// A record counts when the reader knows its signer and the key was valid for its
// date. A key that came into other hands counts only for records that are shown by
// others to be older than that. A reader who trusts nobody gets the records as
// they stand, which is said. A void or corrected record does not count from the
// moment that its own signer said so; nobody can take back the record of another.
// Addenda and voids are shown, and are no services.
//
// # Order
//
// Each record cites the id of the one before it. What is cited and not there is
// missing, and named by id and number. The line of a signer is all that its records
// cite, one after another: it holds one record of each number. Two records of one
// number in the line of one signer are a broken chain; in the lines of two, chains
// that do not know of each other.
//
// # When
//
// The date in a record is its signer's word. It is known to be no older than what it
// cites, and no younger than a record of another trusted signer that cites it, the
// reader's own log of receipt, or a ledger line that the reader got at a date.
//
// # Adherence
//
// A task's due point is that of the newest record which agrees with what is on
// record of when it was last done; a yard that did not know of another's work
// decides nothing. Behind a gap the record's own word on when the task was last done
// is all that there is; of the time across the gap nothing is told. Early and late are counted from due, in hours and in days. Hours
// run overdue are all hours past due of an interval that ended beyond the
// schedule's grace; where the date came first they are worked out in a straight line
// between the readings on both sides, and said to be so. What was done before the
// first record that counts is not known: no lateness is told of it. A due point
// counted from entry into service is held to only where the first record that speaks
// of the task was made before it had passed. Statements are shown as stated, and
// count for nothing.
package history
