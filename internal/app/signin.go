package app

import (
	"context"
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/people"
	"kettlefrost/internal/record"
)

// SignIn is somebody who says who they are.
type SignIn struct {
	Name     string // or ID
	Password people.Secret
	Device   string // its name
	From     string // the address that it comes from
	On       string // the session of the device, when it is signed in already: it goes on with another person
}

// SignInError says why somebody is not let in. It is the same for a name that nobody has and a password that is wrong.
type SignInError struct {
	Problem string
	Fix     string
	Wait    people.Millis // before the next try
}

func (e *SignInError) Error() string { return e.Problem + ": " + e.Fix }

// Names under which tries are counted. What was typed for a name may be a password by mistake, so it is not kept.
func passwordTries(words ...string) string {
	sum := sha256.Sum256([]byte(strings.Join(words, "\x00")))
	return passwordPrefix + hex.EncodeToString(sum[:16])
}

func pinTries(words ...string) string { return "pin/" + strings.Join(words, "/") }

const passwordPrefix = "password/"

// patient is a name of tries with how they are borne.
type patient struct {
	name     string
	patience people.Patience
}

// try counts one more try, if nobody has to wait.
func (p *People) try(ctx context.Context, now record.Instant, of []patient, dead error) error {
	names := make([]string, len(of))
	for i, x := range of {
		names[i] = x.name
	}
	return p.r.store.Try(ctx, names, now, func(before []people.Tries) error {
		var longest people.Millis
		for i, x := range of {
			wait, over := x.patience.Wait(before[i], now)
			if over {
				return dead
			}
			longest = max(longest, wait)
			before[i] = x.patience.Standing(before[i], now)
		}
		if longest > 0 {
			return &SignInError{"There were too many wrong tries", "wait " + waitText(longest) + ", then try once more", longest}
		}
		return nil
	})
}

// waitText is a wait, rounded up.
func waitText(wait people.Millis) string {
	if wait <= people.Minute {
		return fmt.Sprintf("%d seconds", (wait+people.Second-1)/people.Second)
	}
	return fmt.Sprintf("%d minutes", (wait+people.Minute-1)/people.Minute)
}

// SignIn lets somebody in with the password, and gives the device's token; the zero token when the device has one already. The error is
// *SignInError.
func (p *People) SignIn(ctx context.Context, x SignIn) (people.Token, error) {
	var none people.Token
	now := p.instant()
	name := strings.ToLower(strings.TrimSpace(x.Name))
	here, of, from := passwordTries("here", name, x.From), passwordTries("of", name), passwordTries("from", x.From)
	if err := p.r.store.ForgetTries(ctx, passwordPrefix, now-record.Instant(people.Forgotten)); err != nil {
		return none, err
	}
	err := p.try(ctx, now, []patient{{here, people.PasswordHere}, {of, people.PasswordOf}, {from, people.PasswordFrom}}, nil)
	if err != nil {
		return none, err
	}
	var person people.Person
	err = p.Staff(ctx, func(s *people.Staff) error { person, _ = s.Named(x.Name); return nil })
	if err != nil {
		return none, err
	}
	kept, err := p.r.store.Secrets(ctx, person.Person)
	if err != nil {
		return none, err
	}
	hash := kept.Password
	if hash == "" {
		hash = people.Nobody(true) // as slow as for somebody who is known
	}
	fits, err := p.fitsHash(ctx, hash, x.Password)
	if err != nil {
		return none, err
	}
	if !fits || kept.Password == "" || !people.Here(person, p.day()) {
		return none, &SignInError{Problem: "The name or the password is not right", Fix: "type both once more"}
	}
	if err := p.r.store.Right(ctx, []string{here, of, pinTries(person.Person)}, []string{from}); err != nil {
		return none, err
	}
	return p.letIn(ctx, x, person.Person, now)
}

// letIn begins a session, or has the person act in the one that the device has.
func (p *People) letIn(ctx context.Context, x SignIn, person string, now record.Instant) (people.Token, error) {
	var t people.Token
	if x.On != "" {
		there, err := p.r.store.ActOn(ctx, x.On, person, people.ByPassword, now)
		if there || err != nil {
			return t, err
		}
	}
	device, err := deviceName(x.Device)
	if err != nil {
		return t, err
	}
	if err := p.r.store.EndOldSessions(ctx, now-record.Instant(p.limits.Most), now-record.Instant(p.limits.Idle)); err != nil {
		return t, err
	}
	var id [8]byte
	rand.Read(t[:]) // never fails (crypto/rand)
	rand.Read(id[:])
	err = p.r.store.BeginSession(ctx, t.Hash(), people.Session{ID: hex.EncodeToString(id[:]), Device: device, Opened: person, Began: now, Seen: now, Acting: person, By: people.ByPassword, Shown: now})
	return t, err
}

// ChangeTo has another person act on a device that is signed in, by the PIN. The error is *SignInError.
func (p *People) ChangeTo(ctx context.Context, on people.Session, id string, pin people.Secret) error {
	now := p.instant()
	dead := &SignInError{Problem: "This PIN was typed wrong too often and does not open any more", Fix: "sign in with the password, or have an owner set a new PIN"}
	anywhere, here := pinTries(id), pinTries(id, on.ID)
	person, known, err := p.Person(ctx, id)
	switch {
	case err != nil:
		return err
	case !known || !people.Here(person, p.day()):
		return &SignInError{Problem: "Nobody of that name works here", Fix: "choose from the list"}
	}
	if err := p.try(ctx, now, []patient{{anywhere, people.PINAnywhere}, {here, people.PINHere}}, dead); err != nil {
		return err
	}
	kept, err := p.r.store.Secrets(ctx, id)
	if err != nil {
		return err
	}
	hash := kept.PIN
	if hash == "" {
		hash = people.Nobody(false)
	}
	fits, err := p.fitsHash(ctx, hash, pin)
	if err != nil {
		return err
	}
	if !fits || kept.PIN == "" {
		return &SignInError{Problem: "The PIN is not right", Fix: "type it once more"}
	}
	if err := p.r.store.Right(ctx, []string{anywhere, here}, nil); err != nil {
		return err
	}
	there, err := p.r.store.ActOn(ctx, on.ID, id, people.ByPIN, now)
	if err == nil && !there {
		return &SignInError{Problem: "This device is not signed in any more", Fix: "sign in with the password"}
	}
	return err
}

// Session is the device with a token, if it is still signed in. Who has left acts no more.
func (p *People) Session(ctx context.Context, t people.Token) (x people.Session, in bool, err error) {
	x, found, err := p.r.store.Session(ctx, t.Hash())
	if !found || err != nil {
		return people.Session{}, false, err
	}
	now := p.instant()
	over := p.limits.Over(x, now)
	err = p.Staff(ctx, func(s *people.Staff) error {
		here := func(id string) bool { y, known := s.Person(id); return known && people.Here(y, p.day()) }
		over = over || !here(x.Opened)
		if !here(x.Acting) {
			x.Acting, x.By = "", ""
		}
		x.Persons = slices.DeleteFunc(x.Persons, func(id string) bool { return !here(id) })
		return nil
	})
	switch {
	case err != nil:
		return people.Session{}, false, err
	case over:
		_, err := p.r.store.EndSession(ctx, x.ID)
		return people.Session{}, false, err
	case people.Millis(now-x.Seen) >= people.SeenEvery:
		err = p.r.store.SessionSeen(ctx, x.ID, now)
	}
	return x, true, err
}

// Sessions are the devices that are signed in, those used last first.
func (p *People) Sessions(ctx context.Context) ([]people.Session, error) {
	all, err := p.r.store.Sessions(ctx)
	now := p.instant()
	return slices.DeleteFunc(all, func(x people.Session) bool { return p.limits.Over(x, now) }), err
}

// SignOut ends the session of the device that asks for it.
func (p *People) SignOut(ctx context.Context, session string) error {
	_, err := p.r.store.EndSession(ctx, session)
	return err
}

// EndSession signs any device out.
func (p *People) EndSession(ctx context.Context, session string) error {
	if err := p.MayManage(ctx); err != nil {
		return err
	}
	return p.SignOut(ctx, session)
}

// EndSessionsOf signs a person out everywhere, and says on how many devices that was.
func (p *People) EndSessionsOf(ctx context.Context, id string) (int, error) {
	if a, ok := actorIn(ctx); !ok || a.Person != id { // everybody may do this for themselves
		if err := p.MayManage(ctx); err != nil {
			return 0, err
		}
	}
	_, known, err := p.Person(ctx, id)
	if err == nil && !known {
		err = &PersonError{fmt.Sprintf("nobody has the ID %.40q", id), "look at the list of people"}
	}
	if err != nil {
		return 0, err
	}
	return p.r.store.EndSessionsOf(ctx, id)
}

// KeyActor is the instrument with a key, if there is one.
func (p *People) KeyActor(ctx context.Context, t people.Token) (people.Actor, bool, error) {
	k, found, err := p.r.store.KeyOf(ctx, t.Hash())
	if !found || err != nil {
		return people.Actor{}, false, err
	}
	if now := p.instant(); people.Millis(now-k.Seen) >= people.SeenEvery {
		err = p.r.store.KeySeen(ctx, k.Name, now)
	}
	return people.Actor{By: people.ByKey, Device: k.Name}, true, err
}
