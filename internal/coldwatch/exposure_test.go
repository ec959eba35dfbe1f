package coldwatch_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// warmNoon is a chest that is warm from hour 10 to 16, above -5 °C from 12 to 14 and above 41 °F never.
func warmNoon(t testing.TB) coldwatch.Stretch {
	seen := look(t, chest(), hourly(9, -18, -18, -9, -9, -3, -9, -9, -18, -18), 17)
	for _, s := range seen.Stretches {
		if s.Kind == coldwatch.TooWarm {
			if s.From != at(10) || s.Until != at(16) {
				t.Fatalf("it is warm from %g to %g", float64(s.From-began)/hour, float64(s.Until-began)/hour)
			}
			return s
		}
	}
	t.Fatal("it is never warm")
	return coldwatch.Stretch{}
}

// What lay there by the records, in words: lot, packs, hours there, advice.
func TestWhatLayThereThen(t *testing.T) {
	moved := func(lot record.Lot, numbers string, to record.Place) record.Moved {
		return record.Moved{Lot: lot, Numbers: nos(t, numbers), To: to}
	}
	for name, x := range map[string]struct {
		says []say
		want string
	}{
		"all the time":                     {[]say{{1, packed(t, "P", "1-9", "chest")}}, "P 1-9 6h inspect"},
		"in a basket of it":                {[]say{{1, packed(t, "P", "1-9", "chest/basket/box a")}}, "P 1-9 6h inspect"},
		"elsewhere":                        {[]say{{1, packed(t, "P", "1-9", "upright")}}, ""},
		"another of its name":              {[]say{{1, packed(t, "P", "1-9", "chest-2")}}, ""},
		"came after":                       {[]say{{17, packed(t, "P", "1-9", "chest")}}, ""},
		"came as it ended":                 {[]say{{16, packed(t, "P", "1-9", "chest")}}, ""},
		"came while it was warm":           {[]say{{15, packed(t, "P", "1-9", "chest")}}, "P 1-9 1h note"},
		"gone before":                      {[]say{{1, packed(t, "P", "1-9", "chest")}, {9, moved("P", "1-9", "upright")}}, ""},
		"gone while it was warm":           {[]say{{1, packed(t, "P", "1-9", "chest")}, {11, moved("P", "1-9", "upright")}}, "P 1-9 1h note"},
		"sold since":                       {[]say{{1, packed(t, "P", "1-9", "chest")}, {20, record.HandedOver{Customer: "inn", Lot: "P", Numbers: nos(t, "1-9")}}}, "P 1-9 6h inspect"},
		"written off since":                {[]say{{1, packed(t, "P", "1-9", "chest")}, {20, record.WrittenOff{Lot: "P", Numbers: nos(t, "1-9"), Why: "torn"}}}, "P 1-9 6h inspect"},
		"some were moved in between":       {[]say{{1, packed(t, "P", "1-9", "chest")}, {11, moved("P", "1-4", "upright")}}, "P 5-9 6h inspect, P 1-4 1h note"},
		"some were taken out and back":     {[]say{{1, packed(t, "P", "1-9", "chest")}, {11, moved("P", "1-4", "upright")}, {15, moved("P", "1-2", "chest")}}, "P 5-9 6h inspect, P 1-2 2h note, P 3-4 1h note"},
		"found there when stock was taken": {[]say{{1, packed(t, "P", "1-9", "upright")}, {11, record.Counted{Lot: "P", Place: "chest", Numbers: nos(t, "3")}}}, "P 3 5h inspect"},
		"came back":                        {[]say{{1, packed(t, "P", "1-9", "chest")}, {2, record.HandedOver{Customer: "inn", Lot: "P", Numbers: nos(t, "1-9")}}, {11, record.Returned{Customer: "inn", Lot: "P", Numbers: nos(t, "7"), Place: "chest", Why: "too much"}}}, "P 7 5h inspect"},
		"nobody said where":                {[]say{{1, packed(t, "P", "1-9", "")}}, "P 1-9 6h inspect perhaps"},
		"goods in bulk":                    {[]say{{1, record.Received{Lot: "R", Ingredient: "peas", Supplier: "farm", Mass: 5 * unit.Kilogram, Place: "chest"}}, {11, record.Used{Run: "r", Dish: "soup", Lot: "R", Mass: 5 * unit.Kilogram}}}, "R 5 kg 1h note"},
		"bulk that was partly used":        {[]say{{1, record.Received{Lot: "R", Ingredient: "peas", Supplier: "farm", Mass: 5 * unit.Kilogram, Place: "chest"}}, {11, record.Used{Run: "r", Dish: "soup", Lot: "R", Mass: 2 * unit.Kilogram}}}, "R 5 kg 6h inspect"},
		"told late":                        {[]say{{20, record.Noted{Text: "x"}}, {1, packed(t, "P", "1-9", "chest")}}, "P 1-9 6h inspect"},
	} {
		state := told(t, x.says...)
		got, err := chest().Exposures(state, warmNoon(t), frozen, keeps(90))
		if err != nil {
			t.Fatal(err)
		}
		var words []string
		for _, e := range got {
			many := e.Amount.Numbers.String()
			if many == "" {
				many = e.Amount.Mass.String()
			}
			word := fmt.Sprintf("%s %s %gh %s", e.Lot.ID, many, float64(e.Ms)/hour, e.Advice)
			if !e.Sure {
				word += " perhaps"
			}
			words = append(words, word)
		}
		if strings.Join(words, ", ") != x.want {
			t.Errorf("%s: %q, want %q", name, strings.Join(words, ", "), x.want)
		}
	}
}

func TestAPartIsWatched(t *testing.T) {
	w := chest()
	w.Place = "chest/basket"
	state := told(t, say{1, packed(t, "A", "1", "chest/basket/box")}, say{1, packed(t, "B", "1", "chest")}, say{1, packed(t, "C", "1", "chest/bottom")}, say{1, packed(t, "D", "1", "chest/basket-2")})
	got, err := w.Exposures(state, warmNoon(t), frozen, keeps(90))
	if err != nil || len(got) != 2 || got[0].Lot.ID != "A" || !got[0].Sure || got[1].Lot.ID != "B" || got[1].Sure {
		t.Errorf("%+v (%v)", got, err)
	}
}

func TestWhereTheyAreNow(t *testing.T) {
	state := told(t, say{1, packed(t, "P", "1-9", "chest")}, say{20, record.HandedOver{Customer: "inn", Order: "O-1", Lot: "P", Numbers: nos(t, "1-4")}}, say{21, record.Held{Lot: "P", Numbers: nos(t, "5-6"), Why: "warm"}})
	got, err := chest().Exposures(state, warmNoon(t), frozen, keeps(0))
	if err != nil || len(got) != 1 {
		t.Fatal(got, err)
	}
	e := got[0]
	if e.Here.String() != "5-9" || e.Held.String() != "5-6" || e.Kept || len(e.Gone) != 1 || e.Gone[0].Customer != "inn" || e.Gone[0].Numbers.String() != "1-4" || e.Used.Share != 0 {
		t.Errorf("%+v", e)
	}
}

// An excursion of nothing but silence: what lay there is to be looked at, the longer it was the more.
func TestSilenceIsNeverFine(t *testing.T) {
	state := told(t, say{-5, packed(t, "P", "1-9", "chest")})
	for hours, want := range map[float64]coldwatch.Advice{2: coldwatch.Look, 23: coldwatch.Look, 24: coldwatch.Measure, 60: coldwatch.Measure} {
		x := look(t, chest(), []coldwatch.Reading{read(0, -18), read(1, -18), read(2, -18), read(2+hours+2, -18)}, 2+hours+2).Stretches
		if hours == 2 { // three times what is usual between two readings
			continue
		}
		got, err := chest().Exposures(state, x[0], frozen, keeps(90))
		if err != nil || len(got) != 1 || got[0].UnknownMs != int64((hours+2)*hour) {
			t.Fatalf("%g h: %+v (%v)", hours, got, err)
		}
		if hours+2 >= 24 {
			want = coldwatch.Measure
		}
		if got[0].Advice != want {
			t.Errorf("%g h: %s, want %s", hours+2, got[0].Advice, want)
		}
	}
}

var somewhere = []record.Place{"chest", "chest/basket", "chest/basket/box", "upright", "chest-2", "walk-in"}

// Whatever is told of packs: each that lay in the chest at any moment of an excursion, by the state of the records at that moment, is in its
// list; no pack is there twice; and none is there for sure that never lay there.
func TestNothingThatLayThereIsMissing(t *testing.T) {
	x := warmNoon(t)
	rapid.Check(t, func(rt *rapid.T) {
		var says []say
		clock := 0.0
		for i := range rapid.IntRange(1, 3).Draw(rt, "lots") {
			says = append(says, say{rapid.Float64Range(0, 17).Draw(rt, "packed"), packed(t, record.Lot(fmt.Sprintf("P-%d", i)), "1-6", rapid.SampledFrom(somewhere).Draw(rt, "place"))})
		}
		for range rapid.IntRange(0, 10).Draw(rt, "entries") {
			clock = rapid.Float64Range(0, 20).Draw(rt, "hour")
			lot := record.Lot(fmt.Sprintf("P-%d", rapid.IntRange(0, 2).Draw(rt, "lot")))
			n := nos(t, rapid.SampledFrom([]string{"1", "1-3", "2-6", "5", "1-6"}).Draw(rt, "numbers"))
			to := rapid.SampledFrom(somewhere).Draw(rt, "to")
			says = append(says, say{clock, []record.Body{
				record.Moved{Lot: lot, Numbers: n, To: to}, record.Moved{Lot: lot, Numbers: n, To: to}, record.Counted{Lot: lot, Place: to, Numbers: n},
				record.WrittenOff{Lot: lot, Numbers: n, Why: "torn"}, record.HandedOver{Customer: "inn", Lot: lot, Numbers: n},
				record.Returned{Customer: "inn", Lot: lot, Numbers: n, Place: to, Why: "too much"},
			}[rapid.IntRange(0, 5).Draw(rt, "what")]})
		}
		slices.SortStableFunc(says, func(a, b say) int { return int(at(a.hours) - at(b.hours)) })

		lay := map[record.Lot]record.Numbers{}
		note := func(s *lots.State) {
			for l := range s.All() {
				for place, a := range l.Here {
					if place == "chest" || strings.HasPrefix(string(place), "chest/") {
						lay[l.ID] = lay[l.ID].Union(a.Numbers)
					}
				}
			}
		}
		for i := range says { // as it was from this entry to the next
			next := x.Until + 1
			if i+1 < len(says) {
				next = at(says[i+1].hours)
			}
			if from := at(says[i].hours); from < x.Until && next > x.From && next > from {
				note(told(t, says[:i+1]...))
			}
		}
		got, err := chest().Exposures(told(t, says...), x, frozen, keeps(90))
		if err != nil {
			rt.Fatal(err)
		}
		listed := map[record.Lot]record.Numbers{}
		for _, e := range got {
			if twice := listed[e.Lot.ID].Intersect(e.Amount.Numbers); !twice.Empty() {
				rt.Fatalf("packs %s of %s are listed twice", twice, e.Lot.ID)
			}
			listed[e.Lot.ID] = listed[e.Lot.ID].Union(e.Amount.Numbers)
			if e.Ms <= 0 || e.Ms > x.Ms() {
				rt.Fatalf("packs %s of %s lay there for %d ms", e.Amount.Numbers, e.Lot.ID, e.Ms)
			}
		}
		for i := range 3 {
			id := record.Lot(fmt.Sprintf("P-%d", i))
			if !listed[id].Equal(lay[id]) {
				rt.Fatalf("of %s there lay %s, and listed are %s: %+v", id, lay[id], listed[id], says)
			}
		}
	})
}

func TestWhatTheGuidanceSays(t *testing.T) {
	yes, no := true, false
	f := func(degrees float64) *float64 { c := (degrees - 32) / 1.8; return &c }
	for name, x := range map[string]struct {
		found coldwatch.Looked
		want  coldwatch.Verdict
	}{
		"nothing told":          {coldwatch.Looked{}, coldwatch.NotTold},
		"ice crystals":          {coldwatch.Looked{Ice: &yes}, coldwatch.MayRefreeze},
		"no ice and no reading": {coldwatch.Looked{Ice: &no}, coldwatch.DiscardIt},
		"no ice, 40 °F":         {coldwatch.Looked{Ice: &no, CoreC: f(40)}, coldwatch.MayRefreeze},
		"no ice, 40 °F, by a thermometer that may be wrong": {coldwatch.Looked{Ice: &no, CoreC: f(40), AccuracyC: 0.5}, coldwatch.Decide},
		"no ice, 40 °F, without air":                        {coldwatch.Looked{Ice: &no, CoreC: f(40), Vacuum: true}, coldwatch.Authority},
		"ice, without air":                                  {coldwatch.Looked{Ice: &yes, CoreC: f(31), Vacuum: true}, coldwatch.MayRefreeze},
		"36 °F without air, and nobody looked for ice":      {coldwatch.Looked{CoreC: f(36), Vacuum: true}, coldwatch.NotTold},
		"hard frozen":                          {coldwatch.Looked{CoreC: f(10), Vacuum: true}, coldwatch.StaysFrozen},
		"45 °F after an hour above 41 °F":      {coldwatch.Looked{Ice: &no, CoreC: f(45), ThawedMs: hour}, coldwatch.Decide},
		"45 °F after three hours":              {coldwatch.Looked{Ice: &no, CoreC: f(45), ThawedMs: 3 * hour}, coldwatch.DiscardIt},
		"45 °F, and nobody knows for how long": {coldwatch.Looked{Ice: &no, CoreC: f(45), UnknownMs: hour}, coldwatch.DiscardIt},
		"chilled, at 41 °F":                    {coldwatch.Looked{CoreC: f(41), Chilled: true}, coldwatch.StaysCold},
		"chilled, at 44 °F after an hour":      {coldwatch.Looked{CoreC: f(44), Chilled: true, ThawedMs: hour}, coldwatch.Decide},
		"chilled, at 44 °F after five":         {coldwatch.Looked{CoreC: f(44), Chilled: true, ThawedMs: 5 * hour}, coldwatch.DiscardIt},
		"chilled, and not measured":            {coldwatch.Looked{Ice: &no, Chilled: true}, coldwatch.NotTold},
	} {
		if got := x.found.Verdict(); got != x.want {
			t.Errorf("%s: %s, want %s", name, got, x.want)
		} else if got.Says() == "" {
			t.Errorf("%s: no words for %s", name, got)
		}
	}
}
