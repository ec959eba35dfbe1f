package app

import (
	"context"
	"fmt"
	"slices"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/learned"
	"kettlefrost/internal/record"
	"kettlefrost/internal/spelling"
)

// LessonError says why something cannot be said of a figure.
type LessonError struct {
	Figure, Problem, Fix string
}

func (e *LessonError) Error() string { return e.Figure + ": " + e.Problem + "; " + e.Fix }

// Figure is a figure by its place in the book. An unknown one is a *LessonError.
func (x Lessons) Figure(key string) (learned.Figure, error) {
	var keys []string
	for _, f := range x.Figures {
		if f.Key == key {
			return f, nil
		}
		keys = append(keys, f.Key)
	}
	fix := "nothing was learned of any figure yet"
	if len(keys) > 0 {
		fix = "there is " + keys[0]
		if near := spelling.Nearest(key, keys); near != "" {
			fix = "near it is " + near
		}
	}
	return learned.Figure{}, &LessonError{key, "no run says anything of it", fix}
}

// Changes are what accepting a figure changes in the book.
func (x Lessons) Changes(f learned.Figure) []bookfile.Change {
	switch {
	case f.Kind != learned.Fills && f.State == learned.Waiting:
		return []bookfile.Change{bookfile.Set(f.Key, f.Said[0].Body.After)}
	case f.Kind != learned.Fills:
		return []bookfile.Change{bookfile.Set(f.Key, f.After)}
	}
	var changes []bookfile.Change
	for _, w := range f.Weighings(x.Runs) {
		changes = append(changes, bookfile.Append(f.Key, w))
	}
	return changes
}

// Try is what accepting a figure would make of the book, or what was accepted and is not in it yet; nothing is changed. Errors are
// *LessonError and *bookfile.EditError.
func (l *Learning) Try(ctx context.Context, key string) (Lessons, learned.Figure, BookEdit, error) {
	x, err := l.Lessons(ctx)
	if err != nil {
		return x, learned.Figure{}, BookEdit{}, err
	}
	f, err := x.Figure(key)
	if err != nil || !f.Changes() && f.State != learned.Waiting {
		return x, f, BookEdit{}, err
	}
	edit, err := l.house.TryBook(x.Changes(f)...)
	return x, f, edit, err
}

// Accept enters that a figure was learned and from what, and sets it in the book to what was proposed. After is the proposal as it was seen:
// another by now is refused. Of a book in a folder it says what its files should be, and somebody writes them. What was accepted before and
// is not in the book yet is put there. The same id does it once. Errors are *LessonError, those of EditBook and those of Enter.
func (l *Learning) Accept(ctx context.Context, id record.ID, by Author, key, after string) (learned.Figure, BookEdit, error) {
	x, f, edit, err := l.Try(ctx, key)
	if err != nil {
		return f, edit, err
	}
	if f.State != learned.Waiting {
		if done, err := l.saidBefore(ctx, id); done || err != nil {
			return f, BookEdit{Saved: done}, err
		}
		if err := l.say(ctx, id, by, f, edit, after); err != nil {
			return f, edit, err
		}
	}
	edit, err = l.house.EditBook(ctx, PartID(id, 1), by, x.Changes(f)...)
	return f, edit, err
}

// say enters that a figure is accepted, if it still is what was seen and the book could be planned with then.
func (l *Learning) say(ctx context.Context, id record.ID, by Author, f learned.Figure, edit BookEdit, after string) error {
	switch {
	case !f.Changes():
		return &LessonError{f.Key, "there is nothing to accept: " + string(f.State), "look at the page again"}
	case f.After != after:
		return &LessonError{f.Key, fmt.Sprintf("it is %s by now, not %s: something was entered meanwhile", f.After, after), "look at it again, and accept what it is now"}
	case edit.Stops:
		return &StopsError{edit.Found}
	}
	if l.house.InRecords() {
		if err := l.records.mayBook(ctx, by); err != nil {
			return err
		}
	}
	said, err := f.Entry(record.TakenOver)
	if err != nil {
		return err
	}
	_, err = l.records.Enter(ctx, Said{ID: id, Who: by.Who, Device: by.Device, At: by.At, Body: said})
	return err
}

// saidBefore is that a form was sent before.
func (l *Learning) saidBefore(ctx context.Context, id record.ID) (bool, error) {
	if id == (record.ID{}) {
		return false, nil
	}
	_, there, err := l.records.store.ByID(ctx, id)
	return there, err
}

// Refusal is the entry that refuses a proposal: it is not made again until a run has come. Errors are *LessonError.
func (x Lessons) Refusal(key string) (record.Learned, error) {
	f, err := x.Figure(key)
	if err != nil {
		return record.Learned{}, err
	}
	if !f.Changes() {
		return record.Learned{}, &LessonError{key, "there is nothing to refuse: " + string(f.State), "look at the page again"}
	}
	return f.Entry(record.Refused)
}

// Leaving is the entry that leaves a run out of a figure. Errors are *LessonError.
func (x Lessons) Leaving(key, run, why string) (record.LeftOut, error) {
	f, err := x.Figure(key)
	if err != nil {
		return record.LeftOut{}, err
	}
	i := slices.IndexFunc(f.Seen, func(s learned.Seen) bool { return s.Run == run })
	switch {
	case i < 0:
		return record.LeftOut{}, &LessonError{key, "the run " + run + " does not count for it", "name one that does"}
	case f.Seen[i].LeftOut != "":
		return record.LeftOut{}, &LessonError{key, "the run " + run + " is left out already: " + f.Seen[i].LeftOut, "take that entry back to count it again"}
	case why == "":
		return record.LeftOut{}, &LessonError{key, "nobody says why " + run + " is left out", "write what was wrong with it"}
	}
	return record.LeftOut{Figure: key, Run: run, Why: why}, nil
}
