package app

import (
	"context"
	"errors"
	"sync"
	"time"

	"kettlefrost/internal/board"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// live is a production that is being looked at: its plan as it was opened, and the last time that its day was timed again.
type live struct {
	mu       sync.Mutex
	openedBy board.Told
	run      plan.Run
	first    plan.Plan
	book     kitchen.Book
	found    finding.List
	needs    map[string][]plan.Need

	timed plan.Plan
	key   timedKey
	stuck string        // why it could not be timed again at last
	rest  time.Time     // until when it is not timed again, so that boards come first
	busy  chan struct{} // closed when what is being timed is done; nil when nothing is
}

// timedKey is what a timetable depends on.
type timedKey struct {
	version int
	at      unit.Moment
}

// longestRest is the longest that a day is not timed again after it was.
const longestRest = 2 * time.Second

// retimeLimit is after how long timing a day again is given up.
const retimeLimit = 20 * time.Second

// firstPatience is how long a board that was never timed again is waited for: as planned, it would show as late all that nobody has begun.
const firstPatience = 400 * time.Millisecond

// pin plans what was opened, once: an edit of the book does not change a production that is under way.
func (l *live) pin(ctx context.Context, house BookHouse, p *Production) error {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.needs == nil || l.openedBy.ID != p.Since.ID {
		if err := l.open(ctx, house, p); err != nil {
			return err
		}
	}
	p.Book, p.First, p.Found = l.book, l.first, l.found
	return nil
}

func (l *live) open(ctx context.Context, house BookHouse, p *Production) error {
	book, _ := house.Book()
	book = unstocked(book)
	found, run, first, needs := finding.List(nil), plan.Run{}, plan.Plan{Kitchen: book.Kitchen.Name, Units: book.Kitchen.Units}, map[string][]plan.Need{}
	req, err := Request(book, p.Opened.Request)
	switch {
	case p.Opened.Run == "":
	case err != nil:
		found = append(found, foundAbout(p.Run.Name, "request-gone", finding.Stop, "what it makes cannot be planned: "+err.Error(), "put the run back into the book"))
	default:
		req.Day = string(p.Opened.Day)
		hash, err := PlanHash(book, req)
		if err != nil {
			return err
		}
		if hash != p.Opened.Plan {
			found = append(found, foundAbout(p.Run.Name, "book-changed", finding.Caution, "the book has changed since this production was opened: its plan is by the book as it is now", "compare with the plan on paper, or put the book back as it was"))
		}
		run = plan.Open(ctx, book, house.Foods(), req)
		if ctx.Err() != nil {
			return ctx.Err()
		}
		first, needs = run.Plan(), run.Needs()
	}
	l.openedBy, l.run, l.first, l.book, l.found, l.needs = p.Since, run, first, book, found, needs
	l.timed, l.key, l.stuck = first, timedKey{}, ""
	return nil
}

// retime gives a production the day as timed again last, and has it timed again when something has happened since or a minute has passed.
func (l *live) retime(ctx context.Context, p *Production, wait bool) {
	want := timedKey{p.Run.Version, p.Now}
	for {
		l.mu.Lock()
		idle := !p.Open || len(l.first.Timetable.Tasks) == 0 // there is nothing to time
		p.Timed, p.Fresh = l.timed, idle || l.key == want
		if !p.Fresh && l.busy == nil {
			l.busy = make(chan struct{})
			go l.time(l.run, p.Board.Changes(l.first, p.Now, p.Clock), want, time.Until(l.rest))
		}
		busy, stuck, never := l.busy, l.stuck, l.key == timedKey{}
		l.mu.Unlock()
		if p.Fresh && stuck != "" && !idle {
			p.Found = append(p.Found[:len(p.Found):len(p.Found)], foundAbout(p.Run.Name, "not-timed", finding.Caution, stuck, "go on as planned, and look at what is late"))
		}
		if p.Fresh || !wait && !never {
			return
		}
		patience := (<-chan time.Time)(nil)
		if !wait {
			patience = time.After(firstPatience)
		}
		select {
		case <-busy:
		case <-patience:
			return
		case <-ctx.Done():
			return
		}
	}
}

// time times the day again after a rest, while the board shows it as it was. It rests as long as it works: when entries come faster than the
// day can be timed, the boards themselves come first.
func (l *live) time(run plan.Run, changes kitchen.Changes, key timedKey, rest time.Duration) {
	time.Sleep(rest)
	began := time.Now()
	ctx, cancel := context.WithTimeout(context.Background(), retimeLimit)
	defer cancel()
	p := run.Retime(ctx, changes)
	l.mu.Lock()
	defer l.mu.Unlock()
	l.key, l.stuck, l.rest = key, "", time.Now().Add(min(time.Since(began), longestRest))
	switch {
	case p.Timetable.Now != nil:
		l.timed = p
	case errors.Is(ctx.Err(), context.DeadlineExceeded):
		l.stuck = "timing the rest of the day again took too long"
	default:
		l.stuck = notTimed(p)
	}
	close(l.busy)
	l.busy = nil
}
