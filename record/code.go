package record

import "fmt"

// Code says which rule a finding comes from. Numbers (in signed records) and
// names (in JSON and job sheets) are stable.
type Code uint16

// The rules. The number's range says nothing about severity: a rule may be a
// decision on one job and a note on another.
const (
	DateInFuture         Code = 1
	BeforeInService      Code = 2
	HoursBelowInService  Code = 3
	HoursBelowEarlier    Code = 4
	HoursAboveLater      Code = 5
	HoursOutrunClock     Code = 6
	AnswerMissing        Code = 7
	EvidenceMissing      Code = 8
	FillBeyondSystem     Code = 9
	BeyondCorrection     Code = 10
	LevelBeyondStick     Code = 11
	FreezingAboveWater   Code = 12
	HoursOutrunUse       Code = 20
	ReadsLikeTwin        Code = 21
	DateBeforeLast       Code = 22
	LevelOverfilled      Code = 23
	LevelBelowMark       Code = 24
	LevelReadEarly       Code = 25
	OilCategory          Code = 26
	OilViscosity         Code = 27
	LeakCheckMissing     Code = 28
	LeakSeen             Code = 29
	DueNotMentioned      Code = 30
	JobNumberUsed        Code = 31
	CoolantProtection    Code = 32
	HoursOffEngine       Code = 33
	FillOffLevel         Code = 34
	OilGained            Code = 35
	DrainedBeyondSystem  Code = 36
	FilterMiscounted     Code = 37
	UnitSwapped          Code = 38
	OilUseRisen          Code = 39
	NoEarlierRecord      Code = 40
	DoneLate             Code = 41
	DoneInGrace          Code = 42
	DoneEarly            Code = 43
	LevelHigh            Code = 44
	LevelLow             Code = 45
	NotMeasured          Code = 46
	TemperatureAssumed   Code = 47
	LevelWaitUnstated    Code = 48
	HullNumberForm       Code = 49
	MeterChanged         Code = 50
	RemovedReadingLost   Code = 51
	HoursEstimated       Code = 52
	OilSuitsByDirected   Code = 53
	OilRequirementAbsent Code = 54
	DoneWithout          Code = 55
	SevereDuty           Code = 56
	OldOilLeft           Code = 60
	WasteOffDrained      Code = 61
	CoolantTooStrong     Code = 62
	GlycolMixed          Code = 63
	FilledBeyondSystem   Code = 64
	SameVisit            Code = 65
	OilUseHeavy          Code = 80
	AtUpperDoubtful      Code = 81
	WasteUnaccounted     Code = 82
	DrawnDown            Code = 83
	SeenInFluid          Code = 84
	CoolantStrength      Code = 85
	CoolantScale         Code = 86
	ViscositySuits       Code = 87
)

// Rule is what is fixed about a code: its name, the field of the job sheet it
// speaks of, and where its limit comes from.
type Rule struct {
	Name   string
	Field  string
	Source string // "" where the rule is plain arithmetic on the record itself
}

// Rules lists every code. A finding whose code is not here is refused.
var Rules = map[Code]Rule{
	DateInFuture:         {"date-in-future", "date", ""},
	BeforeInService:      {"before-in-service", "date", "machine file, in_service"},
	HoursBelowInService:  {"hours-below-in-service", "hours", "machine file, in_service"},
	HoursBelowEarlier:    {"hours-below-earlier", "hours", "earlier record"},
	HoursAboveLater:      {"hours-above-later", "hours", "later record"},
	HoursOutrunClock:     {"hours-outrun-clock", "hours", "hour meters +-2 % or 0.1 h, SAE J1378 (second hand)"},
	AnswerMissing:        {"answer-missing", "why", ""},
	EvidenceMissing:      {"evidence-missing", "needs", "schedule, needs"},
	FillBeyondSystem:     {"fill-beyond-system", "filled", "machine file"},
	HoursOutrunUse:       {"hours-outrun-use", "hours", "machine file or earlier records; limit is our own rule of thumb"},
	ReadsLikeTwin:        {"reads-like-twin", "hours", "the vessel's other machines"},
	DateBeforeLast:       {"date-before-last", "date", "last record"},
	LevelOverfilled:      {"level-overfilled", "level", "keep between the marks, TM 55-1905-223-24-5; limit 1.15 common practice, no source"},
	LevelBelowMark:       {"level-below-mark", "level", "keep between the marks, TM 55-1905-223-24-5"},
	LevelReadEarly:       {"level-read-early", "level", "at least 5 minutes, TM 55-1905-223-24-5"},
	OilCategory:          {"oil-category", "meets", "API Motor Oil Guide; ACEA 2022"},
	OilViscosity:         {"oil-viscosity", "viscosity", "machine file, viscosity"},
	LeakCheckMissing:     {"leak-check-missing", "leak_check", "common practice, no source"},
	LeakSeen:             {"leak-seen", "leak_check", ""},
	DueNotMentioned:      {"due-not-mentioned", "tasks", "schedule"},
	JobNumberUsed:        {"job-number-used", "job_number", "earlier record"},
	CoolantProtection:    {"coolant-protection", "reading", "machine file, protect_to"},
	HoursOffEngine:       {"hours-off-engine", "hours", "its engine's reading of the same visit; limit is our own rule of thumb"},
	BeyondCorrection:     {"beyond-correction", "fluids", "ASTM D1250-80, Table 54D: its limits"},
	LevelBeyondStick:     {"level-beyond-dipstick", "level", "common practice, no source"},
	FreezingAboveWater:   {"freezing-point-above-water", "reading", "water freezes at 0 °C"},
	FillOffLevel:         {"fill-off-level", "level", "balance of volumes at 15 degC, ASTM D1250-80 Table 54D; uncertainties: JCGM 100:2008, yard.yaml or trade judgement"},
	OilGained:            {"oil-gained", "level_before", "fuel in the oil: NAVEDTRA 14115; uncertainties: JCGM 100:2008, yard.yaml or trade judgement"},
	DrainedBeyondSystem:  {"drained-beyond-system", "drained", "machine file; uncertainties: JCGM 100:2008, yard.yaml or trade judgement"},
	FilterMiscounted:     {"filter-miscounted", "drained_includes_filter", "machine file, filter_holds; uncertainties: JCGM 100:2008, yard.yaml or trade judgement"},
	UnitSwapped:          {"unit-swapped", "fluids", "US gallon NIST HB 44 Appendix C; imperial gallon UK Weights and Measures Act 1985"},
	OilUseRisen:          {"oil-use-risen", "level_before", "this machine's earlier records; uncertainties: JCGM 100:2008, yard.yaml or trade judgement"},
	NoEarlierRecord:      {"no-earlier-record", "machine", ""},
	DoneLate:             {"done-late", "tasks", "schedule"},
	DoneInGrace:          {"done-in-grace", "tasks", "schedule"},
	DoneEarly:            {"done-early", "tasks", "schedule"},
	LevelHigh:            {"level-high", "level", "keep between the marks, TM 55-1905-223-24-5"},
	LevelLow:             {"level-low", "level", "common practice, no source"},
	NotMeasured:          {"not-measured", "fluids", ""},
	TemperatureAssumed:   {"temperature-assumed", "fluids", "common practice, no source"},
	LevelWaitUnstated:    {"level-wait-unstated", "level", "at least 5 minutes, TM 55-1905-223-24-5"},
	HullNumberForm:       {"hull-number-form", "hull", "EN ISO 10087; 33 CFR 181.25"},
	MeterChanged:         {"meter-changed", "meter_change", ""},
	RemovedReadingLost:   {"removed-reading-unknown", "meter_change", ""},
	HoursEstimated:       {"hours-estimated", "hours", ""},
	OilSuitsByDirected:   {"oil-suits-by-table", "meets", "API Motor Oil Guide; ACEA 2022"},
	OilRequirementAbsent: {"oil-requirement-unknown", "meets", ""},
	DoneWithout:          {"done-without", "tasks", "schedule, with"},
	SevereDuty:           {"severe-duty", "severe_duty", "schedule, severe"},
	OldOilLeft:           {"old-oil-left", "drained", "limit is common practice, no source; uncertainties: JCGM 100:2008, yard.yaml or trade judgement"},
	WasteOffDrained:      {"waste-off-drained", "waste", "uncertainties: JCGM 100:2008, yard.yaml or trade judgement"},
	CoolantTooStrong:     {"coolant-too-strong", "reading", "most protection at 60 % by volume, TM 9-6115-464-12 Table 2-1"},
	GlycolMixed:          {"glycol-mixed", "glycol", "a mixture cannot be read, ASTM D3321"},
	FilledBeyondSystem:   {"filled-beyond-system", "filled", "machine file; uncertainties: JCGM 100:2008, yard.yaml or trade judgement"},
	SameVisit:            {"same-visit", "date", "earlier record"},
	OilUseHeavy:          {"oil-use-heavy", "level_before", "one mark-span in 100 h: common practice, no source"},
	AtUpperDoubtful:      {"at-upper-doubtful", "level", "this machine's own changes"},
	WasteUnaccounted:     {"waste-not-accounted", "waste", ""},
	DrawnDown:            {"drawn-down", "drawn_down", ""},
	SeenInFluid:          {"seen-in-fluid", "seen", ""},
	CoolantStrength:      {"coolant-strength", "reading", "Melinder 2010, Properties of Secondary Working Fluids, IIR"},
	CoolantScale:         {"coolant-scale-doubtful", "reading", "the wrong glycol's scale can be 10 degC out, ASTM D3321"},
	ViscositySuits:       {"viscosity-by-table", "viscosity", "SAE J300-2015; SAE J306-2005"},
}

func (c Code) String() string {
	if rule, ok := Rules[c]; ok {
		return rule.Name
	}
	return fmt.Sprintf("unknown (%d)", c)
}

// MarshalText gives the name for JSON.
func (c Code) MarshalText() ([]byte, error) { return []byte(c.String()), nil }

// Unit is what a finding's value and limit are counted in.
type Unit uint8

const (
	NoUnit        Unit = iota
	InHours            // 1/100 h
	InDays             // days
	AsDate             // days since 1970-01-01
	InShare            // 1/1000
	InMinutes          // minutes
	InVolume           // mL
	InDegrees          // 1/10 degC
	InPer100Hours      // mL in 100 h
	InPercent          // 1/10 %
)

// unitNames are the units of figures in JSON.
var unitNames = [...]string{"", "h", "d", "date", "1", "min", "L", "degC", "L/100h", "%"}

// String is the unit's name in JSON, "" for none.
func (u Unit) String() string {
	if u.Valid() {
		return unitNames[u]
	}
	return fmt.Sprintf("unknown (%d)", u)
}

// Valid says whether the number is one of the units.
func (u Unit) Valid() bool { return u <= InPercent }
