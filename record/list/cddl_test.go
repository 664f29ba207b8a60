package list_test

import (
	"fmt"
	"os"
	"reflect"
	"regexp"
	"strings"
	"testing"

	"hourseal/record"
	"hourseal/record/list"
	"hourseal/record/quantity"
)

var (
	cddlRule   = regexp.MustCompile(`(?ms)^([a-z]+) = \{\n(.*?)^\}`)
	cddlMember = regexp.MustCompile(`(?m)^  (\?)? *([0-9]+): (.+?) *(?:;.*)?$`)
)

// cddlTypes are the types of list.cddl that a field of Go's may have.
func cddlTypes(t reflect.Type) []string {
	switch t {
	case reflect.TypeFor[list.Machine]():
		return []string{"machine"}
	case reflect.TypeFor[record.Issuer]():
		return []string{"issuer"}
	case reflect.TypeFor[[]list.End]():
		return []string{fmt.Sprintf("[1*%d end]", list.MaxEnds)}
	case reflect.TypeFor[record.IssuerKind]():
		return []string{"issuer-kind"}
	case reflect.TypeFor[record.ID]():
		return []string{"digest"}
	case reflect.TypeFor[quantity.Date]():
		return []string{"date"}
	case reflect.TypeFor[uint]():
		return []string{fmt.Sprint(list.Format)}
	case reflect.TypeFor[uint32]():
		return []string{"1..1000000"}
	case reflect.TypeFor[int64]():
		return []string{fmt.Sprintf("0..%d", int64(quantity.MaxDate)*86_400)}
	default: // text
		return []string{"line", "reason"}
	}
}

// TestCDDL: list.cddl names every field with its key, its type, and whether it may be
// left out, and nothing else; its limits are those of the code.
func TestCDDL(t *testing.T) {
	data, err := os.ReadFile("list.cddl")
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	maps := map[string]string{}
	for _, m := range cddlRule.FindAllStringSubmatch(text, -1) {
		maps[m[1]] = m[2]
	}
	for name, is := range map[string]reflect.Type{"list": reflect.TypeFor[list.List](), "machine": reflect.TypeFor[list.Machine](),
		"issuer": reflect.TypeFor[record.Issuer](), "end": reflect.TypeFor[list.End]()} {
		members := cddlMember.FindAllStringSubmatch(maps[name], -1)
		if len(members) != is.NumField() {
			t.Errorf("%s: %d members, %d fields", name, len(members), is.NumField())
			continue
		}
		for i, m := range members {
			field := is.Field(i)
			key, options, _ := strings.Cut(field.Tag.Get("cbor"), ",")
			if m[2] != key || (m[1] == "?") != strings.Contains(options, "omitempty") {
				t.Errorf("%s: member %q, field %s %s", name, m[0], field.Name, field.Tag)
			}
			types := cddlTypes(field.Type)
			ok := false
			for _, want := range types {
				ok = ok || m[3] == want
			}
			if !ok {
				t.Errorf("%s: %s is %s, want one of %q", name, field.Name, m[3], types)
			}
		}
		delete(maps, name)
	}
	if len(maps) > 0 {
		t.Errorf("maps that no type has: %v", maps)
	}
	var words []string
	for i, word := range record.IssuerWords {
		words = append(words, fmt.Sprintf("%s: %d", word, i+1))
	}
	for _, line := range []string{
		"issuer-kind = &( " + strings.Join(words, ", ") + " )",
		fmt.Sprintf("date = %d..%d ", quantity.MinDate, quantity.MaxDate),
		// A rune of what may be written takes 3 bytes at most.
		fmt.Sprintf("line = tstr .size (1..%d) ", 3*record.MaxText),
		fmt.Sprintf("reason = tstr .size (1..%d) ", 3*record.MaxReason),
	} {
		if !strings.Contains(text, "\n"+line) {
			t.Errorf("no line %q in list.cddl", line)
		}
	}
}
