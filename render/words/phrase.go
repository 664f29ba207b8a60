package words

import "strings"

// Phrase is text with places to fill; see the package comment.
type Phrase string

// notStated is printed for a place that has nothing to fill it.
const notStated = "not stated"

// With fills the places: names and values in turn. A name without a value is
// ignored.
func (p Phrase) With(pairs ...string) string {
	values := make(map[string]string, len(pairs)/2)
	for i := 0; i+1 < len(pairs); i += 2 {
		values[pairs[i]] = pairs[i+1]
	}
	return p.fill(values)
}

func (p Phrase) fill(values map[string]string) string {
	var out strings.Builder
	rest := string(p)
	for rest != "" {
		before, after, found := strings.Cut(rest, "[")
		text, _ := fillPlaces(before, values)
		out.WriteString(text)
		if !found {
			break
		}
		optional, next, _ := strings.Cut(after, "]")
		if text, whole := fillPlaces(optional, values); whole {
			out.WriteString(text)
		}
		rest = next
	}
	return out.String()
}

// fillPlaces fills the places of one piece of text and says whether each had
// something to fill it.
func fillPlaces(text string, values map[string]string) (filled string, whole bool) {
	var out strings.Builder
	whole = true
	for {
		before, after, found := strings.Cut(text, "{")
		out.WriteString(before)
		if !found {
			return out.String(), whole
		}
		name, rest, closed := strings.Cut(after, "}")
		if !closed {
			out.WriteString("{" + after)
			return out.String(), whole
		}
		value := values[name]
		if value == "" {
			value, whole = notStated, false
		}
		out.WriteString(value)
		text = rest
	}
}

// places lists the names of a phrase's places, in order.
func (p Phrase) places() []string {
	var names []string
	for rest := string(p); ; {
		_, after, found := strings.Cut(rest, "{")
		if !found {
			return names
		}
		name, next, _ := strings.Cut(after, "}")
		names = append(names, name)
		rest = next
	}
}

// Joined joins what is not empty.
func Joined(between string, parts ...string) string {
	var said []string
	for _, part := range parts {
		if part != "" {
			said = append(said, part)
		}
	}
	return strings.Join(said, between)
}
