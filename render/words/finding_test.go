package words

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/quantity"
)

func number(n int64) *int64 { return &n }

func day(t *testing.T, text string) *int64 {
	t.Helper()
	d, err := quantity.ParseDate(text)
	if err != nil {
		t.Fatal(err)
	}
	return number(int64(d))
}

// One finding of each rule as the check makes it, and the sentence it becomes.
func TestFindingSentences(t *testing.T) {
	first, second := day(t, "2026-05-04"), day(t, "2026-11-25")
	for _, c := range []struct {
		finding record.Finding
		want    string
	}{
		{record.Finding{Code: record.DateInFuture, Value: second, Limit: first, Unit: record.AsDate},
			"The job is dated 2026-11-25; today is 2026-05-04."},
		{record.Finding{Code: record.BeforeInService, Value: first, Limit: second, Unit: record.AsDate},
			"The job is dated 2026-05-04, before the machine went into service on 2026-11-25."},
		{record.Finding{Code: record.HoursBelowInService, Value: number(500), Limit: number(1250), Unit: record.InHours},
			"The hours come to 5 h in total; the machine went into service at 12.5 h."},
		{record.Finding{Code: record.HoursBelowEarlier, Value: number(81260), Limit: number(93140), Unit: record.InHours, Text: "2026-05-04"},
			"The hours come to 812.6 h in total; the record of 2026-05-04 has 931.4 h."},
		{record.Finding{Code: record.HoursAboveLater, Value: number(93140), Limit: number(81260), Unit: record.InHours, Text: "2026-05-04"},
			"The hours come to 931.4 h in total; the later record of 2026-05-04 has only 812.6 h."},
		{record.Finding{Code: record.HoursOutrunClock, Value: number(10000), Limit: number(7354), Unit: record.InHours, Text: "2026-05-04"},
			"The hours rose by 100 h since 2026-05-04; in that time a meter can rise by 73.54 h at most."},
		{record.Finding{Code: record.AnswerMissing, Subject: "other work 2", Text: "defect"},
			"Other work 2: marked defect, and no reason is given."},
		{record.Finding{Code: record.EvidenceMissing, Subject: "oil-filter", Text: "part oil filter"},
			"Oil filter: marked done, and there is no record of this: part oil filter."},
		{record.Finding{Code: record.FillBeyondSystem, Subject: "engine-oil", Value: number(35000), Limit: number(20000), Unit: record.InVolume},
			"Engine oil: 35 L filled in; twice what the system holds is 20 L."},
		{record.Finding{Code: record.HoursOutrunUse, Value: number(60000), Limit: number(20000), Unit: record.InHours, Text: "2026-05-04"},
			"The hours rose by 600 h since 2026-05-04; at this machine's usual use about 200 h would be expected. Is the reading right?"},
		{record.Finding{Code: record.ReadsLikeTwin, Subject: "gannet-starboard", Value: number(80930), Limit: number(80930), Unit: record.InHours},
			"The reading, 809.3 h, is close to that of gannet-starboard, 809.3 h. Is it this machine's?"},
		{record.Finding{Code: record.DateBeforeLast, Value: first, Limit: second, Unit: record.AsDate},
			"The job is dated 2026-05-04, before the last record, 2026-11-25. Is it late paperwork?"},
		{record.Finding{Code: record.LevelOverfilled, Subject: "engine-oil", Value: number(1180), Limit: number(1150), Unit: record.InShare},
			"Engine oil: the level read 1.18; above 1.15 it is overfilled. Do not run until drawn down."},
		{record.Finding{Code: record.LevelBelowMark, Subject: "engine-oil", Value: number(-100), Limit: number(0), Unit: record.InShare},
			"Engine oil: the level read -0.1; the lower mark is 0."},
		{record.Finding{Code: record.LevelReadEarly, Subject: "engine-oil", Value: number(4), Limit: number(5), Unit: record.InMinutes},
			"Engine oil: the level was read 4 min after stopping; it needs 5 min at least to drain back."},
		{record.Finding{Code: record.OilCategory, Subject: "engine-oil", Text: "API FA-4; asked: API CI-4 or ACEA E7"},
			"Engine oil: marked API FA-4; asked: API CI-4 or ACEA E7."},
		{record.Finding{Code: record.OilViscosity, Subject: "engine-oil", Text: "5W-30; asked: 15W-40 or 10W-40"},
			"Engine oil: viscosity 5W-30; asked: 15W-40 or 10W-40."},
		{record.Finding{Code: record.LeakCheckMissing, Subject: "oil-filter"},
			"Oil filter: no record of a look for leaks with the engine running."},
		{record.Finding{Code: record.LeakSeen, Text: "at the drain plug"}, "A leak was seen: at the drain plug."},
		{record.Finding{Code: record.LeakSeen}, "A leak was seen."},
		{record.Finding{Code: record.DueNotMentioned, Subject: "impeller", Value: number(3300), Limit: number(109500), Unit: record.InHours},
			"Impeller: due (1095 h), past by 33 h, and there is no record of it on this job."},
		{record.Finding{Code: record.DueNotMentioned, Subject: "impeller", Limit: number(40000), Unit: record.InHours},
			"Impeller: due (400 h), and there is no record of it on this job."},
		{record.Finding{Code: record.DueNotMentioned, Subject: "gear-breather", Limit: first, Unit: record.AsDate},
			"Gear breather: due (2026-05-04), and there is no record of it on this job."},
		{record.Finding{Code: record.DueNotMentioned, Subject: "belt-look", Value: number(37), Unit: record.InDays},
			"Belt look: due, past by 37 days, and there is no record of it on this job."},
		{record.Finding{Code: record.JobNumberUsed, Value: first, Unit: record.AsDate, Text: "J-2217"},
			"Job number J-2217 stands on the record of 2026-05-04 already. Is this another job?"},
		{record.Finding{Code: record.CoolantProtection, Subject: "coolant", Value: number(-180), Limit: number(-250), Unit: record.InDegrees},
			"Coolant: the freezing point read -18 °C; the machine file asks for protection to -25 °C."},
		{record.Finding{Code: record.NoEarlierRecord},
			"No earlier record of this machine: nothing can be said here of early or late."},
		{record.Finding{Code: record.DoneLate, Subject: "engine-oil", Value: number(3640), Limit: number(89500), Unit: record.InHours},
			"Engine oil: done 36.4 h past due (due at 895 h)."},
		{record.Finding{Code: record.DoneLate, Subject: "engine-oil", Value: number(1), Unit: record.InDays},
			"Engine oil: done 1 day past due."},
		{record.Finding{Code: record.DoneInGrace, Subject: "engine-oil", Value: number(1260), Limit: number(70000), Unit: record.InHours},
			"Engine oil: done 12.6 h past due (due at 700 h), within the grace."},
		{record.Finding{Code: record.DoneEarly, Subject: "oil-filter", Value: number(340), Unit: record.InHours},
			"Oil filter: done 3.4 h before it fell due."},
		{record.Finding{Code: record.LevelHigh, Subject: "engine-oil", Value: number(1050), Limit: number(1000), Unit: record.InShare},
			"Engine oil: the level read 1.05; the upper mark is 1."},
		{record.Finding{Code: record.LevelLow, Subject: "engine-oil", Value: number(250), Limit: number(300), Unit: record.InShare},
			"Engine oil: the level read 0.25 after the change; under 0.3 is low."},
		{record.Finding{Code: record.NotMeasured, Subject: "engine-oil", Text: "level before"},
			"Engine oil: level before not measured."},
		{record.Finding{Code: record.TemperatureAssumed, Subject: "engine-oil", Text: "drained", Value: number(600), Limit: number(200), Unit: record.InDegrees},
			"Engine oil: no temperature written for drained; taken as 60 °C, give or take 20 °C."},
		{record.Finding{Code: record.LevelWaitUnstated, Subject: "engine-oil"},
			"Engine oil: no record of how long the engine had stood when the level was read."},
		{record.Finding{Code: record.HullNumberForm, Text: "ELS42"},
			"The hull number ELS42 has none of the forms that we know."},
		{record.Finding{Code: record.MeterChanged, Value: number(148230), Unit: record.InHours, Text: "glass broken"},
			"The hour meter was changed at 1482.3 h in total: glass broken."},
		{record.Finding{Code: record.RemovedReadingLost, Value: number(148230), Unit: record.InHours},
			"What the old hour meter read last is unknown; the hours in total count on from 1482.3 h."},
		{record.Finding{Code: record.HoursEstimated, Value: number(81000), Unit: record.InHours, Text: "engine log"},
			"The hours, 810 h, are an estimate, from: engine log."},
		{record.Finding{Code: record.OilSuitsByDirected, Subject: "engine-oil", Text: "API CK-4 for API CI-4"},
			"Engine oil: API CK-4 for API CI-4, which the table of categories allows."},
		{record.Finding{Code: record.OilRequirementAbsent, Subject: "gear-oil"},
			"Gear oil: the machine file names no specification, so nothing can be said of the one filled in."},
	} {
		if got := Finding(c.finding); got != c.want {
			t.Errorf("%v:\n got %s\nwant %s", c.finding.Code, got, c.want)
		}
	}
}

// Every rule has words, and there are none for rules that do not exist.
func TestFindingsCoverTheRules(t *testing.T) {
	names := map[string]bool{}
	for code, rule := range record.Rules {
		names[rule.Name] = true
		entry, ok := findings()[rule.Name]
		if !ok || entry.Says == "" {
			t.Errorf("%s: no sentence", rule.Name)
		}
		// What is refused or has to be decided needs a way out.
		if code < record.NoEarlierRecord && entry.Hint == "" {
			t.Errorf("%s: no hint", rule.Name)
		}
	}
	for name := range findings() {
		if !names[name] {
			t.Errorf("%s: words for no rule", name)
		}
	}
}

// Places and manner of the sentences: known names only, a capital and a full
// stop or question mark, and none of the words that judge.
func TestFindingsManner(t *testing.T) {
	known := map[string]bool{"task": true, "system": true, "machine": true, "value": true, "limit": true, "text": true}
	judging := regexp.MustCompile(`(?i)\b(not done|neglect|skipped|failed?|pass(ed)?|verified|fault of|technician|cheat|false)\b`)
	for name, entry := range findings() {
		for _, place := range entry.Says.places() {
			if !known[place] {
				t.Errorf("%s: no place called {%s}", name, place)
			}
		}
		says := string(entry.Says)
		if !regexp.MustCompile(`^([A-Z]|\{(task|system)\}).*[.?]$`).MatchString(says) {
			t.Errorf("%s: not a sentence: %s", name, says)
		}
		if word := judging.FindString(strings.ReplaceAll(says, "past due", "")); word != "" {
			t.Errorf("%s: says %q", name, word)
		}
		if strings.Count(says, "[") != strings.Count(says, "]") {
			t.Errorf("%s: brackets do not pair", name)
		}
	}
	for _, pattern := range []record.Code{record.HoursOutrunUse, record.ReadsLikeTwin, record.DateBeforeLast, record.JobNumberUsed} {
		if says := findings()[pattern.String()].Says; !strings.HasSuffix(string(says), "?") {
			t.Errorf("%v: a pattern is a question, never an accusation: %s", pattern, says)
		}
	}
}

func TestHint(t *testing.T) {
	for code, want := range map[record.Code]string{
		record.LevelReadEarly:    "let it stand, read again and correct level; if that cannot be, give the reason under accept: { level-read-early: … }",
		record.DueNotMentioned:   "write the item under tasks with the result it had, or as { result: deferred, why: … }; otherwise give the reason under accept: { due-not-mentioned/TASK: … }",
		record.DoneLate:          "",
		record.Code(999):         "",
		record.HoursBelowEarlier: "read the meter again and correct hours; where another meter was fitted, declare a change of meter: meter_change: { removed_at: unknown, fitted_at: N, why: … }, with the old meter's last reading for unknown where it is known",
	} {
		if got := Hint(code); got != want {
			t.Errorf("%v:\n got %s\nwant %s", code, got, want)
		}
	}
	for code := record.HoursOutrunUse; code < record.NoEarlierRecord; code++ {
		if _, ok := record.Rules[code]; ok && !strings.Contains(Hint(code), "accept: { "+code.String()) {
			t.Errorf("%v: the hint does not show accept: %s", code, Hint(code))
		}
	}
}

// A record made by a stranger may carry anything that the format allows, and
// findings of later programs.
func TestFindingNeverFails(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pick := func(label string) *int64 {
			if rapid.Bool().Draw(t, label+" given") {
				return number(rapid.OneOf(rapid.Int64(), rapid.SampledFrom([]int64{math.MinInt64, math.MaxInt64, 0})).Draw(t, label))
			}
			return nil
		}
		f := record.Finding{
			Code:    record.Code(rapid.Uint16Range(0, 60).Draw(t, "code")),
			Subject: rapid.String().Draw(t, "subject"),
			Text:    rapid.String().Draw(t, "text"),
			Value:   pick("value"), Limit: pick("limit"),
			Unit: record.Unit(rapid.Uint8().Draw(t, "unit")),
		}
		got := Finding(f)
		if got == "" {
			t.Fatal("no sentence")
		}
		// What a finding carries is printed as it is, never read as places.
		if f.Code == record.HoursEstimated && f.Text != "" && !strings.HasSuffix(got, "from: "+f.Text+".") {
			t.Fatalf("text %q is not in %q as it is", f.Text, got)
		}
	})
}

func TestFindingOfUnknownRule(t *testing.T) {
	const want = "A finding that this program has no words for: rule 999."
	if got := Finding(record.Finding{Code: 999, Subject: "x"}); got != want {
		t.Errorf("got %s", got)
	}
}
