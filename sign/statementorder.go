package sign

import (
	"bytes"
	"cmp"
	"slices"
)

// SortStatements gives the statements by subject key, number and time, each once:
// an old statement that comes again is the same statement. The argument is not
// changed.
func SortStatements(statements []Statement) []Statement {
	sorted := slices.Clone(statements)
	slices.SortFunc(sorted, func(a, b Statement) int {
		return cmp.Or(
			bytes.Compare(a.Subject[:], b.Subject[:]),
			cmp.Compare(a.Number, b.Number),
			cmp.Compare(a.StatedAt, b.StatedAt),
			bytes.Compare(a.Envelope, b.Envelope),
		)
	})
	return slices.CompactFunc(sorted, func(a, b Statement) bool { return bytes.Equal(a.Envelope, b.Envelope) })
}

// NextNumber is the number for the next statement about a key.
func NextNumber(statements []Statement, subject PublicKey) uint32 {
	var last uint32
	for _, s := range statements {
		if s.Subject == subject {
			last = max(last, s.Number)
		}
	}
	return last + 1
}
