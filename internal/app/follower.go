package app

import (
	"context"
	"iter"
	"slices"

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
	// copy is a state of its own that is the same: what is taken by one of the two does not change the other. Nil is none: then all is folded
	// again whatever changed, however recent.
	copy func(S) S
}

// window is how many of the last entries may be corrected, or come late, without all being folded again: some weeks of a kitchen.
const window = 2000

// follower is a state that is kept up as entries come. When something changed that was taken already, it is folded again when it is next
// looked at: from a second state on, which is some weeks behind, or if the change is older than that, from the beginning.
//
// Add one for each fold as a field of Records, made by follow in OpenRecords, and look at it through look: the state is read under a lock
// and must not be kept, nor changed, and nothing else may be asked of the records meanwhile.
type follower[S any] struct {
	fold[S]
	folded[S]
	behind folded[S]     // empty without copy
	window int           // so many of the last entries are not taken by what is behind
	since  int           // entries that were taken, and not by what is behind
	stale  *record.Entry // the earliest that changed since it was taken; nil when none did
	turn   int           // grows whenever the state changes
}

// folded is a state and what made it.
type folded[S any] struct {
	state S
	found finding.List
	last  record.Entry // of those taken, the one that happened last
}

// keeper is a follower of any state.
type keeper interface {
	changed(c record.Change)
	due() bool
	bring(all *record.Standing)
}

// follow begins to keep a state up.
func follow[S any](r *Records, f fold[S]) *follower[S] {
	x := &follower[S]{fold: f, folded: folded[S]{state: f.empty()}, behind: folded[S]{state: f.empty()}, window: window}
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
	case about == nil: // it was taken back before
	case !f.heeds(about.Kind):
	case f.stale == nil && c.Was == nil && f.fits(*about):
		f.add(&f.folded, *about)
		f.turn++
		if record.Compare(*about, f.behind.last) < 0 {
			f.add(&f.behind, *about)
		} else {
			f.since++
		}
	case f.stale == nil || record.Compare(*about, *f.stale) < 0:
		f.stale = about
	}
}

// fits says whether an entry can be taken now.
func (f *follower[S]) fits(e record.Entry) bool {
	return record.Compare(e, f.last) > 0 || f.late != nil && f.late(f.state, e)
}

func (f *follower[S]) add(to *folded[S], e record.Entry) {
	if record.Compare(e, to.last) > 0 {
		to.last = e
	}
	to.found = append(to.found, f.take(to.state, e)...)
}

// due says whether bring has something to do.
func (f *follower[S]) due() bool { return f.stale != nil || f.copy != nil && f.since > 2*f.window }

// bring folds again what must be, and sees to it that what is behind is not behind by much.
func (f *follower[S]) bring(all *record.Standing) {
	if f.stale != nil {
		f.foldAgain(all)
	}
	if f.copy == nil || f.since <= 2*f.window {
		return
	}
	steps := f.window // a few at a time: nobody shall wait for it
	for e := range f.after(all, f.behind.last) {
		f.add(&f.behind, e)
		f.since--
		if steps--; steps == 0 {
			return
		}
	}
}

func (f *follower[S]) foldAgain(all *record.Standing) {
	if record.Compare(*f.stale, f.behind.last) <= 0 {
		f.behind = folded[S]{state: f.empty()}
	}
	from := f.behind.last
	f.stale, f.since = nil, 0
	f.turn++
	for range f.after(all, from) {
		f.since++
	}
	f.folded = folded[S]{state: f.empty()}
	if f.copy != nil {
		f.folded = f.apart(f.behind)
	}
	left := f.since
	for e := range f.after(all, from) {
		f.add(&f.folded, e)
		if left--; left == f.window && f.copy != nil && f.since > 2*f.window {
			f.behind, f.since = f.apart(f.folded), f.window
		}
	}
}

// after are the entries that change the state and happened after another.
func (f *follower[S]) after(all *record.Standing, e record.Entry) iter.Seq[record.Entry] {
	return func(yield func(record.Entry) bool) {
		for e := range all.After(e) {
			if f.heeds(e.Kind) && !yield(e) {
				return
			}
		}
	}
}

// apart is the same state once more.
func (f *follower[S]) apart(x folded[S]) folded[S] {
	return folded[S]{state: f.copy(x.state), found: slices.Clip(x.found), last: x.last}
}

// look shows the state as it is now, with the findings about the entries that made it. Only this state is folded again, if it must be: others
// when they are looked at. Critical records are judged first, so that no lot is seen that they hold.
func look[S any](ctx context.Context, r *Records, f *follower[S], at func(S, finding.List) error) error {
	if r.judging == nil {
		return lookAt(ctx, r, f, at)
	}
	for {
		if err := r.bring(ctx); err != nil {
			return err
		}
		if err := r.judging.bring(ctx); err != nil {
			return err
		}
		r.refold(f)
		r.refold(r.lots)
		r.mu.RLock()
		if r.judging.settled() {
			break
		}
		r.mu.RUnlock()
		r.judging.hold()
	}
	defer r.mu.RUnlock()
	return show(r, f, at)
}

// lookAt shows a state as look does, without judging: for who judges.
func lookAt[S any](ctx context.Context, r *Records, f *follower[S], at func(S, finding.List) error) error {
	if err := r.bring(ctx); err != nil {
		return err
	}
	r.refold(f)
	r.mu.RLock()
	defer r.mu.RUnlock()
	return show(r, f, at)
}

// show lends a state. It needs the lock, to read.
func show[S any](r *Records, f *follower[S], at func(S, finding.List) error) error {
	found := append(f.found[:len(f.found):len(f.found)], r.refused...)
	found.Sort()
	return at(f.state, found)
}

// atOnce is how many entries are read from the store and taken in before others may look.
const atOnce = 2000

// bring reads what was entered since it was last read, and tells the states that are kept up. It waits for the database before it takes the
// lock, so that nobody who looks waits for that.
func (r *Records) bring(ctx context.Context) error {
	for {
		r.mu.RLock()
		seen := r.seen
		r.mu.RUnlock()
		page, err := r.store.Since(ctx, seen, atOnce)
		if len(page) > 0 {
			r.mu.Lock()
			r.takeIn(page)
			r.mu.Unlock()
		}
		if err != nil || len(page) < atOnce {
			return err
		}
	}
}

// refold folds a state again from all that stands, if it must be.
func (r *Records) refold(k keeper) {
	r.mu.RLock()
	due := k.due()
	r.mu.RUnlock()
	if !due {
		return
	}
	r.mu.Lock()
	defer r.mu.Unlock()
	k.bring(r.standing)
}
