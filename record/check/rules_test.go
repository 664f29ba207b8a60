package check_test

import (
	"slices"
	"strings"
	"testing"

	"hourseal/record"
)

// ruleCase is one sheet and exactly what is to be said of it. Each is about one
// rule: it either fires there, or the case lies just inside its limit.
type ruleCase struct {
	rule    record.Code
	name    string
	sheet   string // nextSheet where empty
	edit    edits  // of the sheet
	machine edits
	plan    edits
	fresh   bool // no earlier record
	today   string
	later   string // a look sheet's "date hours" already in the chain after the first
	want    []finding
}

// finding is what is said, and what stands at the place that it points to.
type finding struct{ says, at string }

var noEarlier = finding{"note no-earlier-record", "gannet-port"}

// The limits below, unless a case says otherwise, come from formats.md of the
// design (1.15, 1.0, 0.3, 5 min, twice, 24.48 h a day + 0.1) and the schedule
// (200 h or 12 months, grace 10 % and 30 days). 24.48 h: SAE J1378, second hand.
var ruleCases = []ruleCase{
	{rule: record.DateInFuture, name: "tomorrow", today: "2027-04-19",
		want: []finding{{"refuse date-in-future 2027-04-20 2027-04-19", "2027-04-20"}}},
	{rule: record.DateInFuture, name: "today", today: "2027-04-20"},

	{rule: record.BeforeInService, name: "the day before", fresh: true,
		machine: edits{{"date: 2024-03-18, hours: 0", "date: 2027-04-21, hours: 1004"}},
		want:    []finding{{"refuse before-in-service 2027-04-20 2027-04-21", "2027-04-20"}, noEarlier}},
	{rule: record.BeforeInService, name: "on the day", fresh: true,
		machine: edits{{"date: 2024-03-18, hours: 0", "date: 2027-04-20, hours: 1004"}},
		want:    []finding{noEarlier}},

	{rule: record.HoursBelowInService, name: "0.01 h below", fresh: true,
		machine: edits{{"2024-03-18, hours: 0", "2024-03-18, hours: 1005.01"}},
		want:    []finding{noEarlier, {"refuse hours-below-in-service 1005h 1005.01h", "1005"}}},
	{rule: record.HoursBelowInService, name: "equal", fresh: true,
		machine: edits{{"2024-03-18, hours: 0", "2024-03-18, hours: 1005"}},
		want:    []finding{noEarlier}},
	{rule: record.HoursBelowInService, name: "meter taken off below it", sheet: lookSheet, fresh: true,
		machine: edits{{"2024-03-18, hours: 0", "2026-06-01, hours: 300"}},
		edit:    edits{{"hours: 900", "hours: 10\nmeter_change: { removed_at: 299.9, fitted_at: 0, why: glass broken }"}},
		want:    []finding{noEarlier, {`note meter-changed 299.9h "glass broken"`, "{ removed_at"}, {"refuse hours-below-in-service 299.9h 300h", "299.9"}}},

	{rule: record.HoursBelowEarlier, name: "0.1 h below", edit: edits{{"hours: 1005", "hours: 812.5"}},
		want: []finding{{`refuse hours-below-earlier 812.5h 812.6h "2026-05-04"`, "812.5"}}},
	{rule: record.HoursBelowEarlier, name: "equal", edit: edits{{"hours: 1005", "hours: 812.6"}}},
	{rule: record.HoursBelowEarlier, name: "same day, whose order is not known", sheet: lookSheet,
		edit: edits{{"2026-06-13", "2026-05-04"}, {"hours: 900", "hours: 812.5"}}},
	{rule: record.HoursBelowEarlier, name: "meter taken off below it", sheet: lookSheet,
		edit: edits{{"hours: 900", "hours: 50\nmeter_change: { removed_at: 812.5, fitted_at: 0, why: glass broken }"}},
		want: []finding{{`note meter-changed 812.5h "glass broken"`, "{ removed_at"}, {`refuse hours-below-earlier 812.5h 812.6h "2026-05-04"`, "812.5"}}},

	{rule: record.HoursAboveLater, name: "0.01 h above", later: "2027-06-01 1010", edit: edits{{"hours: 1005", "hours: 1010.01"}},
		want: []finding{{"decide date-before-last 2027-04-20 2027-06-01", "2027-04-20"}, {`refuse hours-above-later 1010.01h 1010h "2027-06-01"`, "1010.01"}}},
	{rule: record.HoursAboveLater, name: "equal", later: "2027-06-01 1010", edit: edits{{"hours: 1005", "hours: 1010"}},
		want: []finding{{"decide date-before-last 2027-04-20 2027-06-01", "2027-04-20"}}},

	// Two days count whole: 2 x 24.48 + 0.1 = 49.06; 812.6 + 49.06 = 861.66.
	{rule: record.HoursOutrunClock, name: "0.01 h more", sheet: lookSheet, machine: edits{useUnknown},
		edit: edits{{"2026-06-13", "2026-05-05"}, {"hours: 900", "hours: 861.67"}},
		want: []finding{{`refuse hours-outrun-clock 49.07h 49.06h "2026-05-04"`, "861.67"}}},
	{rule: record.HoursOutrunClock, name: "as fast as a meter can", sheet: lookSheet, machine: edits{useUnknown},
		edit: edits{{"2026-06-13", "2026-05-05"}, {"hours: 900", "hours: 861.66"}}},
	// Late paperwork is held to the record after it in the same way.
	{rule: record.HoursOutrunClock, name: "the later record 0.01 h too high", sheet: lookSheet, machine: edits{useUnknown}, later: "2026-06-14 949.07",
		want: []finding{{"decide date-before-last 2026-06-13 2026-06-14", "2026-06-13"}, {`refuse hours-outrun-clock 49.07h 49.06h "2026-06-13"`, "900"}}},
	{rule: record.HoursOutrunClock, name: "the later record as high as it can be", sheet: lookSheet, machine: edits{useUnknown}, later: "2026-06-14 949.06",
		want: []finding{{"decide date-before-last 2026-06-13 2026-06-14", "2026-06-13"}}},

	{rule: record.AnswerMissing, name: "deferred", edit: edits{{"impeller, result: done", "impeller, result: deferred"}},
		want: []finding{{`refuse answer-missing/impeller "deferred"`, "{ id: impeller"}}},
	{rule: record.AnswerMissing, name: "defect, an answer without why", edit: edits{{"belt-look, result: ok", "belt-look, result: defect, advice: monitor"}},
		want: []finding{{`refuse answer-missing/belt-look "defect"`, "{ id: belt-look"}}},
	{rule: record.AnswerMissing, name: "other work", edit: edits{{"parts:", "other_work:\n  - { text: Tightened the clamp, result: done }\n  - { text: Exhaust elbow weeps, result: defect }\nparts:"}},
		want: []finding{{`refuse answer-missing/other work 2 "defect"`, "{ text: Exhaust"}}},
	{rule: record.AnswerMissing, name: "with why", edit: edits{{"impeller, result: done", "impeller, result: deferred, why: part on order"}}},
	{rule: record.AnswerMissing, name: "watch needs none", edit: edits{{"belt-look, result: ok", "belt-look, result: watch"}}},

	{rule: record.EvidenceMissing, name: "drained", edit: edits{{"    drained: 9.1 L at 68 C\n", ""}},
		want: []finding{{`refuse evidence-missing/engine-oil "drained engine-oil"`, "{ id: engine-oil"}}},
	{rule: record.EvidenceMissing, name: "filled", edit: edits{{"    filled: 9.3 L at 16 C\n", ""}},
		want: []finding{{`refuse evidence-missing/engine-oil "filled engine-oil"`, "{ id: engine-oil"}}},
	{rule: record.EvidenceMissing, name: "level", edit: edits{{"    level: { reading: 0.85, after: 15 min, at: 45 C }\n", ""}},
		want: []finding{{`refuse evidence-missing/engine-oil "level engine-oil"`, "{ id: engine-oil"}}},
	{rule: record.EvidenceMissing, name: "part", edit: edits{{"item: oil filter", "item: fuel filter"}},
		want: []finding{{`refuse evidence-missing/oil-filter "part oil filter"`, "{ id: oil-filter"}}},
	{rule: record.EvidenceMissing, name: "reading", edit: edits{{", reading: { freezing_point: -27 C }", ""}},
		want: []finding{{`refuse evidence-missing/coolant-strength "reading freezing_point"`, "{ id: coolant-strength"}}},
	{rule: record.EvidenceMissing, name: "unit of the freezing point", edit: edits{{"-27 C", "-27"}},
		want: []finding{{`refuse evidence-missing/coolant-strength "unit of freezing_point, C or F"`, "{ freezing_point"}}},
	{rule: record.EvidenceMissing, name: "part in other letters", edit: edits{{"item: oil filter", "item: Oil Filter"}}},
	{rule: record.EvidenceMissing, name: "put off needs none", edit: edits{{"  - { item: impeller }\n", ""}, {"impeller, result: done", "impeller, result: deferred, why: part on order"}}},

	// 10.0 L at the upper mark.
	{rule: record.FillBeyondSystem, name: "1 mL more than twice", edit: edits{{"filled: 9.3 L at 16 C", "filled: [20 L at 16 C, 1 mL at 16 C]"}},
		want: []finding{{"refuse fill-beyond-system/engine-oil 20.001 L 20 L", "[20 L"}}},
	{rule: record.FillBeyondSystem, name: "twice", edit: edits{{"filled: 9.3 L at 16 C", "filled: 20 L at 16 C"}},
		want: []finding{{`decide fill-off-level/engine-oil 0.85 7.394 "10.25 L less than expected"`, "{ reading: 0.85"}}},
	{rule: record.FillBeyondSystem, name: "twice by mass, 17.6 kg at 880 kg/m3", edit: edits{{"filled: 9.3 L at 16 C", "filled: 17.6 kg"}},
		want: []finding{{`decide fill-off-level/engine-oil 0.85 7.403 "10.26 L less than expected"`, "{ reading: 0.85"}}},
	{rule: record.FillBeyondSystem, name: "1 g more, 17.601 kg is 20.001 L", edit: edits{{"filled: 9.3 L at 16 C", "filled: 17.601 kg"}},
		want: []finding{{"refuse fill-beyond-system/engine-oil 20.001 L 20 L", "17.601 kg"}}},
	{rule: record.FillBeyondSystem, name: "content unknown", machine: edits{{"at_upper: 10.0 L", "at_upper: unknown"}}, edit: edits{{"filled: 9.3 L at 16 C", "filled: 90 L at 16 C"}},
		want: []finding{{`decide fill-off-level/engine-oil 0.85 53.066 "81.75 L less than expected"`, "{ reading: 0.85"}}},

	// 40 days at 420 h a year: 46 h expected; 3 x 46 + 25 = 163.
	{rule: record.HoursOutrunUse, name: "0.01 h more", sheet: lookSheet, edit: edits{{"hours: 900", "hours: 975.61"}},
		want: []finding{{`decide hours-outrun-use 163.01h 46h "2026-05-04"`, "975.61"}}},
	{rule: record.HoursOutrunUse, name: "at the limit", sheet: lookSheet, edit: edits{{"hours: 900", "hours: 975.6"}}},
	{rule: record.HoursOutrunUse, name: "use unknown", sheet: lookSheet, machine: edits{useUnknown}, edit: edits{{"hours: 900", "hours: 990"}}},

	{rule: record.DateBeforeLast, name: "a day before", later: "2027-04-21 1010",
		want: []finding{{"decide date-before-last 2027-04-20 2027-04-21", "2027-04-20"}}},
	{rule: record.DateBeforeLast, name: "the same day", later: "2027-04-20 1004"},

	{rule: record.LevelOverfilled, name: "over 1.15", edit: edits{{"reading: 0.85", "reading: 1.151"}},
		want: []finding{{"decide level-overfilled/engine-oil 1.151 1.15", "{ reading: 1.151"}}},
	{rule: record.LevelOverfilled, name: "1.15", edit: edits{{"reading: 0.85", "reading: 1.15"}},
		want: []finding{{"note level-high/engine-oil 1.15 1", "{ reading: 1.15"}}},
	{rule: record.LevelHigh, name: "over 1", edit: edits{{"reading: 0.85", "reading: 1.001"}},
		want: []finding{{"note level-high/engine-oil 1.001 1", "{ reading: 1.001"}}},
	{rule: record.LevelHigh, name: "at the upper mark", edit: edits{{"reading: 0.85", "reading: 1"}}},
	{rule: record.LevelBelowMark, name: "below", edit: edits{{"reading: 0.85", "reading: -0.001"}},
		want: []finding{{"decide level-below-mark/engine-oil -0.001 0", "{ reading: -0.001"}}},
	{rule: record.LevelBelowMark, name: "at the lower mark", edit: edits{{"reading: 0.85", "reading: 0"}},
		want: []finding{{"note level-low/engine-oil 0 0.3", "{ reading: 0"}}},
	{rule: record.LevelLow, name: "under 0.3 after a change", edit: edits{{"reading: 0.85", "reading: 0.299"}},
		want: []finding{{"note level-low/engine-oil 0.299 0.3", "{ reading: 0.299"}}},
	{rule: record.LevelLow, name: "0.3", edit: edits{{"reading: 0.85", "reading: 0.3"}}},
	{rule: record.LevelLow, name: "low before the change", edit: edits{{"level_before: { reading: 0.3", "level_before: { reading: 0.29"}}},
	{rule: record.LevelLow, name: "nothing filled", sheet: lookSheet,
		edit: edits{{"inspection\n", "inspection\nfluids:\n  - { system: engine-oil, level: { reading: 0.1, after: 15 min, at: 45 C } }\n"}}},
	// At least 5 minutes: TM 55-1905-223-24-5.
	{rule: record.LevelReadEarly, name: "4 min", edit: edits{{"after: 15 min", "after: 4 min"}},
		want: []finding{{"decide level-read-early/engine-oil 4 min 5 min", "{ reading: 0.85"}}},
	{rule: record.LevelReadEarly, name: "5 min", edit: edits{{"after: 15 min", "after: 5 min"}}},
	{rule: record.LevelWaitUnstated, name: "unstated", edit: edits{{"after: 15 min, ", ""}},
		want: []finding{{"note level-wait-unstated/engine-oil", "{ reading: 0.85"}}},
	{rule: record.LevelWaitUnstated, name: "level not measured", edit: edits{{"level: { reading: 0.85, after: 15 min, at: 45 C }", "level: not measured"}},
		want: []finding{{`note not-measured/engine-oil "level"`, "not measured"}}},

	// API CF replaces CD only, and FA-4 nothing (API Motor Oil Guide).
	{rule: record.OilCategory, name: "unsuitable", edit: edits{{"[API CI-4]", "[API CF]"}},
		want: []finding{{`decide oil-category/engine-oil "API CF; asked: API CI-4 or ACEA E7; API CF is older than API CI-4: an older one never answers a newer"`, "[API CF]"}}},
	{rule: record.OilCategory, name: "newer letters that replace nothing", edit: edits{{"[API CI-4]", "[API FA-4]"}},
		want: []finding{{`decide oil-category/engine-oil "API FA-4; asked: API CI-4 or ACEA E7; API FA-4 is a thinner oil for newer road diesels, it replaces no other category"`, "[API FA-4]"}}},
	{rule: record.OilCategory, name: "not stated", edit: edits{{"    meets: [API CI-4]\n", ""}},
		want: []finding{{`decide oil-category/engine-oil "not stated; asked: API CI-4 or ACEA E7"`, "system: engine-oil"}}},
	{rule: record.OilCategory, name: "any of those asked for, in another spelling", edit: edits{{"[API CI-4]", "[acea e7]"}}},
	{rule: record.OilSuitsByDirected, name: "may stand in", edit: edits{{"[API CI-4]", "[API CK-4]"}},
		want: []finding{{`note oil-suits-by-table/engine-oil "API CK-4 for API CI-4"`, "[API CK-4]"}}},
	{rule: record.OilSuitsByDirected, name: "both stated", edit: edits{{"[API CI-4]", "[API CK-4, API CI-4]"}}},
	{rule: record.OilViscosity, name: "another grade", edit: edits{{"viscosity: 15W-40", "viscosity: 20W-50"}},
		want: []finding{{`decide oil-viscosity/engine-oil "20W-50; asked: 15W-40 or 10W-40; 20W-50 is thicker when hot (16.3 to 21.9 mm2/s at 100 °C) than 15W-40 (12.5 to 16.3 mm2/s)"`, "20W-50"}}},
	{rule: record.ViscositySuits, name: "thinner in the cold, the same when hot", edit: edits{{"viscosity: 15W-40", "viscosity: 5W-40"}},
		want: []finding{{`note viscosity-by-table/engine-oil "5W-40 for 15W-40"`, "5W-40"}}},
	{rule: record.ViscositySuits, name: "the same grade"},
	{rule: record.OilViscosity, name: "any of those asked for", edit: edits{{"viscosity: 15W-40", "viscosity: SAE 10W40"}}},
	{rule: record.OilRequirementAbsent, name: "nothing asked for", machine: edits{{"    viscosity: [15W-40, 10W-40]     # any one of these\n", ""}, {"    meets: [API CI-4, ACEA E7]      # any one of these\n", ""}},
		want: []finding{{"note oil-requirement-unknown/engine-oil", "system: engine-oil"}}},
	{rule: record.OilRequirementAbsent, name: "only a grade", machine: edits{{"    meets: [API CI-4, ACEA E7]      # any one of these\n", ""}}},

	{rule: record.LeakCheckMissing, name: "after an oil change", edit: edits{{"leak_check: { result: none seen, after: 10 min }\n", ""}},
		want: []finding{{"decide leak-check-missing/engine-oil", "{ id: engine-oil"}}},
	{rule: record.LeakCheckMissing, name: "after a filter", sheet: lookSheet, edit: edits{{"inspection\n", "inspection\ntasks:\n  - { id: belt-look, result: ok }\n  - { id: oil-filter, result: done }\nparts:\n  - { item: oil filter }\n"}},
		want: []finding{{"decide leak-check-missing/oil-filter", "{ id: oil-filter"},
			// 112.6 h before it was due, with a grace of 20, and 325 days.
			{"note done-early/belt-look 112.6h 1012.6h", "{ id: belt-look"}, {"note done-early/oil-filter 112.6h 1012.6h", "{ id: oil-filter"}}},
	{rule: record.LeakCheckMissing, name: "an air filter holds no oil", sheet: lookSheet,
		plan: edits{{"  - id: impeller\n", "  - id: air\n    title: Fit a new air filter\n    kind: replace\n    every: { months: 12 }\n    needs: { part: air filter }\n  - id: impeller\n"}},
		edit: edits{{"inspection\n", "inspection\ntasks:\n  - { id: air, result: done }\nparts:\n  - { item: air filter }\n"}}},
	{rule: record.LeakSeen, name: "seen", edit: edits{{"none seen, after: 10 min", "seen, where: drain plug"}},
		want: []finding{{`decide leak-seen "drain plug"`, "{ result: seen"}}},
	{rule: record.LeakSeen, name: "none seen"},

	{rule: record.DueNotMentioned, name: "due by date today", edit: edits{{"2027-04-20", "2027-05-04"}, {"  - { id: belt-look, result: ok }\n  - { id: belt, result: done }\n", ""}, {"hours: 1005", "hours: 999.99"}},
		want: []finding{{"decide due-not-mentioned/belt-look 0d", "tasks:"}}},
	{rule: record.DueNotMentioned, name: "due tomorrow", edit: edits{{"2027-04-20", "2027-05-03"}, {"  - { id: belt-look, result: ok }\n  - { id: belt, result: done }\n", ""}, {"hours: 1005", "hours: 999.99"}}},
	{rule: record.DueNotMentioned, name: "due by hours now", edit: edits{{"  - { id: belt, result: done }\n", ""}, {"hours: 1005", "hours: 1000"}},
		want: []finding{{"decide due-not-mentioned/belt 1000h", "tasks:"}}},
	{rule: record.DueNotMentioned, name: "a note on other jobs", edit: edits{{"  - { id: belt, result: done }\n", ""}, {"reason: scheduled", "reason: defect"}},
		want: []finding{{"note due-not-mentioned/belt 1000h", "tasks:"}}},
	{rule: record.DueNotMentioned, name: "0.01 h before", edit: edits{{"  - { id: belt, result: done }\n", ""}, {"hours: 1005", "hours: 999.99"}}},
	{rule: record.DueNotMentioned, name: "put off is mentioned", edit: edits{{"id: belt, result: done", "id: belt, result: deferred, why: part on order"}}},
	{rule: record.DueNotMentioned, name: "covered by what was done", edit: edits{{"2027-04-20", "2027-05-04"}, {"  - { id: belt-look, result: ok }\n", ""}}},
	{rule: record.DueNotMentioned, name: "what covers it was put off", edit: edits{{"2027-04-20", "2027-05-04"}, {"  - { id: belt-look, result: ok }\n", ""}, {"id: belt, result: done", "id: belt, result: deferred, why: part on order"}},
		want: []finding{{"decide due-not-mentioned/belt-look 0d", "tasks:"}}},

	{rule: record.DoneWithout, name: "oil without its filter", edit: edits{{"  - { id: oil-filter, result: done }\n", ""}},
		want: []finding{{`note done-without/engine-oil "oil-filter"`, "{ id: engine-oil"}}},
	{rule: record.DoneWithout, name: "put off is mentioned", edit: edits{{"id: oil-filter, result: done", "id: oil-filter, result: deferred, why: part on order"}}},
	{rule: record.DoneWithout, name: "a filter without its oil", edit: edits{{"  - { id: engine-oil, result: done }\n", ""}}},

	{rule: record.SevereDuty, name: "on the job sheet", edit: edits{{"tasks:\n", "severe_duty: [fuel sulphur over 0.5 %]\ntasks:\n"}},
		want: []finding{{`note severe-duty "fuel sulphur over 0.5 %"`, "[fuel sulphur"}}},
	{rule: record.SevereDuty, name: "none", edit: edits{{"tasks:\n", "severe_duty: []\ntasks:\n"}}},

	{rule: record.JobNumberUsed, name: "on an earlier record", edit: edits{{"J-2301", "J-2217"}},
		want: []finding{{`decide job-number-used 2026-05-04 "J-2217"`, "J-2217"}}},
	{rule: record.JobNumberUsed, name: "in other letters", edit: edits{{"J-2301", "j-2217"}}},

	{rule: record.SameVisit, name: "a changed sheet", sheet: lookSheet, later: "2026-06-13 900",
		edit: edits{{"reason: inspection", "reason: inspection\nnotes: Belt looked at."}},
		want: []finding{{`decide same-visit 2026-06-13 "2"`, "2026-06-13"}}},
	{rule: record.SameVisit, name: "the same sheet", sheet: lookSheet, later: "2026-06-13 900"},
	{rule: record.SameVisit, name: "an hour tenth on", sheet: lookSheet, later: "2026-06-13 900",
		edit: edits{{"hours: 900", "hours: 900.1"}}},

	{rule: record.CoolantProtection, name: "0.1 degC short", edit: edits{{"-27 C", "-24.9 C"}},
		want: []finding{{"decide coolant-protection/coolant -24.9 °C -25 °C", "{ freezing_point"}}},
	{rule: record.CoolantProtection, name: "just enough", edit: edits{{"-27 C", "-25 C"}}},
	{rule: record.CoolantProtection, name: "-13 degF is -25 degC", edit: edits{{"-27 C", "-13 F"}}},
	{rule: record.CoolantProtection, name: "-12 degF is -24.4 degC", edit: edits{{"-27 C", "-12 F"}},
		want: []finding{{"decide coolant-protection/coolant -24.4 °C -25 °C", "{ freezing_point"}}},
	{rule: record.CoolantProtection, name: "as left counts", edit: edits{{"freezing_point: -27 C", "freezing_point: { as_found: -10 C, as_left: -30 C }"}}},
	{rule: record.CoolantProtection, name: "as found, nothing done", edit: edits{{"freezing_point: -27 C", "freezing_point: { as_found: -10 C }"}},
		want: []finding{{"decide coolant-protection/coolant -10 °C -25 °C", "{ freezing_point"}}},

	{rule: record.NoEarlierRecord, name: "the first", fresh: true, machine: edits{{"2024-03-18, hours: 0", "2024-03-18, hours: 400"}}, want: []finding{noEarlier}},
	{rule: record.NoEarlierRecord, name: "the second"},

	// Due at 1012.6 h; grace 10 % of 200 h.
	{rule: record.DoneLate, name: "0.01 h past the grace", edit: edits{{"hours: 1005", "hours: 1032.61"}},
		want: []finding{{"note done-late/engine-oil 20.01h 1012.6h", "{ id: engine-oil"}, {"note done-late/oil-filter 20.01h 1012.6h", "{ id: oil-filter"}, {"note done-late/belt-look 20.01h 1012.6h", "{ id: belt-look"}}},
	{rule: record.DoneLate, name: "at the end of the grace", edit: edits{{"hours: 1005", "hours: 1032.6"}},
		want: []finding{{"note done-in-grace/engine-oil 20h 1012.6h", "{ id: engine-oil"}, {"note done-in-grace/oil-filter 20h 1012.6h", "{ id: oil-filter"}, {"note done-in-grace/belt-look 20h 1012.6h", "{ id: belt-look"}}},
	{rule: record.DoneLate, name: "31 days", edit: edits{{"2027-04-20", "2027-06-04"}},
		want: []finding{{"note done-late/engine-oil 31d", "{ id: engine-oil"}, {"note done-late/oil-filter 31d", "{ id: oil-filter"}, {"note done-late/belt-look 31d", "{ id: belt-look"},
			{"note done-late/coolant-strength 31d", "{ id: coolant-strength"}, {"note done-late/impeller 31d", "{ id: impeller"}}},
	{rule: record.DoneInGrace, name: "30 days", edit: edits{{"2027-04-20", "2027-06-03"}},
		want: []finding{{"note done-in-grace/engine-oil 30d", "{ id: engine-oil"}, {"note done-in-grace/oil-filter 30d", "{ id: oil-filter"}, {"note done-in-grace/belt-look 30d", "{ id: belt-look"},
			{"note done-in-grace/coolant-strength 30d", "{ id: coolant-strength"}, {"note done-in-grace/impeller 30d", "{ id: impeller"}}},
	{rule: record.DoneInGrace, name: "on the day and at the hour", edit: edits{{"2027-04-20", "2027-05-04"}, {"hours: 1005", "hours: 1012.6"}}},
	// Early by both: 20.01 h and 31 days before; one of the two within the grace is in time.
	{rule: record.DoneEarly, name: "by both", edit: edits{{"2027-04-20", "2027-04-03"}, {"hours: 1005", "hours: 992.59"}},
		want: []finding{{"note done-early/engine-oil 20.01h 1012.6h", "{ id: engine-oil"}, {"note done-early/oil-filter 20.01h 1012.6h", "{ id: oil-filter"}, {"note done-early/belt-look 20.01h 1012.6h", "{ id: belt-look"},
			{"note done-early/coolant-strength 31d", "{ id: coolant-strength"}, {"note done-early/impeller 220.01h 1212.6h", "{ id: impeller"}}},
	{rule: record.DoneEarly, name: "30 days", edit: edits{{"2027-04-20", "2027-04-04"}, {"hours: 1005", "hours: 992.59"}}},
	{rule: record.DoneEarly, name: "20 h", edit: edits{{"2027-04-20", "2027-04-03"}, {"hours: 1005", "hours: 992.6"}},
		want: []finding{{"note done-early/coolant-strength 31d", "{ id: coolant-strength"}, {"note done-early/impeller 220h 1212.6h", "{ id: impeller"}}},

	{rule: record.NotMeasured, name: "all of them", edit: edits{{"drained: 9.1 L at 68 C", "drained: not measured"}, {"filled: 9.3 L at 16 C", "filled: not measured"},
		{"level_before: { reading: 0.3, after: 20 min, at: 18 C }", "level_before: not measured"}, {"level: { reading: 0.85, after: 15 min, at: 45 C }", "level: not measured"}},
		want: []finding{{`note not-measured/engine-oil "drained"`, "not measured"}, {`note not-measured/engine-oil "filled"`, "not measured"},
			{`note not-measured/engine-oil "level before"`, "not measured"}, {`note not-measured/engine-oil "level"`, "not measured"}}},
	{rule: record.NotMeasured, name: "not mentioned is nothing", sheet: lookSheet, edit: edits{{"inspection\n", "inspection\nfluids:\n  - { system: engine-oil }\n"}}},
	{rule: record.TemperatureAssumed, name: "all of them", edit: edits{{"9.1 L at 68 C", "9.1 L"}, {"9.3 L at 16 C", "[9 L at 16 C, 0.3 L]"}, {", at: 18 C", ""}, {", at: 45 C", ""}},
		want: []finding{{`note temperature-assumed/engine-oil 60 °C 20 °C "drained"`, "9.1 L"}, {`note temperature-assumed/engine-oil 15 °C 10 °C "filled"`, "[9 L"},
			{`note temperature-assumed/engine-oil 40 °C 20 °C "level before"`, "{ reading: 0.3"}, {`note temperature-assumed/engine-oil 40 °C 20 °C "level"`, "{ reading: 0.85"}}},
	{rule: record.TemperatureAssumed, name: "coolant needs none", sheet: lookSheet, edit: edits{{"inspection\n", "inspection\nfluids:\n  - { system: coolant, drained: 2 L, filled: 2 L }\nwaste:\n  - { system: coolant, amount: 2 L, to: harbour oil bank }\n"}}},
	{rule: record.TemperatureAssumed, name: "a mass needs none", edit: edits{{"9.1 L at 68 C", "7.7 kg"}, {"9.3 L at 16 C", "8.2 kg"}}},

	{rule: record.HullNumberForm, name: "a letter too few", machine: edits{{"GB-ELS00042A323", "GB-ELS0042A323"}},
		want: []finding{{`note hull-number-form "GB-ELS0042A323"`, "gannet-port"}}},
	{rule: record.HullNumberForm, name: "none stated", machine: edits{{", hull: GB-ELS00042A323", ""}}},

	{rule: record.MeterChanged, name: "removed known", sheet: lookSheet, edit: edits{{"hours: 900", "hours: 50.5\nmeter_change: { removed_at: 850, fitted_at: 0.5, why: glass broken }"}},
		want: []finding{{`note meter-changed 850h "glass broken"`, "{ removed_at"}}},
	{rule: record.MeterChanged, name: "none", sheet: lookSheet},
	{rule: record.RemovedReadingLost, name: "removed unknown", sheet: lookSheet, edit: edits{{"hours: 900", "hours: 50.5\nmeter_change: { removed_at: unknown, fitted_at: 0.5, why: glass broken }"}},
		want: []finding{{`note meter-changed 812.6h "glass broken"`, "{ removed_at"}, {"note removed-reading-unknown 812.6h", "{ removed_at"}}},
	{rule: record.RemovedReadingLost, name: "removed at the last reading", sheet: lookSheet, edit: edits{{"hours: 900", "hours: 50.5\nmeter_change: { removed_at: 812.6, fitted_at: 0.5, why: glass broken }"}},
		want: []finding{{`note meter-changed 812.6h "glass broken"`, "{ removed_at"}}},
	{rule: record.HoursEstimated, name: "stopped", sheet: lookSheet, edit: edits{{"hours: 900", "hours: { meter: stopped, estimate: 900, basis: engine log }"}},
		want: []finding{{`note hours-estimated 900h "engine log"`, "{ meter"}}},
	{rule: record.HoursEstimated, name: "none", sheet: lookSheet, edit: edits{{"hours: 900", "hours: { meter: none, estimate: 900, basis: engine log }"}},
		want: []finding{{`note hours-estimated 900h "engine log"`, "{ meter"}}},
	{rule: record.HoursEstimated, name: "read", sheet: lookSheet},
}

var useUnknown = [2]string{"expected_hours_per_year: 420\n", ""}

func TestRules(t *testing.T) {
	for _, c := range slices.Concat(ruleCases, fluidCases) {
		t.Run(c.rule.String()+"/"+c.name, func(t *testing.T) {
			s := newScene(t, c.machine, c.plan)
			if !c.fresh {
				s.issue(t, firstSheet)
			}
			if date, hours, ok := strings.Cut(c.later, " "); ok {
				s.issue(t, edits{{"2026-06-13", date}, {"hours: 900", "hours: " + hours}}.in(t, lookSheet))
			}
			if c.today != "" {
				s.today = day(c.today)
			}
			sheet := c.sheet
			if sheet == "" {
				sheet = nextSheet
			}
			sheet = c.edit.in(t, sheet)
			result := s.run(t, sheet)
			wantFaults(t, result)
			var want []string
			for _, f := range c.want {
				want = append(want, f.says)
			}
			wantSaid(t, result, want...)
			for i := range min(len(result.Findings), len(c.want)) {
				if at := textAt(t, sheet, result.Findings[i].At); !strings.HasPrefix(at, c.want[i].at) {
					t.Errorf("%s: points at %q, want %q", c.want[i].says, at, c.want[i].at)
				}
			}
		})
	}
}

// TestRulesAllHaveBothSides holds the table to the list of rules: each has a case
// that it fires in and one that it keeps silent in. The rules about
// twins and engines, and those over several records, have tests of their own.
func TestRulesAllHaveBothSides(t *testing.T) {
	for code, rule := range record.Rules {
		if code == record.ReadsLikeTwin || code == record.HoursOffEngine || code == record.OilUseRisen || code == record.AtUpperDoubtful {
			continue
		}
		var fires, silent bool
		for _, c := range slices.Concat(ruleCases, fluidCases) {
			if c.rule != code {
				continue
			}
			said := slices.ContainsFunc(c.want, func(f finding) bool {
				word := strings.Fields(f.says)[1]
				name, _, _ := strings.Cut(word, "/")
				return name == rule.Name
			})
			fires, silent = fires || said, silent || !said
		}
		if !fires || !silent {
			t.Errorf("%s: fires in a case: %v; silent in a case: %v", rule.Name, fires, silent)
		}
	}
}
