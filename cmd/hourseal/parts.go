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

// held are inputs that hold parts of one record, and not all of them.
type held struct {
	first  qrtext.Part
	kind   source.Kind
	inputs []string
	texts  []string
	answer answer // about all of them together
}

// add takes an answer and gives it back, or what came of the parts with it. False: there
// is none of its own, or not yet.
func (j *joiner) add(a answer) (answer, bool) {
	part, texts, isPart := partOf(a)
	switch {
	case !isPart:
		j.noteWhole(a)
		return a, true
	case j.whole[part.Record]:
		return answer{}, false
	}
	at := slices.IndexFunc(j.held, func(h held) bool { return sameRecord(h.first, part) })
	if at < 0 {
		j.held = append(j.held, held{part, a.result.Source, []string{a.input}, texts, a})
		return answer{}, false
	}
	h := &j.held[at]
	h.inputs, h.kind = append(h.inputs, a.input), lessProven(h.kind, a.result.Source)
	h.texts = append(h.texts, texts...)
	h.answer = j.together(*h)
	together := h.answer
	if _, _, waits := partOf(together); waits {
		return answer{}, false
	}
	j.held = slices.Delete(j.held, at, at+1)
	j.noteWhole(together)
	return together, true
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
		input:  strings.Join(h.inputs, ", "),
		result: verify.RunFound(nil, found, err, j.reader, nil),
	}
}

// rest are the answers about what stayed incomplete.
func (j *joiner) rest() []answer {
	var answers []answer
	for _, h := range j.held {
		if !j.whole[h.first.Record] {
			answers = append(answers, h.answer)
		}
	}
	return answers
}

// partOf gives the texts of an input that holds parts of one record and not all of them,
// and the first of them taken apart.
func partOf(a answer) (first qrtext.Part, texts []string, isPart bool) {
	incomplete, ok := errors.AsType[*source.InputError](a.result.Err)
	if !ok || len(incomplete.Texts) == 0 {
		return qrtext.Part{}, nil, false
	}
	first, err := source.PartOf(incomplete.Texts[0])
	return first, incomplete.Texts, err == nil
}

// sameRecord says whether two parts are of one record, printed with one dictionary.
func sameRecord(a, b qrtext.Part) bool {
	return a.Record == b.Record && a.Count == b.Count && a.Dictionary == b.Dictionary
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
