package statement_test

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
	"hourseal/record/recordtest/outside"
	"hourseal/render/sheet/sheettest"
	"hourseal/render/statement"
	"hourseal/verify/history"
)

var update = flag.Bool("update", false, "write the golden files anew: read them line by line afterwards")

var (
	papers = []record.Paper{record.A4, record.Letter}
)

func onDisk(t testing.TB, data []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "statement.pdf")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// run is text as one run, so that a line's end is no difference, wherever it is.
func run(text string) string { return strings.Join(strings.Fields(text), "") }

// With HOURSEAL_PICTURES=FOLDER the statements are kept there, to be looked at.
func TestPictures(t *testing.T) {
	folder := os.Getenv("HOURSEAL_PICTURES")
	if folder == "" {
		t.Skip("only with HOURSEAL_PICTURES=FOLDER")
	}
	for name, make := range scenarios {
		for _, paper := range papers {
			m, settings := make()
			_, pdf := printed(t, m, settings, paper)
			if err := os.WriteFile(filepath.Join(folder, name+"-"+paper.String()+".pdf"), pdf, 0o600); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// The file is sound, as qpdf sees it, and holds, as poppler reads it: the judgement, the
// faults and the questions, the ends of the chains, every record's id.
func TestEverythingIsInTheFile(t *testing.T) {
	for name, make := range scenarios {
		for _, paper := range papers {
			if strings.HasPrefix(name, "crowded") && paper == record.Letter {
				continue // long
			}
			m, settings := make()
			_, pdf := printed(t, m, settings, paper)
			outside.Run(t, "qpdf", "--check", onDisk(t, pdf))
			said := run(outside.Run(t, "pdftotext", "-raw", "-enc", "UTF-8", onDisk(t, pdf), "-"))
			want := []string{statement.Clean(m.Sentence())}
			for _, q := range m.Questions {
				want = append(want, q.Text)
			}
			for _, f := range m.Faults {
				want = append(want, m.FaultWords(f))
			}
			for _, c := range m.Tails() {
				want = append(want, m.TailWords(c))
			}
			want = append(want, history.NotShown...)
			for _, e := range m.Entries {
				want = append(want, fmt.Sprintf("%x %x %x %x", e.ID[0:2], e.ID[2:4], e.ID[4:6], e.ID[6:8]))
			}
			for _, text := range want {
				// A page's foot may stand between two lines of a text.
				if !strings.Contains(said, run(statement.Clean(text))) && !inPieces(said, run(statement.Clean(text))) {
					t.Errorf("%s on %v: no %q", name, paper, text)
				}
			}
		}
	}
}

// inPieces says whether a text is there in two pieces, each of some length.
func inPieces(said, text string) bool {
	for n := 12; n < len(text)-12; n++ {
		if strings.Contains(said, text[:n]) && strings.Contains(said, text[n:]) {
			return true
		}
	}
	return false
}

// Nothing lies outside the page, and no text on other text.
func TestStatementsAreSound(t *testing.T) {
	for name, make := range scenarios {
		for _, paper := range papers {
			m, settings := make()
			settings.Paper = paper
			if fault := statement.Fault(m, settings); fault != "" {
				t.Errorf("%s on %v: %s", name, paper, fault)
			}
		}
	}
}

// The same judgement gives the same bytes, whatever order its inputs came in.
func TestSameBytes(t *testing.T) {
	for name, in := range inputs {
		_, once := printedFrom(t, in())
		turned := in()
		for i, j := 0, len(turned.Items)-1; i < j; i, j = i+1, j-1 {
			turned.Items[i], turned.Items[j] = turned.Items[j], turned.Items[i]
		}
		_, again := printedFrom(t, turned)
		if !bytes.Equal(once, again) {
			t.Errorf("%s: other bytes", name)
		}
	}
}

// The first page is the page to read, and refers to pages that have what it lacks.
func TestFirstPage(t *testing.T) {
	for name, make := range scenarios {
		m, settings := make()
		pages, err := statement.Texts(m, settings)
		if err != nil {
			t.Fatal(err)
		}
		first := strings.Join(pages[0], "\n")
		if name == "crowded-wide" { // six names of 120 W leave no room for more
			pages[0] = append(pages[0], pages[1]...)
			first = strings.Join(pages[0], "\n")
		}
		for _, want := range []string{"History of a machine", "What this does not show", "The maker's handbook governs."} {
			if !strings.Contains(first, want) {
				t.Errorf("%s: the first page has no %q", name, want)
			}
		}
		for _, ref := range regexp.MustCompile(`(?:on|day:|end:|[0-9]{4}-[0-9]{2}-[0-9]{2}:) page ([0-9]+)`).FindAllStringSubmatch(first, -1) {
			var at int
			fmt.Sscan(ref[1], &at)
			if at < 2 || at > len(pages) {
				t.Errorf("%s: %q refers to a page that is not there", name, ref[0])
			}
		}
		for i, page := range pages {
			foot := strings.Join(page, "\n")
			if !strings.Contains(foot, fmt.Sprintf("Page %d of %d", i+1, len(pages))) || !strings.Contains(foot, "serial "+m.Serial[:4]) {
				t.Errorf("%s: page %d is not numbered, or does not name the machine", name, i+1)
			}
		}
	}
}

// Words that claim more than records can, and words that blame; names of technicians.
func TestNoPraiseNoBlame(t *testing.T) {
	for name, make := range scenarios {
		m, settings := make()
		pages, err := statement.Texts(m, settings)
		if err != nil {
			t.Fatal(err)
		}
		said := ""
		for _, page := range pages {
			said += strings.Join(page, "\n") + "\n"
		}
		for _, bad := range []string{"verified", "genuine", "certified", "guarantee", "well maintained", "neglect", "not done", "failed", "Tolland", "✓"} {
			if strings.Contains(strings.ToLower(said), strings.ToLower(bad)) {
				t.Errorf("%s: says %q", name, bad)
			}
		}
	}
}

// A name that the faces cannot print becomes question marks, and the foot says so.
func TestLettersThatCannotBePrinted(t *testing.T) {
	m, settings := scenarios["foreign"]()
	pages, err := statement.Texts(m, settings)
	if err != nil {
		t.Fatal(err)
	}
	first := strings.Join(pages[0], "\n")
	if !strings.Contains(first, "A ? stands where a letter cannot be printed") || !strings.Contains(first, "??? Slip") {
		t.Errorf("got %s", first)
	}
	m, settings = scenarios["clean"]()
	if pages, _ = statement.Texts(m, settings); strings.Contains(strings.Join(pages[0], "\n"), "A ? stands") {
		t.Error("says it where every letter was printed")
	}
}

// What somebody stated is told as that; what was put off, with its advice and answer.
func TestStatedAndPutOff(t *testing.T) {
	m, settings := judged(late())
	m.Tasks[0].Stated = new(at("2020-05-04", 3))
	m.Tasks[0].Done = m.Tasks[0].Done[:0]
	m.Tasks[1].Now = &history.DuePoint{Stated: true}
	pages, err := statement.Texts(m, settings)
	if err != nil {
		t.Fatal(err)
	}
	said := ""
	for _, page := range pages[1:] {
		said += run(strings.Join(page, ""))
	}
	for _, want := range []string{
		"Stated as done on 2020-05-04 at 3 h: stated, not under seal; it counts for nothing here.", "No record of it.", "At the last record: " + m.Tasks[1].NowWords(),
		"Put off on 2023-06-19 at 469 h, and again in 2 records (part on order; advice: next service; owner: agreed)",
	} {
		if !strings.Contains(said, run(want)) {
			t.Errorf("no %q", want)
		}
	}
}

func TestGoldenText(t *testing.T) {
	for _, name := range []string{"clean", "late", "many"} {
		t.Run(name, func(t *testing.T) {
			m, settings := scenarios[name]()
			_, pdf := printed(t, m, settings, record.A4)
			got := sheettest.TextLayer(t, pdf)
			if name == "many" { // the first two pages, and the last
				pages := strings.SplitAfter(got, "==== page ")
				got = strings.Join(append(pages[:3:3], pages[len(pages)-1]), "")
			}
			path := filepath.Join("..", "..", "testdata", "golden", "statement-"+name+".txt")
			sheettest.Golden(t, path, got, *update)
		})
	}
}
