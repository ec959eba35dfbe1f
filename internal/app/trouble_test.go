package app

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/store"
	"kettlefrost/internal/store/pgserver"
	"kettlefrost/internal/unit"
)

// delivery is a sack of onions at the door; each has an ID and a lot of its own.
func delivery(who string, n int) Said {
	s := Said{Who: who, Device: "tablet", At: time.UnixMilli(1_790_000_000_000 + int64(n)), Body: record.Received{Lot: record.Lot(fmt.Sprintf("R-%s-%d", who, n)), Ingredient: "onion", Supplier: "farm", Mass: 10 * unit.Kilogram, Place: "store"}}
	copy(s.ID[:], fmt.Sprintf("%-8s%08d", who, n))
	return s
}

// lotsOf is how many lots are there.
func lotsOf(t testing.TB, r *Records) int {
	t.Helper()
	n := 0
	err := r.Lots(t.Context(), func(s *lots.State, _ finding.List) error {
		for range s.All() {
			n++
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// wantTrouble requires trouble of a kind, told with its place and what to do.
func wantTrouble(t testing.TB, err error, code store.Code) {
	t.Helper()
	e, ok := errors.AsType[*store.Error](err)
	if !ok || e.Code != code || e.Place == "" || e.Problem == "" || e.Fix == "" {
		t.Fatalf("%v (%T), want the trouble %s with its place, what it is and what to do", err, err, code)
	}
}

// wantWhole requires a whole chain of n entries, each a lot.
func wantWhole(t testing.TB, r *Records, n int) {
	t.Helper()
	if head, err := r.Verify(t.Context()); err != nil || head.Seq != uint64(n) {
		t.Fatalf("the chain is good up to %d, want %d: %v", head.Seq, n, err)
	}
	if got := lotsOf(t, r); got != n {
		t.Fatalf("%d lots of %d deliveries", got, n)
	}
}

func enter(t testing.TB, r *Records, said ...Said) {
	t.Helper()
	if _, err := r.Enter(t.Context(), said...); err != nil {
		t.Fatal(err)
	}
}

// Another program holds the file for longer than anybody waits: it is said so, reading goes on, and afterwards so does writing.
func TestFileHeldByAnotherProgram(t *testing.T) {
	if testing.Short() {
		t.Skip("waits for as long as the store does")
	}
	path := filepath.Join(t.TempDir(), "kitchen.records")
	r := openRecords(t, path, time.Now)
	enter(t, r, delivery("ada", 1))
	other, err := sql.Open("sqlite", "file:"+path+"?_txlock=immediate")
	if err != nil {
		t.Fatal(err)
	}
	defer other.Close()
	holding, err := other.Begin()
	if err != nil {
		t.Fatal(err)
	}
	_, err = r.Enter(t.Context(), delivery("ada", 2))
	wantTrouble(t, err, store.Locked)
	wantWhole(t, r, 1)
	if err := holding.Rollback(); err != nil {
		t.Fatal(err)
	}
	enter(t, r, delivery("ada", 2)) // sent again
	wantWhole(t, r, 2)
}

// The server goes away while twenty clients post, and comes back: each of them is told so, and what they send again is there once. The state
// that was kept up goes on from where it was.
func TestServerGoneAndBack(t *testing.T) {
	if testing.Short() {
		t.Skip("needs a PostgreSQL server, which -short does not start")
	}
	own, err := pgserver.Start()
	if err != nil {
		t.Fatal(err)
	}
	defer own.Remove()
	address, err := own.Database("")
	if err != nil {
		t.Fatal(err)
	}
	r := openRecords(t, address, time.Now)
	enter(t, r, delivery("ada", 0))
	wantWhole(t, r, 1)
	const each = 60
	refused := make([]error, clients)
	acknowledged := make([]int, clients)
	var posting sync.WaitGroup
	for c := range clients {
		posting.Go(func() {
			for acknowledged[c] < each && refused[c] == nil {
				if _, refused[c] = r.Enter(t.Context(), delivery(fmt.Sprint("c", c), acknowledged[c])); refused[c] != nil {
					continue
				}
				if acknowledged[c]++; c == 0 && acknowledged[c] == 20 {
					posting.Go(func() {
						if err := own.Stop("immediate"); err != nil {
							t.Error(err)
						}
					})
				}
			}
		})
	}
	posting.Wait()
	told := 0
	for c := range clients {
		if acknowledged[c] < each {
			wantTrouble(t, refused[c], store.Unreachable)
			told++
		}
	}
	if told == 0 {
		t.Fatal("nobody was posting any more when the server went away")
	}
	nothing := func(*lots.State, finding.List) error { return nil }
	wantTrouble(t, r.Lots(t.Context(), nothing), store.Unreachable)
	if err := own.Restart(); err != nil {
		t.Fatal(err)
	}
	for c := range clients {
		for n := range each {
			enter(t, r, delivery(fmt.Sprint("c", c), n)) // all of it again
		}
	}
	wantWhole(t, r, 1+clients*each)
}

// Two servers on one database see each other's entries at once, with corrections, and what reaches both at the same time is taken in once.
func TestTwoServersOnOneDatabase(t *testing.T) {
	for _, database := range databases {
		t.Run(database.name, func(t *testing.T) {
			address := database.address(t)
			here, there := openRecords(t, address, time.Now), openRecords(t, address, time.Now)
			enter(t, here, delivery("ada", 0))
			if n := lotsOf(t, there); n != 1 {
				t.Fatalf("the other server has %d lots", n)
			}
			wrong := delivery("ada", 0)
			right := Said{Who: "bo", Device: "tablet", At: wrong.At, Corrects: wrong.ID, Body: record.Voided{Why: "not ours"}}
			enter(t, there, right) // of what was told here
			if n := lotsOf(t, here); n != 0 {
				t.Fatalf("%d lots after it was taken back there", n)
			}
			const n = 60
			var posting sync.WaitGroup
			answers := make([][]record.Entry, 2)
			for i, r := range []*Records{here, there} {
				posting.Go(func() {
					for k := range n {
						got, err := r.Enter(t.Context(), delivery("both", k))
						if err != nil {
							t.Error(err)
						}
						answers[i] = append(answers[i], got...)
						if k%10 == 0 {
							lotsOf(t, r)
						}
					}
				})
			}
			posting.Wait()
			for k := range n {
				if answers[0][k].Hash != answers[1][k].Hash {
					t.Fatalf("entry %d was answered as number %d here and as number %d there", k, answers[0][k].Seq, answers[1][k].Seq)
				}
			}
			for _, r := range []*Records{here, there} {
				if head, err := r.Verify(t.Context()); err != nil || head.Seq != n+2 || lotsOf(t, r) != n {
					t.Errorf("the chain is good up to %d of %d, with %d lots: %v", head.Seq, n+2, lotsOf(t, r), err)
				}
			}
			changed := delivery("both", 3)
			changed.Body = record.Received{Lot: "R-other", Ingredient: "onion", Supplier: "farm", Mass: unit.Kilogram}
			_, err := there.Enter(t.Context(), changed)
			if conflict, ok := errors.AsType[*store.ConflictError](err); !ok || conflict.Field != "body" {
				t.Errorf("something else under an ID that is taken: %v", err)
			}
		})
	}
}

// A follower on one server is told of what the other takes in.
func TestFollowingTheOtherServer(t *testing.T) {
	for _, database := range databases {
		t.Run(database.name, func(t *testing.T) {
			address := database.address(t)
			here, there := openRecords(t, address, time.Now), openRecords(t, address, time.Now)
			ctx, cancel := context.WithTimeout(t.Context(), 20*time.Second)
			defer cancel()
			enter(t, there, delivery("ada", 0))
			seen := 0
			for e, err := range here.Follow(ctx, 0) {
				if err != nil || e.ID != delivery("ada", seen).ID {
					t.Fatalf("%v %v, want delivery %d", e.ID, err, seen)
				}
				if seen++; seen == 5 {
					return
				}
				enter(t, there, delivery("ada", seen))
			}
			t.Fatalf("%d entries of 5", seen)
		})
	}
}

// A server's clock that goes back by a day changes neither the order of the chain nor what is folded, and nothing is refused.
func TestClockGoneBack(t *testing.T) {
	for _, database := range databases {
		t.Run(database.name, func(t *testing.T) {
			now := time.UnixMilli(1_790_000_100_000)
			address := database.address(t)
			r := openRecords(t, address, func() time.Time { return now })
			enter(t, r, delivery("ada", 0))
			now = now.Add(-24 * time.Hour)
			enter(t, r, delivery("ada", 1))
			wantWhole(t, r, 2)
			wantWhole(t, openRecords(t, address, time.Now), 2)
			back := 0
			for e, err := range r.store.Read(t.Context(), 1) {
				if err != nil {
					t.Fatal(err)
				}
				if e.Entered < record.Instant(1_790_000_100_000) {
					back++
				}
			}
			if back != 1 {
				t.Errorf("%d entries say that they came before the clock went back, want 1: the chain keeps what the clock said", back)
			}
		})
	}
}
