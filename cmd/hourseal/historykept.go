package main

import (
	"bufio"
	"bytes"
	"encoding/hex"
	"fmt"
	"slices"
	"strings"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/treehead"
	"hourseal/sign"
	"hourseal/verify/history"
)

// What a reader keeps beside the reports: plain lines, # begins a remark.

// leastIDDigits is how much of a record's id is enough to name it: what reports print.
const leastIDDigits = 16

// received reads the reader's log of receipt: a line for each record, its date and
// its id, in whole or the 16 digits that reports print. What is not among the inputs
// is said: it may be missing from them, or mistyped.
func (p *program) received(file string, items []history.Item) (map[record.ID]quantity.Date, error) {
	log := map[record.ID]quantity.Date{}
	err := p.keptLines(file, func(line string) error {
		date, rest, err := dated(line)
		if err != nil {
			return err
		}
		if err := p.receivedOn(date, "2026-05-06 8cc2 ea9b ca8e ee33"); err != nil {
			return err
		}
		digits := strings.ToLower(strings.NewReplacer(" ", "", "-", "").Replace(rest))
		if _, err := hex.DecodeString(digits); err != nil || len(digits) < leastIDDigits || len(digits) > 2*len(record.ID{}) {
			return fmt.Errorf("%q is no record id: write its 16 digits as the report prints them, 8cc2 ea9b ca8e ee33", rest)
		}
		found := false
		for _, item := range items {
			id := item.Result.Record
			if id == nil || !strings.HasPrefix(hex.EncodeToString(id[:]), digits) {
				continue
			}
			found = true
			if had, twice := log[*id]; !twice || *date < had {
				log[*id] = *date
			}
		}
		if !found {
			p.tell("%s: %s is none of the records given here: is one missing, or the id mistyped?", file, rest)
		}
		return nil
	})
	return log, err
}

// headLines reads ledger lines and the paths that lead to them. A line without the day
// on which the reader got it shows nothing, since anybody can write an older time into
// one; a yard sends it once more with the path.
func (p *program) headLines(files []string) (heads []history.Head, paths []treehead.Path, err error) {
	undated := map[treehead.Line]string{}
	for _, file := range files {
		err := p.keptLines(file, func(line string) error {
			date, rest, err := dated(line)
			if err != nil {
				return err
			}
			if path, pathErr := treehead.ParsePath(rest); pathErr == nil {
				paths = append(paths, path)
				return nil
			}
			head, err := treehead.ParseLine(rest)
			if err != nil {
				return err
			}
			if date == nil {
				undated[head] = file
				return nil
			}
			if err := p.receivedOn(date, ""); err != nil {
				return err
			}
			if made := quantity.Date(sign.DayOf(head.Time)); *date+1 < made {
				return fmt.Errorf("got on %s, and the line says that it was made on %s: one of the two is wrong", *date, made)
			}
			heads = append(heads, history.Head{Line: head, Received: *date})
			return nil
		})
		if err != nil {
			return nil, nil, err
		}
	}
	for line, file := range undated {
		if !slices.ContainsFunc(heads, func(h history.Head) bool { return h.Line == line }) {
			p.tell("%s: the ledger line of %s shows nothing without the day on which you got it: write that before the line", file, quantity.Date(sign.DayOf(line.Time)))
		}
	}
	return heads, paths, nil
}

// receivedOn holds a day of receipt to the calendar: without it a line shows nothing,
// since anybody can write an older date into one.
func (p *program) receivedOn(date *quantity.Date, example string) error {
	switch {
	case date == nil:
		return fmt.Errorf("no date: write the day you got it before it, as %s", example)
	case *date > p.today():
		return fmt.Errorf("%s is to come: write the day you got it", *date)
	}
	return nil
}

// dated parts the date at the beginning of a line from the rest; nil without one.
func dated(line string) (*quantity.Date, string, error) {
	first, rest, _ := strings.Cut(line, " ")
	if len(first) != len("2006-01-02") || strings.Count(first, "-") != 2 {
		return nil, line, nil
	}
	date, err := quantity.ParseDate(first)
	if err != nil {
		return nil, "", err
	}
	return &date, strings.TrimSpace(rest), nil
}

// keptLines reads the lines of a file that say something. No file has none.
func (p *program) keptLines(file string, each func(line string) error) error {
	if file == "" {
		return nil
	}
	data, err := p.readInput(file)
	if err != nil {
		return missing(file, err)
	}
	lines := bufio.NewScanner(bytes.NewReader(bytes.TrimPrefix(data, []byte("\uFEFF"))))
	lines.Buffer(nil, len(data)+1)
	for n := 1; lines.Scan(); n++ {
		line := strings.TrimSpace(lines.Text())
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		if err := each(line); err != nil {
			return usageError{fmt.Sprintf("%s:%d: %v", file, n, err), ""}
		}
	}
	return lines.Err()
}
