package forecast

import (
	"math"
	"testing"
)

func near(t *testing.T, what string, got, want, room float64) {
	t.Helper()
	if !(math.Abs(got-want) <= room) {
		t.Errorf("%s: got %.6g, want %.6g ± %g", what, got, want, room)
	}
}

// follow is what a model says for every count before it sees it, and the mean square of its errors, from the second count on.
func follow(m model, counts []float64) (said []float64, meanSquare float64) {
	m.learn(counts[0])
	for _, y := range counts[1:] {
		f := m.ahead(1)
		said = append(said, f)
		meanSquare += (y - f) * (y - f) / float64(len(counts)-1)
		m.learn(y)
	}
	return said, meanSquare
}

// NIST/SEMATECH e-Handbook of Statistical Methods, 6.4.3.1 and 6.4.3.2 (from memory): twelve observations smoothed with 0.1, the mean of
// the squared errors, and the last observation 70 smoothed to 71.50.
func TestNISTSingleSmoothing(t *testing.T) {
	counts := []float64{71, 70, 69, 68, 64, 65, 72, 78, 75, 75, 75, 70}
	want := []float64{71, 70.9, 70.71, 70.44, 69.80, 69.32, 69.58, 70.43, 70.88, 71.29, 71.67}
	m := &smoothing{alpha: 0.1}
	said, meanSquare := follow(m, counts)
	for i := range want {
		near(t, "smoothed", said[i], want[i], 0.0051)
	}
	near(t, "mean square", meanSquare, 19.0, 0.05)
	near(t, "next", m.ahead(1), 71.50, 0.0051)
}

// The same handbook, 6.4.3.5 (from memory): double smoothing with 0.3623 and 1.0, the trend begun at 0.8, a third of the way over the
// first four, against single smoothing with 0.977. Smoothed values and forecasts are met to the digit; the mean squares, as they are
// remembered, only to 1 %.
func TestNISTDoubleSmoothing(t *testing.T) {
	counts := []float64{6.4, 5.6, 7.8, 8.8, 11.0, 11.6, 16.7, 15.3, 21.6, 22.4}
	m := &holt{alpha: 0.3623, beta: 1, level: 6.4, trend: 0.8, seen: 2}
	var meanSquare float64
	for i, want := range []float64{6.6, 7.2, 8.1, 9.8, 11.5, 14.5, 16.7, 19.9, 22.8} {
		y := counts[i+1]
		meanSquare += (y - m.ahead(1)) * (y - m.ahead(1)) / 9
		m.learn(y)
		near(t, "smoothed", m.level, want, 0.051)
	}
	near(t, "mean square", meanSquare, 3.7024, 0.037)
	for h, want := range []float64{25.8, 28.7, 31.7, 34.6, 37.6} {
		near(t, "ahead", m.ahead(h+1), want, 0.051)
	}
	_, single := follow(&smoothing{alpha: 0.977}, counts)
	near(t, "single", single, 8.8867, 0.089)
}

// Hyndman and Athanasopoulos, Forecasting: Principles and Practice, 2nd edition, 7.1 (from memory): Saudi oil production, alpha 0.83 (0.8339
// before rounding), begun at a level of 446.59.
func TestOilProduction(t *testing.T) {
	m := &smoothing{alpha: 0.8339, level: 446.59, begun: true}
	for _, c := range []struct{ y, level float64 }{
		{445.36, 445.57}, {453.20, 451.93}, {454.41, 454.00}, {422.38, 427.63}, {456.04, 451.32}, {440.39, 442.20}, {425.19, 428.02},
		{486.21, 476.54}, {500.43, 496.46}, {521.28, 517.15}, {508.95, 510.31}, {488.89, 492.45}, {509.87, 506.98}, {456.72, 465.07},
		{473.82, 472.36}, {525.95, 517.05}, {549.83, 544.39}, {542.34, 542.68},
	} {
		m.learn(c.y)
		near(t, "level", m.level, c.level, 0.02)
	}
	near(t, "ahead", m.ahead(5), 542.68, 0.02)
}

// The same, 3rd edition, 8.1 (from memory): Algerian exports, alpha 0.84, begun at 39.54.
func TestAlgerianExports(t *testing.T) {
	m := &smoothing{alpha: 0.84, level: 39.54, begun: true}
	for _, c := range []struct{ y, level float64 }{
		{39.04, 39.12}, {46.24, 45.10}, {19.79, 23.84}, {24.68, 24.55}, {25.08, 25.00}, {22.60, 22.99}, {25.99, 25.51}, {23.43, 23.77},
	} {
		m.learn(c.y)
		near(t, "level", m.level, c.level, 0.011)
	}
}

// The same, 2nd edition, 7.2 (from memory): Australian air passengers, alpha 0.8321, beta 0.0001, begun at 15.57 with a trend of 2.102.
func TestAirPassengers(t *testing.T) {
	m := &holt{alpha: 0.8321, beta: 0.0001, level: 15.57, trend: 2.102, seen: 2}
	for _, c := range []struct{ y, level, said float64 }{
		{17.55, 17.57, 17.67}, {21.86, 21.49, 19.68}, {23.89, 23.84, 23.59}, {26.93, 26.76, 25.94}, {26.89, 27.22, 28.86}, {28.83, 28.92, 29.33},
		{30.08, 30.24, 31.02}, {30.95, 31.19, 32.34}, {30.19, 30.71, 33.29}, {31.58, 31.79, 32.81}, {32.58, 32.80, 33.90}, {33.48, 33.72, 34.90},
		{39.02, 38.48, 35.82}, {41.39, 41.25, 40.58}, {41.60, 41.89, 43.35}, {44.66, 44.54, 44.00}, {46.95, 46.90, 46.65}, {48.73, 48.78, 49.00},
		{51.49, 51.38, 50.88}, {50.03, 50.61, 53.49}, {60.64, 59.30, 52.72}, {63.36, 63.03, 61.40}, {66.36, 66.15, 65.13}, {68.20, 68.21, 68.25},
		{68.12, 68.49, 70.31}, {69.78, 69.92, 70.60}, {72.60, 72.50, 72.02},
	} {
		near(t, "said", m.ahead(1), c.said, 0.02)
		m.learn(c.y)
		near(t, "level", m.level, c.level, 0.02)
	}
	for h, want := range []float64{74.60, 76.70, 78.80, 80.91, 83.01} {
		near(t, "ahead", m.ahead(h+1), want, 0.02)
	}
}

// The same, 2nd edition, 12.2 (from memory): monthly sales of a lubricant, alpha 0.1: size 2.750, interval 2.793, 0.985 a month. Corrected
// it is 0.95 of that (Syntetos and Boylan, 2005).
func TestLubricantByCroston(t *testing.T) {
	counts := []float64{0, 2, 0, 1, 0, 11, 0, 0, 0, 0, 2, 0, 6, 3, 0, 0, 0, 0, 0, 7, 0, 0, 0, 0, 0, 0, 0, 3, 1, 0, 0, 1, 0, 1, 0, 0}
	plain, corrected := &croston{alpha: 0.1}, &croston{alpha: 0.1, corrected: true}
	for _, y := range counts {
		plain.learn(y)
		corrected.learn(y)
	}
	near(t, "size", plain.size.level, 2.750, 0.00051)
	near(t, "interval", plain.gap.level, 2.793, 0.00051)
	near(t, "a month", plain.ahead(1), 0.985, 0.00051)
	near(t, "corrected", corrected.ahead(1), 0.985*0.95, 0.00051)
}
