package orders

import (
	"cmp"
	"slices"

	"kettlefrost/internal/allocation"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// Allotment says which packs go to which orders. It is worked out and never kept: it changes with every entry.
type Allotment struct {
	Today    record.Day       `json:"today"`
	Until    record.Day       `json:"until"`
	Orders   []Served         `json:"orders"` // that want packs, the first to be served first
	Free     map[string]int64 `json:"free"`   // packs of each kind that nobody gets, without those on hold and past their day
	Findings finding.List     `json:"findings,omitempty"`
	Proved   bool             `json:"proved"` // no earlier line can get more

	stock allocation.Stock
	plan  allocation.Plan
}

// Served is what an order gets.
type Served struct {
	Order
	Gets []Got `json:"gets"` // of each line
}

// Got is what a line gets: Wanted = Packs + all that are short.
type Got struct {
	Pack   string  `json:"pack"`
	Wanted int64   `json:"wanted"` // that were not handed over yet
	Packs  int64   `json:"packs"`
	Pieces []Piece `json:"pieces,omitempty"` // in the order in which they are fetched
	Short  []Short `json:"short,omitempty"`
}

// Piece is packs of one lot that lie at one place.
type Piece struct {
	Place   record.Place `json:"place"`
	Parcel               // what
	IsAside bool         `json:"aside"` // they are set aside already
}

// Missing is how many packs an order does not get.
func (v Served) Missing() int64 {
	var n int64
	for _, g := range v.Gets {
		n += g.Wanted - g.Packs
	}
	return n
}

// Spoilt is how many of the packs that count as set aside for it will not do: they are held, away, or too old.
func (v Served) Spoilt() int64 {
	var n int64
	for _, l := range v.Lines {
		n += l.Aside
	}
	for _, g := range v.Gets {
		for _, p := range g.Pieces {
			if p.IsAside {
				n -= p.Numbers.Count()
			}
		}
	}
	return n
}

// ToPick are the pieces that are still to be set aside.
func (v Served) ToPick() []Piece {
	var all []Piece
	for _, g := range v.Gets {
		for _, p := range g.Pieces {
			if !p.IsAside {
				all = append(all, p)
			}
		}
	}
	return all
}

// Of is what an order gets; false when it wants nothing.
func (a Allotment) Of(order string) (Served, bool) {
	i := slices.IndexFunc(a.Orders, func(v Served) bool { return v.ID == order })
	if i < 0 {
		return Served{}, false
	}
	return a.Orders[i], true
}

// Check reads the plan again with none of the code that made it. Errors are *allocation.PlanError.
func (a Allotment) Check() error { return allocation.Check(a.stock, a.plan) }

// Allot works out which packs go to which orders: to every order that has a day and is not done, the deliveries of standing ones up to a last
// day. Whoever is due earlier comes first, of the same day who ordered first; the oldest packs leave first; none that is held, kept
// to be tasted, past its day, or not good for as long as the customer wants. Packs that are set aside stay where they are. An order that is to be met whole or not
// at all is met as far as it goes once something was set aside for it. Errors are *allocation.StockError.
func (s *State) Allot(stock *lots.State, today, until record.Day) (Allotment, error) {
	w := allotting{s: s, a: Allotment{Today: today, Until: until, Free: map[string]int64{}}, products: map[string]int{}, orders: s.Live(today, until)}
	w.shelve(stock)
	for i := range w.orders {
		w.want(i)
	}
	w.layOut()
	plan, err := allocation.Allocate(w.a.stock)
	if err != nil {
		return w.a, err
	}
	w.a.plan, w.a.Proved = plan, plan.Proved
	w.tell()
	return w.a, nil
}

// allotting is an allotment on its way.
type allotting struct {
	s        *State
	a        Allotment
	products map[string]int // by pack
	orders   []Order
	of       []int // of each order of the engine, which of orders
	lots     []shelved
	at       map[record.Lot]int // which of lots
}

// shelved is a lot of packs with what of it may be given to somebody.
type shelved struct {
	*lots.Lot
	here, held, kept, free record.Numbers
}

func (w *allotting) product(pack string) int {
	n, known := w.products[pack]
	if !known {
		n = len(w.products)
		w.products[pack] = n
	}
	return n
}

// shelve takes the lots of packs that are on hand, the oldest first.
func (w *allotting) shelve(stock *lots.State) {
	for l := range stock.All() {
		if here := l.OnHand().Numbers; l.Sort == lots.Packs && !here.Empty() {
			kept := l.Kept(here) // to be tasted: they are for nobody
			held := l.HeldOf(here).Minus(kept)
			w.lots = append(w.lots, shelved{l, here, held, kept, here.Minus(held).Minus(kept)})
		}
	}
	slices.SortStableFunc(w.lots, func(a, b shelved) int {
		return cmp.Or(cmp.Compare(lastDay(a.Lot), lastDay(b.Lot)), cmp.Compare(a.Born, b.Born), natural(string(a.ID), string(b.ID)))
	})
	w.at = map[record.Lot]int{}
	for i, l := range w.lots {
		w.at[l.ID] = i
	}
}

// lastDay is the last day that packs of a lot are good, as a number; one that nobody told is after every other.
func lastDay(l *lots.Lot) int { return number(cmp.Or(l.Last(), farthest)) }

// layOut gives the engine the lots; what is held is a lot of its own there, so that it can say so.
func (w *allotting) layOut() {
	w.a.stock.Today = number(w.a.Today)
	for _, l := range w.lots {
		w.a.stock.Lots = append(w.a.stock.Lots, allocation.Lot{Product: w.product(l.What), BestBefore: lastDay(l.Lot), Free: ranges(l.free)})
	}
	for _, l := range w.lots {
		if !l.held.Empty() {
			w.a.stock.Lots = append(w.a.stock.Lots, allocation.Lot{Product: w.product(l.What), BestBefore: lastDay(l.Lot), Free: ranges(l.held), Held: true})
		}
	}
}

func ranges(n record.Numbers) []allocation.Range {
	var all []allocation.Range
	for r := range n.Ranges() {
		all = append(all, allocation.Range{First: int(r.First), Last: int(r.Last)})
	}
	return all
}

// numbersOf is the way back: the ranges come from numbers, so that they can be.
func numbersOf(all []allocation.Range) record.Numbers {
	var back []record.Range
	for _, r := range all {
		back = append(back, record.Range{First: int64(r.First), Last: int64(r.Last)})
	}
	n, err := record.NumbersOf(back...)
	if err != nil {
		panic(err)
	}
	return n
}
