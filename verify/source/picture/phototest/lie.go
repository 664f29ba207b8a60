package phototest

import (
	"image"
	"math"
	"math/rand/v2"
)

// lie is how a sheet lies under the camera: a map between points of the sheet
// and points of the picture, both in pixels from their middles.
type lie struct {
	w, h float64   // the sheet
	turn direction // where its own x axis points in the picture

	bulge     float64 // see Shot.Curl
	across    direction
	halfWidth float64 // from the line of the bulge to where the sheet lies flat

	tilt     float64 // change of scale for each pixel along the tilt
	downhill direction
}

// steepest keeps the far end of the largest sheet in front of the camera: no
// point of it is shown at less than half or more than double the scale.
const steepest = 0.5

func (s Shot) lie(size image.Point, draws *rand.Rand) lie {
	w, h := float64(size.X), float64(size.Y)
	l := lie{w: w, h: h, turn: towards(s.Degrees * math.Pi / 180), bulge: s.Curl, across: anyDirection(draws), downhill: anyDirection(draws)}
	l.halfWidth = max(1, l.across.extent(w, h)/2)
	// 50 mm either way of the middle the scales are to be as 1-Perspective to 1.
	perspective := max(0, min(s.Perspective, 1))
	l.tilt = min(perspective/(2-perspective)/s.pixels(50), steepest/(math.Hypot(w, h)/2+1))
	return l
}

// nearer is how much larger a point of the sheet is seen for the bulge.
func (l lie) nearer(u, v float64) float64 {
	if l.bulge == 0 {
		return 1
	}
	t := max(-1, min(l.across.along(u, v)/l.halfWidth, 1))
	return 1 + l.bulge*(1+math.Cos(math.Pi*t))/2
}

// seen is where a point of the sheet is in the picture.
func (l lie) seen(u, v float64) (x, y float64) {
	n := l.nearer(u, v)
	u, v = u*n, v*n
	x, y = u*l.turn.x-v*l.turn.y, u*l.turn.y+v*l.turn.x
	farther := 1 + l.tilt*l.downhill.along(x, y)
	return x / farther, y / farther
}

// onSheet is the point of the sheet that is seen at a point of the picture.
func (l lie) onSheet(x, y float64) (u, v float64) {
	farther := 1 / (1 - l.tilt*l.downhill.along(x, y))
	x, y = x*farther, y*farther
	x, y = x*l.turn.x+y*l.turn.y, -x*l.turn.y+y*l.turn.x
	u, v = x, y
	if l.bulge != 0 {
		for range 4 { // each round divides the error by some ten
			n := l.nearer(u, v)
			u, v = x/n, y/n
		}
	}
	return u, v
}

// plane is what is in front of the camera, in grey levels: the sheet's white and
// black, and what is around it, as wide as a share of the sheet's longer side.
type plane struct{ paper, ink, around, margin float64 }

// photograph resamples the sheet.
func (l lie) photograph(sheet *image.Gray, in plane, draws *rand.Rand) *exposure {
	lowX, lowY, highX, highY := l.box()
	margin := in.margin * max(l.w, l.h)
	lowX, lowY = lowX-margin-draws.Float64(), lowY-margin-draws.Float64()
	e := newExposure(int(math.Ceil(highX+margin-lowX)), int(math.Ceil(highY+margin-lowY)))
	for j := range e.h {
		for i := range e.w {
			u, v := l.onSheet(lowX+float64(i)+0.5, lowY+float64(j)+0.5)
			e.levels[j*e.w+i] = float32(in.between(sheet, u+l.w/2-0.5, v+l.h/2-0.5))
		}
	}
	return e
}

// box is what the sheet takes up in the picture.
func (l lie) box() (lowX, lowY, highX, highY float64) {
	const steps = 64 // along each edge, which the curl bends
	lowX, lowY, highX, highY = math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for i := range steps + 1 {
		at := float64(i)/steps - 0.5
		for _, edge := range [][2]float64{{at, -0.5}, {at, 0.5}, {-0.5, at}, {0.5, at}} {
			x, y := l.seen(edge[0]*l.w, edge[1]*l.h)
			lowX, lowY, highX, highY = min(lowX, x), min(lowY, y), max(highX, x), max(highY, y)
		}
	}
	return lowX, lowY, highX, highY
}

// between interpolates the grey level at a point of the sheet, in pixels from
// the middle of its first.
func (in plane) between(sheet *image.Gray, x, y float64) float64 {
	left, top := math.Floor(x), math.Floor(y)
	fx, fy := x-left, y-top
	i, j := int(left), int(top)
	upper := in.level(sheet, i, j)*(1-fx) + in.level(sheet, i+1, j)*fx
	lower := in.level(sheet, i, j+1)*(1-fx) + in.level(sheet, i+1, j+1)*fx
	return upper*(1-fy) + lower*fy
}

func (in plane) level(sheet *image.Gray, i, j int) float64 {
	p := image.Pt(i, j).Add(sheet.Rect.Min)
	if !p.In(sheet.Rect) {
		return in.around
	}
	return in.ink + (in.paper-in.ink)*float64(sheet.Pix[sheet.PixOffset(p.X, p.Y)])/255
}
