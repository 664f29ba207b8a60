package jobsheet

import (
	"bytes"
	"fmt"
	"reflect"
	"strings"

	"hourseal/record/schedule"
)

// CopySchedule makes a schedule that comes with the program, or another yard's, into
// one of the yard's own: the text with id, title and basis put in the place of its
// own, and edition 1. All else, comments too, stays as it stands, but for a passage of the
// comment at its head that says to copy the file: the copy is made. File is the name
// of the text in messages. An empty title stays as it was. Each of the four keys
// must begin a line, and its value stand on that line or set in below it; a remark
// behind the value goes with it. The error is Faults of the text, or says what is
// wrong with what is to be put in.
func CopySchedule(file string, data []byte, id, title string, basis schedule.Basis) ([]byte, error) {
	from, source, err := ParseSchedule(file, data)
	if err != nil {
		return nil, err
	}
	if title == "" {
		title = from.Title
	}
	if err := checkOwn(id, title, basis); err != nil {
		return nil, err
	}
	own := withoutCopying(bytes.TrimPrefix(data, byteOrderMark))
	for _, k := range groupOf(scheduleForm, map[string]written{
		"id": writeText(id), "edition": writeNumber("1"), "title": writeText(title), "basis": basisOf(basis),
	}).keys {
		replaced, ok := replaceKey(own, k)
		if !ok {
			return nil, Faults{source.Fault(k.key, k.key, "cannot be replaced: write the key at the beginning of a line")}
		}
		own = replaced
	}
	from.ID, from.Edition, from.Title, from.Basis = id, 1, title, basis
	if read, _, err := ParseSchedule(id+".yaml", own); err != nil || !reflect.DeepEqual(read, from) {
		return nil, Faults{{File: file, Message: "cannot be copied as it is written: copy the file by hand, and write id, edition, title and basis anew"}}
	}
	return own, nil
}

// copying is what a built-in schedule says to whoever would use it as it is.
const copying = "copy this file"

// withoutCopying leaves out of the comment at the head of a text the passages that say
// to copy the file. A passage ends with a line that has nothing but its mark.
func withoutCopying(text []byte) []byte {
	var kept, passage bytes.Buffer
	ends := func() {
		words := strings.Fields(strings.ReplaceAll(passage.String(), "#", " "))
		if !strings.Contains(strings.ToLower(strings.Join(words, " ")), copying) {
			kept.Write(passage.Bytes())
		}
		passage.Reset()
	}
	head := 0
	for line := range bytes.Lines(text) {
		if line[0] != '#' {
			break
		}
		head += len(line)
		passage.Write(line)
		if len(bytes.TrimSpace(line)) == 1 {
			ends()
		}
	}
	ends()
	return append(kept.Bytes(), text[head:]...)
}

// checkOwn holds what is put into a copy to what a schedule takes.
func checkOwn(id, title string, basis schedule.Basis) error {
	if err := CheckID(id); err != nil {
		return fmt.Errorf("id: %w", err)
	}
	if basis.Kind == 0 {
		return fmt.Errorf("basis: missing: write kind, one of %s", strings.Join(schedule.BasisKinds(), ", "))
	}
	for _, part := range []struct{ name, text string }{
		{"title", title}, {"basis: document", basis.Document}, {"basis: edition", basis.Edition}, {"basis: page", basis.Page},
	} {
		if _, err := text(part.text); err != nil {
			return fmt.Errorf("%s: %w", part.name, err)
		}
	}
	return nil
}

func basisOf(b schedule.Basis) written {
	return groupOf(basisForm, map[string]written{
		"kind":     writeText(b.Kind.String()),
		"document": writeText(b.Document),
		"edition":  writeText(b.Edition),
		"page":     writeText(b.Page),
	})
}

// replaceKey puts a key with its value in the place of the line that begins with the
// key, and of the lines set in below it. Line ends are as those of that line.
func replaceKey(text []byte, k writtenValue) ([]byte, bool) {
	var replaced bytes.Buffer
	found, inValue := false, false
	for line := range bytes.Lines(text) {
		switch {
		case !found && bytes.HasPrefix(line, []byte(k.key+":")):
			found, inValue = true, true
			var w blankText
			k.lines(&w, k.key+":", "")
			own := w.String()
			if bytes.HasSuffix(line, []byte("\r\n")) {
				own = strings.ReplaceAll(own, "\n", "\r\n")
			}
			replaced.WriteString(own)
		case inValue && line[0] == ' ':
			// the rest of the value that was there
		default:
			inValue = false
			replaced.Write(line)
		}
	}
	return replaced.Bytes(), found
}
