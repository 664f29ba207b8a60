package source

import (
	"bytes"
	"fmt"
	"image"
	"runtime"
	"sync"

	"hourseal/verify/source/picture"
)

// Limits on a picture. They keep the whole of an answer under 256 MiB and 10 s.
const (
	MaxImageBytes = 32 << 20 // of the file
	// maxPixels is 600 dpi on A4 (35 million) and the usual large telephone
	// photograph (50 million and a little).
	maxPixels = 8192 * 6144
	// maxDecodeBytes is how much memory decoding may take, reckoned from the header
	// before anything is decoded.
	maxDecodeBytes = 176 << 20
)

// bigPixels is the size from which pictures are worked on one at a time, however
// many inputs are read at once: two of the largest together would take twice the
// memory.
const bigPixels = 4_000_000

var bigPicture sync.Mutex

// imageMagic lists the first bytes of common picture files. Sources: PNG
// (ISO/IEC 15948) 5.2; JPEG (ITU-T T.81) B.1.1.3 SOI; GIF89a specification 17;
// TIFF 6.0 section 2; RIFF container of WebP (RFC 9649) 2.4.
var imageMagic = []struct{ name, magic string }{
	{"PNG", pngMagic},
	{"JPEG", jpegMagic},
	{"GIF", "GIF8"},
	{"TIFF", "II*\x00"},
	{"TIFF", "MM\x00*"},
	{"WebP", "RIFF"},
}

func imageName(data []byte) string {
	for _, m := range imageMagic {
		if bytes.HasPrefix(data, []byte(m.magic)) {
			return m.name
		}
	}
	switch {
	// ISO base media files (HEIC, AVIF) have their brand after a length.
	case len(data) >= 12 && string(data[4:8]) == "ftyp":
		return "HEIC or AVIF"
	case isBMP(data):
		return "BMP"
	}
	return ""
}

// isBMP: two letters are too few to go by, a text may begin with them. The four bytes
// reserved in a bitmap's file header are 0 (Microsoft, BITMAPFILEHEADER).
func isBMP(data []byte) bool {
	return len(data) >= 14 && string(data[:2]) == "BM" && string(data[6:10]) == "\x00\x00\x00\x00"
}

// readImage reads the codes of a picture file.
func readImage(data []byte, name string) (Found, error) {
	if len(data) > MaxImageBytes {
		return Found{}, tooLarge("picture", len(data), MaxImageBytes)
	}
	var r raster
	switch name {
	case "JPEG":
		r = rasterOfJPEG(data)
	case "PNG":
		r = rasterOfPNG(data)
	default:
		return Found{}, &InputError{Kind: ErrImage, Reason: "this is a picture (" + name + "), which this program does not read", Hint: hintFormat}
	}
	var c codes
	var err error
	if c.unread, err = c.readRaster(r, picture.Thorough); err != nil {
		return Found{}, err
	}
	return c.found(photograph)
}

// raster is a picture whose header was read.
type raster struct {
	name          string // of its format, for a person
	width, height int    // pixels, before it is turned
	decodeBytes   int    // memory that decoding takes at most
	orientation   int    // as in Exif, 1 to 8
	fourInks      bool   // a JPEG in the four printing colours
	decode        func() (*image.Gray, error)
	err           error // why the header is not one that is read
}

func (r raster) pixels() int { return r.width * r.height }

// check says why a picture is not to be decoded.
func (r raster) check() error {
	switch {
	case r.err != nil:
		return damagedPicture(r.name, r.err)
	case r.width <= 0 || r.height <= 0:
		return damagedPicture(r.name, errNoPixels)
	case r.width > maxPixels/r.height || r.decodeBytes > maxDecodeBytes:
		return &InputError{
			Kind: ErrTooLarge, Hint: hintFewerPixels,
			Reason: fmt.Sprintf("this picture (%s, %d x %d pixels) is larger than this program opens", r.name, r.width, r.height),
		}
	}
	return nil
}

// readRaster decodes a picture and adds its codes, and hands back those that were seen
// and not read.
func (c *codes) readRaster(r raster, effort picture.Effort) (unread []picture.Symbol, err error) {
	if err := r.check(); err != nil {
		return nil, err
	}
	big := r.pixels() > bigPixels
	if big {
		bigPicture.Lock()
		defer bigPicture.Unlock()
		runtime.GC() // what the picture before this one took
	}
	img, err := r.decode()
	if err != nil {
		return nil, damagedPicture(r.name, err)
	}
	img = upright(img, r.orientation)
	if big {
		// What decoding took is several times the picture, and the search for codes
		// needs memory of its own.
		runtime.GC()
	}
	return c.read(img, effort), nil
}

func damagedPicture(name string, cause error) error {
	return &InputError{
		Kind: ErrUnreadable, Reason: "this picture (" + name + ") cannot be opened", Cause: cause,
		Hint: "take the picture again, or save it again as JPEG or PNG",
	}
}
