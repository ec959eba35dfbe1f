package purchase

import (
	"errors"
	"slices"
	"testing"

	"kettlefrost/internal/unit"
	"pgregory.net/rapid"
)

// smallBasket draws a basket that can be tried out: up to five offers, masses in whole kilograms, prices in whole units of money.
func smallBasket(t *rapid.T) Basket {
	b := Basket{AtMost: rapid.IntRange(0, 2).Draw(t, "at most"), Today: 3, NeededBy: rapid.IntRange(4, 9).Draw(t, "needed by")}
	money := func(hi int, what string) unit.Money {
		return unit.Money(rapid.IntRange(0, hi).Draw(t, what)) * unit.MoneyUnit
	}
	for range rapid.IntRange(1, 3).Draw(t, "suppliers") {
		s := Supplier{MinOrder: money(14, "lowest order"), Delivery: money(6, "delivery"), FreeFrom: money(20, "free from"), Handling: money(2, "handling"),
			LeadDays: rapid.IntRange(0, 2).Draw(t, "lead")}
		b.Suppliers = append(b.Suppliers, s)
	}
	left := 5
	for range rapid.IntRange(1, 3).Draw(t, "needs") {
		n := Need{Mass: unit.Mass(rapid.IntRange(0, 9).Draw(t, "need")) * unit.Kilogram}
		if rapid.IntRange(0, 2).Draw(t, "keeps") == 0 {
			n.Keep = Keep{PerKg: 1 + money(3, "worth")/2, UpTo: unit.Mass(rapid.IntRange(1, 5).Draw(t, "up to")) * unit.Kilogram}
		}
		for range rapid.IntRange(1, min(3, left)).Draw(t, "offers") {
			n.Offers = append(n.Offers, smallListing(t, len(b.Suppliers)))
		}
		if left -= len(n.Offers); true {
			b.Needs = append(b.Needs, n)
		}
		if left == 0 {
			break
		}
	}
	return b
}

func smallListing(t *rapid.T, suppliers int) Listing {
	o := Listing{Supplier: rapid.IntRange(0, suppliers-1).Draw(t, "supplier"), Pack: unit.Mass(rapid.IntRange(1, 6).Draw(t, "pack")) * unit.Kilogram,
		Price: unit.Money(rapid.IntRange(0, 9).Draw(t, "price")) * unit.MoneyUnit, Min: rapid.IntRange(0, 3).Draw(t, "min"), Max: rapid.IntRange(-1, 5).Draw(t, "max")}
	o.Free = o.Price == 0
	if o.Max >= 0 {
		o.Min = min(o.Min, o.Max)
	}
	if o.Price > unit.MoneyUnit && rapid.Bool().Draw(t, "has a break") {
		o.Breaks = []Break{{From: rapid.IntRange(2, 4).Draw(t, "from"), Price: unit.Money(rapid.IntRange(1, int(o.Price/unit.MoneyUnit)-1).Draw(t, "lower")) * unit.MoneyUnit}}
	}
	return o
}

// everything tries every purchase, in no clever way: as many packs of each offer as could ever be of use.
type everything struct {
	b      Basket
	counts [][]int
	best   []int64 // cost, suppliers, surplus, packs
}

func (e *everything) try(i, k int) {
	if i == len(e.b.Needs) {
		if key, ok := priced(e.b, e.counts); ok && (e.best == nil || slices.Compare(key, e.best) < 0) {
			e.best = key
		}
		return
	}
	n := e.b.Needs[i]
	if k == len(n.Offers) {
		e.try(i+1, 0)
		return
	}
	o := n.Offers[k]
	most := int((n.Mass+n.Keep.UpTo)/o.Pack) + 4
	if o.Price > 0 {
		cheapest := o.Price
		if len(o.Breaks) > 0 {
			cheapest = o.Breaks[0].Price
		}
		most = max(most, int(max(e.b.Suppliers[o.Supplier].MinOrder, e.b.Suppliers[o.Supplier].FreeFrom)/cheapest)+1)
	}
	if o.Max >= 0 {
		most = min(most, o.Max)
	}
	for c := range most + 1 {
		if c > 0 && c < o.Min {
			continue
		}
		e.counts[i][k] = c
		e.try(i, k+1)
	}
	e.counts[i][k] = 0
}

// priced is what a purchase costs, from how many suppliers, its surplus and its packs, or false if it is not allowed.
func priced(b Basket, counts [][]int) ([]int64, bool) {
	goods, used := make([]unit.Money, len(b.Suppliers)), make([]bool, len(b.Suppliers))
	var cost unit.Money
	var over unit.Mass
	packs, suppliers := 0, 0
	for i, n := range b.Needs {
		got := unit.Mass(0)
		for k, o := range n.Offers {
			c := counts[i][k]
			each := o.Price
			if len(o.Breaks) > 0 && c >= o.Breaks[0].From {
				each = o.Breaks[0].Price
			}
			goods[o.Supplier] += each * unit.Money(c)
			used[o.Supplier] = used[o.Supplier] || c > 0
			got += o.Pack * unit.Mass(c)
			packs += c
		}
		if got < n.Mass {
			return nil, false
		}
		over += got - n.Mass
		cost -= n.Keep.PerKg * unit.Money(min(got-n.Mass, n.Keep.UpTo)/unit.Kilogram)
	}
	for j, s := range b.Suppliers {
		if !used[j] {
			continue
		}
		if goods[j] < s.MinOrder || b.Today+s.LeadDays > b.NeededBy {
			return nil, false
		}
		suppliers++
		cost += goods[j] + s.Handling
		if s.FreeFrom == 0 || goods[j] < s.FreeFrom {
			cost += s.Delivery
		}
	}
	if b.AtMost > 0 && suppliers > b.AtMost {
		return nil, false
	}
	return []int64{int64(cost), int64(suppliers), int64(over), int64(packs)}, true
}

func TestNoPurchaseBeatsTheBest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := smallBasket(t)
		e := everything{b: b}
		for _, n := range b.Needs {
			e.counts = append(e.counts, make([]int, len(n.Offers)))
		}
		e.try(0, 0)
		got, err := Best(b, Options{})
		if e.best == nil {
			var unmet *UnmetError
			var terms *TermsError
			if !errors.As(err, &unmet) && (!errors.As(err, &terms) || !terms.Proven) {
				t.Fatalf("nothing is possible, yet got %+v, %v", got, err)
			}
			return
		}
		if err != nil {
			t.Fatalf("%v, but %v is possible", err, e.best)
		}
		if err := CheckBasket(b, got); err != nil {
			t.Fatal(err)
		}
		key := []int64{int64(got.Total), int64(len(got.Orders)), int64(got.Over), int64(got.Packs)}
		if !slices.Equal(key, e.best) || !got.Proof.Optimal || !got.Proof.Settled {
			t.Fatalf("got %v (%+v); every purchase tried says %v", key, got, e.best)
		}
	})
}
