package verify_test

import (
	"io/fs"
	"path"
	"slices"
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/check"
	"hourseal/record/jobsheet"
	"hourseal/record/recordtest"
	"hourseal/render"
	"hourseal/sign"
	"hourseal/templates"
	"hourseal/verify"
)

// demoRecords are the three records of the demonstration's job sheets, checked
// and sealed one after another.
func demoRecords(t testing.TB) []issued {
	t.Helper()
	yardFolder := must[fs.FS](t)(fs.Sub(templates.Jobsheets(), "demo"))
	folder := jobsheet.Open(yardFolder, templates.Schedules())
	yard := must[jobsheet.Yard](t)(folder.Yard())
	var records []issued
	var chain []record.Earlier
	for _, file := range must[[]string](t)(fs.Glob(yardFolder, "jobs/*.yaml")) {
		job := must[jobsheet.Job](t)(jobsheet.ParseJob(path.Base(file), must[[]byte](t)(fs.ReadFile(yardFolder, file))))
		machine, tasks, err := folder.For(job)
		if err != nil {
			t.Fatal(err)
		}
		result := check.Run(check.Input{Yard: yard, Machine: machine, Schedule: tasks, Job: job, Earlier: chain,
			Now: (int64(job.Date)*24 + 17) * 3600, Today: job.Date, Renderer: render.RendererID})
		if result.Passed == nil {
			t.Fatalf("%s: %s %v %v", file, result.Outcome, result.Faults, result.Findings)
		}
		sealed := seal(t, result.Passed.CheckedRecord(), yardSeed)
		records = append(records, sealed)
		chain = append(chain, record.Earlier{ID: record.ID(sign.IDOf(sealed.envelope)), Record: sealed.record})
	}
	if len(records) != 3 {
		t.Fatalf("%d jobs", len(records))
	}
	return records
}

func TestQuestionsOfTheDemonstration(t *testing.T) {
	got := verify.Run(demoRecords(t)[2].envelope, buyer(t), noPage).Questions()
	want := []string{
		"Fit a new raw-water impeller: put off on 2026-10-22, part on order. When was it done?",
		"Look over the drive belt: to be looked at again at 1200 h. What was found?",
	}
	if !slices.Equal(got, want) {
		t.Errorf("%q", got)
	}
}

// A question asks; it names nobody who did the work, and there are five at most,
// the weightiest first.
func TestQuestions(t *testing.T) {
	due := func(tasks ...string) []record.Finding {
		var findings []record.Finding
		for _, task := range tasks {
			findings = append(findings, record.Finding{Code: record.DueNotMentioned, Severity: record.Note, Subject: task})
		}
		return findings
	}
	for _, c := range []struct {
		name string
		edit func(*record.Record)
		want []string
	}{
		{"nothing open", func(r *record.Record) {
			*r = *recordtest.Shortest()
			r.Job.Meter = record.Meter{State: record.Running, Reading: new(r.Job.Hours)}
		}, nil},
		{"as it is", func(*record.Record) {}, []string{
			"Fit a new raw-water impeller: put off on 2026-05-04, part on order. When was it done?",
			"Look over the drive belt: to be looked at again at 900 h. What was found?",
		}},
		{"the technician in the reason", func(r *record.Record) {
			r.By.Name = "E. Marlow"
			r.Tasks[5].Answer = &record.Answer{Why: "E. Marlow ran out of time."}
			r.OtherWork[0] = record.OtherWork{Text: "Weep that E. Marlow found", Result: record.Defect, Answer: &record.Answer{Why: "no seal"}, DoneBy: "E. Marlow"}
		}, []string{
			"Fit a new raw-water impeller: put off on 2026-05-04, the technician ran out of time. When was it done?",
			"Weep that the technician found: a defect was found and left on 2026-05-04, no seal. What was done about it?",
			"Look over the drive belt: to be looked at again at 900 h. What was found?",
		}},
		{"due and not mentioned", func(r *record.Record) {
			r.Tasks[5].Result, r.Tasks[5].Answer = 0, nil
			r.Tasks[2].LookAgain = nil
			r.Findings = due("impeller")
		}, []string{"Due on 2026-05-04, and the report does not speak of it: Fit a new raw-water impeller. When was that last done?"}},
		{"many due", func(r *record.Record) {
			r.Tasks[2].LookAgain, r.Tasks[5].Result, r.Tasks[5].Answer = nil, 0, nil
			r.Findings = due("impeller", "belt", "hoses", "anodes", "coolant")
		}, []string{"Due on 2026-05-04, and the report does not speak of it: Fit a new raw-water impeller; Fit a new drive belt; hoses; and 2 more. When was that last done?"}},
		{"overfilled, leaking, off the meter", func(r *record.Record) {
			r.Findings = []record.Finding{
				{Code: record.HoursEstimated, Severity: record.Note},
				{Code: record.LeakSeen, Severity: record.Decide, Accepted: "wiped"},
				{Code: record.LevelOverfilled, Severity: record.Decide, Accepted: "to be drawn down"},
				{Code: record.OilCategory, Severity: record.Decide, Accepted: "all there was"},
			}
		}, []string{
			"The level was read above the upper mark on 2026-05-04: was oil drawn down before the engine ran?",
			"Fit a new raw-water impeller: put off on 2026-05-04, part on order. When was it done?",
			"A leak was seen on 2026-05-04: what was done about it?",
			"The oil filled on 2026-05-04 is not one that the machine file names: why, and was it changed since?",
			"Look over the drive belt: to be looked at again at 900 h. What was found?",
		}},
		{"seen in what was drained, and oil gained", func(r *record.Record) {
			r.Fluids[0].Saw = []record.Sight{record.SawWater, record.SawMetal, record.SawFuel}
			r.Fluids[0].Answer = &record.Answer{Why: "E. Marlow will look again", Advice: record.BeforeUse}
			gear := r.Fluids[0]
			gear.System, gear.Saw = "gear-oil", []record.Sight{record.SawWater}
			clean := r.Fluids[0]
			clean.System, clean.Saw, clean.Answer = "coolant", []record.Sight{record.SawNothing}, nil
			r.Fluids = append(r.Fluids, gear, clean)
			r.Findings = []record.Finding{
				{Code: record.OilGained, Severity: record.Decide, Subject: "engine-oil", Accepted: "lift pump changed"},
				{Code: record.OilGained, Severity: record.Decide, Subject: "gear-oil", Accepted: "a sample is away"},
			}
		}, []string{
			"Fit a new raw-water impeller: put off on 2026-05-04, part on order. When was it done?",
			"On 2026-05-04 more engine oil and gear oil was in than had been left in and topped up: what got in, and was it put right?",
			"Water, metal and fuel seen in the engine oil, water seen in the gear oil on 2026-05-04: what was done about it?",
			"Look over the drive belt: to be looked at again at 900 h. What was found?",
		}},
		{"one thing seen", func(r *record.Record) {
			r.Fluids[0].System, r.Fluids[0].Saw = "gear-oil", []record.Sight{record.SawWater}
			r.Fluids[0].Answer = &record.Answer{Why: "shaft seal changed"}
			r.Tasks[2].LookAgain, r.Tasks[5].Result, r.Tasks[5].Answer = nil, 0, nil
		}, []string{"Water seen in the gear oil on 2026-05-04: what was done about it?"}},
		{"looked, and nothing seen", func(r *record.Record) {
			r.Fluids[0].Saw = []record.Sight{record.SawNothing}
			r.Tasks[2].LookAgain, r.Tasks[5].Result, r.Tasks[5].Answer = nil, 0, nil
		}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := recordtest.Example()
			c.edit(r)
			got := verify.Run(seal(t, r, yardSeed).envelope, buyer(t), noPage)
			if got.Verdict != verify.Genuine {
				t.Fatal(got.Verdict, got.Err)
			}
			if questions := got.Questions(); strings.Join(questions, "\n") != strings.Join(c.want, "\n") {
				t.Errorf("%s", strings.Join(questions, "\n"))
			}
		})
	}
}

func TestQuestionsAreFewAndNameNobody(t *testing.T) {
	r := recordtest.Longest()
	got := verify.Run(seal(t, r, yardSeed).envelope, buyer(t), noPage)
	questions := got.Questions()
	if len(questions) != 5 {
		t.Errorf("%d questions", len(questions))
	}
	said := strings.Join(questions, "\n")
	for _, name := range []string{r.By.Name, r.By.Credential, "technician 118"} {
		if strings.Contains(said, name) {
			t.Errorf("%q is named in\n%s", name, said)
		}
	}
}
