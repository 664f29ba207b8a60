package jobsheet

import "strings"

// Nearest returns the one of the words that a person most likely meant, or "".
// Letter case, spaces, hyphens and underscores do not count; up to a third of
// the letters, three at most, may be wrong.
func Nearest(word string, words []string) string {
	const longest = 60 // runes: nobody slips that long a word
	typed := plain(word)
	best, bestSlips := "", 4
	if len(typed) == 0 || len(typed) > longest {
		return ""
	}
	for _, w := range words {
		wanted := plain(w)
		n := slips(typed, wanted)
		if n < bestSlips && n <= max(1, len(wanted)/3) && n < len(wanted) {
			best, bestSlips = w, n
		}
	}
	return best
}

func plain(word string) []rune {
	return []rune(strings.ToLower(strings.NewReplacer(" ", "", "-", "", "_", "").Replace(word)))
}

// slips counts the letters left out, put in, changed, or swapped with their
// neighbour between two words (optimal string alignment distance).
func slips(a, b []rune) int {
	before, above, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range above {
		above[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			changed := 1
			if a[i-1] == b[j-1] {
				changed = 0
			}
			row[j] = min(above[j]+1, row[j-1]+1, above[j-1]+changed)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, above, row = above, row, before
	}
	return above[len(b)]
}

// instead says what to write in place of a word that is none of those known.
func instead(word string, words []string) string {
	if near := Nearest(word, words); near != "" {
		return "write " + near + " (of " + strings.Join(words, ", ") + ")"
	}
	if len(words) == 0 {
		return "there are none yet"
	}
	return "write one of " + strings.Join(words, ", ")
}
