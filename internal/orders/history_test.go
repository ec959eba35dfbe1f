package orders

import (
	"fmt"
	"slices"
	"testing"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"

	"pgregory.net/rapid"
)

// pack is one pack; what a random history does is followed pack by pack, which is slow and plain.
type pack struct {
	lot record.Lot
	no  int64
}

// ledger is the slow twin of the fold: whose each pack is.
type ledger struct {
	owner    map[pack]string // set aside for
	out      map[pack]string // the customer that has it
	gone     map[string]map[pack]bool
	off      map[string]bool
	standing map[string]bool
}

func (g *ledger) take(b record.Body) {
	each := func(lot record.Lot, n record.Numbers, do func(pack)) {
		for r := range n.Ranges() {
			for k := r.First; k <= r.Last; k++ {
				do(pack{lot, k})
			}
		}
	}
	switch b := b.(type) {
	case record.Ordered:
		g.standing[b.Order] = g.standing[b.Order] || b.Weeks > 0
	case record.Cancelled:
		g.off[b.Order] = true
		for p, o := range g.owner {
			if o == b.Order || g.standing[b.Order] && deliveryOf(o) == b.Order {
				delete(g.owner, p)
			}
		}
	case record.Picked:
		each(b.Lot, b.Numbers, func(p pack) {
			if g.owner[p] == "" && g.out[p] == "" && !g.isOff(b.Order) {
				g.owner[p] = b.Order
			}
		})
	case record.HandedOver:
		each(b.Lot, b.Numbers, func(p pack) {
			if g.out[p] != "" {
				return
			}
			delete(g.owner, p)
			g.out[p] = b.Customer
			if g.gone[b.Order] == nil {
				g.gone[b.Order] = map[pack]bool{}
			}
			g.gone[b.Order][p] = true
		})
	case record.Returned:
		each(b.Lot, b.Numbers, func(p pack) {
			if g.out[p] == b.Customer {
				delete(g.out, p)
			}
		})
	}
}

func (g *ledger) isOff(order string) bool {
	standing := deliveryOf(order)
	return g.off[order] || standing != "" && g.standing[standing] && g.off[standing]
}

// draw is a random history: orders of two kinds, two standing ones, packs set aside, handed over, returned, held, moved, lost, kept and tasted, and mistakes
// of every sort, with some of it corrected and taken back.
func draw(t *rapid.T) []record.Body {
	bodies := []record.Body{lotOf("S-1", "soup", 12, "2026-12-06", "chest-1/shelf 1"), lotOf("S-2", "soup", 12, "2027-06-01", "chest-1/shelf 2"), lotOf("D-1", "dal", 12, "2026-12-20", "chest-2"),
		record.Customer{Customer: "cafe", Name: "Cafe", LifeDays: 10}, record.Customer{Customer: "inn", Name: "Inn", MostLots: 1}}
	ids := []string{"O-1", "O-2", "O-3", "O-4", "R-1", "R-1/2026-12-04", "R-1/2026-12-11", "X-9"}
	lotIDs := []record.Lot{"S-1", "S-2", "D-1"}
	customers := []string{"cafe", "bar", "inn"}
	days := []record.Day{"2026-11-28", "2026-12-01", "2026-12-04", "2026-12-11"}
	id := rapid.SampledFrom(ids)
	lot, customer, day := rapid.SampledFrom(lotIDs), rapid.SampledFrom(customers), rapid.SampledFrom(days)
	numbers := rapid.Custom(func(t *rapid.T) record.Numbers {
		first := rapid.Int64Range(1, 13).Draw(t, "first")
		n, err := record.NumbersOf(record.Range{First: first, Last: first + rapid.Int64Range(0, 4).Draw(t, "more")})
		if err != nil {
			panic(err)
		}
		return n
	})
	for range rapid.IntRange(5, 40).Draw(t, "entries") {
		o := id.Draw(t, "order")
		switch rapid.IntRange(0, 13).Draw(t, "what") {
		case 0, 1:
			b := record.Ordered{Order: o, Customer: customer.Draw(t, "customer"), Due: day.Draw(t, "due"), Way: record.Deliver, Whole: rapid.Bool().Draw(t, "whole")}
			for _, kind := range rapid.SliceOfNDistinct(rapid.SampledFrom([]string{"soup", "dal", "rice"}), 1, 2, rapid.ID).Draw(t, "kinds") {
				b.Lines = append(b.Lines, line(kind, rapid.Int64Range(1, 8).Draw(t, "count")))
			}
			if o == "R-1" {
				b.Weeks = 1
			}
			bodies = append(bodies, b)
		case 2:
			bodies = append(bodies, record.Cancelled{Order: o, Why: "x"})
		case 3, 4, 5:
			bodies = append(bodies, record.Picked{Order: o, Lot: lot.Draw(t, "lot"), Numbers: numbers.Draw(t, "numbers")})
		case 6, 7:
			bodies = append(bodies, record.HandedOver{Order: o, Customer: customer.Draw(t, "customer"), Lot: lot.Draw(t, "lot"), Numbers: numbers.Draw(t, "numbers")})
		case 8:
			bodies = append(bodies, record.Returned{Customer: customer.Draw(t, "customer"), Lot: lot.Draw(t, "lot"), Numbers: numbers.Draw(t, "numbers"), Why: "x", Sound: rapid.Bool().Draw(t, "sound"), Place: "chest-1"})
		case 9:
			bodies = append(bodies, record.Held{Lot: lot.Draw(t, "lot"), Numbers: numbers.Draw(t, "numbers"), Why: "x"})
		case 10:
			bodies = append(bodies, record.Moved{Lot: lot.Draw(t, "lot"), Numbers: numbers.Draw(t, "numbers"), To: "chest-2/box 2"})
		case 13:
			bodies = append(bodies, record.SetAside{Lot: lot.Draw(t, "lot"), Numbers: numbers.Draw(t, "numbers"), Pack: "soup", Open: []record.Day{"2027-01-05"}})
		case 12:
			bodies = append(bodies, record.Tasted{Lot: lot.Draw(t, "lot"), Numbers: numbers.Draw(t, "numbers"), Pack: "soup", Verdict: record.StillGood})
		case 11:
			bodies = append(bodies, record.WrittenOff{Lot: lot.Draw(t, "lot"), Numbers: numbers.Draw(t, "numbers"), Why: "x"})
		}
	}
	return bodies
}

// Whatever happens: of every line, what was ordered is what is set aside, handed over, open and cancelled together; every pack is where a
// slow twin has it; and no pack is promised twice.
func TestNoPackIsLostOrPromisedTwice(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		bodies := draw(rt)
		s := tell(t, bodies...)
		g := &ledger{map[pack]string{}, map[pack]string{}, map[string]map[pack]bool{}, map[string]bool{}, map[string]bool{}}
		for _, b := range bodies {
			g.take(b)
		}
		state, _ := s.fold()
		aside, gone := map[string]int64{}, map[string]int64{}
		for _, o := range g.owner {
			aside[o]++
		}
		for o, packs := range g.gone {
			gone[o] = int64(len(packs))
		}
		for _, o := range state.Dated("2026-12-01", "2026-12-20") {
			conserved(rt, o)
			var a, h int64
			for _, p := range o.Aside {
				a += p.Numbers.Count()
			}
			for _, p := range handedParcels(o.Handed) {
				h += p.Numbers.Count()
			}
			if a != aside[o.ID] || h != gone[o.ID] {
				rt.Errorf("%s has %d aside and %d gone, and the slow way %d and %d", o.ID, a, h, aside[o.ID], gone[o.ID])
			}
			delete(aside, o.ID)
		}
		if len(aside) > 0 {
			rt.Errorf("packs are set aside for orders that are not on the list: %v", aside)
		}
		stock, _ := lots.Of(slices.Values(s.entries))
		allotted(rt, state, stock)
	})
}

func conserved(t *rapid.T, o Order) {
	var aside, gone, in int64
	for _, l := range o.Lines {
		if l.Aside < 0 || l.Gone < 0 || l.Open < 0 || l.Off < 0 || l.Over < 0 || l.Back < 0 || l.Back > l.Gone || l.Count != l.Aside+l.Gone+l.Open+l.Off {
			t.Errorf("%s: %+v does not add up", o.ID, l)
		}
		in += l.Aside + l.Gone + l.Over
	}
	for _, p := range o.Aside {
		aside += p.Numbers.Count()
	}
	for _, p := range handedParcels(o.Handed) {
		gone += p.Numbers.Count()
	}
	for _, p := range o.Extra {
		in += p.Numbers.Count()
	}
	if in != aside+gone {
		t.Errorf("%s: %d packs in its lines and beside them, %d set aside and %d gone", o.ID, in, aside, gone)
	}
}

// allotted works out who gets what, has it checked, and counts every pack.
func allotted(t *rapid.T, s *State, stock *lots.State) {
	a, err := s.Allot(stock, "2026-12-01", "2026-12-20")
	if err != nil {
		t.Fatal(err)
	}
	if err := a.Check(); err != nil {
		t.Error(err)
	}
	if len(a.plan.Moves) > 0 {
		t.Errorf("what was set aside did not stay promised: %+v", a.plan.Moves)
	}
	whose := map[pack]string{}
	mine := func(order string, p Parcel) {
		for r := range p.Numbers.Ranges() {
			for k := r.First; k <= r.Last; k++ {
				if other, taken := whose[pack{p.Lot, k}]; taken && other != order {
					t.Errorf("pack %d of %s is for %s and for %s", k, p.Lot, other, order)
				}
				whose[pack{p.Lot, k}] = order
			}
		}
	}
	for _, o := range s.Dated("2026-12-01", "2026-12-20") {
		for _, p := range o.Aside {
			mine(o.ID, p)
		}
	}
	for _, v := range a.Orders {
		if v.Spoilt() < 0 || v.Spoilt() > 0 && !slices.ContainsFunc(a.Findings, func(f finding.Finding) bool { return f.Path == "orders."+v.ID }) {
			t.Errorf("%s: %d packs will not do, and nothing is found", v.ID, v.Spoilt())
		}
		for i, g := range v.Gets {
			packs, short := int64(0), int64(0)
			for _, p := range g.Pieces {
				mine(v.ID, p.Parcel)
				packs += p.Numbers.Count()
				fits(t, v, p, stock)
			}
			for _, x := range g.Short {
				short += x.Packs
				if x.Why == "" || x.Fix == "" || x.Code == "" {
					t.Errorf("%s: short without a word: %+v", v.ID, x)
				}
			}
			if packs != g.Packs || g.Packs+short != g.Wanted || g.Wanted != v.Lines[i].Open+v.Lines[i].Aside {
				t.Errorf("%s: %+v does not add up", v.ID, g)
			}
		}
	}
}

// fits holds a piece against the stock.
func fits(t *rapid.T, v Served, p Piece, stock *lots.State) {
	l := stock.Lot(p.Lot)
	if here := l.Here[p.Place].Numbers; !here.Covers(p.Numbers) || !l.HeldOf(p.Numbers).Empty() || l.BestBefore < max(v.Due, "2026-12-01") || l.What != p.Pack {
		t.Errorf("%s cannot have packs %s of %s", v.ID, p.Numbers, p.Lot)
	}
	aside := record.Numbers{}
	for _, x := range v.Aside {
		if x.Lot == p.Lot {
			aside = x.Numbers
		}
	}
	if both := aside.Intersect(p.Numbers); p.IsAside && !both.Equal(p.Numbers) || !p.IsAside && !both.Empty() {
		t.Errorf("%s: packs %s of %s are aside: %v, and %s are", v.ID, p.Numbers, p.Lot, p.IsAside, fmt.Sprint(aside))
	}
}
