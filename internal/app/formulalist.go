package app

import (
	"reflect"
	"sync"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/formula"
	"kettlefrost/internal/kitchen"
)

// Formulas keeps how all dishes stand, for as long as the book says the same: the kitchen's first page asks each time.
type Formulas struct {
	mu   sync.Mutex
	book kitchen.Book
	list formula.List
	made bool
}

// Of is how all dishes of a book stand. Nobody may change what it gives.
func (f *Formulas) Of(book kitchen.Book, foods *foodtable.Table) formula.List {
	f.mu.Lock()
	defer f.mu.Unlock()
	if !f.made || !reflect.DeepEqual(f.book, book) {
		f.book, f.list, f.made = book, formula.ListOf(book, foods), true
	}
	return f.list
}
