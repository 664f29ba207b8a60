package phototest_test

import (
	"bytes"
	"fmt"
	"image"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/recordtest"
	"hourseal/record/recordtest/outside"
	"hourseal/render"
	"hourseal/sign"
	"hourseal/sign/qrtext"
	"hourseal/verify/source/picture/phototest"
)

// codeMM is how wide a code is on a report, and framedMM the white and text that
// a person has around it in the picture who goes near.
const codeMM, framedMM = 80.0, 10.0

const mmPerInch = 25.4

// printed is the page of a report that has its code, or the first of its codes.
type printed struct {
	pdf       string
	page      int
	left, top float64 // of the code, in mm
	text      string
}

// typicalPage prints the typical record, sealed by a key that everybody knows.
func typicalPage(t testing.TB) printed {
	t.Helper()
	r := recordtest.Typical()
	payload := must[[]byte](t)(record.Encode(r))
	key := must[*sign.PrivateKey](t)(sign.NewKey(bytes.NewReader(bytes.Repeat([]byte{7}, 32))))
	envelope := must[[]byte](t)(sign.Seal(sign.RecordV1, payload, key))
	texts := must[[]string](t)(qrtext.Encode(envelope, r.PageHost))
	p := printed{pdf: filepath.Join(t.TempDir(), "report.pdf")}
	if err := os.WriteFile(p.pdf, must[[]byte](t)(render.Report(r, envelope, texts, nil)), 0o600); err != nil {
		t.Fatal(err)
	}
	p.find(t, texts)
	return p
}

// find looks for the code: no square of its size on the report is darker. Which
// of the texts it has, zbar says, at 300 dpi.
func (p *printed) find(t testing.TB, texts []string) {
	t.Helper()
	const dpi, dotsPerMM, side = 127, 5, int(codeMM * 5)
	most := 0
	for page := range pagesOf(t, p.pdf) {
		at, dark := darkest(rasterised(t, p.pdf, page+1, dpi), side)
		if dark > most {
			most, p.page, p.left, p.top = dark, page+1, float64(at.X)/dotsPerMM, float64(at.Y)/dotsPerMM
		}
	}
	clean := p.near(t, 300)
	i := slices.IndexFunc(texts, func(text string) bool { return zbarReads(t, clean, text) })
	if i < 0 {
		t.Fatalf("zbar reads no code %v mm from the left and %v from the top of page %d", p.left, p.top, p.page)
	}
	p.text = texts[i]
}

func pagesOf(t testing.TB, pdf string) int {
	t.Helper()
	for line := range strings.Lines(outside.Run(t, "pdfinfo", pdf)) {
		var pages int
		if _, err := fmt.Sscanf(line, "Pages: %d", &pages); err == nil {
			return pages
		}
	}
	t.Fatal("pdfinfo names no number of pages")
	return 0
}

// darkest is the upper left of the darkest square on a page, and how dark it is.
func darkest(page *image.Gray, side int) (at image.Point, dark int) {
	w, h := page.Rect.Dx(), page.Rect.Dy()
	before := make([]int, (w+1)*(h+1)) // the darkness of all that is above and left
	for y := range h {
		for x := range w {
			i := (y+1)*(w+1) + x + 1
			before[i] = before[i-1] + before[i-w-1] - before[i-w-2] + 255 - int(page.Pix[y*page.Stride+x])
		}
	}
	for y := range h - side {
		for x := range w - side {
			upper, lower := y*(w+1)+x, (y+side)*(w+1)+x
			if d := before[lower+side] - before[lower] - before[upper+side] + before[upper]; d > dark {
				at, dark = image.Pt(x, y), d
			}
		}
	}
	return at, dark
}

// whole is the page as a raster.
func (p *printed) whole(t testing.TB, dpi int) *image.Gray {
	t.Helper()
	return rasterised(t, p.pdf, p.page, dpi)
}

// near is the part of the page that a person frames who goes near, as a raster.
func (p *printed) near(t testing.TB, dpi int) *image.Gray {
	t.Helper()
	pixel := func(mm float64) int { return int(mm / mmPerInch * float64(dpi)) }
	return phototest.Frame(p.whole(t, dpi), image.Rect(pixel(p.left-framedMM), pixel(p.top-framedMM),
		pixel(p.left+codeMM+framedMM), pixel(p.top+codeMM+framedMM)))
}

// rasterised is a page of a PDF rendered by pdftoppm (poppler).
func rasterised(t testing.TB, pdf string, page, dpi int) *image.Gray {
	t.Helper()
	number := fmt.Sprint(page)
	file := []byte(outside.Run(t, "pdftoppm", "-r", fmt.Sprint(dpi), "-gray", "-singlefile", "-f", number, "-l", number, pdf))
	return must[*image.Gray](t)(readPGM(file))
}

func must[T any](t testing.TB) func(T, error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}
