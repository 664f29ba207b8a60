package jobsheet

import (
	"bytes"
	"cmp"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"go.yaml.in/yaml/v3"
)

// maxJSONDepth is how many groups and lists may stand within each other. A sheet needs
// five: its keys, tasks, a task, reading, as found and as left.
const maxJSONDepth = 16

// jsonSpace is RFC 8259's white space (section 2).
const jsonSpace = " \t\r\n"

// isJSON says whether a text is to be read as JSON: it begins with a brace, and a key
// between double quotes, or nothing more, comes next. A brace before a key without
// quotes is YAML.
func isJSON(text []byte) bool {
	rest, braced := bytes.CutPrefix(bytes.TrimLeft(text, jsonSpace), []byte("{"))
	rest = bytes.TrimLeft(rest, jsonSpace)
	return braced && (len(rest) == 0 || rest[0] == '"' || rest[0] == '}')
}

// parseJSON reads a text as RFC 8259 has it, into the tree that the same sheet has as
// YAML. It is false where nothing can be read; the faults are then in the sheet.
func (s *sheet) parseJSON(text []byte) (*yaml.Node, bool) {
	var whole json.RawMessage
	if err := json.Unmarshal(text, &whole); err != nil {
		s.faults = append(s.faults, jsonSyntaxFault(s.file, text, err))
		return nil, false
	}
	decoder := json.NewDecoder(bytes.NewReader(text))
	decoder.UseNumber()
	r := jsonReader{sheet: s, text: text, decoder: decoder, cursor: cursor{line: 1, col: 1}}
	return r.value(0)
}

// jsonReader reads a text that is JSON, token by token.
type jsonReader struct {
	sheet   *sheet
	text    []byte
	decoder *json.Decoder
	cursor  cursor
}

// cursor goes through a text from its beginning, counting lines and characters.
type cursor struct{ offset, line, col int }

// forward goes on to an offset, and gives its line and column.
func (c *cursor) forward(text []byte, offset int) Pos {
	for c.offset < min(offset, len(text)) {
		if text[c.offset] == '\n' {
			c.line, c.col = c.line+1, 0
		}
		_, size := utf8.DecodeRune(text[c.offset:])
		c.offset += size
		c.col++
	}
	return Pos{Line: c.line, Col: c.col}
}

// next is the next token, as it is written, and where.
func (r *jsonReader) next() (token json.Token, written []byte, pos Pos, err error) {
	start := int(r.decoder.InputOffset())
	for start < len(r.text) && bytes.IndexByte([]byte(jsonSpace+",:"), r.text[start]) >= 0 {
		start++
	}
	token, err = r.decoder.Token()
	return token, r.text[start:max(start, int(r.decoder.InputOffset()))], r.cursor.forward(r.text, start), err
}

// value reads the value that comes next. It is false where nothing after it can be
// read; other faults leave the rest to be looked at.
func (r *jsonReader) value(depth int) (*yaml.Node, bool) {
	token, written, pos, err := r.next()
	if err != nil { // the text as a whole is JSON, so that none is expected
		r.sheet.fault(pos, "", "cannot be read: write it as JSON")
		return nil, false
	}
	node := &yaml.Node{Kind: yaml.ScalarNode, Line: pos.Line, Column: pos.Col}
	switch value := token.(type) {
	case json.Delim:
		node.Kind, node.Style = yaml.MappingNode, yaml.FlowStyle
		if value == '[' {
			node.Kind = yaml.SequenceNode
		}
		return node, r.content(node, depth+1)
	case string:
		node.Tag, node.Style, node.Value = "!!str", yaml.DoubleQuotedStyle, value
		if half := halfCharacter(written); half != "" {
			r.sheet.fault(pos, "", "%s is half a character: write the character itself", half)
		}
	case json.Number:
		node.Tag, node.Value = "!!float", value.String()
		if full, is := withoutExponent(node.Value); is {
			r.sheet.fault(pos, "", "%s, a figure with an exponent: write %s", show(node.Value), cmp.Or(full, "the figure out"))
			node.Value = cmp.Or(full, node.Value)
		}
	case bool:
		node.Tag, node.Value = "!!bool", fmt.Sprint(value)
	default:
		node.Tag, node.Value = nullTag, "null"
	}
	return node, true
}

// content reads what is between the brackets or braces of a node.
func (r *jsonReader) content(node *yaml.Node, depth int) bool {
	if depth > maxJSONDepth {
		r.sheet.fault(posOf(node), "", "%d groups and lists within each other: no sheet needs as many, take some out", depth)
		return false
	}
	for r.decoder.More() {
		child, ok := r.value(depth)
		if !ok {
			return false
		}
		node.Content = append(node.Content, child)
	}
	_, _, pos, err := r.next()
	if err != nil {
		r.sheet.fault(pos, "", "cannot be read: write it as JSON")
	}
	return err == nil
}

// halfCharacter finds an escape that is one half of a character beyond U+FFFF without
// the other (RFC 8259, section 7), in a string as it is written; "" without one.
func halfCharacter(written []byte) string {
	for rest := written; ; {
		at := bytes.IndexByte(rest, '\\')
		if at < 0 || at+2 > len(rest) {
			return ""
		}
		rest = rest[at:]
		unit, is := escapedUnit(rest)
		switch {
		case !is:
			rest = rest[2:]
			continue
		case !utf16.IsSurrogate(unit):
			rest = rest[6:]
			continue
		}
		if second, follows := escapedUnit(rest[6:]); follows && utf16.DecodeRune(unit, second) != utf8.RuneError {
			rest = rest[12:]
			continue
		}
		return string(rest[:6])
	}
}

// escapedUnit reads \uXXXX at the beginning of a text.
func escapedUnit(text []byte) (rune, bool) {
	if len(text) < 6 || text[0] != '\\' || text[1] != 'u' {
		return 0, false
	}
	unit, err := strconv.ParseUint(string(text[2:6]), 16, 16)
	return rune(unit), err == nil
}

// withoutExponent writes a figure of JSON without its exponent, where it has one, with
// all the decimals that it says: 8.1260e2 is 812.60. One with more than 20 zeros is "".
func withoutExponent(figure string) (string, bool) {
	e := strings.IndexAny(figure, "eE")
	if e < 0 {
		return figure, false
	}
	const farthest = 20
	shift, err := strconv.Atoi(figure[e+1:])
	if err != nil || shift < -farthest || shift > farthest {
		return "", true
	}
	sign, unsigned := "", figure[:e]
	if strings.HasPrefix(unsigned, "-") {
		sign, unsigned = "-", unsigned[1:]
	}
	whole, decimals, _ := strings.Cut(unsigned, ".")
	digits, point := whole+decimals, len(whole)+shift
	if point < 1 {
		digits, point = strings.Repeat("0", 1-point)+digits, 1
	}
	digits += strings.Repeat("0", max(0, point-len(digits)))
	whole = strings.TrimLeft(digits[:point-1], "0") + digits[point-1:point]
	if point == len(digits) {
		return sign + whole, true
	}
	return sign + whole + "." + digits[point:], true
}
