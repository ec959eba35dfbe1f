package dosing

import (
	"fmt"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/unit"
)

// SaltPerSodium is salt by its sodium: 2.542, from the atomic weights of table salt.
const SaltPerSodium = 2.542

// Taste is how salty a food is to be. The salt is counted whole: what is added and what its ingredients bring.
type Taste string

// Tastes.
const (
	Light  Taste = "light"
	Usual  Taste = "usual"
	Strong Taste = "strong"
)

// tastes are salt as a share of the food as it is eaten. 119 soups of USDA SR28 have 0.86 % in the middle, 80 % of them 0.44 to 1.03.
var tastes = map[Taste]Level{
	Light: {Range: Range[unit.Share]{unit.ShareOf(0.0035), unit.ShareOf(0.005), unit.ShareOf(0.006)}, Source: "0.35-0.6 % in soups with less sodium (USDA SR28, derived)",
		Confirm: "the target is judgement"},
	Usual: {Range: Range[unit.Share]{unit.ShareOf(0.007), unit.ShareOf(0.008), unit.ShareOf(0.009)}, Source: "inside 0.44-1.03 % of the middle 80 % of 119 soups (USDA SR28, derived)",
		Confirm: "0.7-0.9 % as the aim is common practice"},
	Strong: {Range: Range[unit.Share]{unit.ShareOf(0.009), unit.ShareOf(0.0095), unit.ShareOf(0.0103)}, Source: "up to 1.03 %, the upper end of the middle 80 % of 119 soups (USDA SR28, derived)",
		Confirm: "the target is judgement"},
}

const (
	blandBelow   = 0.004
	tooSaltyFrom = 0.011
	saltLimitsIs = "0.4 and 1.1 % as limits are common practice, inside what 119 soups have (USDA SR28)"
)

// Seasoned is a food that is to be salted.
type Seasoned struct {
	Food     unit.Mass // as it is when the salt goes in
	SodiumMg float64   // of everything else in it: stock, cheese, emulsifying salt, soy sauce
	Loses    float64   // share of the food that boils away after the salt: salt stays, so the food grows saltier. 0 to 0.9
	Taste    Taste
	Want     unit.Share // a target of one's own in place of a taste's; 0: none
}

// Seasoning is how much table salt to add, and how salty that makes the food.
type Seasoning struct {
	Dose                // its shares are of all salt in the food as it is eaten, its masses what is still to be added
	Before      float64 // salt by the other sodium alone, as a share of the food as it is eaten
	With        float64 // the same with the target added
	AtAdding    float64 // the same when it goes in: what a spoon tastes before the food has boiled down
	SodiumAdded float64 // mg, by the target
}

// Salt is how much table salt a food takes to a taste, other sodium counted. Where that is too much already the dose is none and it is told.
// Errors: *InputError.
func Salt(s Seasoned) (Seasoning, error) {
	level, known := tastes[s.Taste]
	if s.Want != 0 {
		level, known = Level{Range: Range[unit.Share]{s.Want, s.Want, s.Want}, Source: "your own"}, true
	}
	switch err := positive("the food", s.Food); {
	case err != nil:
		return Seasoning{}, err
	case !known:
		return Seasoning{}, &InputError{"the taste", fmt.Sprintf("is %q", s.Taste), "take light, usual or strong"}
	case !(s.SodiumMg >= 0 && s.SodiumMg < s.Food.Kg()*4e5):
		return Seasoning{}, &InputError{"other sodium", fmt.Sprintf("is %g mg", s.SodiumMg), "give what the other ingredients bring, 0 or more"}
	case s.Want < 0 || s.Want > 10*unit.PerCent:
		return Seasoning{}, &InputError{"the target", fmt.Sprintf("is %g %% salt", 100*s.Want.F()), "give up to 10 %"}
	case !(s.Loses >= 0 && s.Loses <= 0.9):
		return Seasoning{}, &InputError{"what boils away", fmt.Sprintf("is %g of the food", s.Loses), "give a share of 0 to 0.9"}
	}
	level.Substance, level.Basis = "table salt", OfFinished
	eaten := s.Food - unit.ShareOf(s.Loses).Of(s.Food)
	other := unit.MassKg(s.SodiumMg * SaltPerSodium / 1e6)
	out := Seasoning{Dose: level.of(eaten)}
	out.Low, out.Target, out.High = max(0, out.Low-other), max(0, out.Target-other), max(0, out.High-other)
	out.cap(max(0, unit.ShareOf(tooSaltyFrom).Of(eaten)-other), "1.1 % in all: "+saltLimitsIs)
	out.Before, out.With = ratio(other, eaten), ratio(other+out.Target, eaten)
	out.AtAdding = ratio(other+out.Target, s.Food)
	out.SodiumAdded = out.Target.Kg() * 1e6 / SaltPerSodium
	out.Found = append(out.Found, out.saltiness(level)...)
	return out, nil
}

func (s Seasoning) saltiness(level Level) finding.List {
	f := finding.Finding{Where: "salt", Source: saltLimitsIs, Figures: []finding.Figure{percent("salt", s.With), percent("without adding", s.Before)}}
	switch {
	case s.Before > tooSaltyFrom:
		f.Code, f.Severity = "too-salty", finding.Caution
		f.Message = fmt.Sprintf("other ingredients alone make it %.2f %% salt, over 1.1", 100*s.Before)
		f.Fix = "use less of what brings the sodium, or make more food with it"
	case s.Before > level.High.F():
		f.Code, f.Severity = "salt-enough", finding.Note
		f.Message = fmt.Sprintf("other ingredients make it %.2f %% salt, more than this taste asks for: add none", 100*s.Before)
	case s.With < blandBelow:
		f.Code, f.Severity = "bland", finding.Note
		f.Message = fmt.Sprintf("%.2f %% salt is under 0.4", 100*s.With)
	default:
		return nil
	}
	return finding.List{f}
}

// AfterLoss is the share of what does not boil away, when some of the food has: share/(1 - loss). Loss is below 1.
func AfterLoss(share, loss float64) float64 { return share / (1 - loss) }
