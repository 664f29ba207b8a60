package fluid

import (
	"fmt"
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

// categorySource is where the table of categories comes from.
const categorySource = "API Motor Oil Guide; ACEA 2022"

// byAge are the API C categories from old to new (years from memory: CD 1955, CE
// 1985, CF-4 1990, CF and CG-4 1994, CH-4 1998, CI-4 2002, CI-4 PLUS 2004, CJ-4
// 2006, CK-4 2016).
var byAge = []string{"API CD", "API CE", "API CF-4", "API CF", "API CG-4", "API CH-4", "API CI-4", "API CI-4 PLUS", "API CJ-4", "API CK-4"}

// unlike explains marks that look as if they would do on a diesel and do not.
// Sources: API Motor Oil Guide (FA-4, CF-2); NMMA marks FC-W and TC-W3.
var unlike = map[string]string{
	"API FA-4": "a thinner oil for newer road diesels, it replaces no other category",
	"API CF-2": "for two-stroke diesels, it replaces no category here",
	"FC-W":     "a mark for petrol four-strokes",
	"TC-W3":    "a mark for petrol two-strokes",
}

// Suitability is what a table says of an oil.
type Suitability struct {
	Suits bool
	Have  string // the category or grade that decides
	Asked string // the one that it answers
	// Direct is false where Have stands in for Asked by the table.
	Direct bool
	// Why says more: of an oil that does not suit, and of one that the table allows.
	Why    string
	Source string // of the table; "" where none was needed
}

// Suits compares what an oil meets with what the machine file asks for, any one
// of which is enough. Categories are compared without regard to case, hyphens
// and spaces, with or without API or ACEA before them; a mark such as
// "API CK-4/SN" is two.
func Suits(meets, asked []string) Suitability {
	have := marksOf(meets)
	for _, h := range have {
		for _, want := range asked {
			if same(h, want) {
				return Suitability{Suits: true, Have: h, Asked: want, Direct: true}
			}
		}
	}
	for _, h := range have {
		for _, want := range asked {
			if slices.ContainsFunc(standsInFor[known(h)], func(name string) bool { return same(name, want) }) {
				return Suitability{Suits: true, Have: h, Asked: want, Source: categorySource,
					Why: fmt.Sprintf("the table lists %s among what %s may replace", known(want), known(h))}
			}
		}
	}
	var why []string
	for _, h := range have {
		if reason := unsuited(h, asked); reason != "" && !slices.Contains(why, reason) {
			why = append(why, reason)
		}
	}
	return Suitability{Why: strings.Join(why, "; "), Source: categorySource}
}

// marksOf parts marks that stand for two: "API CK-4/SN".
func marksOf(meets []string) []string {
	var marks []string
	for _, m := range meets {
		for part := range strings.SplitSeq(m, "/") {
			if part = strings.TrimSpace(part); part != "" {
				marks = append(marks, part)
			}
		}
	}
	return marks
}

// field is what kind of oil a mark is for.
type field uint8

const (
	noField field = iota // a maker's own specification, or none that we know
	dieselOil
	petrolOil
	gearOil
	automaticOil
)

var fieldNames = map[field]string{
	dieselOil: "for diesel engines", petrolOil: "for petrol engines", gearOil: "for gears", automaticOil: "for automatic gearboxes",
}

// fieldOf tells a mark's kind by its letters: API S for petrol engines, C and F and
// ACEA E for diesels, GL and MT for gears (API 1509, API 1560; from memory).
func fieldOf(mark string) field {
	name, api := strings.CutPrefix(fold(known(mark)), "API")
	switch {
	case strings.HasPrefix(name, "ATF"):
		return automaticOil
	case strings.HasPrefix(name, "ACEAE"):
		return dieselOil
	case strings.HasPrefix(name, "GL") || strings.HasPrefix(name, "MT1"):
		return gearOil
	case api && strings.HasPrefix(name, "S"):
		return petrolOil
	case api && (strings.HasPrefix(name, "C") || strings.HasPrefix(name, "F")):
		return dieselOil
	}
	return noField
}

// unsuited says why a mark answers none of those asked for; "" for no reason that we
// know.
func unsuited(have string, asked []string) string {
	if reason, ok := unlike[known(have)]; ok {
		return have + " is " + reason
	}
	for _, want := range asked {
		if fold(known(have)) == "APIGL5" && fold(known(want)) == "APIGL4" {
			return have + " is not listed for " + want + ": its additives can attack yellow metals (from memory)"
		}
		if age, wanted := slices.Index(byAge, known(have)), slices.Index(byAge, known(want)); age >= 0 && wanted >= 0 {
			if age < wanted {
				return have + " is older than " + want + ": an older one never answers a newer"
			}
			return "the table does not list " + want + " among what " + have + " may replace"
		}
	}
	if h := fieldOf(have); h != noField && !slices.ContainsFunc(asked, func(want string) bool { return fieldOf(want) == h || fieldOf(want) == noField }) {
		return have + " is a mark " + fieldNames[h]
	}
	return ""
}

// categories are the marks that the tables know.
var categories = func() []string {
	names := slices.Clone(byAge)
	for name := range unlike {
		names = append(names, name)
	}
	names = append(names, "ACEA E4", "ACEA E6", "ACEA E7", "ACEA E8", "ACEA E9", "ACEA E11",
		"API GL-1", "API GL-4", "API GL-5", "API MT-1")
	for letter := 'A'; letter <= 'R'; letter++ { // petrol: SA to SR, of which SI, SK and SO are no categories
		names = append(names, "API S"+string(letter))
	}
	slices.Sort(names)
	return names
}()

// known gives a mark the name that the tables know it by, or as it is.
func known(mark string) string {
	written := strings.ReplaceAll(fold(mark), "+", "PLUS")
	for _, name := range categories {
		if f := fold(name); written == f || "API"+written == f || "ACEA"+written == f {
			return name
		}
	}
	return mark
}

func same(a, b string) bool { return fold(known(a)) == fold(known(b)) && fold(a) != "" }

// fold brings the spellings of one category or grade together: "15W-40",
// "15w40" and "SAE 15W-40" are the same grade.
func fold(name string) string {
	name = strings.ToUpper(name)
	name = strings.NewReplacer(" ", "", "-", "").Replace(name)
	return strings.TrimPrefix(name, "SAE")
}
