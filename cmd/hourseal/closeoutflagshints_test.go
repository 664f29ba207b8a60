package main

import (
	"regexp"
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/check"
	"hourseal/record/jobsheet"
	"hourseal/render/words"
)

// machineKeys are keys of the machine file, which is a file also where the job is said in
// options.
var machineKeys = []string{"in_service", "at_upper"}

// No hint about a job in options speaks of a sheet's keys.
func TestHintsOfOptionsSpeakOfOptions(t *testing.T) {
	options := jobsheet.Source{File: "options", Said: map[string]string{"machine": "MACHINE"}}
	key := regexp.MustCompile(`[a-z]+_[a-z_]+`)
	name := regexp.MustCompile(`--[a-z-]+`)
	known := map[string]bool{"--corrects": true, "--why": true, "--jobsheet": true, "--try": true}
	for _, f := range closeoutValueFlags {
		known["--"+f.Names()[0]] = true
	}
	hints := 0
	for code := range record.Rules {
		for _, path := range []string{"tasks/0", "fluids/0/seen", "other_work/0"} {
			for _, severity := range []record.Severity{record.Note, record.Decide, record.Refuse} {
				f := check.Finding{Finding: record.Finding{Code: code, Severity: severity, Subject: "engine-oil"}, Path: path}
				hint := hintIn(options, f)
				if (hint == "") != (hintFor(f) == "") {
					t.Errorf("%v: %q in options, %q in a sheet", code, hint, hintFor(f))
				}
				if hint != "" {
					hints++
				}
				rest := hint
				for _, own := range machineKeys {
					rest = strings.ReplaceAll(rest, own, "")
				}
				if strings.ContainsAny(rest, "{}") || key.MatchString(rest) || strings.Contains(rest, "under accept") || strings.Contains(rest, "SUBJECT") {
					t.Errorf("%v at %s: %s", code, path, hint)
				}
				for _, option := range name.FindAllString(hint, -1) {
					if !known[option] {
						t.Errorf("%v: no option %s: %s", code, option, hint)
					}
				}
				if got := hintIn(jobsheet.Source{File: "jobs/a.yaml"}, f); got != hintFor(f) {
					t.Errorf("%v: of a sheet %q", code, got)
				}
			}
		}
	}
	if hints == 0 {
		t.Fatal("no hints")
	}
	for _, w := range sheetWords {
		used := false
		for code := range record.Rules {
			used = used || strings.Contains(words.Hint(code), w[0])
		}
		if !used {
			t.Errorf("no hint has the words %q", w[0])
		}
	}
}

func TestHintsInOptions(t *testing.T) {
	options := jobsheet.Source{File: "options", Said: map[string]string{"machine": "MACHINE"}}
	for _, c := range []struct {
		code                record.Code
		severity            record.Severity
		subject, path, want string
	}{
		{record.LeakCheckMissing, record.Decide, "engine-oil", "tasks/0", "run the engine, look, and say --leak-check 'none seen after 10 min'; if that cannot be, give the reason with --accept 'leak-check-missing/engine-oil=WHY'"},
		{record.OilCategory, record.Decide, "engine-oil", "fluids/0/meets", "check the categories in --product against the container; if it is so, give the reason with --accept 'oil-category/engine-oil=WHY'"},
		{record.DueNotMentioned, record.Decide, "impeller", "", "say the result it had with --task 'impeller=RESULT', or deferred, and why with --why 'impeller=WHY'; otherwise give the reason with --accept 'due-not-mentioned/impeller=WHY'"},
		{record.AnswerMissing, record.Refuse, "impeller", "tasks/2", "write the reason: --why 'impeller=part on order'"},
		{record.AnswerMissing, record.Refuse, "other work 1", "other_work/0", "write the reason behind a bar: --other-work 'deferred: Hose weeps | part on order'"},
		{record.HoursOutrunUse, record.Decide, "", "hours", "read the meter again; if it is right, give the reason with --accept 'hours-outrun-use=WHY'"},
	} {
		f := check.Finding{Finding: record.Finding{Code: c.code, Severity: c.severity, Subject: c.subject}, Path: c.path}
		if got := hintIn(options, f); got != c.want {
			t.Errorf("%v:\n got %s\nwant %s", c.code, got, c.want)
		}
	}
}

// What is found missing of a fluid or a task is at the option that would say it.
func TestWhatWasNotSaidIsAtItsOption(t *testing.T) {
	job, err := jobSaid(t, "gannet-port", "--hours", "812.6", "--reason", "scheduled", "--task", "impeller=deferred", "--drained", "engine-oil=9 L", "--level", "engine-oil=0.85")
	if err != nil {
		t.Fatal(err)
	}
	for path, want := range map[string]string{
		"fluids/0": "--drained engine-oil", "fluids/0/level/reading": "--level engine-oil", "fluids/0/drained": "--drained engine-oil",
		"fluids/0/meets": "--product engine-oil", "fluids/0/viscosity": "--product engine-oil", "fluids/0/filled": "--filled engine-oil",
		"tasks/0": "--task impeller", "tasks/0/why": "--why impeller",
	} {
		if got := job.Source.At(path); got != want {
			t.Errorf("%s: %s, want %s", path, got, want)
		}
	}
}

func TestSinceWords(t *testing.T) {
	for want, since := range map[string]check.SinceLast{
		"198.8 h and 1 day since the last record":        {Hours: 19880, Days: 1},
		"0 h and 0 days since the last record":           {},
		"2.4 h below the last record, of the same day":   {Hours: -240},
		"2.4 h below the last record, of 12 days before": {Hours: -240, Days: 12},
	} {
		if got := sinceWords(jobsheet.Yard{}.Style, since); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}
