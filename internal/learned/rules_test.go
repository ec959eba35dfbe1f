package learned

import (
	"math"
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/history"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/learned/truth"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

const bakeWater = "dishes/turkey-meatballs/steps/bake/loses/water"

// bakes are runs in which the meatballs lose so much water.
func bakes(t *testing.T, from int, water ...float64) (*truth.Kitchen, []Made) {
	k := kitchenOf(t, "tuesday", 3)
	var runs []Made
	for i, x := range water {
		k.True[bakeWater] = x
		m, _ := read(t, k, k.Work(7*(from+i), hash), uint64(from+i), 0)
		runs = append(runs, m)
	}
	return k, runs
}

// say tells the program something.
func say(t *testing.T, told *Told, at record.Instant, b record.Body) {
	t.Helper()
	e, err := record.Say(record.ID{byte(at), 1}, at, "Ines", "office", b)
	if err == nil {
		err = told.Take(e)
	}
	if err != nil {
		t.Fatal(err)
	}
}

// By hand: the book has 12 % worth four runs; four runs of 16 % weigh as much: 14 %.
func TestHalfWayByHand(t *testing.T) {
	k, runs := bakes(t, 0, 0.16, 0.16, 0.16, 0.16)
	f := figureOf(t, of(t, k.Book, Told{}, runs...), bakeWater)
	if f.State != Ready || f.Before != "12 %" || f.After != "14 %" || f.Weight() != 0.5 || f.Counted() != 4 || !strings.Contains(f.Source, "worth 4 runs") {
		t.Errorf("%s: %s to %s, weight %g of %d (%s)", f.State, f.Before, f.After, f.Weight(), f.Counted(), f.Source)
	}
	if f := figureOf(t, of(t, k.Book, Told{}, runs[:2]...), bakeWater); f.State != TooFew {
		t.Errorf("from two runs: %s", f.State)
	}
}

// Accepted runs are in the figure: the next ones go on from it, and what comes out is as if all had been learned from at once.
func TestAcceptedGoesOn(t *testing.T) {
	k, runs := bakes(t, 0, 0.15, 0.16, 0.17, 0.16, 0.155, 0.165)
	all := of(t, k.Book, Told{}, runs...)
	atOnce := figureOf(t, all, bakeWater)
	first := figureOf(t, of(t, k.Book, Told{}, runs[:3]...), bakeWater)
	said, err := first.Entry(record.TakenOver)
	if err != nil {
		t.Fatal(err)
	}
	var told Told
	say(t, &told, 100, said)
	book, _ := Put(k.Book, bakeWater, first.Rounded)
	for i := range runs[3:] {
		runs[3+i].Book = book
	}
	f := figureOf(t, of(t, book, told, runs...), bakeWater)
	if f.Counted() != 3 || f.Prior.Runs != 7 || f.Before != first.After {
		t.Errorf("%d runs count against a book of %s worth %g", f.Counted(), f.Before, f.Prior.Runs)
	}
	if d := f.Mean() - atOnce.Mean(); d > 0.0005 || d < -0.0005 { // but for the rounding of what was accepted
		t.Errorf("%g in two goes, %g at once", f.Mean(), atOnce.Mean())
	}
	for i, why := range []string{"already", "already", "already"} {
		if !slices.ContainsFunc(f.Excluded, func(e Excluded) bool { return e.Run == runs[i].Run.Name && strings.Contains(e.Why, why) }) {
			t.Errorf("%s is not said to be in it: %v", runs[i].Run.Name, f.Excluded)
		}
	}
	// What was accepted and is not in the book yet waits.
	if f := figureOf(t, of(t, k.Book, told, runs[:3]...), bakeWater); f.State != Waiting {
		t.Errorf("before anybody writes the file: %s", f.State)
	}
	if back := Undo(book, said, nil); back.Dishes["turkey-meatballs"].Steps[4].Loses.Water != 12*unit.PerCent {
		t.Errorf("taken back: %v", back.Dishes["turkey-meatballs"].Steps[4].Loses)
	}
}

// Who writes a figure anew knows the runs before.
func TestWrittenAnew(t *testing.T) {
	k, runs := bakes(t, 0, 0.15, 0.16, 0.17, 0.16)
	book, _ := Put(k.Book, bakeWater, 0.13)
	f := figureOf(t, of(t, book, Told{}, runs...), bakeWater)
	if f.Counted() != 0 || f.State != TooFew || len(f.Excluded) != 4 || !strings.Contains(f.Excluded[0].Why, "written anew after it, from 12 % to 13 %") {
		t.Errorf("%d count, %s: %v", f.Counted(), f.State, f.Excluded)
	}
}

// A step that was another then says nothing of it today; a price or a sentence makes no difference.
func TestStepChanged(t *testing.T) {
	k, runs := bakes(t, 0, 0.15, 0.16, 0.17)
	for name, c := range map[string]struct {
		change func(*kitchen.Step)
		counts int
	}{
		"words":      {func(s *kitchen.Step) { s.How = "Hot oven." }, 3},
		"the time":   {func(s *kitchen.Step) { s.Time = 25 * unit.Minute }, 0},
		"the vessel": {func(s *kitchen.Step) { s.In = []kitchen.EquipmentID{"rondeau"} }, 0},
	} {
		book := k.Book
		d := book.Dishes["turkey-meatballs"]
		d.Steps = slices.Clone(d.Steps)
		c.change(&d.Steps[4])
		book.Dishes = with(book.Dishes, kitchen.DishID("turkey-meatballs"), d)
		f := figureOf(t, of(t, book, Told{}, runs...), bakeWater)
		if f.Counted() != c.counts {
			t.Errorf("%s: %d runs count: %v", name, f.Counted(), f.Excluded)
		}
	}
}

// A run that lies far off is asked about and counts until somebody leaves it out; who takes that back counts it again.
func TestFarOffIsAsked(t *testing.T) {
	k, runs := bakes(t, 0, 0.118, 0.12, 0.122, 0.119, 0.121, 0.28)
	f := figureOf(t, of(t, k.Book, Told{}, runs...), bakeWater)
	odd := runs[5].Run.Name
	if len(f.Asked) != 1 || f.Asked[0].Run != odd || len(f.Asked[0].Why) < 2 || f.Counted() != 6 {
		t.Fatalf("asked: %+v of %d", f.Asked, f.Counted())
	}
	var told Told
	say(t, &told, 5, record.LeftOut{Figure: bakeWater, Run: odd, Why: "a tray was dropped"})
	without := figureOf(t, of(t, k.Book, told, runs...), bakeWater)
	if len(without.Asked) != 0 || without.Counted() != 5 || without.Mean() != f.Asked[0].Without || without.Seen[5].LeftOut != "a tray was dropped" {
		t.Errorf("without it: %+v, %g, said %g", without.Asked, without.Mean(), f.Asked[0].Without)
	}
}

// By hand: six pots in which the sauce lies off by 0, 0, 0, 0, 0 and 10 %, of a book that says nothing: 3 % worth four. Without the last one its
// spread is the root of 4 × 3² over 4 + 4.
func TestOddPotIsAsked(t *testing.T) {
	f := Figure{Kind: Spread, Value: 0.03}
	for i, x := range []float64{0, 0, 0, 0, 0, 0.1} {
		f.Seen = append(f.Seen, Seen{Run: string(rune('a' + i)), Value: x})
	}
	if err := f.runScatter(); err != nil {
		t.Fatal(err)
	}
	if len(f.Asked) != 1 || f.Asked[0].Run != "f" || math.Abs(f.Asked[0].Without-0.03/math.Sqrt2) > 1e-12 {
		t.Errorf("asked: %+v", f.Asked)
	}
}

// What was refused is not proposed again until a run has come.
func TestRefused(t *testing.T) {
	k, runs := bakes(t, 0, 0.15, 0.16, 0.17, 0.16)
	f := figureOf(t, of(t, k.Book, Told{}, runs[:3]...), bakeWater)
	said, err := f.Entry(record.Refused)
	if err != nil {
		t.Fatal(err)
	}
	var told Told
	say(t, &told, 9, said)
	if f := figureOf(t, of(t, k.Book, told, runs[:3]...), bakeWater); f.State != Declined {
		t.Errorf("the same runs: %s", f.State)
	}
	if f := figureOf(t, of(t, k.Book, told, runs...), bakeWater); f.State != Ready {
		t.Errorf("with a new one: %s", f.State)
	}
}

// Entries of what went wrong, and what each means for the masses of a dish.
func TestWhatWentWrong(t *testing.T) {
	const residue, evaporation = "dishes/turkey-meatballs/steps/season/loses/residue", "dishes/turkey-meatballs/steps/simmer/loses/evaporation"
	lb := unit.Pound
	for name, c := range map[string]struct {
		bodies []record.Body
		key    string
		says   string // of why it is excluded; none when it counts
	}{
		"spilt, nobody knows of what":  {[]record.Body{record.Wasted{Dish: "turkey-meatballs", Mass: lb, Why: "spilt"}}, bakeWater, "nobody entered of which step"},
		"packs opened into the pot":    {[]record.Body{record.Used{Dish: "turkey-meatballs", Lot: "P-1", Mass: lb}}, residue, "which the plan does not have"},
		"a load that was not cooked":   {[]record.Body{record.Skipped{Task: "turkey-meatballs/sweat/1", Why: "no fennel"}}, evaporation, "was not cooked: no fennel"},
		"a tray fell after weighing":   {[]record.Body{record.Wasted{Dish: "turkey-meatballs", Output: "shape", Mass: lb, Why: "a tray fell"}}, bakeWater, ""},
		"spilt before weighing":        {[]record.Body{record.Wasted{Dish: "turkey-meatballs", Output: "meatballs", Mass: lb, Why: "spilt"}}, bakeWater, ""},
		"what stuck is what is learnt": {[]record.Body{record.Wasted{Dish: "turkey-meatballs", Output: "sauce", Mass: lb, Why: "stuck to the pot"}}, residue, ""},
	} {
		k := kitchenOf(t, "tuesday", 1)
		w := k.Work(0, hash)
		if name == "a load that was not cooked" {
			w.Stints = slices.DeleteFunc(w.Stints, func(s history.Stint) bool { return s.Task == "turkey-meatballs/sweat/1" })
		}
		if name == "a tray fell after weighing" { // a pound less of raw mix was baked
			for i := range w.Pots {
				if w.Pots[i].Output == "meatballs" {
					w.Pots[i].Mass -= unit.MassKg(lb.Kg() * (1 - 0.12 - 0.02))
				}
			}
		}
		entries, _, err := w.Tell(1, 0)
		if err != nil {
			t.Fatal(err)
		}
		at := 20.0 * 60
		if name == "spilt before weighing" {
			at = 1
			for i := range w.Pots {
				if w.Pots[i].Output == "meatballs" {
					w.Pots[i].Mass -= lb
				}
			}
			if entries, _, err = w.Tell(1, 0); err != nil {
				t.Fatal(err)
			}
		}
		for i, b := range c.bodies {
			entries = append(entries, mustSay(t, w, byte(i), at, b))
		}
		m := Made{Run: runOf(t, entries, w.Opened.Run), Day: string(w.Opened.Day), Book: k.Book, Sure: true, Expected: k.Expected, Clock: clockFrom(w.Start)}
		f := figureOf(t, of(t, k.Book, Told{}, m), c.key)
		switch {
		case c.says == "" && (f.Counted() != 1 || f.Seen[0].Value < 0.9*f.Value || f.Seen[0].Value > 1.1*f.Value):
			t.Errorf("%s: %+v, excluded %v", name, f.Seen, f.Excluded)
		case c.says != "" && (len(f.Excluded) == 0 || !strings.Contains(f.Excluded[0].Why, c.says)):
			t.Errorf("%s: %v", name, f.Excluded)
		}
	}
}

// mustSay is an entry so many minutes after the first thing of a day.
func mustSay(t *testing.T, w history.Worked, id byte, minutes float64, b record.Body) record.Entry {
	t.Helper()
	switch x := b.(type) {
	case record.Wasted:
		x.Run, b = w.Opened.Run, x
		b = x
	case record.Used:
		x.Run = w.Opened.Run
		b = x
	case record.Skipped:
		x.Run = w.Opened.Run
		b = x
	}
	e, err := record.Say(record.ID{id, 9}, w.Start+record.Instant(minutes*minuteMs), "Sam", "tablet", b)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

// Two figures that share what a stretch loses: the weighing may mean either, and both say so.
func TestEitherOfTwo(t *testing.T) {
	k := kitchenOf(t, "tuesday", 1)
	w := k.Work(0, hash)
	w.Pots = slices.DeleteFunc(w.Pots, func(p history.Pot) bool { return p.Dish == "mushroom-filling" && p.Output != "filling" })
	m, _ := read(t, k, w, 1, 0)
	all := of(t, k.Book, Told{}, m)
	const wine, sear = "dishes/mushroom-filling/steps/reduce-wine/loses/reduce-to", "dishes/mushroom-filling/steps/sear/loses/water"
	if f := figureOf(t, all, wine); f.Counted() != 1 || !slices.Equal(f.With, []string{sear}) {
		t.Errorf("the wine: %d count, or %v (%v)", f.Counted(), f.With, f.Excluded)
	}
	if f := figureOf(t, all, sear); f.Counted() != 1 || len(f.With) != 0 { // it loses most of what is lost
		t.Errorf("the mushrooms: %d count, or %v (%v)", f.Counted(), f.With, f.Excluded)
	}
}
