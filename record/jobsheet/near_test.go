package jobsheet

import (
	"testing"

	"pgregory.net/rapid"
)

func TestNearest(t *testing.T) {
	words := []string{"done", "ok", "watch", "defect", "deferred"}
	for typed, want := range map[string]string{
		"defered": "deferred", "DONE": "done", "dnoe": "done", "wacth": "watch", "defct": "defect",
		"finished": "", "": "", "o": "ok", "x": "", "nothing": "", "of-f": "",
	} {
		if got := Nearest(typed, words); got != want {
			t.Errorf("%q: got %q, want %q", typed, got, want)
		}
	}
	if got := Nearest("Job-Number", jobForm.names()); got != "job_number" {
		t.Errorf("got %q", got)
	}
}

// Slips is a distance: none between equal words, the same both ways, and one
// for a single letter put in.
func TestSlips(t *testing.T) {
	word := rapid.StringMatching(`[a-c]{0,8}`)
	rapid.Check(t, func(t *rapid.T) {
		a, b := []rune(word.Draw(t, "a")), []rune(word.Draw(t, "b"))
		at := rapid.IntRange(0, len(a)).Draw(t, "at")
		longer := append(append(append([]rune{}, a[:at]...), 'z'), a[at:]...)
		n := slips(a, b)
		switch {
		case n != slips(b, a):
			t.Fatal("not the same both ways")
		case (n == 0) != (string(a) == string(b)):
			t.Fatal("zero for different words, or not for equal ones")
		case n > max(len(a), len(b)) || n < max(len(a), len(b))-min(len(a), len(b)):
			t.Fatal("outside what is possible")
		case slips(a, longer) != 1:
			t.Fatal("a letter put in is not one slip")
		}
	})
	// The cases of Damerau (1964): one letter wrong, missing, too many, and two swapped.
	for _, pair := range [][2]string{{"impeller", "impeler"}, {"impeller", "impelller"}, {"impeller", "impellor"}, {"impeller", "impleler"}} {
		if n := slips([]rune(pair[0]), []rune(pair[1])); n != 1 {
			t.Errorf("%v: %d", pair, n)
		}
	}
}
