package purchase

import (
	"errors"
	"fmt"
	"slices"
	"testing"

	"kettlefrost/internal/unit"
	"pgregory.net/rapid"
)

// oneNeed is a basket of one ingredient from one supplier without terms.
func oneNeed(need unit.Mass, offers ...Listing) Basket {
	return Basket{Suppliers: []Supplier{{Name: "shop"}}, Needs: []Need{{Name: "flour", Mass: need, Offers: offers}}}
}

func TestOneNeed(t *testing.T) {
	bag, sack := at(0, 5*unit.Pound, 8*one), at(0, 25*unit.Pound, 30*one)
	free := Listing{Name: "from the garden", Pack: 2 * unit.Pound, Free: true, Max: 3}
	few := func(o Listing, lo, hi int) Listing { o.Min, o.Max = lo, hi; return o }
	// Every row is worked by hand.
	for _, c := range []struct {
		name   string
		need   unit.Mass
		offers []Listing
		counts []int
		total  unit.Money
		over   unit.Mass
	}{
		{"a sack and a bag is 38; two sacks 60, six bags 48", 27 * unit.Pound, []Listing{bag, sack}, []int{1, 1}, 38 * one, 3 * unit.Pound},
		{"five bags are 40, the sack 30", 21 * unit.Pound, []Listing{bag, sack}, []int{0, 1}, 30 * one, 4 * unit.Pound},
		{"three bags are 24, the sack 30", 15 * unit.Pound, []Listing{bag, sack}, []int{3, 0}, 24 * one, 0},
		{"one nanogram more than three bags: four bags are 32, the sack 30", 15*unit.Pound + 1, []Listing{bag, sack}, []int{0, 1}, 30 * one, 10*unit.Pound - 1},
		{"no sack to be had", 27 * unit.Pound, []Listing{bag, few(sack, 0, 0)}, []int{6, 0}, 48 * one, 3 * unit.Pound},
		{"sacks only by two: six bags are 48, two sacks 60", 27 * unit.Pound, []Listing{bag, few(sack, 2, -1)}, []int{6, 0}, 48 * one, 3 * unit.Pound},
		{"sacks only by two: eight bags are 64", 38 * unit.Pound, []Listing{bag, few(sack, 2, -1)}, []int{0, 2}, 60 * one, 12 * unit.Pound},
		{"what is free comes first", 27 * unit.Pound, []Listing{bag, sack, free}, []int{0, 1, 1}, 30 * one, 0},
		{"nothing needed", 0, []Listing{bag, sack}, []int{0, 0}, 0, 0},
		{"nothing needed and nothing known", 0, nil, []int{}, 0, 0},
		{"same cost, less over", 4 * unit.Pound, []Listing{at(0, 7*unit.Pound, 10), at(0, 5*unit.Pound, 10)}, []int{0, 1}, 10, unit.Pound},
		{"same cost and over, fewer packs", 4 * unit.Pound, []Listing{at(0, 2*unit.Pound, 5), at(0, 4*unit.Pound, 10)}, []int{0, 1}, 10, 0},
		{"ounces against grams", kg, []Listing{at(0, 35*unit.Ounce, 100), at(0, 500*unit.Gram, 52)}, []int{0, 2}, 104, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := oneNeed(c.need, c.offers...)
			got, err := Best(b, Options{})
			if err != nil {
				t.Fatal(err)
			}
			if !slices.Equal(got.Counts[0], c.counts) || got.Total != c.total || got.Over != c.over || !got.Proof.Settled {
				t.Errorf("got %+v, want counts %v, total %v, over %v", got, c.counts, c.total, c.over)
			}
			if err := CheckBasket(b, got); err != nil {
				t.Error(err)
			}
		})
	}
	short := few(at(0, unit.Pound, one), 0, 4)
	var unmet *UnmetError
	if _, err := Best(oneNeed(5*unit.Pound, short), Options{}); !errors.As(err, &unmet) || unmet.Unmet[0].Mass-unmet.Unmet[0].Have != unit.Pound {
		t.Errorf("four pounds to be had, five needed: got %v", err)
	}
}

// The least cost of covering a need with packs of any number is c(0) = 0, c(m) = the least of price + c(m - pack) over all packs:
// the covering form of the textbook recursion for the unbounded knapsack (from memory).
func TestCoveringRecursion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		need := rapid.IntRange(1, 400).Draw(t, "need")
		packs := rapid.SliceOfN(rapid.IntRange(1, 60), 1, 7).Draw(t, "packs")
		prices := rapid.SliceOfN(rapid.IntRange(1, 80), len(packs), len(packs)).Draw(t, "prices")
		least := make([]int, need+1)
		offers := make([]Listing, len(packs))
		for m := 1; m <= need; m++ {
			least[m] = prices[0] + least[max(0, m-packs[0])]
			for k := range packs {
				least[m] = min(least[m], prices[k]+least[max(0, m-packs[k])])
			}
		}
		for k := range packs {
			offers[k] = at(0, unit.Mass(packs[k])*unit.Gram, unit.Money(prices[k])*unit.Cent)
		}
		got, err := Best(oneNeed(unit.Mass(need)*unit.Gram, offers...), Options{})
		if err != nil || got.Total != unit.Money(least[need])*unit.Cent || !got.Proof.Settled {
			t.Fatalf("got %+v, %v; the recursion says %d cents", got, err, least[need])
		}
	})
}

// A look at one need that is stopped after its first choice covers the need, and its bound holds.
func TestStoppedShelfIsHonest(t *testing.T) {
	m := newModel(oneNeed(27*unit.Pound, at(0, 5*unit.Pound, 8*one), at(0, 25*unit.Pound, 30*one)), 0)
	sh := m.shelf(0, 1, 1, m.flat())
	least := sh.cheapest(1)
	if got := unit.Money(sh.bestScore.cost); got != 60*one {
		t.Errorf("got %v, want the two sacks that are tried first", got)
	}
	if best := 38 * one; unit.Money(least.cost) > best || least.cost <= 0 {
		t.Errorf("nothing is said to cost less than %v, but %v is possible", unit.Money(least.cost), best)
	}
}

// Invented offers: the larger the pack the cheaper by mass, in pounds and in grams; and all at the same price by mass, as many ties
// as there can be.
func BenchmarkOneNeed(b *testing.B) {
	var shelf, even []Listing
	for _, o := range []struct {
		pack  unit.Mass
		cents unit.Money
	}{{unit.Pound, 239}, {2 * unit.Pound, 449}, {5 * unit.Pound, 999}, {10 * unit.Pound, 1875}, {25 * unit.Pound, 4400}, {50 * unit.Pound, 8400},
		{500 * unit.Gram, 259}, {kg, 479}, {2500 * unit.Gram, 1099}, {5 * kg, 2060}} {
		shelf = append(shelf, at(0, o.pack, o.cents*unit.Cent))
	}
	for i := range 8 {
		even = append(even, at(0, unit.Mass(250*(i+1))*unit.Gram, unit.Money(50*(i+1))*unit.Cent))
	}
	for _, c := range []struct {
		need   unit.Mass
		offers []Listing
	}{{137 * unit.Pound, shelf}, {1003 * unit.Pound, shelf}, {1000*kg + unit.Gram, even}} {
		b.Run(fmt.Sprintf("%d offers, %.4g kg", len(c.offers), c.need.Kg()), func(b *testing.B) {
			for b.Loop() {
				if p, err := Best(oneNeed(c.need, c.offers...), Options{}); err != nil || !p.Proof.Settled {
					b.Fatal(p, err)
				}
			}
		})
	}
}
