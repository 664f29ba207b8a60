package main

import (
	"bytes"
	"compress/flate"
	"fmt"
	"strings"
	"testing"

	"hourseal/sign/qrtext"
)

// codeSize is how large the codes of a record are.
type codeSize struct {
	deflatedBytes int
	codes         int
	version       int // of the largest
}

func (s codeSize) String() string {
	if s.codes == 1 {
		return fmt.Sprintf("%4d bytes, version %2d", s.deflatedBytes, s.version)
	}
	return fmt.Sprintf("%4d bytes, %d codes of %2d", s.deflatedBytes, s.codes, s.version)
}

// versionsBelow says whether a code is at least so many versions smaller than
// another, or one code less has to be photographed.
func (s codeSize) versionsBelow(other codeSize, versions int) bool {
	return s.codes < other.codes || s.codes == other.codes && s.version <= other.version-versions
}

// digitsOf is how many digits deflated bytes take: 17 for seven, see package
// qrtext.
func digitsOf(bytes int) int {
	return bytes/7*17 + []int{0, 3, 5, 8, 10, 13, 15}[bytes%7]
}

// sizeWithout is what the codes were before there was a dictionary: formats 1
// and 2, as package flate deflates.
func sizeWithout(t *testing.T, r sealedRecord) codeSize {
	t.Helper()
	var deflated bytes.Buffer
	w, err := flate.NewWriter(&deflated, flate.BestCompression)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := w.Write(r.envelope); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	prefix := "hourseal:"
	if r.host != "" {
		prefix = "HTTPS://" + strings.ToUpper(r.host) + "/#"
	}
	room, err := qrtext.MaxDigits(r.host)
	if err != nil {
		t.Fatal(err)
	}
	const formatDigits, partHeadDigits = 1, 13
	s := codeSize{deflatedBytes: deflated.Len(), codes: 1}
	digits := digitsOf(s.deflatedBytes)
	longest := formatDigits + digits
	if longest > room {
		s.codes = (digits + room - partHeadDigits - 1) / (room - partHeadDigits)
		longest = partHeadDigits + (digits+s.codes-1)/s.codes
	}
	if s.version, err = qrtext.Version(prefix + strings.Repeat("1", longest)); err != nil {
		t.Fatal(err)
	}
	return s
}

// sizeNow is what qrtext makes of a record today.
func sizeNow(t *testing.T, r sealedRecord) codeSize {
	t.Helper()
	texts, err := qrtext.Encode(r.envelope, r.host)
	if err != nil {
		t.Fatal(err)
	}
	s := codeSize{codes: len(texts)}
	head, digits := 1, 0
	if len(texts) > 1 {
		head = 13
	}
	for _, text := range texts {
		version, err := qrtext.Version(text)
		if err != nil {
			t.Fatal(err)
		}
		s.version = max(s.version, version)
		digits += len(text) - strings.LastIndexAny(text, ":#") - 1 - head
	}
	for digitsOf(s.deflatedBytes) < digits {
		s.deflatedBytes++
	}
	return s
}

// mostGrowth is by how many bytes a record may have grown with the dictionary:
// what it has in common with no other, it pays for.
const mostGrowth = 4

// leastGain is what the records of each group came down by at least, together.
// The drawn ones are not of this world: random letters, random figures.
var leastGain = map[string]float64{"written": 0.20, "scenario": 0.30, "new yard": 0.35, "demo": 0.25, "stories": 0.20, "histories": 0.15, "drawn": 0}

// TestCodeSizes measures the codes of every record that the repository can make,
// with the dictionary and as they were before there was one:
//
//	go test ./cmd/hourseal -run TestCodeSizes -v
//
// What else was tried, on the records written by hand, when the dictionary was
// made: dates and hours of tasks as differences from the job's moved nothing
// (from 929 bytes to 928 for the typical record, from 614 to 617 for the
// example); leaving out the due points that follow from last and interval, and
// what was last done where that is this job, would save 34 and 31 more bytes,
// half a version, and need two formats of the record for ever; a deflater that
// searches for the best parse saves 28 and 18, and is a program of its own; an
// arithmetic coder with mixed contexts of up to six bytes, primed with the same
// dictionary, saves 45 and 11. None was worth what it costs to read in forty
// years.
func TestCodeSizes(t *testing.T) {
	type sums struct{ records, envelope, before, now int }
	groups := map[string]*sums{}
	var order []string
	for _, r := range everyRecord(t) {
		before, now := sizeWithout(t, r), sizeNow(t, r)
		if groups[r.group] == nil {
			groups[r.group] = &sums{}
			order = append(order, r.group)
		}
		g := groups[r.group]
		g.records++
		g.envelope += len(r.envelope)
		g.before += before.deflatedBytes
		g.now += now.deflatedBytes
		if g.records <= 20 {
			t.Logf("%-9s %-28s %4d bytes: %-27s now %s", r.group, r.name, len(r.envelope), before, now)
		}
		if grown := now.deflatedBytes - before.deflatedBytes; grown > mostGrowth {
			t.Errorf("%s %s is %d bytes larger than without a dictionary", r.group, r.name, grown)
		}
		if name := r.group + " " + r.name; (name == "written typical" || name == "written example") && !now.versionsBelow(before, 2) {
			t.Errorf("%s: %v, was %v", name, now, before)
		}
	}
	for _, name := range order {
		g := groups[name]
		gain := 1 - float64(g.now)/float64(g.before)
		t.Logf("%-9s %3d records: %4d bytes on average, deflated %4d, now %4d: %4.1f %% less", name, g.records,
			g.envelope/g.records, g.before/g.records, g.now/g.records, 100*gain)
		if least, known := leastGain[name]; !known || gain < least {
			t.Errorf("%s: %.1f %% less, at least %.1f %% is wanted", name, 100*gain, 100*least)
		}
	}
}
