package main

import (
	"regexp"
	"strings"

	"hourseal/record"
	"hourseal/record/check"
	"hourseal/record/jobsheet"
)

// What to type about a finding is worded for a job sheet. Of a job in options it is
// said with options; the keys of the machine file stay as they are.

// hintIn is hintFor of a job that came from a source.
func hintIn(source jobsheet.Source, f check.Finding) string {
	hint := hintFor(f)
	if source.Said == nil {
		return hint
	}
	if f.Code == record.AnswerMissing {
		list, _, _ := strings.Cut(f.Path, "/")
		return strings.ReplaceAll(whyOptions[list], "SUBJECT", f.Subject)
	}
	hint = underAccept.ReplaceAllStringFunc(hint, func(found string) string {
		return "with --accept '" + jobsheet.KeyLine(underAccept.FindStringSubmatch(found)[1], "WHY") + "'"
	})
	subject := f.Subject
	if subject == "" {
		subject = "SYSTEM"
	}
	return strings.ReplaceAll(sheetToOptions.Replace(hint), "SUBJECT", subject)
}

var underAccept = regexp.MustCompile(`under accept: \{ ([^ ]+): … \}`)

// whyOptions say where a missing reason goes, by the list that the finding stands in.
var whyOptions = map[string]string{
	"tasks":      "write the reason: --why 'SUBJECT=part on order'",
	"fluids":     "write behind a bar what was done about it: --seen 'SUBJECT=water | what was done about it'",
	"other_work": "write the reason behind a bar: --other-work 'deferred: Hose weeps | part on order'",
}

// sheetWords are the words of hints that speak of a job sheet, and the options in
// their place; at each place the first that fits holds. SUBJECT is that of the finding.
var sheetWords = [][2]string{
	{"meter_change: { removed_at: unknown, fitted_at: N, why: … }", "--meter-change 'unknown to N, WHY'"},
	{"write leak_check: { result: none seen, after: 10 min }", "say --leak-check 'none seen after 10 min'"},
	{"write the item under tasks with the result it had, or as { result: deferred, why: … }", "say the result it had with --task 'SUBJECT=RESULT', or deferred, and why with --why 'SUBJECT=WHY'"},
	{"as level: { reading: 0.85, after: 15 min }", "as --level 'SUBJECT=0.85 after 15 min'"},
	{"write it under waste, with to and receipt, or with held where the yard keeps it", "say it with --waste 'SUBJECT=AMOUNT to WHERE, receipt NUMBER', or 'SUBJECT=AMOUNT held WHERE' where the yard keeps it"},
	{"correct filled, drained, drawn_down, level_before or level, whichever is wrong", "correct --filled, --drained, --drawn-down, --level-before or --level, whichever is wrong"},
	{"write what was found under seen", "say what was found with --seen"},
	{"write it under topped_up", "say it with --topped-up"},
	{"the amounts under waste and drained", "the amounts of --waste and --drained"},
	{"check drained and", "check --drained and"},
	{"check meets against", "check the categories in --product against"},
	{"check viscosity against", "check the viscosity in --product against"},
	{"check glycol against", "check the glycol in --product against"},
	{"drained_includes_filter", "--filter-in-drained"},
	{"leak_check", "--leak-check"},
	{"correct job_number", "correct --job-number"},
	{"correct date, or the date under in_service", "correct --date, or the date under in_service"},
	{"correct hours, or the hours under in_service", "correct --hours, or the hours under in_service"},
	{"correct hours or date", "correct --hours or --date"},
	{"correct date", "correct --date"},
	{"correct hours", "correct --hours"},
	{"correct level", "correct --level"},
	{"hourseal issue JOB --corrects", "write the options into a sheet with --jobsheet JOB and --try, then hourseal issue JOB --corrects"},
}

var sheetToOptions = func() *strings.Replacer {
	var pairs []string
	for _, w := range sheetWords {
		pairs = append(pairs, w[0], w[1])
	}
	return strings.NewReplacer(pairs...)
}()
