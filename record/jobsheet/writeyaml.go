package jobsheet

import (
	"strings"
	"unicode/utf8"
)

// maxColumns is how long a line gets, as far as its texts let it: a group or list
// that is longer stands on several lines.
const maxColumns = 100

// yaml is the text of a file, in the plain part of YAML.
func (v written) yaml() []byte {
	var w blankText
	v.lines(&w, "", "")
	return []byte(w.String())
}

// lines writes the keys of a group, each on a line of its own. First stands in
// front of the first of them, indent in front of the others.
func (v written) lines(w *blankText, first, indent string) {
	lead := first
	for _, k := range v.keys {
		k.lines(w, lead+quote(k.key)+":", indent)
		lead = indent
	}
}

func (k writtenValue) lines(w *blankText, head, indent string) {
	v := k.value
	switch one := head + " " + v.flow(); {
	case v.shape == linesShape:
		w.say(head+" |", v.remark)
		v.block(w, indent+"  ")
	case v.isSingle(), !v.hasBlocks() && utf8.RuneCountInString(one) <= maxColumns, len(v.list)+len(v.keys) == 0:
		w.say(one, v.remark)
	case v.shape == groupShape:
		w.say(head, v.remark)
		v.lines(w, indent+"  ", indent+"  ")
	default:
		w.say(head, v.remark)
		v.entries(w, indent+"  ")
	}
}

// hasBlocks says whether a value stands on several lines, however short it is: a
// group that wants to, and a list of groups.
func (v written) hasBlocks() bool {
	if v.shape == listShape {
		for _, item := range v.list {
			if item.shape == groupShape {
				return true
			}
		}
	}
	return v.apart
}

// entries writes a list, each entry after a hyphen.
func (v written) entries(w *blankText, indent string) {
	for _, item := range v.list {
		one := indent + "- " + item.flow()
		if item.shape == groupShape && (item.apart || utf8.RuneCountInString(one) > maxColumns) {
			item.lines(w, indent+"- ", indent+"  ")
			continue
		}
		w.say(one, "")
	}
}

// block writes a text line by line, as it stands below "|".
func (v written) block(w *blankText, indent string) {
	for line := range strings.SplitSeq(v.text, "\n") {
		if line != "" {
			line = indent + line
		}
		w.WriteString(line + "\n") // a space at the end of a line is part of it
	}
}

// flow is a value on one line.
func (v written) flow() string {
	switch v.shape {
	case textShape, linesShape:
		return quote(v.text)
	case listShape:
		entries := make([]string, len(v.list))
		for i, item := range v.list {
			entries[i] = item.flow()
		}
		return "[" + strings.Join(entries, ", ") + "]"
	case groupShape:
		if len(v.keys) == 0 {
			return "{}"
		}
		pairs := make([]string, len(v.keys))
		for i, k := range v.keys {
			pairs[i] = quote(k.key) + ": " + k.value.flow()
		}
		return "{ " + strings.Join(pairs, ", ") + " }"
	default:
		return v.text
	}
}
