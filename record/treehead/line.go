package treehead

import (
	"encoding/hex"
	"fmt"
	"math/bits"
	"strconv"
	"strings"
	"time"

	"hourseal/record"
)

// The words that the lines begin with, and the version of their format.
const (
	headWord = "hourseal-head"
	pathWord = "hourseal-path"
	version  = "1"
)

const (
	// MaxChains is the most chains that a line may speak of.
	MaxChains = 1_000_000
	// maxTime is the end of the year 2199, as in a record.
	maxTime = 7_258_118_399

	timeForm = "2006-01-02T15:04:05Z"
)

// Line fixes a ledger as of a time.
type Line struct {
	Time   int64  // seconds since 1970-01-01
	Chains uint32 // that had a record then
	Root   Hash
}

// Path shows that a chain was in the ledger of a line, and what its last record was.
type Path struct {
	Time   int64  // as in the line
	Chains uint32 // as in the line
	Index  uint32 // place of the chain's last record among the sorted ids, from 0
	Last   record.ID
	Hashes []Hash // from the leaf up
}

// String writes the line.
func (l Line) String() string {
	return fmt.Sprintf("%s %s %s %d %s", headWord, version, timeText(l.Time), l.Chains, l.Root)
}

// String writes the path.
func (p Path) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s %s %s %d %d %x", pathWord, version, timeText(p.Time), p.Chains, p.Index, p.Last[:])
	for _, h := range p.Hashes {
		b.WriteString(" " + h.String())
	}
	return b.String()
}

func timeText(seconds int64) string { return time.Unix(seconds, 0).UTC().Format(timeForm) }

// LeadsTo says whether the path shows that its record was the last of a chain in the
// ledger that the line fixes.
func (p Path) LeadsTo(line Line) bool {
	if p.Time != line.Time || p.Chains != line.Chains {
		return false
	}
	got, ok := rootFrom(leafHash(p.Last[:]), p.Index, p.Chains, p.Hashes)
	return ok && got == line.Root
}

// ParseLine reads a line. A path in its place is told apart.
func ParseLine(text string) (Line, error) {
	if strings.HasPrefix(strings.TrimSpace(text), pathWord) {
		if _, err := ParsePath(text); err != nil {
			return Line{}, err
		}
		return Line{}, fmt.Errorf("%s: a path, where the line itself is wanted: it begins with %s", pathWord, headWord)
	}
	r, err := begin(text, headWord, 5)
	if err != nil {
		return Line{}, err
	}
	l := Line{Time: r.time(), Chains: r.number("chains", 0, MaxChains), Root: r.hash("root")}
	if r.err == nil && l.Chains == 0 && l.Root != root(nil) {
		r.fail("root", "a ledger without records has the hash of nothing")
	}
	if err := r.end(); err != nil {
		return Line{}, err
	}
	return l, nil
}

// ParsePath reads a path. Whether it leads to a line, LeadsTo says.
func ParsePath(text string) (Path, error) {
	r, err := begin(text, pathWord, 6)
	if err != nil {
		return Path{}, err
	}
	p := Path{Time: r.time(), Chains: r.number("chains", 1, MaxChains)}
	p.Index = r.number("place", 0, max(int64(p.Chains), 1)-1)
	p.Last = record.ID(r.hash("record"))
	for i := 1; r.err == nil && len(r.fields) > 0; i++ {
		p.Hashes = append(p.Hashes, r.hash(fmt.Sprintf("hash %d", i)))
	}
	if want := pathLength(p.Index, p.Chains); r.err == nil && len(p.Hashes) != want {
		r.fail("hashes", fmt.Sprintf("%d of them, place %d of %d has %d: copy the whole line", len(p.Hashes), p.Index, p.Chains, want))
	}
	if err := r.end(); err != nil {
		return Path{}, err
	}
	return p, nil
}

// pathLength is how many hashes lead from a leaf to the root: as many as the root
// stands above it.
func pathLength(index, size uint32) int {
	length := 0
	for size > 1 {
		k := uint32(1) << (bits.Len32(size-1) - 1)
		if index < k {
			size = k
		} else {
			index, size = index-k, size-k
		}
		length++
	}
	return length
}

// reading is the fields of a line that are left, and the first fault.
type reading struct {
	word   string
	fields []string
	err    error
}

// begin cuts a line into its fields and takes the word and the version off.
func begin(text, word string, least int) (*reading, error) {
	fields := strings.Fields(text)
	switch {
	case len(fields) == 0 || fields[0] != word:
		return nil, fmt.Errorf("no ledger line: one begins with %s", word)
	case len(fields) < 2 || fields[1] != version:
		return nil, fmt.Errorf("%s: version: this program reads version %s only", word, version)
	case len(fields) < least:
		return nil, fmt.Errorf("%s: %d fields, at least %d are wanted: copy the whole line", word, len(fields), least)
	}
	return &reading{word: word, fields: fields[2:]}, nil
}

func (r *reading) fail(field, message string) {
	if r.err == nil {
		r.err = fmt.Errorf("%s: %s: %s", r.word, field, message)
	}
}

func (r *reading) next() string {
	if len(r.fields) == 0 {
		return ""
	}
	field := r.fields[0]
	r.fields = r.fields[1:]
	return field
}

func (r *reading) time() int64 {
	text := r.next()
	t, err := time.Parse(timeForm, text)
	if err != nil || timeText(t.Unix()) != text || t.Unix() < 0 || t.Unix() > maxTime {
		r.fail("time", fmt.Sprintf("%q is no time of the years 1970 to 2199: as 2026-11-02T16:30:00Z", text))
		return 0
	}
	return t.Unix()
}

func (r *reading) number(field string, least, most int64) uint32 {
	text := r.next()
	n, err := strconv.ParseInt(text, 10, 64)
	if err != nil || strconv.FormatInt(n, 10) != text || n < least || n > most {
		r.fail(field, fmt.Sprintf("%q is no number from %d to %d", text, least, most))
		return 0
	}
	return uint32(n)
}

func (r *reading) hash(field string) (h Hash) {
	text := r.next()
	n, err := hex.Decode(h[:], []byte(text[:min(len(text), 2*len(h))]))
	if err != nil || n != len(h) || h.String() != text {
		r.fail(field, fmt.Sprintf("%d small hexadecimal digits are wanted: copy the whole line", 2*len(h)))
		return Hash{}
	}
	return h
}

// end refuses fields that are left over.
func (r *reading) end() error {
	if len(r.fields) > 0 {
		r.fail("end", fmt.Sprintf("%d fields too many: one line at a time", len(r.fields)))
	}
	return r.err
}
