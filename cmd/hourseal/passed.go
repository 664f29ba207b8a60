package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"strings"

	"hourseal/verify"
	"hourseal/verify/source"
)

// A folder of reports may hold other pictures: they are named, and not answered for.

// passesOver says whether an input is a picture in which there is nothing of ours, such
// as one of the engine that lies beside the reports. A PDF has an answer in any case.
func passesOver(a answer) bool {
	err := a.result.Err
	nothing := errors.Is(err, source.ErrNoCode) || errors.Is(err, source.ErrOtherCode)
	return nothing && a.result.Source == source.KindImage || errors.Is(err, source.ErrImage)
}

// waits says whether an input may be a file that a record names: a PDF in which there is
// no record, whole, altered or in part.
func waits(a answer) bool {
	_, _, isPart := partsOf(a)
	return !isPart && a.err == nil && a.result.Verdict == verify.Unreadable && a.result.Record == nil && strings.EqualFold(filepath.Ext(a.input), ".pdf")
}

// notePlaces notes where the files of the answer's record may lie.
func (a answer) notePlaces(beside map[string]bool) {
	for _, f := range a.result.Files {
		for _, place := range a.places() {
			beside[filepath.Join(place.folder, f.Name)] = true
		}
	}
}

// tellPassed names what was passed over, and why.
func (p *program) tellPassed(passed []answer) {
	var without, unread []string
	for _, a := range passed {
		if errors.Is(a.result.Err, source.ErrImage) {
			unread = append(unread, a.input)
		} else {
			without = append(without, a.input)
		}
	}
	if len(without) > 0 {
		p.tell("Passed over, as no service record's code is seen in it: %s.", firstOf(without))
	}
	if len(unread) > 0 {
		p.tell("Not read, as only JPEG and PNG pictures are: %s. Save as JPEG if a report may be in it.", firstOf(unread))
	}
}

// firstOf names the first few, and counts the rest.
func firstOf(names []string) string {
	const mostNamed = 10
	said := strings.Join(names[:min(len(names), mostNamed)], ", ")
	if more := len(names) - mostNamed; more > 0 {
		said += fmt.Sprintf(", and %d more", more)
	}
	return said
}
