package fill

import (
	"math"
	"math/bits"
	"slices"
)

// table is the problem in whole numbers: one row for each group of alike packs, one column for each output.
//
// Packs that need the same and are worth the same form one group: the search decides how many the group gets, and sharing out
// within the group is done in closed form (see share). Without this, every permutation of alike packs would be a tie to explore.
type table struct {
	groups [][]int   // the packs in each group, in the order of the list
	take   [][]int64 // ng that one pack of the group takes of each output
	value  []int64   // of one pack
	mass   []int64   // ng of one pack, all outputs
	lo, hi []int64   // limits of the count of the group
	usable []int64   // ng of each output: whole pieces only
	stock  []int64   // the same down to a multiple of what all packs take, which loses nothing and sharpens the bounds
	packs  []Pack
}

// limit keeps every sum of masses and of values well inside int64.
const limit = math.MaxInt64 / 4

func newTable(p Problem) (*table, error) {
	t := &table{packs: p.Packs, usable: make([]int64, len(p.Stock))}
	if err := t.readStock(p); err != nil {
		return nil, err
	}
	for i, k := range p.Packs {
		if err := t.addPack(p, i, k); err != nil {
			return nil, err
		}
	}
	t.roundStock()
	var sum int64
	for g := range t.groups {
		most := max(t.lo[g], t.hi[g])
		over, low := bits.Mul64(magnitude(t.value[g]), uint64(most))
		if over != 0 || low > uint64(limit-sum) {
			return nil, &InputError{Pack: t.groups[g][0], Output: -1, Reason: "the value of all packs together is too large"}
		}
		sum += int64(low)
	}
	return t, nil
}

func magnitude(v int64) uint64 {
	if v < 0 {
		return -uint64(v)
	}
	return uint64(v)
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

func (t *table) roundStock() {
	t.stock = slices.Clone(t.usable)
	for j := range t.stock {
		var unit int64
		for g := range t.take {
			unit = gcd(t.take[g][j], unit)
		}
		if unit > 0 {
			t.stock[j] -= t.stock[j] % unit
		}
	}
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
	for g := range t.groups {
		if t.value[g] == k.Value && slices.Equal(t.take[g], take) {
			t.groups[g] = append(t.groups[g], i)
			t.lo[g] += lo
			t.hi[g] += hi
			return nil
		}
	}
	var mass int64
	for _, a := range take {
		mass = min(mass, limit-min(a, limit)) + min(a, limit) // held at the limit: such a pack can't be made anyway
	}
	t.groups = append(t.groups, []int{i})
	t.take, t.value, t.mass = append(t.take, take), append(t.value, k.Value), append(t.mass, mass)
	t.lo, t.hi = append(t.lo, lo), append(t.hi, hi)
	return nil
}

// takes is what one pack takes of each output, in ng.
func takes(p Problem, i int, k Pack) ([]int64, error) {
	take := make([]int64, len(p.Stock))
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

// share shares a group's total out among its packs as evenly as their limits allow, the remainder to those listed first, into
// count. It is the plan that the rules prefer among all that give the group this total.
func (t *table) share(g int, total int64, count []int64) {
	rest := total
	for _, i := range t.groups[g] {
		count[i] = int64(t.packs[i].Min)
		rest -= count[i]
	}
	for rest > 0 {
		level, next, low := int64(math.MaxInt64), int64(math.MaxInt64), int64(0)
		for _, i := range t.groups[g] { // the lowest level that can rise, how many stand on it, and the next one above
			c := count[i]
			if most := t.most(i); c >= most {
				continue
			} else if c < level {
				level, next, low = c, min(level, most), 1
			} else if c == level {
				next, low = min(next, most), low+1
			} else {
				next = min(next, c)
			}
		}
		if low == 0 {
			return // full: the caller asked for more than the group can have
		}
		rise := min(next-level, rest/low)
		extra := rest % low
		for _, i := range t.groups[g] {
			if count[i] != level || count[i] >= t.most(i) {
				continue
			}
			switch {
			case rise > 0:
				count[i] += rise
				rest -= rise
			case extra > 0:
				count[i]++
				extra--
				rest--
			}
		}
	}
}

// most is the most of pack i alone.
func (t *table) most(i int) int64 {
	if m := t.packs[i].Max; m >= 0 {
		return int64(m)
	}
	return math.MaxInt64
}
