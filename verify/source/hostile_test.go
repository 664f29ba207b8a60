package source_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"image"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"hourseal/verify/source"
	"hourseal/verify/source/sourcetest"
)

// What any input may take, whatever it is.
const (
	mostMemoryKiB = 256 << 10
	mostTime      = 10 * time.Second // of a processor
)

// oneBit makes the deflated pixels of a 1-bit picture row by row, each with a PNG
// filter before it.
func oneBit(width, height int, fill func(y int, row []byte)) []byte {
	rows := make([]byte, 0, (1+(width+7)/8)*height)
	row := make([]byte, (width+7)/8)
	for y := range height {
		fill(y, row)
		rows = append(append(rows, 0), row...)
	}
	return sourcetest.Deflate(rows)
}

func noise(seed uint64) func(int, []byte) {
	r := rand.New(rand.NewPCG(seed, 0))
	return func(_ int, row []byte) {
		for i := range row {
			row[i] = byte(r.Uint32())
		}
	}
}

// finders fills a picture with the patterns that a reader looks for in the corners of
// a code: nine modules a tile, so many pixels each.
func finders(module int) func(int, []byte) {
	pattern := [9]string{"000000000", "011111110", "010000010", "010111010", "010111010", "010111010", "010000010", "011111110", "000000000"}
	return func(y int, row []byte) {
		clear(row)
		line := pattern[y/module%9]
		for x := range 8 * len(row) {
			if line[x/module%9] == '0' {
				row[x/8] |= 0x80 >> (x % 8)
			}
		}
	}
}

func stripes(y int, row []byte) {
	for i := range row {
		row[i] = 0x55 << (y % 2)
	}
}

// hostile are inputs made to take long or much. The long ones are for
// HOURSEAL_LONG=1.
func hostile(t testing.TB, long bool) map[string][]byte {
	t.Helper()
	small := sheetWith(t, textsOf(t, record(t, "Gannet", 300))[0])
	jpg := jpegOf(t, as(small, image.NewRGBA(small.Rect)), 80)
	declared := func(jpg []byte, width, height int) []byte { // in its frame header
		out := bytes.Clone(jpg)
		at := bytes.Index(out, []byte("\xff\xc0"))
		copy(out[at+5:], []byte{byte(height >> 8), byte(height), byte(width >> 8), byte(width)})
		return out
	}
	dct := func(content []byte, width, height int) sourcetest.Picture {
		return sourcetest.Picture{Width: width, Height: height, Entries: "/ColorSpace /DeviceRGB /BitsPerComponent 8 /Filter /DCTDecode", Content: content}
	}
	tiny := deflatedPicture(image.NewGray(image.Rect(0, 0, 30, 30)), "/ColorSpace /DeviceGray /BitsPerComponent 8", make([]byte, 900))
	repeat := func(p sourcetest.Picture, n int) []sourcetest.Picture {
		all := make([]sourcetest.Picture, n)
		for i := range all {
			all[i] = p
		}
		return all
	}
	zeros := sourcetest.Deflate(make([]byte, 40<<20))
	page := func(width, height int, deflated []byte) []byte { // its rows have a PNG filter
		return sourcetest.Scan(nil, sourcetest.Picture{Width: width, Height: height, Content: deflated,
			Entries: fmt.Sprintf("/ColorSpace /DeviceGray /BitsPerComponent 1 /Filter /FlateDecode /DecodeParms << /Predictor 15 /Colors 1 /BitsPerComponent 1 /Columns %d >>", width)})
	}
	all := map[string][]byte{
		"PNG, 60000 x 60000 declared":        pngFile(60000, 60000, 8, 2, 0, zeros),
		"PNG, most pixels declared":          pngFile(1<<31-1, 1<<31-1, 16, 6, 1, zeros),
		"PNG, deflated nothing":              pngFile(7000, 7000, 1, 0, 0, sourcetest.Deflate(make([]byte, 7000*876))),
		"PNG, 16 bits and interlaced":        pngFile(4500, 4500, 16, 6, 1, zeros),
		"JPEG, 60000 x 60000 declared":       declared(jpg, 60000, 60000),
		"JPEG, 7000 x 7000 declared":         declared(jpg, 7000, 7000),
		"JPEG, cut":                          jpg[:len(jpg)/2],
		"JPEG of comments":                   jpegWith(jpg, bytes.Split(bytes.Repeat([]byte("\xfe,"), 5000)[:9999], []byte(","))...),
		"JPEG of scans":                      scansJPEG(3496, 2000, false),
		"PDF, 10,000 pictures":               sourcetest.Scan(nil, repeat(tiny, 10_000)...),
		"PDF, 60000 x 60000 declared":        sourcetest.Scan(nil, sourcetest.Picture{Width: 60000, Height: 60000, Entries: "/ColorSpace /DeviceRGB /BitsPerComponent 8 /Filter /FlateDecode", Content: zeros}),
		"PDF, small pictures that are large": sourcetest.Scan(nil, repeat(dct(declared(jpg, 6000, 6000), 30, 30), 16)...),
		"PDF, fax of nothing":                sourcetest.Scan(nil, sourcetest.Picture{Width: 7000, Height: 7000, Entries: "/ColorSpace /DeviceGray /BitsPerComponent 1 /Filter /CCITTFaxDecode /DecodeParms << /K -1 /Columns 7000 >>", Content: bytes.Repeat([]byte{0xff}, 1000)}),
		"PDF, JPEG of deflated zeros":        sourcetest.Scan(nil, sourcetest.Picture{Width: 100, Height: 100, Entries: "/Filter [/FlateDecode /DCTDecode]", Content: sourcetest.Deflate(append(bytes.Clone(jpg[:4]), make([]byte, 100<<20)...))}),
		"PDF, dictionaries without an end":   append([]byte("%PDF-1.5\n"), bytes.Repeat([]byte("1 0 obj<</A"), 700_000)...),
		"PDF, deep dictionaries":             append([]byte("%PDF-1.5\n"), bytes.Repeat([]byte("1 0 obj "+strings.Repeat("<</A[", 20)), 60_000)...),
		"PDF, streams without an end":        append([]byte("%PDF-1.5\n"), bytes.Repeat([]byte("1 0 obj<</Subtype/Image/Width 9/Height 9>>stream\n"), 150_000)...),
		"PDF, references in a ring":          []byte("%PDF-1.5\n1 0 obj<</Subtype/Image/Width 2 0 R/Height 3 0 R/Filter 2 0 R>>stream\nendstream\n2 0 obj 3 0 R endobj 3 0 obj 2 0 R endobj"),
		"PNG, noise of 4 million pixels":     pngFile(2000, 2000, 1, 0, 0, oneBit(2000, 2000, noise(1))),
		"PNG, finders of 4 million pixels":   pngFile(2000, 2000, 1, 0, 0, oneBit(2000, 2000, finders(3))),
	}
	// Without a colour space, so that its components have to be counted.
	stored := func(n, side, components, bits int, deflated []byte) []byte {
		return sourcetest.Scan(nil, repeat(sourcetest.Picture{Width: side, Height: side, Content: deflated,
			Entries: fmt.Sprintf("/BitsPerComponent %d /Filter /FlateDecode /DecodeParms << /Predictor 15 /Colors %d /BitsPerComponent %d /Columns %d >>", bits, components, bits, side)}, n)...)
	}
	nothing := func(size int) sourcetest.Picture {
		return sourcetest.Picture{Width: 1220, Height: 1220, Content: emptyBlocks(make([]byte, 1+3*1220), size),
			Entries: "/ColorSpace /DeviceRGB /BitsPerComponent 8 /Filter /FlateDecode /DecodeParms << /Predictor 15 /Colors 3 /BitsPerComponent 8 /Columns 1220 >>"}
	}
	// Names of chunks in a text before the chunk that makes the picture transparent.
	hidden := pngChunks(7000, 7000, 16, 0, 0, [2]string{"tEXt", "Comment\x00IDAT"}, [2]string{"tRNS", "\x00\x01"}, [2]string{"IDAT", string(sourcetest.Deflate(make([]byte, (1+2*7000)*7000)))})
	flat := jpegOf(t, image.NewGray(image.Rect(0, 0, 7000, 7000)), 75)
	line := jpegOf(t, image.NewGray(image.Rect(0, 0, 64, 1)), 75)
	commented := sourcetest.Deflate(jpegWith(line, append([]byte{0xfe}, make([]byte, 60_000)...)))
	deflatedJPEG := sourcetest.Picture{Width: 64, Height: 1, Entries: "/ColorSpace /DeviceGray /BitsPerComponent 8 /Filter [/FlateDecode /DCTDecode]", Content: commented}
	// Each picture asks for a palette at the end of the file.
	palettes := func(n int, palette string) []byte {
		var b bytes.Buffer
		b.WriteString("%PDF-1.4\n")
		for i := range n {
			fmt.Fprintf(&b, "%d 0 obj<</Subtype/Image/Width 9/Height 9/BitsPerComponent 8/ColorSpace[/Indexed/DeviceRGB 255 999999 0 R]>>stream\nx endstream endobj\n", i+1)
		}
		fmt.Fprintf(&b, "999999 0 obj%s", palette)
		return b.Bytes()
	}
	var comments [][]byte // as well as they deflate without going over four to one
	for range 460 {
		comment := make([]byte, 1+60_000)
		comment[0] = 0xfe
		noise(uint64(len(comments)))(0, comment[1:len(comment)/4])
		comments = append(comments, comment)
	}
	for name, data := range map[string][]byte{
		"PDF, deflated JPEG of comments":   sourcetest.Scan(nil, sourcetest.Picture{Width: 7000, Height: 7000, Entries: "/ColorSpace /DeviceGray /BitsPerComponent 8 /Filter [/FlateDecode /DCTDecode]", Content: sourcetest.Deflate(jpegWith(flat, slices.Concat(comments, comments[:230])...))}),
		"PNG, transparent and hidden":      hidden,
		"PDF, small strips that are large": sourcetest.Scan(nil, repeat(dct(flat, 64, 1), 30)...),
		"PDF, four inks of 16 bits":        stored(1, 5950, 4, 16, shortCopies(5950*(1+8*5950))),
		"PDF, blocks that hold nothing":    sourcetest.Scan(nil, nothing(13<<20)),
		"PDF, four inks declared":          sourcetest.Scan(nil, repeat(sourcetest.Picture{Width: 6700, Height: 6700, Entries: "/ColorSpace /DeviceCMYK /BitsPerComponent 16 /Filter /FlateDecode", Content: zeros[:1000]}, 2)...),
		"PDF, a palette that does not end": palettes(9000, "<</A 1>>stream\n"+strings.Repeat("endstreaendstreae", (30<<20)/17)),
	} {
		all[name] = data
	}
	if long {
		for name, data := range map[string][]byte{
			"PDF, 9,000 strips":                            sourcetest.Scan(nil, repeat(dct(line, 64, 1), 9000)...),
			"PDF, 9,000 deflated strips":                   sourcetest.Scan(nil, repeat(deflatedJPEG, 9000)...),
			"PDF, a deflated palette over again":           palettes(9000, "<</Filter/FlateDecode>>stream\n"+string(sourcetest.Deflate(make([]byte, 1<<20)))+"endstream"),
			"PDF, many palettes":                           palettes(190_000, "<</A 1>>stream\n"+strings.Repeat("x", 16<<10)),
			"PDF, 64 scans on many pages":                  sourcetest.Scan(nil, repeat(dct(scansJPEG(2992, 63, false), 2992, 2992), 10)...),
			"PNG, noise of 50 million pixels":              pngFile(7000, 7000, 1, 0, 0, oneBit(7000, 7000, noise(1))),
			"PNG, stripes of 50 million pixels":            pngFile(7000, 7000, 1, 0, 0, oneBit(7000, 7000, stripes)),
			"PNG, finders of 50 million pixels":            pngFile(7000, 7000, 1, 0, 0, oneBit(7000, 7000, finders(1))),
			"PNG, larger finders":                          pngFile(7000, 7000, 1, 0, 0, oneBit(7000, 7000, finders(4))),
			"PNG, colour of 35 million pixels":             pngFile(4960, 7016, 8, 2, 0, sourcetest.Deflate(make([]byte, (1+3*4960)*7016))),
			"JPEG, colour of 50 million pixels":            jpegOf(t, speckled(8192, 6144), 30),
			"JPEG, 64 scans of 36 million pixels":          scansJPEG(5968, 63, false),
			"JPEG, 64 scans of 21 million in colour":       scansJPEG(4640, 63, true),
			"PDF, noise of 50 million pixels":              page(7000, 7000, oneBit(7000, 7000, noise(2))),
			"PDF, noise on ten pages":                      manyPages(10, 2990, noise(3)),
			"PDF, finders on ten pages":                    manyPages(10, 2990, finders(2)),
			"PDF, finders on small pages":                  manyPages(16, 1220, finders(2)),
			"PDF, colour JPEGs on ten pages":               sourcetest.Scan(nil, repeat(dct(jpegOf(t, speckled(2990, 2990), 20), 2990, 2990), 10)...),
			"PDF, finders on middling pages":               manyPages(16, 1670, finders(2)),
			"PDF, larger finders on many pages":            manyPages(16, 1670, finders(4)),
			"PDF, noise on sixteen pages":                  manyPages(16, 2100, noise(5)),
			"PDF, colour in short copies":                  stored(2, 6700, 3, 8, shortCopies(6700*(1+3*6700))),
			"PDF, finders beside blocks that hold nothing": sourcetest.Scan(nil, append(repeat(blackAndWhite(1220, finders(2)), 15), nothing(11<<20))...),
			"PDF, finders in four inks of 16 bits":         stored(16, 1445, 4, 16, blackInk(1445, finders(2))),
			"PDF, colour JPEG of 35 million":               sourcetest.Scan(nil, dct(jpegOf(t, speckled(4960, 7016), 30), 4960, 7016)),
		} {
			all[name] = data
		}
	}
	return all
}

// refusals says how the error ends of those inputs that are made for one guard: an
// earlier one would leave it untried.
var refusals = map[string]string{
	"PNG, 60000 x 60000 declared":        "(PNG, 60000 x 60000 pixels) is larger than this program opens",
	"PNG, most pixels declared":          "(PNG, 50331649 x 50331649 pixels) is larger than this program opens",
	"PNG, 16 bits and interlaced":        "(PNG, 4500 x 4500 pixels) is larger than this program opens",
	"PNG, transparent and hidden":        "(PNG, 7000 x 7000 pixels) is larger than this program opens",
	"JPEG, 60000 x 60000 declared":       "(JPEG, 60000 x 60000 pixels) is larger than this program opens",
	"JPEG, cut":                          "it is cut short",
	"JPEG of comments":                   "it is in more parts than a picture has",
	"JPEG of scans":                      "it is in more scans than a picture has",
	"PDF, 10,000 pictures":               "holds 10000 pictures, more than this program searches for a code",
	"PDF, 60000 x 60000 declared":        "holds a picture of 60000 x 60000 pixels, more than this program searches for a code",
	"PDF, small pictures that are large": "holds pictures of over 90 million pixels, more than this program searches for a code",
	"PDF, small strips that are large":   "a strip of it is of another size than the PDF says",
	"PDF, four inks of 16 bits":          "holds pictures of over 270 million bytes, more than this program searches for a code",
	"PDF, blocks that hold nothing":      "holds deflated pictures of over 12 MiB, more than this program searches for a code",
	"PDF, four inks declared":            "holds pictures of over 270 million bytes, more than this program searches for a code",
	"PDF, JPEG of deflated zeros":        "(JPEG in a PDF) cannot be opened: it is cut short",
	"PDF, deflated JPEG of comments":     "(JPEG in a PDF) cannot be opened: it is cut short",
}

// manyPages is a scan of square 1-bit pages.
func manyPages(n, side int, fill func(int, []byte)) []byte {
	return sourcetest.Scan(nil, slices.Repeat([]sourcetest.Picture{blackAndWhite(side, fill)}, n)...)
}

func blackAndWhite(side int, fill func(int, []byte)) sourcetest.Picture {
	return sourcetest.Picture{Width: side, Height: side, Content: oneBit(side, side, fill),
		Entries: fmt.Sprintf("/ColorSpace /DeviceGray /BitsPerComponent 1 /Filter /FlateDecode /DecodeParms << /Predictor 15 /Colors 1 /BitsPerComponent 1 /Columns %d >>", side)}
}

// speckled is a colour picture with something in every block.
func speckled(width, height int) image.Image {
	img := image.NewYCbCr(image.Rect(0, 0, width, height), image.YCbCrSubsampleRatio420)
	r := rand.New(rand.NewPCG(4, 0))
	for i := range img.Y {
		img.Y[i] = byte(r.Uint32())
	}
	for i := range img.Cb {
		img.Cb[i], img.Cr[i] = 128, 128
	}
	return img
}

// scansJPEG is a progressive JPEG, square, of so many scans that take next to no bytes
// each: an end-of-band run over all blocks (ITU-T T.81 section G.1.2.2). In colour it
// has half the resolution in the colours.
func scansJPEG(side, scans int, colour bool) []byte {
	b := []byte("\xff\xd8\xff\xdb\x00\x43\x00")
	b = append(b, bytes.Repeat([]byte{1}, 64)...)
	size := []byte{8, byte(side >> 8), byte(side), byte(side >> 8), byte(side)}
	first, blocks := "\x01\x01\x00\x00\x00\x00", side/8*(side/8) // the scan of DC coefficients
	if colour {
		b = append(append(append(b, 0xff, 0xc2, 0, 17), size...), "\x03\x01\x22\x00\x02\x11\x00\x03\x11\x00"...)
		first = "\x03\x01\x00\x02\x00\x03\x00\x00\x00\x00"
	} else {
		b = append(append(append(b, 0xff, 0xc2, 0, 11), size...), "\x01\x01\x11\x00"...)
	}
	// One code, a single 0 bit: category 0 for DC, a run of 2^14 blocks for AC.
	b = append(b, 0xff, 0xc4, 0, 20, 0x00, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0x00)
	b = append(b, 0xff, 0xc4, 0, 20, 0x10, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0xe0)
	b = append(append(b, 0xff, 0xda, 0, byte(len(first)+2)), first...)
	b = append(b, make([]byte, blocks*3/2/8+1)...)
	for range scans {
		b = append(b, 0xff, 0xda, 0, 8, 1, 1, 0x00, 1, 63, 0x00)
		b = append(b, make([]byte, 15*(blocks/(1<<14)+1)/8+1)...)
	}
	return append(b, 0xff, 0xd9)
}

// spent is what reading an input took, in a process of its own.
type spent struct {
	Err     string
	PeakKiB int // VmHWM of the whole process
}

// TestHostileChild is the process of its own.
func TestHostileChild(t *testing.T) {
	file := os.Getenv("HOURSEAL_HOSTILE")
	if file == "" {
		t.Skip("run by TestHostilePictures")
	}
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var readers sync.WaitGroup
	for range len(os.Getenv("HOURSEAL_HOSTILE_TOGETHER")) {
		readers.Go(func() { _, _ = source.Read(data) })
	}
	_, err = source.Read(data)
	readers.Wait()
	status, statusErr := os.ReadFile("/proc/self/status")
	if statusErr != nil {
		t.Fatal(statusErr)
	}
	_, peak, _ := strings.Cut(string(status), "VmHWM:")
	kib, atoiErr := strconv.Atoi(strings.Fields(peak)[0])
	if atoiErr != nil {
		t.Fatal(atoiErr)
	}
	out, _ := json.Marshal(spent{fmt.Sprint(err), kib}) // strings and numbers only
	if err := os.WriteFile(file+".spent", out, 0o600); err != nil {
		t.Fatal(err)
	}
}

// No input takes more than 256 MiB or 10 s of a processor: each is read in a process
// of its own, whose peak the system tells.
func TestHostilePictures(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("the peak of a process is read from /proc")
	}
	dir := t.TempDir()
	inputs := hostile(t, os.Getenv("HOURSEAL_LONG") == "1")
	for name := range refusals {
		if inputs[name] == nil {
			t.Errorf("there is no input %q", name)
		}
	}
	for name, data := range inputs {
		t.Run(name, func(t *testing.T) {
			s, took := readApart(t, dir, data)
			t.Logf("%d KiB: %.2f s, %d MiB: %s", len(data)>>10, took.Seconds(), s.PeakKiB>>10, s.Err)
			if took > mostTime || s.PeakKiB > mostMemoryKiB {
				t.Errorf("%v and %d KiB, the limits are %v and %d KiB", took, s.PeakKiB, mostTime, mostMemoryKiB)
			}
			if !strings.HasSuffix(s.Err, refusals[name]) {
				t.Errorf("%s\nthe error is to end with: %s", s.Err, refusals[name])
			}
		})
	}
}

// The largest pictures do not pile up where several inputs are read at once.
func TestLargePicturesTogether(t *testing.T) {
	if os.Getenv("HOURSEAL_LONG") != "1" || runtime.GOOS != "linux" {
		t.Skip("with HOURSEAL_LONG=1, on Linux")
	}
	data := pngFile(4960, 7016, 8, 2, 0, sourcetest.Deflate(make([]byte, (1+3*4960)*7016)))
	s, _ := readApart(t, t.TempDir(), data, "HOURSEAL_HOSTILE_TOGETHER=xxx")
	t.Logf("four at once: %d MiB: %s", s.PeakKiB>>10, s.Err)
	if s.PeakKiB > mostMemoryKiB {
		t.Errorf("%d KiB, the limit is %d KiB", s.PeakKiB, mostMemoryKiB)
	}
}

// readApart reads an input in a process of its own. took is a processor's time.
func readApart(t *testing.T, dir string, data []byte, environment ...string) (s spent, took time.Duration) {
	t.Helper()
	program, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(dir, "input")
	if err := os.WriteFile(file, data, 0o600); err != nil {
		t.Fatal(err)
	}
	child := exec.Command(program, "-test.run=^TestHostileChild$")
	child.Env = append(append(os.Environ(), "HOURSEAL_HOSTILE="+file), environment...)
	if out, err := child.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	out, err := os.ReadFile(file + ".spent")
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(out, &s); err != nil {
		t.Fatal(err)
	}
	return s, child.ProcessState.UserTime() + child.ProcessState.SystemTime()
}
