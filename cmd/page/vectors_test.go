package main

import (
	"encoding/base64"
	"encoding/json"
	"testing"

	"hourseal/sign"
	"hourseal/verify"
	"hourseal/verify/verifytest"
)

// askedOf is the reader of a case as the page hands it over.
func askedOf(t *testing.T, c verifytest.Case) string {
	t.Helper()
	asked := askerJSON{Serial: c.Serial, On: c.On.String(), Statements: base64.StdEncoding.EncodeToString(c.Statements)}
	if c.Hours != nil {
		asked.Hours = c.Hours.String()
	}
	for _, entry := range c.Trust {
		out := trustJSON{Name: entry.Name, Key: entry.Key.OpenSSHLine(""), From: dayOf(entry.From), Until: dayOf(entry.Until)}
		if entry.Revoked != nil {
			out.Revoked = &revokedJSON{entry.Revoked.From.String(), string(entry.Revoked.Why)}
		}
		asked.Trust = append(asked.Trust, out)
	}
	text, err := json.Marshal(asked)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func dayOf(day *sign.Day) string {
	if day == nil {
		return ""
	}
	return day.String()
}

// Every case of the kit gets the verdict and the sentence of a program that makes
// no pages, and its content in the manner of its verdict.
func TestKit(t *testing.T) {
	cases, err := verifytest.Load("../../testdata/vectors")
	if err != nil {
		t.Fatal(err)
	}
	if len(cases) < verifytest.Cases {
		t.Fatalf("%d cases only", len(cases))
	}
	for _, c := range cases {
		t.Run(c.Name, func(t *testing.T) {
			s := newSession()
			read, err := s.read(c.Input)
			if err != nil {
				t.Fatal(err)
			}
			answer, err := s.answer(read.Input, askedOf(t, c))
			if err != nil {
				t.Fatal(err)
			}
			if answer.Verdict != c.VerdictWithoutPage || answer.Sentence != c.SentenceWithoutPage {
				t.Errorf("%s: %s\nwant %s: %s", answer.Verdict, answer.Sentence, c.VerdictWithoutPage, c.SentenceWithoutPage)
			}
			if len(answer.Faults) > 0 {
				t.Errorf("faults: %v", answer.Faults)
			}
			content, err := s.content(read.Input)
			if err != nil {
				t.Fatal(err)
			}
			switch {
			case answer.Verdict.HidesContent() != (answer.Content == nil), answer.Verdict.HidesContent() != (len(content.Blocks) == 0):
				t.Errorf("content of %s: %v, %d blocks", answer.Verdict, answer.Content, len(content.Blocks))
			case answer.Content != nil && answer.Content.Shown != (answer.Verdict == verify.Genuine):
				t.Errorf("content of %s is shown: %v", answer.Verdict, answer.Content.Shown)
			}
		})
	}
}
