package fluid

import "testing"

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

func TestViscositySuits(t *testing.T) {
	if !ViscositySuits("SAE 15W-40", []string{"10W-40", "15W-40"}) || ViscositySuits("5W-30", []string{"15W-40"}) {
		t.Error("viscosity grades compared wrongly")
	}
}
