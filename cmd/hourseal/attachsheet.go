package main

import (
	"bytes"
	"reflect"
	"strconv"
	"strings"
	"unicode/utf8"

	"hourseal/record/jobsheet"
)

// A sheet is a person's own writing: a name is put into its text, and nothing else of it
// is touched. Whether that went right is seen by reading it again.

// sheetWithFiles is the text of a job sheet with further names under files; false where it
// cannot be told how they would be put there.
func sheetWithFiles(file string, text []byte, job jobsheet.Job, names []string) ([]byte, bool) {
	if beginsWithBrace(text) { // JSON, or YAML like it
		return nil, false
	}
	mark := []byte("\xef\xbb\xbf")
	bare, marked := bytes.CutPrefix(text, mark)
	changed, ok := putNames(string(bare), job, names)
	if !ok {
		return nil, false
	}
	out := []byte(changed)
	if marked {
		out = append(mark, out...)
	}
	again, err := jobsheet.ParseJob(file, out)
	return out, err == nil && sameButFiles(job, again, names)
}

func beginsWithBrace(text []byte) bool {
	return bytes.HasPrefix(bytes.TrimLeft(bytes.TrimPrefix(text, []byte("\xef\xbb\xbf")), " \t\r\n"), []byte("{"))
}

// sameButFiles says whether a sheet states what it did, and further files.
func sameButFiles(before, after jobsheet.Job, names []string) bool {
	before.Files = append(append([]string{}, before.Files...), names...)
	for _, j := range []*jobsheet.Job{&before, &after} {
		j.Source = jobsheet.Source{}
		var accept []jobsheet.Accept
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
func putNames(text string, job jobsheet.Job, names []string) (string, bool) {
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
func offsetOf(text string, pos jobsheet.Pos) (int, bool) {
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
