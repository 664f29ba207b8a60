package dialogue_test

import (
	"slices"
	"strings"
	"testing"

	"hourseal/record/dialogue"
	"hourseal/record/quantity"
)

func TestChoices(t *testing.T) {
	of := dialogue.Choices{{Letter: "e", Word: "extractor", Means: "drawn out"}, {Letter: "p", Word: "plug", Means: "runs out"}, {Letter: "n", Word: "neither", Means: "stays"}}
	for typed, want := range map[string]string{"e": "extractor", "P": "plug", "Neither": "neither"} {
		if got, err := of.Read(typed); got != want || err != nil {
			t.Errorf("%q: %q, %v", typed, got, err)
		}
	}
	if _, err := of.Read(strings.Repeat("x", 50)); err == nil || err.Error() != `"`+strings.Repeat("x", 40)+`…": type e extractor, p plug or n neither` {
		t.Errorf("%v", err)
	}
	if got := of.Help(); !slices.Equal(got, []string{"e  extractor: drawn out", "p  plug: runs out", "n  neither: stays"}) {
		t.Errorf("%q", got)
	}
	if one := of[:1].List(" or "); one != "e extractor" || (dialogue.Choices{}).List(" or ") != "" {
		t.Errorf("%q", one)
	}
}

func TestValues(t *testing.T) {
	read := dialogue.Reading(quantity.ParseVolume)
	if got, err := read("450 mL"); got != "450 mL" || err != nil {
		t.Errorf("%q, %v", got, err)
	}
	if _, err := read("450"); err == nil {
		t.Error("a volume without unit is kept")
	}
	for _, none := range []string{"", "-", "450"} {
		if dialogue.Parsed(quantity.ParseVolume, none) != nil || dialogue.Value(quantity.ParseVolume, none) != 0 {
			t.Errorf("%q is a volume", none)
		}
	}
	if got := dialogue.Value(quantity.ParseVolume, "450 mL"); got != 450 {
		t.Errorf("%v", got)
	}
	if dialogue.Dashless("-") != "" || dialogue.Dashless("-25 C") != "-25 C" {
		t.Error("the dash that stands for nothing")
	}
}

// What is written is read back, between other text and after Windows has been at it.
func TestAnswersInAFile(t *testing.T) {
	kept := []dialogue.Kept{{Key: "hours", Text: "812.6"}, {Key: "fluid/engine-oil/drained", Text: "2.4 US gal: at 68 C"}, {Key: "vessel", Text: "#: x: y"}, {Key: "home", Text: "Port Ellery", Back: true}}
	text := "# A remark: of its own\nhours: 812.6\n" + string(dialogue.Comments(kept))
	for _, data := range []string{text, strings.ReplaceAll(text, "\n", "\r\n")} {
		if got := dialogue.FromComments([]byte(data)); !slices.Equal(got, kept) {
			t.Errorf("%+v", got)
		}
	}
	if got := dialogue.FromComments([]byte("hours: 812.6\n#: \n#: hours\n#: : 3\n")); got != nil {
		t.Errorf("%+v", got)
	}
}
