package quantity_test

import (
	"fmt"

	"hourseal/record/quantity"
)

// What came out of the sump, as written on the sheet, and in litres.
func ExampleParsePortion() {
	drained, err := quantity.ParsePortion("2.4 US gal at 68 C")
	if err != nil {
		fmt.Println(err)
		return
	}
	volume, _ := drained.Volume()
	fmt.Println(drained, "is", volume)

	_, err = quantity.ParsePortion("2.4 gal")
	fmt.Println(err)
	// Output:
	// 2.4 US gal at 68 C is 9.085 L
	// bare "gal": write "US gal" (3.785 L) or "imp gal" (4.546 L)
}

// Twelve months from a leap day end on the last day of February.
func ExampleDate_AddMonths() {
	done, _ := quantity.ParseDate("2024-02-29")
	fmt.Println(done.AddMonths(12))
	// Output: 2025-02-28
}
