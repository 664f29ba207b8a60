package schedule

import "fmt"

// Kind is what a task does to its item.
type Kind uint8

// The kinds, numbered as in signed records.
const (
	Replace Kind = iota + 1
	Inspect
	Clean
	Adjust
	Test
)

// NextFrom is what the next interval counts from; see the package comment.
type NextFrom uint8

// The policies.
const (
	FromDone NextFrom = iota + 1
	FromGrid
	FromWindow
)

// BasisKind says whose schedule it is.
type BasisKind uint8

// The bases, numbered as in signed records.
const (
	Maker BasisKind = iota + 1
	Class
	Yard
	CommonPractice
)

var (
	kindNames     = []string{"replace", "inspect", "clean", "adjust", "test"}
	nextFromNames = []string{"done", "grid", "window"}
	basisNames    = []string{"maker", "class", "yard", "common-practice"}
)

// Kinds, NextFroms and BasisKinds list the words that a schedule file may use,
// in the order of their numbers from 1.
func Kinds() []string      { return append([]string(nil), kindNames...) }
func NextFroms() []string  { return append([]string(nil), nextFromNames...) }
func BasisKinds() []string { return append([]string(nil), basisNames...) }

func (k Kind) String() string      { return nameOf(kindNames, uint8(k)) }
func (n NextFrom) String() string  { return nameOf(nextFromNames, uint8(n)) }
func (b BasisKind) String() string { return nameOf(basisNames, uint8(b)) }

// Valid says whether the number is one of the kinds.
func (k Kind) Valid() bool { return k >= Replace && k <= Test }

// Valid says whether the number is one of the bases.
func (b BasisKind) Valid() bool { return b >= Maker && b <= CommonPractice }

// MarshalText gives the word for the canonical form.
func (k Kind) MarshalText() ([]byte, error) { return []byte(k.String()), nil }

// MarshalText gives the word for the canonical form.
func (n NextFrom) MarshalText() ([]byte, error) { return []byte(n.String()), nil }

// MarshalText gives the word for the canonical form.
func (b BasisKind) MarshalText() ([]byte, error) { return []byte(b.String()), nil }

func nameOf(names []string, n uint8) string {
	if n == 0 || int(n) > len(names) {
		return fmt.Sprintf("unknown (%d)", n)
	}
	return names[n-1]
}
