package phototest_test

import (
	"image"
	"strings"
	"testing"

	"hourseal/record/recordtest/outside"
	"hourseal/verify/source/picture"
	"hourseal/verify/source/picture/phototest"
)

// TestSpoilt: what is unspoilt can be read by both, so that it is the fault that
// makes the others hard; nobody reads a code of which too much is hidden or that
// is too small; and our reader never makes up a text.
func TestSpoilt(t *testing.T) {
	outside.Program(t, "zbarimg")
	text := "HTTPS://VERIFY.ELLERY-SLIP.EXAMPLE/#" + strings.Repeat("2718281828459045", 60) // version 16
	for spoilt := phototest.Unspoilt; spoilt <= phototest.Glossy; spoilt++ {
		for seed := range uint64(2) {
			photo := must[*image.Gray](t)(spoilt.Photograph(text, seed))
			zbar, ours := zbarReads(t, photo, text), false
			for _, symbol := range picture.Read(photo, picture.Thorough) {
				ours = ours || symbol.Text == text
				if symbol.Text != "" && symbol.Text != text {
					t.Errorf("%v, seed %d: made up %q", spoilt, seed, symbol.Text)
				}
			}
			t.Logf("%v, seed %d: ours %t, zbarimg %t", spoilt, seed, ours, zbar)
			switch spoilt {
			case phototest.Unspoilt:
				if !zbar || !ours {
					t.Errorf("unspoilt, seed %d: not read by both", seed)
				}
			case phototest.TooFar, phototest.Cornerless, phototest.Glossy:
				if zbar || ours {
					t.Errorf("%v, seed %d: read", spoilt, seed)
				}
			}
		}
	}
}
