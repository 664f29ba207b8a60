package verify

import "strings"

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
// ignores case, spaces and hyphens.
func CompareSerial(typed, recorded string) Match {
	a, b := plain(typed), plain(recorded)
	switch {
	case a == "":
		return NotAsked
	case a == b:
		return Same
	case alike(a) == alike(b):
		return Probably
	default:
		return Different
	}
}

var (
	dropSeparators = strings.NewReplacer(" ", "", "-", "", "\u00a0", "", "\u2011", "", "\u2013", "")
	lookAlikes     = strings.NewReplacer("O", "0", "I", "1")
)

func plain(serial string) string { return strings.ToUpper(dropSeparators.Replace(serial)) }

func alike(serial string) string {
	return strings.TrimLeft(lookAlikes.Replace(serial), "0")
}
