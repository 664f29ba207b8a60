package closeout

import (
	"bytes"
	"fmt"

	"hourseal/record/dialogue"
)

// An unfinished job sheet is the sheet as far as it has come, and below it the
// answers that it was made of, each in a comment of its own:
//
//	#: hours: 812.6
//	#: fluid/engine-oil/drained: 2.4 US gal at 68 C
//
// So whoever never comes back to the questions has a sheet to go on with by hand.

// Unfinished writes one.
func Unfinished(sheet Sheet, kept []dialogue.Kept) []byte {
	var out bytes.Buffer
	fmt.Fprintf(&out, "# Not signed yet. To go on: hourseal closeout %s\n", sheet.Job.Machine)
	out.Write(sheet.Job.YAML())
	out.WriteString("\n# The answers so far. They are read when it is gone on with; the sheet above is not.\n")
	out.Write(dialogue.Comments(kept))
	return out.Bytes()
}
