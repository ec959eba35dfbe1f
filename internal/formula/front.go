package formula

import (
	"kettlefrost/internal/plan"
	"kettlefrost/internal/stability"
	"kettlefrost/internal/unit"
)

// Front is how fast a pack freezes inwards, in the freezer where it is slowest, lying as packs lie there and by itself.
type Front struct {
	UsualMMH, SlowMMH, FastMMH float64 // 0: not known. Slow and fast are at the ends of the surface coefficient
	Freezer, Lies              string
	Thickness                  unit.Length
	Time                       unit.Span // until its core is as cold as is asked for
}

// colder is how far under its freezing point the core is when the front counts as arrived: 10 °C, as the International Institute of Refrigeration
// defines a nominal freezing rate (from memory): the shortest way to the core, over the time from when the surface was at 0 °C.
const colder = 10

// freezes finds how fast a pack freezes. Why it cannot be known is asked by askPot.
func (c *composer) freezes() {
	all, err := plan.FreezingOf(c.book, c.foods, c.pot.Pack)
	if err != nil {
		return
	}
	for _, x := range all {
		f, ok := frontOf(x)
		if ok && (c.pot.Front.UsualMMH == 0 || f.UsualMMH < c.pot.Front.UsualMMH) {
			c.pot.Front = f
		}
	}
}

func frontOf(x plan.PackFreeze) (Front, bool) {
	from, to := -1.0, -1.0
	for _, p := range x.Curve {
		if from < 0 && p.Surface != nil && p.Surface.C() <= 0 {
			from = p.Time.S()
		}
		if to < 0 && p.Core.C() <= x.Begins.C()-colder {
			to = p.Time.S()
		}
	}
	if from < 0 || !(to > from) {
		return Front{}, false
	}
	// Packs apart and in stacks are cold on both faces; on a plate one face is far colder, and the other still cold.
	rate, err := stability.FrontMMH(x.Thickness.M()*1000, (to-from)/3600, true)
	if err != nil {
		return Front{}, false
	}
	f := Front{UsualMMH: rate, Freezer: x.Freezer, Lies: x.Lies, Thickness: x.Thickness, Time: x.Time}
	f.SlowMMH, f.FastMMH = rate, rate
	if x.Slow > 0 && x.Fast > 0 {
		f.SlowMMH, f.FastMMH = rate*x.Time.S()/x.Slow.S(), rate*x.Time.S()/x.Fast.S()
	}
	return f, true
}
