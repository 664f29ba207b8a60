package phototest

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"math"
	"math/rand/v2"
	"testing"
)

// What a Shot says is measured off the picture that it makes.

// blank is a sheet of paper.
func blank(w, h int) *image.Gray { return white(image.Rect(0, 0, w, h)) }

// halves is a sheet that is black on the left of an upright edge.
func halves(w, h int) *image.Gray {
	sheet := blank(w, h)
	for y := range h {
		for x := range w / 2 {
			sheet.SetGray(x, y, color.Gray{})
		}
	}
	return sheet
}

// slope is how far the edge of slanting goes to the left in each row.
const slope = 0.1

// slanting is a sheet that is black on the left of a slanting edge, its pixels by
// as much as is covered.
func slanting(w, h int) *image.Gray {
	sheet := blank(w, h)
	for y := range h {
		edge := float64(w)/2 + slope*(float64(h)/2-float64(y)-0.5)
		for x := range w {
			sheet.SetGray(x, y, color.Gray{Y: 255 - uint8(255*overlap(float64(x), 0, edge)+0.5)})
		}
	}
	return sheet
}

// middle is the part of a picture that is certainly the sheet.
func middle(picture *image.Gray, share int) image.Rectangle {
	size := picture.Rect.Size()
	return picture.Rect.Inset(min(size.X, size.Y) / share)
}

// meanAndDeviation are of the grey levels of a part.
func meanAndDeviation(picture *image.Gray, part image.Rectangle) (mean, deviation float64) {
	n, sum, squares := 0.0, 0.0, 0.0
	for y := part.Min.Y; y < part.Max.Y; y++ {
		for x := part.Min.X; x < part.Max.X; x++ {
			level := float64(picture.GrayAt(x, y).Y)
			n, sum, squares = n+1, sum+level, squares+level*level
		}
	}
	mean = sum / n
	return mean, math.Sqrt(squares/n - mean*mean)
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %.4f, want %.4f within %.4f", what, got, want, within)
	}
}

// TestBlur: the rise across a blurred edge is the Gaussian's integral, so its
// derivative has the standard deviation that was asked for. The edge slants on the
// sheet and the sheet is turned, so that every phase between two pixels is there.
func TestBlur(t *testing.T) {
	for _, sigma := range []float64{0, 0.6, 0.7, 1.2, 1.7, 3} {
		want := max(sigma, math.Sqrt(1.0/6))
		picture := Take(slanting(400, 400), Shot{Blur: sigma, Degrees: 3}, 5)
		var variances float64
		rows := 0
		for y := picture.Rect.Dy()/2 - 100; y < picture.Rect.Dy()/2+100; y++ {
			var sum, first, second float64
			for x := 100; x < picture.Rect.Dx()-100; x++ {
				step := float64(picture.GrayAt(x, y).Y) - float64(picture.GrayAt(x-1, y).Y)
				sum, first, second = sum+step, first+step*float64(x), second+step*float64(x*x)
			}
			variances += second/sum - first*first/(sum*sum)
			rows++
		}
		// A pixel's width has the variance 1/12: once for the sheet's raster, once for
		// the difference of two neighbours. A slanting edge is seen wider by its slant.
		slant := math.Cos(3*math.Pi/180 + math.Atan(slope))
		got := math.Sqrt(max(0, variances/float64(rows)-2.0/12)) * slant
		near(t, fmt.Sprintf("blur of %v", sigma), got, want, 0.06*want+0.03)
	}
}

func TestNoise(t *testing.T) {
	for _, sigma := range []float64{0, 4, 8, 12} {
		picture := Take(blank(300, 300), Shot{Noise: sigma}, 2)
		mean, deviation := meanAndDeviation(picture, middle(picture, 5))
		near(t, "mean", mean, paperLevel, 0.3)
		near(t, fmt.Sprintf("noise of %v", sigma), deviation, sigma, 0.03*sigma+0.01)
	}
}

// TestUneven: across the whole picture, paper and table, the light falls by as
// much as the shot says.
func TestUneven(t *testing.T) {
	for _, uneven := range []float64{0, 0.25, 0.5, 0.65} {
		for seed := range uint64(5) {
			e := newExposure(200, 300)
			for i := range e.levels {
				e.levels[i] = paperLevel
			}
			e.lighten(Shot{Uneven: uneven}.light(rand.New(rand.NewPCG(seed, 0))))
			darkest, brightest := math.Inf(1), 0.0
			for _, level := range e.levels {
				darkest, brightest = min(darkest, float64(level)), max(brightest, float64(level))
			}
			near(t, fmt.Sprintf("darkest of %v", uneven), darkest/brightest, 1-uneven, 0.01)
		}
	}
}

// TestShadow: under the shadow is as much darker as the shot says, the edge is 8
// mm wide, and neither side is less than a fifth of the picture.
func TestShadow(t *testing.T) {
	const w, h, dpi = 400, 400, 127 // 5 dots a mm
	for seed := range uint64(20) {
		e := newExposure(w, h)
		for i := range e.levels {
			e.levels[i] = 100
		}
		e.lighten(Shot{Shadow: 0.3, DPI: dpi}.light(rand.New(rand.NewPCG(seed, 0))))
		lit, shaded := 0, 0
		for _, level := range e.levels {
			switch {
			case level > 99.99:
				lit++
			case level < 70.01:
				shaded++
			}
		}
		if lit < w*h/9 || shaded < w*h/9 {
			t.Errorf("seed %d: %d of %d dots in light, %d in shadow", seed, lit, w*h, shaded)
		}
		// The edge runs for one to 1.42 times the picture's side.
		if edge := w*h - lit - shaded; edge < shadowEdgeMM*5*w/2 || edge > shadowEdgeMM*5*w*3/2 {
			t.Errorf("seed %d: %d dots in the shadow's edge", seed, edge)
		}
	}
}

// lies are some ways for a sheet to lie.
func lies() (all []lie) {
	for seed := range uint64(10) {
		for _, row := range Rows() {
			draws := rand.New(rand.NewPCG(seed, 1))
			all = append(all, row.At(200, seed).lie(image.Pt(800, 900), draws))
		}
	}
	return all
}

// TestLieThereAndBack: what is seen at a point is what lies there.
func TestLieThereAndBack(t *testing.T) {
	for _, l := range lies() {
		for _, p := range [][2]float64{{0, 0}, {400, 450}, {-400, 450}, {-400, -450}, {400, -450}, {123.4, -56.7}} {
			u, v := l.onSheet(l.seen(p[0], p[1]))
			if math.Hypot(u-p[0], v-p[1]) > 0.02 {
				t.Fatalf("%+v: point %v is seen as %v, %v", l, p, u, v)
			}
		}
	}
}

// scale is how long one pixel of the sheet is seen, across the tilt.
func (l lie) scale(u, v float64) float64 {
	x, y := l.seen(u, v)
	across := direction{-l.downhill.y, l.downhill.x}
	du, dv := across.x*l.turn.x+across.y*l.turn.y, -across.x*l.turn.y+across.y*l.turn.x
	x2, y2 := l.seen(u+du, v+dv)
	return math.Hypot(x2-x, y2-y)
}

// TestPerspective: 50 mm this way and 50 mm that way along the tilt, the scales
// are apart by what the shot says.
func TestPerspective(t *testing.T) {
	for _, perspective := range []float64{0, 0.03, 0.065, 0.12} {
		for seed := range uint64(10) {
			shot := Shot{DPI: 254, Perspective: perspective, Degrees: 10}
			l := shot.lie(image.Pt(1200, 1200), rand.New(rand.NewPCG(seed, 1)))
			du, dv := l.downhill.x*l.turn.x+l.downhill.y*l.turn.y, -l.downhill.x*l.turn.y+l.downhill.y*l.turn.x
			near(t, "the middle's scale", l.scale(0, 0), 1, 0.001)
			far, here := l.scale(500*du, 500*dv), l.scale(-500*du, -500*dv)
			near(t, fmt.Sprintf("perspective of %v", perspective), 1-far/here, perspective, 0.01*perspective+0.001)
		}
	}
}

// TestSteepest: no tilt turns the largest sheet inside out.
func TestSteepest(t *testing.T) {
	for _, degrees := range []float64{0, 45, 200} {
		l := Shot{Perspective: 100, Degrees: degrees}.lie(image.Pt(3000, 4000), rand.New(rand.NewPCG(1, 1)))
		x0, y0, x1, y1 := l.box()
		if !(x1-x0 < 12000 && y1-y0 < 12000) {
			t.Errorf("at %v degrees the sheet is seen %v by %v", degrees, x1-x0, y1-y0)
		}
	}
}

// TestCurl: the middle is nearer by the share, the edges beside the bulge not.
func TestCurl(t *testing.T) {
	l := Shot{Curl: 0.02}.lie(image.Pt(1000, 1000), rand.New(rand.NewPCG(3, 1)))
	near(t, "middle", l.nearer(0, 0), 1.02, 1e-9)
	along := direction{-l.across.y, l.across.x}
	near(t, "along the bulge", l.nearer(300*along.x, 300*along.y), 1.02, 1e-9)
	near(t, "edge", l.nearer(l.halfWidth*l.across.x, l.halfWidth*l.across.y), 1, 1e-9)
}

// TestTurn: a sheet turned clockwise by a quarter has its left side on top.
func TestTurn(t *testing.T) {
	picture := Take(halves(200, 100), Shot{Degrees: 90}, 1)
	b := picture.Rect
	if b.Dx() > b.Dy() {
		t.Errorf("the picture is %v", b)
	}
	top, bottom := picture.GrayAt(b.Dx()/2, b.Dy()/4).Y, picture.GrayAt(b.Dx()/2, b.Dy()*3/4).Y
	if top != inkLevel || bottom != paperLevel {
		t.Errorf("levels %d over %d", top, bottom)
	}
}

func TestTableIsAroundTheSheet(t *testing.T) {
	picture := Take(blank(300, 400), Shot{Degrees: 5, Perspective: 0.1, Curl: 0.02}, 4)
	b := picture.Rect
	for x := range b.Dx() {
		if a, z := picture.GrayAt(x, 0).Y, picture.GrayAt(x, b.Dy()-1).Y; a != tableLevel || z != tableLevel {
			t.Fatalf("levels %d and %d at the edge", a, z)
		}
	}
}

func TestSameSeedSamePicture(t *testing.T) {
	sheet, _, err := Sheet("THE SAME EVERY TIME", 4.5)
	if err != nil {
		t.Fatal(err)
	}
	before := bytes.Clone(sheet.Pix)
	a, b, c := Take(sheet, Medium.At(150, 1), 1), Take(sheet, Medium.At(150, 1), 1), Take(sheet, Medium.At(150, 1), 2)
	if !bytes.Equal(a.Pix, b.Pix) {
		t.Error("the same seed gave another picture")
	}
	if bytes.Equal(a.Pix, c.Pix) {
		t.Error("another seed gave the same picture")
	}
	if !bytes.Equal(sheet.Pix, before) {
		t.Error("the sheet was written to")
	}
}
