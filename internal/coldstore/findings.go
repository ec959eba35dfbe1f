package coldstore

import (
	"fmt"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// The codes of what is found about places. They are stable, for programs.
const (
	CodeOverfull  = "place-overfull" // more than there is room for
	CodePastDay   = "past-its-day"   // the last day is over
	CodeTooWarm   = "kept-too-warm"  // it is at a place that is not cold enough for it
	CodeNoListed  = "place-unlisted" // entries name a place that the book does not have
	CodeNowhere   = "place-not-told" // nobody said where it is
	CodeNoRoom    = "no-room-for-it" // what is to be put away does not all fit
	CodeRoomGuess = "room-not-known" // nobody said how much any place holds
	fixListPlace  = "write it into the book after places:, or move what is there to a place of the book"
)

// Findings are what should be known about places, in the order of the places.
func (s Store) Findings(units unit.System) finding.List {
	var found finding.List
	for _, p := range s.Spots {
		found = append(found, s.overfull(p, units)...)
		found = append(found, s.pastDay(p)...)
		found = append(found, s.tooWarm(p)...)
		if len(p.Goods) == 0 || p.Listed {
			continue
		}
		if p.ID == "" {
			found = append(found, finding.Finding{Code: CodeNowhere, Severity: finding.Note, Where: "no place", Message: "nobody said where " + lotsAre(p.Lots), Fix: "move them to where they are"})
			continue
		}
		found = append(found, finding.Finding{Code: CodeNoListed, Severity: finding.Note, Where: where(p.ID), Message: "entries name this place, and the book does not have it: nobody can say how much still fits", Fix: fixListPlace})
	}
	found.Sort()
	return found
}

func where(p record.Place) string { return "place " + string(p) }

func lotsWords(n int) string {
	if n == 1 {
		return "1 lot"
	}
	return fmt.Sprintf("%d lots", n)
}

func lotsAre(n int) string {
	if n == 1 {
		return "1 lot is"
	}
	return lotsWords(n) + " are"
}

func (s Store) overfull(p Spot, units unit.System) (found finding.List) {
	if p.Rest.OverMass > 0 {
		found = append(found, finding.Finding{Code: CodeOverfull, Severity: finding.Caution, Where: where(p.ID), Message: fmt.Sprintf("by the records it holds %s, %s more than its room", p.All.Show(units), p.Rest.OverMass.Show(units)),
			Fix: "take stock there; if it is so, move some elsewhere", Figures: []finding.Figure{massFigure("holds", p.All, units), massFigure("room", p.Room, units)}})
	}
	if p.Rest.OverVolume > 0 {
		takes := unit.VolumeL(p.Litres)
		found = append(found, finding.Finding{Code: CodeOverfull, Severity: finding.Caution, Where: where(p.ID), Source: s.stowSource(p.Place), Message: fmt.Sprintf("by the records what is in it takes %s, %s more than it has", takes.Show(units), p.Rest.OverVolume.Show(units)),
			Fix: "take stock there; if it is so, weigh what it really holds and write that after stow:", Figures: []finding.Figure{volumeFigure("takes", takes, units), volumeFigure("volume", p.Volume, units)}})
	}
	return found
}

func (s Store) stowSource(p Place) string {
	if p.Stow > 0 {
		return "the book: " + p.Stow.String()
	}
	return fmt.Sprintf("%s: %s", p.stow(), StowOf(p.Kind).Source)
}

// pastDay tells once for a place what is past its day there.
func (s Store) pastDay(p Spot) finding.List {
	var useBy, best int
	var which record.Lot
	for _, g := range p.Goods {
		switch {
		case !g.Past:
			continue
		case g.Lot.UseBy != "":
			useBy++
		default:
			best++
		}
		if which == "" {
			which = g.Lot.ID
		}
	}
	f := finding.Finding{Code: CodePastDay, Severity: finding.Caution, Where: where(p.ID), Figures: []finding.Figure{
		{Name: "past use-by", Value: float64(useBy), Unit: "lots", Text: lotsWords(useBy)}, {Name: "past best-before", Value: float64(best), Unit: "lots", Text: lotsWords(best)}}}
	switch {
	case useBy > 0:
		f.Severity = finding.Stop
		f.Message, f.Fix = fmt.Sprintf("%s there past the day by which it must be used, beginning with %s", lie(useBy), which), "it must not be used: hold it or write it off"
	case best > 0:
		f.Message, f.Fix = fmt.Sprintf("%s there past its best-before day, beginning with %s", lie(best), which), "look at it: it is not counted as stock to sell"
	default:
		return nil
	}
	return finding.List{f}
}

func lie(n int) string {
	if n == 1 {
		return "1 lot lies"
	}
	return fmt.Sprintf("%d lots lie", n)
}

// warmth puts kinds in order; 0 is that nobody said.
var warmth = map[Kind]int{Frozen: 1, Chilled: 2, Dry: 3}

// tooWarm finds what must be colder than its place is.
func (s Store) tooWarm(p Spot) finding.List {
	n := 0
	var which record.Lot
	var kind Kind
	for _, g := range p.Goods {
		if k := s.keep(g.Lot); warmth[k] > 0 && warmth[p.Kind] > warmth[k] {
			if n++; which == "" {
				which, kind = g.Lot.ID, k
			}
		}
	}
	if n == 0 {
		return nil
	}
	return finding.List{{Code: CodeTooWarm, Severity: finding.Caution, Where: where(p.ID), Message: fmt.Sprintf("it is a %s place, and %s there that must be kept %s, beginning with %s", p.Kind, lie(n), kind, which),
		Fix: "see whether it is really there; if so, measure how warm it is and have somebody decide", Figures: []finding.Figure{{Name: "lots", Value: float64(n), Unit: "lots", Text: lotsWords(n)}}}}
}

func massFigure(name string, m unit.Mass, units unit.System) finding.Figure {
	return finding.Figure{Name: name, Value: m.Kg(), Unit: "kg", Text: m.Show(units)}
}

func volumeFigure(name string, v unit.Volume, units unit.System) finding.Figure {
	return finding.Figure{Name: name, Value: v.L(), Unit: "L", Text: v.Show(units)}
}
