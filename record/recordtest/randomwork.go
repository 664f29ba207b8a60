package recordtest

import (
	"fmt"
	"slices"

	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
)

func job(t *rapid.T) record.Job {
	j := record.Job{Date: date(t), Hours: anyHours(t), Reason: word[record.Reason](t, record.ReasonWords), Place: text(t, 0), Number: text(t, 0)}
	j.Meter.State = word[record.MeterState](t, record.MeterStateWords)
	if j.Meter.State == record.Running {
		reading := anyHours(t)
		j.Meter.Reading, j.Meter.Offset = &reading, j.Hours-reading
	} else {
		j.Meter.Basis = text(t, 1)
	}
	j.FuelUsed = measuredOrNil(t)
	j.SevereDuty = list(t, func(t *rapid.T) string { return text(t, 1) })
	j.Meter.Change = maybe(t, func(t *rapid.T) record.MeterChange {
		return record.MeterChange{RemovedAt: maybe(t, anyHours), FittedAt: anyHours(t), Why: text(t, 1)}
	})
	return j
}

func task(t *rapid.T) record.Task {
	row := record.Task{
		ID: id(t), Title: text(t, 1), Kind: word[schedule.Kind](t, schedule.Kinds()),
		Every:  schedule.Interval{Hours: quantity.Hours(number(t, "every hours", 0, 500_000)), Months: quantity.Months(number(t, "every months", 1, int64(quantity.MaxMonths)))},
		Leeway: schedule.Leeway{Hours: quantity.Hours(number(t, "grace", 0, 5_000)), Days: quantity.Days(number(t, "grace days", 0, 90))},
		Last: maybe(t, func(t *rapid.T) record.Last {
			return record.Last{Date: date(t), Hours: anyHours(t), Stated: rapid.Bool().Draw(t, "stated")}
		}),
		Result: record.Result(rapid.IntRange(0, len(record.ResultWords)).Draw(t, "result")),
	}
	if rapid.Bool().Draw(t, "well known") { // these have usual titles
		row.ID = rapid.SampledFrom([]string{"engine-oil", "belt", "impeller"}).Draw(t, "task")
		row.Title = rapid.SampledFrom([]string{"Change the engine oil", "Fit a new drive belt", "Change it"}).Draw(t, "title")
	}
	row.Due.Date = new(date(t))
	if row.Every.Hours != 0 {
		row.Due.Hours = new(anyHours(t))
	}
	row.Once = rapid.Bool().Draw(t, "once")
	if row.Once && row.Last != nil {
		row.Due = schedule.Due{}
	}
	if row.Result == 0 {
		return row
	}
	row.Answer = answer(t, row.Result)
	row.LookAgain = maybe(t, func(t *rapid.T) record.LookAgain {
		return record.LookAgain{Hours: new(anyHours(t)), Date: maybe(t, date)}
	})
	row.Readings = list(t, reading)
	row.DoneBy = text(t, 0)
	return row
}

func answer(t *rapid.T, result record.Result) *record.Answer {
	needed := slices.Contains([]record.Result{record.Defect, record.Deferred}, result)
	if !needed && !rapid.Bool().Draw(t, "answer") {
		return nil
	}
	return &record.Answer{Why: text(t, 1), Told: maybe(t, date),
		Advice: record.Advice(rapid.IntRange(0, len(record.AdviceWords)).Draw(t, "advice")),
		Owner:  record.OwnerAnswer(rapid.IntRange(0, len(record.OwnerWords)).Draw(t, "owner"))}
}

func reading(t *rapid.T) record.Reading {
	r := record.Reading{Name: text(t, 1)}
	if r.Value = maybe(t, figure); r.Value == nil {
		r.AsFound, r.AsLeft = new(figure(t)), maybe(t, figure)
	}
	return r
}

func figure(t *rapid.T) quantity.Figure {
	unit := rapid.SampledFrom([]string{"", " mm", " V", " bar", " pH", " C"}).Draw(t, "unit")
	return must(quantity.ParseFigure(fmt.Sprintf("%d.%d%s", rapid.IntRange(-90, 900).Draw(t, "whole"), rapid.IntRange(0, 9).Draw(t, "tenths"), unit)))
}

func otherWork(t *rapid.T) record.OtherWork {
	result := word[record.Result](t, record.ResultWords)
	return record.OtherWork{Text: text(t, 1), Result: result, Answer: answer(t, result), DoneBy: text(t, 0)}
}

func fluid(t *rapid.T) record.Fluid {
	volume := func() quantity.Volume { return quantity.Volume(number(t, "volume", 0, int64(quantity.MaxVolume))) }
	f := record.Fluid{
		System: id(t), LevelBefore: maybe(t, anyLevel), WithFilter: maybe(t, func(t *rapid.T) bool { return rapid.Bool().Draw(t, "with filter") }),
		Drained: measuredOrNil(t), Filled: measuredOrNil(t), Level: maybe(t, anyLevel),
		Product: text(t, 0), Batch: text(t, 0), Viscosity: text(t, 0), Meets: list(t, func(t *rapid.T) string { return text(t, 1) }),
		AtUpper: volume(), BetweenMarks: volume(), FilterHolds: volume(), Holds: volume(),
		Density:   quantity.Density(number(t, "density", 0, int64(quantity.MaxDensity))),
		DrawnDown: measuredOrNil(t), Glycol: record.Glycol(rapid.IntRange(0, len(record.GlycolWords)).Draw(t, "glycol")),
		Balance: balance(t),
	}
	switch rapid.IntRange(0, 2).Draw(t, "seen") {
	case 1:
		f.Saw = []record.Sight{record.SawNothing}
	case 2:
		f.Saw = rapid.SliceOfNDistinct(rapid.SampledFrom([]record.Sight{record.SawWater, record.SawMetal, record.SawFuel}), 1, 3, rapid.ID).Draw(t, "sights")
		f.Answer = answer(t, record.Done)
	}
	return f
}

func anyLevel(t *rapid.T) record.Level {
	return record.Level{After: maybe(t, minutes),
		Reading: maybe(t, func(t *rapid.T) quantity.Ratio {
			return quantity.Ratio(number(t, "reading", int64(quantity.MinRatio), int64(quantity.MaxRatio)))
		}),
		At: maybe(t, func(t *rapid.T) quantity.Temperature {
			return quantity.Temperature(number(t, "at", int64(quantity.MinTemperature), int64(quantity.MaxTemperature)))
		})}
}

// volumes and masses that any figure of one decimal can be written in.
var units = []string{"L", "US gal", "US qt", "US pt", "US fl oz", "imp gal", "imp qt", "imp pt", "imp fl oz", "kg", "lb"}

func measured(t *rapid.T) *quantity.Measured {
	if rapid.IntRange(0, 9).Draw(t, "not measured") == 0 {
		return &quantity.Measured{NotMeasured: true}
	}
	var texts []string
	for range rapid.IntRange(1, 3).Draw(t, "portions") {
		s := fmt.Sprintf("%d.%d %s", rapid.IntRange(0, 5_000).Draw(t, "whole"), rapid.IntRange(0, 9).Draw(t, "tenths"), rapid.SampledFrom(units).Draw(t, "unit"))
		if rapid.Bool().Draw(t, "temperature") {
			s += fmt.Sprintf(" at %d C", rapid.IntRange(-20, 120).Draw(t, "degC"))
		}
		texts = append(texts, s)
	}
	return sum(texts...)
}

func measuredOrNil(t *rapid.T) *quantity.Measured {
	return maybe(t, func(t *rapid.T) quantity.Measured { return *measured(t) })
}

func finding(t *rapid.T) record.Finding {
	severity := rapid.SampledFrom([]record.Severity{record.Note, record.Decide}).Draw(t, "severity")
	f := record.Finding{Code: rapid.SampledFrom(codes).Draw(t, "code"), Severity: severity, Subject: text(t, 0),
		Unit: record.Unit(rapid.IntRange(int(record.NoUnit), int(record.InPercent)).Draw(t, "unit")), Text: text(t, 0), Accepted: text(t, 1)}
	f.Value = maybe(t, func(t *rapid.T) int64 { return number(t, "value", int64(quantity.MinDate), int64(quantity.MaxDate)) })
	f.Within = maybe(t, func(t *rapid.T) int64 { return number(t, "uncertainty", 0, 1<<53-1) })
	f.Limit = maybe(t, func(t *rapid.T) int64 { return number(t, "limit", int64(quantity.MinDate), int64(quantity.MaxDate)) })
	return f
}

// codes are all rules, in the order of their numbers.
var codes = func() []record.Code {
	var all []record.Code
	for code := range record.Rules {
		all = append(all, code)
	}
	slices.Sort(all)
	return all
}()
