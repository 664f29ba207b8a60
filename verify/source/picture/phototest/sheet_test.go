package phototest

import (
	"image"
	"math"
	"testing"
)

// TestSheet: the code is where Sheet says, each module as dark as it is covered,
// and white around it.
func TestSheet(t *testing.T) {
	for _, module := range []float64{1, 2.5, 3, 3.7, 8} {
		sheet, code, err := Sheet("HTTPS://VERIFY.ELLERY-SLIP.EXAMPLE/#1", module)
		if err != nil {
			t.Fatal(err)
		}
		modules := math.Round(float64(code.Dx()) / module)
		if v := (modules - 17) / 4; v != math.Trunc(v) || v < 1 || math.Abs(float64(code.Dx())-modules*module) > 1 {
			t.Errorf("%v modules of %v pixels in %v", modules, module, code)
		}
		// Finder pattern: 7 by 7 dark, a ring of 5 by 5 light, 3 by 3 dark.
		corner := Frame(sheet, image.Rect(code.Min.X, code.Min.Y, code.Min.X+int(math.Ceil(7*module)), code.Min.Y+int(math.Ceil(7*module))))
		dark := 0.0
		for _, level := range corner.Pix {
			dark += 1 - float64(level)/255
		}
		near(t, "dark modules of a finder pattern", dark/(module*module), 49-25+9, 0.5)
		quiet := code.Inset(-int(module * quietModules))
		for y := quiet.Min.Y; y < quiet.Max.Y; y++ {
			for x := quiet.Min.X; x < quiet.Max.X; x++ {
				if !image.Pt(x, y).In(code) && sheet.GrayAt(x, y).Y != 255 {
					t.Fatalf("module of %v pixels: level %d at %d, %d, in the white around %v", module, sheet.GrayAt(x, y).Y, x, y, code)
				}
			}
		}
	}
}

func TestSheetRefuses(t *testing.T) {
	for _, module := range []float64{0, -1, math.NaN(), math.Inf(1), 101} {
		if _, _, err := Sheet("TEXT", module); err == nil {
			t.Errorf("modules of %v pixels passed", module)
		}
	}
	if _, _, err := Sheet(string(make([]byte, 3000)), 3); err == nil {
		t.Error("a text that fits no code passed")
	}
}
