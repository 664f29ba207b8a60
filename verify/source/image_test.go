package source_test

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"image/png"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"hourseal/record/recordtest/outside"
	"hourseal/verify/source"
	"hourseal/verify/source/sourcetest"
)

func pngOf(t testing.TB, img image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func jpegOf(t testing.TB, img image.Image, quality int) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: quality}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// as copies a picture into one of another kind.
func as[I draw.Image](img image.Image, to I) I {
	draw.Draw(to, to.Bounds(), img, img.Bounds().Min, draw.Src)
	return to
}

func TestReadPicture(t *testing.T) {
	envelope := record(t, "Gannet", 300)
	text := textsOf(t, envelope)[0]
	sheet := sheetWith(t, text)
	r := sheet.Rect
	ink := color.NRGBA{R: 20, G: 40, B: 60, A: 255}
	transparent := image.NewNRGBA(r) // nothing but the ink
	for y := range r.Dy() {
		for x := range r.Dx() {
			if sheet.GrayAt(x, y).Y == 0 {
				transparent.SetNRGBA(x, y, ink)
			}
		}
	}
	for name, data := range map[string][]byte{
		"PNG, grey":           pngOf(t, sheet),
		"PNG, two colours":    pngOf(t, as(sheet, image.NewPaletted(r, color.Palette{color.Black, color.White}))),
		"PNG, colour":         pngOf(t, as(sheet, image.NewRGBA(r))),
		"PNG, 16 bits":        pngOf(t, as(sheet, image.NewGray16(r))),
		"PNG, colour 16 bits": pngOf(t, as(sheet, image.NewRGBA64(r))),
		"PNG, transparent":    pngOf(t, transparent),
		"JPEG, grey":          jpegOf(t, sheet, 60),
		"JPEG, colour":        jpegOf(t, as(sheet, image.NewRGBA(r)), 60),
	} {
		t.Run(name, func(t *testing.T) {
			found := mustRead(t, data)
			if found.Kind != source.KindImage || found.Scan || found.HostUnknown || !bytes.Equal(found.Envelope, envelope) {
				t.Errorf("%+v", found)
			}
			if len(found.Texts) != 1 || found.Texts[0] != text || found.Host != "records.ellery-slip.example" {
				t.Errorf("texts %q, host %q", found.Texts, found.Host)
			}
		})
	}
}

// jpegWith puts segments behind the start of a JPEG.
func jpegWith(jpg []byte, segments ...[]byte) []byte {
	out := append([]byte{}, jpg[:2]...)
	for _, s := range segments {
		out = append(out, 0xff, s[0], byte((len(s)+1)>>8), byte(len(s)+1))
		out = append(out, s[1:]...)
	}
	return append(out, jpg[2:]...)
}

// exif is an APP1 segment that says nothing but an orientation.
func exif(orientation byte) []byte {
	return []byte("\xe1Exif\x00\x00MM\x00*\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01\x00" + string(orientation) + "\x00\x00\x00\x00\x00\x00")
}

// turned turns a picture about so many quarters, mirrored before that if asked for.
func turned(img *image.Gray, quarters int, mirrored bool) *image.Gray {
	out := image.NewGray(img.Rect)
	n := img.Rect.Dx()
	for y := range n {
		for x := range n {
			tx, ty := x, y
			if mirrored {
				tx = n - 1 - x
			}
			for range quarters {
				tx, ty = n-1-ty, tx
			}
			out.SetGray(tx, ty, img.GrayAt(x, y))
		}
	}
	return out
}

// Photographs are read whichever way the telephone was held, and whatever its Exif
// segment says, true or not: no orientation keeps a code from being read. It does not
// show that the pixels are turned, since the reader finds codes at any turn and in a
// mirror; TestUpright does.
func TestReadTurnedPicture(t *testing.T) {
	envelope := record(t, "Gannet", 300)
	sheet := sheetWith(t, textsOf(t, envelope)[0])
	for orientation := byte(1); orientation <= 8; orientation++ {
		for quarters := range 4 {
			// Of the mirrored values the picture has to be stored mirrored, or it will
			// be so to the reader.
			mirrored := orientation == 2 || orientation == 4 || orientation == 5 || orientation == 7
			data := jpegWith(jpegOf(t, turned(sheet, quarters, mirrored), 80), exif(orientation))
			if found := mustRead(t, data); !bytes.Equal(found.Envelope, envelope) {
				t.Errorf("orientation %d, turned %d quarters: another envelope", orientation, quarters)
			}
		}
	}
}

// A JPEG is read whatever lies in it beside the picture: comments, thumbnails with
// markers of their own, and what telephones append.
func TestReadJPEGWithMore(t *testing.T) {
	envelope := record(t, "Gannet", 300)
	jpg := jpegOf(t, sheetWith(t, textsOf(t, envelope)[0]), 80)
	thumbnails := bytes.Repeat([]byte("\xff\xd8\xff\xda\xff\xd9"), 1000)
	for name, data := range map[string][]byte{
		"comment":           jpegWith(jpg, []byte("\xfeGannet")),
		"empty comment":     jpegWith(jpg, []byte("\xfe")),
		"thumbnail":         jpegWith(jpg, append([]byte("\xe2"), thumbnails...), exif(1)),
		"fill bytes":        append([]byte("\xff\xd8\xff\xff\xff"), jpg[3:]...),
		"a film after it":   append(bytes.Clone(jpg), thumbnails...),
		"another one after": append(bytes.Clone(jpg), jpg...),
	} {
		t.Run(name, func(t *testing.T) {
			if found := mustRead(t, data); !bytes.Equal(found.Envelope, envelope) {
				t.Error("another envelope")
			}
		})
	}
}

// Pictures by other programs: poppler's progressive JPEG, and one in the four printing
// colours by Ghostscript 10.00 (-sDEVICE=jpegcmyk), without its colour profile.
func TestReadPicturesByOthers(t *testing.T) {
	envelope := record(t, "Gannet", 300)
	t.Run("CMYK JPEG", func(t *testing.T) {
		data := must(t)(os.ReadFile("testdata/scans/cmyk.jpg"))
		if found := mustRead(t, data); !bytes.Equal(found.Envelope, envelope) {
			t.Error("another envelope")
		}
	})
	sheet := sheetWith(t, textsOf(t, envelope)[0])
	dir := t.TempDir()
	pdf := filepath.Join(dir, "scan.pdf")
	if err := os.WriteFile(pdf, scans(t, sheet)["grey"], 0o600); err != nil {
		t.Fatal(err)
	}
	for name, options := range map[string][]string{
		"progressive JPEG":       {"-jpeg", "-jpegopt", "progressive=y,optimize=y,quality=70"},
		"progressive JPEG, grey": {"-gray", "-jpeg", "-jpegopt", "progressive=y"},
		"JPEG":                   {"-jpeg"},
		"PNG":                    {"-png"},
		"PNG, 1 bit":             {"-mono", "-png"},
	} {
		t.Run(name, func(t *testing.T) {
			out := filepath.Join(t.TempDir(), "page")
			outside.Run(t, "pdftoppm", append(options, "-r", "72", "-singlefile", pdf, out)...)
			files, err := filepath.Glob(out + ".*")
			if err != nil || len(files) != 1 {
				t.Fatalf("files %q, %v", files, err)
			}
			data := must(t)(os.ReadFile(files[0]))
			if progressive := strings.Contains(name, "JPEG") && bytes.Contains(data, []byte("\xff\xc2")); progressive != strings.HasPrefix(name, "progressive") {
				t.Fatalf("progressive %t", progressive)
			}
			if found := mustRead(t, data); !bytes.Equal(found.Envelope, envelope) {
				t.Error("another envelope")
			}
		})
	}
}

// adam7 is an interlaced PNG of a grey picture: ISO/IEC 15948 section 8.2, the start
// and step of each pass.
func adam7(img *image.Gray) []byte {
	var rows []byte
	for _, pass := range [][4]int{{0, 0, 8, 8}, {4, 0, 8, 8}, {0, 4, 4, 8}, {2, 0, 4, 4}, {0, 2, 2, 4}, {1, 0, 2, 2}, {0, 1, 1, 2}} {
		for y := pass[1]; y < img.Rect.Dy(); y += pass[3] {
			rows = append(rows, 0) // no filter
			for x := pass[0]; x < img.Rect.Dx(); x += pass[2] {
				rows = append(rows, img.GrayAt(x, y).Y)
			}
		}
	}
	return pngFile(img.Rect.Dx(), img.Rect.Dy(), 8, 0, 1, sourcetest.Deflate(rows))
}

// pngFile is a PNG of these pixels, or of what is declared to be them.
func pngFile(width, height int, depth, colours, interlace byte, idat []byte) []byte {
	return pngChunks(width, height, depth, colours, interlace, [2]string{"IDAT", string(idat)})
}

// pngChunks is a PNG of these chunks, by name and content, and a header and an end.
func pngChunks(width, height int, depth, colours, interlace byte, chunks ...[2]string) []byte {
	b := []byte("\x89PNG\r\n\x1a\n")
	head := binary.BigEndian.AppendUint32(nil, uint32(width))
	head = binary.BigEndian.AppendUint32(head, uint32(height))
	head = append(head, depth, colours, 0, 0, interlace)
	for _, chunk := range slices.Concat([][2]string{{"IHDR", string(head)}}, chunks, [][2]string{{"IEND", ""}}) {
		b = binary.BigEndian.AppendUint32(b, uint32(len(chunk[1])))
		named := chunk[0] + chunk[1]
		b = binary.BigEndian.AppendUint32(append(b, named...), crc32.ChecksumIEEE([]byte(named)))
	}
	return b
}

func TestReadInterlacedPNG(t *testing.T) {
	envelope := record(t, "Gannet", 300)
	if found := mustRead(t, adam7(sheetWith(t, textsOf(t, envelope)[0]))); !bytes.Equal(found.Envelope, envelope) {
		t.Error("another envelope")
	}
}
