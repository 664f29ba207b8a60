package main

import (
	"encoding/json"
	"os"
	"strings"
	"testing"

	"hourseal/record"
)

// findingCases make each refusal and each question of the check out of the
// invented yard's port job, done again three months later, by changing what is
// written. The words are those that a person at the terminal has to go by.
var findingCases = []struct {
	code  record.Code
	exit  int      // 3: cannot be; 7: needs a reason
	edits []string // old, new, old, new, ...
	says  string   // in the output of check, with line breaks as spaces
	key   string   // what accepts it, as check names it
}{
	{code: record.DateInFuture, exit: 3, edits: []string{"2026-08-04", "2026-08-05"},
		says: "The job is dated 2026-08-05; today is 2026-08-04."},
	{code: record.BeforeInService, exit: 3, edits: []string{"2026-08-04", "2024-03-17"},
		says: "before the machine went into service on 2024-03-18"},
	{code: record.HoursBelowInService, exit: 3, edits: []string{"hours: 900 ", "hours: 0 ", "in_service: { date: 2024-03-18, hours: 0 }", "in_service: { date: 2024-03-18, hours: 10 }"},
		says: "went into service at 10 h"},
	{code: record.HoursBelowEarlier, exit: 3, edits: []string{"hours: 900 ", "hours: 800 "},
		says: "The hours come to 800 h in total; the record of 2026-05-04 has 812.6 h."},
	{code: record.HoursAboveLater, exit: 3, edits: []string{"2026-08-04", "2026-05-03", "hours: 900 ", "hours: 820 "},
		says: "The hours come to 820 h in total; the later record of 2026-05-04 has only 812.6 h."},
	{code: record.HoursOutrunClock, exit: 3, edits: []string{"hours: 900 ", "hours: 9000 "},
		says: "The hours rose by 8187.4 h since 2026-05-04; in that time a meter can rise by"},
	{code: record.AnswerMissing, exit: 3, edits: []string{"why: part on order, ", ""},
		says: "Impeller: marked deferred, and no reason is given."},
	{code: record.EvidenceMissing, exit: 3, edits: []string{"  - { item: oil filter, number", "  - { item: hose, number"},
		says: "Oil filter: there is no record of this: part oil filter."},
	{code: record.FillBeyondSystem, exit: 3, edits: []string{"4.3 L at 16 C]", "43 L at 16 C]"},
		says: "Engine oil: 48 L filled in; twice what the system holds is 20 L."},

	{code: record.HoursOutrunUse, exit: 7, edits: []string{"hours: 900 ", "hours: 1400 "},
		says: "Is the reading right?", key: "hours-outrun-use"},
	{code: record.ReadsLikeTwin, exit: 7, edits: []string{"hours: 900 ", "hours: 809.3 ", "2026-08-04", "2026-05-04"},
		says: "The reading, 809.3 h, is close to that of gannet-starboard, 809.3 h. Is it this machine's?", key: "reads-like-twin/gannet-starboard"},
	{code: record.DateBeforeLast, exit: 7, edits: []string{"2026-08-04", "2026-05-01", "hours: 900 ", "hours: 811 "},
		says: "The job is dated 2026-05-01, before the last record, 2026-05-04. Is it late paperwork?", key: "date-before-last"},
	{code: record.LevelOverfilled, exit: 7, edits: []string{"{ reading: 0.85,", "{ reading: 1.2,"},
		says: "the level read 1.2; above 1.15 it is overfilled. Do not run until drawn down.", key: "level-overfilled/engine-oil"},
	{code: record.LevelBelowMark, exit: 7, edits: []string{"{ reading: 0.85,", "{ reading: -0.1,"},
		says: "the level read -0.1; the lower mark is 0.", key: "level-below-mark/engine-oil"},
	{code: record.LevelReadEarly, exit: 7, edits: []string{"after: 15 min", "after: 4 min"},
		says: "the level was read 4 min after stopping; it needs 5 min at least to drain back", key: "level-read-early/engine-oil"},
	{code: record.OilCategory, exit: 7, edits: []string{"meets: [API CK-4]", "meets: [API CF]"},
		says: "API CF; asked: API CI-4 or ACEA E7", key: "oil-category/engine-oil"},
	{code: record.OilViscosity, exit: 7, edits: []string{"viscosity: 15W-40", "viscosity: 5W-30"},
		says: "viscosity 5W-30; asked: 15W-40 or 10W-40", key: "oil-viscosity/engine-oil"},
	{code: record.LeakCheckMissing, exit: 7, edits: []string{"leak_check: { result: none seen, after: 10 min }\n", ""},
		says: "no record of a look for leaks with the engine running", key: "leak-check-missing/engine-oil"},
	{code: record.LeakSeen, exit: 7, edits: []string{"result: none seen, after", "result: seen, where: at the filter, after"},
		says: "A leak was seen: at the filter.", key: "leak-seen"},
	{code: record.DueNotMentioned, exit: 7, edits: []string{"  - { id: impeller,", "  # - { id: impeller,"},
		says: "and there is no record of it on this job", key: "due-not-mentioned/impeller"},
	{code: record.JobNumberUsed, exit: 7, edits: []string{"J-2300", "J-2217"},
		says: "Job number J-2217 stands on the record of 2026-05-04 already. Is this another job?", key: "job-number-used"},
	{code: record.SameVisit, exit: 7, edits: []string{"2026-08-04", "2026-05-04", "hours: 900 ", "hours: 812.6 ", "job_number: J-2300\n", ""},
		says: "Record 1 is of this machine, of 2026-05-04 too, and of the same hours. Is this another job?", key: "same-visit"},
	{code: record.CoolantProtection, exit: 7, edits: []string{"freezing_point: -27 C", "freezing_point: -20 C"},
		says: "freezing point -20 °C, about 34 % ethylene by volume; 1 L drained and neat glycol filled in makes 40 %; the machine file asks for protection to -25 °C", key: "coolant-protection/coolant"},

	{code: record.BeyondCorrection, exit: 3, edits: []string{"2.4 US gal at 68 C", "2.4 US gal at 168 C"},
		says: "an oil's volume is corrected from -20 °C to 150 °C"},
	{code: record.FillOffLevel, exit: 7, edits: []string{"{ reading: 0.3, after: 20 min, at: 18 C }", "not measured", "2.4 US gal at 68 C", "not measured", "4.3 L at 16 C]", "5 L at 16 C, 3 L at 16 C]"},
		says: "L less than expected.", key: "fill-off-level/engine-oil"},
	{code: record.OilGained, exit: 7, edits: []string{"{ reading: 0.3, after: 20 min", "{ reading: 1.7, after: 20 min", "2.4 US gal at 68 C", "10.5 L at 68 C", "amount: 8.8 L", "amount: 10.5 L"},
		says: "An engine that makes oil can run away on it.", key: "oil-gained/engine-oil"},
	{code: record.LevelBeyondStick, exit: 3, edits: []string{"{ reading: 0.85,", "{ reading: 85,"},
		says: "0 is the lower mark and 1 the upper: write a level just below the upper mark as 0.85"},
	{code: record.FreezingAboveWater, exit: 3, edits: []string{"freezing_point: -27 C", "freezing_point: 27 C"},
		says: "write it below 0, as -27 C"},
	{code: record.FilledBeyondSystem, exit: 7, edits: []string{"topped_up:", "  - { system: coolant, filled: 14 L }\ntopped_up:"},
		says: "Coolant: 14.00 L filled in, give or take 0.44 L; 11.50 L is what it holds at most.", key: "filled-beyond-system/coolant"},
	{code: record.DrainedBeyondSystem, exit: 7, edits: []string{"2.4 US gal at 68 C", "11.5 L at 68 C", "amount: 8.8 L", "amount: 11.5 L"},
		says: "came out, with what the filter held", key: "drained-beyond-system/engine-oil"},
	{code: record.DrainedBeyondSystem, exit: 3, edits: []string{"2.4 US gal at 68 C", "88 L at 68 C", "amount: 8.8 L", "amount: 88 L"},
		says: "came out, with what the filter held"},
	{code: record.FilterMiscounted, exit: 7, edits: []string{"filter_holds: 0.6 L", "filter_holds: 1.5 L", "drained_includes_filter: false", "drained_includes_filter: true", "2.4 US gal at 68 C", "6.1 kg", "amount: 8.8 L", "amount: 6.1 kg"},
		says: "What the filter held: counted though not drained?", key: "filter-miscounted/engine-oil"},
	{code: record.UnitSwapped, exit: 7, edits: []string{"2.4 US gal at 68 C", "2.2 imp gal at 68 C", "amount: 8.8 L", "amount: 10 L"},
		says: "2.2 imp gal at 68 C does not fit, 2.2 US gal at 68 C does", key: "unit-swapped/engine-oil"},
	{code: record.OldOilLeft, exit: 7, edits: []string{"2.4 US gal at 68 C", "4.5 L at 68 C", "4.3 L at 16 C]", "0.2 L at 16 C]", "amount: 8.8 L", "amount: 4.5 L"},
		says: "Did the extractor stop early?", key: "old-oil-left/engine-oil"},
	{code: record.WasteOffDrained, exit: 7, edits: []string{"amount: 8.8 L", "amount: 94 L"},
		says: "the waste comes to 94.00 L, give or take 2.83 L; at most 9.69 L came out, hot or cold, with what the filter held.", key: "waste-off-drained/engine-oil"},
	{code: record.CoolantTooStrong, exit: 7, edits: []string{"freezing_point: -27 C", "freezing_point: -60 C"},
		says: "over 60 % glycol protects less", key: "coolant-too-strong/coolant"},
	{code: record.GlycolMixed, exit: 7, edits: []string{"topped_up:", "  - { system: coolant, filled: 1 L, glycol: propylene }\ntopped_up:"},
		says: "propylene filled on ethylene", key: "glycol-mixed/coolant"},
}

// isRefusalOrQuestion says whether a code is no mere note.
func isRefusalOrQuestion(code record.Code) bool {
	return code < record.NoEarlierRecord || code >= record.OldOilLeft && code < record.OilUseHeavy
}

func TestEveryRefusalAndQuestion(t *testing.T) {
	base := newYard(t)
	base.must(t, 0, "issue", portJob, starboardJob)
	seen := map[record.Code]bool{}
	for _, c := range findingCases {
		seen[c.code] = true
		t.Run(c.code.String(), func(t *testing.T) {
			t.Parallel()
			f := newFolder(t)
			if err := copyFiles(base.dir, f.dir); err != nil {
				t.Fatal(err)
			}
			f.now = "2026-08-04T12:00:00Z"
			job := sheetEdited(t, f, append([]string{"2026-05-04", "2026-08-04", "hours: 812.6 ", "hours: 900 ", "J-2217", "J-2300"}, c.edits...))
			f.write(t, "jobs/new.yaml", job)

			shown := f.must(t, c.exit, "check", "jobs/new.yaml")
			if !strings.Contains(oneLine(shown.stdout), c.says) {
				t.Errorf("does not say %q:\n%s", c.says, shown.stdout)
			}
			if finding := findingOfCode(t, f.must(t, c.exit, "check", "jobs/new.yaml", "--json").stdout, c.code); !strings.HasPrefix(*finding.At, "jobs/new.yaml:") {
				t.Errorf("at %q", *finding.At)
			}
			f.must(t, c.exit, "issue", "jobs/new.yaml", "--no-input")
			if _, err := os.Stat(f.path("records/gannet-port/0002.cose")); err == nil {
				t.Error("it was issued")
			}
			if c.exit == 3 {
				if strings.Contains(oneLine(shown.stdout), "accept: { "+c.code.String()) {
					t.Errorf("a reason is asked for what cannot be:\n%s", shown.stdout)
				}
				f.write(t, "jobs/new.yaml", replaced(t, job, "accept: {}", "accept: { "+c.code.String()+": so it is }"))
				f.must(t, 3, "issue", "jobs/new.yaml", "--no-input")
				return
			}
			if !strings.Contains(oneLine(shown.stdout), "accept: { "+c.key+": …") {
				t.Errorf("does not say how %s is accepted:\n%s", c.key, shown.stdout)
			}
			acceptAndIssue(t, f, job, c.key)
		})
	}
	for code, rule := range record.Rules {
		if code == record.HoursOffEngine || code == record.OilUseRisen { // due-meters.txtar; several records: package check
			continue
		}
		if isRefusalOrQuestion(code) && !seen[code] {
			t.Errorf("no case for %s", rule.Name)
		}
	}
}

// acceptAndIssue writes a reason for all that needs one, and issues.
func acceptAndIssue(t *testing.T, f folder, job []byte, key string) {
	t.Helper()
	const reason = "looked at twice, it is so"
	var answer struct{ Findings []findingJSON }
	mustDecode(t, f.run(t, "check", "jobs/new.yaml", "--json").stdout, &answer)
	accept := "accept:"
	for _, finding := range answer.Findings {
		if finding.Severity != record.Decide.String() {
			continue
		}
		name := finding.Code
		if finding.Subject != nil {
			name += "/" + *finding.Subject
		}
		accept += "\n  " + name + ": " + reason
	}
	if !strings.Contains(accept, "\n  "+key+": ") && !strings.Contains(accept, "\n  "+key+"/") {
		t.Errorf("%s is not among what needs a reason: %s", key, accept)
	}
	f.write(t, "jobs/new.yaml", replaced(t, job, "accept: {}", accept))
	if shown := f.must(t, 0, "check", "jobs/new.yaml").stdout; !strings.Contains(oneLine(shown), "reason given: "+reason) {
		t.Errorf("does not give the reason:\n%s", shown)
	}
	f.must(t, 0, "issue", "jobs/new.yaml", "--no-input")
	shown := f.must(t, 0, "show", "records/gannet-port/0002.cose").stdout
	if !strings.Contains(oneLine(shown), "Reason given: "+reason) {
		t.Errorf("the record does not give the reason:\n%s", shown)
	}
}

// sheetEdited is the port job with texts replaced; a text that is not in it is
// replaced in the machine file.
func sheetEdited(t *testing.T, f folder, edits []string) []byte {
	t.Helper()
	const machineFile = "machines/gannet-port.yaml"
	job, machine := string(f.read(t, portJob)), string(f.read(t, machineFile))
	for i := 0; i < len(edits); i += 2 {
		if strings.Contains(job, edits[i]) {
			job = strings.ReplaceAll(job, edits[i], edits[i+1])
			continue
		}
		machine = string(replaced(t, []byte(machine), edits[i], edits[i+1]))
	}
	f.write(t, machineFile, []byte(machine))
	return []byte(job)
}

func replaced(t testing.TB, text []byte, old, with string) []byte {
	t.Helper()
	if !strings.Contains(string(text), old) {
		t.Fatalf("there is no %q to replace", old)
	}
	return []byte(strings.ReplaceAll(string(text), old, with))
}

func findingOfCode(t *testing.T, line string, code record.Code) findingJSON {
	t.Helper()
	var answer struct{ Findings []findingJSON }
	mustDecode(t, line, &answer)
	for _, finding := range answer.Findings {
		if finding.Code == code.String() {
			return finding
		}
	}
	t.Fatalf("no finding %s in %s", code, line)
	return findingJSON{}
}

func mustDecode(t testing.TB, line string, into any) {
	t.Helper()
	if err := json.Unmarshal([]byte(line), into); err != nil {
		t.Fatalf("%v: %s", err, line)
	}
}

// oneLine undoes the wrapping of what is printed.
func oneLine(text string) string { return strings.Join(strings.Fields(text), " ") }
