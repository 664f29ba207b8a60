package picture

const (
	leastLike = 0.6 // correlation that an alignment pattern has to have
	nearReach = 2.0 // modules that one may be away from where its neighbours say
	farReach  = 6.0 // the same where there are none
)

// aligned finds the alignment patterns of a symbol, from the top left onwards, each
// from where its neighbours are, and bends the frame to them.
func aligned(r *raster, f *frame, version int) *mapping {
	side := float64(sideOf(version))
	anchors := []anchor{
		{3.5, 3.5, f.corner, 2}, {side - 3.5, 3.5, f.right, 2}, {3.5, side - 3.5, f.below, 2},
	}
	module := f.right.minus(f.corner).size() / f.legs
	found := seekAll(r, f, version)
	if len(found) > 0 {
		f = f.foreshortenedTo(found)
	}
	m := fit(f, side, append(anchors[:3:3], found...), 0.7*module)
	// Once more from where the fit says, now that all of it is known.
	again := anchors
	for _, at := range alignmentCentres(version) {
		u, v := float64(at[1])+0.5, float64(at[0])+0.5
		along, down := axesAt(m, u, v)
		if place, like := alignmentPattern.seek(r, m.place(u, v), along, down, 1); like >= leastLike {
			again = append(again, anchor{u, v, place, like * like})
		}
	}
	return fit(f, side, again, 0.5*module)
}

// seekAll goes over the grid of alignment patterns row by row. A place is first
// expected where the frame has it, moved as the neighbours before it were.
func seekAll(r *raster, f *frame, version int) (found []anchor) {
	along := standards[version].alignment
	n := len(along)
	moved := make([]point, n*n)
	known := make([]bool, n*n)
	if n > 0 {
		known[0], known[n-1], known[(n-1)*n] = true, true, true
	}
	for i, row := range along {
		for j, col := range along {
			if known[i*n+j] {
				continue
			}
			u, v := float64(col)+0.5, float64(row)+0.5
			shift, reach := point{}, nearReach
			switch {
			case i > 0 && j > 0 && known[(i-1)*n+j] && known[i*n+j-1]:
				shift = moved[(i-1)*n+j].plus(moved[i*n+j-1])
				if known[(i-1)*n+j-1] {
					shift = shift.minus(moved[(i-1)*n+j-1])
				} else {
					shift = shift.times(0.5)
				}
			case i > 0 && known[(i-1)*n+j]:
				shift = moved[(i-1)*n+j]
			case j > 0 && known[i*n+j-1]:
				shift = moved[i*n+j-1]
			default:
				reach = farReach
			}
			if n == 2 {
				reach = farReach
			}
			p := f.place(u, v)
			du, dv := axesAt(f, u, v)
			place, like := alignmentPattern.seek(r, p.plus(shift), du, dv, reach)
			moved[i*n+j] = shift
			if like >= leastLike {
				known[i*n+j], moved[i*n+j] = true, place.minus(p)
				found = append(found, anchor{u, v, place, like * like})
			}
		}
	}
	return found
}
