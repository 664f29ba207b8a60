package picture

// anchor is a place of the symbol, in modules, that is known in the picture.
type anchor struct {
	u, v   float64
	at     point
	weight float64
}

// mapping is a projection with a smooth correction for paper that is not flat: in
// each direction a polynomial of the module coordinates, fitted to what is left
// between the projection and the anchors.
type mapping struct {
	base   placer
	side   float64
	dx, dy []float64 // coefficients in the order of powers, none for a bare projection
}

func (m *mapping) place(u, v float64) point {
	p := m.base.place(u, v)
	if len(m.dx) == 0 {
		return p
	}
	var terms [maxTerms]float64
	for i, t := range powers(&terms, 2*u/m.side-1, 2*v/m.side-1, len(m.dx)) {
		p.x += m.dx[i] * t
		p.y += m.dy[i] * t
	}
	return p
}

// maxTerms is the number of terms of a polynomial of degree 4 in two variables.
const maxTerms = 15

// powers are the first n terms of a polynomial in x and y: 1 of degree 0, 3 to degree
// 1, 6 to degree 2, 10 to degree 3, 15 to degree 4.
func powers(terms *[maxTerms]float64, x, y float64, n int) []float64 {
	k := 0
	for degree := 0; ; degree++ {
		for i := range degree + 1 {
			if k == n {
				return terms[:n]
			}
			t := 1.0
			for range degree - i {
				t *= x
			}
			for range i {
				t *= y
			}
			terms[k] = t
			k++
		}
	}
}

// termsFor is how many terms so many anchors bear.
func termsFor(anchors int) int {
	switch {
	case anchors >= 24:
		return 15
	case anchors >= 14:
		return 10
	case anchors >= 8:
		return 6
	case anchors >= 4:
		return 3
	default:
		return 0
	}
}

// fits is how often a projection is bent to anchors of which some may be wrong.
const fits = 3

// fit bends a projection to the anchors. An anchor further off than limit, in
// pixels of the picture, after one fit counts for nothing in the next.
func fit(base placer, side float64, anchors []anchor, limit float64) *mapping {
	m := &mapping{base: base, side: side}
	for range fits {
		used := make([]anchor, 0, len(anchors))
		for _, a := range anchors {
			if m.dx != nil {
				if off := m.place(a.u, a.v).minus(a.at); off.dot(off) > limit*limit {
					continue
				}
			}
			used = append(used, a)
		}
		n := termsFor(len(used))
		if n == 0 {
			return m
		}
		m.dx, m.dy = solveAnchors(base, side, used, n)
	}
	return m
}

// solveAnchors finds the coefficients of least squares. A little weight pulls the
// higher terms to nothing, so that few anchors do not bend the edges far.
func solveAnchors(base placer, side float64, anchors []anchor, n int) (dx, dy []float64) {
	a := newNormal(n, 2)
	var terms [maxTerms]float64
	for _, p := range anchors {
		off := p.at.minus(base.place(p.u, p.v))
		a.add(powers(&terms, 2*p.u/side-1, 2*p.v/side-1, n), []float64{off.x, off.y}, p.weight)
	}
	for i := range n {
		switch {
		case i < 3:
			a.pull(i, 1e-6, nil)
		default:
			a.pull(i, 0.01, nil)
		}
	}
	solved := a.solve()
	return solved[0], solved[1]
}
