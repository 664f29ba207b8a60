package plain

import "testing"

func TestPrintable(t *testing.T) {
	for text, want := range map[string]string{
		"plain, °C and …\nnext": "plain, °C and …\nnext",
		"a\u202eb\x00\x1b[31m":  "a<U+202E>b<U+0000><U+001B>[31m",
		"\xff":                  "<U+FFFD>",
	} {
		if got := Printable(text); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}
