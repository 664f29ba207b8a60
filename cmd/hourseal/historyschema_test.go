package main

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
)

// historySchema is the published description of the JSON of "hourseal history".
func historySchema(t testing.TB) *jsonschema.Schema {
	t.Helper()
	schema, err := jsonschema.NewCompiler().Compile("../../verify/history/history.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	return schema
}

// fitsSchema holds every line of an answer to the schema.
func fitsSchema(t testing.TB, schema *jsonschema.Schema, answer []byte) {
	t.Helper()
	lines := bytes.Split(bytes.TrimSpace(answer), []byte("\n"))
	for _, line := range lines {
		value, err := jsonschema.UnmarshalJSON(bytes.NewReader(line))
		if err != nil {
			t.Fatal(err)
		}
		if err := schema.Validate(value); err != nil {
			t.Errorf("%v\n%.3000s", err, line)
		}
	}
}

// TestHistorySchemaRefuses: the schema is no sieve that lets everything through: each
// key is wanted, and no other is taken.
func TestHistorySchemaRefuses(t *testing.T) {
	schema := historySchema(t)
	f := newYard(t)
	f.must(t, 0, "issue", portJob, "--no-input")
	line := []byte(strings.TrimSpace(f.must(t, int(exitUnknownSigner), "history", "records", "--json", "--on", "2026-05-04").stdout))
	fitsSchema(t, schema, line)
	var answer map[string]any
	if err := json.Unmarshal(line, &answer); err != nil {
		t.Fatal(err)
	}
	refused := func(what string, change func(map[string]any)) {
		var changed map[string]any
		if err := json.Unmarshal(line, &changed); err != nil {
			t.Fatal(err)
		}
		change(changed)
		if err := schema.Validate(changed); err == nil {
			t.Errorf("taken: %s", what)
		}
	}
	for key := range answer {
		refused("without "+key, func(a map[string]any) { delete(a, key) })
		refused(key+" as text", func(a map[string]any) { a[key] = map[string]any{"x": strings.Repeat("x", 3)} })
	}
	refused("one more key", func(a map[string]any) { a["praise"] = "well kept" })
}
