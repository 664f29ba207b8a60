package picture_test

import (
	"fmt"
	"image"
	"image/draw"
	"os"
	"slices"
	"strings"
	"testing"

	"hourseal/verify/source/picture"
	"hourseal/verify/source/picture/phototest"
)

// address is a text as on a report; of so many digits, which make the version.
func address(digits int) string {
	return "https://verify.ellery-slip.example/#" + strings.Repeat("4187626028", digits/10+1)[:digits]
}

const typicalDigits = 1700

func sheetOf(t testing.TB, text string, module float64) (*image.Gray, image.Rectangle) {
	t.Helper()
	sheet, code, err := phototest.Sheet(text, module)
	if err != nil {
		t.Fatal(err)
	}
	return sheet, code
}

func textsOf(symbols []picture.Symbol) (texts []string) {
	for _, s := range symbols {
		texts = append(texts, s.Text)
	}
	slices.Sort(texts)
	return texts
}

// wantOne holds the symbols of a picture to one with that text.
func wantOne(t *testing.T, what string, got []picture.Symbol, text string) {
	t.Helper()
	if len(got) != 1 || got[0].Text != text {
		t.Errorf("%s: %d symbols, texts %.60q", what, len(got), textsOf(got))
	}
}

// TestTurned reads a sheet turned all the way round, large code and small.
func TestTurned(t *testing.T) {
	step := 38.0
	if os.Getenv("HOURSEAL_LONG") == "1" {
		step = 19
	}
	for _, digits := range []int{10, 300, typicalDigits} {
		text := address(digits)
		sheet, _ := sheetOf(t, text, 5)
		for degrees := 0.0; degrees < 360; degrees += step {
			shot := phototest.Mild.Shot
			shot.Degrees = degrees
			got := picture.Read(phototest.Take(sheet, shot, uint64(degrees)), picture.Thorough)
			wantOne(t, fmt.Sprintf("%d digits at %v degrees", digits, degrees), got, text)
		}
	}
}

// TestModuleSizes reads clean sheets from 2 pixels a module to 40, most of them
// off the pixels' grid.
func TestModuleSizes(t *testing.T) {
	for _, c := range []struct {
		digits  int
		modules []float64
	}{
		{10, []float64{2, 2.5, 3.3, 7, 16.4, 40}},
		{typicalDigits, []float64{2, 2.37, 3.1, 4, 5.5, 11.1, 19}},
		{4500, []float64{2.2, 3, 4.4, 9}},
	} {
		text := address(c.digits)
		for _, module := range c.modules {
			sheet, code := sheetOf(t, text, module)
			got := picture.Read(sheet, picture.Thorough)
			what := fmt.Sprintf("%d digits, %v pixels a module", c.digits, module)
			wantOne(t, what, got, text)
			if len(got) != 1 {
				continue
			}
			if m := got[0].Module; m < 0.93*module || m > 1.07*module {
				t.Errorf("%s: said to be %.2f", what, m)
			}
			want := [4]image.Point{code.Min, {X: code.Max.X, Y: code.Min.Y}, code.Max, {X: code.Min.X, Y: code.Max.Y}}
			for i, corner := range got[0].Corners {
				if d := corner.Sub(want[i]); max(d.X, -d.X, d.Y, -d.Y) > int(module)+1 {
					t.Errorf("%s: corner %d at %v, want %v", what, i, corner, want[i])
				}
			}
		}
	}
}

// TestMirrored reads a sheet seen in a mirror, and says where its corners are.
func TestMirrored(t *testing.T) {
	text := address(typicalDigits)
	sheet, code := sheetOf(t, text, 5)
	w := sheet.Rect.Dx()
	mirrored := image.NewGray(sheet.Rect)
	for y := range sheet.Rect.Dy() {
		for x := range w {
			mirrored.Pix[y*mirrored.Stride+w-1-x] = sheet.Pix[y*sheet.Stride+x]
		}
	}
	got := picture.Read(mirrored, picture.Thorough)
	wantOne(t, "mirrored", got, text)
	if len(got) == 1 {
		want := image.Pt(w-code.Min.X, code.Min.Y)
		if d := got[0].Corners[0].Sub(want); max(d.X, -d.X, d.Y, -d.Y) > 6 {
			t.Errorf("top left at %v, want %v", got[0].Corners[0], want)
		}
	}
}

// several puts codes of several sizes on one picture.
func several(t testing.TB) (img *image.Gray, texts []string) {
	img = image.NewGray(image.Rect(0, 0, 1900, 1500))
	draw.Draw(img, img.Rect, image.White, image.Point{}, draw.Src)
	for i, c := range []struct {
		digits, x, y int
		module       float64
	}{{1000, 40, 40, 5}, {1001, 640, 40, 5}, {1002, 1240, 40, 5}, {20, 60, 800, 12}, {21, 800, 800, 3}, {600, 1100, 800, 8}} {
		text := address(c.digits) + fmt.Sprint(i)
		texts = append(texts, text)
		sheet, code := sheetOf(t, text, c.module)
		draw.Draw(img, image.Rectangle{Max: code.Size()}.Add(image.Pt(c.x, c.y)), sheet, code.Min, draw.Src)
	}
	slices.Sort(texts)
	return img, texts
}

// TestSeveral reads all codes of a picture, each once.
func TestSeveral(t *testing.T) {
	img, want := several(t)
	if got := textsOf(picture.Read(img, picture.Thorough)); !slices.Equal(got, want) {
		t.Errorf("%d texts, want %d", len(got), len(want))
	}
	taken := phototest.Take(img, phototest.Medium.At(200, 3), 3)
	if got := textsOf(picture.Read(taken, picture.Thorough)); !slices.Equal(got, want) {
		t.Errorf("photographed: %d texts, want %d", len(got), len(want))
	}
}

// TestPartOfAnImage reads a part of a larger picture: its places count from the
// part's corner in the larger one.
func TestPartOfAnImage(t *testing.T) {
	text := address(300)
	sheet, code := sheetOf(t, text, 5)
	large := image.NewGray(image.Rect(-100, -50, sheet.Rect.Dx()+100, sheet.Rect.Dy()+50))
	draw.Draw(large, sheet.Rect, sheet, image.Point{}, draw.Src)
	part, ok := large.SubImage(sheet.Rect).(*image.Gray)
	if !ok {
		t.Fatal("no grey picture")
	}
	got := picture.Read(part, picture.Thorough)
	wantOne(t, "part", got, text)
	if len(got) == 1 {
		if d := got[0].Corners[0].Sub(code.Min); max(d.X, -d.X, d.Y, -d.Y) > 5 {
			t.Errorf("top left at %v, want %v", got[0].Corners[0], code.Min)
		}
	}
}

// TestSeenButNotRead: of a code that a reflection hides a quarter of, one symbol
// is reported, without text; of a sheet with marks but no code, of a code cut off
// or too far away, no more than one.
func TestSeenButNotRead(t *testing.T) {
	text := address(typicalDigits)
	for _, c := range []struct {
		spoilt      phototest.Spoilt
		least, most int
	}{{phototest.Glossy, 1, 1}, {phototest.Cornerless, 0, 0}, {phototest.TooFar, 0, 1}} {
		for seed := range uint64(3) {
			taken, err := c.spoilt.Photograph(text, seed)
			if err != nil {
				t.Fatal(err)
			}
			got := picture.Read(taken, picture.Thorough)
			if len(got) < c.least || len(got) > c.most {
				t.Errorf("%v, seed %d: %d symbols", c.spoilt, seed, len(got))
			}
			for _, s := range got {
				if s.Text != "" {
					t.Errorf("%v, seed %d: read", c.spoilt, seed)
				}
				if c.spoilt == phototest.Glossy && (s.Version == 0 || s.Module < 5 || s.Module > 7) {
					t.Errorf("%v, seed %d: version %d, %.1f pixels a module, want 6", c.spoilt, seed, s.Version, s.Module)
				}
			}
		}
	}
}

// TestNoCode: the marks and the table around a sheet make no symbol.
func TestNoCode(t *testing.T) {
	sheet, code := sheetOf(t, address(typicalDigits), 5)
	draw.Draw(sheet, code, image.White, image.Point{}, draw.Src)
	for seed := range uint64(4) {
		for _, row := range []phototest.Row{phototest.Mild, phototest.Medium, phototest.Harsh} {
			if got := picture.Read(phototest.Take(sheet, row.At(200, seed), seed), picture.Thorough); len(got) > 0 {
				t.Errorf("%s, seed %d: %d symbols", row.Name(), seed, len(got))
			}
		}
	}
}

func TestNothingToRead(t *testing.T) {
	for _, img := range []*image.Gray{nil, {}, image.NewGray(image.Rect(0, 0, 1, 1)), image.NewGray(image.Rect(0, 0, 5000, 1)), image.NewGray(image.Rect(5, 5, 80, 90))} {
		for _, effort := range []picture.Effort{picture.Quick, picture.Thorough, -1, 7} {
			if got := picture.Read(img, effort); len(got) > 0 {
				t.Errorf("%d symbols", len(got))
			}
		}
	}
}

// TestSameEveryTime: the same picture gives the same symbols in the same order.
func TestSameEveryTime(t *testing.T) {
	img, _ := several(t)
	want := fmt.Sprint(picture.Read(img, picture.Thorough))
	for range 3 {
		if fmt.Sprint(picture.Read(img, picture.Thorough)) != want {
			t.Fatal("other symbols the second time")
		}
	}
}
