package source

import (
	"bytes"
	"crypto/ed25519"
	"crypto/sha256"
	"errors"
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hourseal/sign"
)

type testSigner struct{ key ed25519.PrivateKey }

func (s testSigner) Public() sign.PublicKey {
	return sign.PublicKey(s.key.Public().(ed25519.PublicKey))
}

func (s testSigner) Sign(m []byte) ([]byte, error) { return ed25519.Sign(s.key, m), nil }

// The structure is looked at here and in package sign; both have to say the
// same of any bytes that are nearly an envelope.
func TestSoundEnvelopeAgreesWithSign(t *testing.T) {
	seed := sha256.Sum256([]byte("Ellery Slip Boatyard"))
	signer := testSigner{ed25519.NewKeyFromSeed(seed[:])}
	rapid.Check(t, func(t *rapid.T) {
		size := rapid.SampledFrom([]int{1, 2, 23, 24, 25, 255, 256, 257, 1000, 8191, 8192}).Draw(t, "size")
		e, err := sign.Seal(sign.RecordV1, bytes.Repeat([]byte{0x58}, size), signer)
		if err != nil {
			t.Fatal(err)
		}
		switch rapid.IntRange(0, 3).Draw(t, "change") {
		case 1:
			// Mostly in the head, where the structure is.
			e[rapid.IntRange(0, min(60, len(e)-1)).Draw(t, "at")] = rapid.Byte().Draw(t, "byte")
		case 2:
			e = e[:rapid.IntRange(0, len(e)).Draw(t, "cut")]
		case 3:
			e = append(e, rapid.SliceOfN(rapid.Byte(), 1, 4).Draw(t, "more")...)
		}
		_, err = sign.Open(sign.RecordV1, e)
		if got, want := soundEnvelope(e), errors.Is(err, sign.ErrMalformed); (got != nil) != want {
			t.Fatalf("%x…: here %v, package sign %v", e[:min(len(e), 50)], got, err)
		}
	})
}

// Lengths of the payload that are not in the one form, or out of range
// (RFC 8949 section 4.2.1; the limit is this project's).
func TestSoundEnvelopeLengths(t *testing.T) {
	for _, test := range []struct {
		head  string
		n     int
		sound bool
	}{
		{"\x41", 1, true}, {"\x57", 23, true}, {"\x58\x18", 24, true}, {"\x58\xff", 255, true}, {"\x59\x01\x00", 256, true}, {"\x59\x20\x00", 8192, true},
		{"\x40", 0, false}, {"\x58\x17", 23, false}, {"\x58\x00", 0, false}, {"\x59\x00\xff", 255, false}, {"\x59\x20\x01", 8193, false},
		{"\x5a\x00\x00\x01\x00", 256, false}, {"\x5f", 0, false}, {"\x61", 1, false},
	} {
		e := bytes.Join([][]byte{envelopePrefix, make([]byte, 32), {0xA0}, []byte(test.head), make([]byte, test.n), {0x58, 0x40}, make([]byte, 64)}, nil)
		if got := envelopeAt(e) != nil; got != test.sound {
			t.Errorf("head %x with %d bytes: cut out %t", test.head, test.n, got)
		}
		if got := soundEnvelope(e) == nil; got != test.sound {
			t.Errorf("head %x with %d bytes: sound %t", test.head, test.n, got)
		}
		if _, err := sign.Open(sign.RecordV1, e); errors.Is(err, sign.ErrMalformed) == test.sound {
			t.Errorf("head %x with %d bytes: package sign says %v", test.head, test.n, err)
		}
	}
}

// Strings and operators of ISO 32000-1 sections 7.3.4 and 9.4.3; the examples of
// strings are the ones of section 7.3.4.2.
func TestShownLines(t *testing.T) {
	for _, test := range []struct {
		content string
		want    []string // bytes of each line
	}{
		{"BT 1 2 Td (ab) Tj ET", []string{"ab"}},
		{"BT 1 2 Td (ab)Tj ET", []string{"ab"}},
		{"[(a) -12.5 (b) (c)] TJ", []string{"abc"}},
		{"(a) ' 1 2 (b) \"", []string{"a", "b"}},
		{"(a) Td (b) Tj", []string{"b"}},
		{"() Tj", []string{""}},
		{`(These \
two strings \
are the same.) Tj`, []string{"These two strings are the same."}},
		{"(a\\\rb\\\r\nc\\\nd) Tj", []string{"abcd"}}, // each end of a line
		{`(Strings may contain balanced parentheses () and special characters (*!&}^% and so on).) Tj`,
			[]string{"Strings may contain balanced parentheses () and special characters (*!&}^% and so on)."}},
		{`(This string contains \245two octal characters\307.) Tj`, []string{"This string contains \xa5two octal characters\xc7."}},
		{`(\0053) Tj (\053) Tj (\53) Tj`, []string{"\x053", "+", "+"}},
		{"<4E6F762073686D6F7A206B6120706F702E> Tj", []string{"Nov shmoz ka pop."}},
		{"<901FA3> Tj <901fA> Tj", []string{"\x90\x1f\xa3", "\x90\x1f\xa0"}},
		{`(\n\r\t\b\f\(\)\\\x) Tj`, []string{"\n\r\t\b\f()\\x"}},
		{"% (no) Tj\n(yes) Tj", []string{"yes"}},
		{"/Tj (a) /TJ gs", nil},
		{"<</A (b)>> BDC (c) Tj", []string{"c"}},
		{"(open", nil}, {"(open\\", nil}, {"<4", nil}, {"%", nil}, {"", nil},
	} {
		var got []string
		for _, line := range shownLines([]byte(test.content)) {
			got = append(got, string(line))
		}
		if fmt.Sprintf("%q", got) != fmt.Sprintf("%q", test.want) {
			t.Errorf("%s: got %q, want %q", test.content, got, test.want)
		}
	}
}

// A palette's colours are in strings of either kind, by the same sections.
func TestPaletteStrings(t *testing.T) {
	for written, want := range map[string]string{
		"<00FF7f 80\n0a>":             "\x00\xff\x7f\x80\x0a",
		"<901FA>":                     "\x90\x1f\xa0",
		"<>":                          "",
		`(\000\377\53\(\)\\\n)`:       "\x00\xff+()\\\n",
		"(a\\\nb\\\rc\\\r\nd(e)\xff)": "abcd(e)\xff",
		"(":                           "",
		"12":                          "",
		"":                            "",
	} {
		if got := newLooseFile(nil).bytes([]byte(written)); string(got) != want {
			t.Errorf("%q: %q, want %q", written, got, want)
		}
	}
}

func TestShownLineIsSafeToPrint(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := shownLine(rapid.SliceOf(rapid.Byte()).Draw(t, "bytes")).String()
		for _, r := range text {
			if r < ' ' || r >= 0x7f && r < 0xa0 || r == 0x202e || r == 0x200b {
				t.Fatalf("%q", text)
			}
		}
	})
	if s := shownLine(strings.Repeat("\x00a", 300)).String(); s != strings.Repeat("a", maxShownRunes)+" …" {
		t.Errorf("%d bytes", len(s))
	}
}

// The pairs hold every line that is on one side only, and none that is not
// there.
func TestDiffLines(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(label string) (lines []shownLine) {
			for _, s := range rapid.SliceOfN(rapid.SampledFrom([]string{"a", "b", "c", "d"}), 0, 9).Draw(t, label) {
				lines = append(lines, shownLine(s))
			}
			return lines
		}
		got, want := draw("got"), draw("want")
		count := map[string]int{}
		for _, l := range got {
			count[string(l)]++
		}
		for _, l := range want {
			count[string(l)]--
		}
		for _, pair := range diffLines(got, want) {
			if pair[0] != nil {
				count[string(pair[0])]--
			}
			if pair[1] != nil {
				count[string(pair[1])]++
			}
			if bytes.Equal(pair[0], pair[1]) {
				t.Fatalf("%q is no difference", pair)
			}
		}
		for line, n := range count {
			if n != 0 {
				t.Fatalf("%q: %d lines are unaccounted for", line, n)
			}
		}
	})
}

// Syntax that a report does not have is refused in any value.
func TestValue(t *testing.T) {
	for text, want := range map[string]bool{
		"null": true, "true": true, "12": true, "-12.50": true, "0.00": true, "[ 1 2 0 R /A (b) <0a> << /C 3 >> ]": true,
		"(a\\\\b\\(\\)\\r)": true, "<<>>": true, "<< /A 1 /B 2 >>": true, "(\x00\n\xff)": true,
		"nul": false, "12a": false, "1.": false, "-": false, "+1": false, "0 0 R": false, "1 0 Rx": false, "(": false, "(a": false,
		"(a(b))": false, "(a(b)": false, "(\r)": false, "(\\n)": false, "(\\": false, "<0G>": false, "<0A>": false, "<0": false, "[1": false, "<</A>>": false,
		"<</A 1 /A 2>>": false, "<</A 1": false, "/": false, "/A#42": false, "% c\n1": false, "]": false, "": false,
		strings.Repeat("[", 20) + strings.Repeat("]", 20): false,
	} {
		s := scanner{data: []byte(text)}
		if got := s.value(0) && s.pos == len(text); got != want {
			t.Errorf("%q: %t, want %t (%s)", text, got, want, s.reason)
		}
	}
}

func TestUnescapeUndoesTheWriter(t *testing.T) {
	writer := strings.NewReplacer(`\`, `\\`, "(", `\(`, ")", `\)`, "\r", `\r`) // as fpdf's escape
	rapid.Check(t, func(t *rapid.T) {
		text := string(rapid.SliceOf(rapid.Byte()).Draw(t, "bytes"))
		written := "(" + writer.Replace(text) + ")"
		s := scanner{data: []byte(written)}
		if !s.value(0) || s.pos != len(written) || string(unescape([]byte(written))) != text {
			t.Fatalf("%q came back as %q", text, unescape([]byte(written)))
		}
	})
}
