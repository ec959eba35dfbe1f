package lots

import (
	"fmt"
	"maps"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// takeMass takes mass off what is on hand, from the places in the order of their names. What is not there is found, not invented.
func (t *taking) takeMass(l *Lot, mass unit.Mass) {
	left := mass
	for _, place := range slices.Sorted(maps.Keys(l.Here)) {
		here := l.Here[place]
		take := min(left, here.Mass)
		here.Mass -= take
		left -= take
		l.set(place, here)
	}
	if left > 0 && l.Sort != Unknown { // of an unknown lot nobody can tell
		t.find(CodeMoreThan, finding.Caution, l.ID, fmt.Sprintf("%s of it was taken, and only %s was on hand", mass, mass-left), "weigh again, or enter what came in besides",
			finding.Figure{Name: "taken", Value: mass.Kg(), Unit: "kg", Text: mass.String()}, finding.Figure{Name: "on hand", Value: (mass - left).Kg(), Unit: "kg", Text: (mass - left).String()})
	}
}

// takePacks takes packs off what is on hand, and tells which of them were there.
func (t *taking) takePacks(l *Lot, numbers record.Numbers) record.Numbers {
	var there record.Numbers
	for _, place := range slices.Sorted(maps.Keys(l.Here)) {
		here := l.Here[place]
		there = there.Union(here.Numbers.Intersect(numbers))
		here.Numbers = here.Numbers.Minus(numbers)
		l.set(place, here)
	}
	if nowhere := numbers.Minus(there); !nowhere.Empty() {
		t.find(CodePackNowhere, finding.Caution, l.ID, fmt.Sprintf("packs %s are not on hand: %s", nowhere, l.whereabouts(nowhere)), "look at the pack: scanned twice, or another lot? "+fixWithNewEntry, count("not on hand", nowhere.Count()))
	}
	return there
}

// set is what is at a place from now on.
func (l *Lot) set(place record.Place, a Amount) {
	if a.empty() {
		delete(l.Here, place)
		return
	}
	l.Here[place] = a
}

// whereabouts is what the records say of packs that are not on hand.
func (l *Lot) whereabouts(n record.Numbers) string {
	handed := record.Numbers{}
	for _, h := range l.Handed {
		handed = handed.Union(h.Numbers)
	}
	for _, w := range []struct {
		n     record.Numbers
		words string
	}{{handed, "handed over before"}, {l.Tasted, "opened and tasted before"}, {l.WrittenOff.Numbers, "written off before"}, {l.Reopened, "opened and used before"}, {l.Missing, "not found when stock was taken"}} {
		if !w.n.Intersect(n).Empty() {
			return w.words
		}
	}
	if n.Intersect(l.Numbers).Empty() {
		return "the lot has no such numbers"
	}
	return "nobody said where they went"
}

func (t *taking) moved(b record.Moved) {
	l := t.known(b.Lot)
	if !b.Numbers.Empty() {
		l.put(b.To, Amount{Numbers: t.takePacks(l, b.Numbers)})
		return
	}
	before := l.OnHand().Mass
	t.takeMass(l, b.Mass)
	l.put(b.To, Amount{Mass: before - l.OnHand().Mass})
}

// counted sets what is at a place to what was found there.
func (t *taking) counted(b record.Counted) {
	l := t.known(b.Lot)
	was := l.Here[b.Place]
	if l.Sort != Packs {
		l.set(b.Place, Amount{Mass: b.Mass})
		if was.Mass != b.Mass {
			t.find(CodeStockOff, finding.Note, l.ID, fmt.Sprintf("%s were found, and the records say %s", b.Mass, was.Mass), "see the balance of the lot: the difference is unaccounted for")
		}
		return
	}
	lost, extra := was.Numbers.Minus(b.Numbers), b.Numbers.Minus(was.Numbers)
	for _, place := range slices.Sorted(maps.Keys(l.Here)) { // found here is not there
		here := l.Here[place]
		here.Numbers = here.Numbers.Minus(extra)
		l.set(place, here)
	}
	l.set(b.Place, Amount{Numbers: b.Numbers})
	l.Missing = l.Missing.Union(lost).Minus(b.Numbers)
	if !lost.Empty() {
		t.find(CodeStockOff, finding.Note, l.ID, fmt.Sprintf("packs %s were not found at %s", lost, b.Place), "look for them at other places before they are written off", count("not found", lost.Count()))
	}
	if gone := extra.Intersect(l.gone()); !gone.Empty() {
		t.find(CodePackGone, finding.Caution, l.ID, fmt.Sprintf("packs %s were found at %s, and the records say: %s", gone, b.Place, l.whereabouts(gone)), fixWithNewEntry, count("found again", gone.Count()))
	}
}

// gone is all packs that left the house, or were opened or written off.
func (l *Lot) gone() record.Numbers {
	gone := l.WrittenOff.Numbers.Union(l.Reopened)
	for _, h := range l.Handed {
		gone = gone.Union(h.Numbers)
	}
	return gone
}

func (t *taking) writtenOff(b record.WrittenOff) {
	l := t.known(b.Lot)
	if b.Numbers.Empty() {
		t.takeMass(l, b.Mass)
		l.WrittenOff.Mass += b.Mass
		return
	}
	there := t.takePacks(l, b.Numbers)
	missing := b.Numbers.Intersect(l.Missing) // now it is known that they are gone
	l.Missing = l.Missing.Minus(missing)
	l.WrittenOff.Numbers = l.WrittenOff.Numbers.Union(there).Union(missing)
}

// released ends holds by hand, and notes what was decided on critical records. Packs of a hold that are not named stay held. What is to be reworked or destroyed stays held, with the decision.
func (t *taking) released(b record.Released) {
	l := t.known(b.Lot)
	if len(b.Points) > 0 {
		t.decided(l, b)
		return
	}
	var rest []Hold
	any := false
	for _, h := range l.byHand {
		mine := b.Numbers.Empty() || h.Numbers.Empty() || !h.Numbers.Intersect(b.Numbers).Empty()
		any = any || mine
		switch {
		case !mine:
			rest = append(rest, h)
		case b.Disposition != record.ReleaseForUse:
			h.Decided = b.Disposition
			rest = append(rest, h)
		case b.Numbers.Empty():
		default:
			of := h.Numbers
			if of.Empty() {
				of = l.Numbers
			}
			if h.Numbers = of.Minus(b.Numbers); !h.Numbers.Empty() {
				rest = append(rest, h)
			}
		}
	}
	l.byHand = rest
	l.gather()
	if !any {
		t.find(CodeNotHeld, finding.Note, l.ID, "nothing of it was held", "check the name of the lot")
	}
}

func (t *taking) handedOver(b record.HandedOver) {
	l := t.known(b.Lot)
	t.guard(l, b.Numbers, "packs of it were handed to "+b.Customer, "")
	t.guardKept(l, b.Numbers, "were handed to "+b.Customer)
	there := t.takePacks(l, b.Numbers)
	to := Handing{Customer: b.Customer, Order: b.Order, Address: b.Address, TakenBy: b.TakenBy, At: t.e.Happened}
	if to.Numbers = there; !there.Empty() {
		l.Handed = append(l.Handed, to)
	}
	to.Numbers = b.Numbers.Minus(there)
	for _, h := range l.Handed {
		if h.Customer == b.Customer { // scanned twice
			to.Numbers = to.Numbers.Minus(h.Numbers)
		}
	}
	if !to.Numbers.Empty() {
		l.Doubted = append(l.Doubted, to)
	}
}

// returned takes packs back. What was out of the cold is on hand and held until somebody decides.
func (t *taking) returned(b record.Returned) {
	l := t.known(b.Lot)
	var back record.Numbers
	for i, h := range l.Handed {
		if h.Customer == b.Customer {
			back = back.Union(h.Numbers.Intersect(b.Numbers))
			l.Handed[i].Numbers = h.Numbers.Minus(b.Numbers)
		}
	}
	for i, h := range l.Doubted {
		if h.Customer == b.Customer {
			l.Doubted[i].Numbers = h.Numbers.Minus(b.Numbers)
		}
	}
	none := func(h Handing) bool { return h.Numbers.Empty() }
	l.Handed, l.Doubted = slices.DeleteFunc(l.Handed, none), slices.DeleteFunc(l.Doubted, none)
	if wrong := b.Numbers.Minus(back); !wrong.Empty() {
		t.find(CodeWrongReturn, finding.Caution, l.ID, fmt.Sprintf("packs %s were not handed to %s: %s", wrong, b.Customer, l.whereabouts(wrong)), fixWithNewEntry, count("not theirs", wrong.Count()))
	}
	l.put(b.Place, Amount{Numbers: back})
	if !b.Sound && !back.Empty() {
		l.byHand = append(l.byHand, Hold{Numbers: back, Why: "came back, and nobody knows how cold it was kept: " + b.Why, Since: t.e.Happened, Who: t.e.Who})
		l.gather()
	}
}
