package jobsheet

import (
	"bytes"
	"encoding/json"
)

// json is the text of a file as JSON, set in by two spaces.
func (v written) json() []byte {
	var compact, text bytes.Buffer
	v.appendJSON(&compact)
	if err := json.Indent(&text, compact.Bytes(), "", "  "); err != nil {
		return compact.Bytes() // as it stands: nothing written here is no JSON
	}
	text.WriteByte('\n')
	return text.Bytes()
}

func (v written) appendJSON(b *bytes.Buffer) {
	switch v.shape {
	case numberShape, wordShape:
		b.WriteString(v.text)
	case listShape:
		b.WriteByte('[')
		for i, item := range v.list {
			if i > 0 {
				b.WriteByte(',')
			}
			item.appendJSON(b)
		}
		b.WriteByte(']')
	case groupShape, leftOut: // nothing at all is a sheet without keys
		b.WriteByte('{')
		for i, k := range v.keys {
			if i > 0 {
				b.WriteByte(',')
			}
			appendJSONText(b, k.key)
			b.WriteByte(':')
			k.value.appendJSON(b)
		}
		b.WriteByte('}')
	default:
		appendJSONText(b, v.text)
	}
}

// appendJSONText writes a text with nothing escaped that need not be: <, > and &
// stand as they are.
func appendJSONText(b *bytes.Buffer, text string) {
	e := json.NewEncoder(b)
	e.SetEscapeHTML(false)
	if err := e.Encode(text); err != nil {
		return // a string is always encoded
	}
	b.Truncate(b.Len() - 1) // the encoder's line end
}
