package caution

import (
	"strings"
	"testing"
)

// What must be said, as the codes have it and as kitchens say it.
func TestWhatIsSaid(t *testing.T) {
	for act, words := range map[Act][]string{
		SealingVacuum: {"botulinum", "chilled", "frozen until use", "approved plan"},
		BlendingHot:   {"half at most", "vent"},
		MovingHot:     {"scalds", "two people"},
		RawAnimal:     {"wash hands", "board"},
		Allergens:     {"Wash", "label"},
		SellingFrozen: {"Keep frozen until use"},
		FishInVacuum:  {"open the pack before it thaws"}, // 3-501.13(E)
	} {
		c := Of(act)
		for _, w := range words {
			if !strings.Contains(c.Says, w) {
				t.Errorf("%s does not say %q: %s", act, w, c.Says)
			}
		}
		if c.Source == "" {
			t.Errorf("%s names no source", act)
		}
		// None of them may sound as if all were well.
		for _, w := range []string{" safe", "no risk", "harmless"} {
			if strings.Contains(c.Says, w) {
				t.Errorf("%s reassures: %s", act, c.Says)
			}
		}
	}
}

func TestEachOnceTheGravestFirst(t *testing.T) {
	got := For(Allergens, SealingVacuum, Allergens)
	if len(got) != 2 || got[0].Act != SealingVacuum || got[1].Act != Allergens {
		t.Errorf("%v", got)
	}
	if none := For(); none == nil || len(none) != 0 {
		t.Errorf("%v", none)
	}
}
