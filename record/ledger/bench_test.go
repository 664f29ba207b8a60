package ledger

import (
	"errors"
	"fmt"
	"testing"

	"hourseal/record/recordtest"
)

// BenchmarkChain reads a machine's chain of 20 records, each as long as the
// example of the invented yard.
func BenchmarkChain(b *testing.B) {
	const records = 20
	l := Open(b.TempDir())
	s := begin(b, l, port)
	for n := range uint32(records) {
		r := recordtest.Example()
		next := jobAfter(s.Chain(port), port).r
		r.Number, r.Previous, r.Job.Number = next.Number, next.Previous, fmt.Sprintf("J-%d", n+1)
		if _, err := s.Append(checked{r}, testKey(b, 1)); err != nil {
			b.Fatal(err)
		}
	}
	if err := errors.Join(s.Commit(), s.Close()); err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if n := len(chainOf(b, l, port)); n != records {
			b.Fatalf("%d records", n)
		}
	}
}
