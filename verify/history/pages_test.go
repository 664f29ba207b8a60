package history_test

import (
	"strings"
	"testing"

	"hourseal/verify"
	"hourseal/verify/history"
	"hourseal/verify/history/historytest"
	"hourseal/verify/source"
)

// TestPagesInDoubt: a page that was not compared, as of a scan, is not called another
// than the original; both end with 6. A record that came on both kinds has both said.
func TestPagesInDoubt(t *testing.T) {
	const (
		other   = "the page of 1 record is not the original"
		untried = "what the page of 1 record says was not compared with what was signed"
	)
	differs, scan := &verify.Page{Result: source.PageDiffers}, &verify.Page{Result: verify.PageNotCompared, Scan: true}
	w := tell(t, historytest.Read(t, tales, historytest.Names(t, tales)[0]))
	for _, c := range []struct {
		name  string
		pages []*verify.Page
		said  []string // in the sentence
		words []string // of the fault
		not   string
		exit6 bool
	}{
		{"record file", []*verify.Page{nil}, nil, nil, "page of", false},
		{"another page", []*verify.Page{differs}, []string{other}, []string{"came is not the original (0.pdf): go by the record"}, "not compared with", true},
		{"scan", []*verify.Page{scan}, []string{untried}, []string{"came says was not compared with what was signed (0.pdf): go by the record"}, "not the original", true},
		{"both", []*verify.Page{scan, differs}, []string{other, untried}, []string{"not the original (1.pdf). What the page", "was signed (0.pdf): go by"}, "page of 2", true},
	} {
		in := w.Input()
		first := in.Items[0].Result
		in.Items = nil
		for i, page := range c.pages {
			first.Page = page
			in.Items = append(in.Items, history.Item{Name: string(rune('0'+i)) + ".pdf", Result: first})
		}
		h := history.Assess(in)
		m := &h.Machines[0]
		words := m.Sentence()
		for _, want := range c.said {
			if !strings.Contains(words, want) {
				t.Errorf("%s: %q is not in: %s", c.name, want, words)
			}
		}
		ends6 := false
		for _, f := range m.Faults {
			if f.Code == history.PageNotOriginal {
				ends6 = f.ExitCode() == verify.NotOriginal.ExitCode()
			}
			words += " " + m.FaultWords(f)
		}
		for _, want := range c.words {
			if !strings.Contains(words, want) {
				t.Errorf("%s: %q is not in: %s", c.name, want, words)
			}
		}
		if strings.Contains(words, c.not) || ends6 != c.exit6 {
			t.Errorf("%s: ends with 6 %t: %s", c.name, ends6, words)
		}
	}
}
