// Package verify answers a reader's questions about one service report: who
// signed it, is it unaltered, is it about the machine in front of them, when was
// it made and who says so, what it does not prove, and what to ask.
//
// A signed list of all records that a yard says it holds of a machine is answered in
// the same manner.
//
// What the signature covers (Result.Signed, Result.List) and what this program worked out are
// kept in different fields. Nothing in a verdict is filled in from the record
// that the reader ought to compare with it.
//
// The verdict is the worst that holds, in the order altered, unreadable,
// key-not-valid, unknown-signer, not-original, other-machine, genuine. Where a worse
// one hides other-machine, its sentence says that too. All
// answers are given whatever the verdict, but nothing of the record's content
// where it is altered or unreadable.
//
// The page of a PDF is proved by making it again from the record and comparing;
// the function that makes it is handed in.
// A photograph has no page, and a PDF whose code stands in a picture, as in a scan, has
// pages that cannot be compared: what they say, no program read.
//
// Files that a record names, photographs and laboratory sheets kept beside it, are
// compared where the caller found some: [Result.WithFiles]. One that is not the signed
// one, in a place of that record's own, makes not-original of what would be genuine;
// one that is not at hand is said, and decides nothing.
//
// What falls due next is worked out from the record's own due points, by the reader's
// day and their reading of the meter. It is content, and it is no part of the verdict.
//
// All words of an answer stand in one table, in words.go and wordlines.go. The
// sentence of a verdict is the same wherever it is read; a line that says what to do
// has a wording for each Surface.
package verify
