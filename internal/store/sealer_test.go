package store

import (
	"errors"
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/record"
)

// Whatever comes in whatever groups, the chain is whole, each ID is in it once, and an append is in it all or not at all.
func TestWhateverComesInTheChainIsWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := sealer{known: map[record.ID]record.Entry{}, now: 1_764_072_000_000}
		model := map[record.ID]string{} // what was taken in, by the first that came
		for range rapid.IntRange(1, 12).Draw(t, "appends") {
			var list []record.Entry
			for range rapid.IntRange(1, 5).Draw(t, "entries") {
				e := weighing("ana", rapid.IntRange(0, 9).Draw(t, "id"))
				e.Body = fmt.Appendf(nil, `{"text":%d}`, rapid.IntRange(0, 2).Draw(t, "text")/2) // mostly the same
				list = append(list, e)
			}
			after, clash := map[record.ID]string{}, false
			for _, e := range list {
				old, ok := model[e.ID]
				if !ok {
					old, ok = after[e.ID]
				}
				if clash = clash || ok && old != string(e.Body); !ok {
					after[e.ID] = string(e.Body)
				}
			}
			before := len(s.fresh)
			got, err := s.take(list)
			if _, is := errors.AsType[*ConflictError](err); is != clash || clash && len(s.fresh) != before || !clash && len(got) != len(list) {
				t.Fatalf("clash %v, answered with %v, %v", clash, got, err)
			}
			for i, e := range got {
				if e.ID != list[i].ID || difference(e, list[i]) != "" {
					t.Fatalf("%v is answered with %v", list[i], e)
				}
			}
			if !clash {
				for id, text := range after {
					model[id] = text
				}
			}
		}
		head, err := record.Verify(record.Head{}, sequence(s.fresh))
		if err != nil || head != s.head || len(s.fresh) != len(model) {
			t.Fatalf("%d entries, good up to %d, %d taken in: %v", len(s.fresh), head.Seq, len(model), err)
		}
	})
}

func sequence(list []record.Entry) func(func(record.Entry, error) bool) {
	return func(yield func(record.Entry, error) bool) {
		for _, e := range list {
			if !yield(e, nil) {
				return
			}
		}
	}
}

func TestChunksHoldEverythingOnce(t *testing.T) {
	for n := range 300 {
		list := make([]int, n)
		for i := range list {
			list[i] = i
		}
		var got []int
		for chunk := range chunks(list) {
			if !slices.Contains(chunkSizes[:], len(chunk)) {
				t.Fatalf("a chunk of %d", len(chunk))
			}
			got = append(got, chunk...)
		}
		if !slices.Equal(got, list) {
			t.Fatalf("%d: %v", n, got)
		}
	}
	if got, want := placeholders(2, 3), "($1, $2, $3), ($4, $5, $6)"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}
