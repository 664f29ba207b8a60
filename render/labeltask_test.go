package render

import (
	"fmt"
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
	"hourseal/render/words"
)

func labelTexts() words.LabelTexts { return words.Label() }

// job is a record with tasks as "id kind result due-hours", the title being
// "Title of id".
func jobOf(t *testing.T, tasks ...string) *record.Record {
	t.Helper()
	kinds := map[string]schedule.Kind{"replace": schedule.Replace, "inspect": schedule.Inspect, "test": schedule.Test, "clean": schedule.Clean}
	results := map[string]record.Result{"done": record.Done, "ok": record.OK, "watch": record.Watch, "defect": record.Defect, "deferred": record.Deferred, "-": 0}
	r := example()
	r.Tasks = nil
	for _, text := range tasks {
		var id, kind, result string
		var due int64
		if n, err := fmt.Sscan(text, &id, &kind, &result, &due); n != 4 {
			t.Fatal(text, err)
		}
		r.Tasks = append(r.Tasks, record.Task{ID: id, Title: "Title of " + id, Kind: kinds[kind], Result: results[result],
			Every: schedule.Interval{Hours: quantity.Hour}, Due: schedule.Due{Hours: new(quantity.Hours(due) * quantity.Hour)}})
	}
	return r
}

func TestLabelTask(t *testing.T) {
	for _, c := range []struct {
		name   string
		tasks  []string
		named  string
		what   string
		system string
		due    string
	}{
		{"oil and filter", []string{"oil-filter replace done 200", "engine-oil replace done 200"}, "", "Oil and filter", "engine-oil", "200"},
		{"the filter every second time", []string{"oil-filter replace done 400", "engine-oil replace done 200"}, "", "Oil and filter", "engine-oil", "200"},
		{"the oil alone", []string{"oil-filter replace deferred 200", "engine-oil replace done 300"}, "", "Engine oil", "engine-oil", "300"},
		{"the filter alone", []string{"impeller replace done 100", "oil-filter replace done 200", "engine-oil replace - 300"}, "", "Oil filter", "engine-oil", "200"},
		{"oil before the first", []string{"impeller replace done 100", "gear-oil replace done 200"}, "", "Gear oil", "gear-oil", "200"},
		{"gear oil before drive oil", []string{"drive-oil replace done 100", "gear-oil replace done 200"}, "", "Gear oil", "gear-oil", "200"},
		{"drive oil", []string{"belt replace done 100", "drive-oil replace done 200"}, "", "Drive oil", "drive-oil", "200"},
		{"the first that was done", []string{"belt replace deferred 100", "impeller replace done 200", "anodes replace done 300"}, "", "Raw-water impeller", "impeller", "200"},
		{"its own title", []string{"mixing-box replace done 100"}, "", "Title of mixing-box", "mixing-box", "100"},
		{"a look at the oil is no oil change", []string{"engine-oil test done 100", "oil-filter replace done 200"}, "", "Title of engine-oil", "engine-oil", "100"},
		{"a look that found nothing", []string{"belt inspect ok 100"}, "", "Title of belt", "belt", "100"},
		{"a replacement before a look", []string{"belt-look inspect ok 100", "impeller replace done 200"}, "", "Raw-water impeller", "impeller", "200"},
		{"a replacement not needed", []string{"belt replace ok 100", "impeller replace done 200"}, "", "Raw-water impeller", "impeller", "200"},
		{"found and left", []string{"belt inspect defect 100", "hoses inspect watch 150", "impeller replace done 200"}, "", "Raw-water impeller", "impeller", "200"},
		{"named", []string{"engine-oil replace done 100", "impeller replace done 200"}, "impeller", "Raw-water impeller", "impeller", "200"},
		{"named, by itself", []string{"oil-filter replace done 400", "engine-oil replace done 200"}, "oil-filter", "Oil filter", "engine-oil", "400"},
	} {
		r := jobOf(t, c.tasks...)
		got, err := labelTaskOf(r, c.named, labelTexts())
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if got.what != c.what || got.system != c.system || got.due.Hours.String() != c.due {
			t.Errorf("%s: got %q, %s, due at %v", c.name, got.what, got.system, got.due.Hours)
		}
	}
}

func TestLabelTaskRefuses(t *testing.T) {
	many := []string{"a replace done 1", "b replace done 1", "c replace done 1", "d replace done 1", "e replace done 1", "f replace done 1", "g replace done 1"}
	for _, c := range []struct {
		named, want string
		tasks       []string
	}{
		{"", "no task was done on this job: there is nothing to put on a label", nil},
		{"belt", "no task was done on this job", []string{"belt replace deferred 1", "hoses inspect watch 1", "anodes replace - 1"}},
		{"belt", "task belt was not done on this job: name one of impeller, anodes", []string{"belt replace deferred 1", "impeller replace done 1", "anodes replace done 1"}},
		{"belts", `the record has no task "belts": name one of impeller`, []string{"impeller replace done 1"}},
		{"\x1b[31m", `the record has no task "\x1b[31m": name one of a, b, c, d, e, f, ...`, many},
	} {
		_, err := labelTaskOf(jobOf(t, c.tasks...), c.named, labelTexts())
		if err == nil || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("%q: got %v, want %s", c.named, err, c.want)
		}
	}
}

// What was filled stands on the label of the task that it belongs to.
func TestLabelFilled(t *testing.T) {
	for _, c := range []struct {
		name   string
		task   string
		change func(*record.Fluid)
		want   string
	}{
		{"with the oil", "engine-oil", func(*record.Fluid) {}, "Harrow HD 15W-40"},
		{"with the filter", "oil-filter", func(*record.Fluid) {}, "Harrow HD 15W-40"},
		{"not with a test of the coolant", "coolant-strength", func(*record.Fluid) {}, ""},
		{"drained alone", "engine-oil", func(f *record.Fluid) { f.Filled = nil }, ""},
		{"not measured", "engine-oil", func(f *record.Fluid) { f.Filled = &quantity.Measured{NotMeasured: true} }, "Harrow HD 15W-40"},
		{"no product", "engine-oil", func(f *record.Fluid) { f.Product = "" }, "15W-40"},
		{"neither", "engine-oil", func(f *record.Fluid) { f.Product, f.Viscosity = "", "" }, ""},
	} {
		r := example()
		c.change(&r.Fluids[0])
		task, err := labelTaskOf(r, c.task, labelTexts())
		if err != nil {
			t.Fatal(err)
		}
		if got := (&label{r: r, task: task}).filled(); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}
