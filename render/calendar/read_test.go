package calendar

import (
	"bytes"
	"encoding/json"
	"os/exec"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode"
	"unicode/utf8"

	"github.com/emersion/go-ical"
	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/recordtest/outside"
)

// failer is what a test and a property have in common.
type failer interface {
	Helper()
	Fatalf(string, ...any)
}

// contentLine is a line, whole: a name, a parameter perhaps, and a value in which
// what has to be escaped is (RFC 5545, 3.1 and 3.3.11). Readers forgive a bare
// semicolon.
var contentLine = regexp.MustCompile(`^[A-Z-]+(;VALUE=DATE)?:([^\\;,]|\\[\\;,n])*$`)

// unfolded holds a file to RFC 5545, 3.1, by rules written here once more, and
// gives its lines, whole.
func unfolded(t failer, data []byte) []string {
	t.Helper()
	text, ok := strings.CutSuffix(string(data), "\r\n")
	if !ok {
		t.Fatalf("the last line does not end in CR LF: %q", data)
	}
	var lines []string
	for line := range strings.SplitSeq(text, "\r\n") {
		if len(line) > 75 {
			t.Fatalf("%d octets: %q", len(line), line)
		}
		if !utf8.ValidString(line) {
			t.Fatalf("cut inside a character: %q", line)
		}
		if strings.ContainsFunc(line, unicode.IsControl) {
			t.Fatalf("a control character: %q", line)
		}
		if rest, more := strings.CutPrefix(line, " "); more && len(lines) > 0 {
			lines[len(lines)-1] += rest
		} else {
			lines = append(lines, line)
		}
	}
	for _, line := range lines {
		if !contentLine.MatchString(line) {
			t.Fatalf("not a content line: %q", line)
		}
	}
	return lines
}

// sameTexts reads a calendar with github.com/emersion/go-ical, which refuses an
// escape that RFC 5545 does not have, and wants every value back as it went in.
// Encoding what it read makes it count the properties: exactly one of each that
// has to be there.
func sameTexts(t failer, c Calendar, data []byte) {
	t.Helper()
	unfolded(t, data)
	read, err := ical.NewDecoder(bytes.NewReader(data)).Decode()
	if err != nil {
		t.Fatalf("%v: %s", err, data)
	}
	if err := ical.NewEncoder(&bytes.Buffer{}).Encode(read); err != nil {
		t.Fatalf("%v: %s", err, data)
	}
	text := func(props ical.Props, name, want string) {
		t.Helper()
		got, err := props.Text(name)
		if err != nil || got != want {
			t.Fatalf("%s %q, %v, want %q", name, got, err, want)
		}
	}
	text(read.Props, "NAME", c.Name)
	text(read.Props, "X-WR-CALNAME", c.Name)
	events := read.Events()
	if len(events) != len(c.Events) || len(read.Children) != len(c.Events) {
		t.Fatalf("%d events and %d parts, want %d", len(events), len(read.Children), len(c.Events))
	}
	made := time.Unix(c.Stamp, 0)
	for i, e := range c.Events {
		props := events[i].Props
		text(props, "UID", e.UID)
		text(props, "SUMMARY", e.Summary)
		text(props, "DESCRIPTION", e.Description)
		text(props, "TRANSP", "TRANSPARENT")
		for _, name := range []string{"DTSTAMP", "LAST-MODIFIED"} {
			if got, err := props.DateTime(name, nil); err != nil || !got.Equal(made) {
				t.Fatalf("%s %v, %v, want %v", name, got, err, made)
			}
		}
		for name, want := range map[string]quantity.Date{"DTSTART": e.Date, "DTEND": e.Date.AddDays(1)} {
			if got, err := props.DateTime(name, nil); err != nil || quantity.FromUnix(got.Unix()) != want || props.Get(name).ValueType() != ical.ValueDate {
				t.Fatalf("%s %v, %v, want %v", name, got, err, want)
			}
		}
		if got, err := props.Get("SEQUENCE").Int(); err != nil || got != int(c.Stamp/86_400) {
			t.Fatalf("SEQUENCE %d, %v", got, err)
		}
	}
}

// hostile are texts that mean something to a careless writer or reader.
var hostile = []string{
	`a\nb`, `\`, `\\`, `\\n`, `\;\,`, `C:\new\;n`, `ends in \`, `;`, `,`, `a;b,c:d"e`, `"quoted": "yes"`, "END:VEVENT", "BEGIN:VALARM",
	"one\ntwo", "one\n\n\ntwo", "\none", "one\n", "a\nEND:VEVENT\nEND:VCALENDAR", `x\nEND:VEVENT`, "^n^'^^", "%0D%0A", "=0D=0A",
	"two  spaces", "one \n two\n \n \u3000\u00a0 three", "a" + strings.Repeat(" ", 300) + "b", strings.Repeat("; ,", 90) + `\`, strings.Repeat(`\`, 200),
	strings.Repeat("é", 150), strings.Repeat("€", 150), "e" + strings.Repeat("\u0301", 100), "a\u00a0b", "漢字、かな", "שלום", "\u0301",
}

// TestHostileTexts: a general-purpose reader gives back the very text.
func TestHostileTexts(t *testing.T) {
	c := hostileCalendar(t)
	sameTexts(t, c, encode(t, c))
}

// hostileCalendar has an event of each hostile text.
func hostileCalendar(t testing.TB) Calendar {
	c := Calendar{Name: `Ellery Slip; "due", \now`, Stamp: madeAt}
	for i, text := range hostile {
		c.Events = append(c.Events, Event{
			UID:  UID("Ellery Slip Boatyard", "gannet-port", text, "engine-oil"),
			Date: date(t, "2026-12-20").AddDays(quantity.Days(i)), Summary: strings.ReplaceAll(strings.Trim(text, "\n"), "\n", "/"), Description: text,
		})
	}
	return c
}

// TestFolds: a line is cut at 75 octets and no earlier than a character needs,
// wherever the characters of two and three octets stand.
func TestFolds(t *testing.T) {
	for _, letter := range []string{"a", "é", "€"} {
		for shift := range 3 {
			for n := 1; n <= 240; n++ {
				c := example(t)
				c.Events[0].Summary = strings.Repeat("x", shift) + strings.Repeat(letter, n)
				data := encode(t, c)
				whole := "SUMMARY:" + c.Events[0].Summary
				if lines := unfolded(t, data); !slices.Contains(lines, whole) {
					t.Fatalf("%d %s: %q", n, letter, lines)
				}
				_, rest, _ := strings.Cut(string(data), "\r\nSUMMARY:")
				folded, _, _ := strings.Cut(rest, "\r\nDESCRIPTION:")
				lines := strings.Split("SUMMARY:"+folded, "\r\n")
				for _, line := range lines[:len(lines)-1] {
					if len(line) <= 75-len(letter) {
						t.Errorf("%d %s: cut after %d octets already: %q", n, letter, len(line), line)
					}
				}
			}
		}
	}
}

// anyText is any text that a record may hold, some of it hostile.
func anyText(limit int) *rapid.Generator[string] {
	letter := rapid.OneOf(
		rapid.SampledFrom([]rune(`\;,:"nN aé€`)),
		rapid.RuneFrom(nil, unicode.Letter, unicode.Punct, unicode.Symbol, unicode.Mark),
	)
	return rapid.StringOfN(letter, 1, limit, -1).Filter(func(text string) bool { return record.CheckText(text, limit) == nil })
}

// TestAnyText: any calendar of texts that a record may hold comes back as it
// went in.
func TestAnyText(t *testing.T) {
	events := rapid.SliceOfNDistinct(rapid.Custom(func(t *rapid.T) Event {
		return Event{
			UID:         anyText(60).Draw(t, "uid"),
			Date:        quantity.Date(rapid.Int64Range(-719_528, 2_932_895).Draw(t, "date")),
			Summary:     anyText(record.MaxText).Draw(t, "summary"),
			Description: strings.Join(rapid.SliceOfN(rapid.OneOf(rapid.Just(""), anyText(record.MaxReason)), 0, 4).Draw(t, "description"), "\n"),
		}
	}), 1, 4, func(e Event) string { return e.UID })
	rapid.Check(t, func(t *rapid.T) {
		c := Calendar{
			Name:   anyText(record.MaxText).Draw(t, "name"),
			Stamp:  rapid.Int64Range(0, int64(quantity.MaxDate+1)*86_400-1).Draw(t, "stamp"),
			Events: events.Draw(t, "events"),
		}
		data, err := c.Encode()
		if err != nil {
			t.Fatal(err)
		}
		sameTexts(t, c, data)
	})
}

// FuzzText: a text is refused, or it comes back as it went in.
func FuzzText(f *testing.F) {
	for _, text := range hostile {
		f.Add(text)
	}
	for _, text := range []string{"\r", "a\rb", "a\x85b", "a\x00b", "\xff", "a\tb", "\u2028", "\U0001f6a4"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		c := example(t)
		c.Events[0].Description = text
		data, err := c.Encode()
		// Notes are the one text of a record with several lines.
		if record.CheckNotes(text) == nil && err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		if err == nil {
			sameTexts(t, c, data)
		}
	})
}

// TestSecondImport: the same item later: the same name, and every mark by which
// a program tells the newer of two is higher or the same.
func TestSecondImport(t *testing.T) {
	first, second := example(t), example(t)
	second.Stamp += 7*86_400 + 1
	second.Events[0].Date += 14
	value := func(c Calendar, name string) string {
		for _, line := range unfolded(t, encode(t, c)) {
			if value, ok := strings.CutPrefix(line, name+":"); ok {
				return value
			}
		}
		t.Fatalf("no %s", name)
		return ""
	}
	if a, b := value(first, "UID"), value(second, "UID"); a != b {
		t.Errorf("UID %s and %s", a, b)
	}
	for name, want := range map[string][2]string{
		"SEQUENCE":      {"20577", "20584"},
		"DTSTAMP":       {"20260504T152000Z", "20260511T152001Z"},
		"LAST-MODIFIED": {"20260504T152000Z", "20260511T152001Z"},
	} {
		if a, b := value(first, name), value(second, name); a != want[0] || b != want[1] {
			t.Errorf("%s %s and %s, want %v", name, a, b, want)
		}
	}
}

// python finds a Python that has the vobject library (Debian: python3-vobject),
// another reader of calendars, which shares nothing with ours.
func python(t *testing.T) string {
	t.Helper()
	for _, name := range []string{"python3", "/usr/bin/python3"} {
		if exec.Command(name, "-c", "import vobject").Run() == nil {
			return name
		}
	}
	outside.Missing(t, "python3 with vobject")
	return ""
}

// TestOutsideReader: another program, in another language, finds the calendar
// valid and reads the same out of it.
func TestOutsideReader(t *testing.T) {
	const script = `
import json, sys, vobject
calendar = vobject.readOne(sys.stdin.buffer.read().decode("utf-8"))
calendar.validate(raiseException=True)
print(json.dumps([[e.uid.value, e.dtstart.value.isoformat(), e.dtend.value.isoformat(), e.dtstamp.value.isoformat(),
    e.sequence.value, e.transp.value, e.summary.value, e.description.value] for e in calendar.vevent_list]))
`
	c := hostileCalendar(t)
	cmd := exec.Command(python(t), "-c", script)
	cmd.Stdin = bytes.NewReader(encode(t, c))
	var faults bytes.Buffer
	cmd.Stderr = &faults
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("%v: %s", err, faults.String())
	}
	var got [][]string
	if err := json.Unmarshal(out, &got); err != nil {
		t.Fatal(err)
	}
	if len(got) != len(c.Events) {
		t.Fatalf("%d events, want %d", len(got), len(c.Events))
	}
	for i, e := range c.Events {
		want := []string{e.UID, e.Date.String(), e.Date.AddDays(1).String(), "2026-05-04T15:20:00+00:00", "20577", "TRANSPARENT", e.Summary, e.Description}
		if !slices.Equal(got[i], want) {
			t.Errorf("vobject reads %q\nwant %q", got[i], want)
		}
	}
}
