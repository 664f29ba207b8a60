package quantity

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// kind is what a parser expects, in the words its refusals use.
type kind struct {
	noun    string // with its article: "a volume"
	example string // what to write: "9.4 L"
	signed  bool   // may be below zero
}

// longestText is more than any quantity needs, and keeps refusals short.
const longestText = 100

// decimal is a figure as written.
type decimal struct {
	negative        bool
	whole, fraction string // ASCII digits; whole is never empty
}

func (d decimal) String() string {
	s := d.whole
	if d.negative {
		s = "-" + s
	}
	if d.fraction != "" {
		s += "." + d.fraction
	}
	return s
}

// digits returns the figure without its point, so that its value is
// digits/10^places. It reports false past 18 digits, which is larger than
// any limit here: scan refuses leading zeros, and callers check the count of
// decimals first.
func (d decimal) digits() (int64, bool) {
	s := d.whole + d.fraction
	if len(s) > 18 {
		return 0, false
	}
	n, err := strconv.ParseInt(s, 10, 64)
	if d.negative {
		n = -n
	}
	return n, err == nil
}

// places is the number of decimals; longestText keeps it small.
func (d decimal) places() uint8 { return uint8(len(d.fraction)) }

// decimals refuses a figure with more decimals than the unit takes.
func (d decimal) decimals(text string, s scale) error {
	switch {
	case d.places() <= s.places:
		return nil
	case s.places == 0:
		return refuse(text, "no decimals for %s", s.name)
	case s.places == 1:
		return refuse(text, "at most 1 decimal for %s", s.name)
	}
	return refuse(text, "at most %d decimals for %s", s.places, s.name)
}

// scan splits text into its figure and whatever follows, usually a unit.
func (k kind) scan(text string) (d decimal, unit string, err error) {
	t := trimGap(text)
	rest := t
	if len(t) > longestText {
		return d, "", refuse(t, "too long for %s: write it as %s", k.noun, k.example)
	}
	if t == "" {
		return d, "", fmt.Errorf("nothing written: write %s, as %s", k.noun, k.example)
	}
	if before, _, found := strings.Cut(t, "("); found && trimGap(before) != "" { // as a Style prints a second unit
		if _, _, err := k.scan(before); err != nil {
			return d, "", err
		}
		return d, "", refuse(t, "write %s, without what stands in brackets", escaped(trimGap(before)))
	}
	if d.negative, rest, err = k.sign(t); err != nil {
		return d, "", err
	}
	d.whole, rest = cutDigits(rest)
	if r, _ := utf8.DecodeRuneInString(rest); r > unicode.MaxASCII && unicode.IsNumber(r) {
		return d, "", refuse(t, "write the figure with the digits 0 to 9, as %s", k.example)
	}
	if d.whole == "" {
		if fraction, after := cutDigits(strings.TrimLeft(rest, ".,")); fraction != "" && len(fraction)+len(after) == len(rest)-1 {
			return d, "", refuse(t, "write %s0.%s%s with a figure before the point", d.minus(), fraction, escaped(after))
		}
		return d, "", refuse(t, "no figure: write %s, as %s", k.noun, k.example)
	}
	if strings.HasPrefix(rest, ".") {
		whole := d
		if d.fraction, rest = cutDigits(rest[1:]); d.fraction == "" {
			return d, "", refuse(t, "write %v%s, or a digit after the point", whole, escaped(rest))
		}
	}
	if err := d.tail(t, rest, k.example); err != nil {
		return d, "", err
	}
	if len(d.whole) > 1 && d.whole[0] == '0' {
		bare := d
		if bare.whole = strings.TrimLeft(d.whole, "0"); bare.whole == "" {
			bare.whole = "0"
		}
		return d, "", refuse(t, "write %s%s without leading zeros", escaped(bare.String()), escaped(rest))
	}
	return d, trimGap(rest), nil
}

func (d decimal) minus() string {
	if d.negative {
		return "-"
	}
	return ""
}

// dashes are what word processors make of a minus.
const dashes = "\u2010\u2011\u2012\u2013\u2014\u2212\uff0d"

// sign reads an optional minus, and says what to do about other signs.
func (k kind) sign(t string) (negative bool, rest string, err error) {
	r, size := utf8.DecodeRuneInString(t)
	rest = t[size:]
	switch {
	case r == '-' && k.signed:
		return true, rest, nil
	case strings.ContainsRune(dashes, r) && k.signed:
		return false, "", refuse(t, "write -%s with a plain hyphen", escaped(trimGap(rest)))
	case strings.ContainsRune("+-\uff0b"+dashes, r):
		return false, "", refuse(t, "write %s without a sign", escaped(trimGap(rest)))
	}
	return false, t, nil
}

// tail looks at what follows a figure for the ways in which numbers are
// written elsewhere, each of which could be read wrongly.
func (d decimal) tail(t, rest, example string) error {
	next, size := utf8.DecodeRuneInString(rest)
	digits, after := cutDigits(rest[size:])
	switch {
	case isGap(next):
		return d.second(t, trimGap(rest), example)
	case next == '/' && digits != "":
		return refuse(t, "write the fraction as decimals, as 0.5 for 1/2")
	case (next == 'e' || next == 'E') && startsWithDigit(strings.TrimLeft(rest[1:], "+-")):
		return refuse(t, "write the figure out, without an exponent")
	case !isSeparator(next) || digits == "":
		return nil
	case next == ',' && d.fraction == "" && !continues(after):
		point := fmt.Sprintf("%v.%s%s", d, digits, escaped(after))
		if len(digits) == 3 && len(d.whole) <= 3 && d.whole[0] != '0' {
			return refuse(t, "write %v%s%s without a separator, or %s with a point", d, digits, escaped(after), point)
		}
		return refuse(t, "write %s with a point", point)
	}
	return refuse(t, "write the figure with one point at most and no thousands separators, as 1234.5")
}

// second refuses a further figure after a gap: thousands set apart, a mixed
// fraction, or a slip.
func (d decimal) second(t, rest, example string) error {
	group, after := cutDigits(rest)
	next, size := utf8.DecodeRuneInString(after)
	switch {
	case group == "":
		return nil
	case next == '/' && startsWithDigit(after[size:]):
		return refuse(t, "write the fraction as decimals, as 0.5 for 1/2")
	case len(group) == 3 && len(d.whole) <= 3 && d.fraction == "" && (after == "" || unicode.IsLetter(next) || isGap(next)) && !startsWithDigit(trimGap(after)):
		return refuse(t, "write %v%s%s without a gap in the figure", d, group, escaped(after))
	}
	return refuse(t, "write one figure, as %s", example)
}

// continues reports whether s goes on with a separator and a digit.
func continues(s string) bool {
	mark, size := utf8.DecodeRuneInString(s)
	return isSeparator(mark) && startsWithDigit(s[size:])
}

func isSeparator(r rune) bool {
	return strings.ContainsRune(".,'_\u2019\u066b\u066c", r)
}

func isDigit(b byte) bool { return '0' <= b && b <= '9' }

func startsWithDigit(s string) bool { return s != "" && isDigit(s[0]) }

func cutDigits(s string) (digits, rest string) {
	n := 0
	for n < len(s) && isDigit(s[n]) {
		n++
	}
	return s[:n], s[n:]
}

// isGap is a space between words; no-break spaces come with pasted text.
func isGap(r rune) bool { return r == ' ' || r == '\u00a0' || r == '\u202f' }

func trimGap(s string) string { return strings.TrimFunc(s, isGap) }

// refuse says what was wrong with text, which it quotes first.
func refuse(text, format string, args ...any) error {
	return fmt.Errorf(`"%s": `+format, append([]any{escaped(trimGap(text))}, args...)...)
}

// escaped makes text from a file fit to be shown: control and format
// characters escaped, and cut short where it is no quantity at all.
func escaped(text string) string {
	const longest = 40
	shown, runes := text, 0
	for i := range text {
		if runes++; runes > longest {
			shown = text[:i] + "…"
			break
		}
	}
	quoted := strconv.Quote(shown)
	return quoted[1 : len(quoted)-1]
}
