package jobsheet_test

import (
	"fmt"
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/jobsheet"
)

// TestFileNames: what every system can keep under one name, and nobody takes for a
// path or an option.
func TestFileNames(t *testing.T) {
	for _, name := range []string{"plate.jpg", "a", "7", "IMG_0412.JPG", "lab-2026-05-04.pdf", "a..b", "console.txt", "com10.txt", strings.Repeat("n", record.MaxText)} {
		if err := jobsheet.CheckFileName(name); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	for name, want := range map[string]string{
		"": "nothing written", ".": "a letter or digit first", "..": "a letter or digit first", ".hidden": "a letter or digit first",
		"-rf": "a letter or digit first", "_a": "a letter or digit first", "../keys/yard": "is a path", `..\keys`: "is a path", "C:a.jpg": "is a path",
		"/etc/passwd": "is a path", "a b.jpg": "letters a to z", "plåt.jpg": "letters a to z", "a\x00.jpg": "letters a to z", "a\x1b[2J.jpg": "letters a to z",
		"a.": "ends with a full stop", "con": "name of a device", "NUL.jpg": "name of a device", "Aux.tar.gz": "name of a device", "com1.txt": "name of a device",
		strings.Repeat("n", record.MaxText+1): "121 characters, at most 120 fit",
	} {
		err := jobsheet.CheckFileName(name)
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %s", name, err, want)
			continue
		}
		if strings.ContainsAny(err.Error(), "\x00\x1b") {
			t.Errorf("%q: its characters are in the message as they are", name)
		}
	}
}

// TestFilesOfAJob: the key takes a list or one name, and every fault of it has its place.
func TestFilesOfAJob(t *testing.T) {
	for written, want := range map[string][]string{
		"[]": nil, "plate.jpg": {"plate.jpg"}, "[plate.jpg, meter.jpg]": {"plate.jpg", "meter.jpg"}, "\n  - a.pdf\n  - b.csv": {"a.pdf", "b.csv"},
	} {
		equal(t, written, must(jobsheet.ParseJob("j.yaml", []byte(shortJob+"files: "+written+"\n"))).Files, want)
	}
	var names []string
	for i := range record.MaxFiles + 1 {
		names = append(names, fmt.Sprintf("f%d.jpg", i))
	}
	for written, want := range map[string]string{
		"":                                    "j.yaml:5:1: files: nothing written: write the names of the files that go with the record, as [plate.jpg, meter.jpg], or leave the key out",
		"[plate.jpg, ../a.jpg]":               `j.yaml:5:20: files: "../a.jpg" is a path: write the name of the file alone`,
		"[plate.jpg, plate.jpg]":              `j.yaml:5:20: files: "plate.jpg" is written twice: keep one`,
		"[plate.jpg, Plate.JPG]":              `j.yaml:5:8: files: plate.jpg and Plate.JPG differ in capitals only, and some systems keep one of the two: write another name`,
		"{ plate: plate.jpg }":                "j.yaml:5:8: files: a group of keys here: write the names of the files that go with the record, as [plate.jpg, meter.jpg]",
		"[" + strings.Join(names, ", ") + "]": "j.yaml:5:8: files: 17 entries, at most 16 fit: take some out",
	} {
		_, err := jobsheet.ParseJob("j.yaml", []byte(shortJob+"files: "+written+"\n"))
		equal(t, written, message(t, err), want)
	}
}
