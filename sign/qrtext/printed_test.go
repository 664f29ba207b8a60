package qrtext

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

const printedFolder = "testdata/texts"

// printed is a text, or the parts of one, that stands on somebody's paper. The
// files of testdata/texts were made by the program of their time, one text a
// line, and never change: FORMAT-NAME.txt is of the envelope NAME.cose.
type printed struct {
	name     string
	format   byte
	texts    []string
	envelope []byte
}

func everyPrinted(t *testing.T) []printed {
	t.Helper()
	files, err := filepath.Glob(printedFolder + "/?-*.txt")
	if err != nil || len(files) == 0 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	var all []printed
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		name := strings.TrimSuffix(filepath.Base(file), ".txt")
		envelope, err := os.ReadFile(filepath.Join(printedFolder, strings.TrimSuffix(name[2:], "-fast")+".cose"))
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, printed{name, name[0], strings.Fields(string(text)), envelope})
	}
	return all
}

// TestPrintedTexts: what was printed is read for ever, in any order of its parts.
func TestPrintedTexts(t *testing.T) {
	formats := map[byte]int{}
	for _, p := range everyPrinted(t) {
		formats[p.format]++
		for _, text := range p.texts {
			if got := text[strings.LastIndexAny(text, ":#")+1]; got != p.format {
				t.Errorf("%s: format %c", p.name, got)
			}
		}
		got, err := Decode(p.texts)
		if p.format == formatReference {
			id := sha256.Sum256(p.envelope)
			if named, ok := errors.AsType[*ReferenceError](err); !ok || named.Short != [ShortBytes]byte(id[:ShortBytes]) {
				t.Errorf("%s: %v", p.name, err)
			}
			continue
		}
		if err != nil || !bytes.Equal(got.Envelope, p.envelope) {
			t.Errorf("%s: %v", p.name, err)
		}
		slices.Reverse(p.texts)
		if got, err := Decode(p.texts); err != nil || !bytes.Equal(got.Envelope, p.envelope) {
			t.Errorf("%s, the last part first: %v", p.name, err)
		}
	}
	for format := byte('1'); format <= '5'; format++ {
		if formats[format] == 0 {
			t.Errorf("no text of format %c is kept", format)
		}
	}
}

// TestPrintedPartsDoNotMix: parts of the same record, with a dictionary and
// without, cut in the same number.
func TestPrintedPartsDoNotMix(t *testing.T) {
	var older, newer []string
	for _, p := range everyPrinted(t) {
		switch p.name {
		case "2-longest":
			older = p.texts
		case "5-longest":
			newer = p.texts
		}
	}
	if len(older) != len(newer) {
		t.Fatalf("%d and %d parts", len(older), len(newer))
	}
	for mixed := 1; mixed < 1<<len(older)-1; mixed++ {
		var texts []string
		for i := range older {
			if mixed>>i&1 == 0 {
				texts = append(texts, older[i])
			} else {
				texts = append(texts, newer[i])
			}
		}
		if _, err := Decode(texts); !errors.Is(err, ErrMixed) || !strings.Contains(err.Error(), "give the texts of one report at a time") {
			t.Errorf("parts %b of the newer: %v", mixed, err)
		}
	}
	if _, err := Decode(append(slices.Clone(older), newer...)); !errors.Is(err, ErrMixed) {
		t.Errorf("all parts of both: %v", err)
	}
}

// TestDictionarySaves: what the package comment says of it, by the texts that were
// printed of one record without a dictionary and with one.
func TestDictionarySaves(t *testing.T) {
	digits := map[string]int{}
	for _, p := range everyPrinted(t) {
		for _, text := range p.texts {
			digits[p.name] += len(text) - 1 - strings.LastIndexAny(text, ":#")
		}
	}
	for _, pair := range []struct {
		without, with string
		percent       int
	}{
		{"1-oil-change", "4-oil-change", 31},
		{"2-example", "4-example", 36},
		{"1-shortest", "4-shortest", 11},
		{"2-longest", "5-longest", 15},
	} {
		before, after := digits[pair.without], digits[pair.with]
		if before == 0 || after == 0 {
			t.Fatalf("%s has %d digits, %s %d", pair.without, before, pair.with, after)
		}
		if saved := (200*(before-after) + before) / (2 * before); saved != pair.percent {
			t.Errorf("%s: %d %% fewer digits, want %d %%", pair.with, saved, pair.percent)
		}
	}
}
