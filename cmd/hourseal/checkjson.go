package main

import (
	"encoding/json"
	"path/filepath"
	"strconv"

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
	Unit     *string         `json:"unit"`
	Source   *string         `json:"source"`
	Accepted *string         `json:"accepted"`
}

// fluidJSON gives litres; what needs the balance of volumes is null until that
// is worked out.
type fluidJSON struct {
	System           string           `json:"system"`
	Drained          *quantity.Volume `json:"drained_l"`
	DrainedAt15      *quantity.Volume `json:"drained_l15"`
	Filled           *quantity.Volume `json:"filled_l"`
	FilledAt15       *quantity.Volume `json:"filled_l15"`
	Level            *quantity.Ratio  `json:"level"`
	ExpectedLevel    *quantity.Ratio  `json:"expected_level"`
	CarriedOver      *quantity.Volume `json:"carried_over_l"`
	Consumed         *quantity.Volume `json:"consumed_l"`
	ConsumedPer100Hr *quantity.Volume `json:"consumed_l_per_100h"`
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
	for _, f := range s.job.Fluids {
		system, _ := s.machine.System(f.System)
		row := fluidJSON{System: f.System, Drained: litres(f.Drained, system), Filled: litres(f.Filled, system)}
		if f.Level != nil {
			row.Level = f.Level.Reading
		}
		answer.Fluids = append(answer.Fluids, row)
	}
	for _, n := range result.Next {
		answer.Next = append(answer.Next, nextJSON{n.Task, n.Due.Hours, n.Due.Date, orNull(n.By), n.State.String()})
	}
	return answer
}

// litres is a volume as measured; nil for what was not measured.
func litres(m *quantity.Measured, s jobsheet.System) *quantity.Volume {
	if m == nil || m.NotMeasured {
		return nil
	}
	v := fluid.Volume(*m, s.Density)
	return &v
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
		Unit: orNull(unitNames[f.Unit]), Source: orNull(rule.Source), Accepted: orNull(f.Accepted),
	}
}

// unitNames are the units of JSON figures.
var unitNames = map[record.Unit]string{
	record.InHours: "h", record.InDays: "d", record.AsDate: "date", record.InShare: "1",
	record.InMinutes: "min", record.InVolume: "L", record.InDegrees: "degC",
}

// figureJSON writes a finding's figure in its unit; nil (null) for none.
func figureJSON(n *int64, unit record.Unit) json.RawMessage {
	if n == nil {
		return nil
	}
	var text []byte
	var err error
	switch unit {
	case record.InHours:
		text, err = quantity.Hours(*n).MarshalJSON()
	case record.AsDate:
		text, err = quantity.Date(*n).MarshalJSON()
	case record.InShare:
		text, err = quantity.Ratio(*n).MarshalJSON()
	case record.InVolume:
		text, err = quantity.Volume(*n).MarshalJSON()
	case record.InDegrees:
		text, err = quantity.Temperature(*n).MarshalJSON()
	default:
		text = strconv.AppendInt(nil, *n, 10)
	}
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
