// Package record is the signed data model of a service record: what is in it,
// which bytes stand for it, and which bytes are refused.
//
// # Bytes
//
// A record is a CBOR map with small integer keys, core-deterministic (RFC 8949,
// section 4.2.1), described in CDDL (RFC 8610) in record.cddl beside this file.
// There are no floats and no nulls: volumes are in mL, masses in g, hours in
// 1/100 h, temperatures in 1/10 degC, levels and shares in 1/1000, dates in days
// since 1970-01-01, the time of issue in seconds since then.
//
// Decode takes only the canonical form: definite lengths, shortest integers,
// sorted unique keys, no unknown keys, no tags, valid UTF-8, bounded nesting and
// sizes. After reading it encodes again and compares all bytes, so one record has
// one encoding and nothing can be added to it unseen; then it checks every value.
// The reader is written by hand for these types (reader.go) and the encoder is a
// library's (cbor.go): two pieces of code that share nothing have to agree on
// every record.
//
// A task whose title is the usual one for its id leaves the title out; the table
// of usual titles is part of the format, and a usual title written out is not
// canonical.
//
// # Text
//
// Text holds no control or format characters (a newline in notes only), nothing
// else that shows nothing of its own, and no rune above U+FFFF; it is at most
// MaxText runes long (reasons MaxReason, notes MaxNotes), and neither begins nor
// ends with white space. Ids are [a-z0-9][a-z0-9-]{0,39}.
//
// # Reading it later
//
// A record holds all that a reader needs to judge it alone: for every task of
// the schedule its interval, grace, when it was last done and when it falls due,
// beside what was done this time; for every fluid what follows from its figures, as
// the check worked it out, each with one standard uncertainty. Its id is the SHA-256
// of the signed envelope around it, which this package does not know.
package record
