package fluid

import (
	"slices"
	"strings"
)

// standsInFor is the directed table of oil categories: the oil named by the key
// may be used where one of the list is asked for. "The newer letter wins" is
// wrong: CJ-4 may replace CG-4, CK-4 is not listed for that.
//
// Sources: API Motor Oil Guide and API bulletins for CK-4, CJ-4, CI-4 and CF;
// the list of CH-4 is from memory. ACEA European Oil Sequences 2022 (E8 for E6,
// E11 for E9; the pairing from memory).
var standsInFor = map[string][]string{
	"API CK-4":      {"API CJ-4", "API CI-4 PLUS", "API CI-4", "API CH-4"},
	"API CJ-4":      {"API CI-4 PLUS", "API CI-4", "API CH-4", "API CG-4", "API CF-4"},
	"API CI-4 PLUS": {"API CI-4", "API CH-4", "API CG-4", "API CF-4", "API CE", "API CD"},
	"API CI-4":      {"API CH-4", "API CG-4", "API CF-4", "API CE", "API CD"},
	"API CH-4":      {"API CG-4", "API CF-4", "API CE", "API CD"},
	"API CF":        {"API CD"},
	"ACEA E8":       {"ACEA E6"},
	"ACEA E11":      {"ACEA E9"},
}

// unlike explains marks that look as if they would do on a diesel and do not.
// Sources: API Motor Oil Guide (FA-4, CF-2); NMMA marks FC-W and TC-W3.
var unlike = map[string]string{
	"API FA-4": "a thinner oil for newer road diesels, it replaces no other category",
	"API CF-2": "for two-stroke diesels, it replaces no category here",
	"FC-W":     "a mark for petrol four-strokes",
	"TC-W3":    "a mark for petrol two-strokes",
}

// Suitability is what the table says of an oil.
type Suitability struct {
	Suits bool
	Have  string // the category that decides
	Asked string // the category that it answers
	// Direct is false where Have stands in for Asked by the table.
	Direct bool
	// Why says more about an oil that does not suit; may be empty.
	Why string
}

// Suits compares what an oil meets with what the machine file asks for, any one
// of which is enough. Categories are compared without regard to case, hyphens
// and spaces.
func Suits(meets, asked []string) Suitability {
	for _, have := range meets {
		for _, want := range asked {
			if fold(have) == fold(want) {
				return Suitability{Suits: true, Have: have, Asked: want, Direct: true}
			}
		}
	}
	for _, have := range meets {
		for _, want := range asked {
			if replaces(have, want) {
				return Suitability{Suits: true, Have: have, Asked: want}
			}
		}
	}
	var why []string
	for _, have := range meets {
		for name, reason := range unlike {
			if fold(name) == fold(have) {
				why = append(why, have+" is "+reason)
			}
		}
	}
	return Suitability{Why: strings.Join(why, "; ")}
}

func replaces(have, want string) bool {
	for oil, list := range standsInFor {
		if fold(oil) == fold(have) {
			return slices.ContainsFunc(list, func(name string) bool { return fold(name) == fold(want) })
		}
	}
	return false
}

// ViscositySuits says whether a grade is one of those asked for.
func ViscositySuits(grade string, asked []string) bool {
	return slices.ContainsFunc(asked, func(want string) bool { return fold(want) == fold(grade) })
}

// fold brings the spellings of one category or grade together: "15W-40",
// "15w40" and "SAE 15W-40" are the same grade.
func fold(name string) string {
	name = strings.ToUpper(name)
	name = strings.NewReplacer(" ", "", "-", "").Replace(name)
	return strings.TrimPrefix(name, "SAE")
}
