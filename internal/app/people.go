package app

import (
	"cmp"
	"context"
	"crypto/rand"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync/atomic"
	"time"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/people"
	"kettlefrost/internal/record"
)

// People looks after who works here, how they are known again, and what each may do.
type People struct {
	r       *Records
	now     func() time.Time
	staff   *follower[*people.Staff]
	limits  people.Limits
	hashing chan struct{} // a slow hash takes 64 MiB: so many at once and no more
	setUp   atomic.Bool   // never goes back
}

// hashesAtOnce keeps many who sign in at once, or try to, from taking all memory.
const hashesAtOnce = 2

// newPeople begins to follow who works here.
func newPeople(r *Records, now func() time.Time) *People {
	p := &People{r: r, now: now, limits: people.UsualLimits, hashing: make(chan struct{}, hashesAtOnce)}
	p.staff = follow(r, fold[*people.Staff]{empty: func() *people.Staff { return &people.Staff{} }, take: (*people.Staff).Take, heeds: people.Heeds})
	return p
}

// Limit sets how long a device stays signed in: without being used, and at most.
func (p *People) Limit(l people.Limits) { p.limits = l }

func (p *People) instant() record.Instant { return record.Instant(p.now().UnixMilli()) }
func (p *People) day() record.Day         { return record.Day(p.now().Format(time.DateOnly)) }

// Staff shows everybody who ever worked here. It is lent: it is not to be changed, nor kept.
func (p *People) Staff(ctx context.Context, at func(*people.Staff) error) error {
	return look(ctx, p.r, p.staff, func(s *people.Staff, _ finding.List) error { return at(s) })
}

// Person is somebody by the ID.
func (p *People) Person(ctx context.Context, id string) (person people.Person, known bool, err error) {
	err = p.Staff(ctx, func(s *people.Staff) error { person, known = s.Person(id); return nil })
	return person, known, err
}

// SetUp says whether anybody is an owner: from then on, for good, nobody is let in without signing in.
func (p *People) SetUp(ctx context.Context) (bool, error) {
	if p.setUp.Load() {
		return true, nil
	}
	owners := false
	err := p.Staff(ctx, func(s *people.Staff) error { owners = s.Owners("") > 0; return nil })
	if owners {
		p.setUp.Store(true)
	}
	return owners, err
}

// OwnerWithPassword says whether an owner can sign in: after an import, say, nobody can, since no export has passwords.
func (p *People) OwnerWithPassword(ctx context.Context) (can bool, err error) {
	kept, err := p.r.store.AllSecrets(ctx)
	if err != nil {
		return false, err
	}
	err = p.Staff(ctx, func(s *people.Staff) error {
		for _, x := range s.All() {
			can = can || x.Role == record.Owner && people.Here(x, p.day()) && kept[x.Person].Password != ""
		}
		return nil
	})
	return can, err
}

// Put enters a person as known from here on: added, with another name or role, or left. Who leaves today is out at once. Errors are *people.DeniedError, *PersonError and as of
// Enter.
func (p *People) Put(ctx context.Context, who, device string, x people.Person) error {
	if _, err := p.r.Enter(ctx, Said{Who: who, Device: device, At: p.now(), Body: x}); err != nil {
		return err
	}
	if x.Left == "" || x.Left > p.day() {
		return nil
	}
	if _, err := p.r.store.EndSessionsOf(ctx, x.Person); err != nil {
		return err
	}
	return p.r.store.ForgetSecrets(ctx, x.Person)
}

// PersonError says why somebody cannot be entered like this.
type PersonError struct{ Problem, Fix string }

func (e *PersonError) Error() string { return e.Problem + ": " + e.Fix }

// fits says whether the entry of a person can be: it is asked before it is taken in, wherever it comes from.
func (p *People) fits(s *people.Staff, e record.Entry) error {
	if e.Corrects != (record.ID{}) {
		return &PersonError{"an entry of a person is neither corrected nor taken back", "enter the person again, as it is now"}
	}
	body, err := record.Decode(e.Kind, e.Body)
	if err != nil {
		return err
	}
	x := body.(record.Person) // what this kind decodes to
	if !people.IsID(x.Person) {
		return &PersonError{fmt.Sprintf("%.40q is no ID of a person", x.Person), "write lower-case letters, digits and single hyphens"}
	}
	for _, other := range s.All() {
		if other.Person != x.Person && people.Here(other, p.day()) && (strings.EqualFold(other.Name, x.Name) || strings.EqualFold(other.Person, x.Name)) {
			return &PersonError{fmt.Sprintf("somebody else here is called %s", x.Name), "add a letter or the family name, so that everybody knows who is meant"}
		}
	}
	was, _ := s.Person(x.Person)
	wasOwner := was.Role == record.Owner && people.Here(was, p.day())
	if isOwner := x.Role == record.Owner && x.Left == ""; wasOwner && !isOwner && s.Owners("") <= 1 {
		return &PersonError{was.Name + " is the only owner, and nobody could look after people any more", "make somebody else an owner first"}
	}
	return nil
}

// KeepPassword sets a person's password. Who acts must have typed the own one just now; an owner may set everybody's.
func (p *People) KeepPassword(ctx context.Context, id string, password people.Secret) error {
	person, err := p.mayKeep(ctx, id)
	if err != nil {
		return err
	}
	if err := people.CheckPassword(password, person); err != nil {
		return err
	}
	hash, err := p.hash(ctx, func(salt people.Salt) string { return people.HashPassword(password, salt) })
	if err != nil {
		return err
	}
	if err := p.r.store.KeepPassword(ctx, id, hash); err != nil {
		return err
	}
	return p.note(ctx, id, "has a new password")
}

// KeepPIN sets a person's PIN, as KeepPassword a password; "" takes it away.
func (p *People) KeepPIN(ctx context.Context, id string, pin people.Secret) error {
	if _, err := p.mayKeep(ctx, id); err != nil {
		return err
	}
	var hash string
	if pin != "" {
		err := people.CheckPIN(pin)
		if err == nil {
			hash, err = p.hash(ctx, func(salt people.Salt) string { return people.HashPIN(pin, salt) })
		}
		if err != nil {
			return err
		}
	}
	if err := p.r.store.KeepPIN(ctx, id, hash); err != nil {
		return err
	}
	if err := p.r.store.Right(ctx, []string{pinTries(id)}, nil); err != nil {
		return err
	}
	return p.note(ctx, id, map[bool]record.Text{true: "has a new PIN", false: "has no PIN any more"}[pin != ""])
}

// note enters that a secret was set, and by whom: who sets somebody else's could act as them. Everybody may have this said.
func (p *People) note(ctx context.Context, about string, text record.Text) error {
	a, _ := actorIn(ctx)
	said := Said{Who: a.Person, Device: cmp.Or(a.Device, "command line"), At: p.now(), Body: record.Noted{About: about, Text: text}}
	_, err := p.r.Enter(context.WithValue(ctx, actorKey{}, nil), said)
	return err
}

// mayKeep is the person whose secret is to be set.
func (p *People) mayKeep(ctx context.Context, id string) (people.Person, error) {
	person, known, err := p.Person(ctx, id)
	switch {
	case err != nil:
		return person, err
	case !known || !people.Here(person, p.day()):
		return person, &PersonError{fmt.Sprintf("nobody here has the ID %.40q", id), "add the person first"}
	}
	if a, ok := actorIn(ctx); ok && a.Person == id && a.Sure {
		return person, nil
	}
	return person, p.MayManage(ctx)
}

// MayManage says whether who acts looks after people, devices and keys: an owner who typed the password just now. Who works on the command
// line has the file itself and may. The error is *people.DeniedError.
func (p *People) MayManage(ctx context.Context) error {
	a, ok := actorIn(ctx)
	if !ok {
		return nil
	}
	x, _, err := p.Person(ctx, a.Person)
	switch {
	case err != nil:
		return err
	case !people.MayManage(x.Role) || !people.Here(x, p.day()):
		return &people.DeniedError{Who: x.Name, Problem: "does not look after people here", Fix: "ask an owner"}
	case !a.Sure:
		return &people.DeniedError{Who: x.Name, Problem: "has not typed the password of late", Fix: "sign in with the password once more"}
	}
	return nil
}

// hash makes a slow hash, when it is its turn.
func (p *People) hash(ctx context.Context, make func(people.Salt) string) (string, error) {
	var salt people.Salt
	rand.Read(salt[:]) // never fails (crypto/rand)
	select {
	case p.hashing <- struct{}{}:
		defer func() { <-p.hashing }()
		return make(salt), nil
	case <-ctx.Done():
		return "", ctx.Err()
	}
}

// fitsHash compares a secret with what is kept, when it is its turn.
func (p *People) fitsHash(ctx context.Context, kept string, secret people.Secret) (fits bool, err error) {
	_, errTurn := p.hash(ctx, func(people.Salt) string { fits, err = people.Fits(kept, secret); return "" })
	return fits && errTurn == nil, errors.Join(err, errTurn)
}

// Means says how a person can be known again.
type Means struct{ Password, PIN bool }

// Means are everybody's, by ID.
func (p *People) Means(ctx context.Context) (map[string]Means, error) {
	kept, err := p.r.store.AllSecrets(ctx)
	all := map[string]Means{}
	for id, k := range kept {
		all[id] = Means{k.Password != "", k.PIN != ""}
	}
	return all, err
}

// AddKey makes a key for an instrument, which may only tell what it weighed and measured. It is shown once: only its hash is kept.
func (p *People) AddKey(ctx context.Context, who, device, name string) (people.Token, error) {
	var t people.Token
	if err := p.MayManage(ctx); err != nil {
		return t, err
	}
	name, err := deviceName(name)
	if err != nil {
		return t, err
	}
	keys, err := p.Keys(ctx)
	if err != nil {
		return t, err
	}
	if slices.ContainsFunc(keys, func(k people.Key) bool { return k.Name == name }) {
		return t, &PersonError{fmt.Sprintf("%s has a key already", name), "take it away first, or give the new one another name"}
	}
	rand.Read(t[:]) // never fails (crypto/rand)
	if err := p.r.store.AddKey(ctx, t.Hash(), people.Key{Name: name, Made: p.instant(), By: who}); err != nil {
		return people.Token{}, err
	}
	_, err = p.r.Enter(ctx, Said{Who: who, Device: device, At: p.now(), Body: record.Noted{About: name, Text: "was given a key: it may tell what it weighed and measured"}})
	return t, err
}

// DropKey takes the key of an instrument away.
func (p *People) DropKey(ctx context.Context, who, device, name string) error {
	if err := p.MayManage(ctx); err != nil {
		return err
	}
	there, err := p.r.store.DropKey(ctx, name)
	if err == nil && !there {
		return &PersonError{fmt.Sprintf("no instrument is called %.40q", name), "look at the list of keys"}
	}
	if err != nil {
		return err
	}
	_, err = p.r.Enter(ctx, Said{Who: who, Device: device, At: p.now(), Body: record.Noted{About: name, Text: "its key was taken away"}})
	return err
}

// Keys are the keys of instruments.
func (p *People) Keys(ctx context.Context) ([]people.Key, error) { return p.r.store.Keys(ctx) }

// longestDevice is more than stands on any tablet.
const longestDevice = 40

// deviceName is the name of a device as it stands in entries.
func deviceName(text string) (string, error) {
	name := strings.Join(strings.Fields(text), " ")
	if name == "" || len(name) > longestDevice || strings.ContainsFunc(name, func(r rune) bool { return r < ' ' || r == 0x7f || r == '\ufffd' }) {
		return "", &PersonError{"the device has no name that can stand in entries", "name it in one to forty letters, such as tablet by the stove"}
	}
	return name, nil
}

// Today is what day it is here.
func (p *People) Today() record.Day { return p.day() }

// Actor is on whose behalf a device asks now.
func (p *People) Actor(x people.Session) people.Actor { return x.Actor(p.instant()) }

// People looks after who works here.
func (r *Records) People() *People { return r.people }
