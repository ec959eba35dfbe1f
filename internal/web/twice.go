package web

import (
	"crypto/sha256"
	"net/http"
	"sync"
)

// mostAnswered is how many forms are remembered by what they led to: those of some hours in a busy kitchen.
const mostAnswered = 1000

// answered remembers where forms led to. A form that is sent twice, by a wet finger or on a slow line, enters nothing the second time; here it
// leads where it led the first time, not to a page on which the same is refused because it is done.
type answered struct {
	mu    sync.Mutex
	forms map[[sha256.Size]byte]*answeredForm
	order [][sha256.Size]byte // the oldest first
}

// answeredForm is a form that is being taken in, or was.
type answeredForm struct {
	done     chan struct{} // closed when it is known where it leads
	location string        // empty when it was refused: then it is looked at anew
}

// formKey is what two sendings of the same form share: all that it says, on the same device.
func formKey(r *http.Request) [sha256.Size]byte {
	return sha256.Sum256([]byte(r.URL.Path + "\x00" + r.Header.Get("Cookie") + "\x00" + r.PostForm.Encode()))
}

// begin is the form of a key, and whether it was sent before.
func (a *answered) begin(key [sha256.Size]byte) (*answeredForm, bool) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if f, there := a.forms[key]; there {
		return f, true
	}
	if a.forms == nil {
		a.forms = map[[sha256.Size]byte]*answeredForm{}
	}
	if len(a.order) == mostAnswered {
		delete(a.forms, a.order[0])
		a.order = a.order[1:]
	}
	f := &answeredForm{done: make(chan struct{})}
	a.forms[key], a.order = f, append(a.order, key)
	return f, false
}

// end keeps where a form led; a form that was refused is forgotten at once.
func (a *answered) end(key [sha256.Size]byte, f *answeredForm, location string) {
	a.mu.Lock()
	defer a.mu.Unlock()
	f.location = location
	close(f.done)
	if location == "" && a.forms[key] == f {
		delete(a.forms, key)
	}
}

// once has a form with a number taken in once, however often it is sent. The second sending waits for the first.
func (a *answered) once(w http.ResponseWriter, r *http.Request, next http.HandlerFunc) {
	if r.PostForm.Get(entryField) == "" {
		next(w, r)
		return
	}
	key := formKey(r)
	f, before := a.begin(key)
	if before {
		select {
		case <-f.done:
		case <-r.Context().Done():
			return
		}
		if f.location != "" {
			http.Redirect(w, r, f.location, http.StatusSeeOther)
			return
		}
		next(w, r)
		return
	}
	x := &ledTo{ResponseWriter: w}
	defer func() { a.end(key, f, x.location) }()
	next(x, r)
}

// ledTo notes where an answer sends the browser.
type ledTo struct {
	http.ResponseWriter
	location string
}

func (x *ledTo) WriteHeader(status int) {
	if status == http.StatusSeeOther {
		x.location = x.Header().Get("Location")
	}
	x.ResponseWriter.WriteHeader(status)
}

// Unwrap lets what is underneath be reached (http.ResponseController).
func (x *ledTo) Unwrap() http.ResponseWriter { return x.ResponseWriter }
