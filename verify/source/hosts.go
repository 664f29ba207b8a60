package source

import (
	"slices"
	"strings"

	"hourseal/sign/qrtext"
)

// fragmentMark begins a text that was given as a fragment, the "#" and the digits of an
// address: a page is given no more than that of the code that opened it. It is also the
// host of such a part, since no host has it in its name.
const fragmentMark = "#"

func isFragment(text string) bool { return strings.HasPrefix(strings.TrimSpace(text), fragmentMark) }

// parseText is [qrtext.Parse] that also takes fragments.
func parseText(text string) (qrtext.Part, error) {
	if !isFragment(text) {
		return qrtext.Parse(text)
	}
	part, err := qrtext.ParseFragment(strings.TrimSpace(text))
	part.Host = fragmentMark
	return part, err
}

// group is a record as far as texts hold it: one whole text, or parts of it that were
// printed together. A text may be there in both ways.
type group struct {
	parts []qrtext.Part
	texts []string // of the parts, as given
}

// addPart puts a part to those that it goes with.
func addPart(groups []group, part qrtext.Part, text string) []group {
	for i, g := range groups {
		if part == g.parts[0] || part.SameRecord(g.parts[0]) {
			groups[i] = group{append(g.parts, part), append(g.texts, text)}
			return groups
		}
	}
	return append(groups, group{[]qrtext.Part{part}, []string{text}})
}

// settle gives fragments the host of the first part beside them that came whole, and so
// brings together parts that were given in both ways. Parts of other groups have no say
// in it: nobody knows whether they hold a record.
func (g group) settle() {
	whole := slices.IndexFunc(g.parts, func(p qrtext.Part) bool { return p.Host != fragmentMark })
	if whole < 0 {
		return
	}
	for i := range g.parts {
		if g.parts[i].Host == fragmentMark {
			g.parts[i].Host = g.parts[whole].Host
		}
	}
}
