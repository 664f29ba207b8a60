package main

import (
	"encoding/json"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"hourseal/render/webpage"
	"hourseal/sign"
	"hourseal/verify/verifytest"
)

// What the page was made with comes to its program whole: dates and a revocation, too.
// The text is taken out of a page, as its script does.
func TestTrustThroughThePage(t *testing.T) {
	from, until := sign.Day(20577), sign.Day(20942)
	trust := sign.TrustList{{
		Name: "Ellery Slip Boatyard", Key: caseNamed(t, "genuine-parts-fragment").Trust[0].Key,
		From: &from, Until: &until, Revoked: &sign.Revocation{From: from + 100, Why: sign.WhyCompromised},
	}}
	page, err := webpage.Page(webpage.Maker{Name: "Ellery Slip Boatyard", Trust: trust}, webpage.Program{Gzip: []byte{0x1f}, Glue: []byte(";")})
	if err != nil {
		t.Fatal(err)
	}
	found := regexp.MustCompile(`(?s)<script type="application/json" id="made-with">(.*?)</script>`).FindSubmatch(page)
	if found == nil {
		t.Fatal("the page does not say what it was made with")
	}
	var madeWith struct{ Trust json.RawMessage }
	if err := json.Unmarshal(found[1], &madeWith); err != nil {
		t.Fatal(err)
	}
	reader, _, err := readerOf(`{"trust":` + string(madeWith.Trust) + `}`)
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(reader.Trust, trust) {
		t.Errorf("through the page %+v became %+v", trust, reader.Trust)
	}
}

// A field that the program does not know is no field to pass over.
func TestUnknownFields(t *testing.T) {
	asked := askedOf(t, caseNamed(t, "genuine-parts-fragment"))
	if _, _, err := readerOf(asked); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ old, new string }{
		{`"revoked":null`, `"revoked_from":"2026-05-04"`},
		{`"serial":`, `"number":`},
		{`"statements":`, `"keys":`},
	} {
		changed := strings.Replace(asked, c.old, c.new, 1)
		if _, _, err := readerOf(changed); changed == asked || err == nil || !strings.Contains(err.Error(), "unknown field") {
			t.Errorf("%s: %v", c.new, err)
		}
	}
	if _, _, err := readerOf(asked + "{}"); err == nil {
		t.Error("what stands behind it is passed over")
	}
}

// Of a PDF nothing is kept but what was found in it, and of bytes of no kind nothing that
// is too long for key statements.
func TestNoFileIsKept(t *testing.T) {
	cases, err := verifytest.Load("../../testdata/vectors")
	if err != nil {
		t.Fatal(err)
	}
	pdfs := 0
	for _, c := range cases {
		if !strings.HasPrefix(string(c.Input), "%PDF-") {
			continue
		}
		pdfs++
		s := newSession()
		read := must[readJSON](t)(s.read(c.Input))
		if read.Kind != "pdf" {
			t.Errorf("%s: kind %q", c.Name, read.Kind)
		}
		kept := s.inputs[read.Input]
		if kept.data != nil {
			t.Errorf("%s: its %d bytes are kept", c.Name, len(kept.data))
		}
		if kept.found.PDF != nil && !reflect.ValueOf(*kept.found.PDF).IsZero() {
			t.Errorf("%s: the PDF is kept as it was read", c.Name)
		}
	}
	if pdfs < 10 {
		t.Errorf("only %d PDFs in the kit", pdfs)
	}
	s := newSession()
	long := must[readJSON](t)(s.read(make([]byte, sign.MaxStatementsBytes+1)))
	if kept := s.inputs[long.Input]; long.Kind != "" || kept.data != nil {
		t.Errorf("kind %q, %d bytes of it are kept", long.Kind, len(kept.data))
	}
}

// A file that could not be read has an answer, with the reason and what to do instead,
// and nothing in it that does not print.
func TestUnreadFile(t *testing.T) {
	s := newSession()
	read := must[readJSON](t)(s.unread("the file is 7 bytes\x1b long", "choose another"))
	answer := must[answerJSON](t)(s.answer(read.Input, `{}`))
	if answer.Verdict != "unreadable" || len(answer.Sections) == 0 || read.Missing != nil || read.Picture {
		t.Fatalf("%+v, %+v", read, answer)
	}
	if got := strings.Join(answer.Sections[0].Lines, "|"); got != "The file is 7 bytes<U+FFFD> long.|Choose another." {
		t.Errorf("it says %q", got)
	}
}
