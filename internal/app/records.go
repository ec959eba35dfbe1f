package app

import (
	"context"
	"crypto/rand"
	"fmt"
	"io"
	"iter"
	"sync"
	"sync/atomic"
	"time"

	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/hazardplan"
	"kettlefrost/internal/ledger"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
	"kettlefrost/internal/retained"
	"kettlefrost/internal/store"
	"kettlefrost/internal/thermometers"
	"kettlefrost/internal/trials"
)

// Records is what really happened in a kitchen, and what follows from it.
type Records struct {
	store *store.Store

	mu       sync.RWMutex
	seen     uint64 // how far of the chain is in what follows
	standing *record.Standing
	refused  finding.List
	keepers  []keeper
	people   *People

	lots    *follower[*lots.State]
	orders  *follower[*orders.State]
	bills   *follower[*ledger.State]
	checks  *follower[*thermometers.State]
	deeds   *follower[*coldwatch.Deeds]
	told    *follower[*toldOfProbes]
	tails   readingTails
	alarms  alarmed
	plans   *follower[*hazardplan.State]
	keeps   *follower[*retained.State] // packs that are kept to be tasted
	trials  *follower[*trials.State]
	labels  *follower[*LabelsPrinted]
	judging *judging                        // nil when no book says by what rules
	dayOf   func(record.Instant) record.Day // by the clock on the wall

	unbilled atomic.Pointer[unbilled] // what was worked out last

	ordering sync.Mutex // held while an order gets its number
	planning sync.Mutex // held while a hazard plan gets its next version
	laying   sync.Mutex // held while a trial gets its name
}

// OpenRecords opens the records at an address: a file, which is made if it is not there, or postgres://… Errors are *store.Error.
func OpenRecords(ctx context.Context, address string, now func() time.Time) (*Records, error) {
	s, err := store.Open(ctx, address, func() record.Instant { return record.Instant(now().UnixMilli()) })
	if err != nil {
		return nil, err
	}
	r := &Records{store: s, standing: &record.Standing{}}
	r.people = newPeople(r, now)
	r.lots = follow(r, fold[*lots.State]{empty: func() *lots.State { return &lots.State{} }, take: (*lots.State).Take, heeds: lots.Heeds, late: (*lots.State).Commutes, copy: (*lots.State).Copy})
	r.orders = follow(r, fold[*orders.State]{empty: func() *orders.State { return &orders.State{} }, take: (*orders.State).Take, heeds: orders.Heeds, late: (*orders.State).Commutes})
	r.bills = followBills(r, now)
	r.checks, r.deeds = followChecks(r), followDeeds(r)
	r.told = followTold(r)
	r.plans = followPlans(r)
	r.keeps = followKept(r)
	r.trials = followTrials(r)
	r.labels = followLabels(r)
	return r, nil
}

// Close ends the use of the records; what was acknowledged is kept.
func (r *Records) Close() error { return r.store.Close() }

// Said is somebody's entry before it is taken in.
type Said struct {
	ID          record.ID // drawn by the device, so that what is sent twice is taken in once; zero draws one
	Who, Device string
	At          time.Time // when it happened; an entry that corrects another keeps the time of that
	Corrects    record.ID // the entry that was wrong; zero for none
	Body        record.Body
}

// entry is what is said, ready to be sealed.
func (s Said) entry() (record.Entry, error) {
	id := s.ID
	if id == (record.ID{}) {
		rand.Read(id[:]) // never fails (crypto/rand)
	}
	e, err := record.Say(id, record.Instant(s.At.UnixMilli()), s.Who, s.Device, s.Body)
	e.Corrects = s.Corrects
	return e, err
}

// Enter takes entries in, in their order and all or none, and returns them as they were sealed. One that was taken in before is not taken in
// again. Errors are *record.FieldError for what makes no sense, *record.CorrectionError for a correction of an entry that is not there,
// *store.ConflictError for an ID under which something else was told, *people.DeniedError for what who acts may not, and *store.Error.
func (r *Records) Enter(ctx context.Context, said ...Said) ([]record.Entry, error) {
	entries := make([]record.Entry, 0, len(said))
	for _, x := range said {
		e, err := x.entry()
		if err != nil {
			return nil, err
		}
		if err := r.corrects(ctx, e); err != nil {
			return nil, err
		}
		if err := r.keepsBills(ctx, e); err != nil {
			return nil, err
		}
		entries = append(entries, e)
	}
	if err := r.people.allow(ctx, entries); err != nil {
		return nil, err
	}
	return r.store.Append(ctx, entries)
}

// corrects checks that a correction can be.
func (r *Records) corrects(ctx context.Context, e record.Entry) error {
	if e.Corrects == (record.ID{}) {
		return nil
	}
	if _, there, err := r.store.ByID(ctx, e.ID); there || err != nil {
		return err // sent twice: the store answers with what it has
	}
	if err := r.bring(ctx); err != nil {
		return err
	}
	r.mu.RLock()
	defer r.mu.RUnlock()
	return r.standing.Check(e)
}

// takeIn takes in what follows on what was seen, in the order of the chain. What somebody else has taken in meanwhile is passed over. It needs
// the lock.
func (r *Records) takeIn(page []record.Entry) {
	for _, e := range page {
		if e.Seq <= r.seen {
			continue
		}
		c, err := r.standing.Add(e)
		if err != nil {
			r.refused = append(r.refused, finding.Finding{Code: "correction-refused", Severity: finding.Caution, Where: fmt.Sprintf("entry %d (%s)", e.Seq, e.Kind), Path: "entries." + e.ID.String(), Message: err.Error(), Fix: "correct the right entry"})
		} else {
			for _, k := range r.keepers {
				k.changed(c)
			}
		}
		r.seen = e.Seq
	}
}

// Lots shows all lots as they stand now, and what does not fit. The state is lent: it is not to be changed, nor kept.
func (r *Records) Lots(ctx context.Context, at func(*lots.State, finding.List) error) error {
	return look(ctx, r, r.lots, at)
}

// Entry is an entry as it stands, with the corrections put in, and false when there is none or it was taken back.
func (r *Records) Entry(ctx context.Context, id record.ID) (e record.Entry, there bool, err error) {
	if err := r.bring(ctx); err != nil {
		return e, false, err
	}
	r.mu.RLock()
	defer r.mu.RUnlock()
	holds, _, _ := r.standing.Of(id)
	if holds == nil {
		return e, false, nil
	}
	return *holds, true, nil
}

// Follow gives the entries after a number and then each new one, from whichever device, until the context ends.
func (r *Records) Follow(ctx context.Context, after uint64) iter.Seq2[record.Entry, error] {
	return r.store.Follow(ctx, after)
}

// Verify holds every entry against the chain. The error is *record.ChainError and names the first that is bad.
func (r *Records) Verify(ctx context.Context) (record.Head, error) { return r.store.Verify(ctx) }

// Export writes all entries, one JSON object a line; Import takes them into records that are empty.
func (r *Records) Export(ctx context.Context, w io.Writer) (record.Head, error) {
	return r.store.Export(ctx, w)
}

// Import takes in what Export wrote, if it verifies, into records that are empty.
func (r *Records) Import(ctx context.Context, from io.Reader) (record.Head, error) {
	return r.store.Import(ctx, from)
}

// Backup writes a copy to a file while the records are in use.
func (r *Records) Backup(ctx context.Context, path string) (record.Head, error) {
	return r.store.Backup(ctx, path)
}
