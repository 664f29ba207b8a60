package verifytest

import (
	"bytes"
	"cmp"
	"encoding/base64"
	"encoding/hex"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"hourseal/record/quantity"
	"hourseal/sign"
	"hourseal/verify"
	"hourseal/verify/source"
)

// Ending is what the name of a case's file ends with.
const Ending = ".case"

// Cases is how many the kit of this project has: a run over fewer shows too little.
const Cases = 288

// Load reads all cases of a folder, in the order of their names.
func Load(dir string) ([]Case, error) {
	paths, err := filepath.Glob(filepath.Join(dir, "*"+Ending))
	if err != nil {
		return nil, err
	}
	if len(paths) == 0 {
		return nil, fmt.Errorf("no case in %s: the files end in %s", dir, Ending)
	}
	var cases []Case
	for _, path := range paths {
		data, err := os.ReadFile(path)
		if err != nil {
			return nil, err
		}
		c, err := Parse(data)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", filepath.Base(path), err)
		}
		c.Name = strings.TrimSuffix(filepath.Base(path), Ending)
		cases = append(cases, c)
	}
	return cases, nil
}

// field is one key of the header: how its value is read and written. An empty value
// is not written; need says that it must not be empty.
type field struct {
	key   string
	need  bool
	read  func(c *Case, value string) error
	write func(c Case) []string
}

// fields are the keys in the order of the file.
var fields = []field{
	text("what", true, func(c *Case) *string { return &c.What }),
	text("verdict", true, func(c *Case) *verify.Verdict { return &c.Verdict }),
	{"exit", true, func(c *Case, v string) (err error) { c.Exit, err = strconv.Atoi(v); return err },
		func(c Case) []string { return []string{strconv.Itoa(c.Exit)} }},
	text("source", false, func(c *Case) *source.Kind { return &c.Source }),
	text("page", false, func(c *Case) *source.PageResult { return &c.Page }),
	text("record", false, func(c *Case) *string { return &c.Record }),
	text("list", false, func(c *Case) *string { return &c.List }),
	text("signer", false, func(c *Case) *string { return &c.Signer }),
	text("sentence", true, func(c *Case) *string { return &c.Sentence }),
	unlike("verdict-without-page", func(c *Case) (with, without *verify.Verdict) { return &c.Verdict, &c.VerdictWithoutPage }),
	unlike("page-without-page", func(c *Case) (with, without *source.PageResult) { return &c.Page, &c.PageWithoutPage }),
	unlike("sentence-without-page", func(c *Case) (with, without *string) { return &c.Sentence, &c.SentenceWithoutPage }),
	{"on", true, func(c *Case, v string) (err error) { c.On, err = quantity.ParseDate(v); return err },
		func(c Case) []string { return []string{c.On.String()} }},
	{trustKey, false, readTrusted, writeTrusted},
	{"statements", false, func(c *Case, v string) (err error) {
		c.Statements, err = base64.StdEncoding.DecodeString(v)
		return err
	},
		func(c Case) []string { return []string{base64.StdEncoding.EncodeToString(c.Statements)} }},
	text("serial", false, func(c *Case) *string { return &c.Serial }),
	{"hours", false, readHours, writeHours},
	{"deflated", false, readDeflated, writeDeflated},
}

const (
	trustKey = "trust"
	inputKey = "input" // the header's last
)

// text is a field that stands in the file as it is.
func text[T ~string](key string, need bool, at func(*Case) *T) field {
	return field{key, need,
		func(c *Case, value string) error { *at(c) = T(value); return nil },
		func(c Case) []string { return []string{string(*at(&c))} }}
}

// unlike is a text field that is left out where it is as another.
func unlike[T ~string](key string, at func(*Case) (with, without *T)) field {
	return field{key, false,
		func(c *Case, value string) error { _, without := at(c); *without = T(value); return nil },
		func(c Case) []string {
			with, without := at(&c)
			if *with == *without {
				return nil
			}
			return []string{string(*without)}
		}}
}

// between stands between the parts of a line about a trusted key.
const between = " | "

// readTrusted reads "NAME | ssh-ed25519 AAAA… | from DAY | until DAY | revoked DAY WHY",
// of which all from the third part on may be left out.
func readTrusted(c *Case, value string) error {
	parts := strings.Split(value, between)
	if len(parts) < 2 {
		return errors.New("want NAME | KEY")
	}
	entry := sign.Trusted{Name: parts[0]}
	var err error
	if entry.Key, _, err = sign.ParsePublicKey([]byte(parts[1])); err != nil {
		return err
	}
	for _, part := range parts[2:] {
		words := strings.Fields(part)
		if len(words) < 2 {
			return fmt.Errorf("%q: want a word and a day", part)
		}
		day, err := sign.ParseDay(words[1])
		switch {
		case err != nil:
			return err
		case words[0] == "from" && len(words) == 2:
			entry.From = &day
		case words[0] == "until" && len(words) == 2:
			entry.Until = &day
		case words[0] == "revoked" && len(words) == 3:
			entry.Revoked = &sign.Revocation{From: day, Why: sign.RevokedWhy(words[2])}
		default:
			return fmt.Errorf("%q: want from DAY, until DAY or revoked DAY WHY", part)
		}
	}
	c.Trust, err = c.Trust.Add(entry)
	return err
}

func writeTrusted(c Case) []string {
	var lines []string
	for _, entry := range c.Trust {
		parts := []string{entry.Name, entry.Key.OpenSSHLine("")}
		if entry.From != nil {
			parts = append(parts, "from "+entry.From.String())
		}
		if entry.Until != nil {
			parts = append(parts, "until "+entry.Until.String())
		}
		if r := entry.Revoked; r != nil {
			parts = append(parts, fmt.Sprintf("revoked %s %s", r.From, r.Why))
		}
		lines = append(lines, strings.Join(parts, between))
	}
	return lines
}

func readHours(c *Case, value string) error {
	hours, err := quantity.ParseHours(value)
	c.Hours = &hours
	return err
}

func writeHours(c Case) []string {
	if c.Hours == nil {
		return nil
	}
	return []string{c.Hours.String()}
}

func readDeflated(c *Case, value string) error {
	if c.Deflated = value == "yes"; !c.Deflated {
		return fmt.Errorf("%q: want yes, or leave it out", value)
	}
	return nil
}

func writeDeflated(c Case) []string {
	if !c.Deflated {
		return nil
	}
	return []string{"yes"}
}

// Parse reads one file. Its name is not in it.
func Parse(file []byte) (Case, error) {
	head, body, ok := bytes.Cut(file, []byte("\n\n"))
	if !ok {
		return Case{}, errors.New("no blank line after the header")
	}
	var c Case
	var form string
	next := 0 // the keys stand in the order of fields
	for n, line := range strings.Split(string(head), "\n") {
		key, value, ok := strings.Cut(line, ": ")
		if !ok || value == "" {
			return Case{}, fmt.Errorf("line %d: want key: value", n+1)
		}
		if form != "" {
			return Case{}, fmt.Errorf("line %d: %s stands last", n+1, inputKey)
		}
		if key == inputKey {
			form = value
			continue
		}
		for next < len(fields) && fields[next].key != key {
			next++
		}
		if next == len(fields) {
			return Case{}, fmt.Errorf("line %d: %s is no key, or stands in another place", n+1, key)
		}
		if err := fields[next].read(&c, value); err != nil {
			return Case{}, fmt.Errorf("line %d: %s: %w", n+1, key, err)
		}
		if key != trustKey { // of which there may be several
			next++
		}
	}
	c.VerdictWithoutPage = cmp.Or(c.VerdictWithoutPage, c.Verdict)
	c.PageWithoutPage = cmp.Or(c.PageWithoutPage, c.Page)
	c.SentenceWithoutPage = cmp.Or(c.SentenceWithoutPage, c.Sentence)
	var err error
	if c.Input, err = readInput(form, body); err != nil {
		return Case{}, err
	}
	return c, c.check()
}

// The two forms of the input in a file.
const (
	asText   = "text"   // all that follows the blank line, byte for byte
	asBase64 = "base64" // RFC 4648 section 4, in lines
)

func readInput(form string, body []byte) ([]byte, error) {
	switch form {
	case asText:
		return body, nil
	case asBase64:
		return base64.StdEncoding.DecodeString(string(bytes.ReplaceAll(body, []byte("\n"), nil)))
	default:
		return nil, fmt.Errorf("%s: %q: want %s or %s, in the header's last line", inputKey, form, asText, asBase64)
	}
}

// check holds a case to what README.md says of every one.
func (c Case) check() error {
	for _, f := range fields {
		if written := f.write(c); f.need && (len(written) == 0 || written[0] == "") {
			return fmt.Errorf("%s is missing", f.key)
		}
	}
	if c.Record != "" && c.List != "" {
		return errors.New("it is about a record or a list")
	}
	for _, id := range []string{c.Record, c.List} {
		if raw, err := hex.DecodeString(id); err != nil || id != "" && len(raw) != 32 {
			return fmt.Errorf("%q is no SHA-256 in hex", id)
		}
	}
	if told := c.Record+c.List != ""; told == c.Verdict.HidesContent() || told != (c.Signer != "") {
		return fmt.Errorf("verdict %s: whose it is and which, or neither", c.Verdict)
	}
	if (c.Page == "") != (c.PageWithoutPage == "") {
		return errors.New("an input has a page or has none")
	}
	return nil
}

const base64LineBytes = 57 // 76 characters

// Format writes a case as its file.
func (c Case) Format() ([]byte, error) {
	if err := c.check(); err != nil {
		return nil, err
	}
	var b bytes.Buffer
	for _, f := range fields {
		for _, value := range f.write(c) {
			if strings.ContainsAny(value, "\r\n") {
				return nil, fmt.Errorf("%s: a line end in %q", f.key, value)
			}
			if value != "" {
				fmt.Fprintf(&b, "%s: %s\n", f.key, value)
			}
		}
	}
	if isPlain(c.Input) {
		fmt.Fprintf(&b, "%s: %s\n\n%s", inputKey, asText, c.Input)
		return b.Bytes(), nil
	}
	fmt.Fprintf(&b, "%s: %s\n\n", inputKey, asBase64)
	for rest := c.Input; len(rest) > 0; rest = rest[min(base64LineBytes, len(rest)):] {
		fmt.Fprintln(&b, base64.StdEncoding.EncodeToString(rest[:min(base64LineBytes, len(rest))]))
	}
	return b.Bytes(), nil
}

// isPlain says whether an input is lines of printable ASCII, which no editor and no
// mail program changes.
func isPlain(input []byte) bool {
	for _, b := range input {
		if b != '\n' && (b < ' ' || b > '~') {
			return false
		}
	}
	return bytes.HasSuffix(input, []byte("\n"))
}
