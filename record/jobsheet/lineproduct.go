package jobsheet

import (
	"fmt"
	"slices"
	"strings"

	"hourseal/record"
	"hourseal/record/fluid"
)

// Product is what stands on a container of oil or coolant.
type Product struct {
	Name, Viscosity, Batch string
	Meets                  []string
	Glycol                 record.Glycol
}

const productWanted = "the product's name, its grade, specifications and batch, as Harrow HD, 15W-40, API CK-4, batch H-0612"

// LineProduct reads what stands on a container: "Harrow HD, 15W-40, API CK-4, ACEA E7,
// batch H-0612". The first part is the name, or "-" for none. A grade of SAE J300 or
// J306 is one wherever it stands, also at the end of a part; one of another kind has the
// word viscosity before it. A batch has the word batch before it, and ethylene or
// propylene is the glycol. All else are specifications.
func LineProduct(text string) (Product, error) {
	l, err := readLine(text, productWanted)
	if err != nil {
		return Product{}, err
	}
	parts, err := l.parts()
	if err != nil {
		return Product{}, err
	}
	var p Product
	said := map[string]typed{}
	for i, part := range parts {
		if err := p.read(part, i == 0, said); err != nil {
			return Product{}, err
		}
	}
	if err := saidTexts(said, map[string]*string{"the name": &p.Name, "batch": &p.Batch, "viscosity": &p.Viscosity}); err != nil {
		return Product{}, err
	}
	if n := len(p.Meets); n > record.MaxMeets {
		return Product{}, fmt.Errorf("%d specifications, at most %d fit: take some out", n, record.MaxMeets)
	}
	return p, nil
}

// read takes one part. What is named once goes into said.
func (p *Product) read(part typed, first bool, said map[string]typed) error {
	for _, word := range []string{"batch", "viscosity"} {
		if rest, ok := part.label(word); ok {
			return note(said, word, rest)
		}
	}
	for i, word := range record.GlycolWords {
		if part.is(word, word+" glycol") {
			if p.Glycol != 0 {
				return fmt.Errorf("two glycols, %v and %s: keep one", p.Glycol, word)
			}
			p.Glycol = record.Glycol(i + 1)
			return nil
		}
	}
	if !part.inQuotes() {
		rest, grade := cutGrade(strings.Fields(part.text))
		if before, twice := said["viscosity"]; grade != "" && twice {
			return fmt.Errorf("two grades, %s and %s: keep one, or put a name with a grade in quotes", show(before.text), show(grade))
		}
		if grade != "" {
			said["viscosity"] = unquoted(grade)
			part = unquoted(rest)
		}
	}
	switch {
	case part.empty(), first && part.is("-"):
		return nil
	case first:
		return note(said, "the name", part)
	}
	mark, err := part.value("specification", text)
	switch {
	case err != nil:
		return err
	case slices.Contains(p.Meets, mark):
		return fmt.Errorf("%s is written twice: keep one", show(mark))
	}
	p.Meets = append(p.Meets, mark)
	return nil
}

// unquoted is a line made of text that stands outside quotes.
func unquoted(text string) typed { return typed{text, make([]bool, len(text))} }

// ProductLine is the inverse of LineProduct; "-" of a product of which nothing is known.
func ProductLine(p Product) string {
	return inverse(p, func(word func(string) string) string {
		parts := []string{"-"}
		if p.Name != "" {
			parts[0] = word(p.Name)
		}
		if p.Viscosity != "" {
			_, _, _, isGrade := fluid.KinematicRange(p.Viscosity)
			if isGrade && word(p.Viscosity) == p.Viscosity {
				parts = append(parts, p.Viscosity)
			} else {
				parts = append(parts, "viscosity "+word(p.Viscosity))
			}
		}
		for _, mark := range p.Meets {
			parts = append(parts, word(mark))
		}
		if p.Glycol != 0 {
			parts = append(parts, p.Glycol.String())
		}
		if p.Batch != "" {
			parts = append(parts, "batch "+word(p.Batch))
		}
		return strings.Join(parts, ", ")
	}, LineProduct)
}

// MarksAndGrades parts a list with commas: what is a grade of SAE J300 or J306, and
// the rest. A multigrade needs no comma before it, nor a grade with SAE:
// "API CK-4 15W-40".
func MarksAndGrades(list string) (marks, grades []string) {
	for part := range strings.SplitSeq(list, ",") {
		mark, grade := cutGrade(strings.Fields(part))
		if mark != "" {
			marks = append(marks, mark)
		}
		if grade != "" {
			grades = append(grades, grade)
		}
	}
	return marks, grades
}

// cutGrade takes the grade off the end of the words of one mark; either may be "".
func cutGrade(words []string) (mark, grade string) {
	for n := len(words) - 1; n >= 0 && n >= len(words)-2; n-- {
		tail := strings.Join(words[n:], " ")
		_, _, _, isGrade := fluid.KinematicRange(tail)
		sure := n == 0 || strings.EqualFold(words[n], "SAE") || strings.ContainsAny(tail, "Ww")
		if isGrade && sure && !(n > 0 && strings.EqualFold(words[n-1], "SAE")) {
			return strings.Join(words[:n], " "), tail
		}
	}
	return strings.Join(words, " "), ""
}
