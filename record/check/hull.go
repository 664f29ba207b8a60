package check

import (
	"fmt"
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
	if hull != "" && HullFault(hull) != "" {
		b.find(record.Note, "machine", record.Finding{Code: record.HullNumberForm, Text: hull})
	}
}

// Lengths of a hull identification number without and with its country.
const (
	hullLength        = 12
	hullCountryLength = 14
)

// HullFault says what keeps a text from being a hull identification number of a form
// that we know, as a sentence for whoever typed it; "" where it has one. Letter case,
// hyphens, spaces and points do not count. No form has a check digit, so that most
// slips of a digit are not seen.
func HullFault(hull string) string {
	folded := strings.ToUpper(hullFold.Replace(hull))
	for _, form := range hullForms {
		if form.MatchString(folded) {
			return ""
		}
	}
	for _, r := range folded {
		if !(r >= 'A' && r <= 'Z' || r >= '0' && r <= '9') {
			return fmt.Sprintf("%q is in it: a hull number has letters, digits and hyphens only.", r)
		}
	}
	if n := len(folded); n != hullLength && n != hullCountryLength {
		return fmt.Sprintf("It has %d letters and digits without the hyphens: a hull number has %d, or %d with the country before it.", n, hullLength, hullCountryLength)
	}
	rest, country := folded, ""
	if len(folded) == hullCountryLength {
		country, rest = folded[:2], folded[2:]
	}
	if strings.Trim(country, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != "" {
		return fmt.Sprintf("It begins with %s, where the country's two letters stand, as GB.", country)
	}
	if i := strings.IndexAny(rest[3:8], "IOQ"); i >= 0 {
		letter := rest[3+i : 4+i]
		return fmt.Sprintf("The letter %s is in its serial, %s: that has no I, O or Q, for they look like 1 and 0.", letter, rest[3:8])
	}
	return fmt.Sprintf("It ends in %s: a letter from A to L for the month, the last digit of the year, and two digits of the model year stand there, as A323.", rest[8:])
}
