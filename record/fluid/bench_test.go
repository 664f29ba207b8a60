package fluid

import (
	"math/rand/v2"
	"testing"
)

// BenchmarkAccountOf is an oil change with twenty before it.
func BenchmarkAccountOf(b *testing.B) {
	e := newEngine(rand.New(rand.NewPCG(1, 1)), gannet)
	var visits []Visit
	for range 21 {
		visits = append(visits, e.visit(faulty{}))
	}
	for b.Loop() {
		AccountOf(gannet, TradeDoubt, visits)
	}
}
