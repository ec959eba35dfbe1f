package trials

import (
	"encoding/json"
	"math"
	"strings"
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

// What a picture shows is read back from one text, whatever a variant is called.
func TestWhatAPictureShowsIsReadBack(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		trial := rapid.StringMatching(`[a-z0-9]+(-[a-z0-9]+){0,3}`).Draw(rt, "trial")
		variant := strings.ReplaceAll(rapid.StringN(1, 12, 40).Draw(rt, "variant"), "/", "-")
		week := record.Week(rapid.IntRange(0, 520).Draw(rt, "week"))
		about := About(trial, variant, week)
		p := pictureOf(Said[record.Pictured]{Body: record.Pictured{About: about}})
		if !isAbout(about, trial) || isAbout(about, trial+"-2") || p.Variant != variant || p.Week != week || !p.HasWeek {
			rt.Errorf("%q: %+v", about, p)
		}
		if whole := pictureOf(Said[record.Pictured]{Body: record.Pictured{About: About(trial, "", 0)}}); whole.Variant != "" || whole.HasWeek {
			rt.Errorf("%+v", whole)
		}
	})
}

// Whatever was scored and measured, or not: the report can be written as JSON, which knows no infinity, and no sentence says one.
func TestEveryReportCanBeWritten(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		laid := gum()
		laid.Variants = append(laid.Variants, record.Variant{Name: "third", Change: "x"})
		d := newDiary(t).enter(laid)
		x := d.trial(laid.Trial)
		same := rapid.Bool().Draw(rt, "all alike")
		value := func(name string, most int) float64 {
			if same {
				return 7
			}
			return float64(rapid.IntRange(0, most).Draw(rt, name))
		}
		for v, variant := range laid.Variants {
			for _, w := range laid.Weeks {
				if rapid.Bool().Draw(rt, "opened") {
					d.enter(pack(laid.Trial, variant.Name, w, 1, value("drip", 100)))
				}
				for _, taster := range laid.Tasters {
					if rapid.Bool().Draw(rt, "tasted") {
						d.enter(score(x, taster, w, v, "texture", value("points", 10)))
					}
				}
			}
		}
		r := ResultsOf(d.trial(laid.Trial))
		if _, err := json.Marshal(r.Report("2026-12-01")); err != nil {
			rt.Error(err)
		}
		for _, f := range r.Figures {
			for _, p := range f.Pairs {
				if strings.Contains(p.Text, "Inf") || strings.Contains(p.Text, "NaN") || math.IsNaN(p.PAmong) {
					rt.Errorf("%+v", p)
				}
			}
		}
	})
}
