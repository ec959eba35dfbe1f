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
// day. Whoever is due earlier comes first, of the same day who ordered first; the oldest packs leave first; none that is held, past its day,
// or not good for as long as the customer wants. Packs that are set aside stay where they are. An order that is to be met whole or not
// at all is met as far as it goes once something was set aside for it. Errors are *allocation.StockError.
func (s *State) Allot(stock *lots.State, today, until record.Day) (Allotment, error) {
	w := allotting{s: s, a: Allotment{Today: today, Until: until, Free: map[string]int64{}}, products: map[string]int{}}
	for _, o := range s.Dated(today, until) {
		if o.Live() || len(o.Aside) > 0 {
			w.orders = append(w.orders, o)
		}
	}
	w.shelve(stock)
	for i := range w.orders {
		w.want(&w.orders[i])
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
	here, held, free record.Numbers
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
			held := l.HeldOf(here)
			w.lots = append(w.lots, shelved{l, here, held, here.Minus(held)})
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

// want takes an order to be served, and promises it what is set aside for it, if that will still do. What is set aside and will not do is
// kept from everybody else all the same: it lies in somebody's box.
func (w *allotting) want(o *Order) {
	if !o.Wants() {
		w.reserve(o, nil)
		return
	}
	c := w.s.Customer(o.Customer)
	e := allocation.Order{Due: number(o.Due), LeastLife: int(c.LifeDays), MostLots: int(c.MostLots), Whole: o.Whole && len(o.Aside) == 0 && len(o.Handed) == 0}
	for _, l := range o.Lines {
		e.Lines = append(e.Lines, allocation.Line{Product: w.product(l.Pack), Packs: int(l.Open + l.Aside)})
	}
	promised := w.promise(o, &e)
	w.reserve(o, promised)
	w.of = append(w.of, slices.IndexFunc(w.orders, func(x Order) bool { return x.ID == o.ID }))
	w.a.stock.Orders = append(w.a.stock.Orders, e)
}

// promise gives the lines of an order the packs that are set aside for it and will do.
func (w *allotting) promise(o *Order, e *allocation.Order) map[record.Lot]record.Numbers {
	promised := map[record.Lot]record.Numbers{}
	lotsOf := make([]int, len(o.Lines))
	for i, l := range o.Lines {
		open := l.Aside
		for _, p := range o.Aside {
			if p.Pack != l.Pack || open == 0 {
				continue
			}
			good, _ := w.good(o, e, p).Minus(promised[p.Lot]).Take(open)
			if good.Empty() {
				continue
			}
			open -= good.Count()
			promised[p.Lot] = promised[p.Lot].Union(good)
			lotsOf[i]++
			w.a.stock.Promises = append(w.a.stock.Promises, allocation.Promise{Order: len(w.a.stock.Orders), Line: i, Lot: w.at[p.Lot], Numbers: ranges(good)})
		}
	}
	if most := slices.Max(lotsOf); e.MostLots > 0 {
		e.MostLots = max(e.MostLots, most)
	}
	return promised
}

// good is those packs of a parcel that are on hand, not held, and good for long enough.
func (w *allotting) good(o *Order, e *allocation.Order, p Parcel) record.Numbers {
	i, here := w.at[p.Lot]
	if !here || lastDay(w.lots[i].Lot) < max(e.Due, number(w.a.Today))+e.LeastLife {
		return record.Numbers{}
	}
	return p.Numbers.Intersect(w.lots[i].free)
}

// reserve keeps packs that are set aside and not promised from everybody else, and finds why they are not.
func (w *allotting) reserve(o *Order, promised map[record.Lot]record.Numbers) {
	for _, p := range o.Aside {
		rest := p.Numbers.Minus(promised[p.Lot])
		if rest.Empty() {
			continue
		}
		i, here := w.at[p.Lot]
		if !here {
			w.find(o, p.Lot, CodePickedMissing, rest, "are set aside, and are not on hand by the records", fixFindThem)
			continue
		}
		w.why(o, p, rest)
		w.lots[i].free = w.lots[i].free.Minus(rest)
	}
}

// why finds why packs that are set aside are not promised.
func (w *allotting) why(o *Order, p Parcel, rest record.Numbers) {
	l := w.lots[w.at[p.Lot]]
	missing, held := rest.Minus(l.here), rest.Intersect(l.held)
	rest = rest.Intersect(l.free)
	if !missing.Empty() {
		w.find(o, p.Lot, CodePickedMissing, missing, "are set aside, and are not on hand by the records", fixFindThem)
	}
	if !held.Empty() {
		w.find(o, p.Lot, CodePickedHeld, held, "are set aside, and are held: "+l.Holds[len(l.Holds)-1].Why, fixHoldDecide)
	}
	life := int(w.s.Customer(o.Customer).LifeDays)
	switch {
	case rest.Empty():
	case lastDay(l.Lot) < max(number(o.Due), number(w.a.Today))+life:
		w.find(o, p.Lot, CodePickedOld, rest, "are set aside, and are good until "+string(l.Last())+" only", fixFresher)
	default:
		w.find(o, p.Lot, CodePickedOver, rest, "are set aside, and the order does not want them", fixPutBack)
	}
}

func (w *allotting) find(o *Order, lot record.Lot, code string, n record.Numbers, message, fix string) {
	w.a.Findings = append(w.a.Findings, finding.Finding{Code: code, Severity: finding.Caution, Where: "order " + o.ID, Path: "orders." + o.ID, Message: "packs " + n.String() + " of " + string(lot) + " " + message, Fix: fix, Figures: []finding.Figure{count("packs", n.Count())}})
}

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
