package main

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"hourseal/verify/verifytest"
)

// TestVectors runs the program over the kit of verification cases, as its user would:
// the input in a file, the trust list in another, the rest as flags. The sentence, the
// exit code and the JSON have to be those of the case.
func TestVectors(t *testing.T) {
	cases, err := verifytest.Load("../../testdata/vectors")
	if err != nil {
		t.Fatal(err)
	}
	if len(cases) < verifytest.Cases {
		t.Fatalf("%d cases only", len(cases))
	}
	for _, c := range cases {
		t.Run(c.Name, func(t *testing.T) {
			t.Parallel()
			f := newFolder(t)
			f.now = c.On.String() + "T12:00:00Z"
			f.write(t, "input", c.Input)
			trust, err := c.Trust.Format()
			if err != nil {
				t.Fatal(err)
			}
			f.write(t, "trust.yaml", trust)
			args := []string{"verify", "input", "--json", "--trust", "trust.yaml"}
			if c.Statements != nil {
				f.write(t, "keys", c.Statements)
				args = append(args, "--keys", "keys")
			}
			if c.Serial != "" {
				args = append(args, "--serial", c.Serial)
			}
			if c.Hours != nil {
				args = append(args, "--hours", c.Hours.String())
			}
			r := f.must(t, c.Exit, args...)
			if got, want := vectorAnswerOf(t, r.stdout, c), vectorAnswerWanted(c); got != want {
				t.Errorf("%s\n got %s\nwant %s\n%s", c.What, got, want, r.stderr)
			}
			if c.Verdict.HidesContent() {
				tellsNothing(t, r)
			}
		})
	}
}

func vectorAnswerWanted(c verifytest.Case) string {
	return fmt.Sprintf("verdict %s, sentence %q, record %q, list %q, signer %q, page %q, source %q",
		c.Verdict, c.Sentence, c.Record, c.List, c.Signer, c.Page, c.Source)
}

// vectorAnswerOf reads the JSON by its keys alone, as another program would. null is as "".
func vectorAnswerOf(t *testing.T, stdout string, c verifytest.Case) string {
	t.Helper()
	var a struct {
		Verdict, Sentence, Record, Page, Source string
		Signer                                  struct{ Fingerprint string }
		List                                    struct{ ID string }
	}
	if err := json.Unmarshal([]byte(stdout), &a); err != nil {
		t.Fatalf("%v: %s", err, stdout)
	}
	if c.Source == "" { // not judged where no record was found
		a.Source = ""
	}
	return fmt.Sprintf("verdict %s, sentence %q, record %q, list %q, signer %q, page %q, source %q",
		a.Verdict, a.Sentence, a.Record, a.List.ID, a.Signer.Fingerprint, a.Page, a.Source)
}

// tellsNothing: nothing that stands in the kit's records is in what the program prints.
func tellsNothing(t *testing.T, r ran) {
	t.Helper()
	for _, content := range []string{"Corrin", "Gannet", "0045120", "0045121", "812", "Ellery Slip"} {
		if strings.Contains(r.stdout+r.stderr, content) {
			t.Errorf("%q is in %s", content, r)
		}
	}
}
