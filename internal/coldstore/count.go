package coldstore

import (
	"maps"
	"slices"
	"strings"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Tally is what was found so far while taking stock of one place. The zero Tally of a place is that nothing was looked at yet.
type Tally struct {
	Place record.Place
	found map[record.Lot]Found
}

// Found is what was found of one lot.
type Found struct {
	lots.Amount
	Nothing bool // somebody looked, and there is none
}

// Of is what was found of a lot so far, and whether anybody has looked.
func (t Tally) Of(lot record.Lot) (Found, bool) {
	f, ok := t.found[lot]
	return f, ok
}

// Scan takes in what was scanned or typed: a code, and behind it how much there is of it: P-1201-3#17, P-1201-3 all, P-1201-3 next 12 (of
// those that should be there), P-1201-3 none, R-1126-2 14.2 lb. Packs add to those found before; what is in bulk takes the place of what was
// typed before. It says which lot it was. Errors are *Refusal, and the tally is then as it was.
func (t Tally) Scan(s *lots.State, text string, units unit.System) (Tally, record.Lot, error) {
	code, l, amount, err := cutScan(s, text)
	if err != nil {
		return t, "", err
	}
	had, looked := t.found[l.ID]
	switch {
	case strings.EqualFold(amount, wordNone):
		if !code.Numbers.Empty() || !had.Numbers.Empty() {
			return t, l.ID, refuse("scan", "take the lot out of the count first, if it was a slip", "packs of lot %s found before", l.ID)
		}
		return t.with(l.ID, Found{Nothing: true}), l.ID, nil
	case l.Numbers.Empty():
		m, err := readMass(amount, l.Here[t.Place].Mass, units)
		if err != nil {
			return t, l.ID, refuse("scan", "write it behind the lot: "+string(l.ID)+" 14.2 lb, "+string(l.ID)+" all or "+string(l.ID)+" none", "lot %s is in bulk: how much of it is there?", l.ID)
		}
		return t.with(l.ID, Found{Amount: lots.Amount{Mass: m}}), l.ID, nil
	}
	n := code.Numbers
	if n.Empty() {
		if n, err = readPacks(amount, l.Here[t.Place].Numbers); err != nil {
			return t, l.ID, refuse("scan", "scan each pack, or write "+string(l.ID)+"#1-12, "+string(l.ID)+" all or "+string(l.ID)+" none", "which packs of lot %s?", l.ID)
		}
	} else if amount != "" {
		return t, l.ID, refuse("scan", "leave one of them out", "the code says %s, and behind it stands %.40q", packWords(n), amount)
	}
	switch twice := n.Intersect(had.Numbers); {
	case n.Empty():
		return t, l.ID, refuse("scan", "scan what is there", "the records have no packs of lot %s at this place", l.ID)
	case !n.Minus(l.Numbers).Empty():
		return t, l.ID, refuse("scan", "look at the label again", "lot %s has no pack %s: its packs are %s", l.ID, n.Minus(l.Numbers), l.Numbers)
	case looked && !twice.Empty():
		return t, l.ID, refuse("scan", "go on with the next: it counts once", "%s of lot %s found before", packWords(twice), l.ID)
	}
	return t.with(l.ID, Found{Amount: lots.Amount{Numbers: n.Union(had.Numbers)}}), l.ID, nil
}

// cutScan takes a scan apart into the lot, the packs and the amount behind it. A name may have spaces; one that is there letter for letter goes
// before one that is written a little differently.
func cutScan(s *lots.State, text string) (lots.Code, *lots.Lot, string, error) {
	text = strings.Join(strings.Fields(text), " ")
	code, l, first := InHand(s, text)
	if first == nil {
		return code, l, "", nil
	}
	exact := func(name string) bool { return s.Lot(record.Lot(name)) != nil }
	for _, fits := range []func(string) bool{exact, func(string) bool { return true }} {
		for i := strings.LastIndexByte(text, ' '); i > 0; i = strings.LastIndexByte(text[:i], ' ') {
			if !fits(text[:i]) {
				continue
			}
			if code, l, err := InHand(s, text[:i]); err == nil && code.Numbers.Empty() {
				return code, l, text[i+1:], nil
			}
		}
	}
	return code, nil, "", first
}

// Without is the tally without what was found of a lot.
func (t Tally) Without(lot record.Lot) Tally {
	t.found = maps.Clone(t.found)
	delete(t.found, lot)
	return t
}

func (t Tally) with(lot record.Lot, f Found) Tally {
	t.found = maps.Clone(t.found)
	if t.found == nil {
		t.found = map[record.Lot]Found{}
	}
	t.found[lot] = f
	return t
}

// Texts are the scans that make the tally again, by name of the lot: what an address keeps of a count that is not finished.
func (t Tally) Texts() []string {
	var texts []string
	for _, lot := range slices.Sorted(maps.Keys(t.found)) {
		switch f := t.found[lot]; {
		case f.Nothing:
			texts = append(texts, string(lot)+" "+wordNone)
		case f.Numbers.Empty():
			texts = append(texts, string(lot)+" "+f.Mass.String())
		default:
			texts = append(texts, lots.Code{Lot: lot, Numbers: f.Numbers}.String())
		}
	}
	return texts
}
