package qrtext

import (
	"encoding/hex"
	"errors"
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// The numbers were worked out by another program (Python's int.from_bytes).
func TestReferenceByHand(t *testing.T) {
	for _, c := range []struct{ host, short, text, says string }{
		{"", "3f2a91c077de0b14", "hourseal:304551610629242096404", "3f2a 91c0 77de 0b14"},
		{testHost, "3f2a91c077de0b14", "HTTPS://VERIFY.ELLERY-SLIP.EXAMPLE/#304551610629242096404", "3f2a 91c0 77de 0b14"},
		{"", "0000000000000000", "hourseal:300000000000000000000", "0000 0000 0000 0000"},
		{"", "0000000000000001", "hourseal:300000000000000000001", "0000 0000 0000 0001"},
		{"", "8000000000000000", "hourseal:309223372036854775808", "8000 0000 0000 0000"},
		{"", "ffffffffffffffff", "hourseal:318446744073709551615", "ffff ffff ffff ffff"},
	} {
		var short [ShortBytes]byte
		if n, err := hex.Decode(short[:], []byte(c.short)); n != ShortBytes || err != nil {
			t.Fatal(c.short, err)
		}
		text, err := Reference(c.host, short)
		if err != nil || text != c.text {
			t.Errorf("%s: %s, want %s (%v)", c.short, text, c.text, err)
		}
		for _, written := range []string{c.text, strings.ToLower(c.text), strings.ToUpper(c.text), " " + c.text + "\r\n"} {
			_, err := Parse(written)
			named, ok := errors.AsType[*ReferenceError](err)
			if !ok || named.Short != short || named.Host != c.host {
				t.Errorf("%q: %v", written, err)
				continue
			}
			if want := "this is the code of a label, which only names record " + c.says + " and does not hold it"; err.Error() != want {
				t.Errorf("says %q, want %q", err, want)
			}
		}
	}
}

// Every id has one text and every text one id. The number is checked with
// arbitrary precision.
func TestReferenceRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		short := [ShortBytes]byte(rapid.SliceOfN(rapid.Byte(), ShortBytes, ShortBytes).Draw(t, "short"))
		host := rapid.SampledFrom([]string{"", testHost, "a.b"}).Draw(t, "host")
		text, err := Reference(host, short)
		if err != nil {
			t.Fatal(err)
		}
		prefix, digits := text[:len(text)-referenceDigits-1], text[len(text)-referenceDigits-1:]
		number, ok := new(big.Int).SetString(digits[1:], 10)
		if !ok || digits[0] != '3' || number.Cmp(new(big.Int).SetBytes(short[:])) != 0 {
			t.Fatalf("%x is written %s", short, digits)
		}
		if want := map[string]string{"": "hourseal:", testHost: "HTTPS://VERIFY.ELLERY-SLIP.EXAMPLE/#", "a.b": "HTTPS://A.B/#"}[host]; prefix != want {
			t.Fatalf("prefix %q", prefix)
		}
		_, err = Decode([]string{text})
		named, ok := errors.AsType[*ReferenceError](err)
		if !ok || named.Short != short || named.Host != host {
			t.Fatalf("%s: %v", text, err)
		}
	})
	rapid.Check(t, func(t *rapid.T) {
		digits := rapid.StringOfN(rapid.RuneFrom([]rune("0123456789")), 18, 22, -1).Draw(t, "digits")
		if rapid.Bool().Draw(t, "near the largest") {
			digits = "1844674407370955" + digits[:4]
		}
		_, err := Parse("hourseal:3" + digits)
		number, _ := new(big.Int).SetString(digits, 10)
		fits := len(digits) == 20 && number.BitLen() <= 64
		if named, ok := errors.AsType[*ReferenceError](err); ok != fits {
			t.Fatalf("%s: %v", digits, err)
		} else if ok {
			if again, err := Reference("", named.Short); err != nil || again != "hourseal:3"+digits {
				t.Fatalf("%s is written again as %s (%v)", digits, again, err)
			}
		} else if !errors.Is(err, ErrMalformed) {
			t.Fatalf("%s: %v", digits, err)
		}
	})
}

func TestReferenceRefuses(t *testing.T) {
	for _, host := range []string{"ellery", "https://a.b", "a.b/c", "a b.c", strings.Repeat("w", 64) + ".example"} {
		if text, err := Reference(host, [ShortBytes]byte{}); err == nil {
			t.Errorf("host %q passed: %s", host, text)
		}
	}
	for text, want := range map[string]string{
		"hourseal:3":                      "it names a record in 0 digits, not 20",
		"hourseal:30455161062924209640":   "in 19 digits, not 20",
		"hourseal:3045516106292420964040": "in 21 digits, not 20",
		"hourseal:318446744073709551616":  "too large a number for 8 bytes",
		"hourseal:399999999999999999999":  "too large a number for 8 bytes",
		"hourseal:30455161062924209640x":  "is not a digit",
		"hourseal:3+4551610629242096404":  "is not a digit",
	} {
		if _, err := Parse(text); !errors.Is(err, ErrMalformed) || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %s", text, err, want)
		}
	}
}

// A reference among the texts of a record is named, and no record comes back.
func TestReferenceAmongTexts(t *testing.T) {
	whole, err := Encode([]byte("Gannet, port engine"), "")
	if err != nil {
		t.Fatal(err)
	}
	got, err := Decode([]string{whole[0], "hourseal:304551610629242096404"})
	if _, ok := errors.AsType[*ReferenceError](err); !ok || got.Envelope != nil || !strings.HasPrefix(err.Error(), "text 2: this is the code of a label, which only names record 3f2a 91c0 77de 0b14") {
		t.Errorf("%v", err)
	}
}

// The code of a reference stays small enough for a sticker, by the reckoning of
// Version, which takes the prefix for bytes: version 4 with a host of usual
// length, 8 with one of the 120 characters that a record has room for.
func TestReferenceVersion(t *testing.T) {
	for host, most := range map[string]int{"": 2, testHost: 4, strings.Repeat("w", 60) + "." + strings.Repeat("i", 59): 8} {
		text, err := Reference(host, [ShortBytes]byte{1})
		if err != nil {
			t.Fatal(err)
		}
		if v, err := Version(text); err != nil || v > most {
			t.Errorf("%s: version %d (%v)", text, v, err)
		}
	}
}
