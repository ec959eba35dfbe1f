package store

import (
	"context"
	"database/sql"
	"fmt"
	"slices"
	"time"

	"kettlefrost/internal/record"
)

const (
	groupLimit = 1024             // entries in one transaction, unless one append has more
	patience   = 20 * time.Second // for one transaction with all its tries
	firstPause = time.Millisecond // before trying again; short, since whoever was slower has waited for the faster already
	lastPause  = 50 * time.Millisecond
)

// request is one append that waits for the writer.
type request struct {
	ctx     context.Context
	entries []record.Entry
	guard   func(ctx context.Context, q querier) error // what must still be true when it is written; such an append has a transaction of its own
	answer  chan answer
}

type answer struct {
	entries []record.Entry
	err     error
}

// Append seals entries onto the chain, in their order and all or none, and returns them as they are stored: with Seq, Entered, Prev and
// Hash, which are not looked at in what is given. An entry whose ID is there already is not taken in again; it is answered with what is
// stored, or with a *ConflictError if it tells something else. An entry that makes no sense is a *record.FieldError;
// bodies are not looked at, but for files of the book.
//
// When the context ends first the entries may have been stored or not. Send them again.
func (s *Store) Append(ctx context.Context, entries []record.Entry) ([]record.Entry, error) {
	return s.append(ctx, entries, nil)
}

func (s *Store) append(ctx context.Context, entries []record.Entry, guard func(context.Context, querier) error) ([]record.Entry, error) {
	if len(entries) == 0 {
		return nil, ctx.Err()
	}
	for i, e := range entries {
		e.Entered = s.now()
		err := e.Check()
		if err == nil && e.Kind == booked { // the book is read from these, so none of them may be unreadable
			_, err = readBooked(e)
		}
		if err != nil {
			return nil, fmt.Errorf("store: entry %d of %d: %w", i+1, len(entries), err)
		}
	}
	r := &request{ctx: ctx, entries: slices.Clone(entries), guard: guard, answer: make(chan answer, 1)}
	select {
	case s.requests <- r:
	case <-ctx.Done():
		return nil, ctx.Err()
	case <-s.quit:
		return nil, s.trouble(Closed, "is closed", nil)
	}
	select {
	case a := <-r.answer:
		return a.entries, a.err
	case <-ctx.Done():
		return nil, ctx.Err()
	}
}

// writeGroups is the only writer of this process. While one group is being written the next gathers, so that many small appends at once
// share one wait for the disk.
func (s *Store) writeGroups() {
	var next *request
	for {
		if next == nil {
			select {
			case next = <-s.requests:
			case <-s.quit:
				return
			}
		}
		group := []*request{next}
		next = s.gather(&group)
		s.writeGroup(group)
	}
}

// gather adds what waits to the group. It returns what was taken but goes into the next one.
func (s *Store) gather(group *[]*request) *request {
	size := len((*group)[0].entries)
	if (*group)[0].guard != nil {
		return nil
	}
	for size < groupLimit {
		select {
		case r := <-s.requests:
			if r.guard != nil {
				return r
			}
			*group = append(*group, r)
			size += len(r.entries)
		default:
			return nil
		}
	}
	return nil
}

// writeGroup tries until it is written, or something else is wrong than that another program was faster.
func (s *Store) writeGroup(group []*request) {
	group = slices.DeleteFunc(group, func(r *request) bool { return r.ctx.Err() != nil })
	if len(group) == 0 {
		return
	}
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	late := Unreachable // what it is when time runs out
	for pause := firstPause; ; pause = min(2*pause, lastPause) {
		answers, head, err := s.transact(ctx, group)
		if err == nil {
			s.news.tell(head.Seq)
			for i, r := range group {
				r.answer <- answers[i]
			}
			return
		}
		code := codeOf(err)
		switch {
		case ctx.Err() != nil:
			err = s.trouble(late, fmt.Sprintf("entries could not be written within %v", patience), err)
		case code == taken, code == serialise:
			late = Contended
			time.Sleep(pause)
			continue
		default:
			err = s.fail("take in entries", err)
		}
		for _, r := range group {
			r.answer <- answer{err: err}
		}
		return
	}
}

// transact is one try. The answers are those of the group, in its order.
func (s *Store) transact(ctx context.Context, group []*request) ([]answer, record.Head, error) {
	tx, err := s.write.BeginTx(ctx, &sql.TxOptions{Isolation: sql.LevelSerializable})
	if err != nil {
		return nil, record.Head{}, err
	}
	defer tx.Rollback() // after a commit it does nothing
	q := writing{tx, s.prepared}
	if guard := group[0].guard; guard != nil {
		if err := guard(ctx, q); err != nil {
			return nil, record.Head{}, err
		}
	}
	seal := sealer{now: s.now()}
	if seal.head, err = s.headOf(ctx, q); err != nil {
		return nil, record.Head{}, err
	}
	var ids []record.ID
	for _, r := range group {
		for _, e := range r.entries {
			ids = append(ids, e.ID)
		}
	}
	if seal.known, err = s.stored(ctx, q, ids); err != nil {
		return nil, record.Head{}, err
	}
	answers := make([]answer, len(group))
	for i, r := range group {
		answers[i].entries, answers[i].err = seal.take(r.entries)
	}
	if len(seal.fresh) == 0 {
		return answers, seal.head, nil
	}
	if err := insert(ctx, q, seal.fresh); err != nil {
		return nil, record.Head{}, err
	}
	return answers, seal.head, tx.Commit()
}
