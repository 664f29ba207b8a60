package source_test

import (
	"bytes"
	"compress/zlib"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"hourseal/record/recordtest/outside"
	"hourseal/verify/source"
	"hourseal/verify/source/sourcetest"
)

func compare(t testing.TB, received, fresh []byte) source.PageCheck {
	t.Helper()
	check, err := source.Compare(received, fresh)
	if err != nil {
		t.Fatalf("Compare: %v", err)
	}
	return check
}

func TestCompareOriginal(t *testing.T) {
	pdf := reportOf(t, record(t, "Gannet", 600)).bytes(t)
	if check := compare(t, bytes.Clone(pdf), pdf); !reflect.DeepEqual(check, source.PageCheck{Result: source.PageOriginal}) {
		t.Errorf("%+v", check)
	}
}

// Every level of deflate, stored blocks included, is the same page; and qpdf, a
// reader by other people, finds the file in order.
func TestCompareRedeflated(t *testing.T) {
	envelope := record(t, "Gannet", 600)
	pdf := reportOf(t, envelope).bytes(t)
	for _, level := range []int{zlib.NoCompression, zlib.DefaultCompression, zlib.HuffmanOnly, 5, zlib.BestCompression} {
		again := must(t)(sourcetest.Redeflate(pdf, level))
		if bytes.Equal(again, pdf) {
			t.Fatalf("level %d: the file is the same", level)
		}
		want := source.PageCheck{Result: source.PageRedeflated}
		if check := compare(t, again, pdf); !reflect.DeepEqual(check, want) {
			t.Errorf("level %d: %+v", level, check)
		}
		if check := compare(t, pdf, again); !reflect.DeepEqual(check, want) {
			t.Errorf("level %d, the other way round: %+v", level, check)
		}
		if found := mustRead(t, again); found.PDF == nil || !bytes.Equal(found.Envelope, envelope) {
			t.Errorf("level %d: salvaged %q", level, found.Salvaged)
		}
	}
	t.Run("qpdf", func(t *testing.T) {
		qpdf := outside.Program(t, "qpdf")
		name := filepath.Join(t.TempDir(), "report.pdf")
		for _, b := range [][]byte{pdf, must(t)(sourcetest.Redeflate(pdf, 9))} {
			if err := os.WriteFile(name, b, 0o600); err != nil {
				t.Fatal(err)
			}
			if out, err := exec.Command(qpdf, "--check", name).CombinedOutput(); err != nil || bytes.Contains(out, []byte("WARNING")) {
				t.Errorf("qpdf: %v\n%s", err, out)
			}
		}
	})
}

func TestCompareDiffers(t *testing.T) {
	envelope := record(t, "Gannet", 600)
	base := reportOf(t, envelope)
	fresh := base.bytes(t)
	edit := func(page int, old, new string) []byte {
		return must(t)(sourcetest.EditPage(fresh, page, func(content []byte) []byte {
			changed := bytes.ReplaceAll(content, sourcetest.Text16(old), sourcetest.Text16(new))
			if bytes.Equal(changed, content) {
				t.Fatalf("page %d does not show %q", page, old)
			}
			return changed
		}))
	}
	moved := must(t)(sourcetest.EditPage(fresh, 1, func(content []byte) []byte {
		return bytes.Replace(content, []byte(" re f"), []byte(" re n"), 1)
	}))
	longer, shorter := base, base
	longer.pages = [][]string{base.pages[0], base.pages[1], {"Page 3 of 3"}}
	shorter.pages = base.pages[:1]
	line := func(lines []string, at int, more ...string) []string {
		out := append([]string{}, lines[:at]...)
		return append(append(out, more...), lines[at:]...)
	}
	inserted := base
	inserted.pages = [][]string{line(base.pages[0], 3, "Anode: ok"), base.pages[1]}

	for name, test := range map[string]struct {
		received []byte
		detail   string
		lines    []source.TextDiff
	}{
		"other hours": {
			edit(1, "812.6 h", "412.6 h"), "what page 1 shows",
			[]source.TextDiff{{Page: 1, Received: "Hour meter 412.6 h", Fresh: "Hour meter 812.6 h"}},
		},
		"words with escapes": {
			edit(1, `(9.4 L) \ filter`, `(8.4 L) \ filter`), "what page 1 shows",
			[]source.TextDiff{{Page: 1, Received: `Notes: oil "Harrow HD" (8.4 L) \ filter`, Fresh: `Notes: oil "Harrow HD" (9.4 L) \ filter`}},
		},
		"second page": {
			edit(2, "Straße Ω Ж (", "Straße ω Ж)"), "what page 2 shows",
			[]source.TextDiff{{Page: 2, Received: "Straße ω Ж)", Fresh: "Straße Ω Ж ("}},
		},
		"text that would steer a terminal": {
			edit(1, "812.6 h", "\x1b[2J\u202e812.6 h\r\n"), "what page 1 shows",
			[]source.TextDiff{{Page: 1, Received: "Hour meter \ufffd[2J\ufffd812.6 h\ufffd\ufffd", Fresh: "Hour meter 812.6 h"}},
		},
		"drawing": {moved, "what page 1 shows", nil},
		"a line more": {
			inserted.bytes(t), "what page 1 shows",
			[]source.TextDiff{{Page: 1, Received: "Anode: ok"}},
		},
		"a page more": {longer.bytes(t), "", []source.TextDiff{{Page: 3, Received: "Page 3 of 3"}}},
		"a page less": {shorter.bytes(t), "", []source.TextDiff{
			{Page: 2, Fresh: "Page 2 of 2"},
			{Page: 2, Fresh: "Signed by Ellery Slip Boatyard, Port Ellery"},
			{Page: 2, Fresh: "Straße Ω Ж ("},
		}},
		"keys added": {
			must(t)(sourcetest.AddAttachment(fresh, "keys.cose", []byte("key statements"))), "", nil,
		},
		"title": {
			bytes.Replace(fresh, sourcetest.Text16("report: G"), sourcetest.Text16("report; G"), 1), "title and dates", nil,
		},
		"date of the file": {
			bytes.Replace(fresh, []byte("D:20260504"), []byte("D:20250504"), 1), "title and dates", nil,
		},
		"header": {bytes.Replace(fresh, []byte("%PDF-1.3"), []byte("%PDF-1.4"), 1), "header", nil},
		"name of a font": {
			bytes.Replace(fresh, []byte("/BaseFont /utf8go\n/Enc"), []byte("/BaseFont /utf8og\n/Enc"), 1), "description of a font", nil,
		},
		"reading of the codes": {
			bytes.Replace(fresh, []byte("<0000> <FFFF> <0000>"), []byte("<0000> <FFFF> <0001>"), 1), "font's table", nil,
		},
		"two objects in another order": {swapped(t, fresh), "another order", nil},
		"a dictionary with more space": {
			retable(t, bytes.Replace(fresh, []byte("<</Filter /FlateDecode /L"), []byte("<< /Filter /FlateDecode /L"), 1)), "described in another way", nil,
		},
		"paper": {
			retable(t, bytes.Replace(fresh, []byte("/MediaBox [0 0 595.28 841.89]"), []byte("/MediaBox [0 0 595.28 400.00]"), 1)), "description of a page", nil,
		},
	} {
		t.Run(name, func(t *testing.T) {
			if bytes.Equal(test.received, fresh) {
				t.Fatal("nothing was changed")
			}
			check := compare(t, test.received, fresh)
			if check.Result != source.PageDiffers || check.Detail == "" || !strings.Contains(check.Detail, test.detail) {
				t.Errorf("%q: %q", check.Result, check.Detail)
			}
			if !reflect.DeepEqual(check.Lines, test.lines) {
				t.Errorf("lines %+v\nwant  %+v", check.Lines, test.lines)
			}
		})
	}
}

// swapped exchanges the first two objects of a file.
func swapped(t *testing.T, pdf []byte) []byte {
	t.Helper()
	first, second, third := bytes.Index(pdf, []byte("3 0 obj")), bytes.Index(pdf, []byte("4 0 obj")), bytes.Index(pdf, []byte("5 0 obj"))
	return retable(t, bytes.Join([][]byte{pdf[:first], pdf[second:third], pdf[first:second], pdf[third:]}, nil))
}

// The embedded font decides what the codes look like on paper: a report with
// another font file is another page.
func TestCompareFont(t *testing.T) {
	envelope := record(t, "Gannet", 600)
	r := reportOf(t, envelope)
	fresh := r.bytes(t)
	r.pages[1][2] += "ÅÄÖ" // further glyphs, so another font file
	check := compare(t, r.bytes(t), fresh)
	if check.Result != source.PageDiffers || len(check.Lines) != 1 {
		t.Errorf("%+v", check)
	}
}

func TestCompareFaultyRendering(t *testing.T) {
	pdf := reportOf(t, record(t, "Gannet", 600)).bytes(t)
	_, err := source.Compare(pdf, pdf[:len(pdf)-1])
	if _, ok := errors.AsType[*source.FreshError](err); !ok {
		t.Errorf("got %v", err)
	}
}

// One byte changed, at a dense sample of offsets and in several ways: never the
// original, and the same page only if every decoded byte is the same.
func TestSingleByteChanges(t *testing.T) {
	envelope := record(t, "Gannet", 600)
	fresh := reportOf(t, envelope).bytes(t)
	plain := inflated(t, fresh)
	changed := bytes.Clone(fresh)
	results := map[string]int{}
	masks := []byte{0x01, 0x20, 0x80, 0xff}
	// Thinly inside the streams, which are most of the file, and every byte of
	// the rest that fits in the time.
	step := func(at int) int {
		if at < 600 || at > len(fresh)-900 {
			return 1
		}
		if os.Getenv("HOURSEAL_LONG") == "1" {
			return 7 + at%13
		}
		return 23 + at%13
	}
	for at := 0; at < len(fresh); at += step(at) {
		{
			mask := masks[at%len(masks)]
			changed[at] = fresh[at] ^ mask
			check, err := source.Compare(changed, fresh)
			switch {
			case err != nil:
				results["refused"]++
			case check.Result == source.PageDiffers:
				results["differs"]++
			case check.Result == source.PageRedeflated && bytes.Equal(inflated(t, changed), plain):
				results["same content"]++
			default:
				t.Errorf("byte %d ^ %#02x: %q", at, mask, check.Result)
			}
			if found, err := source.Read(changed); err == nil && !bytes.Equal(found.Envelope, envelope) && found.PDF != nil {
				t.Errorf("byte %d ^ %#02x: another record", at, mask)
			}
		}
		changed[at] = fresh[at]
	}
	t.Logf("%d bytes: %v", len(fresh), results)
	if results["refused"] == 0 || results["differs"] == 0 {
		t.Error("the changes did not reach both the reader and the comparison")
	}
}

// inflated is a file with all its streams stored, by code that is not the
// reader's.
func inflated(t testing.TB, pdf []byte) []byte {
	t.Helper()
	return must(t)(sourcetest.Redeflate(pdf, zlib.NoCompression))
}
