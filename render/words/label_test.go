package words

import (
	"io/fs"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"hourseal/templates"
)

// A key missing in label.yaml would print nothing on the sticker.
func TestLabelIsComplete(t *testing.T) {
	texts := reflect.ValueOf(Label())
	for i := range texts.NumField() {
		field, v := texts.Type().Field(i), texts.Field(i)
		if v.IsZero() || v.Kind() != reflect.String && v.Len() == 0 {
			t.Errorf("%s: missing", field.Tag.Get("json"))
		}
	}
	if _, err := parse[LabelTexts]([]byte(`{"seriall": "Serial"}`)); err == nil {
		t.Error("a key without a field passed")
	}
}

// The places of each phrase are the ones that the label fills.
func TestLabelPlaces(t *testing.T) {
	texts := Label()
	for _, c := range []struct {
		phrase Phrase
		want   []string
	}{
		{texts.Done, []string{"date", "hours"}},
		{texts.Reading, []string{"total"}},
		{texts.NextBoth, []string{"hours", "date"}},
		{texts.NextHours, []string{"hours"}},
		{texts.NextDate, []string{"date"}},
		{texts.NextReading, []string{"total"}},
		{texts.Serial, []string{"serial"}},
	} {
		if got := c.phrase.places(); !slices.Equal(got, c.want) {
			t.Errorf("%q: places %q, want %q", c.phrase, got, c.want)
		}
	}
}

// What a label calls a replacement is one in a built-in schedule.
func TestLabelNamesReplacements(t *testing.T) {
	schedules := ""
	err := fs.WalkDir(templates.Schedules(), ".", func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		data, err := fs.ReadFile(templates.Schedules(), path)
		schedules += string(data)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	for id := range Label().What {
		if !regexp.MustCompile(`id: ` + regexp.QuoteMeta(id) + `\n.*\n +kind: replace\n`).MatchString(schedules) {
			t.Errorf("%s: no replacement in any schedule", id)
		}
	}
	for _, group := range Label().Together {
		for _, id := range group.Tasks {
			if Label().What[id] == "" {
				t.Errorf("%s: together with others, yet not by itself", id)
			}
		}
	}
}

// The warning beside a label's code is the report's, as far as there is room.
// The words claim nothing.
func TestLabelWords(t *testing.T) {
	if long := Report().Seal.Warning; !strings.HasPrefix(long, Label().Warning+" ") {
		t.Errorf("%q is not how %q begins", Label().Warning, long)
	}
	if !strings.Contains(strings.ToLower(Label().Record), "service record") {
		t.Error("does not say that it is a service record")
	}
	data, err := fs.ReadFile(templates.Words(), "label.json")
	if err != nil {
		t.Fatal(err)
	}
	for _, claim := range []string{"verified", "genuine", "certified", "guarantee", "approved", "passed"} {
		if strings.Contains(strings.ToLower(string(data)), claim) {
			t.Errorf("says %q", claim)
		}
	}
}
