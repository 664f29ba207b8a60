package verify

import (
	"strings"
	"unicode"
)

// Match is how two serial numbers compare.
type Match int

// The matches.
const (
	NotAsked Match = iota
	Same
	Probably // but for O and 0, I and 1, or leading zeros: look again
	Different
)

// CompareSerial compares a serial number typed off a plate with the record's. It
// ignores case, spaces and hyphens of any kind.
func CompareSerial(typed, recorded string) Match {
	a, b := plain(typed), plain(recorded)
	switch {
	case a == "":
		return NotAsked
	case a == b:
		return Same
	case b != "" && alike(a) == alike(b):
		return Probably
	default:
		return Different
	}
}

var lookAlikes = strings.NewReplacer("O", "0", "I", "1")

func plain(serial string) string {
	return strings.ToUpper(strings.Map(func(r rune) rune {
		// The minus sign, U+2212, is what some keyboards give for a hyphen.
		if unicode.IsSpace(r) || unicode.Is(unicode.Pd, r) || r == '\u2212' {
			return -1
		}
		return r
	}, serial))
}

func alike(serial string) string {
	return strings.TrimLeft(lookAlikes.Replace(serial), "0")
}
