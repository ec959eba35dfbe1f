package purchase

import (
	"cmp"
	"errors"
	"slices"
	"testing"

	"kettlefrost/internal/unit"
	"pgregory.net/rapid"
)

const none = -1 // no limit

func TestCover(t *testing.T) {
	bag := Offer{Name: "5 lb bag", Pack: 5 * unit.Pound, Price: 8 * unit.MoneyUnit, Max: none}
	sack := Offer{Name: "25 lb sack", Pack: 25 * unit.Pound, Price: 30 * unit.MoneyUnit, Max: none}
	free := Offer{Name: "from the garden", Pack: 2 * unit.Pound, Free: true, Max: 3}
	few := func(o Offer, lo, hi int) Offer { o.Min, o.Max = lo, hi; return o }
	// Every row is worked by hand.
	for _, c := range []struct {
		name   string
		need   unit.Mass
		offers []Offer
		counts []int
		total  unit.Money
		over   unit.Mass
	}{
		{"a sack and a bag is 38; two sacks 60, six bags 48", 27 * unit.Pound, []Offer{bag, sack}, []int{1, 1}, 38 * unit.MoneyUnit, 3 * unit.Pound},
		{"five bags are 40, the sack 30", 21 * unit.Pound, []Offer{bag, sack}, []int{0, 1}, 30 * unit.MoneyUnit, 4 * unit.Pound},
		{"three bags are 24, the sack 30", 15 * unit.Pound, []Offer{bag, sack}, []int{3, 0}, 24 * unit.MoneyUnit, 0},
		{"one nanogram more than three bags: four bags are 32, the sack 30", 15*unit.Pound + 1, []Offer{bag, sack}, []int{0, 1}, 30 * unit.MoneyUnit, 10*unit.Pound - 1},
		{"no sack to be had", 27 * unit.Pound, []Offer{bag, few(sack, 0, 0)}, []int{6, 0}, 48 * unit.MoneyUnit, 3 * unit.Pound},
		{"sacks only by two: six bags are 48, two sacks 60", 27 * unit.Pound, []Offer{bag, few(sack, 2, none)}, []int{6, 0}, 48 * unit.MoneyUnit, 3 * unit.Pound},
		{"sacks only by two: eight bags are 64", 38 * unit.Pound, []Offer{bag, few(sack, 2, none)}, []int{0, 2}, 60 * unit.MoneyUnit, 12 * unit.Pound},
		{"what is free comes first", 27 * unit.Pound, []Offer{bag, sack, free}, []int{0, 1, 1}, 30 * unit.MoneyUnit, 0},
		{"nothing needed", 0, []Offer{bag, sack}, []int{0, 0}, 0, 0},
		{"nothing needed and nothing known", 0, nil, []int{}, 0, 0},
		{"same cost, less over", 4 * unit.Pound, []Offer{{Pack: 7 * unit.Pound, Price: 10, Max: none}, {Pack: 5 * unit.Pound, Price: 10, Max: none}}, []int{0, 1}, 10, unit.Pound},
		{"same cost and over, fewer packs", 4 * unit.Pound, []Offer{{Pack: 2 * unit.Pound, Price: 5, Max: none}, {Pack: 4 * unit.Pound, Price: 10, Max: none}}, []int{0, 1}, 10, 0},
		{"all the same: the first listed", 4 * unit.Pound, []Offer{{Pack: 2 * unit.Pound, Price: 5, Max: none}, {Pack: 2 * unit.Pound, Price: 5, Max: none}}, []int{2, 0}, 10, 0},
		{"ounces against grams", unit.Kilogram, []Offer{{Pack: 35 * unit.Ounce, Price: 100, Max: none}, {Pack: 500 * unit.Gram, Price: 52, Max: none}}, []int{0, 2}, 104, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := Cover(c.need, c.offers)
			if err != nil {
				t.Fatal(err)
			}
			if !slices.Equal(got.Counts, c.counts) || got.Total != c.total || got.Over != c.over || got.Bought != c.need+c.over || !got.Optimal || got.AtLeast != c.total {
				t.Errorf("got %+v, want counts %v, total %v, over %v", got, c.counts, c.total, c.over)
			}
		})
	}
}

func TestRefused(t *testing.T) {
	ok := Offer{Name: "ok", Pack: unit.Pound, Price: unit.MoneyUnit, Max: none}
	change := func(f func(*Offer)) []Offer { o := ok; f(&o); return []Offer{ok, o} }
	for name, offers := range map[string][]Offer{
		"price forgotten":      change(func(o *Offer) { o.Price = 0 }),
		"price negative":       change(func(o *Offer) { o.Price = -1 }),
		"free with a price":    change(func(o *Offer) { o.Free = true }),
		"holds nothing":        change(func(o *Offer) { o.Pack = 0 }),
		"fewest are negative":  change(func(o *Offer) { o.Min = -1 }),
		"fewest above most":    change(func(o *Offer) { o.Min, o.Max = 3, 2 }),
		"amounts out of range": change(func(o *Offer) { o.Min, o.Price = 1<<40, 1<<40 }),
	} {
		var bad *OfferError
		if _, err := Cover(unit.Pound, offers); !errors.As(err, &bad) || bad.Offer != 1 {
			t.Errorf("%s: got %v, want it refused for offer 1", name, err)
		}
	}
	var bad *OfferError
	if _, err := Cover(-1, []Offer{ok}); !errors.As(err, &bad) || bad.Offer != -1 {
		t.Errorf("negative need: got %v", err)
	}
	var unknown *NoOfferError
	if _, err := Cover(1, nil); !errors.As(err, &unknown) {
		t.Errorf("no offer: got %v", err)
	}
	var short *ShortError
	ok.Max = 2
	if _, err := Cover(5*unit.Pound, []Offer{ok, ok}); !errors.As(err, &short) || short.By != unit.Pound {
		t.Errorf("four pounds to be had, five needed: got %v, want short by 1 lb", err)
	}
}

// TestNoChoiceBeatsTheBest tries every choice up to one pack more than covers the need alone.
func TestNoChoiceBeatsTheBest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		need := unit.Mass(rapid.IntRange(1, 30).Draw(t, "need"))
		offers := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Offer {
			o := Offer{Pack: unit.Mass(rapid.IntRange(1, 12).Draw(t, "pack")), Price: unit.Money(rapid.IntRange(0, 9).Draw(t, "price")),
				Min: rapid.IntRange(0, 3).Draw(t, "min"), Max: rapid.IntRange(-1, 5).Draw(t, "max")}
			o.Free = o.Price == 0
			if o.Max >= 0 {
				o.Min = min(o.Min, o.Max)
			}
			return o
		}), 1, 4).Draw(t, "offers")
		order := make([]int, len(offers))
		for i := range order {
			order[i] = i
		}
		slices.SortStableFunc(order, func(a, b int) int { return cheaperPerMass(offers[a], offers[b]) })
		counts := make([]int, len(offers))
		var best []int
		var bestKey [3]int64
		var try func(i int)
		try = func(i int) {
			if i < len(offers) {
				o := offers[order[i]]
				for c := int(need)/int(o.Pack) + 1 + o.Min; c >= 0; c-- {
					if (c > 0 && c < o.Min) || (o.Max >= 0 && c > o.Max) {
						continue
					}
					counts[order[i]] = c
					try(i + 1)
				}
				return
			}
			var key [3]int64
			for k, c := range counts {
				key[0] += int64(c) * int64(offers[k].Price)
				key[1] += int64(c) * int64(offers[k].Pack)
				key[2] += int64(c)
			}
			if key[1] >= int64(need) && (best == nil || slices.Compare(key[:], bestKey[:]) < 0) {
				best, bestKey = slices.Clone(counts), key
			}
		}
		try(0)
		got, err := Cover(need, offers)
		if best == nil {
			var short *ShortError
			if !errors.As(err, &short) {
				t.Fatalf("can't be covered, yet got %v, %v", got, err)
			}
			return
		}
		if err != nil || !slices.Equal(got.Counts, best) || !got.Optimal {
			t.Fatalf("got %+v, %v; every choice tried says %v", got, err, best)
		}
		if int64(got.Total) != bestKey[0] || int64(got.Bought) != bestKey[1] || int64(got.Packs) != bestKey[2] || got.Bought-got.Over != need {
			t.Fatalf("%+v does not add up to %v", got, bestKey)
		}
	})
}

// A search that is stopped after its first choice covers the need, does not claim to be the best, and its bound holds.
func TestStoppedEarlyIsHonest(t *testing.T) {
	need := 27 * unit.Pound
	offers := []Offer{{Pack: 5 * unit.Pound, Price: 8 * unit.MoneyUnit, Max: none}, {Pack: 25 * unit.Pound, Price: 30 * unit.MoneyUnit, Max: none}}
	early := newShelf(int64(need), 0, 0, 1, packsOf(need, offers)).choice(1)
	if early.Optimal || early.Bought < need || early.Total != 60*unit.MoneyUnit {
		t.Errorf("got %+v, want the two sacks that are tried first, not proven", early)
	}
	if best := 38 * unit.MoneyUnit; early.AtLeast > best || early.AtLeast <= 0 {
		t.Errorf("nothing is said to cost less than %v, but %v is possible", early.AtLeast, best)
	}
}

// cheaperPerMass is the order that the docstring of the package promises for choices that tie.
func cheaperPerMass(a, b Offer) int {
	return cmp.Or(cmp.Compare(a.Price*unit.Money(b.Pack), b.Price*unit.Money(a.Pack)), cmp.Compare(b.Pack, a.Pack))
}

func BenchmarkCover(b *testing.B) {
	shelf := []Offer{ // invented: the larger the pack the cheaper by mass, in pounds and in grams
		{Pack: unit.Pound, Price: 2_390_000, Max: none}, {Pack: 2 * unit.Pound, Price: 4_490_000, Max: none},
		{Pack: 5 * unit.Pound, Price: 9_990_000, Max: none}, {Pack: 10 * unit.Pound, Price: 18_750_000, Max: none},
		{Pack: 25 * unit.Pound, Price: 44_000_000, Max: none}, {Pack: 50 * unit.Pound, Price: 84_000_000, Max: none},
		{Pack: 500 * unit.Gram, Price: 2_590_000, Max: none}, {Pack: unit.Kilogram, Price: 4_790_000, Max: none},
		{Pack: 2500 * unit.Gram, Price: 10_990_000, Max: none}, {Pack: 5 * unit.Kilogram, Price: 20_600_000, Max: none},
	}
	even := make([]Offer, 8) // every pack at the same price by mass: as many ties as there can be
	for i := range even {
		even[i] = Offer{Pack: unit.Mass(250*(i+1)) * unit.Gram, Price: unit.Money(500_000 * (i + 1)), Max: none}
	}
	for _, c := range []struct {
		name   string
		need   unit.Mass
		offers []Offer
	}{{"10 offers, 137 lb", 137 * unit.Pound, shelf}, {"10 offers, 1,003 lb", 1003 * unit.Pound, shelf}, {"8 offers that tie, 1 t and a bit", 1000*unit.Kilogram + unit.Gram, even}} {
		b.Run(c.name, func(b *testing.B) {
			for b.Loop() {
				if choice, err := Cover(c.need, c.offers); err != nil || !choice.Optimal {
					b.Fatal(choice, err)
				}
			}
		})
	}
}
