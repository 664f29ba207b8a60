package phototest

import (
	"image"
	"testing"
)

func TestFlatbed(t *testing.T) {
	picture := Scan(halves(400, 300), Flatbed(300, 1), 1)
	if size := picture.Rect.Size(); size.X < 400 || size.X > 412 || size.Y < 300 || size.Y > 314 {
		t.Errorf("the scan is %v", size)
	}
	ink, deviation := meanAndDeviation(picture, image.Rect(30, 30, 150, 250))
	near(t, "ink", ink, scanned.ink, 1)
	near(t, "noise", deviation, 2, 1.2) // JPEG takes some of it
	paper, _ := meanAndDeviation(picture, image.Rect(250, 30, 370, 250))
	near(t, "paper", paper, scanned.paper, 1)
}

func TestCopierIsBlackAndWhite(t *testing.T) {
	sheet, _, err := Sheet("BLACK AND WHITE", 5)
	if err != nil {
		t.Fatal(err)
	}
	levels := [256]int{}
	for _, level := range Scan(sheet, Copier(200, 1), 1).Pix {
		levels[level]++
	}
	n := levels[0] + levels[255]
	for level, many := range levels {
		if many > 0 && level != 0 && level != 255 {
			t.Fatalf("%d pixels of level %d", many, level)
		}
	}
	if levels[0] < n/20 || levels[255] < n/2 {
		t.Errorf("%d black and %d white pixels", levels[0], levels[255])
	}
}

func TestDamage(t *testing.T) {
	paper := blank(100, 100)
	ink := image.NewGray(image.Rect(0, 0, 100, 100))
	shiny := Highlight(ink, image.Pt(50, 50), 10)
	for x, want := range map[int]uint8{50: 255, 59: 255, 65: 127, 71: 0, 29: 0} {
		near(t, "glare", float64(shiny.GrayAt(x, 50).Y), float64(want), 1)
	}
	if part := Frame(paper, image.Rect(90, -5, 120, 20)); part.Rect != image.Rect(0, 0, 10, 20) {
		t.Errorf("framed %v", part.Rect)
	}
	for _, level := range append(paper.Pix, ink.Pix...) {
		if level != 0 && level != 255 {
			t.Fatal("the picture given was written to")
		}
	}
}
