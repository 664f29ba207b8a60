package jobsheet

import (
	"fmt"
	"iter"
	"slices"
	"strconv"
	"strings"

	"go.yaml.in/yaml/v3"

	"hourseal/record"
	"hourseal/record/quantity"
)

// parser reads the text of a single value.
type parser[T any] func(text string) (T, error)

// scalar reads a single value of one line.
func scalar[T any](e entry, parse parser[T]) (value T, ok bool) {
	if !e.usable(yaml.ScalarNode) {
		return value, false
	}
	if e.node.Style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0 {
		e.fail(`lines after "|" or ">" here: write it on one line`)
		return value, false
	}
	if e.node.Value == "" { // between quotes
		e.fail("nothing written: write %s%s", e.want, orLeaveOut(e.need))
		return value, false
	}
	value, err := parse(e.node.Value)
	if err != nil {
		e.fail("%v", err)
		var none T
		return none, false
	}
	return value, true
}

// one reads a key's value; it is zero where the key is left out or faulty.
func one[T any](f fields, name string, parse parser[T]) (value T) {
	if e, there := f.values[name]; there {
		value, _ = scalar(e, parse)
	}
	return value
}

// maybe reads a key's value; nil where the key is left out or faulty.
func maybe[T any](f fields, name string, parse parser[T]) *T {
	if e, there := f.values[name]; there {
		if value, ok := scalar(e, parse); ok {
			return &value
		}
	}
	return nil
}

// items goes through a list of at most limit entries. They are named after
// the list, with their number in the path.
func (e entry) items(limit int) iter.Seq2[int, entry] {
	return func(yield func(int, entry) bool) {
		if e.left() || !e.usable(yaml.SequenceNode) {
			return
		}
		if n := len(e.node.Content); n > limit {
			e.fail("%d entries, at most %d fit: take some out", n, limit)
			return
		}
		for i, node := range e.node.Content {
			item := entry{sheet: e.sheet, node: node, pos: posOf(node), path: e.path + "/" + strconv.Itoa(i), field: e.field, want: e.want, need: required}
			e.sheet.lines[item.path] = item.pos
			if !yield(i, item) {
				return
			}
		}
	}
}

// list reads a list of groups of keys.
func list[T any](f fields, name string, limit int, of form, read func(fields) T) []T {
	var values []T
	if e, there := f.values[name]; there {
		for _, item := range e.items(limit) {
			values = append(values, read(item.fields(of)))
		}
	}
	return values
}

// group reads a group of keys; nil where it is left out.
func group[T any](f fields, name string, of form, read func(fields) T) *T {
	e, there := f.values[name]
	if !there {
		return nil
	}
	value := read(e.fields(of))
	return &value
}

// several reads a list of different values; a single one needs no brackets.
func several[T comparable](f fields, name string, limit int, parse parser[T]) []T {
	e, there := f.values[name]
	if !there {
		return nil
	}
	switch e.node.Kind {
	case yaml.MappingNode:
		e.fail("%s here: write %s", kindOf(e.node), e.want)
		return nil
	case yaml.ScalarNode:
		if value, ok := scalar(e, parse); ok {
			return []T{value}
		}
		return nil
	}
	var read []T
	for _, item := range e.items(limit) {
		value, ok := scalar(item, parse)
		if ok && slices.Contains(read, value) {
			item.fail("%s is written twice: keep one", show(item.node.Value))
			continue
		}
		read = append(read, value)
	}
	return read
}

// text is one line of a record, MaxText runes at most.
func text(s string) (string, error) { return s, record.CheckText(s, record.MaxText) }

// reason is one line that says why, MaxReason runes at most.
func reason(s string) (string, error) { return s, record.CheckText(s, record.MaxReason) }

// enum reads one of the words of an enumeration that is numbered from 1.
func enum[T ~uint8 | ~uint16](words []string) parser[T] {
	return func(s string) (T, error) {
		if i := slices.Index(words, s); i >= 0 {
			return T(i + 1), nil
		}
		return 0, fmt.Errorf("%s: %s", show(s), instead(s, words))
	}
}

// oneOf reads one of some words as it stands.
func oneOf(words ...string) parser[string] {
	return func(s string) (string, error) {
		if slices.Contains(words, s) {
			return s, nil
		}
		return "", fmt.Errorf("%s: %s", show(s), instead(s, words))
	}
}

// yesNo reads true or false.
func yesNo(s string) (bool, error) {
	switch s {
	case "true", "yes":
		return true, nil
	case "false", "no":
		return false, nil
	}
	return false, fmt.Errorf("%s: write true or false", show(s))
}

// count reads a whole number of 1 to limit.
func count(limit int) parser[int] {
	return func(s string) (int, error) {
		n, err := strconv.Atoi(s)
		if err != nil || strconv.Itoa(n) != s || n < 1 || n > limit {
			return 0, fmt.Errorf("%s: write a whole number from 1 to %d", show(s), limit)
		}
		return n, nil
	}
}

// MaxIDLength is the length of the longest id.
const MaxIDLength = 40

// CheckID holds the id of a machine, schedule, system or task to
// [a-z0-9][a-z0-9-]{0,39}.
func CheckID(id string) error {
	if isID(id) {
		return nil
	}
	message := fmt.Sprintf("%s: ids are small letters, digits and hyphens, at most %d of them", show(id), MaxIDLength)
	lower := strings.Map(func(r rune) rune {
		if r == ' ' || r == '_' || r == '.' || r == '/' {
			return '-'
		}
		return r
	}, strings.ToLower(strings.TrimSpace(id)))
	if isID(lower) {
		message += ": write " + lower
	}
	return fmt.Errorf("%s", message)
}

func isID(id string) bool {
	if id == "" || len(id) > MaxIDLength || id[0] == '-' {
		return false
	}
	for i := range len(id) {
		if c := id[i]; !(c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c == '-') {
			return false
		}
	}
	return true
}

func id(s string) (string, error) { return s, CheckID(s) }

// above refuses a quantity of nothing where nothing makes no sense.
func above[T ~int64](parse parser[T]) parser[T] {
	return func(s string) (T, error) {
		value, err := parse(s)
		if err == nil && value <= 0 {
			err = fmt.Errorf("%s: write more than 0, or leave the key out", show(s))
		}
		return value, err
	}
}

// orUnknown reads a figure that nobody may be able to give any more: nil for
// unknown.
func orUnknown[T any](parse parser[T]) parser[*T] {
	return func(s string) (*T, error) {
		if strings.EqualFold(s, "unknown") {
			return nil, nil
		}
		value, err := parse(s)
		if err != nil {
			return nil, fmt.Errorf("%w, or unknown", err)
		}
		return &value, nil
	}
}

// within refuses a quantity beyond what a record holds.
func within[T interface {
	~int64
	fmt.Stringer
}](parse parser[T], low, high T) parser[T] {
	return func(s string) (T, error) {
		value, err := parse(s)
		if err == nil && (value < low || value > high) {
			err = fmt.Errorf("%s: write a figure from %v to %v", show(s), low, high)
		}
		return value, err
	}
}

// percent reads a share of the whole, 0 to 100 %.
func percent(s string) (quantity.Ratio, error) {
	return percentWithin(0, quantity.One)(s)
}

// percentWithin reads a share from one to another.
func percentWithin(low, high quantity.Ratio) parser[quantity.Ratio] {
	return func(s string) (quantity.Ratio, error) {
		share, err := quantity.ParsePercent(s)
		if err == nil && (share < low || share > high) {
			err = fmt.Errorf("%s: write a figure from %s to %s", show(s), strings.TrimSuffix(low.Percent(), " %"), high.Percent())
		}
		return share, err
	}
}

// severeDuty reads the severe duties that a machine runs under, by their words
// in its schedule.
func severeDuty(f fields) []string { return several(f, "severe_duty", record.MaxDuties, text) }

// oilTemperature reads the temperature of a fluid, within what a record holds.
var oilTemperature = within(quantity.ParseTemperature, -100*quantity.Degree, 300*quantity.Degree)
