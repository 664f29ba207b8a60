package main

import (
	"image"
	"image/draw"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"hourseal/record/recordtest/outside"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/qrcode"
	xdraw "golang.org/x/image/draw"
)

// The report as the program prints it, by the eyes of others: qpdf finds nothing
// to say, pdftotext (poppler) finds the figures, and off a picture of it zbar (C)
// and gozxing (a port of ZXing) read the very texts that "issue --json" gave,
// which verify takes.
func TestPrintedReportBySecondOpinions(t *testing.T) {
	f := newYard(t)
	f.fixKey(t, 1)
	var issued issuedAnswer
	mustDecode(t, f.must(t, 0, "issue", portJob, "--json").stdout, &issued)
	pdf := f.path(issued.Report)

	t.Run("qpdf", func(t *testing.T) {
		said := outside.Run(t, "qpdf", "--check", pdf)
		if !strings.Contains(said, "No syntax or stream encoding errors found") || strings.Contains(said, "WARNING") {
			t.Error(said)
		}
	})
	t.Run("pdftotext", func(t *testing.T) {
		text := oneLine(outside.Run(t, "pdftotext", "-layout", pdf, "-"))
		for _, want := range []string{
			"812.6", "0045120", "GB-ELS00042A323", "2026-05-04", "J-2217", // hours, serial, hull, date, number
			"2.4 US gal", "9.085 L", "5 L", "4.3 L", "9.3", "0.85", // quantities as written and in litres
			"1012.6", "2027-05-04", "part on order", "Ellery Slip Boatyard", "SHA256:",
			"Do not trust a page that this code opens",
		} {
			if !strings.Contains(text, want) {
				t.Errorf("the report's text has no %q", want)
			}
		}
	})
	resolutions := []string{"200"}
	if longRun() {
		resolutions = append(resolutions, "300")
	}
	for _, dpi := range resolutions {
		t.Run(dpi+" dpi", func(t *testing.T) {
			base := filepath.Join(t.TempDir(), "page")
			outside.Run(t, "pdftoppm", "-r", dpi, "-gray", "-png", pdf, base)
			pages, err := filepath.Glob(base + "*.png")
			if err != nil || len(pages) == 0 {
				t.Fatalf("no pages, %v", err)
			}
			want := slices.Sorted(slices.Values(issued.QR))
			t.Run("zbarimg", func(t *testing.T) {
				var read []string
				for _, page := range pages {
					// It ends with 4 for a page without a code.
					r := ended(t, exec.Command(outside.Program(t, "zbarimg"), "--quiet", "--raw", "-Sdisable", "-Sqrcode.enable", page))
					read = append(read, strings.Fields(r.stdout)...)
				}
				wantTexts(t, f, read, want)
			})
			t.Run("gozxing", func(t *testing.T) {
				var read []string
				for _, page := range pages {
					read = append(read, scan(t, page)...)
				}
				wantTexts(t, f, read, want)
			})
		})
	}
}

// fixKey gives the yard a key that is the same in every run, and with it the codes:
// now and then this file's own way of finding a code on a page misses one, which is no
// fault of the report.
func (f folder) fixKey(t *testing.T, seed byte) {
	t.Helper()
	key := pageKey(t, seed)
	private, err := key.MarshalOpenSSH("yard", nil)
	if err != nil {
		t.Fatal(err)
	}
	f.write(t, "keys/yard", private)
	f.write(t, "keys/yard.pub", []byte(key.Public().OpenSSHLine("yard")+"\n"))
	if err := os.Remove(f.path("trust.yaml")); err != nil {
		t.Fatal(err)
	}
	f.must(t, 0, "trust", "add", "keys/yard.pub", "--name", "Ellery Slip Boatyard", "--trust", "trust.yaml")
}

// wantTexts holds what a scanner read to the texts that were printed, and gives
// them to verify.
func wantTexts(t *testing.T, f folder, read, want []string) {
	t.Helper()
	slices.Sort(read)
	if read = slices.Compact(read); !slices.Equal(read, want) {
		t.Fatalf("read %d texts, want %d, or others", len(read), len(want))
	}
	f.must(t, 0, append([]string{"verify", "--trust", "trust.yaml"}, read...)...)
}

// scan reads the codes off a page. No single setting of this decoder reads every
// clean code, so it tries several.
func scan(t *testing.T, file string) []string {
	t.Helper()
	var texts []string
	for _, part := range codesOn(grayPage(t, file)) {
		if text := scanOne(t, part); text != "" {
			texts = append(texts, text)
		}
	}
	return texts
}

func grayPage(t *testing.T, file string) *image.Gray {
	t.Helper()
	opened, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer opened.Close()
	decoded, err := png.Decode(opened)
	if err != nil {
		t.Fatal(err)
	}
	page := image.NewGray(decoded.Bounds())
	draw.Draw(page, page.Bounds(), decoded, decoded.Bounds().Min, draw.Src)
	return page
}

func scanOne(t *testing.T, part *image.Gray) string {
	t.Helper()
	for _, percent := range []int{100, 150, 67, 93, 107, 80, 125, 50} {
		b := part.Bounds()
		scaled := image.NewGray(image.Rect(0, 0, b.Dx()*percent/100, b.Dy()*percent/100))
		xdraw.BiLinear.Scale(scaled, scaled.Bounds(), part, b, xdraw.Src, nil)
		source := gozxing.NewLuminanceSourceFromImage(scaled)
		for _, binarizer := range []gozxing.Binarizer{gozxing.NewHybridBinarizer(source), gozxing.NewGlobalHistgramBinarizer(source)} {
			bitmap, err := gozxing.NewBinaryBitmap(binarizer)
			if err != nil {
				t.Fatal(err)
			}
			for _, hints := range []map[gozxing.DecodeHintType]any{nil, {gozxing.DecodeHintType_PURE_BARCODE: true}} {
				if result, err := qrcode.NewQRCodeReader().Decode(bitmap, hints); err == nil {
					return result.GetText()
				}
			}
		}
	}
	return ""
}

// codesOn finds the codes on a page as the eye does, large squares of half dark
// cells, and frames each with a little white.
func codesOn(page *image.Gray) []*image.Gray {
	const across = 70 // cells, 3 mm each on A4
	cell := page.Bounds().Dx() / across
	var parts []*image.Gray
	seen := map[image.Point]bool{}
	for y := range page.Bounds().Dy() / cell {
		for x := range across {
			box, cells := halfDark(page, cell, image.Pt(x, y), seen)
			if side := box.Dx(); min(side, box.Dy()) >= across/4 && cells*10 >= side*box.Dy()*7 {
				frame := image.Rectangle{box.Min.Mul(cell), box.Max.Mul(cell)}.Inset(-2 * cell)
				parts = append(parts, page.SubImage(frame).(*image.Gray))
			}
		}
	}
	return parts
}

// halfDark is the extent of the half dark cells that hang together with one, in
// cells, and their number.
func halfDark(page *image.Gray, cell int, from image.Point, seen map[image.Point]bool) (box image.Rectangle, cells int) {
	todo := []image.Point{from}
	for len(todo) > 0 {
		at := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		if seen[at] || !isHalfDark(page, cell, at) {
			continue
		}
		seen[at] = true
		cells++
		box = box.Union(image.Rectangle{at, at.Add(image.Pt(1, 1))})
		todo = append(todo, at.Add(image.Pt(1, 0)), at.Add(image.Pt(-1, 0)), at.Add(image.Pt(0, 1)), at.Add(image.Pt(0, -1)))
	}
	return box, cells
}

func isHalfDark(page *image.Gray, cell int, at image.Point) bool {
	area := image.Rectangle{at.Mul(cell), at.Add(image.Pt(1, 1)).Mul(cell)}.Intersect(page.Bounds())
	dark := 0
	for y := area.Min.Y; y < area.Max.Y; y++ {
		for x := area.Min.X; x < area.Max.X; x++ {
			if page.GrayAt(x, y).Y < 128 {
				dark++
			}
		}
	}
	return dark*4 > cell*cell
}
