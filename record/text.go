package record

import (
	"errors"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Limits of one record. Over the limit is refused before signing.
const (
	MaxBytes     = 8 << 10 // encoded
	MaxTasks     = 64
	MaxFluids    = 16
	MaxParts     = 32
	MaxOtherWork = 32
	MaxTopUps    = 16
	MaxWaste     = 16
	MaxReadings  = 8 // a task
	MaxFindings  = 128
	MaxFiles     = 16
	MaxMeets     = 8
	MaxDuties    = 8
	MaxSights    = 4   // in one fluid
	MaxTrend     = 12  // uses of oil, this job's among them
	MaxText      = 120 // runes of any text but notes
	MaxReason    = 200 // runes of a reason (why, accept)
	MaxNotes     = 600 // runes

	maxID = 40 // of a machine, schedule, system or task
)

// unseen are the runes that show nothing of their own, or no one knows what:
// formats, line separators, private use, and what a reader may draw as nothing
// (Unicode's Default_Ignorable_Code_Point and Noncharacter_Code_Point).
var unseen = []*unicode.RangeTable{
	unicode.Cf, unicode.Zl, unicode.Zp, unicode.Co, unicode.Cs,
	unicode.Other_Default_Ignorable_Code_Point, unicode.Variation_Selector, unicode.Noncharacter_Code_Point,
}

// isID says whether a text is the id of a machine, schedule, system or task:
// [a-z0-9][a-z0-9-]{0,39}.
func isID(id string) bool {
	if id == "" || len(id) > maxID || id[0] == '-' {
		return false
	}
	for i := range len(id) {
		if c := id[i]; !(c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c == '-') {
			return false
		}
	}
	return true
}

// CheckText holds one line of text to the rules of the package comment, at most
// limit runes long. Empty text passes; what must not be empty says so itself.
func CheckText(text string, limit int) error { return checkText(text, limit, false) }

// CheckNotes holds notes to the same rules, newlines allowed.
func CheckNotes(text string) error { return checkText(text, MaxNotes, true) }

func checkText(text string, limit int, newlines bool) error {
	if isPlain(text, newlines) && len(text) <= limit {
		return nil // as most texts are: nothing to look up
	}
	if !utf8.ValidString(text) {
		return errors.New("not valid UTF-8: save the file as UTF-8")
	}
	if n := utf8.RuneCountInString(text); n > limit {
		return fmt.Errorf("%d characters, at most %d fit", n, limit)
	}
	if strings.TrimSpace(text) != text {
		return errors.New("begins or ends with white space: take it out")
	}
	for _, r := range text {
		switch {
		case r >= ' ' && r < 0x7f || r == '\n' && newlines:
		case r > 0xffff:
			return fmt.Errorf("character U+%04X cannot be printed: leave it out", r)
		case r == utf8.RuneError:
			return errors.New("character U+FFFD stands for one that was lost: write the text again")
		case unicode.IsControl(r), unicode.In(r, unseen...):
			return fmt.Errorf("invisible character U+%04X is not allowed: take it out", r)
		}
	}
	return nil
}

// isPlain says whether a text is all printable ASCII, or newlines where they are
// allowed, and neither begins nor ends with white space.
func isPlain(text string, newlines bool) bool {
	for i := range len(text) {
		if c := text[i]; (c < ' ' || c > '~') && !(c == '\n' && newlines) {
			return false
		}
	}
	return text == "" || text[0] > ' ' && text[len(text)-1] > ' '
}
