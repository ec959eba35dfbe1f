package forecast

import "math"

// model takes one count after another and forecasts what comes after the last.
type model interface {
	learn(y float64)
	ahead(h int) float64 // the period h after the last, from 1; it has learned one count at least
}

// window is the mean of the last size counts, or of all if size is 0.
type window struct {
	size int
	past []float64
	sum  float64
}

func (w *window) learn(y float64) {
	w.past = append(w.past, y)
	w.sum += y
}

func (w *window) ahead(int) float64 {
	n := len(w.past)
	if w.size == 0 {
		return w.sum / float64(n)
	}
	last := w.past[max(0, n-w.size):]
	sum := 0.0 // added up anew, so that no rounding is carried along
	for _, y := range last {
		sum += y
	}
	return sum / float64(len(last))
}

// seasonal is the count of the same period a season ago; before there is one, the last count.
type seasonal struct {
	size int
	past []float64
}

func (s *seasonal) learn(y float64) { s.past = append(s.past, y) }

func (s *seasonal) ahead(h int) float64 {
	n := len(s.past)
	if n < s.size {
		return s.past[n-1]
	}
	return s.past[n-s.size+(h-1)%s.size]
}

// smoothing is level + alpha (count - level), begun at the first count.
type smoothing struct {
	alpha, level float64
	begun        bool
}

func (s *smoothing) learn(y float64) {
	if !s.begun {
		s.level, s.begun = y, true
		return
	}
	s.level += s.alpha * (y - s.level)
}

func (s *smoothing) ahead(int) float64 { return s.level }

// holt smooths level and trend: level = alpha count + (1-alpha)(level+trend), trend = beta (level - level before) + (1-beta) trend. It
// begins at the first count, with the step to the second for a trend.
type holt struct {
	alpha, beta, level, trend float64
	seen                      int
}

func (s *holt) learn(y float64) {
	s.seen++
	switch s.seen {
	case 1:
		s.level = y
		return
	case 2:
		s.level, s.trend = y, y-s.level
		return
	}
	before := s.level
	s.level = s.alpha*y + (1-s.alpha)*(before+s.trend)
	s.trend = s.beta*(s.level-before) + (1-s.beta)*s.trend
}

func (s *holt) ahead(h int) float64 { return s.level + float64(h)*s.trend }

// croston smooths the size of a sale and the periods from one sale to the next, each begun at the first and moved only by a sale. The
// demand of a period is one over the other; corrected, times 1 - alpha/2.
type croston struct {
	alpha     float64
	corrected bool
	size, gap smoothing
	waited    float64 // periods since the last sale, this one included
}

func (c *croston) learn(y float64) {
	c.waited++
	if y == 0 {
		return
	}
	c.size.alpha, c.gap.alpha = c.alpha, c.alpha
	c.size.learn(y)
	c.gap.learn(c.waited)
	c.waited = 0
}

func (c *croston) ahead(int) float64 {
	if !c.size.begun {
		return 0
	}
	rate := c.size.level / c.gap.level
	if c.corrected {
		rate *= 1 - c.alpha/2
	}
	return rate
}

// tuned is one method with several settings; it speaks with the one that has erred least so far, of equal ones the first.
type tuned struct {
	settings []Setting
	models   []model
	squares  []float64 // of the errors of one period, so far
	learned  int
}

func (t *tuned) add(s Setting, m model) {
	t.settings, t.models, t.squares = append(t.settings, s), append(t.models, m), append(t.squares, 0)
}

func (t *tuned) learn(y float64) {
	for i, m := range t.models {
		if t.learned > 0 {
			e := say(m, 1) - y
			t.squares[i] += e * e
		}
		m.learn(y)
	}
	t.learned++
}

func (t *tuned) best() int {
	best := 0
	for i, s := range t.squares {
		if s < t.squares[best] {
			best = i
		}
	}
	return best
}

// say is what a model forecasts, nothing below 0.
func say(m model, h int) float64 { return math.Max(0, m.ahead(h)) }
