package source_test

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"hourseal/sign"
	"hourseal/sign/qrtext"
	"hourseal/verify/source"
)

func mustRead(t testing.TB, data []byte) source.Found {
	t.Helper()
	found, err := source.Read(data)
	if err != nil {
		t.Fatalf("Read: %v", err)
	}
	return found
}

func TestReadReport(t *testing.T) {
	envelope := record(t, "Gannet 812.6", 600)
	r := reportOf(t, envelope)
	r.attachments = attachmentsOf(t, envelope, []byte("key statements"))
	found := mustRead(t, r.bytes(t))
	if found.Kind != source.KindPDF || found.PDF == nil || found.Salvaged != "" {
		t.Fatalf("kind %q, salvaged %q", found.Kind, found.Salvaged)
	}
	if !bytes.Equal(found.Envelope, envelope) || string(found.Keys) != "key statements" {
		t.Error("the attachments came back changed")
	}
	if !slices.Equal(found.Texts, textsOf(t, envelope)) || found.Host != "records.ellery-slip.example" {
		t.Errorf("texts %q, host %q", found.Texts, found.Host)
	}
	if found.PDF.Pages() != 2 {
		t.Errorf("%d pages, want 2", found.PDF.Pages())
	}
}

func TestReadReportInParts(t *testing.T) {
	envelope := record(t, "Gannet, a long record", 3000)
	if n := len(textsOf(t, envelope)); n < 2 {
		t.Fatalf("%d parts, the test needs several", n)
	}
	found := mustRead(t, reportOf(t, envelope).bytes(t))
	if found.PDF == nil || !bytes.Equal(found.Envelope, envelope) || found.Keys != nil {
		t.Errorf("strictly read: %t, salvaged %q", found.PDF != nil, found.Salvaged)
	}
}

func TestReadRecord(t *testing.T) {
	for _, size := range []int{1, 23, 24, 255, 256, 8000} {
		envelope := sealedPayload(t, bytes.Repeat([]byte{7}, size))
		found := mustRead(t, envelope)
		if found.Kind != source.KindRecord || !bytes.Equal(found.Envelope, envelope) || found.Texts != nil || found.PDF != nil {
			t.Errorf("payload of %d bytes: %+v", size, found)
		}
	}
}

func sealedPayload(t *testing.T, payload []byte) []byte {
	t.Helper()
	envelope, err := sign.Seal(sign.RecordV1, payload, signerOf(ellerySlip))
	if err != nil {
		t.Fatal(err)
	}
	return envelope
}

// An altered record is not unreadable: it has to get as far as the check of its
// signature.
func TestAlteredRecordIsFound(t *testing.T) {
	envelope := record(t, "Gannet", 300)
	envelope[len(envelope)-1] ^= 1
	if found := mustRead(t, envelope); !bytes.Equal(found.Envelope, envelope) {
		t.Error("the envelope came back changed")
	}
	pdf := reportOf(t, envelope).bytes(t)
	if found := mustRead(t, pdf); !bytes.Equal(found.Envelope, envelope) || found.PDF == nil {
		t.Error("the envelope in the PDF came back changed")
	}
	if found := mustRead(t, pdf[:len(pdf)-1]); !bytes.Equal(found.Envelope, envelope) || found.Salvaged == "" {
		t.Error("the envelope of the broken PDF came back changed")
	}
}

func TestReadText(t *testing.T) {
	whole := record(t, "Gannet", 600)
	long := record(t, "Gannet, a long record", 3000)
	parts := textsOf(t, long)
	text := textsOf(t, whole)[0]
	reversed := slices.Clone(parts)
	slices.Reverse(reversed)
	other, err := qrtext.EncodeAt(1, whole, "records.ellery-slip.example")
	if err != nil {
		t.Fatal(err)
	}
	for name, test := range map[string]struct {
		input string
		want  []byte
	}{
		"one text":                      {text, whole},
		"lower case":                    {strings.ToLower(text), whole},
		"line end, spaces":              {"\n  " + text + " \r\n\r\n", whole},
		"byte order mark":               {"\ufeff" + text, whole},
		"the same text twice":           {text + "\n" + text, whole},
		"another deflate level":         {text + "\n" + other[0], whole},
		"parts":                         {strings.Join(parts, "\n"), long},
		"parts in another order":        {strings.Join(reversed, "\r\n"), long},
		"parts, one of them twice":      {strings.Join(append(slices.Clone(parts), parts[0]), "\n"), long},
		"no page: the program's prefix": {noPage(t, whole), whole},
	} {
		t.Run(name, func(t *testing.T) {
			found := mustRead(t, []byte(test.input))
			if found.Kind != source.KindText || !bytes.Equal(found.Envelope, test.want) || len(found.Texts) == 0 {
				t.Errorf("kind %q, %d texts", found.Kind, len(found.Texts))
			}
		})
	}
}

func noPage(t *testing.T, envelope []byte) string {
	t.Helper()
	texts, err := qrtext.Encode(envelope, "")
	if err != nil {
		t.Fatal(err)
	}
	return texts[0]
}

// Everything that is refused, and what the person is told.
func TestReadRefuses(t *testing.T) {
	whole := record(t, "Gannet", 600)
	text := textsOf(t, whole)[0]
	parts := textsOf(t, record(t, "Gannet, a long record", 3000))
	another := textsOf(t, record(t, "Gannet, another", 600))[0]
	otherHost, err := qrtext.Encode(whole, "pages.port-ellery.example")
	if err != nil {
		t.Fatal(err)
	}
	_, otherParts := partsOf(t, "Gannet, another long record")
	sheetPNG := pngOf(t, sheetWith(t, text))
	damagedPNG := bytes.Clone(sheetPNG)
	damagedPNG[len(damagedPNG)/2] ^= 1
	for name, test := range map[string]struct {
		input  string
		kind   error
		reason string
	}{
		"empty":            {"", source.ErrUnreadable, "the input is empty"},
		"white space":      {" \n\t\n", source.ErrUnreadable, "the input holds nothing but white space"},
		"prose":            {"The impeller was changed.", source.ErrUnreadable, "this is neither a PDF, a picture, a QR text nor a record file"},
		"binary":           {"\x00\x01\x02\xff", source.ErrUnreadable, "this is neither a PDF, a picture, a QR text nor a record file"},
		"long binary":      {strings.Repeat("\x00", 100_000), source.ErrUnreadable, "this is neither a PDF, a picture, a QR text nor a record file"},
		"long text":        {text + strings.Repeat("0", 64<<10), source.ErrTooLarge, fmt.Sprintf("the text is %d bytes long, the limit is 65536", len(text)+64<<10)},
		"cut text":         {text[:len(text)-40], source.ErrUnreadable, "the QR text cannot be read: "},
		"a part missing":   {strings.Join(slices.Delete(slices.Clone(parts), 1, 2), "\n"), source.ErrUnreadable, fmt.Sprintf("the QR text cannot be read: part 2 of %d is missing", len(parts))},
		"two records":      {text + "\n" + another, source.ErrTwoRecords, "the texts hold two different service records"},
		"parts of two":     {parts[0] + "\n" + otherParts[1], source.ErrTwoRecords, "the texts hold parts of two different service records"},
		"and a part":       {text + "\n" + parts[1], source.ErrTwoRecords, "the texts hold a service record and a part of another"},
		"two pages":        {text + "\n" + otherHost[0], source.ErrUnreadable, "the texts name two different pages"},
		"text with prose":  {text + "\nsee above", source.ErrUnreadable, "this is neither a PDF, a picture, a QR text nor a record file"},
		"another's link":   {"https://port-ellery.example/berths", source.ErrUnreadable, "the QR text cannot be read: "},
		"a label's code":   {labelText(t, "records.ellery-slip.example"), source.ErrUnreadable, "there is no record in this text: this is the code of a label, which only names record 3f2a 91c0 77de 0b14 and does not hold it"},
		"label and record": {text + "\n" + labelText(t, ""), source.ErrUnreadable, "one of the texts holds no record: this is the code of a label, which only names record 3f2a 91c0 77de 0b14"},
		"no record inside": {deflatedProse(t), source.ErrUnreadable, "the QR text holds no record: malformed envelope"},
		"too many texts":   {strings.Repeat(text[:40]+"\n", 200), source.ErrUnreadable, "the QR text cannot be read: 200 texts, a record has at most 198"},
		"cut PNG":          {"\x89PNG\r\n\x1a\n....", source.ErrUnreadable, "this picture (PNG) cannot be opened: its header is damaged"},
		"PNG cut later":    {string(sheetPNG[:len(sheetPNG)/2]), source.ErrUnreadable, "this picture (PNG) cannot be opened: it is cut short"},
		"PNG without end":  {string(sheetPNG[:len(sheetPNG)-1]), source.ErrUnreadable, "this picture (PNG) cannot be opened: it is cut short"},
		"damaged PNG":      {string(damagedPNG), source.ErrUnreadable, "this picture (PNG) cannot be opened: its pixels, or what is written about them, are damaged"},
		"cut JPEG":         {"\xff\xd8\xff\xe0....", source.ErrUnreadable, "this picture (JPEG) cannot be opened: it is cut short"},
		"long picture":     {"\xff\xd8\xff" + strings.Repeat("\x00", 32<<20), source.ErrTooLarge, "the picture is 33554435 bytes long, the limit is 33554432"},
		"GIF":              {"GIF89a....", source.ErrImage, "this is a picture (GIF), which this program does not read"},
		"TIFF":             {"II*\x00....", source.ErrImage, "this is a picture (TIFF), which this program does not read"},
		"WebP":             {"RIFF....WEBP", source.ErrImage, "this is a picture (WebP), which this program does not read"},
		"BMP":              {"BM\x66\x00\x00\x00\x00\x00\x00\x00\x36\x00\x00\x00\x28\x00\x00\x00", source.ErrImage, "this is a picture (BMP), which this program does not read"},
		"no BMP":           {"BM is not how a record begins.", source.ErrUnreadable, "this is neither a PDF, a picture,"},
		"HEIC":             {"\x00\x00\x00\x18ftypheic....", source.ErrImage, "this is a picture (HEIC or AVIF), which this program does not read"},
		"cut record":       {string(whole[:200]), source.ErrUnreadable, "this record file is damaged: malformed envelope"},
		"record and more":  {string(whole) + "\n", source.ErrUnreadable, "this record file is damaged: malformed envelope"},
		"two in one file":  {string(whole) + string(whole), source.ErrUnreadable, "this record file is damaged: malformed envelope"},
		"long record":      {string(whole) + strings.Repeat("x", 16<<10), source.ErrTooLarge, "the record file is "},
		"long PDF":         {"%PDF-1.3\n" + strings.Repeat(" ", 8<<20), source.ErrTooLarge, "the PDF is 8388617 bytes long, the limit is 8388608"},
		"longer PDF":       {"%PDF-1.3\n" + strings.Repeat(" ", 32<<20), source.ErrTooLarge, "the PDF is 33554441 bytes long, the limit is 33554432"},
		"PDF of others":    {"%PDF-1.7\n1 0 obj\n<<>>\nendobj\n", source.ErrNoRecord, "no service record was found in this PDF"},
	} {
		t.Run(name, func(t *testing.T) {
			found, err := source.Read([]byte(test.input))
			if !errors.Is(err, test.kind) || !strings.HasPrefix(fmt.Sprint(err), test.reason) {
				t.Fatalf("got %v, want %v: %s", err, test.kind, test.reason)
			}
			if source.Hint(err) == "" {
				t.Error("no hint")
			}
			if found.Envelope != nil || found.PDF != nil {
				t.Error("an envelope in spite of the error")
			}
		})
	}
}

// labelText is the text of a label's code: it names a record.
func labelText(t testing.TB, host string) string {
	t.Helper()
	text, err := qrtext.Reference(host, [qrtext.ShortBytes]byte{0x3f, 0x2a, 0x91, 0xc0, 0x77, 0xde, 0x0b, 0x14})
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// The error says which record is named to programs too, and the hint asks for
// the record, not for another scan: there is nothing wrong with the code.
func TestLabelTextNamesTheRecord(t *testing.T) {
	_, err := source.Read([]byte(labelText(t, "records.ellery-slip.example") + "\n"))
	named, ok := errors.AsType[*qrtext.ReferenceError](err)
	if !ok || named.Short != [qrtext.ShortBytes]byte{0x3f, 0x2a, 0x91, 0xc0, 0x77, 0xde, 0x0b, 0x14} || named.Host != "records.ellery-slip.example" {
		t.Errorf("got %v", err)
	}
	if hint := source.Hint(err); !strings.HasPrefix(hint, "give the PDF of the report, a photograph or scan of its QR code,") {
		t.Errorf("hint %q", hint)
	}
}

func deflatedProse(t *testing.T) string {
	t.Helper()
	texts, err := qrtext.Encode([]byte("not an envelope at all"), "")
	if err != nil {
		t.Skipf("the encoder takes envelopes only: %v", err)
	}
	return texts[0]
}
