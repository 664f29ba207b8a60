package source

import (
	"bytes"
	"errors"
	"image"
	"io"
	"strconv"

	"golang.org/x/image/ccitt"
)

// A JPEG hardly deflates: one that is deflated may inflate to four times and a little,
// and to no more than a JPEG by itself may have.
const maxJPEGInflation, maxJPEGBeyond = 4, 64 << 10

// pdfPicture is an image XObject, ISO 32000-1 section 8.9.5.
type pdfPicture struct {
	width, height int
	bits          int // a component, 1, 2, 4, 8 or 16
	colours       colourSpace
	inverted      bool   // by its /Decode: 0 is white
	packing       string // "", DCTDecode or CCITTFaxDecode, the innermost filter
	deflated      bool   // and deflated as a whole
	fax           faxParams
	predictor     predictor
	content       []byte
}

// faxParams are those of CCITTFaxDecode, ISO 32000-1 table 11.
type faxParams struct {
	k        int  // below 0 for group 4, 0 for group 3
	blackIs1 bool // 1 is black
	aligned  bool // rows start at a byte
}

// Kinds of pictures that are not read, as a person may know them.
var unreadFilters = map[string]string{
	"JBIG2Decode":     "JBIG2",
	"JPXDecode":       "JPEG 2000",
	"LZWDecode":       "LZW",
	"RunLengthDecode": "run length",
}

// picture reads the dictionary of a picture. unread names its kind where it is not
// one that is read.
func (f *looseFile) picture(d looseDict, content []byte) (p pdfPicture, unread string) {
	p.content = content
	p.width, _ = f.natural(d["Width"])
	p.height, _ = f.natural(d["Height"])
	p.bits, _ = f.natural(d["BitsPerComponent"])
	if string(f.resolve(d["ImageMask"])) == "true" {
		p.bits = 1
		p.colours = colourSpace{components: 1}
	} else {
		p.colours = f.colours(d["ColorSpace"], 0)
	}
	if decode := f.list(d["Decode"]); len(decode) >= 2 && p.colours.palette == nil {
		low, errLow := strconv.ParseFloat(string(decode[0]), 64)
		high, errHigh := strconv.ParseFloat(string(decode[1]), 64)
		p.inverted = errLow == nil && errHigh == nil && low > high
	}
	params := f.list(d["DecodeParms"])
	for i, filter := range f.list(d["Filter"]) {
		name := f.name(filter)
		var param looseDict
		if i < len(params) {
			param = f.dict(params[i])
		}
		switch {
		case p.packing == "" && name == "FlateDecode" && !p.deflated:
			p.deflated = true
			p.predictor = f.predictor(param)
		case p.packing == "" && name == "DCTDecode":
			p.packing = name
		case p.packing == "" && name == "CCITTFaxDecode":
			p.packing, p.bits = name, 1
			if unread := f.faxParams(&p, param); unread != "" {
				return p, unread
			}
		default:
			if known := unreadFilters[name]; known != "" {
				return p, known
			}
			return p, "an unusual filter"
		}
	}
	switch {
	case p.packing == "DCTDecode": // says all the rest itself
	case p.colours.unknown != "":
		return p, p.colours.unknown
	case p.bits != 1 && p.bits != 2 && p.bits != 4 && p.bits != 8 && p.bits != 16:
		return p, "an unusual depth"
	}
	return p, ""
}

func (f *looseFile) faxParams(p *pdfPicture, d looseDict) (unread string) {
	is := func(key string) bool { return string(f.resolve(d[key])) == "true" }
	if k := f.resolve(d["K"]); bytes.HasPrefix(k, []byte("-")) {
		p.fax.k = -1
	} else if k, _ := f.natural(k); k > 0 {
		return "fax of mixed dimensions"
	}
	p.fax.blackIs1, p.fax.aligned = is("BlackIs1"), is("EncodedByteAlign")
	columns, given := f.natural(d["Columns"])
	if !given {
		columns = 1728 // table 11, the default
	}
	if p.width != columns {
		return "fax of another width"
	}
	return ""
}

// isStrip: a page is higher than half its width.
func (p pdfPicture) isStrip() bool { return 2*p.height <= p.width }

func (p pdfPicture) like(q pdfPicture) bool {
	return p.width == q.width && p.bits == q.bits && p.packing == q.packing && p.colours.components == q.colours.components
}

// raster says how to open the picture.
func (p pdfPicture) raster() raster {
	if p.packing == "DCTDecode" {
		return p.jpegRaster()
	}
	r := raster{name: "scan in a PDF", width: p.width, height: p.height}
	if p.width > 0 && p.height > 0 && p.width <= maxPixels/p.height {
		r.decodeBytes = p.width * p.height
	}
	r.decode = func() (*image.Gray, error) {
		img := whitePicture(p.width, p.height)
		var rows int
		var err error
		if p.packing == "" {
			rows, err = p.samples(img)
		} else {
			rows, err = p.decodeFax(img)
		}
		// A picture that is cut short is as good as what there is of it.
		if rows == 0 && err != nil {
			return nil, err
		}
		return img, nil
	}
	return r
}

func (p pdfPicture) jpegRaster() raster {
	content := p.content
	if p.deflated {
		var err error
		limit := int64(min(len(content)*maxJPEGInflation+maxJPEGBeyond, MaxImageBytes))
		if content, err = io.ReadAll(io.LimitReader(p.open(), limit)); err != nil && len(content) == 0 {
			return raster{name: "JPEG in a PDF", err: err}
		}
	}
	r := rasterOfJPEG(content)
	r.name = "JPEG in a PDF"
	if p.deflated {
		r.decodeBytes += cap(content)
	}
	r.orientation = 1 // a PDF turns its pictures itself
	// Go's decoder takes four inks for inverted, as Adobe's programs write them. In a
	// PDF they are what they say, and /Decode says that they are inverted.
	if p.inverted != r.fourInks && r.decode != nil {
		decode := r.decode
		r.decode = func() (*image.Gray, error) {
			img, err := decode()
			if err == nil {
				invert(img)
			}
			return img, err
		}
	}
	return r
}

// open gives the picture's data, inflated where they are deflated.
func (p pdfPicture) open() io.Reader {
	if !p.deflated {
		return bytes.NewReader(p.content)
	}
	return &lazyInflater{deflated: p.content}
}

var errFax = errors.New("its fax data are damaged, or of an unusual kind")

// decodeFax decodes CCITT group 3 or 4 (ITU-T T.4, T.6).
func (p pdfPicture) decodeFax(img *image.Gray) (rows int, err error) {
	format := ccitt.Group3
	if p.fax.k < 0 {
		format = ccitt.Group4
	}
	options := &ccitt.Options{Align: p.fax.aligned}
	r := ccitt.NewReader(p.open(), ccitt.MSB, format, p.width, p.height, options)
	row := make([]byte, (p.width+7)/8)
	for y := range p.height {
		if _, err := io.ReadFull(r, row); err != nil {
			return y, errFax
		}
		out := img.Pix[y*img.Stride:][:p.width]
		for x := range out {
			out[x] = 255 * (row[x>>3] >> (7 - x&7) & 1)
		}
		if p.fax.blackIs1 != p.inverted {
			invertRow(out)
		}
	}
	return p.height, nil
}

// colourSpace is a colour space, as far as brightness goes.
type colourSpace struct {
	components int        // 1, 3 or 4; 0: as many as fit the data
	palette    *[256]byte // brightness of each index
	ink        bool       // 0 is no ink, which is white
	unknown    string
}

// simpleColours lists colour spaces by name, ISO 32000-1 section 8.6.
var simpleColours = map[string]colourSpace{
	"DeviceGray": {components: 1}, "CalGray": {components: 1},
	"DeviceRGB": {components: 3}, "CalRGB": {components: 3},
	"DeviceCMYK": {components: 4, ink: true},
	"Separation": {components: 1, ink: true},
}

func (f *looseFile) colours(value []byte, depth int) colourSpace {
	if name := f.name(value); name != "" || depth > 2 {
		if c, known := simpleColours[name]; known && name != "Separation" {
			return c
		}
		return colourSpace{unknown: "an unusual colour space"}
	}
	space := f.list(value)
	if len(space) == 0 {
		return colourSpace{} // in an object stream, say
	}
	switch name := f.name(space[0]); {
	case name == "ICCBased" && len(space) > 1:
		switch n, _ := f.natural(f.dict(space[1])["N"]); n {
		case 1, 3:
			return colourSpace{components: n}
		case 4:
			return simpleColours["DeviceCMYK"]
		}
		return colourSpace{}
	case name == "Indexed" && len(space) == 4:
		base := f.colours(space[1], depth+1)
		if base.components == 0 || base.palette != nil {
			return colourSpace{unknown: "an unusual palette"}
		}
		return colourSpace{components: 1, palette: base.shades(f.bytes(space[3]))}
	default:
		if c, known := simpleColours[name]; known {
			return c
		}
		return colourSpace{unknown: "an unusual colour space"}
	}
}

// shades gives the brightness of each entry of a palette.
func (c colourSpace) shades(table []byte) *[256]byte {
	var shades [256]byte
	for i := range shades {
		if len(table) < c.components {
			break
		}
		shades[i] = c.shade(table)
		table = table[c.components:]
	}
	return &shades
}

// bytes resolves a string or the content of a short stream.
func (f *looseFile) bytes(value []byte) []byte {
	if number, ok := looseReference(value); ok {
		if d, next, ok := f.dictAt(f.at[number]); ok && f.at[number] > 0 {
			content := f.shortStream(d, next)
			if f.name(d["Filter"]) != "FlateDecode" {
				return content
			}
			content, _ = io.ReadAll(io.LimitReader(&lazyInflater{deflated: content}, 4*256))
			return content
		}
		value = f.resolve(value)
	}
	var text []byte
	switch {
	case bytes.HasPrefix(value, []byte("<")):
		text, _ = hexString(value, 0)
	case bytes.HasPrefix(value, []byte("(")):
		text, _ = literalString(value, 0)
	}
	return text
}
