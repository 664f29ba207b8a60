package source

import (
	"bytes"
	"io"
	"slices"
	"strings"

	"hourseal/sign/qrtext"
)

// Limits on a search.
const (
	maxSearchBytes     = 64 << 20 // inflated, over all streams
	maxSearchInput     = 32 << 20 // deflated bytes read, over all streams
	maxSearchTexts     = 256      // QR texts
	maxSearchEnvelopes = 64       // places that look like an envelope and are none
)

// search collects what looks like a record, wherever in a file.
type search struct {
	data     []byte
	inflated int
	consumed int
	rejected int
	found    [][]byte // distinct envelopes, at most two
	other    [][]byte // sound envelopes that are no records
	texts    []string
	over     bool // a limit was reached, so something may have been missed
}

// searchPDF looks for the one record in a PDF of any layout: in its bytes and in
// its deflated streams, whole or broken.
func searchPDF(data []byte) *search {
	s := &search{data: data}
	// Streams first: bytes that belong to a whole deflated stream mean what
	// they inflate to, and nothing as they stand.
	plainFrom := 0
	for at := 0; at < len(data); {
		i := bytes.Index(data[at:], []byte("stream"))
		if i < 0 {
			break
		}
		at += i + len("stream")
		from := afterLineEnd(data, at)
		if from < 0 {
			continue
		}
		if n := s.stream(data[from:]); n > 0 {
			s.look(data[plainFrom:from])
			at, plainFrom = from+n, from+n
		}
	}
	s.look(data[plainFrom:])
	s.decodeTexts()
	return s
}

// afterLineEnd returns where a stream's bytes start if the keyword ends at at
// (ISO 32000-1 section 7.3.8.1), or -1.
func afterLineEnd(data []byte, at int) int {
	switch {
	case bytes.HasPrefix(data[at:], []byte("\r\n")):
		return at + 2
	case bytes.HasPrefix(data[at:], []byte("\n")):
		return at + 1
	}
	return -1
}

// stream searches the deflated stream at the start of b and returns how long it
// is, or 0 if it is none or is broken; what a broken one yields is searched too.
func (s *search) stream(b []byte) int {
	if len(b) < 2 || b[0]&0x0F != 8 || (int(b[0])<<8|int(b[1]))%31 != 0 {
		return 0 // not a zlib header, RFC 1950 section 2.2
	}
	if s.over {
		return 0
	}
	f := inflaters.Get().(*inflater)
	defer f.release()
	b = b[:min(len(b), maxSearchInput-s.consumed)]
	if f.reset(b) != nil {
		return 0
	}
	content := getBuffer()
	defer putBuffer(content)
	// A record is far shorter than this limit, so the rest of a longer stream
	// (a picture, say) is not looked at.
	n, err := content.ReadFrom(io.LimitReader(f.zlib, min(maxStreamBytes, maxSearchBytes-int64(s.inflated))))
	s.inflated += int(n)
	used := len(b) - f.in.Len()
	s.consumed += used
	if s.inflated >= maxSearchBytes || s.consumed >= maxSearchInput {
		s.over = true
	}
	s.look(content.Bytes())
	if err != nil {
		return 0
	}
	return used
}

// look searches plain bytes for envelopes and QR texts.
func (s *search) look(b []byte) {
	for at := 0; at < len(b); {
		i := bytes.Index(b[at:], envelopePrefix)
		if i < 0 {
			break
		}
		at += i
		envelope := envelopeAt(b[at:])
		if envelope == nil {
			at += len(envelopePrefix)
			continue
		}
		s.envelope(envelope)
		at += len(envelope)
	}
	for _, mark := range []string{"/#", "hourseal:", "HOURSEAL:"} {
		s.lookForTexts(b, mark)
	}
}

// envelope takes a possible envelope in.
func (s *search) envelope(envelope []byte) {
	same := func(e []byte) bool { return bytes.Equal(e, envelope) }
	if len(s.found) == 2 || slices.ContainsFunc(s.found, same) || slices.ContainsFunc(s.other, same) {
		return
	}
	if s.rejected == maxSearchEnvelopes {
		s.over = true
		return
	}
	if isRecord(envelope) {
		s.found = append(s.found, bytes.Clone(envelope))
		return
	}
	s.rejected++
	s.other = append(s.other, bytes.Clone(envelope))
}

// maxHostBytes: RFC 1035 section 2.3.4 allows 255 octets in wire form, which is
// 253 characters.
const maxHostBytes = 253

// minTextDigits is one more than the head of a part, the shortest text there is.
const minTextDigits = 1 + 2 + 2 + 8 + 1

// lookForTexts collects the QR texts that have mark before their digits.
func (s *search) lookForTexts(b []byte, mark string) {
	for at := 0; at < len(b); {
		i := bytes.Index(b[at:], []byte(mark))
		if i < 0 {
			return
		}
		start := at + i
		at = start + len(mark)
		end := at
		for end < len(b) && isDigit(b[end]) {
			end++
		}
		if end-at < minTextDigits {
			continue
		}
		if mark == "/#" {
			if start = hostStart(b, start); start < 0 {
				continue
			}
		}
		at = end
		text := string(b[start:end])
		if len(text) > MaxTextBytes || slices.Contains(s.texts, text) {
			continue
		}
		if len(s.texts) == maxSearchTexts {
			s.over = true
			return
		}
		s.texts = append(s.texts, text)
	}
}

// hostStart walks back from the slash after a host name to where its https://
// starts, or returns -1.
func hostStart(b []byte, slash int) int {
	at := slash
	for at > 0 && slash-at <= maxHostBytes && (isDigit(b[at-1]) || b[at-1]|0x20 >= 'a' && b[at-1]|0x20 <= 'z' || b[at-1] == '.' || b[at-1] == '-') {
		at--
	}
	const scheme = "https://"
	if at < len(scheme) || !strings.EqualFold(string(b[at-len(scheme):at]), scheme) {
		return -1
	}
	return at - len(scheme)
}

// decodeTexts takes in the records of the QR texts. Texts that do not decode
// are no record; a report always has the envelope itself as well.
func (s *search) decodeTexts() {
	var groups []group
	for _, text := range s.texts {
		if part, err := qrtext.Parse(text); err == nil {
			groups = addPart(groups, part, text)
		}
	}
	for _, group := range groups {
		if decoded, err := qrtext.Join(group.parts); err == nil && soundEnvelope(decoded.Envelope) == nil {
			s.envelope(decoded.Envelope)
		}
	}
}

// result is the one record, or why there is none.
func (s *search) result() ([]byte, error) {
	switch {
	case len(s.found) == 2:
		return nil, &InputError{Kind: ErrTwoRecords, Reason: "this PDF holds two different service records", Hint: hintTwo}
	// A second record may be where the search did not get to.
	case s.over:
		return nil, &InputError{Kind: ErrTooLarge, Reason: "this PDF holds more than this program searches for a record", Hint: hintSmaller}
	case len(s.found) == 0:
		return nil, &InputError{Kind: ErrNoRecord, Reason: "no service record was found in this PDF", Hint: hintNoRecord}
	}
	return s.found[0], nil
}
