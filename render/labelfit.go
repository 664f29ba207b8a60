package render

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"hourseal/render/sheet"
)

const (
	// leastSize is the smallest type on a label: what a 300 dpi printer still
	// sets cleanly.
	leastSize = 5 * sheet.Pt
	// readableSize is the smallest that is read without effort: below it a text
	// goes in two lines sooner than smaller.
	readableSize = 6 * sheet.Pt
	sizeStep     = sheet.Pt / 4
)

// labelText is one text of a label. Whole marks figures: they are never cut.
// Room for further lines goes to a lower rank first.
type labelText struct {
	text  string
	style sheet.Style
	whole bool
	rank  int
}

// at is a style in a size, its lines as close as ascenders and tails allow.
func at(s sheet.Style, size sheet.Len) sheet.Style {
	s.Size, s.Leading = size, (size*116+99)/100
	return s
}

// setText is a text as it is set.
type setText struct {
	style sheet.Style
	lines []string
	cut   bool // an ellipsis stands for the rest
}

func (t setText) height() sheet.Len { return t.style.Leading * sheet.Len(len(t.lines)) }

// inOneLine sets a text in one line, in its own size or down to the smallest.
func (t labelText) inOneLine(width sheet.Len) setText {
	for size := t.style.Size; ; size = max(size-sizeStep, leastSize) {
		style := at(t.style, size)
		if style.Width(t.text) <= width {
			return setText{style: style, lines: []string{t.text}}
		}
		if size == leastSize {
			return t.inLines(width, 1)
		}
	}
}

// inLines sets a text in the smallest size, in at most so many lines.
func (t labelText) inLines(width sheet.Len, most int) setText {
	style := at(t.style, leastSize)
	lines := style.Wrap(t.text, width)
	if len(lines) <= most {
		return setText{style: style, lines: lines}
	}
	// Of the rest only what fits the last line is seen, so how its lines are
	// joined does not matter, but that joined they may be narrower than they were,
	// by spaces at a break. The ellipsis has to fit in any case.
	rest := style.Elide(strings.TrimRight(strings.Join(lines[most-1:], " "), " ")+"…", width)
	rest = strings.TrimRight(strings.TrimSuffix(rest, "…"), " ") + "…"
	return setText{style: style, lines: append(lines[:most-1:most-1], rest), cut: true}
}

// larger sets a text that came out below the readable size in several lines, as
// large as its own size and the height allow.
func (t labelText) larger(width, height sheet.Len) (setText, bool) {
	for size := t.style.Size; size >= readableSize; size -= sizeStep {
		style := at(t.style, size)
		set := setText{style: style, lines: style.Wrap(t.text, width)}
		if set.height() <= height && len(set.lines) > 0 {
			return set, true
		}
	}
	return setText{}, false
}

// stack fits texts one under the other into a width and height, by the rules in
// the comment of Label.
func stack(texts []labelText, width, height sheet.Len) ([]setText, error) {
	set := make([]setText, len(texts))
	left := height
	order := make([]int, len(texts))
	for i, t := range texts {
		if err := sheet.CheckGlyphs(t.text); err != nil {
			return nil, fmt.Errorf("%q: %w", t.text, err)
		}
		set[i], order[i] = t.inOneLine(width), i
		left -= set[i].height()
	}
	if left < 0 {
		return nil, errors.New("the label is too small for what has to be on it")
	}
	slices.SortStableFunc(order, func(a, b int) int { return texts[a].rank - texts[b].rank })
	for _, i := range order {
		for set[i].cut {
			more := texts[i].inLines(width, len(set[i].lines)+1)
			need := more.height() - set[i].height()
			if need > left {
				break
			}
			set[i], left = more, left-need
		}
		if set[i].cut && texts[i].whole {
			return nil, fmt.Errorf("%q does not fit the label", texts[i].text)
		}
	}
	for _, i := range order {
		if set[i].cut || set[i].style.Size >= min(readableSize, texts[i].style.Size) {
			continue
		}
		if better, ok := texts[i].larger(width, left+set[i].height()); ok {
			left += set[i].height() - better.height()
			set[i] = better
		}
	}
	return set, nil
}

// place draws set texts from the top of a box; the last, when apart is true, at
// its foot.
func (l *label) place(set []setText, b sheet.Box, a sheet.Align, apart bool) {
	y := b.Y
	for i, t := range set {
		if apart && i == len(set)-1 {
			y = b.Bottom() - t.height()
		}
		for _, line := range t.lines {
			l.doc.TextIn(1, b.X, b.W, y, a, t.style, line)
			y += t.style.Leading
		}
	}
}
