package closeout

import (
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/fluid"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
)

// What the level means beside the fill: 9.3 L into a sump of 10 L with 1.6 L between the
// marks reads (9.3 - 10)/1.6 + 1 = 0.56 at 15 °C; warm oil stands higher, by the
// expansion of ASTM D1250 that package fluid is tested for.
func TestBalanceSaid(t *testing.T) {
	system := jobsheet.System{Name: "engine-oil", AtUpper: 10 * quantity.Litre, BetweenMarks: 1600}
	s := &session{Input: Input{Doubt: fluid.TradeDoubt}}
	filled, err := jobsheet.LineAmount("9.3 L at 15 C")
	if err != nil {
		t.Fatal(err)
	}
	unmeasured := quantity.Measured{NotMeasured: true}
	for _, c := range []struct {
		level string
		f     record.Fluid
		want  []string // none: nothing is said
	}{
		{"0.56 at 15 C", record.Fluid{Filled: &filled}, []string{"9.3 L at 15 C alone would put the level near 0.56; you read 0.56", "no further off than the measuring allows"}},
		{"1 at 15 C", record.Fluid{Filled: &filled}, []string{"about 0.7 L of old oil stayed in"}}, // 0.44 of 1.6 L
		{"0.1 at 15 C", record.Fluid{Filled: &filled}, []string{"about 0.7 L is missing"}},
		{"0.56 at 15 C", record.Fluid{Filled: &unmeasured}, nil},
		{"-", record.Fluid{Filled: &filled}, nil},
		{"0.9 at 15 C", record.Fluid{Filled: &filled, DrawnDown: &filled}, nil},
	} {
		c.f.Level = levelOf(c.level)
		got := s.balanceSaid(system, c.f)
		if (got == "") != (c.want == nil) {
			t.Errorf("%s: %q", c.level, got)
		}
		for _, want := range c.want {
			if !strings.Contains(got, want) {
				t.Errorf("%s: %q, want %q in it", c.level, got, want)
			}
		}
	}
	s.Words.Style.Comma = true
	if got := s.balanceSaid(system, record.Fluid{Filled: &filled, Level: levelOf("1 at 15 C")}); !strings.Contains(got, "near 0,56") || !strings.Contains(got, "about 0,7 L") {
		t.Errorf("with a comma: %q", got)
	}
}

// What leaks there were has to be said; minutes alone say nothing.
func TestLeaks(t *testing.T) {
	for text, want := range map[string]string{
		"n 10": "none seen after 10 min", "none seen after 10 min": "none seen after 10 min", "n in 5 min": "none seen after 5 min", "n": "none seen",
		"s drain plug": "seen at drain plug", "seen at drain plug after 5 min": "seen at drain plug after 5 min", "S at elbow": "seen at elbow",
		"10": "", "10 min": "", "clean": "", "n soon": "",
	} {
		got, err := leaks(text)
		if want == "" {
			if err == nil {
				t.Errorf("%q is taken as %q", text, jobsheet.LeakCheckLine(got))
			}
			continue
		}
		if err != nil || jobsheet.LeakCheckLine(got) != want {
			t.Errorf("%q: %q, %v; want %q", text, jobsheet.LeakCheckLine(got), err, want)
		}
	}
}
