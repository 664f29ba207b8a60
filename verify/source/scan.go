package source

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"image"
	"slices"
	"strings"

	"hourseal/verify/source/picture"
)

// Limits on the pictures of a scan, all together.
const (
	maxScanPictures = 16
	// maxScanObjects is how many image objects are looked at, strips of pages for the
	// most part: ten A4 pages at 300 dpi in strips of four rows are 8770.
	maxScanObjects = 10_000
	maxScanPixels  = 90_000_000 // ten A4 pages at 300 dpi
	// maxScanBytes is how many they have where they are stored as pixels: so many in
	// colour, of 8 bits.
	maxScanBytes = 3 * maxScanPixels
	// maxScanDeflated is how many bytes are inflated for them, once for each look: a
	// stream can be made of blocks that cost much and hold little.
	maxScanDeflated = 12 << 20
	// maxSearchedPixels is how many are searched thoroughly where a quick look found
	// no record. A picture has searchedLeast at least and costs no more than one of
	// searchedMost, however large it is.
	maxSearchedPixels = 18_000_000
	searchedLeast     = 1_500_000
	searchedMost      = 6_000_000
	// minScanSide is that of the smallest picture worth looking at, in pixels: a
	// QR code has 21 modules at least.
	minScanSide = 21
)

// scanned is what the pictures in a PDF came to.
type scanned struct {
	pictures   int      // opened
	pixels     int      // of those
	hasty      bool     // some pictures were looked at quickly, and no more
	unread     []string // kinds of those that are not read, each once
	damaged    error    // why the first one of the others could not be opened
	locked     bool     // the PDF is encrypted
	partly     bool     // the rest of the PDF was not searched to the end
	overlooked bool     // the PDF has more objects than are looked through
	cut        bool     // the PDF ends before its end
	many       bool     // there are more image objects than are looked at
	codes      codes
}

// readScan reads the codes in the pictures of a PDF in which no record was found
// otherwise. refused is why it is not in the layout of a report, because what to say
// where there are no pictures in it; partly says that not all of the rest was searched.
func readScan(data []byte, refused, because error, partly bool) (Found, error) {
	s := scanned{locked: bytes.Contains(data, []byte("/Encrypt")), partly: partly, cut: isCut(data)}
	f := newLooseFile(data)
	pages := groupStrips(f.pictures(&s))
	s.overlooked = f.over
	found, err := s.read(pages)
	switch {
	case err == nil:
		found.Salvaged = refused.Error()
		return found, nil
	case errors.Is(err, ErrNoCode):
		return Found{}, s.withoutCode(because)
	}
	return Found{}, err
}

// withoutCode says why there is no code in a PDF, or because where nothing is known of
// its pictures.
func (s *scanned) withoutCode(because error) error {
	switch {
	case s.locked:
		return &InputError{Kind: ErrNoRecord, Reason: "this PDF is locked (encrypted), and nothing in it can be read", Hint: hintLocked}
	case len(s.unread) > 0:
		return &InputError{
			Kind: ErrImage, Hint: hintScanFormat,
			Reason: "the pages of this PDF are pictures of a kind that this program does not read (" + strings.Join(s.unread, ", ") + ")",
		}
	case s.damaged != nil:
		return &InputError{Kind: ErrUnreadable, Reason: "no service record was found in this PDF", Hint: hintScanFormat, Cause: s.damaged}
	case s.pictures > 0 && s.overlooked:
		return &InputError{Kind: ErrTooLarge, Reason: "no service record was found in this PDF, which has more in it than this program looks through", Hint: hintFewerPages}
	case s.pictures > 0 && s.cut:
		return &InputError{Kind: ErrNoRecord, Reason: "no service record was found in this PDF, which is cut short", Hint: hintCutPDF}
	case s.pictures > 0 && s.hasty:
		return &InputError{Kind: ErrNoRecord, Reason: "no service record was found in this PDF, and no QR code at a quick look at its many pictures", Hint: hintFewerPages}
	case s.pictures > 0 && !s.partly:
		return &InputError{Kind: ErrNoRecord, Reason: "no service record was found in this PDF, and no QR code in its pictures", Hint: hintNoCodeInScan}
	}
	return because
}

// read opens the pictures one after the other, and says what their codes come to.
func (s *scanned) read(pages [][]pdfPicture) (Found, error) {
	if s.many {
		return tooManyPictures("over %d pictures", maxScanObjects)
	}
	pixels, deflated := 0, 0 // as the dictionaries say
	for _, page := range pages {
		for _, p := range page {
			if p.height > 0 && p.width > maxScanPixels/p.height {
				return tooManyPictures("a picture of %d x %d pixels", p.width, p.height)
			}
			pixels += p.width * p.height
			if p.deflated {
				deflated += len(p.content)
			}
		}
	}
	switch {
	case len(pages) > maxScanPictures:
		return tooManyPictures("%d pictures", len(pages))
	case pixels > maxScanPixels:
		return tooManyPictures("pictures of %d million pixels", pixels/1_000_000)
	case deflated > maxScanDeflated:
		return tooManyPictures("deflated pictures of over %d MiB", maxScanDeflated>>20)
	case !fit(pages):
		return tooManyPictures("pictures of over %d million bytes", maxScanBytes/1_000_000)
	}
	// A scan is flat and sharp as a rule: a quick look will do, and pages without a
	// code, which are most, cost little.
	seen := make([][]picture.Symbol, len(pages))
	order := make([]int, 0, len(pages))
	for i, page := range pages {
		r := joined(page)
		if r.check() == nil {
			if s.pixels += r.pixels(); s.pixels > maxScanPixels { // a JPEG has its own header
				return tooManyPictures("pictures of over %d million pixels", maxScanPixels/1_000_000)
			}
		}
		var err error
		seen[i], err = s.codes.readRaster(r, picture.Quick)
		switch {
		case err == nil:
			s.pictures++
			order = append(order, i)
		case errors.Is(err, ErrTooLarge):
			return Found{}, err
		case s.damaged == nil:
			s.damaged = err
		}
	}
	if found, err := s.codes.found(scan); err == nil || errors.Is(err, ErrTwoRecords) {
		return found, err
	}
	// Where a code was seen the effort is best spent.
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(min(1, len(seen[b])), min(1, len(seen[a]))) })
	left := maxSearchedPixels
	for _, i := range order {
		r := joined(pages[i])
		if left -= min(max(r.pixels(), searchedLeast), searchedMost); left < 0 {
			s.hasty = true
			break
		}
		var err error
		if seen[i], err = s.codes.readRaster(r, picture.Thorough); err != nil {
			return Found{}, err
		}
	}
	s.codes.unread = slices.Concat(seen...)
	return s.codes.found(scan)
}

// fit finds the colour spaces that cannot be found otherwise, once for all looks at the
// pictures, since it inflates them. It says whether all of them are within maxScanBytes.
func fit(pages [][]pdfPicture) bool {
	left := maxScanBytes
	for _, page := range pages {
		for i := range page {
			p := &page[i]
			if p.packing != "" {
				continue
			}
			if p.colours.components == 0 {
				var have int64
				p.colours, have = p.fitting(left + 1)
				left -= int(have)
			} else {
				left -= rowBytes(p.width, p.colours.components, p.bits) * p.height
			}
			if left < 0 {
				return false
			}
		}
	}
	return true
}

func tooManyPictures(what string, args ...any) (Found, error) {
	return Found{}, &InputError{
		Kind: ErrTooLarge, Hint: hintFewerPages,
		Reason: "this PDF holds " + fmt.Sprintf(what, args...) + ", more than this program searches for a code",
	}
}

// pictures lists the pictures of a PDF in the order of the file; kinds that are not
// read go to s.
func (f *looseFile) pictures(s *scanned) []pdfPicture {
	var all []pdfPicture
	end, looked := 0, 0
	for _, p := range f.places {
		if p.offset < end || f.at[p.number] != p.offset { // within a stream, or replaced later
			continue
		}
		d, next, ok := f.dictAt(p.offset)
		if !ok || f.name(d["Subtype"]) != "Image" {
			continue
		}
		if looked++; looked > maxScanObjects {
			s.many = true
			return nil
		}
		content, streamEnd, ok := f.stream(d, next)
		if !ok {
			continue
		}
		end = streamEnd
		picture, unread := f.picture(d, content)
		if unread != "" {
			if !slices.Contains(s.unread, unread) {
				s.unread = append(s.unread, unread)
			}
			continue
		}
		all = append(all, picture)
	}
	return all
}

// groupStrips puts the strips of a page together: scanners cut a page into pictures
// of equal width, one below the other. What is too small for a code is left out.
func groupStrips(pictures []pdfPicture) [][]pdfPicture {
	var pages [][]pdfPicture
	for i, p := range pictures {
		last := len(pages) - 1
		if i > 0 && p.isStrip() && pictures[i-1].isStrip() && p.like(pictures[i-1]) {
			pages[last] = append(pages[last], p)
			continue
		}
		pages = append(pages, []pdfPicture{p})
	}
	return slices.DeleteFunc(pages, func(page []pdfPicture) bool {
		height := 0
		for _, p := range page {
			height += p.height
		}
		return page[0].width < minScanSide || height < minScanSide
	})
}

// isCut says whether a PDF lacks its last line, which readers look for in the last 1024
// bytes (ISO 32000-1 section 7.5.5; the 1024 is from memory of
// PDF Reference 1.7, appendix H, note 18).
func isCut(data []byte) bool {
	return !bytes.Contains(data[max(0, len(data)-1024):], []byte("%%EOF"))
}

var errStripSize = errors.New("a strip of it is of another size than the PDF says")

// joined is the picture that strips make, or the one picture there is.
func joined(page []pdfPicture) raster {
	if len(page) == 1 {
		return page[0].raster()
	}
	r := raster{name: "scan in a PDF", width: page[0].width}
	decodeBytes := 0
	for _, p := range page {
		strip := p.raster()
		if err := strip.check(); err != nil {
			r.err = err
			return r
		}
		// A strip's own header says how much there is to decode, and the dictionary how
		// much was allowed for.
		if strip.width != p.width || strip.height != p.height {
			r.err = errStripSize
			return r
		}
		r.height += p.height
		decodeBytes = max(decodeBytes, strip.decodeBytes)
	}
	r.decodeBytes = decodeBytes + r.pixels()
	r.decode = func() (*image.Gray, error) {
		whole := whitePicture(r.width, r.height)
		from := 0
		for _, p := range page {
			strip, err := p.raster().decode()
			if err != nil {
				return nil, err
			}
			b := strip.Bounds()
			for y := range min(b.Dy(), p.height) {
				copy(whole.Pix[(from+y)*whole.Stride:][:r.width], strip.Pix[strip.PixOffset(b.Min.X, b.Min.Y+y):][:min(b.Dx(), r.width)])
			}
			from += p.height
		}
		return whole, nil
	}
	return r
}

func whitePicture(width, height int) *image.Gray {
	img := image.NewGray(image.Rect(0, 0, width, height))
	for i := range img.Pix {
		img.Pix[i] = 255
	}
	return img
}
