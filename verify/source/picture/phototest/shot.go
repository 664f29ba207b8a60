package phototest

import (
	"image"
	"math"
	"math/rand/v2"
)

// Shot is one way to photograph a sheet. The zero value of a field leaves that
// distortion out. The directions of tilt, curl, light and shadow, and where
// between two pixels the sheet comes to lie, are drawn from the seed.
type Shot struct {
	// DPI is the resolution of the sheet's raster in pixels an inch, and of the
	// photograph at the sheet's middle; 200 if 0.
	DPI int
	// Blur is the standard deviation of a Gaussian in pixels of the photograph.
	// Resampling alone blurs by 0.41, so less than that cannot be had.
	Blur float64
	// Degrees is how far the sheet is turned, clockwise; any number.
	Degrees float64
	// Perspective is how much smaller the sheet appears, relative, at the far
	// end of 100 mm along the tilt: 0.1 shows 100 mm over there as 90 mm here.
	Perspective float64
	// Curl is the height of the paper's bulge, relative to its distance from the
	// camera: 0.02 is 5 mm at a quarter of a metre. It bulges along one line
	// through the sheet's middle and lies flat at the two edges beside it.
	Curl float64
	// Uneven is how much darker, relative, the darkest side of the picture is
	// than the brightest; in between the light falls off evenly.
	Uneven float64
	// Shadow is how much light, relative, a shadow takes that lies over about
	// half of the picture and has an edge 8 mm wide.
	Shadow float64
	// Noise is the standard deviation of Gaussian noise in grey levels.
	Noise float64
	// JPEG is the quality of the JPEG that the picture went through, 1 to 100 as
	// in the library of the Independent JPEG Group; 0 keeps it as it is.
	JPEG int
}

// Grey levels of a picture in full light: common practice, no source. A
// well-exposed page is short of white, and print reflects some light.
const (
	paperLevel = 225
	inkLevel   = 40
	tableLevel = 80
)

// tableShare is how much table shows around the sheet, relative to its longer
// side.
const tableShare = 0.04

// shadowEdgeMM is how wide the soft edge of a shadow is on the sheet.
const shadowEdgeMM = 8

const (
	mmPerInch  = 25.4
	defaultDPI = 200
)

// Take photographs a sheet.
func Take(sheet *image.Gray, shot Shot, seed uint64) *image.Gray {
	draws := rand.New(rand.NewPCG(seed, 0x70686f746f)) // "photo"
	lie := shot.lie(sheet.Bounds().Size(), draws)
	surroundings := plane{paper: paperLevel, ink: inkLevel, around: tableLevel, margin: tableShare}
	picture := lie.photograph(sheet, surroundings, draws)
	picture.blur(besidesResampling(shot.Blur))
	picture.lighten(shot.light(draws))
	return picture.develop(shot.Noise, shot.JPEG, draws)
}

func (s Shot) dpi() float64 {
	if s.DPI <= 0 {
		return defaultDPI
	}
	return float64(s.DPI)
}

// pixels is a length on the sheet, in mm, in pixels.
func (s Shot) pixels(mm float64) float64 { return mm / mmPerInch * s.dpi() }

// besidesResampling is the blur that is left to do after the resampling.
// Interpolating at a phase f between two pixels has the variance f(1-f), which is
// 1/6 on the average of all phases; variances of blurs add up.
func besidesResampling(sigma float64) float64 {
	return math.Sqrt(max(0, sigma*sigma-1.0/6))
}

// direction is a unit vector.
type direction struct{ x, y float64 }

func anyDirection(draws *rand.Rand) direction {
	return towards(2 * math.Pi * draws.Float64())
}

func towards(radians float64) direction {
	sin, cos := math.Sincos(radians)
	return direction{cos, sin}
}

// along is how far a point lies in a direction.
func (d direction) along(x, y float64) float64 { return d.x*x + d.y*y }

// extent is how long a rectangle of that size is in a direction.
func (d direction) extent(w, h float64) float64 { return math.Abs(d.x)*w + math.Abs(d.y)*h }
