package app_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/people"
	"kettlefrost/internal/record"
)

// watch is a clock that a test moves.
type watch struct{ at atomic.Int64 }

func (w *watch) now() time.Time       { return time.UnixMilli(w.at.Load()).UTC() }
func (w *watch) pass(d time.Duration) { w.at.Add(d.Milliseconds()) }

const (
	adasPassword = "plum shelf ninety tractor"
	patsPIN      = "4071"
)

// staffed is records with an owner who has a password, a cook and a packer with PINs, and an inspector with a password.
func staffed(t testing.TB) (*app.Records, *app.People, *watch) {
	t.Helper()
	w := &watch{}
	w.at.Store(time.Date(2026, 11, 26, 12, 0, 0, 0, time.UTC).UnixMilli())
	r, err := app.OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), w.now)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { r.Close() })
	p := r.People()
	for _, x := range []people.Person{
		{Person: "ada", Name: "Ada", Role: record.Owner}, {Person: "cleo", Name: "Cleo", Role: record.Cook},
		{Person: "pat", Name: "Pat", Role: record.Packer}, {Person: "ina", Name: "Ina", Role: record.Inspector},
	} {
		x.Since = "2026-01-01"
		if err := p.Put(t.Context(), "ada", "office", x); err != nil {
			t.Fatal(err)
		}
	}
	for _, err := range []error{p.KeepPassword(t.Context(), "ada", adasPassword), p.KeepPassword(t.Context(), "ina", "quiet lamp over seven"),
		p.KeepPIN(t.Context(), "ada", "8302"), p.KeepPIN(t.Context(), "cleo", "5519"), p.KeepPIN(t.Context(), "pat", patsPIN)} {
		if err != nil {
			t.Fatal(err)
		}
	}
	return r, p, w
}

func signIn(t testing.TB, p *app.People, name string, password people.Secret, device string) people.Session {
	t.Helper()
	token, err := p.SignIn(t.Context(), app.SignIn{Name: name, Password: password, Device: device, From: "192.0.2.1"})
	if err != nil {
		t.Fatal(err)
	}
	x, in, err := p.Session(t.Context(), token)
	if err != nil || !in {
		t.Fatalf("signed in and not in (%v)", err)
	}
	return x
}

func TestSigningIn(t *testing.T) {
	_, p, w := staffed(t)
	x := signIn(t, p, "ADA", adasPassword, " tablet  by the stove ")
	if x.Device != "tablet by the stove" || x.Acting != "ada" || x.By != people.ByPassword || !x.Actor(record.Instant(w.at.Load())).Sure {
		t.Errorf("%+v", x)
	}
	for name, no := range map[string]app.SignIn{
		"a wrong password": {Name: "ada", Password: "plum shelf ninety tracto"}, "nobody": {Name: "eve", Password: adasPassword},
		"somebody without a password": {Name: "pat", Password: "anything at all"}, "nothing": {},
	} {
		no.Device, no.From = "x", "192.0.2.7"+name
		token, err := p.SignIn(t.Context(), no)
		refused, ok := errors.AsType[*app.SignInError](err)
		if !ok || token != (people.Token{}) || refused.Problem != "The name or the password is not right" {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := p.SignIn(t.Context(), app.SignIn{Name: "ada", Password: adasPassword, From: "y", Device: " "}); err == nil {
		t.Error("a device without a name is signed in")
	}
}

// Whoever is not known takes as long to refuse as who is: both wait for the same slow hash. That it is made at all is what can be tested without
// a clock: the waits after wrong tries are the same for both.
func TestAStrangerWaitsLikeAnybody(t *testing.T) {
	_, p, w := staffed(t)
	for _, name := range []string{"ada", "eve"} {
		var waits []people.Millis
		for range 6 {
			_, err := p.SignIn(t.Context(), app.SignIn{Name: name, Password: "wrong wrong wrong", Device: "x", From: "198.51.100.9"})
			refused, ok := errors.AsType[*app.SignInError](err)
			if !ok {
				t.Fatal(err)
			}
			waits = append(waits, refused.Wait)
			w.pass(time.Duration(refused.Wait) * time.Millisecond)
		}
		if got, want := fmt.Sprint(waits), "[0 0 0 5000 0 10000]"; got != want {
			t.Errorf("%s waits %s, want %s", name, got, want)
		}
	}
	if _, err := p.SignIn(t.Context(), app.SignIn{Name: "ada", Password: adasPassword, Device: "x", From: "198.51.100.10"}); err != nil {
		t.Errorf("from elsewhere, where nobody tried, Ada is kept out: %v", err)
	}
}

func TestChangingByPIN(t *testing.T) {
	_, p, w := staffed(t)
	x := signIn(t, p, "Ada", adasPassword, "tablet")
	if err := p.ChangeTo(t.Context(), x, "pat", patsPIN); err != nil {
		t.Fatal(err)
	}
	for i := range 3 {
		if err := p.ChangeTo(t.Context(), x, "pat", "0000"); err == nil {
			t.Fatalf("wrong try %d is let in", i+1)
		}
	}
	no := func(what string) {
		t.Helper()
		refused, ok := errors.AsType[*app.SignInError](p.ChangeTo(t.Context(), x, "pat", patsPIN))
		if !ok || refused.Wait <= 0 {
			t.Errorf("%s: the right PIN is let in without waiting", what)
		}
	}
	no("after three wrong tries")
	w.pass(9 * time.Second)
	no("after 9 of 10 seconds")
	w.pass(time.Second)
	if err := p.ChangeTo(t.Context(), x, "pat", patsPIN); err != nil {
		t.Errorf("after 10 seconds: %v", err)
	}
	if err := p.ChangeTo(t.Context(), x, "cleo", "5519"); err != nil {
		t.Errorf("Cleo is kept out for Pat's tries: %v", err)
	}
	if err := p.ChangeTo(t.Context(), x, "ina", "5519"); err == nil {
		t.Error("somebody without a PIN is let in by one")
	}
}

// TestAPINDies: whoever goes on for ever gets twenty tries, from however many devices, and then only the password helps.
func TestAPINDies(t *testing.T) {
	_, p, w := staffed(t)
	if err := p.KeepPassword(t.Context(), "pat", "green boat under rain"); err != nil {
		t.Fatal(err)
	}
	devices := []people.Session{signIn(t, p, "Ada", adasPassword, "tablet 1"), signIn(t, p, "Ada", adasPassword, "tablet 2")}
	tries := 0
	for i := range 200 {
		refused, ok := errors.AsType[*app.SignInError](p.ChangeTo(t.Context(), devices[i%2], "pat", "9999"))
		if !ok {
			t.Fatal("let in")
		}
		if strings.Contains(refused.Problem, "not right") {
			tries++
		}
		if strings.Contains(refused.Problem, "too often") {
			break
		}
		w.pass(time.Duration(refused.Wait) * time.Millisecond)
	}
	if tries != 20 {
		t.Errorf("%d tries, want 20", tries)
	}
	w.pass(24 * time.Hour)
	if err := p.ChangeTo(t.Context(), devices[0], "pat", patsPIN); err == nil {
		t.Error("a dead PIN opens a day later")
	}
	signIn(t, p, "Pat", "green boat under rain", "phone")
	if err := p.ChangeTo(t.Context(), devices[0], "pat", patsPIN); err != nil {
		t.Errorf("after the password: %v", err)
	}
}

func TestSessionsEndInTime(t *testing.T) {
	for name, x := range map[string]struct {
		step  time.Duration
		times int
		in    bool
	}{
		"three days unused": {72 * time.Hour, 1, true}, "four days unused": {96 * time.Hour, 1, false},
		"used daily for 29 days": {24 * time.Hour, 29, true}, "used daily for 30 days": {24 * time.Hour, 30, false},
	} {
		_, p, w := staffed(t)
		token, err := p.SignIn(t.Context(), app.SignIn{Name: "Ada", Password: adasPassword, Device: "tablet", From: "a"})
		if err != nil {
			t.Fatal(err)
		}
		in := true
		for range x.times {
			w.pass(x.step)
			if _, in, err = p.Session(t.Context(), token); err != nil {
				t.Fatal(err)
			}
		}
		if in != x.in {
			t.Errorf("%s: in is %v", name, in)
		}
	}
}

// as is a context in which somebody acts.
func as(ctx context.Context, who string, by people.How, sure bool, with ...string) context.Context {
	return app.Acting(ctx, people.Actor{Person: who, By: by, Sure: sure, Device: "tablet", With: append(with, who)})
}

func TestWhatPeopleMayNotIsNotEntered(t *testing.T) {
	r, p, w := staffed(t)
	enter := func(ctx context.Context, who string, b record.Body, corrects record.ID) (record.ID, error) {
		e, err := r.Enter(ctx, app.Said{Who: who, Device: "tablet", At: w.now(), Corrects: corrects, Body: b})
		if err != nil {
			return record.ID{}, err
		}
		return e[0].ID, nil
	}
	pat, ada := as(t.Context(), "pat", people.ByPIN, false, "cleo"), as(t.Context(), "ada", people.ByPassword, true)
	note, err := enter(pat, "pat", record.Noted{Text: "the sealer hums"}, record.ID{})
	if err != nil {
		t.Fatal(err)
	}
	held, err := enter(pat, "cleo", record.Held{Lot: "P-1", Why: "cooled slowly"}, record.ID{})
	if err != nil {
		t.Fatalf("what waited for Cleo: %v", err)
	}
	for name, x := range map[string]struct {
		ctx      context.Context
		who      string
		body     record.Body
		corrects record.ID
	}{
		"a packer holds":               {pat, "pat", record.Held{Lot: "P-1", Why: "x"}, record.ID{}},
		"a packer as an owner":         {pat, "ada", record.Noted{Text: "x"}, record.ID{}},
		"a packer undoes a cook":       {pat, "pat", record.Voided{Why: "x"}, held},
		"an inspector notes":           {as(t.Context(), "ina", people.ByPassword, true), "ina", record.Noted{Text: "x"}, record.ID{}},
		"a packer makes herself owner": {pat, "pat", record.Person{Person: "pat", Name: "Pat", Role: record.Owner, Since: "2026-01-01"}, record.ID{}},
		"an owner by PIN adds":         {as(t.Context(), "ada", people.ByPIN, false), "ada", record.Person{Person: "bo", Name: "Bo", Role: record.Cook, Since: "2026-01-01"}, record.ID{}},
	} {
		if _, err := enter(x.ctx, x.who, x.body, x.corrects); err == nil {
			t.Errorf("%s: taken in", name)
		} else if _, denied := errors.AsType[*people.DeniedError](err); !denied {
			t.Errorf("%s: %v is no denial", name, err)
		}
	}
	if _, err := enter(ada, "ada", record.Voided{Why: "x"}, held); err != nil {
		t.Errorf("an owner puts right what a cook entered: %v", err)
	}
	// What was taken in and is sent again is answered as taken, whoever is here now.
	if err := p.Put(t.Context(), "ada", "office", people.Person{Person: "pat", Name: "Pat", Role: record.Packer, Since: "2026-01-01", Left: "2026-11-25"}); err != nil {
		t.Fatal(err)
	}
	again := app.Said{ID: note, Who: "pat", Device: "tablet", At: w.now(), Body: record.Noted{Text: "the sealer hums"}}
	if e, err := r.Enter(ada, again); err != nil || e[0].ID != note {
		t.Errorf("sent again: %v", err)
	}
	if _, err := enter(pat, "pat", record.Noted{Text: "I am still here"}, record.ID{}); err == nil {
		t.Error("somebody who left enters")
	}
}

func TestTheLastOwnerStays(t *testing.T) {
	r, p, w := staffed(t)
	ada := people.Person{Person: "ada", Name: "Ada", Role: record.Owner, Since: "2026-01-01"}
	for name, change := range map[string]func(*people.Person){
		"becomes a cook": func(x *people.Person) { x.Role = record.Cook }, "leaves": func(x *people.Person) { x.Left = "2026-11-30" },
	} {
		x := ada
		change(&x)
		if err := p.Put(t.Context(), "ada", "office", x); err == nil {
			t.Errorf("the only owner %s", name)
		}
	}
	if err := p.Put(t.Context(), "ada", "office", people.Person{Person: "cleo", Name: "Cleo", Role: record.Owner, Since: "2026-01-01"}); err != nil {
		t.Fatal(err)
	}
	ada.Left = "2026-11-26"
	if err := p.Put(t.Context(), "cleo", "office", ada); err != nil {
		t.Errorf("one of two owners cannot leave: %v", err)
	}
	for e, err := range r.Follow(t.Context(), 0) {
		if err != nil {
			t.Fatal(err)
		}
		_, err = r.Enter(t.Context(), app.Said{Who: "cleo", Device: "office", At: w.now(), Corrects: e.ID, Body: record.Voided{Why: "she was never here"}})
		if err == nil {
			t.Error("that somebody was added is taken back")
		}
		break
	}
}

func TestNamesAreNotTakenTwice(t *testing.T) {
	_, p, _ := staffed(t)
	for _, x := range []people.Person{
		{Person: "ada-2", Name: "ada", Role: record.Cook, Since: "2026-01-01"}, {Person: "Ada", Name: "Ada Two", Role: record.Cook, Since: "2026-01-01"},
		{Person: "x", Name: "PAT", Role: record.Cook, Since: "2026-01-01"}, {Person: "x", Name: "", Role: record.Cook, Since: "2026-01-01"}, {Person: "x", Name: "X", Role: "chef", Since: "2026-01-01"},
	} {
		if err := p.Put(t.Context(), "ada", "office", x); err == nil {
			t.Errorf("%+v is taken in", x)
		}
	}
}

func TestWhoLeavesIsOutAtOnce(t *testing.T) {
	_, p, _ := staffed(t)
	x := signIn(t, p, "Ada", adasPassword, "tablet")
	if err := p.ChangeTo(t.Context(), x, "pat", patsPIN); err != nil {
		t.Fatal(err)
	}
	if err := p.Put(t.Context(), "ada", "office", people.Person{Person: "pat", Name: "Pat", Role: record.Packer, Since: "2026-01-01", Left: "2026-11-26"}); err != nil {
		t.Fatal(err)
	}
	all, err := p.Sessions(t.Context())
	if err != nil || len(all) != 1 || all[0].Acting != "" || fmt.Sprint(all[0].Persons) != "[ada]" {
		t.Errorf("%+v (%v)", all, err)
	}
	if err := p.ChangeTo(t.Context(), x, "pat", patsPIN); err == nil {
		t.Error("the PIN of somebody who left opens")
	}
}

func TestKeysOfInstruments(t *testing.T) {
	r, p, w := staffed(t)
	key, err := p.AddKey(t.Context(), "ada", "office", "probe 1")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := p.AddKey(t.Context(), "ada", "office", "probe 1"); err == nil {
		t.Error("a second key under the same name")
	}
	a, known, err := p.KeyActor(t.Context(), key)
	if err != nil || !known || a.Device != "probe 1" {
		t.Fatalf("%+v %v (%v)", a, known, err)
	}
	ctx := app.Acting(t.Context(), a)
	cold := record.Measured{Place: "walk-in", Temp: 0}
	if _, err := r.Enter(ctx, app.Said{Device: "probe 1", At: w.now(), Body: cold}); err != nil {
		t.Errorf("a probe cannot measure: %v", err)
	}
	for _, x := range []app.Said{{Device: "probe 1", Body: record.Noted{Text: "x"}}, {Who: "ada", Device: "probe 1", Body: cold}, {Device: "tablet", Body: cold}} {
		x.At = w.now()
		if _, err := r.Enter(ctx, x); err == nil {
			t.Errorf("a probe enters %+v", x)
		}
	}
	if err := p.DropKey(t.Context(), "ada", "office", "probe 1"); err != nil {
		t.Fatal(err)
	}
	if _, known, err := p.KeyActor(t.Context(), key); known || err != nil {
		t.Errorf("a key that was taken away opens (%v)", err)
	}
}

// No secret, and no hash of one, is in what is exported.
func TestNoSecretIsExported(t *testing.T) {
	r, p, _ := staffed(t)
	x := signIn(t, p, "Ada", adasPassword, "tablet")
	if err := p.ChangeTo(t.Context(), x, "pat", patsPIN); err != nil {
		t.Fatal(err)
	}
	key, err := p.AddKey(t.Context(), "ada", "office", "probe 1")
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if _, err := r.Export(t.Context(), &out); err != nil {
		t.Fatal(err)
	}
	for _, secret := range []string{adasPassword, `"` + patsPIN, "argon2", key.Hash(), key.Reveal(), x.ID} {
		if strings.Contains(out.String(), secret) {
			t.Errorf("%q is in the export", secret)
		}
	}
	for _, told := range []string{`"name":"Pat"`, `"about":"pat","text":"has a new PIN"`, `"about":"probe 1"`} {
		if !strings.Contains(out.String(), told) {
			t.Errorf("%s is not in it", told)
		}
	}
	// Imported elsewhere, the people are there and nobody can sign in until a password is set.
	other, err := app.OpenRecords(t.Context(), filepath.Join(t.TempDir(), "other.records"), time.Now)
	if err != nil {
		t.Fatal(err)
	}
	defer other.Close()
	if _, err := other.Import(t.Context(), &out); err != nil {
		t.Fatal(err)
	}
	set, err := other.People().SetUp(t.Context())
	can, err2 := other.People().OwnerWithPassword(t.Context())
	if !set || can || err != nil || err2 != nil {
		t.Errorf("set up %v, can sign in %v (%v, %v)", set, can, err, err2)
	}
}
