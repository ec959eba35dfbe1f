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
	var starts []int64
	for g := range r.lo {
		for at := r.lo[g]; at < r.hi[g]; {
			next := nextCap(r.steps, g, at, r.hi[g])
			starts = append(starts, at)
			r.group, r.upper = append(r.group, g), append(r.upper, float64(next-at))
			at = next
		}
	}
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
	if k := len(r.spare); k > 0 && cap(r.spare[k-1]) >= n {
		row := r.spare[k-1][:n]
		r.spare = r.spare[:k-1]
		clear(row)
		return row
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

// corner is the counts of the groups at the corner found.
func (r *relaxation) corner() []float64 {
	c := slices.Clone(r.x)
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

// entering is the column that promises the most, or, against going round in circles, the first that promises anything (Bland).
func (r *relaxation) entering(z []float64, first bool) int {
	best, most := -1, 1e-9
	for c := range r.cols {
		if z[c] > most {
			best, most = c, z[c]
			if first {
				break
			}
		}
	}
	return best
}

// enter raises the variable of column c as far as it goes.
func (r *relaxation) enter(c int) {
	row, least, atUpper := -1, r.upper[r.non[c]], false
	for i, v := range r.basic {
		a, b := r.tab[i][c], r.tab[i][r.cols]
		switch {
		case a > 1e-11 && b/a < least:
			row, least, atUpper = i, max(0, b/a), false
		case a < -1e-11 && (r.upper[v]-b)/-a < least:
			row, least, atUpper = i, max(0, (r.upper[v]-b)/-a), true
		}
	}
	if row < 0 {
		r.flip(c)
		return
	}
	if atUpper {
		v := r.basic[row]
		r.flipped[v] = !r.flipped[v]
		for k := range r.cols {
			r.tab[row][k] = -r.tab[row][k]
		}
		r.tab[row][r.cols] = r.upper[v] - r.tab[row][r.cols]
	}
	r.pivot(row, c)
}

// flip takes the variable of column c to its other end.
func (r *relaxation) flip(c int) {
	u := r.upper[r.non[c]]
	for _, rows := range [2][][]float64{r.tab, r.goalRow} {
		for _, row := range rows {
			row[r.cols] -= row[c] * u
			row[c] = -row[c]
		}
	}
	r.flipped[r.non[c]] = !r.flipped[r.non[c]]
}

func (r *relaxation) pivot(row, c int) {
	pr := r.tab[row]
	inv := 1 / pr[c]
	for k := range pr {
		pr[k] *= inv
	}
	pr[c] = inv
	for _, rows := range [2][][]float64{r.tab, r.goalRow} {
		for _, ir := range rows {
			f := ir[c]
			if f == 0 || &ir[0] == &pr[0] {
				continue
			}
			for k, p := range pr {
				ir[k] -= f * p
			}
			ir[c] = -f * inv
		}
	}
	r.basic[row], r.non[c] = r.non[c], r.basic[row]
}
