package words

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/schedule"
)

// A key missing in report.yaml would print nothing; one that has no field is
// refused when the file is read.
func TestReportIsComplete(t *testing.T) {
	var walk func(path string, v reflect.Value)
	walk = func(path string, v reflect.Value) {
		switch v.Kind() {
		case reflect.Struct:
			for i := range v.NumField() {
				walk(path+"/"+v.Type().Field(i).Tag.Get("json"), v.Field(i))
			}
		case reflect.Map:
			if v.Len() == 0 {
				t.Errorf("%s: missing", path)
			}
			for _, key := range v.MapKeys() {
				walk(path+"/"+key.String(), v.MapIndex(key))
			}
		case reflect.Slice:
			if v.Len() == 0 {
				t.Errorf("%s: missing", path)
			}
			for i := range v.Len() {
				walk(fmt.Sprintf("%s/%d", path, i), v.Index(i))
			}
		case reflect.String:
			if strings.TrimSpace(v.String()) == "" {
				t.Errorf("%s: missing", path)
			}
		default:
			t.Errorf("%s: not words", path)
		}
	}
	walk("", reflect.ValueOf(Report()))
}

func TestFilesAreReadStrictly(t *testing.T) {
	for what, c := range map[string]struct{ data, want string }{
		"a key without a field": {`{"document": {"why": "Why", "wherefore": "Wherefore"}}`, "wherefore"},
		"something behind it":   {`{"document": {"why": "Why"}} {}`, "stands behind"},
		"a bracket behind it":   {`{"document": {"why": "Why"}}]`, "stands behind"},
		"a number for text":     {`{"document": {"why": 12}}`, "number"},
		"true for text":         {`{"document": {"why": true}}`, "bool"},
		"no value":              {"", "EOF"},
		"all is well":           {"{\"document\": {\"why\": \"Why\"}}\n", ""},
	} {
		texts, err := parse[Texts]([]byte(c.data))
		switch {
		case c.want == "" && (err != nil || texts.Document.Why != "Why"):
			t.Errorf("%s: %q, %v", what, texts.Document.Why, err)
		case c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)):
			t.Errorf("%s: %v, want %q", what, err, c.want)
		}
	}
}

// The wordings carry exactly the words of their enumeration.
func TestWordingsMatchTheirEnumeration(t *testing.T) {
	texts := Report()
	for name, c := range map[string]struct {
		wording Wording
		words   []string
	}{
		"titles":      {texts.Document.Titles, record.KindWords},
		"about":       {texts.Document.About, record.KindWords[1:]},
		"issuer":      {texts.Issuer.By, record.IssuerWords},
		"meter_state": {texts.Machine.MeterState, record.MeterStateWords},
		"reasons":     {texts.Job.Reasons, record.ReasonWords},
		"advices":     {texts.Left.Advices, record.AdviceWords},
		"answers":     {texts.Left.Answers, record.OwnerWords},
		"suppliers":   {texts.Parts.Suppliers, record.SupplierWords},
		"sights":      {texts.Fluids.Sights, record.SightWords[1:]},
		"glycols":     {texts.Fluids.Glycols, record.GlycolWords},
		"methods":     {texts.Fluids.Methods, record.MethodWords},
		"basis":       {texts.Schedule.Basis, schedule.BasisKinds()},
		"severities":  {texts.Findings.Severities, record.SeverityWords[:2]},
	} {
		sameWords(t, name, c.wording, c.words)
	}
	kinds := append(schedule.Kinds(), "other")
	sameWords(t, "results", texts.Tasks.Results, kinds)
	for _, kind := range kinds {
		sameWords(t, "results/"+kind, texts.Tasks.Results[kind], record.ResultWords)
	}
}

func sameWords[V any, M ~map[string]V](t *testing.T, name string, wording M, words []string) {
	t.Helper()
	for word := range wording {
		if !slices.Contains(words, word) {
			t.Errorf("%s: %s is no such word", name, word)
		}
	}
	for _, word := range words {
		if _, ok := wording[word]; !ok {
			t.Errorf("%s: nothing for %s", name, word)
		}
	}
}

func TestResultWords(t *testing.T) {
	tasks := Report().Tasks
	for _, c := range []struct{ got, want string }{
		{tasks.ResultOf(schedule.Replace, record.Done), "replaced"},
		{tasks.ResultOf(schedule.Clean, record.Done), "cleaned"},
		{tasks.ResultOf(schedule.Adjust, record.Done), "adjusted"},
		{tasks.ResultOf(schedule.Inspect, record.OK), "inspected, nothing to do"},
		{tasks.ResultOf(schedule.Inspect, record.Watch), "serviceable, look again"},
		{tasks.ResultOf(schedule.Test, record.Defect), "found and left"},
		{tasks.ResultOf(schedule.Replace, record.Deferred), "put off"},
		{tasks.ResultOfOther(record.Done), "done"},
		{tasks.ResultOf(99, record.Done), "done"}, // not a kind: the word of the job sheet
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}

// The sentences that the format lays down word for word.
func TestFixedSentences(t *testing.T) {
	texts := Report()
	if got, want := texts.Seal.Warning, "Do not trust a page that this code opens. Go to the yard's page yourself, or use the program."; got != want {
		t.Errorf("got %q", got)
	}
	if got, want := texts.Banner.Overfilled, "OVERFILLED: do not run until drawn down"; got != want {
		t.Errorf("got %q", got)
	}
	if got, want := texts.Next.Stated, "stated, not under seal"; got != want {
		t.Errorf("got %q", got)
	}
}
