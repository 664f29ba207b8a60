package picture

import (
	"strings"
	"testing"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/qrcode/decoder"
	"github.com/makiuchi-d/gozxing/qrcode/encoder"
	"github.com/skip2/go-qrcode"
)

var levelNames = [4]string{"L", "M", "Q", "H"}

var encoderLevels = [4]qrcode.RecoveryLevel{qrcode.Low, qrcode.Medium, qrcode.High, qrcode.Highest}

// softOf are modules as sure as can be.
func softOf(side int, dark func(r, c int) bool) []float32 {
	soft := make([]float32, side*side)
	for i := range soft {
		soft[i] = 1
		if dark(i/side, i%side) {
			soft[i] = -1
		}
	}
	return soft
}

// modulesOf makes a symbol with go-qrcode, without its border.
func modulesOf(t testing.TB, text string, version, level int) (dark [][]bool) {
	t.Helper()
	q, err := qrcode.NewWithForcedVersion(text, version, encoderLevels[level])
	if err != nil {
		t.Fatal(err)
	}
	q.DisableBorder = true
	return q.Bitmap()
}

// dataBits is how many bits of data a version holds at a level.
func dataBits(version, level int) (bits int) {
	layoutOf(version).eachData(func(int, int) { bits++ })
	b := standards[version].blocks[level]
	return bits/8*8 - 8*b.count*b.check
}

// digits is a text of digits that fills a version nearly.
func digits(version, level int) string {
	n := (dataBits(version, level) - 4 - 14) / 10 * 3
	return strings.Repeat("9081726354", n/10+1)[:n]
}

// TestEveryVersionAndLevel reads every version and level as go-qrcode makes it:
// tables, layout, blocks and segments agree with those of another author.
func TestEveryVersionAndLevel(t *testing.T) {
	for version := 1; version <= 40; version++ {
		for level := range encoderLevels {
			text := digits(version, level)
			dark := modulesOf(t, text, version, level)
			l := layoutOf(version)
			if len(dark) != l.side {
				t.Fatalf("version %d: %d modules, want %d", version, len(dark), l.side)
			}
			got, ok := decodeModules(l, softOf(l.side, func(r, c int) bool { return dark[r][c] }))
			if !ok || got != text {
				t.Errorf("%d-%s: %.40q, %v", version, levelNames[level], got, ok)
			}
			for i, k := range l.kinds {
				if d := dark[i/l.side][i%l.side]; k == knownDark && !d || k == knownLight && d {
					t.Fatalf("version %d: row %d, column %d is laid out wrongly", version, i/l.side, i%l.side)
				}
			}
		}
	}
}

// TestEveryMask reads every mask at a few versions as gozxing makes it, in digits,
// capitals and bytes.
func TestEveryMask(t *testing.T) {
	levels := []decoder.ErrorCorrectionLevel{decoder.ErrorCorrectionLevel_L, decoder.ErrorCorrectionLevel_M, decoder.ErrorCorrectionLevel_Q, decoder.ErrorCorrectionLevel_H}
	for _, version := range []int{1, 2, 6, 7, 9, 10, 24, 26, 27, 40} {
		for mask := range 8 {
			for i, level := range levels {
				for _, text := range []string{"0123456", "PORT 45/$", "sea é"} {
					if version == 1 && i == 3 && len(text) > 7 {
						text = text[:5]
					}
					made, err := encoder.Encoder_encode(text, level, map[gozxing.EncodeHintType]any{
						gozxing.EncodeHintType_QR_VERSION: version, gozxing.EncodeHintType_QR_MASK_PATTERN: mask,
						gozxing.EncodeHintType_CHARACTER_SET: "UTF-8",
					})
					if err != nil {
						t.Fatalf("%d-%s mask %d: %v", version, levelNames[i], mask, err)
					}
					matrix := made.GetMatrix()
					l := layoutOf(version)
					soft := softOf(l.side, func(r, c int) bool { return matrix.Get(c, r) == 1 })
					if word := likelyFormats(l, soft)[0]; levelOfBits[word>>3] != i || word&7 != mask {
						t.Errorf("%d-%s mask %d: format information read as %05b", version, levelNames[i], mask, word)
					}
					if got, ok := decodeModules(l, soft); !ok || got != text {
						t.Errorf("%d-%s mask %d: %q, %v", version, levelNames[i], mask, got, ok)
					}
				}
			}
		}
	}
}

// TestInformationWords holds the words to the figures of the standard: table C.1
// begins 5412, 5125, 5E7C (ISO/IEC 18004:2015), table D.1 with 07C94 for version 7
// and ends with 28C69 for version 40.
func TestInformationWords(t *testing.T) {
	if formatWords[0] != 0x5412 || formatWords[1] != 0x5125 || formatWords[2] != 0x5E7C || formatWords[31] != 0x2BED {
		t.Errorf("format information: %X", formatWords)
	}
	for v := leastWithInfo; v <= 40; v++ {
		if want := decoder.VERSION_DECODE_INFO[v-leastWithInfo]; versionWords[v] != uint32(want) {
			t.Errorf("version %d: %X, want %X", v, versionWords[v], want)
		}
	}
	if versionWords[7] != 0x07C94 || versionWords[40] != 0x28C69 {
		t.Errorf("version information: %X", versionWords)
	}
}

// TestDamagedModules turns modules of a version 24-M over: a tenth of a block's codewords can be
// wrong, spread over the symbol, and the text still comes out; half of them
// cannot, and nothing does.
func TestDamagedModules(t *testing.T) {
	const version = 24
	text := digits(version, levelM)
	dark := modulesOf(t, text, version, levelM)
	l := layoutOf(version)
	for _, c := range []struct {
		every int // data modules from one that is wrong to the next
		reads bool
	}{{150, true}, {75, true}, {9, false}} {
		soft := softOf(l.side, func(r, c int) bool { return dark[r][c] })
		n := 0
		l.eachData(func(row, column int) {
			if n++; n%c.every == 0 {
				soft[row*l.side+column] *= -1
			}
		})
		if got, ok := decodeModules(l, soft); ok != c.reads || ok && got != text {
			t.Errorf("every %d: %v, %.20q", c.every, ok, got)
		}
	}
}

// TestDoubtHelps: twice as many modules may be wrong where they are doubtful.
func TestDoubtHelps(t *testing.T) {
	const version, every = 24, 45
	text := digits(version, levelM)
	dark := modulesOf(t, text, version, levelM)
	l := layoutOf(version)
	for _, sure := range []float32{1, 0.1} {
		soft := softOf(l.side, func(r, c int) bool { return dark[r][c] })
		n := 0
		l.eachData(func(row, column int) {
			if n++; n%every == 0 {
				soft[row*l.side+column] *= -sure
			}
		})
		if got, ok := decodeModules(l, soft); ok != (sure < 1) || ok && got != text {
			t.Errorf("sure by %v: %v", sure, ok)
		}
	}
}
