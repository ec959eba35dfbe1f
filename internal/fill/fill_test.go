package fill

import (
	"errors"
	"math"
	"slices"
	"testing"

	"kettlefrost/internal/unit"
)

func of(output int, grams int) Need { return Need{Output: output, Mass: unit.Mass(grams) * unit.Gram} }

func pack(value int64, needs ...Need) Pack { return Pack{Value: value, Max: -1, Needs: needs} }

func TestSolve(t *testing.T) {
	const g = unit.Gram
	atLeast := func(n int, p Pack) Pack { p.Min = n; return p }
	atMost := func(n int, p Pack) Pack { p.Max = n; return p }
	for _, c := range []struct {
		name    string
		p       Problem
		count   []int
		left    []unit.Mass
		value   int64
		decided Rule
	}{
		{"by hand: 10.3 kg of one pot in packs of 680 g, fifteen and 100 g over",
			Problem{Stock: []unit.Mass{10300 * g}, Packs: []Pack{pack(1, of(0, 680))}}, []int{15}, []unit.Mass{100 * g}, 15, ByValue},
		// By hand: worth 9 and 4. Twenty large take all 10 kg; of 9.9 kg nineteen leave 400 g, which is a small one: 175; eighteen
		// leave 900 g, two small ones: 170.
		{"by hand: what is left of the large packs makes a small one",
			Problem{Stock: []unit.Mass{9900 * g}, Packs: []Pack{pack(9, of(0, 500)), pack(4, of(0, 400))}}, []int{19, 1}, []unit.Mass{0}, 175, ByValue},
		// By hand: 1 kg holds two packs of either; 400 g packs leave 200 g, 450 g leave 100 g, 500 g none.
		{"by hand: as many, and the least left over",
			Problem{Stock: []unit.Mass{1000 * g}, Packs: []Pack{pack(1, of(0, 400)), pack(1, of(0, 500))}}, []int{0, 2}, []unit.Mass{0}, 2, ByLeft},
		{"by hand: alike packs share evenly, the first has the odd one",
			Problem{Stock: []unit.Mass{3500 * g}, Packs: []Pack{pack(1, of(0, 500)), pack(1, of(0, 500))}}, []int{4, 3}, []unit.Mass{0}, 7, ByValue},
		{"by hand: alike packs with limits",
			Problem{Stock: []unit.Mass{10000 * g}, Packs: []Pack{atMost(2, pack(1, of(0, 1000))), atLeast(5, pack(1, of(0, 1000))), pack(1, of(0, 1000))}}, []int{2, 5, 3}, []unit.Mass{0}, 10, ByValue},
		// By hand: 2 x 300 + 600 = 1200 as 4 x 300 or 2 x 600; worth their mass, so all tie; (2, 1) is the most even.
		{"by hand: plans that tie, the most even",
			Problem{Stock: []unit.Mass{1200 * g}, Packs: []Pack{pack(3, of(0, 300)), pack(6, of(0, 600))}}, []int{2, 1}, []unit.Mass{0}, 12, ByEven},
		// By hand: each pack has its own pot and all take 100 g of one broth, which does for five of 3 + 2 or 2 + 3.
		{"by hand: plans that tie and are as even, the first listed has more",
			Problem{Stock: []unit.Mass{2000 * g, 2000 * g, 500 * g}, Packs: []Pack{pack(1, of(0, 400), of(2, 100)), pack(1, of(1, 400), of(2, 100))}}, []int{3, 2}, []unit.Mass{800 * g, 1200 * g, 0}, 5, ByList},
		{"by hand: a pack that loses money is made only as often as it must be",
			Problem{Stock: []unit.Mass{5000 * g}, Packs: []Pack{atLeast(2, pack(-1, of(0, 1000))), pack(5, of(0, 1000))}}, []int{2, 3}, []unit.Mass{0}, 13, ByValue},
		{"by hand: stew and its broth, the broth is what stops it",
			Problem{Stock: []unit.Mass{9000 * g, 1000 * g}, Packs: []Pack{pack(7, of(0, 400), of(1, 100)), pack(4, of(0, 400))}}, []int{10, 12}, []unit.Mass{200 * g, 0}, 118, ByValue},
		// Bradley, Hax and Magnanti, Applied Mathematical Programming, chapter 9 (from memory): max 5x+8y, x+y <= 6, 5x+9y <= 45
		// is 40 at (0, 5); the relaxed optimum is 41.25 at (2.25, 3.75).
		{"textbook: Bradley, Hax and Magnanti",
			Problem{Stock: []unit.Mass{6 * g, 45 * g}, Packs: []Pack{pack(5, of(0, 1), of(1, 5)), pack(8, of(0, 1), of(1, 9))}}, []int{0, 5}, []unit.Mass{1 * g, 0}, 40, ByValue},
		// Winston, Operations Research, tables and chairs (from memory): max 8x+5y, x+y <= 6, 9x+5y <= 45 is 40 at (5, 0).
		{"textbook: Winston",
			Problem{Stock: []unit.Mass{6 * g, 45 * g}, Packs: []Pack{pack(8, of(0, 1), of(1, 9)), pack(5, of(0, 1), of(1, 5))}}, []int{5, 0}, []unit.Mass{1 * g, 0}, 40, ByValue},
		// The unbounded knapsack of the traveller in Shangri-La (a programming exercise, from memory): panacea 3000, 0.3 kg, 0.025 m3;
		// ichor 1800, 0.2, 0.015; gold 2500, 2.0, 0.002; room for 25 kg and 0.25 m3. The best is 54500, by four plans, of which 15
		// ichor and 11 gold fill the most.
		{"textbook: four plans tie in value",
			Problem{Stock: []unit.Mass{25000 * g, 250 * g}, Packs: []Pack{pack(3000, of(0, 300), of(1, 25)), pack(1800, of(0, 200), of(1, 15)), pack(2500, of(0, 2000), of(1, 2))}},
			[]int{0, 15, 11}, []unit.Mass{0, 3 * g}, 54500, ByLeft},
		{"nothing to make", Problem{Stock: []unit.Mass{5 * g}}, []int{}, []unit.Mass{5 * g}, 0, ByValue},
		{"nothing there", Problem{Stock: []unit.Mass{0}, Packs: []Pack{pack(1, of(0, 1))}}, []int{0}, []unit.Mass{0}, 0, ByValue},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := Solve(c.p)
			if err != nil {
				t.Fatal(err)
			}
			if !slices.Equal(got.Count, c.count) || !slices.Equal(got.Left, c.left) || got.Value != c.value {
				t.Errorf("got %v, left %v, value %d; want %v, %v, %d", got.Count, got.Left, got.Value, c.count, c.left, c.value)
			}
			if !got.Proof.Optimal || !got.Proof.Even || got.Gap() != 0 {
				t.Errorf("not proven: %+v", got.Proof)
			}
			if got.Why.Decided < c.decided {
				t.Errorf("decided by %v, want %v or a later rule", got.Why.Decided, c.decided)
			}
			if err := Check(c.p, got); err != nil {
				t.Error(err)
			}
		})
	}
}

// A pack of 6 meatballs and 200 g of sauce, by hand: 1.63 kg at 30 g are 54 whole pieces and 10 g, so nine packs; the sauce would
// do for ten.
func TestPieces(t *testing.T) {
	if n := Pieces(1630*unit.Gram, 30*unit.Gram); n != 54 {
		t.Errorf("%d pieces, want 54", n)
	}
	p := Problem{Stock: []unit.Mass{1630 * unit.Gram, 2 * unit.Kilogram}, PieceMass: []unit.Mass{30 * unit.Gram, 0},
		Packs: []Pack{pack(1, Need{Output: 0, Pieces: 6}, of(1, 200))}}
	got, err := Solve(p)
	if err != nil || got.Count[0] != 9 || !slices.Equal(got.Left, []unit.Mass{10 * unit.Gram, 200 * unit.Gram}) {
		t.Errorf("got %+v, %v; want nine packs, 10 g and 200 g left", got, err)
	}
	if stop := got.Why.Stops[0]; stop != (Stop{Output: 0, Short: 180 * unit.Gram, Supply: -1}) {
		t.Errorf("stopped by %+v, want the meatballs: none is whole of the six", stop)
	}
	p.Packs[0].Min = 11
	var short *ShortError
	if _, err := Solve(p); !errors.As(err, &short) {
		t.Fatalf("eleven packs: got %v", err)
	}
	want := []Shortage{ // 66 pieces needed, 54 there; 2.2 kg of sauce needed, 2 kg there
		{Output: 0, Supply: -1, Need: 1980 * unit.Gram, Have: 1620 * unit.Gram, By: 360 * unit.Gram, ByPieces: 12},
		{Output: 1, Supply: -1, Need: 2200 * unit.Gram, Have: 2000 * unit.Gram, By: 200 * unit.Gram},
	}
	if !slices.Equal(short.Short, want) {
		t.Errorf("short by %+v, want %+v", short.Short, want)
	}
}

func TestStops(t *testing.T) {
	p := Problem{Stock: []unit.Mass{1100 * unit.Gram, 5 * unit.Kilogram}, Packs: []Pack{pack(5, of(0, 500)), {Value: 1, Max: 3, Needs: []Need{of(1, 500)}}}}
	got, err := Solve(p)
	want := []Stop{{Output: 0, Short: 400 * unit.Gram, Supply: -1}, {AtMax: true, Output: -1, Supply: -1}}
	if err != nil || !slices.Equal(got.Why.Stops, want) {
		t.Errorf("got %+v, %v; want %+v", got.Why.Stops, err, want)
	}
}

// When the budget runs out, the plan is still possible, and the bound still holds for the best plan there is.
func TestStoppedEarlyIsHonest(t *testing.T) {
	open := 0
	for seed := range uint64(40) {
		p := kettleDay(seed, 8, 8, unit.Gram)
		best, err := Solve(p)
		if err != nil || !best.Proof.Optimal {
			t.Fatalf("seed %d: %+v, %v", seed, best.Proof, err)
		}
		for _, budget := range []int{1, 2, 5} {
			p.Budget = budget
			early, err := Solve(p)
			if err != nil {
				t.Fatal(err)
			}
			if err := Check(p, early); err != nil {
				t.Errorf("seed %d, budget %d: %v", seed, budget, err)
			}
			if early.Value > best.Value || early.Proof.Bound < best.Value {
				t.Errorf("seed %d, budget %d: value %d, bound %d; the best is %d", seed, budget, early.Value, early.Proof.Bound, best.Value)
			}
			if !early.Proof.Optimal {
				open++
			} else if early.Value != best.Value {
				t.Errorf("seed %d, budget %d: claims to be the best", seed, budget)
			}
		}
	}
	if open == 0 {
		t.Error("no search was stopped early, so this test says nothing")
	}
}

// The same for every goal: what is still open is never said to be better than it can be, nor proven when it is not.
func TestStoppedEarlyIsHonestAboutEveryGoal(t *testing.T) {
	open := 0
	for seed := range uint64(60) {
		p := tradingDay(seed)
		best, err := Solve(p)
		if err != nil || !best.Proof.Optimal {
			t.Fatalf("seed %d: %+v, %v", seed, best.Proof, err)
		}
		for _, p.Budget = range []int{1, 2, 5, 12} {
			early, err := Solve(p)
			if err != nil {
				t.Fatal(err)
			}
			if err := Check(p, early); err != nil {
				t.Errorf("seed %d, budget %d: %v", seed, p.Budget, err)
			}
			sure := true
			for k, r := range early.Goals {
				sign := int64(1) // less is better
				if r.Rule == ByValue {
					sign = -1
				}
				there := best.Goals[k].Amount
				if sign*there < sign*r.Best || r.Proven && r.Amount != there || r.Proven && !sure {
					t.Errorf("seed %d, budget %d: %+v, and the best is %d", seed, p.Budget, r, there)
				}
				if sure = r.Proven; !sure {
					open++
				}
			}
			if sure != early.Proof.Optimal {
				t.Errorf("seed %d, budget %d: goals and proof differ", seed, p.Budget)
			}
		}
	}
	if open == 0 {
		t.Error("no search was stopped early, so this test says nothing")
	}
}

// By hand: 2,000 t in ten kinds of pack worth their mass; sums of the masses of all kinds would not fit into 64 bits.
func TestAWholeHarvest(t *testing.T) {
	p := Problem{Stock: []unit.Mass{2_000_000 * unit.Kilogram}}
	for i := range 10 {
		p.Packs = append(p.Packs, pack(int64(10+i), of(0, 100*(10+i))))
	}
	got, err := Solve(p)
	if err != nil || got.Value != 20_000_000 || got.Left[0] != 0 || !got.Proof.Optimal {
		t.Errorf("got %+v, %v; want all of it used, worth 20,000,000", got, err)
	}
}

func TestRefused(t *testing.T) {
	ok := func() Problem {
		return Problem{Stock: []unit.Mass{unit.Kilogram, unit.Kilogram}, PieceMass: []unit.Mass{0, 30 * unit.Gram}, Packs: []Pack{pack(1, of(0, 500), Need{Output: 1, Pieces: 2})}}
	}
	for name, spoil := range map[string]func(*Problem){
		"negative stock":         func(p *Problem) { p.Stock[0] = -1 },
		"stock out of range":     func(p *Problem) { p.Stock[0] = math.MaxInt64 },
		"piece masses for one":   func(p *Problem) { p.PieceMass = p.PieceMass[:1] },
		"negative piece":         func(p *Problem) { p.PieceMass[1] = -1 },
		"no such output":         func(p *Problem) { p.Packs[0].Needs[0].Output = 2 },
		"negative output":        func(p *Problem) { p.Packs[0].Needs[0].Output = -1 },
		"negative need":          func(p *Problem) { p.Packs[0].Needs[0].Mass = -1 },
		"need of nothing":        func(p *Problem) { p.Packs[0].Needs[0].Mass = 0 },
		"mass and pieces":        func(p *Problem) { p.Packs[0].Needs[0].Pieces = 1 },
		"pieces of a weighed":    func(p *Problem) { p.Packs[0].Needs[1].Output = 0 },
		"mass of a counted":      func(p *Problem) { p.Packs[0].Needs[0].Output = 1 },
		"pieces out of range":    func(p *Problem) { p.Packs[0].Needs[1].Pieces = math.MaxInt64 },
		"need adds up too large": func(p *Problem) { p.Packs[0].Needs = []Need{{Mass: math.MaxInt64}, {Mass: math.MaxInt64}} },
		"negative minimum":       func(p *Problem) { p.Packs[0].Min = -1 },
		"maximum below minimum":  func(p *Problem) { p.Packs[0].Min, p.Packs[0].Max = 2, 1 },
		"no limit at all":        func(p *Problem) { p.Packs[0].Needs = nil },
		"value out of range":     func(p *Problem) { p.Packs[0].Value = math.MinInt64 },
	} {
		p := ok()
		spoil(&p)
		var bad *InputError
		if _, err := Solve(p); !errors.As(err, &bad) {
			t.Errorf("%s: got %v, want it refused", name, err)
		}
	}
	if _, err := Solve(ok()); err != nil {
		t.Errorf("the problem that the others spoil: %v", err)
	}
}

// Check finds a plan that was tampered with.
func TestCheckFindsFaults(t *testing.T) {
	p := kettleDay(1, 4, 3, unit.Gram)
	for name, spoil := range map[string]func(*Plan){
		"one pack too many": func(plan *Plan) { plan.Count[0]++ },
		"below the minimum": func(plan *Plan) { plan.Count[0] = -1 },
		"value":             func(plan *Plan) { plan.Value++ },
		"left over":         func(plan *Plan) { plan.Left[1]-- },
		"another problem":   func(plan *Plan) { plan.Left = plan.Left[:1] },
	} {
		plan, err := Solve(p)
		if err != nil {
			t.Fatal(err)
		}
		spoil(&plan)
		if Check(p, plan) == nil {
			t.Errorf("%s: nothing was found", name)
		}
	}
}
