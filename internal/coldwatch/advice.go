package coldwatch

import (
	"math"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/storagelife"
)

// Advice is what is to be done about packs that lay in a place while it was too warm. The order is from light to grave.
type Advice int

// Advices.
const (
	Note    Advice = iota // the air stayed at -5 °C (23 °F) or colder: it took quality, at most
	Look                  // too long unknown, or over the limit of a chilled place: look at some
	Inspect               // the air was, or may have been, above -5 °C: each pack is looked at, and held until then
	Measure               // the air was, or may have been, above 41 °F: each is looked at and measured, and held until then
)

// String is the advice in a word, for programs.
func (a Advice) String() string { return [...]string{"note", "look", "inspect", "measure"}[a] }

// MarshalText writes the word.
func (a Advice) MarshalText() ([]byte, error) { return []byte(a.String()), nil }

// Hold says whether packs should be held until somebody has looked. A person puts the hold.
func (a Advice) Hold() bool { return a >= Inspect }

// chilledMs is how long food may be over 41 °F at most where time is kept instead of temperature: 4 h (FDA Food Code 3-501.19, from memory).
const chilledMs = 4 * hourMs

func (w Watch) advise(e Exposure) Advice {
	known := !math.IsNaN(e.MayC)
	switch {
	case w.Kind != coldstore.Frozen:
		switch {
		case known && e.MayC > ThawedC && e.Ms >= chilledMs || e.UnknownMs >= chilledMs:
			return Measure
		case known && e.MayC > ThawedC || e.UnknownMs > 0:
			return Look
		}
		return Note
	case known && e.MayC > ThawedC, e.UnknownMs >= darkMs:
		return Measure
	case known && e.MayC > storagelife.WarmestC:
		return Inspect
	case e.UnknownMs > 0:
		return Look
	}
	return Note
}

// Guidance is published advice for freezers that failed, to be shown with its source wherever somebody acts on it.
const (
	Guidance = "Judge each pack by itself. What still has ice crystals, or is at 40 °F (4 °C) or colder, may be frozen again; its quality may have suffered. Soups, stews, casseroles, " +
		"meat and dairy that were above 40 °F for more than 2 hours are discarded. Never taste to judge. Kept shut, a full freezer stays frozen for about 48 hours, a half full one for about 24."
	GuidanceSource = "USDA and FDA, as FoodSafety.gov gives it for freezers that failed"
	VacuumCaution  = "Vacuum packs that thawed through are not frozen again without the word of your authority: without air, Clostridium botulinum can grow where it is not cold, and nothing shows it. (A cautious rule of this program.)"
)

// Looked is what somebody found when looking at packs. What nobody told is nil.
type Looked struct {
	Ice       *bool
	CoreC     *float64 // in the middle of the warmest pack
	AccuracyC float64  // of the thermometer
	Vacuum    bool     // packed without air
	Chilled   bool     // it is kept chilled, not frozen
	ThawedMs  int64    // that the air was above 41 °F, or may have been
	UnknownMs int64
}

// Verdict is what the guidance says of what was found. A person decides.
type Verdict string

// Verdicts.
const (
	NotTold     Verdict = "not-told"     // too little for anything to be said
	StaysFrozen Verdict = "stays-frozen" // it is at -5 °C or colder
	MayRefreeze Verdict = "may-refreeze" // the guidance allows it
	Authority   Verdict = "authority"    // it thawed without air: the authority is asked first
	StaysCold   Verdict = "stays-cold"   // chilled, at 41 °F or colder
	Decide      Verdict = "decide"       // the guidance leaves it open: a named person decides
	DiscardIt   Verdict = "discard"      // the guidance says so
)

// guidanceC is the 40 °F of the guidance. The Food Code's limit is 41 °F; the stricter of the two is taken.
const guidanceC = 40.0/1.8 - 32/1.8

// twoHoursMs is how long food may have been above it by the guidance.
const twoHoursMs = 2 * hourMs

const slackC = 1e-9

// Verdict holds what was found against the guidance, each temperature at the thermometer's bad end.
func (l Looked) Verdict() Verdict {
	ice := l.Ice != nil && *l.Ice
	switch {
	case l.CoreC == nil && l.Ice == nil:
		return NotTold
	case l.CoreC == nil && ice:
		return MayRefreeze
	case l.CoreC == nil && l.Chilled:
		return NotTold
	case l.CoreC == nil:
		return DiscardIt // neither ice nor a temperature that shows that it stayed cold
	}
	core := *l.CoreC + l.AccuracyC
	switch {
	case l.Chilled && core <= ThawedC+slackC:
		return StaysCold
	case l.Chilled:
		if l.ThawedMs+l.UnknownMs > chilledMs {
			return DiscardIt
		}
		return Decide
	case core <= storagelife.WarmestC:
		return StaysFrozen
	case core > guidanceC+slackC && (l.ThawedMs > twoHoursMs || l.UnknownMs > 0):
		return DiscardIt
	case core > guidanceC+slackC:
		return Decide
	case l.Vacuum && l.Ice == nil:
		return NotTold
	case l.Vacuum && !ice:
		return Authority
	}
	return MayRefreeze
}

// Says is a verdict in words.
func (v Verdict) Says() string {
	return map[Verdict]string{
		NotTold:     "Too little was told to say anything: whether there is ice, and what the middle of the warmest pack reads.",
		StaysFrozen: "It is frozen hard. What it lost is quality.",
		MayRefreeze: "The guidance lets it be frozen again. Its quality may have suffered.",
		Authority:   "It thawed without air. It is not frozen again without the word of your authority: keep it on hold, cold, and ask.",
		StaysCold:   "What was measured is at 41 °F or colder.",
		Decide:      "It was above the limit, and the guidance gives no clear answer for so short a time: it is not frozen again as it is. A named person decides.",
		DiscardIt:   "The guidance says: discard it.",
	}[v]
}
