package source

import (
	"bytes"
	"strconv"
)

// PDF syntax as any program writes it (ISO 32000-1 sections 7.2 and 7.3), read for
// the pictures of a scan and for nothing else. What is not understood is passed over.

const (
	maxLooseBytes   = 16 << 10 // of one object's dictionary
	maxLooseNesting = 16
	maxLooseKeys    = 128
	maxLooseObjects = 200_000
	maxLooseInput   = 64 << 20 // bytes of dictionaries read, over the whole file
)

// looseDict is a dictionary: each value as it is written.
type looseDict map[string][]byte

// looseScanner walks over values. After a fault its functions give nothing more.
type looseScanner struct {
	data []byte
	pos  int
}

func isPDFSpace(c byte) bool {
	return c == ' ' || c == '\n' || c == '\r' || c == '\t' || c == '\f' || c == 0
}

// isPDFRegular: neither white space nor a delimiter.
func isPDFRegular(c byte) bool {
	return !isPDFSpace(c) && bytes.IndexByte([]byte("()<>[]{}/%"), c) < 0
}

// space steps over white space and comments.
func (s *looseScanner) space() {
	for s.pos < len(s.data) {
		switch c := s.data[s.pos]; {
		case isPDFSpace(c):
			s.pos++
		case c == '%':
			for s.pos < len(s.data) && s.data[s.pos] != '\n' && s.data[s.pos] != '\r' {
				s.pos++
			}
		default:
			return
		}
	}
}

func (s *looseScanner) literal(text string) bool {
	if !bytes.HasPrefix(s.data[s.pos:], []byte(text)) {
		return false
	}
	s.pos += len(text)
	return true
}

// regular steps over regular characters and returns them.
func (s *looseScanner) regular() []byte {
	from := s.pos
	for s.pos < len(s.data) && isPDFRegular(s.data[s.pos]) {
		s.pos++
	}
	return s.data[from:s.pos]
}

// value returns the next value as it is written, nil if there is none.
func (s *looseScanner) value(depth int) []byte {
	s.space()
	from := s.pos
	if from >= len(s.data) || depth > maxLooseNesting {
		return nil
	}
	ok := true
	switch c := s.data[s.pos]; {
	case c == '/':
		s.pos++
		s.regular()
	case c == '(':
		ok = s.str()
	case bytes.HasPrefix(s.data[s.pos:], []byte("<<")):
		_, ok = s.dict(depth + 1)
	case c == '<':
		ok = s.until('>')
	case c == '[':
		_, ok = s.array(depth + 1)
	case isPDFRegular(c):
		if isNatural(s.regular()) {
			s.restOfReference()
		}
	default:
		ok = false
	}
	if !ok {
		return nil
	}
	return s.data[from:s.pos]
}

// restOfReference steps over "0 R" after a number, if that is what follows.
func (s *looseScanner) restOfReference() {
	back := s.pos
	s.space()
	if isNatural(s.regular()) {
		if s.space(); string(s.regular()) == "R" {
			return
		}
	}
	s.pos = back
}

// str steps over a literal string with balanced parentheses.
func (s *looseScanner) str() bool {
	open := 0
	for ; s.pos < len(s.data); s.pos++ {
		switch s.data[s.pos] {
		case '\\':
			s.pos++
		case '(':
			open++
		case ')':
			if open--; open == 0 {
				s.pos++
				return true
			}
		}
	}
	s.pos = len(s.data)
	return false
}

func (s *looseScanner) until(end byte) bool {
	i := bytes.IndexByte(s.data[s.pos:], end)
	if i < 0 {
		return false
	}
	s.pos += i + 1
	return true
}

func (s *looseScanner) array(depth int) (values [][]byte, ok bool) {
	s.pos++
	for {
		if s.space(); s.literal("]") {
			return values, true
		}
		v := s.value(depth)
		if v == nil {
			return nil, false
		}
		values = append(values, v)
	}
}

// dict reads a dictionary. Of a key that occurs twice the first counts.
func (s *looseScanner) dict(depth int) (looseDict, bool) {
	if !s.literal("<<") {
		return nil, false
	}
	d := looseDict{}
	for {
		if s.space(); s.literal(">>") {
			return d, true
		}
		if !s.literal("/") || len(d) == maxLooseKeys {
			return nil, false
		}
		key := string(s.regular())
		v := s.value(depth)
		if v == nil {
			return nil, false
		}
		if d[key] == nil {
			d[key] = v
		}
	}
}

func isNatural(b []byte) bool {
	for _, c := range b {
		if !isDigit(c) {
			return false
		}
	}
	return len(b) > 0
}

// looseFile is a PDF whose objects were looked for by their first words, whatever
// its cross-reference table says.
type looseFile struct {
	data    []byte
	at      map[int]int // by number: the offset after "obj", of the last of that number
	places  []place     // all of them, in order
	read    int         // bytes of dictionaries read so far
	endAt   int         // the last "endstream" found, looked for from endFrom on
	endFrom int
	over    bool // a limit was reached
}

type place struct{ number, offset int }

func newLooseFile(data []byte) *looseFile {
	f := &looseFile{data: data, at: map[int]int{}, endAt: -1}
	for at := 0; ; {
		i := bytes.Index(data[at:], []byte("obj"))
		if i < 0 {
			return f
		}
		at += i + len("obj")
		number, ok := numberBefore(data, at-len("obj"))
		if !ok {
			continue
		}
		if len(f.places) == maxLooseObjects {
			f.over = true
			return f
		}
		f.places = append(f.places, place{number, at})
		f.at[number] = at
	}
}

// numberBefore reads "12 0 " backwards from end.
func numberBefore(data []byte, end int) (number int, ok bool) {
	back := func(is func(byte) bool) int {
		from := end
		for end > 0 && from-end <= maxDigits && is(data[end-1]) {
			end--
		}
		return from - end
	}
	if back(isPDFSpace) == 0 || back(isDigit) == 0 || back(isPDFSpace) == 0 {
		return 0, false
	}
	to := end
	if n := back(isDigit); n == 0 || n > maxDigits {
		return 0, false
	}
	number, err := strconv.Atoi(string(data[end:to]))
	return number, err == nil
}

// dictAt reads the dictionary at an offset. next is where it ends.
func (f *looseFile) dictAt(offset int) (d looseDict, next int, ok bool) {
	if f.read >= maxLooseInput {
		f.over = true
		return nil, offset, false
	}
	s := looseScanner{data: f.data[offset:min(len(f.data), offset+maxLooseBytes)]}
	s.space()
	d, ok = s.dict(0)
	f.read += s.pos
	return d, offset + s.pos, ok
}

// resolve follows references to the value itself.
func (f *looseFile) resolve(value []byte) []byte {
	for range 4 {
		number, ok := looseReference(value)
		if !ok {
			return value
		}
		offset, known := f.at[number]
		if !known || f.read >= maxLooseInput {
			return nil
		}
		s := looseScanner{data: f.data[offset:min(len(f.data), offset+maxLooseBytes)]}
		value = s.value(0)
		f.read += s.pos
	}
	return nil
}

func looseReference(value []byte) (number int, ok bool) {
	const longest = maxDigits + len(" 00000 R") + 4
	if len(value) > longest || !bytes.HasSuffix(value, []byte("R")) {
		return 0, false
	}
	words := bytes.Fields(value)
	if len(words) != 3 || !isNatural(words[0]) || len(words[0]) > maxDigits {
		return 0, false
	}
	number, err := strconv.Atoi(string(words[0]))
	return number, err == nil
}

// natural resolves a whole number.
func (f *looseFile) natural(value []byte) (int, bool) {
	value = f.resolve(value)
	if !isNatural(value) || len(value) > maxDigits {
		return 0, false
	}
	n, err := strconv.Atoi(string(value))
	return n, err == nil
}

// name resolves a name, and gives it without the slash.
func (f *looseFile) name(value []byte) string {
	name, ok := bytes.CutPrefix(f.resolve(value), []byte("/"))
	if !ok {
		return ""
	}
	return string(name)
}

// list resolves an array, or a value that stands for an array of one.
func (f *looseFile) list(value []byte) [][]byte {
	value = f.resolve(value)
	if !bytes.HasPrefix(value, []byte("[")) {
		if value == nil {
			return nil
		}
		return [][]byte{value}
	}
	s := looseScanner{data: value}
	values, _ := s.array(0)
	return values
}

// dict resolves a dictionary, nil if it is none.
func (f *looseFile) dict(value []byte) looseDict {
	s := looseScanner{data: f.resolve(value)}
	d, ok := s.dict(0)
	if !ok {
		return nil
	}
	return d
}
