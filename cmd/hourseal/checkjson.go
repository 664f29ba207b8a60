package main

import (
	"encoding/json"
	"path/filepath"

	"hourseal/record"
	"hourseal/record/check"
	"hourseal/record/fluid"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
	"hourseal/render/words"
	"hourseal/sign"
)

// The JSON of "hourseal check": keys and codes are stable, absent values null.
type checkAnswer struct {
	Machine   *string         `json:"machine"`
	Date      *quantity.Date  `json:"date"`
	Hours     *quantity.Hours `json:"hours"`
	SinceLast *sinceLastJSON  `json:"since_last"`
	Outcome   check.Outcome   `json:"outcome"`
	Findings  []findingJSON   `json:"findings"`
	Fluids    []fluidJSON     `json:"fluids"`
	Next      []nextJSON      `json:"next"`
}

type sinceLastJSON struct {
	Hours  quantity.Hours `json:"hours"`
	Days   quantity.Days  `json:"days"`
	Record string         `json:"record"`
}

type findingJSON struct {
	Code     string          `json:"code"`
	Subject  *string         `json:"subject"`
	Severity string          `json:"severity"`
	At       *string         `json:"at"`
	Field    *string         `json:"field"`
	Message  string          `json:"message"`
	Value    json.RawMessage `json:"value"`
	Limit    json.RawMessage `json:"limit"`
	Within   json.RawMessage `json:"uncertainty"` // one standard uncertainty of value
	Unit     *string         `json:"unit"`
	Source   *string         `json:"source"`
	Accepted *string         `json:"accepted"`
}

// fluidJSON gives litres, as measured and at 15 degC, which coolants are not
// corrected to. What follows from the figures is null where it does not follow.
type fluidJSON struct {
	System  string           `json:"system"`
	Drained *quantity.Volume `json:"drained_l"`
	Filled  *quantity.Volume `json:"filled_l"`
	Level   *quantity.Ratio  `json:"level"`
	followsJSON
	Within         followsJSON       `json:"uncertainty"` // one standard uncertainty of each
	Density        quantity.Density  `json:"density_kg_m3"`
	DensityAssumed bool              `json:"density_assumed"`
	Seen           []string          `json:"seen"` // in what was drained; empty where that is not stated
	Trend          []consumptionJSON `json:"trend"`
	OfFuel         json.RawMessage   `json:"consumed_of_fuel_percent"`
	PerKWh         json.RawMessage   `json:"consumed_g_per_kwh"`
}

// followsJSON is what is worked out, or how well each of it is known.
type followsJSON struct {
	DrainedAt15      *quantity.Volume `json:"drained_l15"`
	FilledAt15       *quantity.Volume `json:"filled_l15"`
	ExpectedLevel    *quantity.Ratio  `json:"expected_level"`
	CarriedOver      *quantity.Volume `json:"carried_over_l"`
	Consumed         *quantity.Volume `json:"consumed_l"`
	ConsumedPer100Hr *quantity.Volume `json:"consumed_l_per_100h"`
}

// consumptionJSON is one point of a machine's consumption, by its hours in total.
type consumptionJSON struct {
	Hours  quantity.Hours  `json:"hours"`
	Per100 quantity.Volume `json:"l_per_100h"`
	Within quantity.Volume `json:"uncertainty"`
}

type nextJSON struct {
	Task  string          `json:"task"`
	Hours *quantity.Hours `json:"hours"`
	Date  *quantity.Date  `json:"date"`
	By    *string         `json:"by"`
	State string          `json:"state"`
}

func checkJSON(s sheet, result check.Result) checkAnswer {
	answer := checkAnswer{
		Machine: &s.machine.ID, Date: &s.job.Date, Hours: &result.Draft.Job.Hours, Outcome: result.Outcome,
		Findings: []findingJSON{}, Fluids: []fluidJSON{}, Next: []nextJSON{},
	}
	if since := result.SinceLast; since != nil {
		answer.SinceLast = &sinceLastJSON{since.Hours, since.Days, sign.ID(since.Record).Hex()}
	}
	for _, f := range result.Findings {
		finding := findingOf(f.Finding)
		finding.At = orNull(f.At)
		answer.Findings = append(answer.Findings, finding)
	}
	for _, fault := range result.Faults {
		answer.Findings = append(answer.Findings, malformedFinding(fault))
	}
	for _, f := range result.Draft.Fluids {
		system, _ := s.machine.System(f.System)
		answer.Fluids = append(answer.Fluids, fluidOf(f, system))
	}
	for _, n := range result.Next {
		answer.Next = append(answer.Next, nextJSON{n.Task, n.Due.Hours, n.Due.Date, orNull(n.By), n.State.String()})
	}
	return answer
}

// fluidOf gives a fluid of a record, which the machine file has as system.
func fluidOf(f record.Fluid, system jobsheet.System) fluidJSON {
	coolant := system.IsCoolant()
	density, assumed := system.Density, system.Density == 0
	switch {
	case assumed && coolant:
		density = fluid.AssumedCoolantDensity
	case assumed:
		density = fluid.AssumedDensity
	}
	out := fluidJSON{System: f.System, Density: density, DensityAssumed: assumed, Drained: litres(f.Drained, density), Filled: litres(f.Filled, density), Seen: []string{}, Trend: []consumptionJSON{}}
	if f.Level != nil {
		out.Level = f.Level.Reading
	}
	for _, sight := range f.Saw {
		out.Seen = append(out.Seen, sight.String())
	}
	b := f.Balance
	if b == nil {
		return out
	}
	if !coolant {
		out.DrainedAt15, out.Within.DrainedAt15 = estimateJSON(b.Drained)
		out.FilledAt15, out.Within.FilledAt15 = estimateJSON(b.Filled)
	}
	if b.Level != nil {
		out.ExpectedLevel, out.Within.ExpectedLevel = &b.Level.Reading, &b.Level.Within
	}
	out.CarriedOver, out.Within.CarriedOver = estimateJSON(b.Carried)
	out.Consumed, out.Within.Consumed = estimateJSON(b.Used)
	out.ConsumedPer100Hr, out.Within.ConsumedPer100Hr = estimateJSON(b.Per100())
	for _, u := range b.Trend {
		out.Trend = append(out.Trend, consumptionJSON{u.Hours, u.Per100, u.Within})
	}
	out.OfFuel, out.PerKWh = partsJSON(b.OfFuelPPM, 4), partsJSON(b.PerEnergyMgKWh, 3)
	return out
}

// litres is a volume as measured; nil for what was not measured.
func litres(m *quantity.Measured, density quantity.Density) *quantity.Volume {
	if m == nil || m.NotMeasured {
		return nil
	}
	v := fluid.Volume(*m, density)
	return &v
}

func estimateJSON(e *record.Estimate) (volume, within *quantity.Volume) {
	if e == nil {
		return nil, nil
	}
	return &e.Volume, &e.Within
}

// partsJSON is a number of so many decimals; null for 0, which is what does not
// follow.
func partsJSON(n int64, places uint8) json.RawMessage {
	if n == 0 {
		return nil
	}
	return json.RawMessage(quantity.Figure{Digits: n, Places: places}.String())
}

func malformedJSON(faults jobsheet.Faults) checkAnswer {
	answer := checkAnswer{Outcome: check.Malformed, Fluids: []fluidJSON{}, Next: []nextJSON{}}
	for _, fault := range faults {
		answer.Findings = append(answer.Findings, malformedFinding(fault))
	}
	return answer
}

// jsonFault is an input that could not be had, among the faults of those that
// could.
func jsonFault(file string, err error) jobsheet.Fault {
	return jobsheet.Fault{File: filepath.ToSlash(file), Message: err.Error()}
}

func malformedFinding(fault jobsheet.Fault) findingJSON {
	return findingJSON{Code: "malformed", Severity: record.Refuse.String(), At: orNull(fault.At()), Field: orNull(fault.Field), Message: fault.Message}
}

func findingOf(f record.Finding) findingJSON {
	rule := record.Rules[f.Code]
	return findingJSON{
		Code: f.Code.String(), Subject: orNull(f.Subject), Severity: f.Severity.String(), Field: orNull(rule.Field),
		Message: words.Finding(f), Value: figureJSON(f.Value, f.Unit), Limit: figureJSON(f.Limit, f.Unit),
		Within: figureJSON(f.Within, f.Unit.Difference()), Unit: orNull(f.Unit.String()), Source: orNull(rule.Source), Accepted: orNull(f.Accepted),
	}
}

// figureJSON writes a finding's figure in its unit; nil (null) for none.
func figureJSON(n *int64, unit record.Unit) json.RawMessage {
	text, err := unit.JSON(n)
	if err != nil {
		return nil
	}
	return text
}

func orNull(text string) *string {
	if text == "" {
		return nil
	}
	return &text
}
