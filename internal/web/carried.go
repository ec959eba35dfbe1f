package web

import (
	"crypto/rand"
	"net/http"
	"net/url"
	"slices"
	"strings"
	"sync"
	"time"

	"kettlefrost/internal/people"
)

// carriedPath is below which a form is found again that was sent while nobody was signed in.
const carriedPath = "/carried/"

// Bounds of what is carried past signing in: bytes of one form, and of all; how long.
const (
	mostCarried    = 256 << 10
	mostCarriedAll = 8 << 20
	longestCarried = 2 * time.Hour
)

// carried are the forms that were sent while nobody was signed in. They are in memory only, the last few, and each is found by a number that
// nobody can guess: it is known to the device that sent the form.
type carried struct {
	mu    sync.Mutex
	forms []carriedForm // the oldest first
}

// carriedForm is one of them, with the address that it was sent to.
type carriedForm struct {
	token, action string
	fields        url.Values
	size          int // bytes
	at            time.Time
}

// add keeps a form and says under which number.
func (c *carried) add(action string, fields url.Values, now time.Time) string {
	f := carriedForm{token: rand.Text(), action: action, fields: fields, size: len(fields.Encode()), at: now}
	c.mu.Lock()
	defer c.mu.Unlock()
	c.forms = append(c.forms, f)
	all := 0
	for _, x := range c.forms {
		all += x.size
	}
	for all > mostCarriedAll || now.Sub(c.forms[0].at) > longestCarried {
		all -= c.forms[0].size
		c.forms = c.forms[1:]
	}
	return f.token
}

// find is the form of a number, if it is still kept.
func (c *carried) find(token string, now time.Time) (carriedForm, bool) {
	c.mu.Lock()
	defer c.mu.Unlock()
	i := slices.IndexFunc(c.forms, func(f carriedForm) bool { return f.token == token })
	if i < 0 || now.Sub(c.forms[i].at) > longestCarried {
		return carriedForm{}, false
	}
	return c.forms[i], true
}

// carry keeps a form that cannot be entered by who sent it, and is the address where it is found again. It is "" for what is not carried: what has
// secrets in it, files, and what is too long.
func (s *server) carry(w http.ResponseWriter, r *http.Request) string {
	if r.Method != http.MethodPost || slices.Contains(ownPaths, r.URL.Path) || areaOf(r.URL.Path) == people.Managing || !strings.HasPrefix(r.Header.Get("Content-Type"), "application/x-www-form-urlencoded") {
		return ""
	}
	r.Body = http.MaxBytesReader(w, r.Body, mostCarried)
	if err := r.ParseForm(); err != nil || len(r.PostForm) == 0 {
		return ""
	}
	return carriedPath + s.carried.add(r.URL.RequestURI(), r.PostForm, s.house.Now())
}

// carriedPage is all that templates/carried.html may show: a form as it was sent, which is not entered yet.
type carriedPage struct {
	shell
	Gone   bool // it is kept no longer
	Action string
	Kept   []kept
	Typed  []kept // what of it somebody typed or chose, with names for people
}

var carriedTemplate = parse[carriedPage]("carried")

func (s *server) showCarried(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	v := carriedPage{shell: s.inShell(r, book.Kitchen, "Not entered yet", "")}
	f, ok := s.carried.find(r.PathValue("token"), s.house.Now())
	if u, err := url.Parse(f.action); err != nil || ok && !mayLookAt(r, u.Path) {
		s.deny(w, r, r, "What was sent is not for whoever acts here now. It is kept for "+hoursText(longestCarried)+": let who sent it sign in.")
		return
	}
	if !ok {
		v.Gone = true
		carriedTemplate.show(w, http.StatusNotFound, v)
		return
	}
	v.Action, v.Kept, v.Typed = f.action, keep(f.fields), carriedWords(f.fields)
	carriedTemplate.show(w, http.StatusOK, v)
}

// mayLookAt says whether who asks may see what stands at an address.
func mayLookAt(r *http.Request, address string) bool {
	v := visitorOf(r)
	return v == nil || people.MaySee(v.person.Role, areaOf(address))
}

// unsaid are fields that only the program reads.
var unsaid = []string{entryField, backField, draftField, shownUnits, "what", "task"}

// carriedWords is what somebody typed into a form, for reading: no numbers of entries and no empty fields.
func carriedWords(fields url.Values) (typed []kept) {
	for _, f := range keep(fields, unsaid...) {
		if _, _, isDid := readDid(f.Value); !isDid && strings.TrimSpace(f.Value) != "" && len(f.Value) < 2000 {
			typed = append(typed, kept{strings.NewReplacer(".", " ", "-", " ", "_", " ").Replace(f.Key), f.Value})
		}
	}
	return typed
}

// hoursText is a time to wait in words.
func hoursText(d time.Duration) string { return times(int(d.Hours()), "hour", "hours") }
