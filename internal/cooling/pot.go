package cooling

import (
	"math"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/medium"
)

// Pot is food kept stirred in one or more equal pots, so that all of it has one temperature: in a bath or in air, with frozen paddles or
// without.
type Pot struct {
	Work
	DiameterM float64 // inside, 0.02 to 3
	FillM3    float64 // food that one may hold
	Have      int
	Wall      medium.Film // overall coefficient from the food to the bath, on the wet side and the base; all 0: nothing counted
	Bath      Bath
	Top       medium.Film // from the open surface or the lid to the air, all 0: nothing counted
	AirC      float64     // above it
	Wet       float64     // share of the surface that evaporates, 0 under a lid to 1 for thin open soup
	Paddles   Paddles
}

// mostStirredWM2K is above what the wall of a pot lets through: circulating water on both sides of thin steel.
const mostStirredWM2K = 5000

func (p Pot) check() error {
	if err := heat.InRange("diameter of the pot", "m", p.DiameterM, 0.02, 3); err != nil {
		return err
	}
	if err := heat.InRange("filling of the pot", "m³", p.FillM3, 1e-5, 20); err != nil {
		return err
	}
	if err := checkFilm("overall coefficient of the wall", p.Wall, true, mostStirredWM2K); err != nil {
		return err
	}
	if err := checkFilm("surface coefficient above", p.Top, true, mostStirredWM2K); err != nil {
		return err
	}
	if err := heat.InRange("air temperature", "°C", p.AirC, coldestMediumC, warmestAirC); err != nil {
		return err
	}
	if err := heat.InRange("wet share of the surface", "", p.Wet, 0, 1); err != nil {
		return err
	}
	if err := p.Bath.check(); err != nil {
		return err
	}
	return p.Paddles.check()
}

func (p Pot) stirs() bool { return true }
func (p Pot) work() Work  { return p.Work }

func (p Pot) vessels(f Food) Vessels { return potsFor(f, p.FillM3, p.DiameterM, p.Have) }

func potsFor(f Food, fillM3, diameterM float64, have int) Vessels {
	need := atLeast(f.volumeM3() / fillM3)
	return Vessels{Need: need, Have: have, FootprintM2: float64(need) * circleM2(diameterM)}
}

// atLeast is the whole number of vessels that x fillings need. A rounding error makes no further vessel.
func atLeast(x float64) int { return max(1, int(math.Ceil(min(x, mostVessels)-1e-9))) }

const mostVessels = 1e9

func circleM2(diameterM float64) float64 { return math.Pi / 4 * diameterM * diameterM }

// wetM2 is the side and base that n pots' share of the food touches.
func (p Pot) wetM2(f Food, n int) float64 {
	base := circleM2(p.DiameterM)
	depthM := f.volumeM3() / float64(n) / base
	return base + math.Pi*p.DiameterM*depthM
}

func (p Pot) follow(f Food, startC float64, n int, e errand) (leg, error) {
	if err := p.Bath.checkFor(f); err != nil {
		return leg{}, err
	}
	s := p.stir(f, startC, n, e.level)
	l := s.run(e)
	l.taken, l.peakW, l.paddles = l.taken.times(float64(n)), l.peakW*float64(n), l.paddles*n
	switch p.Bath.Ice {
	case ToppedUp:
		need, err := p.Bath.needKg(l.taken.MediumJ-s.y[top]*float64(n), l.timeS)
		if err != nil {
			return leg{}, err
		}
		l.iceKg = need
		if p.Bath.IceKg > 0 && need > p.Bath.IceKg {
			l.shortOf = ShortOfIce
		}
	case OnceOnly:
		l.iceKg = p.Bath.IceKg
	}
	if p.Wet > 0 {
		l.cautions = append(l.cautions, Caution{Code: Uncovered, Value: p.Wet})
	}
	if p.Paddles.Have > 0 && p.Paddles.Have < n {
		l.shortOf = ShortOfPaddles
	}
	return l, nil
}
