package phototest

import (
	"bytes"
	"image"
	"image/draw"
	"image/jpeg"
	"math"
	"math/rand/v2"
)

// exposure is a picture before it is rounded to grey levels.
type exposure struct {
	w, h   int
	levels []float32
}

func newExposure(w, h int) *exposure { return &exposure{w, h, make([]float32, w*h)} }

// blur is a Gaussian of that standard deviation in pixels; beyond the edges the
// picture goes on as at the edge.
func (e *exposure) blur(sigma float64) {
	if sigma <= 0 {
		return
	}
	kernel := gaussian(sigma)
	line := make([]float32, max(e.w, e.h))
	for j := range e.h {
		convolve(e.levels[j*e.w:(j+1)*e.w], 1, kernel, line[:e.w])
	}
	for i := range e.w {
		convolve(e.levels[i:], e.w, kernel, line[:e.h])
	}
}

// gaussian is one half of a kernel, from its middle outwards, to four standard
// deviations.
func gaussian(sigma float64) []float32 {
	half := make([]float64, int(math.Ceil(4*sigma))+1)
	sum := 0.0
	for i := range half {
		half[i] = math.Exp(-float64(i*i) / (2 * sigma * sigma))
		sum += 2 * half[i]
	}
	sum -= half[0]
	kernel := make([]float32, len(half))
	for i, k := range half {
		kernel[i] = float32(k / sum)
	}
	return kernel
}

// convolve blurs every step-th of the levels, as many as the line has room for.
func convolve(levels []float32, step int, kernel, line []float32) {
	for i := range line {
		line[i] = levels[i*step]
	}
	last := len(line) - 1
	for i := range line {
		sum := kernel[0] * line[i]
		for k := 1; k < len(kernel); k++ {
			sum += kernel[k] * (line[max(i-k, 0)] + line[min(i+k, last)])
		}
		levels[i*step] = sum
	}
}

// light is what falls on the sheet: it fades from one side of the picture to the
// other, and a shadow with a soft edge lies over a side.
type light struct {
	fades        float64 // see Shot.Uneven
	away         direction
	shadow       float64 // see Shot.Shadow
	into         direction
	edge, offset float64 // the edge's width in pixels; where it lies, relative to the picture
}

// shadowOffMiddle is how far from the picture's middle a shadow's edge may lie,
// relative to the picture.
const shadowOffMiddle = 0.25

func (s Shot) light(draws *rand.Rand) light {
	return light{
		fades: s.Uneven, away: anyDirection(draws),
		shadow: s.Shadow, into: anyDirection(draws),
		edge: s.pixels(shadowEdgeMM), offset: (2*draws.Float64() - 1) * shadowOffMiddle,
	}
}

func (e *exposure) lighten(by light) {
	if by.fades == 0 && by.shadow == 0 {
		return
	}
	w, h := float64(e.w), float64(e.h)
	across, along := by.away.extent(w, h), by.into.extent(w, h)
	for j := range e.h {
		for i := range e.w {
			x, y := float64(i)-w/2, float64(j)-h/2
			faded := 1 - by.fades*(0.5+by.away.along(x, y)/across)
			shaded := 1 - by.shadow*smooth(0.5+(by.into.along(x, y)-by.offset*along)/by.edge)
			e.levels[j*e.w+i] *= float32(faded * shaded)
		}
	}
}

// smooth goes from 0 to 1 without a kink, as t does.
func smooth(t float64) float64 {
	t = max(0, min(t, 1))
	return t * t * (3 - 2*t)
}

// develop adds noise, rounds to grey levels and keeps the picture as a JPEG of a
// quality, if not 0.
func (e *exposure) develop(noise float64, quality int, draws *rand.Rand) *image.Gray {
	picture := image.NewGray(image.Rect(0, 0, e.w, e.h))
	for i, level := range e.levels {
		if noise > 0 {
			level += float32(noise * draws.NormFloat64())
		}
		picture.Pix[i] = uint8(max(0, min(level+0.5, 255)))
	}
	if quality == 0 {
		return picture
	}
	return throughJPEG(picture, quality)
}

// throughJPEG is what is left of a picture after it was kept as a JPEG. Writing
// to memory and reading it back cannot fail for a picture under 65,536 pixels a
// side; a larger one stays as it is.
func throughJPEG(picture *image.Gray, quality int) *image.Gray {
	var file bytes.Buffer
	if err := jpeg.Encode(&file, picture, &jpeg.Options{Quality: quality}); err != nil {
		return picture
	}
	decoded, err := jpeg.Decode(&file)
	if err != nil {
		return picture
	}
	grey := image.NewGray(picture.Rect)
	draw.Draw(grey, grey.Rect, decoded, decoded.Bounds().Min, draw.Src)
	return grey
}
