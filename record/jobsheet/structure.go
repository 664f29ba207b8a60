package jobsheet

import "go.yaml.in/yaml/v3"

// read turns the bytes of a file into the entry that holds all of it. It
// returns false when nothing can be read from it; the faults are then in the
// sheet.
func (s *sheet) read(data []byte) (entry, bool) {
	scan := s.scan(data)
	if !scan.usable {
		return entry{}, false
	}
	if s.json {
		root, ok := s.parseJSON(scan.text)
		if !ok {
			return entry{}, false
		}
		return s.root(root, scan.text), true
	}
	documents, err := parseYAML(scan.text)
	switch {
	case err != nil && len(s.faults) > 0: // the tabs may well be the reason
		return entry{}, false
	case err != nil:
		s.faults = append(s.faults, syntaxFault(s.file, scan.text, err))
		return entry{}, false
	case len(documents) == 0:
		s.fault(Pos{}, "", "nothing written in the file: write its keys, each on a line of its own")
		return entry{}, false
	}
	if len(documents) > 1 {
		s.fault(posOf(documents[1]), "", `a second document begins here: take the line "---" out, or put the rest in a file of its own`)
	}
	return s.root(documents[0].Content[0], scan.text), true
}

// root is the entry of a whole tree that is held to the plain part of YAML.
func (s *sheet) root(root *yaml.Node, text []byte) entry {
	tree := structure{sheet: s, lines: splitRunes(text)}
	tree.walk(root)
	return entry{sheet: s, node: root, pos: posOf(root), want: "keys with their values, each on a line of its own"}
}

// structure holds a whole tree to the plain part of YAML: what is written is
// what is meant, in the place where it stands.
type structure struct {
	sheet *sheet
	lines [][]rune
}

func (t structure) walk(n *yaml.Node) {
	switch {
	case n.Kind == yaml.AliasNode:
		t.sheet.fault(posOf(n), "", `%s repeats a value from elsewhere: write the value out, or put a text that begins with "*" in quotes`, show("*"+n.Value))
		return
	case n.Anchor != "":
		t.sheet.fault(posOf(n), "", `%s names a value: take it out, or put a text that begins with "&" in quotes`, show("&"+n.Anchor))
	case n.Style&yaml.TaggedStyle != 0, t.startsWith(n, '!'): // the library drops a lone "!"
		t.sheet.fault(posOf(n), "", `a type mark, "!": take it out, or put a text that begins with "!" in quotes`)
	}
	if n.Kind == yaml.MappingNode {
		t.keys(n)
	}
	for _, child := range n.Content {
		t.walk(child)
	}
}

// keys refuses merge keys, keys that are no words, and a key written twice.
func (t structure) keys(mapping *yaml.Node) {
	first := map[string]*yaml.Node{}
	for i := 0; i+1 < len(mapping.Content); i += 2 {
		k := mapping.Content[i]
		switch {
		case k.Kind == yaml.AliasNode:
		case k.Kind != yaml.ScalarNode:
			t.sheet.fault(posOf(k), "", "%s stands where a key belongs: write a word and a colon", kindOf(k))
		case k.Tag == "!!merge":
			t.sheet.fault(posOf(k), "", `merge key "<<": write the keys out`)
		case first[k.Value] != nil:
			t.sheet.fault(posOf(k), nameOf(k.Value), "written twice, first on line %d: keep one", first[k.Value].Line)
		default:
			first[k.Value] = k
		}
	}
}

// startsWith looks at the text itself, where a node begins.
func (t structure) startsWith(n *yaml.Node, mark rune) bool {
	line, col := n.Line-1, n.Column-1
	return line >= 0 && line < len(t.lines) && col >= 0 && col < len(t.lines[line]) && t.lines[line][col] == mark
}

func posOf(n *yaml.Node) Pos { return Pos{Line: n.Line, Col: n.Column} }

// kindOf names what stands there, for a message.
func kindOf(n *yaml.Node) string {
	switch n.Kind {
	case yaml.MappingNode:
		return "a group of keys"
	case yaml.SequenceNode:
		return "a list"
	default:
		return "a single value"
	}
}
