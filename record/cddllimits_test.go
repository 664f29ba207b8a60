package record_test

import (
	"fmt"
	"testing"

	"hourseal/record"
	"hourseal/record/quantity"
)

// TestCDDLLimits: the limits in the file are those of the code.
func TestCDDLLimits(t *testing.T) {
	rules := readCDDL(t)
	for place, want := range map[string]string{
		"record 1": fmt.Sprint(record.Format), "record 12": fmt.Sprintf("[0*%d task]", record.MaxTasks),
		"record 13": fmt.Sprintf("[1*%d other-work]", record.MaxOtherWork), "record 14": fmt.Sprintf("[1*%d fluid]", record.MaxFluids),
		"record 15": fmt.Sprintf("[1*%d top-up]", record.MaxTopUps), "record 16": fmt.Sprintf("[1*%d waste]", record.MaxWaste),
		"record 17": fmt.Sprintf("[1*%d part]", record.MaxParts), "record 19": fmt.Sprintf("[1*%d finding]", record.MaxFindings),
		"record 21": fmt.Sprintf("[1*%d file]", record.MaxFiles), "record 24": fmt.Sprintf("0..%d", int64(quantity.MaxDate)*86400),
		"task 11": fmt.Sprintf("[1*%d reading]", record.MaxReadings), "fluid 10": fmt.Sprintf("[1*%d line]", record.MaxMeets), "job 7": fmt.Sprintf("[1*%d line]", record.MaxDuties),
		"fluid 18": fmt.Sprintf("[1*%d sight]", record.MaxSights), "balance 10": fmt.Sprintf("[1*%d use]", record.MaxTrend),
		"balance 6":        fmt.Sprintf("1..%d", int64(quantity.MaxHours)),
		"level-estimate 1": fmt.Sprintf("%d..%d", int64(quantity.MinRatio), int64(quantity.MaxRatio)), "level-estimate 2": fmt.Sprintf("0..%d", int64(quantity.MaxRatio)),
		"worked-out": fmt.Sprintf("%d..%d", -int64(quantity.MaxVolume), int64(quantity.MaxVolume)), "uncertainty": fmt.Sprintf("0..%d", int64(quantity.MaxVolume)),
		"finding 9":  fmt.Sprintf("0..%d", 1<<53-1),
		"measured 1": fmt.Sprintf("[1*%d portion]", quantity.MaxPortions), "machine 9": fmt.Sprintf("1..%d", quantity.MaxPower),
		"meter 4":    fmt.Sprintf("%d..%d", -int64(quantity.MaxHours), int64(quantity.MaxHours)),
		"interval 1": fmt.Sprintf("1..%d", int64(quantity.MaxHours)), "interval 2": fmt.Sprintf("1..%d", int64(quantity.MaxMonths)),
		"leeway 1": fmt.Sprintf("1..%d", int64(quantity.MaxHours)), "leeway 2": fmt.Sprintf("1..%d", int64(quantity.MaxDays)),
		"due 1": fmt.Sprintf("0..%d", 2*int64(quantity.MaxHours)), "due 2": fmt.Sprintf("%d..%d", int64(quantity.MinDate), int64(quantity.MaxDate)+int64(quantity.MaxDays)),
		"fluid 15": fmt.Sprintf("1..%d", int64(quantity.MaxDensity)), "level 1": fmt.Sprintf("%d..%d", int64(quantity.MinRatio), int64(quantity.MaxRatio)),
		"portion 1": fmt.Sprintf("0..%d", int64(quantity.MaxVolume)),
		"line":      fmt.Sprintf("tstr .size (1..%d)", 3*record.MaxText), "host": fmt.Sprintf("tstr .size (1..%d)", record.MaxText),
		"reason": fmt.Sprintf("tstr .size (1..%d)", 3*record.MaxReason), "notes": fmt.Sprintf("tstr .size (1..%d)", 3*record.MaxNotes),
		"date": fmt.Sprintf("%d..%d", int64(quantity.MinDate), int64(quantity.MaxDate)), "hours": fmt.Sprintf("0..%d", int64(quantity.MaxHours)),
		"minutes": fmt.Sprintf("0..%d", int64(quantity.MaxMinutes)), "volume": fmt.Sprintf("1..%d", int64(quantity.MaxVolume)),
		"temperature": fmt.Sprintf("%d..%d", int64(quantity.MinTemperature), int64(quantity.MaxTemperature)),
	} {
		var name string
		var key uint64
		_, _ = fmt.Sscan(place, &name, &key) // a rule without a key stays at 0
		got := rules[name].other
		for _, m := range rules[name].members {
			if m.key == key {
				got = m.is
			}
		}
		if got != want {
			t.Errorf("%s: %s, want %s", place, got, want)
		}
	}
}
