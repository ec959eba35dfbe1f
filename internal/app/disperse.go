package app

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/dispersal"
	"kettlefrost/internal/dosing"
	"kettlefrost/internal/formula"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// DisperseTyped is a powder to be got into a dish, as it was typed. What is empty is left to the dish.
type DisperseTyped struct {
	Dish, Of  string
	Dose      string // 22 g, 0.2 %, 0.5 g per cup
	Way, Into string
	With      string
	Run       string // the run of the book that it is planned in; the dish alone, as it is written, when left out
}

// Fields of DisperseTyped, as addresses and flags have them.
const (
	DisperseDose = "dose"
	DisperseRun  = "run"
)

// Asked reads it. The error is a *dispersal.InputError.
func (t DisperseTyped) Asked() (dispersal.Asked, error) {
	a := dispersal.Asked{Dish: kitchen.DishID(t.Dish), Of: kitchen.IngredientID(t.Of), Way: dosing.Way(t.Way), Into: t.Into, With: kitchen.IngredientID(t.With)}
	if t.Dose == "" {
		return a, nil
	}
	own, err := formula.ParseOwn(t.Dose)
	if wrong, ok := errors.AsType[*formula.OwnError](err); ok {
		return a, &dispersal.InputError{What: fmt.Sprintf("%q", wrong.Text), Reason: wrong.Reason, Fix: wrong.Fix}
	}
	a.Dose = own
	return a, err
}

// Dispersed is a powder got into a dish: its steps, what that changes of the book, and of a day.
type Dispersed struct {
	dispersal.Worked
	Book    kitchen.Book    // as it is
	Edit    BookEdit        // what putting it into the dish changes; no files when nothing changes
	Request kitchen.Request // what was planned; no targets when there is nothing to plan it by
	Then    *plan.Plan      // with the powder got into the dish
	Now     *plan.Plan      // of the dish as it is, where that is otherwise
}

// DisperseChange is what makes the dish of the book the one that was worked out.
func DisperseChange(w dispersal.Worked) bookfile.Change {
	return bookfile.Set(kitchen.PathTo("dishes", string(w.Dish)), w.After)
}

// Disperse works out how a powder is got into a dish, and plans the dish with it. Errors: those of dispersal.Work and of TryBook.
func (a *App) Disperse(ctx context.Context, t DisperseTyped) (Dispersed, error) {
	asked, err := t.Asked()
	if err != nil {
		return Dispersed{}, err
	}
	book, _ := a.Book()
	w, err := dispersal.Work(book, a.foods, asked)
	if err != nil {
		return Dispersed{}, err
	}
	d := Dispersed{Worked: w, Book: book}
	if d.Edit, err = a.TryBook(DisperseChange(w)); err != nil {
		return Dispersed{}, err
	}
	if d.Request, err = dispersedRun(book, w, t.Run); err != nil {
		return Dispersed{}, err
	}
	if len(d.Request.Want) == 0 {
		return d, nil
	}
	after := a.Plan(ctx, d.Edit.Book, d.Request)
	d.Then = &after
	if len(d.Edit.Files) > 0 {
		before := a.Plan(ctx, book, d.Request)
		d.Now = &before
	}
	return d, nil
}

// dispersedRun is what the dish is planned by: a run of the book, or as many packs as the dish gives as it is written.
func dispersedRun(book kitchen.Book, w dispersal.Worked, run string) (kitchen.Request, error) {
	if run != "" {
		req, err := Request(book, run)
		if err != nil {
			return req, &dispersal.InputError{What: "the run", Reason: err.Error(), Fix: "name one, or none"}
		}
		return req, nil
	}
	pack, ok := book.Packs[w.Pot.Pack]
	if !ok {
		return kitchen.Request{}, nil
	}
	var each unit.Mass
	for _, f := range pack.Fill {
		each += f.Mass
	}
	if each == 0 {
		return kitchen.Request{}, nil
	}
	count := max(1, int(w.Gives/each))
	return kitchen.Request{Name: fmt.Sprintf("%d × %s", count, pack.Name), Want: []kitchen.Want{{Pack: w.Pot.Pack, Count: count}}}, nil
}

// PutIn puts what was shown into the dish of the book, as EditBook does. was is the Mark of the edit that was shown; when the files have changed
// since, nothing is done and the error is a *DishChangedError.
func (a *App) PutIn(ctx context.Context, id record.ID, by Author, t DisperseTyped, was string) (BookEdit, error) {
	if done, err := a.sentBefore(ctx, id); done || err != nil {
		return BookEdit{Saved: done}, err
	}
	asked, err := t.Asked()
	if err != nil {
		return BookEdit{}, err
	}
	book, _ := a.Book()
	w, err := dispersal.Work(book, a.foods, asked)
	if err != nil {
		return BookEdit{}, err
	}
	edit, err := a.TryBook(DisperseChange(w))
	if err != nil {
		return BookEdit{}, err
	}
	if edit.Mark() != was {
		return edit, &DishChangedError{Dish: w.Before.Name}
	}
	return a.EditBook(ctx, id, by, DisperseChange(w))
}

// DishChangedError is a dish that somebody changed since it was looked at.
type DishChangedError struct{ Dish string }

// Error is one line.
func (e *DishChangedError) Error() string {
	return e.Dish + " was changed meanwhile, and nothing was done: look at it again"
}

// stepIn is a step of the dish in a plan of it.
func (d Dispersed) stepIn(p *plan.Plan, id string) (plan.Step, bool) {
	if p == nil {
		return plan.Step{}, false
	}
	for _, x := range p.Dishes {
		if i := slices.IndexFunc(x.Steps, func(s plan.Step) bool { return s.ID == id }); x.ID == string(d.Dish) && i >= 0 {
			return x.Steps[i], true
		}
	}
	return plan.Step{}, false
}
