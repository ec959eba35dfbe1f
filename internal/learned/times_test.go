package learned

import (
	"math"
	"strings"
	"testing"

	"kettlefrost/internal/history"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// A pot that stood on the fire for half as long again lost half as much again: the rate is the same.
func TestEvaporationByTheTimeItTook(t *testing.T) {
	k := kitchenOf(t, "tuesday", 1)
	k.Slow = 1.5
	m, _ := read(t, k, k.Work(0, hash), 1, 0)
	all := of(t, k.Book, Told{}, m)
	for _, key := range []string{"dishes/turkey-meatballs/steps/simmer/loses/evaporation", "dishes/mushroom-filling/steps/thicken/loses/evaporation"} {
		f := figureOf(t, all, key)
		if len(f.Seen) != 1 || math.Abs(f.Seen[0].Value-f.Value) > 0.02*f.Value || len(f.Seen[0].Notes) > 1 {
			t.Errorf("%s: %+v, the book has %g", key, f.Seen, f.Value)
		}
	}
}

// How long a pot takes with all its steps is told, and no figure of the book is changed for it.
func TestPotThatTakesLonger(t *testing.T) {
	k := kitchenOf(t, "tuesday", 1)
	k.Slow = 1.5
	var runs []Made
	for day := range 4 {
		m, _ := read(t, k, k.Work(7*day, hash), uint64(day), 0)
		runs = append(runs, m)
	}
	f := figureOf(t, of(t, k.Book, Told{}, runs...), "dishes/ale-cheddar/steps/sweat/pot")
	if f.Counted() != 4 || math.Abs(f.OfRuns()-1.5) > 1e-9 || math.Abs(f.Mean()-math.Sqrt(1.5)) > 1e-9 || f.State != NoPlace || !strings.Contains(f.WhyNot, "5 steps in one vessel are one task") {
		t.Errorf("%s: %g of %d runs, %g, %s", f.State, f.OfRuns(), f.Counted(), f.Mean(), f.WhyNot)
	}
}

// Of half a pound that boils off a hundred pounds of sauce a weighing says nothing while the milk was poured as planned; when everything that
// goes in is entered, it does.
func TestEnteredGoodsShowMore(t *testing.T) {
	const key = "dishes/ale-cheddar/steps/base/loses/evaporation"
	k := kitchenOf(t, "tuesday", 1)
	w := k.Work(0, hash)
	plain, _ := read(t, k, w, 1, 0)
	f := figureOf(t, of(t, k.Book, Told{}, plain), key)
	if f.Counted() != 0 || !strings.Contains(f.Excluded[0].Why, "enter what goes in, and it shows less") {
		t.Errorf("as planned: %+v %v", f.Seen, f.Excluded)
	}
	entries, _, err := w.Tell(1, 0)
	if err != nil {
		t.Fatal(err)
	}
	goods := map[record.Lot]string{}
	for _, d := range k.Expected.Dishes {
		for _, s := range d.Steps {
			for i, u := range s.In {
				if d.ID != "ale-cheddar" || u.Of == "" {
					continue
				}
				lot := record.Lot(s.ID + string(u.Of))
				goods[lot] = string(u.Of)
				e, err := record.Say(record.ID{byte(i), byte(len(goods)), 5}, w.Start, "Sam", "tablet", record.Used{Run: w.Opened.Run, Dish: d.ID, Step: s.ID, Lot: lot, Mass: unit.MassKg(u.Kg / (1 - k.Book.Ingredients[u.Of].Trim.F()))})
				if err != nil {
					t.Fatal(err)
				}
				entries = append(entries, e)
			}
		}
	}
	m := Made{Run: runOf(t, entries, w.Opened.Run), Day: string(w.Opened.Day), Book: k.Book, Sure: true, Expected: k.Expected, Clock: clockFrom(w.Start), Goods: goods}
	if f = figureOf(t, of(t, k.Book, Told{}, m), key); f.Counted() != 1 || math.Abs(f.Seen[0].Value-6) > 0.3 || len(f.Seen[0].Notes) != 0 {
		t.Errorf("entered: %+v %v", f.Seen, f.Excluded)
	}
}

// told is one task as it was entered: minutes after 06:00.
type told struct {
	task, who   string
	began, done float64 // done below 0: nobody entered it; began below 0 likewise
}

// What is excluded of a task of handwork, and why: cutting the onions for the meatballs should take Sam some twenty minutes.
func TestWhatTimesAreNotLearnedFrom(t *testing.T) {
	const onion, key = "turkey-meatballs/cut-onion/1", "dishes/turkey-meatballs/steps/cut-onion/pace"
	for name, c := range map[string]struct {
		told []told
		says string // none: it counts
	}{
		"begun and done":               {[]told{{onion, "Sam", 10, 31}}, ""},
		"nobody entered the beginning": {[]told{{onion, "Sam", -1, 31}}, "nobody entered when it was begun"},
		"nobody entered the end":       {[]told{{onion, "Sam", 10, -1}}, "left open"},
		"nothing was entered":          {[]told{{"turkey-meatballs/panade/1", "Sam", 10, 20}}, "nobody entered that it was begun or done"},
		"ticked off afterwards":        {[]told{{onion, "Sam", 31, 31.5}}, "within a minute"},
		"over the break":               {[]told{{onion, "Sam", 295, 340}}, "had a break in it, 11:00 to 11:30"},
		"the next day":                 {[]told{{onion, "Sam", 600, 1500}}, "until another day"},
		"two at once":                  {[]told{{onion, "Sam", 10, 31}, {"turkey-meatballs/cut-fennel/1", "Sam", 12, 60}}, "turkey-meatballs/cut-fennel/1 in hand at the same time"},
		"two at once, by two":          {[]told{{onion, "Sam", 10, 31}, {"turkey-meatballs/cut-fennel/1", "Ines", 12, 60}}, ""},
		"all at the end":               {[]told{{onion, "Sam", 10, 90}, {"turkey-meatballs/cut-fennel/1", "Ines", 12, 90.2}, {"turkey-meatballs/panade/1", "Ines", 20, 90.4}}, ""},
		"all at the end by one":        {[]told{{onion, "Sam", 10, 90}, {"turkey-meatballs/panade/1", "Sam", 20, 90.2}, {"ale-cheddar/hydrate/1", "Sam", 40, 90.4}}, "3 tasks as done in one go"},
	} {
		f := figureOf(t, of(t, demoOf(t), Told{}, day0(t, c.told)), key)
		switch {
		case c.says == "" && f.Counted() != 1:
			t.Errorf("%s: it does not count: %v", name, f.Excluded)
		case c.says != "" && (f.Counted() != 0 || len(f.Excluded) != 1 || !strings.Contains(f.Excluded[0].Why, c.says)):
			t.Errorf("%s: %d count, %v", name, f.Counted(), f.Excluded)
		}
	}
	// What must be there first was not: mixing began before the panade had swollen.
	f := figureOf(t, of(t, demoOf(t), Told{}, day0(t, []told{{"turkey-meatballs/panade/1", "Sam", 10, 22}, {"turkey-meatballs/mix/1", "Ines", 12, 30}})), "dishes/turkey-meatballs/steps/mix/pace")
	if len(f.Excluded) == 0 || !strings.Contains(f.Excluded[0].Why, "begun before turkey-meatballs/panade/1 was done") {
		t.Errorf("too early: %v", f.Excluded)
	}
}

// Two pairs of hands on one task are twice the hands.
func TestHandsOfTwo(t *testing.T) {
	const key = "dishes/turkey-meatballs/steps/cut-onion/pace"
	one := figureOf(t, of(t, demoOf(t), Told{}, day0(t, []told{{"turkey-meatballs/cut-onion/1", "Sam", 10, 30}})), key)
	two := figureOf(t, of(t, demoOf(t), Told{}, day0(t, []told{{"turkey-meatballs/cut-onion/1", "Sam", 10, 30}, {"turkey-meatballs/cut-onion/1", "Ines", 10.1, -1}})), key)
	if one.Counted() != 1 || two.Counted() != 1 || math.Abs(two.Seen[0].Value-2*one.Seen[0].Value) > 1e-9 {
		t.Errorf("one: %+v, two: %+v", one.Seen, two.Seen)
	}
}

// By hand: 100 packs in 50 minutes by a crew of two are 60 s each.
func TestPaceOfPacks(t *testing.T) {
	m := day0(t, nil)
	i := 0
	for m.Expected.Packs[i].ID != "ale-cheddar-lb" {
		i++
	}
	p := m.Expected.Packs[i]
	if len(p.Tasks) != 2 || p.Crew != 2 {
		t.Fatalf("the filling is planned otherwise: %+v", p)
	}
	numbers, err := record.ParseNumbers("1-100")
	if err != nil {
		t.Fatal(err)
	}
	packed := record.Packed{Run: "tuesday-2026-01-05", Pack: "ale-cheddar-lb", Lot: "P-1", Numbers: numbers, Label: unit.Pound, Mass: 100 * unit.Pound, From: []record.Part{{Lot: "M-1", Mass: 100 * unit.Pound}}, BestBefore: "2026-06-01"}
	m = day0(t, []told{{p.Tasks[0], "Sam", 10, 40}, {p.Tasks[1], "Sam", 45, 65}}, packed)
	f := figureOf(t, of(t, demoOf(t), Told{}, m), "packs/ale-cheddar-lb/pace")
	if f.Counted() != 1 || f.Seen[0].Value != 60 || f.Before != "40 s" {
		t.Errorf("%+v (%v), the book has %s", f.Seen, f.Excluded, f.Before)
	}
}

// By hand: 10 lb of onions were taken and 8 lb 12 oz came off the board: an eighth was trimmed off.
func TestTrimOfWhatWasUsed(t *testing.T) {
	book := demoOf(t)
	g := book.Ingredients["onion"]
	trim := g.Trim.F()
	m := day0(t, nil)
	var step, out float64
	for _, d := range m.Expected.Dishes {
		for _, s := range d.Steps {
			if d.ID == "ale-cheddar" && s.ID == "chop-onion" {
				step, out = s.In[0].Kg, s.Out[0].Kg
			}
		}
	}
	if trim <= 0 || step != out {
		t.Fatalf("the demo is otherwise: trim %g, %g in, %g out", trim, step, out)
	}
	taken := unit.MassKg(step / (1 - trim))
	m = day0(t, nil, record.Used{Run: "tuesday-2026-01-05", Dish: "ale-cheddar", Step: "chop-onion", Lot: "R-1", Mass: taken},
		record.Weighed{Run: "tuesday-2026-01-05", Dish: "ale-cheddar", Output: "chop-onion", Net: unit.MassKg(taken.Kg() * 7 / 8)})
	m.Goods = map[record.Lot]string{"R-1": "onion"}
	f := figureOf(t, of(t, book, Told{}, m), "ingredients/onion/trim")
	if f.Counted() != 1 || math.Abs(f.Seen[0].Value-0.125) > 1e-6 || f.Value != trim {
		t.Errorf("%+v (%v), the book has %g", f.Seen, f.Excluded, f.Value)
	}
}

// By hand: check-weights of 8, 10 and 12 g above the tare scatter by 2 g.
func TestFillsByHand(t *testing.T) {
	g := unit.Gram
	m := day0(t, nil, record.CheckWeighed{Run: "tuesday-2026-01-05", Pack: "bean-pot-2lb", Tares: []unit.Mass{11 * g}, Gross: []unit.Mass{919 * g, 921 * g, 923 * g}})
	f := figureOf(t, of(t, demoOf(t), Told{}, m), "packs/bean-pot-2lb/checks")
	// 1.5 % of 2 lb, 13.608 g, worth five packs (common practice), and two degrees of freedom at 2 g: 13.608² × 5 + 2² × 2 over 7.
	want := math.Sqrt((13.6077711*13.6077711*5 + 8) / 7)
	if f.Counted() != 1 || math.Abs(f.Seen[0].Value-2) > 1e-9 || math.Abs(f.Mean()-want) > 1e-6 || f.State != Ready {
		t.Errorf("%s: %+v, %g, want %g", f.State, f.Seen, f.Mean(), want)
	}
	if w := f.Weighings([]Made{m}); len(w) != 1 || len(w[0].Gross) != 3 || w[0].Date != "2026-01-05" || w[0].Who != "Sam" {
		t.Errorf("for the book: %+v", w)
	}
	book := demoOf(t)
	pack := book.Packs["bean-pot-2lb"]
	pack.Checks = f.Weighings([]Made{m})
	book.Packs = with(book.Packs, kitchen.PackID("bean-pot-2lb"), pack)
	if f := figureOf(t, of(t, book, Told{}, m), "packs/bean-pot-2lb/checks"); f.Counted() != 0 || !strings.Contains(f.Excluded[0].Why, "in the book already") {
		t.Errorf("counted twice: %+v", f.Seen)
	}
}

func demoOf(t *testing.T) kitchen.Book {
	book, _ := demoBook(t)
	return book
}

// day0 is the first Tuesday with what was told of it and nothing else.
func day0(t *testing.T, tasks []told, bodies ...record.Body) Made {
	t.Helper()
	k := kitchenOf(t, "tuesday", 1)
	w := history.Worked{Opened: k.Work(0, hash).Opened, Start: k.Work(0, hash).Start}
	entries, _, err := w.Tell(1, 0)
	if err != nil {
		t.Fatal(err)
	}
	entries = entries[:1] // it is not closed
	n := byte(0)
	say := func(at float64, who string, b record.Body) {
		n++
		e, err := record.Say(record.ID{n, 3}, w.Start+record.Instant(at*minuteMs), who, "tablet", b)
		if err != nil {
			t.Fatal(err)
		}
		entries = append(entries, e)
	}
	for _, x := range tasks {
		if x.began >= 0 {
			say(x.began, x.who, record.Started{Run: w.Opened.Run, Task: x.task})
		}
		if x.done >= 0 {
			say(x.done, x.who, record.Finished{Run: w.Opened.Run, Task: x.task})
		}
	}
	for _, b := range bodies {
		say(700, "Sam", b)
	}
	return Made{Run: runOf(t, entries, w.Opened.Run), Day: string(w.Opened.Day), Book: k.Book, Sure: true, Expected: k.Expected, Clock: clockFrom(w.Start)}
}
