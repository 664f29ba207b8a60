package verifytest_test

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/draw"
	"image/gif"
	"image/jpeg"
	"image/png"
	"math"
	"strings"

	"github.com/skip2/go-qrcode"

	"hourseal/verify"
	"hourseal/verify/source"
)

const (
	moduleSide = 4   // of a module in a picture, in pixels
	paperDPI   = 150 // of a scanned page
)

var blackAndWhite = color.Palette{color.White, color.Black}

// codeOf draws the code of a text at level M with its four quiet modules, by a
// general-purpose library.
func codeOf(text string, module int) *image.Paletted {
	code := must(qrcode.New(text, qrcode.Medium))
	bitmap := code.Bitmap()
	out := image.NewPaletted(image.Rect(0, 0, len(bitmap)*module, len(bitmap)*module), blackAndWhite)
	for y, row := range bitmap {
		for x, dark := range row {
			if dark {
				draw.Draw(out, image.Rect(x*module, y*module, (x+1)*module, (y+1)*module), image.Black, image.Point{}, draw.Src)
			}
		}
	}
	return out
}

// sideBySide puts pictures in a row on white paper.
func sideBySide(all ...*image.Paletted) *image.Paletted {
	size := image.Point{}
	for _, p := range all {
		size = image.Pt(size.X+p.Rect.Dx(), max(size.Y, p.Rect.Dy()))
	}
	out := image.NewPaletted(image.Rectangle{Max: size}, blackAndWhite)
	x := 0
	for _, p := range all {
		draw.Draw(out, p.Rect.Add(image.Pt(x, 0)), p, image.Point{}, draw.Src)
		x += p.Rect.Dx()
	}
	return out
}

// turned is the picture turned by degrees on larger white paper, each pixel that of the
// nearest.
func turned(p *image.Paletted, degrees float64) *image.Paletted {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	w, h := float64(p.Rect.Dx()), float64(p.Rect.Dy())
	width, height := math.Abs(w*cos)+math.Abs(h*sin), math.Abs(w*sin)+math.Abs(h*cos)
	out := image.NewPaletted(image.Rect(0, 0, int(math.Round(width)), int(math.Round(height))), blackAndWhite)
	for y := range out.Rect.Dy() {
		for x := range out.Rect.Dx() {
			dx, dy := float64(x)+0.5-width/2, float64(y)+0.5-height/2
			at := image.Pt(int(math.Floor(dx*cos+dy*sin+w/2)), int(math.Floor(dy*cos-dx*sin+h/2)))
			if at.In(p.Rect) {
				out.SetColorIndex(x, y, p.ColorIndexAt(at.X, at.Y))
			}
		}
	}
	return out
}

func asPNG(p image.Image) []byte {
	var b bytes.Buffer
	if err := (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&b, p); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// emptyPNG is a square PNG of one bit a pixel whose only data are an empty zlib stream
// (ISO/IEC 15948 sections 11.2.2 and 11.2.4).
func emptyPNG(side uint32) []byte {
	out := []byte("\x89PNG\r\n\x1a\n")
	chunk := func(name string, data []byte) {
		out = binary.BigEndian.AppendUint32(out, uint32(len(data)))
		named := append([]byte(name), data...)
		out = binary.BigEndian.AppendUint32(append(out, named...), crc32.ChecksumIEEE(named))
	}
	size := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, side), side)
	chunk("IHDR", append(size, 1, 0, 0, 0, 0))
	chunk("IDAT", []byte{0x78, 0x01, 0x03, 0x00, 0x00, 0x00, 0x00, 0x01})
	chunk("IEND", nil)
	return out
}

func asJPEG(p image.Image, quality int) []byte {
	gray := image.NewGray(p.Bounds())
	draw.Draw(gray, gray.Rect, p, p.Bounds().Min, draw.Src)
	var b bytes.Buffer
	if err := jpeg.Encode(&b, gray, &jpeg.Options{Quality: quality}); err != nil {
		panic(err)
	}
	return b.Bytes()
}

func asGIF(p image.Image) []byte {
	var b bytes.Buffer
	if err := gif.Encode(&b, p, nil); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// photo is a picture in which the codes of an envelope are.
func photo(data, envelope []byte) input {
	return input{data: data, source: source.KindImage, envelope: envelope, deflated: true}
}

func pictures() []vector {
	envelope, other := sealed(service(), yardSeed), sealed(with(starboard), yardSeed)
	bad := flipped(envelope, payloadAt+20)
	code := codeOf(format1(host, envelope), moduleSide)
	foreign := codeOf("https://ellery-slip.example/menu", moduleSide)
	parts := format2(host, envelope, 2)
	first, second := codeOf(parts[0], moduleSide), codeOf(parts[1], moduleSide)
	of := func(name, what string, data []byte) vector {
		return vector{name, what, photo(data, envelope), reader{}, genuine(genuinePaper)}
	}
	no := func(name, what string, data []byte) vector {
		in := nothing(data)
		in.deflated = true
		return vector{name, what, in, reader{}, unreadable()}
	}
	cutOff := code.SubImage(image.Rect(0, 0, code.Rect.Dx()*2/3, code.Rect.Dy()))
	png := asPNG(code)
	return []vector{
		of("picture-png", "A picture of the code, PNG of one bit.", png),
		of("picture-jpeg", "A picture of the code, JPEG.", asJPEG(code, 70)),
		of("picture-upside-down", "The code upside down.", asPNG(turned(code, 180))),
		of("picture-on-its-side", "The code turned by 90 degrees.", asPNG(turned(code, 90))),
		of("picture-tilted", "The code turned by 10 degrees.", asPNG(turned(codeOf(format1(host, envelope), moduleSide+1), 10))),
		of("picture-of-two-parts", "Two codes in one picture, the second part on the left.", asPNG(sideBySide(second, first))),
		of("picture-with-foreign-code", "Somebody's other code beside the record's: it does not matter.", asPNG(sideBySide(foreign, code))),
		{"picture", "A picture of the code, taken of another machine's report.", photo(png, envelope), reader{serial: "0045121"}, otherMachine(otherSerial)},
		{"picture", "A picture of the code, and the reader trusts nobody.", photo(png, envelope), reader{trust: nobody}, unknown()},
		{"picture", "A picture of an altered record's code.", photo(asPNG(codeOf(format1(host, bad), moduleSide)), bad), reader{}, altered()},
		{"picture-elsewhere", "A picture of a code that leads to another address.", photo(asPNG(codeOf(format1(anotherHost, envelope), moduleSide)), envelope), reader{}, notOriginal(otherAddress)},
		no("picture-blank", "White paper.", asPNG(image.NewPaletted(image.Rect(0, 0, 400, 300), blackAndWhite))),
		no("picture-of-foreign-code", "Somebody's other code alone.", asPNG(foreign)),
		no("picture-of-fragment", "A code of # and the record's digits: none of ours is without its address.", asPNG(codeOf(fragment(format1(host, envelope)), moduleSide))),
		no("picture-of-label", "The code of a label, which names a record and does not hold it.", asPNG(codeOf(reference(host, envelope), moduleSide))),
		no("picture-of-one-part", "The first of two codes alone.", asPNG(first)),
		no("picture-of-two-records", "The codes of two records in one picture.", asPNG(sideBySide(code, codeOf(format1(host, other), moduleSide)))),
		no("picture-code-cut-off", "A third of the code is outside the picture.", asPNG(cutOff)),
		no("picture-cut-short", "The second half of the picture's file is missing.", png[:len(png)/2]),
		unread("picture-of-gigapixels", "The header of a PNG of 60,000 by 60,000 pixels, and nothing to fill them.", emptyPNG(60_000)),
		no("picture-gif", "A GIF, which is not read.", asGIF(code)),
		unread("picture-heic", "The first bytes of a HEIC picture, which is not read.", []byte("\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic")),
	}
}

// page is an A4 page at paperDPI with a code in its upper half, 80 mm wide or the next
// whole number of pixels a module below.
func page(text string) *image.Paletted {
	modules := codeOf(text, 1).Rect.Dx()
	code := codeOf(text, inPixels(80)/modules)
	out := image.NewPaletted(image.Rect(0, 0, inPixels(210), inPixels(297)), blackAndWhite)
	draw.Draw(out, code.Rect.Add(image.Pt(inPixels(20), inPixels(40))), code, image.Point{}, draw.Src)
	return out
}

// inPixels is a length on paper.
func inPixels(mm float64) int { return int(mm / 25.4 * paperDPI) }

// scanOf is a PDF with one picture a page and nothing else, as scanners write it.
func scanOf(images ...string) []byte {
	var kids []string
	objects := []string{catalog, ""}
	for _, picture := range images {
		at := len(objects) + 1
		kids = append(kids, fmt.Sprintf("%d 0 R", at))
		objects = append(objects,
			fmt.Sprintf("<< /Type /Page /Parent 2 0 R /MediaBox [0 0 595 842] /Contents %d 0 R /Resources << /XObject << /Im0 %d 0 R >> >> >>", at+1, at+2),
			stream("", []byte("q 595 0 0 842 0 0 cm /Im0 Do Q")), picture)
	}
	objects[1] = fmt.Sprintf("<< /Type /Pages /Kids [%s] /Count %d >>", strings.Join(kids, " "), len(kids))
	return writePDF("", objects...)
}

// flateImage is a picture of one bit a pixel, deflated.
func flateImage(p *image.Paletted) string {
	var b bytes.Buffer
	w := must(zlib.NewWriterLevel(&b, zlib.BestCompression))
	row := make([]byte, (p.Rect.Dx()+7)/8)
	for y := range p.Rect.Dy() {
		clear(row)
		for x := range p.Rect.Dx() {
			if p.ColorIndexAt(x, y) == 0 { // white is 1, ISO 32000-1 section 8.6.4.2
				row[x/8] |= 0x80 >> (x % 8)
			}
		}
		must(w.Write(row))
	}
	if err := w.Close(); err != nil {
		panic(err)
	}
	return stream(fmt.Sprintf("/Type /XObject /Subtype /Image /Width %d /Height %d /ColorSpace /DeviceGray /BitsPerComponent 1 /Filter /FlateDecode ",
		p.Rect.Dx(), p.Rect.Dy()), b.Bytes())
}

// jpegImage is a grey picture, JPEG.
func jpegImage(p *image.Paletted) string {
	return stream(fmt.Sprintf("/Type /XObject /Subtype /Image /Width %d /Height %d /ColorSpace /DeviceGray /BitsPerComponent 8 /Filter /DCTDecode ",
		p.Rect.Dx(), p.Rect.Dy()), asJPEG(p, 60))
}

// scans are PDFs of scanned paper: genuine in the code, and the page not compared.
func scans() []vector {
	envelope := sealed(service(), yardSeed)
	text := format1(host, envelope)
	parts := format2(host, envelope, 2)
	elsewhere := format1(anotherHost, envelope)
	notValidScan := notValidAnd("you trust it until 2026-05-03", notThisCode)
	notValidScan.page = notComparedPage
	untried := outcome{verify.NotOriginal, scanWords, notComparedPage, nil}
	scan := func(images ...string) input { return pdf(scanOf(images...), envelope) }
	no := func(name, what string, images ...string) vector {
		in := nothing(scanOf(images...))
		in.deflated = true
		return vector{name, what, in, reader{}, unreadable()}
	}
	return []vector{
		{"scan", "A scan of the report, PDF, one bit a pixel: what the paper says was not compared.", scan(flateImage(page(text))), reader{}, untried},
		{"scan-jpeg", "A scan of the report, PDF of a JPEG.", scan(jpegImage(page(text))), reader{}, untried},
		{"scan-of-two-pages", "A scan of two pages with one part of the record on each.", scan(flateImage(page(parts[0])), flateImage(page(parts[1]))), reader{}, untried},
		{"scan-and-other-machine", "A scan, read beside another machine: that its page was not compared outweighs it; the sentence says both.", scan(flateImage(page(text))), reader{serial: "0045121"}, untried.also(alsoSerial)},
		{"scan-and-hours-behind", "A scan, read beside a meter that is behind: likewise.", scan(flateImage(page(text))), reader{hours: "10"}, untried.also(alsoFewer)},
		{"scan", "A scan, and the reader trusts nobody.", scan(flateImage(page(text))), reader{trust: nobody},
			outcome{verify.UnknownSigner, unknownWords + scanRest, notComparedPage, nil}},
		{"scan-code-elsewhere", "A scan whose code leads to another address, and the reader trusts nobody: that the page was not compared does not hide it.",
			scan(flateImage(page(elsewhere))), reader{trust: nobody}, outcome{verify.UnknownSigner, unknownWords + notThisCode, notComparedPage, nil}},
		{"scan-code-elsewhere", "A scan whose code leads to another address, under a key that was not valid: likewise.",
			scan(flateImage(page(elsewhere))), reader{trust: trustYard(until("2026-05-03"))}, notValidScan},
		no("scan-blank", "A scan of white paper.", flateImage(image.NewPaletted(image.Rect(0, 0, 620, 877), blackAndWhite))),
		no("scan-of-first-page", "A scan of the first of two pages that have one part each.", flateImage(page(parts[0]))),
	}
}
