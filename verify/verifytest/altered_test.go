package verifytest_test

import (
	"bytes"
	"crypto/ed25519"
	"crypto/sha512"
	"encoding/hex"
	"math/big"
	"slices"

	"hourseal/record"
	"hourseal/record/list"
	"hourseal/verify"
	"hourseal/verify/source/sourcetest"
)

// flipped is data with one bit changed; at counts from the end where it is negative.
func flipped(data []byte, at int) []byte {
	out := bytes.Clone(data)
	if at < 0 {
		at += len(out)
	}
	out[at] ^= 1
	return out
}

// replaced is data with the first bytes of the kind changed.
func replaced(data, from, to []byte) []byte {
	if !bytes.Contains(data, from) {
		panic("nothing to replace")
	}
	return bytes.Replace(data, from, to, 1)
}

// Where the parts of an envelope with a payload of 256 bytes or more begin.
const (
	keyAt       = 10
	payloadAt   = keyAt + 32 + 1 + 3
	signatureAt = -64 // R; S stands 32 bytes on
)

// groupOrder is L, RFC 8032 section 5.1.
var groupOrder, _ = new(big.Int).SetString("7237005577332262213973186563042994240857116359379907606001950938285454250989", 10)

func littleEndian(n *big.Int) []byte {
	b := n.FillBytes(make([]byte, 32))
	slices.Reverse(b)
	return b
}

func fromLittleEndian(b []byte) *big.Int {
	b = bytes.Clone(b)
	slices.Reverse(b)
	return new(big.Int).SetBytes(b)
}

// plusL is the same signature with L added to S, which fits an equation that does not
// ask for S below L (RFC 8032 section 5.1.7, step 1).
func plusL(signed []byte) []byte {
	s := fromLittleEndian(signed[len(signed)-32:])
	return slices.Concat(signed[:len(signed)-32], littleEndian(s.Add(s, groupOrder)))
}

// signedWithR is a signature of the yard whose R is the identity point in the encoding
// given: S = k times the secret number fits it, whatever the encoding. The canonical one
// is 01 00 … 00; others name the same point and are refused (RFC 8032 section 5.1.3).
func signedWithR(r, payload []byte) []byte {
	key := publicKey(yardSeed)
	h := sha512.Sum512(bytes.Repeat([]byte{yardSeed}, 32))
	h[0] &= 248
	h[31] = h[31]&127 | 64
	k := sha512.Sum512(slices.Concat(r, key, toBeSigned(asRecord, key, payload)))
	n := fromLittleEndian(k[:])
	n.Mul(n, fromLittleEndian(h[:32])).Mod(n, groupOrder)
	return envelope(key, payload, slices.Concat(r, littleEndian(n)))
}

// underWeakKey is a record forged under a key of small order: R is the identity, S is
// 0, and S B = R + k A holds where k is a multiple of the key's order, which is true of
// one issue time in eight or more. An equation that does not ask about the key accepts it.
func underWeakKey(key []byte) []byte {
	fits := append([]byte{1}, make([]byte, 63)...)
	for late := range int64(1000) {
		payload := payloadOf(with(func(r *record.Record) { r.IssuedAt += late }))
		if ed25519.Verify(key, toBeSigned(asRecord, key, payload), fits) {
			return envelope(key, payload, fits)
		}
	}
	panic("the forgery fits no payload: the case would show nothing")
}

// order8 is a point of order eight; libsodium's list of points of small order has it
// (from memory, and underWeakKey shows it).
var order8 = must(hex.DecodeString("26e8958fc2b227b045c3f489f2ef98f0d5dfac05d3c63339b13802886d53fc05"))

// identity is the point of order one, in its canonical encoding.
var identity = append([]byte{1}, make([]byte, 31)...)

// identityPlusP is the same point with y = p + 1, an encoding that is not canonical.
var identityPlusP = must(hex.DecodeString("eeffffffffffffffffffffffffffffffffffffffffffffffffffffffffffff7f"))

func alteredFiles() []vector {
	signed, payload := sealed(service(), yardSeed), payloadOf(service())
	other := sealed(with(starboard), yardSeed)
	otherPayload := payloadOf(with(starboard))
	key := publicKey(yardSeed)
	forged := outcome{verdict: verify.Altered, sentence: forgedWords}
	bad := func(name, what string, envelope []byte) vector {
		return vector{name, what, file(envelope), reader{}, altered()}
	}
	weak := func(name, what string, key []byte) vector {
		return vector{name, what, file(underWeakKey(key)), reader{}, forged}
	}
	return []vector{
		bad("payload-bit", "One bit of the payload changed.", flipped(signed, payloadAt+20)),
		bad("payload-last-bit", "The last byte of the payload changed: the issue time.", flipped(signed, signatureAt-3)),
		bad("payload-hours", "The hours in the payload changed from 812.6 to 412.6, in as many bytes.",
			replaced(signed, head(0, 81260), []byte{0x1a, 0, 0, 0xa1, 0x2c})),
		bad("key-bit", "One bit of the key changed.", flipped(signed, keyAt+3)),
		bad("key-of-another", "Somebody else's key put in the place of the signer's.", bytes.Replace(signed, key, publicKey(strangerSeed), 1)),
		bad("signature-r-bit", "One bit of R changed.", flipped(signed, signatureAt)),
		bad("signature-s-bit", "One bit of S changed.", flipped(signed, signatureAt+32)),
		bad("signature-zero", "A signature of 64 zero bytes.", envelope(key, payload, make([]byte, 64))),
		bad("signature-s-plus-l", "L added to S: the same point, a second form of one signature.", plusL(signed)),
		bad("signature-r-not-canonical", "R is a point in an encoding that is not canonical, and S made to fit.", signedWithR(identityPlusP, payload)),
		bad("signature-of-another", "The signature of another record of the same key.", envelope(key, payload, other[len(other)-64:])),
		bad("payload-of-another", "The payload of another record under the first one's signature.", envelope(key, otherPayload, signed[len(signed)-64:])),
		weak("key-small-order-1", "The key is the identity point: one signature fits every payload under it.", identity),
		weak("key-small-order-8", "The key is a point of order eight.", order8),
		weak("key-not-canonical", "The key is the identity point in an encoding that is not canonical.", identityPlusP),
		bad("purpose-none", "Signed with an empty external_aad.", seal("", payload, yardSeed)),
		bad("purpose-statement", "A record signed with the words for key statements.", seal(asStatement, payload, yardSeed)),
		bad("purpose-newer", "Signed with the words hourseal record v2.", seal("hourseal record v2", payload, yardSeed)),
		bad("purpose-header-not-signed", "Signed over the payload alone, without the Sig_structure of RFC 9052.",
			envelope(key, payload, ed25519.Sign(privateKey(yardSeed), payload))),
		bad("list", "One bit of a signed list changed.", flipped(sealedList(oneRecord(), yardSeed), payloadAt+20)),
		bad("list-purpose-none", "A list signed with an empty external_aad.", seal("", must(list.Encode(oneRecord())), yardSeed)),
	}
}

// alteredElsewhere are altered records in other wrappings, and with readers who would
// have something else to say of them.
func alteredElsewhere() []vector {
	signed := sealed(service(), yardSeed)
	bad := flipped(signed, payloadAt+20)
	text := func(envelope []byte) input { return texts(envelope, format1(host, envelope)) }
	return []vector{
		{"text", "The text of an altered record.", text(bad), reader{}, altered()},
		{"text-in-parts", "The parts of an altered record: they name it rightly.", texts(bad, format2(host, bad, 2)...), reader{}, altered()},
		{"text-elsewhere", "The text of an altered record, with another address: altered outweighs it.", texts(bad, format1(anotherHost, bad)), reader{}, altered()},
		{"pdf", "A report whose attachments are both of an altered record.", alteredPDF(bad), reader{}, altered()},
		{"pdf-record-only", "A report with one bit of record.cose changed; record.txt holds the record as it was.", alteredRecordIn(bad), reader{}, altered()},
		{"unknown", "Altered outweighs an unknown signer.", file(bad), reader{trust: nobody}, altered()},
		{"key-not-valid", "Altered outweighs a key that was not valid.", file(bad), reader{trust: trustYard(until("2026-01-01"))}, altered()},
		{"other-machine", "Altered outweighs another machine.", file(bad), reader{serial: "0045121", hours: "10"}, altered()},
	}
}

func alteredRecordIn(bad []byte) input {
	return edited(func(pdf []byte) ([]byte, error) { return sourcetest.ReplaceAttachment(pdf, "record.cose", bad) })
}

func alteredPDF(bad []byte) input {
	return edited(func(pdf []byte) ([]byte, error) {
		pdf, err := sourcetest.ReplaceAttachment(pdf, "record.cose", bad)
		if err != nil {
			return nil, err
		}
		return sourcetest.ReplaceAttachment(pdf, "record.txt", lines(format1(host, bad)))
	})
}
