package app

import (
	"context"
	"crypto/rand"
	"fmt"
	"io"
	"iter"
	"time"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/store"
)

// Records is what really happened in a kitchen, and what follows from it.
type Records struct{ store *store.Store }

// OpenRecords opens the records at an address: a file, which is made if it is not there, or postgres://… Errors are *store.Error.
func OpenRecords(ctx context.Context, address string, now func() time.Time) (*Records, error) {
	s, err := store.Open(ctx, address, func() record.Instant { return record.Instant(now().UnixMilli()) })
	if err != nil {
		return nil, err
	}
	return &Records{s}, nil
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
		standing, _, err := r.standing(ctx)
		if err != nil {
			return e, err
		}
		if _, err := standing.Add(e); err != nil {
			return e, err
		}
	}
	sealed, err := r.store.Append(ctx, []record.Entry{e})
	if err != nil {
		return e, err
	}
	return sealed[0], nil
}

// standing are the entries that hold, and what is wrong with corrections among them.
func (r *Records) standing(ctx context.Context) (*record.Standing, finding.List, error) {
	s, found := &record.Standing{}, finding.List{}
	for e, err := range r.store.Read(ctx, 1) {
		if err != nil {
			return nil, nil, err
		}
		if _, err := s.Add(e); err != nil {
			found = append(found, finding.Finding{Code: "correction-refused", Severity: finding.Caution, Where: fmt.Sprintf("entry %d (%s)", e.Seq, e.Kind), Path: "entries." + e.ID.String(), Message: err.Error(), Fix: "correct the right entry"})
		}
	}
	return s, found, nil
}

// Lots are all lots as they stand now, and what does not fit.
func (r *Records) Lots(ctx context.Context) (*lots.State, finding.List, error) {
	standing, found, err := r.standing(ctx)
	if err != nil {
		return nil, nil, err
	}
	state, more := lots.Of(iter.Seq[record.Entry](standing.All()))
	found = append(found, more...)
	found.Sort()
	return state, found, nil
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
