// Package list is a yard's signed word that certain records are all that it holds of a
// machine, to a date. With it a buyer or an insurer can tell that the newest record in
// hand is the newest of that yard; without it the tail of a chain is open.
//
// # What it says
//
// A list names the last record of each chain that the yard holds of the machine. A
// record cites the one before it, so that its id fixes all before; those of another
// yard, which a chain was taken over from, are among them. A list that names none says
// that the yard holds no record of the machine. It says nothing of other yards, nothing
// of records that are issued later, and nothing of work that no record was made of.
//
// For is who asked and their reference, so that a list made for one is not shown to
// another as if it had been made for them.
//
// # Bytes
//
// A list is a CBOR map with small integer keys, core-deterministic (RFC 8949, section
// 4.2.1), described in CDDL (RFC 8610) in list.cddl beside this file. Decode takes only
// the canonical form: definite lengths, shortest integers, sorted unique keys, no
// unknown keys, no tags, no floats, no nulls, valid UTF-8. After reading it encodes
// again and compares all bytes, then it checks every value. Text is held to the rules
// of package record. The ends are sorted by their ids, as bytes, so that their order
// tells nothing of the yard. It is sealed under the words "hourseal record list v1", so
// that it never passes for a record.
package list
