package source_test

import (
	"bytes"
	"crypto/ed25519"
	"crypto/sha256"
	"fmt"
	"slices"
	"testing"
	"time"

	"github.com/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"

	"hourseal/sign"
	"hourseal/sign/qrtext"
)

// seedSigner signs with a key made from a word, so that tests repeat.
type seedSigner struct{ key ed25519.PrivateKey }

func signerOf(word string) seedSigner {
	seed := sha256.Sum256([]byte(word))
	return seedSigner{ed25519.NewKeyFromSeed(seed[:])}
}

func (s seedSigner) Public() sign.PublicKey {
	return sign.PublicKey(s.key.Public().(ed25519.PublicKey))
}

func (s seedSigner) Sign(message []byte) ([]byte, error) {
	return ed25519.Sign(s.key, message), nil
}

const ellerySlip = "Ellery Slip Boatyard"

// record seals a payload that stands for a record of about n bytes: this
// package does not look into the payload.
func record(t testing.TB, note string, n int) []byte {
	t.Helper()
	return sealed(t, sign.RecordV1, note, n)
}

func sealed(t testing.TB, purpose sign.Purpose, note string, n int) []byte {
	t.Helper()
	payload := []byte(note)
	for block := sha256.Sum256(payload); len(payload) < n; block = sha256.Sum256(block[:]) {
		payload = append(payload, block[:]...)
	}
	envelope, err := sign.Seal(purpose, payload, signerOf(ellerySlip))
	if err != nil {
		t.Fatal(err)
	}
	return envelope
}

func textsOf(t testing.TB, envelope []byte) []string {
	t.Helper()
	texts, err := qrtext.Encode(envelope, "records.ellery-slip.example")
	if err != nil {
		t.Fatal(err)
	}
	return texts
}

// report is a small document in the settings of a report: fixed dates, sorted
// catalog, embedded UTF-8 fonts, vector rectangles, attachments.
type report struct {
	pages       [][]string // lines of each page
	attachments []fpdf.Attachment
}

func reportOf(t testing.TB, envelope []byte) report {
	t.Helper()
	return report{
		pages: [][]string{
			{"Service report", "Gannet, port engine: Corrin 4T-75", "Hour meter 812.6 h", `Notes: oil "Harrow HD" (9.4 L) \ filter`, "Nothing recorded as due", "Impeller: ok"},
			{"Page 2 of 2", "Signed by Ellery Slip Boatyard, Port Ellery", "Straße Ω Ж ("},
		},
		attachments: attachmentsOf(t, envelope, nil),
	}
}

func attachmentsOf(t testing.TB, envelope, keys []byte) []fpdf.Attachment {
	t.Helper()
	var lines bytes.Buffer
	for _, text := range textsOf(t, envelope) {
		fmt.Fprintln(&lines, text)
	}
	a := []fpdf.Attachment{{Filename: "record.cose", Content: envelope}, {Filename: "record.txt", Content: lines.Bytes()}}
	if keys != nil {
		a = append(a, fpdf.Attachment{Filename: "keys.cose", Content: keys})
	}
	return a
}

func (r report) bytes(t testing.TB) []byte {
	t.Helper()
	p := fpdf.New("P", "mm", "A4", "")
	p.SetCatalogSort(true)
	made := time.Date(2026, 5, 4, 0, 0, 0, 0, time.UTC)
	p.SetCreationDate(made)
	p.SetModificationDate(made)
	p.SetProducer("hourseal", true)
	p.SetTitle("Service report: Gannet", true)
	p.SetLang("en-GB")
	p.SetAutoPageBreak(false, 0)
	p.AddUTF8FontFromBytes("go", "", bytes.Clone(goregular.TTF))
	p.AddUTF8FontFromBytes("go", "B", bytes.Clone(gobold.TTF))
	for _, lines := range r.pages {
		p.AddPage()
		p.SetTextColor(20, 40, 60)
		for i, line := range lines {
			p.SetFont("go", map[bool]string{true: "B", false: ""}[i == 0], 11)
			p.SetXY(20, 20+float64(i)*8)
			p.CellFormat(150, 6, line, "B", 0, "L", false, 0, "")
		}
		for i := range 200 { // as the modules of a QR code
			p.Rect(20+float64(i*7%50), 150+float64(i*3%50), 1, 1, "F")
		}
	}
	// The library notes object numbers in the slice that it is given, so a second
	// document from the same slice would lack its files.
	p.SetAttachments(slices.Clone(r.attachments))
	var b bytes.Buffer
	if err := p.Output(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}
