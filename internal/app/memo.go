package app

import (
	"reflect"
	"sync"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
)

// memo keeps the last plans, so that a page and the drawings on it are one computation.
type memo struct {
	mu   sync.Mutex
	made []made // oldest first
}

// made is a plan with all that went into it.
type made struct {
	book    kitchen.Book
	req     kitchen.Request
	changes *kitchen.Changes // nil before the run
	run     plan.Run         // before it
	plan    plan.Plan        // under way
}

// remembered is how many plans are kept: a page with its drawings, and what somebody goes back to.
const remembered = 16

func (m *memo) get(book kitchen.Book, req kitchen.Request, changes *kitchen.Changes) (made, bool) {
	m.mu.Lock()
	defer m.mu.Unlock()
	for _, x := range m.made {
		if reflect.DeepEqual(x.req, req) && reflect.DeepEqual(x.changes, changes) && reflect.DeepEqual(x.book, book) {
			return x, true
		}
	}
	return made{}, false
}

func (m *memo) put(x made) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if len(m.made) == remembered {
		m.made = m.made[1:]
	}
	m.made = append(m.made, x)
}
