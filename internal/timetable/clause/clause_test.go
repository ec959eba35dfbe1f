package clause

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// crowded draws a few variables with gaps, some of them greatest gaps, on resources with minutes away.
func crowded(t *rapid.T) Problem {
	n := rapid.IntRange(1, 5).Draw(t, "variables")
	p := Problem{Lo: make([]int, n+1), Hi: make([]int, n+1), End: n}
	p.Hi[n] = 14
	lasts := make([]int, n)
	for i := range n {
		p.Lo[i] = rapid.IntRange(0, 2).Draw(t, "lo")
		p.Hi[i] = rapid.IntRange(p.Lo[i], 9).Draw(t, "hi")
		lasts[i] = rapid.IntRange(0, 4).Draw(t, "lasts")
		p.Arcs = append(p.Arcs, Arc{From: i, To: n, Min: lasts[i]})
	}
	for range rapid.IntRange(0, 4).Draw(t, "arcs") {
		p.Arcs = append(p.Arcs, Arc{From: rapid.IntRange(0, n-1).Draw(t, "from"), To: rapid.IntRange(0, n-1).Draw(t, "to"), Min: rapid.IntRange(-4, 4).Draw(t, "min")})
	}
	for range rapid.IntRange(0, 2).Draw(t, "resources") {
		r := Resource{Capacity: rapid.IntRange(1, 3).Draw(t, "capacity")}
		if rapid.Bool().Draw(t, "break") {
			from := rapid.IntRange(0, 8).Draw(t, "break from")
			r.Taken = []Taken{{from, from + 2, rapid.IntRange(1, r.Capacity).Draw(t, "away")}}
		}
		for i, d := range lasts {
			if half := d / 2; d > 1 && rapid.Bool().Draw(t, "two parts") {
				r.Uses = append(r.Uses, plain(i, 0, half, 1), plain(i, half, d, rapid.IntRange(1, r.Capacity).Draw(t, "amount")))
			} else if d > 0 {
				r.Uses = append(r.Uses, plain(i, 0, d, rapid.IntRange(1, r.Capacity).Draw(t, "amount")))
			}
		}
		if n > 1 && rapid.Bool().Draw(t, "hold") {
			first := rapid.IntRange(0, n-2).Draw(t, "first")
			r.Uses = append(r.Uses, Use{Var: first, Until: first + 1, From: rapid.IntRange(-1, 1).Draw(t, "after"), To: rapid.IntRange(0, 2).Draw(t, "until"), Amount: 1, Family: first % 2, Owner: first})
		}
		if r.Capacity == 1 && rapid.Bool().Draw(t, "wash") {
			minutes := rapid.IntRange(0, 3)
			r.Changeover = [][]int{{minutes.Draw(t, "same"), minutes.Draw(t, "0 to 1")}, {minutes.Draw(t, "1 to 0"), minutes.Draw(t, "same")}}
		}
		p.Resources = append(p.Resources, r)
	}
	if rapid.Bool().Draw(t, "sum") {
		p.weigh(t, n)
	}
	if n < 5 && rapid.Bool().Draw(t, "choices") {
		p.choose(t)
	}
	return p
}

// choose hangs some gaps and uses on flags, of which some must be 1.
func (p *Problem) choose(t *rapid.T) {
	first := len(p.Lo)
	for range rapid.IntRange(1, 2).Draw(t, "choices") {
		list := []int{}
		for range rapid.IntRange(1, 2).Draw(t, "flags") {
			list = append(list, len(p.Lo))
			p.Lo, p.Hi = append(p.Lo, 0), append(p.Hi, 1)
		}
		p.Choices = append(p.Choices, list)
	}
	some := func() int {
		if rapid.Bool().Draw(t, "always") {
			return 0
		}
		return 1 + rapid.IntRange(first, len(p.Lo)-1).Draw(t, "flag")
	}
	for k := range p.Arcs {
		p.Arcs[k].If = some()
	}
	for r := range p.Resources {
		for k := range p.Resources[r].Uses {
			p.Resources[r].Uses[k].If = some()
		}
	}
}

// is tells whether what hangs on a flag counts.
func is(flag int, values []int) bool { return flag == 0 || values[flag-1] == 1 }

// weigh lets a weighted sum of gaps be what is to be made small, in place of the end, and sometimes limits another.
func (p *Problem) weigh(t *rapid.T, n int) {
	terms := func(most int) (list []Term) {
		for range rapid.IntRange(1, 3).Draw(t, "terms") {
			list = append(list, Term{From: rapid.IntRange(-1, n-1).Draw(t, "from"), To: rapid.IntRange(-1, n-1).Draw(t, "to"), Min: rapid.IntRange(-5, 5).Draw(t, "min"),
				Weight: rapid.IntRange(0, most).Draw(t, "weight")})
		}
		return list
	}
	p.Arcs = slices.DeleteFunc(p.Arcs, func(a Arc) bool { return a.To == p.End })
	p.Sums = append(p.Sums, Sum{Terms: terms(3), Total: p.End})
	if rapid.Bool().Draw(t, "limit") {
		p.Sums = append(p.Sums, Sum{Terms: terms(2), Total: -1, Most: rapid.IntRange(0, 12).Draw(t, "most")})
	}
}

func plain(x, from, to, amount int) Use {
	return Use{Var: x, Until: x, From: from, To: to, Amount: amount, Family: x % 2, Owner: x}
}

// cost is what a sum comes to.
func (m Sum) cost(values []int) int {
	at := func(x int) int {
		if x < 0 {
			return 0
		}
		return values[x]
	}
	cost := 0
	for _, t := range m.Terms {
		cost += t.Weight * max(0, at(t.To)-at(t.From)-t.Min)
	}
	return cost
}

// holds reads the rules minute by minute, with nothing shared with the search.
func holds(p Problem, values []int) bool {
	for i, v := range values {
		if v < p.Lo[i] || v > p.Hi[i] {
			return false
		}
	}
	for _, a := range p.Arcs {
		if is(a.If, values) && values[a.To]-values[a.From] < a.Min {
			return false
		}
	}
	for _, list := range p.Choices {
		if !slices.ContainsFunc(list, func(x int) bool { return values[x] == 1 }) {
			return false
		}
	}
	for _, m := range p.Sums {
		if most := m.Most; m.Total < 0 && m.cost(values) > most || m.Total >= 0 && m.cost(values) > values[m.Total] {
			return false
		}
	}
	for _, r := range p.Resources {
		r.Uses = slices.DeleteFunc(slices.Clone(r.Uses), func(u Use) bool { return !is(u.If, values) })
		for _, u := range r.Uses {
			for _, v := range r.Uses {
				begin, end, next := values[u.Var]+u.From, values[u.Until]+u.To, values[v.Var]+v.From
				if r.Changeover != nil && u.Owner != v.Owner && begin < end && next < values[v.Until]+v.To && begin <= next && next < end+r.Changeover[u.Family][v.Family] {
					return false
				}
			}
		}
		for minute := range 20 {
			held := 0
			for _, t := range r.Taken {
				if t.From <= minute && minute < t.To {
					held += t.Amount
				}
			}
			busy := false
			for _, u := range r.Uses {
				if values[u.Var]+u.From <= minute && minute < values[u.Until]+u.To {
					held, busy = held+u.Amount, true
				}
			}
			if busy && held > r.Capacity {
				return false
			}
		}
	}
	return true
}

// every calls see with each choice of values within the windows.
func every(p Problem, see func(values []int)) {
	values := slices.Clone(p.Lo)
	for {
		see(values)
		k := 0
		for ; k < len(values); k++ {
			if values[k]++; values[k] <= p.Hi[k] {
				break
			}
			values[k] = p.Lo[k]
		}
		if k == len(values) {
			return
		}
	}
}

// least is the earliest end of all schedules, or MaxInt. The end is not searched: it follows from the others.
func least(p Problem) int {
	best := math.MaxInt
	q := p
	q.Hi = slices.Clone(p.Hi)
	q.Hi[p.End] = p.Lo[p.End]
	every(q, func(values []int) {
		v := slices.Clone(values)
		for _, a := range p.Arcs {
			if a.To == p.End && is(a.If, v) {
				v[p.End] = max(v[p.End], v[a.From]+a.Min)
			}
		}
		for _, m := range p.Sums {
			if m.Total == p.End {
				v[p.End] = max(v[p.End], m.cost(v))
			}
		}
		if v[p.End] < best && holds(p, v) {
			best = v[p.End]
		}
	})
	return best
}

// TestBothWays holds the search from above and from below against trying every choice.
func TestBothWays(t *testing.T) {
	often(t, func(t *rapid.T) {
		p := crowded(t)
		want := least(p)
		above := New(p)
		got := math.MaxInt
		for !above.Done() {
			values := above.Run(t.Context(), p.Hi[p.End], 50)
			if values == nil {
				continue
			}
			if !holds(p, values) {
				t.Fatalf("%v breaks a rule", values)
			}
			if values[p.End] >= got {
				t.Fatalf("%d after %d is no better", values[p.End], got)
			}
			got = values[p.End]
		}
		if got != want {
			t.Errorf("from above: ends at %d, want %d", got, want)
		}
		below := New(p)
		for !below.Done() && below.Bound() <= p.Hi[p.End] {
			if values := below.Run(t.Context(), below.Bound(), 50); values != nil {
				if values[p.End] != want {
					t.Errorf("from below: ends at %d, want %d", values[p.End], want)
				}
				return
			}
		}
		if want != math.MaxInt {
			t.Errorf("from below: nothing found, want %d", want)
		}
	})
}

// TestLearnedClausesCutNothingOff: while everything that ends too early is refuted, no clause may exclude a schedule that exists.
func TestLearnedClausesCutNothingOff(t *testing.T) {
	learned := 0
	often(t, func(t *rapid.T) {
		p := crowded(t)
		want := least(p)
		if want == math.MaxInt {
			return
		}
		s := New(p)
		for !s.Done() && s.Bound() < want {
			if values := s.Run(t.Context(), want-1, 200); values != nil {
				t.Fatalf("%v ends before %d", values, want)
			}
		}
		if s.Done() || s.Bound() != want {
			t.Fatalf("bound %d, done %t; want %d", s.Bound(), s.Done(), want)
		}
		learned += len(s.clauses.learnt)
		every(p, func(values []int) {
			if len(s.clauses.learnt) > 0 && holds(p, values) {
				for _, at := range s.clauses.learnt {
					if !slices.ContainsFunc(s.lits(at), func(l lit) bool { return s.under(l, values) }) {
						t.Fatalf("a clause excludes %v", values)
					}
				}
			}
		})
	})
	if learned == 0 {
		t.Error("no clause was learned, so none was checked")
	}
}

// planted draws a schedule of some twenty uses first and then rules that it keeps, tight enough to be hard.
func planted(t *rapid.T) (p Problem, values []int) {
	const horizon = 40
	n := rapid.IntRange(8, 20).Draw(t, "variables")
	p = Problem{Lo: make([]int, n+1), Hi: make([]int, n+1), End: n}
	values = make([]int, n+1)
	lasts := make([]int, n)
	for i := range n {
		lasts[i] = rapid.IntRange(1, 6).Draw(t, "lasts")
		values[i] = rapid.IntRange(0, 16).Draw(t, "value")
		values[n] = max(values[n], values[i]+lasts[i])
		p.Hi[i] = horizon
		p.Arcs = append(p.Arcs, Arc{From: i, To: n, Min: lasts[i]})
	}
	p.Hi[n] = 2 * horizon
	for range rapid.IntRange(0, n).Draw(t, "arcs") {
		i, j := rapid.IntRange(0, n-1).Draw(t, "from"), rapid.IntRange(0, n-1).Draw(t, "to")
		p.Arcs = append(p.Arcs, Arc{From: i, To: j, Min: values[j] - values[i] - rapid.IntRange(0, 8).Draw(t, "room")})
	}
	for range rapid.IntRange(1, 3).Draw(t, "resources") {
		var r Resource
		held := map[int]int{}
		for i, d := range lasts {
			amount := rapid.IntRange(0, 4).Draw(t, "amount")
			if amount == 0 {
				continue
			}
			r.Uses = append(r.Uses, plain(i, 0, d, amount))
			for minute := values[i]; minute < values[i]+d; minute++ {
				held[minute] += amount
				r.Capacity = max(r.Capacity, held[minute])
			}
		}
		p.Resources = append(p.Resources, r)
	}
	return p, values
}

// often checks some thousand cases: a wrong clause may show in one of a thousand.
func often(t *testing.T, check func(*rapid.T)) {
	for range 30 {
		if rapid.Check(t, check); t.Failed() {
			return
		}
	}
}

// TestPlantedScheduleSurvives: clauses learned on larger problems never exclude the schedule that the rules were made from.
func TestPlantedScheduleSurvives(t *testing.T) {
	learned := 0
	often(t, func(t *rapid.T) {
		p, values := planted(t)
		s := New(p)
		for s.Conflicts < 3000 && !s.Done() {
			if s.Run(t.Context(), s.Bound(), 100) != nil {
				break // from here on it may exclude what is no better
			}
			if s.Bound() > values[p.End] {
				t.Fatalf("bound %d, but %v exists", s.Bound(), values)
			}
		}
		learned += len(s.clauses.learnt)
		for _, at := range s.clauses.learnt {
			if !slices.ContainsFunc(s.lits(at), func(l lit) bool { return s.under(l, values) }) {
				t.Fatalf("a clause excludes %v", values)
			}
		}
	})
	if learned < 1000 {
		t.Errorf("only %d clauses were learned", learned)
	}
}

// under is whether the literal is true of the values.
func (s *Search) under(l lit, values []int) bool {
	side, v := s.value(l)
	if x := int32(values[side/2]); side%2 == 0 {
		return x >= v
	} else {
		return -x >= v
	}
}

// TestRank: the hottest question comes first, however they were put in.
func TestRank(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := newRank(30)
		for range rapid.IntRange(0, 200).Draw(t, "bumps") {
			r.bump(int32(rapid.IntRange(0, 29).Draw(t, "question")))
			r.unit *= cooling
			if rapid.IntRange(0, 9).Draw(t, "pop") == 0 {
				r.pop()
			}
		}
		for last := math.Inf(1); ; {
			q := r.pop()
			if q < 0 {
				return
			}
			if r.heat[q] > last {
				t.Fatalf("%g after %g", r.heat[q], last)
			}
			last = r.heat[q]
		}
	})
}
