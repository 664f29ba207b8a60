package quantity

import (
	"fmt"
	"slices"
	"strings"
)

// findUnit reads a unit, as people write it, of one of the dimensions.
func findUnit(text, word string, of ...dimension) (*unitRow, error) {
	if word == "" {
		return nil, refuse(text, "no unit: write %s after the figure", orList(unitNames(of)))
	}
	row := called(unitKey(word))
	switch {
	case row == nil:
		return nil, unknownUnit(word, unitNames(of))
	case !slices.Contains(of, row.of):
		return nil, refuse(text, "%s is %s: write %s", row.scale.name, dimensionNouns[row.of], orList(unitNames(of)))
	}
	return row, nil
}

// called finds the row that a folded word names, or nil.
func called(key string) *unitRow {
	for i := range unitTable {
		if unitTable[i].scale.called(key) {
			return &unitTable[i]
		}
	}
	return nil
}

// unknownUnit refuses a unit, naming both meanings of a word that two systems
// share where they are among the names.
func unknownUnit(word string, names []string) error {
	for _, b := range bareWords {
		if slices.Contains(names, b.us.String()) && slices.Contains(b.words, unitKey(word)) {
			return fmt.Errorf(`bare "%s": write "%v" (%s) or "%v" (%s)`,
				escaped(word), b.us, b.usSize, b.imperial, b.imperialSize)
		}
	}
	return fmt.Errorf(`unknown unit "%s": write %s`, escaped(word), orList(names))
}

// unitNames lists the units of the dimensions.
func unitNames(of []dimension) []string {
	var names []string
	for _, row := range unitTable {
		if slices.Contains(of, row.of) {
			names = append(names, row.scale.name)
		}
	}
	return names
}

// orList prints "kg, g or lb".
func orList(names []string) string {
	last := len(names) - 1
	if last < 1 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:last], ", ") + " or " + names[last]
}

// unitKey folds what does not matter in a unit: letter case (of ASCII
// alone: the Kelvin sign is no k), width of gaps, a full stop after a word.
func unitKey(word string) string {
	words := strings.FieldsFunc(word, isGap)
	for i, w := range words {
		words[i] = strings.TrimSuffix(lowerASCII(w), ".")
	}
	return strings.Join(words, " ")
}

func lowerASCII(s string) string {
	return strings.Map(func(r rune) rune {
		if 'A' <= r && r <= 'Z' {
			return r + ('a' - 'A')
		}
		return r
	}, s)
}
