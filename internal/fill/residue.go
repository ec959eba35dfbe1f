package fill

// settle narrows a box to the whole counts that give a held goal exactly what it is held at, and reports whether there are any. A goal
// that is held is proven, so that nothing in question has more of it. With two groups free this is an equation a x + b y = rest in
// whole numbers, which has one x in every b over the greatest common divisor of a and b; with more, that divisor must divide the rest.
func (s *search) settle(n node) bool {
	for k := range s.goals[:s.pass] {
		if o := &s.goals[k]; o.linear() && !settleGoal(o.w, s.reached[k]-o.of(n.lo), n) {
			return false
		}
	}
	return true
}

func settleGoal(w []int64, rest int64, n node) bool {
	var unit int64
	var free [3]int
	count := 0
	for g := range n.lo {
		if n.lo[g] < n.hi[g] && w[g] != 0 {
			if w[g] < 0 || w[g] > 1<<31 {
				return true // the short sums below are for packs as they are
			}
			free[min(count, 2)] = g
			unit = gcd(w[g], unit)
			count++
		}
	}
	switch {
	case count == 0:
		return rest == 0
	case rest < 0 || rest%unit != 0:
		return false
	case count == 1:
		g := free[0]
		more := rest / w[g]
		if more > n.hi[g]-n.lo[g] {
			return false
		}
		n.lo[g] += more
		n.hi[g] = n.lo[g]
		return true
	case count == 2:
		return settlePair(free[0], free[1], w[free[0]]/unit, w[free[1]]/unit, rest/unit, n)
	}
	return true
}

// settlePair narrows two groups of which a of the one and b of the other, which have no common divisor, are to add up to rest.
func settlePair(g, h int, a, b, rest int64, n node) bool {
	least := int64(0)
	if over := rest - b*(n.hi[h]-n.lo[h]); over > 0 {
		least = (over + a - 1) / a
	}
	most := min(n.hi[g]-n.lo[g], rest/a)
	first := (rest % b) * inverse(a%b, b) % b
	if first < least {
		first += (least - first + b - 1) / b * b
	}
	if first > most {
		return false
	}
	last := first + (most-first)/b*b
	n.lo[h], n.hi[h] = n.lo[h]+(rest-a*last)/b, n.lo[h]+(rest-a*first)/b
	n.lo[g], n.hi[g] = n.lo[g]+first, n.lo[g]+last
	return true
}

// inverse is the x of 0 to m-1 with a x = 1 modulo m, a and m having no common divisor (the extended algorithm of Euclid).
func inverse(a, m int64) int64 {
	x, y, rest := int64(1), int64(0), m
	for rest != 0 {
		q := a / rest
		a, rest = rest, a-q*rest
		x, y = y, x-q*y
	}
	if m == 1 {
		return 0
	}
	return (x%m + m) % m
}

// equation reports whether a box of ties has three groups free and a goal that sums are held to: then the narrowest is the one to
// split, since each of its counts leaves an equation in two.
func (s *search) equation(n node) (narrowest int, is bool) {
	free := 0
	narrowest = -1
	for g := range n.lo {
		if side := n.hi[g] - n.lo[g]; side > 0 {
			if free++; narrowest < 0 || side < n.hi[narrowest]-n.lo[narrowest] {
				narrowest = g
			}
		}
	}
	if free != 3 {
		return narrowest, false
	}
	for k := range s.goals[:s.pass] {
		if s.goals[k].linear() {
			return narrowest, true
		}
	}
	return narrowest, false
}
