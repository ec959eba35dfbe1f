package clause

// A variable x has two sides: 2x holds its first value, 2x+1 its last value with the sign turned. So every step of the search
// raises some side, and the literal (side, v) is true when bound[side] >= v and false when bound[side^1] >= 1-v.

// lit is the place of a literal (side, v) in a row of all of them: sides one after another, v from start[side]+1 on.
type lit = int32

// kind of reason for a step.
const (
	decided   int32 = iota
	byClause        // a: place in the arena
	byArc           // a: the side it came from, b: the gap
	byReasons       // a: first place in the reasons, b: how many
)

// bound says that a side is at least v.
type bound struct{ side, v int32 }

// step is one raise of a side.
type step struct {
	side, old, new int32
	prev           int32 // the step before on this side, -1
	level          int32
	kind, a, b     int32
	need           int32 // while a conflict is studied: how high the side must be
	seen           bool
}

// bounds are the sides and how they came about.
type bounds struct {
	start  []int32 // of each side, before anything
	first  []int32 // place of its first literal
	of     []bound // what each literal says
	at     []int32 // of each side, now
	root   []int32 // of each side, whatever is decided
	last   []int32 // step of each side, -1
	trail  []step
	levels []mark
	why    []lit // reasons written down
}

// mark is where a level begins.
type mark struct{ trail, why int }

func newBounds(p Problem) bounds {
	n := 2 * len(p.Lo)
	b := bounds{start: make([]int32, n), first: make([]int32, n), at: make([]int32, n), root: make([]int32, n), last: make([]int32, n)}
	b.of = make([]bound, 0, 2*p.Size())
	for s := range n {
		x := s / 2
		b.start[s] = int32(p.Lo[x])
		if s%2 == 1 {
			b.start[s] = int32(-p.Hi[x])
		}
		b.first[s], b.last[s] = int32(len(b.of)), -1
		for k := range p.Hi[x] - p.Lo[x] {
			b.of = append(b.of, bound{int32(s), b.start[s] + int32(k) + 1})
		}
	}
	copy(b.at, b.start)
	copy(b.root, b.start)
	return b
}

func (b *bounds) lit(side, v int32) lit { return b.first[side] + v - b.start[side] - 1 }

func (b *bounds) value(l lit) (side, v int32) {
	is := b.of[l]
	return is.side, is.v
}

func (b *bounds) not(l lit) lit {
	side, v := b.value(l)
	return b.lit(side^1, 1-v)
}

func (b *bounds) isTrue(l lit) bool  { s, v := b.value(l); return b.at[s] >= v }
func (b *bounds) isFalse(l lit) bool { s, v := b.value(l); return b.at[s^1] >= 1-v }

func (b *bounds) level() int32 { return int32(len(b.levels)) }

func (b *bounds) open() { b.levels = append(b.levels, mark{len(b.trail), len(b.why)}) }

// raise writes down that side is now v; the caller has seen that it may.
func (b *bounds) raise(side, v, kind, a, why int32) {
	b.trail = append(b.trail, step{side: side, old: b.at[side], new: v, prev: b.last[side], level: b.level(), kind: kind, a: a, b: why})
	b.last[side] = int32(len(b.trail) - 1)
	b.at[side] = v
}

// back undoes everything above level to.
func (b *bounds) back(to int32) {
	m := b.levels[to]
	for k := len(b.trail) - 1; k >= m.trail; k-- {
		s := &b.trail[k]
		b.at[s.side], b.last[s.side] = s.old, s.prev
	}
	b.trail, b.why, b.levels = b.trail[:m.trail], b.why[:m.why], b.levels[:to]
}

// settle makes what holds at level 0 the root; it needs no reasons.
func (b *bounds) settle() {
	for _, s := range b.trail {
		b.last[s.side] = -1
	}
	copy(b.root, b.at)
	b.trail, b.why = b.trail[:0], b.why[:0]
}

// stepOf is the step that made (side, v) true, which is not so at the root.
func (b *bounds) stepOf(side, v int32) int32 {
	k := b.last[side]
	for b.trail[k].old >= v {
		k = b.trail[k].prev
	}
	return k
}
