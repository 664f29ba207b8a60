package jobsheet_test

import (
	"bytes"
	"reflect"
	"strings"
	"testing"

	"hourseal/record/jobsheet"
)

// Files of every kind read the same with Windows line ends, with a byte-order mark and
// with both, as YAML and as JSON; and their faults are at the same places.
func TestWindowsLineEnds(t *testing.T) {
	mark := []byte("\xef\xbb\xbf")
	windows := func(data []byte) []byte { return bytes.ReplaceAll(data, []byte("\n"), []byte("\r\n")) }
	job := must(jobsheet.ParseJob("job.yaml", everyKey(t, "every-key.yaml")))
	job.Notes = "First line.\n\n  Third line,\nlast line."
	machine := must(jobsheet.ParseMachine("machine.yaml", everyKey(t, "every-key-machine.yaml")))
	for name, data := range map[string][]byte{
		"job": everyKey(t, "every-key.yaml"), "job/written": job.YAML(), "job/JSON": job.JSON(),
		"yard": everyKey(t, "every-key-yard.yaml"), "yard/JSON": asJSON(t, everyKey(t, "every-key-yard.yaml")),
		"machine": everyKey(t, "every-key-machine.yaml"), "machine/written": machine.YAML(), "machine/JSON": machine.JSON(),
		"schedule": everyKey(t, "every-key-schedule.yaml"), "schedule/JSON": asJSON(t, everyKey(t, "every-key-schedule.yaml")),
	} {
		if bytes.Contains(data, []byte("\r")) || bytes.Count(data, []byte("\n")) < 3 {
			t.Fatalf("%s: no text of several plain lines", name)
		}
		kind, _, _ := strings.Cut(name, "/")
		parse := parsers[kind]
		want, err := parse(data)
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		wrong := bytes.Replace(bytes.Replace(data, []byte("surveyor"), []byte("survey"), 1), []byte("2026-05-04"), []byte("4 May"), 1)
		wrong = bytes.Replace(bytes.Replace(wrong, []byte("2024-03-18"), []byte("2024"), 1), []byte("next_from"), []byte("nextform"), 1)
		_, faults := parse(wrong)
		if faults == nil {
			t.Fatalf("%s: nothing wrong with\n%s", name, wrong)
		}
		for how, change := range map[string]func([]byte) []byte{
			"line ends": windows,
			"mark":      func(data []byte) []byte { return append(mark[:3:3], data...) },
			"both":      func(data []byte) []byte { return append(mark[:3:3], windows(data)...) },
		} {
			got, err := parse(change(data))
			if err != nil || !reflect.DeepEqual(got, want) {
				t.Errorf("%s, %s: %v\n got %+v\nwant %+v", name, how, err, got, want)
			}
			if _, err := parse(change(wrong)); err == nil || err.Error() != faults.Error() {
				t.Errorf("%s, %s: faults\n%v\nwant\n%v", name, how, err, faults)
			}
		}
	}
}
