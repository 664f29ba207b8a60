package source_test

import (
	"bytes"
	"compress/zlib"
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"

	"hourseal/verify/source"
	"hourseal/verify/source/sourcetest"
)

// otherHours is the forger's edit: the page shows other hours.
func otherHours(content []byte) []byte {
	return bytes.ReplaceAll(content, sourcetest.Text16("812.6 h"), sourcetest.Text16("412.6 h"))
}

func must(t testing.TB) func([]byte, error) []byte {
	return func(b []byte, err error) []byte {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
}

// refused reads a PDF that is not in the layout of a report. It still holds
// the one record, which has to be found.
func refused(t *testing.T, pdf, envelope []byte, reason string) {
	t.Helper()
	_, err := source.ReadPDF(pdf)
	if _, ok := errors.AsType[*source.LayoutError](err); !ok || !strings.Contains(err.Error(), reason) {
		t.Fatalf("got %v, want a layout error that says %q", err, reason)
	}
	found, readErr := source.Read(pdf)
	switch {
	case readErr != nil:
		t.Errorf("the record was not found: %v", readErr)
	case found.Kind != source.KindPDF || found.PDF != nil || found.Salvaged != err.Error() || found.Texts != nil || found.Keys != nil:
		t.Errorf("kind %q, strictly read %t, salvaged %q", found.Kind, found.PDF != nil, found.Salvaged)
	case !bytes.Equal(found.Envelope, envelope):
		t.Error("another envelope was found")
	}
	_, err = source.Compare(pdf, reportOf(t, envelope).bytes(t))
	if _, ok := errors.AsType[*source.LayoutError](err); !ok {
		t.Errorf("the comparison says %v", err)
	}
}

func TestSupportRebuildsByteForByte(t *testing.T) {
	pdf := reportOf(t, record(t, "Gannet", 600)).bytes(t)
	if !bytes.Equal(must(t)(sourcetest.Rebuild(pdf)), pdf) {
		t.Error("the rebuilt file is another")
	}
}

// Whole-file changes that leave the record in place: each is refused as a
// report, and the record is still found.
func TestStrictReaderRefuses(t *testing.T) {
	envelope := record(t, "Gannet", 600)
	pdf := reportOf(t, envelope).bytes(t)
	ok := must(t)
	replace := func(old, new string) []byte {
		if !bytes.Contains(pdf, []byte(old)) {
			t.Fatalf("the file has no %q", old)
		}
		return bytes.Replace(pdf, []byte(old), []byte(new), 1)
	}
	rebuilt := func(old, new string) []byte { return retable(t, replace(old, new)) }
	for name, test := range map[string]struct {
		pdf    []byte
		reason string
	}{
		"prefix":                 {append([]byte("\n"), pdf...), "header"},
		"long prefix":            {append(bytes.Repeat([]byte("x"), 5000), pdf...), "header"},
		"suffix":                 {append(bytes.Clone(pdf), '\n'), "end of the file"},
		"twice":                  {append(bytes.Clone(pdf), pdf...), "end of the file"},
		"other version":          {replace("%PDF-1.3", "%PDF-2.0"), "header"},
		"carriage return":        {replace("%PDF-1.3\n", "%PDF-1.3\r\n"), "header"},
		"update":                 {ok(sourcetest.AppendUpdate(pdf, 1, otherHours)), "end of the file"},
		"comment":                {replace("\nxref\n", "\n% a word\nxref\n"), "neither an object"},
		"gap":                    {replace("\nxref\n", "\n\nxref\n"), "neither an object"},
		"offset":                 {replace("0000000009 00000 n", "0000000010 00000 n"), "cross-reference"},
		"free object":            {replace("0000000009 00000 n", "0000000009 00000 f"), "cross-reference"},
		"startxref":              {replace("startxref\n", "startxref\n0"), "cross-reference"},
		"ID in the trailer":      {replace("/Info", "/ID [()()]\n/Info"), "cross-reference"},
		"encrypted":              {replace("/Info", "/Encrypt 3 0 R\n/Info"), "cross-reference"},
		"new attachment unnamed": {ok(sourcetest.HideAttachment(pdf, "record.cose", []byte("x"))), "not in its list of attachments"},
		"new attachment":         {ok(sourcetest.AddAttachment(pdf, "photo.jpg", []byte("x"))), "none of record.cose"},
		"attachment twice":       {ok(sourcetest.AddAttachment(pdf, "record.txt", []byte("x"))), "two attachments are named record.txt"},
		"attachment renamed":     {ok(sourcetest.RenameAttachment(pdf, "record.txt", "record.tex")), "none of record.cose"},
		"attachment missing":     {ok(sourcetest.RenameAttachment(pdf, "record.txt", "keys.cose")), "record.txt is missing"},
		"record.txt is prose":    {ok(sourcetest.ReplaceAttachment(pdf, "record.txt", []byte("a word\n"))), "record.txt"},
		"record.txt is empty":    {ok(sourcetest.ReplaceAttachment(pdf, "record.txt", []byte{})), "record.txt"},
		"record.txt with spaces": {ok(sourcetest.ReplaceAttachment(pdf, "record.txt", []byte(" "+textsOf(t, envelope)[0]))), "one QR text a line"},
		"record.txt twice":       {ok(sourcetest.ReplaceAttachment(pdf, "record.txt", []byte(strings.Repeat(textsOf(t, envelope)[0]+"\n", 2)))), "each once"},
		"record.cose is prose":   {ok(sourcetest.ReplaceAttachment(pdf, "record.cose", []byte("a word"))), "record.cose is damaged"},
		"long attachment":        {ok(sourcetest.ReplaceAttachment(pdf, "record.cose", make([]byte, 16<<10+1))), "longer than 16384"},
		"checksum":               {rebuilt("/CheckSum <", "/CheckSum <0"), "checksum is wrong"},
		"size":                   {rebuilt("/Size ", "/Size 1"), "size or checksum"},
		"script":                 {rebuilt("/Lang (en-GB)", "/AA << /WC << /S /JavaScript /JS (x) >> >>"), "catalog"},
		"script on opening":      {rebuilt("/Lang (en-GB)", "/OpenAction << /S /JavaScript /JS (x) >>"), "when it is opened"},
		"names a script":         {rebuilt("/Names <<\n", "/Names <<\n/JavaScript 3 0 R\n"), "names more than attachments"},
		"key twice":              {rebuilt("/Type /Catalog", "/Type /Catalog\n/Type /Catalog"), "twice"},
		"escaped name":           {rebuilt("/Type /Catalog", "/T#79pe /Catalog"), "a value is missing"},
		"comment in an object":   {rebuilt("/Type /Catalog", "%\n/Type /Catalog"), "key is missing"},
		"reference to nothing":   {rebuilt("/Parent 1 0 R", "/Parent 1 0 R /B 999 0 R"), "not there"},
		"page unlisted":          {rebuilt("/Count 2", "/Count 1"), "list of a report's pages"},
		"page hidden":            {retable(t, bytes.Replace(replace("/Count 2", "/Count 1"), []byte("9 0 R ]"), []byte("]"), 1)), "not in the list of pages"},
		"another filter":         {rebuilt("<</Filter /FlateDecode /Length", "<</Filter /LZWDecode /Length"), "filter"},
		"predictor":              {rebuilt("<</Filter /FlateDecode /Length", "<</DecodeParms << /Predictor 12 >> /Filter /FlateDecode /Length"), "keys that this program"},
		"external file":          {rebuilt("<</Filter /FlateDecode /Length", "<</F (elsewhere) /Filter /FlateDecode /Length"), "keys that this program"},
		"indirect length":        {rebuilt("<</Filter /FlateDecode /Length ", "<</Filter /FlateDecode /Length 9 0 R /L "), "keys that this program"},
	} {
		t.Run(name, func(t *testing.T) {
			if bytes.Equal(test.pdf, pdf) {
				t.Fatal("nothing was changed")
			}
			refused(t, test.pdf, envelope, test.reason)
		})
	}
}

// retable writes the cross-reference table of a changed file anew, so that the
// reader gets to see the change itself. It goes by the words "N 0 obj".
func retable(t testing.TB, pdf []byte) []byte {
	t.Helper()
	end := bytes.LastIndex(pdf, []byte("\nxref\n")) + 1
	size := 0
	if _, err := fmt.Sscanf(string(pdf[end:]), "xref\n0 %d\n", &size); err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	b.Write(pdf[:end])
	fmt.Fprintf(&b, "xref\n0 %d\n0000000000 65535 f \n", size)
	for n := 1; n < size; n++ {
		fmt.Fprintf(&b, "%010d 00000 n \n", bytes.Index(pdf, fmt.Appendf(nil, "\n%d 0 obj\n", n))+1)
	}
	fmt.Fprintf(&b, "trailer\n<<\n/Size %d\n/Root %d 0 R\n/Info %d 0 R\n>>\nstartxref\n%d\n%%%%EOF\n", size, size-1, size-2, end)
	return b.Bytes()
}

// One of the two attachments swapped for another record's: the record is the
// attached one, and the file is not its report.
func TestSwappedAttachment(t *testing.T) {
	envelope, other := record(t, "Gannet", 600), record(t, "Gannet, 412.6 h", 600)
	pdf := reportOf(t, envelope).bytes(t)
	for name, swapped := range map[string][]byte{
		"record.txt":  must(t)(sourcetest.ReplaceAttachment(pdf, "record.txt", []byte(textsOf(t, other)[0]+"\n"))),
		"record.cose": must(t)(sourcetest.ReplaceAttachment(pdf, "record.cose", other)),
	} {
		if _, err := source.ReadPDF(swapped); err == nil || !strings.Contains(err.Error(), "record.txt holds another record") {
			t.Errorf("%s swapped: strict reader says %v", name, err)
		}
		attached := map[string][]byte{"record.txt": envelope, "record.cose": other}[name]
		if found := mustRead(t, swapped); found.PDF != nil || found.Salvaged == "" || !bytes.Equal(found.Envelope, attached) {
			t.Errorf("%s swapped: salvaged %q", name, found.Salvaged)
		}
	}
	// Both swapped for the other record: that is a report of the other record
	// with a page of this one, for the page check to see.
	both := must(t)(sourcetest.ReplaceAttachment(pdf, "record.cose", other))
	both = must(t)(sourcetest.ReplaceAttachment(both, "record.txt", []byte(textsOf(t, other)[0]+"\n")))
	if found := mustRead(t, both); found.PDF == nil || !bytes.Equal(found.Envelope, other) {
		t.Errorf("both swapped: salvaged %q", found.Salvaged)
	}
}

// A file cut short anywhere is refused, and never yields another record.
func TestTruncations(t *testing.T) {
	envelope := record(t, "Gannet", 600)
	pdf := reportOf(t, envelope).bytes(t)
	found := 0
	for n := 0; n < len(pdf); n += 1 + n/300 {
		if _, err := source.ReadPDF(pdf[:n]); err == nil {
			t.Fatalf("%d of %d bytes read as a report", n, len(pdf))
		}
		if f, err := source.Read(pdf[:n]); err == nil {
			found++
			if f.PDF != nil || !bytes.Equal(f.Envelope, envelope) {
				t.Fatalf("%d of %d bytes gave another record", n, len(pdf))
			}
		}
	}
	if found == 0 {
		t.Error("the record was never found")
	}
}

// Any stretch of the file written twice is refused.
func TestDuplications(t *testing.T) {
	envelope := record(t, "Gannet", 600)
	pdf := reportOf(t, envelope).bytes(t)
	for at := 0; at < len(pdf); at += 97 {
		for _, n := range []int{1, 20, 500} {
			end := min(at+n, len(pdf))
			twice := bytes.Join([][]byte{pdf[:end], pdf[at:end], pdf[end:]}, nil)
			if _, err := source.ReadPDF(twice); err == nil {
				t.Fatalf("bytes %d to %d twice read as a report", at, end)
			}
		}
	}
}

// Streams that other readers of deflate would take in another way than ours, or
// that hide bytes.
func TestUnusualStreams(t *testing.T) {
	envelope := record(t, "Gannet", 600)
	pdf := reportOf(t, envelope).bytes(t)
	start := bytes.Index(pdf, []byte("<</Filter /FlateDecode /Length ")) + len("<</Filter /FlateDecode /Length ")
	var length int
	if _, err := fmt.Sscanf(string(pdf[start:]), "%d", &length); err != nil {
		t.Fatal(err)
	}
	from := start + bytes.Index(pdf[start:], []byte("stream\n")) + len("stream\n")
	stream := pdf[from : from+length]
	with := func(change func([]byte) []byte) []byte {
		changed := change(bytes.Clone(stream))
		dict := fmt.Sprintf("%d>>\nstream\n", len(changed))
		return retable(t, bytes.Join([][]byte{pdf[:start], []byte(dict), changed, pdf[from+length:]}, nil))
	}
	if !bytes.Equal(with(func(b []byte) []byte { return b }), pdf) {
		t.Fatal("the test does not put the file together again")
	}
	// Go's own reader takes these two as if nothing were the matter.
	smallWindow := func(b []byte) []byte { b[0], b[1] = 0x08, 0x1d; return b } // CM 8, CINFO 0: 256 bytes
	// FDICT, with the Adler-32 of no bytes as the dictionary's name.
	dictionary := func(b []byte) []byte { return append([]byte{0x78, 0x20, 0, 0, 0, 1}, b[2:]...) }
	for _, change := range []func([]byte) []byte{smallWindow, dictionary} {
		r, err := zlib.NewReader(bytes.NewReader(change(bytes.Clone(stream))))
		if err != nil {
			t.Fatal(err)
		}
		if _, err := io.Copy(io.Discard, r); err != nil {
			t.Fatal(err)
		}
	}
	for name, test := range map[string]struct {
		change func([]byte) []byte
		reason string
	}{
		"bytes after the end": {func(b []byte) []byte { return append(b, 0) }, "left over"},
		"checksum":            {func(b []byte) []byte { b[len(b)-1] ^= 1; return b }, "damaged"},
		"no checksum":         {func(b []byte) []byte { return b[:len(b)-4] }, "damaged"},
		"empty":               {func([]byte) []byte { return nil }, "unusual header"},
		"small window":        {smallWindow, "unusual header"},
		"dictionary":          {dictionary, "unusual header"},
	} {
		t.Run(name, func(t *testing.T) { refused(t, with(test.change), envelope, test.reason) })
	}
}
