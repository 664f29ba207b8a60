package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/urfave/cli/v2"

	"hourseal/record"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
)

const someDay = quantity.Date(20_000)

// jobSaid reads a job from arguments as a command with the options would.
func jobSaid(t *testing.T, machine string, args ...string) (job jobsheet.Job, err error) {
	t.Helper()
	app := &cli.App{Name: "test", Writer: io.Discard, ErrWriter: io.Discard, DisableSliceFlagSeparator: true, Flags: closeoutValueFlags,
		Action: func(c *cli.Context) error {
			if !hasValueFlags(c) && len(args) > 0 {
				t.Error("options are not seen as such")
			}
			job, err = jobFromFlags(c, machine, someDay)
			return nil
		}}
	if misuse := app.Run(append([]string{"test"}, args...)); misuse != nil {
		t.Fatal(misuse)
	}
	return job, err
}

// exampleOptions say the job of testdata/scenario/jobs/gannet-port-2026-05-04.yaml.
var exampleOptions = []string{
	"--date", "2026-05-04", "--hours", "812.6", "--reason", "scheduled", "--job-number", "J-2217", "--place", "Port Ellery, east slip",
	"--technician", "118, Ellery Slip card",
	"--task", "engine-oil=done", "--task", "oil-filter=done", "--task", "belt-look=watch", "--task", "coolant-strength=ok", "--task", "impeller=deferred",
	"--look-again", "belt-look=900 h, light glaze on the back",
	"--reading", "coolant-strength/freezing_point=-27 C",
	"--why", "impeller=part on order", "--answer", "impeller=next-service, agreed, 2026-05-04",
	"--other-work", "done: Tightened the exhaust clamp at the elbow",
	"--level-before", "engine-oil=0.3 after 20 min at 18 C", "--drained", "engine-oil=2.4 US gal at 68 C", "--filter-in-drained", "engine-oil=no",
	"--filled", "engine-oil=5 L at 16 C, 4.3 L at 16 C", "--product", "engine-oil=Harrow HD, 15W-40, API CK-4, batch H-0612",
	"--level", "engine-oil=0.85 after 15 min at 45 C",
	"--topped-up", "engine-oil=0.5 L", "--waste", "engine-oil=8.8 L to harbour oil bank, receipt 5521", "--part", "oil filter=CR-2214",
	"--leak-check", "none seen after 10 min", "--notes", "Look at the belt again at 900 hours.",
}

// everyOptions say the job of the sheet with every key.
var everyOptions = []string{
	"--date", "2026-05-04", "--hours", "stopped, 810.25 by engine log", "--meter-change", "unknown to 12.0, glass broken", "--reason", "lay-up",
	"--job-number", "0002217", "--place", "Port Ellery", "--severe-duty", "fuel sulphur over 0.5 %", "--severe-duty", "dust, salt",
	"--fuel-used", "1800 L, 10 imp gal", "--technician", "0118, name A. Reed, Ellery Slip card",
	"--task", "belt=deferred by Tern Electrics", "--why", "belt=part on order", "--answer", "belt=before-use, awaiting, 2026-05-03",
	"--look-again", "belt=900 h or 2026-10-01", "--reading", "belt/gap=found 0.25 mm, left 0.20 mm", "--reading", "belt/turns=3",
	"--other-work", "defect by Tern Electrics: Crack in the bracket | needs welding | monitor, declined, 2026-05-04",
	"--level-before", "engine-oil=not measured", "--drained", "engine-oil=4 L at 154 F, 4.1 kg", "--filter-in-drained", "engine-oil=true",
	"--seen", "engine-oil=water, metal | head gasket | before-use, declined, 2026-05-04", "--seen", "coolant=nothing",
	"--filled", "engine-oil=-", "--drawn-down", "engine-oil=0.2 L at 40 C",
	"--product", "engine-oil=Harrow HD, 15W-40, API CK-4, batch 0x1F", "--product", "coolant=-, propylene", "--level", "engine-oil=-0.05 after 15 min at 45 C",
	"--topped-up", "engine-oil=1 imp pt", "--waste", "engine-oil=450 mL to harbour oil bank, receipt 05521", "--waste", "coolant=10 L held in drum 3",
	"--part", "oil filter=2 x 1e3, serial 0012345, by customer", "--part", "belt=-", "--leak-check", "seen at drain plug after 10 min", "--file", "plate.jpg", "--file", "Lab-sheet_2.pdf",
	"--accept", "leak-seen=weeping only", "--accept", "level-below-mark/engine-oil=topped up after", "--accept", "done-late=laid up",
	"--notes", "First line.\n\nThird line, with a colon: here.",
}

func parsedJob(t *testing.T, file string) jobsheet.Job {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	job, err := jobsheet.ParseJob(file, data)
	if err != nil {
		t.Fatal(err)
	}
	return job
}

func withoutSource(job jobsheet.Job) jobsheet.Job {
	job.Source = jobsheet.Source{}
	for i := range job.Accept {
		job.Accept[i].At = ""
	}
	return job
}

var (
	exampleSheet  = filepath.Join("..", "..", "testdata", "scenario", "jobs", "gannet-port-2026-05-04.yaml")
	everyKeySheet = filepath.Join("..", "..", "record", "jobsheet", "testdata", "every-key.yaml")
)

// A job said in options is the job of its sheet.
func TestJobFromFlagsIsThatOfTheSheet(t *testing.T) {
	for file, options := range map[string][]string{exampleSheet: exampleOptions, everyKeySheet: everyOptions} {
		got, err := jobSaid(t, "gannet-port", options...)
		if err != nil {
			t.Errorf("%s: %v", file, err)
			continue
		}
		if want := withoutSource(parsedJob(t, file)); !reflect.DeepEqual(withoutSource(got), want) {
			t.Errorf("%s:\n got %s\nwant %s", file, withoutSource(got).YAML(), want.YAML())
		}
	}
}

// optionOfKey is the option for each key of a job sheet. What is said elsewhere: the
// machine is an argument.
var optionOfKey = map[string]string{
	"date": "date", "hours": "hours", "hours/meter": "hours", "hours/estimate": "hours", "hours/basis": "hours",
	"meter_change": "meter-change", "meter_change/removed_at": "meter-change", "meter_change/fitted_at": "meter-change", "meter_change/why": "meter-change",
	"reason": "reason", "job_number": "job-number", "place": "place", "severe_duty/N": "severe-duty", "fuel_used": "fuel-used", "fuel_used/N": "fuel-used",
	"technician": "technician", "technician/number": "technician", "technician/name": "technician", "technician/credential": "technician",
	"tasks/N": "task", "tasks/N/id": "task", "tasks/N/result": "task", "tasks/N/done_by": "task", "tasks/N/why": "why",
	"tasks/N/advice": "answer", "tasks/N/told": "answer", "tasks/N/owner": "answer",
	"tasks/N/look_again": "look-again", "tasks/N/look_again/hours": "look-again", "tasks/N/look_again/date": "look-again",
	"tasks/N/reading/gap": "reading", "tasks/N/reading/gap/as_found": "reading", "tasks/N/reading/gap/as_left": "reading", "tasks/N/reading/turns": "reading",
	"other_work/N": "other-work", "other_work/N/text": "other-work", "other_work/N/result": "other-work", "other_work/N/why": "other-work",
	"other_work/N/advice": "other-work", "other_work/N/told": "other-work", "other_work/N/owner": "other-work", "other_work/N/done_by": "other-work",
	"fluids/N/level_before": "level-before", "fluids/N/drained": "drained", "fluids/N/drained/N": "drained", "fluids/N/drained_includes_filter": "filter-in-drained",
	"fluids/N/seen": "seen", "fluids/N/seen/what": "seen", "fluids/N/seen/what/N": "seen", "fluids/N/seen/why": "seen", "fluids/N/seen/advice": "seen",
	"fluids/N/seen/told": "seen", "fluids/N/seen/owner": "seen", "fluids/N/filled": "filled", "fluids/N/drawn_down": "drawn-down",
	"fluids/N/product": "product", "fluids/N/batch": "product", "fluids/N/viscosity": "product", "fluids/N/meets": "product", "fluids/N/glycol": "product",
	"fluids/N/level": "level", "fluids/N/level/reading": "level", "fluids/N/level/after": "level", "fluids/N/level/at": "level",
	"topped_up/N": "topped-up", "topped_up/N/system": "topped-up", "topped_up/N/amount": "topped-up",
	"waste/N": "waste", "waste/N/system": "waste", "waste/N/amount": "waste", "waste/N/to": "waste", "waste/N/receipt": "waste", "waste/N/held": "waste",
	"parts/N": "part", "parts/N/item": "part", "parts/N/number": "part", "parts/N/serial": "part", "parts/N/quantity": "part", "parts/N/supplied_by": "part",
	"leak_check": "leak-check", "leak_check/result": "leak-check", "leak_check/after": "leak-check", "leak_check/where": "leak-check",
	"accept/leak-seen": "accept", "accept/level-below-mark/engine-oil": "accept", "accept/done-late": "accept", "notes": "notes", "files/N": "file",
}

// keysWithoutOption are lists and groups as a whole, a system of the fluids, which any of
// its options names, and what is an argument.
var keysWithoutOption = []string{"machine", "severe_duty", "tasks", "tasks/N/reading", "other_work", "fluids", "fluids/N", "fluids/N/system", "topped_up", "waste", "parts", "files", "accept"}

// Every key that a job sheet may hold has an option, and what is found at a key later
// points at it. That the sheet has every key is for the tests of its package.
func TestEveryKeyHasAnOption(t *testing.T) {
	job, err := jobSaid(t, "gannet-port", everyOptions...)
	if err != nil {
		t.Fatal(err)
	}
	number := regexp.MustCompile(`/[0-9]+`)
	used := map[string]bool{}
	keys := 0
	for path := range parsedJob(t, everyKeySheet).Source.Lines {
		key := number.ReplaceAllString(path, "/N")
		if slices.Contains(keysWithoutOption, key) {
			continue
		}
		keys++
		option, has := optionOfKey[key]
		if !has {
			t.Errorf("%s: no option is known for it", key)
			continue
		}
		used[option] = true
		if at := job.Source.At(path); at != "--"+option && !strings.HasPrefix(at, "--"+option+" ") {
			t.Errorf("%s: a finding there would point at %q, not at --%s", path, at, option)
		}
	}
	for _, flag := range closeoutValueFlags {
		if name := flag.Names()[0]; !used[name] {
			t.Errorf("--%s: no key of a job sheet is said by it", name)
		}
	}
	if keys < len(optionOfKey) {
		t.Errorf("%d keys in the sheet, %d in the table", keys, len(optionOfKey))
	}
}

// Without a date the job is today's.
func TestJobFromFlagsDate(t *testing.T) {
	job, err := jobSaid(t, "gannet-port", "--hours", "812.6", "--reason", "scheduled")
	if err != nil || job.Date != someDay {
		t.Errorf("%v, %v", job.Date, err)
	}
}

// Faults are told all at once, each at its option.
func TestJobFromFlagsFaults(t *testing.T) {
	for want, args := range map[string][]string{
		"--hours: missing: write --hours 812.6\n--reason: missing: write --reason scheduled, or defect, or casualty, or warranty, or revisit, or lay-up, or recommission, or commissioning, or inspection": nil,
		`--hours: "812,6": write 812.6 with a point
--reason: "sheduled": write scheduled (of scheduled, defect, casualty, warranty, revisit, lay-up, recommission, commissioning, inspection)
--place: written twice: keep one
--why belt-look: no result is said of it: write --task 'belt-look=RESULT' too
--filled engine-oil: bare "gal": write "US gal" (3.785 L) or "imp gal" (4.546 L)`: {"--hours", "812,6", "--reason", "sheduled", "--place", "A", "--place", "B",
			"--filled", "engine-oil=2 gal", "--why", "belt-look=glaze"},
		`--severe-duty: "dust" is written twice: keep one
--task: "engine-oil": write what it is of and an equals sign before the value, as TASK=RESULT
--task engine-oil: written twice: keep one
--waste Engine oil: "Engine oil": ids are small letters, digits and hyphens, at most 40 of them: write engine-oil
--accept level-high/: "level-high/": write the finding's code, or code/subject, as level-high/engine-oil
--look-again belt: "hm", and --why says a reason already: keep one
--reading belt: "" is no name for a reading: write one as freezing_point
--reading belt/gap: written twice: keep one
--drained: "2 L": write what it is of and an equals sign before the value, as SYSTEM=AMOUNT
--drained engine-oil: written twice: keep one
--filled Engine oil: "Engine oil": ids are small letters, digits and hyphens, at most 40 of them: write engine-oil`: {"--hours", "812.6", "--reason", "scheduled",
			"--severe-duty", "dust", "--severe-duty", "dust", "--task", "engine-oil", "--task", "engine-oil=done", "--task", "engine-oil=ok", "--task", "belt=watch",
			"--waste", "Engine oil=5 L", "--accept", "level-high/=x", "--why", "belt=x", "--look-again", "belt=900 h, hm",
			"--reading", "belt=3", "--reading", "belt/gap=3", "--reading", "belt/gap=4",
			"--drained", "2 L", "--drained", "engine-oil=2 L", "--drained", "engine-oil=3 L", "--filled", "Engine oil=2 L"},
	} {
		job, err := jobSaid(t, "gannet-port", args...)
		var faults jobsheet.Faults
		if !errors.As(err, &faults) || err.Error() != want {
			t.Errorf("%q:\n got %v\nwant %s", args, err, want)
		}
		if !reflect.DeepEqual(job, jobsheet.Job{}) {
			t.Errorf("%q: a job with faults was handed out", args)
		}
	}
	if _, err := jobSaid(t, "Gannet port", "--hours", "1", "--reason", "scheduled"); err == nil || !strings.HasPrefix(err.Error(), "MACHINE: ") {
		t.Errorf("a machine that is no id: %v", err)
	}
}

// No more entries are taken than a record holds.
func TestJobFromFlagsLimits(t *testing.T) {
	for name, c := range map[string]struct {
		limit int
		value func(i int) string
	}{
		"severe-duty": {record.MaxDuties, func(i int) string { return fmt.Sprint("duty ", i) }},
		"task":        {record.MaxTasks, func(i int) string { return fmt.Sprintf("t%d=done", i) }},
		"other-work":  {record.MaxOtherWork, func(i int) string { return fmt.Sprint("done: work ", i) }},
		"topped-up":   {record.MaxTopUps, func(i int) string { return fmt.Sprintf("s%d=1 L", i) }},
		"waste":       {record.MaxWaste, func(i int) string { return "engine-oil=1 L" }},
		"part":        {record.MaxParts, func(i int) string { return "belt=-" }},
		"accept":      {record.MaxFindings, func(i int) string { return fmt.Sprintf("code%d=why", i) }},
		"filled":      {record.MaxFluids, func(i int) string { return fmt.Sprintf("s%d=1 L", i) }},
		"reading":     {record.MaxReadings, func(i int) string { return fmt.Sprintf("belt/r%d=1", i) }},
	} {
		args := []string{"--hours", "1", "--reason", "scheduled"}
		if name == "reading" {
			args = append(args, "--task", "belt=ok")
		}
		for i := range c.limit + 1 {
			_, err := jobSaid(t, "gannet-port", args...)
			if err != nil {
				t.Errorf("%s: %d: %v", name, i, err)
			}
			args = append(args, "--"+name, c.value(i))
		}
		if _, err := jobSaid(t, "gannet-port", args...); err == nil || !strings.Contains(err.Error(), "fit") {
			t.Errorf("%s: %d were let in: %v", name, c.limit+1, err)
		}
	}
}

// What is found later points at the option that said it.
func TestLaterFaultsPointAtOptions(t *testing.T) {
	files := os.DirFS(filepath.Join("..", "..", "testdata", "scenario"))
	machineData, err := fs.ReadFile(files, "machines/gannet-port.yaml")
	if err != nil {
		t.Fatal(err)
	}
	machine, err := jobsheet.ParseMachine("machines/gannet-port.yaml", machineData)
	if err != nil {
		t.Fatal(err)
	}
	scheduleData, err := fs.ReadFile(files, "schedules/"+machine.Schedule+".yaml")
	if err != nil {
		t.Fatal(err)
	}
	plan, _, err := jobsheet.ParseSchedule("schedule.yaml", scheduleData)
	if err != nil {
		t.Fatal(err)
	}
	job, err := jobSaid(t, "gannet-port", "--hours", "812.6", "--reason", "scheduled", "--task", "engine-oli=done", "--filled", "engine-oli=9 L",
		"--product", "engine-oil=Harrow, ethylene", "--topped-up", "oil=1 L", "--severe-duty", "frost", "--accept", "level-hihg/engine-oil=x")
	if err != nil {
		t.Fatal(err)
	}
	err = jobsheet.Resolve(job, machine, plan)
	for _, want := range []string{
		`--task engine-oli: "engine-oli" is no task of schedule diesel-inboard-ellery: write engine-oil `,
		`--filled engine-oli: "engine-oli" is no system of gannet-port: write engine-oil `,
		`--product engine-oil: engine-oil holds no coolant by the machine file: `,
		`--topped-up oil: "oil" is no system of gannet-port: `,
		`--severe-duty: "frost" is no severe duty of schedule diesel-inboard-ellery: `,
		`--accept level-hihg/engine-oil: "level-hihg" is no finding: write level-high`,
	} {
		if err == nil || !strings.Contains("\n"+err.Error(), "\n"+want) {
			t.Errorf("no line %s\nin %v", want, err)
		}
	}
	if at := job.Source.At("leak_check"); at != "options" {
		t.Errorf("what no option said: %q", at)
	}
}
