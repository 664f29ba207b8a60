package jobsheet

import (
	"bytes"
	"encoding/json"
	"errors"
	"regexp"
	"strings"

	"go.yaml.in/yaml/v3"
)

// jsonHints say what a person or program did to meet one of encoding/json's errors.
var jsonHints = []struct {
	problem string // part of its words
	before  string // where not empty, one of these characters stands before the fault
	at      string // where not empty, one of these stands at the fault
	hint    string
}{
	{"unexpected end of JSON input", "", "", `a brace, bracket or quote that is opened here and never closed: close it`},
	{"after top-level value", "", "", `text after the last brace: take it out`},
	{"looking for beginning of object key string", ",", "}", `a comma after the last value: take it out`},
	{"looking for beginning of object key string", "", "", `a key without double quotes: write it as "hours": 812.6`},
	{"looking for beginning of value", ",", "]", `a comma after the last value: take it out`},
	{"looking for beginning of value", "", "}],", `nothing written: write a value, or null`},
	{"looking for beginning of value", "", "+.", `a figure that JSON has no such way to write: write it as 812.6, 0.5 or -2`},
	{"looking for beginning of value", "", "", `a text without double quotes: write it as "scheduled"`},
	{"after object key:value pair", "0", "0123456789", `a figure that begins with 0: put it between double quotes`},
	{"after array element", "0", "0123456789", `a figure that begins with 0: put it between double quotes`},
	{"after object key:value pair", "", "", `a comma left out, or a text without double quotes: write { "id": "engine-oil", "result": "done" }`},
	{"after array element", "", "", `a comma left out, or a text without double quotes: write ["5 L", "4.3 L"]`},
	{"after object key", "", "", `a colon left out after the key: write it as "hours": 812.6`},
	{"in string literal", "", "\n\r", `a text that does not end on its line: close the double quotes, and write \n where a new line begins`},
	{"in string literal", "", "", `a tab in a text: write a space`},
	{"in string escape code", "", "", `a backslash that JSON has no such use for: write two`},
	{`in \u hexadecimal character escape`, "", "", `\u without four hexadecimal digits: write the character itself`},
	{"after decimal point", "", "", `a point without decimals: write it as 812.6`},
	{"in numeric literal", "", "", `a figure that JSON has no such way to write: write it as 812.6, 0.5 or -2`},
	{"in exponent", "", "", `a figure with an exponent: write it as 812.6`},
	{"in literal", "", "", `a text without double quotes: write it as "scheduled"`},
	{"exceeded max depth", "", "", `groups and lists within each other without end: no sheet needs as many, take some out`},
}

// jsonSyntaxFault is the one fault of a text that is not JSON.
func jsonSyntaxFault(file string, text []byte, err error) Fault {
	at := len(text)
	var syntax *json.SyntaxError
	if errors.As(err, &syntax) {
		at = max(0, int(syntax.Offset)-1) // it counts the character that it stumbled over
	}
	problem := err.Error()
	if strings.Contains(problem, "unexpected end") {
		at = lastOpened(text)
	}
	message := "cannot be read: write it as JSON, in double quotes what is not a plain figure"
	for _, h := range jsonHints {
		if strings.Contains(problem, h.problem) && fits(before(text, at), h.before) && fits(text[min(at, len(text)):], h.at) {
			message = "cannot be read: " + h.hint
			break
		}
	}
	start := cursor{line: 1, col: 1}
	return Fault{File: file, Pos: start.forward(text, at), Message: message}
}

// before is the last character before an offset that is no white space, and what follows.
func before(text []byte, at int) []byte {
	trimmed := bytes.TrimRight(text[:min(at, len(text))], jsonSpace)
	return trimmed[max(0, len(trimmed)-1):]
}

// fits says whether a text begins with one of the characters; any will do where there
// are none.
func fits(text []byte, characters string) bool {
	return characters == "" || len(text) > 0 && strings.IndexByte(characters, text[0]) >= 0
}

// lastOpened is where the innermost brace, bracket or text begins that is open at the
// end.
func lastOpened(text []byte) int {
	var open []int
	decoder := json.NewDecoder(bytes.NewReader(text))
	for {
		start := int(decoder.InputOffset())
		start += len(text[start:]) - len(bytes.TrimLeft(text[start:], jsonSpace+",:"))
		token, err := decoder.Token()
		if err != nil {
			if start < len(text) && text[start] == '"' || len(open) == 0 {
				return min(start, len(text)-1)
			}
			return open[len(open)-1]
		}
		switch token {
		case json.Delim('{'), json.Delim('['):
			open = append(open, start)
		case json.Delim('}'), json.Delim(']'):
			open = open[:len(open)-1]
		}
	}
}

// inBraces finds the groups and lists of an example, a group within another among them.
var inBraces = regexp.MustCompile(`\{(?:[^{}]|\{[^{}]*\})*\}|\[[^\[\]]*\]`)

// example gives what to write, as a form has it, for the kind of file that is read: in
// JSON its groups and lists are JSON.
func (s *sheet) example(want string) string {
	if !s.json {
		return want
	}
	if _, known := s.examples[want]; !known {
		s.examples[want] = inBraces.ReplaceAllStringFunc(want, func(flow string) string {
			documents, err := parseYAML([]byte(flow))
			if err != nil || len(documents) != 1 {
				return flow
			}
			return exampleJSON(documents[0].Content[0])
		})
	}
	return s.examples[want]
}

func exampleJSON(n *yaml.Node) string {
	var parts []string
	switch n.Kind {
	case yaml.MappingNode:
		for i := 0; i+1 < len(n.Content); i += 2 {
			parts = append(parts, exampleJSON(n.Content[i])+": "+exampleJSON(n.Content[i+1]))
		}
		return "{ " + strings.Join(parts, ", ") + " }"
	case yaml.SequenceNode:
		for _, child := range n.Content {
			parts = append(parts, exampleJSON(child))
		}
		return "[" + strings.Join(parts, ", ") + "]"
	}
	isFigure := n.Tag == "!!int" || n.Tag == "!!float"
	if isFigure && n.Style == 0 && json.Valid([]byte(n.Value)) {
		return n.Value
	}
	var b bytes.Buffer
	appendJSONText(&b, n.Value)
	return b.String()
}
