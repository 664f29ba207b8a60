package phototest

import (
	"image"
	"math/rand/v2"
)

// Pass is one way to scan or copy a sheet. The figures of [Flatbed] and [Copier]
// are common practice, no source.
type Pass struct {
	DPI     int     // of the sheet's raster, and of the scan; 200 if 0
	Degrees float64 // how far the sheet lies turned, clockwise
	Blur    float64 // standard deviation of a Gaussian in pixels
	Noise   float64 // standard deviation of Gaussian noise in grey levels
	OneBit  bool    // black and white, by one threshold half-way, as a copier's or a fax
	JPEG    int     // quality, 1 to 100; 0 keeps the scan as it is
}

// Flatbed is a scan in grey as an office scanner keeps it by default: the sheet a
// little askew.
func Flatbed(dpi int, degrees float64) Pass {
	return Pass{DPI: dpi, Degrees: degrees, Blur: 0.6, Noise: 2, JPEG: 75}
}

// Copier is a scan in black and white.
func Copier(dpi int, degrees float64) Pass {
	return Pass{DPI: dpi, Degrees: degrees, Blur: 0.6, Noise: 4, OneBit: true}
}

// scanned is what a scanner sees: its lid is white, paper nearly so.
var scanned = plane{paper: 247, ink: 28, around: 255}

// Scan lays a sheet on a scanner. The scan is as large as the sheet lying askew.
func Scan(sheet *image.Gray, pass Pass, seed uint64) *image.Gray {
	draws := rand.New(rand.NewPCG(seed, 0x7363616e)) // "scan"
	lie := Shot{DPI: pass.DPI, Degrees: pass.Degrees}.lie(sheet.Bounds().Size(), draws)
	picture := lie.photograph(sheet, scanned, draws)
	picture.blur(besidesResampling(pass.Blur))
	if !pass.OneBit {
		return picture.develop(pass.Noise, pass.JPEG, draws)
	}
	grey := picture.develop(pass.Noise, 0, draws)
	for i, level := range grey.Pix {
		grey.Pix[i] = 0
		if level >= 128 {
			grey.Pix[i] = 255
		}
	}
	if pass.JPEG == 0 {
		return grey
	}
	return throughJPEG(grey, pass.JPEG)
}
