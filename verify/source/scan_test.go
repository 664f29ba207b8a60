package source_test

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/draw"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"hourseal/record/recordtest/outside"
	"hourseal/verify/source"
	"hourseal/verify/source/sourcetest"
)

// deflatedPicture is a picture whose pixels are deflated as they are.
func deflatedPicture(img image.Image, entries string, rows []byte) sourcetest.Picture {
	return sourcetest.Picture{
		Width: img.Bounds().Dx(), Height: img.Bounds().Dy(),
		Entries: "/Filter /FlateDecode " + entries, Content: sourcetest.Deflate(rows),
	}
}

// interleaved are the pixels of a grey picture as components that make that grey.
func interleaved(img *image.Gray, components func(grey byte) []byte) []byte {
	var rows []byte
	for _, grey := range img.Pix {
		rows = append(rows, components(grey)...)
	}
	return rows
}

func inverted(img *image.Gray) *image.Gray {
	out := image.NewGray(img.Rect)
	for i, grey := range img.Pix {
		out.Pix[i] = 255 - grey
	}
	return out
}

// strips cuts a picture into strips of so many rows.
func strips(img *image.Gray, rows int) []*image.Gray {
	var all []*image.Gray
	for y := 0; y < img.Rect.Dy(); y += rows {
		strip := image.NewGray(image.Rect(0, 0, img.Rect.Dx(), min(rows, img.Rect.Dy()-y)))
		draw.Draw(strip, strip.Rect, img, image.Pt(0, y), draw.Src)
		all = append(all, strip)
	}
	return all
}

// scans are scan-only PDFs of one sheet, in the ways in which pictures are stored.
func scans(t testing.TB, sheet *image.Gray) map[string][]byte {
	t.Helper()
	w, h := sheet.Rect.Dx(), sheet.Rect.Dy()
	grey := sourcetest.Packed(sheet, 8)
	rgb := interleaved(sheet, func(g byte) []byte { return []byte{g, g, g} })
	cmyk := interleaved(sheet, func(g byte) []byte { return []byte{0, 0, 0, 255 - g} })
	colour := as(sheet, image.NewRGBA(sheet.Rect))
	jpg := jpegOf(t, colour, 60)
	dct := sourcetest.Picture{Width: w, Height: h, Entries: "/ColorSpace /DeviceRGB /BitsPerComponent 8 /Filter /DCTDecode", Content: jpg}
	apart, twice, listed := dct, dct, dct
	apart.Apart = true
	twice.Entries = "/ColorSpace /DeviceRGB /BitsPerComponent 8 /Filter [/FlateDecode /DCTDecode] /DecodeParms [null null]"
	twice.Content = sourcetest.Deflate(jpg)
	listed.Entries = "/ColorSpace /DeviceRGB /BitsPerComponent 8 /Filter [ /DCTDecode ]"
	page := func(entries string, rows []byte) []byte {
		return sourcetest.Scan(nil, deflatedPicture(sheet, entries, rows))
	}
	one := func(p sourcetest.Picture) []byte { return sourcetest.Scan(nil, p) }
	var cut []sourcetest.Picture
	for _, strip := range strips(sheet, 16) {
		cut = append(cut, deflatedPicture(strip, "/ColorSpace /DeviceGray /BitsPerComponent 8", sourcetest.Packed(strip, 8)))
	}
	var cutJPEG []sourcetest.Picture
	for _, strip := range strips(sheet, 32) {
		cutJPEG = append(cutJPEG, sourcetest.Picture{Width: w, Height: strip.Rect.Dy(), Entries: "/ColorSpace /DeviceGray /BitsPerComponent 8 /Filter /DCTDecode", Content: jpegOf(t, strip, 70)})
	}
	icc := func(n int) map[int]string {
		return map[int]string{5000: fmt.Sprintf("<< /N %d /Length 0 >>\nstream\n\nendstream", n)}
	}
	return map[string][]byte{
		"JPEG":                         one(dct),
		"JPEG, length apart":           one(apart),
		"JPEG, deflated":               one(twice),
		"JPEG, filter in a list":       one(listed),
		"JPEG in strips":               sourcetest.Scan(nil, cutJPEG...),
		"raw":                          one(sourcetest.Picture{Width: w, Height: h, Entries: "/ColorSpace /DeviceGray /BitsPerComponent 8", Content: grey}),
		"grey":                         page("/ColorSpace /DeviceGray /BitsPerComponent 8", grey),
		"grey, 1 bit":                  page("/ColorSpace /DeviceGray /BitsPerComponent 1", sourcetest.Packed(sheet, 1)),
		"grey, 2 bits":                 page("/ColorSpace /DeviceGray /BitsPerComponent 2", sourcetest.Packed(sheet, 2)),
		"grey, 4 bits":                 page("/ColorSpace /DeviceGray /BitsPerComponent 4", sourcetest.Packed(sheet, 4)),
		"grey, 16 bits":                page("/ColorSpace /DeviceGray /BitsPerComponent 16", sourcetest.Packed(sheet, 16)),
		"grey, inverted":               page("/ColorSpace /DeviceGray /BitsPerComponent 8 /Decode [1 0]", sourcetest.Packed(inverted(sheet), 8)),
		"stencil":                      page("/ImageMask true", sourcetest.Packed(sheet, 1)),
		"stencil, inverted":            page("/ImageMask true /Decode [1.0 0.0]", sourcetest.Packed(inverted(sheet), 1)),
		"RGB":                          page("/ColorSpace /DeviceRGB /BitsPerComponent 8", rgb),
		"CMYK":                         page("/ColorSpace /DeviceCMYK /BitsPerComponent 8", cmyk),
		"ink":                          sourcetest.Scan(map[int]string{5000: "<< /FunctionType 2 /Domain [0 1] /C0 [0 0 0 0] /C1 [0 0 0 1] /N 1 >>"}, deflatedPicture(sheet, "/ColorSpace [/Separation /Black /DeviceCMYK 5000 0 R] /BitsPerComponent 8", sourcetest.Packed(inverted(sheet), 8))),
		"ICC, grey":                    sourcetest.Scan(icc(1), deflatedPicture(sheet, "/ColorSpace [/ICCBased 5000 0 R] /BitsPerComponent 8", grey)),
		"ICC, RGB":                     sourcetest.Scan(icc(3), deflatedPicture(sheet, "/ColorSpace [ /ICCBased 5000 0 R ] /BitsPerComponent 8", rgb)),
		"colour space not to be found": sourcetest.Scan(nil, deflatedPicture(sheet, "/ColorSpace 5001 0 R /BitsPerComponent 8", rgb)),
		"palette":                      page("/ColorSpace [/Indexed /DeviceRGB 1 <FFFFFF 141E28>] /BitsPerComponent 1", sourcetest.Packed(inverted(sheet), 1)),
		"palette, string":              page(`/ColorSpace [/Indexed /DeviceGray 1 (\377\()] /BitsPerComponent 1`, sourcetest.Packed(inverted(sheet), 1)),
		"palette, stream":              sourcetest.Scan(map[int]string{5000: "<< /Length 2 >>\nstream\n\xff\x00\nendstream"}, deflatedPicture(sheet, "/ColorSpace [/Indexed /DeviceGray 1 5000 0 R] /BitsPerComponent 1", sourcetest.Packed(inverted(sheet), 1))),
		"PNG rows":                     page(fmt.Sprintf("/ColorSpace /DeviceRGB /BitsPerComponent 8 /DecodeParms << /Predictor 15 /Colors 3 /Columns %d >>", w), sourcetest.PNGRows(rgb, 3*w, 3)),
		"PNG rows, 1 bit":              page(fmt.Sprintf("/ColorSpace /DeviceGray /BitsPerComponent 1 /DecodeParms << /Predictor 12 /Colors 1 /BitsPerComponent 1 /Columns %d >>", w), sourcetest.PNGRows(sourcetest.Packed(sheet, 1), (w+7)/8, 1)),
		"grey in strips":               sourcetest.Scan(nil, cut...),
	}
}

// A scan-only PDF is read however its pictures are stored, and says that it is a
// scan. Other people's readers agree that these are the pictures.
func TestReadScan(t *testing.T) {
	envelope := record(t, "Gannet", 300)
	text := textsOf(t, envelope)[0]
	for name, pdf := range scans(t, sheetWith(t, text)) {
		t.Run(name, func(t *testing.T) {
			found := mustRead(t, pdf)
			if found.Kind != source.KindPDF || !found.Scan || found.PDF != nil || found.Salvaged == "" || !bytes.Equal(found.Envelope, envelope) {
				t.Errorf("kind %q, scan %t, salvaged %q", found.Kind, found.Scan, found.Salvaged)
			}
			if len(found.Texts) != 1 || found.Texts[0] != text || found.Host != "records.ellery-slip.example" {
				t.Errorf("texts %q, host %q", found.Texts, found.Host)
			}
		})
	}
}

// What the writer of these tests calls a scan is one: qpdf finds the files in order,
// and poppler shows the sheet, so that the tests read what scanners write.
func TestScansAreScans(t *testing.T) {
	qpdf, pdftoppm := outside.Program(t, "qpdf"), outside.Program(t, "pdftoppm")
	sheet := sheetWith(t, berths)
	dir := t.TempDir()
	for name, pdf := range scans(t, sheet) {
		file, shown := filepath.Join(dir, "scan.pdf"), filepath.Join(dir, "shown")
		if err := os.WriteFile(file, pdf, 0o600); err != nil {
			t.Fatal(err)
		}
		if out, err := exec.Command(qpdf, "--check", file).CombinedOutput(); err != nil {
			t.Errorf("%s: qpdf: %v\n%s", name, err, out)
		}
		if strings.Contains(name, "strips") || strings.Contains(name, "not to be found") { // a page a strip; nothing to show
			continue
		}
		if out, err := exec.Command(pdftoppm, "-r", "72", "-gray", "-singlefile", file, shown).CombinedOutput(); err != nil {
			t.Fatalf("%s: pdftoppm: %v\n%s", name, err, out)
		}
		pgm := must(t)(os.ReadFile(shown + ".pgm"))
		pixels := pgm[len(pgm)-len(sheet.Pix):]
		const module = 4 // pixels, of which poppler may draw those at the edges otherwise
		unlike := 0
		for y := module / 2; y < sheet.Rect.Dy(); y += module {
			for x := module / 2; x < sheet.Rect.Dx(); x += module {
				if at := y*sheet.Stride + x; (pixels[at] < 128) != (sheet.Pix[at] < 128) {
					unlike++
				}
			}
		}
		if unlike > 0 {
			t.Errorf("%s: poppler shows %d modules otherwise", name, unlike)
		}
	}
}

// Scans by other programs of the sheet of TestReadScan: fax of group 4 and 3 and
// strips by Ghostscript 10.00 (-sDEVICE=pdfwrite with /MonoImageFilter /CCITTFaxEncode
// and /K -1, or /K 0 and /EndOfLine true; -sDEVICE=pclm -dStripHeight=16), kept as
// files; and as qpdf writes a file anew.
func TestReadScansByOthers(t *testing.T) {
	envelope := record(t, "Gannet", 300)
	check := func(t *testing.T, pdf []byte) {
		t.Helper()
		if found := mustRead(t, pdf); !found.Scan || !bytes.Equal(found.Envelope, envelope) {
			t.Errorf("scan %t, or another envelope", found.Scan)
		}
	}
	for _, name := range []string{"fax-group4.pdf", "fax-group3.pdf", "strips.pdf"} {
		t.Run(name, func(t *testing.T) { check(t, must(t)(os.ReadFile("testdata/scans/"+name))) })
	}
	qpdf := outside.Program(t, "qpdf")
	dir := t.TempDir()
	in, out := filepath.Join(dir, "in.pdf"), filepath.Join(dir, "out.pdf")
	if err := os.WriteFile(in, scans(t, sheetWith(t, textsOf(t, envelope)[0]))["ICC, grey"], 0o600); err != nil {
		t.Fatal(err)
	}
	for _, option := range []string{"--object-streams=generate", "--qdf", "--stream-data=uncompress", "--linearize"} {
		t.Run("qpdf "+option, func(t *testing.T) {
			if b, err := exec.Command(qpdf, "--deterministic-id", option, in, out).CombinedOutput(); err != nil {
				t.Fatalf("qpdf: %v\n%s", err, b)
			}
			check(t, must(t)(os.ReadFile(out)))
		})
	}
	t.Run("qpdf, encrypted", func(t *testing.T) {
		if b, err := exec.Command(qpdf, "--encrypt", "", "Ellery", "256", "--", in, out).CombinedOutput(); err != nil {
			t.Fatalf("qpdf: %v\n%s", err, b)
		}
		_, err := source.Read(must(t)(os.ReadFile(out)))
		if !errors.Is(err, source.ErrNoRecord) || !strings.HasPrefix(err.Error(), "this PDF is locked (encrypted)") || source.Hint(err) == "" {
			t.Errorf("got %v", err)
		}
	})
}

// Four inks are inverted in a JPEG and by /Decode set right in a PDF: as poppler sees
// them, so do we.
func TestReadScanInFourInks(t *testing.T) {
	jpg := must(t)(os.ReadFile("testdata/scans/cmyk.jpg"))
	const side = 372
	pdf := sourcetest.Scan(nil, sourcetest.Picture{Width: side, Height: side, Content: jpg,
		Entries: "/ColorSpace /DeviceCMYK /BitsPerComponent 8 /Filter /DCTDecode /Decode [1 0 1 0 1 0 1 0]"})
	if found := mustRead(t, pdf); !found.Scan || !bytes.Equal(found.Envelope, record(t, "Gannet", 300)) {
		t.Error("another envelope")
	}
	dir := t.TempDir()
	file, shown := filepath.Join(dir, "scan.pdf"), filepath.Join(dir, "shown")
	if err := os.WriteFile(file, pdf, 0o600); err != nil {
		t.Fatal(err)
	}
	outside.Run(t, "pdftoppm", "-r", "72", "-gray", "-singlefile", file, shown)
	pgm := must(t)(os.ReadFile(shown + ".pgm"))
	if corner := pgm[len(pgm)-side*side]; corner < 200 {
		t.Errorf("poppler shows the white border as %d", corner)
	}
}

// PDFs with pictures and no record in them: what the person is told.
func TestScanWithoutRecord(t *testing.T) {
	blank := inverted(image.NewGray(image.Rect(0, 0, 100, 100)))
	grey := func(img *image.Gray) sourcetest.Picture {
		return deflatedPicture(img, "/ColorSpace /DeviceGray /BitsPerComponent 8", sourcetest.Packed(img, 8))
	}
	filtered := func(entries string) sourcetest.Picture {
		return sourcetest.Picture{Width: 100, Height: 100, Entries: entries, Content: []byte("not looked at")}
	}
	many := make([]sourcetest.Picture, 15)
	for i := range many {
		many[i] = grey(blank)
	}
	odd := deflatedPicture(blank, "/ColorSpace /DeviceGray /BitsPerComponent 8 /DecodeParms << /Predictor 15 /Colors 3 /Columns 100 >>", sourcetest.Packed(blank, 8))
	for name, test := range map[string]struct {
		pictures []sourcetest.Picture
		kind     error
		reason   string
		hint     string
	}{
		"none":              {nil, source.ErrNoRecord, "no service record was found in this PDF", "ask for the PDF"},
		"blank":             {[]sourcetest.Picture{grey(blank)}, source.ErrNoRecord, "no service record was found in this PDF, and no QR code in its pictures", "ask for the PDF of the report as the yard sent it; if this is a scan"},
		"many blank":        {many, source.ErrNoRecord, "no service record was found in this PDF, and no QR code at a quick look at its many pictures", "give the pages with the codes"},
		"too many":          {append(many, many...), source.ErrTooLarge, "this PDF holds 30 pictures, more than this program searches for a code", "give the pages with the codes"},
		"too small":         {[]sourcetest.Picture{grey(inverted(image.NewGray(image.Rect(0, 0, 20, 20))))}, source.ErrNoRecord, "no service record was found in this PDF", "ask for the PDF"},
		"another's code":    {[]sourcetest.Picture{grey(sheetWith(t, berths))}, source.ErrOtherCode, "the code in the pictures in this PDF is not one of a service record", "find the large code on the service report"},
		"JBIG2":             {[]sourcetest.Picture{filtered("/ImageMask true /Filter /JBIG2Decode"), filtered("/Filter [/JBIG2Decode]")}, source.ErrImage, "the pages of this PDF are pictures of a kind that this program does not read (JBIG2)", "scan the page again as JPEG or PNG"},
		"JPEG 2000 and LZW": {[]sourcetest.Picture{grey(blank), filtered("/Filter /JPXDecode"), filtered("/Filter /LZWDecode")}, source.ErrImage, "the pages of this PDF are pictures of a kind that this program does not read (JPEG 2000, LZW)", "scan the page again"},
		"mixed fax":         {[]sourcetest.Picture{filtered("/Filter /CCITTFaxDecode /DecodeParms << /K 4 /Columns 100 >>")}, source.ErrImage, "the pages of this PDF are pictures of a kind that this program does not read (fax of mixed dimensions)", "scan the page again"},
		"Lab colours":       {[]sourcetest.Picture{filtered("/Filter /FlateDecode /BitsPerComponent 8 /ColorSpace [/Lab << >>]")}, source.ErrImage, "the pages of this PDF are pictures of a kind that this program does not read (an unusual colour space)", "scan the page again"},
		"damaged JPEG":      {[]sourcetest.Picture{filtered("/Filter /DCTDecode")}, source.ErrUnreadable, "no service record was found in this PDF: this picture (JPEG in a PDF) cannot be opened: ", "scan the page again"},
		"damaged deflate":   {[]sourcetest.Picture{filtered("/Filter /FlateDecode /BitsPerComponent 8 /ColorSpace /DeviceGray")}, source.ErrUnreadable, "no service record was found in this PDF: this picture (scan in a PDF) cannot be opened: its pixels are damaged", "scan the page again"},
		"other rows":        {[]sourcetest.Picture{odd}, source.ErrUnreadable, "no service record was found in this PDF: this picture (scan in a PDF) cannot be opened: its pixels are written in an unusual way", "scan the page again"},
	} {
		t.Run(name, func(t *testing.T) {
			found, err := source.Read(sourcetest.Scan(nil, test.pictures...))
			if !errors.Is(err, test.kind) || !strings.HasPrefix(fmt.Sprint(err), test.reason) || !strings.HasPrefix(source.Hint(err), test.hint) {
				t.Errorf("got %v (%s), want %v: %s", err, source.Hint(err), test.kind, test.reason)
			}
			if found.Kind != source.KindPDF || found.Envelope != nil || found.Scan {
				t.Errorf("beside the error: %+v", found)
			}
		})
	}
}

// Half a scan is better than none: a picture that is cut short is read as far as it goes.
func TestReadCutScan(t *testing.T) {
	envelope := record(t, "Gannet", 300)
	sheet := sheetWith(t, textsOf(t, envelope)[0])
	tall := inverted(image.NewGray(image.Rect(0, 0, sheet.Rect.Dx(), 2*sheet.Rect.Dy())))
	draw.Draw(tall, sheet.Rect, sheet, image.Point{}, draw.Src)
	whole := sourcetest.Packed(tall, 8)
	picture := deflatedPicture(tall, "/ColorSpace /DeviceGray /BitsPerComponent 8", whole[:len(whole)*2/3])
	if found := mustRead(t, sourcetest.Scan(nil, picture)); !bytes.Equal(found.Envelope, envelope) {
		t.Error("another envelope")
	}
}

// A PDF longer than a report can be is searched for pictures and nothing else; a
// record that a PDF holds as such goes before what its pictures show.
func TestScanAndReport(t *testing.T) {
	one, two := record(t, "Gannet", 300), record(t, "Gannet, another", 300)
	sheet := sheetWith(t, textsOf(t, one)[0])
	picture := deflatedPicture(sheet, "/ColorSpace /DeviceGray /BitsPerComponent 8", sourcetest.Packed(sheet, 8))
	pdf := sourcetest.Scan(nil, picture)
	if found := mustRead(t, append(bytes.Clone(pdf), two...)); found.Scan || !bytes.Equal(found.Envelope, two) {
		t.Errorf("with a record in it: scan %t", found.Scan)
	}
	padding := make([]byte, 8<<20)
	long := append(bytes.Clone(pdf), padding...)
	if found := mustRead(t, long); !found.Scan || !bytes.Equal(found.Envelope, one) {
		t.Errorf("a long scan: scan %t", found.Scan)
	}
	if found := mustRead(t, append(long, two...)); !found.Scan || !bytes.Equal(found.Envelope, one) {
		t.Errorf("a long scan with a record in it: scan %t", found.Scan)
	}
	if _, err := source.Read(append(reportOf(t, one).bytes(t), padding...)); !errors.Is(err, source.ErrTooLarge) {
		t.Errorf("a long report: %v", err)
	}
	// Of an object that was written anew only the last counts, as to a viewer.
	other := sheetWith(t, textsOf(t, two)[0])
	updated := sourcetest.Scan(nil, deflatedPicture(other, "/ColorSpace /DeviceGray /BitsPerComponent 8", sourcetest.Packed(other, 8)))
	if found := mustRead(t, append(bytes.Clone(pdf), updated[len("%PDF-1.5\n"):]...)); !bytes.Equal(found.Envelope, two) {
		t.Error("the picture that was replaced counts")
	}
}

// A strip's own header may say another size than the PDF: what is decoded is what was
// allowed for. As the PDF says it is read.
func TestScanOfStripsOfAnotherSize(t *testing.T) {
	envelope := record(t, "Gannet", 300)
	sheet := sheetWith(t, textsOf(t, envelope)[0])
	strips := func(declared func(height int) int) []byte {
		var all []sourcetest.Picture
		const rows = 64
		for y := 0; y < sheet.Rect.Dy(); y += rows {
			strip := as(sheet.SubImage(image.Rect(0, y, sheet.Rect.Dx(), min(y+rows, sheet.Rect.Dy()))), image.NewGray(image.Rect(0, 0, sheet.Rect.Dx(), min(rows, sheet.Rect.Dy()-y))))
			all = append(all, sourcetest.Picture{Width: sheet.Rect.Dx(), Height: declared(strip.Rect.Dy()), Content: jpegOf(t, strip, 80),
				Entries: "/ColorSpace /DeviceGray /BitsPerComponent 8 /Filter /DCTDecode"})
		}
		return sourcetest.Scan(nil, all...)
	}
	if found := mustRead(t, strips(func(height int) int { return height })); !bytes.Equal(found.Envelope, envelope) {
		t.Error("another envelope")
	}
	_, err := source.Read(strips(func(height int) int { return height - 1 }))
	if !errors.Is(err, source.ErrUnreadable) || !strings.HasSuffix(err.Error(), "a strip of it is of another size than the PDF says") {
		t.Errorf("got %v", err)
	}
}

// A palette's stream is found by its length, or without one near its start.
func TestScanWithPaletteInStream(t *testing.T) {
	envelope := record(t, "Gannet", 300)
	sheet := sheetWith(t, textsOf(t, envelope)[0])
	bits := sourcetest.Packed(sheet, 1)
	picture := deflatedPicture(sheet, "/ColorSpace [/Indexed /DeviceGray 1 5000 0 R] /BitsPerComponent 1", bits)
	for name, palette := range map[string]string{
		"with a length":    "<< /Length 2 >>\nstream\n\x00\xff\nendstream",
		"without a length": "<< >>\nstream\n\x00\xff\nendstream",
		"a wrong length":   "<< /Length 900 >>\nstream\n\x00\xff\nendstream",
		"deflated":         "<< /Filter /FlateDecode >>\nstream\n" + string(sourcetest.Deflate([]byte("\x00\xff"))) + "\nendstream",
	} {
		t.Run(name, func(t *testing.T) {
			if found := mustRead(t, sourcetest.Scan(map[int]string{5000: palette}, picture)); !bytes.Equal(found.Envelope, envelope) {
				t.Error("another envelope")
			}
		})
	}
}

// Of a scan that was not received whole that is what the person is told.
func TestScanCutShort(t *testing.T) {
	blank := inverted(image.NewGray(image.Rect(0, 0, 100, 100)))
	picture := deflatedPicture(blank, "/ColorSpace /DeviceGray /BitsPerComponent 8", sourcetest.Packed(blank, 8))
	pdf := sourcetest.Scan(nil, picture, picture)
	_, err := source.Read(pdf[:bytes.LastIndex(pdf, []byte("endstream"))])
	if !errors.Is(err, source.ErrNoRecord) || err.Error() != "no service record was found in this PDF, which is cut short" || !strings.HasPrefix(source.Hint(err), "ask for the file again") {
		t.Errorf("got %v (%s)", err, source.Hint(err))
	}
}

// Where there are more objects than are looked through, that is said.
func TestScanOverlooked(t *testing.T) {
	blank := inverted(image.NewGray(image.Rect(0, 0, 100, 100)))
	picture := deflatedPicture(blank, "/ColorSpace /DeviceGray /BitsPerComponent 8", sourcetest.Packed(blank, 8))
	pdf := append(sourcetest.Scan(nil, picture), strings.Repeat("9 0 obj\n", 200_000)...)
	_, err := source.Read(append(pdf, "%%EOF"...))
	if !errors.Is(err, source.ErrTooLarge) || !strings.HasSuffix(err.Error(), "which has more in it than this program looks through") {
		t.Errorf("got %v", err)
	}
}
