package source

import "bytes"

const (
	// maxTextDiffs is as many lines as a person will read.
	maxTextDiffs = 20
	// maxDiffCells bounds the table of the line comparison; beyond it lines are
	// compared in pairs.
	maxDiffCells = 1 << 18
)

// compareText lists the lines of text that differ, page by page.
func compareText(got, want *PDF) []TextDiff {
	var diffs []TextDiff
	for page := range max(got.Pages(), want.Pages()) {
		for _, d := range diffLines(got.lines(page), want.lines(page)) {
			if len(diffs) == maxTextDiffs {
				return diffs
			}
			diffs = append(diffs, TextDiff{Page: page + 1, Received: d[0].String(), Fresh: d[1].String()})
		}
	}
	return diffs
}

// lines returns what a page shows, counting pages from 0; a page that is not
// there shows nothing.
func (p *PDF) lines(page int) []shownLine {
	if page >= len(p.pages) {
		return nil
	}
	b := getBuffer()
	defer putBuffer(b)
	if err := p.inflateInto(b, p.number(p.pages[page])); err != nil {
		return nil
	}
	return shownLines(b.Bytes())
}

// diffLines pairs the lines that are not in both, in order. One side of a pair
// is nil where a line has no counterpart.
func diffLines(got, want []shownLine) [][2]shownLine {
	for len(got) > 0 && len(want) > 0 && bytes.Equal(got[0], want[0]) {
		got, want = got[1:], want[1:]
	}
	for len(got) > 0 && len(want) > 0 && bytes.Equal(got[len(got)-1], want[len(want)-1]) {
		got, want = got[:len(got)-1], want[:len(want)-1]
	}
	var pairs [][2]shownLine
	for len(got) > 0 || len(want) > 0 {
		g, w := nextCommon(got, want)
		for i := range max(g, w) {
			var pair [2]shownLine
			if i < g {
				pair[0] = got[i]
			}
			if i < w {
				pair[1] = want[i]
			}
			pairs = append(pairs, pair)
		}
		got, want = got[g:], want[w:]
		for len(got) > 0 && len(want) > 0 && bytes.Equal(got[0], want[0]) {
			got, want = got[1:], want[1:]
		}
		if len(pairs) >= maxTextDiffs {
			break
		}
	}
	return pairs
}

// nextCommon returns how many lines to step over on either side until both show
// the same line again, stepping over as few as possible in all.
func nextCommon(got, want []shownLine) (g, w int) {
	if len(got)*len(want) > maxDiffCells {
		return 1, 1
	}
	for sum := 0; sum < len(got)+len(want)-1; sum++ {
		for g := max(0, sum-len(want)+1); g <= min(sum, len(got)-1); g++ {
			if bytes.Equal(got[g], want[sum-g]) {
				return g, sum - g
			}
		}
	}
	return len(got), len(want)
}
