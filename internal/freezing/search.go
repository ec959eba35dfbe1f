package freezing

import (
	"math"

	"kettlefrost/internal/conduction"
)

// search looks for the greatest load of one kind of pack.
type search struct {
	f      Freezer
	lim    Limits
	batch  Batch
	heatJ  float64 // of one pack until all of it is at the core asked for: the least it has given off by then
	aloneS float64
	mostN  float64 // no more than this by the heat balance
	guess  float64 // where to look first; 0 is anywhere
}

func newSearch(f Freezer, p Pack, placing Placing, lim Limits) (*search, error) {
	f, err := f.whole()
	if err != nil {
		return nil, err
	}
	if lim, err = lim.whole(); err != nil {
		return nil, err
	}
	lim = lim.in(f)
	s := &search{f: f, lim: lim, batch: Batch{Pack: p, Placing: placing, Count: 1}}
	if _, err = f.checkLoad([]Batch{s.batch}, s.ask()); err != nil {
		return nil, err
	}
	if s.heatJ, err = p.HeatJ(lim.CoreC); err != nil {
		return nil, err
	}
	if s.aloneS, err = aloneS(p, s.batch.placing(f), f, lim); err != nil {
		return nil, err
	}
	bufferJ, err := f.bufferJ(lim.CoreC, lim.StockC)
	s.mostN = min((f.CoolingW*lim.WithinS+bufferJ)/s.heatJ, mostPacks)
	return s, err
}

func (s *search) ask() Ask {
	return Ask{CoreC: s.lim.CoreC, WithinS: s.lim.WithinS, Side: s.lim.Side}
}

// aloneS is how long one pack takes in steady air. If its core is not there after 30 days, those.
func aloneS(p Pack, at Placing, f Freezer, lim Limits) (float64, error) {
	m, err := conduction.Food(p.Food)
	if err != nil {
		return 0, err
	}
	r, err := at.body(p, m, f.Film, lim.Side, conduction.Steady(f.SetC)).Simulate(conduction.Ask{CoreC: lim.CoreC})
	return r.TimeS, err
}

// bufferJ is the most that air, shelves and stock can take up while the air is colder than airC and the stock than stockC.
func (f Freezer) bufferJ(airC, stockC float64) (float64, error) {
	perKg, err := f.Stock.Food.HeatJKg(max(f.Stock.TempC, min(stockC, f.Stock.Food.FreezingPointC)), f.Stock.TempC)
	return f.HeatCapacityJK*max(0, airC-f.SetC) + f.Stock.MassKg*perKg, err
}

func (s *search) balanceKg() (float64, error) {
	return DailyIntakeKg(s.f.CoolingW, s.heatJ/s.batch.Pack.MassKg)
}

// excess of a load is how far it is beyond its limits, as shares of them: above 0 it is too large. It rises with the load.
type excess struct{ time, stock float64 }

func (e excess) worst() float64 { return max(e.time, e.stock) }

func (e excess) binding() Binding {
	if e.stock > e.time {
		return ByStock
	}
	return ByTime
}

// excessK is how many kelvins of a core that is not frozen in time count as much as the whole time: only the way to the limit depends
// on it, not where it lies.
const excessK = 20

// excess of a load of this freezer.
func (l Limits) excess(f Freezer, got Loaded) excess {
	e := excess{time: -1, stock: l.stock(f, got.StockPeakC)}
	for _, b := range got.Batches {
		e.time = max(e.time, l.late(b))
	}
	return e
}

func (l Limits) late(b Frozen) float64 {
	if !b.Reached {
		return max(1e-6, (b.WarmestC-l.CoreC)/excessK)
	}
	return b.TimeS/l.WithinS - 1
}

func (l Limits) stock(f Freezer, peakC float64) float64 {
	if f.Stock.MassKg == 0 {
		return -1
	}
	return (peakC - l.StockC) / max(1, l.StockC-f.Stock.TempC)
}

// of is the excess of a number of packs.
func (s *search) of(count float64) (excess, error) {
	got, err := s.f.simulate([]Batch{s.batch}, []float64{count}, s.ask())
	return s.lim.excess(s.f, got), err
}

// none is the excess of a load of nearly nothing: the old stock as it is, or as warm as the air will make it.
func (s *search) none() excess {
	return excess{time: s.aloneS/s.lim.WithinS - 1, stock: s.lim.stock(s.f, max(s.f.Stock.TempC, s.f.SetC))}
}

// whole is the greatest whole number, room included, and what binds it.
func (s *search) whole() (int, Binding, error) {
	none := s.none()
	if none.stock > 0 {
		return 0, ByStock, nil
	}
	if none.time > 0 {
		return 0, ByPack, nil
	}
	room := math.Floor(s.f.RoomKg/s.batch.Pack.MassKg + 1e-9)
	if room == 0 {
		return 0, ByRoom, nil
	}
	low, high := bound{0, none}, bound{n: math.Floor(s.mostN) + 1}
	if room < high.n {
		e, err := s.of(room)
		if err != nil {
			return 0, 0, err
		}
		if e.worst() <= 0 {
			return int(room), ByRoom, nil
		}
		high = bound{room, e}
	}
	low, high, err := s.narrow(low, high, true)
	if err != nil {
		return 0, 0, err
	}
	if high.e == (excess{}) { // the heat balance alone rules it out
		return int(low.n), ByTime, nil
	}
	return int(low.n), high.e.binding(), nil
}

// real is the number, not whole, at which a limit is just met, without regard to room, to about a hundredth; below 1 it is not followed.
func (s *search) real() (float64, error) {
	none := s.none()
	if none.worst() > 0 {
		return 0, nil
	}
	low, high, err := s.narrow(bound{0, none}, bound{n: s.mostN}, false)
	return between(low, high), err
}

// bound is an end of a bracket: a number of packs and its excess, which is zero where it was not simulated.
type bound struct {
	n float64
	e excess
}

// between is where the excess of two bounds passes 0 in a straight line.
func between(low, high bound) float64 {
	a, b := low.e.worst(), high.e.worst()
	if !(a <= 0 && b > 0) {
		return low.n
	}
	return low.n + (high.n-low.n)*-a/(b-a)
}

const (
	maxNarrow = 60
	// steepness is how fast the excess is taken to rise with the share of the intake as long as two loads have not shown it: as was seen near
	// the intake, where excesses are less than nearGuess.
	steepness, nearGuess = 1.3, 0.25
	// closeEnough is the excess, and the width of the bracket as a share of it, at which a number that need not be whole is known.
	closeEnough, narrowEnough = 0.006, 0.02
)

// narrow brings two bounds together, the lower within the limits and the upper beyond them: until they are neighbours, or close enough.
func (s *search) narrow(low, high bound, whole bool) (bound, bound, error) {
	for i := range maxNarrow {
		switch {
		case whole && high.n-low.n <= 1, !whole && (high.n < 1 || high.n-low.n <= narrowEnough*high.n):
			return low, high, nil
		}
		try := s.next(low, high, i)
		if whole {
			try = min(max(math.Round(try), low.n+1), high.n-1)
		}
		e, err := s.of(try)
		if err != nil {
			return low, high, err
		}
		if !whole && math.Abs(e.worst()) < closeEnough {
			at := bound{try, e}
			return at, at, nil
		}
		if e.worst() <= 0 {
			low = bound{try, e}
		} else {
			high = bound{try, e}
		}
	}
	return low, high, nil
}

// next is where to look between two bounds: where a straight line says, every third time in the middle, so that it ends. If there is a guess,
// it is first, and what its excess says by itself is next.
func (s *search) next(low, high bound, i int) float64 {
	inside := func(n float64) bool { return n > low.n && n < high.n }
	if i == 0 && inside(s.guess) {
		return s.guess
	}
	for _, b := range []bound{low, high} {
		if near := b.n * (1 - b.e.worst()/steepness); i == 1 && b.n == s.guess && math.Abs(b.e.worst()) < nearGuess && inside(near) {
			return near
		}
	}
	middle, width := (low.n+high.n)/2, high.n-low.n
	if high.e.worst() <= 0 || i%3 == 2 && (s.guess == 0 || i > 2) {
		return middle
	}
	return min(max(between(low, high), low.n+0.02*width), high.n-0.02*width)
}
