package netcontents_test

import (
	"errors"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/netcontents"
	"kettlefrost/internal/unit"
)

// TestWeighings: 60 packs in 30 min, a sample of 12 in groups of 4: one group in the middle of every 20 packs.
func TestWeighings(t *testing.T) {
	s, err := netcontents.Weighings(netcontents.Filling{Packs: 60, Lasts: 30 * unit.Minute, Sample: 12, Group: 4})
	if err != nil {
		t.Fatal(err)
	}
	want := [][]int{{9, 10, 11, 12}, {29, 30, 31, 32}, {49, 50, 51, 52}}
	if len(s.Groups) != 3 || s.Packs != 20 || s.Every != 10*unit.Minute || s.Weighed != 12 {
		t.Fatalf("%+v", s)
	}
	for i, g := range s.Groups {
		if !slices.Equal(g.Packs, want[i]) || !slices.Equal(g.Sample, want[i]) || g.At != unit.Span(want[i][3])*30 {
			t.Errorf("group %d: %+v", i+1, g)
		}
	}
}

// TestEveryWeighing: groups follow each other within the filling and do not overlap; the sample is as large as asked and comes from the
// groups; the gaps between full groups differ by two packs at most.
func TestEveryWeighing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		packs := rapid.IntRange(1, 400).Draw(t, "packs")
		f := netcontents.Filling{Packs: packs, Lasts: unit.Hour, Sample: rapid.IntRange(0, packs).Draw(t, "sample"),
			Group: rapid.IntRange(1, min(packs, 10)).Draw(t, "group"), Groups: rapid.IntRange(0, packs).Draw(t, "groups")}
		s, err := netcontents.Weighings(f)
		if err != nil {
			t.Fatal(err)
		}
		last, sample, weighed := 0, 0, 0
		var gaps []int
		at := unit.Span(0)
		for _, g := range s.Groups {
			if g.Packs[0] <= last || g.At < at || g.At > f.Lasts {
				t.Fatalf("%+v", s)
			}
			if last > 0 {
				gaps = append(gaps, g.Packs[0]-last)
			}
			last, at = g.Packs[len(g.Packs)-1], g.At
			sample, weighed = sample+len(g.Sample), weighed+len(g.Packs)
		}
		if last > packs || sample != f.Sample || weighed != s.Weighed || len(s.Groups) < min(f.Groups, (packs+f.Group-1)/f.Group) {
			t.Fatalf("%d in the sample, %d weighed, the last %d: %+v", sample, weighed, last, s)
		}
		if len(gaps) > 0 && slices.Max(gaps)-slices.Min(gaps) > 2 {
			t.Fatalf("gaps %v", gaps)
		}
	})
}

func TestWeighingsThatMakeNoSense(t *testing.T) {
	for _, f := range []netcontents.Filling{
		{Packs: 0, Group: 1}, {Packs: 10, Sample: 12, Group: 2}, {Packs: 10, Group: 0}, {Packs: 10, Group: 11}, {Packs: 10, Group: 2, Groups: -1},
		{Packs: 10, Group: 2, Lasts: -1},
	} {
		var wrong *netcontents.InputError
		if _, err := netcontents.Weighings(f); !errors.As(err, &wrong) || wrong.Fix == "" {
			t.Errorf("%+v: got %v, want an *InputError with its fix", f, err)
		}
	}
}
