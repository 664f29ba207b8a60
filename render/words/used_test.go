package words

import (
	"reflect"
	"testing"
)

// Every caption is used by the package that prints the report.
func TestEveryCaptionIsUsed(t *testing.T) {
	selected := selectedIn(t, "../*.go")
	if !selected["Report"] {
		t.Fatal("nothing prints the report")
	}
	sections := reflect.TypeFor[Texts]()
	for i := range sections.NumField() {
		section := sections.Field(i)
		for j := range section.Type.NumField() {
			field := section.Type.Field(j)
			// Results are reached through ResultOf and ResultOfOther.
			if !selected[field.Name] && !(field.Name == "Results" && selected["ResultOf"]) {
				t.Errorf("%s/%s is never printed", section.Tag.Get("json"), field.Tag.Get("json"))
			}
		}
	}
}
