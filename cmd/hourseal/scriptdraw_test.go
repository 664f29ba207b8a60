package main

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"image/png"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"hourseal/verify/source/picture/phototest"
	"hourseal/verify/source/sourcetest"

	"github.com/rogpeppe/go-internal/testscript"
)

// pixelsAModule is how large codes are drawn: a little over what is asked of a
// photograph.
const pixelsAModule = 6

// draw FROM TO [LINE]... draws the codes of lines of a file, counted from 1, side by
// side, as a picture by the ending of TO: .png, .jpg, or .pdf for a scan. Without lines
// it is blank paper.
func scriptDraw(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: draw FROM TO [LINE]...")
	}
	lines := strings.Split(ts.ReadFile(args[0]), "\n")
	paper := []*image.Gray{image.NewGray(image.Rect(0, 0, 200, 200))}
	draw.Draw(paper[0], paper[0].Rect, image.NewUniform(color.White), image.Point{}, draw.Src)
	for _, number := range args[2:] {
		line, err := strconv.Atoi(number)
		ts.Check(err)
		code, _, err := phototest.Sheet(lines[line-1], pixelsAModule)
		ts.Check(err)
		paper = append(paper, code)
	}
	to := ts.MkAbs(args[1])
	drawn, err := pictureFile(sideBySide(paper), filepath.Ext(to))
	ts.Check(err)
	ts.Check(os.WriteFile(to, drawn, 0o644))
}

func sideBySide(parts []*image.Gray) *image.Gray {
	var size image.Point
	for _, part := range parts {
		size = image.Pt(size.X+part.Rect.Dx(), max(size.Y, part.Rect.Dy()))
	}
	all := image.NewGray(image.Rectangle{Max: size})
	draw.Draw(all, all.Rect, image.NewUniform(color.White), image.Point{}, draw.Src)
	x := 0
	for _, part := range parts {
		draw.Draw(all, image.Rect(x, 0, size.X, size.Y), part, part.Rect.Min, draw.Src)
		x += part.Rect.Dx()
	}
	return all
}

// pictureFile is a picture as a file of the kind that its ending says.
func pictureFile(picture *image.Gray, ending string) ([]byte, error) {
	var file bytes.Buffer
	switch ending {
	case ".png":
		err := png.Encode(&file, picture)
		return file.Bytes(), err
	case ".jpg":
		err := jpeg.Encode(&file, picture, nil)
		return file.Bytes(), err
	case ".pdf":
		return sourcetest.Scan(nil, sourcetest.Picture{
			Width: picture.Rect.Dx(), Height: picture.Rect.Dy(),
			Entries: "/ColorSpace /DeviceGray /BitsPerComponent 8 /Filter /FlateDecode",
			Content: sourcetest.Deflate(picture.Pix),
		}), nil
	default:
		return nil, fmt.Errorf("a picture ending in %q cannot be drawn", ending)
	}
}
