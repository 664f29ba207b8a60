package jobsheet_test

import (
	"fmt"
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
)

// lineForm is a form with its two halves put together: what a line is read as, printed,
// and the line that the inverse makes of it.
type lineForm struct {
	name string
	read func(line string) (value any, again string, err error)
}

func formOf[T any](name string, read func(string) (T, error), inverse func(T) string) lineForm {
	return lineForm{name, func(line string) (any, string, error) {
		value, err := read(line)
		if err != nil {
			return value, "", err
		}
		return value, inverse(value), nil
	}}
}

type (
	meterLine struct {
		Meter    record.Meter
		Estimate *quantity.Hours
	}
	resultLine struct {
		Result record.Result
		By     string
	}
	againLine struct {
		Again record.LookAgain
		Why   string
	}
	seenLine struct {
		Saw    []record.Sight
		Answer *record.Answer
	}
)

var lineForms = []lineForm{
	formOf("amount", jobsheet.LineAmount, jobsheet.AmountLine),
	formOf("level", jobsheet.LineLevel, jobsheet.LevelLine),
	formOf("meter", readMeterLine, func(m meterLine) string { return jobsheet.MeterLine(m.Meter, m.Estimate) }),
	formOf("meter change", jobsheet.LineMeterChange, jobsheet.MeterChangeLine),
	formOf("by", jobsheet.LineBy, jobsheet.ByLine),
	formOf("product", jobsheet.LineProduct, jobsheet.ProductLine),
	formOf("waste", readWasteLine, jobsheet.WasteLine),
	formOf("part", readPartLine, jobsheet.PartLine),
	formOf("leak check", jobsheet.LineLeakCheck, jobsheet.LeakCheckLine),
	formOf("look again", readAgainLine, func(a againLine) string { return jobsheet.LookAgainLine(a.Again, a.Why) }),
	formOf("answer", jobsheet.LineAnswer, jobsheet.AnswerLine),
	formOf("reading", readReadingLine, jobsheet.ReadingLine),
	formOf("result", readResultLine, func(r resultLine) string { return jobsheet.ResultLine(r.Result, r.By) }),
	formOf("seen", readSeenLine, func(s seenLine) string { return jobsheet.SeenLine(s.Saw, s.Answer) }),
	formOf("other work", jobsheet.LineOtherWork, jobsheet.OtherWorkLine),
}

func readMeterLine(line string) (meterLine, error) {
	m, estimate, err := jobsheet.LineMeter(line)
	return meterLine{m, estimate}, err
}
func readWasteLine(line string) (record.Waste, error) { return jobsheet.LineWaste("engine-oil", line) }
func readPartLine(line string) (record.Part, error)   { return jobsheet.LinePart("oil filter", line) }
func readReadingLine(line string) (record.Reading, error) {
	return jobsheet.LineReading("gap", line)
}
func readAgainLine(line string) (againLine, error) {
	again, why, err := jobsheet.LineLookAgain(line)
	return againLine{again, why}, err
}
func readResultLine(line string) (resultLine, error) {
	result, by, err := jobsheet.LineResult(line)
	return resultLine{result, by}, err
}
func readSeenLine(line string) (seenLine, error) {
	saw, answer, err := jobsheet.LineSeen(line)
	return seenLine{saw, answer}, err
}

// What a person may type, and the line as the inverse writes it. What the values are
// in figures is tested below, against values written by hand.
func TestLines(t *testing.T) {
	for form, lines := range map[string][][2]string{
		"amount": {
			{"9.4 L", "9.4 L"},
			{"  2.4 us  GAL at 68 c ", "2.4 US gal at 68 C"},
			{"2.4 US gal at 158 F", "2.4 US gal at 70 C"}, // NIST SP 811 B.8
			{"5 L at 16 C, 4.3 L at 16 C", "5 L at 16 C, 4.3 L at 16 C"},
			{"5 L,4.3 L", "5 L, 4.3 L"},
			{"5 L + 4.3 L", "5 L, 4.3 L"},
			{"5 L+4.3 L", "5 L, 4.3 L"},
			{"5 L and 4.3 L, and 1 kg", "5 L, 4.3 L, 1 kg"},
			{"[5 L, 4.3 L]", "5 L, 4.3 L"},
			{"[5 L]", "5 L"},
			{"Not  Measured", "not measured"},
			{"-", "not measured"},
			{"1 L,1 L,1 L,1 L,1 L,1 L,1 L,1 L", "1 L, 1 L, 1 L, 1 L, 1 L, 1 L, 1 L, 1 L"},
		},
		"level": {
			{"0.85 after 15 min at 45 C", "0.85 after 15 min at 45 C"},
			{"0.85, At 45 C, After 15", "0.85 after 15 min at 45 C"},
			{"-0.05", "-0.05"},
			{"1 at 113 F", "1 at 45 C"}, // NIST SP 811 B.8
			{"-", "not measured"},
			{"not measured", "not measured"},
		},
		"meter": {
			{"812.6", "812.6"},
			{"812.60 h", "812.6"},
			{"stopped, 810 by engine log", "stopped, 810 by engine log"},
			{"Stopped 810 h by engine log, page 4", "stopped, 810 by engine log, page 4"},
			{"none, 810 by owner's word", "none, 810 by owner's word"},
			{`none, 810 by "the ""old"" log"`, `none, 810 by the "old" log`},
		},
		"meter change": {
			{"1482.3 to 12.0, glass broken", "1482.3 to 12, glass broken"},
			{"Unknown to 0, lost at sea, with the old one", "unknown to 0, lost at sea, with the old one"},
		},
		"by": {
			{"118", "118"},
			{"118, Ellery Slip card", "118, Ellery Slip card"},
			{"118, name Pat Ellery, Ellery Slip card", "118, name Pat Ellery, Ellery Slip card"},
			{"Name Pat Ellery", "name Pat Ellery"},
			{"name Pat Ellery, 118", "118, name Pat Ellery"},
			{"credential Ellery Slip card", "credential Ellery Slip card"},
			{"credential Ellery Slip card, number 118", "118, Ellery Slip card"},
			{`118, "Ellery Slip card, 2026"`, `"118", "Ellery Slip card, 2026"`},
		},
		"product": {
			{"Harrow HD, 15W-40, API CK-4, ACEA E7, batch H-0612", "Harrow HD, 15W-40, API CK-4, ACEA E7, batch H-0612"},
			{"Harrow HD, batch H-0612, API CK-4 15w-40", "Harrow HD, 15w-40, API CK-4, batch H-0612"},
			{"Harrow HD SAE 30", "Harrow HD, SAE 30"},
			{"Harrow Blue, Ethylene glycol", "Harrow Blue, ethylene"},
			{"Harrow EP, viscosity ISO VG 46", "Harrow EP, viscosity ISO VG 46"},
			{"15W-40", "-, 15W-40"},
			{"-, API CK-4", "-, API CK-4"},
			{"-", "-"},
			{`"Harrow HD 15W-40", 15W-40`, `"Harrow HD 15W-40", viscosity "15W-40"`},
		},
		"waste": {
			{"8.8 L to harbour oil bank, receipt 5521", "8.8 L to harbour oil bank, receipt 5521"},
			{"8.8 L, receipt 5521, to harbour oil bank", "8.8 L to harbour oil bank, receipt 5521"},
			{"5 L, 3.8 L to Tern, east quay", "5 L, 3.8 L to Tern, east quay"},
			{"8.8 L held in waste oil tank 2", "8.8 L held in waste oil tank 2"},
			{"8.8 L, held waste oil tank 2", "8.8 L held in waste oil tank 2"},
			{"- to harbour oil bank", "not measured to harbour oil bank"},
			{"8.8 L", "8.8 L"},
		},
		"part": {
			{"CR-2214", "CR-2214"},
			{"2 x CR-2214", "2 x CR-2214"},
			{"CR-2214 × 2", "2 x CR-2214"},
			{"CR-2214, serial 0000714, by customer", "CR-2214, serial 0000714, by customer"},
			{"by Warranty, CR-2214", "CR-2214, by warranty"},
			{"-", "-"},
			{"No number, by customer", "-, by customer"},
			{"3 x -", "3 x -"},
			{`"2 x CR"`, `"2 x CR"`},
		},
		"leak check": {
			{"none seen after 10 min", "none seen after 10 min"},
			{"None", "none seen"},
			{"none seen", "none seen"},
			{"10 min", "none seen after 10 min"},
			{"10", "none seen after 10 min"},
			{"after 10 min", "none seen after 10 min"},
			{"seen at drain plug", "seen at drain plug"},
			{"seen at drain plug, after 5 min", "seen at drain plug after 5 min"},
			{"seen after 5 min at drain plug", "seen at drain plug after 5 min"},
			{"seen at the union after the cooler", "seen at the union after the cooler"},
			{"seen", "seen"},
		},
		"look again": {
			{"900 h", "900 h"},
			{"900", "900 h"},
			{"2026-10-01", "2026-10-01"},
			{"2026-10-01 or 900 hours", "900 h or 2026-10-01"},
			{"900 h, light glaze on the back, aft", "900 h, light glaze on the back, aft"},
		},
		"answer": {
			{"next-service, agreed, 2026-05-04", "next-service, agreed, 2026-05-04"},
			{"2026-05-04 D before use", "before-use, declined, 2026-05-04"},
			{"n a", "next-service, agreed"},
			{"m, w", "monitor, awaiting"},
			{"awaiting", "awaiting"},
		},
		"reading": {
			{"-27 C", "-27 C"},
			{"found 0.25 mm, left 0.20 mm", "found 0.25 mm, left 0.20 mm"},
			{"Left 0.20 mm found 0.25 mm", "found 0.25 mm, left 0.20 mm"},
			{"left 0.20 mm", "left 0.20 mm"},
			{"3", "3"},
		},
		"result": {
			{"Done", "done"}, {"ok", "ok"}, {"watch", "watch"}, {"defect", "defect"}, {"deferred", "deferred"},
			{"done by Slipway Pumps", "done by Slipway Pumps"},
			{"done, by Slipway Pumps", "done by Slipway Pumps"},
		},
		"seen": {
			{"nothing", "nothing"},
			{"Water and metal", "water, metal"},
			{"metal | filings on the plug | n a 2026-05-04", "metal | filings on the plug | next-service, agreed, 2026-05-04"},
			{"water | | w", "water | | awaiting"},
		},
		"other work": {
			{"done: Tightened the exhaust clamp at the elbow", "done: Tightened the exhaust clamp at the elbow"},
			{"Done by Slipway Pumps: Rebuilt: the pump", "done by Slipway Pumps: Rebuilt: the pump"},
			{"deferred: Hose weeps | part on order | n a", "deferred: Hose weeps | part on order | next-service, agreed"},
		},
	} {
		for _, line := range lines {
			_, again, err := named(t, form).read(line[0])
			if err != nil || again != line[1] {
				t.Errorf("%s: %q: %q, %v; want %q", form, line[0], again, err, line[1])
			}
		}
	}
}

func named(t *testing.T, name string) lineForm {
	t.Helper()
	for _, f := range lineForms {
		if f.name == name {
			return f
		}
	}
	t.Fatalf("no form %s", name)
	return lineForm{}
}

// One line of each form against the value as a record has it.
func TestLineValues(t *testing.T) {
	date := must(quantity.ParseDate("2026-05-04"))
	litres := func(ml int64, places uint8) quantity.Portion {
		return quantity.Portion{Amount: ml, Unit: quantity.UnitLitre, Places: places}
	}
	equal(t, "amount", must(jobsheet.LineAmount("5 L at 16 C, 4.3 L")), quantity.Measured{Portions: []quantity.Portion{
		{Amount: 5000, Unit: quantity.UnitLitre, At: ptr(quantity.Temperature(160))}, litres(4300, 1)}})
	equal(t, "level", must(jobsheet.LineLevel("0.85 after 15 min at 45 C")),
		record.Level{Reading: ptr(quantity.Ratio(850)), After: ptr(quantity.Minutes(15)), At: ptr(quantity.Temperature(450))})
	equal(t, "meter", must(readMeterLine("812.6")), meterLine{Meter: record.Meter{State: record.Running, Reading: ptr(quantity.Hours(81260))}})
	equal(t, "no meter", must(readMeterLine("none, 810 by owner's word")),
		meterLine{record.Meter{State: record.NoMeter, Basis: "owner's word"}, ptr(quantity.Hours(81000))})
	equal(t, "meter change", must(jobsheet.LineMeterChange("1482.3 to 12.0, glass broken")),
		record.MeterChange{RemovedAt: ptr(quantity.Hours(148230)), FittedAt: 1200, Why: "glass broken"})
	equal(t, "by", must(jobsheet.LineBy("118, name Pat Ellery, Ellery Slip card")),
		record.By{Number: "118", Name: "Pat Ellery", Credential: "Ellery Slip card"})
	equal(t, "product", must(jobsheet.LineProduct("Harrow Blue, 15W-40, API CK-4, ethylene, batch H-0612")),
		jobsheet.Product{Name: "Harrow Blue", Viscosity: "15W-40", Batch: "H-0612", Meets: []string{"API CK-4"}, Glycol: record.Ethylene})
	equal(t, "waste", must(readWasteLine("8.8 L to harbour oil bank, receipt 5521")), record.Waste{System: "engine-oil",
		Amount: quantity.Measured{Portions: []quantity.Portion{litres(8800, 1)}}, To: "harbour oil bank", Receipt: "5521"})
	equal(t, "part", must(jobsheet.LinePart("", `"filter: oil": 2 x CR-2214, serial 007, by warranty`)),
		record.Part{Item: "filter: oil", Number: "CR-2214", Serial: "007", Quantity: 2, SuppliedBy: record.UnderWarranty})
	equal(t, "leak check", must(jobsheet.LineLeakCheck("seen at drain plug after 5 min")),
		record.LeakCheck{Result: record.Seen, After: ptr(quantity.Minutes(5)), Where: "drain plug"})
	equal(t, "look again", must(readAgainLine("900 h or 2026-05-04, glaze")),
		againLine{record.LookAgain{Hours: ptr(quantity.Hours(90000)), Date: &date}, "glaze"})
	equal(t, "answer", must(jobsheet.LineAnswer("n d 2026-05-04")), record.Answer{Advice: record.NextService, Owner: record.Declined, Told: &date})
	equal(t, "reading", must(readReadingLine("found 0.25 mm, left 0.20 mm")),
		record.Reading{Name: "gap", AsFound: &quantity.Figure{Digits: 25, Places: 2, Unit: "mm"}, AsLeft: &quantity.Figure{Digits: 20, Places: 2, Unit: "mm"}})
	equal(t, "result", must(readResultLine("deferred by Slipway Pumps")), resultLine{record.Deferred, "Slipway Pumps"})
	equal(t, "seen", must(readSeenLine("metal | filings | m")), seenLine{[]record.Sight{record.SawMetal}, &record.Answer{Why: "filings", Advice: record.Monitor}})
	equal(t, "other work", must(jobsheet.LineOtherWork("done by Slipway Pumps: Rebuilt the pump")),
		record.OtherWork{Text: "Rebuilt the pump", Result: record.Done, DoneBy: "Slipway Pumps"})
}

func TestLinesRefused(t *testing.T) {
	long := strings.Repeat("x", 201)
	for form, lines := range map[string][][2]string{
		"amount": {
			{"9,4 L", `"9,4 L": write 9.4 L with a point`},
			{"9, 4 L", `"9" and "4 L" are two amounts here: write "9.4 L" with a point, or a unit after each`},
			{"5 L, 9,4 L", `"9,4 L": write 9.4 L with a point`},
			{"1,234.5 L", `"1,234.5 L": write the figure with one point at most and no thousands separators, as 1234.5`},
			{"2 gal", `bare "gal": write "US gal" (3.785 L) or "imp gal" (4.546 L)`},
			{"+5 L", `"+5 L": write 5 L without a sign`},
			{"5 L, not measured", `"not measured", in a sum: write the amounts alone, or not measured for the whole`},
			{"5 L,", "nothing written: write an amount, as 9.4 L"},
			{"5 L\t+ 4 L", "invisible character U+0009 is not allowed: take it out"},
			{"1 L,1 L,1 L,1 L,1 L,1 L,1 L,1 L,1 L", "a sum of 9 amounts, at most 8 fit: write some of them as one amount"},
			{" ", "nothing written: write an amount, as 9.4 L or 9.4 L at 16 C, a sum, as 5 L, 4.3 L, or - for not measured"},
			{"5 L \xff", "not valid UTF-8: write it again"},
		},
		"level": {
			{"0,85", `"0,85": write 0.85 with a point`},
			{"0.85 at 45", `at: "45": no unit: write C or F after the figure`},
			{"0.85 after 15 min after 20 min", "after is written twice: keep one, or put a text with the word in quotes"},
			{"0.85 at", "nothing written after at: write what belongs there, or take the word out"},
			{"0.85 at 301 C", `at: "301 C": write a figure from -100 °C to 300 °C`},
		},
		"meter": {
			{"812,6", `"812,6": write 812.6 with a point`},
			{"stopped, 810", `"stopped, 810": write the hours in total as estimated and what they rest on, as stopped, 810 by engine log`},
			{"stoped, 810 by x", `"stoped, 810 by x": write stopped, and then the estimate, as 810 by engine log`},
			{"none, 810 by " + long, "by: 201 characters, at most 200 fit"},
		},
		"meter change": {
			{"1482,3 to 12.0, glass broken", `"1482,3": write 1482.3 with a point, or unknown`},
			{"1482.3 to 12,0, glass broken", `"12,0": write 12.0 with a point`},
			{"1482.3 to 12", "why it was changed is missing: write it after a comma, as 12, glass broken"},
			{"1482.3", `"1482.3": write the old meter's last reading, the new one's first, and why, as 1482.3 to 12.0, glass broken, or unknown to 0, glass broken`},
		},
		"by": {
			{"118, A, B", `"B": number and credential are there already: write name before a name, and a text with a comma in quotes`},
			{"name Pat Ellery, Ellery Slip card", `"Ellery Slip card": write number or credential before it`},
			{"118,, card", `"118,, card": nothing written on one side of a comma: take the comma out, or write what is missing`},
			{`118, "card`, `"118, \"card": a quote that is opened and never closed: close it, or take it out`},
			{`"118" card`, `"\"118\" card": text after a closing quote: put all of it in one pair of quotes`},
		},
		"product": {
			{"Harrow HD, 15W-40, SAE 30", `two grades, "15W-40" and "SAE 30": keep one, or put a name with a grade in quotes`},
			{"Harrow HD, API CK-4, API CK-4", `"API CK-4" is written twice: keep one`},
			{"Harrow, ethylene, propylene", "two glycols, ethylene and propylene: keep one"},
			{"Harrow, a, b, c, d, e, f, g, h, i", "9 specifications, at most 8 fit: take some out"},
			{"Harrow, batch", "nothing written after batch: write what belongs there, or take the word out"},
			{strings.Repeat("x", 121), "the name: 121 characters, at most 120 fit"},
		},
		"waste": {
			{"to harbour oil bank", "the amount is missing: write it first, as 8.8 L, or - for not measured"},
			{"8 gal to harbour oil bank", `bare "gal": write "US gal" (3.785 L) or "imp gal" (4.546 L)`},
			{"8 L held in tank 2, receipt 5521", "held beside to or receipt: keep one, as what is held was taken by nobody yet, or put a text with a comma in quotes"},
			{"8 L to A, to B", "to is written twice: keep one, or put a text with the word in quotes"},
			{"8 L held in", "nothing written after held in: write where it is kept, as waste oil tank 2"},
		},
		"part": {
			{"0 x CR-2214", `"0": write a whole number from 1 to 10000`},
			{"CR-2214, by owner", `"owner": write one of yard, customer, warranty`},
			{"serial 007", `"serial 007": the number is missing: write it first, or - for a part without number`},
			{"CR-2214, CR-2215", `"CR-2215": two numbers: write each part by itself, and a number with a comma in quotes`},
		},
		"leak check": {
			{"seen drain plug", `"drain plug": write at before a place and after before minutes, as seen at drain plug after 5 min`},
			{"seen at drain plug after 5 h", `unknown unit "h": write min`},
			{"dry", `"dry": write none seen after 10 min, or seen at drain plug after 5 min`},
			{"seen at", "nothing written after at: write where it was seen, as drain plug"},
		},
		"look again": {
			{"900,5 h", `"900,5": write 900.5 with a point`},
			{"900 or 950", "two readings of the meter, 900 and 950: keep one"},
			{"2026-13-01", `"2026-13-01": no month 13: months are 01 to 12`},
			{"900 h or", "nothing written: write hours or a date or both, as 900 h or 2026-10-01"},
		},
		"answer": {
			{"n b", "advice twice, next-service and before-use: keep one"},
			{"agree", `"agree": write agreed (of before-use, next-service, monitor, agreed, declined, awaiting), or the date told`},
			{"n a 2026-5-4", `"2026-5-4": write 2026-05-04`},
		},
		"reading": {
			{"found 0,25 mm, left 0.2 mm", `found: "0,25 mm": write 0.25 mm with a point`},
			{"5 mm found 6 mm", `"5 mm" before found or left: write found 0.25 mm, left 0.20 mm, or one figure alone`},
		},
		"result": {
			{"don", `"don": write done (of done, ok, watch, defect, deferred)`},
			{"done by", "by: nothing written: write it, or leave it out"},
		},
		"seen": {
			{"oil", `"oil": write one of nothing, water, metal, fuel`},
			{"water, water", `"water" is written twice: keep one`},
			{"nothing, water", "nothing, beside what was seen or an answer to it: keep one of the two"},
			{"nothing | dry", "nothing, beside what was seen or an answer to it: keep one of the two"},
			{"water | a | n | c", "a bar too many: write why after the first and the answer after the second, and a text with a bar in quotes"},
		},
		"other work": {
			{"Tightened the clamp", `"Tightened the clamp": write the result, a colon and what was done, as done: Tightened the exhaust clamp`},
			{"done:", "text: nothing written: write it, or leave it out"},
			{"done: " + long, "text: 201 characters, at most 200 fit"},
		},
	} {
		for _, line := range lines {
			value, _, err := named(t, form).read(line[0])
			if got := fmt.Sprint(err); got != line[1] {
				t.Errorf("%s: %.60q: %s\nwant %s\n(read as %+v)", form, line[0], got, line[1], value)
			}
		}
	}
	if _, err := jobsheet.LineWaste("Engine oil", "8 L"); err == nil {
		t.Error("a system that is no id was let in")
	}
	for _, name := range []string{"", " gap", "g\tp"} {
		if _, err := jobsheet.LineReading(name, "3"); err == nil {
			t.Errorf("%q was let in as the name of a reading", name)
		}
	}
	if _, err := jobsheet.LinePart("", "CR-2214"); err == nil {
		t.Error("a part without an item was let in")
	}
}

func TestLineOfATextByItself(t *testing.T) {
	for line, want := range map[string][2]string{
		"oil filter=CR-2214": {"oil filter", "CR-2214"},
		" engine-oil = 5 L ": {"engine-oil", "5 L"},
		`"a=b"=c="d"`:        {"a=b", `c="d"`},
		"notes=":             {"notes", ""},
	} {
		if key, value, err := jobsheet.LineKey(line); err != nil || [2]string{key, value} != want {
			t.Errorf("%q: %q, %q, %v", line, key, value, err)
		}
	}
	for _, line := range []string{"", "=", "5 L", `"a=b`, `"a"b=c`, "a\tb=c", "=5 L"} {
		if key, value, err := jobsheet.LineKey(line); err == nil {
			t.Errorf("%q: let in as %q, %q", line, key, value)
		}
	}
	equal(t, "text", must(jobsheet.LineText(` Slip "B", north side `)), `Slip "B", north side`)
	equal(t, "reason", must(jobsheet.LineReason("Lay up")), record.LayUp)
	equal(t, "no", must(jobsheet.LineYesNo("No")), false)
	equal(t, "notes", must(jobsheet.LineNotes("one\r\ntwo\n")), "one\ntwo")
	equal(t, "accept", must(jobsheet.LineAccept("level-high/engine-oil", "to the mark, by hand")),
		jobsheet.Accept{Code: "level-high", Subject: "engine-oil", Reason: "to the mark, by hand"})
	for name, err := range map[string]error{
		"long text":   errOf(jobsheet.LineText(strings.Repeat("x", 121))),
		"long reason": errOf(jobsheet.LineWhy(strings.Repeat("x", 201))),
		"long notes":  errOf(jobsheet.LineNotes(strings.Repeat("x", 601))),
		"no text":     errOf(jobsheet.LineText(" ")),
		"maybe":       errOf(jobsheet.LineYesNo("maybe")),
		"no code":     errOf(jobsheet.LineAccept("/engine-oil", "x")),
	} {
		if err == nil {
			t.Errorf("%s was let in", name)
		}
	}
}

func errOf[T any](_ T, err error) error { return err }
