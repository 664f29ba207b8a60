package picture_test

import (
	"image"
	"math/rand/v2"
	"os"
	"runtime"
	"testing"
	"time"

	"hourseal/verify/source/picture"
	"hourseal/verify/source/picture/phototest"
)

// hostile are pictures that make work for a reader of finder patterns: each says
// what the grey at a place is.
var hostile = []struct {
	name string
	grey func(x, y int, draws *rand.Rand) uint8
}{
	{"white", func(int, int, *rand.Rand) uint8 { return 255 }},
	{"noise", func(_, _ int, draws *rand.Rand) uint8 { return uint8(draws.Uint32()) }},
	{"noise of two greys", func(_, _ int, draws *rand.Rand) uint8 { return uint8(draws.IntN(2) * 255) }},
	{"checkerboard of 1", func(x, y int, _ *rand.Rand) uint8 { return uint8((x + y) % 2 * 255) }},
	{"checkerboard of 3", func(x, y int, _ *rand.Rand) uint8 { return uint8((x/3 + y/3) % 2 * 255) }},
	{"upright stripes 1:1:3:1:1", func(x, _ int, _ *rand.Rand) uint8 { return stripes[x/2%8] }},
	{"level stripes 1:1:3:1:1", func(_, y int, _ *rand.Rand) uint8 { return stripes[y/2%8] }},
	{"stripes both ways", func(x, y int, _ *rand.Rand) uint8 { return max(stripes[x/2%8], stripes[y/2%8]) }},
	{"finder patterns of 1", func(x, y int, _ *rand.Rand) uint8 { return finderGrey(x%8, y%8) }},
	{"finder patterns of 2", func(x, y int, _ *rand.Rand) uint8 { return finderGrey(x/2%8, y/2%8) }},
	{"finder patterns in a checkerboard", func(x, y int, _ *rand.Rand) uint8 {
		if (x/24+y/24)%3 == 0 {
			return finderGrey(x/3%8, y/3%8)
		}
		return uint8((x/3 + y/3) % 2 * 255)
	}},
	{"finder patterns far apart", func(x, y int, _ *rand.Rand) uint8 {
		if x/3%48 < 8 && y/3%48 < 8 {
			return finderGrey(x/3%48, y/3%48)
		}
		return uint8((x/3 + y/3) % 2 * 255)
	}},
}

var stripes = [8]uint8{0, 255, 0, 0, 0, 255, 0, 255}

// finderGrey is a finder pattern with a light edge to the right and below.
func finderGrey(x, y int) uint8 {
	if x == 7 || y == 7 || max(x-3, 3-x, y-3, 3-y) == 2 {
		return 255
	}
	return 0
}

// TestHostilePictures bounds time: of 12 megapixels a picture took 0.2 to 1.3 s of
// one core, of 50 megapixels 4 s at most. The limits here are for a machine that is
// slow or busy with other things. HOURSEAL_LONG=1 takes the larger ones too.
func TestHostilePictures(t *testing.T) {
	sizes := []image.Point{{1280, 720}, {4000, 3000}}
	if os.Getenv("HOURSEAL_LONG") != "1" {
		sizes = sizes[:1]
	}
	for _, size := range sizes {
		img := image.NewGray(image.Rectangle{Max: size})
		for _, h := range hostile {
			draws := rand.New(rand.NewPCG(1, 2))
			for y := range size.Y {
				for x := range size.X {
					img.Pix[y*img.Stride+x] = h.grey(x, y, draws)
				}
			}
			for effort, limit := range map[picture.Effort]time.Duration{picture.Quick: 3 * time.Second, picture.Thorough: 30 * time.Second} {
				start := time.Now()
				picture.Read(img, effort)
				if took := time.Since(start); took > limit {
					t.Errorf("%v, %s, effort %d: %v", size, h.name, effort, took)
				}
			}
		}
	}
}

// TestMemory: a picture of 50 megapixels takes less than a byte for each pixel
// besides itself.
func TestMemory(t *testing.T) {
	img := image.NewGray(image.Rect(0, 0, 8192, 6103))
	draws := rand.New(rand.NewPCG(1, 2))
	for i := range img.Pix {
		img.Pix[i] = uint8(draws.Uint32())
	}
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	picture.Read(img, picture.Thorough)
	runtime.ReadMemStats(&after)
	// All that was ever allocated, so no more can have been there at once.
	if took := after.TotalAlloc - before.TotalAlloc; took >= uint64(len(img.Pix)) {
		t.Errorf("%d bytes allocated for %d pixels", took, len(img.Pix))
	}
}

// FuzzRead reads small pictures of any pixels, of a width from 1 to 256.
func FuzzRead(f *testing.F) {
	for _, digits := range []int{0, 10, 80} {
		sheet, code := sheetOf(f, address(digits), 2)
		part := phototest.Frame(sheet, code.Inset(-8))
		f.Add(uint8(part.Rect.Dx()-1), part.Pix)
		// The same, with modules turned over.
		spoilt := phototest.Frame(sheet, code.Inset(-8))
		for i := 0; i < len(spoilt.Pix); i += 37 {
			spoilt.Pix[i] ^= 255
		}
		f.Add(uint8(spoilt.Rect.Dx()-1), spoilt.Pix)
	}
	for _, h := range hostile {
		img := image.NewGray(image.Rect(0, 0, 64, 64))
		draws := rand.New(rand.NewPCG(1, 2))
		for i := range img.Pix {
			img.Pix[i] = h.grey(i%64, i/64, draws)
		}
		f.Add(uint8(63), img.Pix)
	}
	f.Fuzz(func(t *testing.T, width uint8, pix []uint8) {
		w := int(width) + 1
		h := len(pix) / w
		if len(pix) > 150*150 {
			return
		}
		img := &image.Gray{Pix: pix, Stride: w, Rect: image.Rect(0, 0, w, h)}
		found := picture.Read(img, picture.Quick)
		found = append(found, picture.Read(img, picture.Thorough)...)
		for _, s := range found {
			if s.Version < 1 || s.Version > 40 || !(s.Module > 0) {
				t.Errorf("version %d, %v pixels a module", s.Version, s.Module)
			}
		}
	})
}

func benchmark(b *testing.B, effort picture.Effort, img *image.Gray) {
	b.Helper()
	b.ReportAllocs()
	for b.Loop() {
		picture.Read(img, effort)
	}
}

// BenchmarkFrame is a camera's frame of 1280 by 720 with a typical code.
func BenchmarkFrame(b *testing.B) {
	benchmark(b, picture.Quick, frameWith(b, typicalDigits))
}

// BenchmarkFrameWithout is the same without a code.
func BenchmarkFrameWithout(b *testing.B) { benchmark(b, picture.Quick, frameWith(b, 0)) }

func frameWith(b *testing.B, digits int) *image.Gray {
	sheet, code := sheetOf(b, address(digits), 5)
	if digits == 0 {
		sheet, code = sheetOf(b, address(typicalDigits), 5)
		for y := code.Min.Y; y < code.Max.Y; y++ {
			for x := code.Min.X; x < code.Max.X; x++ {
				sheet.Pix[y*sheet.Stride+x] = 255
			}
		}
	}
	taken := phototest.Take(sheet, phototest.Mild.At(200, 1), 1)
	middle := taken.Rect.Size().Div(2)
	return phototest.Frame(taken, image.Rect(middle.X-640, middle.Y-360, middle.X+640, middle.Y+360))
}

// BenchmarkPhoto is a photograph of 12 megapixels without a code.
func BenchmarkPhoto(b *testing.B) {
	sheet := image.NewGray(image.Rect(0, 0, 3700, 2750))
	for i := range sheet.Pix {
		sheet.Pix[i] = 255
	}
	marks, _ := sheetOf(b, address(typicalDigits), 12)
	for y := range 180 { // the marks above the code
		copy(sheet.Pix[(y+500)*sheet.Stride+300:], marks.Pix[y*marks.Stride:(y+1)*marks.Stride])
	}
	benchmark(b, picture.Thorough, phototest.Take(sheet, phototest.Mild.At(300, 1), 1))
}
