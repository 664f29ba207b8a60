package history_test

import (
	"strings"
	"testing"

	"go.yaml.in/yaml/v3"

	"hourseal/verify/history"
	"hourseal/verify/history/historytest"
)

const tales = "../../testdata/histories"

// told is a history of the library, signed.
type told struct{ *historytest.Told }

func tell(t historytest.Reporter, s *historytest.Tale) *told {
	return &told{historytest.Tell(t, s)}
}

// must takes what cannot fail in a test.
func must[T any](t historytest.Reporter) func(T, error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

// TestLibrary: every history of the library is judged as its file has worked out
// by hand.
func TestLibrary(t *testing.T) {
	for _, name := range historytest.Names(t, tales) {
		t.Run(name, func(t *testing.T) {
			w := tell(t, historytest.Read(t, tales, name))
			got, want := w.judgementOf(history.Assess(w.Input())), w.Expect
			for i := range min(len(got.Machines), len(want.Machines)) {
				if want.Machines[i].Exists == nil { // worked out where it matters
					got.Machines[i].Exists = nil
				}
			}
			differ(t, inYAML(t, got), inYAML(t, want))
		})
	}
}

func inYAML(t historytest.Reporter, j historytest.Judgement) string {
	t.Helper()
	return string(must[[]byte](t)(yaml.Marshal(j)))
}

func differ(t *testing.T, got, want string) {
	t.Helper()
	if got == want {
		return
	}
	a, b := strings.Split(got, "\n"), strings.Split(want, "\n")
	for i := range max(len(a), len(b)) {
		var x, y string
		if i < len(a) {
			x = a[i]
		}
		if i < len(b) {
			y = b[i]
		}
		if x != y {
			t.Errorf("line %d\n got %s\nwant %s", i+1, x, y)
			break
		}
	}
	t.Logf("all of it:\n%s", got)
}
