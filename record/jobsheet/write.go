package jobsheet

import (
	"strings"

	"hourseal/record/quantity"
)

// written is a value on its way into a file, as YAML or as JSON. The zero value
// is nothing: its key is left out.
type written struct {
	shape  shape
	text   string         // of the shapes of a single value
	list   []written      // of listShape
	keys   []writtenValue // of groupShape
	apart  bool           // each key of the group on a line of its own, always
	remark string         // behind the key, in YAML
}

// writtenValue is a key with its value.
type writtenValue struct {
	key   string
	value written
}

type shape uint8

const (
	leftOut     shape = iota
	textShape         // words that may need quotes
	plainShape        // a figure with its unit, a date: a text that needs no quotes
	numberShape       // a plain figure: a number in JSON
	wordShape         // true or false
	linesShape        // a text of several lines
	listShape
	groupShape
)

func (v written) isSingle() bool { return v.shape != listShape && v.shape != groupShape }

// groupOf is a group of keys in the order of its form; nothing where all are left out.
func groupOf(f form, values map[string]written) written {
	var keys []writtenValue
	for _, k := range f {
		if value := values[k.name]; value.shape != leftOut {
			keys = append(keys, writtenValue{k.name, value})
		}
	}
	if len(keys) == 0 {
		return written{}
	}
	return written{shape: groupShape, keys: keys}
}

// eachOf is a list; nothing without entries.
func eachOf[T any](values []T, write func(T) written) written {
	var list []written
	for _, value := range values {
		if w := write(value); w.shape != leftOut {
			list = append(list, w)
		}
	}
	if len(list) == 0 {
		return written{}
	}
	return written{shape: listShape, list: list}
}

// apart writes each key on a line of its own, however short they are.
func apart(v written) written {
	v.apart = true
	return v
}

func (v written) remarked(remark string) written {
	v.remark = remark
	return v
}

func writeText(text string) written {
	if text == "" {
		return written{}
	}
	return written{shape: textShape, text: text}
}

// writePlain takes the text of a figure with its unit, of a date, or of a word that the forms
// know. One that cannot be such, as of a value out of its range, has quotes.
func writePlain(text string) written {
	if !isPlainFigure(text) {
		return writeText(text)
	}
	return written{shape: plainShape, text: text}
}

// isPlainFigure says whether a text begins as a figure and goes on with nothing that
// YAML could take for anything else. Units are of ASCII letters, digits, spaces, / and %.
func isPlainFigure(text string) bool {
	digits := 0
	for i := range len(text) {
		switch c := text[i]; {
		case c >= '0' && c <= '9':
			digits++
		case c == '-' && (i == 0 || digits > 0):
		case digits == 0:
			return false
		case c == ' ' && i+1 < len(text), c == '.', c == '/', c == '%', c >= 'a' && c <= 'z', c >= 'A' && c <= 'Z':
		default:
			return false
		}
	}
	return digits > 0
}

func writeNumber(text string) written { return written{shape: numberShape, text: text} }

func writeHours(h quantity.Hours) written { return writeNumber(h.String()) }

func writeDate(d quantity.Date) written { return writePlain(d.String()) }

func writeTruth(b bool) written {
	if b {
		return written{shape: wordShape, text: "true"}
	}
	return written{shape: wordShape, text: "false"}
}

func writeTexts(texts []string) written { return eachOf(texts, writeText) }

// writeWord takes a value of an enumeration; 0 is nothing.
func writeWord[T interface {
	~uint8 | ~uint16
	String() string
}](value T) written {
	if value == 0 {
		return written{}
	}
	return writeText(value.String())
}

// writeIf writes what is there; nil is nothing.
func writeIf[T any](value *T, write func(T) written) written {
	if value == nil {
		return written{}
	}
	return write(*value)
}

// writeTemperature has no sign of a degree: "-25 C".
func writeTemperature(t quantity.Temperature) written {
	return writePlain(strings.Replace(t.String(), "°", "", 1))
}

// writeAmount writes an amount as it was written, a sum as the list that it was.
func writeAmount(m quantity.Measured) written {
	switch {
	case m.NotMeasured:
		return writeText(notMeasured)
	case len(m.Portions) == 1:
		return writePlain(m.Portions[0].String())
	}
	return eachOf(m.Portions, func(p quantity.Portion) written { return writePlain(p.String()) })
}
