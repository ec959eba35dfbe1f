package coldwatch

import (
	"fmt"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
)

// The codes of what is found about places that are watched. They are stable, for programs; what was done about them names the first two.
const (
	CodeWarm      = "freezer-too-warm"
	CodeSilent    = "freezer-silent"
	CodeUnlooked  = "freezer-not-answered" // it was too warm, and nobody said what was done
	CodeUnwatched = "freezer-unwatched"
	codeBadDeed   = "freezer-deed-unreadable"
)

// Deed is what somebody did, or found, about a place or a lot in it.
type Deed struct {
	Entry record.ID
	At    record.Instant
	Who   string
	record.Acted
}

// Deeds is what was done about places that were too warm. The zero Deeds is nothing.
type Deeds struct{ all []Deed }

// HeedsDeed says whether entries of a kind may tell of such.
func HeedsDeed(k record.Kind) bool { return k == record.Acted{}.Kind() }

// Take folds in the next entry, in the order in which things happened.
func (d *Deeds) Take(e record.Entry) finding.List {
	if !HeedsDeed(e.Kind) {
		return nil
	}
	body, err := record.Decode(e.Kind, e.Body)
	if err != nil {
		return finding.List{{Code: codeBadDeed, Severity: finding.Caution, Where: fmt.Sprintf("entry %d (%s)", e.Seq, e.Kind), Path: "entries." + e.ID.String(), Message: "what it says cannot be read: " + err.Error(), Fix: "enter again what was done"}}
	}
	if b := body.(record.Acted); b.Code == CodeWarm || b.Code == CodeSilent { // what this kind decodes to
		d.all = append(d.all, Deed{e.ID, e.Happened, e.Who, b})
	}
	return nil
}

// About are those about a place since a stretch began, of the place itself and of lots in it.
func (d *Deeds) About(w Watch, x Stretch) []Deed {
	var about []Deed
	for _, a := range d.all {
		if a.Place == w.Place && a.At >= x.From {
			about = append(about, a)
		}
	}
	return about
}

// Answered says whether somebody said what was done about a stretch as a whole.
func (d *Deeds) Answered(w Watch, x Stretch) bool {
	return slices.ContainsFunc(d.About(w, x), func(a Deed) bool { return a.Lot == "" })
}

// Copy is what was done, to be kept.
func (d *Deeds) Copy() *Deeds { return &Deeds{slices.Clip(d.all)} }
