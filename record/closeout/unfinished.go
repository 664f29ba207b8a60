package closeout

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"

	"hourseal/record/dialogue"
	"hourseal/record/jobsheet"
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
	sum := sumOf(out.Bytes())
	out.WriteString(answersBelow + "\n")
	fmt.Fprintf(&out, "%s%s\n", sumMark, sum)
	out.Write(dialogue.Comments(kept))
	return out.Bytes()
}

const (
	answersBelow = "\n# The answers so far. They are read when it is gone on with; the sheet above is not."
	sumMark      = "#= " // of the sheet above, to tell whether it was changed by hand
)

// sumOf is a check sum of a sheet, but for the files that it names.
func sumOf(sheet []byte) string {
	rest, _ := cutFiles(sheet)
	sum := sha256.Sum256(rest)
	return hex.EncodeToString(sum[:8])
}

// ChangedByHand says whether the sheet above the answers is another than was written,
// but for the files that it names: those are attached meanwhile.
func ChangedByHand(data []byte) bool {
	sheet, below, found := bytes.Cut(plainEnds(data), []byte(answersBelow+"\n"+sumMark))
	sum, _, _ := bytes.Cut(below, []byte("\n"))
	return !found || sumOf(sheet) != string(sum)
}

// SameButFiles says whether two unfinished sheets differ in the files that they name, at
// most.
func SameButFiles(a, b []byte) bool {
	restA, _ := cutFiles(plainEnds(a))
	restB, _ := cutFiles(plainEnds(b))
	return bytes.Equal(restA, restB)
}

// FilesIn are the names of the files in a sheet that may be unfinished; none where they
// cannot be read.
func FilesIn(data []byte) []string {
	_, files := cutFiles(plainEnds(data))
	job, err := jobsheet.ParseJob("", append([]byte("machine: m\ndate: 2026-05-04\nhours: 0\nreason: scheduled\n"), files...))
	if err != nil {
		return nil
	}
	return job.Files
}

// cutFiles parts a sheet into the key "files", which may go over several lines, and the
// rest.
func cutFiles(sheet []byte) (rest, files []byte) {
	within := false
	for line := range bytes.Lines(sheet) {
		switch {
		case bytes.HasPrefix(line, []byte("files:")):
			within = true
		case within && len(line) > 0 && bytes.IndexByte([]byte(" -]"), line[0]) < 0:
			within = false
		}
		if within {
			files = append(files, line...)
		} else {
			rest = append(rest, line...)
		}
	}
	return rest, files
}

// plainEnds is a text with plain line ends.
func plainEnds(text []byte) []byte { return bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n")) }
