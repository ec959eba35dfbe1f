package lots

import (
	"fmt"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
)

// setAside keeps packs to be opened and tasted one day. What is not on hand cannot be kept.
func (t *taking) setAside(b record.SetAside) {
	l := t.known(b.Lot)
	here := l.OnHand().Numbers.Intersect(b.Numbers)
	if nowhere := b.Numbers.Minus(here); !nowhere.Empty() {
		t.find(CodePackNowhere, finding.Caution, l.ID, fmt.Sprintf("packs %s are not on hand and cannot be kept for tasting: %s", nowhere, l.whereabouts(nowhere)), fixWithNewEntry, count("not on hand", nowhere.Count()))
	}
	l.ForTasting = l.ForTasting.Union(here)
	if b.Place != "" && !here.Empty() {
		l.put(b.Place, Amount{Numbers: t.takePacks(l, here)})
	}
}

// tasted takes packs that were opened off what is on hand. They were tasted and not sold, so that they count as written off; who wrote them off
// already need not correct that.
func (t *taking) tasted(b record.Tasted) {
	l := t.known(b.Lot)
	if b.Numbers.Empty() {
		t.find(CodeTastedWhich, finding.Note, l.ID, "a pack was opened and tasted, and nobody said which: it is still counted as on hand", "correct the entry with the number on the bag")
		return
	}
	again := b.Numbers.Intersect(l.WrittenOff.Numbers).Minus(l.Tasted)
	missing := b.Numbers.Intersect(l.Missing) // it was found
	there := t.takePacks(l, b.Numbers.Minus(again).Minus(missing))
	l.Missing = l.Missing.Minus(missing)
	l.WrittenOff.Numbers = l.WrittenOff.Numbers.Union(there).Union(missing)
	l.Tasted = l.Tasted.Union(there).Union(missing).Union(again)
}

// guardKept finds that packs are taken that are kept to be tasted.
func (t *taking) guardKept(l *Lot, n record.Numbers, words string) {
	if kept := l.Kept(n); !kept.Empty() {
		t.find(CodeKeptTaken, finding.Caution, l.ID, fmt.Sprintf("packs %s %s although they are kept to be opened and tasted", kept, words), "keep others of the lot in their place, or correct the entry that is wrong", count("kept for tasting", kept.Count()))
	}
}
