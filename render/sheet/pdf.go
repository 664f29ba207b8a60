package sheet

import (
	"bytes"
	"errors"
	"fmt"
	"strconv"
	"sync"
	"time"

	"github.com/go-pdf/fpdf"
)

// Meta is what a file says of itself beside its pages.
type Meta struct {
	Producer, Title, Author string
	Lang                    string    // BCP 47, "en-GB"
	Date                    time.Time // of making and of changing; taken as UTC
}

// Attachment is a file inside the file.
type Attachment struct {
	Name    string
	Content []byte
}

// faceNames are the names of the faces in the file, in the order of Face.
var faceNames = [faces]struct{ family, style string }{{"go", ""}, {"go", "B"}}

// Press is a file begun: its fonts are opened while the pages are laid out.
type Press struct{ writer func() *writer }

// Begin begins a file for a document of that paper. It is good for one PDF.
func Begin(p Paper, meta Meta) Press {
	press := Press{sync.OnceValue(func() *writer { return newWriter(p, meta) })}
	go press.writer()
	return press
}

// PDF writes the document into a file that was begun. The bytes depend on the
// document, what the file was begun with, and the attachments alone; see the
// package comment.
func (d *Document) PDF(press Press, attachments ...Attachment) ([]byte, error) {
	if d.err != nil {
		return nil, d.err
	}
	if len(d.pages) == 0 {
		return nil, errors.New("document has no page")
	}
	w := press.writer()
	for _, marks := range d.pages {
		w.pdf.AddPage()
		w.face, w.size = faces, 0 // fpdf forgets its font on each page
		for _, m := range marks {
			w.draw(m)
		}
	}
	files := make([]fpdf.Attachment, len(attachments))
	for i, a := range attachments {
		files[i] = fpdf.Attachment{Content: a.Content, Filename: a.Name}
	}
	w.pdf.SetAttachments(files)
	var out bytes.Buffer
	out.Grow(64 << 10)
	if err := w.pdf.Output(&out); err != nil {
		return nil, fmt.Errorf("write the PDF: %w", err)
	}
	return out.Bytes(), nil
}

// writer draws marks through fpdf.
type writer struct {
	pdf    *fpdf.Fpdf
	height Len
	face   Face
	size   Len
	text   Color
	path   []byte
}

func newWriter(p Paper, meta Meta) *writer {
	pdf := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: fpdf.SizeType{Wd: points(p.W), Ht: points(p.H)}})
	pdf.SetCatalogSort(true)
	pdf.SetCreationDate(meta.Date.UTC())
	pdf.SetModificationDate(meta.Date.UTC())
	pdf.SetProducer(meta.Producer, true)
	pdf.SetTitle(meta.Title, true)
	pdf.SetAuthor(meta.Author, true)
	pdf.SetLang(meta.Lang)
	pdf.SetAutoPageBreak(false, 0)
	for f, t := range typefaces() {
		pdf.AddUTF8FontFromBytes(faceNames[f].family, faceNames[f].style, bytes.Clone(t.ttf))
	}
	return &writer{pdf: pdf, height: p.H}
}

// points is exact enough that printing it with two decimals gives n back.
func points(n Len) float64 { return float64(n) / 100 }

func (w *writer) draw(m mark) {
	switch m.kind {
	case textMark:
		if m.style.Face != w.face || m.style.Size != w.size {
			w.face, w.size = m.style.Face, m.style.Size
			name := faceNames[w.face]
			w.pdf.SetFont(name.family, name.style, points(w.size))
		}
		if m.style.Color != w.text {
			w.text = m.style.Color
			w.pdf.SetTextColor(int(w.text.R), int(w.text.G), int(w.text.B))
		}
		w.pdf.Text(points(m.x), points(m.y), m.text)
	case fillMark:
		w.begin(m.color, " rg\n")
		if m.step > 0 {
			w.modules(m)
		} else {
			for _, b := range m.boxes {
				w.rect(b)
			}
		}
		w.end("f")
	case strokeMark:
		w.begin(m.color, " RG\n")
		w.number(m.width)
		w.path = append(w.path, "w\n"...)
		w.rect(Box{m.box.X + m.width/2, m.box.Y + m.width/2, m.box.W - m.width, m.box.H - m.width})
		w.end("S")
	case lineMark:
		w.begin(m.color, " RG\n")
		w.lines(m)
		w.end("S")
	}
}

// begin and end write a path as one object of the page, its colour kept to it.
// fpdf would give each rectangle its own, with seams between neighbours.
func (w *writer) begin(c Color, operator string) {
	w.path = append(w.path[:0], "q "...)
	for i, v := range [3]uint8{c.R, c.G, c.B} {
		if i > 0 {
			w.path = append(w.path, ' ')
		}
		// In 1/1000, rounded half up: finer than the eight bits of a colour.
		w.path = appendDecimal(w.path, (int64(v)*2000+255)/510, 3)
	}
	w.path = append(w.path, operator...)
}

func (w *writer) end(operator string) {
	w.path = append(append(w.path, operator...), " Q"...)
	w.pdf.RawWriteStr(string(w.path))
}

// rect appends a rectangle; PDF counts y from the foot of the page.
func (w *writer) rect(b Box) {
	w.number(b.X)
	w.number(w.height - b.Bottom())
	w.number(b.W)
	w.number(b.H)
	w.path = append(w.path, "re\n"...)
}

// modules appends boxes counted in modules from the shape's upper left corner,
// which takes half the room of lengths.
func (w *writer) modules(m mark) {
	w.number(m.step)
	w.path = append(w.path, "0 0 "...)
	w.number(-m.step)
	w.number(m.box.X)
	w.number(w.height - m.box.Y)
	w.path = append(w.path, "cm\n"...)
	for _, b := range m.boxes {
		for _, n := range [4]Len{b.X - m.box.X, b.Y - m.box.Y, b.W, b.H} {
			w.path = append(strconv.AppendInt(w.path, int64(n/m.step), 10), ' ')
		}
		w.path = append(w.path, "re\n"...)
	}
}

// number appends a length in points and a space.
func (w *writer) number(n Len) {
	w.path = append(appendDecimal(w.path, int64(n), 2), ' ')
}

// appendDecimal appends n/10^places with all its decimals.
func appendDecimal(b []byte, n int64, places int) []byte {
	if n < 0 {
		b, n = append(b, '-'), -n
	}
	scale := int64(1)
	for range places {
		scale *= 10
	}
	b = append(strconv.AppendInt(b, n/scale, 10), '.')
	for rest := n % scale; places > 0; places-- {
		scale /= 10
		b = append(b, byte('0'+rest/scale))
		rest %= scale
	}
	return b
}
