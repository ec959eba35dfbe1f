package costing

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/unit"
	"pgregory.net/rapid"
)

// curryDay is invented and worked by hand. The onion base costs 20.00 of onions, less 2.00 for the trim, two people for half an hour
// 18.00, 20 kWh 4.00, washing up 4.00 and 1.00: 45.00 for 8 kg. The curry takes 6 kg of it (33.75), 10.00 of lentils and 18.00 of work:
// 61.75 for 10 kg of curry and 2.5 kg of broth, by mass 49.40 and 12.35. Twenty packs add bags for 3.00.
func curryDay() Job {
	kg := unit.Kilogram
	onions := Component{Name: "onions", Mass: 9 * kg, Yield: Yield{AP: 10 * kg, EP: 9 * kg, TrimWorth: u(2)}, Price: perKg(2)}
	base := Step{Dish: "curry", Name: "base", Charges: Charges{
		Components: []Component{onions},
		Labour:     []Work{{Name: "peeling", Time: 30 * unit.Minute, People: 2, Rate: unit.Wage(u(18))}},
		Energy:     []Heat{{Name: "hob", EnergyJ: 20 * KilowattHourJ, Price: unit.Tariff(u(0.20))}},
		Cleaning:   []Work{{Name: "kettle", Time: 15 * unit.Minute, Rate: unit.Wage(u(16))}},
		Supplies:   []Item{{Name: "sanitiser", Count: 2, Each: u(0.50)}},
	}, Outputs: []Output{{Product: Product{Name: "base", Mass: 8 * kg}}}}
	cook := Step{Dish: "curry", Name: "cook", Takes: []Take{{"base", 6 * kg}}, Charges: Charges{
		Components: []Component{{Name: "lentils", Mass: 5 * kg, Price: perKg(2)}},
		Labour:     []Work{{Name: "stirring", Time: unit.Hour, Rate: unit.Wage(u(18))}},
	}, Outputs: []Output{{Product: Product{Name: "curry", Mass: 10 * kg}}, {Product: Product{Name: "broth", Mass: 2500 * unit.Gram}}}}
	return Job{Steps: []Step{base, cook}, Packs: []PackRun{{Name: "500 g", Count: 20, Takes: []Take{{"curry", 10 * kg}},
		Charges: Charges{Packaging: []Item{{Name: "bag", Count: 20, Each: u(0.15)}, {Name: "label", Count: 20, Free: true}}}}}}
}

func TestCostIsCarriedToThePacks(t *testing.T) {
	j := curryDay()
	j.Overhead = Spread{Base: PerPack, Rate: u(0.50)}
	j.Packs[0].Waste = 5 * unit.PerCent
	b := must[Buildup](t)(Carry(j))
	p := b.Packs[0]
	if p.Total != u(62.40) || p.PerPack != 3_284_211 { // over 19 of 20, up to the millionth
		t.Errorf("packs %v, each %v; want 62.40 and 3.284211", p.Total, p.PerPack)
	}
	cook := b.Steps[1]
	if b.Steps[0].Own != u(45) || cook.Carried != u(33.75) || cook.Own != u(28) || cook.Joint.Parts[0].Amount != u(49.40) || cook.Joint.Parts[1].Amount != u(12.35) {
		t.Errorf("steps %+v", b.Steps)
	}
	if len(b.Left) != 2 || b.Left[0].Total != u(11.25) || b.Left[0].Mass != 2*unit.Kilogram || b.Left[1].Total != u(12.35) {
		t.Errorf("left over %+v, want 2 kg of base at 11.25 and all of the broth at 12.35", b.Left)
	}
	if b.Spent.Total() != u(86) {
		t.Errorf("spent %v, want 86.00", b.Spent.Total())
	}
	// Of the packs' 62.40: food (18 x 6/8 + 10) x 4/5 = 18.80, and so on.
	want := []Group[Kind]{{Food, u(18.80)}, {Labour, u(25.20)}, {Energy, u(2.40)}, {Cleaning, u(3)}, {Packaging, u(3)}, {Overhead, u(10)}}
	if got := GroupBy(p.Ledger, KindOf); !slices.Equal(got, want) {
		t.Errorf("by kind %v, want %v", got, want)
	}
	if last := p.Each[len(p.Each)-1]; last.Key != Waste || last.Total != near(u(0.1642105), 1) {
		t.Errorf("a pack bears %v of waste, want a twentieth of 3.284211", last)
	}
}

func TestOverheadOnEachBase(t *testing.T) {
	for _, c := range []struct {
		s    Spread
		want unit.Money // of the packs, worked by hand: 52.40 without
	}{
		{Spread{}, u(52.40)},
		{Spread{Base: PerPack, Rate: u(0.50)}, u(62.40)},
		{Spread{Base: PerKg, Rate: u(1.20)}, u(64.40)},             // 10 kg
		{Spread{Base: PerHour, Rate: u(10)}, u(67.90)},             // 1.25 h x 6/8 and 1 h, x 4/5: 1.55 h
		{Spread{Base: OfPrime, Share: 25 * unit.PerCent}, u(63.4)}, // of 18.80 + 25.20
	} {
		j := curryDay()
		j.Overhead = c.s
		if got := must[Buildup](t)(Carry(j)).Packs[0].Total; got != c.want {
			t.Errorf("overhead %v: %v, want %v", c.s.Base, got, c.want)
		}
	}
}

func TestWhatIsThrownAwayIsBorneByTheRest(t *testing.T) {
	j := curryDay()
	j.Steps[0].Outputs[0].Discard = true
	b := must[Buildup](t)(Carry(j))
	if b.Steps[1].Carried != u(45) || len(b.Left) != 1 {
		t.Errorf("the curry takes over %v, left %+v; want all 45.00 and only the broth left", b.Steps[1].Carried, b.Left)
	}
}

// A missing price makes lower bounds of what bears part of it, and of nothing else.
func TestMissingPriceFollowsTheFood(t *testing.T) {
	j := curryDay()
	j.Steps[1].Outputs[1].Discard = true
	j.Steps[1].Components[0].Price = Price{} // lentils: in curry and broth, not in the base that is left
	b := must[Buildup](t)(Carry(j))
	if m := b.Packs[0].Missing; len(m) != 1 || m[0].Name != "lentils" || m[0].Step != "cook" || b.Packs[0].Total >= u(52.40) {
		t.Errorf("packs miss %+v at %v", m, b.Packs[0].Total)
	}
	if len(b.Left[0].Missing) != 0 || len(b.Left[1].Missing) != 1 {
		t.Errorf("the base misses %v, the broth %v", b.Left[0].Missing, b.Left[1].Missing)
	}
	j = curryDay()
	j.Overhead = Spread{Base: PerHour}
	if m := must[Buildup](t)(Carry(j)).Packs[0].Missing; len(m) != 2 {
		t.Errorf("the rate of the overhead is not known, and %+v is missing", m)
	}
}

// What nothing is used of costs nothing, whether its price is known or not.
func TestNothingUsedIsNotMissing(t *testing.T) {
	b := Batch{Packs: 1, Charges: Charges{Components: []Component{{Name: "salt"}}, Packaging: []Item{{Name: "lid"}}, Labour: []Work{{Name: "guest"}}, Energy: []Heat{{Name: "gas"}}}}
	if s := must[Sheet](t)(Cost(b)); s.LowerBound() || len(s.Lines) != 4 {
		t.Errorf("%+v is missing", s.Missing)
	}
}

// A bill by the therm: two of them at 1.40.
func TestTherms(t *testing.T) {
	b := Batch{Packs: 1, Charges: Charges{Energy: []Heat{{Name: "gas", EnergyJ: 2 * ThermJ, Price: must[unit.Tariff](t)(unit.ParseTariff("1.40/therm"))}}}}
	if s := must[Sheet](t)(Cost(b)); near(s.Energy, 100) != u(2.80) {
		t.Errorf("%v, want 2.80 to the hundredth of a cent", s.Energy)
	}
}

func TestCarryRefuses(t *testing.T) {
	for name, c := range map[string]struct {
		spoil func(*Job)
		where string
	}{
		"takes more than there is": {func(j *Job) { j.Steps[1].Takes[0].Mass = 9 * unit.Kilogram }, "step cook"},
		"takes what is unknown":    {func(j *Job) { j.Packs[0].Takes[0].Output = "cury" }, "pack 500 g"},
		"takes before it is made":  {func(j *Job) { slices.Reverse(j.Steps) }, "step cook"},
		"nothing comes of it":      {func(j *Job) { j.Steps[0].Outputs = nil }, "step base"},
		"output twice":             {func(j *Job) { j.Steps[1].Outputs[1].Name = "base" }, "step cook"},
		"no packs":                 {func(j *Job) { j.Packs[0].Count = 0 }, "pack 500 g"},
		"all lost":                 {func(j *Job) { j.Packs[0].Waste = unit.Whole }, "pack 500 g"},
		"negative price":           {func(j *Job) { j.Steps[0].Components[0].Price.Money = -1 }, "step base, onions"},
		"negative bag":             {func(j *Job) { j.Packs[0].Packaging[0].Each = -1 }, "pack 500 g, bag"},
		"negative crew":            {func(j *Job) { j.Steps[0].Labour[0].People = -1 }, "step base, peeling"},
		"negative energy":          {func(j *Job) { j.Steps[0].Energy[0].EnergyJ = -1 }, "step base, hob"},
		"trim worth too much":      {func(j *Job) { j.Steps[0].Components[0].Yield.TrimWorth = u(21) }, "step base, onions"},
		"two bases":                {func(j *Job) { j.Overhead = Spread{Base: PerKg, Rate: 1, Share: 1} }, "overhead"},
		"overhead twice":           {func(j *Job) { j.Overhead.Base = PerPack; j.Packs[0].Overhead = []Work{{Name: "rent"}} }, "pack 500 g"},
		"endless work":             {func(j *Job) { j.Steps[0].Labour[0].Time = 1 << 60 }, "step base, peeling"},
	} {
		j := curryDay()
		c.spoil(&j)
		_, err := Carry(j)
		var bad *RangeError
		if !errors.As(err, &bad) || bad.Fix == "" || !strings.Contains(bad.What, c.where) {
			t.Errorf("%s: %v, want it refused at %q", name, err, c.where)
		}
	}
}

// anyDay draws a day of up to four steps in a row, each with up to three outputs, and packs of what is left.
func anyDay(t *rapid.T) Job {
	n := func(what string, low, high int) int { return rapid.IntRange(low, high).Draw(t, what) }
	charges := func() Charges {
		return Charges{Components: []Component{{Name: "food", Mass: unit.Mass(n("mass", 0, 1e12)), Yield: Yield{AP: 1000, EP: unit.Mass(n("ep", 1, 1500)), TrimWorth: 0},
			Price: Price{Money: unit.Money(n("price", 0, 1e8)), Per: unit.Kilogram}}},
			Labour: []Work{{Name: "work", Time: unit.Span(n("time", 0, 9999)), People: n("people", 0, 3), Rate: unit.Wage(n("rate", 0, 3e7))}}}
	}
	var j Job
	free := map[string]unit.Mass{}
	takes := func() []Take {
		var list []Take
		for _, s := range j.Steps {
			for _, o := range s.Outputs {
				if m := unit.Mass(n("take", 0, int(free[o.Name]))); m > 0 {
					list = append(list, Take{o.Name, m})
					free[o.Name] -= m
				}
			}
		}
		return list
	}
	for i := range n("steps", 1, 4) {
		s := Step{Dish: "dish", Name: fmt.Sprint("step ", i), Charges: charges(), Takes: takes(), Rule: Rule(n("rule", 0, 1))}
		for k := range n("outputs", 1, 3) {
			o := Output{Product: Product{Name: fmt.Sprint(i, "-", k), Mass: unit.Mass(n("mass out", 1, 1e9)), SplitOff: unit.Money(n("worth", 1, 1e6))}, Discard: n("discard", 0, 1) == 1}
			s.Outputs = append(s.Outputs, o)
		}
		for _, o := range s.Outputs {
			free[o.Name] = o.Mass
		}
		j.Steps = append(j.Steps, s)
	}
	for i := range n("packs", 1, 3) {
		j.Packs = append(j.Packs, PackRun{Name: fmt.Sprint("pack ", i), Count: n("count", 1, 500), Charges: charges(), Takes: takes(), Waste: unit.Share(n("waste", 0, 1e9-1))})
	}
	switch base := Base(n("base", 0, 4)); base {
	case OfPrime:
		j.Overhead = Spread{Base: base, Share: unit.Share(n("share", 0, 1e9))}
	case PerHour, PerKg, PerPack:
		j.Overhead = Spread{Base: base, Rate: unit.Money(n("overhead", 0, 1e7))}
	}
	return j
}

// No millionth is lost or made: every charge is found again in packs and left-overs, and a pack's parts add up to its cost.
func TestEveryMillionthIsBorne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b, err := Carry(anyDay(t))
		if err != nil {
			t.Fatal(err)
		}
		key := func(c Charge) string { return fmt.Sprint(c.Step, c.Kind, c.Name) }
		borne := map[string]unit.Money{}
		for _, g := range GroupBy(b.Spent, key) {
			borne[g.Key] = g.Total
		}
		for _, p := range b.Packs {
			each := unit.Money(0)
			for _, k := range p.Each {
				each += k.Total
			}
			if each != p.PerPack || p.Total != p.Ledger.Total() {
				t.Fatalf("%s: parts %v of %v", p.Name, each, p.PerPack)
			}
			for _, c := range p.Ledger {
				borne[key(c)] -= c.Cost
			}
		}
		for _, l := range b.Left {
			for _, c := range l.Ledger {
				borne[key(c)] -= c.Cost
			}
		}
		for name, m := range borne {
			if m != 0 {
				t.Fatalf("%s: %v is borne by nobody", name, m)
			}
		}
	})
}

func BenchmarkCarry(b *testing.B) {
	j := curryDay()
	for b.Loop() {
		if _, err := Carry(j); err != nil {
			b.Fatal(err)
		}
	}
}

// TestPacksOfOnePotByWhatTheySellFor: the curry's 49.40 for 10 kg; 12 packs of half a kilogram sell for 96.00 and 8 for 44.00, and their bags
// are 1.80 and 1.20. By mass the pot is 29.64 and 19.76. By net realisable value the bases are 94.20 and 42.80 of 137.00: 33.966… and 15.433….
func TestPacksOfOnePotByWhatTheySellFor(t *testing.T) {
	j := curryDay()
	bag := func(n int) Charges { return Charges{Packaging: []Item{{Name: "bag", Count: n, Each: u(0.15)}}} }
	j.Packs = []PackRun{{Name: "plain", Count: 12, Takes: []Take{{"curry", 6 * unit.Kilogram}}, Charges: bag(12)}, {Name: "party", Count: 8, Takes: []Take{{"curry", 4 * unit.Kilogram}}, Charges: bag(8)}}
	mass := must[Buildup](t)(Carry(j))
	j.Pools = []Pool{{Rule: ByNetRealisable, Packs: []Product{{Name: "plain", Final: u(96), Further: u(1.80)}, {Name: "party", Final: u(44), Further: u(1.20)}}}}
	value := must[Buildup](t)(Carry(j))
	for i, want := range []struct{ mass, value unit.Money }{{u(29.64 + 1.80), 33_967_007 + u(1.80)}, {u(19.76 + 1.20), 15_432_993 + u(1.20)}} {
		if mass.Packs[i].Total != want.mass || value.Packs[i].Total != want.value {
			t.Errorf("%s: %v by mass and %v by value, want %v and %v", mass.Packs[i].Name, mass.Packs[i].Total, value.Packs[i].Total, want.mass, want.value)
		}
	}
	if got, want := value.Packs[0].Total+value.Packs[1].Total, mass.Packs[0].Total+mass.Packs[1].Total; got != want || value.Spent.Total() != mass.Spent.Total() {
		t.Errorf("all packs %v by value, %v by mass", got, want)
	}
	for name, pool := range map[string]Pool{
		"no such pack":               {Rule: ByMass, Packs: []Product{{Name: "none", Mass: 1}}},
		"costs more than it brings":  {Rule: ByNetRealisable, Packs: []Product{{Name: "plain", Final: u(1), Further: u(1.80)}, {Name: "party", Final: u(44)}}},
		"nothing to share it out by": {Rule: ByMass, Packs: []Product{{Name: "plain"}, {Name: "party"}}},
	} {
		j.Pools = []Pool{pool}
		if _, err := Carry(j); !errors.As(err, new(*RangeError)) {
			t.Errorf("%s: %v, want a *RangeError", name, err)
		}
	}
}
