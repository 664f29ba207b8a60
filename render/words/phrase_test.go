package words

import "testing"

func TestPhrase(t *testing.T) {
	for _, c := range []struct {
		phrase Phrase
		pairs  []string
		want   string
	}{
		{"Page {page} of {pages}", []string{"page", "1", "pages", "2"}, "Page 1 of 2"},
		{"{item}[ (due at {limit})].", []string{"item", "Oil", "limit", "895 h"}, "Oil (due at 895 h)."},
		{"{item}[ (due at {limit})].", []string{"item", "Oil"}, "Oil."},
		{"{item}.", nil, "not stated."},
		{"[a {x} and {y}]", []string{"x", "1"}, ""},
		{"{item}, {item}", []string{"item", "[{item}]"}, "[{item}], [{item}]"}, // what is filled in is not read again
		{"open {item", []string{"item", "x"}, "open {item"},
		{"open [item", nil, "open item"},
		{"", nil, ""},
		{"plain", []string{"lonely"}, "plain"},
	} {
		if got := c.phrase.With(c.pairs...); got != c.want {
			t.Errorf("%q with %q: got %q, want %q", c.phrase, c.pairs, got, c.want)
		}
	}
}
