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
//
// One that was taken back and waits to be given again has another mark:
//
//	#< hours: 812.6
const (
	answerMark = "#: "
	backMark   = "#< "
)

// Comments writes answers, a line each. Keys have no colon with a space behind it.
func Comments(kept []Kept) []byte {
	var out bytes.Buffer
	for _, k := range kept {
		mark := answerMark
		if k.Back {
			mark = backMark
		}
		fmt.Fprintf(&out, "%s%s: %s\n", mark, k.Key, k.Text)
	}
	return out.Bytes()
}

// FromComments reads the answers back out of a file; none from one without.
func FromComments(data []byte) []Kept {
	var kept []Kept
	for line := range strings.Lines(string(data)) {
		line = strings.TrimRight(line, "\r\n")
		rest, given := strings.CutPrefix(line, answerMark)
		back := false
		if !given {
			rest, back = strings.CutPrefix(line, backMark)
		}
		key, text, split := strings.Cut(rest, ": ")
		if (given || back) && split && key != "" && text != "" {
			kept = append(kept, Kept{Key: key, Text: text, Back: back})
		}
	}
	return kept
}
