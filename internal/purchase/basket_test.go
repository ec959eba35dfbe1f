package purchase

import (
	"errors"
	"reflect"
	"testing"

	"kettlefrost/internal/unit"
	"pgregory.net/rapid"
)

const (
	kg  = unit.Kilogram
	one = unit.MoneyUnit
)

// at is an offer without limits.
func at(supplier int, pack unit.Mass, price unit.Money) Listing {
	return Listing{Supplier: supplier, Pack: pack, Price: price, Max: -1}
}

// Every row is worked by hand.
func TestBest(t *testing.T) {
	corner, mill := Supplier{Name: "corner shop"}, Supplier{Name: "mill", Delivery: 9 * one}
	flour := func(need unit.Mass) Need {
		return Need{Name: "flour", Mass: need, Offers: []Listing{at(0, 5*kg, 6*one), at(1, 25*kg, 20*one)}}
	}
	dairy := Supplier{Name: "dairy", Delivery: 15 * one, FreeFrom: 250 * one}
	cheese := Need{Name: "cheese", Mass: 25 * kg, Offers: []Listing{at(1, 5*kg, 48*one)}}
	either := Need{Name: "flour", Mass: 10 * kg, Offers: []Listing{at(0, 10*kg, 8*one), at(1, 10*kg, 12*one)}}
	tenCheaper := at(0, kg, 10*one)
	tenCheaper.Breaks = []Break{{From: 10, Price: 8_500_000}}
	strict := Supplier{Name: "strict", MinOrder: 50 * one}
	beans, rice := Need{Name: "beans", Mass: 10 * kg, Offers: []Listing{at(0, 5*kg, 12*one)}}, Need{Name: "rice", Offers: []Listing{at(0, 5*kg, 9*one)}}
	keeping := beans
	keeping.Keep = Keep{PerKg: 2 * one, UpTo: 30 * kg}
	phone := Supplier{Name: "by telephone", Handling: 10 * one}
	split := []Need{{Name: "leeks", Mass: kg, Offers: []Listing{at(0, kg, 3*one), at(1, kg, 6*one)}}, {Name: "chard", Mass: kg, Offers: []Listing{at(0, kg, 6*one), at(1, kg, 4*one)}}}
	three := at(0, 5*kg, 6*one)
	three.Min, three.Max = 3, 3
	for _, c := range []struct {
		name   string
		b      Basket
		counts [][]int
		split  Split
		over   unit.Mass
	}{
		{"20 kg: four bags are 24; a sack is cheaper by the kilo, but 29 with its delivery",
			Basket{Suppliers: []Supplier{corner, mill}, Needs: []Need{flour(20 * kg)}}, [][]int{{4, 0}}, Split{Goods: 24 * one}, 0},
		{"40 kg: eight bags are 48, two sacks 49, a sack and three bags 47",
			Basket{Suppliers: []Supplier{corner, mill}, Needs: []Need{flour(40 * kg)}}, [][]int{{3, 1}}, Split{Goods: 38 * one, Delivery: 9 * one}, 0},
		{"50 kg: ten bags are 60, a sack and five bags 59, two sacks 49",
			Basket{Suppliers: []Supplier{corner, mill}, Needs: []Need{flour(50 * kg)}}, [][]int{{0, 2}}, Split{Goods: 40 * one, Delivery: 9 * one}, 0},
		{"free delivery from 250: cheese alone is 240 and 15; with flour that is dearer there it is 252",
			Basket{Suppliers: []Supplier{corner, dairy}, Needs: []Need{cheese, either}}, [][]int{{5}, {0, 1}}, Split{Goods: 252 * one}, 0},
		{"nine at 10 are 90, ten at 8.50 are 85",
			Basket{Suppliers: []Supplier{corner}, Needs: []Need{{Name: "butter", Mass: 9 * kg, Offers: []Listing{tenCheaper}}}}, [][]int{{10}}, Split{Goods: 85 * one}, kg},
		{"at least 50: five beans are 60; two beans and three rice, which nobody needs, are 51",
			Basket{Suppliers: []Supplier{strict}, Needs: []Need{beans, rice}}, [][]int{{2}, {3}}, Split{Goods: 51 * one}, 15 * kg},
		{"at least 50, and beans keep: five are 60 less 15 kg at 2",
			Basket{Suppliers: []Supplier{strict}, Needs: []Need{keeping, rice}}, [][]int{{5}, {0}}, Split{Goods: 60 * one, LeftOver: 30 * one}, 15 * kg},
		{"a call costs 10: all from the first is 9 and 10, from the second 10 and 10, from both 7 and 20",
			Basket{Suppliers: []Supplier{phone, phone}, Needs: split}, [][]int{{1, 0}, {1, 0}}, Split{Goods: 9 * one, Handling: 10 * one}, 0},
		{"nothing is the matter: each where it is cheaper",
			Basket{Suppliers: []Supplier{corner, corner}, Needs: split}, [][]int{{1, 0}, {0, 1}}, Split{Goods: 7 * one}, 0},
		{"only by three: three bags are 18, though one would do",
			Basket{Suppliers: []Supplier{corner}, Needs: []Need{{Name: "flour", Mass: 4 * kg, Offers: []Listing{three}}}}, [][]int{{3}}, Split{Goods: 18 * one}, 11 * kg},
		{"the same cost: one supplier rather than two",
			Basket{Suppliers: []Supplier{corner, corner}, Needs: []Need{
				{Mass: kg, Offers: []Listing{at(0, kg, one), at(1, 2*kg, one)}}, {Mass: kg, Offers: []Listing{at(1, kg, one)}}}}, [][]int{{0, 1}, {1}}, Split{Goods: 2 * one}, kg},
		{"the same cost and supplier: less surplus, then fewer packs",
			Basket{Suppliers: []Supplier{corner}, Needs: []Need{{Mass: 4 * kg, Offers: []Listing{at(0, 7*kg, 10*one), at(0, 2*kg, 5*one), at(0, 4*kg, 10*one)}}}},
			[][]int{{0, 0, 1}}, Split{Goods: 10 * one}, 0},
		{"nothing needed", Basket{Suppliers: []Supplier{phone}, Needs: []Need{rice}}, [][]int{{0}}, Split{}, 0},
		{"bought only to be kept: 9 for 5 kg that are worth 10",
			Basket{Suppliers: []Supplier{corner}, Needs: []Need{{Offers: rice.Offers, Keep: Keep{PerKg: 2 * one, UpTo: 9 * kg}}}}, [][]int{{1}}, Split{Goods: 9 * one, LeftOver: 10 * one}, 5 * kg},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := Best(c.b, Options{})
			if err != nil {
				t.Fatal(err)
			}
			if !reflect.DeepEqual(got.Counts, c.counts) || got.Split != c.split || got.Over != c.over || got.Total != c.split.Total() {
				t.Errorf("got %v, %+v, over %v; want %v, %+v, over %v", got.Counts, got.Split, got.Over, c.counts, c.split, c.over)
			}
			if !got.Proof.Optimal || !got.Proof.Settled || got.Gap() != 0 {
				t.Errorf("not proven: %+v", got.Proof)
			}
			if err := CheckBasket(c.b, got); err != nil {
				t.Error(err)
			}
		})
	}
}

// The largest whole number that 6, 9 and 20 do not add up to is 43, and the largest for a and b without a common divisor is
// ab - a - b (Frobenius, Sylvester; from memory). At one unit of money a kilogram, what is bought too much is what it costs more.
func TestPacksThatDoNotAddUp(t *testing.T) {
	for _, c := range []struct {
		packs   []unit.Mass
		largest unit.Mass
	}{{[]unit.Mass{6, 9, 20}, 43}, {[]unit.Mass{7, 11}, 59}, {[]unit.Mass{13, 17}, 191}} {
		for need := c.largest; need < c.largest+30; need++ {
			n := Need{Mass: need * kg}
			for _, p := range c.packs {
				n.Offers = append(n.Offers, at(0, p*kg, unit.Money(p)*one))
			}
			got, err := Best(Basket{Suppliers: []Supplier{{}}, Needs: []Need{n}}, Options{})
			want := unit.Money(need) * one
			if need == c.largest {
				want += one
			}
			if err != nil || got.Total != want || !got.Proof.Settled {
				t.Errorf("%v for %d kg: %v, %v; want %v", c.packs, need, got.Total, err, want)
			}
			// The same, when it is the order value that has to be met and nothing is needed.
			n.Mass = 0
			got, err = Best(Basket{Suppliers: []Supplier{{MinOrder: unit.Money(need) * one}}, Needs: []Need{n, {Mass: kg, Offers: []Listing{{Pack: kg, Free: true, Max: -1}}}}}, Options{})
			if err != nil || got.Total != want || !got.Proof.Optimal {
				t.Errorf("%v for an order of %d: %v, %v; want %v", c.packs, need, got.Total, err, want)
			}
		}
	}
}

func TestWhoIsLeftOut(t *testing.T) {
	few := at(4, kg, 12*one)
	few.Max = 2
	b := Basket{Today: 10, NeededBy: 12, Suppliers: []Supplier{{Name: "near", LeadDays: 2}, {Name: "far", LeadDays: 3}, {Name: "closed", LastOrder: 9}, {Name: "of other things"},
		{Name: "strict", MinOrder: 50 * one}, {Name: "dear", LeadDays: 1}},
		Needs: []Need{{Name: "beans", Mass: kg, Offers: []Listing{at(0, kg, 5*one), at(1, kg, one), at(2, kg, one), few, at(5, kg, 6*one)}}}}
	got, err := Best(b, Options{})
	if err != nil {
		t.Fatal(err)
	}
	want := []LeftOut{{Supplier: 1, Why: TooLate, Day: 13, By: 12}, {Supplier: 2, Why: OrdersClosed, Day: 9, By: 10}, {Supplier: 3, Why: SellsNothing},
		{Supplier: 4, Why: BelowMinimum, Reach: 24 * one}, {Supplier: 5, Why: Dearer}}
	if !reflect.DeepEqual(got.LeftOut, want) {
		t.Errorf("left out %+v, want %+v", got.LeftOut, want)
	}
	if len(got.Orders) != 1 || got.Orders[0].Supplier != 0 || got.Orders[0].Arrives != 12 {
		t.Errorf("orders %+v, want one from near that comes on day 12", got.Orders)
	}
}

func TestWhatCannotBeMet(t *testing.T) {
	far := Supplier{Name: "far", LeadDays: 5}
	few := at(1, kg, one)
	few.Max = 2
	b := Basket{Today: 1, NeededBy: 3, Suppliers: []Supplier{far, {Name: "near"}}, Needs: []Need{
		{Name: "truffle", Mass: kg}, {Name: "saffron", Mass: kg, Offers: []Listing{at(0, kg, one)}}, {Name: "rice", Mass: 5 * kg, Offers: []Listing{few}}, {Name: "salt", Mass: kg, Offers: []Listing{at(1, kg, one)}}}}
	_, err := Best(b, Options{})
	var unmet *UnmetError
	if !errors.As(err, &unmet) {
		t.Fatalf("got %v", err)
	}
	want := []Unmet{{Need: 0, Name: "truffle", Mass: kg, NoOffers: true}, {Need: 1, Name: "saffron", Mass: kg, Without: []int{0}}, {Need: 2, Name: "rice", Mass: 5 * kg, Have: 2 * kg}}
	if !reflect.DeepEqual(unmet.Unmet, want) {
		t.Errorf("unmet %+v, want %+v", unmet.Unmet, want)
	}
	var none *NoOfferError
	var short *ShortError
	if !errors.As(unmet.Unmet[0].Err(), &none) || !errors.As(unmet.Unmet[2].Err(), &short) || short.By != 3*kg {
		t.Errorf("%v; %v", unmet.Unmet[0].Err(), unmet.Unmet[2].Err())
	}
	for _, u := range unmet.Unmet {
		b.Needs[u.Need].Mass = 0
	}
	if got, err := Best(b, Options{}); err != nil || got.Total != one {
		t.Errorf("the rest costs %v, %v; want the salt for 1", got.Total, err)
	}
	apart := Basket{AtMost: 1, Suppliers: []Supplier{{}, {}}, Needs: []Need{{Mass: kg, Offers: []Listing{at(0, kg, one)}}, {Mass: kg, Offers: []Listing{at(1, kg, one)}}}}
	var terms *TermsError
	if _, err := Best(apart, Options{}); !errors.As(err, &terms) || !terms.Proven || terms.AtMost != 1 {
		t.Errorf("one of each, from one supplier: %v", err)
	}
}

// A search that is stopped early says no more than it knows.
func TestStoppedBasketIsHonest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawn{"", rapid.IntRange(3, 9).Draw(t, "needs"), 3, 0.8, 0.3, 0.3, 1.2, 0}
		b := d.basket(rapid.Uint64Range(0, 1000).Draw(t, "seed"))
		best, err := Best(b, Options{})
		if err != nil {
			t.Fatal(err)
		}
		early, err := Best(b, Options{Steps: rapid.Int64Range(1, 5000).Draw(t, "steps")})
		var terms *TermsError
		if errors.As(err, &terms) && !terms.Proven {
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		if err := CheckBasket(b, early); err != nil {
			t.Fatal(err)
		}
		if early.Total < best.Proof.AtLeast || early.Proof.AtLeast > best.Total || early.Proof.Optimal && early.Total > best.Total {
			t.Fatalf("stopped at %v, at least %v; the best is %v", early.Total, early.Proof.AtLeast, best.Total)
		}
	})
}
