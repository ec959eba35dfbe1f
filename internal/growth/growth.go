// Package growth estimates how far Clostridium perfringens grows in cooked food while it cools, by the model of Juneja, Marks, Huang and
// Thippareddi (2011), Food Microbiology 28:791-795, with a band over its three uncured products.
//
// It is an estimate and releases nothing. The parameters were read at second hand, not in the paper itself; the unit of the rate
// (log10 an hour) was inferred, and the form of the lag (Baranyi) is from memory. Replicates differ by a factor of ten, and one published
// trial with beef disagrees. Limits for cooling are judged by internal/coolrule, never by this.
package growth

import (
	"fmt"
	"math"
	"slices"
)

// Product is a cooked, uncured food for which the model has parameters.
type Product struct {
	Name           string
	A, MinC        float64 // of the rate from below
	B, MaxC        float64 // and from above
	q0             float64 // what the cells have adapted already: less is a longer lag
	Source, Doubts string
}

const (
	source = "Juneja, Marks, Huang, Thippareddi (2011), Food Microbiology 28:791-795, parameters read at second hand"
	doubts = "the unit of the rate was inferred (log10 an hour), the form of the lag is from memory, and replicates differ by a factor of ten"
)

// Products are those that the band is over.
func Products() []Product {
	return []Product{
		{"beef", 0.050, 10.15, 0.238, 53.0, 0.0699, source, doubts},
		{"chicken", 0.048, 9.74, 0.208, 52.1, 0.0105, source, doubts},
		{"pork", 0.047, 10.69, 0.252, 52.8, 0.0137, source, doubts},
	}
}

// Rate is how fast it grows once adapted, in tenfolds an hour: [a (T - Tmin)]² (1 - exp(b (T - Tmax))) between Tmin and Tmax, else 0.
func (p Product) Rate(tempC float64) float64 {
	if tempC <= p.MinC || tempC >= p.MaxC {
		return 0
	}
	x := p.A * (tempC - p.MinC)
	return x * x * (1 - math.Exp(p.B*(tempC-p.MaxC)))
}

// Reading is a temperature of the slowest point of the food.
type Reading struct{ TimeS, TempC float64 }

// Growth is what the model says of one product, in tenfolds: of cells that had adapted from the beginning, and with the lag.
type Growth struct {
	Product      string
	NoLag, Total float64
}

// Estimate is the band over the products.
type Estimate struct {
	Least, Most float64 // tenfolds
	Each        []Growth
	Source      string
	Doubts      string
}

// ReadingError says which reading makes no sense.
type ReadingError struct {
	Reading int
	Problem string
}

func (e *ReadingError) Error() string {
	return fmt.Sprintf("growth: reading %d %s: correct it", e.Reading+1, e.Problem)
}

// Cooling estimates the growth while food cools, the temperature running straight between readings. Errors are *ReadingError.
func Cooling(readings []Reading) (Estimate, error) {
	for i, r := range readings {
		switch {
		case !(math.Abs(r.TempC) < 300) || !(math.Abs(r.TimeS) < 1e9):
			return Estimate{}, &ReadingError{i, "is no temperature of food at a time"}
		case i > 0 && r.TimeS <= readings[i-1].TimeS:
			return Estimate{}, &ReadingError{i, "is not later than the one before it"}
		}
	}
	e := Estimate{Source: source, Doubts: doubts}
	for _, p := range Products() {
		m := p.integral(readings)
		// G = log10[(1 + q0 10^M) / (1 + q0)], without an upper limit to the number of cells: it fails to the side of too much.
		e.Each = append(e.Each, Growth{p.Name, m, math.Log10((1 + p.q0*math.Pow(10, m)) / (1 + p.q0))})
	}
	e.Least = slices.MinFunc(e.Each, byTotal).Total
	e.Most = slices.MaxFunc(e.Each, byTotal).Total
	return e, nil
}

func byTotal(a, b Growth) int {
	switch {
	case a.Total < b.Total:
		return -1
	case a.Total > b.Total:
		return 1
	}
	return 0
}

// integral is the rate over time, in tenfolds, by Simpson's rule in steps of half a degree at most: the error is far below the model's.
func (p Product) integral(readings []Reading) float64 {
	sum := 0.0
	for i := 1; i < len(readings); i++ {
		a, b := readings[i-1], readings[i]
		low, high := min(a.TempC, b.TempC), max(a.TempC, b.TempC)
		hours := (b.TimeS - a.TimeS) / 3600
		if high-low < 1e-9 {
			sum += hours * p.Rate(low)
			continue
		}
		from, to := max(low, p.MinC), min(high, p.MaxC) // outside there is none, and its corners would spoil the rule
		if from >= to {
			continue
		}
		sum += hours / (high - low) * p.simpson(from, to)
	}
	return sum
}

func (p Product) simpson(from, to float64) float64 {
	n := 2 * max(1, int(math.Ceil(to-from)))
	h := (to - from) / float64(n)
	sum := p.Rate(from) + p.Rate(to)
	for i := 1; i < n; i++ {
		sum += float64(2+2*(i%2)) * p.Rate(from+float64(i)*h)
	}
	return sum * h / 3
}
