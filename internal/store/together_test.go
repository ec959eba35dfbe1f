package store

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"sync"
	"testing"
	"time"

	"kettlefrost/internal/record"
)

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
