package record_test

import (
	"fmt"
	"os"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hourseal/record"
	"hourseal/record/quantity"
	"hourseal/record/recordtest"
	"hourseal/record/schedule"
)

// A cddl is record.cddl taken apart, as far as that file uses the language: maps
// with number keys, ranges, sizes, one pattern, enumerations.
type cddl map[string]rule

type rule struct {
	members []member         // of a map
	words   map[string]int64 // of an enumeration
	other   string           // any other type, as written
	isMap   bool
}

type member struct {
	key      uint64
	optional bool
	is       string // its type, as written
}

var (
	ruleStart  = regexp.MustCompile(`(?m)^([a-z][a-z-]*) = `)
	memberLine = regexp.MustCompile(`^(\? )?([0-9]+): (.+)$`)
	wordPair   = regexp.MustCompile(`(?:"([^"]+)"|([A-Za-z0-9-]+)): ([0-9]+)`)
	listType   = regexp.MustCompile(`^\[([0-9]+)\*([0-9]+) ([a-z-]+)\]$`)
	rangeType  = regexp.MustCompile(`^(-?[0-9]+)\.\.(-?[0-9]+)$`)
	sizeType   = regexp.MustCompile(`^tstr \.size \(([0-9]+)\.\.([0-9]+)\)$`)
)

func readCDDL(t *testing.T) cddl {
	t.Helper()
	data, err := os.ReadFile("record.cddl")
	if err != nil {
		t.Fatal(err)
	}
	text := regexp.MustCompile(` *;.*`).ReplaceAllString(string(data), "")
	starts := ruleStart.FindAllStringSubmatchIndex(text, -1)
	rules := cddl{}
	for i, at := range starts {
		end := len(text)
		if i+1 < len(starts) {
			end = starts[i+1][0]
		}
		name, body := text[at[2]:at[3]], strings.TrimSpace(text[at[1]:end])
		if _, twice := rules[name]; twice {
			t.Errorf("%s is there twice", name)
		}
		rules[name] = readRule(t, name, body)
	}
	return rules
}

func readRule(t *testing.T, name, body string) rule {
	t.Helper()
	switch {
	case strings.HasPrefix(body, "{"):
		r := rule{isMap: true}
		for line := range strings.Lines(strings.Trim(body, "{}\n")) {
			if line = strings.TrimSpace(line); line == "" {
				continue
			}
			m := memberLine.FindStringSubmatch(line)
			if m == nil {
				t.Fatalf("%s: cannot read %q", name, line)
			}
			r.members = append(r.members, member{key: uint64(whole(t, m[2])), optional: m[1] != "", is: m[3]})
		}
		return r
	case strings.HasPrefix(body, "&("):
		r := rule{words: map[string]int64{}}
		for _, m := range wordPair.FindAllStringSubmatch(body, -1) {
			r.words[m[1]+m[2]] = whole(t, m[3])
		}
		if strings.Count(body, ":") != len(r.words) {
			t.Errorf("%s: a word is there twice or cannot be read", name)
		}
		return r
	default:
		return rule{other: body}
	}
}

func whole(t *testing.T, text string) int64 {
	t.Helper()
	n, err := strconv.ParseInt(text, 10, 64)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// structRules are the maps and the Go types that they describe.
var structRules = map[reflect.Type]string{
	reflect.TypeFor[record.Record](): "record", reflect.TypeFor[record.Subject](): "subject", reflect.TypeFor[record.Machine](): "machine",
	reflect.TypeFor[schedule.Point](): "point", reflect.TypeFor[record.Job](): "job", reflect.TypeFor[record.Meter](): "meter",
	reflect.TypeFor[record.MeterChange](): "meter-change", reflect.TypeFor[record.By](): "by", reflect.TypeFor[record.Previous](): "previous",
	reflect.TypeFor[record.ScheduleRef](): "schedule-ref", reflect.TypeFor[schedule.Basis](): "basis", reflect.TypeFor[record.Issuer](): "issuer",
	reflect.TypeFor[record.File](): "file", reflect.TypeFor[record.Task](): "task", reflect.TypeFor[schedule.Interval](): "interval",
	reflect.TypeFor[schedule.Leeway](): "leeway", reflect.TypeFor[schedule.Due](): "due", reflect.TypeFor[record.Last](): "last",
	reflect.TypeFor[record.Answer](): "answer", reflect.TypeFor[record.LookAgain](): "look-again", reflect.TypeFor[record.Reading](): "reading",
	reflect.TypeFor[quantity.Figure](): "figure", reflect.TypeFor[record.OtherWork](): "other-work", reflect.TypeFor[record.Fluid](): "fluid",
	reflect.TypeFor[record.Level](): "level", reflect.TypeFor[quantity.Measured](): "measured", reflect.TypeFor[quantity.Portion](): "portion",
	reflect.TypeFor[record.TopUp](): "top-up", reflect.TypeFor[record.Waste](): "waste", reflect.TypeFor[record.Part](): "part",
	reflect.TypeFor[record.Balance](): "balance", reflect.TypeFor[record.Estimate](): "estimate",
	reflect.TypeFor[record.LevelEstimate](): "level-estimate", reflect.TypeFor[record.Use](): "use",
	reflect.TypeFor[record.LeakCheck](): "leak-check", reflect.TypeFor[record.Finding](): "finding",
}

// otherRules are the other rules that a Go type may be described by.
var otherRules = map[reflect.Type][]string{
	reflect.TypeFor[string](): {"id", "host", "line", "reason", "notes", "tstr .size (1..8)"},
	reflect.TypeFor[bool]():   {"bool", "true"}, reflect.TypeFor[record.ID](): {"digest"}, reflect.TypeFor[record.Digest](): {"digest"},
	reflect.TypeFor[quantity.Date](): {"date", "-25567..120530"}, reflect.TypeFor[quantity.Minutes](): {"minutes"},
	reflect.TypeFor[quantity.Hours](): {"hours", "1..100000000", "-100000000..100000000", "0..200000000"}, reflect.TypeFor[quantity.Temperature](): {"temperature"},
	reflect.TypeFor[quantity.Volume](): {"volume", "worked-out", "uncertainty"}, reflect.TypeFor[record.Paper](): {"paper"}, reflect.TypeFor[record.Kind](): {"kind"},
	reflect.TypeFor[record.MeterState](): {"meter-state"}, reflect.TypeFor[record.Reason](): {"why-made"}, reflect.TypeFor[record.Result](): {"result"},
	reflect.TypeFor[record.Advice](): {"advice"}, reflect.TypeFor[record.OwnerAnswer](): {"owner-answer"}, reflect.TypeFor[record.Supplier](): {"supplier"},
	reflect.TypeFor[record.IssuerKind](): {"issuer-kind"}, reflect.TypeFor[record.LeakResult](): {"leak-result"}, reflect.TypeFor[record.Severity](): {"severity"},
	reflect.TypeFor[record.Glycol](): {"glycol"}, reflect.TypeFor[record.Sight](): {"sight"}, reflect.TypeFor[record.Method](): {"method"},
	reflect.TypeFor[schedule.Kind](): {"task-kind"}, reflect.TypeFor[schedule.BasisKind](): {"basis-kind"}, reflect.TypeFor[quantity.Unit](): {"unit"},
	reflect.TypeFor[record.Unit](): {"finding-unit"}, reflect.TypeFor[record.Code](): {"rule"},
}

// TestCDDLKeys: every map has the keys of its Go type, optional where the Go
// type leaves them out, each with a rule that suits the field.
func TestCDDLKeys(t *testing.T) {
	rules := readCDDL(t)
	seen := map[string]bool{}
	var walk func(reflect.Type)
	walk = func(s reflect.Type) {
		name, known := structRules[s]
		if !known {
			t.Fatalf("%v has no rule", s)
		}
		if seen[name] {
			return
		}
		seen[name] = true
		var members []member
		for i := range s.NumField() {
			f := s.Field(i)
			tag := strings.Split(f.Tag.Get("cbor"), ",")
			if len(tag) < 2 || tag[1] != "keyasint" {
				t.Fatalf("%v.%s: tag %q", s, f.Name, f.Tag)
			}
			m := member{key: uint64(whole(t, tag[0])), optional: slices.Contains(tag, "omitempty")}
			if at := len(members); at < len(rules[name].members) {
				m.is = rules[name].members[at].is
			}
			members = append(members, m)
			element, list := f.Type, false
			for element.Kind() == reflect.Pointer || element.Kind() == reflect.Slice {
				list = list || element.Kind() == reflect.Slice
				element = element.Elem()
			}
			is := m.is
			if listed := listType.FindStringSubmatch(is); (listed != nil) != list {
				t.Errorf("%s %s: %s for %v", name, tag[0], is, f.Type)
			} else if listed != nil {
				is = listed[3]
			}
			if element.Kind() == reflect.Struct {
				if structRules[element] != is {
					t.Errorf("%s %s: %s for %v", name, tag[0], is, f.Type)
				}
				walk(element)
			} else if suits, known := otherRules[element]; known && !slices.Contains(suits, is) {
				t.Errorf("%s %s: %s for %v", name, tag[0], is, f.Type)
			} else if !known && is != "1" && !rangeType.MatchString(is) {
				t.Errorf("%s %s: %s for %v", name, tag[0], is, f.Type)
			}
		}
		if !reflect.DeepEqual(members, rules[name].members) {
			t.Errorf("%s: the file has %v, the code %v", name, rules[name].members, members)
		}
	}
	walk(reflect.TypeFor[record.Record]())
	for name, r := range rules {
		if r.isMap && !seen[name] {
			t.Errorf("%s is no part of a record", name)
		}
	}
}

// TestCDDLWords: the enumerations have the words and numbers of the code.
func TestCDDLWords(t *testing.T) {
	rules := readCDDL(t)
	for name, words := range map[string][]string{
		"paper": record.PaperWords, "kind": record.KindWords, "meter-state": record.MeterStateWords, "why-made": record.ReasonWords,
		"result": record.ResultWords, "advice": record.AdviceWords, "owner-answer": record.OwnerWords, "supplier": record.SupplierWords,
		"issuer-kind": record.IssuerWords, "leak-result": record.LeakWords, "severity": record.SeverityWords[:2],
		"glycol": record.GlycolWords, "sight": record.SightWords, "method": record.MethodWords,
		"task-kind": schedule.Kinds(), "basis-kind": schedule.BasisKinds(),
	} {
		want := map[string]int64{}
		for i, word := range words {
			want[word] = int64(i) + 1
		}
		if !reflect.DeepEqual(rules[name].words, want) {
			t.Errorf("%s: %v, want %v", name, rules[name].words, want)
		}
	}
	units, codes, findingUnits := map[string]int64{}, map[string]int64{}, map[string]int64{}
	for u := range quantity.Unit(255) {
		if u.Valid() {
			units[u.String()] = int64(u)
		}
	}
	for code, r := range record.Rules {
		codes[r.Name] = int64(code)
	}
	for u := record.NoUnit + 1; u.Valid(); u++ {
		findingUnits[u.String()] = int64(u)
	}
	for name, want := range map[string]map[string]int64{"unit": units, "rule": codes, "finding-unit": findingUnits} {
		if !reflect.DeepEqual(rules[name].words, want) {
			t.Errorf("%s: %v, want %v", name, rules[name].words, want)
		}
	}
}

// TestCDDLHolds: what the code writes is what the CDDL allows.
func TestCDDLHolds(t *testing.T) {
	rules := readCDDL(t)
	for _, e := range examples {
		if err := rules.holds(t, e.make()); err != nil {
			t.Errorf("%s: %v", e.name, err)
		}
	}
	rapid.Check(t, func(rt *rapid.T) {
		if err := rules.holds(t, recordtest.Random(rt)); err != nil {
			rt.Fatal(err)
		}
	})
}

// TestCDDLRefuses: the check of TestCDDLHolds can fail, at every item.
func TestCDDLRefuses(t *testing.T) {
	rules := readCDDL(t)
	data := encoded(t, recordtest.Example())
	root, _ := parse(t, data)
	for place, it := range root.all() {
		before := *it
		*it = item{major: simple, argument: 22}
		if rules.check("record", root) == nil {
			t.Errorf("item %d may be null", place)
		}
		*it = before
	}
}

func (c cddl) holds(t *testing.T, r *record.Record) error {
	root, _ := parse(t, encoded(t, r))
	return c.check("record", root)
}

// check holds an item to a type of the file.
func (c cddl) check(is string, it *item) error {
	wrong := fmt.Errorf("%x is no %s", it.bytes(), is)
	ok := func(right bool) error {
		if right {
			return nil
		}
		return wrong
	}
	if r, known := c[is]; known {
		switch {
		case r.isMap:
			return c.checkMap(is, r, it)
		case r.words != nil:
			for _, n := range r.words {
				if it.major == positive && it.argument == uint64(n) {
					return nil
				}
			}
			return wrong
		}
		if err := c.check(r.other, it); err != nil {
			return fmt.Errorf("%s: %w", is, err)
		}
		return nil
	}
	if m := listType.FindStringSubmatch(is); m != nil {
		for i, child := range it.children {
			if err := c.check(m[3], child); err != nil {
				return fmt.Errorf("%d: %w", i, err)
			}
		}
		return ok(it.major == array && between(len(it.children), m))
	}
	if m := rangeType.FindStringSubmatch(is); m != nil {
		n := int(it.argument)
		if it.major == negative {
			n = -1 - n
		}
		return ok(it.major <= negative && between(n, m))
	}
	if m := sizeType.FindStringSubmatch(is); m != nil {
		return ok(it.major == textString && between(len(it.content), m))
	}
	if pattern, found := strings.CutPrefix(is, "tstr .regexp "); found {
		return ok(it.major == textString && regexp.MustCompile("^"+strings.Trim(pattern, `"`)+"$").Match(it.content))
	}
	switch is {
	case "bstr .size 32":
		return ok(it.major == byteString && len(it.content) == 32)
	case "true":
		return ok(it.major == simple && it.argument == 21)
	case "bool":
		return ok(it.major == simple && (it.argument == 20 || it.argument == 21))
	default:
		return ok(it.major == positive && strconv.FormatUint(it.argument, 10) == is)
	}
}

func (c cddl) checkMap(is string, r rule, it *item) error {
	if it.major != mapping {
		return fmt.Errorf("%x is no %s", it.bytes(), is)
	}
	found := 0
	for _, m := range r.members {
		value := it.value(m.key)
		switch {
		case value == nil && !m.optional:
			return fmt.Errorf("%s has no %d", is, m.key)
		case value == nil:
			continue
		}
		found++
		if err := c.check(m.is, value); err != nil {
			return fmt.Errorf("%s %d: %w", is, m.key, err)
		}
	}
	if found != len(it.children)/2 {
		return fmt.Errorf("%s has a key that it must not have", is)
	}
	return nil
}

func (it *item) value(key uint64) *item {
	for i := 0; i < len(it.children); i += 2 {
		if k := it.children[i]; k.major == positive && k.argument == key {
			return it.children[i+1]
		}
	}
	return nil
}

// between reads the bounds of a match.
func between(n int, m []string) bool {
	low, _ := strconv.Atoi(m[1])
	high, _ := strconv.Atoi(m[2])
	return low <= n && n <= high
}
