package worksheet

import (
	"regexp"
	"strings"
	"testing"

	"hourseal/record/quantity"
)

// otherwise is the port engine's sheet of a yard that writes all figures in its own way.
func otherwise(t testing.TB) Sheet {
	s := gannet(t)
	s.Yard.Style = quantity.Style{Second: quantity.UnitUSGallon, Dates: quantity.MonthFirst, Comma: true}
	return s
}

var (
	inBrackets   = regexp.MustCompile(` \([0-9,]+ US gal\)`)
	commaMarker  = regexp.MustCompile(`([0-9]),([0-9])`)
	betweenPages = regexp.MustCompile(` Worksheet Gannet, [^·]* · \S+ Page \d of \d Corrin 4T-75, serial \d+( \d [^(]{1,40} \(continued\))?`)
	monthFirst   = regexp.MustCompile(`[A-Z][a-z]{2} [0-9]{1,2}, [0-9]{4}`)
)

// Without what the style adds, the sheet says what it says without one.
func TestStyleOnlyWritesOtherwise(t *testing.T) {
	plain, styled := textOf(t, gannet(t)), textOf(t, otherwise(t))
	for pattern, least := range map[*regexp.Regexp]int{inBrackets: 10, commaMarker: 20, monthFirst: 10} {
		if n := len(pattern.FindAllString(styled, -1)); n < least {
			t.Errorf("%v: %d times only in\n%s", pattern, n, styled)
		}
	}
	undone := monthFirst.ReplaceAllStringFunc(styled, func(text string) string {
		for d := date("2024-01-01"); d < date("2030-01-01"); d++ {
			if (quantity.Style{Dates: quantity.MonthFirst}).Date(d) == text {
				return d.String()
			}
		}
		return text
	})
	undone = commaMarker.ReplaceAllString(inBrackets.ReplaceAllString(undone, ""), "$1.$2")
	undone, plain = betweenPages.ReplaceAllString(undone, ""), betweenPages.ReplaceAllString(plain, "")
	if undone != plain {
		t.Errorf("differs:\n%s\n\nwant\n%s", strings.ReplaceAll(undone, ". ", ".\n"), strings.ReplaceAll(plain, ". ", ".\n"))
	}
}

// longestOtherwise has the widest second unit beside the longest texts.
func longestOtherwise(t testing.TB) Sheet {
	s := longest(t, "m ")
	s.Yard.Style = quantity.Style{Second: quantity.UnitImperialFluidOunce, Dates: quantity.MonthFirst, Comma: true}
	return s
}
