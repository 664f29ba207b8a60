package qrtext

import (
	"bytes"
	"compress/flate"
	"errors"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"

	"pgregory.net/rapid"
)

// textOf is a whole text of deflated bytes, good or not.
func textOf(deflated []byte) string {
	return bareScheme + string(appendDigits([]byte{formatWhole}, deflated))
}

func mustDeflate(t testing.TB, b []byte) []byte {
	t.Helper()
	deflated, err := deflate(deflateLevel, b)
	if err != nil {
		t.Fatal(err)
	}
	return deflated
}

func TestDigitsRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := rapid.SliceOfN(rapid.Byte(), 0, 40).Draw(t, "bytes")
		digits := string(appendDigits(nil, b))
		if len(digits) != digitsFor(len(b)) {
			t.Fatalf("%d digits for %d bytes", len(digits), len(b))
		}
		back, err := appendBytes(nil, digits)
		if err != nil || !bytes.Equal(back, b) {
			t.Fatalf("%s: %x, %v", digits, back, err)
		}
	})
	rapid.Check(t, func(t *rapid.T) {
		digits := rapid.StringOfN(rapid.RuneFrom([]rune("0123456789")), 0, 60, -1).Draw(t, "digits")
		b, err := appendBytes(nil, digits)
		if err == nil && string(appendDigits(nil, b)) != digits {
			t.Fatalf("%s is read as %x, which is written in another way", digits, b)
		}
	})
}

func TestGroupLimits(t *testing.T) {
	for digits, want := range map[string]string{
		"":                  "",
		"000":               "00",
		"255":               "ff",
		"256":               "!",
		"999":               "!",
		"65535":             "ffff",
		"65536":             "!",
		"16777215":          "ffffff",
		"16777216":          "!",
		"4294967295":        "ffffffff",
		"4294967296":        "!",
		"1099511627775":     "ffffffffff",
		"1099511627776":     "!",
		"281474976710655":   "ffffffffffff",
		"281474976710656":   "!",
		"72057594037927935": "ffffffffffffff",
		"72057594037927936": "!",
		"99999999999999999": "!",
		"00000000000000000": "00000000000000",
		"0":                 "!", "00": "!", "0000": "!", "000000": "!", "0000000": "!", "000000000": "!", "00000000000": "!",
		"000000000000": "!", "00000000000000": "!", "0000000000000000": "!", "000000000000000000": "!",
	} {
		b, err := appendBytes(nil, digits)
		got := "!"
		if err == nil {
			got = strings.ToLower(hexOf(b))
		} else if !errors.Is(err, ErrMalformed) {
			t.Error(err)
		}
		if got != want {
			t.Errorf("%s: %s, want %s", digits, got, want)
		}
	}
}

func hexOf(b []byte) string {
	const hexDigits = "0123456789abcdef"
	var s []byte
	for _, c := range b {
		s = append(s, hexDigits[c>>4], hexDigits[c&15])
	}
	return string(s)
}

func TestLeadingZeros(t *testing.T) {
	// Groups of zero bytes must keep their zeros.
	stored := append([]byte{0x01, 16, 0, 0xEF, 0xFF}, make([]byte, 16)...)
	got, err := Decode([]string{textOf(stored)})
	if err != nil || !bytes.Equal(got.Envelope, make([]byte, 16)) {
		t.Errorf("%x, %v", got.Envelope, err)
	}
}

func TestDecodeRefuses(t *testing.T) {
	good := mustDeflate(t, []byte("Gannet, port engine"))
	text := textOf(good)
	parts, err := Encode(recordLike(2600), testHost)
	if err != nil || len(parts) != 3 {
		t.Fatal(len(parts), err)
	}
	other, err := Encode(append(recordLike(2599), 0), testHost)
	if err != nil || len(other) != 3 {
		t.Fatal(len(other), err)
	}
	elsewhere, err := Encode(recordLike(2600), "records.port-ellery.example")
	if err != nil || len(elsewhere) != 3 {
		t.Fatal(len(elsewhere), err)
	}
	prefix := len("HTTPS://VERIFY.ELLERY-SLIP.EXAMPLE/#")
	damaged := parts[0][:prefix+20] + "9" + parts[0][prefix+21:]
	if damaged == parts[0] {
		damaged = parts[0][:prefix+20] + "8" + parts[0][prefix+21:]
	}
	rename := func(from []string, at int, digits string) []string {
		texts := slices.Clone(from)
		for i, text := range texts {
			texts[i] = text[:prefix+at] + digits + text[prefix+at+len(digits):]
		}
		return texts
	}
	older := func(text string) string {
		at := strings.LastIndexAny(text, ":#") + 1
		format := map[byte]string{formatWhole: "1", formatPart: "2"}[text[at]]
		return text[:at] + format + text[at+1:]
	}
	var bomb bytes.Buffer
	w, err := flate.NewWriter(&bomb, 9)
	if err != nil {
		t.Fatal(err)
	}
	w.Write(make([]byte, 3<<20))
	w.Close()
	if bomb.Len() > 3200 {
		t.Fatalf("the bomb has %d bytes", bomb.Len())
	}
	empty := bytes.Repeat([]byte{0x00, 0x00, 0x00, 0xFF, 0xFF}, MaxDeflatedBytes/5-10)
	for _, c := range []struct {
		name  string
		texts []string
		kind  error
		want  string
	}{
		{"no text", nil, ErrMalformed, "no text"},
		{"empty text", []string{""}, ErrNotOurs, ""},
		{"another link", []string{"https://verify.ellery-slip.example/"}, ErrNotOurs, ""},
		{"another link with a fragment", []string{"https://verify.ellery-slip.example/a#1"}, ErrNotOurs, ""},
		{"http", []string{strings.Replace(text, bareScheme, "http://verify.ellery-slip.example/#", 1)}, ErrNotOurs, ""},
		{"with a port", []string{strings.Replace(text, bareScheme, "https://a.b:443/#", 1)}, ErrNotOurs, ""},
		{"with a user", []string{strings.Replace(text, bareScheme, "https://me@a.b/#", 1)}, ErrNotOurs, ""},
		{"no host", []string{strings.Replace(text, bareScheme, "https:///#", 1)}, ErrNotOurs, ""},
		{"no slash", []string{strings.Replace(text, bareScheme, "https://a.b#", 1)}, ErrNotOurs, ""},
		{"a query", []string{strings.Replace(text, bareScheme, "https://a.b/?q#", 1)}, ErrNotOurs, ""},
		{"a host of lookalike letters", []string{strings.Replace(text, bareScheme, "https://ellery-ſlip.example/#", 1)}, ErrNotOurs, ""},
		{"a scheme of lookalike letters", []string{strings.Replace(text, "s", "ſ", 1)}, ErrNotOurs, ""},
		{"prefix alone", []string{bareScheme}, ErrMalformed, "no digits"},
		{"format alone", []string{"hourseal:1"}, ErrMalformed, "it is cut short"},
		{"format 0", []string{"hourseal:0123"}, ErrMalformed, "format 0 is not known; a newer program may read it"},
		{"format 6", []string{"hourseal:6123"}, ErrMalformed, "format 6 is not known"},
		{"format 4 alone", []string{"hourseal:4"}, ErrMalformed, "it is cut short"},
		{"deflated with the dictionary, said to be without", []string{strings.Replace(text, ":4", ":1", 1)}, ErrMalformed, "a part of it is wrong or missing"},
		{"bomb of 3 MiB without the dictionary", []string{bareScheme + string(appendDigits([]byte{formatPlainWhole}, bomb.Bytes()))}, ErrMalformed, "it inflates to over 16384 bytes"},
		{"an older and a newer text of one part", []string{parts[0], parts[1], older(parts[2])}, ErrMixed, "give the texts of one report at a time"},
		{"an older and a newer text of one record", []string{text, older(text)}, ErrMixed, ""},
		{"a letter", []string{text[:30] + "x" + text[31:]}, ErrMalformed, "character 31 is not a digit"},
		{"a space inside", []string{text[:30] + " " + text[30:]}, ErrMalformed, "character 31 is not a digit"},
		{"Arabic digits", []string{text + "٣"}, ErrMalformed, "is not a digit"},
		{"one digit more", []string{text + "0"}, ErrMalformed, ""},
		{"one digit less", []string{text[:len(text)-1]}, ErrMalformed, ""},
		{"a group too large", []string{"hourseal:172057594037927936"}, ErrMalformed, "group 1 of the digits is too large a number for 7 bytes"},
		{"a byte after it", []string{textOf(append(bytes.Clone(good), 0))}, ErrMalformed, "1 bytes are left over after the record"},
		{"a second stream", []string{textOf(append(bytes.Clone(good), good...))}, ErrMalformed, "are left over after the record"},
		{"cut short", []string{textOf(good[:len(good)-1])}, ErrMalformed, "it is cut short"},
		{"no last block", []string{textOf([]byte{0x00, 0x01, 0x00, 0xFE, 0xFF, 0x61})}, ErrMalformed, "it is cut short"},
		{"block of an unknown kind", []string{textOf([]byte{0x07})}, ErrMalformed, "a part of it is wrong or missing"},
		{"nothing in it", []string{textOf([]byte{0x01, 0x00, 0x00, 0xFF, 0xFF})}, ErrMalformed, "it inflates to nothing"},
		{"one byte over the limit", []string{textOf(mustDeflate(t, make([]byte, MaxInflatedBytes+1)))}, ErrMalformed, "it inflates to over 16384 bytes"},
		{"bomb of 3 MiB", []string{textOf(bomb.Bytes())}, ErrMalformed, "it inflates to over 16384 bytes"},
		{"empty stored blocks", []string{textOf(empty)}, ErrMalformed, "it is cut short"},
		{"empty stored blocks over the limit", []string{textOf(append(bytes.Clone(empty), empty[:5*100]...))}, ErrMalformed, "digits is too long"},
		{"far too long", []string{bareScheme + strings.Repeat("1", 1<<20)}, ErrMalformed, "characters is too long"},
		{"part head cut short", []string{"hourseal:2010200000001"}, ErrMalformed, "it ends within the head of a part"},
		{"newer part head cut short", []string{"hourseal:5010200000001"}, ErrMalformed, "it ends within the head of a part"},
		{"part 0", rename(parts, 1, "00"), ErrMalformed, "part 0 of 3"},
		{"part 4 of 3", rename(parts, 1, "04"), ErrMalformed, "part 4 of 3"},
		{"part 1 of 1", []string{"hourseal:20101000000010284777756189026099"}, ErrMalformed, "part 1 of 1"},
		{"newer part 1 of 1", []string{"hourseal:50101000000010284777756189026099"}, ErrMalformed, "part 1 of 1"},
		{"part missing", []string{parts[2], parts[0]}, nil, "part 2 of 3 is missing: read the other QR codes of the report too"},
		{"parts missing", []string{parts[1]}, nil, "parts 1, 3 of 3 are missing"},
		{"parts of two records", []string{parts[0], other[1], parts[2]}, ErrMixed, "give the texts of one report at a time"},
		{"parts of two counts", append(slices.Clone(parts), rename(parts[:1], 3, "04")...), ErrMixed, ""},
		{"parts of two hosts", []string{parts[0], elsewhere[1], parts[2]}, ErrMixed, "verify.ellery-slip.example and records.port-ellery.example"},
		{"parts that name another record", rename(parts, 5, "00000000"), ErrMalformed, "the parts do not make the record that they name"},
		{"two of one part", append(slices.Clone(parts), damaged), ErrMixed, "two different texts say part 1 of 3"},
		{"a part cut short", []string{parts[0][:len(parts[0])-1], parts[1], parts[2]}, ErrMalformed, "digits, not"},
		{"a part and a whole", []string{parts[0], text}, ErrMixed, ""},
		{"a whole and a part", []string{text, parts[0]}, ErrMixed, ""},
		{"two records", []string{text, textOf(mustDeflate(t, []byte("Gannet, starboard engine")))}, ErrMixed, ""},
		{"one of them not ours", []string{text, "Corrin 4T-75"}, ErrNotOurs, "text 2: "},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := Decode(c.texts)
			if err == nil || got.Envelope != nil || !strings.Contains(err.Error(), c.want) {
				t.Fatalf("got %v, want %q", err, c.want)
			}
			var missing *MissingPartsError
			if c.kind != nil && !errors.Is(err, c.kind) || c.kind == nil && !errors.As(err, &missing) {
				t.Errorf("error of another kind: %v", err)
			}
		})
	}
	for name, texts := range map[string][]string{
		"as it is":                    {text},
		"the same text twice":         {text, text},
		"in upper case, with newline": {strings.ToUpper(text) + "\r\n", text},
	} {
		if got, err := Decode(texts); err != nil || string(got.Envelope) != "Gannet, port engine" {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := Decode([]string{parts[2], parts[0], parts[1], parts[0]}); err != nil {
		t.Errorf("parts in another order, one twice: %v", err)
	}
}

// TestUnusedBits: what the package comment says of the last byte. "a" in one
// block of fixed codes (RFC 1951 section 3.2.6) takes 18 bits, 4B 04 00, so six
// bits of the last byte are unused. Whatever they are the envelope is the same,
// and that is what the signature is over.
func TestUnusedBits(t *testing.T) {
	for last := range 256 {
		got, err := Decode([]string{textOf([]byte{0x4B, 0x04, byte(last)})})
		if last&3 == 0 && (err != nil || string(got.Envelope) != "a") {
			t.Errorf("last byte %#02x: %q, %v", last, got.Envelope, err)
		}
		if last&3 != 0 && err == nil && string(got.Envelope) == "a" {
			t.Errorf("last byte %#02x: bits that are used do not matter", last)
		}
	}
}

// TestBombsAreCheap: neither a bomb nor empty blocks may take memory in
// proportion to what they claim.
func TestBombsAreCheap(t *testing.T) {
	text := []string{textOf(mustDeflate(t, make([]byte, 3<<20)))}
	Decode(text)
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	for range 100 {
		if _, err := Decode(text); err == nil {
			t.Fatal("decoded")
		}
	}
	runtime.ReadMemStats(&after)
	if each := (after.TotalAlloc - before.TotalAlloc) / 100; each > 64<<10 {
		t.Errorf("%d bytes a bomb", each)
	}
}

func TestDecodeConcurrently(t *testing.T) {
	var wg sync.WaitGroup
	for i := range 8 {
		wg.Go(func() {
			envelope := recordLike(500 + 300*i)
			texts, err := Encode(envelope, "")
			if err != nil {
				t.Error(err)
				return
			}
			for range 50 {
				Decode([]string{textOf([]byte{0x07})}) // leaves the reader in an error
				if got, err := Decode(texts); err != nil || !bytes.Equal(got.Envelope, envelope) {
					t.Error("another envelope", err)
				}
			}
		})
	}
	wg.Wait()
}

func TestJoinMadeUpParts(t *testing.T) {
	for _, parts := range [][]Part{
		nil, {{}}, {{Count: -1}}, {{Count: 1 << 60, Number: 1}}, {{Count: 1, Number: 1}}, {{Count: 2, Number: -5}}, {{Count: 2, Number: 3, digits: "1"}},
		{{Dictionary: 2, digits: "003"}}, {{Dictionary: -1, digits: "003"}},
	} {
		if _, err := Join(parts); err == nil {
			t.Errorf("%+v: decoded", parts)
		}
	}
}

func FuzzDecode(f *testing.F) {
	whole, err := Encode([]byte("Gannet, port engine"), "")
	if err != nil {
		f.Fatal(err)
	}
	parts, err := Encode(recordLike(2600), testHost)
	if err != nil {
		f.Fatal(err)
	}
	f.Add(whole[0])
	f.Add(strings.Join(parts, "\n"))
	f.Add(parts[0])
	f.Add("HTTPS://A.B/#100284777756189026099")
	f.Add("HTTPS://A.B/#318446744073709551615")
	f.Add("hourseal:300000000000000000000\nhourseal:31")
	f.Add("hourseal:2010299999999123\nhourseal:2020299999999123")
	f.Fuzz(func(t *testing.T, text string) {
		texts := strings.Split(text, "\n")
		got, err := Decode(texts)
		if err != nil {
			var missing *MissingPartsError
			var named *ReferenceError
			kinds := 0
			for _, is := range []bool{errors.Is(err, ErrNotOurs), errors.Is(err, ErrMalformed), errors.Is(err, ErrMixed), errors.As(err, &missing), errors.As(err, &named)} {
				if is {
					kinds++
				}
			}
			if kinds != 1 {
				t.Errorf("error of %d kinds: %v", kinds, err)
			}
			if named != nil {
				again, err := Reference(named.Host, named.Short)
				if err != nil || !slices.ContainsFunc(texts, func(text string) bool { return strings.EqualFold(strings.Trim(text, whiteSpace), again) }) {
					t.Errorf("%q names what is written %q (%v)", text, again, err)
				}
			}
			return
		}
		if len(got.Envelope) == 0 || len(got.Envelope) > MaxInflatedBytes {
			t.Errorf("%d bytes", len(got.Envelope))
		}
		again, err := Encode(got.Envelope, got.Host)
		if err != nil {
			t.Fatal(err)
		}
		if back, err := Decode(again); err != nil || !bytes.Equal(back.Envelope, got.Envelope) || back.Host != got.Host {
			t.Errorf("does not come back: %v", err)
		}
	})
}
