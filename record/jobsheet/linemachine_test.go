package jobsheet_test

import (
	"strings"
	"testing"

	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
)

func TestLineStatement(t *testing.T) {
	for _, line := range []string{"engine-oil, 2025-06-20, 501, invoice", " engine-oil ,2025-06-20,  501 h , Invoice"} {
		s, err := jobsheet.LineStatement(line)
		if err != nil || s.Task != "engine-oil" || s.At.Date != quantity.FromYMD(2025, 6, 20) || s.At.Hours != 501*quantity.Hour || s.Source != "invoice" {
			t.Errorf("%q: %+v, %v", line, s, err)
		}
		if back := jobsheet.StatementLine(s); back != "engine-oil, 2025-06-20, 501, invoice" {
			t.Errorf("%q", back)
		}
	}
	for line, says := range map[string]string{
		"": "nothing written", "engine-oil, 2025-06-20, 501": "and the source", "engine-oil, , 501, owner": "one side of a comma",
		"Engine oil, 2025-06-20, 501, owner": "write engine-oil", "engine-oil, 20.6.2025, 501, owner": "date", "engine-oil, 2025-06-20, many, owner": "hours",
		"engine-oil, 2025-06-20, 501, invoise": "write invoice",
	} {
		if _, err := jobsheet.LineStatement(line); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %v, want %q", line, err, says)
		}
	}
	if jobsheet.StatementLine(jobsheet.Statement{}) != "" {
		t.Error("nothing is a line")
	}
}

// Single values have the limits of the machine file.
func TestLineMachineValues(t *testing.T) {
	if p, err := jobsheet.LinePower("75 hp"); err != nil || p != 55927 { // 550 ft lbf/s: 745.69987 W
		t.Errorf("%v, %v", p, err)
	}
	for _, text := range []string{"812.6", "812.6h", "812.6 h", "812.6 H", "812.6 hours", "812.6\u00a0h"} {
		if h, err := jobsheet.LineHours(text); err != nil || h != 81260 {
			t.Errorf("%q: %v, %v", text, h, err)
		}
		if m, _, err := jobsheet.LineMeter(text); err != nil || m.Reading == nil || *m.Reading != 81260 {
			t.Errorf("%q as a meter: %v, %v", text, m, err)
		}
	}
	if h, err := jobsheet.LineHoursPerYear("8784"); err != nil || h != 8784*quantity.Hour {
		t.Errorf("%v, %v", h, err)
	}
	for what, err := range map[string]error{
		"0 kW": second(jobsheet.LinePower("0 kW")), "0 L": second(jobsheet.LineCapacity("0 L")), "1 gal": second(jobsheet.LineCapacity("1 gal")),
		"499 kg/m3": second(jobsheet.LineDensity("499 kg/m3")), "0 C": second(jobsheet.LineProtectTo("0 C")), "25 C": second(jobsheet.LineProtectTo("25 C")),
		"8785": second(jobsheet.LineHoursPerYear("8785")), "h": second(jobsheet.LineHours("h")), "812.6 hh": second(jobsheet.LineHours("812.6 hh")),
		"hours": second(jobsheet.LineHours("hours")), "812.6 h h": second(jobsheet.LineHours("812.6 h h")), "812.6 h hours": second(jobsheet.LineHours("812.6 h hours")),
	} {
		if err == nil {
			t.Errorf("%s is taken", what)
		}
	}
}

func second[T any](_ T, err error) error { return err }
