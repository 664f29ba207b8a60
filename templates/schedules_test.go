package templates_test

import (
	"io/fs"
	"slices"
	"strings"
	"testing"

	"hourseal/record/jobsheet"
	"hourseal/record/quantity"
	"hourseal/record/schedule"
	"hourseal/templates"
)

var builtIn = []string{"diesel-generator", "diesel-inboard", "petrol-outboard", "reduction-gear", "sail-drive"}

func loadSchedule(t *testing.T, id string) schedule.Schedule {
	t.Helper()
	name := id + ".yaml"
	data, err := fs.ReadFile(templates.Schedules(), name)
	if err != nil {
		t.Fatal(err)
	}
	s, _, err := jobsheet.ParseSchedule("schedules/"+name, data)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestSchedulesLoad(t *testing.T) {
	entries, err := fs.ReadDir(templates.Schedules(), ".")
	if err != nil {
		t.Fatal(err)
	}
	var found []string
	for _, entry := range entries {
		found = append(found, strings.TrimSuffix(entry.Name(), ".yaml"))
	}
	if !slices.Equal(found, builtIn) {
		t.Errorf("schedules: %q, want %q", found, builtIn)
	}
	systems := []string{"", "engine-oil", "coolant", "gear-oil", "drive-oil"}
	for _, id := range builtIn {
		s := loadSchedule(t, id)
		if n := len(s.Tasks); n < 8 || n > 20 {
			t.Errorf("%s: %d tasks, 8 to 20 wanted", id, n)
		}
		// A built-in schedule never passes for the maker's.
		if s.Basis.Kind != schedule.CommonPractice {
			t.Errorf("%s: basis %v", id, s.Basis.Kind)
		}
		for _, text := range []string{s.Title, s.Basis.Document} {
			if !strings.Contains(text, "the maker's handbook governs") {
				t.Errorf("%s: %q does not say that the maker's handbook governs", id, text)
			}
		}
		for _, task := range s.Tasks {
			for _, system := range []string{task.Needs.Drained, task.Needs.Filled, task.Needs.Level} {
				if !slices.Contains(systems, system) {
					t.Errorf("%s: %s: no machine file calls a system %q", id, task.ID, system)
				}
			}
			// What a new part or new oil is claimed by has to be shown.
			if task.Kind == schedule.Replace && task.Needs == (schedule.Needs{}) {
				t.Errorf("%s: %s: a replacement without evidence", id, task.ID)
			}
		}
	}
}

// span is from the shortest to the longest interval; zero: not by this.
type span struct{ hours, months [2]int64 }

// Intervals of common practice for small marine diesels: oil and filter 100 to
// 250 h or 12 months, first at 20 to 50 h; fuel filters 12 months (the same for
// standby sets in US Army TM 9-6115-464-12); impeller 12 months; coolant 2 to 5
// years; anodes 6 to 12 months; belts, hoses, exhaust 12 months; gear oil 12
// months or 100 to 250 h. Common practice, no source, where none is named.
func TestIntervalsAreCommonPractice(t *testing.T) {
	oil := span{hours: [2]int64{100, 250}, months: [2]int64{12, 12}}
	yearly := span{months: [2]int64{12, 12}}
	for id, want := range map[string]span{
		"engine-oil": oil, "oil-filter": oil, "gear-oil": oil, "drive-oil": oil,
		"fuel-filter": yearly, "fuel-filter-primary": yearly, "fuel-filter-secondary": yearly,
		"impeller": yearly, "belt-look": yearly, "hoses": yearly, "exhaust": yearly,
		"anodes":  {months: [2]int64{6, 12}},
		"coolant": {months: [2]int64{24, 60}},
	} {
		seen := false
		for _, scheduleID := range builtIn {
			task, ok := loadSchedule(t, scheduleID).Task(id)
			if !ok {
				continue
			}
			seen = true
			hours, months := int64(task.Every.Hours/quantity.Hour), int64(task.Every.Months)
			if want.hours[1] != 0 && (hours < want.hours[0] || hours > want.hours[1]) {
				t.Errorf("%s: %s: every %d h, %d to %d is common", scheduleID, id, hours, want.hours[0], want.hours[1])
			}
			if months < want.months[0] || months > want.months[1] {
				t.Errorf("%s: %s: every %d months, %d to %d is common", scheduleID, id, months, want.months[0], want.months[1])
			}
			if first := int64(task.First.Hours / quantity.Hour); want == oil && (first < 20 || first > 50) {
				t.Errorf("%s: %s: first at %d h, 20 to 50 is common", scheduleID, id, first)
			}
		}
		if !seen {
			t.Errorf("%s: in no schedule", id)
		}
	}
}
