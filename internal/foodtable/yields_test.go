package foodtable

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// The yields are those of the US department alone. The one food below is a cured loin, not a source.
func TestYieldSources(t *testing.T) {
	ours := regexp.MustCompile(`^(USDA SR28 WEIGHT, |USDA Food Buying Guide|derived: solids balance, SR28 )`)
	for _, y := range open(t).yields {
		if !ours.MatchString(y.Source) {
			t.Errorf("%s: source %q", y.Item, y.Source)
		}
		if (y.MoistureChangeG.IsGiven() || y.FatChangeG.IsGiven()) && !strings.Contains(y.Source, "derived") {
			t.Errorf("%s: moisture or fat change not marked as derived: %q", y.Item, y.Source)
		}
	}
	for name, text := range map[string]string{"foods": foodsCSV, "measures": measuresCSV, "yields": yieldsCSV, "densities": densitiesCSV} {
		for _, line := range strings.Split(text, "\n") {
			if strings.Contains(line, "Canad") && !strings.HasPrefix(line, `10130,"Canadian bacon, uncooked","Canadian bacon, unprepared"`) {
				t.Errorf("%s.csv: %s", name, line)
			}
		}
	}
}

// What the source column says in words must be what the yield says: grams over 1 lb, or the solids of the two foods.
func TestYieldsFromTheirSource(t *testing.T) {
	fromPound := regexp.MustCompile(`yield from 1 lb [^=]*= ([0-9.]+) g`)
	fromSolids := regexp.MustCompile(`NDB ([0-9]{5}), dry\).*NDB ([0-9]{5}), cooked`)
	table := open(t)
	pounds, solids := 0, 0
	for _, y := range table.yields {
		if m := fromPound.FindStringSubmatch(y.Source); m != nil {
			pounds++
			grams, err := strconv.ParseFloat(m[1], 64)
			if want := grams / 453.59237 * 100; err != nil || math.Abs(y.Pct-want) > 0.051 {
				t.Errorf("%s: %g %%, but %q is %.2f %%", y.Item, y.Pct, y.Source, want)
			}
		}
		m := fromSolids.FindStringSubmatch(y.Source)
		if m == nil {
			continue
		}
		dry, known := table.Lookup(m[1])
		cooked, also := table.Lookup(m[2])
		if known && also {
			solids++
			want := 100 * (100 - dry.Per100g.WaterG.Or(0)) / (100 - cooked.Per100g.WaterG.Or(0))
			if math.Abs(y.Pct-want) > 0.051 {
				t.Errorf("%s: %g %%, the solids say %.2f %%", y.Item, y.Pct, want)
			}
		}
	}
	if pounds < 100 || solids < 20 {
		t.Errorf("only %d yields from a pound and %d from solids were checked", pounds, solids)
	}
}

func TestYieldsOfAFood(t *testing.T) {
	// SR28 weights: a pound of ready-to-cook chicken gives 157 g of meat stewed, 146 g roasted (read): 34.6 and 32.2 %.
	for ndb, want := range map[string]float64{"05014": 34.6, "05013": 32.2} {
		ys := open(t).Yields(ndb)
		if len(ys) != 1 || ys[0].Pct != want || ys[0].Basis != "whole ready-to-cook bird, with bones" {
			t.Errorf("yields of %s: %+v, want one of %g %%", ndb, ys, want)
		}
	}
	if ys := open(t).Yields("99999"); ys != nil {
		t.Errorf("yields of no food: %v", ys)
	}
}
