package tastetrial

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"
)

// scores are whole points, so that ties and zeros are common.
func scores(t *rapid.T, n int, label string) []float64 {
	s := make([]float64, n)
	for i := range s {
		s[i] = float64(rapid.IntRange(1, 5).Draw(t, label))
	}
	return s
}

// The exact p against all signs gone through one by one; and turned round, the same the other way.
func TestSignedRankAgainstAllSigns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 9).Draw(t, "n")
		a, b := scores(t, n, "first"), scores(t, n, "second")
		r, err := SignedRankTest(a, b, 0.95)
		if err != nil {
			t.Fatal(err)
		}
		var sizes []float64
		for i := range a {
			if d := math.Abs(a[i] - b[i]); d > 0 {
				sizes = append(sizes, d)
			}
		}
		rank := func(i int) (rank float64) { // by counting: one more than the smaller, and half the others alike
			for j, s := range sizes {
				if s < sizes[i] {
					rank++
				} else if s == sizes[i] && j != i {
					rank += 0.5
				}
			}
			return rank + 1
		}
		beyond := 0
		for signs := range 1 << len(sizes) {
			plus := 0.0
			for i := range sizes {
				if signs>>i&1 == 1 {
					plus += rank(i)
				}
			}
			if plus >= max(r.Plus, r.Minus) {
				beyond++
			}
		}
		want := min(1, 2*math.Ldexp(float64(beyond), -len(sizes)))
		if math.Abs(r.P-want) > 1e-12 || r.Zeros != n-len(sizes) || r.P < r.LeastP {
			t.Errorf("p %g, want %g; %+v", r.P, want, r)
		}
		turned, err := SignedRankTest(b, a, 0.95)
		if err != nil || turned.P != r.P || turned.Estimate != -r.Estimate || turned.Interval.Low != -r.Interval.High {
			t.Errorf("turned: %+v (%v), else %+v", turned, err, r)
		}
		if !(r.Interval.Low <= r.Estimate && r.Estimate <= r.Interval.High) {
			t.Errorf("estimate outside its interval: %+v", r)
		}
	})
}

// The exact p against every order of every block gone through.
func TestFriedmanAgainstAllOrders(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, k := rapid.IntRange(2, 4).Draw(t, "blocks"), rapid.IntRange(2, 3).Draw(t, "variants")
		rows := make([][]float64, n)
		for b := range rows {
			rows[b] = scores(t, k, "row")
		}
		f, err := FriedmanTest(rows, 1)
		if err != nil {
			t.Fatal(err)
		}
		ranks := make([][]int, n)
		for b := range rows {
			ranks[b], _ = doubledRanks(rows[b])
		}
		total := func(s []float64) (squares float64) {
			for _, x := range s {
				squares += 4 * x * x
			}
			return squares
		}
		orders := [][]int{{0, 1}, {1, 0}}
		if k == 3 {
			orders = [][]int{{0, 1, 2}, {0, 2, 1}, {1, 0, 2}, {1, 2, 0}, {2, 0, 1}, {2, 1, 0}}
		}
		all, beyond := 0, 0
		var each func(b int, sums []float64)
		each = func(b int, sums []float64) {
			if b == n {
				all++
				if total(sums) >= total(f.RankSums) {
					beyond++
				}
				return
			}
			for _, o := range orders {
				next := append([]float64(nil), sums...)
				for v := range next {
					next[v] += float64(ranks[b][o[v]]) / 2
				}
				each(b+1, next)
			}
		}
		each(0, make([]float64, k))
		if want := float64(beyond) / float64(all); math.Abs(f.P-want) > 1e-12 || f.Method != Exact {
			t.Errorf("p %g (%v), want %g", f.P, f.Method, want)
		}
	})
}

// Drawn permutations agree with all of them, within four standard errors, and a seed gives the same again.
func TestDrawnAgreesWithExact(t *testing.T) {
	ranks := make([][]int, len(firstBase))
	seen := make([]int, 3)
	for b, row := range firstBase {
		ranks[b], _ = doubledRanks(row)
		for v, r := range ranks[b] {
			seen[v] += r
		}
	}
	exact, ok := exactly(ranks, squaresOf(seen))
	if !ok {
		t.Fatal("too many permutations")
	}
	for seed := range uint64(3) {
		p := drawn(ranks, squaresOf(seen), seed)
		near(t, "drawn", p, exact, 4*math.Sqrt(exact*(1-exact)/draws)+1.0/draws)
		if again := drawn(ranks, squaresOf(seen), seed); again != p {
			t.Errorf("seed %d: %g, then %g", seed, p, again)
		}
	}
}

// A trial too large for all permutations is drawn, and says so.
func TestManyBlocksAreDrawn(t *testing.T) {
	var rows [][]float64
	for b := range 60 {
		row := make([]float64, 8)
		for v := range row {
			row[v] = float64((v*7 + b*5) % 11)
		}
		rows = append(rows, row)
	}
	f := must(FriedmanTest(rows, 5))(t)
	if f.Method != Drawn || !(f.PError > 0) {
		t.Errorf("%v, error %g", f.Method, f.PError)
	}
	near(t, "near chi-square", f.P, f.PChiSquare, 0.02)
}

// The binomial tail against gonum's, and Clopper and Pearson's interval by its definition.
func TestTriangleAgainstGonum(t *testing.T) {
	for n := 1; n <= 40; n++ {
		for x := range n + 1 {
			r := must(TriangleTest(n, x, 0.3, 0.95))(t)
			if x > 0 {
				near(t, "tail", r.P, distuv.Binomial{N: float64(n), P: 1.0 / 3}.Survival(float64(x)-0.5), 1e-10)
			}
			if low := r.Interval.Low; low > 0 { // at the low end so many or more are as likely as 2.5 %
				near(t, "low end", atLeast(n, x, 1.0/3+2.0/3*low), 0.025, 1e-8)
			}
			if high := r.Interval.High; high > 0 && high < 1 {
				near(t, "high end", 1-atLeast(n, x+1, 1.0/3+2.0/3*high), 0.025, 1e-8)
			}
		}
	}
	// Ten of ten wrong: at most 0.3085 right (Clopper and Pearson 1934, from memory), less than by guessing.
	if r := must(TriangleTest(10, 0, 0.3, 0.95))(t); r.Interval.High != 0 || r.Verdict != TooSmall {
		t.Errorf("%+v", r)
	}
}

// The normal p that simulations use for many ranks is near the exact one, ties or none.
func TestNearlyTwoSided(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(manyRanks+1, 60).Draw(t, "n")
		d := make([]float64, n)
		for i := range d {
			d[i] = float64(rapid.IntRange(-4, 6).Draw(t, "d"))
		}
		ranks, _, plus, minus := signedRanks(d)
		if len(ranks) < 15 {
			return
		}
		exact := twoSided(ranks, plus, minus)
		if near := nearlyTwoSided(ranks, plus, minus); math.Abs(near-exact) > 0.003+0.05*exact {
			t.Errorf("%g, exactly %g", near, exact)
		}
	})
}
