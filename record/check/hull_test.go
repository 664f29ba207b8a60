package check

import (
	"strings"
	"testing"
)

func TestHullFault(t *testing.T) {
	for _, c := range []struct{ hull, says string }{
		{"GB-ELS00042A323", ""},
		{"gb els 00042 a3 23", ""},
		{"ELS00042A323", ""},
		{"US-ELS000420123", ""}, // 33 CFR 181.25, an older form: month and year in digits
		{"ELS00042M23A", ""},    // and another: M, model year, month
		{"GB-ELS00042A32", "has 13 letters and digits"},
		{"GB-ELS0042A323", "has 13 letters and digits"},
		{"", "has 0 letters"},
		{"GB-ELS0O042A323", "The letter O is in its serial, 0O042"},
		{"GB-ELS00I42A323", "The letter I"},
		{"ELS0004QA323", "The letter Q"},
		{"G1-ELS00042A323", "begins with G1"},
		{"GB-ELS00042M323", "ends in M323"},
		{"GB-ELS00042AB23", "ends in AB23"},
		{"GB-ELS00042/A323", `'/' is in it`},
		{"GB-ÉLS0042A323", "'É' is in it"},
	} {
		got := HullFault(c.hull)
		if (got == "") != (c.says == "") || !strings.Contains(got, c.says) {
			t.Errorf("%s: %q, want %q", c.hull, got, c.says)
		}
	}
}
