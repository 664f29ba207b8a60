package jobsheet

import (
	"strings"

	"go.yaml.in/yaml/v3"
)

// key is one key that a file, or a group of keys in it, may hold.
type key struct {
	name string
	// want is what to write there, as it stands after "write ": an example,
	// with what it is where that is not plain.
	want string
	need need
}

// need says whether a key may be left out, and whether it may stand with
// nothing after it.
type need uint8

const (
	optional need = iota // may be left out; once there it says something
	required
	blank  // may be left out, or stand with nothing after its colon
	either // of the keys of a form with this need one is there, and only one
)

// form is the keys of a file or of a group of keys, in the order in which the
// examples have them.
type form []key

func (f form) names() []string {
	names := make([]string, len(f))
	for i, k := range f {
		names[i] = k.name
	}
	return names
}

func (f form) key(name string) (key, bool) {
	for _, k := range f {
		if k.name == name {
			return k, true
		}
	}
	return key{}, false
}

// entry is one value of a file, with its place.
type entry struct {
	sheet *sheet
	node  *yaml.Node
	pos   Pos    // of the value, or of its key where nothing is written
	path  string // as in Source
	field string // as in Fault
	want  string // as in key
	need  need
}

func (e entry) fail(format string, args ...any) { e.sheet.fault(e.pos, e.field, format, args...) }

// nothing says whether no value is written there: nothing at all, or one of
// YAML's words for nothing.
func (e entry) nothing() bool { return isNull(e.node) }

const nullTag = "!!null"

func isNull(n *yaml.Node) bool { return n.Kind == yaml.ScalarNode && n.Tag == nullTag }

// leavesOut says whether a value of the entry's group says that its key is left out:
// null does in JSON.
func (e entry) leavesOut(value *yaml.Node) bool { return e.sheet.json && isNull(value) }

// left says whether the key stands there with nothing after it, as it may.
func (e entry) left() bool { return e.need == blank && e.nothing() && e.node.Value == "" }

// usable says whether the entry holds a value of that kind; what it wants
// instead is a fault, apart from an alias, which is one already.
func (e entry) usable(kind yaml.Kind) bool {
	switch {
	case e.node.Kind == yaml.AliasNode:
		return false
	case e.nothing() && e.node.Value != "":
		e.fail(`%s means nothing here: write %s%s`, show(e.node.Value), e.wanted(kind), orLeaveOut(e.need))
		return false
	case e.nothing():
		e.fail("nothing written: write %s%s", e.wanted(kind), orLeaveOut(e.need))
		return false
	case e.node.Kind != kind:
		e.fail("%s here: write %s", kindOf(e.node), e.wanted(kind))
		return false
	}
	return true
}

func (e entry) wanted(kind yaml.Kind) string {
	switch {
	case kind == yaml.SequenceNode && e.sheet.json:
		return "a list between brackets, its entries as " + e.want
	case kind == yaml.SequenceNode:
		return `a list, each entry after a hyphen on a line of its own, as "- ` + e.want + `"`
	}
	return e.want
}

func orLeaveOut(n need) string {
	if n == required || n == either {
		return ""
	}
	return ", or leave the key out"
}

// fields are the values of a group of keys.
type fields struct {
	sheet  *sheet
	values map[string]entry
}

// fields reads a group of keys. Keys that the form does not have, and missing
// ones that it requires, are faults.
func (e entry) fields(f form) fields {
	read := fields{sheet: e.sheet, values: map[string]entry{}}
	if e.left() || !e.usable(yaml.MappingNode) {
		return read
	}
	misspelt := map[string]bool{}
	for k, value := range e.pairs() {
		spec, known := f.key(k.Value)
		if !known {
			message, meant := unknownKey(f, k.Value, value, e.node.Style&yaml.FlowStyle != 0)
			e.sheet.fault(posOf(k), e.field, "unknown key %s: %s", show(k.Value), message)
			misspelt[meant] = true
			continue
		}
		if e.leavesOut(value) {
			continue
		}
		read.values[spec.name] = e.child(k, value, spec)
	}
	for _, k := range f {
		if _, there := read.values[k.name]; !there && k.need == required && !misspelt[k.name] {
			pos := e.pos
			if e.path == "" {
				pos = Pos{} // it is missing from the whole file, not from its first line
			}
			e.sheet.fault(pos, k.name, "missing: write %s", e.sheet.example(k.want))
		}
	}
	read.oneOfTwo(e, f, misspelt)
	return read
}

// oneOfTwo holds the keys of a form of which only one may stand there, and one
// has to.
func (read fields) oneOfTwo(group entry, f form, misspelt map[string]bool) {
	there, first, wanted := "", "", ""
	for _, k := range f {
		if k.need != either {
			continue
		}
		if first == "" {
			first, wanted = k.name, k.want
		} else {
			wanted += ", or " + k.name + ": " + k.want
		}
		switch e, found := read.values[k.name]; {
		case found && there != "":
			e.fail("beside %s: keep one of the two", there)
		case found || misspelt[k.name]:
			there = k.name
		}
	}
	if there == "" && first != "" {
		read.sheet.fault(group.pos, first, "missing: write %s", read.sheet.example(wanted))
	}
}

// pairs goes through the keys that are words, each once.
func (e entry) pairs() func(yield func(k, value *yaml.Node) bool) {
	return func(yield func(k, value *yaml.Node) bool) {
		seen := map[string]bool{}
		for i := 0; i+1 < len(e.node.Content); i += 2 {
			k, value := e.node.Content[i], e.node.Content[i+1]
			if k.Kind != yaml.ScalarNode || k.Tag == "!!merge" || seen[k.Value] {
				continue // a fault already
			}
			seen[k.Value] = true
			if !yield(k, value) {
				return
			}
		}
	}
}

// child is the value of a key of this entry.
func (e entry) child(k, value *yaml.Node, spec key) entry {
	path := k.Value
	if e.path != "" {
		path = e.path + "/" + k.Value
	}
	pos := posOf(value)
	switch {
	case value.Kind == yaml.ScalarNode && value.Tag == "!!null" && value.Value == "",
		value.Kind != yaml.ScalarNode && value.Style&yaml.FlowStyle == 0:
		pos = posOf(k) // nothing there to point at, or it begins on the next line
	}
	e.sheet.lines[path] = pos
	return entry{sheet: e.sheet, node: value, pos: pos, path: path, field: nameOf(k.Value), want: e.sheet.example(spec.want), need: spec.need}
}

// unknownKey says what to write instead of a key that the form does not have,
// with an eye to what braces do to commas and colons, and which key was most
// likely meant.
func unknownKey(f form, name string, value *yaml.Node, inBraces bool) (message, meant string) {
	empty := value.Kind == yaml.ScalarNode && value.Tag == "!!null" && value.Value == ""
	if empty {
		for _, k := range f {
			if rest, ok := strings.CutPrefix(name, k.name); ok && strings.IndexAny(rest, ": =") == 0 {
				return "write " + show(k.name+": "+strings.TrimLeft(rest, ": =")), k.name
			}
		}
	}
	if near := Nearest(name, f.names()); near != "" {
		return "write " + near, near
	}
	if empty && inBraces {
		return "a comma ends a text between braces: put the whole text in quotes", ""
	}
	return "write one of " + strings.Join(f.names(), ", "), ""
}
