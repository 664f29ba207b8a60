package source

import "bytes"

// The subset of PDF syntax (ISO 32000-1 section 7.3) that reports use: space
// and line feed as the only white space, no comments, no escapes in names, and
// in literal strings only the four escapes that the writer makes.

// entry is one key of a dictionary and the bytes of its value.
type entry struct {
	key      []byte // without the slash
	value    []byte
	from, to int // offsets of the value in the file
}

type dict []entry

func (d dict) get(key string) []byte {
	for _, e := range d {
		if string(e.key) == key {
			return e.value
		}
	}
	return nil
}

// is reports whether the value of key is written exactly so.
func (d dict) is(key, written string) bool { return string(d.get(key)) == written }

// only reports whether every key of d is among the allowed ones.
func (d dict) only(allowed ...string) bool {
next:
	for _, e := range d {
		for _, a := range allowed {
			if string(e.key) == a {
				continue next
			}
		}
		return false
	}
	return true
}

// Limits on what one object may hold, so that no file takes long to refuse.
const (
	maxNesting = 8
	maxKeys    = 64 // of one dictionary
)

// scanner walks over PDF syntax. After the first fault, reason is set and all
// further calls fail.
type scanner struct {
	data   []byte
	pos    int
	reason string

	largestRef    int // highest object number referred to so far
	embeddedFiles int // dictionaries of type EmbeddedFile so far, at any depth
	fileLinks     int // dictionaries with an /EF so far, at any depth
}

func (s *scanner) fail(reason string) bool {
	if s.reason == "" {
		s.reason = reason
	}
	return false
}

// literal steps over text if it comes next.
func (s *scanner) literal(text string) bool {
	if len(s.data)-s.pos < len(text) || string(s.data[s.pos:s.pos+len(text)]) != text {
		return false
	}
	s.pos += len(text)
	return true
}

func (s *scanner) peek() byte {
	if s.pos < len(s.data) {
		return s.data[s.pos]
	}
	return 0
}

func (s *scanner) space() {
	for s.pos < len(s.data) && (s.data[s.pos] == ' ' || s.data[s.pos] == '\n') {
		s.pos++
	}
}

// maxDigits keeps every whole number well inside an int.
const maxDigits = 9

// natural reads a whole number in its shortest form.
func (s *scanner) natural() (int, bool) {
	start, n := s.pos, 0
	for isDigit(s.peek()) && s.pos-start <= maxDigits {
		n = n*10 + int(s.data[s.pos]-'0')
		s.pos++
	}
	digits := s.pos - start
	if digits == 0 || digits > maxDigits || digits > 1 && s.data[start] == '0' {
		s.pos = start
		return 0, false
	}
	return n, true
}

// dict reads a dictionary. Keys occur once.
func (s *scanner) dict(depth int) (dict, bool) {
	if depth > maxNesting {
		return nil, s.fail("nested too deeply")
	}
	if !s.literal("<<") {
		return nil, s.fail("a dictionary is missing")
	}
	var d dict
	for {
		s.space()
		if s.literal(">>") {
			return d, true
		}
		key, ok := s.name()
		if !ok {
			return nil, s.fail("a dictionary key is missing")
		}
		switch {
		case len(d) == maxKeys:
			return nil, s.fail("a dictionary with too many keys")
		case d == nil:
			d = make(dict, 0, 8)
		case d.get(string(key)) != nil:
			return nil, s.fail("a dictionary has a key twice")
		}
		s.space()
		from := s.pos
		if !s.value(depth + 1) {
			return nil, false
		}
		e := entry{key: key, value: s.data[from:s.pos], from: from, to: s.pos}
		d = append(d, e)
		switch {
		case string(key) == "EF":
			s.fileLinks++
		case string(key) == "Type" && string(e.value) == "/EmbeddedFile":
			s.embeddedFiles++
		}
	}
}

// name reads /Name and returns it without the slash.
func (s *scanner) name() ([]byte, bool) {
	if s.peek() != '/' {
		return nil, false
	}
	start := s.pos + 1
	end := start
	for end < len(s.data) && isNameByte(s.data[end]) {
		end++
	}
	if end == start {
		return nil, false
	}
	s.pos = end
	return s.data[start:end], true
}

// value steps over one value of any type.
func (s *scanner) value(depth int) bool {
	switch c := s.peek(); {
	case c == '/':
		if _, ok := s.name(); !ok {
			return s.fail("an empty name")
		}
		return true
	case c == '(':
		return s.str()
	case c == '<' && s.pos+1 < len(s.data) && s.data[s.pos+1] == '<':
		_, ok := s.dict(depth)
		return ok
	case c == '<':
		return s.hex()
	case c == '[':
		return s.array(depth)
	case c == '-' || isDigit(c):
		return s.numberOrRef()
	}
	for _, word := range []string{"null", "true", "false"} {
		if s.literal(word) {
			return s.ends()
		}
	}
	return s.fail("a value is missing")
}

// ends makes sure that a number or word does not run into the next token.
func (s *scanner) ends() bool {
	if s.pos < len(s.data) && (isNameByte(s.peek())) {
		return s.fail("a value runs into the next one")
	}
	return true
}

func (s *scanner) array(depth int) bool {
	if depth > maxNesting {
		return s.fail("nested too deeply")
	}
	s.pos++
	for {
		s.space()
		if s.literal("]") {
			return true
		}
		if !s.value(depth + 1) {
			return false
		}
	}
}

// str steps over a literal string as the writer makes it: parentheses and the
// backslash escaped, a carriage return as \r.
func (s *scanner) str() bool {
	for i := s.pos + 1; i < len(s.data); i++ {
		switch s.data[i] {
		case ')':
			s.pos = i + 1
			return true
		case '(', '\r':
			return s.fail("a string that this program does not write")
		case '\\':
			if i++; i == len(s.data) || bytes.IndexByte([]byte(`\()r`), s.data[i]) < 0 {
				return s.fail("a string that this program does not write")
			}
		}
	}
	return s.fail("a string does not end")
}

func (s *scanner) hex() bool {
	for i := s.pos + 1; i < len(s.data); i++ {
		switch c := s.data[i]; {
		case c == '>':
			s.pos = i + 1
			return true
		case !isDigit(c) && (c < 'a' || c > 'f'):
			return s.fail("a string that this program does not write")
		}
	}
	return s.fail("a string does not end")
}

func (s *scanner) numberOrRef() bool {
	if n, ok := s.natural(); ok {
		if s.literal(" 0 R") {
			if n == 0 {
				return s.fail("a reference to object 0")
			}
			s.largestRef = max(s.largestRef, n)
			return s.ends()
		}
		if s.peek() != '.' {
			return s.ends()
		}
	}
	if s.peek() == '-' {
		s.pos++
	}
	digits := func() bool {
		start := s.pos
		for isDigit(s.peek()) {
			s.pos++
		}
		return s.pos > start
	}
	// After a whole number only the fraction is left to read.
	if s.peek() != '.' && !digits() {
		return s.fail("a number that this program does not write")
	}
	if s.literal(".") && !digits() {
		return s.fail("a number that this program does not write")
	}
	return s.ends()
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

// isNameByte: regular characters in ASCII but #, which would start an escape.
func isNameByte(c byte) bool {
	return c > ' ' && c < 0x7f && bytes.IndexByte([]byte("()<>[]{}/%#"), c) < 0
}

// reference reads a value that is nothing but "N 0 R".
func reference(value []byte) (int, bool) {
	s := scanner{data: value}
	n, ok := s.natural()
	return n, ok && s.literal(" 0 R") && s.pos == len(value)
}

// dictOf reads a value that is nothing but a dictionary.
func dictOf(value []byte) (dict, bool) {
	s := scanner{data: value}
	d, ok := s.dict(0)
	return d, ok && s.pos == len(value)
}

// naturalOf reads a value that is nothing but a whole number.
func naturalOf(value []byte) (int, bool) {
	s := scanner{data: value}
	n, ok := s.natural()
	return n, ok && s.pos == len(value)
}

// references reads a value that is nothing but an array of references.
func references(value []byte) ([]int, bool) {
	s := scanner{data: value}
	if !s.literal("[") {
		return nil, false
	}
	var refs []int
	for {
		s.space()
		if s.literal("]") {
			return refs, s.pos == len(value)
		}
		n, ok := s.natural()
		if !ok || !s.literal(" 0 R") {
			return nil, false
		}
		refs = append(refs, n)
	}
}

// unescape returns the bytes of a literal string that str has stepped over.
func unescape(literal []byte) []byte {
	if len(literal) < 2 || literal[0] != '(' {
		return nil
	}
	inner := literal[1 : len(literal)-1]
	out := make([]byte, 0, len(inner))
	for i := 0; i < len(inner); i++ {
		c := inner[i]
		if c == '\\' && i+1 < len(inner) {
			if i++; inner[i] == 'r' {
				c = '\r'
			} else {
				c = inner[i]
			}
		}
		out = append(out, c)
	}
	return out
}
