package picture

import "math"

// normal gathers the normal equations of a problem of least squares with n
// unknowns, for several right-hand sides at once.
type normal struct {
	n     int
	a     []float64 // n * n
	right [][]float64
}

func newNormal(n, sides int) *normal {
	m := &normal{n, make([]float64, n*n), make([][]float64, sides)}
	for i := range m.right {
		m.right[i] = make([]float64, n)
	}
	return m
}

// add takes an equation in: row · unknowns = values, one value a right-hand side.
func (m *normal) add(row, values []float64, weight float64) {
	for i, x := range row {
		wx := weight * x
		for j := range i + 1 {
			m.a[i*m.n+j] += wx * row[j]
		}
		for k, v := range values {
			m.right[k][i] += wx * v
		}
	}
}

// pull draws an unknown to the values, nil for 0, with a weight.
func (m *normal) pull(i int, weight float64, values []float64) {
	m.a[i*m.n+i] += weight
	for k, v := range values {
		m.right[k][i] += weight * v
	}
}

// solve gives the unknowns for each right-hand side, by Cholesky's decomposition.
// What the equations do not determine is 0.
func (m *normal) solve() [][]float64 {
	n := m.n
	l := make([]float64, n*n)
	for i := range n {
		for j := range i + 1 {
			s := m.a[i*n+j]
			for k := range j {
				s -= l[i*n+k] * l[j*n+k]
			}
			if i != j {
				if l[j*n+j] != 0 {
					l[i*n+j] = s / l[j*n+j]
				}
			} else if s > 1e-12*(1+m.a[i*n+i]) {
				l[i*n+i] = math.Sqrt(s)
			}
		}
	}
	out := make([][]float64, len(m.right))
	for k, b := range m.right {
		x := make([]float64, n)
		for i := range n {
			s := b[i]
			for j := range i {
				s -= l[i*n+j] * x[j]
			}
			if l[i*n+i] != 0 {
				x[i] = s / l[i*n+i]
			}
		}
		for i := n - 1; i >= 0; i-- {
			s := x[i]
			for j := i + 1; j < n; j++ {
				s -= l[j*n+i] * x[j]
			}
			if l[i*n+i] != 0 {
				x[i] = s / l[i*n+i]
			} else {
				x[i] = 0
			}
		}
		out[k] = x
	}
	return out
}
