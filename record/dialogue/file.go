package dialogue

import (
	"bytes"
	"fmt"
	"strings"
)

// In a file each answer is a comment of its own, so that it may stand below a YAML
// text that is as far as the session has come:
//
//	#: hours: 812.6
//	#: fluid/engine-oil/drained: 2.4 US gal at 68 C
const answerMark = "#: "

// Comments writes answers, a line each. Keys have no colon with a space behind it.
func Comments(kept []Kept) []byte {
	var out bytes.Buffer
	for _, k := range kept {
		fmt.Fprintf(&out, "%s%s: %s\n", answerMark, k.Key, k.Text)
	}
	return out.Bytes()
}

// FromComments reads the answers back out of a file; none from one without.
func FromComments(data []byte) []Kept {
	var kept []Kept
	for line := range strings.Lines(string(data)) {
		rest, is := strings.CutPrefix(strings.TrimRight(line, "\r\n"), answerMark)
		key, text, split := strings.Cut(rest, ": ")
		if is && split && key != "" && text != "" {
			kept = append(kept, Kept{Key: key, Text: text})
		}
	}
	return kept
}
