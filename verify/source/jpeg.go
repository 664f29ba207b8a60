package source

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/jpeg"
	"io"
)

const jpegMagic = "\xff\xd8\xff"

// Markers of ITU-T T.81 table B.1.
const (
	markerSOF0  = 0xc0 // baseline
	markerSOF1  = 0xc1 // extended sequential
	markerSOF2  = 0xc2 // progressive
	markerSOF15 = 0xcf
	markerDHT   = 0xc4 // within the range of the SOF markers, and no SOF
	markerJPG   = 0xc8 // as above
	markerDAC   = 0xcc // as above
	markerRST0  = 0xd0
	markerRST7  = 0xd7
	markerEOI   = 0xd9
	markerSOS   = 0xda
	markerAPP0  = 0xe0
	markerAPP1  = 0xe1
	markerAPP14 = 0xee
	markerAPP15 = 0xef
	markerCOM   = 0xfe
)

// Limits on a JPEG's structure. Every scan of a progressive picture goes over all of
// it, and takes a few bytes only; encoders write about ten.
const (
	maxJPEGSegments = 4096
	maxJPEGScans    = 64
)

var (
	errJPEGCut      = errors.New("it is cut short")
	errJPEGMarker   = errors.New("its parts are not in order")
	errJPEGSegments = errors.New("it is in more parts than a picture has")
	errJPEGScans    = errors.New("it is in more scans than a picture has")
	errJPEGFrame    = errors.New("its header is damaged")
	errJPEGKind     = errors.New("it is of a kind that is not read")
)

// jpegFrame is what the markers of a JPEG say.
type jpegFrame struct {
	process       byte // marker of the frame header
	width, height int
	components    int
	horizontal    [4]int // sampling factors, T.81 section B.2.2
	vertical      [4]int
	rgb           bool     // the components may be red, green and blue
	exif          []byte   // first APP1 segment with Exif in it
	kept          [][]byte // the file without what does not bear on the pixels
}

// rasterOfJPEG reads the header of a JPEG.
func rasterOfJPEG(data []byte) raster {
	r := raster{name: "JPEG"}
	frame, err := splitJPEG(data)
	if err != nil {
		r.err = err
		return r
	}
	r.width, r.height = frame.width, frame.height
	r.orientation = exifOrientation(frame.exif)
	r.decodeBytes = frame.decodeBytes()
	r.fourInks = frame.components == 4
	r.decode = func() (*image.Gray, error) {
		img, err := jpeg.Decode(frame.reader())
		if _, unsupported := errors.AsType[jpeg.UnsupportedError](err); unsupported {
			return nil, errJPEGKind
		}
		if err != nil {
			return nil, errSamples
		}
		return grayOf(img), nil
	}
	return r
}

// splitJPEG walks over the marker segments of a JPEG (T.81 section B.1.1) to the end
// of its first image. It drops application data and comments, in which anything may
// lie, thumbnails for one, so that the decoder sees nothing that was not counted.
func splitJPEG(data []byte) (jpegFrame, error) {
	var f jpegFrame
	segments, scans, keptFrom := 0, 0, 0
	drop := func(from, to int) {
		f.kept = append(f.kept, data[keptFrom:from])
		keptFrom = to
	}
	for at := 2; ; {
		marker, next, err := nextMarker(data, at)
		if err != nil {
			return f, err
		}
		if marker == markerEOI {
			f.kept = append(f.kept, data[keptFrom:next])
			break
		}
		if len(data)-next < 2 {
			return f, errJPEGCut
		}
		size := int(data[next])<<8 | int(data[next+1])
		if size < 2 || size > len(data)-next {
			return f, errJPEGCut
		}
		if segments++; segments > maxJPEGSegments {
			return f, errJPEGSegments
		}
		content, end := data[next+2:next+size], next+size
		switch {
		case marker == markerSOS:
			if scans++; scans > maxJPEGScans {
				return f, errJPEGScans
			}
			if end = endOfScan(data, end); end < 0 {
				return f, errJPEGCut
			}
		case marker == markerDHT, marker == markerJPG, marker == markerDAC:
		case marker >= markerSOF0 && marker <= markerSOF15:
			if err := f.frameHeader(marker, content); err != nil {
				return f, err
			}
		case marker == markerAPP1 && f.exif == nil && bytes.HasPrefix(content, []byte(exifHeader)):
			f.exif = content
			drop(at, end)
		case marker == markerAPP14: // which colours these are, with markerAPP0
			f.rgb = f.rgb || adobeRGB(content)
		case marker == markerAPP0:
		case marker > markerAPP0 && marker <= markerAPP15, marker == markerCOM:
			drop(at, end)
		}
		at = end
	}
	if f.process == 0 {
		return f, errJPEGFrame
	}
	return f, nil
}

// nextMarker reads the marker at at, which any number of fill bytes may stand before.
func nextMarker(data []byte, at int) (marker byte, next int, err error) {
	if at >= len(data) {
		return 0, 0, errJPEGCut
	}
	if data[at] != 0xff {
		return 0, 0, errJPEGMarker
	}
	for at < len(data) && data[at] == 0xff {
		at++
	}
	if at == len(data) {
		return 0, 0, errJPEGCut
	}
	if m := data[at]; m == 0 || m >= markerRST0 && m <= markerRST7 {
		return 0, 0, errJPEGMarker
	}
	return data[at], at + 1, nil
}

// endOfScan finds the marker after the entropy-coded data that start at at (T.81
// section B.1.1.5), or -1.
func endOfScan(data []byte, at int) int {
	for {
		i := bytes.IndexByte(data[at:], 0xff)
		if i < 0 || at+i+1 == len(data) {
			return -1
		}
		at += i
		if m := data[at+1]; m != 0 && m != 0xff && (m < markerRST0 || m > markerRST7) {
			return at
		}
		at++
	}
}

// frameHeader reads a frame header, T.81 section B.2.2.
func (f *jpegFrame) frameHeader(marker byte, b []byte) error {
	switch {
	case f.process != 0:
		return errJPEGFrame
	case marker > markerSOF2:
		return fmt.Errorf("%w: process %d of the standard", errJPEGKind, marker-markerSOF0)
	case len(b) < 6 || len(b) != 6+3*int(b[5]) || b[5] > 4:
		return errJPEGFrame
	}
	f.process = marker
	f.height, f.width = int(b[1])<<8|int(b[2]), int(b[3])<<8|int(b[4])
	f.components = int(b[5])
	f.rgb = f.rgb || f.components == 3 && b[6] == 'R' && b[9] == 'G' && b[12] == 'B'
	for i := range f.components {
		f.horizontal[i], f.vertical[i] = int(b[7+3*i]>>4), int(b[7+3*i]&15)
		if f.horizontal[i] == 0 || f.vertical[i] == 0 {
			return errJPEGFrame
		}
	}
	return nil
}

// decodeBytes is how much memory Go's decoder takes at most, and the grey picture
// after it: one byte a sample, four more for each coefficient of a progressive
// picture, and four bytes a pixel where the colours are not those of a photograph.
func (f *jpegFrame) decodeBytes() int {
	mcuWidth, mcuHeight := 8, 8
	if f.components > 1 {
		mcuWidth, mcuHeight = 8*f.horizontal[0], 8*f.vertical[0]
	}
	columns := (f.width + mcuWidth - 1) / mcuWidth
	rows := (f.height + mcuHeight - 1) / mcuHeight
	samples := 0
	for i := range f.components {
		perMCU := 64
		if f.components > 1 {
			perMCU *= f.horizontal[i] * f.vertical[i]
		}
		samples += columns * rows * perMCU
	}
	total := samples
	if f.process == markerSOF2 {
		total += 4 * samples
	}
	if pixels := f.width * f.height; f.components > 1 {
		total += pixels // the grey copy
		if f.components == 4 || f.rgb {
			total += 4 * pixels
		}
	}
	return total
}

// adobeRGB says whether an APP14 segment is Adobe's with a colour transform of 0,
// none (ITU-T T.872 section 6.5.3).
func adobeRGB(b []byte) bool {
	return len(b) >= 12 && string(b[:5]) == "Adobe" && b[11] == 0
}

// reader gives the decoder what was kept.
func (f *jpegFrame) reader() io.Reader {
	readers := make([]io.Reader, 0, len(f.kept))
	for _, kept := range f.kept {
		if len(kept) > 0 {
			readers = append(readers, bytes.NewReader(kept))
		}
	}
	return io.MultiReader(readers...)
}
