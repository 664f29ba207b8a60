package main

import (
	"bytes"
	"encoding/json"
	"image"
	"image/draw"
	"image/png"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"hourseal/verify"
	"hourseal/verify/verifytest"
)

func caseNamed(t *testing.T, name string) verifytest.Case {
	t.Helper()
	data, err := os.ReadFile("../../testdata/vectors/" + name + verifytest.Ending)
	if err != nil {
		t.Fatal(err)
	}
	c, err := verifytest.Parse(data)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func must[T any](t *testing.T) func(T, error) T {
	return func(value T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return value
	}
}

// Parts are told apart from a whole record, the missing ones are named, and all
// together are the record. The number of the record says which belong together.
func TestParts(t *testing.T) {
	c := caseNamed(t, "genuine-parts-fragment")
	texts := strings.Fields(string(c.Input))
	s := newSession()
	json := func(texts ...string) string { return `["` + strings.Join(texts, `","`) + `"]` }
	first := must[readJSON](t)(s.readTexts("text", json(texts[0])))
	second := must[readJSON](t)(s.readTexts("text", json(texts[1]))) // as a fragment
	for i, read := range []readJSON{first, second} {
		if read.Missing == nil || read.Missing.Count != 2 || !slices.Equal(read.Missing.Parts, []int{2 - i}) {
			t.Fatalf("part %d: missing %+v", i+1, read.Missing)
		}
		if !slices.Equal(read.Texts, texts[i:i+1]) || read.Error == "" {
			t.Errorf("part %d: texts %q, error %q", i+1, read.Texts, read.Error)
		}
	}
	if first.Missing.Record != second.Missing.Record || first.Missing.Record == 0 {
		t.Errorf("records %d and %d", first.Missing.Record, second.Missing.Record)
	}
	whole := must[readJSON](t)(s.readTexts("text", json(texts...)))
	if whole.Missing != nil || whole.Error != "" || !slices.Equal(whole.Texts, texts) {
		t.Errorf("whole: %+v", whole)
	}
	if answer := must[answerJSON](t)(s.answer(whole.Input, askedOf(t, c))); answer.Verdict != verify.Genuine {
		t.Errorf("whole: %s", answer.Verdict)
	}
	if answer := must[answerJSON](t)(s.answer(first.Input, askedOf(t, c))); answer.Verdict != verify.Unreadable {
		t.Errorf("a part: %s", answer.Verdict)
	}
}

// The pixels of a picture give what the picture gives.
func TestPixels(t *testing.T) {
	entries := must[[]os.DirEntry](t)(os.ReadDir("../../testdata/vectors"))
	tried := 0
	for _, entry := range entries {
		if tried == 2 { // each takes a second
			break
		}
		if !strings.HasSuffix(entry.Name(), verifytest.Ending) {
			continue
		}
		c := caseNamed(t, strings.TrimSuffix(entry.Name(), verifytest.Ending))
		img, err := png.Decode(bytes.NewReader(c.Input))
		if err != nil || c.Verdict != verify.Genuine {
			continue
		}
		tried++
		bounds := img.Bounds()
		rgba := image.NewNRGBA(image.Rect(0, 0, bounds.Dx(), bounds.Dy()))
		draw.Draw(rgba, rgba.Rect, img, bounds.Min, draw.Src)
		s := newSession()
		read := must[readJSON](t)(s.readPixels(rgba.Pix, bounds.Dx(), bounds.Dy(), true))
		answer := must[answerJSON](t)(s.answer(read.Input, askedOf(t, c)))
		if answer.Verdict != verify.Genuine || answer.Sentence != c.SentenceWithoutPage || answer.Record != c.Record {
			t.Errorf("%s: %s %s", c.Name, answer.Verdict, answer.Sentence)
		}
	}
	if tried == 0 {
		t.Error("no picture among the genuine cases")
	}
}

// What the page hands over wrongly is an error, and what a person typed wrongly is
// told beside an answer.
func TestWrongCalls(t *testing.T) {
	s := newSession()
	for what, call := range map[string]func() error{
		"no such input":   func() error { _, err := s.answer(7, `{}`); return err },
		"texts of a kind": func() error { _, err := s.readTexts("record", `[]`); return err },
		"texts":           func() error { _, err := s.readTexts("text", `{`); return err },
		"pixels":          func() error { _, err := s.readPixels(make([]byte, 12), 2, 2, true); return err },
		"no pixels":       func() error { _, err := s.readPixels(nil, 0, 0, true); return err },
		"many pixels":     func() error { _, err := s.readPixels(make([]byte, 4), 1<<62, 4, true); return err },
		"a key":           func() error { _, err := keyOf("ssh-rsa AAAA", "a", `[]`); return err },
	} {
		if call() == nil {
			t.Errorf("%s: no error", what)
		}
	}
	read := must[readJSON](t)(s.read([]byte("hello")))
	for asked, want := range map[string]string{
		`{`:                                  "reader",
		`{"on":"2026-13-01"}`:                "on",
		`{"trust":[{"name":"a","key":"b"}]}`: "entry 1",
		`{"statements":"!"}`:                 "statements",
		`{"statements":"AAAA"}`:              "whole envelope",
	} {
		if _, err := s.answer(read.Input, asked); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v", asked, err)
		}
	}
	answer := must[answerJSON](t)(s.answer(read.Input, `{"hours":"812,6"}`))
	if answer.Faults["hours"] == "" || answer.Verdict != verify.Unreadable {
		t.Errorf("%+v", answer)
	}
	s.forget(read.Input)
	if _, err := s.answer(read.Input, `{}`); err == nil {
		t.Error("it was not forgotten")
	}
}

// A key may have any name that a trust list takes and that no key of the page's has.
func TestKeyNames(t *testing.T) {
	line := caseNamed(t, "genuine-parts-fragment").Trust[0].Key.OpenSSHLine("yard")
	for name, fault := range map[string]string{
		"South Quay Marine":          "",
		"Ellery Slip Boatyard, Tom":  "",
		"Bob \U0001F6A4":             "cannot be shown",
		"":                           "name",
		"Ellery Slip Boatyard":       "this page was made with",
		"ellery SLIP boatyard":       "this page was made with",
		"Ellery  Slip\u00a0Boatyard": "this page was made with",
		"ElleryslipBoatyard":         "this page was made with",
	} {
		got := must[keyJSON](t)(keyOf(line, name, `["Port Ellery Moorings","Ellery Slip Boatyard"]`))
		if (got.NameFault != "") != (fault != "") || !strings.Contains(got.NameFault, fault) {
			t.Errorf("%q: %+v", name, got)
		}
	}
	if got := must[keyJSON](t)(keyOf(line, "Ellery Slip Boatyard", `[]`)); got.NameFault != "" {
		t.Errorf("where the page has no such key: %s", got.NameFault)
	}
	if _, err := keyOf(line, "a", ""); err == nil {
		t.Error("names that cannot be read are taken for none")
	}
}

// A record whose parts came off a scan is answered like a scan, as the program does.
func TestTextsOffAScan(t *testing.T) {
	c := caseNamed(t, "genuine-parts-fragment")
	for kind, want := range map[string]verify.Verdict{"text": verify.Genuine, "image": verify.Genuine, "pdf": verify.NotOriginal} {
		s := newSession()
		texts := must[[]byte](t)(json.Marshal(strings.Fields(string(c.Input))))
		read := must[readJSON](t)(s.readTexts(kind, string(texts)))
		if got := must[answerJSON](t)(s.answer(read.Input, askedOf(t, c))); got.Verdict != want {
			t.Errorf("%s: %s, want %s (%s)", kind, got.Verdict, want, read.Error)
		}
	}
}

// Everything that is read is kept until it is forgotten, up to a bound.
func TestInputsAreBounded(t *testing.T) {
	s := newSession()
	for range maxInputs {
		must[readJSON](t)(s.read([]byte("hello")))
	}
	if _, err := s.read([]byte("hello")); err == nil {
		t.Error("no bound")
	}
	s.forget(1)
	must[readJSON](t)(s.read([]byte("hello")))
}

// Bytes of any sort get an answer, and none that shows what does not print.
func TestAnyBytes(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	c := caseNamed(t, "genuine-parts-fragment")
	for range 300 {
		data := bytes.Clone(c.Input)
		for range 1 + random.IntN(4) {
			data[random.IntN(len(data))] = byte(random.IntN(256))
		}
		s := newSession()
		read := must[readJSON](t)(s.read(data))
		answer := must[answerJSON](t)(s.answer(read.Input, askedOf(t, c)))
		texts := []string{read.Error, answer.Sentence}
		for _, section := range answer.Sections {
			texts = append(texts, section.Lines...)
		}
		for _, text := range texts {
			if clean(text) != text {
				t.Fatalf("%q", text)
			}
		}
	}
}
