package web

import (
	"cmp"
	"errors"
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/people"
)

// signInPage is all that templates/signin.html may show.
type signInPage struct {
	shell
	SetUp   bool // somebody could sign in
	Back    string
	Name    string
	Device  string // "" asks for it
	On      string // the name of the device that is signed in already
	Problem string
	Why     string // that the password is asked for
}

var signInTemplate = parse[signInPage]("signin")

// signInRoutes are the doors.
func (s *server) signInRoutes(mux *http.ServeMux) {
	mux.HandleFunc("GET "+signInPath, s.showSignIn)
	mux.HandleFunc("POST "+signInPath, s.signIn)
	mux.HandleFunc("POST "+signOutPath, s.signOut)
	mux.HandleFunc("GET "+personPath, s.showPerson)
	mux.HandleFunc("POST "+personPath, s.changePerson)
	mux.HandleFunc("GET "+personPath+"/secrets", s.showSecrets)
	mux.HandleFunc("POST "+personPath+"/secrets", s.keepSecrets)
}

func (s *server) signInPage(r *http.Request, back, name string) signInPage {
	book, _ := s.house.Book()
	p := signInPage{shell: s.inShell(r, book.Kitchen, "Sign in", ""), Back: ours(back), Name: name, Device: cookie(r, deviceCookie)}
	if s.records != nil {
		p.SetUp, _ = s.records.People().SetUp(r.Context()) // the gate has asked already, and stopped at an error
	}
	if v := visitorOf(r); v != nil {
		p.On = v.session.Device
	}
	return p
}

func (s *server) showSignIn(w http.ResponseWriter, r *http.Request) {
	q := r.URL.Query()
	p := s.signInPage(r, q.Get(backField), tidy(q.Get("name")))
	if q.Has("sure") {
		p.Why = "This is about people, so that your password is asked for once more."
	}
	if strings.HasPrefix(p.Back, carriedPath) {
		p.Why = "Nobody is signed in here, so nothing was entered. What you sent is kept: sign in, and enter it then."
	}
	signInTemplate.show(w, http.StatusOK, p)
}

// signIn lets somebody in by name and password, and names the device.
func (s *server) signIn(w http.ResponseWriter, r *http.Request) {
	r.Body = http.MaxBytesReader(w, r.Body, mostSecretForm)
	p := s.signInPage(r, r.PostFormValue(backField), tidy(r.PostFormValue("name")))
	if !p.SetUp {
		signInTemplate.show(w, http.StatusConflict, p)
		return
	}
	x := app.SignIn{Name: p.Name, Password: people.Secret(r.PostFormValue("password")), Device: cmp.Or(tidy(r.PostFormValue("device")), p.Device), From: s.from(r)}
	if v := visitorOf(r); v != nil {
		x.On = v.session.ID
	}
	p.Device = x.Device
	token, err := s.records.People().SignIn(r.Context(), x)
	if err != nil {
		status, problem := notDone(w, err)
		p.Problem = problem
		signInTemplate.show(w, status, p)
		return
	}
	if token != (people.Token{}) {
		s.setSession(w, r, token.Reveal())
		http.SetCookie(w, &http.Cookie{Name: deviceCookie, Value: url.QueryEscape(x.Device), Path: "/", MaxAge: cookieDays * 24 * 3600, HttpOnly: true, SameSite: http.SameSiteStrictMode})
	}
	http.Redirect(w, r, p.Back, http.StatusSeeOther)
}

// mostSecretForm is more than a form with a password has, in bytes.
const mostSecretForm = 8 << 10

// notDone is the status and the words for why somebody is not let in, or something about people is not done.
func notDone(w http.ResponseWriter, err error) (int, string) {
	if no, ok := errors.AsType[*app.SignInError](err); ok {
		if no.Wait > 0 {
			w.Header().Set("Retry-After", strconv.FormatInt(int64((no.Wait+people.Second-1)/people.Second), 10))
			return http.StatusTooManyRequests, sentence(err)
		}
		return http.StatusForbidden, sentence(err)
	}
	if _, ok := errors.AsType[*people.DeniedError](err); ok {
		return http.StatusForbidden, sentence(err)
	}
	_, person := errors.AsType[*app.PersonError](err)
	_, secret := errors.AsType[*people.SecretError](err)
	if person || secret {
		return http.StatusUnprocessableEntity, sentence(err)
	}
	return trouble(err)
}

// signOut ends the session of the device that asks.
func (s *server) signOut(w http.ResponseWriter, r *http.Request) {
	if v := visitorOf(r); v != nil {
		if err := s.records.People().SignOut(r.Context(), v.session.ID); err != nil {
			status, text := trouble(err)
			s.refuse(w, r, status, text)
			return
		}
	}
	s.setSession(w, r, "")
	w.Header().Set("Clear-Site-Data", `"cache"`)
	http.Redirect(w, r, signInPath, http.StatusSeeOther)
}
