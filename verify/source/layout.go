package source

import (
	"bytes"
	"strconv"
)

// Limits on a report's insides.
const (
	maxObjects       = 4096
	maxStreamBytes   = 4 << 20
	maxInflatedBytes = 16 << 20
)

// PDF is a file in the layout of a report, see the package comment. It keeps
// the bytes it was read from.
type PDF struct {
	data    []byte
	objects []object // as they stand in the file
	order   []int    // order[number] is the index in objects; order[0] is unused
	pages   []int    // numbers of the page content objects, first page first
	end     int      // offset of the cross-reference table

	envelope []byte
	texts    []string
	host     string
	keys     []byte
	names    []attachmentName
}

// Pages returns the number of pages.
func (p *PDF) Pages() int { return len(p.pages) }

// object is one "N 0 obj … endobj". All offsets are in the file; those of the
// stream and its /Length are 0 where there is no stream.
type object struct {
	number                 int
	from, to               int
	dict                   dict
	lengthFrom, lengthTo   int // the digits of /Length
	contentFrom, contentTo int // the stream's bytes as stored
	deflated               bool
}

func (o *object) hasStream() bool { return o.contentTo != 0 }

// number returns the object of that number, which must be in range.
func (p *PDF) number(n int) *object {
	if n < 1 || n >= len(p.order) {
		return nil
	}
	return &p.objects[p.order[n]]
}

// content returns a stream's bytes as stored.
func (p *PDF) content(o *object) []byte { return p.data[o.contentFrom:o.contentTo] }

// ReadPDF reads a report in the strict layout. The error is a *LayoutError. The
// result keeps data, which must not change afterwards.
func ReadPDF(data []byte) (*PDF, error) {
	p := &PDF{data: data}
	if len(data) > MaxPDFBytes {
		return nil, &LayoutError{Reason: "the file is longer than " + strconv.Itoa(MaxPDFBytes) + " bytes"}
	}
	s := &scanner{data: data}
	if err := p.readHeader(s); err != nil {
		return nil, err
	}
	for !s.literal("xref\n") {
		o, err := readObject(s)
		if err != nil {
			return nil, err
		}
		if len(p.objects) == maxObjects {
			return nil, &LayoutError{At: o.from, Reason: "more than " + strconv.Itoa(maxObjects) + " objects"}
		}
		p.objects = append(p.objects, o)
	}
	p.end = s.pos - len("xref\n")
	if err := p.checkNumbers(s.largestRef); err != nil {
		return nil, err
	}
	if want := p.tail(); !bytes.Equal(data[p.end:], want) {
		return nil, &LayoutError{At: p.end + commonPrefix(data[p.end:], want), Reason: "the cross-reference table, the trailer or the end of the file is not what the objects call for"}
	}
	if err := p.readPages(); err != nil {
		return nil, err
	}
	if err := p.readAttachments(s.embeddedFiles, s.fileLinks); err != nil {
		return nil, err
	}
	if err := p.checkStreams(); err != nil {
		return nil, err
	}
	return p, nil
}

func (p *PDF) readHeader(s *scanner) error {
	if s.literal("%PDF-1.") {
		if version := s.peek(); version >= '3' && version <= '7' {
			s.pos++
			if s.literal("\n") {
				return nil
			}
		}
	}
	return &LayoutError{At: s.pos, Reason: "the file does not start with the header of a report"}
}

// readObject reads the object at the scanner's place.
func readObject(s *scanner) (object, error) {
	o := object{from: s.pos}
	fault := func(reason string) (object, error) {
		return o, &LayoutError{Object: o.number, At: s.pos, Reason: reason}
	}
	n, ok := s.natural()
	if !ok || n == 0 || !s.literal(" 0 obj\n") {
		return fault("neither an object nor the cross-reference table")
	}
	o.number = n
	if o.dict, ok = s.dict(0); !ok {
		return fault(s.reason)
	}
	switch {
	case s.literal("\nendobj\n"):
		o.to = s.pos
		return o, nil
	// The writer puts an empty line between the dictionary of an embedded file
	// and its stream.
	case s.literal("\nstream\n"), s.literal("\n\nstream\n"):
	default:
		return fault("neither a stream nor the end of the object follows the dictionary")
	}
	if reason := o.readStream(s); reason != "" {
		return fault(reason)
	}
	o.to = s.pos
	return o, nil
}

// streamKeys are all the keys that a stream's dictionary may have. Others could
// say that its bytes are to be read in some further way.
var streamKeys = []string{"Type", "Subtype", "Length", "Filter", "Length1", "Params"}

func (o *object) readStream(s *scanner) (reason string) {
	if !o.dict.only(streamKeys...) {
		return "a stream with keys that this program does not write"
	}
	length, ok := naturalOf(o.dict.get("Length"))
	if !ok {
		return "a stream without a direct length"
	}
	for _, e := range o.dict {
		if string(e.key) == "Length" {
			o.lengthFrom, o.lengthTo = e.from, e.to
		}
	}
	if filter := o.dict.get("Filter"); filter != nil {
		if o.deflated = string(filter) == "/FlateDecode"; !o.deflated {
			return "a stream with a filter that this program does not write"
		}
	}
	if kind := string(o.dict.get("Type")); kind == "/ObjStm" || kind == "/XRef" {
		return "a stream of objects or cross-references"
	}
	if length > len(s.data)-s.pos {
		return "a stream runs over the end of the file"
	}
	o.contentFrom, o.contentTo = s.pos, s.pos+length
	s.pos = o.contentTo
	if !s.literal("\nendstream\nendobj\n") {
		return "a stream does not end where its length says"
	}
	return ""
}

// checkNumbers makes sure that the objects are numbered 1 to n, each once, and
// that nothing refers to an object beyond.
func (p *PDF) checkNumbers(largestRef int) error {
	p.order = make([]int, len(p.objects)+1)
	for i := range p.order {
		p.order[i] = -1
	}
	for i, o := range p.objects {
		if o.number >= len(p.order) {
			return &LayoutError{Object: o.number, At: o.from, Reason: "object numbers are missing"}
		}
		if p.order[o.number] >= 0 {
			return &LayoutError{Object: o.number, At: o.from, Reason: "an object number is used twice"}
		}
		p.order[o.number] = i
	}
	if len(p.objects) < 3 {
		return &LayoutError{At: p.end, Reason: "too few objects"}
	}
	if largestRef >= len(p.order) {
		return &LayoutError{At: p.end, Reason: "a reference to an object that is not there"}
	}
	return nil
}

// tail writes what has to follow the objects: the cross-reference table, the
// trailer and the end of the file.
func (p *PDF) tail() []byte {
	n := len(p.objects)
	b := make([]byte, 0, 120+20*n)
	b = append(b, "xref\n0 "...)
	b = strconv.AppendInt(b, int64(n+1), 10)
	b = append(b, "\n0000000000 65535 f \n"...)
	for number := 1; number <= n; number++ {
		offset := strconv.Itoa(p.number(number).from)
		b = append(b, "0000000000"[len(offset):]...)
		b = append(b, offset...)
		b = append(b, " 00000 n \n"...)
	}
	b = append(b, "trailer\n<<\n/Size "...)
	b = strconv.AppendInt(b, int64(n+1), 10)
	b = append(b, "\n/Root "...)
	b = strconv.AppendInt(b, int64(n), 10)
	b = append(b, " 0 R\n/Info "...)
	b = strconv.AppendInt(b, int64(n-1), 10)
	b = append(b, " 0 R\n>>\nstartxref\n"...)
	b = strconv.AppendInt(b, int64(p.end), 10)
	return append(b, "\n%%EOF\n"...)
}

// readPages lists the content of each page in reading order. The catalog is the
// last object and the pages' root is object 1.
func (p *PDF) readPages() error {
	catalog := p.number(len(p.objects))
	if catalog.hasStream() || !catalog.dict.is("Type", "/Catalog") || !catalog.dict.is("Pages", "1 0 R") ||
		!catalog.dict.only("Type", "Pages", "Lang", "OpenAction", "PageLayout", "PageMode", "Outlines", "Names") {
		return &LayoutError{Object: catalog.number, At: catalog.from, Reason: "not the catalog of a report"}
	}
	if open := catalog.dict.get("OpenAction"); open != nil && open[0] != '[' {
		return &LayoutError{Object: catalog.number, At: catalog.from, Reason: "the file does something when it is opened"}
	}
	root := p.number(1)
	kids, ok := references(root.dict.get("Kids"))
	count, counted := naturalOf(root.dict.get("Count"))
	if !ok || !counted || count != len(kids) || count == 0 || !root.dict.is("Type", "/Pages") {
		return &LayoutError{Object: 1, At: root.from, Reason: "not the list of a report's pages"}
	}
	seen := map[int]bool{}
	for _, kid := range kids {
		page := p.number(kid)
		if page == nil || seen[kid] || !page.dict.is("Type", "/Page") || !page.dict.is("Parent", "1 0 R") {
			return &LayoutError{Object: 1, At: root.from, Reason: "the list of pages names something else"}
		}
		seen[kid] = true
		number, ok := reference(page.dict.get("Contents"))
		content := p.number(number)
		if !ok || content == nil || !content.hasStream() || seen[-number] {
			return &LayoutError{Object: kid, At: page.from, Reason: "a page without content of its own"}
		}
		seen[-number] = true
		p.pages = append(p.pages, number)
	}
	for i := range p.objects {
		if o := &p.objects[i]; o.dict.is("Type", "/Page") && !seen[o.number] {
			return &LayoutError{Object: o.number, At: o.from, Reason: "a page that is not in the list of pages"}
		}
	}
	return nil
}

// checkStreams inflates every deflated stream, keeping nothing.
func (p *PDF) checkStreams() error {
	total := 0
	for i := range p.objects {
		o := &p.objects[i]
		if !o.deflated {
			continue
		}
		n, err := inflate(p.content(o), min(maxStreamBytes, maxInflatedBytes-total), nil)
		if err != nil {
			return &LayoutError{Object: o.number, At: o.contentFrom, Reason: err.Error()}
		}
		total += n
	}
	return nil
}

func commonPrefix(a, b []byte) int {
	n := min(len(a), len(b))
	for i := range n {
		if a[i] != b[i] {
			return i
		}
	}
	return n
}
