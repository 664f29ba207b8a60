package calendar

import (
	"errors"
	"math"
	"os"
	"strings"
	"testing"

	"hourseal/record/quantity"
)

// madeAt is 2026-05-04 15:20:00 UTC.
const madeAt = 1777908000

func date(t testing.TB, text string) quantity.Date {
	t.Helper()
	d, err := quantity.ParseDate(text)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// example is the calendar of the package comment.
func example(t testing.TB) Calendar {
	return Calendar{
		Name: "Ellery Slip Boatyard, due", Stamp: madeAt,
		Events: []Event{{
			UID:  UID("Ellery Slip Boatyard", "gannet-port", "0045120", "engine-oil"),
			Date: date(t, "2027-05-04"), Summary: "Gannet, port engine: change the engine oil",
			Description: "At 1012.6 h or on 2027-05-04, whichever is first.\nLast done 2026-05-04 at 812.6 h.",
		}},
	}
}

func encode(t testing.TB, c Calendar) []byte {
	t.Helper()
	data, err := c.Encode()
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// TestExample: the package comment shows what is written.
func TestExample(t *testing.T) {
	source, err := os.ReadFile("doc.go")
	if err != nil {
		t.Fatal(err)
	}
	var want strings.Builder
	for line := range strings.Lines(string(source)) {
		if text, ok := strings.CutPrefix(line, "//\t"); ok {
			want.WriteString(strings.TrimSuffix(text, "\n") + "\r\n")
		}
	}
	if got := string(encode(t, example(t))); got != want.String() {
		t.Errorf("written:\n%s\nthe package comment:\n%s", got, want.String())
	}
}

func TestRefused(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*Calendar)
		want   string
	}{
		{"no name", func(c *Calendar) { c.Name = "" }, "name: empty: something has to stand there"},
		{"name of two lines", func(c *Calendar) { c.Name = "a\nb" }, "name: invisible character U+000A is not allowed: take it out"},
		{"before 1970", func(c *Calendar) { c.Stamp = -1 }, "stamp: -1 seconds since 1970 is no time of the years 1970 to 2199"},
		{"after 2199", func(c *Calendar) { c.Stamp = math.MaxInt64 }, "stamp: 9223372036854775807 seconds since 1970 is no time of the years 1970 to 2199"},
		{"no uid", func(c *Calendar) { c.Events[1].UID = "" }, "event 2, uid: empty: something has to stand there"},
		{"the same uid", func(c *Calendar) { c.Events[1].UID = c.Events[0].UID }, "event 2, uid: the same as of event 1: every item has its own"},
		{"the last day", func(c *Calendar) { c.Events[0].Date = quantity.FromYMD(9999, 12, 31) },
			"event 1, date: 9999-12-31: it and the day after must be of the years 0000 to 9999"},
		{"no day", func(c *Calendar) { c.Events[0].Date = math.MaxInt64 },
			"event 1, date: day 9223372036854775807: it and the day after must be of the years 0000 to 9999"},
		{"before all days", func(c *Calendar) { c.Events[0].Date = math.MinInt64 },
			"event 1, date: day -9223372036854775808: it and the day after must be of the years 0000 to 9999"},
		{"no summary", func(c *Calendar) { c.Events[1].Summary = "" }, "event 2, summary: empty: something has to stand there"},
		{"a line within the summary", func(c *Calendar) { c.Events[1].Summary = "oil\r\nATTENDEE:mailto:x" },
			"event 2, summary: invisible character U+000D is not allowed: take it out"},
		{"a bell", func(c *Calendar) { c.Events[0].Description = "one\ntwo\athree" },
			"event 1, description: invisible character U+0007 is not allowed: take it out"},
		{"CR LF", func(c *Calendar) { c.Events[0].Description = "one\r\ntwo" },
			"event 1, description: begins or ends with white space: take it out"},
		{"a line separator", func(c *Calendar) { c.Events[0].Description = "one\u2028two" },
			"event 1, description: invisible character U+2028 is not allowed: take it out"},
		{"no UTF-8", func(c *Calendar) { c.Events[0].Description = "\xff" },
			"event 1, description: not valid UTF-8: save the file as UTF-8"},
		{"far too long", func(c *Calendar) { c.Events[0].Description = strings.Repeat("a", 1001) },
			"event 1, description: 1001 characters, at most 1000 fit"},
	} {
		t.Run(c.name, func(t *testing.T) {
			calendar := example(t)
			second := calendar.Events[0]
			second.UID = UID("Ellery Slip Boatyard", "gannet-port", "0045120", "impeller")
			calendar.Events = append(calendar.Events, second)
			encode(t, calendar)
			c.change(&calendar)
			data, err := calendar.Encode()
			if err == nil || err.Error() != c.want || data != nil {
				t.Errorf("error %v\nwant  %s", err, c.want)
			}
		})
	}
	if _, err := (Calendar{Name: "Ellery Slip Boatyard, due", Stamp: madeAt}).Encode(); !errors.Is(err, ErrNoEvents) {
		t.Errorf("no events: %v", err)
	}
}

// TestNoDescription: what is not said has no line.
func TestNoDescription(t *testing.T) {
	c := example(t)
	c.Events[0].Description = ""
	if data := string(encode(t, c)); strings.Contains(data, "DESCRIPTION") {
		t.Error(data)
	}
}

// TestDays: the event ends the day after, over month ends, leap days and years.
func TestDays(t *testing.T) {
	for _, c := range []struct {
		on   quantity.Date
		want string
	}{
		{date(t, "2027-02-28"), "DTSTART;VALUE=DATE:20270228\r\nDTEND;VALUE=DATE:20270301\r\n"},
		{date(t, "2028-02-28"), "DTSTART;VALUE=DATE:20280228\r\nDTEND;VALUE=DATE:20280229\r\n"},
		{date(t, "2028-02-29"), "DTSTART;VALUE=DATE:20280229\r\nDTEND;VALUE=DATE:20280301\r\n"},
		{date(t, "2026-12-31"), "DTSTART;VALUE=DATE:20261231\r\nDTEND;VALUE=DATE:20270101\r\n"},
		{quantity.FromYMD(0, 1, 1), "DTSTART;VALUE=DATE:00000101\r\nDTEND;VALUE=DATE:00000102\r\n"},
		{quantity.FromYMD(9999, 12, 30), "DTSTART;VALUE=DATE:99991230\r\nDTEND;VALUE=DATE:99991231\r\n"},
	} {
		calendar := example(t)
		calendar.Events[0].Date = c.on
		if data := string(encode(t, calendar)); !strings.Contains(data, c.want) {
			t.Errorf("%v: %s", c.on, data)
		}
	}
}
