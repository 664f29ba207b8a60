package picture

import (
	"cmp"
	"image"
	"slices"
)

// search is the state of one Read.
type search struct {
	levels         pyramid
	scratch        scratch
	may            work
	timed, decoded int             // so far
	finders        []finder        // of all passes so far
	tried          map[[3]int]bool // triples by the numbers of their finders
	numbers        int             // finders numbered so far
	read           []Symbol
	seen           []sight
}

// sight is a symbol that could not be read, with how sure it is that it is one.
type sight struct {
	Symbol
	sure float64
}

// look makes one pass, and says whether the search is over.
func (s *search) look(p pass) bool {
	r := s.levels[max(p.level, 0)]
	if p.level < 0 {
		r = r.doubled()
	}
	for _, f := range s.scratch.findersOf(r, p.smooth) {
		s.take(f)
	}
	slices.SortStableFunc(s.finders, func(f, g finder) int { return cmp.Compare(g.like, f.like) })
	s.finders = s.finders[:min(len(s.finders), maxFinders)]
	timed, decoded := 0, 0
	for _, t := range s.likeliest() {
		if timed >= s.may.timed || decoded >= s.may.decoded || s.timed >= s.may.timedInAll || s.decoded >= s.may.decodedInAll {
			break
		}
		if s.within(t.corner.at) || s.within(t.right.at) || s.within(t.below.at) {
			continue
		}
		s.tried[t.key()] = true
		timed++
		s.timed++
		if s.try(t) {
			decoded++
			s.decoded++
		}
	}
	return len(s.read) > 0 && len(s.unread()) == 0
}

// muchLiker is how much better a sight of a finder has to be than the one before.
const muchLiker = 0.03

// take adds a finder, or joins it to the one that it is another sight of.
func (s *search) take(f finder) {
	if s.within(f.at) {
		return
	}
	for i := range s.finders {
		g := &s.finders[i]
		if g.same(f) {
			if f.like > g.like+muchLiker {
				s.numbers++
				f.number = s.numbers // so that its triples are looked at anew
				*g = f
			}
			return
		}
	}
	s.numbers++
	f.number = s.numbers
	s.finders = append(s.finders, f)
}

// likeliest gives the triples of the finders that were not tried yet and whose
// corners are like finder patterns, the likest first.
func (s *search) likeliest() (likely []triple) {
	compared := 0
	for _, t := range triplesOf(s.finders) {
		if s.tried[t.key()] {
			continue
		}
		if compared++; compared > s.may.compared {
			break
		}
		r := s.levels.forModule(t.module())
		along, down := t.axes()
		t.like = 1
		for _, f := range []*finder{&t.corner, &t.right, &t.below} {
			var like float64
			// Steps of the finder's own size: what is far off is smaller.
			p, q := along.times(f.length(along)/along.size()), down.times(f.length(down)/down.size())
			f.at, like = finderPattern.seek(r, f.at, p, q, 0.3)
			if t.like = min(t.like, like); t.like < leastFinder {
				break
			}
		}
		if t.like >= leastFinder {
			likely = append(likely, t)
		} else {
			s.tried[t.key()] = true
		}
	}
	slices.SortStableFunc(likely, func(t, u triple) int { return cmp.Compare(u.like-u.misfit/4, t.like-t.misfit/4) })
	return likely
}

// try reads the symbol of a triple, and says whether it came to decoding.
func (s *search) try(t triple) (decoded bool) {
	r := s.levels.forModule(t.module())
	f, version, timing := frameOf(r, t)
	if timing < leastTiming {
		return false
	}
	got := readSymbol(r, &f, version)
	symbol := Symbol{got.text, version, t.module(), cornersOf(got.mapping, got.mirrored)}
	switch {
	case got.text != "":
		s.read = append(s.read, symbol)
	case got.evidence.stands() || t.like >= soundFinders && timing >= soundTiming:
		s.seen = append(s.seen, sight{symbol, timing + t.like})
	}
	return true
}

// Three finder patterns and timing patterns as good as these are a symbol,
// whatever else cannot be made out.
const (
	soundFinders = 0.75
	soundTiming  = 0.65
)

func cornersOf(m *mapping, mirrored bool) (corners [4]image.Point) {
	for i, at := range [4]point{{0, 0}, {m.side, 0}, {m.side, m.side}, {0, m.side}} {
		if mirrored {
			at.x, at.y = at.y, at.x
		}
		corners[i] = m.place(at.x, at.y).rounded()
	}
	return corners
}

// within says whether a place is in a symbol that was read.
func (s *search) within(p point) bool {
	return slices.ContainsFunc(s.read, func(symbol Symbol) bool { return symbol.holds(p) })
}

// holds says whether a place is between the corners of a symbol.
func (s Symbol) holds(p point) bool {
	var left, right bool
	for i, a := range s.Corners {
		b := s.Corners[(i+1)%4]
		side := float64(b.X-a.X)*(p.y-float64(a.Y)) - float64(b.Y-a.Y)*(p.x-float64(a.X))
		left, right = left || side < 0, right || side > 0
	}
	return !(left && right)
}

// middle is the mean of a symbol's corners.
func (s Symbol) middle() (p point) {
	for _, c := range s.Corners {
		p = p.plus(point{float64(c.X) / 4, float64(c.Y) / 4})
	}
	return p
}

// unread are the symbols that were seen and not read, one for each place: the
// surest of those that overlap.
func (s *search) unread() (symbols []Symbol) {
	slices.SortStableFunc(s.seen, func(a, b sight) int { return cmp.Compare(b.sure, a.sure) })
	for _, a := range s.seen {
		overlaps := func(b Symbol) bool { return b.holds(a.middle()) || a.holds(b.middle()) }
		if !slices.ContainsFunc(s.read, overlaps) && !slices.ContainsFunc(symbols, overlaps) {
			symbols = append(symbols, a.Symbol)
		}
	}
	return symbols
}
