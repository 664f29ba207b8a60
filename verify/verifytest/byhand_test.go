package verifytest_test

import (
	"bytes"
	"compress/flate"
	"compress/zlib"
	"crypto/ed25519"
	"io"
	"math/big"
	"slices"
	"testing"

	"hourseal/sign"
	"hourseal/sign/qrtext"
)

// What this package makes by hand is what the program makes, wherever it makes the same.
func TestByHand(t *testing.T) {
	payload := payloadOf(service())
	key := must(sign.NewKey(bytes.NewReader(bytes.Repeat([]byte{yardSeed}, 32))))
	signed := sealed(service(), yardSeed)
	for purpose, words := range map[sign.Purpose]string{sign.RecordV1: asRecord, sign.KeyStatementV1: asStatement, sign.ListV1: asList} {
		if !bytes.Equal(must(sign.Seal(purpose, payload, key)), seal(words, payload, yardSeed)) {
			t.Errorf("%s: sealed by hand it is another envelope", purpose)
		}
	}
	if fingerprintOf(signed) != key.Public().Fingerprint() || idOf(signed) != sign.IDOf(signed).Hex() {
		t.Error("another fingerprint or id")
	}
	content := sign.StatementContent{Kind: sign.Revoke, Subject: key.Public(), From: must(sign.ParseDay("2026-05-01")), Why: sign.WhyCompromised,
		StatedAt: daysOf("2026-05-20") * 86_400, Number: 3}
	byHand := statements(stated{kind: revokes, of: yardSeed, from: "2026-05-01", why: compromise, at: "2026-05-20", number: 3})
	if !bytes.Equal(must(sign.Seal(sign.KeyStatementV1, must(content.Encode()), key)), byHand) {
		t.Error("another key statement")
	}
	var short [qrtext.ShortBytes]byte
	id := sign.IDOf(signed)
	copy(short[:], id[:])
	if must(qrtext.Reference(host, short)) != reference(host, signed) {
		t.Error("another text of a label")
	}
	for name, texts := range map[string][]string{
		"1": {format1(host, signed)}, "2": format2(host, signed, 3), "4": {prefixOf(host) + "4" + digitsOf(store(signed))}, "5": format5(host, signed, 2),
	} {
		if got, err := qrtext.Decode(texts); err != nil || !bytes.Equal(got.Envelope, signed) || got.Host != host {
			t.Errorf("format %s: %v, host %s", name, err, got.Host)
		}
	}
}

// What has to be refused would pass a program that does not ask for what it breaks.
func TestForgeriesAreNearlyRight(t *testing.T) {
	payload, key := payloadOf(service()), publicKey(yardSeed)
	message := toBeSigned(asRecord, key, payload)
	if canonical := signedWithR(identity, payload); !ed25519.Verify(key, message, canonical[len(canonical)-64:]) {
		t.Error("R made by hand fits no signature")
	}
	s, plus := fromLittleEndian(last32(sealed(service(), yardSeed))), fromLittleEndian(last32(plusL(sealed(service(), yardSeed))))
	if new(big.Int).Mod(plus, groupOrder).Cmp(s) != 0 || plus.Cmp(groupOrder) < 0 {
		t.Error("S + L is not S mod L, or below L")
	}
	for _, weak := range [][]byte{identity, identityPlusP, order8} {
		forged := underWeakKey(weak)
		if payload := forged[payloadAt : len(forged)-66]; !ed25519.Verify(weak, toBeSigned(asRecord, weak, payload), forged[len(forged)-64:]) {
			t.Errorf("under %x: not even forged", weak)
		}
	}
	if got, err := io.ReadAll(flate.NewReader(bytes.NewReader(zeros(258 * 1000)))); err != nil || !bytes.Equal(got, make([]byte, 258*1000+1)) {
		t.Errorf("zeros: %d bytes, %v", len(got), err)
	}
	stream, err := zlib.NewReader(bytes.NewReader(slices.Concat([]byte{0x78, 0x01}, store(payload), adler32(payload))))
	if err != nil {
		t.Fatal(err)
	}
	if got, err := io.ReadAll(stream); err != nil || !bytes.Equal(got, payload) {
		t.Errorf("zlib: %v", err)
	}
}

func last32(data []byte) []byte { return data[len(data)-32:] }
