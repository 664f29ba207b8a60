package check

import (
	"regexp"
	"strings"

	"hourseal/record"
)

// hullForms are the forms of a hull identification number, hyphens and spaces
// taken out. 33 CFR 181.25: maker 3, serial 5 (no I, O, Q), then month letter,
// year digit and model year, or the older forms; EN ISO 10087 puts the country
// before it (length from memory). No check digit exists.
var hullForms = []*regexp.Regexp{
	regexp.MustCompile(`^(US)?[A-Z0-9]{3}[A-HJ-NPR-Z0-9]{5}[A-L][0-9][0-9]{2}$`),
	regexp.MustCompile(`^(US)?[A-Z0-9]{3}[A-HJ-NPR-Z0-9]{5}(0[1-9]|1[0-2])[0-9]{2}$`),
	regexp.MustCompile(`^(US)?[A-Z0-9]{3}[A-HJ-NPR-Z0-9]{5}M[0-9]{2}[A-L]$`),
	regexp.MustCompile(`^[A-Z]{2}[A-Z0-9]{3}[A-HJ-NPR-Z0-9]{5}[A-L][0-9][0-9]{2}$`),
}

var hullFold = strings.NewReplacer("-", "", " ", "", ".", "")

func hullRule(b *bench) {
	hull := b.Machine.Vessel.Hull
	if hull != "" && !hullForm(hull) {
		b.find(record.Note, "machine", record.Finding{Code: record.HullNumberForm, Text: hull})
	}
}

func hullForm(hull string) bool {
	folded := strings.ToUpper(hullFold.Replace(hull))
	for _, form := range hullForms {
		if form.MatchString(folded) {
			return true
		}
	}
	return false
}
