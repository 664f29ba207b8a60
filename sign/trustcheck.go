package sign

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// check is what holds of every entry, read or made.
func (t Trusted) check() error {
	if err := checkName(t.Name); err != nil {
		return fmt.Errorf("name: %w", err)
	}
	if err := t.Key.Check(); err != nil {
		return fmt.Errorf("key: %w", err)
	}
	for _, d := range []*Day{t.From, t.Until} {
		if d != nil && !d.printable() {
			return errors.New("date: only the years 0000 to 9999 can be written")
		}
	}
	if t.From != nil && t.Until != nil && *t.Until < *t.From {
		return fmt.Errorf("until: %s is before from, %s", *t.Until, *t.From)
	}
	if err := checkNote(t.Note); err != nil {
		return fmt.Errorf("note: %w", err)
	}
	if t.Revoked != nil {
		if !t.Revoked.From.printable() {
			return errors.New("revoked: from: only the years 0000 to 9999 can be written")
		}
		if err := t.Revoked.Why.check(); err != nil {
			return fmt.Errorf("revoked: why: %w", err)
		}
	}
	return nil
}

func (w RevokedWhy) check() error {
	if w != WhyRetired && w != WhyCompromised {
		return fmt.Errorf("%s: want %s or %s", quoteShort(string(w)), WhyRetired, WhyCompromised)
	}
	return nil
}

func checkName(s string) error {
	switch {
	case s == "":
		return errors.New("empty: whose key is it?")
	case strings.TrimSpace(s) != s:
		return errors.New("a space at its beginning or end: leave it out")
	case utf8.RuneCountInString(s) > MaxNameRunes:
		return fmt.Errorf("%d characters, the limit is %d", utf8.RuneCountInString(s), MaxNameRunes)
	}
	return checkText(s, "")
}

func checkNote(s string) error {
	if utf8.RuneCountInString(s) > MaxNoteRunes {
		return fmt.Errorf("%d characters, the limit is %d", utf8.RuneCountInString(s), MaxNoteRunes)
	}
	return checkText(s, "\n")
}

// checkText refuses what does not show, or shows as something else: control and
// format characters (among them those that turn the direction of writing),
// unassigned ones, and those above U+FFFF, which the reports cannot print.
func checkText(s, alsoAllowed string) error {
	if !utf8.ValidString(s) {
		return errors.New("not UTF-8 text")
	}
	for _, c := range s {
		if strings.ContainsRune(alsoAllowed, c) {
			continue
		}
		if !unicode.IsGraphic(c) || c > 0xFFFF {
			return fmt.Errorf("character %U cannot be shown: leave it out", c)
		}
	}
	return nil
}

// quoteYAML writes s as a double-quoted scalar. The text rules leave only the
// quote, the backslash and the newline to escape, YAML 1.2 section 5.7.
func quoteYAML(s string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\n", `\n`).Replace(s) + `"`
}

// quoteShort quotes text of the file for a message.
func quoteShort(s string) string {
	const most = 40
	if runes := []rune(s); len(runes) > most {
		s = string(runes[:most]) + "…"
	}
	return strconv.Quote(printable(s))
}
