package coolforecast

func dot(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}

func apply(m [][]float64, x []float64) []float64 {
	y := make([]float64, len(m))
	for i := range m {
		y[i] = dot(m[i], x)
	}
	return y
}

// inverted is the inverse of a symmetric positive matrix, by Gauss and Jordan: it needs no pivots.
func inverted(m [][]float64) [][]float64 {
	n := len(m)
	inverse := make([][]float64, n)
	for i := range n {
		inverse[i] = make([]float64, n)
		inverse[i][i] = 1
	}
	for i := range n {
		by := 1 / m[i][i]
		for j := range n {
			m[i][j] *= by
			inverse[i][j] *= by
		}
		for k := range n {
			if off := m[k][i]; k != i && off != 0 {
				for j := range n {
					m[k][j] -= off * m[i][j]
					inverse[k][j] -= off * inverse[i][j]
				}
			}
		}
	}
	return inverse
}
