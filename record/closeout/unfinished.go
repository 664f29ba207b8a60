package closeout

import (
	"bytes"
	"fmt"
	"strings"

	"hourseal/record/dialogue"
)

// An unfinished job sheet is the sheet as far as it has come, and below it the
// answers that it was made of, each in a comment of its own:
//
//	#: hours: 812.6
//	#: fluid/engine-oil/drained: 2.4 US gal at 68 C
//
// So whoever never comes back to the questions has a sheet to go on with by hand.

const answerMark = "#: "

// Unfinished writes one.
func Unfinished(sheet Sheet, kept []dialogue.Kept) []byte {
	var out bytes.Buffer
	fmt.Fprintf(&out, "# Not signed yet. To go on: hourseal closeout %s\n", sheet.Job.Machine)
	out.Write(sheet.Job.YAML())
	out.WriteString("\n# The answers so far. They are read when it is gone on with; the sheet above is not.\n")
	for _, k := range kept {
		fmt.Fprintf(&out, "%s%s: %s\n", answerMark, k.Key, k.Text)
	}
	return out.Bytes()
}

// Answers reads the answers back out of an unfinished sheet; none from another.
func Answers(data []byte) []dialogue.Kept {
	var kept []dialogue.Kept
	for line := range strings.Lines(string(data)) {
		rest, is := strings.CutPrefix(strings.TrimRight(line, "\r\n"), answerMark)
		key, text, split := strings.Cut(rest, ": ")
		if is && split && key != "" && text != "" {
			kept = append(kept, dialogue.Kept{Key: key, Text: text})
		}
	}
	return kept
}
