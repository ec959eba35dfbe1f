package coldstore

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Ask is what somebody wants to do with some of a lot, as typed.
type Ask struct {
	Code  string        // of the lot, or of packs
	Which string        // all, next 12, numbers, or a mass; not needed when the code has numbers
	From  *record.Place // where it is taken; nil where that is clear
	Why   string
	To    record.Place
	Do    record.Disposition
	Units unit.System // of a mass without its unit
}

// picked is what is meant by an ask: packs, or so much in bulk at one place.
type picked struct {
	lot     *lots.Lot
	numbers record.Numbers
	mass    unit.Mass
	from    record.Place // of bulk
}

// pick finds what is meant, all of which must be there.
func (a Ask) pick(s *lots.State) (picked, error) {
	code, l, err := InHand(s, a.Code)
	if err != nil {
		return picked{}, err
	}
	p := picked{lot: l, numbers: code.Numbers}
	at := placesOf(l)
	switch {
	case len(at) == 0:
		return p, refuse("code", "look whether it is another lot, or take stock of where it was found", "by the records nothing of lot %s is on hand", l.ID)
	case a.From != nil:
		if _, there := l.Here[*a.From]; !there {
			return p, refuse("from", "it is at "+placeWords(at), "by the records nothing of lot %s is at %s", l.ID, placeWord(*a.From))
		}
	}
	if l.Numbers.Empty() {
		return a.pickBulk(p, at)
	}
	return a.pickPacks(p, at)
}

func (a Ask) pickBulk(p picked, at []record.Place) (picked, error) {
	switch {
	case a.From != nil:
		p.from = *a.From
	case len(at) > 1:
		return p, refuse("from", "say from which of them", "lot %s is at %s", p.lot.ID, placeWords(at))
	default:
		p.from = at[0]
	}
	there := p.lot.Here[p.from].Mass
	m, err := readMass(a.Which, there, a.Units)
	if err == nil && m > there {
		err = refuse("which", "weigh again, or take stock first", "%s are more than the %s that are there", m.Show(a.Units), there.Show(a.Units))
	}
	p.mass = m
	return p, err
}

func (a Ask) pickPacks(p picked, at []record.Place) (picked, error) {
	here := p.lot.OnHand().Numbers
	where := "on hand"
	if a.From != nil {
		here, where = p.lot.Here[*a.From].Numbers, "at "+placeWord(*a.From)
	}
	which := strings.TrimSpace(a.Which)
	if !p.numbers.Empty() && which != "" {
		return p, refuse("which", "leave one of them out", "the code says %s, and beside it stands %.40q", packWords(p.numbers), which)
	}
	if p.numbers.Empty() {
		if a.From == nil && len(at) > 1 && strings.HasPrefix(strings.ToLower(which), "next") {
			return p, refuse("from", "say from which of them the next are taken", "lot %s is at %s", p.lot.ID, placeWords(at))
		}
		n, err := readPacks(which, here)
		if err != nil {
			return p, err
		}
		p.numbers = n
	}
	if none := p.numbers.Minus(p.lot.Numbers); !none.Empty() {
		return p, refuse("which", "look at the label again", "lot %s has no pack %s: its packs are %s", p.lot.ID, none, p.lot.Numbers)
	}
	if gone := p.numbers.Minus(here); !gone.Empty() {
		return p, refuse("which", "look at the label; if the pack is there, take stock of the place", "not %s of lot %s: %s (%s)", where, p.lot.ID, packWords(gone), Whereabouts(p.lot, gone))
	}
	return p, nil
}

// Move is what to enter when some of a lot is taken to another place. Errors are *Refusal.
func (a Ask) Move(s *lots.State) ([]record.Body, error) {
	if a.To == "" {
		return nil, refuse("to", "choose one", "it is not said to which place")
	}
	p, err := a.pick(s)
	if err != nil {
		return nil, err
	}
	if !p.numbers.Empty() {
		if there := p.numbers.Intersect(p.lot.Here[a.To].Numbers); !there.Empty() {
			return nil, refuse("to", "choose another place, or other packs", "there already: %s", packWords(there))
		}
		return []record.Body{record.Moved{Lot: p.lot.ID, Numbers: p.numbers, To: a.To}}, nil
	}
	if p.from == a.To {
		return nil, refuse("to", "choose another place", "it is there already")
	}
	want := p.without()
	want[a.To] += p.mass
	moved := taken(p.lot, p.mass)
	moved[a.To] += p.mass
	return p.settled(record.Moved{Lot: p.lot.ID, Mass: p.mass, To: a.To}, moved, want)
}

// WriteOff is what to enter when some of a lot will never be used or sold. Errors are *Refusal.
func (a Ask) WriteOff(s *lots.State) ([]record.Body, error) {
	p, err := a.pick(s)
	switch {
	case err != nil:
		return nil, err
	case a.Why == "":
		return nil, refuse("why", "write it, such as torn, thawed, out of date", "it is not said why")
	case !p.numbers.Empty():
		return []record.Body{record.WrittenOff{Lot: p.lot.ID, Numbers: p.numbers, Why: a.Why}}, nil
	}
	return p.settled(record.WrittenOff{Lot: p.lot.ID, Mass: p.mass, Why: a.Why}, taken(p.lot, p.mass), p.without())
}

// without is what is in bulk at each place once it was taken where it was meant.
func (p picked) without() map[record.Place]unit.Mass {
	want := map[record.Place]unit.Mass{}
	for place, x := range p.lot.Here {
		want[place] = x.Mass
	}
	want[p.from] -= p.mass
	return want
}

// taken is what is in bulk at each place as package lots will have it: an entry about bulk does not say where it was taken, and places are
// emptied in the order of their names.
func taken(l *lots.Lot, m unit.Mass) map[record.Place]unit.Mass {
	after := map[record.Place]unit.Mass{}
	for _, place := range placesOf(l) {
		take := min(m, l.Here[place].Mass)
		after[place], m = l.Here[place].Mass-take, m-take
	}
	return after
}

// settled is an entry and counts of the places that would not be as meant after it.
func (p picked) settled(first record.Body, is, want map[record.Place]unit.Mass) ([]record.Body, error) {
	bodies := []record.Body{first}
	for _, place := range slices.Sorted(maps.Keys(want)) {
		switch {
		case is[place] == want[place]:
		case place == "": // a count needs a place
			return nil, refuse("from", "move that to where it is first", "some of lot %s is at a place that nobody told", p.lot.ID)
		default:
			bodies = append(bodies, record.Counted{Lot: p.lot.ID, Place: place, Mass: want[place], Nothing: want[place] == 0})
		}
	}
	return bodies, nil
}

// Hold is what to enter when some of a lot, or all of it, may not be used or sold. What has left the house can be held too: it may come back.
// Errors are *Refusal.
func (a Ask) Hold(s *lots.State) ([]record.Body, error) {
	l, n, err := a.some(s)
	switch {
	case err != nil:
		return nil, err
	case a.Why == "":
		return nil, refuse("why", "write it, such as cooled too slowly", "it is not said why")
	case l.Held() && !n.Empty() && l.HeldOf(n).Equal(n):
		return nil, refuse("which", "release it first, or leave it", "held already: %s (%s)", packWords(n), l.Holds[len(l.Holds)-1].Why)
	}
	return []record.Body{record.Held{Lot: l.ID, Numbers: n, Why: a.Why}}, nil
}

// Release is what to enter when somebody has decided what becomes of something held. Errors are *Refusal.
func (a Ask) Release(s *lots.State) ([]record.Body, error) {
	l, n, err := a.some(s)
	switch {
	case err != nil:
		return nil, err
	case !l.Held() || !n.Empty() && l.HeldOf(n).Empty():
		return nil, refuse("which", "look whether it is another lot", "nothing of it is held")
	case !l.ByHand():
		return nil, refuse("which", "decide beside the records, on the page of the lot", "it is held for its critical records, not by hand")
	case a.Do == "":
		return nil, refuse("do", "choose one", "it is not said what becomes of it")
	case a.Why == "":
		return nil, refuse("why", "write what was found and by what it was decided", "it is not said why")
	}
	return []record.Body{record.Released{Lot: l.ID, Numbers: n, Disposition: a.Do, Why: a.Why}}, nil
}

// some is a lot and which of its packs are meant; none for all of it.
func (a Ask) some(s *lots.State) (*lots.Lot, record.Numbers, error) {
	code, l, err := InHand(s, a.Code)
	which := strings.TrimSpace(a.Which)
	switch {
	case err != nil:
		return l, code.Numbers, err
	case !code.Numbers.Empty() && which != "":
		return l, code.Numbers, refuse("which", "leave one of them out", "the code says %s, and beside it stands %.40q", packWords(code.Numbers), which)
	case which == "" || strings.EqualFold(which, wordAll):
		return l, code.Numbers, nil
	case l.Numbers.Empty():
		return l, code.Numbers, refuse("which", "leave it empty: a lot in bulk is held whole", "lot %s is not of numbered packs", l.ID)
	}
	n, err := readPacks(which, l.OnHand().Numbers)
	if none := n.Minus(l.Numbers); err == nil && !none.Empty() {
		err = refuse("which", "look at the label again", "lot %s has no pack %s: its packs are %s", l.ID, none, l.Numbers)
	}
	return l, n, err
}

// packWords is pack 3, or packs 1-12, 15.
func packWords(n record.Numbers) string {
	if n.Count() == 1 {
		return "pack " + n.String()
	}
	return "packs " + n.String()
}

func placeWord(p record.Place) string {
	if p == "" {
		return "a place that nobody told"
	}
	return string(p)
}

func placeWords(all []record.Place) string {
	var words []string
	for _, p := range all {
		words = append(words, placeWord(p))
	}
	return strings.Join(words, " and ")
}

// Whereabouts is what the records say of packs that are not where they were looked for.
func Whereabouts(l *lots.Lot, n record.Numbers) string {
	var words []string
	tell := func(of record.Numbers, says string) {
		if both := of.Intersect(n); !both.Empty() {
			words = append(words, fmt.Sprintf("%s %s", both, says))
			n = n.Minus(both)
		}
	}
	for _, place := range placesOf(l) {
		tell(l.Here[place].Numbers, "at "+placeWord(place))
	}
	for _, h := range l.Handed {
		tell(h.Numbers, "handed over to "+h.Customer)
	}
	tell(l.Tasted, "opened and tasted")
	tell(l.WrittenOff.Numbers, "written off")
	tell(l.Reopened, "opened and used")
	tell(l.Missing, "not found when stock was taken")
	tell(n.Minus(l.Numbers), "never made")
	tell(n, "nobody said where they went")
	return strings.Join(words, "; ")
}
