package lots_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// A state and its copy go on apart: each is what folding its own entries gives.
func TestCopiesGoOnApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		entries := inOrder(anyHistory(t))
		k := rapid.IntRange(0, len(entries)).Draw(t, "before the copy")
		until, after := entries[:k], entries[k:]
		original, _ := lots.Of(slices.Values(until))
		short := everything(t, original)
		copied := original.Copy()
		if got := everything(t, copied); got != short {
			t.Fatalf("the copy is\n%s\nof\n%s", got, short)
		}
		whole, _ := lots.Of(slices.Values(entries))
		want := everything(t, whole)
		for _, taking := range []struct{ takes, rests *lots.State }{{copied, original}, {original, copied}} {
			rests := everything(t, taking.rests)
			take(taking.takes, after)
			if got := everything(t, taking.rests); got != rests {
				t.Fatalf("what rests became\n%s\nof\n%s", got, rests)
			}
			if got := everything(t, taking.takes); got != want {
				t.Fatalf("what takes is\n%s\nwant\n%s", got, want)
			}
		}
	})
}

func take(s *lots.State, entries []record.Entry) {
	for _, e := range entries {
		s.Take(e)
	}
}
