package jobsheet_test

import (
	"bytes"
	_ "embed"
	"encoding/json"
	"maps"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
)

// jobSchemaText is the description of a job sheet as JSON for programs that make one.
//
//go:embed job.schema.json
var jobSchemaText []byte

// schemaTree is the schema as JSON, with what $ref names in its place.
func schemaTree(t *testing.T) map[string]any {
	t.Helper()
	var tree map[string]any
	if err := json.Unmarshal(jobSchemaText, &tree); err != nil {
		t.Fatal(err)
	}
	defs := tree["$defs"].(map[string]any)
	var resolve func(v any) any
	resolve = func(v any) any {
		switch v := v.(type) {
		case map[string]any:
			merged := map[string]any{}
			if ref, is := v["$ref"].(string); is {
				maps.Copy(merged, resolve(defs[strings.TrimPrefix(ref, "#/$defs/")]).(map[string]any))
			}
			for key, value := range v {
				if key != "$ref" && key != "$defs" {
					merged[key] = resolve(value)
				}
			}
			return merged
		case []any:
			list := make([]any, len(v))
			for i, item := range v {
				list[i] = resolve(item)
			}
			return list
		}
		return v
	}
	return resolve(tree).(map[string]any)
}

// schemaKeys collects the keys that a schema names, by path as KeyPaths has them, each
// with its schema and whether it must be there. Groups that take no unknown keys alone
// are counted.
func schemaKeys(t *testing.T, schema map[string]any, path string, keys map[string]map[string]any, required map[string]bool) {
	if properties, is := schema["properties"].(map[string]any); is {
		if schema["type"] != "object" || schema["additionalProperties"] != false {
			t.Errorf("%q: a group that takes any key", path)
		}
		for key, value := range properties {
			at := strings.TrimPrefix(path+"/"+key, "/")
			keys[at] = value.(map[string]any)
			schemaKeys(t, keys[at], at, keys, required)
		}
		for _, key := range asList(schema["required"]) {
			required[strings.TrimPrefix(path+"/"+key.(string), "/")] = true
		}
	}
	if items, is := schema["items"].(map[string]any); is {
		schemaKeys(t, items, path+"/*", keys, required)
	}
	if values, is := schema["additionalProperties"].(map[string]any); is {
		schemaKeys(t, values, path+"/*", keys, required)
	}
	for _, word := range []string{"oneOf", "anyOf"} {
		for _, choice := range asList(schema[word]) {
			schemaKeys(t, choice.(map[string]any), path, keys, required)
		}
	}
}

func asList(v any) []any {
	list, _ := v.([]any)
	return list
}

// The schema has the keys of the forms and no others, asks for those that they ask for,
// and has a title for each.
func TestSchemaHasTheFormsKeys(t *testing.T) {
	keys, required := map[string]map[string]any{}, map[string]bool{}
	schemaKeys(t, schemaTree(t), "", keys, required)
	forms := jobsheet.KeyPaths("job")
	for _, key := range []string{"reading", "after", "at"} { // as level
		forms["fluids/*/level_before/"+key] = forms["fluids/*/level/"+key]
	}
	if len(forms) < 80 {
		t.Errorf("only %d keys", len(forms))
	}
	for path, k := range forms {
		if keys[path] == nil {
			t.Errorf("the schema has no %s", path)
			continue
		}
		if required[path] != k.Required {
			t.Errorf("%s: required %v, in the forms %v", path, required[path], k.Required)
		}
		if keys[path]["title"] == nil {
			t.Errorf("%s has no title", path)
		}
	}
	for path := range keys {
		if _, is := forms[path]; !is {
			t.Errorf("the forms have no %s", path)
		}
	}
}

// The schema's words are those of the record, and its limits are the record's.
func TestSchemaHasTheRecordsWords(t *testing.T) {
	keys := map[string]map[string]any{}
	schemaKeys(t, schemaTree(t), "", keys, map[string]bool{})
	words := map[string][]string{
		"reason": record.ReasonWords, "hours/meter": record.MeterStateWords[1:], "fluids/*/glycol": record.GlycolWords,
		"parts/*/supplied_by": record.SupplierWords, "leak_check/result": record.LeakWords,
		"tasks/*/result": record.ResultWords, "other_work/*/result": record.ResultWords,
	}
	for _, group := range []string{"tasks/*/", "other_work/*/", "fluids/*/seen/"} {
		words[group+"advice"], words[group+"owner"] = record.AdviceWords, record.OwnerWords
	}
	for path, want := range words {
		var got []string
		for _, word := range asList(keys[path]["enum"]) {
			got = append(got, word.(string))
		}
		equal(t, path, got, want)
	}
	for path, k := range keys {
		if k["enum"] != nil && words[path] == nil {
			t.Errorf("%s: words that are held to nothing", path)
		}
	}
	what := keys["fluids/*/seen/what"]
	var sights []string
	for _, word := range asList(what["items"].(map[string]any)["enum"]) {
		sights = append(sights, word.(string))
	}
	equal(t, "what was seen", sights, record.SightWords)

	amount := keys["fluids/*/filled"]["anyOf"].([]any)[2].(map[string]any)
	for name, limit := range map[string]struct {
		got  any
		want int
	}{
		"tasks": {keys["tasks"]["maxItems"], record.MaxTasks}, "other work": {keys["other_work"]["maxItems"], record.MaxOtherWork},
		"fluids": {keys["fluids"]["maxItems"], record.MaxFluids}, "topped up": {keys["topped_up"]["maxItems"], record.MaxTopUps},
		"waste": {keys["waste"]["maxItems"], record.MaxWaste}, "parts": {keys["parts"]["maxItems"], record.MaxParts},
		"duties": {keys["severe_duty"]["maxItems"], record.MaxDuties}, "meets": {keys["fluids/*/meets"]["maxItems"], record.MaxMeets},
		"sights": {what["maxItems"], record.MaxSights}, "readings": {keys["tasks/*/reading"]["maxProperties"], record.MaxReadings},
		"findings": {keys["accept"]["maxProperties"], record.MaxFindings}, "notes": {keys["notes"]["maxLength"], record.MaxNotes},
		"text": {keys["place"]["maxLength"], record.MaxText}, "reason": {keys["tasks/*/why"]["maxLength"], record.MaxReason},
		"other work's text": {keys["other_work/*/text"]["maxLength"], record.MaxReason}, "portions": {amount["maxItems"], quantity.MaxPortions},
	} {
		if limit.got != float64(limit.want) {
			t.Errorf("%s: %v, want %d", name, limit.got, limit.want)
		}
	}
}

func jobSchema(t testing.TB) *jsonschema.Schema {
	t.Helper()
	document, err := jsonschema.UnmarshalJSON(bytes.NewReader(jobSchemaText))
	if err != nil {
		t.Fatal(err)
	}
	compiler := jsonschema.NewCompiler()
	compiler.DefaultDraft(jsonschema.Draft2020)
	compiler.AssertFormat()
	if err := compiler.AddResource("job.schema.json", document); err != nil {
		t.Fatal(err)
	}
	schema, err := compiler.Compile("job.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	return schema
}

func fits(t testing.TB, schema *jsonschema.Schema, text []byte) error {
	t.Helper()
	value, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	return schema.Validate(value)
}

// TestSchemaTakesJobs: what the program writes fits the schema, any job.
func TestSchemaTakesJobs(t *testing.T) {
	schema := jobSchema(t)
	for name, data := range map[string][]byte{"example": load(t, "jobs/gannet-port-2026-05-04.yaml"), "every key": everyKey(t, "every-key.yaml")} {
		if err := fits(t, schema, must(jobsheet.ParseJob("job.yaml", data)).JSON()); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		text := randomJob(t).JSON()
		value, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		if err := schema.Validate(value); err != nil {
			t.Fatalf("%s\n%v", text, err)
		}
	})
}

// TestSchemaExamples: the example of the whole is the example of the scenario, and each
// example of a part fits where it stands, in the schema and in a sheet.
func TestSchemaExamples(t *testing.T) {
	schema, tree := jobSchema(t), schemaTree(t)
	whole, err := json.Marshal(asList(tree["examples"])[0])
	if err != nil {
		t.Fatal(err)
	}
	if err := fits(t, schema, whole); err != nil {
		t.Error(err)
	}
	equal(t, "example", withoutPlaces(must(jobsheet.ParseJob("job.json", whole))), withoutPlaces(must(jobsheet.ParseJob("job.yaml", load(t, "jobs/gannet-port-2026-05-04.yaml")))))

	keys := map[string]map[string]any{}
	schemaKeys(t, tree, "", keys, map[string]bool{})
	tried := 0
	for path, k := range keys {
		for _, example := range asList(k["examples"]) {
			tried++
			text := sheetWith(t, path, example)
			if err := fits(t, schema, text); err != nil {
				t.Errorf("%s: %v", path, err)
			}
			if _, err := jobsheet.ParseJob("job.json", text); err != nil {
				t.Errorf("%s: %s\n%v", path, text, err)
			}
		}
	}
	if tried < 60 {
		t.Errorf("only %d examples", tried)
	}
}

// sheetWith is the sheet with every key, with one value in the place of another. The
// first entry of a list stands for all.
func sheetWith(t *testing.T, path string, value any) []byte {
	t.Helper()
	var sheet any
	if err := json.Unmarshal(must(jobsheet.ParseJob("job.yaml", everyKey(t, "every-key.yaml"))).JSON(), &sheet); err != nil {
		t.Fatal(err)
	}
	at := sheet
	steps := strings.Split(path, "/")
	for i, step := range steps {
		switch here := at.(type) {
		case map[string]any:
			if step == "*" {
				step = slices.Min(slices.Collect(maps.Keys(here)))
			}
			if i == len(steps)-1 {
				if step == "held" {
					delete(here, "to")
					delete(here, "receipt")
				}
				here[step] = value
			} else if _, group := here[step].(string); group && steps[i+1] != "*" { // "not measured"
				here[step] = map[string]any{"reading": 0.5}
			}
			at = here[step]
		case []any:
			at = here[0]
		}
	}
	text, err := json.Marshal(sheet)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// TestSchemaRefuses: what is wrong with a sheet is wrong by the schema, and to the
// program.
func TestSchemaRefuses(t *testing.T) {
	schema := jobSchema(t)
	wrong := [][]byte{[]byte(`{}`), []byte(`{"machine": "gannet-port"}`)}
	for _, keys := range []string{
		`"colour": "red"`, `"reason": "maintenance"`, `"hours": "812,6"`, `"hours": -1`, `"hours": {"meter": "stopped"}`, `"hours": {"meter": "running", "estimate": 1, "basis": "x"}`,
		`"date": "4.5.2026"`, `"date": "2026-02-30"`, `"machine": "Gannet Port"`, `"place": " x"`, `"place": ""`, `"fuel_used": 9.4`, `"fuel_used": "9.4"`, `"fuel_used": []`,
		`"fuel_used": ["not measured"]`, `"fuel_used": ["1 L","1 L","1 L","1 L","1 L","1 L","1 L","1 L","1 L"]`, `"tasks": [{"id": "belt"}]`, `"tasks": [{"id": "belt", "result": "fine"}]`,
		`"tasks": [{"id": "belt", "result": "ok", "look_again": {}}]`, `"tasks": [{"id": "belt", "result": "ok", "reading": {"gap": {}}}]`, `"tasks": [{"id": "belt", "result": "ok", "reading": {"": "1 mm"}}]`,
		`"tasks": {"id": "belt", "result": "ok"}`, `"other_work": [{"text": "x"}]`, `"fluids": [{}]`, `"fluids": [{"system": "engine-oil", "level": 0.85}]`,
		`"fluids": [{"system": "engine-oil", "level": {"after": "15 min"}}]`, `"fluids": [{"system": "engine-oil", "seen": []}]`, `"fluids": [{"system": "engine-oil", "seen": {"what": ["sand"]}}]`,
		`"fluids": [{"system": "engine-oil", "drained_includes_filter": "perhaps"}]`, `"fluids": [{"system": "engine-oil", "meets": ["a", "a"]}]`, `"topped_up": [{"system": "engine-oil"}]`,
		`"waste": [{"system": "engine-oil", "amount": "1 L", "to": "x", "held": "y"}]`, `"waste": [{"system": "engine-oil", "amount": "1 L", "receipt": "x", "held": "y"}]`, `"parts": [{"item": "belt", "quantity": 0}]`,
		`"parts": [{"number": "x"}]`, `"leak_check": {"after": "10 min"}`, `"leak_check": {"result": "seen", "after": 10}`, `"meter_change": {"fitted_at": 1}`, `"accept": {"/x": "y"}`, `"accept": {"x": 1.5, "y": ""}`,
		`"notes": "` + strings.Repeat("x", 601) + `"`, `"severe_duty": [1, 1]`,
	} {
		key, _, _ := strings.Cut(strings.TrimPrefix(keys, `"`), `"`)
		sheet := map[string]any{}
		if err := json.Unmarshal([]byte(shortJSON), &sheet); err != nil {
			t.Fatal(err)
		}
		change := map[string]any{}
		if err := json.Unmarshal([]byte("{"+keys+"}"), &change); err != nil {
			t.Fatal(err)
		}
		sheet[key] = change[key]
		wrong = append(wrong, must(json.Marshal(sheet)))
	}
	for _, text := range wrong {
		if err := fits(t, schema, text); err == nil {
			t.Errorf("the schema takes %s", text)
		}
		if _, err := jobsheet.ParseJob("job.json", text); err == nil {
			t.Errorf("the program takes %s", text)
		}
	}
	for key := range jobsheet.KeyPaths("job") { // each key that must be there
		if strings.Contains(key, "/") || !jobsheet.KeyPaths("job")[key].Required {
			continue
		}
		sheet := map[string]any{}
		if err := json.Unmarshal([]byte(shortJSON), &sheet); err != nil {
			t.Fatal(err)
		}
		delete(sheet, key)
		if err := fits(t, schema, must(json.Marshal(sheet))); err == nil {
			t.Errorf("the schema does without %s", key)
		}
	}
}

// TestTakenBesidesTheSchema: what the schema's description says that the program takes
// besides, it takes.
func TestTakenBesidesTheSchema(t *testing.T) {
	schema := jobSchema(t)
	for keys, plain := range map[string]string{
		`"place": null`:                                                  "",
		`"job_number": 2217`:                                             `"job_number": "2217"`,
		`"severe_duty": "dust"`:                                          `"severe_duty": ["dust"]`,
		`"parts": [{"item": "belt", "quantity": "2"}]`:                   `"parts": [{"item": "belt", "quantity": 2}]`,
		`"fluids": [{"system": "engine-oil", "seen": "water"}]`:          `"fluids": [{"system": "engine-oil", "seen": {"what": ["water"]}}]`,
		`"fluids": [{"system": "engine-oil", "seen": {"what": "fuel"}}]`: `"fluids": [{"system": "engine-oil", "seen": {"what": ["fuel"]}}]`,
	} {
		want := []byte(shortJSON)
		if plain != "" {
			want = with(plain)
		}
		if err := fits(t, schema, with(keys)); err == nil {
			t.Errorf("%s fits the schema", keys)
		}
		if err := fits(t, schema, want); err != nil {
			t.Errorf("%s: %v", plain, err)
		}
		got, err := jobsheet.ParseJob("job.json", with(keys))
		if err != nil || !reflect.DeepEqual(withoutSource(got), withoutSource(must(jobsheet.ParseJob("job.json", want)))) {
			t.Errorf("%s: %v", keys, err)
		}
	}
}
