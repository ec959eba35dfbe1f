package web

import (
	"cmp"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/people"
	"kettlefrost/internal/record"
)

// peoplePage is all that templates/people.html may show: who works here, devices and keys.
type peoplePage struct {
	shell
	NotSetUp bool   // how the first owner is made
	SignIn   string // where the password is asked for once more, when it must be
	Problem  string
	NewKey   string // shown once
	KeyName  string
	People   []personRow
	Left     []link // who left
	Devices  []deviceRow
	Keys     []keyRow
	Roles    []roleChoice
	Name     string // as typed
}

// personRow is somebody in the list.
type personRow struct {
	URL, Name, Role, Since, Left, Means string
}

// deviceRow is a device that is signed in.
type deviceRow struct{ ID, Name, Opened, Persons, Acting, Seen string }

// keyRow is an instrument with a key.
type keyRow struct{ Name, Made, By, Seen string }

// roleChoice is a role in a list to choose from.
type roleChoice struct {
	Value, Says string
	Here        bool
}

// onePage is all that templates/someone.html may show: one person.
type onePage struct {
	shell
	Problem, Done string
	Person        people.Person
	PIN, Password bool
	Devices       []string
	Roles         []roleChoice
	SignIn        string
	Today         string
}

// Whose the secrets are, for a browser that keeps them.
func (p onePage) Whose() string { return p.Person.Name }

var (
	peopleTemplate = parse[peoplePage]("people")
	oneTemplate    = parse[onePage]("someone")
)

// peopleRoutes are people and who acts.
func (s *server) peopleRoutes(mux *http.ServeMux) {
	s.signInRoutes(mux)
	mux.HandleFunc("GET "+peoplePath, s.showPeople)
	mux.HandleFunc("POST "+peoplePath, s.managing(s.addPerson))
	mux.HandleFunc("GET "+peoplePath+"/{id}", s.showSomeone)
	mux.HandleFunc("POST "+peoplePath+"/{id}", s.managing(s.changeSomeone))
	mux.HandleFunc("POST /devices", s.managing(s.signDeviceOut))
	mux.HandleFunc("POST /keys", s.managing(s.changeKeys))
}

// managing is a handler for owners who typed their password just now.
func (s *server) managing(next http.HandlerFunc) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		r.Body = http.MaxBytesReader(w, r.Body, mostSecretForm)
		if visitorOf(r) == nil {
			s.refuse(w, r, http.StatusConflict, "Nobody signs in here yet. The first owner is added on the command line: kettlefrost people add NAME --role owner.")
			return
		}
		if err := s.records.People().MayManage(r.Context()); err != nil {
			s.tell(w, r, err)
			return
		}
		next(w, r)
	}
}

func roleChoices(here record.Role) []roleChoice {
	var all []roleChoice
	for _, x := range people.Roles {
		all = append(all, roleChoice{string(x.Role), string(x.Role) + ": " + x.Says, x.Role == here})
	}
	slices.Reverse(all)
	return all
}

func (s *server) showPeople(w http.ResponseWriter, r *http.Request) {
	s.showPeopleWith(w, r, http.StatusOK, peoplePage{})
}

// showPeopleWith shows the list, with what was just done or what was wrong.
func (s *server) showPeopleWith(w http.ResponseWriter, r *http.Request, status int, p peoplePage) {
	book, _ := s.house.Book()
	p.shell = s.inShell(r, book.Kitchen, "People", "people")
	v := visitorOf(r)
	if v == nil {
		p.NotSetUp = true
		peopleTemplate.show(w, http.StatusOK, p)
		return
	}
	if !people.MayManage(v.person.Role) {
		s.tell(w, r, s.records.People().MayManage(r.Context()))
		return
	}
	if !v.actor.Sure {
		p.SignIn = sureLink(v.person.Name, peoplePath)
	}
	p.Roles = roleChoices(record.Packer)
	if err := s.fillPeople(r, &p); err != nil {
		s.tell(w, r, err)
		return
	}
	peopleTemplate.show(w, status, p)
}

func (s *server) fillPeople(r *http.Request, p *peoplePage) error {
	all := s.records.People()
	means, err := all.Means(r.Context())
	if err != nil {
		return err
	}
	names := map[string]string{"": "nobody"}
	err = all.Staff(r.Context(), func(staff *people.Staff) error {
		for _, x := range staff.All() {
			names[x.Person] = x.Name
			row := personRow{URL: peoplePath + "/" + url.PathEscape(x.Person), Name: x.Name, Role: string(x.Role), Since: string(x.Since), Left: string(x.Left), Means: meansText(means[x.Person])}
			if people.Here(x, all.Today()) {
				p.People = append(p.People, row)
			} else {
				p.Left = append(p.Left, link{fmt.Sprintf("%s, %s, %s to %s", row.Name, row.Role, row.Since, row.Left), row.URL})
			}
		}
		return nil
	})
	if err != nil {
		return err
	}
	sessions, err := all.Sessions(r.Context())
	if err != nil {
		return err
	}
	for _, x := range sessions {
		p.Devices = append(p.Devices, deviceRow{x.ID, x.Device, names[x.Opened], namesOf(x.Persons, names), names[x.Acting], s.clock(x.Seen)})
	}
	keys, err := all.Keys(r.Context())
	for _, k := range keys {
		p.Keys = append(p.Keys, keyRow{k.Name, s.clock(k.Made), cmp.Or(names[k.By], k.By), s.clock(k.Seen)})
	}
	return err
}

func namesOf(ids []string, names map[string]string) string {
	var all []string
	for _, id := range ids {
		all = append(all, cmp.Or(names[id], id))
	}
	return strings.Join(all, ", ")
}

func meansText(m app.Means) string {
	switch m {
	case app.Means{Password: true, PIN: true}:
		return "password and PIN"
	case app.Means{Password: true}:
		return "password"
	case app.Means{PIN: true}:
		return "PIN"
	}
	return "nothing yet: cannot sign in"
}

// clock is a time as it stands in a list.
func (s *server) clock(at record.Instant) string {
	if at == 0 {
		return "never"
	}
	return time.UnixMilli(int64(at)).In(s.house.Now().Location()).Format("2 Jan 2006 15:04")
}

// byActor is who and what device stands for an entry about people.
func byActor(r *http.Request) (who, device string) {
	v := visitorOf(r)
	return v.actor.Person, v.actor.Device
}

func (s *server) addPerson(w http.ResponseWriter, r *http.Request) {
	all := s.records.People()
	x := people.Person{Name: tidy(r.PostFormValue("name")), Role: record.Role(r.PostFormValue("role")), Since: all.Today()}
	err := all.Staff(r.Context(), func(staff *people.Staff) error { x.Person = staff.NewID(x.Name); return nil })
	if err == nil {
		who, device := byActor(r)
		err = all.Put(r.Context(), who, device, x)
	}
	if err != nil {
		status, problem := notDone(w, err)
		s.showPeopleWith(w, r, status, peoplePage{Problem: problem, Name: x.Name})
		return
	}
	http.Redirect(w, r, peoplePath+"/"+x.Person, http.StatusSeeOther)
}

func (s *server) signDeviceOut(w http.ResponseWriter, r *http.Request) {
	if err := s.records.People().EndSession(r.Context(), r.PostFormValue("device")); err != nil {
		s.tell(w, r, err)
		return
	}
	http.Redirect(w, r, peoplePath, http.StatusSeeOther)
}

// changeKeys makes a key, which the answer shows and nothing keeps, or takes one away.
func (s *server) changeKeys(w http.ResponseWriter, r *http.Request) {
	who, device := byActor(r)
	if gone := r.PostFormValue("remove"); gone != "" {
		if err := s.records.People().DropKey(r.Context(), who, device, gone); err != nil {
			s.tell(w, r, err)
			return
		}
		http.Redirect(w, r, peoplePath, http.StatusSeeOther)
		return
	}
	name := tidy(r.PostFormValue("name"))
	key, err := s.records.People().AddKey(r.Context(), who, device, name)
	if err != nil {
		status, problem := notDone(w, err)
		s.showPeopleWith(w, r, status, peoplePage{Problem: problem})
		return
	}
	s.showPeopleWith(w, r, http.StatusOK, peoplePage{NewKey: people.RevealKey(key), KeyName: name})
}

func (s *server) showSomeone(w http.ResponseWriter, r *http.Request) {
	s.showSomeoneWith(w, r, http.StatusOK, "", "")
}

func (s *server) showSomeoneWith(w http.ResponseWriter, r *http.Request, status int, problem, done string) {
	book, _ := s.house.Book()
	v := visitorOf(r)
	if v == nil || !people.MayManage(v.person.Role) {
		s.showPeople(w, r)
		return
	}
	all := s.records.People()
	x, known, err := all.Person(r.Context(), r.PathValue("id"))
	if err == nil && !known {
		s.missing(w, r, book, "Nobody has that ID.")
		return
	}
	means, errMeans := all.Means(r.Context())
	sessions, errSessions := all.Sessions(r.Context())
	if err := cmp.Or(err, errMeans, errSessions); err != nil {
		s.tell(w, r, err)
		return
	}
	p := onePage{shell: s.inShell(r, book.Kitchen, x.Name, "people"), Problem: problem, Done: done, Person: x, PIN: means[x.Person].PIN, Password: means[x.Person].Password,
		Roles: roleChoices(x.Role), Today: string(all.Today())}
	for _, session := range sessions {
		if slices.Contains(session.Persons, x.Person) {
			p.Devices = append(p.Devices, session.Device)
		}
	}
	if !v.actor.Sure {
		p.SignIn = sureLink(v.person.Name, peoplePath+"/"+url.PathEscape(x.Person))
	}
	oneTemplate.show(w, status, p)
}

// changeSomeone does one of the things that can be done with a person: the button says which.
func (s *server) changeSomeone(w http.ResponseWriter, r *http.Request) {
	done, err := s.someoneChanged(r, r.PathValue("id"))
	status, problem := http.StatusOK, ""
	if err != nil {
		done = ""
		status, problem = notDone(w, err)
	}
	s.showSomeoneWith(w, r, status, problem, done)
}

func (s *server) someoneChanged(r *http.Request, id string) (done string, err error) {
	all := s.records.People()
	who, device := byActor(r)
	x, known, err := all.Person(r.Context(), id)
	if err != nil || !known {
		return "", cmp.Or(err, error(&app.PersonError{Problem: "Nobody has that ID", Fix: "look at the list of people"}))
	}
	switch r.PostFormValue("do") {
	case "change":
		x.Name, x.Role, x.Left = tidy(r.PostFormValue("name")), record.Role(r.PostFormValue("role")), ""
		return x.Name + " is here as " + string(x.Role) + ".", all.Put(r.Context(), who, device, x)
	case "leave":
		x.Left = record.Day(tidy(r.PostFormValue("left")))
		return "The last day of " + x.Name + " is " + string(x.Left) + ". What was entered stays.", all.Put(r.Context(), who, device, x)
	case "sign-out":
		n, err := all.EndSessionsOf(r.Context(), id)
		return x.Name + " was signed out of " + strconv.Itoa(n) + " devices.", err
	}
	return s.keepSecret(r, id)
}
