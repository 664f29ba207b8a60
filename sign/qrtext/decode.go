package qrtext

import (
	"bytes"
	"compress/flate"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"sync"
)

var (
	// ErrNotOurs is the error for a text with another prefix: a QR code of
	// somebody else's, not a damaged one of ours.
	ErrNotOurs = errors.New("not a hourseal QR text: it begins with neither hourseal: nor HTTPS://HOST/#")
	// ErrMalformed is matched by the error for a text with our prefix that does
	// not decode; the error says why.
	ErrMalformed = errors.New("damaged QR text")
	// ErrMixed is matched by the error for texts that do not belong together.
	ErrMixed = errors.New("QR texts of more than one record")
)

// MissingPartsError says which parts of a record are not there.
type MissingPartsError struct {
	Missing []int // part numbers from 1 on, ascending
	// What the parts that there are have in common, as in [Part].
	Count      int
	Record     uint32
	Dictionary int
}

func (e *MissingPartsError) Error() string {
	numbers := strings.Trim(strings.ReplaceAll(fmt.Sprint(e.Missing), " ", ", "), "[]")
	if len(e.Missing) == 1 {
		return fmt.Sprintf("part %s of %d is missing: read the other QR codes of the report too", numbers, e.Count)
	}
	return fmt.Sprintf("parts %s of %d are missing: read the other QR codes of the report too", numbers, e.Count)
}

// Decoded is what the texts hold.
type Decoded struct {
	Envelope []byte // at most MaxInflatedBytes; not yet checked in any way
	Host     string // of the page in the prefix, in lower case; empty for hourseal:
}

// Part is one text, taken apart: a whole record, or a part of one. Its digits
// are known to be digits, no more.
type Part struct {
	Host   string // as in Decoded
	Number int    // from 1 on; 0 for a whole record
	Count  int    // 2 to 99; 0 for a whole record
	Record uint32 // names the record among parts, below 10^8; 0 for a whole one
	// Dictionary is the number of the dictionary that the record was deflated
	// with, 0 for none. Parts of one record that differ in it were printed from
	// two texts and do not go together.
	Dictionary int
	digits     string // of the deflated envelope, all or a piece
}

// SameRecord says whether both are parts of one record, and printed from one text. A
// whole record is no part, not even of itself.
func (p Part) SameRecord(q Part) bool {
	return p.Count != 0 && p.Count == q.Count && p.Record == q.Record && p.Dictionary == q.Dictionary
}

// maxTextBytes is the length of the longest text that is looked at, white space
// around it included.
const maxTextBytes = 64 << 10

// whiteSpace may stand around a text: scanners end one with a newline.
const whiteSpace = " \t\r\n"

// Parse takes one text apart, for a caller that collects the parts of a record.
// The error is [ErrNotOurs], a [ReferenceError], or matches [ErrMalformed].
func Parse(text string) (Part, error) {
	return parse(text, cutPrefix)
}

// ParseFragment is Parse for the "#" and the digits of a text with a host, which is
// left empty. Places in an error are counted from the "#".
func ParseFragment(fragment string) (Part, error) {
	return parse(fragment, cutFragmentMark)
}

// parse takes apart a text of which cut gives the host and where the digits begin.
func parse(text string, cut func(string) (host string, digitsAt int, err error)) (Part, error) {
	if len(text) > maxTextBytes {
		return Part{}, fmt.Errorf("%w: %d characters is too long", ErrMalformed, len(text))
	}
	text = strings.Trim(text, whiteSpace)
	host, at, err := cut(text)
	if err != nil {
		return Part{}, err
	}
	digits := text[at:]
	for i := range len(digits) {
		if !isDigit(digits[i]) {
			return Part{}, fmt.Errorf("%w: character %d is not a digit", ErrMalformed, at+i+1)
		}
	}
	if digits == "" {
		return Part{}, fmt.Errorf("%w: no digits", ErrMalformed)
	}
	part := Part{Host: host, Dictionary: dictionaryOf[digits[0]]}
	switch digits[0] {
	case formatWhole, formatPlainWhole:
		part.digits = digits[firstPieceDigit:]
	case formatPart, formatPlainPart:
		if len(digits) <= partHeadDigits {
			return Part{}, fmt.Errorf("%w: it ends within the head of a part", ErrMalformed)
		}
		part.Number = number(digits[1:3])
		part.Count = number(digits[3:5])
		part.Record = uint32(number(digits[5:partHeadDigits]))
		part.digits = digits[partHeadDigits:]
		if part.Count < 2 || part.Number < 1 || part.Number > part.Count {
			return Part{}, fmt.Errorf("%w: part %d of %d", ErrMalformed, part.Number, part.Count)
		}
	case formatReference:
		return Part{}, readReference(host, digits[firstPieceDigit:])
	default:
		return Part{}, fmt.Errorf("%w: format %c is not known; a newer program may read it", ErrMalformed, digits[0])
	}
	if len(part.digits) > digitsFor(MaxDeflatedBytes) {
		return Part{}, fmt.Errorf("%w: %d digits is too long", ErrMalformed, len(digits))
	}
	return part, nil
}

// number reads a few decimal digits.
func number(digits string) int {
	n := 0
	for i := range len(digits) {
		n = n*10 + int(digits[i]-'0')
	}
	return n
}

// Decode reads the texts of one record: a whole one, or all its parts in any
// order. The same text twice does no harm. The error is [ErrNotOurs], or it
// matches one of [MissingPartsError], [ReferenceError], [ErrMalformed] and
// [ErrMixed].
func Decode(texts []string) (Decoded, error) {
	if len(texts) == 0 {
		return Decoded{}, fmt.Errorf("%w: no text", ErrMalformed)
	}
	parts := make([]Part, 0, min(len(texts), maxParts))
	for i, text := range texts {
		part, err := Parse(text)
		switch {
		case err != nil && len(texts) > 1:
			return Decoded{}, fmt.Errorf("text %d: %w", i+1, err)
		case err != nil:
			return Decoded{}, err
		case slices.Contains(parts, part):
		case len(parts) == maxParts:
			return Decoded{}, fmt.Errorf("%w: over %d different texts", ErrMixed, maxParts)
		default:
			parts = append(parts, part)
		}
	}
	return Join(parts)
}

// Join is Decode for texts already taken apart by [Parse].
func Join(parts []Part) (Decoded, error) {
	if len(parts) == 0 {
		return Decoded{}, fmt.Errorf("%w: no text", ErrMalformed)
	}
	first := parts[0]
	digits := first.digits
	if first.Count == 0 {
		for _, p := range parts[1:] {
			if p != first {
				return Decoded{}, fmt.Errorf("%w: give the texts of one report at a time", ErrMixed)
			}
		}
	} else {
		var err error
		if digits, err = assemble(parts); err != nil {
			return Decoded{}, err
		}
	}
	// Dictionary is public: the caller may have made it up.
	if first.Dictionary < 0 || first.Dictionary >= len(dictionaries) {
		return Decoded{}, fmt.Errorf("%w: dictionary %d is not known", ErrMalformed, first.Dictionary)
	}
	envelope, err := inflateDigits(digits, dictionaries[first.Dictionary])
	if err != nil {
		return Decoded{}, err
	}
	if first.Count != 0 && PartsName(envelope) != first.Record {
		return Decoded{}, fmt.Errorf("%w: the parts do not make the record that they name", ErrMalformed)
	}
	return Decoded{Envelope: envelope, Host: first.Host}, nil
}

// assemble puts the pieces in order. parts[0] is a part, not a whole record.
func assemble(parts []Part) (string, error) {
	first := parts[0]
	// Count is public: the caller may have made it up.
	if first.Count < 2 || first.Count > maxParts {
		return "", fmt.Errorf("%w: %d parts", ErrMalformed, first.Count)
	}
	pieces := make([]string, first.Count)
	for _, p := range parts {
		switch {
		case p.Count != first.Count || p.Record != first.Record:
			return "", fmt.Errorf("%w: give the texts of one report at a time", ErrMixed)
		case p.Dictionary != first.Dictionary:
			return "", fmt.Errorf("%w: the parts were printed at different times, by an older and a newer program: give the texts of one report at a time", ErrMixed)
		case p.Host != first.Host:
			return "", fmt.Errorf("%w: the parts name different hosts, %s and %s", ErrMixed, hostOrNone(first.Host), hostOrNone(p.Host))
		case p.Number < 1 || p.Number > p.Count:
			return "", fmt.Errorf("%w: part %d of %d", ErrMalformed, p.Number, p.Count)
		case pieces[p.Number-1] != "" && pieces[p.Number-1] != p.digits:
			return "", fmt.Errorf("%w: two different texts say part %d of %d", ErrMixed, p.Number, p.Count)
		}
		pieces[p.Number-1] = p.digits
	}
	var missing []int
	total := 0
	for i, piece := range pieces {
		if piece == "" {
			missing = append(missing, i+1)
		}
		total += len(piece)
	}
	if missing != nil {
		return "", &MissingPartsError{missing, first.Count, first.Record, first.Dictionary}
	}
	if total > digitsFor(MaxDeflatedBytes) {
		return "", fmt.Errorf("%w: %d digits in all is too long", ErrMalformed, total)
	}
	size := pieceDigits(total, first.Count)
	for i, piece := range pieces[:len(pieces)-1] {
		if len(piece) != size {
			return "", fmt.Errorf("%w: part %d of %d has %d digits, not %d", ErrMalformed, i+1, first.Count, len(piece), size)
		}
	}
	return strings.Join(pieces, ""), nil
}

func hostOrNone(host string) string {
	if host == "" {
		return "none"
	}
	return host
}

// inflater is what inflating needs, kept for the next text: a flate reader
// alone is 50 KB.
type inflater struct {
	source   bytes.Reader
	reader   io.ReadCloser // also a flate.Resetter
	deflated []byte
	inflated []byte
}

var inflaters = sync.Pool{New: func() any {
	return &inflater{
		reader:   flate.NewReader(nil),
		inflated: make([]byte, MaxInflatedBytes+1),
	}
}}

// inflateDigits gives the bytes that digits stand for, inflated with a
// dictionary, nil for none.
func inflateDigits(digits string, dictionary []byte) ([]byte, error) {
	f := inflaters.Get().(*inflater)
	defer inflaters.Put(f)
	deflated, err := appendBytes(f.deflated[:0], digits)
	if err != nil {
		return nil, err
	}
	f.deflated = deflated
	f.source.Reset(deflated)
	if err := f.reader.(flate.Resetter).Reset(&f.source, dictionary); err != nil {
		return nil, fmt.Errorf("%w: %w", ErrMalformed, err)
	}
	n, err := io.ReadFull(f.reader, f.inflated)
	switch {
	case err == nil:
		return nil, fmt.Errorf("%w: it inflates to over %d bytes", ErrMalformed, MaxInflatedBytes)
	// ReadFull says ErrUnexpectedEOF both for a stream that ended before the
	// buffer was full, which is what should be, and for a stream cut short; the
	// next Read tells them apart.
	case errors.Is(err, io.ErrUnexpectedEOF):
		if _, err := f.reader.Read(f.inflated[n:]); err != io.EOF {
			return nil, fmt.Errorf("%w: it is cut short", ErrMalformed)
		}
	case err == io.EOF:
		return nil, fmt.Errorf("%w: it inflates to nothing", ErrMalformed)
	default:
		return nil, fmt.Errorf("%w: a part of it is wrong or missing", ErrMalformed)
	}
	if left := f.source.Len(); left != 0 {
		return nil, fmt.Errorf("%w: %d bytes are left over after the record", ErrMalformed, left)
	}
	return bytes.Clone(f.inflated[:n]), nil
}
