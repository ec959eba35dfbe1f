package sheet

import (
	"fmt"
	"strings"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// StoreText is everything on hand, the oldest first; of one place and its parts alone when one is named.
func StoreText(s coldstore.Store, found finding.List, only *coldstore.Place, units unit.System) string {
	title := "On hand, the oldest first"
	found = append(s.Findings(units), found...)
	if only != nil {
		title += ": " + s.Layout.FullName(only.ID)
		report, _ := s.Report(units, nil).Only(only.ID)
		found = report.Findings
	}
	found.Sort()
	w := listWriter(title, found, units)
	t := table{columns: []column{{head: "lot"}, {head: "what", wraps: true}, {head: "where", wraps: true}, {head: "how much", right: true}, {head: "good until"}, {wraps: true}}}
	for _, g := range s.OldestFirst() {
		if only != nil && g.Place != only.ID && !strings.HasPrefix(string(g.Place), string(only.ID)+"/") {
			continue
		}
		t.add(string(g.Lot.ID), g.Lot.What, placeOf(g.Place), w.amountOf(g.Amount), string(g.Lot.Last()), goodsWords(g))
		if !g.Numbers.Empty() {
			t.under(2, "packs "+g.Numbers.String())
		}
	}
	w.table(t)
	if len(t.rows) == 0 {
		w.para(0, "The records tell of nothing on hand.")
	}
	return w.String()
}

func placeOf(p record.Place) string {
	if p == "" {
		return "nobody said"
	}
	return string(p)
}

// goodsWords is what marks goods: held, past their day, the oldest.
func goodsWords(g coldstore.Goods) string {
	var words []string
	switch {
	case g.Kept:
		words = append(words, "held")
	case !g.Held.Empty():
		words = append(words, "held: packs "+g.Held.String())
	}
	if g.Past {
		words = append(words, "past its day")
	}
	if g.Oldest {
		words = append(words, "goes first")
	}
	return strings.Join(words, ", ")
}

// PlacesText is every place with how much is in it and how much still fits.
func PlacesText(s coldstore.Store, units unit.System) string {
	found := s.Findings(units)
	w := listWriter("Places and the room left in them", found, units)
	t := table{columns: []column{{head: "place"}, {head: "name", wraps: true}, {head: "kind"}, {head: "packs", right: true}, {head: "holds", right: true}, {head: "room left", right: true}, {head: "space left", right: true}}}
	for _, p := range s.Spots {
		t.add(strings.Repeat("  ", p.Depth)+placeOf(p.ID), p.Name, string(p.Kind), fmt.Sprint(p.AllPacks), p.All.Show(units), left(p.Rest.MassKnown, p.Rest.Mass.Show(units), p.Rest.OverMass > 0, p.Rest.OverMass.Show(units)), left(p.Rest.VolumeKnown, p.Rest.Volume.Show(units), p.Rest.OverVolume > 0, p.Rest.OverVolume.Show(units)))
	}
	w.table(t)
	if len(t.rows) == 0 {
		w.para(0, "The book has no freezer and no other place, and no entry names one.")
	}
	w.para(0, "Room is what the book says less what the records say; a dash is that nobody said how much there is. Space is reckoned by what a litre of a place holds.")
	return w.String()
}

func left(known bool, rest string, over bool, much string) string {
	switch {
	case over:
		return much + " too much"
	case known:
		return rest
	}
	return "-"
}

// PutText is where loads could go, and why there.
func PutText(p coldstore.Proposal, loads []coldstore.Load, found finding.List, units unit.System) string {
	w := listWriter("Where to put the packs", found, units)
	t := table{columns: []column{{head: "place"}, {head: "packs", right: true}, {head: "of", wraps: true}, {head: "mass", right: true}, {head: "why there", wraps: true}}}
	for _, x := range p.Puts {
		t.add(string(x.Place), fmt.Sprint(x.Packs), loads[x.Load].Name, x.Mass.Show(units), strings.Join(x.Why, "; "))
	}
	for i, n := range p.Left {
		if n > 0 {
			t.add("no place", fmt.Sprint(n), loads[i].Name, (unit.Mass(n) * loads[i].Each).Show(units), "")
		}
	}
	w.table(t)
	if len(t.rows) == 0 {
		w.para(0, "There is nothing to put away.")
	}
	return w.String()
}
