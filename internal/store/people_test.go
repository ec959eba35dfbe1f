package store

import (
	"bytes"
	"errors"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"

	"github.com/google/go-cmp/cmp"

	"kettlefrost/internal/people"
	"kettlefrost/internal/record"
)

const noon record.Instant = 1_764_072_000_000

// must ends a test at an error.
func must(t testing.TB, errs ...error) {
	t.Helper()
	if err := errors.Join(errs...); err != nil {
		t.Fatal(err)
	}
}

func secretsKept(t *testing.T, address string) {
	s := open(t, address)
	ctx := t.Context()
	if k, err := s.Secrets(ctx, "ada"); err != nil || k != (Kept{}) {
		t.Errorf("somebody unknown has %+v (%v)", k, err)
	}
	must(t, s.KeepPassword(ctx, "ada", "$p1"), s.KeepPIN(ctx, "ada", "$n1"), s.KeepPIN(ctx, "pat", "$n2"), s.KeepPassword(ctx, "ada", "$p2"))
	want := map[string]Kept{"ada": {"$p2", "$n1"}, "pat": {"", "$n2"}}
	if all, err := s.AllSecrets(ctx); err != nil || cmp.Diff(want, all) != "" {
		t.Errorf("kept %v (%v)", all, err)
	}
	again := open(t, address) // another program sees them
	if k, err := again.Secrets(ctx, "ada"); err != nil || k != want["ada"] {
		t.Errorf("Ada has %+v (%v)", k, err)
	}
	must(t, s.ForgetSecrets(ctx, "ada"))
	if k, err := again.Secrets(ctx, "ada"); err != nil || k != (Kept{}) {
		t.Errorf("after forgetting Ada has %+v (%v)", k, err)
	}
	intact(t, s, 0)
}

// triesAtOnce: who sends a thousand PINs at once has no more tries than who sends one after another.
func triesAtOnce(t *testing.T, address string) {
	stores := []*Store{open(t, address), open(t, address)}
	full := errors.New("no more")
	var allowed atomic.Int64
	var all sync.WaitGroup
	for i := range 40 {
		all.Go(func() {
			err := stores[i%2].Try(t.Context(), []string{"pin/ada", "pin/ada/tablet"}, noon, func(before []people.Tries) error {
				if before[0].Count >= 5 {
					return full
				}
				return nil
			})
			switch {
			case err == nil:
				allowed.Add(1)
			case err != full:
				t.Error(err)
			}
		})
	}
	all.Wait()
	if allowed.Load() != 5 {
		t.Errorf("%d tries were allowed, want 5", allowed.Load())
	}
}

func triesOf(t *testing.T, s *Store, names ...string) []people.Tries {
	t.Helper()
	var got []people.Tries
	look := errors.New("only looking")
	if err := s.Try(t.Context(), names, noon, func(before []people.Tries) error { got = slices.Clone(before); return look }); err != look {
		t.Fatal(err)
	}
	return got
}

func rightTries(t *testing.T, address string) {
	s := open(t, address)
	yes := func([]people.Tries) error { return nil }
	for i := range 3 {
		must(t, s.Try(t.Context(), []string{"password/a", "from/b"}, noon+record.Instant(i), yes))
	}
	must(t, s.Try(t.Context(), []string{"pin/c"}, noon, yes))
	if diff := cmp.Diff([]people.Tries{{Count: 3, Last: noon + 2}, {Count: 3, Last: noon + 2}, {}}, triesOf(t, s, "password/a", "from/b", "else")); diff != "" {
		t.Error(diff)
	}
	must(t, s.Right(t.Context(), []string{"password/a"}, []string{"from/b", "else"}))
	if diff := cmp.Diff([]people.Tries{{}, {Count: 2, Last: noon + 2}, {}}, triesOf(t, s, "password/a", "from/b", "else")); diff != "" {
		t.Error(diff)
	}
	must(t, s.ForgetTries(t.Context(), "from/", noon+2))
	if got := triesOf(t, s, "from/b"); got[0].Count != 2 {
		t.Errorf("too early forgotten: %v", got)
	}
	must(t, s.ForgetTries(t.Context(), "from/", noon+3))
	if diff := cmp.Diff([]people.Tries{{}, {Count: 1, Last: noon}}, triesOf(t, s, "from/b", "pin/c")); diff != "" {
		t.Error(diff)
	}
}

func device(id, name, person string, began record.Instant) people.Session {
	return people.Session{ID: id, Device: name, Opened: person, Began: began, Seen: began, Acting: person, By: people.ByPassword, Shown: began}
}

func devices(t *testing.T, address string) {
	s := open(t, address)
	ctx := t.Context()
	must(t, s.BeginSession(ctx, "hash1", device("one", "tablet 1", "ada", noon)))
	if x, found, err := s.Session(ctx, "hash2"); found || err != nil {
		t.Errorf("a token that was never given opens %+v (%v)", x, err)
	}
	if there, err := s.ActOn(ctx, "one", "pat", people.ByPIN, noon+60_000); !there || err != nil {
		t.Errorf("Pat cannot act: %v", err)
	}
	must(t, s.SessionSeen(ctx, "one", noon+90_000))
	want := people.Session{ID: "one", Device: "tablet 1", Opened: "ada", Began: noon, Seen: noon + 90_000, Acting: "pat", By: people.ByPIN, Shown: noon + 60_000, Persons: []string{"ada", "pat"}}
	if x, found, err := s.Session(ctx, "hash1"); !found || err != nil || cmp.Diff(want, x) != "" {
		t.Errorf("%+v (%v, %v)", x, found, err)
	}
	must(t, s.BeginSession(ctx, "hash2", device("two", "office", "cleo", noon+120_000)))
	if all, err := s.Sessions(ctx); err != nil || len(all) != 2 || all[0].ID != "two" || cmp.Diff(want, all[1]) != "" {
		t.Errorf("%+v (%v)", all, err)
	}
	for _, was := range []bool{true, false} {
		if ended, err := s.EndSession(ctx, "one"); ended != was || err != nil {
			t.Errorf("signed out: %v (%v), want %v", ended, err, was)
		}
	}
	if there, err := s.ActOn(ctx, "one", "pat", people.ByPIN, noon); there || err != nil {
		t.Errorf("Pat acts on a device that was signed out (%v)", err)
	}
	if joined, err := s.joined(ctx, "one"); err != nil || joined != nil {
		t.Errorf("%v are still on it (%v)", joined, err)
	}
}

func signedOutEverywhere(t *testing.T, address string) {
	s := open(t, address)
	ctx := t.Context()
	must(t, s.BeginSession(ctx, "h1", device("tablet", "tablet", "ada", noon)), s.BeginSession(ctx, "h2", device("phone", "phone", "pat", noon)))
	if _, err := s.ActOn(ctx, "tablet", "pat", people.ByPIN, noon); err != nil {
		t.Fatal(err)
	}
	if n, err := s.EndSessionsOf(ctx, "pat"); n != 2 || err != nil {
		t.Errorf("on %d devices (%v), want 2", n, err)
	}
	want := []people.Session{{ID: "tablet", Device: "tablet", Opened: "ada", Began: noon, Seen: noon, Shown: noon, Persons: []string{"ada"}}}
	if all, err := s.Sessions(ctx); err != nil || cmp.Diff(want, all) != "" {
		t.Errorf("%+v (%v)", all, err)
	}
	if n, err := s.EndSessionsOf(ctx, "ada"); n != 1 || err != nil {
		t.Errorf("on %d devices (%v), want 1", n, err)
	}
	if all, err := s.Sessions(ctx); err != nil || all != nil {
		t.Errorf("%+v (%v)", all, err)
	}
}

func oldDevices(t *testing.T, address string) {
	s := open(t, address)
	for i, id := range []string{"old", "idle", "young"} {
		must(t, s.BeginSession(t.Context(), id, device(id, id, "ada", noon+record.Instant(i)*1000)))
	}
	must(t, s.SessionSeen(t.Context(), "old", noon+9000), s.SessionSeen(t.Context(), "young", noon+9000))
	must(t, s.EndOldSessions(t.Context(), noon, noon+1000))
	if all, err := s.Sessions(t.Context()); err != nil || len(all) != 1 || all[0].ID != "young" || len(all[0].Persons) != 1 {
		t.Errorf("%+v (%v)", all, err)
	}
}

func instrumentKeys(t *testing.T, address string) {
	s := open(t, address)
	ctx := t.Context()
	must(t, s.AddKey(ctx, "h1", people.Key{Name: "probe 1", Made: noon, By: "ada"}))
	wantCode(t, s.AddKey(ctx, "h2", people.Key{Name: "probe 1", Made: noon, By: "ada"}), NotEmpty)
	must(t, s.KeySeen(ctx, "probe 1", noon+5))
	want := people.Key{Name: "probe 1", Made: noon, Seen: noon + 5, By: "ada"}
	if k, found, err := s.KeyOf(ctx, "h1"); !found || err != nil || k != want {
		t.Errorf("%+v (%v, %v)", k, found, err)
	}
	if all, err := s.Keys(ctx); err != nil || !slices.Equal(all, []people.Key{want}) {
		t.Errorf("%+v (%v)", all, err)
	}
	for _, was := range []bool{true, false} {
		if there, err := s.DropKey(ctx, "probe 1"); there != was || err != nil {
			t.Errorf("dropped: %v (%v), want %v", there, err, was)
		}
	}
	if _, found, err := s.KeyOf(ctx, "h1"); found || err != nil {
		t.Errorf("a key that was taken away opens (%v)", err)
	}
}

// peopleExported: an export can be given to anybody; a copy of the SQLite file must be kept as the file itself.
func peopleExported(t *testing.T, address string) {
	s := open(t, address)
	ctx := t.Context()
	mustAppend(t, s, weighing("ada", 1))
	must(t, s.KeepPassword(ctx, "ada", "HASH-password"), s.KeepPIN(ctx, "ada", "HASH-pin"), s.BeginSession(ctx, "HASH-session", device("one", "tablet", "ada", noon)),
		s.AddKey(ctx, "HASH-key", people.Key{Name: "probe", Made: noon, By: "ada"}))
	var out bytes.Buffer
	if _, err := s.Export(ctx, &out); err != nil || strings.Contains(out.String(), "HASH") || out.Len() == 0 {
		t.Errorf("the export holds a hash (%v):\n%s", err, out.String())
	}
	if isPostgres(address) {
		return // its backup is an export
	}
	path := filepath.Join(t.TempDir(), "copy.db")
	if _, err := s.Backup(ctx, path); err != nil {
		t.Fatal(err)
	}
	copied := open(t, path)
	if k, err := copied.Secrets(ctx, "ada"); err != nil || k != (Kept{"HASH-password", "HASH-pin"}) {
		t.Errorf("the copy has %+v (%v)", k, err)
	}
}
