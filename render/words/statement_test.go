package words

import (
	"io/fs"
	"reflect"
	"strings"
	"testing"

	"hourseal/templates"
)

// Every caption of a statement is there, and used by the package that prints it.
func TestStatementCaptions(t *testing.T) {
	selected := selectedIn(t, "../statement/*.go")
	if !selected["Statement"] {
		t.Fatal("nothing prints the statement")
	}
	texts := reflect.ValueOf(Statement())
	for i := range texts.NumField() {
		section := texts.Field(i)
		for j := range section.NumField() {
			field := section.Type().Field(j)
			at := texts.Type().Field(i).Tag.Get("json") + "/" + field.Tag.Get("json")
			if !selected[field.Name] {
				t.Errorf("%s is never printed", at)
			}
			switch v := section.Field(j); v.Kind() {
			case reflect.String:
				if strings.TrimSpace(v.String()) == "" {
					t.Errorf("%s: missing", at)
				}
			case reflect.Map:
				if v.Len() == 0 {
					t.Errorf("%s: missing", at)
				}
			default:
				t.Errorf("%s: not words", at)
			}
		}
	}
}

// The words are those of package verify/history.
func TestStatementWordings(t *testing.T) {
	texts := Statement()
	states := []string{"inside", "in-grace", "overdue", "not-known"}
	sameWords(t, "bands", texts.Chart.Bands, states)
	sameWords(t, "states", texts.Tasks.States, states)
	sameWords(t, "because", texts.Records.Because, []string{"cites", "cited-by", "received", "ledger-line"})
}

// The captions praise and blame nobody.
func TestStatementWords(t *testing.T) {
	data, err := fs.ReadFile(templates.Words(), "statement.json")
	if err != nil {
		t.Fatal(err)
	}
	for _, claim := range []string{"verified", "genuine", "certified", "guarantee", "not done", "failed", "neglect", "well kept"} {
		if strings.Contains(strings.ToLower(string(data)), claim) {
			t.Errorf("says %q", claim)
		}
	}
}
