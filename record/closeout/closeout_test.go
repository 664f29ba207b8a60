package closeout_test

import (
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/check"
	"hourseal/record/closeout"
	"hourseal/record/dialogue"
	"hourseal/record/fluid"
	"hourseal/record/jobsheet"
	"hourseal/record/plan"
	"hourseal/record/quantity"
	"hourseal/render/words"
)

const scenario = "../../testdata/scenario"

// scene is the invented yard's port engine, without records, on the evening of its job.
type scene struct {
	in    closeout.Input
	check func(jobsheet.Job) check.Result
}

func newScene(t testing.TB, machine string) scene {
	t.Helper()
	folder := jobsheet.Open(os.DirFS(scenario), os.DirFS("../../templates/schedules"))
	yard, err := folder.Yard()
	if err != nil {
		t.Fatal(err)
	}
	m, err := folder.Machine(machine)
	if err != nil {
		t.Fatal(err)
	}
	s, err := folder.ScheduleOf(m)
	if err != nil {
		t.Fatal(err)
	}
	driver, err := folder.DriverOf(m)
	if err != nil {
		t.Fatal(err)
	}
	today, err := quantity.ParseDate("2026-05-04")
	if err != nil {
		t.Fatal(err)
	}
	run := func(job jobsheet.Job) check.Result {
		return check.Run(check.Input{Yard: yard, Machine: m, Driver: driver, Schedule: s, Job: job, Now: int64(today) * 86400, Today: today, Renderer: 1})
	}
	return scene{check: run, in: closeout.Input{
		Machine: m, Schedule: s, Log: m.Log(nil, nil), Today: today, Doubt: fluid.TradeDoubt, Check: run,
		Plan: func(on quantity.Date, reading *quantity.Hours) (plan.Plan, error) {
			return plan.Make(plan.Input{Machine: m, Driver: driver, Schedule: s, On: on, Reading: reading})
		},
		Files:     func() []string { return nil },
		Printable: func(string) error { return nil },
		Words: closeout.Words{
			Finding: func(f check.Finding) (string, string) { return f.Code.String(), "" },
			Item:    func(plan.Plan, plan.Item) string { return "due" },
		},
	}}
}

// lines are what may be typed: right, wrong, odd, and the ways back.
var lines = []string{
	"", "", "", "", "-", "-", "<", "y", "n", "d", "o", "w", "f", "p", "done by Tern Electrics",
	"812.6", "820", "501", "81260", "stopped, 810 by engine log", "changed", "620.5 to 3.0, glass broken", "unknown to 0, stolen",
	"2026-05-04", "2026-05-03", "2027-01-01", "yesterday", "scheduled", "insp", "lay-up", "J-2217", "118, Ellery Slip card",
	"900 h", "900 h, light glaze", "2026-10-01, glaze", "part on order", "na", "b d", "m w 2026-05-02",
	"Tightened the clamp", "belt", "engine-oil", "impeller", "-27 C", "28 C", "-27", "found -20 C, left -30 C",
	"0.5 L", "9 L", "9.3 L at 16 C", "2.4 US gal at 68 C", "5 L at 16 C, 4.3 L at 16 C", "24 L", "93 L", "9 gal", "9,3 L", "7.7 kg",
	"0.3 after 20 min at 18 C", "0.85 after 15 min at 45 C", "1.3", "-0.2 after 2 min", "9",
	"nothing", "water, metal", "sample sent", "Harrow HD, 15W-40, API CK-4, batch H-0612", "Harrow HD, SAE 90", "CR-2214", "2 x CR-2214, by customer",
	"hose clamp: CR-0301", "10", "none seen", "seen at drain plug after 5 min", "8.8 L to harbour oil bank, receipt 5521", "8 L held in tank 2",
	"the owner wanted it so",
}

// Whatever is typed, a session comes to an end; the sheet that it makes can be read
// back, and says to a check what the session was told; gone on with from its answers it
// is the same sheet.
func TestAnySession(t *testing.T) {
	scenes := map[string]scene{}
	for _, machine := range []string{"gannet-port", "gannet-port-gearbox"} {
		scenes[machine] = newScene(t, machine)
	}
	ended := 0
	rapid.Check(t, func(t *rapid.T) {
		scene := scenes[rapid.SampledFrom([]string{"gannet-port", "gannet-port", "gannet-port-gearbox"}).Draw(t, "machine")]
		var sheet closeout.Sheet
		d := dialogue.New(closeout.Script(scene.in, &sheet))
		const most = 2000
		typed := 0
		for ; typed < most; typed++ {
			q, waits := d.Next()
			if !waits {
				break
			}
			switch line := suited(t, q); line {
			case "<":
				d.Back()
			default:
				_ = d.Answer(line) // a wrong one is asked again
			}
		}
		if typed == most {
			q, _ := d.Next()
			t.Fatalf("no end after %d lines, at %q: %q", typed, q.Key, q.Fault)
		}
		ended++
		job, err := jobsheet.ParseJob("job.yaml", closeout.Unfinished(sheet, d.Kept()))
		if err != nil {
			t.Fatalf("%v\n%s", err, sheet.Job.YAML())
		}
		result := scene.check(job)
		if result.Outcome != sheet.Result.Outcome || !slices.Equal(codes(result), codes(sheet.Result)) {
			t.Fatalf("the session says %s %v, its sheet %s %v\n%s", sheet.Result.Outcome, codes(sheet.Result), result.Outcome, codes(result), sheet.Job.YAML())
		}
		for _, f := range result.Findings {
			if f.Severity == record.Decide && f.Accepted == "" || f.Severity == record.Refuse {
				t.Fatalf("the session ended with %v open\n%s", f.Code, sheet.Job.YAML())
			}
		}
		if result.Outcome != check.Issuable {
			t.Fatalf("the session ended with a job that is %s: %v\n%s", result.Outcome, result.Faults, sheet.Job.YAML())
		}
		var again closeout.Sheet
		dialogue.New(closeout.Script(scene.in, &again), d.Kept()...)
		if !reflect.DeepEqual(again.Job, sheet.Job) {
			t.Fatalf("gone on with it is\n%s\nand was\n%s", again.Job.YAML(), sheet.Job.YAML())
		}
	})
	if ended < 50 {
		t.Errorf("%d sessions came to an end only", ended)
	}
}

// suited is a line that is typed at a question: one that it takes, as a rule.
func suited(t *rapid.T, q dialogue.Question) string {
	fit := []string{"<"}
	for _, line := range lines {
		switch {
		case line == "" && q.Offer == "", line == "-" && q.Dashed == "", line == "<":
			continue
		}
		if line != "" && line != "-" && q.Read != nil {
			if _, err := q.Read(line); err != nil {
				continue
			}
		}
		fit = append(fit, line, line)
	}
	if rapid.IntRange(0, 15).Draw(t, "odd") == 0 || len(fit) == 1 {
		return rapid.SampledFrom(lines).Draw(t, "line")
	}
	return rapid.SampledFrom(fit).Draw(t, "fit")
}

func codes(r check.Result) []string {
	var list []string
	for _, f := range r.Findings {
		list = append(list, f.Code.String()+"/"+f.Subject+"="+f.Accepted)
	}
	return list
}

// No hint that reaches the bench speaks of a key of the job sheet.
func TestHintsAtQuestions(t *testing.T) {
	for code, rule := range record.Rules {
		if hint := closeout.AtQuestions(code, words.Hint(code)); strings.ContainsAny(hint, "{}_") {
			t.Errorf("%s: %s", rule.Name, hint)
		}
	}
}
