// Package app is the use cases: it loads what a case needs, calls the pure packages and hands their answer on. It alone knows where
// books are kept and what day it is.
package app

import (
	"context"
	"fmt"
	"io/fs"
	"maps"
	"slices"
	"sync"
	"time"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
)

// App serves one kitchen's book.
type App struct {
	folder fs.FS
	foods  *foodtable.Table
	now    func() time.Time
	memo   memo
	last   bookMemo

	records *Records   // nil when none are followed
	shown   bool       // folder is only shown until the records hold a book
	begins  sync.Mutex // held while a kitchen of one's own begins
}

// New serves the book in folder, a tree of text files. It is read again at each use, so that an edit shows at once. Now is the
// clock that a request without a day is dated by.
func New(folder fs.FS, now func() time.Time) (*App, error) {
	foods, err := foodtable.Default()
	if err != nil {
		return nil, fmt.Errorf("composition table: %w", err)
	}
	return &App{folder: folder, foods: foods, now: now}, nil
}

// Foods is the open composition table.
func (a *App) Foods() *foodtable.Table { return a.foods }

// Book reads and checks the book: all that is wrong with it, each finding at its place in the files. The book can be planned with
// when no finding is a stop.
func (a *App) Book() (kitchen.Book, finding.List) {
	book, found := a.written()
	book, wrong := a.stocked(book)
	found = append(found, wrong...)
	found.Sort()
	return book, found
}

// read reads and checks the book in a folder.
func (a *App) read(folder fs.FS) (kitchen.Book, finding.List) {
	loaded := bookfile.Read(folder)
	found := loaded.Findings
	if found.Worst() < finding.Stop {
		found = append(found, loaded.Place(kitchen.Check(loaded.Book, a.knows))...)
	}
	return loaded.Book, found
}

func (a *App) knows(ndb string) bool {
	_, ok := a.foods.Lookup(ndb)
	return ok
}

// Request is the run of that name in the book. An unknown name is an error that lists those there are.
func Request(book kitchen.Book, name string) (kitchen.Request, error) {
	req, ok := book.Runs[name]
	if !ok {
		return req, fmt.Errorf("the book has no run %q: it has %v", name, slices.Sorted(maps.Keys(book.Runs)))
	}
	if req.Name == "" {
		req.Name = name
	}
	return req, nil
}

// Plan plans a request. Findings about the book that touch no plan are left to Book. The same request of the same book is planned
// once; a plan that ctx cut short is not kept.
func (a *App) Plan(ctx context.Context, book kitchen.Book, req kitchen.Request) plan.Plan {
	return a.run(ctx, book, a.dated(req)).Plan()
}

// Planned says whether a plan is remembered, so that Plan answers at once.
func (a *App) Planned(book kitchen.Book, req kitchen.Request) bool {
	_, ok := a.memo.get(book, a.dated(req), nil)
	return ok
}

// Retime plans a run that is under way, with what has turned out otherwise. Like Plan, it does the same thing once.
func (a *App) Retime(ctx context.Context, book kitchen.Book, req kitchen.Request, changes kitchen.Changes) plan.Plan {
	req = a.dated(req)
	if x, ok := a.memo.get(book, req, &changes); ok {
		return x.plan
	}
	p := a.run(ctx, book, req).Retime(ctx, changes)
	if ctx.Err() == nil {
		a.memo.put(made{book: book, req: req, changes: &changes, plan: p})
	}
	return p
}

// Seal decides what to fill from what was weighed.
func (a *App) Seal(ctx context.Context, book kitchen.Book, req kitchen.Request, weighed []kitchen.Weighed) plan.Sealing {
	return a.run(ctx, book, a.dated(req)).Seal(weighed)
}

// Week decides what a week is best spent on.
func (a *App) Week(ctx context.Context, book kitchen.Book) plan.Week {
	return plan.PlanWeek(ctx, book, a.foods)
}

// Filling reads the check-weights of a filling of a pack; without any it says how to fill a pack that nobody has weighed.
func (a *App) Filling(book kitchen.Book, id kitchen.PackID, w kitchen.Weighing) (plan.LotWeights, error) {
	return plan.WeighFilling(book, a.foods, id, w)
}

// After says why a run cost more or less than it should have.
func (a *App) After(ctx context.Context, book kitchen.Book, req kitchen.Request, actual kitchen.Actual) plan.After {
	return a.run(ctx, book, a.dated(req)).After(actual)
}

// run is a dated request, planned.
func (a *App) run(ctx context.Context, book kitchen.Book, req kitchen.Request) plan.Run {
	if x, ok := a.memo.get(book, req, nil); ok {
		return x.run
	}
	r := plan.Open(ctx, book, a.foods, req)
	if ctx.Err() == nil {
		a.memo.put(made{book: book, req: req, run: r})
	}
	return r
}

// dated gives a request without a day the clock's.
func (a *App) dated(req kitchen.Request) kitchen.Request {
	if req.Day == "" {
		req.Day = a.now().Format(time.DateOnly)
	}
	return req
}

// Now is what the clock says.
func (a *App) Now() time.Time { return a.now() }
