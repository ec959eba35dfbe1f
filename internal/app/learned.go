package app

import (
	"context"
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
}

// madeMemo is a run that was worked out, for as long as neither it nor the book changes.
type madeMemo struct {
	version int
	book    [32]byte
	made    learned.Made
}

// workKey is what the work of a run follows from.
type workKey struct {
	book    record.Hash
	request string
}

// NewLearning follows what is entered in some records, with their productions.
func NewLearning(records *Records, house *App, boards *Boards) *Learning {
	l := &Learning{records: records, house: house, boards: boards.state, made: map[string]madeMemo{}, work: map[workKey]plan.Expected{}}
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
	if x.Runs, err = l.read(ctx, &x, runs, told); err != nil {
		return x, err
	}
	x.Figures, err = learned.Of(x.Book, x.Runs, *told)
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

// read works out what each run should have come to, by the book that it was opened by.
func (l *Learning) read(ctx context.Context, x *Lessons, runs []*board.Run, told *learned.Told) ([]learned.Made, error) {
	goods, err := l.goods(ctx, runs)
	if err != nil {
		return nil, err
	}
	past, err := l.books(ctx, x.Book, runs, told)
	if err != nil {
		return nil, err
	}
	l.mu.Lock()
	defer l.mu.Unlock()
	sum := l.house.writtenSum()
	var all []learned.Made
	for _, r := range runs {
		m, known := l.made[r.Name]
		if !known || m.version != r.Version || m.book != sum {
			made, why, err := l.readOne(ctx, r, past)
			switch {
			case err != nil:
				return nil, err
			case why != "":
				x.Unread = append(x.Unread, learned.Excluded{Run: r.Name, Why: why})
				continue
			}
			m = madeMemo{r.Version, sum, made}
			l.made[r.Name] = m
		}
		m.made.Goods = goods
		all = append(all, m.made)
	}
	return all, ctx.Err()
}

// readOne works out one run, or says why it cannot.
func (l *Learning) readOne(ctx context.Context, r *board.Run, past *pastBooks) (learned.Made, string, error) {
	opened, says, _ := r.Opened()
	book, hash, sure, err := past.of(opened.Seq, says)
	if err != nil {
		return learned.Made{}, "", err
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

// goods are the ingredients that the lots are which went in.
func (l *Learning) goods(ctx context.Context, runs []*board.Run) (map[record.Lot]string, error) {
	goods := map[record.Lot]string{}
	err := l.records.Lots(ctx, func(s *lots.State, _ finding.List) error {
		for _, r := range runs {
			for _, u := range board.Of[record.Used](r) {
				if lot := s.Lot(u.Lot); lot != nil && lot.Sort == lots.Goods {
					goods[u.Lot] = lot.What
				}
			}
		}
		return nil
	})
	return goods, err
}

// Learning is what the runs of some records say of the figures of this book.
func (a *App) Learning(records *Records, boards *Boards) *Learning {
	return NewLearning(records, a, boards)
}
