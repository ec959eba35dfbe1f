package record

import (
	"fmt"
	"iter"
	"slices"
)

// Standing are the entries that hold, corrections put in: what states are folded from. Entries are added in the order of the chain; the
// entries that hold are told in the order in which things happened. The zero Standing holds nothing.
type Standing struct {
	roots   map[ID]*root
	rootOf  map[ID]ID // of every entry that corrects another: the entry that all of it is about
	ordered []*root   // as they happened
}

// root is an entry that corrects none, with everything that was said about it later, in the order of the chain.
type root struct {
	entry Entry
	later []Entry
}

// Change is what an added entry did to those that hold. An entry that nothing held before has no Was, one that was taken back no Is.
//
// When it is not Past, it is at the end: Was, if there is one, was the last that held, and Is, if there is one, is so now. Who folds as
// entries come goes on with Is when the change is not Past and has no Was, and otherwise folds again from its place on (Compare). An entry
// that came late, from a device that was away, is Past.
type Change struct {
	Was, Is *Entry
	Past    bool // something that is there happened later
}

// CorrectionError is a correction that cannot be: it changes nothing, and stays in the chain for everybody to see.
type CorrectionError struct {
	Entry    Entry
	Problem  string
	Original Kind // "" when it is not known
}

func (e *CorrectionError) Error() string {
	return fmt.Sprintf("record: entry %d cannot correct %s: %s: write a new correction that names the right entry", e.Entry.Seq, e.Entry.Corrects, e.Problem)
}

// RepeatedError is an entry whose ID another entry of the chain has already: it changes nothing.
type RepeatedError struct{ Entry Entry }

func (e *RepeatedError) Error() string {
	return fmt.Sprintf("record: entry %d has the id %s, which an entry before it has: draw the id of each entry anew, and take in what is sent twice once", e.Entry.Seq, e.Entry.ID)
}

// Add takes in the next entry of the chain. A correction of the same kind takes the place of what the entry said, at the time when that
// happened; Voided takes the entry back, and what voids a correction takes that correction back. Of several corrections the last that
// stands counts, whichever of them it names. What was taken back twice stands again when both are taken back. Errors are *CorrectionError and *RepeatedError.
func (s *Standing) Add(e Entry) (Change, error) {
	if s.roots == nil {
		s.roots, s.rootOf = map[ID]*root{}, map[ID]ID{}
	}
	if err := s.Check(e); err != nil {
		return Change{}, err
	}
	if e.Corrects != (ID{}) {
		return s.correct(e), nil
	}
	r := &root{entry: e}
	at, _ := slices.BinarySearchFunc(s.ordered, r, func(a, b *root) int { return Compare(a.entry, b.entry) })
	past := at < len(s.ordered)
	s.roots[e.ID] = r
	s.ordered = slices.Insert(s.ordered, at, r)
	return Change{Is: r.holds(), Past: past}, nil
}

// Check says whether an entry can be added, without adding it. Errors are as of Add.
func (s *Standing) Check(e Entry) error {
	_, isCorrection := s.rootOf[e.ID]
	void := Voided{}.Kind()
	switch {
	case s.roots[e.ID] != nil || isCorrection:
		return &RepeatedError{e}
	case e.Corrects == ID{} && e.Kind == void:
		return &CorrectionError{Entry: e, Problem: "it names no entry"}
	case e.Corrects == ID{}:
		return nil
	}
	r := s.about(e.Corrects)
	switch {
	case r == nil:
		return &CorrectionError{Entry: e, Problem: "there is no such entry before it"}
	case e.Kind != void && e.Kind != r.entry.Kind:
		return &CorrectionError{Entry: e, Problem: fmt.Sprintf("that is %s, and this is %s", r.entry.Kind, e.Kind), Original: r.entry.Kind}
	case e.Kind != void && r.holds() == nil:
		return &CorrectionError{Entry: e, Problem: "that was taken back", Original: r.entry.Kind}
	}
	return nil
}

// about is the entry that an entry of that ID is about: itself, or the one that it corrects; nil when it is not there.
func (s *Standing) about(id ID) *root {
	if of, ok := s.rootOf[id]; ok {
		id = of
	}
	return s.roots[id]
}

func (s *Standing) correct(e Entry) Change {
	r := s.about(e.Corrects)
	was := r.holds()
	r.later = append(r.later, e)
	s.rootOf[e.ID] = r.entry.ID
	return Change{Was: was, Is: r.holds(), Past: s.ordered[len(s.ordered)-1] != r}
}

// holds is the entry with the last correction that stands; nil when it was taken back.
func (r *root) holds() *Entry {
	e := r.entry
	for i, l := range r.later {
		void := l.Kind == Voided{}.Kind()
		switch {
		case void && l.Corrects != e.ID || !r.stands(i): // it was about another correction, or was taken back
		case void:
			return nil
		default:
			e.Body = l.Body
		}
	}
	return &e
}

// stands says whether a correction was not taken back by one that itself stands.
func (r *root) stands(i int) bool {
	for k := i + 1; k < len(r.later); k++ {
		if l := r.later[k]; l.Kind == (Voided{}).Kind() && l.Corrects == r.later[i].ID && r.stands(k) {
			return false
		}
	}
	return true
}

// All are the entries that hold, in the order in which they happened.
func (s *Standing) All() iter.Seq[Entry] { return s.After(Entry{}) }

// After are those of All that happened after an entry, which need not be there.
func (s *Standing) After(e Entry) iter.Seq[Entry] {
	from, found := slices.BinarySearchFunc(s.ordered, e, func(r *root, e Entry) int { return Compare(r.entry, e) })
	if found {
		from++
	}
	return func(yield func(Entry) bool) {
		for _, r := range s.ordered[from:] {
			if e := r.holds(); e != nil && !yield(*e) {
				return
			}
		}
	}
}

// Len is how many entries there are that correct none, those that were taken back among them.
func (s *Standing) Len() int { return len(s.ordered) }

// Of is the entry of an ID as it holds, and everything that was said about it later. It is false when no entry that corrects none has it.
func (s *Standing) Of(id ID) (holds *Entry, later []Entry, ok bool) {
	r, ok := s.roots[id]
	if !ok {
		return nil, nil, false
	}
	return r.holds(), slices.Clone(r.later), true
}
