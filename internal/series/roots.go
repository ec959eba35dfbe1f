package series

import "math"

// wallRoot is the n-th (n = 0, 1, …) eigenvalue of a wall of thickness 1 with Biot numbers biA and biB on its faces:
//
//	tan λ = λ(biA + biB)/(λ² - biA·biB)
//
// which is the same as λ = nπ + atan(biA/λ) + atan(biB/λ), and in that form has exactly one root in (nπ, nπ+π). An insulated face
// has biA = 0; then λ·tan λ = biB.
func wallRoot(n int, biA, biB float64) float64 {
	base := float64(n) * math.Pi
	excess := func(l float64) (f, slope float64) {
		f = l - base - math.Atan(biA/l) - math.Atan(biB/l)
		return f, 1 + biA/(l*l+biA*biA) + biB/(l*l+biB*biB)
	}
	start := base + math.Atan(biA/base) + math.Atan(biB/base)
	if n == 0 {
		start = firstWallRootGuess(biA, biB)
	}
	return bracketedNewton(excess, base, base+math.Pi, start)
}

// firstWallRootGuess joins the limits of a thin wall, λ² = biA + biB, and of faces held at the medium, λ = π/2 for each such face.
func firstWallRootGuess(biA, biB float64) float64 {
	var limit float64
	for _, bi := range []float64{biA, biB} {
		if bi > 0 {
			limit += math.Pi / 2
		}
	}
	return math.Sqrt(1 / (1/(biA+biB) + 1/(limit*limit)))
}

// cylinderRoot is the n-th root (n = 0, 1, …) of λ·J1(λ) = bi·J0(λ). It lies between the n-th zero of J1 (counting λ = 0) and the
// next zero of J0.
func cylinderRoot(n int, bi float64) float64 {
	low, high := 0.0, besselZero(n, 0)
	if n > 0 {
		low = besselZero(n-1, 1)
	}
	// The function rises through the root for even n and falls for odd n.
	sign := 1.0
	if n%2 == 1 {
		sign = -1
	}
	excess := func(l float64) (f, slope float64) {
		j0, j1 := math.J0(l), math.J1(l)
		return sign * (l*j1 - bi*j0), sign * (l*j0 + bi*j1)
	}
	start := low + (high-low)*bi/(bi+high)
	if n == 0 {
		start = math.Sqrt(1 / (1/(2*bi) + 1/(high*high)))
	}
	return bracketedNewton(excess, low, high, start)
}

// besselZero is the n-th positive zero (n = 0, 1, …) of J0 or J1: McMahon's expansion, polished by Newton.
func besselZero(n, order int) float64 {
	mu := float64(4 * order * order)
	beta := (float64(n+1) + float64(order)/2 - 0.25) * math.Pi
	e := 8 * beta
	z := beta - (mu-1)/e - 4*(mu-1)*(7*mu-31)/(3*e*e*e)
	for range 3 {
		j0, j1 := math.J0(z), math.J1(z)
		if order == 0 {
			z += j0 / j1 // J0' = -J1
		} else {
			z -= j1 / (j0 - j1/z) // J1' = J0 - J1/z
		}
	}
	return z
}

// sphereRoot is the n-th root (n = 0, 1, …) of 1 - λ·cot λ = bi, as λ + atan2(λ, bi-1) = (n+1)π.
func sphereRoot(n int, bi float64) float64 {
	base := float64(n+1) * math.Pi
	c := bi - 1
	excess := func(l float64) (f, slope float64) {
		return l + math.Atan2(l, c) - base, 1 + c/(l*l+c*c)
	}
	low := base - math.Pi
	start := base - math.Atan2(base, c)
	if n == 0 {
		// λ = 0 also solves it when bi < 1. The root of a sphere is above 0.9·√(3·bi) for bi <= 1, and above π/2 for bi > 1.
		low = min(0.8*math.Sqrt(3*bi), math.Pi/2)
		start = math.Sqrt(1 / (1/(3*bi) + 1/(math.Pi*math.Pi)))
	}
	return bracketedNewton(excess, low, base, start)
}

// bracketedNewton finds the root of f between low, where f <= 0, and high, where f >= 0. A step that leaves the bracket, which
// shrinks as it goes, is replaced by a bisection.
func bracketedNewton(f func(float64) (value, slope float64), low, high, start float64) float64 {
	x := start
	for range maxSteps {
		if !(x > low && x < high) {
			x = (low + high) / 2
		}
		value, slope := f(x)
		switch {
		case value == 0:
			return x
		case value < 0:
			low = x
		default:
			high = x
		}
		next := x - value/slope
		if math.Abs(next-x) <= stepTolerance*x {
			return next
		}
		x = next
	}
	return x
}

const (
	// maxSteps bounds every search. Pure bisection needs 50 steps to halve a bracket down to rounding.
	maxSteps      = 100
	stepTolerance = 1e-13
)
