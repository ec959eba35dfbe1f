package app

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"sync"
	"time"

	"kettlefrost/internal/board"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/learned"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
)

// Learning is what the runs of some records say of the figures of a book.
type Learning struct {
	records *Records
	house   *App
	boards  *boardKeeper
	told    *follower[*learned.Told]

	mu   sync.Mutex
	made map[string]madeMemo // by the run
	work map[workKey]plan.Expected
	by   map[record.ID]openedBy // by the entry that opened the run
}

// openedBy is the book that a run was opened by, when it was found: it stays so whatever the book becomes.
type openedBy struct {
	book kitchen.Book
	hash record.Hash
}

// madeMemo is a run that was read, for as long as neither it nor the book changes, nor what its lots are.
type madeMemo struct {
	version int
	book    [32]byte
	goods   map[record.Lot]string
	read    learned.Observed
}

// workKey is what the work of a run follows from.
type workKey struct {
	book    record.Hash
	request string
}

// NewLearning follows what is entered in some records, with their productions.
func NewLearning(records *Records, house *App, boards *Boards) *Learning {
	l := &Learning{records: records, house: house, boards: boards.state, made: map[string]madeMemo{}, work: map[workKey]plan.Expected{}, by: map[record.ID]openedBy{}}
	records.mu.Lock()
	defer records.mu.Unlock()
	l.told = follow(records, fold[*learned.Told]{empty: func() *learned.Told { return &learned.Told{} }, take: takeTold, heeds: learned.Heeds})
	for e := range records.standing.All() {
		e := e
		l.told.changed(record.Change{Is: &e})
	}
	return l
}

func takeTold(t *learned.Told, e record.Entry) finding.List {
	if err := t.Take(e); err != nil {
		return finding.List{{Code: board.CodeUnreadable, Severity: finding.Caution, Where: "entry " + e.ID.String(), Path: "entries." + e.ID.String(), Message: err.Error(), Fix: "enter it again"}}
	}
	return nil
}

// Lessons is what there is to learn at a moment.
type Lessons struct {
	Book    kitchen.Book // as it is written
	Figures []learned.Figure
	Runs    []learned.Made // in the order in which they were opened
	Unread  []learned.Excluded
	Found   finding.List
}

// Lessons are what all runs say of all figures. Runs under way are not read. Errors are those of the store.
func (l *Learning) Lessons(ctx context.Context) (Lessons, error) {
	if err := l.records.bring(ctx); err != nil {
		return Lessons{}, err
	}
	book, found := l.house.written()
	x := Lessons{Book: unstocked(book)}
	if found.Worst() == finding.Stop {
		x.Found = found
		return x, nil
	}
	runs, told, err := l.entered(ctx, &x)
	if err != nil {
		return x, err
	}
	read, err := l.read(ctx, &x, runs, told)
	if err != nil {
		return x, err
	}
	for _, o := range read {
		x.Runs = append(x.Runs, o.Made)
	}
	x.Figures, err = learned.Of(x.Book, read, *told)
	return x, err
}

// entered are the runs that are over, in the order in which they were opened, and what was told of figures.
func (l *Learning) entered(ctx context.Context, x *Lessons) (runs []*board.Run, told *learned.Told, err error) {
	today := l.house.now().Format(time.DateOnly)
	err = lookAt(ctx, l.records, l.told, func(t *learned.Told, found finding.List) error {
		x.Found = append(x.Found, found...)
		told = t.Copy()
		for _, r := range l.boards.state.All() {
			_, opened, ok := r.Opened()
			switch {
			case !ok:
				x.Unread = append(x.Unread, learned.Excluded{Run: r.Name, Why: "nobody opened it: it has no plan"})
			case r.Open() && string(opened.Day) >= today:
				x.Unread = append(x.Unread, learned.Excluded{Run: r.Name, Why: "it is under way"})
			default:
				runs = append(runs, r.Copy())
			}
		}
		return nil
	})
	slices.Reverse(runs)
	return runs, told, err
}

// read reads the runs, each by the book that it was opened by.
func (l *Learning) read(ctx context.Context, x *Lessons, runs []*board.Run, told *learned.Told) ([]learned.Observed, error) {
	goods, err := l.goods(ctx, runs)
	if err != nil {
		return nil, err
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	var past *pastBooks
	sum := l.house.writtenSum()
	var all []learned.Observed
	for i, r := range runs {
		tellJob(ctx, fmt.Sprintf("Reading run %d of %d", i+1, len(runs)), i, len(runs))
		m, known := l.made[r.Name]
		if !known || m.version != r.Version || m.book != sum || !maps.Equal(m.goods, goods[r.Name]) {
			if past == nil {
				if past, err = l.books(ctx, x.Book, runs, told); err != nil {
					return nil, err
				}
			}
			made, why, err := l.readOne(ctx, r, past)
			switch {
			case err != nil:
				return nil, err
			case why != "":
				x.Unread = append(x.Unread, learned.Excluded{Run: r.Name, Why: why})
				continue
			}
			made.Goods = goods[r.Name]
			m = madeMemo{r.Version, sum, made.Goods, learned.Observe(x.Book, made)}
			l.made[r.Name] = m
		}
		all = append(all, m.read)
	}
	return all, ctx.Err()
}

// readOne works out one run, or says why it cannot.
func (l *Learning) readOne(ctx context.Context, r *board.Run, past *pastBooks) (learned.Made, string, error) {
	opened, says, _ := r.Opened()
	by, sure := l.by[opened.ID]
	book, hash := by.book, by.hash
	if !sure || hash != says.Plan {
		var err error
		if book, hash, sure, err = past.of(opened.Seq, says); err != nil {
			return learned.Made{}, "", err
		}
		if sure {
			l.by[opened.ID] = openedBy{book, hash}
		}
	}
	req, err := Request(book, says.Request)
	if err != nil {
		return learned.Made{}, "what it made is not in the book any more: " + err.Error(), nil
	}
	req.Day = string(says.Day)
	key := workKey{hash, says.Request}
	work, known := l.work[key]
	if !known {
		work = plan.Expect(ctx, book, l.house.foods, req)
		if ctx.Err() != nil {
			return learned.Made{}, "", ctx.Err()
		}
		l.work[key] = work
	}
	if len(work.Dishes) == 0 {
		return learned.Made{}, "it cannot be planned by the book as it is", nil
	}
	return learned.Made{Run: r, Day: string(says.Day), Book: book, Sure: sure, Expected: work, Clock: wallClock(string(says.Day), l.house.now().Location())}, "", nil
}

// goods are, of each run, the ingredients that the lots are which went in.
func (l *Learning) goods(ctx context.Context, runs []*board.Run) (map[string]map[record.Lot]string, error) {
	goods := map[string]map[record.Lot]string{}
	err := l.records.Lots(ctx, func(s *lots.State, _ finding.List) error {
		for _, r := range runs {
			of := map[record.Lot]string{}
			for _, u := range board.Of[record.Used](r) {
				if lot := s.Lot(u.Lot); lot != nil && lot.Sort == lots.Goods {
					of[u.Lot] = lot.What
				}
			}
			goods[r.Name] = of
		}
		return nil
	})
	return goods, err
}

// Learning is what the runs of some records say of the figures of this book.
func (a *App) Learning(records *Records, boards *Boards) *Learning {
	return NewLearning(records, a, boards)
}
