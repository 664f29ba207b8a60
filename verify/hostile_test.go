package verify_test

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"unicode"

	"hourseal/record"
	"hourseal/verify"
	"hourseal/verify/source"
	"hourseal/verify/source/sourcetest"
)

// onlyPrints fails for anything shown to a reader that would not show as a
// character in its place: escapes, direction overrides, joiners, line ends.
func onlyPrints(t *testing.T, what string, got verify.Result) {
	t.Helper()
	said := allWords(got)
	if got.Err != nil {
		said = append(said, got.Err.Error(), source.Hint(got.Err))
	}
	if got.Page != nil {
		said = append(said, got.Page.Detail)
		for _, line := range got.Page.Lines {
			said = append(said, line.Received, line.Fresh)
		}
	}
	for _, text := range said {
		for i, r := range text {
			if !unicode.IsPrint(r) || r > 0xFFFF {
				t.Errorf("%s: %U at %d is shown raw in %q", what, r, i, text)
				break
			}
		}
	}
}

// hostileTexts are six bytes each, to stand for the six of "Corrin".
var hostileTexts = map[string]string{
	"escape sequence":      "\x1b[31mX",
	"title sequence":       "\x1b]0;X\a",
	"control, one byte":    "\u009b31mX",
	"carriage return":      "Cor\rin",
	"line end":             "Cor\nin",
	"null":                 "Cor\x00in",
	"backspaces":           "Co\b\b\b\b",
	"delete":               "Cor\x7fin",
	"right to left":        "\u202eabc",
	"isolate":              "\u2066abc",
	"zero width":           "Co\u200bX",
	"joiner":               "Co\u200dX",
	"byte order mark":      "Co\ufeffX",
	"soft hyphen":          "Corr\u00ad",
	"line separator":       "Co\u2028X",
	"variation selector":   "Co\ufe0fX",
	"private use":          "Co\ue000X",
	"tag letter":           "Co\U000e0041",
	"beyond the fonts":     "Co\U0001f6e5",
	"noncharacter":         "Co\uffffX",
	"lost character":       "Co\ufffdX",
	"not UTF-8":            "Cor\xff\xfeX",
	"surrogate":            "Co\xed\xa0\x80X",
	"overlong":             "Corr\xc0\x80",
	"white space first":    " Corri",
	"ideographic space":    "Cor\u3000",
	"combining, invisible": "Co\u034fXX",
}

// A hostile text properly signed by a key that the reader trusts makes the
// record unreadable, and nothing of it reaches the reader raw.
func TestHostileTexts(t *testing.T) {
	payload := example(t).payload
	places := map[string][2]string{
		"make":        {"\x66Corrin", "\x66%s"},
		"issuer name": {"\x74Ellery Slip Boatyard", "\x74Ellery Slip Boa%s"},
		"serial":      {"\x670045120", "\x670%s"},
		"why":         {"\x6dpart on order", "\x6dpart on%s"},
		"notes":       {"\x78\x24Look at the belt again at 900 hours.", "\x78\x24Look at the belt again at 900 h%s"},
	}
	for kind, text := range hostileTexts {
		if len(text) != 6 {
			t.Fatalf("%s has %d bytes", kind, len(text))
		}
		for place, p := range places {
			what := kind + " in " + place
			// In notes a line may end, and elsewhere than at the beginning of a
			// text a space may stand.
			if place == "notes" && kind == "line end" || place != "make" && kind == "white space first" || kind == "combining, invisible" && place == "" {
				continue
			}
			data := change(t, payload, p[0], fmt.Sprintf(p[1], text))
			sealed := sealBytes(t, data, yardSeed)
			got := verify.Run(sealed, buyer(t), makePage)
			if got.Verdict != verify.Unreadable || got.Signed != nil {
				t.Errorf("%s: %s", what, got.Verdict)
			}
			onlyPrints(t, what, got)
		}
	}
}

// Hostile bytes where no text belongs: keys of maps, and their errors.
func TestHostileKeys(t *testing.T) {
	payload := shortest(t).payload
	const first = "\x01\x01\x02\x01\x03\x02\x05\x01\x07"
	for name, pairs := range map[string]string{
		"escape":       "\x65\x1b[31m\x01",
		"escape twice": "\x65\x1b[31m\x01\x65\x1b[31m\x01",
		"override":     "\x63\u202e\x01",
		"bytes":        "\x45\x1b[31m\x01",
		"bytes twice":  "\x45\x1b[31m\x01\x45\x1b[31m\x01",
		"not UTF-8":    "\x62\xff\xfe\x01",
	} {
		n := strings.Count(pairs, "\x01")
		data := withPairs(change(t, payload, first, pairs+first), n)
		got := verify.Run(sealBytes(t, data, yardSeed), buyer(t), makePage)
		if got.Verdict != verify.Unreadable {
			t.Errorf("%s: %s", name, got.Verdict)
		}
		onlyPrints(t, name, got)
	}
}

// Hostile bytes in the files around a record.
func TestHostileInputs(t *testing.T) {
	sealed := example(t)
	pdf := sealed.pdf(t)
	escape := "\x1b]0;\u202eX\a\U0001f6e5"
	show := func(text string) sourcetest.Edit {
		return func(content []byte) []byte {
			return bytes.ReplaceAll(content, sourcetest.Text16("812.6 h"), sourcetest.Text16(text))
		}
	}
	edit := must[[]byte](t)
	for name, data := range map[string][]byte{
		"page":            edit(sourcetest.EditPage(pdf, 1, show(escape))),
		"page, raw bytes": edit(sourcetest.EditPage(pdf, 1, func([]byte) []byte { return []byte("(" + escape + ") Tj") })),
		"attachment":      edit(sourcetest.AddAttachment(pdf, escape, []byte("x"))),
		"text file":       []byte(escape),
		"text":            []byte("hourseal:1" + escape),
		"host":            []byte("https://" + escape + "/#1234"),
		"record.txt":      edit(sourcetest.ReplaceAttachment(pdf, "record.txt", []byte("hourseal:1"+escape))),
		"PDF header":      slices.Concat([]byte("%PDF-"+escape), pdf),
		"object":          bytes.Replace(pdf, []byte("/Type /Catalog"), []byte("/Type /"+escape), 1),
	} {
		got := verify.Run(data, buyer(t), makePage)
		if got.Verdict == verify.Genuine {
			t.Errorf("%s: genuine", name)
		}
		onlyPrints(t, name, got)
	}
}

// The words of whatever makes the page may hold a piece of the record or the
// file: they are made safe where they become a sentence.
func TestHostileReasons(t *testing.T) {
	reason := errors.New("cannot draw \x1b[31m\u202e\U0001f6e5\n here")
	got := verify.Run(example(t).pdf(t), buyer(t), func(*record.Record, []byte, []string, []byte) ([]byte, error) { return nil, reason })
	said := strings.Join(allWords(got), "")
	if !strings.Contains(said, "Cannot draw \ufffd[31m\ufffd\ufffd\ufffd here.") || strings.ContainsAny(said, "\x1b\u202e\U0001f6e5\n") {
		t.Errorf("%q", said)
	}
}
