package main

import (
	"bytes"
	"strings"
	"testing"

	"hourseal/record/quantity"
	"hourseal/sign"
	"hourseal/verify"
)

// TestOneTable: the terminal, the JSON and the library say of an input the same
// sentence, and the terminal gives the library's answers, all of them, in their order.
func TestOneTable(t *testing.T) {
	f := newYard(t)
	var issued issuedAnswer
	mustDecode(t, f.must(t, 0, "issue", portJob, "--json").stdout, &issued)
	record, report := issued.File, issued.Report
	envelope := f.read(t, record)
	f.write(t, "altered.cose", flipped(bytes.Clone(envelope), 300))
	f.write(t, "saved.pdf", append(f.read(t, report), '\n'))
	f.write(t, "letter.txt", []byte("Dear buyer, all is well."))
	f.write(t, "nobody.yaml", []byte("[]\n"))
	trust, err := sign.ParseTrust(f.read(t, "trust.yaml"), "trust.yaml")
	if err != nil {
		t.Fatal(err)
	}
	on, err := quantity.ParseDate(scenarioNow[:10])
	if err != nil {
		t.Fatal(err)
	}
	known := verify.Reader{Trust: trust, On: &on}
	other, behind, late := known, known, known
	other.Serial = "0045121"
	from, err := sign.ParseDay(on.AddDays(1).String()) // the day after that of issue
	if err != nil {
		t.Fatal(err)
	}
	late.Trust = sign.TrustList{trust[0]}
	late.Trust[0].From = &from
	lateFile, err := late.Trust.Format()
	if err != nil {
		t.Fatal(err)
	}
	f.write(t, "late.yaml", lateFile)
	behind.Hours = new(quantity.Hours(100))
	seen := map[verify.Verdict]bool{}
	for _, c := range []struct {
		file   string
		reader verify.Reader
		args   []string
	}{
		{report, known, nil},
		{record, known, nil},
		{record, other, []string{"--serial", "0045121"}},
		{record, behind, []string{"--hours", "1"}},
		{report, verify.Reader{On: &on}, []string{"--trust", "nobody.yaml"}},
		{"saved.pdf", known, nil},
		{"saved.pdf", other, []string{"--serial", "0045121"}},
		{"saved.pdf", behind, []string{"--hours", "1"}},
		{report, late, []string{"--trust", "late.yaml"}},
		{"altered.cose", known, nil},
		{"letter.txt", known, nil},
	} {
		want := verify.Run(f.read(t, c.file), c.reader, renderPage)
		seen[want.Verdict] = true
		args := append([]string{"verify", c.file, "--trust", "trust.yaml"}, c.args...)
		var got struct{ Verdict, Sentence string }
		mustDecode(t, f.must(t, want.Verdict.ExitCode(), append(args, "--json")...).stdout, &got)
		if got.Sentence != want.Sentence() || got.Verdict != string(want.Verdict) {
			t.Errorf("%s %q: JSON has %s: %s\nthe library %s: %s", c.file, c.args, got.Verdict, got.Sentence, want.Verdict, want.Sentence())
		}
		said := oneLine(f.must(t, want.Verdict.ExitCode(), args...).stdout)
		all := want.Sentence() + " (" + c.file + ")"
		for _, section := range want.Sections(verify.Terminal) {
			all += " " + section.Heading + " " + strings.Join(section.Lines, " ")
		}
		if rest, same := strings.CutPrefix(said, oneLine(all)); !same {
			t.Errorf("%s %q: the terminal has\n%s\nthe library\n%s", c.file, c.args, said, all)
		} else if shown := strings.HasPrefix(rest, " "+want.ContentHeading()); shown != want.Verdict.ShowsContent() || !shown && rest != "" {
			t.Errorf("%s %q: after the answers stands %q", c.file, c.args, rest)
		}
	}
	if len(seen) != 7 {
		t.Errorf("verdicts seen: %v", seen)
	}
	brief := f.must(t, 3, "verify", record, "altered.cose", "letter.txt", "--trust", "trust.yaml").stdout
	for _, file := range []string{record, "altered.cose", "letter.txt"} {
		want := file + ": " + verify.Run(f.read(t, file), known, renderPage).Sentence()
		if !strings.Contains(oneLine(brief), want) {
			t.Errorf("of many the program does not say %q:\n%s", want, brief)
		}
	}
}
