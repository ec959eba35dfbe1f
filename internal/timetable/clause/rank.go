package clause

// A question is a pair of opposite literals: is x at least v? rank orders them by how much they were part of recent conflicts
// (Moskewicz and others 2001), in a heap that holds only those that ever were.
type rank struct {
	heat  []float64
	place []int32 // in the heap, -1
	heap  []int32
	unit  float64
}

const (
	cooling = 1 / 0.95 // each conflict counts so much more than the one before
	tooHot  = 1e100
)

func newRank(questions int) rank {
	r := rank{heat: make([]float64, questions), place: make([]int32, questions), unit: 1}
	for k := range r.place {
		r.place[k] = -1
	}
	return r
}

func (r *rank) bump(q int32) {
	r.heat[q] += r.unit
	if r.heat[q] > tooHot {
		for k := range r.heat {
			r.heat[k] /= tooHot
		}
		r.unit /= tooHot
	}
	r.put(q)
}

// put makes sure q is in the heap, at its place.
func (r *rank) put(q int32) {
	if r.place[q] < 0 {
		r.place[q] = int32(len(r.heap))
		r.heap = append(r.heap, q)
	}
	r.up(int(r.place[q]))
}

func (r *rank) up(k int) {
	q := r.heap[k]
	for k > 0 && r.heat[q] > r.heat[r.heap[(k-1)/2]] {
		r.set(k, r.heap[(k-1)/2])
		k = (k - 1) / 2
	}
	r.set(k, q)
}

func (r *rank) set(k int, q int32) { r.heap[k], r.place[q] = q, int32(k) }

// pop takes out the hottest question, or -1.
func (r *rank) pop() int32 {
	if len(r.heap) == 0 {
		return -1
	}
	top, n := r.heap[0], len(r.heap)-1
	q := r.heap[n]
	r.heap, r.place[top] = r.heap[:n], -1
	if n == 0 {
		return top
	}
	k := 0
	for 2*k+1 < n {
		c := 2*k + 1
		if c+1 < n && r.heat[r.heap[c+1]] > r.heat[r.heap[c]] {
			c++
		}
		if r.heat[r.heap[c]] <= r.heat[q] {
			break
		}
		r.set(k, r.heap[c])
		k = c
	}
	r.set(k, q)
	return top
}
