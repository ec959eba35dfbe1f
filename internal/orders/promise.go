package orders

import (
	"slices"

	"kettlefrost/internal/allocation"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
)

// want takes an order to be served, and promises it what is set aside for it, if that will still do. What is set aside and will not do is
// kept from everybody else all the same: it lies in somebody's box.
func (w *allotting) want(i int) {
	o := &w.orders[i]
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
	w.of = append(w.of, i)
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

// good is those packs of a parcel that are on hand, not held, not kept to be tasted, and good for long enough.
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
	missing, held, kept := rest.Minus(l.here), rest.Intersect(l.held), rest.Intersect(l.kept)
	rest = rest.Intersect(l.free)
	if !missing.Empty() {
		w.find(o, p.Lot, CodePickedMissing, missing, "are set aside, and are not on hand by the records", fixFindThem)
	}
	if !held.Empty() {
		w.find(o, p.Lot, CodePickedHeld, held, "are set aside, and are held: "+l.Holds[len(l.Holds)-1].Why, fixHoldDecide)
	}
	if !kept.Empty() {
		w.find(o, p.Lot, CodePickedKept, kept, "are set aside, and are kept to be opened and tasted", fixOthers)
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
