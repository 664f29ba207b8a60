package fluid

import (
	"slices"
	"strings"
	"testing"
)

// Rows from the API Motor Oil Guide's service category chart and the ACEA 2022
// sequences; the refusals from the same tables.
func TestSuits(t *testing.T) {
	for _, c := range []struct {
		meets, asked string
		suits        bool
	}{
		{"API CK-4", "API CI-4", true},
		{"API CK-4", "API CH-4", true},
		{"API CK-4", "API CG-4", false}, // not in the chart's list for CK-4
		{"API CJ-4", "API CG-4", true},
		{"API CI-4", "API CK-4", false}, // directed: an older one never answers a newer
		{"API CI-4 PLUS", "API CI-4", true},
		{"API CI-4", "API CI-4 PLUS", false},
		{"API CF", "API CD", true},
		{"API CF-2", "API CD", false},
		{"API FA-4", "API CK-4", false},
		{"FC-W", "API CI-4", false},
		{"TC-W3", "API CI-4", false},
		{"ACEA E8", "ACEA E6", true},
		{"ACEA E6", "ACEA E8", false},
		{"ACEA E11", "ACEA E9", true},
		{"ACEA E4", "ACEA E7", false},
		{"api ck4", "API CI-4", true}, // spelling
	} {
		got := Suits([]string{c.meets}, []string{c.asked})
		if got.Suits != c.suits {
			t.Errorf("%s for %s: suits %v, want %v", c.meets, c.asked, got.Suits, c.suits)
		}
	}
}

func TestSuitsSaysWhy(t *testing.T) {
	for _, mark := range []string{"API FA-4", "API CF-2", "FC-W", "TC-W3"} {
		if got := Suits([]string{mark}, []string{"API CI-4"}); got.Why == "" {
			t.Errorf("%s: no reason given", mark)
		}
	}
	if got := Suits([]string{"API CK-4"}, []string{"API CI-4"}); got.Direct || got.Have != "API CK-4" {
		t.Errorf("CK-4 for CI-4: %+v", got)
	}
	if got := Suits([]string{"ACEA E7", "API CK-4"}, []string{"API CI-4", "ACEA E7"}); !got.Direct || got.Asked != "ACEA E7" {
		t.Errorf("a plain match must come before the table: %+v", got)
	}
}

// TestTable holds the whole directed table, row by row, as it is published (API
// Motor Oil Guide and bulletins; ACEA 2022). Not in those sources, from memory:
// the row of CH-4, CI-4 for CI-4 PLUS, and which ACEA category follows which.
func TestTable(t *testing.T) {
	all := []string{"API CK-4", "API CJ-4", "API CI-4 PLUS", "API CI-4", "API CH-4", "API CG-4", "API CF-4", "API CF", "API CF-2", "API CE", "API CD",
		"API FA-4", "ACEA E4", "ACEA E6", "ACEA E7", "ACEA E8", "ACEA E9", "ACEA E11", "FC-W", "TC-W3"}
	may := map[string]string{
		"API CK-4":      "API CJ-4, API CI-4 PLUS, API CI-4, API CH-4",
		"API CJ-4":      "API CI-4 PLUS, API CI-4, API CH-4, API CG-4, API CF-4",
		"API CI-4 PLUS": "API CI-4, API CH-4, API CG-4, API CF-4, API CE, API CD",
		"API CI-4":      "API CH-4, API CG-4, API CF-4, API CE, API CD",
		"API CH-4":      "API CG-4, API CF-4, API CE, API CD",
		"API CF":        "API CD",
		"ACEA E8":       "ACEA E6",
		"ACEA E11":      "ACEA E9",
	}
	for _, have := range all {
		for _, want := range all {
			suits := have == want || slices.Contains(strings.Split(may[have], ", "), want)
			got := Suits([]string{have}, []string{want})
			if got.Suits != suits || got.Direct != (have == want) {
				t.Errorf("%s for %s: %+v", have, want, got)
			}
		}
	}
}

func TestSuitsAnyOf(t *testing.T) {
	// The boat of the invented scenario: API CK-4 where API CI-4 or ACEA E7 is asked for.
	if got := Suits([]string{"API CK-4"}, []string{"API CI-4", "ACEA E7"}); !got.Suits || got.Direct || got.Have != "API CK-4" || got.Asked != "API CI-4" {
		t.Errorf("%+v", got)
	}
	for _, nothing := range [][2][]string{{nil, {"API CI-4"}}, {{"API CK-4"}, nil}, {nil, nil}, {{""}, {"API CI-4"}}} {
		if got := Suits(nothing[0], nothing[1]); got.Suits {
			t.Errorf("%v for %v: %+v", nothing[0], nothing[1], got)
		}
	}
	got := Suits([]string{"API FA-4", "TC-W3"}, []string{"API CI-4"})
	if want := "API FA-4 is a thinner oil for newer road diesels, it replaces no other category; TC-W3 is a mark for petrol two-strokes"; got.Why != want {
		t.Errorf("%q, want %q", got.Why, want)
	}
}

// TestSpelling: one category, one grade, however it is written.
func TestSpelling(t *testing.T) {
	for _, spelling := range []string{"API CI-4", "api ci4", "API CI 4", "APICI-4"} {
		if !Suits([]string{"API CI-4"}, []string{spelling}).Direct || !Suits([]string{spelling}, []string{"API CH-4"}).Suits {
			t.Errorf("%s is another category", spelling)
		}
	}
	for _, c := range []struct {
		a, b string
		same bool
	}{
		{"15W-40", "SAE 15W-40", true}, {"15W-40", "15w40", true}, {"SAE 90", "90", true},
		{"15W-40", "5W-40", false}, {"10W-40", "10W-30", false}, {"90", "80W-90", false}, {"", "15W-40", false},
	} {
		if Viscosity(c.a, []string{c.b}).Direct != c.same || Viscosity(c.b, []string{c.a}).Direct != c.same {
			t.Errorf("%s and %s: want same %v", c.a, c.b, c.same)
		}
	}
}

// TestWhyNot: each reason once, in the words that a technician reads.
func TestWhyNot(t *testing.T) {
	for _, c := range []struct{ meets, asked, why string }{
		{"API CI-4", "API CK-4", "API CI-4 is older than API CK-4: an older one never answers a newer"},
		{"API CF", "API CI-4", "API CF is older than API CI-4: an older one never answers a newer"},
		{"API CK-4", "API CG-4", "the table does not list API CG-4 among what API CK-4 may replace"},
		{"API FA-4", "API CI-4", "API FA-4 is a thinner oil for newer road diesels, it replaces no other category"},
		{"CF-2", "API CD", "CF-2 is for two-stroke diesels, it replaces no category here"},
		{"FC-W", "API CI-4", "FC-W is a mark for petrol four-strokes"},
		{"API SN", "API CI-4", "API SN is a mark for petrol engines"},
		{"API GL-5", "API CI-4", "API GL-5 is a mark for gears"},
		{"ATF", "API CI-4", "ATF is a mark for automatic gearboxes"},
		{"API CK-4", "API GL-4", "API CK-4 is a mark for diesel engines"},
		{"API GL-5", "API GL-4", "API GL-5 is not listed for API GL-4: its additives can attack yellow metals (from memory)"},
		{"API GL-4", "API GL-5", ""},
		{"Harrow spec 7", "API CI-4", ""},
		{"API CI-4", "Harrow spec 7", ""}, // it may be one for engines
	} {
		got := Suits([]string{c.meets}, []string{c.asked})
		if got.Suits || got.Why != c.why {
			t.Errorf("%s for %s: suits %v, %q, want %q", c.meets, c.asked, got.Suits, got.Why, c.why)
		}
	}
	if got := Suits([]string{"API CK-4"}, []string{"API CI-4"}); got.Why != "the table lists API CI-4 among what API CK-4 may replace" || got.Source == "" {
		t.Errorf("%+v", got)
	}
}

// TestMarks: two marks in one, and marks without their API or ACEA.
func TestMarks(t *testing.T) {
	for _, c := range []struct {
		meets, asked string
		direct       bool
	}{
		{"API CK-4/SN", "API CK-4", true}, {"API CK-4/SN", "API CI-4", false}, {"API SN/CF", "API CD", false},
		{"CI-4", "API CI-4", true}, {"API CI-4+", "API CI-4 PLUS", true}, {"CI4 Plus", "API CI-4", false},
		{"E7", "ACEA E7", true}, {"acea-e8", "E6", false}, {"ATF", "atf", true}, {"Harrow Spec 7", "harrow spec-7", true},
	} {
		got := Suits([]string{c.meets}, []string{c.asked})
		if !got.Suits || got.Direct != c.direct {
			t.Errorf("%s for %s: %+v", c.meets, c.asked, got)
		}
	}
	for _, nothing := range []string{"", " ", "/", "-"} {
		if got := Suits([]string{nothing}, []string{"", "API CI-4"}); got.Suits {
			t.Errorf("%q suits: %+v", nothing, got)
		}
	}
}
