package trials

import (
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/record"
)

// A variant is held against the base, whichever of the two was written first: the same numbers, the same words.
func TestTheBaseIsTheBaseWhereverItStands(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(2, 8).Draw(rt, "packs")
		better := rapid.SampledFrom([]record.Better{record.LowIsBetter, record.HighIsBetter}).Draw(rt, "better")
		drips := rapid.SliceOfN(rapid.IntRange(0, 200), 2*n, 2*n).Draw(rt, "tenths of a gram")
		told := func(first, second string) Told {
			d := newDiary(t).enter(record.TrialLaid{Trial: "t", Dish: "d", Asks: "which?", Variants: []record.Variant{{Name: first, Change: "x", Base: first == "base"}, {Name: second, Change: "x", Base: second == "base"}},
				Figures: []record.Figured{{Figure: Drip, Unit: Grams, Better: better, Matters: 2000}}, Tasters: []string{"Nora"}, Weeks: []record.Week{2}, Packs: int64(n), Seed: 3})
			for i := range n {
				d.enter(pack("t", "base", 2, int64(i+1), float64(drips[2*i])/10), pack("t", "new", 2, int64(i+1), float64(drips[2*i+1])/10))
			}
			x := ResultsOf(d.trial("t")).Figures[0].Pairs[0]
			x.Of, x.Against = 0, 0
			return x
		}
		a, b := told("base", "new"), told("new", "base")
		close := func(x, y float64) bool { return x-y < 1e-9 && y-x < 1e-9 }
		if a.Text != b.Text || a.Verdict != b.Verdict || a.Better != b.Better || !close(a.Estimate, b.Estimate) || !close(a.Low, b.Low) || !close(a.High, b.High) || !close(a.P, b.P) {
			rt.Errorf("%+v\n%+v", a, b)
		}
	})
}
