package jobsheet_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/jobsheet"
	"hourseal/record/schedule"
)

// oddText draws texts that a sheet may hold, among them those that YAML takes for
// something else.
func oddText() *rapid.Generator[string] {
	odd := rapid.SampledFrom([]string{
		"0012", "00", "1e5", "0x1F", "1_000", "2026-05-04", "12:30", "null", "Null", "NULL", "~", "true", "No", "y", ".inf", "-", "- a", "a: b", "a:", "a #b", "#7",
		`"`, `'`, `a"b`, `\`, `\u0041`, "&a", "*a", "!a", "@a", "`a", "%a", "|", ">", "?", "? a", "[a]", "{a: b}", "a, b", "a]", "---", "...", "<<", "=", "é", "ß 7", "a\u00a0b", "\u4e2d"})
	drawn := rapid.StringOfN(rapid.RuneFrom([]rune(`abcXYZ019 -_.,:;#"'\/{}[]&*!|>%@?~+=<()éß`)), 1, 24, -1)
	return rapid.OneOf(odd, drawn).Filter(func(s string) bool { return s != "" && record.CheckText(s, record.MaxText) == nil })
}

// Whatever a part, an oil, a reading or a machine is called, it is read back so;
// and whatever stands in a remark, it stays one.
func TestBlankKeepsTexts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(what string) string { return oddText().Draw(t, what) }
		part := record.Part{Item: draw("item"), Number: draw("number"), Quantity: 2, SuppliedBy: record.ByYard}
		oil := record.Fluid{System: "engine-oil", Product: draw("product"), Viscosity: draw("viscosity"), Meets: []string{draw("meets")}}
		if other := draw("meets"); other != oil.Meets[0] {
			oil.Meets = append(oil.Meets, other)
		}
		reading, loose := draw("reading"), rapid.String().Draw(t, "remark")
		b := jobsheet.Blank{
			Machine: jobsheet.Machine{
				ID: rapid.SampledFrom([]string{"null", "0012", "true", "gannet-port"}).Draw(t, "machine"), Serial: loose, Make: loose,
				Systems: []jobsheet.System{{Name: "engine-oil", Meets: []string{loose}, Viscosity: []string{loose}}},
			},
			Tasks: []schedule.Task{{ID: "no", Title: loose, Severe: schedule.Severe{When: loose},
				Needs: schedule.Needs{Filled: "engine-oil", Drained: "x" + loose, Part: part.Item, Reading: reading}}},
			Parts: []record.Part{part}, Fluids: []record.Fluid{oil},
		}
		text := fill(t, string(b.YAML()), nil)
		job, err := jobsheet.ParseJob("blank.yaml", []byte(text))
		if err != nil {
			t.Fatalf("%s\n%v", text, err)
		}
		got := job.Fluids[0]
		if job.Machine != b.Machine.ID || job.Tasks[0].ID != "no" || !slices.Equal(job.Parts, b.Parts) || got.Product != oil.Product ||
			got.Viscosity != oil.Viscosity || !slices.Equal(got.Meets, oil.Meets) || job.Tasks[0].Readings[0].Name != reading {
			t.Fatalf("%s\n%+v", text, job)
		}
	})
}
