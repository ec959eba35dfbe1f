// Package trials folds trials in the freezer out of the entries: what was laid out, which batches were made, which packs were opened,
// measured and tasted, and what can be told from it. Whether a difference is one is for the engine (internal/tastetrial) to say; here its
// numbers get the names of a kitchen, and its verdicts the words.
//
// A trial is laid out once: its codes and orders follow from its variants, weeks, tasters and seed. Batches, packs and scores come in any
// order; what does not fit the layout is told as a finding of the trial and left out of its results.
package trials

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
	"kettlefrost/internal/tastetrial"
)

// The codes of what does not fit. They are stable, for programs.
const (
	CodeUnreadable = "trial-unreadable"
	CodeNotLaid    = "trial-not-laid"     // an entry names a trial that nobody laid out
	CodeTwice      = "trial-twice"        // the same was entered twice: the first counts
	CodeUnknown    = "trial-unknown"      // an entry names a variant, a week, a taster or a code that the trial does not have
	CodeCannotLay  = "trial-cannot-lay"   // no layout follows from what was entered
	CodeApart      = "trial-frozen-apart" // the variants were not frozen on one day
	CodeOffDay     = "trial-off-day"      // a pack was measured some days before or after its week
	CodeFewPacks   = "trial-few-packs"    // fewer packs were frozen than are to be opened
)

// Said is what one entry says, and who entered it.
type Said[B record.Body] struct {
	Entry       record.ID
	Seq         uint64
	At          record.Instant
	Who, Device string
	Body        B
}

// State is all that was entered of trials. The zero State is empty.
type State struct {
	laid     []Said[record.TrialLaid]
	made     []Said[record.TrialMade]
	opened   []Said[record.TrialOpened]
	scored   []Said[record.TrialScored]
	closed   []Said[record.TrialClosed]
	pictured []Said[record.Pictured]
}

// heeded are the kinds that change the state.
var heeded = map[record.Kind]bool{
	record.TrialLaid{}.Kind(): true, record.TrialMade{}.Kind(): true, record.TrialOpened{}.Kind(): true, record.TrialScored{}.Kind(): true,
	record.TrialClosed{}.Kind(): true, record.Pictured{}.Kind(): true,
}

// Heeds says whether a kind of entry changes the state.
func Heeds(k record.Kind) bool { return heeded[k] }

// Commutes says whether an entry may be taken although something that was taken happened later: entries are put in order when a trial is
// looked at, so any may.
func (s *State) Commutes(record.Entry) bool { return true }

// Copy is a state of its own that is the same.
func (s *State) Copy() *State {
	return &State{laid: slices.Clone(s.laid), made: slices.Clone(s.made), opened: slices.Clone(s.opened), scored: slices.Clone(s.scored), closed: slices.Clone(s.closed), pictured: slices.Clone(s.pictured)}
}

// Take folds in an entry and tells what cannot be read.
func (s *State) Take(e record.Entry) finding.List {
	if !Heeds(e.Kind) {
		return nil
	}
	body, err := record.Decode(e.Kind, e.Body)
	if err != nil {
		return finding.List{{Code: CodeUnreadable, Severity: finding.Caution, Where: fmt.Sprintf("entry %d (%s)", e.Seq, e.Kind), Path: "entries." + e.ID.String(), Message: "what it says cannot be read: " + err.Error(), Fix: "take it back, and enter it again"}}
	}
	switch b := body.(type) {
	case record.TrialLaid:
		s.laid = append(s.laid, said(e, b))
	case record.TrialMade:
		s.made = append(s.made, said(e, b))
	case record.TrialOpened:
		s.opened = append(s.opened, said(e, b))
	case record.TrialScored:
		s.scored = append(s.scored, said(e, b))
	case record.TrialClosed:
		s.closed = append(s.closed, said(e, b))
	case record.Pictured:
		s.pictured = append(s.pictured, said(e, b))
	}
	return nil
}

func said[B record.Body](e record.Entry, b B) Said[B] {
	return Said[B]{Entry: e.ID, Seq: e.Seq, At: e.Happened, Who: e.Who, Device: e.Device, Body: b}
}

// Of folds entries, in any order.
func Of(entries ...record.Entry) (*State, finding.List) {
	s := &State{}
	var found finding.List
	for _, e := range entries {
		found = append(found, s.Take(e)...)
	}
	return s, found
}

// inOrder are what belongs to a trial, as it happened.
func inOrder[B record.Body](all []Said[B], belongs func(B) bool) []Said[B] {
	var own []Said[B]
	for _, x := range all {
		if belongs(x.Body) {
			own = append(own, x)
		}
	}
	slices.SortFunc(own, func(a, b Said[B]) int { return cmp.Or(cmp.Compare(a.At, b.At), cmp.Compare(a.Seq, b.Seq)) })
	return own
}

// Trial is one trial with all that was entered of it and fits, in the order in which it happened.
type Trial struct {
	Name     string
	Laid     Said[record.TrialLaid]
	Layout   tastetrial.Layout
	Bad      string // why no layout follows; then nothing can be opened or tasted
	Made     []Said[record.TrialMade]
	Opened   []Said[record.TrialOpened]
	Scored   []Scored
	Closed   *Said[record.TrialClosed] // the last; nil while it goes on
	Pictures []Picture
	Found    finding.List // what does not fit
}

// Scored is what a taster said of a code, and of what that was.
type Scored struct {
	Said[record.TrialScored]
	Variant int
	Taster  int
}

// Picture is a picture of a trial, or of a variant of it in a week.
type Picture struct {
	Said[record.Pictured]
	Variant string // "" for the trial as a whole
	Week    record.Week
	HasWeek bool
}

// Names are the trials that were laid out, the latest first.
func (s *State) Names() []string {
	at := map[string]record.Instant{}
	for _, x := range s.laid {
		if first, known := at[x.Body.Trial]; !known || x.At < first {
			at[x.Body.Trial] = x.At
		}
	}
	names := slices.Sorted(maps.Keys(at))
	slices.SortStableFunc(names, func(a, b string) int { return cmp.Compare(at[b], at[a]) })
	return names
}

// All are the trials that were laid out, the latest first, and what was entered of trials that nobody laid out.
func (s *State) All() ([]Trial, finding.List) {
	var all []Trial
	for _, name := range s.Names() {
		t, _ := s.Trial(name)
		all = append(all, t)
	}
	return all, s.strays()
}

// Trial is the trial of a name; false when nobody laid it out.
func (s *State) Trial(name string) (Trial, bool) {
	laid := inOrder(s.laid, func(b record.TrialLaid) bool { return b.Trial == name })
	if len(laid) == 0 {
		return Trial{}, false
	}
	t := Trial{Name: name, Laid: laid[0]}
	for _, x := range laid[1:] {
		t.misfit(x.Entry, x.Seq, x.Body.Kind(), CodeTwice, "the trial was laid out before", "take one of the two back, and give another trial another name")
	}
	t.lay()
	t.takeMade(inOrder(s.made, func(b record.TrialMade) bool { return b.Trial == name }))
	t.takeOpened(inOrder(s.opened, func(b record.TrialOpened) bool { return b.Trial == name }))
	t.takeScored(inOrder(s.scored, func(b record.TrialScored) bool { return b.Trial == name }))
	if closed := inOrder(s.closed, func(b record.TrialClosed) bool { return b.Trial == name }); len(closed) > 0 {
		t.Closed = &closed[len(closed)-1]
	}
	for _, p := range inOrder(s.pictured, func(b record.Pictured) bool { return isAbout(b.About, name) }) {
		t.Pictures = append(t.Pictures, pictureOf(p))
	}
	t.together()
	t.offDay()
	return t, true
}

// HasPicture says whether an entry tells of a picture.
func (s *State) HasPicture(hash record.Hash) bool {
	return slices.ContainsFunc(s.pictured, func(p Said[record.Pictured]) bool { return p.Body.Hash == hash })
}

// strays are entries about trials that nobody laid out.
func (s *State) strays() finding.List {
	known := map[string]bool{}
	for _, x := range s.laid {
		known[x.Body.Trial] = true
	}
	var found finding.List
	stray := func(trial string, entry record.ID, seq uint64, kind record.Kind) {
		if !known[trial] {
			found = append(found, finding.Finding{Code: CodeNotLaid, Severity: finding.Caution, Where: fmt.Sprintf("entry %d (%s)", seq, kind), Path: "entries." + entry.String(),
				Message: "nobody laid out a trial called " + trial, Fix: "take it back, and enter it for the trial that is meant"})
		}
	}
	for _, x := range s.made {
		stray(x.Body.Trial, x.Entry, x.Seq, x.Body.Kind())
	}
	for _, x := range s.opened {
		stray(x.Body.Trial, x.Entry, x.Seq, x.Body.Kind())
	}
	for _, x := range s.scored {
		stray(x.Body.Trial, x.Entry, x.Seq, x.Body.Kind())
	}
	for _, x := range s.closed {
		stray(x.Body.Trial, x.Entry, x.Seq, x.Body.Kind())
	}
	return found
}

func (t *Trial) misfit(entry record.ID, seq uint64, kind record.Kind, code, says, fix string) {
	t.Found = append(t.Found, finding.Finding{Code: code, Severity: finding.Caution, Where: fmt.Sprintf("trial %s, entry %d (%s)", t.Name, seq, kind), Path: "entries." + entry.String(), Message: says, Fix: fix})
}
