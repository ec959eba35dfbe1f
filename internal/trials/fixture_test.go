package trials

import (
	"encoding/binary"
	"testing"
	"time"

	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// diary is entries of a trial as people make them.
type diary struct {
	t   *testing.T
	all []record.Entry
	now time.Time
}

func newDiary(t *testing.T) *diary {
	return &diary{t: t, now: time.Date(2026, 9, 1, 9, 0, 0, 0, time.UTC)}
}

func (d *diary) on(day string) *diary {
	d.t.Helper()
	at, err := time.Parse(time.DateOnly, day)
	if err != nil {
		d.t.Fatal(err)
	}
	d.now = at.Add(9 * time.Hour)
	return d
}

func (d *diary) enter(bodies ...record.Body) *diary {
	d.t.Helper()
	for _, b := range bodies {
		var id record.ID
		binary.BigEndian.PutUint64(id[8:], uint64(len(d.all)+1))
		e, err := record.Say(id, record.Instant(d.now.UnixMilli()), "Nora", "tablet", b)
		if err != nil {
			d.t.Fatal(err)
		}
		e.Seq = uint64(len(d.all) + 1)
		d.all = append(d.all, e)
	}
	return d
}

func (d *diary) trial(name string) Trial {
	d.t.Helper()
	s, found := Of(d.all...)
	if len(found) > 0 {
		d.t.Fatal(found)
	}
	t, ok := s.Trial(name)
	if !ok {
		d.t.Fatalf("there is no trial %s", name)
	}
	return t
}

func decimal(x float64) *record.Decimal {
	d := record.Decimal(x*1000 + 0.5)
	return &d
}

// gum is a trial of a sauce with and without a gum: two variants, three figures, in weeks 1, 4 and 8.
func gum() record.TrialLaid {
	return record.TrialLaid{Trial: "ale-cheddar-gum", Dish: "ale-cheddar", Asks: "does a little gum keep it from weeping?",
		Variants: []record.Variant{{Name: "as it is", Change: "as in the book", Base: true}, {Name: "gum", Change: "0.2 % xanthan"}},
		Figures: []record.Figured{
			{Figure: Drip, Unit: Grams, Better: record.LowIsBetter, Matters: *decimal(3), Bound: decimal(10)},
			{Figure: Separation, Unit: Share, Better: record.LowIsBetter, Matters: *decimal(0.02)},
			{Figure: "texture", Unit: Points, Better: record.HighIsBetter, Matters: *decimal(1), Bound: decimal(5)}},
		Tasters: []string{"Nora", "Sam", "Ben"}, Weeks: []record.Week{1, 4, 8}, Packs: 2, Seed: 7}
}

func batch(trial, variant, frozen string, packs int64) record.TrialMade {
	return record.TrialMade{Trial: trial, Variant: variant, Mass: 4 * unit.Kilogram, Packs: packs, Each: unit.Pound, Frozen: record.Day(frozen)}
}

func pack(trial, variant string, week record.Week, number int64, drip float64) record.TrialOpened {
	return record.TrialOpened{Trial: trial, Variant: variant, Week: week, Number: number, Whole: unit.Pound, Drip: decimal(drip)}
}

func score(t Trial, taster string, week record.Week, variant int, figure string, points float64) record.TrialScored {
	return record.TrialScored{Trial: t.Name, Week: week, Taster: taster, Code: t.CodeOf(variant, week), Scores: []record.Score{{Figure: figure, Points: *decimal(points)}}}
}
