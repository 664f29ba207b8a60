package main

import (
	"bytes"
	"fmt"
	"image"
	"image/draw"
	"image/jpeg"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/go-pdf/fpdf"

	"hourseal/record"
	"hourseal/record/recordtest"
	"hourseal/record/recordtest/outside"
	"hourseal/sign"
	"hourseal/sign/qrtext"
	"hourseal/verify/source/picture/phototest"
)

// pageData is the page, and what its reader may be given.
type pageData struct {
	host string
	page []byte
	file string // the page on the disk

	renewed renewedPage

	trust    sign.TrustList // whom the page knows
	stranger sign.PublicKey

	issued  []string // texts of the port engine's record, as issue printed them
	report  string   // its PDF
	altered []string // its texts, one bit of what was signed flipped
	unknown []string // a record of somebody's whom the page does not know
	parts   []string // the two texts of a long record by the yard

	photo  string   // of the report's code page, a JPEG
	scan   string   // a PDF of pictures of the report
	photos []string // of the codes of parts, a JPEG each
	video  string   // what the browser's camera sees: the codes of parts in turn
}

const pageYard = "Ellery Slip Boatyard"

// newPageData is a yard with its page and a report, by the program; the records that
// this yard would not make, by the packages.
func newPageData(t *testing.T) *pageData {
	t.Helper()
	f := newYard(t)
	f.fixKey(t, 1)
	var issued issuedAnswer
	mustDecode(t, f.must(t, 0, "issue", portJob, "--json").stdout, &issued)
	f.must(t, 0, "page", "-o", "verify.html")
	d := &pageData{host: recordtest.Example().PageHost, page: f.read(t, "verify.html"), file: f.path("verify.html"),
		issued: issued.QR, report: f.path(issued.Report)}
	yard, stranger := pageKey(t, 1), pageKey(t, 9)
	d.trust, d.stranger = sign.TrustList{{Name: pageYard, Key: yard.Public()}}, stranger.Public()
	example := sealedBy(t, recordtest.Example(), yard)
	d.renewed = newRenewedPage(t, f, yard)
	d.altered = textsOf(t, flipped(bytes.Clone(example), 300))
	d.unknown = textsOf(t, sealedBy(t, recordtest.Example(), stranger))
	d.parts = textsOf(t, sealedBy(t, longRecord(), yard))
	if len(d.issued) != 1 || len(d.altered) != 1 || len(d.unknown) != 1 || len(d.parts) != 2 {
		t.Fatalf("the records come in %d, %d, %d and %d codes, want 1, 1, 1 and 2", len(d.issued), len(d.altered), len(d.unknown), len(d.parts))
	}
	d.takePictures(t)
	return d
}

// renewedPage is the page of the same yard after it renewed its key.
type renewedPage struct {
	file  string         // on the disk
	next  sign.PublicKey // counts from a day after the records' on
	early string         // text of a record that the new key signed before
}

func newRenewedPage(t *testing.T, f folder, yard *sign.PrivateKey) renewedPage {
	t.Helper()
	next := pageKey(t, 2)
	from, err := sign.ParseDay("2027-03-01")
	if err != nil {
		t.Fatal(err)
	}
	content := sign.StatementContent{Kind: sign.Renew, Subject: yard.Public(), Other: next.Public(), From: from, StatedAt: recordtest.Example().IssuedAt, Number: 1}
	payload, err := content.Encode()
	if err != nil {
		t.Fatal(err)
	}
	statement, err := sign.Seal(sign.KeyStatementV1, payload, yard)
	if err != nil {
		t.Fatal(err)
	}
	f.write(t, statementsFolder+"/0001.cose", statement)
	f.must(t, 0, "page", "-o", "renewed.html")
	texts := textsOf(t, sealedBy(t, recordtest.Example(), next))
	if len(texts) != 1 {
		t.Fatalf("the early record comes in %d codes", len(texts))
	}
	return renewedPage{f.path("renewed.html"), next.Public(), texts[0]}
}

// longRecord is one that fills a second code, and no third.
func longRecord() *record.Record {
	r := recordtest.Longest()
	r.Tasks, r.Parts = r.Tasks[:20], r.Parts[:20]
	return r
}

// pageKey is the key that fixKey makes of a seed.
func pageKey(t *testing.T, seed byte) *sign.PrivateKey {
	t.Helper()
	key, err := sign.NewKey(bytes.NewReader(bytes.Repeat([]byte{seed}, 64)))
	if err != nil {
		t.Fatal(err)
	}
	return key
}

func sealedBy(t *testing.T, r *record.Record, key *sign.PrivateKey) []byte {
	t.Helper()
	payload, err := record.Encode(r)
	if err != nil {
		t.Fatal(err)
	}
	envelope, err := sign.Seal(sign.RecordV1, payload, key)
	if err != nil {
		t.Fatal(err)
	}
	return envelope
}

func textsOf(t *testing.T, envelope []byte) []string {
	t.Helper()
	texts, err := qrtext.Encode(envelope, recordtest.Example().PageHost)
	if err != nil {
		t.Fatal(err)
	}
	return texts
}

// fragment is what an address of the page has behind it when a code opened it.
func fragment(text string) string { return text[strings.IndexByte(text, '#'):] }

// takePictures makes the pictures: of the printed report by poppler, and of codes.
func (d *pageData) takePictures(t *testing.T) {
	t.Helper()
	dir := t.TempDir()
	outside.Run(t, "pdftoppm", "-r", "200", "-gray", "-png", d.report, filepath.Join(dir, "page"))
	paths, err := filepath.Glob(filepath.Join(dir, "page*.png"))
	if err != nil || len(paths) == 0 {
		t.Fatalf("no pages, %v", err)
	}
	var pages []*image.Gray
	for _, path := range paths {
		pages = append(pages, grayPage(t, path))
	}
	d.photo = inFile(t, dir, "photo.jpg", asJPEG(t, phototest.Take(pages[codePage(t, paths)], phototest.Mild.At(200, 3), 3)))
	d.scan = inFile(t, dir, "scan.pdf", scanned(t, pages))
	var frames []*image.Gray
	for i, text := range d.parts {
		sheet, _, err := phototest.Sheet(text, 5)
		if err != nil {
			t.Fatal(err)
		}
		d.photos = append(d.photos, inFile(t, dir, fmt.Sprintf("part-%d.jpg", i+1), asJPEG(t, phototest.Take(sheet, phototest.Mild.At(150, 4), 4))))
		frames = append(frames, inFront(sheet))
	}
	d.video = inFile(t, dir, "camera.y4m", asVideo(frames))
}

// codePage is the number of the page that has the record's code on it: the one on
// which zbar, which is not ours, finds it.
func codePage(t *testing.T, paths []string) int {
	t.Helper()
	for i, path := range paths {
		r := ended(t, exec.Command(outside.Program(t, "zbarimg"), "--quiet", "--raw", "-Sdisable", "-Sqrcode.enable", path))
		if strings.Contains(r.stdout, "#") {
			return i
		}
	}
	t.Fatal("no page of the report has a code on it")
	return 0
}

func asJPEG(t *testing.T, picture image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, picture, &jpeg.Options{Quality: 75}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// scanned is a PDF as a scanner writes it: a picture a page and no text.
func scanned(t *testing.T, pages []*image.Gray) []byte {
	t.Helper()
	pdf := fpdf.New("P", "mm", "A4", "")
	for i, page := range pages {
		name := fmt.Sprint("page ", i)
		options := fpdf.ImageOptions{ImageType: "JPEG"}
		pdf.AddPage()
		pdf.RegisterImageOptionsReader(name, options, bytes.NewReader(asJPEG(t, phototest.Scan(page, phototest.Flatbed(200, 0.6), 5))))
		pdf.ImageOptions(name, 0, 0, 210, 297, false, options, 0, "")
	}
	var b bytes.Buffer
	if err := pdf.Output(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// inFront is a sheet as it is held before a camera, in a frame of 1920 by 1080.
func inFront(sheet *image.Gray) *image.Gray {
	frame := image.NewGray(image.Rect(0, 0, 1920, 1080))
	draw.Draw(frame, frame.Rect, image.White, image.Point{}, draw.Src)
	middle := frame.Rect.Size().Sub(sheet.Rect.Size()).Div(2)
	draw.Draw(frame, sheet.Rect.Add(middle), sheet, image.Point{}, draw.Src)
	return frame
}

// asVideo is a grey video in YUV4MPEG2, each frame for a second, which is what
// Chromium's camera for tests plays again and again.
func asVideo(frames []*image.Gray) []byte {
	const framesASecond = 5
	size := frames[0].Rect.Size()
	var b bytes.Buffer
	fmt.Fprintf(&b, "YUV4MPEG2 W%d H%d F%d:1 Ip A1:1 C420jpeg\n", size.X, size.Y, framesASecond)
	noColour := bytes.Repeat([]byte{128}, size.X*size.Y/2)
	for _, frame := range frames {
		for range framesASecond {
			b.WriteString("FRAME\n")
			b.Write(frame.Pix)
			b.Write(noColour)
		}
	}
	return b.Bytes()
}

func inFile(t *testing.T, dir, name string, data []byte) string {
	t.Helper()
	path := filepath.Join(dir, name)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}
