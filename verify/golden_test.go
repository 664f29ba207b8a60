package verify_test

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"hourseal/record/recordtest"
	"hourseal/sign"
	"hourseal/verify"
	"hourseal/verify/source/sourcetest"
)

var update = flag.Bool("update", false, "write the golden file anew: read it line by line afterwards")

// goldenCases are one or more for each verdict, as a reader would meet them.
func goldenCases(t testing.TB) []struct {
	name string
	got  verify.Result
} {
	sealed, owner := example(t), seal(t, recordtest.Shortest(), yardSeed)
	pdf := sealed.pdf(t)
	edit := must[[]byte](t)
	flipped := bytes.Clone(sealed.envelope)
	flipped[300] ^= 1
	key := keyOf(t, yardSeed).Public()
	known := buyer(t)
	since := verify.Reader{Trust: sign.TrustList{{Name: yardName, Key: key, From: day(t, "2026-01-15"), Until: day(t, "2029-12-31")}}}
	stolen := func(from string) verify.Reader {
		return verify.Reader{Trust: sign.TrustList{{Name: yardName, Key: key, Revoked: &sign.Revocation{From: *day(t, from), Why: sign.WhyCompromised}}}}
	}
	at := verify.Reader{Trust: known.Trust, Serial: "0045120", Hours: hours(t, "901.2")}
	other := verify.Reader{Trust: known.Trust, Serial: "0045121", Hours: hours(t, "120")}
	run := func(data []byte, reader verify.Reader) verify.Result { return verify.Run(data, reader, makePage) }
	return []struct {
		name string
		got  verify.Result
	}{
		{"the report, the serial number and the meter given", run(pdf, at)},
		{"the report, deflated again", run(edit(sourcetest.Redeflate(pdf, 9)), since)},
		{"the text of its codes", run(sealed.text(), known)},
		{"the record file of an owner", run(owner.envelope, known)},
		{"the key stolen later", run(sealed.envelope, stolen("2026-06-01"))},
		{"another serial number, fewer hours", run(pdf, other)},
		{"the page shows other hours", run(editedPage(t, sealed), known)},
		{"an update shows other hours", run(edit(sourcetest.AppendUpdate(pdf, 1, otherHours(t))), known)},
		{"a page that this program cannot make", verify.Run(pdf, known, noPage)},
		{"a code that leads elsewhere", run(lines(withHost(t, sealed, "verify.port-ellery-slip.example")), known)},
		{"a signer whom the reader does not know", run(pdf, verify.Reader{})},
		{"the same, and the page shows other hours", run(editedPage(t, sealed), verify.Reader{})},
		{"the key stolen before", run(pdf, stolen("2026-05-01"))},
		{"an altered record", run(flipped, known)},
		{"a record under a key that anyone can sign with", run(envelopeOf(append([]byte{1}, make([]byte, 31)...), sealed.payload, forgedUnderIdentity), known)},
		{"a signed record in another form", run(sealBytes(t, append(bytes.Clone(sealed.payload), 0), yardSeed), known)},
		{"one code of two", run([]byte(sealed.texts[1]), known)},
		{"two records in one report", run(edit(sourcetest.AddAttachment(pdf, "second.cose", otherExample(t).envelope)), known)},
		{"a signed list, the serial number and a meter given", run(sealList(t, exampleList(), yardSeed), at)},
		{"a signed list of a signer whom the reader does not know", run(sealList(t, exampleList(), strangerSeed), known)},
		{"a letter", run([]byte("Dear buyer, all is well."), known)},
	}
}

// All that is said under each verdict. Renew it with
//
//	go test ./verify -run TestGoldenVerdicts -update
func TestGoldenVerdicts(t *testing.T) {
	var out strings.Builder
	seen := map[verify.Verdict]bool{}
	for _, c := range goldenCases(t) {
		seen[c.got.Verdict] = true
		fmt.Fprintf(&out, "==== %s\n[%s, ends with %d]\n%s\n", c.name, c.got.Verdict, c.got.Verdict.ExitCode(), c.got.Sentence())
		for _, section := range c.got.Sections() {
			fmt.Fprintf(&out, "\n%s\n", section.Heading)
			for _, line := range section.Lines {
				fmt.Fprintf(&out, "  %s\n", line)
			}
		}
		out.WriteString("\n")
	}
	for _, verdict := range []verify.Verdict{verify.Altered, verify.Unreadable, verify.KeyNotValid, verify.UnknownSigner, verify.NotOriginal, verify.OtherMachine, verify.Genuine} {
		if !seen[verdict] {
			t.Errorf("no case for %s", verdict)
		}
	}
	// Ids follow from the record's bytes, which are the record package's affair.
	var ids []string
	for _, sealed := range []issued{example(t), seal(t, recordtest.Shortest(), yardSeed)} {
		ids = append(ids, sign.IDOf(sealed.envelope).String(), "<id>")
	}
	got := strings.NewReplacer(ids...).Replace(out.String())
	// Where in the file a fault was found is the page layout's affair.
	got = regexp.MustCompile(`Byte \d+`).ReplaceAllString(got, "Byte <n>")
	path := filepath.Join("..", "testdata", "golden", "verdicts.txt")
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want := string(must[[]byte](t)(os.ReadFile(path)))
	if got == want {
		return
	}
	g, w := strings.Split(got, "\n"), strings.Split(want, "\n")
	for i := range min(len(g), len(w)) {
		if g[i] != w[i] {
			t.Fatalf("%s, line %d:\nwant %s\ngot  %s", path, i+1, w[i], g[i])
		}
	}
	t.Fatalf("%s has %d lines, want %d", path, len(w), len(g))
}
