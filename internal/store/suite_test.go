package store

import (
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"slices"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"kettlefrost/internal/record"
)

// databases are the two that every behaviour below is held to. An address is that of a new, empty one.
var databases = []struct {
	name    string
	address func(testing.TB) string
}{
	{"sqlite", func(t testing.TB) string { return filepath.Join(t.TempDir(), "journal.db") }},
	{"postgres", newPostgres},
}

// clock is a clock that moves one millisecond each time it is looked at, from 2025-11-25 12:00 UTC.
func clock() func() record.Instant {
	var at atomic.Int64
	at.Store(1_764_072_000_000)
	return func() record.Instant { return record.Instant(at.Add(1)) }
}

func open(t testing.TB, address string) *Store {
	t.Helper()
	s, err := Open(t.Context(), address, clock())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	return s
}

// weighing is an entry with an ID made of a number and of who wrote it.
func weighing(who string, n int) record.Entry {
	e := record.Entry{
		Kind: "weighed", Happened: 1_764_072_000_000 + record.Instant(n), Who: who, Device: "tablet 2", Site: "kitchen",
		Body: fmt.Appendf(nil, `{"gross_g":"%d.5","instrument":"scale 1","note":"\u003cé\u0000%d"}`, 1000+n, n),
	}
	copy(e.ID[:8], who+"--------")
	binary.BigEndian.PutUint64(e.ID[8:], uint64(n)+1)
	return e
}

func weighings(who string, from, n int) []record.Entry {
	var list []record.Entry
	for i := range n {
		list = append(list, weighing(who, from+i))
	}
	return list
}

func mustAppend(t testing.TB, s *Store, entries ...record.Entry) []record.Entry {
	t.Helper()
	got, err := s.Append(t.Context(), entries)
	if err != nil {
		t.Fatal(err)
	}
	return got
}

func all(t testing.TB, s *Store) []record.Entry {
	t.Helper()
	var list []record.Entry
	for e, err := range s.Read(t.Context(), 1) {
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, e)
	}
	return list
}

// intact requires a whole chain of n entries.
func intact(t testing.TB, s *Store, n int) record.Head {
	t.Helper()
	head, err := s.Verify(t.Context())
	if err != nil || head.Seq != uint64(n) {
		t.Fatalf("the chain is good up to %d, want %d: %v", head.Seq, n, err)
	}
	return head
}

// code requires a certain trouble with a place and a fix.
func wantCode(t testing.TB, err error, code Code) *Error {
	t.Helper()
	e, ok := errors.AsType[*Error](err)
	if !ok || e.Code != code {
		t.Fatalf("%v (%T), want the trouble %s", err, err, code)
	}
	if e.Place == "" || e.Problem == "" || e.Fix == "" {
		t.Errorf("%#v has no place, problem or fix", e)
	}
	return e
}

func TestBothDatabases(t *testing.T) {
	for _, database := range databases {
		t.Run(database.name, func(t *testing.T) {
			for _, behaviour := range behaviours {
				t.Run(behaviour.name, func(t *testing.T) { behaviour.test(t, database.address(t)) })
			}
		})
	}
}

var behaviours = []struct {
	name string
	test func(t *testing.T, address string)
}{
	{"what is taken in comes back as it was sealed", comesBack},
	{"an empty store has an empty head", isEmpty},
	{"an entry sent again is answered with what is stored", onceOnly},
	{"another entry with the same ID is refused, and all that came with it", conflicting},
	{"entries that make no sense are refused before anything is written", senseless},
	{"twenty at once make one chain", twentyAtOnce},
	{"several programs at once make one chain", severalPrograms},
	{"the same entries from several programs arrive once", sameFromSeveral},
	{"a reader can start anywhere and stop anywhere", anywhere},
	{"pages join without a seam", pages},
	{"a changed, missing or moved entry is named", tampered},
	{"a follower sees what this program and others write", following},
	{"a follower is told when the store closes", closingFollowed},
	{"what is kept comes back, until the entries are others", keeping},
	{"a closed store takes nothing in", closed},
	{"a call that was given up leaves whole entries or none", givenUp},
	{"a program that is killed loses nothing that it acknowledged", killed},
	{"several processes make one chain", severalProcesses},
	{"the book of a folder comes back byte for byte", demoBook},
	{"every text that a file can have is kept, and no other", oddFiles},
	{"every version of a file is kept", versions},
	{"of many who change one version one succeeds", oneWins},
	{"a folder that was changed is followed", folderFollowed},
	{"an export makes the same chain elsewhere", exported},
	{"a bad export is refused whole, by its line", badExports},
	{"an export that cannot be written, or should not be, says so", exportStops},
	{"a backup is made while others write, and restored", backedUp},
	{"backups are made in time, and the oldest go", backupsKept},
	{"placeholders are bound by their numbers", placesOfPlaceholders},
	{"columns take nothing but their type", wrongTypes},
	{"a step of the tables is done whole or not at all; a newer table is not touched", steppedHalfway},
	{"a beginning that was stopped is gone on from", stoppedAtFirst},
	{"several programs may start at once on a new database", startedTogether},
	{"bytes sort and compare alike", odd},
}

func comesBack(t *testing.T, address string) {
	s := open(t, address)
	var want []record.Entry
	want = append(want, mustAppend(t, s, weighings("ana", 0, 100)...)...)
	correction := weighing("ana", 200)
	correction.Corrects = want[3].ID
	want = append(want, mustAppend(t, s, correction)...)
	var prev record.Head
	for i, e := range want {
		again, err := record.Seal(prev, e)
		if err != nil || !same(again, e) || e.Seq != uint64(i+1) || e.Entered < 1_764_072_000_000 {
			t.Fatalf("entry %d is %+v, sealed it is %+v (%v)", i+1, e, again, err)
		}
		prev = e.Head()
	}
	if got := all(t, s); !slices.EqualFunc(got, want, same) {
		t.Errorf("read %d entries that are not the %d that were answered", len(got), len(want))
	}
	if got, found, err := s.ByID(t.Context(), correction.ID); err != nil || !found || !same(got, want[100]) {
		t.Errorf("by its ID: %+v, %v, %v", got, found, err)
	}
	if _, found, err := s.ByID(t.Context(), record.ID{9}); err != nil || found {
		t.Errorf("by an ID that nobody has: %v, %v", found, err)
	}
	s.Close()
	if head := intact(t, open(t, address), 101); head != prev {
		t.Errorf("opened again the head is %v, want %v", head, prev)
	}
}

func same(a, b record.Entry) bool {
	return a.Hash == b.Hash && string(a.AppendCanonical(nil)) == string(b.AppendCanonical(nil))
}

func isEmpty(t *testing.T, address string) {
	s := open(t, address)
	intact(t, s, 0)
	if head, err := s.Head(t.Context()); err != nil || head != (record.Head{}) {
		t.Errorf("head %v, %v", head, err)
	}
	if got, err := s.Append(t.Context(), nil); err != nil || len(got) != 0 {
		t.Errorf("nothing appended gives %v, %v", got, err)
	}
}

func onceOnly(t *testing.T, address string) {
	s := open(t, address)
	first := mustAppend(t, s, weighings("ana", 0, 3)...)
	again := mustAppend(t, s, weighing("ana", 1), weighing("ana", 7), weighing("ana", 7), weighing("ana", 0))
	if !same(again[0], first[1]) || !same(again[3], first[0]) || !same(again[1], again[2]) || again[1].Seq != 4 {
		t.Errorf("again: %+v", again)
	}
	given := first[2]
	given.Entered, given.Seq, given.Prev, given.Hash = 5, 99, record.Hash{1}, record.Hash{2} // what the store gives is not looked at
	if got := mustAppend(t, s, given); !same(got[0], first[2]) {
		t.Errorf("with other seals: %+v", got)
	}
	intact(t, s, 4)
}

func conflicting(t *testing.T, address string) {
	s := open(t, address)
	mustAppend(t, s, weighing("ana", 0))
	for field, change := range map[string]func(*record.Entry){
		"kind":        func(e *record.Entry) { e.Kind = "packed" },
		"happened_ms": func(e *record.Entry) { e.Happened++ },
		"who":         func(e *record.Entry) { e.Who = "ben" },
		"device":      func(e *record.Entry) { e.Device = "" },
		"site":        func(e *record.Entry) { e.Site = "barn" },
		"corrects":    func(e *record.Entry) { e.Corrects = record.ID{4} },
		"body":        func(e *record.Entry) { e.Body = []byte(`{}`) },
	} {
		other := weighing("ana", 0)
		change(&other)
		_, err := s.Append(t.Context(), []record.Entry{weighing("ana", 1), other, weighing("ana", 2)})
		conflict, ok := errors.AsType[*ConflictError](err)
		if !ok || conflict.Field != field || conflict.Stored.Seq != 1 || conflict.Given.ID != other.ID {
			t.Errorf("another %s: %v", field, err)
		}
	}
	other := weighing("ana", 5)
	other.Site = "barn"
	if _, err := s.Append(t.Context(), []record.Entry{weighing("ana", 5), other}); err == nil {
		t.Error("two that differ in one call are both taken in")
	}
	intact(t, s, 1)
}

func senseless(t *testing.T, address string) {
	s := open(t, address)
	for name, change := range map[string]func(*record.Entry){
		"id":          func(e *record.Entry) { e.ID = record.ID{} },
		"kind":        func(e *record.Entry) { e.Kind = "Weighed!" },
		"happened_ms": func(e *record.Entry) { e.Happened = 0 },
		"body":        func(e *record.Entry) { e.Body = []byte(`{ "a": 1 }`) },
		"site":        func(e *record.Entry) { e.Site = "a\x00b" },
	} {
		bad := weighing("ana", 1)
		change(&bad)
		_, err := s.Append(t.Context(), []record.Entry{weighing("ana", 0), bad})
		if field, ok := errors.AsType[*record.FieldError](err); !ok || field.Path != name {
			t.Errorf("a bad %s: %v", name, err)
		}
	}
	intact(t, s, 0)
}

// write appends one entry at a time from many goroutines, and returns what was answered.
func write(t testing.TB, stores []*Store, writers, each int) []record.Entry {
	t.Helper()
	var mu sync.Mutex
	var got []record.Entry
	var group sync.WaitGroup
	for w := range writers {
		group.Go(func() {
			for i := range each {
				answer, err := stores[w%len(stores)].Append(t.Context(), []record.Entry{weighing(fmt.Sprintf("w%d", w), i)})
				if err != nil {
					t.Error(err)
					return
				}
				mu.Lock()
				got = append(got, answer...)
				mu.Unlock()
			}
		})
	}
	group.Wait()
	slices.SortFunc(got, func(a, b record.Entry) int { return int(a.Seq) - int(b.Seq) })
	return got
}

func twentyAtOnce(t *testing.T, address string) {
	s := open(t, address)
	got := write(t, []*Store{s}, 20, 25)
	intact(t, s, 500)
	if !slices.EqualFunc(got, all(t, s), same) {
		t.Error("what was answered is not what is stored")
	}
}

func severalPrograms(t *testing.T, address string) {
	stores := []*Store{open(t, address), open(t, address), open(t, address), open(t, address)}
	got := write(t, stores, 8, 25)
	intact(t, stores[0], 200)
	if !slices.EqualFunc(got, all(t, stores[3]), same) {
		t.Error("what was answered is not what is stored")
	}
}

func sameFromSeveral(t *testing.T, address string) {
	stores := []*Store{open(t, address), open(t, address), open(t, address)}
	queue := weighings("ana", 0, 60)
	var group sync.WaitGroup
	answers := make([][]record.Entry, len(stores))
	for i, s := range stores {
		group.Go(func() {
			mine := slices.Clone(queue)
			rand.New(rand.NewPCG(uint64(i), 0)).Shuffle(len(mine), func(a, b int) { mine[a], mine[b] = mine[b], mine[a] })
			for part := range slices.Chunk(mine, 7) {
				got, err := s.Append(t.Context(), part)
				if err != nil {
					t.Error(err)
				}
				answers[i] = append(answers[i], got...)
			}
		})
	}
	group.Wait()
	intact(t, stores[0], 60)
	bySeq := func(a, b record.Entry) int { return int(a.Seq) - int(b.Seq) }
	for i := range answers {
		slices.SortFunc(answers[i], bySeq)
		if !slices.EqualFunc(answers[i], answers[0], same) {
			t.Errorf("program %d was answered otherwise than program 0", i)
		}
	}
}

func anywhere(t *testing.T, address string) {
	s := open(t, address)
	mustAppend(t, s, weighings("ana", 0, 20)...)
	for from, want := range map[uint64]int{0: 20, 1: 20, 15: 6, 20: 1, 21: 0, 1 << 40: 0} {
		n := 0
		for e, err := range s.Read(t.Context(), from) {
			if err != nil || e.Seq != max(from, 1)+uint64(n) {
				t.Fatalf("from %d: entry %d, %v", from, e.Seq, err)
			}
			n++
		}
		if n != want {
			t.Errorf("from %d: %d entries, want %d", from, n, want)
		}
	}
	for e := range s.Read(t.Context(), 3) {
		if e.Seq == 5 {
			break
		}
	}
	if got, err := s.Since(t.Context(), 4, 3); err != nil || len(got) != 3 || got[0].Seq != 5 {
		t.Errorf("since 4: %v, %v", got, err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	for _, err := range s.Read(ctx, 1) {
		if !errors.Is(err, context.Canceled) {
			t.Errorf("a reader that was given up: %v", err)
		}
	}
}

func pages(t *testing.T, address string) {
	s := open(t, address)
	for _, n := range []int{pageSize - 1, 1, 1, pageSize, 2 * pageSize} {
		at, err := s.Head(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		mustAppend(t, s, weighings("ana", int(at.Seq), n)...)
		intact(t, s, int(at.Seq)+n)
	}
}

func tampered(t *testing.T, address string) {
	s := open(t, address)
	mustAppend(t, s, weighings("ana", 0, 30)...)
	s.Close()
	for _, c := range []struct {
		name, do, undo string
		place          uint64
		flaw           record.Flaw
	}{
		{"a weight is changed", `update entry set body = replace(body, '1010.5', '1011.5') where seq = 11`, `update entry set body = replace(body, '1011.5', '1010.5') where seq = 11`, 11, record.Altered},
		{"a name is changed", `update entry set who = 'ben' where seq = 1`, `update entry set who = 'ana' where seq = 1`, 1, record.Altered},
		{"one is moved to the end", `update entry set seq = 99 where seq = 7`, `update entry set seq = 7 where seq = 99`, 7, record.Gap},
	} {
		s := open(t, address)
		if _, err := s.write.ExecContext(t.Context(), c.do); err != nil {
			t.Fatal(err)
		}
		_, err := s.Verify(t.Context())
		bad, ok := errors.AsType[*record.ChainError](err)
		if !ok || bad.Place != c.place || bad.Flaw != c.flaw {
			t.Errorf("%s: %v", c.name, err)
		}
		if _, err := s.write.ExecContext(t.Context(), c.undo); err != nil {
			t.Fatal(err)
		}
		intact(t, s, 30)
		s.Close()
	}
	s = open(t, address)
	if _, err := s.write.ExecContext(t.Context(), `update entry set prev = 'none' where seq = 12`); err != nil {
		t.Fatal(err)
	}
	head, err := s.Verify(t.Context())
	if wantCode(t, err, Damaged); head.Seq != 11 {
		t.Errorf("good up to %d, want 11", head.Seq)
	}
}

func following(t *testing.T, address string) {
	here, there := open(t, address), open(t, address)
	mustAppend(t, here, weighings("ana", 0, 5)...)
	ctx, cancel := context.WithTimeout(t.Context(), 20*time.Second)
	defer cancel()
	seen := make(chan uint64, 100)
	done := make(chan struct{})
	go func() {
		defer close(done)
		for e, err := range here.Follow(ctx, 3) {
			if err != nil {
				t.Error(err)
				return
			}
			seen <- e.Seq
		}
	}()
	next := func(want uint64) {
		t.Helper()
		select {
		case got := <-seen:
			if got != want {
				t.Fatalf("follower sees %d, want %d", got, want)
			}
		case <-ctx.Done():
			t.Fatalf("follower does not see %d", want)
		}
	}
	next(4)
	next(5)
	for i := range 3 {
		mustAppend(t, here, weighing("ben", i))
		next(uint64(6 + 2*i))
		mustAppend(t, there, weighing("cyd", i))
		next(uint64(7 + 2*i))
	}
	cancel()
	<-done
}

func closingFollowed(t *testing.T, address string) {
	s := open(t, address)
	told := make(chan error, 1)
	go func() {
		for _, err := range s.Follow(t.Context(), 0) {
			told <- err
		}
		close(told)
	}()
	time.Sleep(20 * time.Millisecond)
	s.Close()
	wantCode(t, <-told, Closed)
}

func keeping(t *testing.T, address string) {
	s := open(t, address)
	at := mustAppend(t, s, weighings("ana", 0, 4)...)[2].Head()
	want := []byte{0, 1, 0xff, 'a'}
	for _, data := range [][]byte{[]byte("old"), nil, want} {
		if err := s.Keep(t.Context(), "lots/1", at, data); err != nil {
			t.Fatal(err)
		}
	}
	kept := func(name string) ([]byte, bool) {
		head, data, found, err := s.Kept(t.Context(), name)
		if err != nil || found && head != at {
			t.Fatalf("kept %s: %v, %v", name, head, err)
		}
		return data, found
	}
	if data, found := kept("lots/1"); !found || !slices.Equal(data, want) {
		t.Errorf("kept: %v, %v", data, found)
	}
	if _, found := kept("lots/2"); found {
		t.Error("a name that nobody kept is found")
	}
	other := at
	other.Hash[0]++
	for _, head := range []record.Head{other, {Seq: 77, Hash: at.Hash}} {
		if err := s.Keep(t.Context(), "orders/1", head, want); err != nil {
			t.Fatal(err)
		}
		if _, found := kept("orders/1"); found {
			t.Errorf("kept from entries that are not there (%v) is found", head)
		}
	}
	if err := s.Drop(t.Context(), "lots/1"); err != nil {
		t.Fatal(err)
	}
	if _, found := kept("lots/1"); found {
		t.Error("what was dropped is found")
	}
	if err := errors.Join(s.Keep(t.Context(), "a", at, want), s.Drop(t.Context(), "")); err != nil {
		t.Fatal(err)
	}
	if _, found := kept("a"); found {
		t.Error("dropping all leaves something")
	}
}

func closed(t *testing.T, address string) {
	s := open(t, address)
	mustAppend(t, s, weighing("ana", 0))
	for range 2 {
		if err := s.Close(); err != nil {
			t.Error(err)
		}
	}
	_, err := s.Append(t.Context(), weighings("ana", 1, 1))
	wantCode(t, err, Closed)
	_, err = s.Head(t.Context())
	wantCode(t, err, Closed)
}

func givenUp(t *testing.T, address string) {
	s := open(t, address)
	answered := 0
	for i := range 40 {
		ctx, cancel := context.WithTimeout(t.Context(), time.Duration(i)*100*time.Microsecond)
		got, err := s.Append(ctx, weighings(fmt.Sprint("g", i), 0, 10))
		cancel()
		if answered += len(got); err != nil && !errors.Is(err, context.DeadlineExceeded) {
			t.Fatal(err)
		}
	}
	for i := range 40 { // sent again, all are there once
		mustAppend(t, s, weighings(fmt.Sprint("g", i), 0, 10)...)
	}
	intact(t, s, 400)
	if answered > 400 {
		t.Errorf("%d answers for 400 entries", answered)
	}
	perCall := map[string][]uint64{}
	for _, e := range all(t, s) {
		perCall[e.Who] = append(perCall[e.Who], e.Seq)
	}
	for who, places := range perCall {
		if places[9] != places[0]+9 {
			t.Errorf("the entries of %s are torn apart: %v", who, places)
		}
	}
}

// odd are texts that databases like to change.
func odd(t *testing.T, address string) {
	s := open(t, address)
	var want []record.Entry
	for i, word := range []string{"é", "e\u0301", "Ä", "ä", "ﬁ", "日本", "🍲", "a' or 1=1 --", `a\b`, "$1 ?", " a ", "a ", "%", "\u200f", "1e5", "007"} {
		e := weighing("odd", i)
		e.Who, e.Device, e.Site, e.Body = word, word, word, fmt.Appendf(nil, `{"w":%q,"n":1.0,"n2":1e400,"n":-0}`, "x")
		want = append(want, e)
	}
	got := mustAppend(t, s, want...)
	for i := range got {
		if difference(got[i], want[i]) != "" {
			t.Errorf("%q comes back as %q", want[i].Who, got[i].Who)
		}
	}
	if read := all(t, s); !slices.EqualFunc(read, got, same) {
		t.Error("read otherwise than answered")
	}
	intact(t, s, len(want))
}
