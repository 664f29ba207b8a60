package sheet

import "strings"

// Wrap splits text into lines no wider than width: at newlines, between words,
// and inside a word only where the word alone is wider. No character is lost
// but the spaces at a break; an empty line of the text stays one. A rune wider
// than width stands alone on its line.
func (s Style) Wrap(text string, width Len) []string {
	limit := int64(width) * emUnits
	var lines []string
	for _, line := range strings.Split(text, "\n") {
		lines = s.wrapLine(lines, line, limit)
	}
	return lines
}

// wrapLine appends the lines of one line of the text. Widths are in 1/1000 em
// times the size, so that nothing is rounded before the comparison.
func (s Style) wrapLine(lines []string, text string, limit int64) []string {
	size := int64(s.Size)
	start, used := 0, int64(0) // of the line that is being filled
	gap := -1                  // byte of the last space in it
	for i := 0; i < len(text); {
		r, length := rune(text[i]), 1
		if r >= 0x80 {
			for _, r = range text[i:] {
				break
			}
			length = len(string(r))
		}
		w := int64(s.Face.advance(r)) * size
		if used+w <= limit || i == start {
			if r == ' ' {
				gap = i
			}
			used += w
			i += length
			continue
		}
		end := i
		switch {
		case r == ' ': // the word just fits
		case gap > start:
			end = gap
		}
		lines = append(lines, strings.TrimRight(text[start:end], " "))
		for end < len(text) && text[end] == ' ' {
			end++
		}
		start, i, used, gap = end, end, 0, -1
	}
	if start < len(text) || text == "" {
		lines = append(lines, strings.TrimRight(text[start:], " "))
	}
	return lines
}
