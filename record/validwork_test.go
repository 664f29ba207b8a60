package record_test

import (
	"testing"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

func TestValidateTasks(t *testing.T) {
	type r = *record.Record
	const (
		noReason = "why: a defect or put-off task has no reason"
		said     = "task 4: result: is missing, but something is said of the task"
	)
	tryRefusals(t, []refusal{
		{"no id", func(r r) { r.Tasks[1].ID = "" }, "task 2: id: is empty"},
		{"id", func(r r) { r.Tasks[1].ID = "oil filter" }, "task 2: id: " + badID},
		{"title", func(r r) { r.Tasks[0].Title = text121 }, "task 1: title: " + longText},
		{"no title", func(r r) { r.Tasks[0].ID, r.Tasks[0].Title = "own", "" }, "task 1: title: is empty"},
		{"kind 0", func(r r) { r.Tasks[0].Kind = 0 }, "task 1: kind: unknown value"},
		{"kind 6", func(r r) { r.Tasks[0].Kind = 6 }, "task 1: kind: unknown value"},
		{"never due", func(r r) { r.Tasks[0].Every, r.Tasks[0].Due = schedule.Interval{}, schedule.Due{} }, "task 1: interval: neither hours nor months"},
		{"interval below 0", func(r r) { r.Tasks[0].Every.Hours = -1 }, "task 1: interval: -1 is outside 0 to 100000000"},
		{"months below 0", func(r r) { r.Tasks[0].Every.Months = -1 }, "task 1: interval months: -1 is outside 0 to 1200"},
		{"months beyond", func(r r) { r.Tasks[0].Every.Months = 1201 }, "task 1: interval months: 1201 is outside 0 to 1200"},
		{"grace", func(r r) { r.Tasks[0].Leeway.Hours = -1 }, "task 1: grace: -1 is outside 0 to 100000000"},
		{"grace days", func(r r) { r.Tasks[0].Leeway.Days = 36_526 }, "task 1: grace days: 36526 is outside 0 to 36525"},
		{"no grace", func(r r) { r.Tasks[0].Leeway = schedule.Leeway{} }, ""},
		{"last date", func(r r) { r.Tasks[0].Last = &record.Last{Date: quantity.MaxDate + 1} }, "task 1: last done: 84006 is outside -25567 to 84005"},
		{"last hours", func(r r) { r.Tasks[0].Last = &record.Last{Hours: -1} }, "task 1: last done: -1 is outside 0 to 100000000"},
		{"due below 0", func(r r) { r.Tasks[0].Due.Hours = new(quantity.Hours(-1)) }, "task 1: due: -1 is outside 0 to 200000000"},
		{"due beyond", func(r r) { r.Tasks[0].Due.Hours = new(2*quantity.MaxHours + 1) }, "task 1: due: 200000001 is outside 0 to 200000000"},
		{"due date", func(r r) { r.Tasks[0].Due.Date = new(quantity.Date(120_531)) }, "task 1: due: 120531 is outside -25567 to 120530"},
		{"due a century on", func(r r) { r.Tasks[0].Due.Date = new(quantity.MaxDate.AddMonths(quantity.MaxMonths)) }, ""},
		{"due by hours it does not go by", func(r r) { r.Tasks[4].Due.Hours = new(quantity.Hours(1)) }, "task 5: due: is by hours where the interval has hours, and only there"},
		{"not due by its hours", func(r r) { r.Tasks[0].Due.Hours = nil }, "task 1: due: is by hours where the interval has hours, and only there"},
		{"not due by its months", func(r r) { r.Tasks[0].Due.Date = nil }, "task 1: due: is by date where the interval has months, and only there"},
		{"result 6", func(r r) { r.Tasks[0].Result = 6 }, "task 1: result: unknown value 6"},
		{"not mentioned", func(r r) { r.Tasks[0].Result = 0 }, ""},
		{"answer without result", func(r r) { r.Tasks[3].Answer = &record.Answer{Why: "x"} }, said},
		{"look again without result", func(r r) { r.Tasks[3].LookAgain = r.Tasks[2].LookAgain }, said},
		{"reading without result", func(r r) { r.Tasks[3].Readings = r.Tasks[4].Readings }, said},
		{"done by without result", func(r r) { r.Tasks[3].DoneBy = "Harbour Electrics" }, said},
		{"deferred without answer", func(r r) { r.Tasks[5].Answer = nil }, "task 6: " + noReason},
		{"deferred without why", func(r r) { r.Tasks[5].Answer.Why = "" }, "task 6: " + noReason},
		{"defect without why", func(r r) { r.Tasks[0].Result = record.Defect }, "task 1: " + noReason},
		{"answer of nothing", func(r r) { r.Tasks[0].Answer = &record.Answer{} }, "task 1: answer: is empty"},
		{"long why", func(r r) { r.Tasks[5].Answer.Why = text201 }, "task 6: why: " + longReason},
		{"advice 4", func(r r) { r.Tasks[5].Answer.Advice = 4 }, "task 6: advice: unknown value 4"},
		{"owner 4", func(r r) { r.Tasks[5].Answer.Owner = 4 }, "task 6: owner: unknown value 4"},
		{"told", func(r r) { r.Tasks[5].Answer.Told = new(quantity.MinDate - 1) }, "task 6: told: -25568 is outside -25567 to 84005"},
		{"look again never", func(r r) { r.Tasks[2].LookAgain = &record.LookAgain{} }, "task 3: look again: names neither hours nor a date"},
		{"look again hours", func(r r) { *r.Tasks[2].LookAgain.Hours = -1 }, "task 3: look again: -1 is outside 0 to 100000000"},
		{"look again date", func(r r) { r.Tasks[2].LookAgain.Date = new(quantity.MaxDate + 1) }, "task 3: look again: 84006 is outside -25567 to 84005"},
		{"done by", func(r r) { r.Tasks[0].DoneBy = text121 }, "task 1: done by: " + longText},
		{"reading without name", func(r r) { r.Tasks[4].Readings[0].Name = "" }, "task 5: reading 1: name: is empty"},
		{"reading of nothing", func(r r) { r.Tasks[4].Readings[0].Value = nil }, "task 5: reading 1: freezing_point: is a single value, or as found and as left"},
		{"reading of both", func(r r) { r.Tasks[4].Readings[0].AsLeft = r.Tasks[4].Readings[0].Value }, "task 5: reading 1: freezing_point: is a single value, or as found and as left"},
		{"reading as left", func(r r) {
			r.Tasks[4].Readings[0].AsLeft, r.Tasks[4].Readings[0].Value = r.Tasks[4].Readings[0].Value, nil
		}, ""},
		{"reading in other letters", func(r r) { r.Tasks[4].Readings[0].Value.Unit = "c" }, `task 5: reading 1: freezing_point: unit "c": written C in a record`},
		{"reading beyond", func(r r) { r.Tasks[4].Readings[0].Value.Places = 200 }, "task 5: reading 1: freezing_point: reading is out of range"},
		{"other work of nothing", func(r r) { r.OtherWork[0].Text = "" }, "other work 1: text: is empty"},
		{"other work", func(r r) { r.OtherWork[0].Text = text201 }, "other work 1: text: " + longReason},
		{"other work without result", func(r r) { r.OtherWork[0].Result = 0 }, "other work 1: result: unknown value 0"},
		{"other work left", func(r r) { r.OtherWork[0].Result = record.Defect }, "other work 1: " + noReason},
		{"other work done by", func(r r) { r.OtherWork[0].DoneBy = text121 }, "other work 1: done by: " + longText},
	})
}

func TestValidateFluidsAndParts(t *testing.T) {
	type r = *record.Record
	tryRefusals(t, []refusal{
		{"no system", func(r r) { r.Fluids[0].System = "" }, "fluid 1: system: is empty"},
		{"system", func(r r) { r.Fluids[0].System = "engine oil" }, "fluid 1: system: " + badID},
		{"level before", func(r r) { *r.Fluids[0].LevelBefore.Reading = -1_000_001 }, "fluid 1: level before: -1000001 is outside -1000000 to 1000000"},
		{"level", func(r r) { *r.Fluids[0].Level.Reading = 1_000_001 }, "fluid 1: level: 1000001 is outside -1000000 to 1000000"},
		{"level above the mark", func(r r) { *r.Fluids[0].Level.Reading = 1300 }, ""},
		{"level not measured", func(r r) { r.Fluids[0].Level = &record.Level{} }, ""},
		{"level after", func(r r) { *r.Fluids[0].Level.After = -1 }, "fluid 1: level: -1 is outside 0 to 100000"},
		{"level at", func(r r) { *r.Fluids[0].Level.At = 10_001 }, "fluid 1: level temperature: 10001 is outside -1000 to 10000"},
		{"drained of nothing", func(r r) { r.Fluids[0].Drained = &quantity.Measured{} }, `fluid 1: drained: nothing measured: write an amount, as 9.4 L, or "not measured"`},
		{"drained, no figure of that unit", func(r r) { r.Fluids[0].Drained.Portions[0].Amount++ }, "fluid 1: drained: amount 1 of the sum: amount 9086 is no figure in US gal with 1 decimals"},
		{"drained in an unknown unit", func(r r) { r.Fluids[0].Drained.Portions[0].Unit = 99 }, "fluid 1: drained: amount 1 of the sum: unit 99 is no unit of volume or mass"},
		{"filled", func(r r) { r.Fluids[0].Filled.NotMeasured = true }, `fluid 1: filled: 2 amounts beside "not measured": one or the other`},
		{"not measured", func(r r) { r.Fluids[0].Filled = &quantity.Measured{NotMeasured: true} }, ""},
		{"product", func(r r) { r.Fluids[0].Product = text121 }, "fluid 1: product: " + longText},
		{"batch", func(r r) { r.Fluids[0].Batch = text121 }, "fluid 1: batch: " + longText},
		{"viscosity", func(r r) { r.Fluids[0].Viscosity = text121 }, "fluid 1: viscosity: " + longText},
		{"meets nothing", func(r r) { r.Fluids[0].Meets = []string{""} }, "fluid 1: meets: is empty"},
		{"at upper", func(r r) { r.Fluids[0].AtUpper = -1 }, "fluid 1: machine figure: -1 is outside 0 to 100000000"},
		{"between marks", func(r r) { r.Fluids[0].BetweenMarks = -1 }, "fluid 1: machine figure: -1 is outside 0 to 100000000"},
		{"filter holds", func(r r) { r.Fluids[0].FilterHolds = -1 }, "fluid 1: machine figure: -1 is outside 0 to 100000000"},
		{"holds", func(r r) { r.Fluids[0].Holds = quantity.MaxVolume + 1 }, "fluid 1: machine figure: 100000001 is outside 0 to 100000000"},
		{"density", func(r r) { r.Fluids[0].Density = 25_001 }, "fluid 1: density: 25001 is outside 0 to 25000"},
		{"topped up nowhere", func(r r) { r.ToppedUp[0].System = "" }, "topped up 1: system: is empty"},
		{"topped up nothing", func(r r) { r.ToppedUp[0].Amount = quantity.Measured{} }, `topped up 1: amount: nothing measured: write an amount, as 9.4 L, or "not measured"`},
		{"waste of nowhere", func(r r) { r.Waste[0].System = "" }, "waste 1: system: is empty"},
		{"waste of nothing", func(r r) { r.Waste[0].Amount = quantity.Measured{} }, `waste 1: amount: nothing measured: write an amount, as 9.4 L, or "not measured"`},
		{"waste to", func(r r) { r.Waste[0].To = text121 }, "waste 1: to: " + longText},
		{"receipt", func(r r) { r.Waste[0].Receipt = text121 }, "waste 1: receipt: " + longText},
		{"waste held beside to", func(r r) { r.Waste[0].Held, r.Waste[0].Receipt = "drum 3", "" }, "waste 1: held: what is held was taken by nobody yet"},
		{"waste held beside a receipt", func(r r) { r.Waste[0].Held, r.Waste[0].To = "drum 3", "" }, "waste 1: held: what is held was taken by nobody yet"},
		{"waste held", func(r r) { r.Waste[0].Held, r.Waste[0].To, r.Waste[0].Receipt = "drum 3", "", "" }, ""},
		{"waste held by more than fits", func(r r) { r.Waste[0].Held, r.Waste[0].To, r.Waste[0].Receipt = text121, "", "" }, "waste 1: held: " + longText},
		{"receipt of nobody", func(r r) { r.Waste[0].To = "" }, ""},
		{"no item", func(r r) { r.Parts[0].Item = "" }, "part 1: item: is empty"},
		{"part number", func(r r) { r.Parts[0].Number = text121 }, "part 1: number: " + longText},
		{"no parts of it", func(r r) { r.Parts[0].Quantity = 0 }, "part 1: quantity: 0 is outside 1 to 10000"},
		{"too many of it", func(r r) { r.Parts[0].Quantity = 10_001 }, "part 1: quantity: 10001 is outside 1 to 10000"},
		{"supplier 0", func(r r) { r.Parts[0].SuppliedBy = 0 }, "part 1: supplied by: unknown value 0"},
		{"supplier 4", func(r r) { r.Parts[0].SuppliedBy = 4 }, "part 1: supplied by: unknown value 4"},
		{"part serial", func(r r) { r.Parts[0].Serial = text121 }, "part 1: serial: " + longText},
		{"leak check 0", func(r r) { r.LeakCheck.Result = 0 }, "leak check: unknown value 0"},
		{"leak check 3", func(r r) { r.LeakCheck.Result = 3 }, "leak check: unknown value 3"},
		{"leak check after", func(r r) { *r.LeakCheck.After = 100_001 }, "leak check: 100001 is outside 0 to 100000"},
		{"leak check where", func(r r) { r.LeakCheck.Where = text201 }, "leak check where: " + longReason},
	})
}

func TestValidateFindingsAndFiles(t *testing.T) {
	type r = *record.Record
	const path = "file 1: name: is a path, not the name of a file"
	file := func(name string) func(r) {
		return func(r r) { r.Files = []record.File{{Name: name}} }
	}
	// assumed adds a finding with figures to the example's two.
	assumed := func(change func(*record.Finding)) func(r) {
		return func(r r) {
			f := record.Finding{Code: record.TemperatureAssumed, Severity: record.Note, Subject: "engine-oil", Text: "topped up",
				Value: new(int64(150)), Limit: new(int64(100)), Unit: record.InDegrees}
			change(&f)
			r.Findings = append(r.Findings, f)
		}
	}
	tryRefusals(t, []refusal{
		{"no code", func(r r) { r.Findings[0].Code = 0 }, "finding 1: code: unknown rule"},
		{"unknown code", func(r r) { r.Findings[0].Code = 9999 }, "finding 1: code: unknown rule"},
		{"severity 0", func(r r) { r.Findings[0].Severity = 0 }, "finding 1: no-earlier-record: unknown value 0"},
		{"severity 4", func(r r) { r.Findings[0].Severity = 4 }, "finding 1: no-earlier-record: unknown value 4"},
		{"refused", func(r r) { r.Findings[0].Severity = record.Refuse }, "finding 1: no-earlier-record: a job that cannot be true is never signed"},
		{"undecided", func(r r) { r.Findings[0].Severity = record.Decide }, "finding 1: no-earlier-record: has no reason"},
		{"decided", func(r r) { r.Findings[0].Severity, r.Findings[0].Accepted = record.Decide, "seen" }, ""},
		{"subject", func(r r) { r.Findings[0].Subject = text121 }, "finding 1: no-earlier-record: " + longText},
		{"text", func(r r) { r.Findings[0].Text = text201 }, "finding 1: no-earlier-record: " + longReason},
		{"accepted", func(r r) { r.Findings[0].Accepted = text201 }, "finding 1: no-earlier-record: " + longReason},
		{"unit", assumed(func(f *record.Finding) { f.Unit = 10 }), "finding 3: temperature-assumed: unknown unit"},
		{"value", assumed(func(f *record.Finding) { *f.Value = 1 << 53 }), "finding 3: temperature-assumed: 9007199254740992 is outside -9007199254740991 to 9007199254740991"},
		{"limit", assumed(func(f *record.Finding) { *f.Limit = -1 << 63 }), "finding 3: temperature-assumed: -9223372036854775808 is outside -9007199254740991 to 9007199254740991"},
		{"uncertainty below 0", assumed(func(f *record.Finding) { f.Within = new(int64(-1)) }), "finding 3: temperature-assumed uncertainty: -1 is outside 0 to 9007199254740991"},
		{"uncertainty beyond", assumed(func(f *record.Finding) { f.Within = new(int64(1 << 53)) }), "finding 3: temperature-assumed uncertainty: 9007199254740992 is outside 0 to 9007199254740991"},
		{"no uncertainty at all", assumed(func(f *record.Finding) { f.Within = new(int64(0)) }), ""},
		{"no date", assumed(func(f *record.Finding) { f.Unit, *f.Value = record.AsDate, 84_006 }), "finding 3: temperature-assumed: 84006 is outside -25567 to 84005"},
		{"file", file("plate 1.jpg"), ""},
		{"no name", file(""), "file 1: name: is empty"},
		{"folder", file("../plate.jpg"), path},
		{"other folder", file(`photos\plate.jpg`), path},
		{"drive", file("c:plate.jpg"), path},
		{"this folder", file("."), path},
		{"parent folder", file(".."), path},
	})
}
