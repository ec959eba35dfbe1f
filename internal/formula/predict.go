package formula

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"kettlefrost/internal/dosing"
	"kettlefrost/internal/freezepoint"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/stability"
	"kettlefrost/internal/storagelife"
)

// The published life of soups and stews at 0 °F: 2 to 3 months, in whole weeks (consumer charts of FSIS). Food stays safe beyond it.
const (
	chartLow, chartHigh = 8, 13
	chartSource         = "2 to 3 months for soups and stews at 0 °F: consumer charts of FSIS; quality, not safety"
)

// usualStoreC is the storage temperature of the published charts, 0 °F.
const usualStoreC = -18

// Stored is where and how something is kept.
type Stored struct {
	TempC     float64
	Where     string // the freezer; empty where a temperature was typed
	Assumed   bool   // no freezer says
	Excursion *storagelife.Stay
}

// StoredIn is the warmest freezer of a kitchen, or the charts' temperature where it has none.
func StoredIn(book kitchen.Book) Stored {
	s := Stored{TempC: usualStoreC, Assumed: true}
	for _, id := range slices.Sorted(maps.Keys(book.Freezers)) {
		f := book.Freezers[id]
		if s.Assumed || f.Air.C() > s.TempC {
			s = Stored{TempC: f.Air.C(), Where: cmp.Or(f.Name, string(id))}
		}
	}
	return s
}

// Prediction is what becomes of a pot in the freezer, as far as it can be reckoned.
type Prediction struct {
	Stored Stored
	Food   freezepoint.Food // of the warm end
	Point  freezepoint.Point
	Liquid freezepoint.Liquid // at the storage temperature
	Salt   float64            // of the food, all sodium but that of citrate counted as salt
	Life   Life
	Cost   *Cost // of the excursion
	Asks   []Ask
}

// Life is how long quality lasts.
type Life struct {
	LowDays, HighDays float64 // at -18 °C
	Source            string
	Own               bool // the book says it of this pack
	// At the storage temperature, over the doubt of both: the least and the most, and between them at the usual Q10 from each end.
	Least, From, To, Most float64
	Rule                  storagelife.Rule // for LowDays
}

// Cost is what a time in warmth takes from the life of what is stored.
type Cost struct {
	storagelife.Stay
	Used      storagelife.Used // of the shorter life
	Days      float64          // as many days at -18 °C
	Low, High float64          // the same over the doubt of Q10
	Lost      float64          // days at -18 °C more than the same time in the freezer would have taken
	TooWarm   bool             // above -5 °C the rule says nothing: packs must be looked at
}

// Predict says where the pot freezes, what is ice in the freezer, and how long it keeps. Errors: *freezepoint.InputError, *storagelife.StayError.
func (p Pot) Predict(s Stored, life kitchen.Keeping) (Prediction, error) {
	out := Prediction{Stored: s, Salt: p.saltShare()}
	if s.Assumed {
		out.Asks = append(out.Asks, Ask{Code: AskFreezer, Path: "freezers", Where: "the kitchen", Asks: "How cold is the freezer?", Assumed: fmt.Sprintf("%d °C (0 °F)", usualStoreC)})
	}
	warm, cold := p.dissolved(freezepoint.Double), p.dissolved(freezepoint.Simple)
	point, err := freezepoint.Of(warm)
	if err != nil {
		return out, err
	}
	colder, err := freezepoint.Of(cold)
	if err != nil {
		return out, err
	}
	point.ColdestC = min(point.ColdestC, colder.ColdestC)
	out.Food, out.Point = warm, point
	if out.Liquid, err = freezepoint.At(warm, s.TempC); err != nil {
		return out, err
	}
	if other, err := freezepoint.At(cold, s.TempC); err == nil {
		out.Liquid.OfWaterMost = max(out.Liquid.OfWaterMost, other.OfWaterMost)
	}
	out.Life = lifeOf(life, s.TempC)
	if s.Excursion != nil {
		out.Cost, err = costOf(out.Life.Rule, *s.Excursion, s.TempC)
	}
	return out, err
}

// share is a part of the pot.
func (p Pot) share(of func(Part) float64) float64 {
	kg := 0.0
	for _, x := range p.Parts {
		kg += of(x)
	}
	return max(0, kg/p.Mass.Kg())
}

func (x Part) isCitrate() bool { return x.Component.Role == stability.EmulsifyingSalt }

func (p Pot) saltShare() float64 {
	return p.share(func(x Part) float64 { return cond(!x.isCitrate(), x.SodiumMg*dosing.SaltPerSodium/1e6) })
}

// dissolved is what lowers the freezing point. The table does not tell which sugars they are: sugar is the kind that all of them are taken for, and
// both are reckoned.
func (p Pot) dissolved(sugar freezepoint.Kind) freezepoint.Food {
	salt := p.saltShare()
	citrate := p.share(func(x Part) float64 { return cond(x.isCitrate(), x.Kg) })
	ash := p.share(func(x Part) float64 { return cond(!x.isCitrate(), x.AshKg) })
	f := freezepoint.Food{
		Water:     p.share(func(x Part) float64 { return x.WaterKg }),
		Protein:   p.share(func(x Part) float64 { return x.ProteinKg }),
		OtherAsh:  max(0, ash-salt),
		OtherCarb: p.share(func(x Part) float64 { return cond(!x.isCitrate() && x.Component.Role != stability.Gum, x.OtherCarbKg) }),
	}
	for _, s := range []freezepoint.Solute{{Kind: freezepoint.Salt, Share: salt}, {Kind: freezepoint.Citrate, Share: citrate},
		{Kind: sugar, Share: p.share(func(x Part) float64 { return x.SugarsKg })}, {Kind: freezepoint.Ethanol, Share: p.share(func(x Part) float64 { return x.AlcoholKg })}} {
		if s.Share > 0 {
			f.Solutes = append(f.Solutes, s)
		}
	}
	return f
}

// lifeOf is how long quality lasts: as the book says of the pack, or as the charts have it.
func lifeOf(k kitchen.Keeping, storeC float64) Life {
	l := Life{LowDays: 7 * chartLow, HighDays: 7 * chartHigh, Source: chartSource}
	if k.Weeks > 0 {
		l = Life{LowDays: 7 * float64(k.Weeks), HighDays: 7 * float64(k.Weeks), Source: k.Source, Own: true}
	}
	l.Rule = storagelife.Assumed(l.LowDays)
	l.From, l.To = l.Rule.Days(storeC), storagelife.Assumed(l.HighDays).Days(storeC)
	ends := func(days float64) (float64, float64) {
		r := storagelife.Assumed(days)
		a, b := storagelife.Rule{DaysAt18: days, Q10: r.Q10Low}.Days(storeC), storagelife.Rule{DaysAt18: days, Q10: r.Q10High}.Days(storeC)
		return min(a, b), max(a, b)
	}
	l.Least, _ = ends(l.LowDays)
	_, l.Most = ends(l.HighDays)
	return l
}

// costOf is what a stay takes from a life.
func costOf(r storagelife.Rule, stay storagelife.Stay, storeC float64) (*Cost, error) {
	used, err := r.Use([]storagelife.Stay{stay})
	if err != nil {
		return nil, err
	}
	cold, err := r.Use([]storagelife.Stay{{TempC: storeC, Days: stay.Days}})
	if err != nil {
		return nil, err
	}
	c := &Cost{Stay: stay, Used: used, Days: used.Share * r.DaysAt18, Low: used.Low * r.DaysAt18, High: used.High * r.DaysAt18, TooWarm: used.WarmDays > 0}
	if !c.TooWarm {
		c.Lost = max(0, used.Share-cold.Share) * r.DaysAt18
	}
	return c, nil
}
