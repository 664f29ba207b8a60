package jobsheet

import (
	"errors"
	"fmt"
	"net/url"
	"path"
	"strings"

	"hourseal/record"
	"hourseal/record/fluid"
	"hourseal/record/quantity"
)

var yardForm = form{
	{"name", "the yard's name, as Ellery Slip Boatyard", required},
	{"kind", "yard, owner or surveyor", required},
	{"address", "the address, as 4 Slip Lane, Port Ellery", optional},
	{"contact", "how to reach the yard, as office@ellery-slip.example", optional},
	{"page", "https and the host of the yard's page, as https://verify.ellery-slip.example", optional},
	{"paper", "A4 or Letter", optional},
	{"signing_key", "the private key's file in the yard folder, as keys/yard", required},
	{"containers", "the sizes of can that the yard stocks, as [1 L, 5 L, 20 L]", optional},
	{"extractor", "{ holds: 6 L }", optional},
	{"margin", "what is brought beyond what a job takes, as 5 %", optional},
	{"uncertainty", "{ jug: 2 %, dipstick: 12 % }", optional},
	{"writes", "{ second_unit: US gal, dates: 23 Sep 2026, decimal: comma }", optional},
}

var extractorForm = form{
	{"holds", "what the vacuum extractor holds, as 6 L", required},
}

var writesForm = form{
	{"second_unit", "the unit of volume that stands in brackets behind litres, as US gal", optional},
	{"dates", `a date as the yard writes them, as 23 Sep 2026, "Sep 23, 2026" or 2026-09-23`, optional},
	{"decimal", "point or comma", optional},
}

// maxContainers is how many sizes of can a yard may stock.
const maxContainers = 8

// ParseYard reads yard.yaml. File is its name in messages.
func ParseYard(file string, data []byte) (Yard, error) {
	s := newSheet(file)
	root, ok := s.read(data)
	if !ok {
		return done(s, Yard{})
	}
	f := root.fields(yardForm)
	yard := Yard{
		Name:       one(f, "name", text),
		Kind:       one(f, "kind", enum[record.IssuerKind](record.IssuerWords)),
		Address:    one(f, "address", text),
		Contact:    one(f, "contact", text),
		PageHost:   one(f, "page", pageHost),
		Paper:      record.A4,
		SigningKey: one(f, "signing_key", keyPath),
		Containers: several(f, "containers", maxContainers, capacity),
		Margin:     DefaultMargin,
		Doubt:      fluid.TradeDoubt,
	}
	if extractor := group(f, "extractor", extractorForm, holds); extractor != nil {
		yard.Extractor = *extractor
	}
	if margin := maybe(f, "margin", percent); margin != nil {
		yard.Margin = *margin
	}
	if d := group(f, "uncertainty", doubtForm, doubt); d != nil {
		yard.Doubt = *d
	}
	if style := group(f, "writes", writesForm, writes); style != nil {
		yard.Style = *style
	}
	if paper := maybe(f, "paper", enum[record.Paper](record.PaperWords)); paper != nil {
		yard.Paper = *paper
	}
	return done(s, yard)
}

func holds(f fields) quantity.Volume { return one(f, "holds", capacity) }

func writes(f fields) quantity.Style {
	return quantity.Style{
		Second: one(f, "second_unit", quantity.ParseSecondUnit),
		Dates:  one(f, "dates", quantity.ParseDateOrder),
		Comma:  one(f, "decimal", oneOf("point", "comma")) == "comma",
	}
}

// capacity is what a vessel holds, which is never nothing.
func capacity(s string) (quantity.Volume, error) {
	v, err := quantity.ParseVolume(s)
	if err == nil && v <= 0 {
		err = fmt.Errorf("%s: write more than 0, as 5 L", show(s))
	}
	return v, err
}

// pageHost reads https://HOST and gives the host in small letters. The host
// is a DNS name of at least two labels (RFC 1123, section 2.1: letters, digits
// and hyphens, none at either end), since it is all that the QR code has room
// for.
func pageHost(s string) (string, error) {
	if _, err := text(s); err != nil {
		return "", err
	}
	page, err := url.Parse(s)
	switch {
	case err == nil && page.Scheme == "http" && isHost(page.Host):
		return "", fmt.Errorf("%s: write https://%s, a page that nobody can alter on the way", show(s), page.Host)
	case err == nil && page.Scheme == "" && isHost(s):
		return "", fmt.Errorf("%s: write https://%s", show(s), s)
	case err != nil || page.Scheme != "https" || page.Hostname() == "":
		return "", fmt.Errorf("%s: write https and a host, as https://verify.ellery-slip.example", show(s))
	case !isHost(page.Hostname()):
		return "", fmt.Errorf("%s: a host is words of letters, digits and hyphens with points between, as verify.ellery-slip.example", show(s))
	case !strings.EqualFold(s, "https://"+page.Hostname()):
		return "", fmt.Errorf("%s: write the host and nothing more: https://%s", show(s), page.Hostname())
	}
	return strings.ToLower(page.Hostname()), nil
}

func isHost(host string) bool {
	labels := strings.Split(host, ".")
	for _, label := range labels {
		if label == "" || len(label) > 63 || label[0] == '-' || label[len(label)-1] == '-' {
			return false
		}
		for _, r := range strings.ToLower(label) {
			if !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r == '-') {
				return false
			}
		}
	}
	last := labels[len(labels)-1]
	return len(labels) > 1 && len(host) <= record.MaxText && strings.Trim(last, "0123456789") != "" // no number: an address
}

// keyPath reads a path below the yard folder.
func keyPath(s string) (string, error) {
	if _, err := text(s); err != nil {
		return "", err
	}
	if strings.Contains(s, "PRIVATE KEY") || strings.HasPrefix(s, "ssh-") {
		// Nothing of it is repeated in the message.
		return "", errors.New("a key stands here: write the name of its file, as keys/yard")
	}
	if strings.ContainsAny(s, `\:`) || path.IsAbs(s) || s[0] == '~' || path.Clean(s) != s || s == ".." || strings.HasPrefix(s, "../") {
		return "", fmt.Errorf("%s: write the path from the yard folder with forward slashes, as keys/yard", show(s))
	}
	return s, nil
}
