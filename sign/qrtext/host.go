package qrtext

import (
	"errors"
	"fmt"
	"strings"
)

const (
	bareScheme  = "hourseal:"
	pageScheme  = "https://"
	pageEnding  = "/#"
	maxHostLen  = 253 // RFC 1035 section 2.3.4, in text
	maxLabelLen = 63
)

// ValidHost refuses what is not a plain DNS host name (RFC 1123 section 2.1):
// two or more labels of letters, digits and hyphens joined by dots. Either case
// is fine.
func ValidHost(host string) error {
	if host == "" {
		return errors.New(`empty host name: give one such as "verify.ellery-slip.example"`)
	}
	if len(host) > maxHostLen {
		return fmt.Errorf("host name of %d characters, the limit is %d", len(host), maxHostLen)
	}
	for i := range len(host) {
		switch c := host[i]; {
		case isLetter(c), isDigit(c), c == '-', c == '.':
		default:
			return fmt.Errorf(`host name %+q: only letters, digits, hyphens and dots, no https:// before it and no port or path after it`, host)
		}
	}
	labels := strings.Split(host, ".")
	if len(labels) < 2 {
		return fmt.Errorf(`host name %q has no dot: give it in full, such as "verify.ellery-slip.example"`, host)
	}
	for _, label := range labels {
		switch {
		case label == "":
			return fmt.Errorf("host name %q: a dot at its beginning or end, or two together", host)
		case len(label) > maxLabelLen:
			return fmt.Errorf("host name %q: %d characters between dots, the limit is %d", host, len(label), maxLabelLen)
		case label[0] == '-' || label[len(label)-1] == '-':
			return fmt.Errorf("host name %q: a hyphen beside a dot or at an end", host)
		}
	}
	if strings.Trim(labels[len(labels)-1], "0123456789") == "" {
		return fmt.Errorf("host name %q is a number or an address: give the name", host)
	}
	return nil
}

func isLetter(c byte) bool { return 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z' }
func isDigit(c byte) bool  { return '0' <= c && c <= '9' }

// prefixFor is what stands before the digits. A host goes in upper case, which
// a QR code can pack closer; hourseal: goes in lower case, because a common
// encoder takes a needlessly large code for the upper-case form.
func prefixFor(pageHost string) (string, error) {
	if pageHost == "" {
		return bareScheme, nil
	}
	if err := ValidHost(pageHost); err != nil {
		return "", err
	}
	return strings.ToUpper(pageScheme + pageHost + pageEnding), nil
}

// cutPrefix gives the host, in lower case, empty for hourseal:, and where the
// digits begin.
func cutPrefix(text string) (host string, digitsAt int, err error) {
	if len(text) >= len(bareScheme) && strings.EqualFold(text[:len(bareScheme)], bareScheme) {
		return "", len(bareScheme), nil
	}
	if len(text) < len(pageScheme) || !strings.EqualFold(text[:len(pageScheme)], pageScheme) {
		return "", 0, ErrNotOurs
	}
	rest := text[len(pageScheme):]
	end := strings.IndexByte(rest[:min(len(rest), maxHostLen+1)], '/')
	if end < 0 || !strings.HasPrefix(rest[end:], pageEnding) || ValidHost(rest[:end]) != nil {
		return "", 0, ErrNotOurs
	}
	return strings.ToLower(rest[:end]), len(pageScheme) + end + len(pageEnding), nil
}

// cutFragmentMark is cutPrefix for a fragment, which has no host.
func cutFragmentMark(fragment string) (host string, digitsAt int, err error) {
	if !strings.HasPrefix(fragment, "#") {
		return "", 0, ErrNotOurs
	}
	return "", len("#"), nil
}
