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

	"hourseal/record"
	"hourseal/record/recordtest"
	"hourseal/sign"
	"hourseal/verify"
	"hourseal/verify/source"
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
	from := func(kind source.Kind) source.Found {
		return source.Found{Kind: kind, Envelope: sealed.envelope, Texts: sealed.texts, Host: sealed.record.PageHost}
	}
	picture, scan, fragment := from(source.KindImage), from(source.KindPDF), from(source.KindText)
	scan.Scan, fragment.Host, fragment.HostUnknown = true, "", true
	listFragment := source.Found{Kind: source.KindText, Envelope: sealList(t, exampleList(), yardSeed), HostUnknown: true}
	found := func(found source.Found, reader verify.Reader) verify.Result {
		return verify.RunFound(nil, found, nil, reader, makePage)
	}
	renewal := stated(t, yardSeed, sign.StatementContent{Kind: sign.Renew, Subject: key, Other: keyOf(t, secondSeed).Public(), From: *day(t, "2026-06-01")})
	due := func(on, meter string) verify.Reader {
		r := verify.Reader{Trust: known.Trust, On: date(t, on)}
		if meter != "" {
			r.Hours = hours(t, meter)
		}
		return r
	}
	moved, stopped := recordtest.Longest(), recordtest.Example()
	moved.Kind, moved.Subject = record.Service, nil
	stopped.Job.Meter = record.Meter{State: record.Stopped, Basis: "the skipper's log"}
	kept := withFiles(t, "plate.jpg", "meter.jpg", "lab.pdf", "hose.jpg")
	beside := []verify.FoundFile{foundAt("plate.jpg", "plate.jpg", false), foundAt("lab.pdf", "another", true)}
	swapped := append([]verify.FoundFile{foundAt("meter.jpg", "another", false)}, beside...)
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
		{"one code of two", run([]byte(inTwoCodes(t, recordtest.Example()).texts[1]), known)},
		{"two records in one report", run(edit(sourcetest.AddAttachment(pdf, "second.cose", otherExample(t).envelope)), known)},
		{"a signed list, the serial number and a meter given", run(sealList(t, exampleList(), yardSeed), at)},
		{"a signed list of a signer whom the reader does not know", run(sealList(t, exampleList(), strangerSeed), known)},
		{"a photograph of the report", found(picture, known)},
		{"a scan of the report", found(scan, known)},
		{"a scan of the report, the signer not known", found(scan, verify.Reader{})},
		{"a scan of the report, another serial number", found(scan, other)},
		{"the page shows other hours, and the meter fewer", run(editedPage(t, sealed), verify.Reader{Trust: known.Trust, Hours: hours(t, "120")})},
		{"a signed list whose signer is not known, another serial number", run(sealList(t, exampleList(), strangerSeed), other)},
		{"the digits of a code without their address", found(fragment, known)},
		{"the digits of a list's code without their address", found(listFragment, known)},
		{"key statements by themselves", run(must[[]byte](t)(sign.FormatStatements([]sign.Statement{renewal})), known)},
		{"what falls due, the meter read", run(sealed.envelope, due("2027-06-01", "1055.4"))},
		{"what falls due, the meter not read", run(sealed.envelope, due("2026-11-05", ""))},
		{"what falls due by a meter that was changed", run(seal(t, moved, yardSeed).envelope, due("2026-06-20", "201"))},
		{"what falls due, the hours an estimate", run(seal(t, stopped, yardSeed).envelope, due("2027-05-04", "1055.4"))},
		{"a day before the record", run(sealed.envelope, due("2026-05-03", ""))},
		{"files beside the report, and another record's of one name", run(kept.pdf(t), known).WithFiles(beside)},
		{"a file beside the report is not the one that was signed", run(kept.pdf(t), known).WithFiles(swapped)},
		{"the same, the signer not known", run(kept.pdf(t), verify.Reader{}).WithFiles(swapped)},
		{"a letter", run([]byte("Dear buyer, all is well."), known)},
	}
}

// All that is said under each verdict, on the terminal and on the page. Renew it with
//
//	go test ./verify -run TestGoldenVerdicts -update
func TestGoldenVerdicts(t *testing.T) {
	for file, on := range map[string]verify.Surface{"verdicts.txt": verify.Terminal, "verdicts-page.txt": verify.OnPage} {
		t.Run(file, func(t *testing.T) { goldenOn(t, file, on) })
	}
}

func goldenOn(t *testing.T, file string, on verify.Surface) {
	var out strings.Builder
	seen := map[verify.Verdict]bool{}
	for _, c := range goldenCases(t) {
		seen[c.got.Verdict] = true
		fmt.Fprintf(&out, "==== %s\n[%s, ends with %d]\n%s\n", c.name, c.got.Verdict, c.got.Verdict.ExitCode(), c.got.Sentence())
		for _, section := range c.got.Sections(on) {
			fmt.Fprintf(&out, "\n%s\n", section.Heading)
			for _, line := range section.Lines {
				fmt.Fprintf(&out, "  %s\n", line)
			}
		}
		out.WriteString("\n")
	}
	for _, verdict := range verify.Verdicts() {
		if !seen[verdict] {
			t.Errorf("no case for %s", verdict)
		}
	}
	// Ids follow from the record's bytes, which are the record package's affair.
	var ids []string
	for _, c := range goldenCases(t) {
		if c.got.Record != nil && c.got.Signed != nil {
			ids = append(ids, sign.ID(*c.got.Record).String(), "<id>")
		}
	}
	got := strings.NewReplacer(ids...).Replace(out.String())
	// Where in the file a fault was found is the page layout's affair.
	got = regexp.MustCompile(`Byte \d+`).ReplaceAllString(got, "Byte <n>")
	path := filepath.Join("..", "testdata", "golden", file)
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
