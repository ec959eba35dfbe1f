package app

import (
	"context"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
)

// fold is a way of working a state out of entries.
type fold[S any] struct {
	empty func() S
	take  func(S, record.Entry) finding.List // the next entry, in the order in which things happened
	heeds func(record.Kind) bool             // the kinds that change the state
	// late says whether an entry can be taken now although something that was taken happened after it: the order makes no difference. Devices
	// differ by seconds, so this is usual. Nil is never: then all is folded again.
	late func(S, record.Entry) bool
}

// follower is a state that is kept up as entries come. A correction has it folded again, when it is next looked at.
//
// Add one for each fold as a field of Records, made by follow in OpenRecords, and look at it through look: the state is read under a lock
// and must not be kept, nor changed, and nothing else may be asked of the records meanwhile.
type follower[S any] struct {
	fold[S]
	state S
	found finding.List
	last  record.Entry // of those taken, the one that happened last
	stale bool
}

// keeper is a follower of any state.
type keeper interface {
	changed(c record.Change)
	bring(all *record.Standing)
}

// follow begins to keep a state up.
func follow[S any](r *Records, f fold[S]) *follower[S] {
	x := &follower[S]{fold: f, state: f.empty()}
	r.keepers = append(r.keepers, x)
	return x
}

// changed takes in what an entry did to those that stand.
func (f *follower[S]) changed(c record.Change) {
	about := c.Is
	if about == nil {
		about = c.Was
	}
	switch {
	case f.stale || !f.heeds(about.Kind):
	case c.Was != nil || record.Compare(*about, f.last) < 0 && (f.late == nil || !f.late(f.state, *about)):
		f.stale = true
	default:
		f.add(*about)
	}
}

func (f *follower[S]) add(e record.Entry) {
	if record.Compare(e, f.last) > 0 {
		f.last = e
	}
	f.found = append(f.found, f.take(f.state, e)...)
}

// bring folds again what must be.
func (f *follower[S]) bring(all *record.Standing) {
	if !f.stale {
		return
	}
	f.state, f.found, f.last, f.stale = f.empty(), nil, record.Entry{}, false
	for e := range all.All() {
		if f.heeds(e.Kind) {
			f.add(e)
		}
	}
}

// look shows the state as it is now, with the findings about the entries that made it. Only this state is folded again, if it must be: others
// when they are looked at.
func look[S any](ctx context.Context, r *Records, f *follower[S], at func(S, finding.List) error) error {
	if err := r.bring(ctx); err != nil {
		return err
	}
	r.refold(f)
	r.mu.RLock()
	defer r.mu.RUnlock()
	found := append(f.found[:len(f.found):len(f.found)], r.refused...)
	found.Sort()
	return at(f.state, found)
}

// bring reads what was entered since it was last read, and tells the states that are kept up.
func (r *Records) bring(ctx context.Context) error {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.catchUp(ctx)
}

// refold folds a state again from all that stands, if it must be.
func (r *Records) refold(k keeper) {
	r.mu.Lock()
	defer r.mu.Unlock()
	k.bring(r.standing)
}
