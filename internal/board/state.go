// Package board folds what was entered of a production into how far it has come: which tasks of its plan are begun, done or skipped, when
// and by whom, and what was weighed, measured, used and made. What does not fit is found and told, never dropped and never put right.
//
// The fold does not look at the order in which entries arrived, only at when things happened: whichever of two tablets was away longer, the
// board is the same when all has come.
package board

import (
	"cmp"
	"iter"
	"maps"
	"slices"

	"kettlefrost/internal/record"
)

// State is every production of which anything was entered. The zero State is a kitchen that has not begun.
type State struct {
	runs  map[string]*Run
	where map[record.ID]*Run
	count int
}

// Run is one production: what was entered of it, as it happened.
type Run struct {
	Name    string
	Version int // grows whenever anything is entered or taken back
	told    []Told
}

// Told is one entry that stands.
type Told struct {
	record.Entry
	Says  record.Body // nil when it cannot be read
	Wrong error       // why it cannot
}

// Heeds says whether entries of a kind are about a production.
func Heeds(k record.Kind) bool { return kinds[k] }

var kinds = map[record.Kind]bool{
	record.Opened{}.Kind(): true, record.Closed{}.Kind(): true, record.Started{}.Kind(): true, record.Finished{}.Kind(): true, record.Skipped{}.Kind(): true,
	record.Weighed{}.Kind(): true, record.Measured{}.Kind(): true, record.CheckWeighed{}.Kind(): true, record.Changed{}.Kind(): true, record.Wasted{}.Kind(): true,
	record.Used{}.Kind(): true, record.Made{}.Kind(): true, record.Packed{}.Kind(): true, record.Watched{}.Kind(): true, record.Acted{}.Kind(): true,
}

// Put takes an entry in, in place of one with its ID that is there. Entries that are not about a production change nothing.
func (s *State) Put(e record.Entry) {
	if !Heeds(e.Kind) {
		return
	}
	t := Told{Entry: e}
	t.Says, t.Wrong = record.Decode(e.Kind, e.Body)
	s.Drop(e.ID)
	name := record.RunOf(t.Says)
	if name == "" {
		return // a temperature of a freezer, say
	}
	if s.runs == nil {
		s.runs, s.where = map[string]*Run{}, map[record.ID]*Run{}
	}
	r := s.runs[name]
	if r == nil {
		r = &Run{Name: name}
		s.runs[name] = r
	}
	at, _ := slices.BinarySearchFunc(r.told, t, byTime)
	r.told = slices.Insert(r.told, at, t)
	s.where[e.ID] = r
	s.touch(r)
}

// Drop takes an entry out: it was taken back.
func (s *State) Drop(id record.ID) {
	r := s.where[id]
	if r == nil {
		return
	}
	delete(s.where, id)
	r.told = slices.DeleteFunc(r.told, func(t Told) bool { return t.ID == id })
	s.touch(r)
	if len(r.told) == 0 {
		delete(s.runs, r.Name)
	}
}

func (s *State) touch(r *Run) {
	s.count++
	r.Version = s.count
}

// byTime is the order in which things happened; of the same millisecond, one that does not depend on which came first.
func byTime(a, b Told) int {
	return cmp.Or(cmp.Compare(a.Happened, b.Happened), slices.Compare(a.ID[:], b.ID[:]))
}

// Run is a production by its name; nil when nothing was entered of it.
func (s *State) Run(name string) *Run { return s.runs[name] }

// All are the productions, the last opened first.
func (s *State) All() []*Run {
	return slices.SortedFunc(maps.Values(s.runs), func(a, b *Run) int {
		return cmp.Or(cmp.Compare(b.began(), a.began()), cmp.Compare(a.Name, b.Name))
	})
}

// Copy is the production as it stands, which later entries do not change.
func (r *Run) Copy() *Run {
	c := *r
	c.told = slices.Clone(r.told)
	return &c
}

// Of are all entries of a kind of body, as they happened, each with what it says.
func Of[B record.Body](r *Run) iter.Seq2[Told, B] {
	return func(yield func(Told, B) bool) {
		for _, t := range r.told {
			if says, ok := t.Says.(B); ok && !yield(t, says) {
				return
			}
		}
	}
}

// All are all entries as they happened.
func (r *Run) All() []Told { return slices.Clone(r.told) }

// Opened is the entry that opened the production last, and what it says; false when nobody has.
func (r *Run) Opened() (t Told, says record.Opened, ok bool) {
	for x, o := range Of[record.Opened](r) {
		t, says, ok = x, o, true
	}
	return t, says, ok
}

// Closed is the entry that closed the production since it was opened; false while it is open.
func (r *Run) Closed() (t Told, ok bool) {
	opened, _, _ := r.Opened()
	for x := range Of[record.Closed](r) {
		t, ok = x, byTime(opened, x) < 0
	}
	return t, ok
}

// Open says whether the production is under way.
func (r *Run) Open() bool {
	_, _, opened := r.Opened()
	_, closed := r.Closed()
	return opened && !closed
}

func (r *Run) began() record.Instant {
	if t, _, ok := r.Opened(); ok {
		return t.Happened
	}
	return r.told[0].Happened
}
