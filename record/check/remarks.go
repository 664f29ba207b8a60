package check

import (
	"fmt"
	"slices"
	"strings"

	"hourseal/record"
	"hourseal/record/fluid"
)

// remarkRule is how a remark becomes a finding. Words are made of it elsewhere;
// text is what the figures alone do not tell.
type remarkRule struct {
	code     record.Code
	severity record.Severity
	field    string
	unit     record.Unit
	text     func(fluid.Remark) string
}

var remarkRules = map[fluid.Kind]remarkRule{
	fluid.DrainedBeyond:    {record.DrainedBeyondSystem, record.Decide, "drained", record.InVolume, beyondText},
	fluid.FilledBeyond:     {record.FilledBeyondSystem, record.Decide, "filled", record.InVolume, nil},
	fluid.FillOffLevel:     {record.FillOffLevel, record.Decide, "level", record.InShare, offText},
	fluid.FilterMiscounted: {record.FilterMiscounted, record.Decide, "drained_includes_filter", record.InVolume, filterText},
	fluid.UnitSwapped: {record.UnitSwapped, record.Decide, "", record.InVolume, func(r fluid.Remark) string {
		return fmt.Sprintf("%s: %s does not fit, %s does", r.Amount, r.Written, r.Swapped)
	}},
	fluid.OldOilLeft:       {record.OldOilLeft, record.Decide, "drained", record.InVolume, func(r fluid.Remark) string { return r.Share.Whole().Percent() }},
	fluid.OilGained:        {record.OilGained, record.Decide, "level_before", record.InVolume, nil},
	fluid.OilUseRisen:      {record.OilUseRisen, record.Decide, "level_before", record.InPer100Hours, countText},
	fluid.OilUseHeavy:      {record.OilUseHeavy, record.Note, "level_before", record.InPer100Hours, nil},
	fluid.AtUpperDoubtful:  {record.AtUpperDoubtful, record.Note, "level", record.InVolume, countText},
	fluid.DrawnDown:        {record.DrawnDown, record.Note, "drawn_down", record.InVolume, drawnText},
	fluid.WasteOffDrained:  {record.WasteOffDrained, record.Decide, "", record.InVolume, wasteText},
	fluid.WasteUnaccounted: {record.WasteUnaccounted, record.Note, "drained", record.NoUnit, nil},
}

// remark makes a finding of a remark about the fluid in place i of the sheet.
func (b *bench) remark(i int, system string, r fluid.Remark) {
	if r.Kind == fluid.BeyondCorrection {
		b.beyondCorrection(i, system, r)
		return
	}
	rule := remarkRules[r.Kind]
	f := record.Finding{Code: rule.code, Subject: system, Unit: rule.unit}
	if rule.unit != record.NoUnit {
		f.Value = num(r.Value)
	}
	if r.Within != 0 {
		f.Within = num(r.Within)
	}
	if r.Kind != fluid.DrawnDown && rule.unit != record.NoUnit {
		f.Limit = num(r.Limit)
	}
	if rule.text != nil {
		f.Text = clip(rule.text(r))
	}
	at := path("fluids", i)
	switch {
	case r.Kind == fluid.WasteOffDrained:
		at = path("waste", slices.IndexFunc(b.Job.Waste, func(w record.Waste) bool { return w.System == system }))
	case rule.field != "":
		at = path("fluids", i, rule.field)
	case r.Amount != "":
		at = path("fluids", i, r.Amount)
	}
	b.find(b.severity(rule, r, system), at, f)
}

// severity is that of the rule, but for figures that nobody has to decide about or
// that somebody has to: more than twice its content cannot have been drained, and oil
// used by the sumpful is more than a note.
func (b *bench) severity(rule remarkRule, r fluid.Remark, system string) record.Severity {
	s, _ := b.Machine.System(system)
	content := fluid.Content(s.AtUpper, s.Holds)
	switch {
	case content == 0:
	case r.Kind == fluid.DrainedBeyond && r.Value > int64(fluid.FillLimit(content)):
		return record.Refuse
	case r.Kind == fluid.OilUseHeavy && r.Value > int64(content):
		return record.Decide
	}
	return rule.severity
}

func (b *bench) beyondCorrection(i int, system string, r fluid.Remark) {
	f := record.Finding{Code: record.BeyondCorrection, Subject: system, Text: clip(r.Amount + ": " + r.Err.Error())}
	b.find(record.Refuse, path("fluids", i, strings.ReplaceAll(r.Amount, " ", "_")), f)
}

// offText is how much more or less is in than expected, in litres.
func offText(r fluid.Remark) string {
	if r.Off < 0 {
		return (-r.Off).Hundredths() + " less than expected"
	}
	return r.Off.Hundredths() + " more than expected"
}

func filterText(r fluid.Remark) string {
	return map[fluid.FilterFault]string{
		fluid.FilterNotCounted: "counted though not drained",
		fluid.FilterTwice:      "not counted though drained, or the new one still empty when the level was read",
		fluid.FilterEmpty:      "the new one still empty when the level was read",
	}[r.FilterIs]
}

// wasteText says which way the limit goes.
func wasteText(r fluid.Remark) string {
	if r.Value > r.Limit {
		return "at most"
	}
	return "at least"
}

// beyondText says what is in a drain beside what was measured.
func beyondText(r fluid.Remark) string {
	if r.WithFilter {
		return "with what the filter held"
	}
	return ""
}

func drawnText(r fluid.Remark) string {
	if r.AfterFill {
		return "after the fill"
	}
	return ""
}

func countText(r fluid.Remark) string { return fmt.Sprint(r.Count) }
