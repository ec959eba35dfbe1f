package purchase

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/unit"
	"pgregory.net/rapid"
)

func TestBasketRefused(t *testing.T) {
	good := func() Basket {
		return Basket{Suppliers: []Supplier{{Name: "near"}}, Today: 1, NeededBy: 2, Needs: []Need{{Name: "rice", Mass: kg, Offers: []Listing{{Name: "bag", Pack: kg, Price: 10 * one, Max: -1}}}}}
	}
	offer := func(f func(*Listing)) func(*Basket) { return func(b *Basket) { f(&b.Needs[0].Offers[0]) } }
	for _, c := range []struct {
		where, name string
		spoil       func(*Basket)
	}{
		{"offer 1 (bag)", "price forgotten", offer(func(o *Listing) { o.Price = 0 })},
		{"offer 1 (bag)", "price negative", offer(func(o *Listing) { o.Price = -1 })},
		{"offer 1 (bag)", "free with a price", offer(func(o *Listing) { o.Free = true })},
		{"offer 1 (bag)", "holds nothing", offer(func(o *Listing) { o.Pack = 0 })},
		{"offer 1 (bag)", "no such supplier", offer(func(o *Listing) { o.Supplier = 1 })},
		{"offer 1 (bag)", "supplier below 0", offer(func(o *Listing) { o.Supplier = -1 })},
		{"offer 1 (bag)", "fewest negative", offer(func(o *Listing) { o.Min = -1 })},
		{"offer 1 (bag)", "fewest above most", offer(func(o *Listing) { o.Min, o.Max = 3, 2 })},
		{"offer 1 (bag)", "absurd fewest", offer(func(o *Listing) { o.Min = math.MaxInt })},
		{"offer 1 (bag)", "absurd price", offer(func(o *Listing) { o.Price = math.MaxInt64 })},
		{"offer 1 (bag)", "absurd pack", offer(func(o *Listing) { o.Pack = math.MaxInt64 })},
		{"price break 1", "break from 1", offer(func(o *Listing) { o.Breaks = []Break{{1, one}} })},
		{"price break 1", "break that is dearer", offer(func(o *Listing) { o.Breaks = []Break{{2, 11 * one}} })},
		{"price break 2", "breaks out of order", offer(func(o *Listing) { o.Breaks = []Break{{5, 9 * one}, {3, 8 * one}} })},
		{"price break 1", "break for nothing", offer(func(o *Listing) { o.Breaks = []Break{{2, 0}} })},
		{"need 1 (rice)", "need negative", func(b *Basket) { b.Needs[0].Mass = -1 }},
		{"need 1 (rice)", "absurd need", func(b *Basket) { b.Needs[0].Mass = math.MaxInt64 }},
		{"need 1 (rice)", "left-over below nothing", func(b *Basket) { b.Needs[0].Keep = Keep{-1, kg} }},
		{"need 1 (rice)", "left-over of no mass", func(b *Basket) { b.Needs[0].Keep = Keep{one, 0} }},
		{"supplier 1 (near)", "delivery negative", func(b *Basket) { b.Suppliers[0].Delivery = -1 }},
		{"supplier 1 (near)", "absurd lowest order", func(b *Basket) { b.Suppliers[0].MinOrder = math.MaxInt64 }},
		{"supplier 1 (near)", "lead negative", func(b *Basket) { b.Suppliers[0].LeadDays = -1 }},
		{"supplier 1 (near)", "absurd lead", func(b *Basket) { b.Suppliers[0].LeadDays = math.MaxInt }},
		{"basket", "no day of the order", func(b *Basket) { b.Today = 0 }},
		{"basket", "cap below 0", func(b *Basket) { b.AtMost = -1 }},
		{"basket", "more suppliers than are counted", func(b *Basket) { b.Suppliers = make([]Supplier, 65) }},
	} {
		b := good()
		c.spoil(&b)
		var bad *InputError
		if _, err := Best(b, Options{}); !errors.As(err, &bad) || !strings.Contains(bad.Where, c.where) || bad.Fix == "" {
			t.Errorf("%s: got %v, want it refused for %s", c.name, err, c.where)
		}
	}
	if _, err := Best(good(), Options{}); err != nil {
		t.Error(err)
	}
}

// Numbers of any size are either refused or added up exactly.
func TestAnyNumbersAreSafe(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		small := rapid.Int64Range(0, 100)
		number := rapid.OneOf(small, small, small, small, rapid.Int64Range(0, 1<<44), rapid.Int64())
		draw := func(what string) int64 { return number.Draw(t, what) }
		b := Basket{AtMost: int(draw("at most") % 3)}
		for range 2 {
			b.Suppliers = append(b.Suppliers, Supplier{MinOrder: unit.Money(draw("lowest")), Delivery: unit.Money(draw("delivery")), FreeFrom: unit.Money(draw("free")), Handling: unit.Money(draw("handling"))})
		}
		for range 2 {
			n := Need{Mass: unit.Mass(draw("need")), Keep: Keep{unit.Money(draw("worth")), unit.Mass(draw("up to"))}}
			for j := range 2 {
				o := at(j, unit.Mass(draw("pack")), unit.Money(draw("price")))
				o.Min, o.Free = int(draw("min")), o.Price == 0
				n.Offers = append(n.Offers, o)
			}
			b.Needs = append(b.Needs, n)
		}
		got, err := Best(b, Options{Steps: 2000})
		if err == nil {
			err = CheckBasket(b, got)
			var bad *CheckError
			if errors.As(err, &bad) {
				t.Fatal(err)
			}
		}
	})
}

func TestAlternatives(t *testing.T) {
	// By hand: 7 from both; without the first 9, without the second 9, from at most one 9.
	b := Basket{Suppliers: []Supplier{{Name: "a"}, {Name: "b"}}, Needs: []Need{{Name: "leeks", Mass: kg, Offers: []Listing{at(0, kg, 3*one), at(1, kg, 5*one)}},
		{Name: "chard", Mass: kg, Offers: []Listing{at(0, kg, 6*one), at(1, kg, 4*one)}}}}
	best, err := Best(b, Options{})
	if err != nil {
		t.Fatal(err)
	}
	all, err := Alternatives(b, best, Options{})
	if err != nil || len(all) != 3 {
		t.Fatalf("%+v, %v", all, err)
	}
	for _, a := range all {
		if a.Err != nil || a.Extra != 2*one || a.Purchase.Total != 9*one || len(a.Purchase.Orders) != 1 || a.Without >= 0 && a.Purchase.Orders[0].Supplier == a.Without {
			t.Errorf("%+v, want 9 from one supplier", a)
		}
	}
	if why := all[0].Purchase.LeftOut; len(why) != 1 || why[0] != (LeftOut{Supplier: 0, Why: Excluded}) {
		t.Errorf("left out %+v", why)
	}
	b.Needs[0].Offers = b.Needs[0].Offers[:1]
	if best, err = Best(b, Options{}); err != nil {
		t.Fatal(err)
	}
	all, err = Alternatives(b, best, Options{})
	var unmet *UnmetError
	if err != nil || len(all) != 3 || !errors.As(all[0].Err, &unmet) || !slices.Equal(unmet.Unmet[0].Without, []int{0}) {
		t.Errorf("only the first has leeks: %+v, %v", all, err)
	}
}

// No alternative costs less than the best, and each is what it says.
func TestAlternativesAreNoBetter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawn{"", 6, 3, 0.8, 0.2, 0.2, 0.6, 0}.basket(rapid.Uint64Range(0, 300).Draw(t, "seed"))
		best, err := Best(b, Options{})
		if err != nil {
			t.Fatal(err)
		}
		all, err := Alternatives(b, best, Options{})
		if err != nil {
			t.Fatal(err)
		}
		for _, a := range all {
			if a.Err != nil {
				continue
			}
			if err := CheckBasket(b, a.Purchase); err != nil {
				t.Fatal(err)
			}
			uses := slices.ContainsFunc(a.Purchase.Orders, func(o Order) bool { return o.Supplier == a.Without })
			if best.Proof.Optimal && a.Extra < 0 || uses || a.AtMost > 0 && len(a.Purchase.Orders) > a.AtMost {
				t.Fatalf("%+v", a)
			}
		}
	})
}

// A purchase with any one figure changed is found out.
func TestCheckBasketFindsEveryLie(t *testing.T) {
	b := Basket{Today: 1, NeededBy: 3, AtMost: 2, Suppliers: []Supplier{{Name: "a", MinOrder: 10 * one, Delivery: 2 * one, FreeFrom: 50 * one, Handling: one}, {Name: "b"}},
		Needs: []Need{{Name: "rice", Mass: 9 * kg, Keep: Keep{PerKg: one / 2, UpTo: kg}, Offers: []Listing{at(0, 5*kg, 6*one), at(1, 5*kg, 60*one)}}}}
	good, err := Best(b, Options{})
	if err != nil || CheckBasket(b, good) != nil {
		t.Fatal(err, CheckBasket(b, good))
	}
	for name, lie := range map[string]func(*Purchase){
		"one pack less":        func(p *Purchase) { p.Counts[0][0]-- },
		"one pack more":        func(p *Purchase) { p.Counts[0][0]++ },
		"a pack of the other":  func(p *Purchase) { p.Counts[0][1]++ },
		"a negative count":     func(p *Purchase) { p.Counts[0][1]-- },
		"surplus":              func(p *Purchase) { p.Surplus[0]++ },
		"goods of the order":   func(p *Purchase) { p.Orders[0].Goods++ },
		"delivery":             func(p *Purchase) { p.Orders[0].Delivery = 0 },
		"handling":             func(p *Purchase) { p.Orders[0].Handling = 0 },
		"missing to free":      func(p *Purchase) { p.Orders[0].ToFree = 0 },
		"mass of the order":    func(p *Purchase) { p.Orders[0].Mass++ },
		"supplier":             func(p *Purchase) { p.Orders[0].Supplier = 1 },
		"an order left out":    func(p *Purchase) { p.Orders = nil },
		"goods":                func(p *Purchase) { p.Split.Goods-- },
		"left over":            func(p *Purchase) { p.Split.LeftOver++ },
		"total":                func(p *Purchase) { p.Total-- },
		"all surplus":          func(p *Purchase) { p.Over-- },
		"packs":                func(p *Purchase) { p.Packs++ },
		"a bound above it":     func(p *Purchase) { p.Proof.AtLeast = p.Total + 1 },
		"a proof without one":  func(p *Purchase) { p.Proof.AtLeast-- },
		"a need of the basket": func(p *Purchase) { p.Counts = nil },
	} {
		p := good
		p.Counts = [][]int{slices.Clone(good.Counts[0])}
		p.Surplus, p.Orders = slices.Clone(good.Surplus), slices.Clone(good.Orders)
		lie(&p)
		var bad *CheckError
		if err := CheckBasket(b, p); !errors.As(err, &bad) {
			t.Errorf("%s: got %v", name, err)
		}
	}
	for name, change := range map[string]func(*Basket){
		"too late":        func(b *Basket) { b.Suppliers[0].LeadDays = 9 },
		"orders closed":   func(b *Basket) { b.Today, b.Suppliers[0].LastOrder = 2, 1 },
		"order too small": func(b *Basket) { b.Suppliers[0].MinOrder = 13 * one },
	} {
		c := b
		c.Suppliers = slices.Clone(b.Suppliers)
		change(&c)
		if err := CheckBasket(c, good); err == nil {
			t.Errorf("%s: not found", name)
		}
	}
}

// An order value of a thousand in packs of a millionth is reached by a thousand million packs: the search ends by its steps, and says
// no more than it knows.
func TestAbsurdCountsEnd(t *testing.T) {
	pinch := Need{Name: "pinches", Mass: kg, Offers: []Listing{at(0, unit.Milligram, 1), at(0, 3*unit.Milligram, 4), at(1, kg, one)}}
	salt := Need{Name: "salt", Mass: kg, Offers: []Listing{at(0, kg, one)}}
	b := Basket{Suppliers: []Supplier{{MinOrder: 1000 * one}, {MinOrder: one}}, Needs: []Need{pinch, pinch, salt}}
	got, err := Best(b, Options{Steps: 200_000})
	if err != nil {
		t.Fatal(err)
	}
	if err := CheckBasket(b, got); err != nil {
		t.Error(err)
	}
	// The order of the salt has to come to a thousand, and nothing can be cheaper than that; a millionth at a time it comes to it exactly.
	if want := 1000 * one; got.Total < want || got.Proof.AtLeast > want || got.Gap() > one {
		t.Errorf("costs %v, at least %v, want %v", got.Total, got.Proof.AtLeast, want)
	}
}
