package statement_test

import (
	"testing"

	"hourseal/render/statement"
)

// BenchmarkStatement prints the statement of five hundred records.
func BenchmarkStatement(b *testing.B) {
	m, settings := judged(many())
	for b.Loop() {
		if _, err := statement.Statement(m, settings); err != nil {
			b.Fatal(err)
		}
	}
}
