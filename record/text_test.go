package record_test

import (
	"fmt"
	"strings"
	"testing"
	"unicode"

	"hourseal/record"
)

func TestCheckText(t *testing.T) {
	const (
		invisible = "invisible character %s is not allowed: take it out"
		beyond    = "character %s cannot be printed: leave it out"
		edges     = "begins or ends with white space: take it out"
	)
	for _, c := range []struct{ text, line, notes string }{
		{"", "", ""},
		{"0012345", "", ""},
		{"Tightened the clamp, 5 N m", "", ""},
		{"Überholung, Ωμέγα, Ремонт, 5 µm", "", ""},
		{"e\u0301", "", ""}, // a letter and its accent
		{"one\ntwo", fmt.Sprintf(invisible, "U+000A"), ""},
		{"one\r\ntwo", fmt.Sprintf(invisible, "U+000D"), fmt.Sprintf(invisible, "U+000D")},
		{"tab\there", fmt.Sprintf(invisible, "U+0009"), fmt.Sprintf(invisible, "U+0009")},
		{" x", edges, edges},
		{"x ", edges, edges},
		{"x\n", edges, edges},
		{"x\u00a0", edges, edges},
		{"\u3000x", edges, edges},
		{"x\xc3", "not valid UTF-8: save the file as UTF-8", "not valid UTF-8: save the file as UTF-8"},
		{"\xed\xa0\x80", "not valid UTF-8: save the file as UTF-8", "not valid UTF-8: save the file as UTF-8"},
		{"lost \ufffd here", "character U+FFFD stands for one that was lost: write the text again", "character U+FFFD stands for one that was lost: write the text again"},
		{"oil \U0001f6e2 drum", fmt.Sprintf(beyond, "U+1F6E2"), fmt.Sprintf(beyond, "U+1F6E2")},
		{"\U00010000", fmt.Sprintf(beyond, "U+10000"), fmt.Sprintf(beyond, "U+10000")},
		{"\U000e0041", fmt.Sprintf(beyond, "U+E0041"), fmt.Sprintf(beyond, "U+E0041")}, // tag letter A
	} {
		if got := message(record.CheckText(c.text, record.MaxText)); got != c.line {
			t.Errorf("%+q: %q, want %q", c.text, got, c.line)
		}
		if got := message(record.CheckNotes(c.text)); got != c.notes {
			t.Errorf("%+q in notes: %q, want %q", c.text, got, c.notes)
		}
	}
}

func message(err error) string {
	if err == nil {
		return ""
	}
	return err.Error()
}

// TestUnseen: what hides in a text, or turns it round, is refused wherever it
// stands and named by its number, never repeated.
func TestUnseen(t *testing.T) {
	for name, r := range map[string]rune{
		"escape": 0x1b, "bell": 0x07, "nul": 0, "delete": 0x7f, "C1 control sequence": 0x9b, "next line": 0x85,
		"soft hyphen": 0xad, "Arabic letter mark": 0x61c, "right-to-left mark": 0x200f,
		"right-to-left override": 0x202e, "left-to-right override": 0x202d, "pop direction": 0x202c,
		"isolate": 0x2067, "pop isolate": 0x2069,
		"zero-width space": 0x200b, "zero-width joiner": 0x200d, "zero-width non-joiner": 0x200c, "word joiner": 0x2060,
		"byte order mark": 0xfeff, "line separator": 0x2028, "paragraph separator": 0x2029,
		"private use": 0xe000, "noncharacter": 0xffff, "noncharacter in Arabic": 0xfdd0,
		"variation selector": 0xfe0f, "grapheme joiner": 0x34f, "Hangul filler": 0x3164, "halfwidth Hangul filler": 0xffa0,
		"Mongolian vowel separator": 0x180e, "annotation anchor": 0xfff9,
	} {
		want := fmt.Sprintf("invisible character U+%04X is not allowed: take it out", r)
		if got := message(record.CheckText("a"+string(r)+"b", record.MaxText)); got != want {
			t.Errorf("%s: %q, want %q", name, got, want)
		}
		if record.CheckNotes("a"+string(r)+"b") == nil {
			t.Errorf("%s: passed in notes", name)
		}
	}
}

// TestEveryRune goes through the whole of Unicode: what passes is printable by
// Go's own table, or a plain space of some width, or not assigned: which runes
// are changes with Unicode, and no font here has them.
func TestEveryRune(t *testing.T) {
	for r := rune(0); r <= unicode.MaxRune; r++ {
		if r >= 0xd800 && r < 0xe000 {
			continue // no encoding
		}
		if record.CheckText("a"+string(r)+"b", 3) != nil {
			continue
		}
		if r > 0xffff || !unicode.IsPrint(r) && !unicode.In(r, unicode.Zs, unicode.Cn) {
			t.Errorf("U+%04X passed", r)
		}
	}
}

func TestTextLength(t *testing.T) {
	for _, c := range []struct {
		n, limit int
		want     string
	}{
		{record.MaxText, record.MaxText, ""},
		{record.MaxText + 1, record.MaxText, "121 characters, at most 120 fit"},
		{record.MaxReason, record.MaxReason, ""},
		{record.MaxReason + 1, record.MaxReason, "201 characters, at most 200 fit"},
	} {
		for _, letter := range []string{"x", "é", "水"} { // counted in characters, not bytes
			if got := message(record.CheckText(strings.Repeat(letter, c.n), c.limit)); got != c.want {
				t.Errorf("%d times %s: %q, want %q", c.n, letter, got, c.want)
			}
		}
	}
	if got := message(record.CheckNotes(strings.Repeat("水", record.MaxNotes))); got != "" {
		t.Error(got)
	}
	if got := message(record.CheckNotes(strings.Repeat("x", record.MaxNotes+1))); got != "601 characters, at most 600 fit" {
		t.Error(got)
	}
}
