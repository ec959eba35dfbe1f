package vessel

import "math"

// Gauss-Kronrod rule of 7 and 15 points on (-1, 1): the published nodes and weights (QUADPACK), from the outside to the middle. Every
// second node, from the second on, is one of the 7.
var (
	kronrodNodes = [8]float64{0.991455371120812639, 0.949107912342758525, 0.864864423359769073, 0.741531185599394440,
		0.586087235467691130, 0.405845151377397167, 0.207784955007898468, 0}
	kronrodWeights = [8]float64{0.022935322010529225, 0.063092092629978553, 0.104790010322250184, 0.140653259715525919,
		0.169004726639267903, 0.190350578064785410, 0.204432940075298892, 0.209482141084727828}
	gaussWeights = [4]float64{0.129484966168869693, 0.279705391489276668, 0.381830050505118945, 0.417959183673469388}
)

// kronrod is the integral of f from a to b by 15 points, and how far the 7 are from it.
func kronrod(f func(float64) float64, a, b float64) (value, doubt float64) {
	middle, half := (a+b)/2, (b-a)/2
	var seven float64
	for i, x := range kronrodNodes {
		y := f(middle + half*x)
		if x > 0 {
			y += f(middle - half*x)
		}
		value += kronrodWeights[i] * y
		if i%2 == 1 {
			seven += gaussWeights[i/2] * y
		}
	}
	return value * half, math.Abs((value - seven) * half)
}

const (
	integralTolerance = 1e-9
	// mostPieces bounds the work: a pole a billionth of the way beyond the end takes some 30 halvings in each smooth stretch.
	mostPieces = 2000
)

// integrate is the integral of f, which does not change its sign, from a to b (either may be the smaller). f is smooth between the
// kinks, which rise. A piece is halved until it is exact to a billionth, or the work is used up.
func integrate(f func(float64) float64, a, b float64, kinks []float64) float64 {
	type piece struct{ a, b float64 }
	if a == b {
		return 0
	}
	low, high := min(a, b), max(a, b)
	var todo []piece
	for _, k := range kinks {
		if k > low && k < high {
			todo = append(todo, piece{a: low, b: k})
			low = k
		}
	}
	todo = append(todo, piece{a: low, b: high})
	var sum float64
	for done := 0; len(todo) > 0; done++ {
		p := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		value, doubt := kronrod(f, p.a, p.b)
		middle := (p.a + p.b) / 2
		if doubt <= integralTolerance*math.Abs(value) || done >= mostPieces || middle <= p.a || middle >= p.b {
			sum += value
			continue
		}
		todo = append(todo, piece{a: p.a, b: middle}, piece{a: middle, b: p.b})
	}
	return math.Copysign(1, b-a) * sum
}
