package app

import (
	"context"
	"crypto/sha256"
	"fmt"
	"maps"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"kettlefrost/internal/board"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Boards shows productions as they happen: what was entered of each, over its plan, and the rest of the day timed again.
type Boards struct {
	records *Records
	house   BookHouse
	state   *boardKeeper

	mu       sync.Mutex
	live     map[string]*live
	coolings map[string]coolingsKept
}

// BookHouse is where a book is kept; *App is one.
type BookHouse interface {
	Book() (kitchen.Book, finding.List)
	Foods() *foodtable.Table
	Now() time.Time
}

// NewBoards follows the productions of some records.
func NewBoards(records *Records, house BookHouse) *Boards {
	return &Boards{records: records, house: house, state: keepBoards(records), live: map[string]*live{}, coolings: map[string]coolingsKept{}}
}

// boardKeeper keeps up the state of the boards. Entries may come in any order and be taken back: it never folds again.
type boardKeeper struct {
	state board.State
	all   atomic.Pointer[[]*board.Run] // copies of all productions, the last opened first; nil since one of them changed
}

// keepBoards begins to follow, from what was read already.
func keepBoards(r *Records) *boardKeeper {
	r.mu.Lock()
	defer r.mu.Unlock()
	k := &boardKeeper{}
	for e := range r.standing.All() {
		k.state.Put(e)
	}
	r.keepers = append(r.keepers, k)
	return k
}

func (k *boardKeeper) changed(c record.Change) {
	if c.Is == nil || board.Heeds(c.Is.Kind) {
		k.all.Store(nil)
	}
	if c.Is == nil {
		k.state.Drop(c.Was.ID)
		return
	}
	k.state.Put(*c.Is)
}

func (k *boardKeeper) due() bool { return false }

func (k *boardKeeper) bring(*record.Standing) {}

// runs are copies of all productions, which are the same until one of them changes. It needs the lock of the records, to read.
func (k *boardKeeper) runs() []*board.Run {
	if all := k.all.Load(); all != nil {
		return *all
	}
	all := k.state.All()
	for i, r := range all {
		all[i] = r.Copy()
	}
	k.all.Store(&all)
	return all
}

// Runs are the productions of which anything was entered, the last opened first. They are not to be changed.
func (b *Boards) Runs(ctx context.Context) ([]*board.Run, error) {
	if err := b.records.bring(ctx); err != nil {
		return nil, err
	}
	b.records.mu.RLock()
	defer b.records.mu.RUnlock()
	return slices.Clone(b.state.runs()), nil
}

// UnknownRunError says that nothing was entered of a production.
type UnknownRunError struct {
	Run   string
	Known []string
}

func (e *UnknownRunError) Error() string {
	if len(e.Known) == 0 {
		return fmt.Sprintf("no production is called %q: none was opened yet", e.Run)
	}
	return fmt.Sprintf("no production is called %q: there is %s", e.Run, strings.Join(e.Known[:min(len(e.Known), mostNamed)], ", "))
}

// run is a production as it stands, and the last entry that was read.
func (b *Boards) run(ctx context.Context, name string) (*board.Run, uint64, error) {
	if err := b.records.bring(ctx); err != nil {
		return nil, 0, err
	}
	b.records.mu.RLock()
	defer b.records.mu.RUnlock()
	if r := b.state.state.Run(name); r != nil {
		return r.Copy(), b.records.seen, nil
	}
	unknown := &UnknownRunError{Run: name}
	for _, r := range b.state.runs() {
		unknown.Known = append(unknown.Known, r.Name)
	}
	return nil, 0, unknown
}

// PlanHash is the hash of what a plan is made from: the files that the book and the request would be written to, without other runs, and
// without what is on hand, which changes by the hour.
func PlanHash(book kitchen.Book, req kitchen.Request) (record.Hash, error) {
	book = unstocked(book)
	book.Runs = map[string]kitchen.Request{"opened": req}
	files, err := bookfile.Write(book)
	if err != nil {
		return record.Hash{}, err
	}
	sum := sha256.New()
	for _, name := range slices.Sorted(maps.Keys(files)) {
		fmt.Fprintf(sum, "%s %d\n%s", name, len(files[name]), files[name]) // writing to a hash never fails
	}
	return record.Hash(sum.Sum(nil)), nil
}

// unstocked is the book without what is on hand.
func unstocked(book kitchen.Book) kitchen.Book {
	goods, packs := map[kitchen.IngredientID]kitchen.Ingredient{}, map[kitchen.PackID]kitchen.Pack{}
	for id, g := range book.Ingredients {
		g.Stock, g.Lots = unit.Amount{}, nil
		goods[id] = g
	}
	for id, p := range book.Packs {
		p.Frozen = 0
		packs[id] = p
	}
	book.Ingredients, book.Packs = goods, packs
	return book
}

// Opening is the entry that opens a production of a run of the book on a day. Without a name it is called after both.
func (b *Boards) Opening(ctx context.Context, request, day, name string) (record.Opened, error) {
	book, _ := b.house.Book()
	req, err := Request(book, request)
	if err != nil {
		return record.Opened{}, err
	}
	if day == "" {
		day = b.house.Now().Format(time.DateOnly)
	}
	if name == "" {
		name = request + "-" + day
	}
	if r, _, err := b.run(ctx, name); err == nil && r.Open() {
		return record.Opened{}, fmt.Errorf("%s is open already: give this one another name", name)
	}
	req.Day = day
	hash, err := PlanHash(book, req)
	return record.Opened{Run: name, Request: request, Day: record.Day(day), Plan: hash}, err
}

// Production is one production on its board, at a moment.
type Production struct {
	Run    *board.Run
	Seq    uint64 // of the last entry of all that is in it
	Opened record.Opened
	Since  board.Told // the entry that opened it
	Open   bool
	Book   kitchen.Book // that it is made by
	First  plan.Plan    // before it began
	Timed  plan.Plan    // timed again with what happened, the last that there is
	Fresh  bool         // everything that was entered, and this minute, are in it
	Now    unit.Moment
	Clock  board.Clock
	Board  board.Board
	Found  finding.List // about the whole: the book that was changed, a day that cannot be timed
}

// Ends is when the day ends as timed now, and as planned.
func (p *Production) Ends() (now, planned unit.Moment) {
	return p.Timed.Timetable.End, p.First.Timetable.End
}

// Columns is what everybody does, and next.
func (p *Production) Columns() []board.Column { return p.Board.Outlook(p.First, p.Timed, p.Now) }

// Production is the board of a production as it stands. It does not wait for the day to be timed again, unless it is told to: then what it
// shows is as things were at most a moment before. Errors are *UnknownRunError and those of the store.
func (b *Boards) Production(ctx context.Context, name string, wait bool) (*Production, error) {
	r, seq, err := b.run(ctx, name)
	if err != nil {
		return nil, err
	}
	p := &Production{Run: r, Seq: seq, Open: r.Open()}
	p.Since, p.Opened, _ = r.Opened()
	p.Clock = wallClock(string(p.Opened.Day), b.house.Now().Location())
	p.Now = p.Clock(record.Instant(b.house.Now().UnixMilli()))
	l := b.liveOf(name)
	if err := l.pin(ctx, b.house, p); err != nil {
		return nil, err
	}
	p.Board = board.Read(r, p.First, l.needs)
	l.retime(ctx, p, wait)
	return p, nil
}

func (b *Boards) liveOf(name string) *live {
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.live[name] == nil {
		b.live[name] = &live{}
	}
	return b.live[name]
}

// wallClock turns times into moments of a run that starts on a day, by the clock on the wall of a place. Times before that day are its
// midnight.
func wallClock(day string, place *time.Location) board.Clock {
	start, err := time.Parse(time.DateOnly, day)
	return func(i record.Instant) unit.Moment {
		t := time.UnixMilli(int64(i)).In(place)
		date := time.Date(t.Year(), t.Month(), t.Day(), 0, 0, 0, 0, time.UTC)
		if err != nil {
			start = date
		}
		return max(0, unit.Moment(int(date.Sub(start).Hours()/24)*24*60+t.Hour()*60+t.Minute()))
	}
}

// foundAbout is a finding about the production as a whole.
func foundAbout(name, code string, severity finding.Severity, message, fix string) finding.Finding {
	return finding.Finding{Code: code, Severity: severity, Where: "run " + name, Path: "runs." + name, Message: message, Fix: fix}
}

// notTimed is why a plan has no timetable, in words.
func notTimed(p plan.Plan) string {
	if i := slices.IndexFunc(p.Findings, func(f finding.Finding) bool { return f.Code == plan.CodeNoTimetable }); i >= 0 {
		return p.Findings[i].Message
	}
	return "the rest of the day could not be timed again"
}
