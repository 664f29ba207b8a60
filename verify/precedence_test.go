package verify_test

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/recordtest"
	"hourseal/render"
	"hourseal/sign"
	"hourseal/verify"
	"hourseal/verify/source"
	"hourseal/verify/source/sourcetest"
)

// worstFirst is the order of the exit codes in the specification of the command
// line, as far as one input can have them.
var worstFirst = []int{3, 2, 5, 4, 6, 0}

// Every input with every reader who asks everything: the worst that holds wins,
// and all that holds is still answered.
func TestWorstVerdictWins(t *testing.T) {
	sealed := example(t)
	pdf := sealed.pdf(t)
	flipped := bytes.Clone(sealed.envelope)
	flipped[200] ^= 1
	weak := envelopeOf(append([]byte{1}, make([]byte, 31)...), sealed.payload, forgedUnderIdentity)
	padded := sealBytes(t, append(bytes.Clone(sealed.payload), 0), yardSeed)
	strange := withHost(t, sealed, "verify.port-ellery-slip.example")
	const altered, page = 3, 6
	inputs := []struct {
		name string
		data []byte
		bad  int // its own exit code
	}{
		{"record", sealed.envelope, 0},
		{"altered record", flipped, altered},
		{"record under a weak key", weak, altered},
		{"record with something after its payload's end", padded, 2},
		{"text", sealed.text(), 0},
		{"text with another host", []byte(strings.Join(strange, "\n")), 6},
		{"letter", []byte("Dear buyer"), 2},
		{"report", pdf, 0},
		{"report deflated again", must[[]byte](t)(sourcetest.Redeflate(pdf, 9)), 0},
		{"edited report", editedPage(t, sealed), page},
		{"report with another host", must[[]byte](t)(render.Report(sealed.record, sealed.envelope, strange, nil)), page},
		{"report after a byte", append([]byte{'\n'}, pdf...), page},
		{"report of an altered record", bothReplaced(t, pdf, issued{envelope: flipped, texts: textsOf(t, flipped)}), 3},
		{"report of a record in another form", bothReplaced(t, pdf, issued{envelope: padded, texts: textsOf(t, padded)}), 2},
	}
	key := keyOf(t, yardSeed).Public()
	readers := []struct {
		trust sign.TrustList
		bad   int
	}{
		{sign.TrustList{{Name: yardName, Key: key}}, 0},
		{nil, 4},
		{sign.TrustList{{Name: yardName, Key: key, Revoked: &sign.Revocation{From: *day(t, "2026-01-01"), Why: sign.WhyRetired}}}, 5},
	}
	asked := []struct {
		serial, hours string
		bad           int
	}{{"", "", 0}, {"0045120", "900", 0}, {"45120", "", 0}, {"0045121", "", 6}, {"", "10", 6}, {"0045120", "10", 6}, {"0045121", "10", 6}}
	makers := map[string]verify.RenderFunc{"": makePageOnce(), "cannot draw": noPage}
	looked := 0
	for _, input := range inputs {
		for _, reader := range readers {
			for _, ask := range asked {
				for drawn, maker := range makers {
					r := verify.Reader{Trust: reader.trust, Serial: ask.serial}
					if ask.hours != "" {
						r.Hours = hours(t, ask.hours)
					}
					got := verify.Run(input.data, r, maker)
					pageBad := 0
					if got.Page != nil && drawn != "" {
						pageBad = 6
					}
					codes := []int{input.bad, reader.bad, ask.bad, pageBad}
					want := worstFirst[slices.IndexFunc(worstFirst, func(c int) bool { return slices.Contains(codes, c) })]
					what := []any{input.name, reader.bad, ask, drawn}
					if got.Verdict.ExitCode() != want {
						t.Errorf("%v: %s ends with %d, want %d", what, got.Verdict, got.Verdict.ExitCode(), want)
					}
					// Of the two that end with 6, the page outweighs the machine.
					if want == 6 && (got.Verdict == verify.NotOriginal) != (input.bad == 6 || pageBad == 6) {
						t.Errorf("%v: %s", what, got.Verdict)
					}
					allAnswered(t, what, got, reader.bad, ask.bad)
					looked++
				}
			}
		}
	}
	t.Logf("%d combinations", looked)
}

// allAnswered holds the answers that do not decide the verdict to their own.
func allAnswered(t *testing.T, what []any, got verify.Result, readerBad, askBad int) {
	t.Helper()
	if got.Verdict.HidesContent() {
		if got.Signed != nil || got.Page != nil || got.Serial != verify.NotAsked || got.Hours != verify.HoursNotAsked || got.Signer.Known {
			t.Errorf("%v: something of a record that cannot be relied on is answered: %+v", what, got)
		}
		return
	}
	if got.Signer.Known != (readerBad != 4) || got.Signer.ValidForDate() != (readerBad == 0) {
		t.Errorf("%v: signer %+v", what, got.Signer)
	}
	if (got.Serial == verify.Different || got.Hours == verify.HoursBehind) != (askBad == 6) {
		t.Errorf("%v: serial %d, hours %d", what, got.Serial, got.Hours)
	}
	// Whatever outweighs it, the sentence speaks of the machine, and only where there is cause.
	said := strings.Contains(got.Sentence(), "The serial number that you gave is not the one in this record") ||
		strings.Contains(got.Sentence(), "The meter that you read shows fewer hours than this record")
	if said != (askBad == 6) {
		t.Errorf("%v: %s: %s", what, got.Verdict, got.Sentence())
	}
	if (got.Page != nil) != (got.Source == source.KindPDF) {
		t.Errorf("%v: page %+v of a %s", what, got.Page, got.Source)
	}
	if id := record.ID(sign.IDOf(example(t).envelope)); got.Record == nil || *got.Record != id {
		t.Errorf("%v: another id", what)
	}
}

// TestCodeThatLeadsAway: under a signer who does not count too, the sentence speaks of a
// code that leads elsewhere before it speaks of a page that could not be compared; a page
// that is not the record's is said first.
func TestCodeThatLeadsAway(t *testing.T) {
	const unknown = "We do not know who signed this, "
	sealed := example(t)
	texts := withHost(t, sealed, "verify.port-ellery-slip.example")
	pdf := must[[]byte](t)(render.Report(sealed.record, sealed.envelope, texts, nil))
	for _, c := range []struct {
		name  string
		data  []byte
		maker verify.RenderFunc
		want  string
	}{
		{"text", []byte(strings.Join(texts, "\n")), noPage, "and the code around it is not the one that the record calls for."},
		{"page not compared", pdf, noPage, "and the code around it is not the one that the record calls for."},
		{"page not compared, its own code", sealed.pdf(t), noPage, "and whether this PDF shows what was signed could not be tried."},
		{"another page", pdf, makePage, "and this PDF is not the original of the record in it."},
	} {
		got := verify.Run(c.data, verify.Reader{}, c.maker)
		wants(t, got, verify.UnknownSigner, unknown+c.want)
	}
}

// The order of the answers is the same under every verdict on a record that
// could be read, and nothing stands above the sentence but the sentence.
func TestOrderOfAnswers(t *testing.T) {
	headings := []string{"Who signed", "Is it unaltered", "Is it about this machine", "When, and who says so", "What this does not prove"}
	sealed := example(t)
	for name, got := range map[string]verify.Result{
		"genuine":       verify.Run(sealed.envelope, buyer(t), makePage),
		"unknown":       verify.Run(sealed.envelope, verify.Reader{}, makePage),
		"not original":  verify.Run(editedPage(t, sealed), buyer(t), makePage),
		"other machine": verify.Run(sealed.envelope, verify.Reader{Trust: buyer(t).Trust, Serial: "7"}, makePage),
		"stranger's":    verify.Run(seal(t, recordtest.Shortest(), strangerSeed).envelope, buyer(t), makePage),
	} {
		var found []string
		for _, section := range got.Sections(verify.Terminal) {
			found = append(found, section.Heading)
		}
		want := headings
		if got.Verdict.ShowsContent() {
			want = append(slices.Clone(headings), "Ask the yard or the seller")
		}
		if !slices.Equal(found, want) {
			t.Errorf("%s: %q", name, found)
		}
	}
}

// The content of a record under a bad verdict is not in the answers.
func TestBadVerdictsKeepContentBack(t *testing.T) {
	sealed := example(t)
	flipped := bytes.Clone(sealed.envelope)
	flipped[300] ^= 1
	retired := sign.TrustList{{Name: yardName, Key: keyOf(t, yardSeed).Public(), Until: day(t, "2025-12-31")}}
	for name, got := range map[string]verify.Result{
		"altered":           verify.Run(flipped, buyer(t), makePage),
		"unreadable":        verify.Run(sealBytes(t, sealed.payload[:len(sealed.payload)-1], yardSeed), buyer(t), makePage),
		"unknown":           verify.Run(sealed.pdf(t), verify.Reader{}, makePage),
		"key not valid":     verify.Run(sealed.pdf(t), verify.Reader{Trust: retired}, makePage),
		"saved by another":  verify.Run(append([]byte("\n"), sealed.pdf(t)...), buyer(t), makePage),
		"of other hours":    verify.Run(sealed.envelope, verify.Reader{Trust: buyer(t).Trust, Hours: hours(t, "7")}, makePage),
		"of another serial": verify.Run(sealed.envelope, verify.Reader{Trust: buyer(t).Trust, Serial: "7"}, makePage),
	} {
		if got.Verdict.ShowsContent() || len(got.Questions()) > 0 {
			t.Errorf("%s: %s shows content", name, got.Verdict)
		}
		for _, text := range allWords(got) {
			for _, content := range []string{"812", "0045120", "Corrin", "Gannet", "Port Ellery", "impeller", "Harrow", "J-2217", "part on order", "118"} {
				if bytes.Contains([]byte(text), []byte(content)) && !bytes.Contains([]byte(text), []byte("SHA256:")) && !bytes.Contains([]byte(text), []byte("Record ")) {
					t.Errorf("%s: %q is in %q", name, content, text)
				}
			}
		}
	}
}
