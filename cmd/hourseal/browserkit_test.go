package main

import (
	"encoding/json"
	"fmt"
	"slices"
	"testing"

	"hourseal/sign"
	"hourseal/verify"
	"hourseal/verify/source"
	"hourseal/verify/verifytest"
)

// testKit runs the kit of verification cases through the program inside the page, in
// the browser. Verdict and sentence are the kit's for a program that makes no pages
// again; the sections are held to the library.
func testKit(t *testing.T, b *browser) {
	cases, err := verifytest.Load("../../testdata/vectors")
	if err != nil {
		t.Fatal(err)
	}
	tab := b.open(t, "file://"+b.data.file)
	seen := map[verify.Verdict]int{}
	for _, c := range cases {
		found, readErr := source.Read(c.Input)
		t.Run(c.Name, func(t *testing.T) {
			tab := tab.under(t)
			reader, err := c.Reader()
			if err != nil {
				t.Fatal(err)
			}
			reader.On = &c.On
			want := verify.RunFound(c.Input, found, readErr, reader, noPageHere)
			got := tab.kitAnswer(c)
			if got.Error != "" {
				t.Fatalf("the page failed: %s", got.Error)
			}
			if got.Verdict != c.VerdictWithoutPage || got.Sentence != clean(c.SentenceWithoutPage) {
				t.Errorf("the page says %s: %s\nthe kit %s: %s", got.Verdict, got.Sentence, c.VerdictWithoutPage, c.SentenceWithoutPage)
			}
			same := slices.EqualFunc(got.Sections, want.Sections(verify.OnPage), func(p part, s verify.Section) bool {
				return p.Heading == clean(s.Heading) && slices.EqualFunc(p.Lines, s.Lines, func(p, s string) bool { return p == clean(s) })
			})
			if !same {
				t.Errorf("the page's sections\n     %q\nwant %q", got.Sections, want.Sections(verify.OnPage))
			}
			if id := c.Record + c.List; id != "" && got.Record != id {
				t.Errorf("the page names the record %s, want %s", got.Record, id)
			}
			if shown := got.Content != nil && got.Content.Shown; shown != c.VerdictWithoutPage.ShowsContent() {
				t.Errorf("verdict %s: what was signed is shown: %t", c.VerdictWithoutPage, shown)
			}
		})
		seen[c.VerdictWithoutPage]++
	}
	t.Logf("%d cases: %v", len(cases), seen)
	if len(cases) < verifytest.Cases || len(seen) != 7 {
		t.Errorf("want at least %d cases and all seven verdicts", verifytest.Cases)
	}
}

// kitReader and kitAnswer are as cmd/page describes them.
type kitReader struct {
	Serial     string     `json:"serial"`
	Hours      string     `json:"hours"`
	On         string     `json:"on"`
	Trust      []kitTrust `json:"trust"`
	Statements []byte     `json:"statements"` // which encoding/json writes in base64
}

type kitTrust struct {
	Name    string      `json:"name"`
	Key     string      `json:"key"`
	From    string      `json:"from,omitempty"`
	Until   string      `json:"until,omitempty"`
	Revoked *kitRevoked `json:"revoked,omitempty"`
}

type kitRevoked struct {
	From string `json:"from"`
	Why  string `json:"why"`
}

type kitAnswer struct {
	Error    string
	Verdict  verify.Verdict
	Sentence string
	Sections []part
	Record   string
	Content  *struct{ Shown bool }
}

func kitReaderOf(c verifytest.Case) kitReader {
	reader := kitReader{Serial: c.Serial, On: c.On.String(), Trust: []kitTrust{}, Statements: c.Statements}
	if c.Hours != nil {
		reader.Hours = c.Hours.String()
	}
	day := func(d *sign.Day) string {
		if d == nil {
			return ""
		}
		return d.String()
	}
	for _, known := range c.Trust {
		entry := kitTrust{Name: known.Name, Key: known.Key.OpenSSHLine(""), From: day(known.From), Until: day(known.Until)}
		if r := known.Revoked; r != nil {
			entry.Revoked = &kitRevoked{r.From.String(), string(r.Why)}
		}
		reader.Trust = append(reader.Trust, entry)
	}
	return reader
}

// kitAnswer gives a case to the program inside the page.
func (t *tab) kitAnswer(c verifytest.Case) kitAnswer {
	t.Helper()
	reader, err := json.Marshal(kitReaderOf(c))
	if err != nil {
		t.Fatal(err)
	}
	return eval[kitAnswer](t, fmt.Sprintf(`(async () => {
		const { input } = await hourseal.read(%s);
		const answer = await hourseal.answer(input, %s);
		await hourseal.forget(input);
		return answer;
	})().catch((fault) => ({ error: String(fault) }))`, bytesIn(c.Input), reader))
}
