package verify

import (
	"slices"
	"strconv"
	"strings"

	"hourseal/record"
)

// FileState is what is known of a file that a record names: the JSON's state.
type FileState string

// The states.
const (
	FileAtHand    FileState = "at-hand"     // it is at hand, and the one that was signed
	FileDiffers   FileState = "differs"     // what is at hand in its place is another
	FileNotAtHand FileState = "not-at-hand" // nothing was found that could be it
)

// FoundFile is what the caller found under the name of a file that the record names.
type FoundFile struct {
	Name   string
	SHA256 record.Digest // of what was found
	Place  string        // where, for a person
	// Loose says that it lay in a place which is not this record's alone, such as
	// the folder that the report is in: another there may be another record's.
	Loose bool
}

// File is a file that the record names, and what was found of it.
type File struct {
	Name   string
	SHA256 record.Digest // as signed
	State  FileState
	Place  string // where it, or another in its place, was found; "" without
}

// filesOf are the files that a record names, before any was looked for.
func filesOf(r *record.Record) []File {
	var files []File
	for _, f := range r.Files {
		files = append(files, File{Name: f.Name, SHA256: f.SHA256, State: FileNotAtHand})
	}
	return files
}

// WithFiles is the answer once the files that the record names were looked for. found is
// all that was found, in any order; names that the record has not are passed over. One
// that differs in a place of the record's own decides, whatever else was found; it says
// nothing against the record, and makes a verdict of Genuine NotOriginal.
func (r Result) WithFiles(found []FoundFile) Result {
	if r.Signed == nil || r.Verdict.HidesContent() {
		return r
	}
	r.Files = filesOf(r.Signed)
	for i := range r.Files {
		f := &r.Files[i]
		for _, other := range found {
			if other.Name == f.Name {
				f.take(other)
			}
		}
	}
	r.Verdict = r.verdict()
	return r
}

// take holds one that was found to the file.
func (f *File) take(found FoundFile) {
	switch same := found.SHA256 == f.SHA256; {
	case f.State == FileDiffers:
	case same && f.State == FileNotAtHand:
		f.State, f.Place = FileAtHand, found.Place
	case !same && !found.Loose:
		f.State, f.Place = FileDiffers, found.Place
	case !same && f.State == FileNotAtHand && f.Place == "":
		f.Place = found.Place
	}
}

// fileDiffers says whether a file at hand is not the one that was signed.
func (r Result) fileDiffers() bool {
	return slices.ContainsFunc(r.Files, func(f File) bool { return f.State == FileDiffers })
}

// fileLines say of each file that was found how it compares, and of the others how many
// they are: what a record names is content, and what the reader has is not.
func (r Result) fileLines(on Surface) []string {
	var lines, missing []string
	for _, f := range r.Files {
		name := printable(f.Name)
		place := printable(f.Place)
		switch {
		case f.State == FileAtHand:
			lines = append(lines, fileSame.with("name", name))
		case f.State == FileDiffers:
			lines = append(lines, fileOther.with("name", name, "place", place), fileAskForIt.with())
		default:
			missing = append(missing, name)
			if f.Place != "" {
				lines = append(lines, fileLoose.with("name", name, "place", place))
			}
		}
	}
	if len(missing) == 0 {
		return lines
	}
	names := ""
	if r.Verdict.ShowsContent() {
		names = filesNamed.with("names", strings.Join(missing, ", "))
	}
	count := oneFile.with()
	if n := len(missing); n > 1 {
		count = manyFiles.with("count", strconv.Itoa(n))
	}
	return append(lines, filesNotAtHand.on(on).with("count", count, "names", names))
}
