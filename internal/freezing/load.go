package freezing

import (
	"kettlefrost/internal/conduction"
)

// Batch is a number of equal packs that are put into a freezer together.
type Batch struct {
	Pack    Pack
	Placing Placing // left out: that of the freezer
	Count   int     // 1 to 20000
	InS     float64 // when; 0 to 1e7
}

const (
	mostPacks   = 20_000
	latestInS   = 1e7
	longestLoad = 60 * daySeconds
)

// Ask is what is wanted of a load.
type Ask struct {
	CoreC    float64             // where a pack counts as frozen: 1 K above the freezer's air, or warmer
	WithinS  float64             // followed so long after the last batch went in; 0 is a day, at most 60
	Side     Side                // of the surface coefficient
	Accuracy conduction.Accuracy // of the simulation
}

// Frozen is one batch of a load.
type Frozen struct {
	Reached   bool
	TimeS     float64            // from going in until the core is there; if it is not, how long it was followed
	WarmestC  float64            // warmest point when the following ended
	RewarmedC float64            // warmest point after it had frozen, which later batches bring about; the core asked for if it never rose above
	Points    []conduction.Point // from going in
}

// Loaded is what happens in a freezer.
type Loaded struct {
	Batches    []Frozen
	Air        []conduction.PoolPoint
	AirPeakC   float64
	AirPeakS   float64
	Stock      []conduction.Point // CoreC is its warmest point; empty without stock
	StockPeakC float64            // that of its start if it never rises
	StockPeakS float64
	HeatJ      float64 // taken from the fresh packs
	StockHeatJ float64 // taken from the old stock: negative when it helped to freeze them
	FullPowerS float64 // how long the machine could do no more: the air was 0.3 K or more above what it is set to
	EndS       float64 // how long it was followed
	Closure    float64 // how well the energy balance closes
}

// Load simulates batches of fresh packs in one cabinet whose air warms as far as the machine lets it, among the old stock. Batches may come
// in at different times. Room is not looked at.
// Errors: *heat.RangeError; *TooColdError where the core asked for is less than 1 K above the air.
func (f Freezer) Load(in []Batch, ask Ask) (Loaded, error) {
	f, err := f.whole()
	if err != nil {
		return Loaded{}, err
	}
	if ask, err = f.checkLoad(in, ask); err != nil {
		return Loaded{}, err
	}
	counts := make([]float64, len(in))
	for i, b := range in {
		counts[i] = float64(b.Count)
	}
	return f.simulate(in, counts, ask)
}

// simulate is Load of checked values, of counts that need not be whole.
func (f Freezer) simulate(in []Batch, counts []float64, ask Ask) (Loaded, error) {
	pooled, lastS, err := f.batches(in, counts, ask.Side)
	if err != nil {
		return Loaded{}, err
	}
	times := enlarge(pooled)
	powerW := min(f.CoolingW*times, f.mostW(pooled))
	pool := conduction.Pool{StartC: f.SetC, HeatCapacityJK: f.HeatCapacityJK * times, SetC: f.SetC, PowerW: powerW, Cools: true, AmbientC: f.SetC}
	r, err := pool.Simulate(pooled, conduction.Ask{CoreC: endlessC, MarksC: []float64{ask.CoreC}, WithinS: lastS + ask.WithinS, Accuracy: ask.Accuracy})
	if err != nil {
		return Loaded{}, err
	}
	for i := range r.Points {
		r.Points[i].PowerW /= times
	}
	for i := range pooled {
		pooled[i].Count /= times
	}
	return f.read(r, pooled, len(in), ask.CoreC), nil
}

// mostW is twice what all bodies could give off at once. More power changes nothing in the air; that it is no more keeps the thermostat from
// hunting.
func (f Freezer) mostW(pooled []conduction.Batch) float64 {
	sum := 1.0
	for _, b := range pooled {
		first := b.Body.Axes[0]
		sum += 2 * b.Count * (first.Low.FilmWM2K + first.High.FilmWM2K) * max(0, b.Body.StartC-f.SetC)
	}
	return sum
}

// smallestCount is about the fewest bodies of a batch that a pool takes.
const smallestCount = 2e-3

// enlarge makes so many equal freezers of one that no batch is too small for a pool, and says how many: they all run the same course.
func enlarge(pooled []conduction.Batch) float64 {
	times := 1.0
	for _, b := range pooled {
		times = max(times, smallestCount/b.Count)
	}
	for i := range pooled {
		pooled[i].Count *= times
	}
	return times
}

// endlessC is a core that no freezer brings about: everything is followed to the end, and the core of what is in the pool is its warmest
// point, that of the old stock too. When a pack froze is a mark on the way.
const endlessC = -61

func (f Freezer) checkLoad(in []Batch, ask Ask) (Ask, error) {
	if ask.WithinS == 0 {
		ask.WithinS = daySeconds
	}
	err := checkAll(
		limit{"core temperature", "°C", ask.CoreC, -60, 0},
		limit{"time to follow", "s", ask.WithinS, 60, longestLoad},
		limit{"accuracy", "", float64(ask.Accuracy), float64(conduction.Engineering), float64(conduction.Fine)},
	)
	if err != nil {
		return ask, err
	}
	if err := ask.Side.check(); err != nil {
		return ask, err
	}
	for _, b := range in {
		if err := b.check(f, ask.CoreC); err != nil {
			return ask, err
		}
	}
	return ask, checkCore(f.SetC, ask.CoreC, f.SetC)
}

func (b Batch) check(f Freezer, coreC float64) error {
	if err := b.Pack.check(); err != nil {
		return err
	}
	if err := b.placing(f).check(b.Pack); err != nil {
		return err
	}
	err := checkAll(
		limit{"way of lying in a load", "", float64(b.placing(f).Lie), float64(Apart), float64(Stacked)},
		limit{"number of packs", "", float64(b.Count), 1, mostPacks},
		limit{"time of going in", "s", b.InS, 0, latestInS},
		limit{"core temperature", "°C", coreC, -60, b.Pack.Food.FreezingPointC},
	)
	if err != nil {
		return err
	}
	return checkCore(b.Pack.StartC, coreC, f.SetC)
}

func (b Batch) placing(f Freezer) Placing {
	if b.Placing.Lie == 0 {
		return f.Placing
	}
	return b.Placing
}

// batches are those of a pool, the old stock last if there is any.
func (f Freezer) batches(in []Batch, counts []float64, side Side) (out []conduction.Batch, lastS float64, err error) {
	for i, b := range in {
		m, err := conduction.Food(b.Pack.Food)
		if err != nil {
			return nil, 0, err
		}
		at := b.placing(f)
		out = append(out, conduction.Batch{Body: at.body(b.Pack, m, f.Film, side, nil), Count: at.bodies(b.Pack, counts[i]), InS: b.InS})
		lastS = max(lastS, b.InS)
	}
	if f.Stock.MassKg > 0 {
		stock, err := f.Stock.batch(side.of(f.Film))
		if err != nil {
			return nil, 0, err
		}
		out = append(out, stock)
	}
	return out, lastS, nil
}

// read turns the pool's result into that of a freezer; the first n batches are fresh packs.
func (f Freezer) read(r conduction.PoolResult, pooled []conduction.Batch, n int, coreC float64) Loaded {
	out := Loaded{Air: r.Points, AirPeakC: f.SetC, StockPeakC: f.Stock.TempC, Closure: r.Closure}
	for i, b := range r.Batches {
		heatJ := b.GivenOffJ * pooled[i].Count
		if i >= n {
			out.StockHeatJ += heatJ
			out.Stock = b.Points
			continue
		}
		out.HeatJ += heatJ
		out.Batches = append(out.Batches, readBatch(b, coreC))
	}
	for i, p := range r.Points {
		if p.TempC > out.AirPeakC {
			out.AirPeakC, out.AirPeakS = p.TempC, p.TimeS
		}
		if i > 0 && p.TempC > f.SetC+overloadK {
			out.FullPowerS += p.TimeS - r.Points[i-1].TimeS
		}
		out.EndS = max(out.EndS, p.TimeS)
	}
	for _, p := range out.Stock {
		if p.CoreC > out.StockPeakC {
			out.StockPeakC, out.StockPeakS = p.CoreC, p.TimeS
		}
	}
	return out
}

// overloadK is how much above its set temperature the air must be for the machine to count as doing all it can: more than a thermostat
// swings.
const overloadK = 0.3

func readBatch(b conduction.Result, coreC float64) Frozen {
	out := Frozen{TimeS: b.TimeS, RewarmedC: coreC, Points: b.Points}
	if len(b.Points) > 0 {
		out.WarmestC = b.Points[len(b.Points)-1].CoreC
	}
	if len(b.Passed) == 0 || !b.Passed[0].Reached {
		return out
	}
	out.Reached, out.TimeS = true, b.Passed[0].TimeS
	for _, p := range b.Points {
		if p.TimeS > out.TimeS {
			out.RewarmedC = max(out.RewarmedC, p.CoreC)
		}
	}
	return out
}

// AllFrozen says that every batch is frozen, each within so long of going in.
func (l Loaded) AllFrozen(withinS float64) bool {
	for _, b := range l.Batches {
		if !b.Reached || b.TimeS > withinS {
			return false
		}
	}
	return true
}
