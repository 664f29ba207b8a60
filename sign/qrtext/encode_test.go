package qrtext

import (
	"bytes"
	"compress/flate"
	"io"
	"math/big"
	"strings"
	"testing"

	"github.com/makiuchi-d/gozxing/qrcode/decoder"
	qrcode "github.com/skip2/go-qrcode"
	"pgregory.net/rapid"
)

const testHost = "verify.ellery-slip.example"

// TestTextByHand: "abc" in one stored DEFLATE block (RFC 1951 section 3.2.4) is
// 01 0300 FCFF 616263. Seven bytes, 0x010300FCFF6162, are 284777756189026; the
// last, 0x63, is 99. The numbers were worked out by another program.
func TestTextByHand(t *testing.T) {
	const digits = "1" + "00284777756189026" + "099"
	for prefix, host := range map[string]string{
		"hourseal:": "", "HOURSEAL:": "", "HourSeal:": "",
		"HTTPS://VERIFY.ELLERY-SLIP.EXAMPLE/#": testHost, "https://verify.ellery-slip.example/#": testHost, "\r\n Https://Verify.Ellery-Slip.Example/#": testHost,
	} {
		got, err := Decode([]string{prefix + digits + "\n"})
		if err != nil || string(got.Envelope) != "abc" || got.Host != host {
			t.Errorf("%q: %q %q %v", prefix, got.Envelope, got.Host, err)
		}
	}
	texts, err := EncodeAt(flate.NoCompression, []byte("abc"), "")
	if err != nil || len(texts) != 1 {
		t.Fatal(texts, err)
	}
	// A stored block refers to no dictionary, so its bytes are the same.
	if want := "hourseal:4" + digits[1:]; texts[0] != want {
		t.Errorf("stored: %s, want %s", texts[0], want)
	}
	if got, err := Decode(texts); err != nil || string(got.Envelope) != "abc" {
		t.Errorf("%q: %q %v", texts, got.Envelope, err)
	}
}

// plainDecode reads a text in the plainest way, by the words of the package
// comment, with arbitrary precision: a second opinion on digits and parts.
func plainDecode(t *rapid.T, texts []string) []byte {
	digits := ""
	for _, text := range texts {
		d := text[strings.LastIndexAny(text, ":#")+1:]
		if want := map[bool]byte{true: '4', false: '5'}[len(texts) == 1]; d[0] != want {
			t.Fatalf("format %c of %d texts", d[0], len(texts))
		}
		if len(texts) == 1 {
			digits = d[1:]
		} else {
			digits += d[13:]
		}
	}
	var deflated []byte
	for digits != "" {
		width, size := 17, 7
		for size > 0 && len(digits) < width {
			size--
			width = len(new(big.Int).Sub(new(big.Int).Lsh(big.NewInt(1), uint(8*size)), big.NewInt(1)).String())
		}
		v, ok := new(big.Int).SetString(digits[:width], 10)
		if !ok || size == 0 {
			t.Fatalf("group %q", digits)
		}
		deflated = append(deflated, v.FillBytes(make([]byte, size))...)
		digits = digits[width:]
	}
	b, err := io.ReadAll(flate.NewReaderDict(bytes.NewReader(deflated), dictionary1))
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		envelope := rapid.OneOf(
			rapid.SliceOfN(rapid.Byte(), 1, 60),
			rapid.Map(rapid.IntRange(1, 9000), recordLike),
			rapid.Map(rapid.IntRange(1, 3000), func(n int) []byte { return make([]byte, n) }),
		).Draw(t, "envelope")
		host := rapid.SampledFrom([]string{"", testHost, "a.b", strings.Repeat("harbour-", 7) + "a." + strings.Repeat("p.", 90) + "example"}).Draw(t, "host")
		texts, err := EncodeAt(rapid.IntRange(-2, 9).Draw(t, "level"), envelope, host)
		if err != nil {
			t.Fatal(err)
		}
		for _, text := range texts {
			if v, err := Version(text); err != nil || v > MaxVersion {
				t.Fatalf("version %d, %v", v, err)
			}
		}
		if got := plainDecode(t, texts); !bytes.Equal(got, envelope) {
			t.Fatalf("plain reading gives %x", got)
		}
		again := append(rapid.Permutation(texts).Draw(t, "order"), texts[0])
		got, err := Decode(again)
		if err != nil || !bytes.Equal(got.Envelope, envelope) || got.Host != host {
			t.Fatalf("%q %v", got.Host, err)
		}
		if len(texts) > 1 {
			for i, text := range texts {
				if p, err := Parse(text); err != nil || p.Number != i+1 || p.Count != len(texts) {
					t.Fatalf("part %d: %+v, %v", i, p, err)
				}
			}
		}
	})
}

func TestEncodeIsSteady(t *testing.T) {
	envelope := recordLike(3000)
	first, err := Encode(envelope, testHost)
	if err != nil || len(first) < 2 {
		t.Fatal(len(first), err)
	}
	for range 5 {
		again, err := Encode(envelope, strings.ToUpper(testHost))
		if err != nil || strings.Join(again, " ") != strings.Join(first, " ") {
			t.Fatal("another text for the same envelope", err)
		}
	}
	for i, text := range first[:len(first)-1] {
		if len(text) != len(first[0]) {
			t.Errorf("part %d is not as long as the first", i+1)
		}
	}
	if len(first[len(first)-1]) > len(first[0]) {
		t.Error("the last part is the longest")
	}
}

// TestFit: an envelope goes in one code up to the last digit there is room for,
// and in two beyond it.
func TestFit(t *testing.T) {
	for _, host := range []string{"", testHost} {
		room, err := MaxDigits(host)
		if err != nil {
			t.Fatal(err)
		}
		whole, parts := 0, 0
		for n := 850; n < 1050; n++ {
			texts, err := EncodeAt(flate.NoCompression, recordLike(n), host)
			if err != nil {
				t.Fatal(err)
			}
			// Stored takes five bytes more.
			if want := 1+digitsFor(n+5) <= room; want != (len(texts) == 1) {
				t.Errorf("%d bytes, host %q: %d texts", n, host, len(texts))
			}
			if len(texts) == 1 {
				whole = n
			} else if parts == 0 {
				parts = n
			}
		}
		if whole+1 != parts {
			t.Errorf("host %q: whole up to %d, parts from %d", host, whole, parts)
		}
		t.Logf("host %q: %d digits, %d deflated bytes", host, room, whole+5)
	}
}

// TestCapacityTable compares with the version tables of gozxing.
func TestCapacityTable(t *testing.T) {
	for v := 1; v <= MaxVersion; v++ {
		version, err := decoder.Version_GetVersionForNumber(v)
		if err != nil {
			t.Fatal(err)
		}
		want := version.GetTotalCodewords() - version.GetECBlocksForLevel(decoder.ErrorCorrectionLevel_M).GetTotalECCodewords()
		if got := dataCodewords[v-1]; got != want {
			t.Errorf("version %d: %d data codewords, gozxing has %d", v, got, want)
		}
	}
	// ISO/IEC 18004, table of data capacities, numeric, M: 1-M 34, 9-M 432,
	// 10-M 513, 25-M 2395 digits. A segment of a prefix of no bytes still has
	// its head, so that is added here.
	for v, want := range map[int]int{1: 34, 9: 432, 10: 513, 25: 2395} {
		_, byteCount := countBits(v)
		head := modeBits + byteCount
		bits := dataCodewords[v-1]*8 - modeBits
		numericCount, _ := countBits(v)
		bits -= numericCount
		most := bits / 10 * 3
		if bits%10 >= 7 {
			most += 2
		} else if bits%10 >= 4 {
			most++
		}
		if most != want {
			t.Errorf("version %d: %d digits, the standard has %d", v, most, want)
		}
		if less := maxDigits(0, v); less >= want || less < want-head*3/10-2 {
			t.Errorf("version %d: %d digits beside an empty prefix", v, less)
		}
	}
}

// TestEncoderNeedsNoMore: github.com/skip2/go-qrcode, which chooses segments in
// its own way, takes no larger version than Version says. From 256 to some 400
// characters it takes version 10 where 9 would do, because it first tries
// whether all of them fit a byte segment, whose count has eight bits there.
func TestEncoderNeedsNoMore(t *testing.T) {
	hosts := []string{"", "a.b", "a1.b", testHost, "1234567890123.4567890123456789.a", strings.Repeat("a", 60) + "." + strings.Repeat("0", 60) + "x.example", "x1y22z333a4444b55555c666666d7777777e88888888.f999999999g0000000000.h1"}
	for _, host := range hosts {
		prefix, err := prefixFor(host)
		if err != nil {
			t.Fatal(err)
		}
		for _, v := range []int{9, 10, 16, 24, 25} {
			for _, short := range []int{0, 1} {
				n := maxDigits(len(prefix), v) - short
				if n < 20 {
					continue
				}
				text := prefix + strings.Repeat("1234567890", n/10+1)[:n]
				want, err := Version(text)
				if err != nil {
					t.Fatal(err)
				}
				code, err := qrcode.New(text, qrcode.Medium)
				if err != nil {
					t.Fatal(err)
				}
				most := want
				if len(text) > 255 {
					most = max(most, lastSmallVersion+1)
				}
				if code.VersionNumber > most || want != v {
					t.Errorf("host %q, %d digits: drawn at version %d, Version says %d, room made for %d", host, n, code.VersionNumber, want, v)
				}
			}
		}
		if _, err := Version(prefix + strings.Repeat("0", maxDigits(len(prefix), MaxVersion)+1)); err == nil {
			t.Errorf("host %q: one digit too many has a version", host)
		}
	}
}

func TestEncodeRefuses(t *testing.T) {
	for name, c := range map[string]struct {
		level    int
		envelope []byte
		host     string
		want     string
	}{
		"nothing":   {9, nil, "", "cannot make a QR text of nothing"},
		"too long":  {9, make([]byte, MaxInflatedBytes+1), "", "cannot make a QR text of 16385 bytes, the limit is 16384"},
		"no host":   {9, []byte("abc"), "verify", `host name "verify" has no dot: give it in full, such as "verify.ellery-slip.example"`},
		"bad level": {10, []byte("abc"), "", "cannot make a QR text: flate: invalid compression level 10: want value in range [-2, 9]"},
		"swells":    {0, recordLike(MaxInflatedBytes), "", "cannot make a QR text: deflated to 16389 bytes, the limit is 16384"},
	} {
		if texts, err := EncodeAt(c.level, c.envelope, c.host); err == nil || err.Error() != c.want || texts != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	// A host of the greatest length still leaves room for parts.
	long := strings.Repeat(strings.Repeat("a", 62)+".", 4)[:maxHostLen-1] + "b"
	texts, err := Encode(recordLike(8300), long)
	if err != nil || len(texts) > 20 {
		t.Errorf("%d parts, %v", len(texts), err)
	}
}

func TestValidHost(t *testing.T) {
	for _, host := range []string{testHost, "A.B", "a-b.c1", "1a.2b", "xn--hfen-0qa.example", strings.Repeat("a", 63) + ".example"} {
		if err := ValidHost(host); err != nil {
			t.Error(err)
		}
	}
	for _, host := range []string{
		"", "localhost", "https://a.b", "a.b/", "a.b:443", "a..b", ".a.b", "a.b.", "-a.b", "a-.b", "a.b-", "a_b.c", "a b.c", "häfen.example",
		"127.0.0.1", "1.2", "[::1]", "a.b#", "a.b\n", "a\x00.b", strings.Repeat("a", 64) + ".example", strings.Repeat("a.", 127) + "example",
	} {
		if err := ValidHost(host); err == nil {
			t.Errorf("%q is taken", host)
		} else if strings.ContainsAny(err.Error(), "\n\x00") {
			t.Errorf("%q comes raw in the message", host)
		}
	}
}
