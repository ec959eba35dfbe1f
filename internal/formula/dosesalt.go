package formula

import (
	"fmt"

	"kettlefrost/internal/dosing"
	"kettlefrost/internal/unit"
)

// Where package dosing tells that food is bland, and that it is too salty.
const blandSalt, mostSalt = 0.004, 0.011

// salt is the table salt of a dish to a taste, all other sodium counted: that of cheese, stock, emulsifying salt.
func (p Pot) salt(w Want, k float64) ([]Line, error) {
	var other, now float64
	name := ""
	for _, x := range p.Parts {
		if x.Salt {
			now, name = now+x.PutInKg, x.Name
			continue
		}
		other += x.SodiumMg
	}
	ask := dosing.Seasoned{Food: w.Mass, SodiumMg: other * k, Taste: w.Taste}
	own, has := w.Own[KeySalt]
	s, err := dosing.Salt(ask)
	if err != nil {
		return nil, err
	}
	l := Line{Key: KeySalt, Substance: "table salt", In: name, Doses: []dosing.Dose{s.Dose}, Now: Amount{Mass: unit.MassKg(now * k)}, Target: Amount{Mass: s.Target, Share: s.With}}
	l.Doses[0].Confirm += "; sodium of its own food counts as salt: common practice"
	l.Now.Share = s.Before + ratio(l.Now.Mass, w.Mass)
	l.Found = s.Found
	if has {
		share := own.Share
		if own.Mass > 0 { // of salt to be added
			share = s.Before + ratio(own.Mass, w.Mass)
		}
		ask.Want = unit.ShareOf(share)
		mine, err := dosing.Salt(ask)
		if err != nil {
			return nil, err
		}
		l.Own, l.OwnSays = &Amount{Mass: mine.Target, Share: mine.With}, own.Assumed
		l.Found = append(l.Found, mine.Found...)
	}
	l.Says, l.Fine = tastes(l.Now.Share), l.Now.Share >= blandSalt && l.Now.Share <= mostSalt
	low, high := s.Shares.Low.F(), s.Shares.High.F()
	switch {
	case l.Now.Share > mostSalt:
		l.Verdict = OverMost
	case l.Now.Share > high:
		l.Verdict = Above
	case l.Now.Share < low:
		l.Verdict = Below
	default:
		l.Verdict = Within
	}
	return []Line{l}, nil
}

// tastes says to which taste a share of salt belongs.
func tastes(share float64) string {
	for _, t := range []dosing.Taste{dosing.Light, dosing.Usual, dosing.Strong} {
		s, err := dosing.Salt(dosing.Seasoned{Food: unit.Kilogram, Taste: t})
		if err == nil && share >= s.Shares.Low.F() && share <= s.Shares.High.F() {
			return fmt.Sprintf("%.2f %% salt in all, as %s food has", 100*share, t)
		}
	}
	return fmt.Sprintf("%.2f %% salt in all", 100*share)
}
