package freezing

import "fmt"

// Limits are what a day's load must keep.
type Limits struct {
	CoreC float64 // where a pack counts as frozen: 1 K above the freezer's air, or warmer
	// Relax takes the coldest core that a freezer's air allows (ColdestCoreC) where CoreC is colder; else that is a *TooColdError.
	Relax   bool
	WithinS float64 // every core within so long of going in; 0 is a day
	// StockC is how warm the warmest point of the old stock may become; 0 is UsualStockLimitC.
	StockC float64
	Side   Side // of the surface coefficient
}

// UsualStockLimitC is how warm old stock may become for a while, if the caller does not say: codes for quick-frozen food keep it at -18 °C
// or colder and bear brief rises to -15 °C in distribution (from memory). That a kitchen's own stock is held to it is common practice.
const UsualStockLimitC = -15

func (l Limits) whole() (Limits, error) {
	if l.WithinS == 0 {
		l.WithinS = daySeconds
	}
	if l.StockC == 0 {
		l.StockC = UsualStockLimitC
	}
	if err := l.Side.check(); err != nil {
		return l, err
	}
	return l, checkAll(
		limit{"core temperature", "°C", l.CoreC, -60, 0},
		limit{"time to freeze", "s", l.WithinS, 3600, longestLoad},
		limit{"limit of the old stock", "°C", l.StockC, -60, 0},
	)
}

// in is the limits in one freezer.
func (l Limits) in(f Freezer) Limits {
	if l.Relax {
		l.CoreC = max(l.CoreC, ColdestCoreC(f.SetC))
	}
	return l
}

// Binding is what keeps a day's load from being larger.
type Binding int

const (
	ByRoom  Binding = iota + 1 // no room for another pack
	ByTime                     // with another, a core would not be frozen in time
	ByStock                    // with another, the old stock would become too warm
	ByPack                     // not one pack is frozen in time even in air that stays cold: it is too thick for the time, or lies too badly
)

var bindings = [...]string{ByRoom: "room", ByTime: "time", ByStock: "old stock", ByPack: "the pack itself"}

// String is "room", "time", "old stock" or "the pack itself".
func (b Binding) String() string {
	if b < ByRoom || b > ByPack {
		return fmt.Sprintf("binding(%d)", int(b))
	}
	return bindings[b]
}

// PackIntake is how many packs of one kind one cabinet takes in a day.
type PackIntake struct {
	Packs   int
	MassKg  float64
	Binding Binding
	CoreC   float64 // that is asked for: warmer than the limits' where Relax allows
	AloneS  float64 // until one pack by itself is frozen in air that stays cold
	Load    Loaded  // of Packs, empty if there are none
	// Beside it: the most that the heat balance allows in a day, and the household rule.
	BalanceKg float64
	Rule      Intake
}

// PacksADay is the greatest number of packs that may go into one cabinet at once such that every core is frozen in time, the old stock
// stays below its limit and there is room. More packs never freeze sooner, so the number is found by narrowing a bracket over simulations.
// placing left out is that of the freezer. Errors: *heat.RangeError, *TooColdError.
func (f Freezer) PacksADay(p Pack, placing Placing, lim Limits) (PackIntake, error) {
	s, err := newSearch(f, p, placing, lim)
	if err != nil {
		return PackIntake{}, err
	}
	out := PackIntake{CoreC: s.lim.CoreC, AloneS: s.aloneS}
	if out.Rule, err = f.HouseholdIntakeKg(); err != nil {
		return PackIntake{}, err
	}
	if out.BalanceKg, err = s.balanceKg(); err != nil {
		return PackIntake{}, err
	}
	if out.Packs, out.Binding, err = s.whole(); err != nil || out.Packs == 0 {
		return out, err
	}
	out.MassKg = float64(out.Packs) * p.MassKg
	s.batch.Count = out.Packs
	out.Load, err = s.f.Load([]Batch{s.batch}, s.ask())
	return out, err
}
