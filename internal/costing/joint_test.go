package costing

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/unit"
	"pgregory.net/rapid"
)

// dairy is the raw milk of Farmers' Dairy, joint cost 400,000: 25,000 gallons of cream that sell for 8, 75,000 of skim milk for 4; at
// the end 20,000 of buttercream for 25 after 280,000 more, 50,000 of condensed milk for 22 after 520,000 more. Inputs and answers from
// memory of Horngren, Cost Accounting, the chapter on joint costs; gallons stand as kilograms.
func dairy() []Product {
	return []Product{
		{Name: "cream", Mass: 25_000 * unit.Kilogram / 100, SplitOff: u(200_000), Final: u(500_000), Further: u(280_000)},
		{Name: "skim milk", Mass: 75_000 * unit.Kilogram / 100, SplitOff: u(300_000), Final: u(1_100_000), Further: u(520_000)},
	}
}

func TestJointCostByEachRule(t *testing.T) {
	for _, c := range []struct {
		rule   Rule
		want   []unit.Money
		shares []unit.Share
	}{
		{ByMass, []unit.Money{u(100_000), u(300_000)}, []unit.Share{25 * unit.PerCent, 75 * unit.PerCent}},
		{BySplitOff, []unit.Money{u(160_000), u(240_000)}, []unit.Share{40 * unit.PerCent, 60 * unit.PerCent}},
		{ByNetRealisable, []unit.Money{u(110_000), u(290_000)}, []unit.Share{275 * unit.PerCent / 10, 725 * unit.PerCent / 10}},
	} {
		a := must[Allocation](t)(Allocate(u(400_000), c.rule, dairy()))
		for i, p := range a.Parts {
			if p.Amount != c.want[i] || p.Share != c.shares[i] {
				t.Errorf("%v, %s: %v (%v), want %v (%v)", c.rule, p.Name, p.Amount, p.Share, c.want[i], c.shares[i])
			}
		}
	}
}

func TestJointCostNeedsABase(t *testing.T) {
	loser := dairy()
	loser[0].Further = u(600_000) // more than the buttercream brings
	for name, c := range map[string]struct {
		rule     Rule
		products []Product
		names    string
	}{
		"costs more than it brings": {ByNetRealisable, loser, "cream"},
		"no sales value known":      {BySplitOff, []Product{{Name: "stew"}, {Name: "broth"}}, "by sales value at split-off"},
		"weighs less than nothing":  {ByMass, []Product{{Name: "stew", Mass: -1}}, "stew"},
		"no such rule":              {Rule(9), dairy(), "cream"},
	} {
		_, err := Allocate(u(1), c.rule, c.products)
		var bad *RangeError
		if !errors.As(err, &bad) || bad.Fix == "" || !strings.Contains(err.Error(), c.names) {
			t.Errorf("%s: %v, want it refused with a fix, naming %q", name, err, c.names)
		}
	}
}

func TestJointCostAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		total := unit.Money(rapid.Int64Range(0, 1e15).Draw(t, "total"))
		var products []Product
		for range rapid.IntRange(1, 7).Draw(t, "products") {
			further := unit.Money(rapid.Int64Range(0, 1e12).Draw(t, "further"))
			products = append(products, Product{Mass: unit.Mass(rapid.Int64Range(1, 1e17).Draw(t, "mass")),
				SplitOff: unit.Money(rapid.Int64Range(1, 1e12).Draw(t, "split-off")),
				Further:  further, Final: further + unit.Money(rapid.Int64Range(1, 1e12).Draw(t, "net"))})
		}
		for _, rule := range []Rule{ByMass, BySplitOff, ByNetRealisable} {
			a, err := Allocate(total, rule, products)
			if err != nil {
				t.Fatal(err)
			}
			sum, shares := unit.Money(0), unit.Share(0)
			for _, p := range a.Parts {
				sum += p.Amount
				shares += p.Share
				if p.Amount < 0 {
					t.Fatalf("%v: %+v bears less than nothing", rule, p)
				}
			}
			if sum != total || shares != unit.Whole {
				t.Fatalf("%v: %v of %v, shares %d", rule, sum, total, shares)
			}
		}
	})
}

// Sharing a ledger keeps rows and columns: every charge's parts add up to it, and each part's sum is what Allocate says.
func TestLedgerSplitKeepsRowsAndColumns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var l Ledger
		for i := range rapid.IntRange(1, 9).Draw(t, "charges") {
			most := rapid.SampledFrom([]int64{3, 1e9}).Draw(t, "most")
			l = append(l, Charge{Step: string(rune('a' + i)), Line: Line{Food, "x", unit.Money(rapid.Int64Range(0, most).Draw(t, "cost")), true}})
		}
		parts := rapid.SliceOfN(rapid.Int64Range(0, 1000), 1, 5).Draw(t, "parts")
		if slices.Max(parts) == 0 {
			parts[0] = 1
		}
		shares, err := l.split("pot", parts)
		if err != nil {
			t.Fatal(err)
		}
		want, _ := l.Total().Split(parts...)
		rows := map[string]unit.Money{}
		for j, s := range shares {
			if s.Total() != want[j] {
				t.Fatalf("part %d bears %v, want %v", j, s.Total(), want[j])
			}
			for _, c := range s {
				if rows[c.Step] += c.Cost; c.Cost < 0 {
					t.Fatalf("part %d: %+v is below 0", j, c)
				}
			}
		}
		for _, c := range l {
			if rows[c.Step] != c.Cost {
				t.Fatalf("%s: parts add up to %v, not %v", c.Step, rows[c.Step], c.Cost)
			}
		}
	})
}
