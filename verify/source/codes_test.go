package source_test

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"slices"
	"strings"
	"testing"

	"hourseal/sign/qrtext"
	"hourseal/verify/source"
	"hourseal/verify/source/picture"
	"hourseal/verify/source/sourcetest"
)

// partsOf are the texts of a record that takes three codes at least.
func partsOf(t testing.TB, note string) (envelope []byte, texts []string) {
	t.Helper()
	envelope = record(t, note, 2600)
	texts = textsOf(t, envelope)
	if len(texts) < 3 {
		t.Fatalf("%d parts, the tests need three", len(texts))
	}
	return envelope, texts
}

func readPixels(t testing.TB, img *image.Gray) (source.Found, error) {
	t.Helper()
	return source.ReadPixels(img, picture.Thorough)
}

const berths = "https://port-ellery.example/berths" // somebody else's code

// What is beside the code of a record does not matter, in whatever order.
func TestRecordAmongCodes(t *testing.T) {
	envelope := record(t, "Gannet", 300)
	text := textsOf(t, envelope)[0]
	long, parts := partsOf(t, "Gannet, a long record")
	reversed := slices.Clone(parts)
	slices.Reverse(reversed)
	for name, test := range map[string]struct {
		texts, ours []string
		want        []byte
	}{
		"alone":             {[]string{text}, []string{text}, envelope},
		"another's code":    {[]string{berths, text, "WIFI:S:Ellery Slip;;"}, []string{text}, envelope},
		"a label":           {[]string{labelText(t, ""), text}, []string{text}, envelope},
		"a damaged text":    {[]string{"hourseal:9123", text}, []string{text}, envelope},
		"a fragment":        {[]string{"#1234567", text}, []string{text}, envelope},
		"twice":             {[]string{text, text}, []string{text}, envelope},
		"parts":             {parts, parts, long},
		"parts, reversed":   {reversed, parts, long},
		"parts and another": {append([]string{berths}, reversed...), parts, long},
	} {
		t.Run(name, func(t *testing.T) {
			found, err := readPixels(t, sheetWith(t, test.texts...))
			if err != nil {
				t.Fatal(err)
			}
			slices.Sort(found.Texts)
			want := slices.Sorted(slices.Values(test.ours))
			if found.Kind != source.KindImage || !bytes.Equal(found.Envelope, test.want) || !slices.Equal(found.Texts, want) {
				t.Errorf("kind %q, %d texts", found.Kind, len(found.Texts))
			}
			if found.Host != "records.ellery-slip.example" || found.HostUnknown {
				t.Errorf("host %q, unknown %t", found.Host, found.HostUnknown)
			}
		})
	}
}

// Codes without a whole record: what the person is told.
func TestCodesWithoutRecord(t *testing.T) {
	text := textsOf(t, record(t, "Gannet", 300))[0]
	another := textsOf(t, record(t, "Gannet, another", 300))[0]
	_, parts := partsOf(t, "Gannet, a long record")
	_, otherParts := partsOf(t, "Gannet, another long record")
	otherHost, err := qrtext.Encode(record(t, "Gannet", 300), "pages.port-ellery.example")
	if err != nil {
		t.Fatal(err)
	}
	n := len(parts)
	for name, test := range map[string]struct {
		texts  []string
		kind   error
		reason string
		hint   string
	}{
		"none":                              {nil, source.ErrNoCode, "no QR code was seen in this picture", "the code is on the report's last page: take the picture again"},
		"another's":                         {[]string{berths}, source.ErrOtherCode, "the code in this picture is not one of a service record", "find the large code on the service report's last page"},
		"a fragment":                        {[]string{"#" + text[strings.Index(text, "#")+1:]}, source.ErrOtherCode, "the code in this picture is not one", "find the large code"},
		"a label":                           {[]string{labelText(t, "")}, source.ErrUnreadable, "there is no record in this picture: this is the code of a label, which only names record 3f2a 91c0 77de 0b14 and does not hold it", "give the PDF of the report"},
		"a label and another's":             {[]string{berths, labelText(t, "")}, source.ErrUnreadable, "there is no record in this picture: this is the code of a label, which only names", "give the PDF of the report"},
		"damaged":                           {[]string{"hourseal:9123"}, source.ErrUnreadable, "the code in this picture holds no record that can be read: damaged QR text: format 9 is not known", "give the PDF of the report"},
		"two records":                       {[]string{text, another}, source.ErrTwoRecords, "this picture holds two different service records", "give one record at a time"},
		"two pages":                         {[]string{text, otherHost[0]}, source.ErrUnreadable, "the codes in this picture name two different pages", "give one record at a time"},
		"a part missing":                    {slices.Delete(slices.Clone(parts), 1, 2), source.ErrUnreadable, fmt.Sprintf("the record is not whole: part 2 of %d is missing", n), "give a picture of each code"},
		"a record and another's part":       {[]string{text, parts[0]}, source.ErrTwoRecords, "this picture holds a service record and a part of another", "give one record at a time"},
		"parts of two":                      {[]string{parts[0], otherParts[1]}, source.ErrTwoRecords, "this picture holds parts of two different service records", "give one record at a time"},
		"the first and the rest of another": {append([]string{parts[0]}, otherParts[1:]...), source.ErrTwoRecords, "this picture holds parts of two", "give one record at a time"},
	} {
		t.Run(name, func(t *testing.T) {
			sheet := image.NewGray(image.Rect(0, 0, 200, 200))
			draw.Draw(sheet, sheet.Rect, image.White, image.Point{}, draw.Src)
			if len(test.texts) > 0 {
				sheet = sheetWith(t, test.texts...)
			}
			found, err := readPixels(t, sheet)
			if !errors.Is(err, test.kind) || !strings.HasPrefix(fmt.Sprint(err), test.reason) || !strings.HasPrefix(source.Hint(err), test.hint) {
				t.Errorf("got %v (%s), want %v: %s", err, source.Hint(err), test.kind, test.reason)
			}
			if found.Envelope != nil {
				t.Error("an envelope in spite of the error")
			}
		})
	}
}

// A code with a hand over it: it was seen, how large it was, and what would help
// depends on that.
func TestCodeSeenAndNotRead(t *testing.T) {
	text := textsOf(t, record(t, "Gannet", 300))[0]
	for _, test := range []struct {
		module int
		hint   string
	}{{3, "nearer"}, {8, "flatter, in more light"}} {
		code := codeOf(t, text, test.module)
		n := code.Rect.Dx()
		draw.Draw(code, image.Rect(n/4, n/4, n*3/4, n*3/4), image.NewUniform(color.Gray{Y: 140}), image.Point{}, draw.Src)
		_, err := readPixels(t, code)
		want := fmt.Sprintf("a QR code was seen in this picture and not read: its small squares are about %d.0 pixels wide", test.module)
		if !errors.Is(err, source.ErrUnread) || err.Error() != want || !strings.Contains(source.Hint(err), test.hint) {
			t.Errorf("%d pixels a module: %v (%s)", test.module, err, source.Hint(err))
		}
	}
}

// Each code of a record in a picture of its own: every picture says which parts are
// missing and hands its texts on, and together they are the record.
func TestPartsOverPictures(t *testing.T) {
	envelope, parts := partsOf(t, "Gannet, a long record")
	var texts []string
	for i, part := range parts {
		_, err := source.Read(pngOf(t, sheetWith(t, part, berths)))
		missing, ok := errors.AsType[*qrtext.MissingPartsError](err)
		if !ok || missing.Count != len(parts) || len(missing.Missing) != len(parts)-1 || slices.Contains(missing.Missing, i+1) {
			t.Fatalf("part %d: %v", i+1, err)
		}
		e, ok := errors.AsType[*source.InputError](err)
		if !ok || !slices.Equal(e.Texts, []string{part}) {
			t.Fatalf("part %d: texts of another record, or none", i+1)
		}
		texts = append(texts, e.Texts...)
	}
	slices.Reverse(texts)
	found, err := source.FromTexts(source.KindImage, texts)
	if err != nil || found.Kind != source.KindImage || !bytes.Equal(found.Envelope, envelope) || found.Scan {
		t.Errorf("together: %+v, %v", found, err)
	}
	if found, err := source.FromTexts(source.KindPDF, texts); err != nil || !found.Scan {
		t.Errorf("together, of a scan: %v", err)
	}
	_, err = source.FromTexts(source.KindImage, texts[1:])
	if e, ok := errors.AsType[*source.InputError](err); !ok || !slices.Equal(e.Texts, texts[1:]) {
		t.Errorf("but one: %v", err)
	}
	// Of a text file the texts come back as well.
	_, err = source.Read([]byte(parts[1] + "\n"))
	if e, ok := errors.AsType[*source.InputError](err); !ok || !slices.Equal(e.Texts, parts[1:2]) {
		t.Errorf("as text: %v", err)
	}
}

// A scan of several pages may have a code on each.
func TestPartsOverPagesOfScan(t *testing.T) {
	envelope, parts := partsOf(t, "Gannet, a long record")
	pages := func(texts ...string) []byte {
		var pictures []sourcetest.Picture
		for _, text := range texts {
			sheet := sheetWith(t, text)
			pictures = append(pictures, deflatedPicture(sheet, "/ColorSpace /DeviceGray /BitsPerComponent 8", sourcetest.Packed(sheet, 8)))
		}
		return sourcetest.Scan(nil, pictures...)
	}
	found := mustRead(t, pages(parts...))
	if !found.Scan || !bytes.Equal(found.Envelope, envelope) || len(found.Texts) != len(parts) {
		t.Errorf("scan %t, %d texts", found.Scan, len(found.Texts))
	}
	_, err := source.Read(pages(parts[1:]...))
	if e, ok := errors.AsType[*source.InputError](err); !ok || len(e.Texts) != len(parts)-1 || !errors.Is(err, source.ErrUnreadable) {
		t.Errorf("a page short: %v", err)
	}
	_, err = source.Read(pages(textsOf(t, record(t, "Gannet", 300))[0], textsOf(t, record(t, "Gannet, another", 300))[0]))
	if !errors.Is(err, source.ErrTwoRecords) || !strings.HasPrefix(err.Error(), "the pictures in this PDF hold two different") {
		t.Errorf("two records: %v", err)
	}
}

// The fragment of an address is a text without its host.
func TestFragments(t *testing.T) {
	envelope := record(t, "Gannet", 300)
	text := textsOf(t, envelope)[0]
	fragment := text[strings.Index(text, "#"):]
	long, parts := partsOf(t, "Gannet, a long record")
	cut := slices.Clone(parts)
	for i := range cut {
		cut[i] = cut[i][strings.Index(cut[i], "#"):]
	}
	mixed := append(slices.Clone(cut[:1]), parts[1:]...)
	const host = "records.ellery-slip.example"
	for name, test := range map[string]struct {
		texts   []string
		want    []byte
		host    string
		unknown bool
	}{
		"whole":                     {[]string{fragment}, envelope, "", true},
		"parts":                     {cut, long, "", true},
		"a part and the rest whole": {mixed, long, host, false},
		"the same in both ways":     {[]string{fragment, text}, envelope, host, false},
		"none":                      {[]string{text}, envelope, host, false},
		"no page":                   {[]string{noPage(t, envelope)}, envelope, "", false},
	} {
		t.Run(name, func(t *testing.T) {
			for _, kind := range []source.Kind{source.KindText, source.KindImage} {
				found, err := source.FromTexts(kind, test.texts)
				if err != nil {
					t.Fatalf("%s: %v", kind, err)
				}
				if found.Kind != kind || !bytes.Equal(found.Envelope, test.want) || found.Host != test.host || found.HostUnknown != test.unknown || !slices.Equal(found.Texts, test.texts) {
					t.Errorf("%s: host %q, unknown %t, %d texts", kind, found.Host, found.HostUnknown, len(found.Texts))
				}
			}
			found := mustRead(t, []byte(strings.Join(test.texts, "\n")))
			if found.Kind != source.KindText || found.HostUnknown != test.unknown {
				t.Errorf("read as %q, host unknown %t", found.Kind, found.HostUnknown)
			}
		})
	}
	for _, odd := range []string{"#", "#x", "# 1", "##12345678901234567890"} {
		if _, err := source.Read([]byte(odd)); !errors.Is(err, source.ErrUnreadable) || source.Hint(err) == "" {
			t.Errorf("%q: %v", odd, err)
		}
	}
}

// A text that holds no record says nothing about one, and does not come back with it.
func TestTextsOfAnother(t *testing.T) {
	envelope := record(t, "Gannet", 300)
	text := textsOf(t, envelope)[0]
	fragment := text[strings.Index(text, "#"):]
	long, parts := partsOf(t, "Gannet, a long record")
	const (
		odd  = "HTTPS://OTHER.EXAMPLE/#4123456789" // it parses, and does not decode
		host = "records.ellery-slip.example"
	)
	for name, test := range map[string]struct {
		texts, ours []string
		want        []byte
		host        string
		unknown     bool
	}{
		"before a fragment":   {[]string{odd, fragment}, []string{fragment}, envelope, "", true},
		"after a fragment":    {[]string{fragment, odd}, []string{fragment}, envelope, "", true},
		"before both":         {[]string{odd, fragment, text}, []string{fragment, text}, envelope, host, false},
		"before a whole text": {[]string{odd, text}, []string{text}, envelope, host, false},
		"among parts":         {[]string{parts[0], odd, parts[1], parts[2]}, parts, long, host, false},
	} {
		for _, kind := range []source.Kind{source.KindImage, source.KindPDF} {
			found, err := source.FromTexts(kind, test.texts)
			if err != nil || !bytes.Equal(found.Envelope, test.want) || !slices.Equal(found.Texts, test.ours) || found.Host != test.host || found.HostUnknown != test.unknown {
				t.Errorf("%s, %s: host %q, unknown %t, %d texts, %v", name, kind, found.Host, found.HostUnknown, len(found.Texts), err)
			}
		}
	}
	_, err := source.FromTexts(source.KindImage, []string{odd, parts[2], parts[0]})
	if e, ok := errors.AsType[*source.InputError](err); !ok || !slices.Equal(e.Texts, []string{parts[2], parts[0]}) {
		t.Errorf("a part missing: %v", err)
	}
}

// Parts of one record that were printed at different times do not go together: the error
// is about those of which the fewest are missing, and so are the texts beside it.
func TestTextsOfMissingParts(t *testing.T) {
	_, parts := partsOf(t, "Gannet, a long record")
	older := strings.Replace(parts[2], "#5", "#2", 1)
	for _, kind := range []source.Kind{source.KindImage, source.KindText} {
		_, err := source.FromTexts(kind, []string{older, parts[0], parts[1]})
		missing, _ := errors.AsType[*qrtext.MissingPartsError](err)
		e, ok := errors.AsType[*source.InputError](err)
		if !ok || missing == nil || missing.Dictionary != 1 || !slices.Equal(missing.Missing, []int{3}) || !slices.Equal(e.Texts, parts[:2]) {
			t.Errorf("%s: %v", kind, err)
		}
	}
}

// A place in a fragment is counted in what was given.
func TestPlaceInFragment(t *testing.T) {
	for text, want := range map[string]string{
		"#41234x":          "the QR text cannot be read: damaged QR text: character 7 is not a digit",
		" #41234x ":        "the QR text cannot be read: damaged QR text: character 7 is not a digit",
		"hourseal:41234x":  "the QR text cannot be read: damaged QR text: character 15 is not a digit",
		"https://a.b/#12x": "the QR text cannot be read: damaged QR text: character 16 is not a digit",
	} {
		if _, err := source.FromTexts(source.KindText, []string{text}); fmt.Sprint(err) != want {
			t.Errorf("%q: %v", text, err)
		}
	}
}

// A report's own attachment has its texts whole: fragments there are another layout.
func TestFragmentInReport(t *testing.T) {
	envelope := record(t, "Gannet", 300)
	text := textsOf(t, envelope)[0]
	pdf := must(t)(sourcetest.ReplaceAttachment(reportOf(t, envelope).bytes(t), "record.txt", []byte(text[strings.Index(text, "#"):]+"\n")))
	if _, err := source.ReadPDF(pdf); err == nil || !strings.Contains(err.Error(), "record.txt") {
		t.Errorf("got %v", err)
	}
}

// Texts as strict as a text file's are, or as lenient as a picture's.
func TestFromTextsStrictness(t *testing.T) {
	text := textsOf(t, record(t, "Gannet", 300))[0]
	if _, err := source.FromTexts(source.KindText, []string{text, berths}); !errors.Is(err, source.ErrUnreadable) {
		t.Errorf("another's text in a text: %v", err)
	}
	if _, err := source.FromTexts(source.KindImage, []string{text, berths}); err != nil {
		t.Errorf("another's code in a picture: %v", err)
	}
	if found, err := source.FromTexts(source.KindRecord, []string{text}); !errors.Is(err, source.ErrUnreadable) || found.Envelope != nil {
		t.Errorf("texts as a record file: %v", err)
	}
	for _, kind := range []source.Kind{source.KindText, source.KindImage} {
		if _, err := source.FromTexts(kind, nil); err == nil || source.Hint(err) == "" {
			t.Errorf("%s, no texts: %v", kind, err)
		}
		var many []string
		for i := range 200 {
			many = append(many, fmt.Sprintf("hourseal:2%02d9912345678%d", i%99+1, i))
		}
		tooMany := map[source.Kind]struct {
			kind   error
			reason string
		}{
			source.KindText:  {source.ErrUnreadable, "the QR text cannot be read: 200 texts, a record has at most 198"},
			source.KindImage: {source.ErrTooLarge, "over 198 different codes, a record has at most 99"},
		}[kind]
		if _, err := source.FromTexts(kind, many); !errors.Is(err, tooMany.kind) || err.Error() != tooMany.reason || source.Hint(err) == "" {
			t.Errorf("%s, 200 texts: %v", kind, err)
		}
	}
}
