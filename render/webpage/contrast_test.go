package webpage

import (
	"io/fs"
	"maps"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"hourseal/templates"
)

// The colours stand out as WCAG 2.2 asks at level AA: text 4.5 to 1 (criterion
// 1.4.3), the edges of what is to be worked with and the mark of the focus 3 to 1
// (1.4.11), in light and in dark.
func TestContrast(t *testing.T) {
	data, err := fs.ReadFile(templates.Page(), "page.css")
	if err != nil {
		t.Fatal(err)
	}
	light, rest, _ := strings.Cut(string(data), "@media (prefers-color-scheme: dark)")
	dark, _, found := strings.Cut(rest, "*, *::before")
	if !found {
		t.Fatal("the style is not built as this test takes it to be")
	}
	byDay := coloursIn(t, light)
	byNight := maps.Clone(byDay) // what the dark block does not name stays as it is
	maps.Copy(byNight, coloursIn(t, dark))
	for scheme, colours := range map[string]map[string]float64{"light": byDay, "dark": byNight} {
		of := func(name string) float64 {
			value, named := colours[name]
			if !named {
				t.Fatalf("%s: there is no colour %s", scheme, name)
			}
			return value
		}
		for _, c := range []struct {
			front string
			least float64
		}{
			{"ink", 4.5}, {"quiet", 4.5}, {"accent", 4.5}, {"bad", 4.5},
			{"edge", 3}, {"well", 3}, {"unsure", 3},
		} {
			for _, back := range []string{"paper", "sheet", "wash"} {
				if got := contrast(of(c.front), of(back)); got < c.least {
					t.Errorf("%s: %s on %s: %.2f, want %.1f", scheme, c.front, back, got, c.least)
				}
			}
		}
		if got := contrast(of("on-accent"), of("accent")); got < 4.5 {
			t.Errorf("%s: buttons: %.2f", scheme, got)
		}
	}
}

// coloursIn gives the luminance of each colour that a style names. One that is written
// otherwise than with six small hexadecimal digits is refused, not passed over.
func coloursIn(t *testing.T, style string) map[string]float64 {
	t.Helper()
	colours := map[string]float64{}
	for _, c := range regexp.MustCompile(`--([a-z-]+):\s*([^;]*);`).FindAllStringSubmatch(style, -1) {
		digits := regexp.MustCompile(`^#([0-9a-f]{6})$`).FindStringSubmatch(c[2])
		if digits == nil {
			t.Fatalf("%s: %s is not a colour as this test reads them", c[1], c[2])
		}
		colours[c[1]] = luminance(t, digits[1])
	}
	return colours
}

// The formulae are those of WCAG 2.2, "relative luminance" and "contrast ratio".
func luminance(t *testing.T, hex string) float64 {
	t.Helper()
	value, err := strconv.ParseUint(hex, 16, 32)
	if err != nil {
		t.Fatal(err)
	}
	part := func(shift int) float64 {
		c := float64(value>>shift&0xff) / 255
		if c <= 0.04045 {
			return c / 12.92
		}
		return math.Pow((c+0.055)/1.055, 2.4)
	}
	return 0.2126*part(16) + 0.7152*part(8) + 0.0722*part(0)
}

func contrast(a, b float64) float64 { return (max(a, b) + 0.05) / (min(a, b) + 0.05) }

// Black on white is 21 to 1, and #767676 on white just passes: the values that the
// documents of WCAG name.
func TestContrastFormula(t *testing.T) {
	white := luminance(t, "ffffff")
	if got := contrast(luminance(t, "000000"), white); math.Abs(got-21) > 1e-9 {
		t.Errorf("black on white %.3f", got)
	}
	if got := contrast(luminance(t, "767676"), white); got < 4.5 || got > 4.6 {
		t.Errorf("#767676 on white %.3f", got)
	}
}
