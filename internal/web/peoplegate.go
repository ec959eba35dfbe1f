package web

import (
	"context"
	"fmt"
	"net"
	"net/http"
	"net/netip"
	"net/url"
	"slices"
	"strings"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/people"
)

// visitor is on whose behalf a page is asked for, once people are set up.
type visitor struct {
	session people.Session // empty for an instrument
	actor   people.Actor
	person  people.Person
}

type visitorKey struct{}

// visitorOf is nil where nobody needs to sign in, and for somebody who has not.
func visitorOf(r *http.Request) *visitor {
	v, _ := r.Context().Value(visitorKey{}).(*visitor)
	return v
}

// Places that are open to somebody who has not signed in, and those of a device on which nobody acts, or an inspector.
const (
	signInPath  = "/sign-in"
	signOutPath = "/sign-out"
	personPath  = "/person"
	peoplePath  = "/people"
	enterPath   = "/enter"
	eventsPath  = "/events"
)

// ownPaths are what everybody may send, whatever the role: it is about who they are.
var ownPaths = []string{signInPath, signOutPath, personPath, personPath + "/secrets", devicePath, unitsPath, keysPath}

// devicePaths are open to whoever stands before a device: they are about how it shows pages.
var devicePaths = []string{devicePath, unitsPath, keysPath}

// gate lets nobody in without signing in, once people are set up, and has everything that is asked for done on behalf of who asks. What each
// may enter is judged where entries are taken in; here only who may send nothing at all is stopped.
func (s *server) gate(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if s.records == nil {
			next.ServeHTTP(w, r)
			return
		}
		set, err := s.records.People().SetUp(r.Context())
		switch {
		case err != nil:
			http.Error(w, "The records cannot be read, so nobody can be let in: "+err.Error(), http.StatusInternalServerError)
		case !set:
			next.ServeHTTP(w, r)
		case strings.HasPrefix(strings.ToLower(r.Header.Get("Authorization")), "bearer"):
			s.letInstrument(w, r, next)
		default:
			s.letPerson(w, r, next)
		}
	})
}

// letInstrument lets a scale or a probe send what it weighed and measured, and see nothing.
func (s *server) letInstrument(w http.ResponseWriter, r *http.Request, next http.Handler) {
	token, isKey := people.ParseKey(r.Header.Get("Authorization"))
	actor, known := people.Actor{}, false
	if isKey {
		var err error
		if actor, known, err = s.records.People().KeyActor(r.Context(), token); err != nil {
			writeJSON(w, http.StatusServiceUnavailable, queueAnswer{Trouble: err.Error()})
			return
		}
	}
	switch {
	case !known:
		w.Header().Set("WWW-Authenticate", "Bearer")
		writeJSON(w, http.StatusUnauthorized, queueAnswer{Trouble: "this key opens nothing: have an owner make a new one"})
	case r.Method != http.MethodPost || r.URL.Path != enterPath && r.URL.Path != readingsPath:
		writeJSON(w, http.StatusForbidden, queueAnswer{Trouble: "a key may only send entries to " + enterPath + ", and readings to " + readingsPath})
	default:
		next.ServeHTTP(w, on(r, &visitor{actor: actor}))
	}
}

// on is a request on behalf of somebody.
func on(r *http.Request, v *visitor) *http.Request {
	return r.WithContext(app.Acting(context.WithValue(r.Context(), visitorKey{}, v), v.actor))
}

func (s *server) letPerson(w http.ResponseWriter, r *http.Request, next http.Handler) {
	if strings.HasPrefix(r.URL.Path, "/static/") || slices.Contains(openPaths, r.URL.Path) { // nothing of this kitchen is in them
		next.ServeHTTP(w, r)
		return
	}
	w.Header().Set("Cache-Control", "no-store") // what one person saw, the next must not find behind the back button
	v, err := s.visitor(r)
	if err != nil {
		http.Error(w, "It cannot be looked up who is signed in: "+err.Error(), http.StatusInternalServerError)
		return
	}
	reads := r.Method == http.MethodGet || r.Method == http.MethodHead
	switch {
	case v == nil && (r.URL.Path == signInPath || slices.Contains(devicePaths, r.URL.Path)):
		next.ServeHTTP(w, r)
	case v == nil:
		s.turnAway(w, r, reads, signInPath, "Nobody is signed in on this device: sign in, and send it again.")
	case v.actor.Person == "" && !slices.Contains(ownPaths, r.URL.Path):
		s.turnAway(w, r, reads, personPath, "Nobody acts on this device: say who you are, and send it again.")
	case !reads && !people.MayEnterAnything(v.person.Role) && !slices.Contains(ownPaths, r.URL.Path) && !strings.HasPrefix(r.URL.Path, jobsPath): // stopping work enters nothing
		s.deny(w, r, on(r, v), v.person.Name+" is here as an inspector, who sees everything and changes nothing.")
	case v.actor.Person != "" && !people.MaySee(v.person.Role, areaOf(r.URL.Path)):
		s.deny(w, r, on(r, v), fmt.Sprintf("%s is here as a %s and does not see %s.", v.person.Name, v.person.Role, areaOf(r.URL.Path)))
	default:
		ctx, end := r.Context(), func() {}
		if r.URL.Path == eventsPath {
			ctx, end = context.WithTimeout(ctx, longestNews)
		}
		defer end()
		next.ServeHTTP(w, on(r.WithContext(ctx), v))
	}
}

// longestNews is how long a page is told news before it is looked again who asks: somebody may have signed out meanwhile. It asks again by
// itself.
const longestNews = 2 * time.Minute

// visitor is who is signed in on the device that asks; nil when nobody is.
func (s *server) visitor(r *http.Request) (*visitor, error) {
	token, ok := s.sessionToken(r)
	if !ok {
		return nil, nil
	}
	x, in, err := s.records.People().Session(r.Context(), token)
	if err != nil || !in {
		return nil, err
	}
	v := &visitor{session: x, actor: s.records.People().Actor(x)}
	v.person, _, err = s.records.People().Person(r.Context(), x.Acting)
	return v, err
}

// turnAway sends a browser to where it is asked who somebody is, and tells a program. A form is carried along: it is shown again afterwards.
func (s *server) turnAway(w http.ResponseWriter, r *http.Request, reads bool, to, why string) {
	switch {
	case isJSON(r):
		writeJSON(w, http.StatusUnauthorized, queueAnswer{Trouble: why})
	case reads:
		http.Redirect(w, r, to+"?"+url.Values{backField: {r.URL.RequestURI()}}.Encode(), http.StatusSeeOther)
	default:
		if back := s.carry(w, r); back != "" {
			http.Redirect(w, r, to+"?"+url.Values{backField: {back}}.Encode(), http.StatusSeeOther)
			return
		}
		book, _ := s.house.Book()
		deniedTemplate.show(w, http.StatusUnauthorized, deniedPage{shell: s.inShell(r, book.Kitchen, "Not entered", ""), Message: why, Next: to, Says: "Sign in"})
	}
}

// deny says what somebody may not.
func (s *server) deny(w http.ResponseWriter, r, as *http.Request, why string) {
	if isJSON(r) {
		writeJSON(w, http.StatusForbidden, queueAnswer{Trouble: why})
		return
	}
	next := personPath
	if back := s.carry(w, r); back != "" {
		next += "?" + url.Values{backField: {back}}.Encode()
		why += " What you sent is kept: whoever may enter it can do so after changing over."
	}
	book, _ := s.house.Book()
	deniedTemplate.show(w, http.StatusForbidden, deniedPage{shell: s.inShell(as, book.Kitchen, "Not for you", ""), Message: why, Next: next, Says: "Change person"})
}

// deniedPage is all that templates/denied.html may show.
type deniedPage struct {
	shell
	Message, Next, Says string
}

var deniedTemplate = parse[deniedPage]("denied")

// isJSON says whether a program asks, not a person: it sends or wants JSON.
func isJSON(r *http.Request) bool {
	return strings.HasPrefix(r.Header.Get("Content-Type"), "application/json") || r.Header.Get("Accept") == "application/json" || strings.HasSuffix(r.URL.Path, ".json") || r.URL.Path == enterPath || r.URL.Path == readingsPath
}

// Names of the cookie with the token. Browsers keep one that begins with __Host- to encrypted pages of this very host.
const (
	sessionCookie       = "kettlefrost-session"
	secureSessionCookie = "__Host-" + sessionCookie
)

// cookieName is the name of the cookie with the token. On an encrypted page the other one is not looked at: anybody on the network could
// have put it there.
func (s *server) cookieName(r *http.Request) string {
	if s.isEncrypted(r) {
		return secureSessionCookie
	}
	return sessionCookie
}

// sessionToken is the token that a device shows.
func (s *server) sessionToken(r *http.Request) (people.Token, bool) {
	c, err := r.Cookie(s.cookieName(r))
	if err != nil {
		return people.Token{}, false
	}
	return people.ParseToken(c.Value)
}

// setSession gives a device its token, or takes it away: "". The server says when a session ends, so that the cookie stays as long as any may.
func (s *server) setSession(w http.ResponseWriter, r *http.Request, token string) {
	c := &http.Cookie{Name: s.cookieName(r), Value: token, Path: "/", MaxAge: cookieDays * 24 * 3600, HttpOnly: true, Secure: s.isEncrypted(r), SameSite: http.SameSiteStrictMode}
	if token == "" {
		c.MaxAge = -1
	}
	http.SetCookie(w, c)
}

// isEncrypted says whether the browser's own connection is: to us, or to a proxy that we believe.
func (s *server) isEncrypted(r *http.Request) bool {
	return r.TLS != nil || s.fromProxy(r) && lastOf(r.Header.Values("X-Forwarded-Proto")) == "https"
}

// fromProxy says whether a request comes from a proxy that is believed.
func (s *server) fromProxy(r *http.Request) bool {
	at, ok := remote(r)
	return ok && slices.ContainsFunc(s.proxies, func(p netip.Prefix) bool { return p.Contains(at) })
}

func remote(r *http.Request) (netip.Addr, bool) {
	host, _, err := net.SplitHostPort(r.RemoteAddr)
	if err != nil {
		return netip.Addr{}, false
	}
	at, err := netip.ParseAddr(host)
	return at.Unmap().WithZone(""), err == nil
}

// from is where a request comes from, for counting wrong tries: of IPv6 the network, in which anybody has addresses without number. Only the
// address that the proxy itself put last is believed; those before it the visitor could have written.
func (s *server) from(r *http.Request) string {
	at, ok := remote(r)
	if !ok {
		return "unknown"
	}
	if s.fromProxy(r) {
		if told, err := netip.ParseAddr(lastOf(r.Header.Values("X-Forwarded-For"))); err == nil {
			at = told.Unmap().WithZone("")
		}
	}
	if at.Is6() {
		if network, err := at.Prefix(64); err == nil {
			return network.String()
		}
	}
	return at.String()
}

// lastOf is the last of a list that may be in several headers.
func lastOf(headers []string) string {
	if len(headers) == 0 {
		return ""
	}
	parts := strings.Split(headers[len(headers)-1], ",")
	return strings.TrimSpace(parts[len(parts)-1])
}

// goneAround says whether a request came around the proxy, or came to it without encryption.
func (s *server) goneAround(r *http.Request) bool {
	if len(s.proxies) == 0 || s.plain {
		return false
	}
	at, ok := remote(r)
	if ok && at.IsLoopback() && len(r.Header.Values("X-Forwarded-For")) == 0 {
		return false // this computer itself
	}
	return !s.isEncrypted(r)
}

// encrypted refuses what goes around the proxy: it may have been read on its way.
func (s *server) encrypted(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if s.goneAround(r) {
			http.Error(w, "This kitchen is served encrypted: come by the address that begins with https.", http.StatusForbidden)
			return
		}
		next.ServeHTTP(w, r)
	})
}
