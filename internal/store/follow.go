package store

import (
	"context"
	"iter"
	"sync"
	"time"

	"kettlefrost/internal/record"
)

// pollEvery is how soon followers see what another process has written.
const pollEvery = 250 * time.Millisecond

// news wakes followers. What this process writes it tells at once; what others write is found by looking at the head.
type news struct {
	mu        sync.Mutex
	seq       uint64        // the highest number that was told
	fresh     chan struct{} // closed when there is something new
	followers int
}

func (n *news) init() { n.fresh = make(chan struct{}) }

// wait is closed at the next news.
func (n *news) wait() <-chan struct{} {
	n.mu.Lock()
	defer n.mu.Unlock()
	return n.fresh
}

func (n *news) tell(seq uint64) {
	n.mu.Lock()
	defer n.mu.Unlock()
	if seq > n.seq {
		n.seq = seq
		n.wake()
	}
}

// wake needs the lock.
func (n *news) wake() {
	close(n.fresh)
	n.fresh = make(chan struct{})
}

func (n *news) join(by int) {
	n.mu.Lock()
	defer n.mu.Unlock()
	n.followers += by
}

// Follow gives the entries after a number and then each new one, whoever writes it, until the context ends. It ends with an error only when
// the database cannot be read; follow again from the last entry that came.
func (s *Store) Follow(ctx context.Context, after uint64) iter.Seq2[record.Entry, error] {
	return func(yield func(record.Entry, error) bool) {
		s.news.join(1)
		defer s.news.join(-1)
		for {
			fresh := s.news.wait() // before reading, so that nothing falls between
			for e, err := range s.Read(ctx, after+1) {
				if ctx.Err() != nil {
					return
				}
				if !yield(e, err) || err != nil {
					return
				}
				after = e.Seq
			}
			select {
			case <-fresh:
			case <-ctx.Done():
				return
			case <-s.quit:
				yield(record.Entry{}, s.trouble(Closed, "is closed", nil))
				return
			}
		}
	}
}

// watch looks for what other processes have written, while somebody follows.
func (s *Store) watch() {
	tick := time.NewTicker(pollEvery)
	defer tick.Stop()
	for {
		select {
		case <-tick.C:
			s.look()
		case <-s.quit:
			return
		}
	}
}

func (s *Store) look() {
	s.news.mu.Lock()
	followers := s.news.followers
	s.news.mu.Unlock()
	if followers == 0 {
		return
	}
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	head, err := s.headOf(ctx, s.read)
	if err != nil { // followers read for themselves, and find out what is wrong
		s.news.mu.Lock()
		defer s.news.mu.Unlock()
		s.news.wake()
		return
	}
	s.news.tell(head.Seq)
}
