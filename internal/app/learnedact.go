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
	if f.Kind != learned.Fills {
		return []bookfile.Change{bookfile.Set(f.Key, f.After)}
	}
	var changes []bookfile.Change
	for _, w := range f.Weighings(x.Runs) {
		changes = append(changes, bookfile.Append(f.Key, w))
	}
	return changes
}

// Try is what accepting a figure would make of the book; nothing is changed. Errors are *LessonError and *bookfile.EditError.
func (l *Learning) Try(ctx context.Context, key string) (Lessons, learned.Figure, BookEdit, error) {
	x, err := l.Lessons(ctx)
	if err != nil {
		return x, learned.Figure{}, BookEdit{}, err
	}
	f, err := x.Figure(key)
	if err != nil || !f.Changes() && f.State != learned.Waiting {
		return x, f, BookEdit{}, err
	}
	if f.State == learned.Waiting {
		f.After = f.Said[0].Body.After
	}
	edit, err := l.house.TryBook(x.Changes(f)...)
	return x, f, edit, err
}

// Accept sets a figure in the book to what was proposed, and enters that it was learned and from what. After is the proposal as it was seen:
// another by now is refused. Of a book in a folder it changes nothing and says what its files should be. The same id does it once. Errors are
// *LessonError, those of EditBook and those of Enter.
func (l *Learning) Accept(ctx context.Context, id record.ID, by Author, key, after string) (learned.Figure, BookEdit, error) {
	x, err := l.Lessons(ctx)
	if err != nil {
		return learned.Figure{}, BookEdit{}, err
	}
	if done, err := l.saidBefore(ctx, id); done || err != nil {
		f, _ := x.Figure(key)
		return f, BookEdit{Saved: done}, err
	}
	f, err := x.Figure(key)
	switch {
	case err != nil:
		return f, BookEdit{}, err
	case !f.Changes():
		return f, BookEdit{}, &LessonError{key, "there is nothing to accept: " + string(f.State), "look at the page again"}
	case f.After != after:
		return f, BookEdit{}, &LessonError{key, fmt.Sprintf("it is %s by now, not %s: something was entered meanwhile", f.After, after), "look at it again, and accept what it is now"}
	}
	said, err := f.Entry(record.TakenOver)
	if err != nil {
		return f, BookEdit{}, err
	}
	entry := Said{ID: id, Who: by.Who, Device: by.Device, At: by.At, Body: said}
	if err := l.may(ctx, entry); err != nil {
		return f, BookEdit{}, err
	}
	edit, err := l.house.EditBook(ctx, PartID(id, 1), by, x.Changes(f)...)
	if err != nil {
		return f, edit, err
	}
	_, err = l.records.Enter(ctx, entry)
	return f, edit, err
}

// saidBefore is that a form was sent before.
func (l *Learning) saidBefore(ctx context.Context, id record.ID) (bool, error) {
	if id == (record.ID{}) {
		return false, nil
	}
	_, there, err := l.records.store.ByID(ctx, id)
	return there, err
}

// may says whether who acts may enter what they say, before the book is changed for it.
func (l *Learning) may(ctx context.Context, said Said) error {
	e, err := said.entry()
	if err != nil {
		return err
	}
	return l.records.people.allow(ctx, []record.Entry{e})
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
