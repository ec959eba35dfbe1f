package lots

import (
	"errors"
	"fmt"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
	"kettlefrost/internal/trace"
	"kettlefrost/internal/unit"
)

// Take folds in the next entry, in the order in which things happened. Entries of other kinds than touches change nothing.
func (s *State) Take(e record.Entry) finding.List {
	if !touches[e.Kind] {
		return nil
	}
	body, err := record.Decode(e.Kind, e.Body)
	if err != nil {
		return finding.List{report(e, CodeUnreadable, finding.Caution, "?", "what it says cannot be read: "+err.Error(), fixWithNewEntry)}
	}
	t := taking{s: s, e: e}
	switch b := body.(type) {
	case record.Received:
		t.received(b)
	case record.Made:
		t.made(b)
	case record.Packed:
		t.packed(b)
	case record.Used:
		t.used(b)
	case record.Wasted: // it has no lot: of what was used for the dish, so much is accounted for
		t.potOf(b.Run, b.Dish).WrittenOff.Mass += b.Mass
	case record.Moved:
		t.moved(b)
	case record.Counted:
		t.counted(b)
	case record.WrittenOff:
		t.writtenOff(b)
	case record.Held:
		l := t.known(b.Lot)
		l.byHand = append(l.byHand, Hold{Numbers: b.Numbers, Why: b.Why, Since: e.Happened, Who: e.Who})
		l.gather()
	case record.Released:
		t.released(b)
	case record.HandedOver:
		t.handedOver(b)
	case record.Returned:
		t.returned(b)
	case record.SetAside:
		t.setAside(b)
	case record.Tasted:
		t.tasted(b)
	case record.Customer:
		if s.customers == nil {
			s.customers = map[string]customer{}
		}
		s.customers[b.Customer] = customer{b, markOf(e)}
	case record.Drilled:
		s.drilled(e, b)
	}
	s.leave(e, body)
	return t.found
}

// Heeds says whether entries of a kind change lots, or tell who has any.
func Heeds(k record.Kind) bool { return touches[k] }

// touches are the kinds of entries that change lots, tell who has any, or tell of a recall.
var touches = map[record.Kind]bool{
	record.Received{}.Kind(): true, record.Made{}.Kind(): true, record.Packed{}.Kind(): true, record.Used{}.Kind(): true, record.Wasted{}.Kind(): true, record.Moved{}.Kind(): true, record.Counted{}.Kind(): true,
	record.WrittenOff{}.Kind(): true, record.Held{}.Kind(): true, record.Released{}.Kind(): true, record.HandedOver{}.Kind(): true, record.Returned{}.Kind(): true,
	record.SetAside{}.Kind(): true, record.Tasted{}.Kind(): true, record.Customer{}.Kind(): true, record.Drilled{}.Kind(): true,
}

// taking is one entry on its way into the state.
type taking struct {
	s     *State
	e     record.Entry
	found finding.List
}

func (t *taking) find(code string, severity finding.Severity, lot record.Lot, message, fix string, figures ...finding.Figure) {
	t.found = append(t.found, report(t.e, code, severity, lot, message, fix, figures...))
}

// known is a lot that should be there already.
func (t *taking) known(id record.Lot) *Lot {
	l, had := t.s.lots[id], t.s.lots[id] != nil
	if !had {
		l = t.s.lot(id, t.e.Happened)
	}
	if l.Sort == Unknown && !had {
		t.find(CodeLotUnknown, finding.Caution, id, "nothing before it says where this lot came from", fixTellWhereFrom)
	}
	return l
}

// born brings a lot into being. One that was named before it came is filled in; one that is there already stays as it is.
func (t *taking) born(id record.Lot, sort Sort, came unit.Mass, place record.Place, numbers record.Numbers) (*Lot, bool) {
	l := t.s.lots[id]
	switch {
	case l == nil:
		l = t.s.lot(id, t.e.Happened)
	case l.Sort != Unknown:
		t.find(CodeLotTwice, finding.Caution, id, fmt.Sprintf("a lot of this name came into being before: %s of %s", l.Sort, l.What), "give the second another name: correct this entry")
		return l, false
	default:
		t.find(CodeLotEarly, finding.Caution, id, "it was named by an entry that happened before it came", "check the time of both entries, and correct the one that is wrong")
	}
	l.Sort, l.Born, l.Entry, l.Came, l.Numbers = sort, t.e.Happened, t.e.ID, came, numbers
	if err := t.s.graph.Settle(l.node, trace.Lot{Came: came, Packs: numbers.Count(), AtMs: int64(l.Born)}); err != nil {
		t.find(CodeMixedAmount, finding.Caution, id, err.Error(), fixWithNewEntry)
	}
	here := Amount{Numbers: numbers}
	if numbers.Empty() {
		here.Mass = max(0, came-l.Used-l.WrittenOff.Mass) // what was taken before it came
	}
	l.put(place, here)
	return l, true
}

// put adds to what is at a place.
func (l *Lot) put(place record.Place, a Amount) {
	if a.empty() {
		return
	}
	here := l.Here[place]
	l.Here[place] = Amount{Numbers: here.Numbers.Union(a.Numbers), Mass: here.Mass + a.Mass}
}

func (t *taking) received(b record.Received) {
	l, ok := t.born(b.Lot, Goods, b.Mass, b.Place, record.Numbers{})
	if ok {
		l.What, l.Supplier, l.SupplierLot, l.Paid, l.UseBy, l.BestBefore = b.Ingredient, b.Supplier, b.SupplierLot, b.Paid, b.UseBy, b.BestBefore
	}
}

// potName is what the pot of a dish in a run is called among the lots.
func potName(run, dish string) record.Lot { return record.Lot("pot of " + dish + " in " + run) }

// potOf is the pot of a dish in a run: a lot that nobody wrote on a tub. If a tub bears its very name, the tub stands for both, so that
// nothing is lost to a trace.
func (t *taking) potOf(run, dish string) *Lot {
	l := t.s.lot(potName(run, dish), t.e.Happened)
	switch l.Sort {
	case Unknown, Pot:
		l.Sort, l.What, l.Dish, l.Run = Pot, dish, dish, run
	default:
		t.find(CodeLotTwice, finding.Caution, l.ID, "a lot bears the name of what is in the pot", "give the lot another name: correct the entry that it was born by")
	}
	return l
}

func (t *taking) made(b record.Made) {
	l, ok := t.born(b.Lot, Batch, b.Mass, b.Place, record.Numbers{})
	if !ok {
		return
	}
	l.What, l.Dish, l.Run, l.UseBy = b.Output, b.Dish, b.Run, b.UseBy
	if len(b.From) == 0 {
		t.flow(t.potOf(b.Run, b.Dish), l, b.Mass)
	}
	t.from(b.From, l)
}

func (t *taking) packed(b record.Packed) {
	l, ok := t.born(b.Lot, Packs, b.Mass, b.Place, b.Numbers)
	if !ok {
		return
	}
	l.What, l.Run, l.Label, l.BestBefore = b.Pack, b.Run, b.Label, b.BestBefore
	t.from(b.From, l)
}

// from takes the parts that a lot was made of.
func (t *taking) from(parts []record.Part, to *Lot) {
	for _, part := range parts {
		l := t.known(part.Lot)
		t.guard(l, record.Numbers{}, "it went into "+string(to.ID), record.Rework)
		t.takeMass(l, part.Mass)
		l.Used += part.Mass
		t.flow(l, to, part.Mass)
	}
}

// flow notes that mass of one lot went into another.
func (t *taking) flow(from, to *Lot, mass unit.Mass) {
	_, err := t.s.graph.AddFlow(trace.Flow{From: from.node, To: to.node, Mass: mass, AtMs: int64(t.e.Happened)})
	if loop := (*trace.LoopError)(nil); errors.As(err, &loop) {
		t.find(CodeLoop, finding.Caution, from.ID, fmt.Sprintf("it cannot go into %s, of which it is made itself", to.ID), "what is left over of a lot and used once more makes a new lot: correct this entry")
	} else if err != nil {
		t.find(CodeMixedAmount, finding.Caution, from.ID, err.Error(), fixWithNewEntry)
	}
}

func (t *taking) used(b record.Used) {
	l := t.known(b.Lot)
	t.guard(l, b.Numbers, "it was used for "+b.Dish, record.Rework)
	t.guardKept(l, b.Numbers, "were used for "+b.Dish)
	if b.Numbers.Empty() {
		t.takeMass(l, b.Mass)
	} else {
		l.Reopened = l.Reopened.Union(t.takePacks(l, b.Numbers))
	}
	l.Used += b.Mass
	t.flow(l, t.potOf(b.Run, b.Dish), b.Mass)
}

// guard finds that something is taken that is held, unless somebody has decided that just this is to become of it.
func (t *taking) guard(l *Lot, numbers record.Numbers, words string, decided record.Disposition) {
	for _, h := range l.byHand {
		if h.Decided != "" && h.Decided == decided {
			continue
		}
		if numbers.Empty() || h.Numbers.Empty() || !h.Numbers.Intersect(numbers).Empty() {
			t.find(CodeHeldTaken, finding.Stop, l.ID, words+" although it is held: "+h.Why, "stop it where it is, and have a named person decide")
			return
		}
	}
}
