package verifytest_test

import (
	"bytes"
	"encoding/json"
	"slices"
	"strings"

	"hourseal/record/list"
	"hourseal/sign/qrtext"
	"hourseal/verify/source/sourcetest"
)

// unread is an input in which no record can be found.
func unread(name, what string, data []byte) vector {
	return vector{name, what, nothing(data), reader{}, unreadable()}
}

// unreadableEnvelopes are records in any other form than the one envelope. The
// signature is the true one where it covers what is changed.
func unreadableEnvelopes() []vector {
	signed, payload, key := sealed(service(), yardSeed), payloadOf(service()), publicKey(yardSeed)
	start := signed[:keyAt]
	starts := func(with string) []byte { return slices.Concat([]byte(with), signed[len(start):]) }
	bodyIs := func(with ...byte) []byte {
		return slices.Concat(signed[:keyAt+32], with, signed[payloadAt:])
	}
	size := []byte{byte(len(payload) >> 8), byte(len(payload))}
	return []vector{
		unread("empty", "An empty file.", nil),
		unread("cut-short", "The last byte is missing.", signed[:len(signed)-1]),
		unread("cut-in-half", "Half of a record file.", signed[:len(signed)/2]),
		unread("byte-after", "A zero byte after the record.", append(bytes.Clone(signed), 0)),
		unread("twice", "The record file twice in a row.", slices.Concat(signed, signed)),
		unread("no-tag", "COSE_Sign1 without its tag.", signed[1:]),
		unread("tag-long", "The tag in two bytes instead of one.", starts("\xD8\x12\x84\x58\x26\xA2\x01\x32\x04\x58\x20")),
		unread("tag-of-cose-sign", "The tag of COSE_Sign, 98.", starts("\xD8\x62\x84\x58\x26\xA2\x01\x32\x04\x58\x20")),
		unread("array-indefinite", "The array of four without a length.", append(starts("\xD2\x9F\x58\x26\xA2\x01\x32\x04\x58\x20"), 0xFF)),
		unread("algorithm-eddsa", "alg is -8, EdDSA, and not -19, Ed25519.", starts("\xD2\x84\x58\x26\xA2\x01\x27\x04\x58\x20")),
		unread("algorithm-es256", "alg is -7, ES256.", starts("\xD2\x84\x58\x26\xA2\x01\x26\x04\x58\x20")),
		unread("key-before-algorithm", "kid stands before alg in the protected header.",
			slices.Concat([]byte("\xD2\x84\x58\x26\xA2\x04\x58\x20"), key, []byte("\x01\x32"), signed[keyAt+32:])),
		unread("key-of-31-bytes", "kid is a byte short, the lengths agree.",
			slices.Concat([]byte("\xD2\x84\x58\x25\xA2\x01\x32\x04\x58\x1F"), key[:31], signed[keyAt+32:])),
		unread("header-unprotected", "Something stands in the unprotected header.", bodyIs(append([]byte{0xA1, 0x05, 0x00, 0x59}, size...)...)),
		unread("payload-detached", "The payload is null, as of a detached signature.",
			slices.Concat(signed[:keyAt+32], []byte{0xA0, 0xF6}, signed[len(signed)-66:])),
		unread("payload-empty", "An empty payload.", slices.Concat(signed[:keyAt+32], []byte{0xA0, 0x40}, signed[len(signed)-66:])),
		unread("payload-length-long", "The length of the payload in four bytes instead of two.", bodyIs(append([]byte{0xA0, 0x5A, 0, 0}, size...)...)),
		unread("payload-in-pieces", "The payload as a byte string of indefinite length.",
			slices.Concat(signed[:keyAt+32], []byte{0xA0, 0x5F}, byteString(payload), []byte{0xFF}, signed[len(signed)-66:])),
		unread("signature-of-63-bytes", "The signature is a byte short, its length agrees.",
			slices.Concat(signed[:len(signed)-66], []byte{0x58, 0x3F}, signed[len(signed)-64:len(signed)-1])),
		unread("record-too-long", "A record of more than 8 KiB, properly signed.", seal(asRecord, make([]byte, 8<<10+1), yardSeed)),
	}
}

// unreadablePayloads are properly signed by a key that the reader trusts, in another
// form than the one that is allowed.
func unreadablePayloads() []vector {
	payload := payloadOf(service())
	signs := func(name, what string, payload []byte) vector {
		return vector{"payload-" + name, what, file(seal(asRecord, payload, yardSeed)), reader{}, unreadable()}
	}
	firstIs := func(name, what, with string, pairs int) vector {
		return vector{"payload-" + name, what, file(odd(firstPairs, with, pairs)), reader{}, unreadable()}
	}
	rest := firstPairs[4:] // what follows format and renderer
	swap := func(from, to string) []byte { return rewritten(payload, from, to, 0) }
	return []vector{
		firstIs("integer-long", "The integer 1 in two bytes: not the shortest form.", "\x01\x18\x01\x02\x01"+rest, 0),
		firstIs("key-long", "The key 1 in two bytes.", "\x18\x01\x01\x02\x01"+rest, 0),
		firstIs("keys-unsorted", "The first two keys in the wrong order.", "\x02\x01\x01\x01"+rest, 0),
		firstIs("key-twice", "A key twice, with the same value.", "\x01\x01\x01\x01\x02\x01"+rest, 1),
		firstIs("key-missing", "A key that must be there is missing.", firstPairs[2:], -1),
		firstIs("null", "null for a number.", "\x01\x01\x02\xF6"+rest, 0),
		firstIs("float", "The number 1 as a float of 16 bits.", "\x01\x01\x02\xF9\x3C\x00"+rest, 0),
		firstIs("tag", "A tag before a number.", "\x01\x01\x02\xC1\x01"+rest, 0),
		firstIs("true", "true for a number.", "\x01\x01\x02\xF5"+rest, 0),
		firstIs("text-key", "A text as a key of the map.", "\x611\x01"+firstPairs, 1),
		firstIs("format-newer", "Record format 2: a newer program may read it.", "\x01\x02\x02\x01"+rest, 0),
		signs("key-unknown", "A key that the format does not have, at the end of the map.", append(rewritten(payload, firstPairs, firstPairs, 1), 0x18, 0x63, 0x00)),
		signs("map-indefinite", "The map without a length.", append(slices.Concat([]byte{0xBF}, payload[1:]), 0xFF)),
		signs("map-length-long", "The length of the map in two bytes.", slices.Concat([]byte{0xB8, payload[0] & 0x1F}, payload[1:])),
		signs("text-in-pieces", "A text of indefinite length.", swap("\x66Corrin", "\x7F\x63Cor\x63rin\xFF")),
		signs("text-not-utf-8", "A text that is not UTF-8.", swap("\x66Corrin", "\x66Corri\xFF")),
		signs("text-control-character", "A text with a bell in it.", swap("\x66Corrin", "\x66Cor\x07in")),
		signs("text-space-at-end", "A text that ends in a space.", swap("\x66Corrin", "\x66Corri ")),
		signs("text-empty", "A text that is there and empty: it has to be left out.", swap("\x66Gannet", "\x60")),
		signs("bytes-for-text", "A byte string for a text.", swap("\x66Corrin", "\x46Corrin")),
		signs("byte-after", "A byte after the map, within what is signed.", append(bytes.Clone(payload), 0)),
		signs("cut-short", "The map ends before its last value.", payload[:len(payload)-1]),
		signs("is-array", "The map within an array.", slices.Concat([]byte{0x81}, payload)),
		signs("is-json", "The record is JSON.", []byte(`{"format":1,"machine":{"serial":"0045120"}}`)),
		signs("nested-deeply", "Eight thousand arrays, one in the other.", bytes.Repeat([]byte{0x81}, 8000)),
		signs("array-of-exabytes", "The head of an array of 2^63 - 1 items, and nothing after.", []byte{0x9B, 0x7F, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF}),
		signs("is-list", "A list signed with the words for records.", must(list.Encode(oneRecord()))),
		{"record-signed-as-list", "A record signed with the words for lists.", file(seal(asList, payload, yardSeed)), reader{}, unreadable()},
		{"payload-odd-and-unknown", "An odd form outweighs an unknown signer.", file(odd(firstPairs, "\x01\x18\x01\x02\x01"+rest, 0)), reader{trust: nobody}, unreadable()},
	}
}

func unreadableTexts() []vector {
	one, two := sealed(service(), yardSeed), sealed(with(starboard), yardSeed)
	whole, prefix := format1(host, one), prefixOf(host)
	parts, others := format2(host, one, 2), format2(host, two, 2)
	long := sealed(with(manyTasks), yardSeed)
	now := must(qrtext.Encode(long, host))
	digits := digitsOf(store(one))
	text := func(name, what string, all ...string) vector { return unread(name, what, lines(all...)) }
	// The first group of seven bytes as the largest number that 17 digits have.
	tooLarge := prefix + "1" + strings.Repeat("9", 17) + digits[17:]
	bomb := func(empty int) string {
		return prefix + "1" + digitsOf(append(bytes.Repeat([]byte{0, 0, 0, 0xff, 0xff}, empty), store(one)...))
	}
	oldAndNew := func() []string {
		old := cut(host, '2', long, digitsOf(deflate(long)), len(now))
		return append([]string{old[0]}, now[1:]...)
	}
	renumbered := strings.Replace(parts[1], prefix+"20202", prefix+"20302", 1)
	relabelled := []string{
		strings.Replace(parts[0], prefix+parts[0][len(prefix):len(prefix)+13], prefix+others[0][len(prefix):len(prefix)+13], 1),
		strings.Replace(parts[1], prefix+parts[1][len(prefix):len(prefix)+13], prefix+others[1][len(prefix):len(prefix)+13], 1)}
	return []vector{
		text("text-of-label", "The code of a label: it names a record and does not hold it.", reference(host, one)),
		text("text-two-records", "The texts of two records.", whole, format1(host, two)),
		text("part-missing", "The first of two parts alone, format digit 2.", parts[0]),
		text("part-missing-of-three", "The second of three parts is missing.", format2(host, one, 3)[0], format2(host, one, 3)[2]),
		{"part-missing-as-made-now", "One part is missing of the parts that the program makes now.", nothing(lines(now[1:]...)).flated(), reader{}, unreadable()},
		text("parts-of-two-records", "The first part of one record and the second of another.", parts[0], others[1]),
		text("parts-relabelled", "The parts of one record under the name of another.", relabelled...),
		text("parts-two-first", "Two texts that say part 1 of 2 and differ.", parts[0], parts[0][:len(parts[0])-1]+"0", parts[1]),
		text("parts-two-hosts", "Two parts that lead to different hosts.", parts[0], format2(anotherHost, one, 2)[1]),
		text("part-number-too-high", "Part 3 of 2.", parts[0], renumbered),
		text("parts-uneven", "The parts are not of equal length, though together they are all digits.", moved(parts)...),
		{"parts-old-and-new", "The first part of an old report and the others of a new one, of one record.", nothing(lines(oldAndNew()...)).flated(), reader{}, unreadable()},
		text("text-cut-short", "Ten whole groups of digits are missing at the end.", prefix+"1"+digits[:17*(len(digits)/17-10)]),
		text("text-digit-missing", "One digit in the middle is missing.", whole[:300]+whole[301:]),
		text("text-letter", "The letter O in the place of a digit.", whole[:300]+"O"+whole[301:]),
		text("text-group-too-large", "17 digits that are no number of seven bytes.", tooLarge),
		text("text-group-length", "A last group of two digits: no number of bytes has so many.", prefix+"1"+digits[:17*(len(digits)/17)]+"00"),
		text("text-bytes-after", "A byte after the end of the DEFLATE stream.", prefix+"1"+digitsOf(append(store(one), 0))),
		text("text-not-deflate", "The digits are the record itself, not deflated.", prefix+"1"+digitsOf(one)),
		text("text-zlib", "The digits are zlib (RFC 1950), not raw DEFLATE.", prefix+"1"+digitsOf(slices.Concat([]byte{0x78, 0x01}, store(one), adler32(one)))),
		text("text-no-digits", "A prefix and nothing after it.", prefix),
		text("text-format-newer", "Format digit 9: a newer program may read it.", prefix+"9"+digits),
		{"text-dictionary-not-named", "A stream that needs the dictionary of format digit 4, behind digit 1.",
			nothing(lines(strings.Replace(must(qrtext.Encode(one, host))[0], "/#4", "/#1", 1))).flated(), reader{}, unreadable()},
		text("text-bomb", "Two million zero bytes in few digits: more than 16 KiB inflated.", prefix+"1"+digitsOf(zeros(258*8000))),
		text("text-empty-blocks", "Empty DEFLATE blocks before the record: more than 16 KiB deflated.", bomb(3300)),
		text("text-http", "http and not https.", strings.Replace(whole, "HTTPS", "HTTP", 1)),
		text("text-with-path", "A path in the address.", strings.Replace(whole, "/#", "/x/#", 1)),
		text("text-with-port", "A port in the address.", strings.Replace(whole, "/#", ":8443/#", 1)),
		text("text-with-user", "A user's name in the address.", strings.Replace(whole, "//", "//verify@", 1)),
		text("text-no-fragment", "? and not #: the digits would be sent to the host.", strings.Replace(whole, "/#", "/?", 1)),
		text("text-other-scheme", "Digits behind another scheme.", "engine:1"+digits),
		text("text-of-envelope-odd", "A text of a record with a byte after it.", format1(host, append(bytes.Clone(one), 0))),
		{"text-of-payload-odd", "A text of a record that is properly signed and has a byte after its map.", oddText(), reader{}, unreadable()},
		text("text-foreign", "The text of somebody's other QR code.", "https://ellery-slip.example/menu"),
		text("text-and-letter", "A text with a sentence below it.", whole, "Dear buyer, all is well."),
		text("letter", "A letter.", "Dear buyer, all is well."),
	}
}

// moved is two parts with the last digit of the first put before the second.
func moved(parts []string) []string {
	at := len(prefixOf(host)) + 13
	last := parts[0][len(parts[0])-1:]
	return []string{parts[0][:len(parts[0])-1], parts[1][:at] + last + parts[1][at:]}
}

func oddText() input {
	odd := seal(asRecord, append(payloadOf(service()), 0), yardSeed)
	return texts(odd, format1(host, odd))
}

// zeros is raw DEFLATE of n + 1 zero bytes, n a multiple of 258, made by hand with fixed
// Huffman codes (RFC 1951 section 3.2.6): the literal 0, then matches of 258 bytes at
// distance 1.
func zeros(n int) []byte {
	var out bits
	const lastBlock, fixedCodes, literalZero, length258, distance1, end = 1, 1, 0x30, 0xC5, 0, 0
	out.add(lastBlock, 1)
	out.add(fixedCodes, 2)
	out.code(literalZero, 8)
	for range n / 258 {
		out.code(length258, 8)
		out.code(distance1, 5)
	}
	out.code(end, 7)
	return out.bytes
}

// bits are packed from the lowest bit of each byte on, RFC 1951 section 3.1.1.
type bits struct {
	bytes []byte
	n     int
}

func (b *bits) add(value, width int) {
	for i := range width {
		if b.n%8 == 0 {
			b.bytes = append(b.bytes, 0)
		}
		b.bytes[b.n/8] |= byte(value>>i&1) << (b.n % 8)
		b.n++
	}
}

// code adds a Huffman code, which stands with its highest bit first.
func (b *bits) code(value, width int) {
	for i := width - 1; i >= 0; i-- {
		b.add(value>>i&1, 1)
	}
}

// adler32 ends a zlib stream, RFC 1950 section 9.
func adler32(data []byte) []byte {
	a, b := uint32(1), uint32(0)
	for _, c := range data {
		a = (a + uint32(c)) % 65521
		b = (b + a) % 65521
	}
	return []byte{byte(b >> 8), byte(b), byte(a >> 8), byte(a)}
}

func unreadableFiles() []vector {
	renewal := statements(stated{kind: renews, of: yardSeed, other: nextSeed, from: "2026-05-01", at: "2026-04-28", number: 1})
	return []vector{
		unread("key-statement", "A file of key statements, which is no record.", renewal),
		unread("key-statements", "A file of two key statements.", slices.Concat(renewal,
			statements(stated{kind: revokes, of: yardSeed, from: "2026-06-01", why: retired, at: "2026-06-01", number: 2}))),
		unread("pdf-without-record", "A PDF of another program, without a record.", invoice()),
		unread("pdf-locked", "A PDF with a password.", locked(sealed(service(), yardSeed))),
		unread("pdf-two-records", "A PDF with two different records in it.", foreignPDF(sealed(service(), yardSeed), sealed(with(starboard), yardSeed))),
		unread("pdf-of-label", "A PDF that holds the text of a label's code only.", foreignPDF([]byte(reference(host, sealed(service(), yardSeed))))),
		unread("pdf-of-statements", "A PDF that holds key statements only.", foreignPDF(renewal)),
		{"pdf-of-list", "A PDF in the layout of a report, with a signed list where its record should be.", listInPDF(), reader{}, unreadable()},
		unread("pdf-header-only", "The first line of a PDF.", []byte("%PDF-1.4\n")),
		unread("public-key", "A public key file.", []byte(trustedKey(yardSeed).OpenSSHLine("yard")+"\n")),
		unread("binary", "Bytes of no known kind.", bytes.Repeat([]byte{0x00, 0xD2, 0x84, 0x13}, 64)),
		unread("json", "The record as JSON: nothing in it is signed.", append(must(json.Marshal(service())), '\n')),
	}
}

func listInPDF() input {
	list := sealedList(oneRecord(), yardSeed)
	in := edited(func(pdf []byte) ([]byte, error) {
		pdf, err := sourcetest.ReplaceAttachment(pdf, "record.cose", list)
		if err != nil {
			return nil, err
		}
		return sourcetest.ReplaceAttachment(pdf, "record.txt", lines(format1("", list)))
	})
	in.envelope, in.list = list, true
	return in
}
