package productmix

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/unit"
)

func u(x float64) unit.Money { return unit.MoneyOf(x) }

// alone is a product that is made one by one.
func alone(name string, demand int64, contribution float64, uses ...int64) Product {
	return Product{Name: name, Demand: demand, Lots: []Lot{{Name: "one", Packs: 1, Contribution: u(contribution), Uses: uses}}}
}

// haystack is Goldratt's P and Q (The Haystack Syndrome), from memory: four resources of 2,400 minutes a week; P sells 100 for 90 with
// 45 of material, Q 50 for 100 with 40; B takes 15 minutes of P and 30 of Q. Known answer: the whole demand overloads only B; Q earns more
// a piece, P more for each minute of B; best are 100 P and 30 Q, 6,300 before 6,000 of expense.
func haystack() Problem {
	return Problem{Resources: []Resource{{"A", 2400, 60}, {"B", 2400, 60}, {"C", 2400, 60}, {"D", 2400, 60}},
		Products: []Product{alone("P", 100, 45, 15, 15, 15, 10), alone("Q", 50, 60, 10, 30, 5, 5)}}
}

// wyndor is Wyndor Glass (Hillier and Lieberman, Introduction to Operations Research), from memory: doors 3, windows 5 (thousands a
// batch); 4, 12 and 18 hours in three plants, of which a batch takes 1, 0, 3 and 0, 2, 2. Known answer: 2 and 6, 36; an hour is worth
// 0, 3/2 and 1 to the linear relaxation, the second from 6 to 18 hours, the third from 12 to 24.
func wyndor() Problem {
	return Problem{Resources: []Resource{{"plant 1", 4, 1}, {"plant 2", 12, 1}, {"plant 3", 18, 1}},
		Products: []Product{alone("doors", -1, 3, 1, 0, 3), alone("windows", -1, 5, 0, 2, 2)}}
}

// taha is the example of branch and bound in Taha, Operations Research, from memory: 5 x + 4 y with x + y <= 5 and 10 x + 6 y <= 45.
// Known answer: 3 and 2, 23; the linear relaxation has 3.75 and 1.25, 23.75.
func taha() Problem {
	return Problem{Resources: []Resource{{"first", 5, 1}, {"second", 45, 1}}, Products: []Product{alone("x", -1, 5, 1, 10), alone("y", -1, 4, 1, 6)}}
}

func TestTextbookMixes(t *testing.T) {
	for _, c := range []struct {
		name  string
		p     Problem
		packs []int64
		earns unit.Money
	}{
		{"Goldratt's P and Q", haystack(), []int64{100, 30}, u(6300)},
		{"Wyndor Glass", wyndor(), []int64{2, 6}, u(36)},
		{"Taha's branch and bound", taha(), []int64{3, 2}, u(23)},
	} {
		m, err := Best(c.p)
		if err != nil || !slices.Equal(m.Packs, c.packs) || m.Contribution != c.earns || m.Gap() != 0 || Check(c.p, m) != nil {
			t.Errorf("%s: %v for %v, gap %v (%v); want %v for %v, proven", c.name, m.Packs, m.Contribution, m.Gap(), err, c.packs, c.earns)
		}
	}
}

func TestTheBottleneckRanks(t *testing.T) {
	p := haystack()
	loads, err := Loads(p)
	if err != nil {
		t.Fatal(err)
	}
	for k, want := range []int64{2000, 3000, 1750, 1250} {
		if loads[k].Need != want || loads[k].Short != (k == 1) {
			t.Errorf("%s: %+v, want a need of %d", p.Resources[k].Name, loads[k], want)
		}
	}
	ranked, err := Rank(p, 1)
	if err != nil || ranked[0].Product != 0 || ranked[0].PerStep != u(180) || ranked[1].PerStep != u(120) {
		t.Errorf("on B: %+v, %v; want P at 3 a minute before Q at 2", ranked, err)
	}
	m, err := Best(p)
	if err != nil || !m.Stops[0][0].Demand || !slices.Equal(m.Stops[1][0].Resources, []int{1}) {
		t.Errorf("what stops one more: %+v, %v; want the demand for P, and B for Q", m.Stops, err)
	}
}

func TestRankOrders(t *testing.T) {
	p := Problem{Resources: []Resource{{"hands", 10, 1}}, Products: []Product{alone("loses", 9, -3, 2), alone("earns", 9, 3, 2), alone("loses, no hands", 9, -1, 0),
		alone("nothing, no hands", 9, 0, 0), alone("earns, no hands", 9, 1, 0), alone("as good as earns", 9, 6, 4), alone("better", 9, 4, 1)}}
	p.Products[6].Lots[0].AtMost = true
	ranked, err := Rank(p, 0)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, r := range ranked {
		names = append(names, p.Products[r.Product].Name)
	}
	want := []string{"earns, no hands", "better", "earns", "as good as earns", "nothing, no hands", "loses", "loses, no hands"}
	if !slices.Equal(names, want) || !ranked[0].UsesNone || !ranked[1].AtMost || ranked[1].PerStep != u(4) {
		t.Errorf("%q\nwant %q\n%+v", names, want, ranked)
	}
}

// Within the ranges of the textbook, steps of six hours earn what six times its multipliers say; of single hours the odd one earns nothing.
func TestWorthOfOneMore(t *testing.T) {
	p := wyndor()
	p.Resources[0].Step, p.Resources[1].Step, p.Resources[2].Step = 1, 6, 6
	list := mustWorths(t, p)
	for k, want := range []Worth{
		{Resource: 0, Step: 1, CanLess: true},
		{Resource: 1, Step: 6, More: Range{u(9), u(9)}, Less: Range{u(9), u(9)}, CanLess: true, Pays: 1, Earn: Range{u(9), u(9)}},
		{Resource: 2, Step: 6, More: Range{u(6), u(6)}, Less: Range{u(6), u(6)}, CanLess: true, Pays: 1, Earn: Range{u(6), u(6)}},
	} {
		if list[k] != want {
			t.Errorf("%+v\nwant %+v", list[k], want)
		}
	}
	p.Resources[1].Step = 1 // by hand: 13 hours make no more windows, 14 make 7 and leave 4 hours for 1 door
	if w := mustWorths(t, p)[1]; w.More != (Range{}) || w.Pays != 2 || w.Earn != (Range{u(2), u(2)}) {
		t.Errorf("%+v, want nothing for one hour and 2.00 for two", w)
	}
}

func mustWorths(t *testing.T, p Problem) []Worth {
	t.Helper()
	m, err := Best(p)
	if err != nil {
		t.Fatal(err)
	}
	list, err := Worths(p, m)
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// A whole kettle and half a kettle share one demand. By hand: 70 packs sell; two full lots of 30 leave 10, and a half of 15 would be too
// many; four halves and no full one take more of the kettle than there is.
func TestSizesOfLotShareTheDemand(t *testing.T) {
	p := Problem{Resources: []Resource{{"kettle", 300, 60}}, Products: []Product{{Name: "chili", Demand: 70, Lots: []Lot{
		{Name: "full", Packs: 30, Contribution: u(60), Uses: []int64{90}}, {Name: "half", Packs: 15, Contribution: u(28), Uses: []int64{70}}}}}}
	m, err := Best(p)
	if err != nil || !slices.Equal(m.Lots[0], []int64{2, 0}) || m.Packs[0] != 60 || !m.Stops[0][1].Demand {
		t.Errorf("%+v, %v; want two full lots", m, err)
	}
	p.Products[0].Demand = 50
	if m, err = Best(p); err != nil || !slices.Equal(m.Lots[0], []int64{1, 1}) || m.Contribution != u(88) {
		t.Errorf("%+v, %v; want one of each", m, err)
	}
}

// Of mixes that earn the same, the one that needs fewer hands.
func TestEqualMixesUseLess(t *testing.T) {
	p := Problem{Resources: []Resource{{"hands", 100, 10}, {"kettle", 10, 1}}, Products: []Product{alone("slow", 10, 5, 9, 1), alone("quick", 10, 5, 3, 1)}}
	m, err := Best(p)
	if err != nil || !slices.Equal(m.Packs, []int64{0, 10}) || !m.Proof.Thrifty {
		t.Errorf("%+v, %v; want ten quick ones", m, err)
	}
}

func TestPromisesAreKept(t *testing.T) {
	p := wyndor()
	p.Products[0].Lots[0].Least, p.Products[0].Lots[0].Contribution = 3, u(-1) // promised, and it loses money
	m, err := Best(p)
	if err != nil || !slices.Equal(m.Packs, []int64{3, 4}) || m.Contribution != u(17) {
		t.Errorf("%+v, %v; want 3 doors, no more, and 4 windows", m, err)
	}
	p.Products[0].Lots[0].Least = 5
	_, err = Best(p)
	var short *ShortError
	if !errors.As(err, &short) || len(short.Short) != 1 || short.Short[0] != (Shortage{Resource: 0, Product: -1, Need: 5, Have: 4}) || !strings.Contains(err.Error(), "plant 1") {
		t.Errorf("%v, want plant 1 short by 1", err)
	}
	p.Products[0].Demand = 2
	if _, err = Best(p); !errors.As(err, &short) || len(short.Short) != 2 || short.Short[1].Product != 0 {
		t.Errorf("%v, want the demand gone beyond too", err)
	}
	p.Products[0].Demand, p.Products[0].Lots[0].Least = -1, 4
	if w := mustWorths(t, p)[0]; w.CanLess {
		t.Errorf("%+v: what is promised needs all of plant 1", w)
	}
}

// Without a proof the worth is a range that holds the truth.
func TestWorthWithoutProofIsARange(t *testing.T) {
	p := instance(14)
	truth := mustWorths(t, p)
	p.Budget = 2
	m, err := Best(p)
	if err != nil || m.Gap() == 0 {
		t.Fatalf("gap %v, %v: the case no longer needs more than two steps", m.Gap(), err)
	}
	for k, w := range mustWorths(t, p) {
		if w.More.Exact() || w.More.Low > truth[k].More.Low || w.More.High < truth[k].More.High {
			t.Errorf("%+v does not hold %+v", w, truth[k])
		}
	}
}

func TestContributionsThatAreBoundsAreTold(t *testing.T) {
	p := wyndor()
	p.Products[1].Lots[0].AtMost = true
	if m, err := Best(p); err != nil || !m.AtMost {
		t.Errorf("%+v, %v", m, err)
	}
}
