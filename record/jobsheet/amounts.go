package jobsheet

import (
	"fmt"
	"strings"

	"go.yaml.in/yaml/v3"

	"hourseal/record/quantity"
)

const (
	amountWanted = "an amount, as 9.4 L or 9.4 L at 16 C, a sum, as [5 L, 4.3 L], or not measured"
	notMeasured  = "not measured"
)

// measured reads an amount, a sum, or "not measured"; nil where it is left
// out or faulty.
func measured(f fields, name string) *quantity.Measured {
	e, there := f.values[name]
	if !there {
		return nil
	}
	if e.node.Kind != yaml.SequenceNode {
		return maybe(f, name, single)
	}
	switch n := len(e.node.Content); {
	case n == 0:
		e.fail("an empty list: write %s", e.want)
		return nil
	case n > quantity.MaxPortions:
		e.fail("a sum of %d amounts, at most %d fit: write some of them as one amount", n, quantity.MaxPortions)
		return nil
	}
	before := len(e.sheet.faults)
	var portions []quantity.Portion
	for i, item := range e.items(quantity.MaxPortions) {
		next := ""
		if i+1 < len(e.node.Content) {
			next = e.node.Content[i+1].Value
		}
		portion, _ := scalar(item, portionBefore(next))
		portions = append(portions, portion)
	}
	if len(e.sheet.faults) > before {
		return nil
	}
	sum, err := quantity.SumOf(portions...)
	if err != nil {
		e.fail("%v", err)
	}
	return &sum
}

// amount is an amount that must be there.
func amount(f fields, name string) quantity.Measured {
	if m := measured(f, name); m != nil {
		return *m
	}
	return quantity.Measured{}
}

// single reads what is no list. Amounts with commas between them are answered
// with the list that they were meant to be.
func single(s string) (quantity.Measured, error) {
	m, err := quantity.ParseMeasured(s)
	if err == nil || !strings.Contains(s, ",") {
		return m, err
	}
	parts := strings.Split(s, ",")
	for i, part := range parts {
		parts[i] = strings.TrimSpace(part)
		if _, notOne := quantity.ParsePortion(part); notOne != nil {
			return m, err
		}
	}
	return m, fmt.Errorf("%s: write a sum as a list: [%s]", show(s), strings.Join(parts, ", "))
}

// portionBefore reads one amount of a sum. Next is the text after it: a comma
// within a figure makes two amounts of one.
func portionBefore(next string) parser[quantity.Portion] {
	return func(s string) (quantity.Portion, error) {
		switch {
		case isWhole(s) && next != "" && isWhole(next[:1]):
			return quantity.Portion{}, fmt.Errorf("%s and %s are two amounts here: write %s with a point, or a unit after each", show(s), show(next), show(s+"."+next))
		case strings.EqualFold(s, notMeasured):
			return quantity.Portion{}, fmt.Errorf("%s, in a sum: write the amounts alone, or not measured for the whole", show(s))
		}
		return quantity.ParsePortion(s)
	}
}

func isWhole(s string) bool { return s != "" && strings.Trim(s, "0123456789") == "" }
