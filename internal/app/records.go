package app

import (
	"context"
	"crypto/rand"
	"fmt"
	"io"
	"sync"
	"time"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/store"
)

// Records is what really happened in a kitchen, and what follows from it.
type Records struct {
	store *store.Store

	mu       sync.Mutex
	seen     uint64 // how far of the chain is in what follows
	standing *record.Standing
	refused  finding.List
	state    *lots.State
	found    finding.List
}

// OpenRecords opens the records at an address: a file, which is made if it is not there, or postgres://… Errors are *store.Error.
func OpenRecords(ctx context.Context, address string, now func() time.Time) (*Records, error) {
	s, err := store.Open(ctx, address, func() record.Instant { return record.Instant(now().UnixMilli()) })
	if err != nil {
		return nil, err
	}
	return &Records{store: s, standing: &record.Standing{}}, nil
}

// Close ends the use of the records; what was acknowledged is kept.
func (r *Records) Close() error { return r.store.Close() }

// Said is somebody's entry before it is taken in.
type Said struct {
	Who, Device string
	At          time.Time
	Corrects    record.ID // the entry that was wrong; zero for none
	Body        record.Body
}

// Enter takes an entry in, and returns it as it was sealed. A correction of an entry that is not there is refused: *record.CorrectionError.
func (r *Records) Enter(ctx context.Context, said Said) (record.Entry, error) {
	var id record.ID
	rand.Read(id[:]) // never fails (crypto/rand)
	e, err := record.Say(id, record.Instant(said.At.UnixMilli()), said.Who, said.Device, said.Body)
	if err != nil {
		return e, err
	}
	if e.Corrects = said.Corrects; e.Corrects != (record.ID{}) {
		if err := r.corrects(ctx, e); err != nil {
			return e, err
		}
	}
	sealed, err := r.store.Append(ctx, []record.Entry{e})
	if err != nil {
		return e, err
	}
	return sealed[0], nil
}

// corrects checks that a correction can be.
func (r *Records) corrects(ctx context.Context, e record.Entry) error {
	r.mu.Lock()
	defer r.mu.Unlock()
	if err := r.catchUp(ctx); err != nil {
		return err
	}
	return r.standing.Check(e)
}

// catchUp reads what was entered since it was last read.
func (r *Records) catchUp(ctx context.Context) error {
	for e, err := range r.store.Read(ctx, r.seen+1) {
		if err != nil {
			return err
		}
		if _, err := r.standing.Add(e); err != nil {
			r.refused = append(r.refused, finding.Finding{Code: "correction-refused", Severity: finding.Caution, Where: fmt.Sprintf("entry %d (%s)", e.Seq, e.Kind), Path: "entries." + e.ID.String(), Message: err.Error(), Fix: "correct the right entry"})
		}
		r.seen, r.state = e.Seq, nil
	}
	return nil
}

// Lots are all lots as they stand now, and what does not fit. The state is not changed later; it is folded anew when something was entered.
func (r *Records) Lots(ctx context.Context) (*lots.State, finding.List, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if err := r.catchUp(ctx); err != nil {
		return nil, nil, err
	}
	if r.state == nil {
		state, found := lots.Of(r.standing.All())
		r.state, r.found = state, append(found, r.refused...)
		r.found.Sort()
	}
	return r.state, r.found, nil
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
