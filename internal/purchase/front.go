package purchase

// front keeps of all, the best score first, what no earlier one replaces: one with at least as much in every order. Steps counts
// the comparisons, four as one.
func front[T any](all []T, goods func(T) []int64, steps *int64) []T {
	if len(all) < 2 {
		return all
	}
	points := make([][]int64, len(all))
	for i, e := range all {
		points[i] = goods(e)
	}
	f := newForest(points)
	kept := all[:0]
	for i, e := range all {
		if !f.covered(0, 0, len(points), points[i]) {
			f.plant(0, 0, len(points), i)
			kept = append(kept, e)
		}
	}
	*steps += (f.looked + int64(len(all))) / 4
	return kept
}

// forest answers whether any point planted so far covers another: a tree over all points, halved at the median of one dimension
// after the other, in which every branch knows the most that is planted in it.
type forest struct {
	points [][]int64
	order  []int   // points as the leaves of the tree have them
	place  []int   // of each point in order
	most   []int64 // by branch and dimension; -1 where nothing is planted
	grown  []bool  // by place
	early  []int   // by branch, the first point planted in it
	looked int64
}

const leafSize = 8

func newForest(points [][]int64) *forest {
	n := len(points)
	f := &forest{points: points, order: make([]int, n), place: make([]int, n), grown: make([]bool, n)}
	for i := range f.order {
		f.order[i] = i
	}
	branches := f.split(0, 0, n, 0)
	f.early = make([]int, branches)
	for k := range f.early {
		f.early[k] = n
	}
	f.most = make([]int64, branches*len(points[0]))
	for k := range f.most {
		f.most[k] = never0
	}
	for at, i := range f.order {
		f.place[i] = at
	}
	return f
}

// never0 is below what any order can come to.
const never0 = -never

// split halves the points from lo to hi and returns how many branches there are, numbered as in a heap.
func (f *forest) split(branch, lo, hi, dim int) int {
	if hi-lo <= leafSize || len(f.points[0]) == 0 {
		return branch + 1
	}
	f.halve(lo, hi, (lo+hi)/2, dim)
	mid, next := (lo+hi)/2, (dim+1)%len(f.points[0])
	return max(f.split(2*branch+1, lo, mid, next), f.split(2*branch+2, mid, hi, next))
}

// halve puts the points from lo to hi so that none before mid has more in dim than one from mid on (Hoare's selection).
func (f *forest) halve(lo, hi, mid, dim int) {
	at := func(k int) int64 { return f.points[f.order[k]][dim] }
	for hi-lo > 1 {
		pivot := at((lo + hi) / 2)
		i, j := lo, hi-1
		for i <= j {
			for at(i) < pivot {
				i++
			}
			for at(j) > pivot {
				j--
			}
			if i <= j {
				f.order[i], f.order[j] = f.order[j], f.order[i]
				i++
				j--
			}
		}
		switch {
		case mid <= j:
			hi = j + 1
		case mid >= i:
			lo = i
		default:
			return
		}
	}
}

// covered looks into the half with more first.
func (f *forest) covered(branch, lo, hi int, p []int64) bool {
	f.looked++
	d := len(p)
	if !covers(f.most[branch*d:branch*d+d], p) {
		return false
	}
	if hi-lo <= leafSize || d == 0 {
		f.looked += int64(hi - lo)
		for at := lo; at < hi; at++ {
			if f.grown[at] && covers(f.points[f.order[at]], p) {
				return true
			}
		}
		return false
	}
	mid := (lo + hi) / 2
	return f.covered(2*branch+2, mid, hi, p) || f.covered(2*branch+1, lo, mid, p)
}

// first is the first point planted that covers p, or before if none before it does.
func (f *forest) first(branch, lo, hi int, p []int64, before int) int {
	f.looked++
	d := len(p)
	if f.early[branch] >= before || !covers(f.most[branch*d:branch*d+d], p) {
		return before
	}
	if hi-lo <= leafSize || d == 0 {
		f.looked += int64(hi - lo)
		for at := lo; at < hi; at++ {
			if i := f.order[at]; i < before && f.grown[at] && covers(f.points[i], p) {
				before = i
			}
		}
		return before
	}
	mid := (lo + hi) / 2
	left, right := 2*branch+1, 2*branch+2
	if f.early[left] <= f.early[right] {
		return f.first(right, mid, hi, p, f.first(left, lo, mid, p, before))
	}
	return f.first(left, lo, mid, p, f.first(right, mid, hi, p, before))
}

func (f *forest) plant(branch, lo, hi, i int) {
	p := f.points[i]
	d := len(p)
	f.early[branch] = min(f.early[branch], i)
	for k, g := range p {
		f.most[branch*d+k] = max(f.most[branch*d+k], g)
	}
	if hi-lo <= leafSize || d == 0 {
		f.grown[f.place[i]] = true
		return
	}
	if mid := (lo + hi) / 2; f.place[i] < mid {
		f.plant(2*branch+1, lo, mid, i)
	} else {
		f.plant(2*branch+2, mid, hi, i)
	}
}

func covers(a, b []int64) bool {
	for d := range a {
		if a[d] < b[d] {
			return false
		}
	}
	return true
}
