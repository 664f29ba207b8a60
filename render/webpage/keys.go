package webpage

import (
	"encoding/base64"
	"fmt"
	"html"
	"strings"

	"hourseal/sign"
)

// madeWithJSON is what the page's script knows of its maker; cmd/page says what the
// fields of trust mean.
type madeWithJSON struct {
	Host       string      `json:"host"`
	Trust      []trustJSON `json:"trust"`
	Statements string      `json:"statements"`
}

type trustJSON struct {
	Name    string       `json:"name"`
	Key     string       `json:"key"`
	From    string       `json:"from,omitempty"`
	Until   string       `json:"until,omitempty"`
	Revoked *revokedJSON `json:"revoked,omitempty"`
}

type revokedJSON struct {
	From string `json:"from"`
	Why  string `json:"why"`
}

func madeWith(maker Maker) madeWithJSON {
	out := madeWithJSON{Host: maker.Host, Statements: base64.StdEncoding.EncodeToString(maker.Statements)}
	for _, t := range maker.Trust {
		entry := trustJSON{Name: t.Name, Key: t.Key.OpenSSHLine(""), From: dayText(t.From), Until: dayText(t.Until)}
		if t.Revoked != nil {
			entry.Revoked = &revokedJSON{t.Revoked.From.String(), string(t.Revoked.Why)}
		}
		out.Trust = append(out.Trust, entry)
	}
	return out
}

func dayText(day *sign.Day) string {
	if day == nil {
		return ""
	}
	return day.String()
}

// Key is one that a page is made with.
type Key struct {
	Name, Fingerprint string
	Counts            string // from when to when it counts, a sentence
}

// KeysOf lists the keys that a page knows: those that the maker names, and those that
// follow from them by the statements.
func KeysOf(maker Maker) ([]Key, error) {
	var statements []sign.Statement
	if len(maker.Statements) > 0 {
		var err error
		if statements, err = sign.ParseStatements(maker.Statements); err != nil {
			return nil, err
		}
	}
	ring, _ := maker.Trust.With(statements)
	var keys []sign.PublicKey
	for _, t := range maker.Trust {
		keys = append(keys, t.Key)
	}
	for _, s := range statements {
		if s.Kind == sign.Renew {
			keys = append(keys, s.Other)
		}
	}
	var out []Key
	listed := map[sign.PublicKey]bool{}
	for _, key := range keys {
		standing, known := ring.Lookup(key)
		if !known || listed[key] {
			continue
		}
		listed[key] = true
		out = append(out, Key{standing.Trusted.Name, key.Fingerprint(), counts(standing.Trusted)})
	}
	return out, nil
}

// keyList is the list of the keys as HTML.
func keyList(keys []Key) string {
	var b strings.Builder
	b.WriteString("<ul class=\"key-list\">\n")
	for _, k := range keys {
		fmt.Fprintf(&b, "<li><strong>%s</strong><span class=\"print\">%s</span><span>%s</span></li>\n",
			html.EscapeString(k.Name), k.Fingerprint, k.Counts)
	}
	b.WriteString("</ul>")
	return b.String()
}

// counts says from when to when a key counts.
func counts(t sign.Trusted) string {
	words := "Counts for records of any date"
	switch {
	case t.From != nil && t.Until != nil:
		words = fmt.Sprintf("Counts for records from %s until %s", t.From, t.Until)
	case t.From != nil:
		words = fmt.Sprintf("Counts for records from %s on", t.From)
	case t.Until != nil:
		words = fmt.Sprintf("Counts for records until %s", t.Until)
	}
	if t.Revoked != nil {
		words += fmt.Sprintf("; revoked from %s, %s", t.Revoked.From, t.Revoked.Why)
	}
	return words + "."
}

// madeFor says for which address the page was made, as HTML.
func madeFor(host string) string {
	if host == "" {
		return " Its maker names no address for it."
	}
	return fmt.Sprintf(" It was made for <strong>%s</strong>.", html.EscapeString(host))
}

// possessive is whose.
func possessive(name string) string {
	if strings.HasSuffix(name, "s") {
		return name + "'"
	}
	return name + "'s"
}
