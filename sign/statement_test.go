package sign

import (
	"bytes"
	"encoding/hex"
	"errors"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"hourseal/record/recordtest/outside"
)

// state seals a statement for tests.
func state(t testing.TB, signer *PrivateKey, c StatementContent) Statement {
	t.Helper()
	payload, err := c.Encode()
	if err != nil {
		t.Fatal(err)
	}
	return sealed(t, signer, payload)
}

func sealed(t testing.TB, signer *PrivateKey, payload []byte) Statement {
	t.Helper()
	envelope, err := Seal(KeyStatementV1, payload, signer)
	if err != nil {
		t.Fatal(err)
	}
	s, err := ReadStatement(envelope)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// statedThen is 2026-05-04, 12:00 UTC.
const statedThen = 1777896000

func exampleContents(t testing.TB) []StatementContent {
	a, b := testKey(t, 1).Public(), testKey(t, 2).Public()
	return []StatementContent{
		{Kind: Renew, Subject: a, Other: b, From: 20577, StatedAt: statedThen, Number: 1},
		{Kind: Revoke, Subject: a, From: -5, Why: WhyCompromised, StatedAt: statedThen, Number: 300},
		{Kind: Revoke, Subject: a, From: 0, Why: WhyRetired, StatedAt: 0, Number: 1<<32 - 1},
		{Kind: NamesRecovery, Subject: a, Other: b, StatedAt: lastSecond, Number: 2},
	}
}

// The payload of a renewal, put together by hand from RFC 8949, section 3.
func TestStatementBytes(t *testing.T) {
	a, b := testKey(t, 1).Public(), testKey(t, 2).Public()
	want := "a7" + "0101" + "0201" + "035820" + hex.EncodeToString(a[:]) + "045820" + hex.EncodeToString(b[:]) +
		"05195061" + "071a69f88a40" + "0801"
	got, err := exampleContents(t)[0].Encode()
	if err != nil || hex.EncodeToString(got) != want {
		t.Errorf("%x, %v\nwant %s", got, err, want)
	}
}

func TestStatementsAreReadBack(t *testing.T) {
	var all []Statement
	for _, c := range exampleContents(t) {
		s := state(t, testKey(t, 1), c)
		if s.StatementContent != c || s.Signer != testKey(t, 1).Public() {
			t.Errorf("%+v\nwant %+v", s.StatementContent, c)
		}
		all = append(all, s)
	}
	data, err := FormatStatements(append(all, all[0])) // one comes twice
	if err != nil {
		t.Fatal(err)
	}
	got, err := ParseStatements(data)
	if err != nil || !reflect.DeepEqual(got, SortStatements(all)) {
		t.Errorf("%v, %v", got, err)
	}
	if n := NextNumber(all[:2], testKey(t, 1).Public()); n != 301 {
		t.Errorf("next number %d", n)
	}
}

func TestStatementsThatCannotBe(t *testing.T) {
	a, b := testKey(t, 1).Public(), testKey(t, 2).Public()
	renew := StatementContent{Kind: Renew, Subject: a, Other: b, StatedAt: 1, Number: 1}
	revoke := StatementContent{Kind: Revoke, Subject: a, Why: WhyRetired, StatedAt: 1, Number: 1}
	with := func(c StatementContent, change func(*StatementContent)) StatementContent { change(&c); return c }
	for want, c := range map[string]StatementContent{
		"kind":                      with(renew, func(c *StatementContent) { c.Kind = 4 }),
		"subject key: weak":         with(renew, func(c *StatementContent) { c.Subject = PublicKey{1} }),
		"other key: weak":           with(renew, func(c *StatementContent) { c.Other = PublicKey{} }),
		"the same as the subject":   with(renew, func(c *StatementContent) { c.Other = a }),
		"a revocation names none":   with(revoke, func(c *StatementContent) { c.Other = b }),
		"only a revocation":         with(renew, func(c *StatementContent) { c.Why = WhyRetired }),
		"want retired or":           with(revoke, func(c *StatementContent) { c.Why = "lost" }),
		"recovery key has none":     with(renew, func(c *StatementContent) { c.Kind, c.From = NamesRecovery, 3 }),
		"from: only the years":      with(renew, func(c *StatementContent) { c.From = 2932897 }),
		"stated at: only the years": with(renew, func(c *StatementContent) { c.StatedAt = -1 }),
		"counted from 1":            with(renew, func(c *StatementContent) { c.Number = 0 }),
	} {
		if _, err := c.Encode(); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v", want, err)
		}
	}
}

// Other forms of the same content, and other content, are refused.
func TestStatementsInAnotherForm(t *testing.T) {
	payload, err := exampleContents(t)[0].Encode()
	if err != nil {
		t.Fatal(err)
	}
	a := testKey(t, 1).Public()
	replace := func(from, to string) []byte {
		text := hex.EncodeToString(payload)
		if strings.Count(text, from) != 1 {
			t.Fatalf("%s is there %d times", from, strings.Count(text, from))
		}
		return unhex(t, strings.Replace(text, from, to, 1))
	}
	for name, bad := range map[string][]byte{
		"a byte behind":            append(bytes.Clone(payload), 0),
		"cut":                      payload[:len(payload)-1],
		"a longer number":          replace("05195061", "051a00005061"),
		"a float":                  replace("05195061", "05f95061"),
		"null":                     replace("05195061", "05f6"),
		"out of order":             replace("a701010201", "a702010101"),
		"another format":           replace("a70101", "a70102"),
		"another kind":             replace("01010201", "01010204"),
		"an unknown key":           append(append([]byte{0xA8}, payload[1:]...), 0x09, 0x01),
		"a key twice":              append(append([]byte{0xA8}, payload[1:]...), 0x08, 0x01),
		"indefinite":               append(append([]byte{0xBF}, payload[1:]...), 0xFF),
		"a tag":                    append([]byte{0xC1}, payload...),
		"a key of 31 bytes":        replace("035820"+hex.EncodeToString(a[:]), "03581f"+hex.EncodeToString(a[:31])),
		"an empty map":             {0xA0},
		"nothing but a number":     {0x01},
		"a text in place of a key": replace("035820"+hex.EncodeToString(a[:]), "0361"+"61"),
	} {
		envelope, err := Seal(KeyStatementV1, bad, testKey(t, 1))
		if err != nil {
			t.Fatal(name, err)
		}
		if s, err := ReadStatement(envelope); err == nil {
			t.Errorf("%s: read as %+v", name, s)
		}
	}
}

func TestStatementsFiles(t *testing.T) {
	one := state(t, testKey(t, 1), exampleContents(t)[0])
	flipped := bytes.Clone(one.Envelope)
	flipped[len(flipped)-1] ^= 1
	asRecord, err := Seal(RecordV1, []byte("record"), testKey(t, 1))
	if err != nil {
		t.Fatal(err)
	}
	var many []Statement
	for n := range uint32(MaxStatements + 1) {
		c := exampleContents(t)[0]
		c.Number = n + 1
		many = append(many, state(t, testKey(t, 1), c))
	}
	if _, err := FormatStatements(many); err == nil {
		t.Error("too many are written")
	}
	var all []byte
	for _, s := range many {
		all = append(all, s.Envelope...)
	}
	for name, c := range map[string]struct {
		data []byte
		want error
	}{
		"nothing":          {nil, nil},
		"too long":         {make([]byte, MaxStatementsBytes+1), nil},
		"too many":         {all, nil},
		"a record":         {asRecord, ErrBadSignature},
		"altered":          {flipped, ErrBadSignature},
		"one good, one no": {append(bytes.Clone(one.Envelope), flipped...), ErrBadSignature},
		"cut":              {one.Envelope[:len(one.Envelope)-1], ErrMalformed},
		"a byte between":   {append(append(bytes.Clone(one.Envelope), 0), one.Envelope...), ErrMalformed},
		"text":             {[]byte("key statements"), ErrMalformed},
	} {
		if got, err := ParseStatements(c.data); err == nil || c.want != nil && !errors.Is(err, c.want) {
			t.Errorf("%s: %v, %v", name, got, err)
		}
	}
}

// TestStatementSecondOpinion: cbor2 (Python), which shares nothing with ours, encodes
// what it reads of each payload canonically as the same bytes, and reads the values.
func TestStatementSecondOpinion(t *testing.T) {
	program := ""
	for _, name := range []string{"python3", "/usr/bin/python3"} {
		if _, _, err := tryRun(name, "-c", "import cbor2"); err == nil {
			program = name
			break
		}
	}
	if program == "" {
		outside.Missing(t, "python3 with cbor2")
	}
	const script = `
import cbor2, sys
data = bytes.fromhex(sys.argv[1])
s = cbor2.loads(data)
print(cbor2.dumps(s, canonical=True).hex(), [s.get(k) for k in (1, 2, 5, 6, 7, 8)], s[3].hex(), s.get(4, b"").hex())
`
	a, b := testKey(t, 1).Public(), testKey(t, 2).Public()
	for i, want := range []string{
		fmt.Sprintf("[1, 1, 20577, None, 1777896000, 1] %x %x", a, b),
		fmt.Sprintf("[1, 2, -5, 2, 1777896000, 300] %x ", a),
		fmt.Sprintf("[1, 2, 0, 1, 0, 4294967295] %x ", a),
		fmt.Sprintf("[1, 3, None, None, 253402300799, 2] %x %x", a, b),
	} {
		payload, err := exampleContents(t)[i].Encode()
		if err != nil {
			t.Fatal(err)
		}
		if got := run(t, program, "-c", script, hex.EncodeToString(payload)); got != hex.EncodeToString(payload)+" "+want+"\n" {
			t.Errorf("cbor2 reads %swant %x %s", got, payload, want)
		}
	}
}

// FuzzStatements: whatever is read is written again as the same bytes, and nothing
// panics, in following either.
func FuzzStatements(f *testing.F) {
	for _, c := range exampleContents(f) {
		f.Add(state(f, testKey(f, 1), c).Envelope)
		payload, err := c.Encode()
		if err != nil {
			f.Fatal(err)
		}
		f.Add(payload)
	}
	trust := TrustList{{Name: "Ellery Slip Boatyard", Key: testKey(f, 1).Public()}}
	f.Fuzz(func(t *testing.T, data []byte) {
		if c, err := decodeStatement(data); err == nil {
			if again, err := c.Encode(); err != nil || !bytes.Equal(again, data) {
				t.Errorf("%x\nagain %x, %v", data, again, err)
			}
			// As if it were signed: what is followed must bear any content.
			trust.With([]Statement{{StatementContent: c, Signer: c.Subject, Envelope: data}})
		}
		statements, err := ParseStatements(data)
		if err != nil {
			return
		}
		for _, s := range statements {
			if again, err := s.Encode(); err != nil || !bytes.Contains(s.Envelope, again) {
				t.Errorf("%v, %v", s, err)
			}
		}
		trust.With(statements)
	})
}
