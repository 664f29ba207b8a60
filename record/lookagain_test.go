package record_test

import (
	"reflect"
	"testing"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// TestLookAgainInTotal: a second look at 300 h on a meter that was put in at 1200 h is
// due at 1500 h in total; its date stays.
func TestLookAgainInTotal(t *testing.T) {
	on := quantity.FromYMD(2026, 12, 1)
	for _, c := range []struct {
		name string
		look *record.LookAgain
		want schedule.Due
	}{
		{"none", nil, schedule.Due{}},
		{"hours", &record.LookAgain{Hours: new(300 * quantity.Hour)}, schedule.Due{Hours: new(1500 * quantity.Hour)}},
		{"date", &record.LookAgain{Date: &on}, schedule.Due{Date: &on}},
		{"both", &record.LookAgain{Hours: new(300 * quantity.Hour), Date: &on}, schedule.Due{Hours: new(1500 * quantity.Hour), Date: &on}},
	} {
		if got := c.look.Due(1200 * quantity.Hour); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
	look := record.LookAgain{Hours: new(300 * quantity.Hour)}
	if look.Due(1200 * quantity.Hour); *look.Hours != 300*quantity.Hour {
		t.Errorf("the record's own hours became %s", look.Hours)
	}
}
