package source_test

import (
	"bytes"
	"compress/zlib"
	"errors"
	"strings"
	"testing"

	"hourseal/sign"
	"hourseal/verify/source"
	"hourseal/verify/source/sourcetest"
)

// FuzzRead holds what has to be true of any input whatever.
func FuzzRead(f *testing.F) {
	envelope := record(f, "Gannet", 200)
	pdf := reportOf(f, envelope).bytes(f)
	long := record(f, "Gannet, a long record", 3000)
	for _, seed := range [][]byte{
		nil, envelope, pdf, pdf[:len(pdf)/2], append([]byte("x"), pdf...),
		[]byte(textsOf(f, envelope)[0]),
		[]byte(labelText(f, "")),
		[]byte(strings.Join(textsOf(f, long), "\n")),
		must(f)(sourcetest.Redeflate(pdf, zlib.NoCompression)),
		must(f)(sourcetest.AppendUpdate(pdf, 1, otherHours)),
		must(f)(sourcetest.AddAttachment(pdf, "keys.cose", sealed(f, sign.KeyStatementV1, "key", 100))),
		[]byte("%PDF-1.3\n1 0 obj\n<<>>\nendobj\nxref\n"),
		[]byte("\xff\xd8\xff"),
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		before := bytes.Clone(data)
		found, err := source.Read(data)
		if !bytes.Equal(before, data) {
			t.Error("the input was written to")
		}
		if err != nil {
			if e, ok := errors.AsType[*source.InputError](err); !ok || e.Kind == nil || e.Hint == "" {
				t.Errorf("not an error with a hint: %v", err)
			}
			return
		}
		if _, err := sign.Open(sign.RecordV1, found.Envelope); errors.Is(err, sign.ErrMalformed) {
			t.Errorf("an envelope that is none: %v", err)
		}
		if strict := found.PDF != nil; strict != (found.Kind == source.KindPDF && found.Salvaged == "") {
			t.Errorf("kind %q, strictly read %t, salvaged %q", found.Kind, strict, found.Salvaged)
		}
		if found.PDF == nil {
			return
		}
		if check, err := source.Compare(data, bytes.Clone(data)); err != nil || check.Result != source.PageOriginal {
			t.Errorf("not its own original: %+v, %v", check, err)
		}
		// What the reader takes is nothing but its objects: another program can
		// take it apart by the table and get the same bytes together again.
		if again, err := sourcetest.Rebuild(data); err != nil || !bytes.Equal(again, data) {
			t.Errorf("the file holds more than its objects: %v", err)
		}
	})
}
