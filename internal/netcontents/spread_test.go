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

// TestLearn is worked by hand. The label is 500 g and the prior 2 % worth 4 packs: 10 g, squares 400. Two fillings, each about its own
// mean: 498 500 502 (squares 8) and 510 514 (squares 8). So 416 over 4 + 2 + 1 = 7: 7.709 g. At 95 % the upper value is
// sqrt(416/2.167), 2.167 being chi-square at 0.05 with 7 (printed tables): 13.855 g.
func TestLearn(t *testing.T) {
	prior := netcontents.Prior{Share: 2 * unit.PerCent, Packs: 4, Source: "hand"}
	s, err := netcontents.Learn(g(500), prior, [][]unit.Mass{{g(498), g(500), g(502)}, {g(510), g(514)}, {g(505)}}, 95*unit.PerCent)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "best estimate", s.DeviationG, math.Sqrt(416.0/7), 1e-9)
	near(t, "upper value", s.UpperG, 13.855, 2e-3)
	if s.Rests != 7 || s.Weighed != 6 || s.Prior != prior {
		t.Errorf("%+v", s)
	}
	believed, err := netcontents.Learn(g(500), netcontents.ByHand, nil, 95*unit.PerCent)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "nothing weighed", believed.DeviationG, 7.5, 1e-12)
	near(t, "upper value of a belief", believed.UpperG, 7.5*math.Sqrt(5/1.1454762), 1e-6) // qchisq(0.05, 5) of R 4.2
}

// TestUpperValueCovers: of spreads learned from 12 packs without a prior, the upper value at 90 % is over the true one in nine of ten.
func TestUpperValueCovers(t *testing.T) {
	const times = 20_000
	r := rand.New(rand.NewPCG(1, 2))
	covered := 0
	for range times {
		var packs []unit.Mass
		for range 12 {
			packs = append(packs, unit.Mass((500+5*r.NormFloat64())*1e9))
		}
		s, err := netcontents.Learn(g(500), netcontents.Prior{}, [][]unit.Mass{packs}, 90*unit.PerCent)
		if err != nil {
			t.Fatal(err)
		}
		if s.UpperG >= 5 {
			covered++
		}
	}
	near(t, "covered", float64(covered)/times, 0.9, 4*math.Sqrt(0.09/times))
}

// TestUpperValueIsUpper: it lies over the best estimate from 75 % on, and higher for more confidence.
func TestUpperValueIsUpper(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		prior := netcontents.Prior{Share: unit.PerCent, Packs: rapid.IntRange(1, 300).Draw(t, "packs")}
		confidence := unit.Share(rapid.Int64Range(int64(75*unit.PerCent), int64(99*unit.PerCent)).Draw(t, "confidence"))
		s, err := netcontents.Learn(g(500), prior, nil, confidence)
		if err != nil {
			t.Fatal(err)
		}
		surer, err := netcontents.Learn(g(500), prior, nil, confidence+unit.PerCent/2)
		if err != nil {
			t.Fatal(err)
		}
		if s.UpperG <= s.DeviationG || surer.UpperG <= s.UpperG {
			t.Fatalf("%+v, surer %+v", s, surer)
		}
	})
}

func TestSpreadsThatMakeNoSense(t *testing.T) {
	packs := [][]unit.Mass{{g(500), g(501)}}
	for _, c := range []struct {
		name       string
		label      unit.Mass
		prior      netcontents.Prior
		fillings   [][]unit.Mass
		confidence unit.Share
	}{
		{"no label", 0, netcontents.ByHand, packs, 95 * unit.PerCent},
		{"a prior worth less than nothing", g(500), netcontents.Prior{Packs: -1}, packs, 95 * unit.PerCent},
		{"sure", g(500), netcontents.ByHand, packs, unit.Whole},
		{"nothing to rest on", g(500), netcontents.Prior{}, [][]unit.Mass{{g(500)}}, 95 * unit.PerCent},
		{"a pack of nothing", g(500), netcontents.ByHand, [][]unit.Mass{{0, g(500)}}, 95 * unit.PerCent},
	} {
		var wrong *netcontents.InputError
		if _, err := netcontents.Learn(c.label, c.prior, c.fillings, c.confidence); !errors.As(err, &wrong) || wrong.Fix == "" {
			t.Errorf("%s: got %v, want an *InputError with its fix", c.name, err)
		}
	}
}
