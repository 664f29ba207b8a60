package jobsheet_test

import (
	"bytes"
	"cmp"
	"encoding/json"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"go.yaml.in/yaml/v3"

	"hourseal/record/jobsheet"
)

// shortJSON is shortJob as JSON.
const shortJSON = `{"machine": "gannet-port", "date": "2026-05-04", "hours": 812.6, "reason": "scheduled"}`

// with puts keys behind those of shortJSON.
func with(keys string) []byte { return []byte(strings.TrimSuffix(shortJSON, "}") + ", " + keys + "}") }

// asJSON writes a YAML file as JSON, figures as they stand where JSON has such figures.
func asJSON(t testing.TB, data []byte) []byte {
	t.Helper()
	var tree yaml.Node
	if err := yaml.Unmarshal(data, &tree); err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	var write func(n *yaml.Node)
	write = func(n *yaml.Node) {
		switch {
		case n.Kind == yaml.MappingNode:
			for i, child := range n.Content {
				b.WriteString([]string{"{", ": ", ",\n", ": "}[min(i, 2+i%2)])
				write(child)
			}
			b.WriteString(strings.Repeat("{", max(0, 1-len(n.Content))) + "}")
		case n.Kind == yaml.SequenceNode:
			b.WriteString("[")
			for i, child := range n.Content {
				b.WriteString(strings.Repeat(", ", min(i, 1)))
				write(child)
			}
			b.WriteString("]")
		case n.Style == 0 && n.Tag != "!!str" && n.Tag != "!!timestamp" && !strings.ContainsAny(n.Value, "eE_") && json.Valid([]byte(n.Value)), n.Tag == "!!bool":
			b.WriteString(n.Value)
		default:
			text, err := json.Marshal(n.Value)
			if err != nil {
				t.Fatal(err)
			}
			b.Write(text)
		}
	}
	write(tree.Content[0])
	return b.Bytes()
}

// Every kind of file says the same as JSON as it does as YAML.
func TestFilesAsJSON(t *testing.T) {
	for name, data := range map[string][]byte{
		"job/example":        load(t, "jobs/gannet-port-2026-05-04.yaml"),
		"job/every key":      everyKey(t, "every-key.yaml"),
		"yard/example":       load(t, "yard.yaml"),
		"yard/every key":     everyKey(t, "every-key-yard.yaml"),
		"machine/example":    load(t, "machines/gannet-port.yaml"),
		"machine/every key":  everyKey(t, "every-key-machine.yaml"),
		"schedule/example":   load(t, "schedules/diesel-inboard-ellery.yaml"),
		"schedule/every key": everyKey(t, "every-key-schedule.yaml"),
	} {
		kind, _, _ := strings.Cut(name, "/")
		text := asJSON(t, data)
		if !json.Valid(text) {
			t.Fatalf("%s: no JSON:\n%s", name, text)
		}
		got, err := parsers[kind](text)
		if err != nil {
			t.Errorf("%s\n%s\n%v", name, text, err)
			continue
		}
		equal(t, name, got, must(parsers[kind](data)))
	}
}

// Places are counted in characters, from 1, in whatever way the text is set out.
func TestJSONPlaces(t *testing.T) {
	text := "\xef\xbb\xbf{\r\n\t\"machine\": \"gannet-port\",\r\n\t\"date\":\"2026-05-04\",\"place\":\"Größe ßß\",\"hours\"\r\n : 812.60, \"reason\": \"scheduled\",\r\n\t\"tasks\": [ {\"id\":\"belt\",\r\n\"result\":\"ok\"}, {\"id\":\"x\", \"result\":\"done\"} ], \"accept\": {\"leak-seen\": \"é\"}, \"notes\": null }\r\n"
	job, err := jobsheet.ParseJob("job.json", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	for path, want := range map[string]string{
		"machine": "2:13", "date": "3:9", "place": "3:30", "hours": "4:4", "reason": "4:22", "tasks": "5:11", "tasks/0": "5:13", "tasks/0/id": "5:19",
		"tasks/0/result": "6:10", "tasks/1": "6:17", "tasks/1/id": "6:23", "tasks/1/result": "6:37", "accept": "6:58", "accept/leak-seen": "6:72",
	} {
		if got := job.Source.At(path); got != "job.json:"+want {
			t.Errorf("%s: %s, want %s", path, got, want)
		}
	}
	equal(t, "accept", job.Accept, []jobsheet.Accept{{Code: "leak-seen", Reason: "é", At: "job.json:6:59"}})
	if len(job.Source.Lines) != 14 {
		t.Errorf("%d places: %v", len(job.Source.Lines), job.Source.Lines)
	}
}

// What JSON says and how it is taken: figures as they are written, null as a key left
// out, escapes as what they stand for.
func TestJSONValues(t *testing.T) {
	job := func(keys string) jobsheet.Job {
		t.Helper()
		got, err := jobsheet.ParseJob("job.json", with(keys))
		if err != nil {
			t.Fatalf("%s: %v", keys, err)
		}
		return withoutSource(got)
	}
	plain := withoutSource(must(jobsheet.ParseJob("job.yaml", []byte(shortJob))))
	equal(t, "nothing besides", job(`"notes": null, "tasks": null, "technician": null`), plain)
	equal(t, "null within", job(`"technician": {"number": null}, "accept": {"leak-seen": null}, "tasks": [], "fuel_used": null`), plain)
	for keys, want := range map[string]string{
		`"place": "0118"`:         "0118",
		`"place": 0.30`:           "0.30",
		`"place": 118`:            "118",
		`"place": true`:           "true",
		`"place": "a\/b"`:         "a/b",
		`"place": "\u00e9\"\\"`:   `é"\`,
		`"place": "null"`:         "null",
		`"place": "{a: b} # <&>"`: "{a: b} # <&>",
	} {
		if got := job(keys).Place; got != want {
			t.Errorf("%s: %q", keys, got)
		}
	}
	equal(t, "notes", job(`"notes": "one\r\ntwo\n\n  three\n"`).Notes, "one\ntwo\n\n  three")
	equal(t, "a figure without a unit", job(`"tasks": [{"id": "belt", "result": "ok", "reading": {"turns": 0.30}}]`).Tasks[0].Readings[0].Value.String(), "0.30")
	equal(t, "a list of one", job(`"fluids": [{"system": "engine-oil", "meets": "API CK-4", "seen": "water"}]`), job(`"fluids": [{"system": "engine-oil", "meets": ["API CK-4"], "seen": {"what": ["water"]}}]`))
	equal(t, "hours as a text", withoutSource(must(jobsheet.ParseJob("job.json", []byte(strings.Replace(shortJSON, "812.6", `"812.60"`, 1))))), plain)
}

// A brace before a key without quotes is YAML, as ever.
func TestBracesOfYAML(t *testing.T) {
	for _, text := range []string{
		"{ machine: gannet-port, date: 2026-05-04, hours: 812.6, reason: scheduled }\n",
		"{ 'machine': gannet-port, \"date\": 2026-05-04, hours: 812.6, reason: scheduled, }\n",
		"# a remark\n{ \"machine\": gannet-port, date: 2026-05-04, hours: 812.6, reason: scheduled }\n",
	} {
		if _, err := jobsheet.ParseJob("job.yaml", []byte(text)); err != nil {
			t.Errorf("%s%v", text, err)
		}
	}
}

func TestJSONFaults(t *testing.T) {
	for text, want := range map[string]string{
		// no JSON
		`{`:   `job.json:1:1: cannot be read: a brace, bracket or quote that is opened here and never closed: close it`,
		"{\n": `job.json:1:1: cannot be read: a brace, bracket or quote that is opened here and never closed: close it`,
		"{\"machine\": \"gannet-port\",\n \"tasks\": [\n  {\"id\": \"belt\"}\n": `job.json:2:11: cannot be read: a brace, bracket or quote that is opened here and never closed: close it`,
		`{"machine": "gannet-port`:                   `job.json:1:13: cannot be read: a brace, bracket or quote that is opened here and never closed: close it`,
		"{\"machine\": \"gannet-port,\n\"date\": 1}": `job.json:1:26: cannot be read: a text that does not end on its line: close the double quotes, and write \n where a new line begins`,
		"{\"machine\": \"gannet\tport\"}":            `job.json:1:20: cannot be read: a tab in a text: write a space`,
		`{"machine": "a\b\x"}`:                       `job.json:1:18: cannot be read: a backslash that JSON has no such use for: write two`,
		`{"machine": "\u12g4"}`:                      `job.json:1:18: cannot be read: \u without four hexadecimal digits: write the character itself`,
		`{"machine": "a",}`:                          `job.json:1:17: cannot be read: a comma after the last value: take it out`,
		`{"tasks": [1,]}`:                            `job.json:1:14: cannot be read: a comma after the last value: take it out`,
		`{"machine": "a", date: 1}`:                  `job.json:1:18: cannot be read: a key without double quotes: write it as "hours": 812.6`,
		`{"machine": gannet}`:                        `job.json:1:13: cannot be read: a text without double quotes: write it as "scheduled"`,
		`{"machine": 'gannet'}`:                      `job.json:1:13: cannot be read: a text without double quotes: write it as "scheduled"`,
		`{"machine": none}`:                          `job.json:1:14: cannot be read: a text without double quotes: write it as "scheduled"`,
		`{"machine": }`:                              `job.json:1:13: cannot be read: nothing written: write a value, or null`,
		`{"hours": 0812}`:                            `job.json:1:12: cannot be read: a figure that begins with 0: put it between double quotes`,
		`{"tasks": [0812]}`:                          `job.json:1:13: cannot be read: a figure that begins with 0: put it between double quotes`,
		`{"hours": .5}`:                              `job.json:1:11: cannot be read: a figure that JSON has no such way to write: write it as 812.6, 0.5 or -2`,
		`{"hours": -x}`:                              `job.json:1:12: cannot be read: a figure that JSON has no such way to write: write it as 812.6, 0.5 or -2`,
		`{"hours": 812.}`:                            `job.json:1:15: cannot be read: a point without decimals: write it as 812.6`,
		`{"hours": 8e}`:                              `job.json:1:13: cannot be read: a figure with an exponent: write it as 812.6`,
		`{"drained": 9.4 L}`:                         `job.json:1:17: cannot be read: a comma left out, or a text without double quotes: write { "id": "engine-oil", "result": "done" }`,
		`{"filled": [5 L]}`:                          `job.json:1:15: cannot be read: a comma left out, or a text without double quotes: write ["5 L", "4.3 L"]`,
		`{"machine" "gannet"}`:                       `job.json:1:12: cannot be read: a colon left out after the key: write it as "hours": 812.6`,
		shortJSON + "\n{}":                           `job.json:2:1: cannot be read: text after the last brace: take it out`,
		`{"tasks": ` + strings.Repeat("[", 20_000):   `job.json:1:10010: cannot be read: groups and lists within each other without end: no sheet needs as many, take some out`,

		// no sheet
		`{}`: "job.json: machine: missing: write the machine's id, as gannet-port\njob.json: date: missing: write the date of the job, as 2026-05-04\n" +
			"job.json: hours: missing: write the hour-meter reading, as 812.6, or { \"meter\": \"stopped\", \"estimate\": 810, \"basis\": \"engine log\" }\n" +
			"job.json: reason: missing: write why the job was done, one of scheduled, defect, casualty, warranty, revisit, lay-up, recommission, commissioning, inspection",
		strings.Replace(shortJSON, `"gannet-port"`, "null", 1):                        `job.json: machine: missing: write the machine's id, as gannet-port`,
		strings.Replace(shortJSON, `812.6`, "8.1260e2", 1):                            `job.json:1:59: "8.1260e2", a figure with an exponent: write 812.60`,
		strings.Replace(shortJSON, `812.6`, "8E99", 1):                                "job.json:1:59: \"8E99\", a figure with an exponent: write the figure out\njob.json:1:59: hours: \"8E99\": write the figure out, without an exponent",
		strings.Replace(shortJSON, `812.6`, `""`, 1):                                  `job.json:1:59: hours: nothing written: write the hour-meter reading, as 812.6, or { "meter": "stopped", "estimate": 810, "basis": "engine log" }`,
		string(with(`"colour": null`)):                                                `job.json:1:89: unknown key "colour": write one of machine, date, hours, meter_change, reason, job_number, place, severe_duty, fuel_used, technician, tasks, other_work, fluids, topped_up, waste, parts, leak_check, files, accept, notes`,
		string(with(`"palce": "x"`)):                                                  `job.json:1:89: unknown key "palce": write place`,
		string(with(`"place": null, "place": "x"`)):                                   `job.json:1:104: place: written twice, first on line 1: keep one`,
		string(with(`"<<": {}`)):                                                      `job.json:1:89: unknown key "<<": write one of machine, date, hours, meter_change, reason, job_number, place, severe_duty, fuel_used, technician, tasks, other_work, fluids, topped_up, waste, parts, leak_check, files, accept, notes`,
		string(with(`"place": "a\ud83dz"`)):                                           `job.json:1:98: \ud83d is half a character: write the character itself` + "\n" + `job.json:1:98: place: character U+FFFD stands for one that was lost: write the text again`,
		string(with(`"place": "\ud83d\ude00"`)):                                       `job.json:1:98: place: character U+1F600 cannot be printed: leave it out`,
		string(with(`"place": "\\ud83d"`)):                                            "",
		string(with(`"place": "a\u0007b"`)):                                           `job.json:1:98: place: invisible character U+0007 is not allowed: take it out`,
		string(with(`"place": {}`)):                                                   `job.json:1:98: place: a group of keys here: write where the job was done, as Port Ellery, east slip`,
		string(with(`"fuel_used": 1850`)):                                             `job.json:1:102: fuel_used: "1850": no unit: write L, mL, US gal, US qt, US pt, US fl oz, imp gal, imp qt, imp pt, imp fl oz, kg, g or lb after the figure`,
		string(with(`"fuel_used": []`)):                                               `job.json:1:102: fuel_used: an empty list: write an amount, as 9.4 L or 9.4 L at 16 C, a sum, as ["5 L", "4.3 L"], or not measured`,
		string(with(`"tasks": {}`)):                                                   `job.json:1:98: tasks: a group of keys here: write a list between brackets, its entries as { "id": "engine-oil", "result": "done" }`,
		string(with(`"tasks": [null]`)):                                               `job.json:1:99: tasks: "null" means nothing here: write { "id": "engine-oil", "result": "done" }`,
		string(with(`"technician": []`)):                                              `job.json:1:103: technician: a list here: write { "number": "118", "credential": "Ellery Slip card" }`,
		string(with(`"tasks": ` + strings.Repeat("[", 16) + strings.Repeat("]", 16))): `job.json:1:113: 17 groups and lists within each other: no sheet needs as many, take some out`,
		"{\"place\": \"\u2028\"}":                                                     `job.json:1:12: invisible character U+2028: take it out, or save the file as plain UTF-8 text`,
		"{\"place\": \"\xff\"}":                                                       `job.json:1:12: not UTF-8 text: save the file as UTF-8`,
		"{\"place\": \"\x00\"}":                                                       `job.json:1:12: invisible character U+0000: take it out, or save the file as plain UTF-8 text`,
	} {
		_, err := jobsheet.ParseJob("job.json", []byte(text))
		got := ""
		if err != nil {
			got = err.Error()
		}
		if got != want {
			t.Errorf("%.200s\n got %s\nwant %s", text, got, want)
		}
		sound(t, []byte(text), err)
	}
}

// The figures that stand in place of those with an exponent are the same figures.
func TestExponents(t *testing.T) {
	for figure, want := range map[string]string{
		"1e3": "1000", "1E+3": "1000", "12e-1": "1.2", "8.1260e2": "812.60", "8.126e1": "81.26", "1e-3": "0.001", "-2.5e0": "-2.5", "0.5e1": "5",
		"0e0": "0", "-0.05e1": "-0.5", "1.5e20": "150000000000000000000", "1e21": "too far", "1e99999999999999999999": "too far", "10e-21": "too far",
		"0.001e2": "0.1", "123e-5": "0.00123", "812.6": "",
	} {
		got, is := jobsheet.WithoutExponent(figure)
		if is != (want != "") || is && cmp.Or(got, "too far") != want {
			t.Errorf("%s: %s, %v", figure, got, is)
		}
	}
}

// jsonLikeAnother reads JSON with encoding/json's own decoder and writes it anew: all
// that is left is what the text says.
func jsonLikeAnother(t testing.TB, data []byte) []byte {
	decoder := json.NewDecoder(bytes.NewReader(bytes.TrimPrefix(data, []byte("\xef\xbb\xbf"))))
	decoder.UseNumber()
	var value map[string]any
	if err := decoder.Decode(&value); err != nil {
		t.Fatalf("taken, and no JSON: %v\n%s", err, data)
	}
	text, err := json.Marshal(value)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// FuzzJobJSON: no text ends the program; what is taken is JSON, says the same when
// another reader has written it anew, and is read as written when it is written as
// YAML and as JSON.
func FuzzJobJSON(f *testing.F) {
	files, err := filepath.Glob(scenario + "/jobs/*.yaml")
	if err != nil || len(files) == 0 {
		f.Fatal("no seeds", err)
	}
	for _, file := range append(files, "testdata/every-key.yaml") {
		data, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(asJSON(f, data))
		f.Add(must(jobsheet.ParseJob("job.yaml", data)).JSON())
	}
	for _, keys := range []string{`"notes": null`, `"place": "\ud83d\ude00"`, `"fuel_used": ["5 L", "4.3 L"]`, `"tasks": [{"id":"belt","result":"watch","reading":{"gap":{"as_found":"0.25 mm"}}}]`, `"hours": 1e2`, `"accept": {"a/b": "c"}`} {
		f.Add(with(keys))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		job, err := jobsheet.ParseJob("job.json", data)
		sound(t, data, err, job.Place, job.Number, job.By.Name)
		recordTakes(t, job)
		if err != nil {
			return
		}
		for _, text := range [][]byte{job.YAML(), job.JSON()} {
			again, err := jobsheet.ParseJob("job.json", text)
			if err != nil || !reflect.DeepEqual(withoutSource(again), withoutSource(job)) {
				t.Errorf("%s\nwritten as\n%s\n%v\n got %+v\nwant %+v", data, text, err, again, job)
			}
		}
		if start := bytes.TrimLeft(bytes.TrimPrefix(data, []byte("\xef\xbb\xbf")), " \t\r\n"); !bytes.HasPrefix(start, []byte(`{"`)) {
			return // it may have been YAML
		}
		anew := jsonLikeAnother(t, data)
		again, err := jobsheet.ParseJob("job.json", anew)
		if err != nil || !reflect.DeepEqual(withoutPlaces(again), withoutPlaces(job)) {
			t.Errorf("%s\nwritten anew as\n%s\n%v\n got %+v\nwant %+v", data, anew, err, again, job)
		}
	})
}
