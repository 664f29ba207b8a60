package fluid

import (
	"fmt"
	"testing"
)

// TestGradeTables: SAE J300-2015 and J306-2005, in mm2/s at 100 degC as they are
// published; J306's winter grades, 190 and 250 from memory.
func TestGradeTables(t *testing.T) {
	for text, want := range map[string]string{
		"20": "6.9 9.3 SAE J300", "30": "9.3 12.5 SAE J300", "40": "12.5 16.3 SAE J300", "50": "16.3 21.9 SAE J300", "60": "21.9 26.1 SAE J300",
		"0W": "3.8 0.0 SAE J300", "5W": "3.8 0.0 SAE J300", "10W": "4.1 0.0 SAE J300", "15W": "5.6 0.0 SAE J300", "20W": "5.6 0.0 SAE J300", "25W": "9.3 0.0 SAE J300",
		"15W-40": "12.5 16.3 SAE J300", "SAE 10w30": "9.3 12.5 SAE J300",
		"80": "7.0 11.0 SAE J306", "85": "11.0 13.5 SAE J306", "90": "13.5 18.5 SAE J306", "110": "18.5 24.0 SAE J306", "140": "24.0 32.5 SAE J306",
		"80W-90": "13.5 18.5 SAE J306", "75W-140": "24.0 32.5 SAE J306", "250": "41.0 0.0 SAE J306", "80W": "7.0 0.0 SAE J306",
	} {
		low, high, standard, ok := KinematicRange(text)
		if got := fmt.Sprint(tenths(low), " ", tenths(high), " ", standard); !ok || got != want {
			t.Errorf("%s: %s, want %s", text, got, want)
		}
	}
	for _, text := range []string{"", "W", "15W-90", "80W-40", "45", "ATF", "Harrow G", "15W-40X", "1000", "-5", "15W40W50"} {
		if _, _, _, ok := KinematicRange(text); ok {
			t.Errorf("%q is a grade", text)
		}
	}
}

// TestGradesTile: in each table the grades follow each other without a gap, the middle
// of each is in no other, and no number is in both tables: a bare number tells its
// table.
func TestGradesTile(t *testing.T) {
	for _, table := range []gradeTable{j300, j306} {
		for i, h := range table.hot {
			if i > 0 && table.hot[i-1].high != h.low {
				t.Errorf("%s: a gap below %d", table.name, h.number)
			}
			middle, holders := (h.low+max(h.high, h.low+2))/2, 0
			for _, other := range table.hot {
				if middle >= other.low && (other.high == 0 || middle < other.high) {
					holders++
				}
			}
			if holders != 1 {
				t.Errorf("%s: %s mm2/s is in %d grades", table.name, tenths(middle), holders)
			}
		}
	}
	for _, engine := range j300.hot {
		for _, gear := range j306.hot {
			if engine.number == gear.number {
				t.Errorf("%d is in both", engine.number)
			}
		}
	}
	// The numbers of the two do overlap in viscosity: an SAE 40 engine oil is as thick
	// as an SAE 85 gear oil or a thin 90, which is why they must not be compared.
	low40, high40, _, _ := KinematicRange("40")
	low85, high85, _, _ := KinematicRange("85")
	if low85 >= high40 || low40 >= high85 {
		t.Error("40 and 85 do not overlap")
	}
}

func TestViscosity(t *testing.T) {
	for _, c := range []struct {
		have   string
		asked  []string
		suits  bool
		direct bool
		why    string
	}{
		{"SAE 15W-40", []string{"10W-40", "15W-40"}, true, true, ""},
		{"5W-40", []string{"15W-40"}, true, false, "the same when hot, 12.5 to 16.3 mm2/s at 100 °C, and no thicker in the cold"},
		{"10W-30", []string{"SAE 30"}, true, false, "the same when hot, 9.3 to 12.5 mm2/s at 100 °C, and no thicker in the cold"},
		{"80W-90", []string{"SAE 90"}, true, false, "the same when hot, 13.5 to 18.5 mm2/s at 100 °C, and no thicker in the cold"},
		{"75W-90", []string{"ATF", "80W-90"}, true, false, "the same when hot, 13.5 to 18.5 mm2/s at 100 °C, and no thicker in the cold"},
		{"20W-40", []string{"15W-40"}, false, false, "20W-40 is thicker in the cold than 15W-40"},
		{"40", []string{"15W-40"}, false, false, "40 is thicker in the cold than 15W-40"},
		{"5W-30", []string{"15W-40"}, false, false, "5W-30 is thinner when hot (9.3 to 12.5 mm2/s at 100 °C) than 15W-40 (12.5 to 16.3 mm2/s)"},
		{"20W-50", []string{"15W-40", "10W-40"}, false, false, "20W-50 is thicker when hot (16.3 to 21.9 mm2/s at 100 °C) than 15W-40 (12.5 to 16.3 mm2/s)"},
		{"SAE 90", []string{"15W-40"}, false, false, "SAE 90 is a gear oil grade (SAE J306), 15W-40 an engine oil grade (SAE J300): the numbers do not compare"},
		{"15W-40", []string{"SAE 90"}, false, false, "15W-40 is an engine oil grade (SAE J300), SAE 90 a gear oil grade (SAE J306): the numbers do not compare"},
		{"10W", []string{"10W-30"}, false, false, "10W is for the cold only; 10W-30 is asked"},
		{"10W-30", []string{"10W"}, false, false, "10W alone is asked: the table does not say that 10W-30 is as thin"},
		{"ATF", []string{"atf"}, true, true, ""},
		{"ATF", []string{"SAE 90"}, false, false, ""},
		{"", []string{"15W-40"}, false, false, ""},
		{"", []string{""}, false, false, ""},
		{"15W-40", nil, false, false, ""},
	} {
		got := Viscosity(c.have, c.asked)
		if got.Suits != c.suits || got.Direct != c.direct || got.Why != c.why {
			t.Errorf("%s for %v: %+v", c.have, c.asked, got)
		}
	}
}

// TestViscosityIsDirected: of two different grades at most one may stand in for the
// other, and standing in carries on.
func TestViscosityIsDirected(t *testing.T) {
	var all []string
	for _, table := range []gradeTable{j300, j306} {
		for _, h := range table.hot {
			all = append(all, fmt.Sprint(h.number))
			for _, c := range table.cold {
				all = append(all, fmt.Sprintf("%dW-%d", c.number, h.number))
			}
		}
	}
	suits := map[string]map[string]bool{} // by what there is and what is wanted
	for _, have := range all {
		suits[have] = map[string]bool{}
		for _, want := range all {
			suits[have][want] = Viscosity(have, []string{want}).Suits
		}
	}
	for _, a := range all {
		for _, b := range all {
			if a != b && suits[a][b] && suits[b][a] {
				t.Errorf("%s and %s stand in for each other", a, b)
			}
			for _, c := range all {
				if suits[a][b] && suits[b][c] && !suits[a][c] {
					t.Errorf("%s for %s, that for %s, and not %s for it", a, b, c, a)
				}
			}
		}
	}
}
