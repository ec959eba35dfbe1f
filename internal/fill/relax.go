package fill

import (
	"math"
	"slices"
)

// relaxation is the linear relaxation of one box: counts may be fractions. Because everything a pack takes is >= 0, the lower
// limits are a feasible corner to start from, and the simplex needs no first phase.
//
// Several goals are carried through the same tableau and made as high as can be one after another; a goal that is settled is held
// by one more row. The tableau is condensed: one column for each nonbasic variable. Variables are first the stretches of the
// groups' counts between the caps of the goals, then what is left of each resource, then what each held goal is above its target.
// A variable at its upper end is flipped: its column then counts down from there.
type relaxation struct {
	t     *table
	steps []step
	lo    []int64
	hi    []int64
	left  []int64
	base  []int64 // of each goal, at the lower limits

	rows, cols int
	tab        [][]float64 // rows, then one for each goal; the last column is the right-hand side
	goalRow    [][]float64
	basic, non []int
	group      []int     // of each stretch
	starts     []int64   // likewise
	upper      []float64 // of each variable
	flipped    []bool
	rowScale   []float64
	goalScale  []float64

	x     []float64 // the corner found: counts of the groups above the lower limits
	price []float64 // multiplier of each resource there, >= 0
	held  []float64 // and of each goal that is held
	spare [][]float64
	fix   dual
}

func newRelaxation(t *table) *relaxation {
	n, m := len(t.groups), len(t.stock)
	r := &relaxation{t: t, rowScale: make([]float64, m), x: make([]float64, n), price: make([]float64, m)}
	for j := range r.rowScale {
		r.rowScale[j] = 1
		for g := range t.take {
			r.rowScale[j] = max(r.rowScale[j], float64(t.take[g][j]))
		}
	}
	return r
}

// begin sets up the tableau of a box at its lower limits, which leave so much of each resource.
func (r *relaxation) begin(steps []step, lo, hi, left []int64) {
	r.steps, r.lo, r.hi, r.left = steps, lo, hi, left
	r.base, r.goalScale, r.group, r.upper = r.base[:0], r.goalScale[:0], r.group[:0], r.upper[:0]
	for _, o := range steps {
		r.base = append(r.base, o.of(lo))
		scale := int64(1)
		for _, w := range o.w {
			scale = max(scale, w, -w)
		}
		r.goalScale = append(r.goalScale, float64(scale))
	}
	starts := r.stretches()
	r.cols, r.rows = len(r.group), len(left)
	r.spare = append(append(r.spare, r.tab...), r.goalRow...)
	r.tab, r.goalRow, r.basic, r.non = r.tab[:0], r.goalRow[:0], r.basic[:0], r.non[:0]
	for j := range left {
		row := r.newRow()
		for c, g := range r.group {
			row[c] = float64(r.t.take[g][j]) / r.rowScale[j]
		}
		row[r.cols] = float64(left[j]) / r.rowScale[j]
		r.tab, r.basic = append(r.tab, row), append(r.basic, r.cols+j)
	}
	for k, o := range steps {
		row := r.newRow()
		for c, g := range r.group {
			if starts[c] < o.cap[g] {
				row[c] = float64(o.w[g]) / r.goalScale[k]
			}
		}
		r.goalRow = append(r.goalRow, row)
	}
	for c := range r.cols {
		r.non = append(r.non, c)
	}
	for range len(left) + len(steps) {
		r.upper = append(r.upper, math.Inf(1))
	}
	r.flipped = slices.Grow(r.flipped[:0], len(r.upper))[:len(r.upper)]
	clear(r.flipped)
	r.held = slices.Grow(r.held[:0], len(steps))[:len(steps)]
}

// stretches cuts the range of every group at the caps of the goals and says where each stretch starts.
func (r *relaxation) stretches() []int64 {
	starts := r.starts[:0]
	for g := range r.lo {
		for at := r.lo[g]; at < r.hi[g]; {
			next := nextCap(r.steps, g, at, r.hi[g])
			starts = append(starts, at)
			r.group, r.upper = append(r.group, g), append(r.upper, float64(next-at))
			at = next
		}
	}
	r.starts = starts
	return starts
}

// nextCap is where the slope of some goal changes next above at, or end.
func nextCap(steps []step, g int, at, end int64) int64 {
	for _, o := range steps {
		if c := o.cap[g]; o.w[g] != 0 && c > at {
			end = min(end, c)
		}
	}
	return end
}

func (r *relaxation) newRow() []float64 {
	n := r.cols + 1
	if k := len(r.spare); k > 0 {
		row := r.spare[k-1]
		r.spare = r.spare[:k-1]
		if cap(row) >= n {
			row = row[:n]
			clear(row)
			return row
		}
	}
	return make([]float64, n, 2*n)
}

// maximise makes goal k as high as can be with the earlier ones held, and fills in x, price and held. A corner that is not quite
// the best only makes the bound looser.
func (r *relaxation) maximise(k int) {
	z := r.goalRow[k]
	const mostPivots = 300 // a dozen is usual
	for i := range mostPivots {
		c := r.entering(z, i > mostPivots/2)
		if c < 0 {
			break
		}
		r.enter(c)
	}
	r.readCorner(k)
}

func (r *relaxation) readCorner(k int) {
	clear(r.x)
	clear(r.price)
	clear(r.held)
	for i, v := range r.basic {
		if v < r.cols {
			r.addTo(v, r.tab[i][r.cols])
		}
	}
	m := len(r.left)
	for c, v := range r.non {
		price := max(0, -r.goalRow[k][c]) * r.goalScale[k]
		switch {
		case v < r.cols:
			r.addTo(v, 0)
		case v < r.cols+m:
			r.price[v-r.cols] = price / r.rowScale[v-r.cols]
		default:
			r.held[v-r.cols-m] = price / r.goalScale[v-r.cols-m]
		}
	}
}

func (r *relaxation) addTo(v int, at float64) {
	if r.flipped[v] {
		at = r.upper[v] - at
	}
	r.x[r.group[v]] += at
}

// corner is the counts of the groups at the corner found, in c.
func (r *relaxation) corner(c []float64) []float64 {
	c = append(c[:0], r.x...)
	for g, lo := range r.lo {
		c[g] += float64(lo)
	}
	return c
}

// hold keeps goal k, which has just been made as high as can be, at its target or above.
func (r *relaxation) hold(k int) {
	row, z := r.newRow(), r.goalRow[k]
	for c := range r.cols {
		row[c] = -z[c]
	}
	row[r.cols] = max(0, -z[r.cols]-float64(r.steps[k].target-r.base[k])/r.goalScale[k])
	r.tab, r.basic = append(r.tab, row), append(r.basic, r.cols+len(r.left)+k)
	r.rows++
}
