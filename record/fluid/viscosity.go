package fluid

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// gradeTable is one of the two standards that number viscosities. The numbers of
// one mean nothing in the other.
type gradeTable struct {
	name string // "SAE J300"
	of   string // "an engine oil grade"
	hot  []hotGrade
	cold []coldGrade
}

// hotGrade is a grade by its kinematic viscosity at 100 degC, in 1/10 mm2/s: from low
// to less than high (0: open).
type hotGrade struct {
	number    int
	low, high int64
}

// coldGrade is a winter grade, and the least kinematic viscosity at 100 degC that it
// has to keep, in 1/10 mm2/s.
type coldGrade struct {
	number int
	least  int64
}

// J300 is SAE J300-2015, of engine oils; its grades below 20 are left out. J306 is
// SAE J306-2005, of axle and gear oils; its winter grades, 190 and 250 are from
// memory.
var (
	j300 = gradeTable{"SAE J300", "an engine oil grade",
		[]hotGrade{{20, 69, 93}, {30, 93, 125}, {40, 125, 163}, {50, 163, 219}, {60, 219, 261}},
		[]coldGrade{{0, 38}, {5, 38}, {10, 41}, {15, 56}, {20, 56}, {25, 93}}}
	j306 = gradeTable{"SAE J306", "a gear oil grade",
		[]hotGrade{{80, 70, 110}, {85, 110, 135}, {90, 135, 185}, {110, 185, 240}, {140, 240, 325}, {190, 325, 410}, {250, 410, 0}},
		[]coldGrade{{70, 41}, {75, 41}, {80, 70}, {85, 110}}}
)

// gradeSource is where the tables of grades come from.
const gradeSource = "SAE J300-2015; SAE J306-2005"

const none = -1

// grade is a viscosity grade taken apart: 15W-40 has winter 15 and hot 40; either may
// be none.
type grade struct {
	winter, hot int
	table       gradeTable
}

// parseGrade takes a grade apart, such as 15W-40, 10W or 30 without what fold
// leaves out; false for what is no grade of either table.
func parseGrade(text string) (grade, bool) {
	winter, hotter, isWinter := strings.Cut(fold(text), "W")
	if !isWinter {
		winter, hotter = "", winter
	}
	g := grade{winter: none, hot: none}
	if !isNumber(winter, 2) || !isNumber(hotter, 3) || winter == "" && (isWinter || hotter == "") {
		return grade{}, false
	}
	if winter != "" {
		g.winter, _ = strconv.Atoi(winter)
	}
	if hotter != "" {
		g.hot, _ = strconv.Atoi(hotter)
	}
	for _, table := range []gradeTable{j300, j306} {
		cold := g.winter == none || slices.ContainsFunc(table.cold, func(c coldGrade) bool { return c.number == g.winter })
		hot := g.hot == none || slices.ContainsFunc(table.hot, func(h hotGrade) bool { return h.number == g.hot })
		if cold && hot {
			g.table = table
			return g, true
		}
	}
	return grade{}, false
}

// isNumber says whether text is digits, at most so many; none are well, too.
func isNumber(text string, most int) bool {
	return len(text) <= most && strings.Trim(text, "0123456789") == ""
}

// KinematicRange is the kinematic viscosity at 100 degC that a grade stands for, in
// 1/10 mm2/s, from low to less than high, which is 0 where it is open; and the
// standard. It is false for what is no grade.
func KinematicRange(text string) (low, high int64, standard string, ok bool) {
	g, ok := parseGrade(text)
	if !ok {
		return 0, 0, "", false
	}
	for _, h := range g.table.hot {
		if h.number == g.hot {
			return h.low, h.high, g.table.name, true
		}
	}
	for _, c := range g.table.cold {
		if c.number == g.winter {
			return c.least, 0, g.table.name, true
		}
	}
	return 0, 0, "", false
}

// Viscosity compares a grade with those that the machine file asks for, any one of
// which is enough. A grade that is better in the cold and the same when hot may stand
// in: 5W-40 for 15W-40, 10W-30 for SAE 30. What is no grade of SAE J300 or J306 (an
// ATF, a maker's own) is compared as text.
func Viscosity(have string, asked []string) Suitability {
	for _, want := range asked {
		if fold(want) == fold(have) && fold(have) != "" {
			return Suitability{Suits: true, Have: have, Asked: want, Direct: true}
		}
	}
	h, isGrade := parseGrade(have)
	if !isGrade {
		return Suitability{}
	}
	var why string
	for _, want := range asked {
		w, ok := parseGrade(want)
		if !ok {
			continue
		}
		reason := h.against(w, have, want)
		if reason == "" {
			return Suitability{Suits: true, Have: have, Asked: want, Source: gradeSource,
				Why: fmt.Sprintf("the same when hot, %s at 100 °C, and no thicker in the cold", h.range100())}
		}
		if why == "" {
			why = reason
		}
	}
	return Suitability{Why: why, Source: gradeSource}
}

// against says why one grade does not stand in for another; "" where it does.
func (g grade) against(want grade, haveText, wantText string) string {
	switch {
	case g.table.name != want.table.name:
		return fmt.Sprintf("%s is %s (%s), %s %s (%s): the numbers do not compare", haveText, g.table.of, g.table.name, wantText, want.table.of, want.table.name)
	case g.hot == none:
		return haveText + " is for the cold only; " + wantText + " is asked"
	case want.hot == none:
		return wantText + " alone is asked: the table does not say that " + haveText + " is as thin"
	case g.hot < want.hot:
		return fmt.Sprintf("%s is thinner when hot (%s at 100 °C) than %s (%s)", haveText, g.range100(), wantText, want.range100())
	case g.hot > want.hot:
		return fmt.Sprintf("%s is thicker when hot (%s at 100 °C) than %s (%s)", haveText, g.range100(), wantText, want.range100())
	case want.winter != none && (g.winter == none || g.winter > want.winter):
		return haveText + " is thicker in the cold than " + wantText
	}
	return ""
}

// range100 is the range at 100 degC in words, "12.5 to 16.3 mm2/s".
func (g grade) range100() string {
	for _, h := range g.table.hot {
		if h.number == g.hot {
			if h.high == 0 {
				return fmt.Sprintf("%s mm2/s and over", tenths(h.low))
			}
			return fmt.Sprintf("%s to %s mm2/s", tenths(h.low), tenths(h.high))
		}
	}
	return ""
}

func tenths(n int64) string { return fmt.Sprintf("%d.%d", n/10, n%10) }
