package plain

import (
	"testing"

	"hourseal/record/quantity"
	"hourseal/record/recordtest"
)

// The same rows as in TestBalanceRows, as a yard writes them.
func TestBalanceRowsInAStyle(t *testing.T) {
	style := quantity.Style{Second: quantity.UnitUSGallon, Comma: true}
	const want = `At 15 °C | 8,74 L (2,31 US gal) out, 9,09 L (2,40 US gal) in, give or take 0,27 L (0,07 US gal) and 0,11 L (0,03 US gal)
Level expected | 0,87, give or take 0,20; 0,85 read, which agrees within what the measuring allows
Old oil left in | 0,41 L (0,11 US gal), 5 % of the fill, give or take 0,39 L (0,10 US gal)
Used | 1,44 L (0,38 US gal) in 202,4 h, give or take 0,25 L (0,07 US gal); 0,71 L (0,19 US gal) in 100 h; 0,08 % of the fuel; 0,19 g/kWh. Volumes cannot exclude that less than 0,7 L (0,18 US gal) got in.`
	blocks := Balances(style, recordtest.Accounted())
	if len(blocks) == 0 {
		t.Fatal("no block")
	}
	if got := rowsText(blocks[0].Rows); got != want {
		t.Errorf("got %s\nwant %s", got, want)
	}
}
