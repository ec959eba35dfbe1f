package fill

import (
	"errors"
	"slices"
	"testing"

	"kettlefrost/internal/unit"
)

// amounts are what the goals of a plan came to, by rule.
func amounts(p Plan) map[Rule]int64 {
	m := map[Rule]int64{}
	for _, r := range p.Goals {
		m[r.Rule] = r.Amount
	}
	return m
}

// 10 kg of chili in packs of 500 g (worth 9, ten ordered) and family packs of 1 kg (worth 12, four ordered, two to be kept).
func chili() Problem {
	return Problem{Stock: []unit.Mass{10 * unit.Kilogram}, Supplies: []Supply{{"bags", 40}, {"labels", 100}}, Packs: []Pack{
		{Name: "single", Value: 9, Max: -1, Needs: []Need{of(0, 500)}, Uses: []Use{{0, 1}, {1, 1}}, Ordered: 10, Penalty: 1},
		{Name: "family", Value: 12, Max: -1, Needs: []Need{of(0, 1000)}, Uses: []Use{{0, 1}, {1, 2}}, Ordered: 4, Penalty: 3, Keep: 2},
	}}
}

func TestTrade(t *testing.T) {
	for _, c := range []struct {
		name    string
		change  func(*Problem)
		count   []int
		amounts map[Rule]int64
		decided Rule
		instead []int // a plan that was turned down, if one is sure to have been met
	}{
		// Orders take 5 + 4 kg; the kilogram that is left is one family pack to keep (one short), or two singles for 18.
		{"by hand: orders, then the freezer, though singles bring more", func(*Problem) {}, []int{10, 5}, map[Rule]int64{ByOrders: 0, ByKeep: 1, ByValue: 150, ByLeft: 0}, ByKeep, nil},
		{"by hand: without minimum stock the kilogram is two singles", func(p *Problem) { p.Packs[1].Keep = 0 }, []int{12, 4}, map[Rule]int64{ByOrders: 0, ByValue: 156, ByKeep: 0, ByLeft: 0}, ByValue, nil},
		{"by hand: value before all, all singles", func(p *Problem) { p.Goals = []Rule{ByValue} }, []int{20, 0}, map[Rule]int64{ByValue: 180}, ByValue, nil},
		// 7 kg: a family pack not made counts 3 for a kilogram, two singles count 2: four families and six singles.
		{"by hand: not enough for all orders, the penalty decides", func(p *Problem) { p.Stock[0] = 7 * unit.Kilogram }, []int{6, 4}, map[Rule]int64{ByOrders: 4, ByKeep: 6, ByValue: 102, ByLeft: 0}, ByOrders, nil},
		{"by hand: a dearer penalty on singles turns it round", func(p *Problem) { p.Stock[0] = 7 * unit.Kilogram; p.Packs[0].Penalty = 2 }, []int{10, 2}, map[Rule]int64{ByOrders: 6, ByKeep: 4, ByValue: 114, ByLeft: 0}, ByOrders, nil},
		// Twelve bags: fourteen orders. A family pack counts 3, a single 1: four and eight; no bag is left to keep any.
		{"by hand: bags run out before the chili", func(p *Problem) { p.Supplies[0].Have = 12 }, []int{8, 4}, map[Rule]int64{ByOrders: 2, ByKeep: 4, ByValue: 120, ByLeft: 2_000_000_000_000}, ByOrders, nil},
		// Fifteen labels: a family takes two. Four families and seven singles take all.
		{"by hand: labels, of which a family pack takes two", func(p *Problem) { p.Supplies[1].Have = 15 }, []int{7, 4}, map[Rule]int64{ByOrders: 3, ByKeep: 5, ByValue: 111, ByLeft: 2_500_000_000_000}, ByOrders, nil},
		// Minima of 20 and 4 need 14 kg. With 10 kg the fewest packs below the minima is to make singles only.
		{"by hand: minima that can't be made, softened", func(p *Problem) { p.Packs[0].Min, p.Packs[1].Min, p.Soften = 20, 4, true }, []int{20, 0}, map[Rule]int64{ByMinimum: 4, ByOrders: 12, ByKeep: 6, ByValue: 180, ByLeft: 0}, ByMinimum, nil},
		{"by hand: minima that can be made are kept, softened or not", func(p *Problem) { p.Packs[1].Min, p.Soften = 8, true }, []int{4, 8}, map[Rule]int64{ByOrders: 6, ByKeep: 6, ByValue: 132, ByLeft: 0}, ByOrders, nil},
	} {
		p := chili()
		c.change(&p)
		got, err := Solve(p)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if !slices.Equal(got.Count, c.count) || !got.Proof.Optimal || !got.Proof.Even {
			t.Errorf("%s: got %v, %+v; want %v", c.name, got.Count, got.Proof, c.count)
		}
		for rule, want := range c.amounts {
			if have := amounts(got)[rule]; have != want {
				t.Errorf("%s: %v came to %d, want %d", c.name, rule, have, want)
			}
		}
		if got.Why.Rejected == nil || got.Why.Decided < c.decided {
			t.Errorf("%s: decided by %v against %+v, want %v or a later rule", c.name, got.Why.Decided, got.Why.Rejected, c.decided)
		}
		if err := Check(p, got); err != nil {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

// What stops one more is a supply, an output, or both.
func TestASupplyStopsOneMore(t *testing.T) {
	p := chili()
	p.Supplies[0].Have = 12
	got, err := Solve(p)
	if err != nil {
		t.Fatal(err)
	}
	for i, s := range got.Why.Stops {
		if want := (Stop{Output: -1, Supply: 0, ShortPieces: 1}); s != want {
			t.Errorf("pack %d: stopped by %+v, want the bags", i, s)
		}
	}
	if !slices.Equal(got.Spare, []int{0, 84}) {
		t.Errorf("%v spare, want no bags and 84 labels", got.Spare)
	}
	p.Stock[0] = 8 * unit.Kilogram
	if got, err = Solve(p); err != nil {
		t.Fatal(err)
	}
	if want := (Stop{Output: 0, Short: 500 * unit.Gram, Supply: 0, ShortPieces: 1}); got.Why.Stops[0] != want {
		t.Errorf("stopped by %+v, want chili and bags", got.Why.Stops[0])
	}
}

// By hand: forty minimum singles take 20 kg of 10, 40 bags of 30 and 40 of 100 labels.
func TestMinimaShortOfASupply(t *testing.T) {
	p := chili()
	p.Supplies[0].Have, p.Packs[0].Min = 30, 40
	_, err := Solve(p)
	var short *ShortError
	want := []Shortage{{Output: 0, Supply: -1, Need: 20 * unit.Kilogram, Have: 10 * unit.Kilogram, By: 10 * unit.Kilogram}, {Output: -1, Supply: 0, ByPieces: 10}}
	if !errors.As(err, &short) || !slices.Equal(short.Short, want) {
		t.Errorf("got %v, want %+v", err, want)
	}
	p.Stock[0] = 20 * unit.Kilogram
	if _, err = Solve(p); err == nil || err.Error() != "fill: the minima need 40 of supply 0 (bags), there are 30: short by 10 (1 are short)" {
		t.Errorf("bags alone: got %v", err)
	}
}

// The plan that the last rule turned down is named with its counts. By hand: of 900 g, one pack of 500 g and one of 400 g (worth 5
// each) leave nothing; two of 400 g leave 100 g and bring as much.
func TestTheRejectedPlanIsNamed(t *testing.T) {
	p := Problem{Stock: []unit.Mass{900 * unit.Gram}, Packs: []Pack{pack(5, of(0, 400)), pack(5, of(0, 500))}}
	got, err := Solve(p)
	if err != nil || !slices.Equal(got.Count, []int{1, 1}) {
		t.Fatalf("got %+v, %v", got, err)
	}
	r := got.Why.Rejected
	if got.Why.Decided != ByLeft || r == nil || !slices.Equal(r.Count, []int{2, 0}) || r.Worse != int64(100*unit.Gram) {
		t.Errorf("decided by %v against %+v, want least left over against (2, 0), 100 g worse", got.Why.Decided, r)
	}
}

func TestTradeRefused(t *testing.T) {
	for name, spoil := range map[string]func(*Problem){
		"negative supply":      func(p *Problem) { p.Supplies[0].Have = -1 },
		"no such supply":       func(p *Problem) { p.Packs[0].Uses[0].Supply = 2 },
		"no pieces":            func(p *Problem) { p.Packs[0].Uses[0].Pieces = 0 },
		"negative orders":      func(p *Problem) { p.Packs[0].Ordered = -1 },
		"negative penalty":     func(p *Problem) { p.Packs[0].Penalty = -1 },
		"negative stock":       func(p *Problem) { p.Packs[0].Keep = -1 },
		"penalty out of range": func(p *Problem) { p.Packs[0].Penalty = 1 << 62 },
		"a goal twice":         func(p *Problem) { p.Goals = []Rule{ByValue, ByValue} },
		"evenness as a goal":   func(p *Problem) { p.Goals = []Rule{ByEven} },
	} {
		p := chili()
		spoil(&p)
		var bad *InputError
		if _, err := Solve(p); !errors.As(err, &bad) {
			t.Errorf("%s: got %v, want it refused", name, err)
		}
	}
}
