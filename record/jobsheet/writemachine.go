package jobsheet

import (
	"strings"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

// YAML is the machine file of a machine, which ParseMachine reads as the same
// machine, but for Source. Its keys are in the order of the package comment, with
// remarks where a figure needs one. What is zero is left out, but that a system
// whose volume at the upper mark is 0 says "at_upper: unknown"; a coolant, and a
// system of which it is said what it holds, need no such line.
func (m Machine) YAML() []byte { return m.written().yaml() }

// JSON is the same file as JSON.
func (m Machine) JSON() []byte { return m.written().json() }

// Remarks of a machine file.
const (
	drivenByRemark  = "no meter of its own: hours are the engine's"
	statementRemark = "stated, not under seal; source: invoice | owner | none"
	atUpperRemark   = "at the upper mark, new filter included; or: unknown"
	unknownRemark   = "at the upper mark, new filter included: write it when it is known"
	anyOfRemark     = "any one of these"
	densityRemark   = "at 15 degC"
)

func (m Machine) written() written {
	return groupOf(machineForm, map[string]written{
		"id": writeText(m.ID),
		"vessel": groupOf(vesselForm, map[string]written{
			"name": writeText(m.Vessel.Name),
			"hull": writeText(m.Vessel.Hull),
			"home": writeText(m.Vessel.Home),
		}),
		"kind":                    writeText(m.Kind),
		"position":                writeText(m.Position),
		"driven_by":               writeText(m.DrivenBy).remarked(drivenByRemark),
		"make":                    writeText(m.Make),
		"model":                   writeText(m.Model),
		"serial":                  writeText(m.Serial),
		"rated_power":             figureUnlessZero(m.RatedPower),
		"schedule":                writeText(m.Schedule),
		"in_service":              inServiceOf(m.InService),
		"expected_hours_per_year": yearOf(m.HoursPerYear),
		"severe_duty":             writeTexts(m.SevereDuty),
		"earlier":                 eachOf(m.Earlier, statementOf).remarked(statementRemark),
		"systems":                 systemsOf(m.Systems),
	})
}

// figureUnlessZero writes a quantity with its unit; 0 is not stated.
func figureUnlessZero[T interface {
	~int64
	String() string
}](value T) written {
	if value == 0 {
		return written{}
	}
	return writePlain(value.String())
}

func yearOf(h quantity.Hours) written {
	if h == 0 {
		return written{}
	}
	return writeHours(h)
}

func inServiceOf(p schedule.Point) written {
	if p == (schedule.Point{}) {
		return written{}
	}
	return groupOf(pointForm, map[string]written{"date": dayOf(p.Date), "hours": writeHours(p.Hours)})
}

func statementOf(s Statement) written {
	return groupOf(statementForm, map[string]written{
		"task":   writeText(s.Task),
		"date":   dayOf(s.At.Date),
		"hours":  writeHours(s.At.Hours),
		"source": writeText(s.Source),
	})
}

func systemsOf(systems []System) written {
	var keys []writtenValue
	for _, s := range systems {
		keys = append(keys, writtenValue{s.Name, apart(systemOf(s))})
	}
	if len(keys) == 0 {
		return written{}
	}
	return apart(written{shape: groupShape, keys: keys})
}

func systemOf(s System) written {
	atUpper := figureUnlessZero(s.AtUpper).remarked(atUpperRemark)
	if s.AtUpper == 0 && s.Holds == 0 && !s.IsCoolant() {
		atUpper = writeText("unknown").remarked(unknownRemark)
	}
	v := groupOf(systemForm, map[string]written{
		"at_upper":      atUpper,
		"between_marks": figureUnlessZero(s.BetweenMarks),
		"filter_holds":  figureUnlessZero(s.FilterHolds),
		"holds":         figureUnlessZero(s.Holds),
		"viscosity":     writeTexts(s.Viscosity).remarked(anyOfRemark),
		"meets":         writeTexts(s.Meets).remarked(anyOfRemark),
		"density":       figureUnlessZero(s.Density).remarked(densityRemark),
		"glycol":        writeText(s.Glycol).remarked(strings.Join(record.GlycolWords, " | ")),
		"protect_to":    writeIf(s.ProtectTo, writeTemperature),
		"drain":         writeText(s.Drain).remarked("how it is taken out: extractor | plug"),
	})
	v.shape = groupShape
	return v
}
