package orders

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// Objection is why packs should not be set aside, or handed over, for an order.
type Objection struct {
	Code string `json:"code"` // for programs
	Says string `json:"says"`
	Fix  string `json:"fix"`
	Ask  bool   `json:"ask"` // it may be meant: whoever says so may go on
}

// What is objected to.
const (
	NoSuchOrder  = "no-such-order"
	OrderDone    = "order-done"
	NoSuchLot    = "no-such-lot"
	NoSuchPack   = "no-such-pack"
	NotHere      = "not-here"
	ScannedTwice = "scanned-twice"
	ForAnother   = "for-another"
	IsHeld       = "held"
	IsKept       = "kept-for-tasting"
	PastDate     = "past-date"
	TooOld       = "too-old"
	NotOrdered   = "not-ordered"
	Enough       = "enough"
	OtherLot     = "other-lot"
)

// JudgePick is everything that speaks against setting packs aside for an order, the gravest first: nothing when they may be. What is an Ask
// alone may be meant.
func (s *State) JudgePick(a Allotment, stock *lots.State, order string, lot record.Lot, n record.Numbers) []Objection {
	j := judging{s: s, a: a, n: n}
	o, there := s.Order(order, a.Today)
	if !there || o.Status == NotGiven {
		return append(j.found, Objection{Code: NoSuchOrder, Says: "there is no order " + order, Fix: "look for it in the list"})
	}
	j.o = o
	switch {
	case o.Status == Off || o.Status == Lapsed:
		j.no(OrderDone, fmt.Sprintf("order %s is %s", o.ID, o.Status), "put the pack back")
	case !o.Wants():
		j.no(OrderDone, fmt.Sprintf("order %s is complete", o.ID), "put the pack back")
	}
	if j.l = stock.Lot(lot); j.l == nil || j.l.Sort != lots.Packs {
		j.no(NoSuchLot, fmt.Sprintf("no packs of a lot %q are known", lot), "read the label again")
		return j.found
	}
	j.here()
	j.aside()
	j.fit()
	j.count()
	j.listed()
	return j.found
}

// judging is packs that somebody holds in his hands.
type judging struct {
	s     *State
	a     Allotment
	o     Order
	l     *lots.Lot
	n     record.Numbers
	found []Objection
}

func (j *judging) no(code, says, fix string) {
	j.found = append(j.found, Objection{code, says, fix, false})
}

// packs is the packs in words: pack 17 of P-soup.
func (j *judging) packs(n record.Numbers) string {
	word := "packs"
	if n.Count() == 1 {
		word = "pack"
	}
	return fmt.Sprintf("%s %s of %s", word, n, j.l.ID)
}

func (j *judging) here() {
	if none := j.n.Minus(j.l.Numbers); !none.Empty() {
		j.no(NoSuchPack, fmt.Sprintf("lot %s has no %s: it has %s", j.l.ID, none, j.l.Numbers), "read the number on the label again")
		return
	}
	away := j.n.Minus(j.l.OnHand().Numbers)
	if away.Empty() {
		return
	}
	says, fix := "the records do not have "+j.packs(away)+" on hand", "take stock of the place first"
	for _, h := range j.s.byLot[j.l.ID] {
		if had := h.Numbers.Minus(h.Back).Intersect(away); !had.Empty() {
			says, fix = j.packs(had)+" went to "+j.s.Customer(h.Customer).Name+" by the records", "look at the pack: if it is here, enter that it came back"
		}
	}
	if gone := j.l.WrittenOff.Numbers.Intersect(away); !gone.Empty() {
		says, fix = j.packs(gone)+" was written off", "do not sell it"
	}
	j.no(NotHere, says, fix)
}

func (j *judging) aside() {
	for _, id := range slices.Sorted(maps.Keys(j.s.aside[j.l.ID])) {
		both := j.n.Intersect(j.s.aside[j.l.ID][id])
		switch {
		case both.Empty():
		case id == j.o.ID:
			j.no(ScannedTwice, j.packs(both)+" is set aside for this order already", "scan the next one")
		default:
			j.no(ForAnother, j.packs(both)+" is set aside for order "+id, "put it back into the box of "+id)
		}
	}
}

func (j *judging) fit() {
	if held := j.l.HeldOf(j.n); !held.Empty() {
		j.no(IsHeld, j.packs(held)+" is held: "+j.l.Holds[len(j.l.Holds)-1].Why, "leave it where it is until a named person has decided")
	}
	j.kept(j.n, "put it back into the box of packs to be tasted, and take another")
	last, life := j.l.Last(), int(j.s.Customer(j.o.Customer).LifeDays)
	due := max(j.o.Due, j.a.Today)
	switch {
	case last == "":
	case last < j.a.Today:
		j.no(PastDate, fmt.Sprintf("lot %s was good until %s: it is past its date", j.l.ID, last), "do not sell it: write it off")
	case last < due:
		j.no(PastDate, fmt.Sprintf("lot %s is good until %s: it will be past its date on %s", j.l.ID, last, due), "take a fresher one")
	case Days(due, last) < life:
		j.no(TooOld, fmt.Sprintf("lot %s is good until %s, %d days after %s: %s wants %d", j.l.ID, last, Days(due, last), due, j.s.Customer(j.o.Customer).Name, life), "take a fresher one")
	}
}

// kept objects to packs that are kept to be tasted.
func (j *judging) kept(n record.Numbers, fix string) {
	if kept := j.l.Kept(n); !kept.Empty() {
		j.no(IsKept, j.packs(kept)+" is kept to be opened and tasted: it is not sold", fix)
	}
}

func (j *judging) count() {
	ordered, open := false, int64(0)
	for _, l := range j.o.Lines {
		if l.Pack == j.l.What {
			ordered, open = true, open+l.Open
		}
	}
	n := j.n.Count()
	switch {
	case !j.o.Live():
	case !ordered:
		j.no(NotOrdered, fmt.Sprintf("lot %s is %s, and order %s is not for any", j.l.ID, j.l.What, j.o.ID), "put it back, or change the order")
	case n > open && !j.has(ScannedTwice):
		j.no(Enough, fmt.Sprintf("order %s wants %d more of %s, and this is %d", j.o.ID, open, j.l.What, n), "put back what is too many, or change the order")
	}
}

func (j *judging) has(code string) bool {
	return slices.ContainsFunc(j.found, func(o Objection) bool { return o.Code == code })
}

// listed asks about packs of another lot than the list has, or more of it. It is asked only when nothing else is wrong.
func (j *judging) listed() {
	if len(j.found) > 0 {
		return
	}
	v, _ := j.a.Of(j.o.ID)
	var mine int64
	var others []string
	for _, p := range v.ToPick() {
		switch {
		case p.Pack != j.l.What:
		case p.Lot == j.l.ID:
			mine += p.Numbers.Count()
		default:
			others = append(others, fmt.Sprintf("%s%s", p.Lot, at(p.Place)))
		}
	}
	if j.n.Count() <= mine {
		return
	}
	says := fmt.Sprintf("this is lot %s, and the list has none of it for this order", j.l.ID)
	if mine > 0 {
		says = fmt.Sprintf("this is %d of lot %s, and the list has %d of it for this order", j.n.Count(), j.l.ID, mine)
	}
	fix := "take what the list has"
	if len(others) > 0 {
		fix = "take " + strings.Join(others, ", then ")
	}
	j.found = append(j.found, Objection{OtherLot, says, fix + "; or say that this one is meant", true})
}

func at(p record.Place) string {
	if p == "" {
		return ""
	}
	return " from " + string(p)
}

// JudgeHanding is everything that speaks against handing over what is set aside for an order.
func (s *State) JudgeHanding(o Order, stock *lots.State, today record.Day) []Objection {
	j := judging{s: s, o: o}
	if len(o.Aside) == 0 {
		j.no(NotHere, "nothing is set aside for order "+o.ID, "pick it first")
	}
	for _, p := range o.Aside {
		if j.l = stock.Lot(p.Lot); j.l == nil {
			j.no(NoSuchLot, fmt.Sprintf("no packs of a lot %q are known", p.Lot), "read the label again")
			continue
		}
		if away := p.Numbers.Minus(j.l.OnHand().Numbers); !away.Empty() {
			j.no(NotHere, "the records do not have "+j.packs(away)+" on hand", "take them back to the stock, and take stock")
		}
		if held := j.l.HeldOf(p.Numbers); !held.Empty() {
			j.no(IsHeld, j.packs(held)+" is held: "+j.l.Holds[len(j.l.Holds)-1].Why, "take it out of the box: it must not leave the house")
		}
		j.kept(p.Numbers, "take it out of the box, and pick another")
		if last := j.l.Last(); last != "" && last < today {
			j.no(PastDate, fmt.Sprintf("lot %s was good until %s: it is past its date", p.Lot, last), "take it out of the box, and pick another")
		}
	}
	return j.found
}
