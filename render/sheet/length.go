package sheet

// Len is a length on paper in 1/100 pt; 72 pt are one inch.
type Len int32

// Pt is one point.
const Pt Len = 100

// MM returns so many millimetres, rounded down to 1/100 pt.
func MM(n int) Len { return Len(n * 7200 * 10 / 254) }

// Box is a rectangle: its upper left corner, width and height. The origin is
// the upper left corner of the page, y grows downwards.
type Box struct{ X, Y, W, H Len }

// Right is the x of the right edge.
func (b Box) Right() Len { return b.X + b.W }

// Bottom is the y of the lower edge.
func (b Box) Bottom() Len { return b.Y + b.H }

// Inset returns the box made smaller by d on every side.
func (b Box) Inset(d Len) Box { return Box{b.X + d, b.Y + d, b.W - 2*d, b.H - 2*d} }

// Contains says whether o lies wholly inside b.
func (b Box) Contains(o Box) bool {
	return o.X >= b.X && o.Y >= b.Y && o.Right() <= b.Right() && o.Bottom() <= b.Bottom()
}

// Overlaps says whether b and o share an area.
func (b Box) Overlaps(o Box) bool {
	return b.X < o.Right() && o.X < b.Right() && b.Y < o.Bottom() && o.Y < b.Bottom()
}

// Paper is a page size, with the edge that stays free on every side because
// printers cannot reach it.
type Paper struct{ W, H, Margin Len }

// Safe is what of a page may be printed on.
func (p Paper) Safe() Box { return Box{W: p.W, H: p.H}.Inset(p.Margin) }

// The papers, to the nearest 1/100 pt. ISO 216 A4 is 210 by 297 mm; Letter is
// 8.5 by 11 in; many office printers leave 6 mm of them blank.
var (
	A4     = Paper{59528, 84189, MM(6)}
	Letter = Paper{61200, 79200, MM(6)}
)

// Sticker is a label of so many millimetres. Label printers reach to within
// 1.5 mm of its edges; what lies nearer is lost where the roll runs askew.
func Sticker(widthMM, heightMM int) Paper {
	nearest := func(mm int) Len { return Len((mm*7200*100 + 1270) / 2540) }
	return Paper{nearest(widthMM), nearest(heightMM), MM(15) / 10}
}
