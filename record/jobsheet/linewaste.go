package jobsheet

import (
	"errors"
	"fmt"
	"regexp"

	"hourseal/record"
)

// LineWaste reads where what came out of a system went: "8.8 L to harbour oil bank,
// receipt 5521", "8.8 L held in waste oil tank 2", or the amount alone.
func LineWaste(system, text string) (record.Waste, error) {
	if err := CheckID(system); err != nil {
		return record.Waste{}, err
	}
	l, err := readLine(text, "an amount and who took it, as 8.8 L to harbour oil bank, receipt 5521, or 8.8 L held in waste oil tank 2")
	if err != nil {
		return record.Waste{}, err
	}
	w := record.Waste{System: system}
	written, said := l, map[string]typed{}
	if at := l.places("to", "held", "receipt"); len(at) > 0 {
		written = l.sub(0, at[0].from)
		if said, err = l.sub(at[0].from, len(l.text)).sections("to", "held", "receipt"); err != nil {
			return record.Waste{}, err
		}
	}
	if written.empty() {
		return record.Waste{}, errors.New("the amount is missing: write it first, as 8.8 L, or - for not measured")
	}
	if w.Amount, err = written.amount(); err != nil {
		return record.Waste{}, err
	}
	if held, there := said["held"]; there {
		if said["held"], _ = held.label("in"); said["held"].empty() {
			return record.Waste{}, errors.New("nothing written after held in: write where it is kept, as waste oil tank 2")
		}
	}
	if err := saidTexts(said, map[string]*string{"to": &w.To, "held": &w.Held, "receipt": &w.Receipt}); err != nil {
		return record.Waste{}, err
	}
	if w.Held != "" && (w.To != "" || w.Receipt != "") {
		return record.Waste{}, errors.New("held beside to or receipt: keep one, as what is held was taken by nobody yet, or put a text with a comma in quotes")
	}
	return w, nil
}

// WasteLine is the inverse of LineWaste, without the system.
func WasteLine(w record.Waste) string {
	if w.Amount.IsZero() {
		return ""
	}
	return inverse(w, func(word func(string) string) string {
		line := AmountLine(w.Amount)
		if w.Held != "" {
			line += " held in " + word(w.Held)
		}
		if w.To != "" {
			line += " to " + word(w.To)
		}
		if w.Receipt != "" {
			line += ", receipt " + word(w.Receipt)
		}
		return line
	}, func(line string) (record.Waste, error) { return LineWaste(w.System, line) })
}

const partWanted = "the part number, as CR-2214, or 2 x CR-2214, serial 0000714, by customer, or - for a part without number"

var (
	countBefore = regexp.MustCompile(`^([0-9]+) ?[xX×] +(.*)$`)
	countAfter  = regexp.MustCompile(`^(.*) [xX×] ?([0-9]+)$`)
)

// LinePart reads a part that was fitted: "CR-2214", "2 x CR-2214", "CR-2214, serial
// 0000714, by customer". "-" or "no number" is a part without number. Where item is
// "" the line begins with it: "oil filter: CR-2214".
func LinePart(item, line string) (record.Part, error) {
	p, err := linePart(item, line)
	if err != nil {
		return record.Part{}, err
	}
	return p, nil
}

func linePart(item, line string) (p record.Part, err error) {
	p = record.Part{Item: item, Quantity: 1, SuppliedBy: record.ByYard}
	l, err := readLine(line, partWanted)
	if err != nil {
		return p, err
	}
	if item == "" {
		at := l.marks(':')
		if len(at) == 0 || l.sub(0, at[0]).empty() {
			return p, fmt.Errorf("%s: write what was fitted before a colon, as oil filter: CR-2214", show(l.text))
		}
		if p.Item, err = l.sub(0, at[0]).value("item", text); err != nil {
			return p, err
		}
		l = l.sub(at[0]+1, len(l.text))
	} else if err := record.CheckText(item, record.MaxText); err != nil {
		return p, fmt.Errorf("item: %w", err)
	}
	parts, err := l.parts()
	if err != nil {
		return p, err
	}
	said := map[string]typed{}
	for _, part := range parts {
		word := "number"
		for _, w := range []string{"serial", "by"} {
			if rest, ok := part.label(w); ok {
				word, part = w, rest
				break
			}
		}
		if _, twice := said[word]; twice && word == "number" {
			return p, fmt.Errorf("%s: two numbers: write each part by itself, and a number with a comma in quotes", show(part.text))
		}
		if err := note(said, word, part); err != nil {
			return p, err
		}
	}
	number, there := said["number"]
	if !there {
		return p, fmt.Errorf("%s: the number is missing: write it first, or - for a part without number", show(l.text))
	}
	number, written := number.count()
	if p.Quantity, err = quantityOf(written); err != nil {
		return p, err
	}
	if number.is("-", "no number") {
		delete(said, "number")
	} else {
		said["number"] = number
	}
	if by, there := said["by"]; there {
		if p.SuppliedBy, err = oneWord[record.Supplier](record.SupplierWords)(by.text); err != nil {
			return p, err
		}
	}
	return p, saidTexts(said, map[string]*string{"number": &p.Number, "serial": &p.Serial})
}

// count takes how many off a part number: "2 x CR-2214" or "CR-2214 x 2".
func (l typed) count() (number typed, written string) {
	if m := countBefore.FindStringSubmatchIndex(l.text); m != nil {
		return l.sub(m[4], m[5]), l.text[m[2]:m[3]]
	}
	if m := countAfter.FindStringSubmatchIndex(l.text); m != nil && !l.quoted[m[4]] {
		return l.sub(m[2], m[3]), l.text[m[4]:m[5]]
	}
	return l, "1"
}

func quantityOf(written string) (uint, error) {
	n, err := count(maxPartQuantity)(written)
	return uint(n), err
}

// PartLine is the inverse of LinePart, without the item.
func PartLine(p record.Part) string {
	return inverse(p, func(word func(string) string) string {
		line := "-"
		if p.Number != "" {
			line = word(p.Number)
		}
		if p.Quantity != 1 {
			line = fmt.Sprintf("%d x %s", p.Quantity, line)
		}
		if p.Serial != "" {
			line += ", serial " + word(p.Serial)
		}
		if p.SuppliedBy != record.ByYard {
			line += ", by " + p.SuppliedBy.String()
		}
		return line
	}, func(line string) (record.Part, error) { return LinePart(p.Item, line) })
}
