package verify_test

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/recordtest"
	"hourseal/verify"
)

// change replaces bytes that are there once.
func change(t testing.TB, data []byte, from, to string) []byte {
	t.Helper()
	if n := bytes.Count(data, []byte(from)); n != 1 {
		t.Fatalf("%x is there %d times", from, n)
	}
	return bytes.Replace(data, []byte(from), []byte(to), 1)
}

// withPairs changes the number of pairs in the record's outer map.
func withPairs(payload []byte, by int) []byte {
	changed := bytes.Clone(payload)
	changed[0] += byte(by)
	return changed
}

// One record has one envelope: every other form of the same values, under the
// same signature, is refused before the signature is looked at.
func TestEnvelopeHasOneForm(t *testing.T) {
	sealed := shortest(t)
	const start = "\xD2\x84\x58\x26\xA2\x01\x32\x04\x58\x20"
	n := len(sealed.payload)
	head := string([]byte{0xA0, 0x59, byte(n >> 8), byte(n)})
	if n < 256 {
		head = string([]byte{0xA0, 0x58, byte(n)})
	}
	at := bytes.Index(sealed.envelope, []byte(head))
	if at != 42 {
		t.Fatalf("the payload's head is at %d", at)
	}
	headIs := func(b ...byte) []byte {
		return slices.Concat(sealed.envelope[:at], b, sealed.envelope[at+len(head):])
	}
	for name, data := range map[string][]byte{
		"no tag":                    sealed.envelope[1:],
		"long tag":                  change(t, sealed.envelope, start, "\xD8\x12"+start[1:]),
		"another tag":               change(t, sealed.envelope, start, "\xD1"+start[1:]),
		"long array":                change(t, sealed.envelope, start, "\xD2\x98\x04"+start[2:]),
		"array without an end":      append(change(t, sealed.envelope, start, "\xD2\x9F"+start[2:]), 0xFF),
		"algorithm -8":              change(t, sealed.envelope, start, "\xD2\x84\x58\x26\xA2\x01\x27\x04\x58\x20"),
		"long algorithm":            change(t, sealed.envelope, start, "\xD2\x84\x58\x27\xA2\x01\x38\x12\x04\x58\x20"),
		"key before algorithm":      change(t, sealed.envelope, start+string(publicBytes(t, yardSeed)), "\xD2\x84\x58\x26\xA2\x04\x58\x20"+string(publicBytes(t, yardSeed))+"\x01\x32"),
		"key of 31 bytes":           change(t, sealed.envelope, start+string(publicBytes(t, yardSeed)), "\xD2\x84\x58\x25\xA2\x01\x32\x04\x58\x1F"+string(publicBytes(t, yardSeed)[:31])),
		"key of 31, head for 32":    change(t, sealed.envelope, string(publicBytes(t, yardSeed)), string(publicBytes(t, yardSeed)[:31])),
		"key of 33 bytes":           change(t, sealed.envelope, start+string(publicBytes(t, yardSeed)), "\xD2\x84\x58\x27\xA2\x01\x32\x04\x58\x21"+string(publicBytes(t, yardSeed))+"\x00"),
		"no key":                    change(t, sealed.envelope, start+string(publicBytes(t, yardSeed)), "\xD2\x84\x43\xA1\x01\x32"),
		"null unprotected header":   headIs(append([]byte{0xF6}, head[1:]...)...),
		"undefined instead":         headIs(append([]byte{0xF7}, head[1:]...)...),
		"long empty header":         headIs(append([]byte{0xB8, 0x00}, head[1:]...)...),
		"something in the header":   headIs(append([]byte{0xA1, 0x05, 0x00}, head[1:]...)...),
		"null payload":              slices.Concat(sealed.envelope[:at+1], []byte{0xF6}, sealed.envelope[len(sealed.envelope)-66:]),
		"undefined payload":         slices.Concat(sealed.envelope[:at+1], []byte{0xF7}, sealed.envelope[len(sealed.envelope)-66:]),
		"empty payload":             slices.Concat(sealed.envelope[:at+1], []byte{0x40}, sealed.envelope[len(sealed.envelope)-66:]),
		"payload as text":           headIs(0xA0, 0x79, byte(n>>8), byte(n)),
		"payload with long length":  headIs(0xA0, 0x5A, 0, 0, byte(n>>8), byte(n)),
		"payload with 64-bit one":   headIs(0xA0, 0x5B, 0, 0, 0, 0, 0, 0, byte(n>>8), byte(n)),
		"payload of negative size":  headIs(0xA0, 0x5B, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF),
		"payload in pieces":         slices.Concat(sealed.envelope[:at+1], []byte{0x5F}, sealed.envelope[at+1:len(sealed.envelope)-66], []byte{0xFF}, sealed.envelope[len(sealed.envelope)-66:]),
		"signature of 63 bytes":     append(change(t, sealed.envelope[:len(sealed.envelope)-1], "\x58\x40", "\x58\x3F"), nil...),
		"signature with long size":  change(t, sealed.envelope, "\x58\x40", "\x59\x00\x40"),
		"something after":           append(bytes.Clone(sealed.envelope), 0x00),
		"two envelopes":             append(bytes.Clone(sealed.envelope), sealed.envelope...),
		"an envelope's first bytes": sealed.envelope[:len(start)],
	} {
		t.Run(name, func(t *testing.T) {
			wants(t, verify.Run(data, buyer(t), noPage), verify.Unreadable, unreadable)
		})
	}
}

// A payload in another form than the canonical one is no record, even properly
// signed by a key that the reader trusts.
func TestPayloadHasOneForm(t *testing.T) {
	// The values below are written for this record's bytes.
	payload := shortest(t).payload
	const first = "\x01\x01\x02\x01\x03\x02\x05\x01\x07" // format 1, renderer 1, Letter, service, machine
	if !bytes.HasPrefix(payload[1:], []byte(first)) || payload[0]&0xE0 != 0xA0 || payload[0] >= 0xA0+22 {
		t.Fatalf("payload begins %x", payload[:12])
	}
	with := func(pairs int, to string) []byte { return withPairs(change(t, payload, first, to), pairs) }
	titled := *recordtest.Example()
	usual := must[[]byte](t)(record.Encode(&titled))
	for name, data := range map[string][]byte{
		"long integer":          with(0, "\x01\x18\x01"+first[2:]),
		"long integer, 64 bits": with(0, "\x01\x1B\x00\x00\x00\x00\x00\x00\x00\x01"+first[2:]),
		"long key":              with(0, "\x18\x01"+first[1:]),
		"null":                  with(0, "\x01\x01\x02\xF6"+first[4:]),
		"undefined":             with(0, "\x01\x01\x02\xF7"+first[4:]),
		"true for 1":            with(0, "\x01\x01\x02\xF5"+first[4:]),
		"float":                 with(0, "\x01\x01\x02\xF9\x3C\x00"+first[4:]),
		"float key":             with(0, "\x01\x01\xF9\x40\x00\x01"+first[4:]),
		"tag":                   with(0, "\x01\x01\x02\xC1\x01"+first[4:]),
		"bignum":                with(0, "\x01\x01\x02\xC2\x41\x01"+first[4:]),
		"text for a number":     with(0, "\x01\x01\x02\x611"+first[4:]),
		"negative":              with(0, "\x01\x01\x02\x20"+first[4:]),
		"keys out of order":     with(0, "\x02\x01\x01\x01"+first[4:]),
		"key twice":             with(1, "\x01\x01\x01\x01"+first[2:]),
		"key missing":           with(-1, first[2:]),
		"empty page host":       with(1, "\x01\x01\x02\x01\x03\x02\x04\x60\x05\x01\x07"),
		"null page host":        with(1, "\x01\x01\x02\x01\x03\x02\x04\xF6\x05\x01\x07"),
		"null subject":          with(1, "\x01\x01\x02\x01\x03\x02\x05\x01\x06\xF6\x07"),
		"text key":              with(1, "\x611\x01"+first),
		"key 0":                 with(1, "\x00\x01"+first),
		"negative key":          with(1, "\x20\x01"+first),
		"unknown key":           append(withPairs(payload, 1), 0x18, 0x19, 0x00),
		"unknown key, null":     append(withPairs(payload, 1), 0x18, 0x19, 0xF6),
		"unknown large key":     append(withPairs(payload, 1), 0x1B, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0x00),
		"tasks null":            change(t, payload, "\x0C\x80", "\x0C\xF6"),
		"tasks undefined":       change(t, payload, "\x0C\x80", "\x0C\xF7"),
		"tasks long and empty":  change(t, payload, "\x0C\x80", "\x0C\x98\x00"),
		"tasks without an end":  change(t, payload, "\x0C\x80", "\x0C\x9F\xFF"),
		"tasks a map":           change(t, payload, "\x0C\x80", "\x0C\xA0"),
		"other work empty":      withPairs(change(t, payload, "\x0C\x80", "\x0C\x80\x0D\x80"), 1),
		"map without an end":    append(slices.Concat([]byte{0xBF}, payload[1:]), 0xFF),
		"long map head":         slices.Concat([]byte{0xB8, payload[0] & 0x1F}, payload[1:]),
		"tagged":                slices.Concat([]byte{0xD9, 0xD9, 0xF7}, payload),
		"an array":              slices.Concat([]byte{0x81}, payload),
		"something after":       append(bytes.Clone(payload), 0x00),
		"cut short":             payload[:len(payload)-1],
		"make as bytes":         change(t, payload, "\x66Corrin", "\x46Corrin"),
		"make in pieces":        change(t, payload, "\x66Corrin", "\x7F\x63Cor\x63rin\xFF"),
		"format to come":        with(0, "\x01\x02"+first[2:]),
		"usual title written":   change(t, usual, "\x68impeller\x03", "\x68impeller\x02\x78\x1CFit a new raw-water impeller\x03"),
		"only null":             {0xF6},
		"only a break":          {0xFF},
		"nested deeply":         bytes.Repeat([]byte{0x81}, 8000),
		"a large array":         {0x9B, 0x7F, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF},
		"a large text":          {0x7B, 0x7F, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF},
		"a large map":           {0xBB, 0x7F, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF},
	} {
		t.Run(name, func(t *testing.T) {
			if name == "usual title written" {
				data = withTaskPair(t, data)
			}
			sealed := sealBytes(t, data, yardSeed)
			wants(t, verify.Run(sealed, buyer(t), noPage), verify.Unreadable, unreadable)
		})
	}
}

// withTaskPair counts the title that was written into the last task.
func withTaskPair(t testing.TB, payload []byte) []byte {
	at := bytes.Index(payload, []byte("\x01\x68impeller\x02")) - 1
	if at < 0 || payload[at]&0xE0 != 0xA0 {
		t.Fatal("no last task")
	}
	changed := bytes.Clone(payload)
	changed[at]++
	return changed
}

// What a signed payload breaks is said in the words for it, with a place.
func TestUnreadableSaysWhy(t *testing.T) {
	payload := shortest(t).payload
	for data, says := range map[string]string{
		string(change(t, payload, "\x0C\x80", "\x0C\xF6")):                                 "Record is not in its canonical form.",
		string(change(t, payload, "\x01\x01\x02\x01\x03\x02", "\x01\x02\x02\x01\x03\x02")): "Format: this program reads format 1 only.",
		string(change(t, payload, "\x66Corrin", "\x66Corri\n")):                            "Make: begins or ends with white space: take it out.",
	} {
		got := verify.Run(sealBytes(t, []byte(data), yardSeed), buyer(t), noPage)
		if words := strings.Join(allWords(got), "\n"); !strings.Contains(words, says) {
			t.Errorf("%q is not said in\n%s", says, words)
		}
	}
}
