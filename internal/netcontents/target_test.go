package netcontents_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/netcontents"
	"kettlefrost/internal/unit"
)

// aimOf is a pack of one part.
func aimOf(terms netcontents.Terms, spreadG, confidence float64) netcontents.Aim {
	return netcontents.Aim{Terms: terms, Confidence: unit.ShareOf(confidence), Parts: []netcontents.Part{
		{Name: "soup", Mass: terms.Label, SpreadG: spreadG, PricePerKg: 4 * unit.MoneyUnit, Free: true}}}
}

func targetOf(t interface {
	Helper()
	Fatal(...any)
}, aim netcontents.Aim) netcontents.Target {
	t.Helper()
	target, err := netcontents.TargetOf(aim)
	if err != nil {
		t.Fatal(err)
	}
	return target
}

// passing is the share of lots that pass when they are filled to a mean, by drawing packs and judging each sample as it would be.
func passing(t *testing.T, terms netcontents.Terms, meanG, spreadG float64, lots int) float64 {
	t.Helper()
	plan, err := terms.Plan()
	if err != nil {
		t.Fatal(err)
	}
	r := rand.New(rand.NewPCG(20, 26))
	passed := 0
	for range lots {
		lot := netcontents.Lot{Terms: terms, Net: true}
		for range plan.Sample() {
			lot.Gross = append(lot.Gross, unit.Mass(math.Round((meanG+spreadG*r.NormFloat64())*1e9)))
		}
		v, err := netcontents.Evaluate(lot)
		if err != nil {
			t.Fatal(err)
		}
		for v.Ending == netcontents.WeighMore {
			for range plan.Stages[1].Packs {
				lot.Gross = append(lot.Gross, unit.Mass(math.Round((meanG+spreadG*r.NormFloat64())*1e9)))
			}
			if v, err = netcontents.Evaluate(lot); err != nil {
				t.Fatal(err)
			}
		}
		if v.Ending == netcontents.Passes {
			passed++
		}
	}
	return float64(passed) / float64(lots)
}

// TestTargetByDrawing: lots filled to the target pass as often as was asked for, lots filled to a little less do not. The room is four
// standard errors of the share drawn; where the label holds the target up there is nothing below to look at.
func TestTargetByDrawing(t *testing.T) {
	const lots = 40_000
	for _, c := range []struct {
		name       string
		rules      netcontents.Rules
		lot        int
		spreadG    float64
		confidence float64
		bind       netcontents.Bind
		lessG      float64 // so much under the target is too little
	}{
		{"own check of twelve", netcontents.OwnCheck, 100, 6, 0.95, netcontents.BindAverage, 0.3},
		{"own check of forty-eight", netcontents.OwnCheck, 5000, 6, 0.9, netcontents.BindAverage, 0.2},
		{"an inspector's twelve, very sure", netcontents.Handbook133, 100, 6, 0.995, netcontents.BindAverage, 0.5},
		{"two packs, very sure", netcontents.Handbook133, 2, 3, 0.99, netcontents.BindAverage, 0.5},
		{"wide spread, the MAV holds it up", netcontents.Handbook133, 100, 15, 0.95, netcontents.BindPacks, 1},
		{"a large lot may have one", netcontents.Handbook133, 5000, 15, 0.9, netcontents.BindPacks, 1},
		{"the Directive, very sure", netcontents.Directive76211, 400, 4, 0.9999, netcontents.BindAverage, 1.5},
		{"the label holds it up", netcontents.Handbook133, 100, 6, 0.95, netcontents.BindLabel, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			terms := netcontents.Terms{Rules: c.rules, Lot: c.lot, Label: g(680)}
			target := targetOf(t, aimOf(terms, c.spreadG, c.confidence))
			if target.Bind != c.bind {
				t.Errorf("held up by %s, want %s: %+v", target.Bind, c.bind, target)
			}
			meanG := float64(target.Mean) / 1e9
			room := 4 * math.Sqrt(c.confidence*(1-c.confidence)/lots)
			at := passing(t, terms, meanG, c.spreadG, lots)
			if at < c.confidence-room || at < target.Chance.AtLeast-room || at > target.Chance.AtMost+room {
				t.Errorf("at %.2f g %.4f pass, want %.4f or more, between %.4f and %.4f", meanG, at, c.confidence, target.Chance.AtLeast, target.Chance.AtMost)
			}
			if c.bind == netcontents.BindLabel {
				if target.Over != 0 {
					t.Errorf("overfilled by %s", target.Over)
				}
				return
			}
			if under := passing(t, terms, meanG-c.lessG, c.spreadG, lots); under > c.confidence-room {
				t.Errorf("at %.2f g %.4f still pass", meanG-c.lessG, under)
			}
		})
	}
}

// TestBothTestsAtOnce: where average and MAV both bite, the chance drawn lies between the bounds, and the target within half a gram of the
// least that could do.
func TestBothTestsAtOnce(t *testing.T) {
	const lots = 40_000
	terms := netcontents.Terms{Rules: netcontents.OwnCheck, Lot: 100, Label: g(680)}
	target := targetOf(t, aimOf(terms, 9.5, 0.95))
	at := passing(t, terms, float64(target.Mean)/1e9, 9.5, lots)
	if c := target.Chance; c.Average > 0.995 || c.Packs > 0.995 || at < c.AtLeast-0.004 || at > c.AtMost+0.004 {
		t.Errorf("drawn %.4f, reckoned %+v", at, c)
	}
	if caution := target.Mean - target.NotUnder; caution <= 0 || caution > g(0.5) {
		t.Errorf("%s above %s", target.Mean, target.NotUnder)
	}
}

// TestTargetByHand: own check of 12, 95 %, spread 6 g: 1.6449 · 6/sqrt(12) = 2.849 g over, at 4.00 a kilogram 0.0114; in whole grams 3 g.
func TestTargetByHand(t *testing.T) {
	terms := netcontents.Terms{Rules: netcontents.OwnCheck, Lot: 100, Label: g(680)}
	aim := aimOf(terms, 6, 0.95)
	target := targetOf(t, aim)
	near(t, "over", float64(target.Over)/1e9, 1.644854*6/math.Sqrt(12), 1e-3)
	near(t, "cost", target.Cost.Units(), 0.0114, 5e-5)
	near(t, "cost of the lot", target.Lot.Units(), 1.14, 5e-3)
	near(t, "under the label", target.UnderLabel, 0.3174, 5e-4) // normal tables, z = 0.475
	aim.Step = unit.Gram
	if target = targetOf(t, aim); target.Mean != g(683) || target.Cost != 12_000*unit.MicroMoney || target.Lot != 1_200_000*unit.MicroMoney {
		t.Errorf("in whole grams: %+v", target)
	}
}

// TestPackersDuties: the Directive's packer of 680 g with a spread of 12 g and a TNE of 15 g. That none of 3000 packs is short by more than 30 g,
// at 99 %, takes 4.502996 standard deviations (qnorm of 0.99^(1/3000) by R 4.2): 24.036 g over. One in forty takes 1.959964 (normal tables).
func TestPackersDuties(t *testing.T) {
	terms := netcontents.Terms{Rules: netcontents.Directive76211, Lot: 3000, Label: g(680)}
	target := targetOf(t, aimOf(terms, 12, 0.99))
	if target.Bind != netcontents.BindTwice {
		t.Errorf("held up by %s", target.Bind)
	}
	near(t, "not under", float64(target.NotUnder-terms.Label)/1e9, 4.502996*12-30, 1e-3)
	terms.Lot = 100
	target = targetOf(t, aimOf(terms, 10, 0.001)) // with hardly any confidence asked for, the duties are left
	if target.Bind != netcontents.BindFortieth {
		t.Errorf("held up by %s", target.Bind)
	}
	near(t, "not under", float64(target.NotUnder-terms.Label)/1e9, 1.959964*10-15, 1e-3)
}

// parts is a pack of meatballs and sauce.
func parts() []netcontents.Part {
	return []netcontents.Part{
		{Name: "meatballs", Mass: g(200), SpreadG: 4, PricePerKg: 11 * unit.MoneyUnit},
		{Name: "sauce", Mass: g(300), SpreadG: 3, PricePerKg: 3 * unit.MoneyUnit, Free: true, Room: g(1.5)},
		{Name: "rice", Mass: g(180), SpreadG: 0, PricePerKg: 5 * unit.MoneyUnit, Free: true},
	}
}

// TestParts: 4 and 3 g make 5 g; own check of 12 at 95 % wants 1.644854 · 5/sqrt(12) = 2.374 g over, in steps of 0.05 g 2.40: 1.5 g of
// sauce, which has room for no more, at 3.00 and 0.9 g of rice at 5.00 make 0.009. A MAV of 25.4 g is five standard deviations off.
func TestParts(t *testing.T) {
	aim := netcontents.Aim{Terms: netcontents.Terms{Rules: netcontents.OwnCheck, Lot: 100, Label: g(680)}, Confidence: 95 * unit.PerCent, Step: 50 * unit.Milligram, Parts: parts()}
	target := targetOf(t, aim)
	want := []netcontents.PartTarget{{Mean: g(200)}, {Mean: g(301.5), Over: g(1.5), Cost: 4500}, {Mean: g(180.9), Over: g(0.9), Cost: 4500}}
	for i := range want {
		if target.Parts[i] != want[i] {
			t.Errorf("%s: got %+v, want %+v", aim.Parts[i].Name, target.Parts[i], want[i])
		}
	}
	near(t, "spread", target.SpreadG, 5, 1e-12)
	if target.Over != g(2.4) || target.Cost != 9_000 {
		t.Errorf("over %s for %s", target.Over, target.Cost)
	}
	aim.Parts[1].TopsUp = true // sauce to the total: 3 g only
	near(t, "spread when sauce tops up", targetOf(t, aim).SpreadG, 3, 0)

	aim = netcontents.Aim{Terms: aim.Terms, Confidence: aim.Confidence, Parts: parts()}
	aim.Parts[2].Free = false
	var room *netcontents.RoomError
	if _, err := netcontents.TargetOf(aim); !errors.As(err, &room) || room.Room != g(1.5) {
		t.Errorf("room for 1.5 g only: got %v", err)
	}
}

func TestAimsThatMakeNoSense(t *testing.T) {
	for name, edit := range map[string]func(*netcontents.Aim){
		"sure":                 func(a *netcontents.Aim) { a.Confidence = unit.Whole },
		"no confidence":        func(a *netcontents.Aim) { a.Confidence = 0 },
		"a negative step":      func(a *netcontents.Aim) { a.Step = -1 },
		"no parts":             func(a *netcontents.Aim) { a.Parts = nil },
		"parts short of label": func(a *netcontents.Aim) { a.Parts[0].Mass-- },
		"no number":            func(a *netcontents.Aim) { a.Parts[0].SpreadG = math.NaN() },
		"a spread of a third":  func(a *netcontents.Aim) { a.Parts[0].SpreadG = 70 },
		"a negative price":     func(a *netcontents.Aim) { a.Parts[0].PricePerKg = -1 },
		"negative room":        func(a *netcontents.Aim) { a.Parts[1].Room = -1 },
		"two last":             func(a *netcontents.Aim) { a.Parts[0].TopsUp, a.Parts[1].TopsUp = true, true },
	} {
		aim := netcontents.Aim{Terms: netcontents.Terms{Rules: netcontents.OwnCheck, Lot: 100, Label: g(680)}, Confidence: 95 * unit.PerCent, Parts: parts()}
		edit(&aim)
		var wrong *netcontents.InputError
		if _, err := netcontents.TargetOf(aim); !errors.As(err, &wrong) || wrong.Fix == "" {
			t.Errorf("%s: got %v, want an *InputError with its fix", name, err)
		}
	}
}

// TestTargetsAreMonotone: more spread and more confidence never lower the target, the label is never undercut, and the chance is kept.
func TestTargetsAreMonotone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		terms := netcontents.Terms{
			Rules: rapid.SampledFrom([]netcontents.Rules{netcontents.Handbook133, netcontents.OwnCheck, netcontents.Directive76211}).Draw(t, "rules"),
			Lot:   rapid.SampledFrom([]int{100, 250, 251, 500, 3000, 5000}).Draw(t, "lot"),
			Label: unit.Mass(rapid.Int64Range(50, 5000).Draw(t, "label")) * unit.Gram,
		}
		labelG := float64(terms.Label) / 1e9
		spread := rapid.Float64Range(0, 0.05).Draw(t, "spread") * labelG
		more := spread + rapid.Float64Range(0, 0.05).Draw(t, "more")*labelG
		sure := rapid.Float64Range(0.01, 0.999).Draw(t, "confidence")
		surer := sure + rapid.Float64Range(0, 0.9999-sure).Draw(t, "surer")
		base := targetOf(t, aimOf(terms, spread, sure))
		if base.Mean < terms.Label || base.Mean < base.NotUnder || base.Chance.AtLeast < unit.ShareOf(sure).F()-1e-12 {
			t.Fatalf("%+v", base)
		}
		if wider := targetOf(t, aimOf(terms, more, sure)); wider.Mean < base.Mean {
			t.Fatalf("%s at %g g, %s at %g g", base.Mean, spread, wider.Mean, more)
		}
		if higher := targetOf(t, aimOf(terms, spread, surer)); higher.Mean < base.Mean {
			t.Fatalf("%s at %g, %s at %g", base.Mean, sure, higher.Mean, surer)
		}
	})
}

// TestSplitIsCheapest: no way of shifting some overfill from one part to another is cheaper, and nothing is lost.
func TestSplitIsCheapest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		aim := netcontents.Aim{Terms: netcontents.Terms{Rules: netcontents.OwnCheck, Lot: 100}, Confidence: 95 * unit.PerCent}
		for range rapid.IntRange(1, 5).Draw(t, "parts") {
			p := netcontents.Part{
				Mass: unit.Mass(rapid.Int64Range(50, 300).Draw(t, "mass")) * unit.Gram, SpreadG: rapid.Float64Range(0, 10).Draw(t, "spread"),
				PricePerKg: unit.Money(rapid.Int64Range(0, 20).Draw(t, "price")) * unit.MoneyUnit, Free: rapid.Bool().Draw(t, "free"),
				Room: unit.Mass(rapid.Int64Range(0, 5).Draw(t, "room")) * unit.Gram}
			aim.Parts = append(aim.Parts, p)
			aim.Terms.Label += p.Mass
		}
		target, err := netcontents.TargetOf(aim)
		var room *netcontents.RoomError
		if errors.As(err, &room) {
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		over, mean := unit.Mass(0), unit.Mass(0)
		for i, p := range target.Parts {
			over, mean = over+p.Over, mean+p.Mean
			for j, q := range target.Parts {
				room := aim.Parts[j].Free && (aim.Parts[j].Room == 0 || q.Over < aim.Parts[j].Room)
				if p.Over > 0 && room && aim.Parts[j].PricePerKg < aim.Parts[i].PricePerKg {
					t.Fatalf("part %d takes some that part %d would take for less: %+v", i, j, target.Parts)
				}
			}
			if p.Over > 0 && !aim.Parts[i].Free || aim.Parts[i].Room > 0 && p.Over > aim.Parts[i].Room {
				t.Fatalf("part %d: %+v", i, p)
			}
		}
		if over != target.Over || mean != target.Mean {
			t.Fatalf("parts add up to %s over and %s: %+v", over, mean, target)
		}
	})
}

func BenchmarkTarget(b *testing.B) {
	aim := aimOf(netcontents.Terms{Rules: netcontents.Handbook133, Lot: 100, Label: 680 * unit.Gram}, 6, 0.99)
	for b.Loop() {
		if _, err := netcontents.TargetOf(aim); err != nil {
			b.Fatal(err)
		}
	}
}
