package store

import (
	"encoding/binary"
	"errors"
	"fmt"
	"path/filepath"
	"sync/atomic"
	"testing"

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

// wantCode requires a certain trouble with a place and a fix.
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
	{"a copy of any form is restored into an empty database of either kind", restored},
	{"a restore writes over nothing, and tells which is newer", notOverwritten},
	{"a bad backup brings back nothing", badBackups},
	{"a picture is kept once, as it came", picturesKept},
	{"pictures are in a backup, and come back in a database of either kind", picturesRestored},
	{"placeholders are bound by their numbers", placesOfPlaceholders},
	{"columns take nothing but their type", wrongTypes},
	{"a step of the tables is done whole or not at all; a newer table is not touched", steppedHalfway},
	{"a beginning that was stopped is gone on from", stoppedAtFirst},
	{"several programs may start at once on a new database", startedTogether},
	{"bytes sort and compare alike", odd},
	{"passwords and PINs are kept beside the chain", secretsKept},
	{"of many tries at once no more are counted than are allowed", triesAtOnce},
	{"right tries are forgotten", rightTries},
	{"a device is signed in, changes hands and is signed out", devices},
	{"a person is signed out everywhere", signedOutEverywhere},
	{"old devices are signed out", oldDevices},
	{"an instrument has a key until it is taken away", instrumentKeys},
	{"nothing of people is in an export, and all of it in a copy of the file", peopleExported},
}
