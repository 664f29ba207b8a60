// Package qrtext turns an envelope into the text of a QR code and back, and
// makes the text of a smaller code that only names it.
//
// # Text
//
// A text is a prefix and decimal digits, nothing between or after:
//
//	HTTPS://<HOST>/#<digits>    where the yard has a page at HOST
//	hourseal:<digits>           where it has none
//
// It is written in that case and read in either. A text with any other prefix
// is not ours ([ErrNotOurs]). Digits are safe in the fragment of a URL, and a
// QR code keeps three of them in ten bits.
//
// # Digits
//
// The envelope is deflated (RFC 1951) and the bytes are written in groups of
// seven: a group is a big-endian number in 17 digits with leading zeros. A last
// group of 1 to 6 bytes has the least digits that hold it, ceil(n*8*log10(2)):
//
//	bytes   1  2  3   4   5   6   7
//	digits  3  5  8  10  13  15  17
//
// The number must fit the bytes: 17 digits are at most 2^56-1. Before the
// groups stands the format digit:
//
//	1  a whole record, deflated without a dictionary
//	2  a part of such
//	3  no record: it only names one
//	4  a whole record, deflated with dictionary 1
//	5  a part of such
//
// 4 and 5 are written. 1 and 2 were written before there was a dictionary and
// are read for ever. A record that does not fit one code is cut into parts,
//
//	5 <part, 2 digits> <count, 2 digits> <record, 8 digits> <piece>
//
// where count is 2 to 99, record is the first four bytes of the SHA-256 of the
// envelope as a big-endian number, mod 10^8, and the pieces in order are the
// digits that would follow the 4: all of the same length, ceil(digits/count),
// but the last, which may be shorter. Parts with a 2 are the same of 1, and do
// not go together with parts with a 5 even where they name the same record.
//
// Dictionary 1 is the bytes of dictionary-1.bin beside this file, 7,303 of them,
// with the SHA-256
//
//	58f720553f2978695f5b28df1194e4e85d2bc14bcbfddb90b75d2873975d8c35
//
// The stream may refer back to them as if they stood right before the envelope
// (a preset dictionary, as in RFC 1950 section 2.2, whose header and checksum are
// not used here). They do not count as inflated. dictionary-1.txt says in words
// what they are. Of the records in testdata/texts, with them an oil change takes 31 % fewer
// digits than without, an example with more in it 36 %, the shortest 11 % and the longest
// 15 %.
//
// A text that only names a record, for a label on the machine, is
//
//	3 <record, 20 digits>
//
// where record is the first eight bytes of the SHA-256 of the envelope as a
// big-endian number with leading zeros; it must fit eight bytes, at most 2^64-1,
// and nothing follows it. Nothing can be verified by such a text: [Parse] and
// [Decode] give a [ReferenceError], which says what it names.
//
// At most 16 KiB deflated and 16 KiB inflated; the inflater must stop at the
// last byte. The unused bits of that byte, at most seven, are not looked at:
// together with the choices a deflater has, one envelope has many texts, so a
// record is known by the id of its envelope and never by its text.
//
// # Code
//
// The text is meant for level M and version 25 or lower (see [MaxVersion]):
// larger codes did not survive photographs. Drawing is the business of others.
package qrtext
