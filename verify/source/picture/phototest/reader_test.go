package phototest_test

import (
	"fmt"
	"image"
	"os"
	"testing"

	"hourseal/record/recordtest/outside"
	"hourseal/verify/source/picture/phototest"
)

// TestGrid has the same pictures read by our reader and by zbarimg: of the code
// of the typical record, as a person frames it who goes near; of its whole page;
// of scans. In no row at no resolution may ours read fewer, and it has a bar of
// its own. Without HOURSEAL_LONG=1 the pictures are few.

func long() bool { return os.Getenv("HOURSEAL_LONG") == "1" }

// The bar for the typical record with all distortions together, as shares.
const (
	mildBar   = 1.0 // at 200 dpi
	mediumBar = 0.8 // at each resolution
)

func photoBar(row phototest.Row) func(dpi int) float64 {
	return func(dpi int) float64 {
		switch {
		case row.Kind != phototest.Mild.Kind:
			return 0
		case row.Strength == phototest.Mild.Strength && dpi == 200:
			return mildBar
		case row.Strength == phototest.Medium.Strength:
			return mediumBar
		default:
			return 0
		}
	}
}

func photoLine(row phototest.Row, seeds func(dpi int) int) line {
	return line{
		name: row.Name(),
		take: func(sheet *image.Gray, dpi int, seed uint64) *image.Gray {
			return phototest.Take(sheet, row.At(dpi, seed), seed)
		},
		seeds: seeds,
		bar:   photoBar(row),
	}
}

// framedSeeds is how many pictures a cell has. All distortions together are what
// people take pictures with; one alone tells what a reader fails for.
func framedSeeds(row phototest.Row) func(dpi int) int {
	return func(dpi int) int {
		switch together := row.Kind == phototest.Mild.Kind; {
		case long() && together:
			return 8
		case long():
			return 3
		case dpi != 200:
			return 0
		case together:
			return 3
		case row.Strength == phototest.Medium.Strength:
			return 1
		default:
			return 0
		}
	}
}

// onlyAt is so many pictures at one resolution, or more of all if there is time.
func onlyAt(few, most int) func(dpi int) int {
	return func(dpi int) int {
		switch {
		case long():
			return most
		case dpi == 200:
			return few
		default:
			return 0
		}
	}
}

// scanBar: a scan at 200 dpi or more is to be read always, as it is what people
// send.
func scanBar(dpi int) float64 {
	if dpi >= 200 {
		return 1
	}
	return 0
}

func scanLine(name string, pass func(dpi int, degrees float64) phototest.Pass, degrees float64) line {
	return line{
		name: fmt.Sprintf("%s, %.1f degrees", name, degrees),
		take: func(sheet *image.Gray, dpi int, seed uint64) *image.Gray {
			return phototest.Scan(sheet, pass(dpi, degrees), seed)
		},
		seeds: onlyAt(1, 2),
		bar:   scanBar,
	}
}

func TestGrid(t *testing.T) {
	outside.Program(t, "zbarimg")
	page := typicalPage(t)
	var framed []line
	for _, row := range phototest.Rows() {
		framed = append(framed, photoLine(row, framedSeeds(row)))
	}
	for _, g := range []struct {
		name  string
		sheet func(t testing.TB, dpi int) *image.Gray
		lines []line
	}{
		{"photographs of the code with 10 mm around it", page.near, framed},
		{"photographs of the whole page", page.whole, []line{
			photoLine(phototest.Mild, onlyAt(1, 2)),
			photoLine(phototest.Medium, onlyAt(1, 2)),
			photoLine(phototest.Harsh, onlyAt(0, 2)),
		}},
		{"scans of the whole page", page.whole, []line{
			scanLine("flatbed", phototest.Flatbed, 0.5),
			scanLine("flatbed", phototest.Flatbed, -1.5),
			scanLine("copier", phototest.Copier, -0.5),
			scanLine("copier", phototest.Copier, 1.5),
		}},
	} {
		t.Run(g.name, func(t *testing.T) {
			read := takeGrid(t, page.text, g.sheet, g.lines)
			read.log(t, g.lines)
			read.hold(t, g.lines)
		})
	}
}
