package web

import (
	"context"
	"net/http"
	"net/url"

	"kettlefrost/internal/app"
	"kettlefrost/internal/people"
)

// actingView is who acts, as it stands at the head of every page.
type actingView struct {
	Name, Role, Device string
	URL                string // where it is changed
}

// acting is nil where nobody signs in.
func (s *server) acting(r *http.Request) *actingView {
	v := visitorOf(r)
	if v == nil || v.session.ID == "" {
		return nil
	}
	back := r.URL.RequestURI()
	if r.Method != http.MethodGet || r.URL.Path == personPath {
		back = "/"
	}
	a := &actingView{Name: v.person.Name, Role: string(v.person.Role), Device: v.session.Device, URL: personPath + "?" + url.Values{backField: {back}}.Encode()}
	if v.actor.Person == "" {
		a.Name = "Nobody"
	}
	return a
}

// personNamed is the ID of somebody by the name that stands at the head of pages; what is no name stays as it is, and is refused where entries
// are taken in.
func (s *server) personNamed(r *http.Request, name string) string {
	id := name
	err := s.records.People().Staff(r.Context(), func(all *people.Staff) error {
		if x, known := all.Named(name); known {
			id = x.Person
		}
		return nil
	})
	if err != nil {
		return "" // in nobody's name nothing is taken in, and the records are not to be read anyway
	}
	return id
}

// personPage is all that templates/person.html may show: who could act on this device.
type personPage struct {
	shell
	Back    string
	People  []personCard
	As      *whosePIN // whose PIN is asked for
	Problem string
	Device  string
	Now     string // who acts
	SignIn  string // address for somebody without a PIN
	Manages bool
}

// whosePIN is somebody whose PIN is asked for.
type whosePIN struct{ ID, Name string }

// personCard is somebody to choose.
type personCard struct {
	ID, Name, Role, URL string
	PIN, Here           bool // has a PIN; acts now
}

var personTemplate = parse[personPage]("person")

func (s *server) personPage(r *http.Request, back, as string) (personPage, error) {
	book, _ := s.house.Book()
	v := visitorOf(r)
	p := personPage{shell: s.inShell(r, book.Kitchen, "Who are you?", ""), Back: ours(back)}
	if v == nil {
		return p, nil
	}
	p.Device, p.Now, p.Manages = v.session.Device, v.person.Name, people.MayManage(v.person.Role)
	p.SignIn = signInPath + "?" + url.Values{backField: {p.Back}}.Encode()
	cards, err := s.cards(r.Context(), p.Back, v.actor.Person)
	for _, c := range cards {
		if c.ID == as && c.PIN {
			p.As = &whosePIN{c.ID, c.Name}
		}
	}
	p.People = cards
	return p, err
}

// cards are the people who are here: a PIN, where there is one, or else the password.
func (s *server) cards(ctx context.Context, back, acting string) ([]personCard, error) {
	means, err := s.records.People().Means(ctx)
	if err != nil {
		return nil, err
	}
	today := s.records.People().Today()
	var cards []personCard
	err = s.records.People().Staff(ctx, func(all *people.Staff) error {
		for _, x := range all.All() {
			if !people.Here(x, today) || means[x.Person] == (app.Means{}) {
				continue
			}
			c := personCard{ID: x.Person, Name: x.Name, Role: string(x.Role), PIN: means[x.Person].PIN, Here: x.Person == acting}
			c.URL = personPath + "?" + url.Values{"as": {c.ID}, backField: {back}}.Encode()
			if !c.PIN {
				c.URL = signInPath + "?" + url.Values{"name": {c.Name}, backField: {back}}.Encode()
			}
			cards = append(cards, c)
		}
		return nil
	})
	return cards, err
}

func (s *server) showPerson(w http.ResponseWriter, r *http.Request) {
	q := r.URL.Query()
	p, err := s.personPage(r, q.Get(backField), q.Get("as"))
	if err != nil {
		s.tell(w, r, err)
		return
	}
	personTemplate.show(w, http.StatusOK, p)
}

// tell says what kept something from being done.
func (s *server) tell(w http.ResponseWriter, r *http.Request, err error) {
	status, text := notDone(w, err)
	s.refuse(w, r, status, text)
}

// changePerson has another person act on this device, by the PIN.
func (s *server) changePerson(w http.ResponseWriter, r *http.Request) {
	r.Body = http.MaxBytesReader(w, r.Body, mostSecretForm)
	v := visitorOf(r)
	if v == nil {
		http.Redirect(w, r, signInPath, http.StatusSeeOther)
		return
	}
	as := r.PostFormValue("as")
	p, err := s.personPage(r, r.PostFormValue(backField), as)
	if err == nil {
		err = s.records.People().ChangeTo(r.Context(), v.session, as, people.Secret(r.PostFormValue("pin")))
	}
	if err != nil {
		var status int
		status, p.Problem = notDone(w, err)
		personTemplate.show(w, status, p)
		return
	}
	http.Redirect(w, r, p.Back, http.StatusSeeOther)
}

// secretsPage is all that templates/secrets.html may show: a person's own PIN and password.
type secretsPage struct {
	shell
	Name     string
	Sure     bool   // the password was typed just now
	SignIn   string // where it is
	Problem  string
	Done     string
	PIN      bool // there is one
	Password bool
}

var secretsTemplate = parse[secretsPage]("secrets")

func (s *server) secretsPage(r *http.Request) (secretsPage, bool) {
	book, _ := s.house.Book()
	v := visitorOf(r)
	if v == nil || v.actor.Person == "" {
		return secretsPage{}, false
	}
	p := secretsPage{shell: s.inShell(r, book.Kitchen, "Your PIN and password", ""), Name: v.person.Name, Sure: v.actor.Sure, SignIn: sureLink(v.person.Name, personPath+"/secrets")}
	return p, true
}

// sureLink is where the password is asked for once more.
func sureLink(name, back string) string {
	return signInPath + "?" + url.Values{"name": {name}, backField: {back}, "sure": {""}}.Encode()
}

func (s *server) showSecrets(w http.ResponseWriter, r *http.Request) {
	p, ok := s.secretsPage(r)
	if !ok {
		http.Redirect(w, r, signInPath, http.StatusSeeOther)
		return
	}
	s.showOwn(w, r, http.StatusOK, p)
}

func (s *server) showOwn(w http.ResponseWriter, r *http.Request, status int, p secretsPage) {
	means, err := s.records.People().Means(r.Context())
	if err != nil {
		s.tell(w, r, err)
		return
	}
	own := means[visitorOf(r).actor.Person]
	p.PIN, p.Password = own.PIN, own.Password
	secretsTemplate.show(w, status, p)
}

// keepSecrets sets a person's own PIN or password.
func (s *server) keepSecrets(w http.ResponseWriter, r *http.Request) {
	r.Body = http.MaxBytesReader(w, r.Body, mostSecretForm)
	p, ok := s.secretsPage(r)
	if !ok {
		http.Redirect(w, r, signInPath, http.StatusSeeOther)
		return
	}
	var err error
	status := http.StatusOK
	if p.Done, err = s.keepSecret(r, visitorOf(r).actor.Person); err != nil {
		p.Done = ""
		status, p.Problem = notDone(w, err)
	}
	s.showOwn(w, r, status, p)
}

// keepSecret sets the PIN or the password that a form holds, typed twice.
func (s *server) keepSecret(r *http.Request, id string) (done string, err error) {
	pin, password := people.Secret(r.PostFormValue("pin")), people.Secret(r.PostFormValue("password"))
	switch {
	case password != "" && password != people.Secret(r.PostFormValue("password-again")):
		return "", &people.SecretError{What: "password", Problem: "was another the second time", Fix: "type it twice once more"}
	case pin != "" && pin != people.Secret(r.PostFormValue("pin-again")):
		return "", &people.SecretError{What: "PIN", Problem: "was another the second time", Fix: "type it twice once more"}
	case password != "":
		return "The password is set.", s.records.People().KeepPassword(r.Context(), id, password)
	case pin != "" || r.PostFormValue("no-pin") != "":
		return "The PIN is " + map[bool]string{true: "set.", false: "taken away."}[pin != ""], s.records.People().KeepPIN(r.Context(), id, pin)
	}
	return "", &people.SecretError{What: "field", Problem: "is empty", Fix: "type a PIN or a password"}
}

// Whose the secrets are, for a browser that keeps them.
func (p secretsPage) Whose() string { return p.Name }

// Pad is what the number pad begins with; clear, 0 and back follow.
func (personPage) Pad() []string { return []string{"1", "2", "3", "4", "5", "6", "7", "8", "9"} }
