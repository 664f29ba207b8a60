package jobsheet

import (
	"bytes"
	"reflect"
	"strconv"
	"strings"
	"unicode/utf8"
)

// A sheet is a person's own writing: a name is put into its text, and nothing else of it
// is touched. Whether that went right is seen by reading it again.

// UnclearError says that it cannot be told how names would be put into a sheet as it is
// written, JSON among others.
type UnclearError struct {
	File  string
	Write string // what a person is to write into it, as files: [plate.jpg]
}

func (e *UnclearError) Error() string {
	return e.File + ": how to put a name into this text is not clear: nothing was changed"
}

// WithFiles is the text of a job sheet with further names under files. Its errors are
// those of ParseJob, and *UnclearError.
func WithFiles(file string, sheet []byte, names []string) ([]byte, error) {
	job, err := ParseJob(file, sheet)
	if err != nil {
		return nil, err
	}
	bare, marked := bytes.CutPrefix(sheet, byteOrderMark)
	unclear := &UnclearError{file, filesLine(append(append([]string{}, job.Files...), names...), isJSON(bare))}
	if isJSON(bare) {
		return nil, unclear
	}
	changed, ok := putNames(string(bare), job, names)
	if !ok {
		return nil, unclear
	}
	out := []byte(changed)
	if marked {
		out = append(bytes.Clone(byteOrderMark), out...)
	}
	if again, err := ParseJob(file, out); err != nil || !sameButFiles(job, again, names) {
		return nil, unclear
	}
	return out, nil
}

// filesLine is the key with these names, as a person would write it.
func filesLine(names []string, json bool) string {
	if json {
		return `"files": ["` + strings.Join(names, `", "`) + `"]`
	}
	return "files: [" + strings.Join(names, ", ") + "]"
}

// sameButFiles says whether a sheet states what it did, and further files.
func sameButFiles(before, after Job, names []string) bool {
	before.Files = append(append([]string{}, before.Files...), names...)
	for _, j := range []*Job{&before, &after} {
		j.Source = Source{}
		var accept []Accept
		for _, a := range j.Accept { // its line may be another now
			a.At = ""
			accept = append(accept, a)
		}
		j.Accept = accept
	}
	return reflect.DeepEqual(before, after)
}

// putNames puts names under files as the text has it: no key yet, one name, a list in
// brackets, or one with hyphens.
func putNames(text string, job Job, names []string) (string, bool) {
	end := "\n"
	if strings.Contains(text, "\r\n") {
		end = "\r\n"
	}
	list := strings.Join(names, ", ")
	places := job.Source.Lines
	key, there := places["files"]
	if !there {
		if !strings.HasSuffix(text, "\n") {
			text += end
		}
		return text + "files: [" + list + "]" + end, true
	}
	at, ok := offsetOf(text, key)
	if !ok {
		return "", false
	}
	bracket := text[at] == '['
	n := len(job.Files)
	if n == 0 {
		return text[:at+1] + list + text[at+1:], bracket
	}
	last, listed := places["files/"+strconv.Itoa(n-1)]
	if !listed { // one name, without brackets
		stop, ok := endOfName(text, at, job.Files[0])
		return text[:at] + "[" + text[at:stop] + ", " + list + "]" + text[stop:], ok
	}
	from, ok := offsetOf(text, last)
	if !ok {
		return "", false
	}
	stop, ok := endOfName(text, from, job.Files[n-1])
	if !ok || bracket {
		return text[:stop] + ", " + list + text[stop:], ok
	}
	before := text[strings.LastIndexByte(text[:from], '\n')+1 : from] // the hyphen, set in as the others
	if strings.TrimSpace(before) != "-" {
		return "", false
	}
	var after int // where the line of the last name ends
	if i := strings.IndexByte(text[stop:], '\n'); i >= 0 {
		after = stop + i + 1
	} else {
		text += end
		after = len(text)
	}
	var lines strings.Builder
	for _, name := range names {
		lines.WriteString(before + name + end)
	}
	return text[:after] + lines.String() + text[after:], true
}

// endOfName is where a name that begins at a place ends, with its quotes.
func endOfName(text string, at int, name string) (int, bool) {
	for _, quote := range []string{"", `"`, "'"} {
		if written := quote + name + quote; strings.HasPrefix(text[at:], written) {
			return at + len(written), true
		}
	}
	return at, false
}

// offsetOf is the byte at a place; false where the text has no such place.
func offsetOf(text string, pos Pos) (int, bool) {
	at := 0
	for range pos.Line - 1 {
		i := strings.IndexByte(text[at:], '\n')
		if i < 0 {
			return 0, false
		}
		at += i + 1
	}
	for range pos.Col - 1 {
		_, size := utf8.DecodeRuneInString(text[at:])
		at += size
	}
	return at, at < len(text)
}
