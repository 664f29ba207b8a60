package main

import (
	"bufio"
	"bytes"
	"encoding/hex"
	"fmt"
	"strings"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/treehead"
	"hourseal/verify/history"
)

// What a reader keeps beside the reports: plain lines, # begins a remark.

// leastIDDigits is how much of a record's id is enough to name it: what reports print.
const leastIDDigits = 16

// received reads the reader's log of receipt: a line for each record, its date and
// its id, in whole or the 16 digits that reports print. What is not among the inputs
// is passed over.
func (p *program) received(file string, items []history.Item) (map[record.ID]quantity.Date, error) {
	log := map[record.ID]quantity.Date{}
	err := p.keptLines(file, func(line string) error {
		date, rest, err := dated(line)
		if err != nil {
			return err
		}
		if date == nil {
			return fmt.Errorf("no date: write the day you got it before the id, as 2026-05-06 8cc2 ea9b ca8e ee33")
		}
		digits := strings.ToLower(strings.NewReplacer(" ", "", "-", "").Replace(rest))
		if _, err := hex.DecodeString(digits); err != nil || len(digits) < leastIDDigits || len(digits) > 2*len(record.ID{}) {
			return fmt.Errorf("%q is no record id: write its 16 digits as the report prints them, 8cc2 ea9b ca8e ee33", rest)
		}
		for _, item := range items {
			id := item.Result.Record
			if id == nil || !strings.HasPrefix(hex.EncodeToString(id[:]), digits) {
				continue
			}
			if had, twice := log[*id]; !twice || *date < had {
				log[*id] = *date
			}
		}
		return nil
	})
	return log, err
}

// headLines reads ledger lines and the paths that lead to them.
func (p *program) headLines(files []string) (heads []history.Head, paths []treehead.Path, err error) {
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
			if err == nil {
				heads = append(heads, history.Head{Line: head, Received: date})
			}
			return err
		})
		if err != nil {
			return nil, nil, err
		}
	}
	return heads, paths, nil
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
