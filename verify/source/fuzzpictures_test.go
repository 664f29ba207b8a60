package source_test

import (
	"bytes"
	"errors"
	"image"
	"os"
	"path/filepath"
	"testing"

	"hourseal/sign"
	"hourseal/verify/source"
	"hourseal/verify/source/sourcetest"
)

// smallSheet is a sheet that reads quickly.
func smallSheet(t testing.TB) *image.Gray {
	t.Helper()
	return codeOf(t, textsOf(t, record(t, "Gannet", 20))[0], 2)
}

// holdsForAny is what has to be true of any input whatever: it is left alone, an error
// says what to do, and what is found is an envelope.
func holdsForAny(t *testing.T, data []byte) {
	t.Helper()
	before := bytes.Clone(data)
	found, err := source.Read(data)
	if !bytes.Equal(before, data) {
		t.Error("the input was written to")
	}
	if err != nil {
		if e, ok := errors.AsType[*source.InputError](err); !ok || e.Kind == nil || e.Hint == "" || e.Reason == "" {
			t.Errorf("not an error with a hint: %v", err)
		}
		if found.Envelope != nil || found.PDF != nil || found.Scan {
			t.Errorf("found beside an error: %+v", found)
		}
		return
	}
	if _, err := sign.Open(sign.RecordV1, found.Envelope); errors.Is(err, sign.ErrMalformed) {
		t.Errorf("an envelope that is none: %v", err)
	}
	if found.Scan && (found.Kind != source.KindPDF || found.PDF != nil || len(found.Texts) == 0) {
		t.Errorf("a scan that is none: %+v", found)
	}
	if found.Kind == source.KindImage && (len(found.Texts) == 0 || found.HostUnknown) {
		t.Errorf("a picture without a code: %+v", found)
	}
}

// FuzzPicture reads picture files.
func FuzzPicture(f *testing.F) {
	sheet := smallSheet(f)
	jpg := jpegOf(f, sheet, 80)
	for _, seed := range [][]byte{
		pngOf(f, sheet), jpg, jpg[:len(jpg)/2], adam7(sheet),
		pngOf(f, as(sheet, image.NewRGBA64(sheet.Rect))),
		jpegOf(f, as(sheet, image.NewRGBA(sheet.Rect)), 40),
		jpegWith(jpg, exif(6), []byte("\xfeGannet")),
		pngFile(60000, 60000, 8, 2, 0, nil),
		[]byte("\xff\xd8\xff\xc2\x00\x0b\x08\xff\xff\xff\xff\x01\x01\x11\x00\xff\xd9"),
		[]byte("GIF89a"), []byte("\x00\x00\x00\x18ftypheic"),
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, data []byte) { holdsForAny(t, data) })
}

// FuzzScan reads PDFs of pictures.
func FuzzScan(f *testing.F) {
	for _, pdf := range scans(f, smallSheet(f)) {
		f.Add(pdf)
	}
	for _, name := range []string{"fax-group3.pdf", "fax-group4.pdf"} {
		pdf, err := os.ReadFile(filepath.Join("testdata/scans", name))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(pdf)
	}
	f.Add(sourcetest.Scan(nil, sourcetest.Picture{Width: 60000, Height: 60000, Entries: "/Filter /CCITTFaxDecode /DecodeParms << /K -1 /Columns 60000 >>"}))
	f.Add([]byte("%PDF-1.5\n1 0 obj<</Subtype/Image/Width 2 0 R/Filter 3 0 R>>stream\nendstream\n2 0 obj 3 0 R endobj 3 0 obj 2 0 R endobj"))
	f.Fuzz(func(t *testing.T, data []byte) { holdsForAny(t, data) })
}
