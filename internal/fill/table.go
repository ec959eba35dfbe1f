package fill

import (
	"math"
	"math/bits"
	"slices"
)

// table is the problem in whole numbers: one row for each group of alike packs, one column for each output and then each supply.
//
// Packs that need the same and are worth the same form one group: the search decides how many the group gets, and sharing out
// within the group is done in closed form (see share). Without this, every permutation of alike packs would be a tie to explore.
// A pack with orders or a minimum stock is a group of its own, for then it matters which of them it is.
type table struct {
	groups  [][]int   // the packs in each group, in the order of the list
	take    [][]int64 // what one pack of the group takes of each column, divided by grain
	value   []int64   // of one pack
	mass    []int64   // ng of one pack, all outputs
	lo, hi  []int64   // limits of the count of the group
	outputs int       // columns that are outputs
	usable  []int64   // of each column in ng or pieces: whole pieces only
	grain   []int64   // of each column: the greatest common divisor of what the packs take
	stock   []int64   // usable in grains, rounded down, which loses nothing and sharpens the bounds
	packs   []Pack
	least   []int64 // of each pack: its minimum, or 0 when the minima are softened
	soft    bool
}

// limit keeps every sum of masses and of values well inside int64.
const limit = math.MaxInt64 / 4

func newTable(p Problem) (*table, error) {
	n := len(p.Stock)
	t := &table{packs: p.Packs, outputs: n, usable: make([]int64, n+len(p.Supplies)), least: make([]int64, len(p.Packs))}
	if err := t.readStock(p); err != nil {
		return nil, err
	}
	for j, s := range p.Supplies {
		if s.Have < 0 || int64(s.Have) > maxPacks {
			return nil, &InputError{Pack: -1, Output: -1, Reason: "supply " + s.Name + " must be 0 or more, and not absurdly many"}
		}
		t.usable[n+j] = int64(s.Have)
	}
	for i, k := range p.Packs {
		if err := t.addPack(p, i, k); err != nil {
			return nil, err
		}
	}
	t.divide()
	return t, nil
}

func (t *table) readStock(p Problem) error {
	if len(p.PieceMass) != 0 && len(p.PieceMass) != len(p.Stock) {
		return &InputError{Pack: -1, Output: -1, Reason: "piece masses must be given for every output or for none"}
	}
	var sum int64
	for j, m := range p.Stock {
		if m < 0 || int64(m) > limit-sum {
			return &InputError{Pack: -1, Output: j, Reason: "stock must be 0 or more, and all together below 2,300 t"}
		}
		sum += int64(m)
		t.usable[j] = int64(m)
		if len(p.PieceMass) == 0 {
			continue
		}
		piece := int64(p.PieceMass[j])
		if piece < 0 {
			return &InputError{Pack: -1, Output: j, Reason: "the mass of a piece is negative"}
		}
		if piece > 0 {
			t.usable[j] -= t.usable[j] % piece
		}
	}
	return nil
}

// divide counts every column in the largest grain that all packs take whole numbers of.
func (t *table) divide() {
	t.grain, t.stock = make([]int64, len(t.usable)), make([]int64, len(t.usable))
	for j := range t.stock {
		for g := range t.take {
			t.grain[j] = gcd(t.take[g][j], t.grain[j])
		}
		t.grain[j] = max(t.grain[j], 1)
		t.stock[j] = t.usable[j] / t.grain[j]
		for g := range t.take {
			t.take[g][j] /= t.grain[j]
		}
	}
}

// gcd is the greatest common divisor, 0 of nothing but zeros.
func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return max(a, -a)
}

// addPack adds pack i to the group it is like, or to a new one.
func (t *table) addPack(p Problem, i int, k Pack) error {
	take, err := takes(p, i, k)
	if err != nil {
		return err
	}
	lo, hi, err := t.limits(i, k, take)
	if err != nil {
		return err
	}
	t.least[i] = lo
	for g, packs := range t.groups {
		if t.value[g] == k.Value && slices.Equal(t.take[g], take) && !alone(p, k) && !alone(p, p.Packs[packs[0]]) {
			t.groups[g] = append(t.groups[g], i)
			t.lo[g] += lo
			t.hi[g] += hi
			return nil
		}
	}
	var mass int64
	for _, a := range take[:t.outputs] {
		mass = min(mass, limit-min(a, limit)) + min(a, limit) // held at the limit: such a pack can't be made anyway
	}
	t.groups = append(t.groups, []int{i})
	t.take, t.value, t.mass = append(t.take, take), append(t.value, k.Value), append(t.mass, mass)
	t.lo, t.hi = append(t.lo, lo), append(t.hi, hi)
	return nil
}

// alone reports whether a pack counts in a goal by itself, so that it can't stand in for another.
func alone(p Problem, k Pack) bool { return k.Ordered > 0 || k.Keep > 0 || p.Soften && k.Min > 0 }

// takes is what one pack takes of each output, in ng, and of each supply, in pieces.
func takes(p Problem, i int, k Pack) ([]int64, error) {
	take := make([]int64, len(p.Stock)+len(p.Supplies))
	for _, n := range k.Needs {
		if n.Output < 0 || n.Output >= len(p.Stock) {
			return nil, &InputError{Pack: i, Output: n.Output, Reason: "no such output"}
		}
		each, reason := needMass(p, n)
		if reason != "" {
			return nil, &InputError{Pack: i, Output: n.Output, Reason: reason}
		}
		if each > math.MaxInt64-take[n.Output] {
			return nil, &InputError{Pack: i, Output: n.Output, Reason: "the need is too large"}
		}
		take[n.Output] += each
	}
	for _, u := range k.Uses {
		if u.Supply < 0 || u.Supply >= len(p.Supplies) {
			return nil, &InputError{Pack: i, Output: -1, Reason: "no such supply"}
		}
		if u.Pieces <= 0 || int64(u.Pieces) > maxPacks {
			return nil, &InputError{Pack: i, Output: -1, Reason: "takes no pieces, or absurdly many, of supply " + p.Supplies[u.Supply].Name}
		}
		take[len(p.Stock)+u.Supply] += int64(u.Pieces)
	}
	return take, nil
}

func needMass(p Problem, n Need) (ng int64, reason string) {
	var piece int64
	if len(p.PieceMass) > 0 {
		piece = int64(p.PieceMass[n.Output])
	}
	switch {
	case n.Mass < 0 || n.Pieces < 0:
		return 0, "a need is negative"
	case n.Mass == 0 && n.Pieces == 0:
		return 0, "a need is nothing"
	case n.Mass > 0 && n.Pieces > 0:
		return 0, "a need is a mass or pieces, not both"
	case n.Pieces > 0 && piece == 0:
		return 0, "needs pieces, but the mass of a piece is not known"
	case n.Mass > 0 && piece > 0:
		return 0, "needs a mass of an output that is counted in pieces"
	case n.Mass > 0:
		return int64(n.Mass), ""
	}
	over, low := bits.Mul64(uint64(n.Pieces), uint64(piece))
	if over != 0 || low > math.MaxInt64 {
		return 0, "the need is too large"
	}
	return int64(low), ""
}

// maxPacks is the most of one pack: far more than any kitchen makes, and sums of it stay inside int64.
const maxPacks = 1 << 40

// limits are the fewest and the most of a pack that the list and the stock allow; hi may be below lo, which is then a shortage.
func (t *table) limits(i int, k Pack, take []int64) (lo, hi int64, err error) {
	bad := func(reason string) (int64, int64, error) {
		return 0, 0, &InputError{Pack: i, Output: -1, Reason: reason}
	}
	if k.Min < 0 || int64(k.Min) > maxPacks {
		return bad("the minimum must be 0 or more, and not absurdly many")
	}
	if k.Max >= 0 && k.Max < k.Min {
		return bad("the maximum is below the minimum")
	}
	if k.Ordered < 0 || k.Keep < 0 || k.Penalty < 0 || int64(k.Ordered) > maxPacks || int64(k.Keep) > maxPacks {
		return bad("orders, their penalty and the minimum stock must be 0 or more, and not absurdly many")
	}
	hi = maxPacks
	for j, a := range take {
		if a > 0 {
			hi = min(hi, t.usable[j]/a)
		}
	}
	if k.Max >= 0 {
		hi = min(hi, int64(k.Max))
	} else if hi == maxPacks {
		return bad("nothing limits how many there can be: give it a need or a maximum")
	}
	return int64(k.Min), hi, nil
}

// soften lets go of the minima; they become the first goal instead.
func (t *table) soften() {
	t.soft = true
	clear(t.least)
	clear(t.lo)
}
