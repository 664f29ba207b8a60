package phototest

import "math/rand/v2"

// Row is one line of a grid: a kind of distortion at a strength. A cell of the
// grid is a row at one resolution.
type Row struct {
	Kind, Strength string
	Shot           Shot       // without DPI and Degrees
	Turn           [2]float64 // least and most degrees, either way
	Sideways       bool       // and by one, two or three quarters of a turn
}

// Mild, Medium and Harsh are all distortions together.
var (
	Mild   = together("mild", mild, [2]float64{1, 5})
	Medium = together("medium", medium, [2]float64{5, 10})
	Harsh  = together("harsh", harsh, [2]float64{10, 15})
)

// The strengths; see the package comment for how they were chosen.
var (
	mild   = Shot{Blur: 0.7, Perspective: 0.03, Curl: 0.005, Uneven: 0.25, Shadow: 0.1, Noise: 4, JPEG: 75}
	medium = Shot{Blur: 1.2, Perspective: 0.065, Curl: 0.01, Uneven: 0.5, Shadow: 0.2, Noise: 8, JPEG: 60}
	harsh  = Shot{Blur: 1.7, Perspective: 0.12, Curl: 0.02, Uneven: 0.65, Shadow: 0.35, Noise: 12, JPEG: 50}
	// still is a phone on a stand in good light: what every row has at the least.
	still = Shot{Blur: 0.6, Noise: 3, JPEG: 90}
)

func together(strength string, shot Shot, turn [2]float64) Row {
	return Row{Kind: "all together", Strength: strength, Shot: shot, Turn: turn}
}

// alone are the distortions one by one: each takes its own fields of a strength.
var alone = []struct {
	kind string
	take func(row *Row, all Row)
}{
	{"blur", func(row *Row, all Row) { row.Shot.Blur = all.Shot.Blur }},
	{"turn", func(row *Row, all Row) { row.Turn = all.Turn }},
	{"perspective", func(row *Row, all Row) { row.Shot.Perspective = all.Shot.Perspective }},
	{"curl", func(row *Row, all Row) { row.Shot.Curl = all.Shot.Curl }},
	{"light", func(row *Row, all Row) { row.Shot.Uneven, row.Shot.Shadow = all.Shot.Uneven, all.Shot.Shadow }},
	{"noise", func(row *Row, all Row) { row.Shot.Noise = all.Shot.Noise }},
	{"JPEG", func(row *Row, all Row) { row.Shot.JPEG = all.Shot.JPEG }},
}

// Rows is the grid: every kind alone and all together, at each strength, and all
// together with the sheet sideways or upside down. The rows of all together come
// first.
func Rows() []Row {
	strengths := []Row{Mild, Medium, Harsh}
	rows := append([]Row(nil), strengths...)
	for _, all := range strengths {
		all.Kind, all.Sideways = "all, sideways", true
		rows = append(rows, all)
	}
	for _, one := range alone {
		for _, all := range strengths {
			row := Row{Kind: one.kind, Strength: all.Strength, Shot: still}
			one.take(&row, all)
			rows = append(rows, row)
		}
	}
	return rows
}

// Name is the row's name in a table.
func (r Row) Name() string { return r.Kind + ", " + r.Strength }

// At is the row's shot at a resolution: the seed draws the turn.
func (r Row) At(dpi int, seed uint64) Shot {
	draws := rand.New(rand.NewPCG(seed, 0x7475726e)) // "turn"
	shot := r.Shot
	shot.DPI = dpi
	shot.Degrees = r.Turn[0] + (r.Turn[1]-r.Turn[0])*draws.Float64()
	if draws.IntN(2) == 0 {
		shot.Degrees = -shot.Degrees
	}
	if r.Sideways {
		shot.Degrees += float64(90 * (1 + draws.IntN(3)))
	}
	return shot
}
