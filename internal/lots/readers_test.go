package lots_test

import (
	"slices"
	"sync"
	"testing"

	"kettlefrost/internal/lots"
)

// Many may ask at once: what asks a state changes nothing. The race detector, where there is one, watches.
func TestManyMayAskAtOnce(t *testing.T) {
	s, _ := lots.Of(slices.Values(diary(t, mockRecall(t)...)))
	want := everything(t, s)
	answers := make([]string, 8)
	var all sync.WaitGroup
	for i := range answers {
		all.Go(func() {
			answers[i] = everything(t, s)
			if _, err := s.Rule(nil, lots.House{Date: noDate}); err != nil {
				t.Error(err)
			}
			if _, err := s.Story("P-stew/1101"); err != nil {
				t.Error(err)
			}
			s.Commutes(diary(t, mockRecall(t)...)[3])
			s.Stock()
		})
	}
	all.Wait()
	for _, got := range answers {
		if got != want {
			t.Error("an answer was another")
		}
	}
	if everything(t, s) != want {
		t.Error("asking changed something")
	}
}
