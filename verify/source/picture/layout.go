package picture

// kind says what a module of a symbol is for.
type kind uint8

const (
	data       kind = iota
	knownDark       // of a finder, timing or alignment pattern
	knownLight      // the same, and separators
	format          // format information, read apart
	versionInfo
)

// layout is what is known of a version's modules before any is read. Rows and
// columns count from 0 at the top left.
type layout struct {
	version, side int
	kinds         []kind // side * side, row by row
}

func (l *layout) at(r, c int) kind { return l.kinds[r*l.side+c] }

func (l *layout) set(r, c int, k kind) { l.kinds[r*l.side+c] = k }

func (l *layout) setDark(r, c int, dark bool) {
	if dark {
		l.set(r, c, knownDark)
	} else {
		l.set(r, c, knownLight)
	}
}

// layoutOf lays a version out (ISO/IEC 18004:2015, 6.3).
func layoutOf(version int) *layout {
	side := sideOf(version)
	l := &layout{version, side, make([]kind, side*side)}
	for i := range side {
		l.setDark(6, i, i%2 == 0)
		l.setDark(i, 6, i%2 == 0)
	}
	for _, at := range [3][2]int{{3, 3}, {3, side - 4}, {side - 4, 3}} {
		for dr := -4; dr <= 4; dr++ {
			for dc := -4; dc <= 4; dc++ {
				r, c := at[0]+dr, at[1]+dc
				if r >= 0 && r < side && c >= 0 && c < side {
					ring := max(dr, -dr, dc, -dc)
					l.setDark(r, c, ring != 4 && ring != 2)
				}
			}
		}
	}
	for _, at := range alignmentCentres(version) {
		for dr := -2; dr <= 2; dr++ {
			for dc := -2; dc <= 2; dc++ {
				l.setDark(at[0]+dr, at[1]+dc, max(dr, -dr, dc, -dc) != 1)
			}
		}
	}
	for _, at := range formatModules(side) {
		l.set(at[0], at[1], format)
	}
	l.set(side-8, 8, knownDark)
	if version >= leastWithInfo {
		for _, at := range versionModules(side) {
			l.set(at[0], at[1], versionInfo)
		}
	}
	return l
}

// alignmentCentres are rows and columns of the alignment patterns of a version:
// a grid without the three corners that finder patterns are in.
func alignmentCentres(version int) (centres [][2]int) {
	along := standards[version].alignment
	last := len(along) - 1
	for i, r := range along {
		for j, c := range along {
			if !(i == 0 && j == 0 || i == 0 && j == last || i == last && j == 0) {
				centres = append(centres, [2]int{r, c})
			}
		}
	}
	return centres
}

// formatModules are the modules of both copies of the format information, each
// from the most significant of its 15 bits (ISO/IEC 18004:2015, figure 25).
func formatModules(side int) (at [30][2]int) {
	for i := range 15 {
		switch {
		case i < 6:
			at[i] = [2]int{8, i}
		case i < 8:
			at[i] = [2]int{8, i + 1}
		case i == 8:
			at[i] = [2]int{7, 8}
		default:
			at[i] = [2]int{14 - i, 8}
		}
		if i < 7 {
			at[15+i] = [2]int{side - 1 - i, 8}
		} else {
			at[15+i] = [2]int{8, side - 15 + i}
		}
	}
	return at
}

// versionModules are the modules of both copies of the version information, each
// from the most significant of its 18 bits (ISO/IEC 18004:2015, figure 27).
func versionModules(side int) (at [36][2]int) {
	for i := range 18 {
		bit := 17 - i
		at[i] = [2]int{bit / 3, side - 11 + bit%3}
		at[18+i] = [2]int{side - 11 + bit%3, bit / 3}
	}
	return at
}

// eachData calls visit for every data module in the order of the codewords' bits:
// pairs of columns from the right, upwards first, passing over the column of the
// timing pattern (ISO/IEC 18004:2015, 7.7.3).
func (l *layout) eachData(visit func(r, c int)) {
	up := true
	for right := l.side - 1; right > 0; right -= 2 {
		if right == 6 {
			right--
		}
		for i := range l.side {
			r := i
			if up {
				r = l.side - 1 - i
			}
			for _, c := range [2]int{right, right - 1} {
				if l.at(r, c) == data {
					visit(r, c)
				}
			}
		}
		up = !up
	}
}
