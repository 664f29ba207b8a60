package render

import (
	"bytes"
	"crypto/sha256"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/recordtest/outside"
	"hourseal/render/sheet/sheettest"
	"hourseal/sign"
	"hourseal/sign/qrtext"
)

var update = flag.Bool("update", false, "write the golden files anew: read them line by line afterwards")

var gap = regexp.MustCompile(` {2,}`)

// The text layer of the four records, as poppler reads it: wording, order and
// pages. A change here is a change of the layout that RendererID names.
func TestGoldenText(t *testing.T) {
	cases := map[string]sealed{"example-two-codes": asPrintedBefore(t)}
	for _, s := range scenarios {
		cases[s.name] = seal(t, s.make())
	}
	for name, x := range cases {
		t.Run(name, func(t *testing.T) {
			// The id follows from the record's bytes, which are not the page's affair.
			id := sign.IDOf(x.envelope)
			got := strings.NewReplacer(id.Hex(), "<id in full>", id.String(), "<id>").Replace(sheettest.TextLayer(t, x.report(t)))
			path := filepath.Join("..", "testdata", "golden", "report-"+name+".txt")
			sheettest.Golden(t, path, got, *update)
		})
	}
}

// asPrintedBefore is the example with the two texts that it took before codes had
// a dictionary: reports that were printed then are laid out the same for ever.
func asPrintedBefore(t *testing.T) sealed {
	t.Helper()
	x := seal(t, example())
	texts, err := os.ReadFile("../sign/qrtext/testdata/texts/2-example.txt")
	if err != nil {
		t.Fatal(err)
	}
	if x.texts = strings.Fields(string(texts)); len(x.texts) != 2 {
		t.Fatalf("%d texts", len(x.texts))
	}
	if decoded, err := qrtext.Decode(x.texts); err != nil || !bytes.Equal(decoded.Envelope, x.envelope) {
		t.Fatalf("the texts are of another record: %v", err)
	}
	return x
}

// What a reader looks for is in the text layer, as one run of text each.
func TestTextLayerHoldsTheFigures(t *testing.T) {
	said := gap.ReplaceAllString(sheettest.TextLayer(t, seal(t, example()).report(t)), " ")
	for _, want := range []string{
		"Ellery Slip Boatyard", "Service report", "J-2217", "0045120", "GB-ELS00042A323", "812.6 h", "55 kW",
		"2.4 US gal at 68 °C = 9.085 L", "5 L at 16 °C + 4.3 L at 16 °C = 9.3 L", "0.85, 15 min after stopping, at 45 °C",
		"API CK-4", "H-0612", "CR-2214", "receipt 5521", "look again at 900 h", "-27 C",
		"no leak seen in 10 min running", "1012.6 h", "2027-05-04", "due, counted from entry into", "no record",
		"Tightened the exhaust clamp at the elbow", "part on order", "at the next service",
		"Whose: common practice, not the maker's", "The maker's handbook governs.",
		testKey().Public().Fingerprint(), "2026-05-04 15:20:00 UTC", "verify.ellery-slip.example",
		"Do not trust a page that this code opens.", "Nobody has checked that.",
	} {
		if !strings.Contains(said, want) {
			t.Errorf("no %q", want)
		}
	}
}

// So is what follows from them.
func TestTextLayerHoldsWhatFollows(t *testing.T) {
	said := gap.ReplaceAllString(sheettest.TextLayer(t, seal(t, accounted()).report(t)), " ")
	for _, want := range []string{
		"8.74 L at 15 °C, give or take 0.27 L", "0.2 L at 40 °C drawn off again", "seen in it: water, metal",
		"expected", "10 L at the upper mark", "Old oil left in: 0.41 L, 5 % of the fill, give or take 0.39 L.", "give or take 0.20; read 0.85.",
		"Oil used in 100 h, at each service", "407.9 h", "-0.5 L", "Engine oil: water, metal", "ethylene glycol", "1850 L",
		"kept by the yard: drum 3, oil store",
	} {
		if !strings.Contains(said, want) {
			t.Errorf("no %q", want)
		}
	}
}

// An addendum, correction or void says so before the machine is named, with the
// record that it is about; an owner's or surveyor's signature is named as that.
func TestFirstThingsStandFirst(t *testing.T) {
	about := sha256.Sum256([]byte("earlier"))
	for kind, want := range map[record.Kind]string{
		record.Addendum:   "This adds to record 2a51 d354 7c23 a8de",
		record.Correction: "This stands in the place of record 2a51 d354 7c23 a8de",
		record.Void:       "Record 2a51 d354 7c23 a8de does not count",
	} {
		r := shortest()
		r.Kind, r.Subject = kind, &record.Subject{Record: about, Why: "two meters were mixed up"}
		r.Issuer.Kind = record.SurveyorIssuer
		said := sheettest.TextLayer(t, seal(t, r).report(t))
		top, _, found := strings.Cut(said, "Serial number")
		if !found || !strings.Contains(top, want) || !strings.Contains(top, "two meters were mixed up") || !strings.Contains(top, "Signed by a surveyor") {
			t.Errorf("%v: got\n%s", kind, top)
		}
		if strings.Contains(said, "OVERFILLED") {
			t.Errorf("%v: says OVERFILLED of nothing", kind)
		}
	}
	r := example()
	r.Findings = append(r.Findings, record.Finding{Code: record.LevelOverfilled, Severity: record.Decide, Subject: "engine-oil",
		Value: ptr(int64(1200)), Limit: ptr(int64(1150)), Unit: record.InShare, Accepted: "tag on the key"})
	top, _, _ := strings.Cut(sheettest.TextLayer(t, seal(t, r).report(t)), "Serial number")
	if !strings.Contains(top, "OVERFILLED: do not run until drawn down") {
		t.Errorf("got\n%s", top)
	}
}

// The hours say how they came about.
func TestHoursSayHowTheyCameAbout(t *testing.T) {
	for _, c := range []struct {
		meter record.Meter
		want  []string
	}{
		{record.Meter{State: record.Stopped, Basis: "engine log"}, []string{"stopped", "hours estimated, from: engine log"}},
		{record.Meter{State: record.NoMeter, Basis: "engine log"}, []string{"no hour meter", "hours estimated, from: engine log"}},
		{record.Meter{State: record.Running, Reading: ptr(hours("112.6")), Offset: hours("700"),
			Change: &record.MeterChange{FittedAt: hours("0"), Why: "glass cracked"}},
			[]string{"read 112.6 h", "earlier meters add 700 h", "what the old one read is unknown", "fitted at 0 h", "glass cracked"}},
	} {
		r := example()
		r.Job.Meter = c.meter
		p := &report{r: r, texts: textsForTest()}
		var said strings.Builder
		for _, item := range p.hours() {
			said.WriteString(item.Text + "\n")
		}
		for _, want := range append(c.want, "812.6 h") {
			if !strings.Contains(said.String(), want) {
				t.Errorf("%v: no %q in\n%s", c.meter.State, want, said.String())
			}
		}
	}
}

// qpdf, an independent reader of PDF files, finds nothing to warn of, and lifts
// the attachments out unchanged.
func TestQPDFReadsTheFile(t *testing.T) {
	for _, s := range scenarios {
		x := seal(t, s.make())
		keys := []byte("key statements")
		pdf, err := Report(x.record, x.envelope, x.texts, keys)
		if err != nil {
			t.Fatal(err)
		}
		path := onDisk(t, "report.pdf", pdf)
		if said := outside.Run(t, "qpdf", "--check", path); strings.Contains(said, "WARNING") || !strings.Contains(said, "No syntax or stream encoding errors found") {
			t.Errorf("%s: %s", s.name, said)
		}
		pages := strings.TrimSpace(outside.Run(t, "qpdf", "--show-npages", path))
		if want := map[string]string{"shortest": "2", "example": "2", "accounted": "3", "longest": "9"}[s.name]; pages != want {
			t.Errorf("%s: %s pages, want %s", s.name, pages, want)
		}
	}
}

// pdfdetach (poppler) lifts the attachments out unchanged.
func TestAttachments(t *testing.T) {
	x := seal(t, longest())
	for _, keys := range [][]byte{nil, []byte("key statements")} {
		pdf, err := Report(x.record, x.envelope, x.texts, keys)
		if err != nil {
			t.Fatal(err)
		}
		dir := t.TempDir()
		outside.Run(t, "pdfdetach", "-saveall", "-o", dir, onDisk(t, "report.pdf", pdf))
		want := map[string][]byte{"record.cose": x.envelope, "record.txt": []byte(strings.Join(x.texts, "\n") + "\n")}
		if keys != nil {
			want["keys.cose"] = keys
		}
		files, err := os.ReadDir(dir)
		if err != nil || len(files) != len(want) {
			t.Fatalf("%d files, want %d (%v)", len(files), len(want), err)
		}
		for name, content := range want {
			if got, err := os.ReadFile(filepath.Join(dir, name)); err != nil || !bytes.Equal(got, content) {
				t.Errorf("%s: %v", name, err)
			}
		}
	}
}

func TestAmounts(t *testing.T) {
	p := &report{texts: textsForTest()}
	for _, c := range []struct {
		amount *quantity.Measured
		want   string
	}{
		{sum("0.5 L"), "0.5 L"},
		{sum("500 mL"), "500 mL = 0.5 L"},
		{sum("2.4 US gal at 68 C"), "2.4 US gal at 68 °C = 9.085 L"},
		{sum("5 L at 16 C", "4.3 L at 16 C"), "5 L at 16 °C + 4.3 L at 16 °C = 9.3 L"},
		{sum("7.7 kg"), "7.7 kg"},
		{sum("17 lb"), "17 lb = 7.711 kg"},
		{sum("7.7 kg", "1 L"), "7.7 kg + 1 L"}, // no density here that would add them up
		{sum("1 imp gal at -2.5 C"), "1 imp gal at -2.5 °C = 4.546 L"},
		{&quantity.Measured{NotMeasured: true}, "not measured"},
	} {
		if got := p.amountLine(c.amount); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}
