package calendar

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"
	"unicode"

	"hourseal/record"
	"hourseal/record/quantity"
)

const (
	product = "-//hourseal//due items//EN"

	// maxLine is the longest line of a text, in runes: far more than a calendar
	// program shows.
	maxLine = 1000
)

// ErrNoEvents is returned for a calendar without events: the format has none
// (RFC 5545, 3.6: at least one component).
var ErrNoEvents = errors.New("no events: a calendar file holds at least one")

// Event is one due item, for a whole day.
type Event struct {
	UID         string        // stable: the same item has the same one in every calendar
	Date        quantity.Date // of the years 0000 to 9999, the last day but one at most
	Summary     string        // one line
	Description string        // may have several lines; may be empty
}

// Calendar is some due items under a name.
type Calendar struct {
	Name   string // one line
	Stamp  int64  // when it was made: seconds since 1970-01-01T00:00:00Z, to the year 2199
	Events []Event
}

// Encode gives the calendar's file, its events in their order. Every line of its
// texts is held to [record.CheckText], at most 1000 characters long, so that
// nothing in them needs to be dropped; lines of a description may have spaces
// around them. The error is [ErrNoEvents], or says which
// event and field is wrong, as
//
//	event 2, summary: invisible character U+0007 is not allowed: take it out
func (c Calendar) Encode() ([]byte, error) {
	if len(c.Events) == 0 {
		return nil, ErrNoEvents
	}
	made := quantity.FromUnix(c.Stamp)
	if made < 0 || made.Valid() != nil {
		return nil, fmt.Errorf("stamp: %d seconds since 1970 is no time of the years 1970 to %d", c.Stamp, quantity.MaxDate.Year())
	}
	if err := checkLine(c.Name); err != nil {
		return nil, fmt.Errorf("name: %w", err)
	}
	f := file{}
	f.line("BEGIN", "VCALENDAR")
	f.line("VERSION", "2.0")
	f.line("PRODID", product)
	f.line("CALSCALE", "GREGORIAN")
	f.text("NAME", c.Name)
	f.text("X-WR-CALNAME", c.Name)
	stamp := time.Unix(c.Stamp, 0).UTC().Format("20060102T150405Z")
	seen := map[string]int{}
	for i, e := range c.Events {
		if err := e.check(); err != nil {
			return nil, fmt.Errorf("event %d, %w", i+1, err)
		}
		if first := seen[e.UID]; first != 0 {
			return nil, fmt.Errorf("event %d, uid: the same as of event %d: every item has its own", i+1, first)
		}
		seen[e.UID] = i + 1
		f.event(e, stamp, made)
	}
	f.line("END", "VCALENDAR")
	return f.bytes, nil
}

func (f *file) event(e Event, stamp string, made quantity.Date) {
	f.line("BEGIN", "VEVENT")
	f.text("UID", e.UID)
	f.line("DTSTAMP", stamp)
	f.line("LAST-MODIFIED", stamp)
	f.line("SEQUENCE", strconv.FormatInt(int64(made), 10))
	f.line("DTSTART;VALUE=DATE", day(e.Date))
	f.line("DTEND;VALUE=DATE", day(e.Date+1))
	f.line("TRANSP", "TRANSPARENT")
	f.text("SUMMARY", e.Summary)
	if e.Description != "" {
		f.text("DESCRIPTION", e.Description)
	}
	f.line("END", "VEVENT")
}

// day is a date as RFC 5545, 3.3.4, writes it.
func day(d quantity.Date) string { return strings.ReplaceAll(d.String(), "-", "") }

// check says which field of an event is wrong.
func (e Event) check() error {
	if err := checkLine(e.UID); err != nil {
		return fmt.Errorf("uid: %w", err)
	}
	if e.Date.AddDays(1) != e.Date+1 { // AddDays stays within the calendar
		return fmt.Errorf("date: %v: it and the day after must be of the years 0000 to 9999", e.Date)
	}
	if err := checkLine(e.Summary); err != nil {
		return fmt.Errorf("summary: %w", err)
	}
	for line := range strings.SplitSeq(e.Description, "\n") {
		// Spaces around a line do no harm, and notes may have them.
		if err := record.CheckText(strings.TrimFunc(line, isSpace), maxLine); err != nil {
			return fmt.Errorf("description: %w", err)
		}
	}
	return nil
}

func isSpace(r rune) bool { return unicode.Is(unicode.Zs, r) }

// checkLine refuses what is no text of one line, and no text at all.
func checkLine(text string) error {
	if text == "" {
		return errors.New("empty: something has to stand there")
	}
	return record.CheckText(text, maxLine)
}
