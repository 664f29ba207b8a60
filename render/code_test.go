package render

import (
	"fmt"
	"image"
	"image/draw"
	"image/png"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/qrcode"
	xdraw "golang.org/x/image/draw"

	"hourseal/record/recordtest/outside"
	"hourseal/render/sheet"
	"hourseal/render/words"
	"hourseal/sign"
)

func textsForTest() words.Texts { return words.Report() }

// laidOut is a report before it is written.
func laidOut(t testing.TB, x sealed) *report {
	t.Helper()
	symbols, err := symbolsOf(x.texts)
	if err != nil {
		t.Fatal(err)
	}
	p := &report{r: x.record, id: sign.IDOf(x.envelope), key: testKey().Public(), texts: words.Report()}
	if err := p.set(func() ([]symbol, error) { return symbols, nil }); err != nil {
		t.Fatal(err)
	}
	if err := p.doc.Err(); err != nil {
		t.Fatal(err)
	}
	return p
}

// codesOf lists where the codes stand: a code is the only shape of many boxes.
func codesOf(p *report) []sheet.Placed {
	var codes []sheet.Placed
	for _, m := range p.doc.Placed() {
		if m.Runs > 50 {
			codes = append(codes, m)
		}
	}
	return codes
}

// ISO/IEC 18004: four modules of white on each side; and the width that the
// format asks for, at most a module's rounding less.
func TestCodesAreLargeAndHaveRoom(t *testing.T) {
	for _, s := range scenarios {
		x := seal(t, s.make())
		p := laidOut(t, x)
		codes := codesOf(p)
		if len(codes) != len(x.texts) {
			t.Fatalf("%s: %d codes for %d texts", s.name, len(codes), len(x.texts))
		}
		symbols, err := symbolsOf(x.texts)
		if err != nil {
			t.Fatal(err)
		}
		for i, code := range codes {
			modules := len(symbols[i].dark)
			if modules > 17+4*25 {
				t.Errorf("%s: version %d", s.name, (modules-17)/4)
			}
			if w := code.Box.W; w > sheet.MM(80) || w < sheet.MM(80)-sheet.Len(modules) || w != code.Box.H {
				t.Errorf("%s: %d by %d", s.name, w, code.Box.H)
			}
			quiet := code.Box.Inset(-code.Box.W / sheet.Len(modules) * quietModules)
			for _, m := range p.doc.Placed() {
				if m != code && m.Page == code.Page && m.Box.Overlaps(quiet) {
					t.Errorf("%s: %q at %v stands in the white around the code at %v", s.name, m.Text, m.Box, code.Box)
				}
			}
		}
	}
}

// Two independent decoders read every code off a raster of the page, to exactly
// the text: zbar (C) and gozxing (a port of ZXing).
func TestCodesReadOffTheRaster(t *testing.T) {
	for _, s := range scenarios {
		x := seal(t, s.make())
		p := laidOut(t, x)
		path := onDisk(t, "report.pdf", x.report(t))
		resolutions := []int{200}
		if os.Getenv("HOURSEAL_LONG") == "1" {
			resolutions = append(resolutions, 300)
		}
		for _, dpi := range resolutions {
			t.Run(fmt.Sprintf("%s at %d dpi", s.name, dpi), func(t *testing.T) {
				var byZbar []string
				pages := map[int]image.Image{}
				for i, code := range codesOf(p) {
					if pages[code.Page] == nil {
						file, img := raster(t, path, code.Page, dpi)
						pages[code.Page] = img
						read := outside.Run(t, "zbarimg", "--quiet", "--raw", "-Sdisable", "-Sqrcode.enable", file)
						byZbar = append(byZbar, strings.Fields(read)...)
					}
					if got := decode(t, cut(pages[code.Page], code.Box, dpi)); got != x.texts[i] {
						t.Errorf("code %d: gozxing read %.40q", i+1, got)
					}
				}
				want := slices.Sorted(slices.Values(x.texts))
				slices.Sort(byZbar)
				if !slices.Equal(byZbar, want) {
					t.Errorf("zbar read %d texts, want %d, or others", len(byZbar), len(want))
				}
			})
		}
	}
}

// raster renders one page with pdftoppm (poppler).
func raster(t *testing.T, pdf string, page, dpi int) (string, image.Image) {
	t.Helper()
	base := filepath.Join(t.TempDir(), "page")
	number := fmt.Sprint(page)
	outside.Run(t, "pdftoppm", "-r", fmt.Sprint(dpi), "-gray", "-png", "-singlefile", "-f", number, "-l", number, pdf, base)
	file, err := os.Open(base + ".png")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	img, err := png.Decode(file)
	if err != nil {
		t.Fatal(err)
	}
	return base + ".png", img
}

// cut takes a code with a little white out of a page, as a person would frame it.
func cut(page image.Image, b sheet.Box, dpi int) image.Image {
	pixel := func(n sheet.Len) int { return int(n) * dpi / 7200 }
	b = b.Inset(-8 * sheet.Pt)
	from := image.Rect(pixel(b.X), pixel(b.Y), pixel(b.Right()), pixel(b.Bottom()))
	out := image.NewGray(image.Rect(0, 0, from.Dx(), from.Dy()))
	draw.Draw(out, out.Bounds(), page, from.Min, draw.Src)
	return out
}

// decode tries the binarisers, the scales and both ways of finding the symbol in
// turn: no single setting of that decoder reads every clean symbol. (Part 2 of
// the longest record, at 200 dpi, it finds only as a symbol without a picture
// around it.)
func decode(t *testing.T, img image.Image) string {
	t.Helper()
	var last error
	for _, scale := range []int{100, 150, 67} {
		b := img.Bounds()
		scaled := image.NewGray(image.Rect(0, 0, b.Dx()*scale/100, b.Dy()*scale/100))
		xdraw.BiLinear.Scale(scaled, scaled.Bounds(), img, b, xdraw.Src, nil)
		source := gozxing.NewLuminanceSourceFromImage(scaled)
		for _, binarizer := range []gozxing.Binarizer{gozxing.NewHybridBinarizer(source), gozxing.NewGlobalHistgramBinarizer(source)} {
			bitmap, err := gozxing.NewBinaryBitmap(binarizer)
			if err != nil {
				t.Fatal(err)
			}
			for _, hints := range []map[gozxing.DecodeHintType]any{nil, {gozxing.DecodeHintType_PURE_BARCODE: true}} {
				result, err := qrcode.NewQRCodeReader().Decode(bitmap, hints)
				if err == nil {
					return result.GetText()
				}
				last = err
			}
		}
	}
	t.Errorf("gozxing: %v", last)
	return ""
}

func TestSymbolFaultsAreErrors(t *testing.T) {
	for _, texts := range [][]string{nil, {""}, {strings.Repeat("1", 7090)}, make([]string, maxSymbols+1)} {
		if _, err := symbolsOf(texts); err == nil {
			t.Errorf("%d texts passed", len(texts))
		}
	}
}
