// Package treehead is the line that fixes a yard's whole ledger as of a time, and the
// proof that one machine's chain is in it.
//
// # What is hashed
//
// The entries of the tree are the ids of the last record of each chain of the yard,
// as the chains were at that time: of its records those that say they were issued not
// after it. The ids are sorted as bytes. A record cites the one before it, so that the
// id of the last fixes all before; the tree fixes all chains; and whoever got the line
// can tell later whether a record was added, taken away or replaced behind that time.
//
// The hash is the Merkle tree hash of RFC 9162, section 2.1.1, with SHA-256: of a leaf
// SHA-256(0x00 || id), of a node SHA-256(0x01 || left || right), each node split at the
// largest power of two below the number of its entries; without entries the SHA-256 of
// nothing. A [Path] is the inclusion proof of section 2.1.3.1, checked by 2.1.3.2.
//
// # Lines
//
// Both are one line of printable ASCII, their fields parted by one space, so that they
// survive an e-mail; hashes and ids are 64 small hexadecimal digits, numbers have no
// leading zeros, the time is UTC to the second:
//
//	hourseal-head 1 2026-11-02T16:30:00Z 37 <root>
//	hourseal-path 1 2026-11-02T16:30:00Z 37 4 <id of the chain's last record> <hash>...
//
// that is: the word, the version of the format, the time, how many chains; then the
// root, or the place of the entry from 0, its id, and the hashes from the leaf up.
// Reading takes more white space where a mail program put it, and refuses everything
// else. Nothing of a customer, a vessel or a machine is in either: of a hash nothing
// but the hash can be read.
//
// A line is not signed. It shows what the yard held only to those who know that they
// got it from the yard, and when. A path shows the last record of one chain; that the
// yard had no other chain of the same machine it does not show.
package treehead
