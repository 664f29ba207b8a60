package source

import (
	"bytes"
	"encoding/binary"
	"image"
	"testing"
)

// orientationWords says, for each value of the tag, where the stored picture's first
// row and first column are seen: the words of Exif 2.32 (CIPA DC-008-2019) section
// 4.6.4, Orientation.
var orientationWords = [9]struct{ row, column string }{
	1: {"top", "left"}, 2: {"top", "right"}, 3: {"bottom", "right"}, 4: {"bottom", "left"},
	5: {"left", "top"}, 6: {"right", "top"}, 7: {"right", "bottom"}, 8: {"left", "bottom"},
}

// storedAs stores a picture in the way of an orientation, by the words.
func storedAs(seen *image.Gray, orientation int) *image.Gray {
	words := orientationWords[orientation]
	width, height := seen.Rect.Dx(), seen.Rect.Dy()
	rows, columns := height, width
	if orientation >= 5 {
		rows, columns = width, height
	}
	stored := image.NewGray(image.Rect(0, 0, columns, rows))
	for row := range rows {
		for column := range columns {
			var x, y int
			for side, i := range map[string]int{words.row: row, words.column: column} {
				switch side {
				case "top":
					y = i
				case "bottom":
					y = height - 1 - i
				case "left":
					x = i
				case "right":
					x = width - 1 - i
				}
			}
			stored.SetGray(column, row, seen.GrayAt(x, y))
		}
	}
	return stored
}

func TestUpright(t *testing.T) {
	seen := image.NewGray(image.Rect(0, 0, 7, 5))
	for i := range seen.Pix {
		seen.Pix[i] = byte(i)
	}
	for orientation := 1; orientation <= 8; orientation++ {
		stored := storedAs(seen, orientation)
		before := bytes.Clone(stored.Pix)
		got := upright(stored, orientation)
		if got.Rect != seen.Rect || !bytes.Equal(got.Pix, seen.Pix) {
			t.Errorf("orientation %d: %v %v", orientation, got.Rect, got.Pix)
		}
		if !bytes.Equal(stored.Pix, before) {
			t.Errorf("orientation %d: the stored pixels were changed", orientation)
		}
		// A decoder hands out pictures with a margin.
		wide := image.NewGray(image.Rect(0, 0, 16, 16))
		for y := range stored.Rect.Dy() {
			copy(wide.Pix[y*wide.Stride:], stored.Pix[y*stored.Stride:][:stored.Rect.Dx()])
		}
		cut := wide.SubImage(stored.Rect).(*image.Gray)
		if orientation > 1 && !bytes.Equal(upright(cut, orientation).Pix, seen.Pix) {
			t.Errorf("orientation %d: with a margin", orientation)
		}
	}
	for _, odd := range []int{-1, 0, 9} {
		if upright(seen, odd) != seen {
			t.Errorf("orientation %d is one", odd)
		}
	}
}

// exifSegment is an APP1 segment's content with some entries before the orientation.
func exifSegment(order binary.AppendByteOrder, before int, orientation uint16) []byte {
	mark := "II*\x00"
	if order == binary.AppendByteOrder(binary.BigEndian) {
		mark = "MM\x00*"
	}
	b := append([]byte("Exif\x00\x00"), mark...)
	b = order.AppendUint32(b, 8)
	b = order.AppendUint16(b, uint16(before+1))
	for i := range before {
		b = order.AppendUint16(b, uint16(0x0100+i))
		b = order.AppendUint16(b, 4) // LONG
		b = order.AppendUint32(b, 1)
		b = order.AppendUint32(b, 1000)
	}
	b = order.AppendUint16(b, 0x0112)
	b = order.AppendUint16(b, 3)
	b = order.AppendUint32(b, 1)
	b = order.AppendUint16(b, orientation)
	b = order.AppendUint16(b, 0)
	return order.AppendUint32(b, 0)
}

func TestExifOrientation(t *testing.T) {
	for _, order := range []binary.AppendByteOrder{binary.LittleEndian, binary.BigEndian} {
		for want := 1; want <= 8; want++ {
			if got := exifOrientation(exifSegment(order, want%3, uint16(want))); got != want {
				t.Errorf("%v: %d, want %d", order, got, want)
			}
		}
		for _, odd := range []uint16{0, 9, 65535} {
			if got := exifOrientation(exifSegment(order, 0, odd)); got != 1 {
				t.Errorf("%v: the value %d is taken for %d", order, odd, got)
			}
		}
	}
	whole := exifSegment(binary.LittleEndian, 2, 6)
	tag := len(whole) - 16 // the entry, and where the next directory would be
	if whole[tag] != 0x12 {
		t.Fatal("the tag is not where this test thinks")
	}
	for name, change := range map[string]func(b []byte) []byte{
		"nothing":              func([]byte) []byte { return nil },
		"another application":  func(b []byte) []byte { return append([]byte("http:\x00"), b[6:]...) },
		"another byte order":   func(b []byte) []byte { b[6] = 'X'; return b },
		"another mark":         func(b []byte) []byte { b[8] = 43; return b },
		"offset past the end":  func(b []byte) []byte { b[10] = 200; return b },
		"offset past all":      func(b []byte) []byte { copy(b[10:], "\xff\xff\xff\xff"); return b },
		"type LONG":            func(b []byte) []byte { b[tag+2] = 4; return b },
		"two values":           func(b []byte) []byte { b[tag+4] = 2; return b },
		"fewer entries":        func(b []byte) []byte { b[14] = 2; return b },
		"cut within the entry": func(b []byte) []byte { return b[:tag+11] },
	} {
		if got := exifOrientation(change(bytes.Clone(whole))); got != 1 {
			t.Errorf("%s: %d", name, got)
		}
	}
	if got := exifOrientation(whole); got != 6 {
		t.Errorf("as it was: %d", got)
	}
	for n := range whole { // no length of it panics
		if got := exifOrientation(whole[:n]); got != 1 && got != 6 {
			t.Errorf("cut at %d: %d", n, got)
		}
	}
}
