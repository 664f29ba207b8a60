package words

import (
	"reflect"
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/schedule"
)

// Every caption of a worksheet is there, and used by the package that prints it.
func TestWorksheetCaptions(t *testing.T) {
	selected := selectedIn(t, "../worksheet/*.go")
	if !selected["Worksheet"] {
		t.Fatal("nothing prints the worksheet")
	}
	texts := reflect.ValueOf(Worksheet())
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

func TestWorksheetWordings(t *testing.T) {
	texts := Worksheet()
	var states []string
	for s := schedule.Later; s <= schedule.Overdue; s++ {
		states = append(states, s.String())
	}
	sameWords(t, "states", texts.Due.States, states)
	sameWords(t, "marks", texts.Results.Marks, record.ResultWords)
	sameWords(t, "basis", texts.Hours.Basis, []string{"readings", "few", "file"})
}
