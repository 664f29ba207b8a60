package jobsheet_test

import (
	"errors"
	"os"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record/jobsheet"
)

const plainSheet = "machine: gannet-port\ndate: 2026-05-04\nhours: 812.6\nreason: inspection\n"

func mustParseJob(t interface{ Fatal(...any) }, text string) jobsheet.Job {
	job, err := jobsheet.ParseJob("j.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return job
}

// TestWithFiles: names go into the text as it is written, and nothing else of it is
// touched; where that is not clear, nothing is.
func TestWithFiles(t *testing.T) {
	add := []string{"b.jpg", "c.pdf"}
	for _, c := range []struct{ what, text, want string }{ // want "": not clear
		{"no key", plainSheet, plainSheet + "files: [b.jpg, c.pdf]\n"},
		{"no line end", plainSheet + "place: slip", plainSheet + "place: slip\nfiles: [b.jpg, c.pdf]\n"},
		{"notes last", plainSheet + "notes: |\n  One.\n\n  Two: three.\n", plainSheet + "notes: |\n  One.\n\n  Two: three.\nfiles: [b.jpg, c.pdf]\n"},
		{"a comment last", plainSheet + "# files: [x.jpg]\n", plainSheet + "# files: [x.jpg]\nfiles: [b.jpg, c.pdf]\n"},
		{"Windows", strings.ReplaceAll(plainSheet, "\n", "\r\n"), strings.ReplaceAll(plainSheet+"files: [b.jpg, c.pdf]\n", "\n", "\r\n")},
		{"byte-order mark", "\xef\xbb\xbffiles: [a.txt]\n" + plainSheet, "\xef\xbb\xbffiles: [a.txt, b.jpg, c.pdf]\n" + plainSheet},
		{"an empty list", "files: []  # photographs\n" + plainSheet, "files: [b.jpg, c.pdf]  # photographs\n" + plainSheet},
		{"one name", "files: a.txt # one\n" + plainSheet, "files: [a.txt, b.jpg, c.pdf] # one\n" + plainSheet},
		{"one name in quotes", "files: 'a.txt'\n" + plainSheet, "files: ['a.txt', b.jpg, c.pdf]\n" + plainSheet},
		{"a list", "files: [ x.csv, a.txt ] # two\n" + plainSheet, "files: [ x.csv, a.txt, b.jpg, c.pdf ] # two\n" + plainSheet},
		{"a list in quotes", "files: [x.csv, \"a.txt\"]\n" + plainSheet, "files: [x.csv, \"a.txt\", b.jpg, c.pdf]\n" + plainSheet},
		{"a list on several lines", "files: [x.csv,\n  a.txt,  # the last\n  ]\n" + plainSheet, "files: [x.csv,\n  a.txt, b.jpg, c.pdf,  # the last\n  ]\n" + plainSheet},
		{"hyphens", "files:\n  - a.txt  # one\n" + plainSheet, "files:\n  - a.txt  # one\n  - b.jpg\n  - c.pdf\n" + plainSheet},
		{"hyphens last, no line end", plainSheet + "files:\n- x.csv\n- a.txt", plainSheet + "files:\n- x.csv\n- a.txt\n- b.jpg\n- c.pdf\n"},
		{"hyphens, Windows", "files:\r\n  - a.txt\r\n" + plainSheet, "files:\r\n  - a.txt\r\n  - b.jpg\r\n  - c.pdf\r\n" + plainSheet},
		{"letters of two bytes before it", "place: Øst, ålen\n" + plainSheet + "files: [a.txt]\n", "place: Øst, ålen\n" + plainSheet + "files: [a.txt, b.jpg, c.pdf]\n"},
		{"accept behind it", "files:\n  - a.txt\n" + plainSheet + "accept: { level-high: it was so }\n", "files:\n  - a.txt\n  - b.jpg\n  - c.pdf\n" + plainSheet + "accept: { level-high: it was so }\n"},
		{"the document's end", plainSheet + "...\n", ""},
		{"set in", "  " + strings.ReplaceAll(strings.TrimSpace(plainSheet), "\n", "\n  ") + "\n", ""},
		{"braces", "{ machine: gannet-port, date: 2026-05-04, hours: 812.6, reason: inspection }\n", ""},
		{"braces with files", "{ files: [a.txt], machine: gannet-port, date: 2026-05-04, hours: 812.6, reason: inspection }\n",
			"{ files: [a.txt, b.jpg, c.pdf], machine: gannet-port, date: 2026-05-04, hours: 812.6, reason: inspection }\n"},
		{"JSON", `{"machine": "gannet-port", "date": "2026-05-04", "hours": "812.6", "reason": "inspection", "files": ["a.txt"]}` + "\n", ""},
	} {
		got, err := jobsheet.WithFiles("j.yaml", []byte(c.text), add)
		if unclear := errors.As(err, new(*jobsheet.UnclearError)); unclear != (c.want == "") || err != nil && !unclear || string(got) != c.want {
			t.Errorf("%s: %v\n%s", c.what, err, got)
		}
	}
}

// TestWithFilesKeepsTheRest: whatever stands in a sheet, with names put into it the
// text is what it was, with something put in at one place, and means what it did.
func TestWithFilesKeepsTheRest(t *testing.T) {
	example, err := os.ReadFile("testdata/every-key.yaml")
	if err != nil {
		t.Fatal(err)
	}
	sheets := []string{plainSheet, string(example)}
	clear := 0
	rapid.Check(t, func(t *rapid.T) {
		lines := strings.SplitAfter(rapid.SampledFrom(sheets).Draw(t, "sheet"), "\n")
		for range rapid.IntRange(0, 4).Draw(t, "edits") {
			i := rapid.IntRange(0, len(lines)-1).Draw(t, "line")
			lines[i] += rapid.SampledFrom([]string{"\n", "# a note\n", "files: [x.txt]\n", "files:\n - x.txt\n", "...\n", "---\n", "  \n", "files: {}\n"}).Draw(t, "text")
		}
		text := strings.Join(lines, "")
		job, err := jobsheet.ParseJob("j.yaml", []byte(text))
		if err != nil {
			return
		}
		got, err := jobsheet.WithFiles("j.yaml", []byte(text), []string{"new.jpg"})
		if err != nil {
			return
		}
		clear++
		after := mustParseJob(t, string(got))
		if len(after.Files) != len(job.Files)+1 || after.Notes != job.Notes || len(after.Tasks) != len(job.Tasks) {
			t.Fatalf("%+v\n%s", after, got)
		}
		if len(got) < len(text)+len("new.jpg") || !isSubsequence(text, string(got)) {
			t.Fatalf("not the same text with something put in\n%s\n%s", text, got)
		}
	})
	if clear < 10 {
		t.Errorf("%d sheets only were clear", clear)
	}
}

func isSubsequence(of, in string) bool {
	i := 0
	for j := 0; j < len(in) && i < len(of); j++ {
		if in[j] == of[i] {
			i++
		}
	}
	return i == len(of)
}

// What a person is to write is in the sheet's own form: JSON is what is read as such.
func TestUnclearFiles(t *testing.T) {
	for sheet, want := range map[string]string{
		`{"files": ["a.txt"], "machine": "gannet-port", "date": "2026-05-04", "hours": "812.6", "reason": "inspection"}`: `"files": ["a.txt", "b.jpg"]`,
		"{ machine: gannet-port, date: 2026-05-04, hours: 812.6, reason: inspection }":                                   "files: [b.jpg]",
		plainSheet + "...\n": "files: [b.jpg]",
	} {
		_, err := jobsheet.WithFiles("j.yaml", []byte(sheet), []string{"b.jpg"})
		if unclear := new(jobsheet.UnclearError); !errors.As(err, &unclear) || unclear.Write != want {
			t.Errorf("%v\n%s", err, sheet)
		}
	}
	if got, err := jobsheet.WithFiles("j.yaml", []byte("machine: gannet-port\n"), []string{"b.jpg"}); err == nil || got != nil || errors.As(err, new(*jobsheet.UnclearError)) {
		t.Errorf("a sheet with faults: %v\n%s", err, got)
	}
}
