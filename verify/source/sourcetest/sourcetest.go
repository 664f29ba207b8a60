// Package sourcetest changes reports the way that other programs and forgers
// do, for tests. It shares no code with the strict reader: it finds its way
// around a file by the cross-reference table, which the reader recomputes.
//
// It takes the PDFs that package fpdf writes and nothing else.
package sourcetest

import (
	"bytes"
	"cmp"
	"compress/zlib"
	"crypto/md5"
	"errors"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strconv"
	"unicode/utf16"
)

// Edit changes the content of a page; the result may have another length.
type Edit func(content []byte) []byte

// Redeflate deflates all streams again at a level of compress/zlib and writes
// the cross-reference table anew. The content stays as it is.
func Redeflate(pdf []byte, level int) ([]byte, error) {
	f, err := parse(pdf)
	if err != nil {
		return nil, err
	}
	for i := range f.objects {
		o := &f.objects[i]
		if !o.deflated() {
			continue
		}
		content, err := o.content()
		if err != nil {
			return nil, err
		}
		if err := o.setContent(content, level); err != nil {
			return nil, err
		}
	}
	return f.bytes(), nil
}

// EditPage changes what a page shows, counting pages from 1 in file order.
func EditPage(pdf []byte, page int, edit Edit) ([]byte, error) {
	f, err := parse(pdf)
	if err != nil {
		return nil, err
	}
	o, content, err := f.page(page)
	if err != nil {
		return nil, err
	}
	if err := o.setContent(edit(content), zlib.BestSpeed); err != nil {
		return nil, err
	}
	return f.bytes(), nil
}

// ReplaceAttachment puts other content into an attachment, with the size and
// checksum that go with it.
func ReplaceAttachment(pdf []byte, name string, content []byte) ([]byte, error) {
	f, err := parse(pdf)
	if err != nil {
		return nil, err
	}
	_, o, err := f.attachment(name)
	if err != nil {
		return nil, err
	}
	o.dict = regexp.MustCompile(`<< /CheckSum .* /Size \d+ >>`).ReplaceAll(o.dict, params(content))
	if err := o.setContent(content, zlib.BestSpeed); err != nil {
		return nil, err
	}
	return f.bytes(), nil
}

// RenameAttachment gives an attachment another name.
func RenameAttachment(pdf []byte, from, to string) ([]byte, error) {
	f, err := parse(pdf)
	if err != nil {
		return nil, err
	}
	spec, _, err := f.attachment(from)
	if err != nil {
		return nil, err
	}
	spec.dict = bytes.Replace(spec.dict, text16(from), text16(to), 1)
	return f.bytes(), nil
}

// AddAttachment adds an attachment with its entry in the list of attachments.
func AddAttachment(pdf []byte, name string, content []byte) ([]byte, error) {
	return addAttachment(pdf, name, content, true)
}

// HideAttachment adds an attachment that the list of attachments does not name.
func HideAttachment(pdf []byte, name string, content []byte) ([]byte, error) {
	return addAttachment(pdf, name, content, false)
}

func addAttachment(pdf []byte, name string, content []byte, listed bool) ([]byte, error) {
	f, err := parse(pdf)
	if err != nil {
		return nil, err
	}
	// Only the trailer refers to the last two objects, the document information
	// and the catalog, so they can make room.
	n := len(f.objects)
	info, catalog := &f.objects[n-2], &f.objects[n-1]
	if info.number != n-1 || catalog.number != n {
		return nil, errors.New("the last objects are not the document information and the catalog")
	}
	info.number, catalog.number = n+1, n+2
	file := object{
		number: n - 1,
		dict:   fmt.Appendf(nil, "<< /Type /EmbeddedFile /Length 0 /Filter /FlateDecode /Params %s >>", params(content)),
		gap:    "\n\n",
	}
	if err := file.setContent(content, zlib.BestSpeed); err != nil {
		return nil, err
	}
	spec := object{
		number: n,
		dict:   fmt.Appendf(nil, "<< /Type /Filespec /F () /UF (%s) /EF << /F %d 0 R >> /Desc (\xfe\xff)\n>>", text16(name), n-1),
	}
	if listed {
		count := bytes.Count(catalog.dict, []byte("(Attachement"))
		entry := fmt.Appendf(nil, "\n(Attachement%d) %d 0 R  \n] >>", count+1, n)
		catalog.dict = bytes.Replace(catalog.dict, []byte(" \n] >>"), entry, 1)
	}
	f.objects = slices.Insert(f.objects, n-2, file, spec)
	return f.bytes(), nil
}

// AppendUpdate shows another content of a page by an incremental update
// (ISO 32000-1 section 7.5.6): the file stays, a newer object and a second
// cross-reference section follow.
func AppendUpdate(pdf []byte, page int, edit Edit) ([]byte, error) {
	f, err := parse(pdf)
	if err != nil {
		return nil, err
	}
	o, content, err := f.page(page)
	if err != nil {
		return nil, err
	}
	if err := o.setContent(edit(content), zlib.BestSpeed); err != nil {
		return nil, err
	}
	var b bytes.Buffer
	b.Write(pdf)
	at := b.Len()
	o.write(&b)
	table := b.Len()
	fmt.Fprintf(&b, "xref\n%d 1\n%010d 00000 n \n", o.number, at)
	n := len(f.objects)
	fmt.Fprintf(&b, "trailer\n<<\n/Size %d\n/Root %d 0 R\n/Info %d 0 R\n/Prev %d\n>>\nstartxref\n%d\n%%%%EOF\n", n+1, n, n-1, f.table, table)
	return b.Bytes(), nil
}

// Rebuild takes a file apart and puts it together again. A report comes back
// as it was, which shows that the other functions change what they say only.
func Rebuild(pdf []byte) ([]byte, error) {
	f, err := parse(pdf)
	if err != nil {
		return nil, err
	}
	return f.bytes(), nil
}

// Text16 is text as a page's content has it: UTF-16BE with the escapes of a
// literal string.
func Text16(text string) []byte { return escape16(text) }

type file struct {
	header  []byte
	objects []object
	table   int // offset of the cross-reference table
}

type object struct {
	number int
	dict   []byte
	gap    string // between dictionary and stream
	stream []byte
	isFile bool // a stream follows
}

var (
	startXref = regexp.MustCompile(`startxref\n(\d+)\n%%EOF\n$`)
	xrefEntry = regexp.MustCompile(`(\d{10}) 00000 n \n`)
	length    = regexp.MustCompile(`/Length \d+`)
	fileRef   = regexp.MustCompile(`/EF << /F (\d+) 0 R >>`)
)

func parse(pdf []byte) (*file, error) {
	m := startXref.FindSubmatch(pdf)
	if m == nil {
		return nil, errors.New("no startxref at the end")
	}
	table, err := strconv.Atoi(string(m[1]))
	if err != nil || table > len(pdf) {
		return nil, errors.New("startxref is out of range")
	}
	type place struct{ number, offset int }
	var places []place
	for i, e := range xrefEntry.FindAllSubmatch(pdf[table:], -1) {
		offset, err := strconv.Atoi(string(e[1]))
		if err != nil || offset >= table {
			return nil, errors.New("an offset is out of range")
		}
		places = append(places, place{i + 1, offset})
	}
	if len(places) < 2 {
		return nil, errors.New("no objects")
	}
	slices.SortFunc(places, func(a, b place) int { return cmp.Compare(a.offset, b.offset) })
	f := &file{header: pdf[:places[0].offset], table: table}
	for i, p := range places {
		end := table
		if i+1 < len(places) {
			end = places[i+1].offset
		}
		o, err := parseObject(p.number, pdf[p.offset:end])
		if err != nil {
			return nil, fmt.Errorf("object %d: %w", p.number, err)
		}
		f.objects = append(f.objects, o)
	}
	return f, nil
}

func parseObject(number int, b []byte) (object, error) {
	body, ok := bytes.CutPrefix(b, fmt.Appendf(nil, "%d 0 obj\n", number))
	if !ok {
		return object{}, errors.New("not where the table says")
	}
	o := object{number: number}
	i := bytes.Index(body, []byte("\nstream\n"))
	if i < 0 {
		o.dict, ok = bytes.CutSuffix(body, []byte("\nendobj\n"))
		if !ok {
			return object{}, errors.New("no end")
		}
		o.dict = bytes.Clone(o.dict)
		return o, nil
	}
	o.isFile = true
	o.dict = bytes.Clone(bytes.TrimRight(body[:i], "\n"))
	o.gap = string(body[len(o.dict) : i+1])
	o.stream, ok = bytes.CutSuffix(body[i+len("\nstream\n"):], []byte("\nendstream\nendobj\n"))
	if !ok {
		return object{}, errors.New("no end of the stream")
	}
	return o, nil
}

func (f *file) number(n int) *object {
	for i := range f.objects {
		if f.objects[i].number == n {
			return &f.objects[i]
		}
	}
	return nil
}

// page finds the content of the n-th page in file order.
func (f *file) page(n int) (*object, []byte, error) {
	for i := range f.objects {
		if bytes.HasPrefix(f.objects[i].dict, []byte("<</Type /Page\n")) {
			if n--; n == 0 {
				o := f.number(f.objects[i].number + 1) // fpdf writes the content next
				if o == nil {
					break
				}
				content, err := o.content()
				return o, content, err
			}
		}
	}
	return nil, nil, errors.New("no such page")
}

func (f *file) attachment(name string) (spec, content *object, err error) {
	for i := range f.objects {
		o := &f.objects[i]
		if !bytes.Contains(o.dict, slices.Concat([]byte("/UF ("), text16(name), []byte(")"))) {
			continue
		}
		if m := fileRef.FindSubmatch(o.dict); m != nil {
			n, err := strconv.Atoi(string(m[1]))
			if content := f.number(n); err == nil && content != nil {
				return o, content, nil
			}
		}
	}
	return nil, nil, fmt.Errorf("no attachment %s", name)
}

func (f *file) bytes() []byte {
	var b bytes.Buffer
	b.Write(f.header)
	offsets := map[int]int{}
	for i := range f.objects {
		offsets[f.objects[i].number] = b.Len()
		f.objects[i].write(&b)
	}
	n, table := len(f.objects), b.Len()
	fmt.Fprintf(&b, "xref\n0 %d\n0000000000 65535 f \n", n+1)
	for i := 1; i <= n; i++ {
		fmt.Fprintf(&b, "%010d 00000 n \n", offsets[i])
	}
	fmt.Fprintf(&b, "trailer\n<<\n/Size %d\n/Root %d 0 R\n/Info %d 0 R\n>>\nstartxref\n%d\n%%%%EOF\n", n+1, n, n-1, table)
	return b.Bytes()
}

func (o *object) write(b *bytes.Buffer) {
	fmt.Fprintf(b, "%d 0 obj\n%s", o.number, o.dict)
	if o.isFile {
		fmt.Fprintf(b, "%sstream\n%s\nendstream", o.gap, o.stream)
	}
	b.WriteString("\nendobj\n")
}

func (o *object) deflated() bool {
	return o.isFile && bytes.Contains(o.dict, []byte("/Filter /FlateDecode"))
}

func (o *object) content() ([]byte, error) {
	if !o.deflated() {
		return o.stream, nil
	}
	r, err := zlib.NewReader(bytes.NewReader(o.stream))
	if err != nil {
		return nil, err
	}
	return io.ReadAll(r)
}

// setContent deflates content and states its length.
func (o *object) setContent(content []byte, level int) error {
	o.isFile = true
	if o.deflated() {
		var b bytes.Buffer
		w, err := zlib.NewWriterLevel(&b, level)
		if err != nil {
			return err
		}
		if _, err := w.Write(content); err != nil {
			return err
		}
		if err := w.Close(); err != nil {
			return err
		}
		content = b.Bytes()
	}
	o.stream = content
	o.dict = length.ReplaceAll(o.dict, fmt.Appendf(nil, "/Length %d", len(content)))
	return nil
}

func params(content []byte) []byte {
	return fmt.Appendf(nil, "<< /CheckSum <%x> /Size %d >>", md5.Sum(content), len(content))
}

// text16 is a text string in UTF-16BE with its byte order mark.
func text16(text string) []byte { return append([]byte("\xfe\xff"), escape16(text)...) }

func escape16(text string) []byte {
	var b []byte
	for _, u := range utf16.Encode([]rune(text)) {
		for _, c := range []byte{byte(u >> 8), byte(u)} {
			switch c {
			case '\\', '(', ')':
				b = append(b, '\\', c)
			case '\r':
				b = append(b, '\\', 'r')
			default:
				b = append(b, c)
			}
		}
	}
	return b
}
