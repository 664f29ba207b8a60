package jobsheet_test

import (
	"fmt"
	"io/fs"
	"strings"
	"testing"

	"hourseal/record/jobsheet"
	"hourseal/record/schedule"
	"hourseal/templates"
)

// TestCopyOfEverySchedule: of each built-in schedule, and of those of the tests, a copy
// differs from its text in four keys alone.
func TestCopyOfEverySchedule(t *testing.T) {
	texts := map[string][]byte{"scenario": load(t, "schedules/diesel-inboard-ellery.yaml"), "every key": everyKey(t, "every-key-schedule.yaml")}
	files, err := fs.Glob(templates.Schedules(), "*.yaml")
	if err != nil || len(files) < 3 {
		t.Fatal(files, err)
	}
	for _, file := range files {
		texts[file] = must(fs.ReadFile(templates.Schedules(), file))
	}
	basis := schedule.Basis{Kind: schedule.Maker, Document: "Corrin 4T-75 handbook: service", Edition: "2", Page: "31"}
	for name, data := range texts {
		text := string(data)
		if name == "scenario" {
			text = strings.ReplaceAll(text, "\n", "\r\n")
		}
		got, err := jobsheet.CopySchedule("built-in.yaml", []byte(text), "null", "Our own: #1", basis)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		var want, have []string // without the four
		copying := false        // the passage that a copy has no use for
		for line := range strings.Lines(text) {
			if strings.HasPrefix(line, "# Common practice for small marine engines, for use where") {
				copying = true
			}
			if !copying && !ofFour(line) {
				want = append(want, line)
			}
			copying = copying && line != "#\n"
		}
		for _, of := range []string{"copy this", "never says", "GOVERNS", "to copy"} {
			if strings.Contains(string(got), of) {
				t.Errorf("%s: the copy says %q still", name, of)
			}
		}
		for line := range strings.Lines(string(got)) {
			if !ofFour(line) {
				have = append(have, line)
			}
		}
		compareLines(t, strings.Join(have, ""), strings.Join(want, ""))
		for _, line := range []string{"id: \"null\"", "edition: 1", "title: \"Our own: #1\"", `basis: { kind: maker, document: "Corrin 4T-75 handbook: service", edition: "2", page: "31" }`} {
			ending := map[bool]string{true: "\r\n", false: "\n"}[name == "scenario"]
			if strings.Count(string(got), "\n"+line+ending) != 1 && !strings.HasPrefix(string(got), line+ending) {
				t.Errorf("%s: no line %s in\n%s", name, line, got)
			}
		}
		read, _, err := jobsheet.ParseSchedule("schedules/null.yaml", got)
		if err != nil || read.ID != "null" || read.Edition != 1 || read.Title != "Our own: #1" || read.Basis != basis {
			t.Errorf("%s: %+v, %v", name, read, err)
		}
	}
}

func ofFour(line string) bool {
	for _, key := range []string{"id:", "edition:", "title:", "basis:"} {
		if strings.HasPrefix(line, key) {
			return true
		}
	}
	return false
}

// The ways in which people set out the four keys.
func TestCopySchedule(t *testing.T) {
	const text = "# A sheet.\nid: old # its id\nedition:\n  7\ntitle: \"in two\n  lines\"\nbasis:\n  kind: class\n  # a remark\n  document: x\n# About next_from.\nnext_from: done\ntasks:\n  # First.\n  - { id: belt, title: Look at it, kind: inspect, every: { hours: 100 } } # id: x\n"
	got, err := jobsheet.CopySchedule("old.yaml", []byte("\xef\xbb\xbf"+text), "own", "", schedule.Basis{Kind: schedule.Yard})
	if err != nil {
		t.Fatal(err)
	}
	compareLines(t, string(got), "# A sheet.\nid: own\nedition: 1\ntitle: in two lines\nbasis: { kind: yard }\n# About next_from.\nnext_from: done\ntasks:\n  # First.\n  - { id: belt, title: Look at it, kind: inspect, every: { hours: 100 } } # id: x\n")

	// The head is over with the first line that is no comment; what stands below stays.
	const below = "# One.\n#\n# Copy this\n# file, please.\n#\n# Three.\n"
	got = must(jobsheet.CopySchedule("old.yaml", []byte(below+text+below), "own", "T", schedule.Basis{Kind: schedule.Yard}))
	if !strings.HasPrefix(string(got), "# One.\n#\n# Three.\n# A sheet.\nid: own\n") || !strings.HasSuffix(string(got), "# id: x\n"+below) {
		t.Errorf("%s", got)
	}

	long := strings.Repeat("x", 110)
	got = must(jobsheet.CopySchedule("old.yaml", []byte(text), "own", "T", schedule.Basis{Kind: schedule.Yard, Document: long}))
	if want := fmt.Sprintf("\nbasis:\n  kind: yard\n  document: %s\n# About", long); !strings.Contains(string(got), want) {
		t.Errorf("%s", got)
	}

	yard := schedule.Basis{Kind: schedule.Yard}
	for name, c := range map[string]struct {
		text, id, title string
		basis           schedule.Basis
		want            string
	}{
		"id":        {text, "Our Own", "", yard, `id: "Our Own": ids are small letters, digits and hyphens, at most 40 of them: write our-own`},
		"title":     {text, "own", " x", yard, "title: begins or ends with white space: take it out"},
		"no basis":  {text, "own", "", schedule.Basis{Document: "x"}, "basis: missing: write kind, one of maker, class, yard, common-practice"},
		"page":      {text, "own", "", schedule.Basis{Kind: schedule.Yard, Page: "3\n4"}, "basis: page: invisible character U+000A is not allowed: take it out"},
		"not a one": {"id: old\n", "own", "", yard, "old.yaml: edition: missing"},
		"braces":    {"{ id: old, edition: 7, title: T, basis: { kind: class }, next_from: done, tasks: [{ id: belt, title: Look, kind: inspect, every: { hours: 100 } }] }", "own", "", yard, "old.yaml:1:7: id: cannot be replaced: write the key at the beginning of a line"},
		"indent":    {"id: old\nedition: 7\n'title': T\nbasis: { kind: class }\nnext_from: done\ntasks:\n- { id: belt, title: Look, kind: inspect, every: { hours: 100 } }", "own", "", yard, "old.yaml:3:10: title: cannot be replaced: write the key at the beginning of a line"},
	} {
		got, err := jobsheet.CopySchedule("old.yaml", []byte(c.text), c.id, c.title, c.basis)
		if err == nil || got != nil || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("%s: %v\n%s", name, err, got)
		}
	}
}
