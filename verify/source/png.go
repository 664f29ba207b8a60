package source

import (
	"bytes"
	"encoding/binary"
	"errors"
	"image"
	"image/png"
)

const (
	pngMagic    = "\x89PNG\r\n\x1a\n"
	ihdrBytes   = 13 // PNG (ISO/IEC 15948) section 11.2.2
	chunkAround = 12 // length, type and checksum of a chunk, section 5.3
)

var (
	errPNGHeader = errors.New("its header is damaged")
	errPNGCut    = errors.New("it is cut short")
	errPNGPixels = errors.New("its pixels, or what is written about them, are damaged")
	errNoPixels  = errors.New("it has no pixels")
)

// Colour types that take less than four bytes a pixel, ISO/IEC 15948 table 11.1.
const (
	pngGray    = 0
	pngPalette = 3
)

// rasterOfPNG reads the header of a PNG.
func rasterOfPNG(data []byte) raster {
	r := raster{name: "PNG"}
	head := data[min(len(data), len(pngMagic)):]
	if len(head) < ihdrBytes+chunkAround || string(head[4:8]) != "IHDR" || binary.BigEndian.Uint32(head) != ihdrBytes {
		r.err = errPNGHeader
		return r
	}
	width, height := binary.BigEndian.Uint32(head[8:]), binary.BigEndian.Uint32(head[12:])
	if width > maxPixels || height > maxPixels {
		width, height = min(width, maxPixels+1), min(height, maxPixels+1) // over the limit either way
	}
	r.width, r.height = int(width), int(height)
	transparent, whole := pngChunks(data)
	if !whole {
		r.err = errPNGCut
		return r
	}
	depth, colours, interlaced := head[16], head[17], head[20] != 0
	r.decodeBytes = min(r.pixels(), maxPixels+1) * pngPixelBytes(depth, colours, interlaced, transparent)
	r.decode = func() (*image.Gray, error) {
		img, err := png.Decode(bytes.NewReader(data))
		if err != nil {
			return nil, errPNGPixels
		}
		return grayOf(img), nil
	}
	return r
}

// pngChunks goes over the chunks by their lengths (section 5.3), as the decoder does:
// their content may say anything. transparent says that there is a tRNS chunk, by which
// a picture without an alpha channel gets one; whole, that the last chunk is there.
func pngChunks(data []byte) (transparent, whole bool) {
	for rest := data[len(pngMagic):]; len(rest) >= chunkAround; {
		switch string(rest[4:8]) {
		case "tRNS":
			transparent = true
		case "IEND":
			return transparent, true
		}
		length := binary.BigEndian.Uint32(rest)
		if uint64(length)+chunkAround > uint64(len(rest)) {
			break
		}
		rest = rest[chunkAround+int(length):]
	}
	return transparent, false
}

// pngPixelBytes is how much memory Go's decoder takes for a pixel at most, and the
// grey picture after it.
func pngPixelBytes(depth, colours byte, interlaced, transparent bool) int {
	bytes := 4
	switch {
	case colours == pngPalette, colours == pngGray && depth <= 8 && !transparent:
		bytes = 1
	case colours == pngGray && depth == 16 && !transparent:
		bytes = 2
	case depth == 16:
		bytes = 8
	}
	if interlaced {
		bytes *= 2 // each pass is a picture of its own first
	}
	return bytes + 1
}
