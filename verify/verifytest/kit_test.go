package verifytest_test

import (
	"slices"
	"strings"
	"sync"

	"hourseal/record/quantity"
	"hourseal/sign"
	"hourseal/verify"
	"hourseal/verify/source"
	"hourseal/verify/verifytest"
)

// vector is a case as the tables of this package say it. What comes out is worked out
// by hand from the formats; nothing of it is taken from a run of the program.
type vector struct {
	name, what string
	in         input
	who        reader // the zero value: buyer
	out        outcome
}

// input is the bytes, and what is in them.
type input struct {
	data     []byte
	source   source.Kind // "" where no record can be found
	envelope []byte      // of the record or list in it
	list     bool
	deflated bool // by package flate, or a picture's encoder
}

func file(envelope []byte) input {
	return input{data: envelope, source: source.KindRecord, envelope: envelope}
}

func listFile(envelope []byte) input {
	return input{data: envelope, source: source.KindRecord, envelope: envelope, list: true}
}

// texts are QR texts of an envelope, one a line.
func texts(envelope []byte, all ...string) input {
	return input{data: lines(all...), source: source.KindText, envelope: envelope}
}

// nothing is an input in which no record is found.
func nothing(data []byte) input { return input{data: data} }

func (in input) flated() input {
	in.deflated = true
	return in
}

// reader is what the reader has beside the input.
type reader struct {
	trust      sign.TrustList // nil: the yard's key; nobody: an empty list
	statements []byte
	serial     string
	hours      string
}

var nobody = sign.TrustList{}

const (
	yardName = "Ellery Slip Boatyard"
	// readOn is the day on which the cases are read.
	readOn = "2026-11-02"
)

// trusting is a list of one entry for a key.
func trusting(name string, seed byte, more ...func(*sign.Trusted)) sign.TrustList {
	entry := sign.Trusted{Name: name, Key: trustedKey(seed)}
	for _, change := range more {
		change(&entry)
	}
	return sign.TrustList{entry}
}

func trustYard(more ...func(*sign.Trusted)) sign.TrustList {
	return trusting(yardName, yardSeed, more...)
}

func from(text string) func(*sign.Trusted) {
	return func(t *sign.Trusted) { t.From = new(must(sign.ParseDay(text))) }
}

func until(text string) func(*sign.Trusted) {
	return func(t *sign.Trusted) { t.Until = new(must(sign.ParseDay(text))) }
}

func revoked(text string, why sign.RevokedWhy) func(*sign.Trusted) {
	return func(t *sign.Trusted) { t.Revoked = &sign.Revocation{From: must(sign.ParseDay(text)), Why: why} }
}

// outcome is the verdict, its sentence, and what making the page again shows.
type outcome struct {
	verdict  verify.Verdict
	sentence string
	page     source.PageResult // "" where the input has none
	// without is the outcome by a program that makes no pages; nil: the same.
	without *outcome
}

// exits are the exit codes of the verdicts, the table of "Command line".
var exits = map[verify.Verdict]int{
	verify.Genuine: 0, verify.Unreadable: 2, verify.Altered: 3, verify.UnknownSigner: 4, verify.KeyNotValid: 5, verify.NotOriginal: 6, verify.OtherMachine: 6,
}

// kit is all cases, in the order of their files.
var kit = sync.OnceValue(func() []verifytest.Case {
	var cases []verifytest.Case
	for _, table := range [][]vector{
		genuineFiles(), genuineTexts(), genuinePages(), genuineReaders(),
		alteredFiles(), alteredElsewhere(),
		unreadableEnvelopes(), unreadablePayloads(), unreadableTexts(), unreadableFiles(),
		unknownSigners(), keysNotValid(),
		otherPages(), otherCodes(), otherMachines(), pictures(), scans(),
	} {
		for _, v := range table {
			cases = append(cases, v.made())
		}
	}
	// As the names of files sort: with their ending.
	slices.SortFunc(cases, func(a, b verifytest.Case) int {
		return strings.Compare(a.Name+verifytest.Ending, b.Name+verifytest.Ending)
	})
	return cases
})

// made is the case that its file says.
func (v vector) made() verifytest.Case {
	c := verifytest.Case{
		Name: string(v.out.verdict) + "-" + v.name, What: v.what, On: day(readOn),
		Trust: v.who.trust, Statements: v.who.statements, Serial: v.who.serial,
		Verdict: v.out.verdict, Exit: exits[v.out.verdict], Source: v.in.source, Page: v.out.page, Sentence: v.out.sentence,
		Input: v.in.data, Deflated: v.in.deflated,
	}
	if c.Trust == nil {
		c.Trust = trustYard()
	}
	if v.who.hours != "" {
		c.Hours = new(must(quantity.ParseHours(v.who.hours)))
	}
	if hidden := v.out.verdict == verify.Altered || v.out.verdict == verify.Unreadable; !hidden {
		c.Signer = fingerprintOf(v.in.envelope)
		if v.in.list {
			c.List = idOf(v.in.envelope)
		} else {
			c.Record = idOf(v.in.envelope)
		}
	}
	without := v.out
	if v.out.without != nil {
		without = *v.out.without
	}
	c.VerdictWithoutPage, c.PageWithoutPage, c.SentenceWithoutPage = without.verdict, without.page, without.sentence
	return c
}
