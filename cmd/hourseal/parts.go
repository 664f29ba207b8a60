package main

import (
	"errors"
	"slices"
	"strings"

	"hourseal/sign/qrtext"
	"hourseal/verify"
	"hourseal/verify/source"
)

// joiner puts together what several inputs hold of one record: photographs of one code
// each, or the texts of them. A part of a record that another input holds whole needs no
// answer of its own: people photograph a page, and then each code on it.
type joiner struct {
	reader verify.Reader
	held   []held          // in the order of their first inputs
	whole  map[uint32]bool // records that were answered, as their parts name them
}

// held are inputs that hold parts of one record, and not all of them. A part that does
// not go with those held is held by itself: either may be the one that is damaged.
type held struct {
	of     partedRecord
	kind   source.Kind
	inputs []string
	texts  []string
	answer answer // about all of them together, or about their not going with earlier ones
	told   bool   // the answer about later ones is about these too
}

// partedRecord tells the records that are printed in parts from each other: those of one
// record that differ in the dictionary do not go together.
type partedRecord struct {
	name              uint32
	count, dictionary int
}

// add takes an answer and gives it back, or what came of the parts with it. False: there
// is none of its own, or not yet.
func (j *joiner) add(a answer) (answer, bool) {
	of, texts, isPart := partsOf(a)
	switch {
	case !isPart:
		j.noteWhole(a)
		return a, true
	case j.whole[of.name]:
		return answer{}, false
	}
	own := held{of: of, kind: a.result.Source, inputs: []string{a.input}, texts: texts, answer: a}
	for i, h := range j.held {
		if h.of != of {
			continue
		}
		both := held{of: of, kind: lessProven(h.kind, own.kind), inputs: slices.Concat(h.inputs, own.inputs), texts: slices.Concat(h.texts, own.texts)}
		both.answer = j.together(both)
		if _, _, waits := partsOf(both.answer); waits {
			j.held[i] = both
			return answer{}, false
		}
		if !both.answer.result.Verdict.HidesContent() {
			j.held = slices.Delete(j.held, i, i+1)
			j.noteWhole(both.answer)
			return both.answer, true
		}
		j.held[i].told, own.answer = true, both.answer // others may fit to either
	}
	j.held = append(j.held, own)
	return answer{}, false
}

func (j *joiner) noteWhole(a answer) {
	if a.result.Record == nil {
		return
	}
	if j.whole == nil {
		j.whole = map[uint32]bool{}
	}
	j.whole[qrtext.PartsNameOf(*a.result.Record)] = true
}

// together judges the parts of several inputs as one.
func (j *joiner) together(h held) answer {
	found, err := source.FromTexts(h.kind, h.texts)
	return answer{
		of:     h.inputs,
		input:  strings.Join(h.inputs, ", "),
		result: verify.RunFound(nil, found, err, j.reader, nil),
	}
}

// rest are the answers about what stayed incomplete.
func (j *joiner) rest() []answer {
	var answers []answer
	for _, h := range j.held {
		if !j.whole[h.of.name] && !h.told {
			answers = append(answers, h.answer)
		}
	}
	return answers
}

// partsOf gives the texts of an input that holds parts of one record and not all of them,
// and which record that is.
func partsOf(a answer) (of partedRecord, texts []string, isPart bool) {
	incomplete, ok := errors.AsType[*source.InputError](a.result.Err)
	if !ok || len(incomplete.Texts) == 0 {
		return partedRecord{}, nil, false
	}
	missing, ok := errors.AsType[*qrtext.MissingPartsError](incomplete)
	if !ok {
		return partedRecord{}, nil, false
	}
	return partedRecord{missing.Record, missing.Count, missing.Dictionary}, incomplete.Texts, true
}

// lessProven is the kind that a record counts as whose parts came from two: a scan's page
// could not be shown to be the record's, and a picture has a paper to compare.
func lessProven(a, b source.Kind) source.Kind {
	for _, kind := range []source.Kind{source.KindPDF, source.KindImage} {
		if a == kind || b == kind {
			return kind
		}
	}
	return source.KindText
}
