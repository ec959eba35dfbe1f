package conduction

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"kettlefrost/internal/heat"
)

// Simulate follows the pool and all batches in it until the core of every batch that came in on the wrong side of a.CoreC has passed
// it, at the latest for a.WithinS. The pool decides which side is wrong: a machine that cools, ice, or a cold start without a heater
// draw down, a burner draws up. A batch that starts beyond CoreC, such as stock that is already frozen, is followed to the end, with
// its warmest (coldest) point in its Points. The times of a batch, and those its own courses are asked for, count from when it comes
// in. One temperature for all of the pool: no warm corner, no layers. Errors: *heat.RangeError, *heat.AxesError.
func (p Pool) Simulate(batches []Batch, a Ask) (PoolResult, error) {
	if err := a.check(); err != nil {
		return PoolResult{}, err
	}
	if err := p.check(); err != nil {
		return PoolResult{}, err
	}
	steady := true
	for i := range batches {
		around, err := batches[i].check(a.WithinS)
		if err != nil {
			return PoolResult{}, err
		}
		steady = steady && around.steady
	}
	r, err := p.follow(batches, a, steady, true)
	if errors.Is(err, errUneven) {
		r, err = p.follow(batches, a, steady, false)
	}
	return r, err
}

func (p *Pool) check() error {
	for _, c := range []struct {
		what, unit   string
		v, low, high float64
	}{
		{"start temperature of the pool", "°C", p.StartC, lowestC, highestC},
		{"heat capacity of the pool", "J/K", p.HeatCapacityJK, 1, 1e10},
		{"ice", "kg", p.IceKg, 0, 1e5},
		{"set temperature", "°C", p.SetC, lowestC, highestC},
		{"power", "W", p.PowerW, 0, 1e7},
		{"loss", "W/K", p.LossWK, 0, 1e6},
		{"temperature around the pool", "°C", p.AmbientC, lowestC, highestC},
	} {
		if err := heat.InRange(c.what, c.unit, c.v, c.low, c.high); err != nil {
			return err
		}
	}
	return nil
}

func (b *Batch) check(withinS float64) (surroundings, error) {
	if err := b.Body.check(); err != nil {
		return surroundings{}, err
	}
	if err := heat.InRange("number of bodies", "", b.Count, 1e-3, 1e6); err != nil {
		return surroundings{}, err
	}
	if err := heat.InRange("time of coming in", "s", b.InS, 0, latestS); err != nil {
		return surroundings{}, err
	}
	return b.Body.look(withinS)
}

// cooling is which way the pool draws.
func (p *Pool) cooling(coreC float64) bool {
	switch {
	case p.PowerW > 0:
		return p.Cools
	case p.IceKg > 0:
		return true
	}
	return p.StartC < coreC
}

// entry is a batch on its way in, or in.
type entry struct {
	index int
	batch *Batch
	*record
}

func (p *Pool) follow(batches []Batch, a Ask, steady, halve bool) (PoolResult, error) {
	b := newBath(p)
	m := newMarch(a.Accuracy.settings(1), nil, 0)
	m.pool = b
	endC := p.StartC
	if p.PowerW > 0 {
		endC = p.SetC
	}
	entries := make([]*entry, len(batches))
	heatJKg := 0.0
	for i := range batches {
		body := &batches[i].Body
		entries[i] = &entry{index: i, batch: &batches[i]}
		m.scaleS = max(m.scaleS, roughS(body, endC, a.CoreC))
		heatJKg = max(heatJKg, math.Abs(body.Material.EnthalpyJKg(body.StartC)-body.Material.EnthalpyJKg(a.CoreC)))
	}
	if len(batches) == 0 {
		m.scaleS = a.WithinS
	}
	slices.SortStableFunc(entries, func(x, y *entry) int { return cmp.Compare(x.batch.InS, y.batch.InS) })
	m.stepS = m.scaleS / 500
	m.limit(heatJKg, a.WithinS, steady)

	r := PoolResult{Batches: make([]Result, len(batches))}
	r.Points = append(r.Points, b.point(0))
	in := 0
	for {
		for ; in < len(entries) && entries[in].batch.InS <= m.timeS; in++ {
			if err := m.enter(entries[in], &a, p.cooling(a.CoreC), halve); err != nil {
				return PoolResult{}, err
			}
		}
		if m.timeS >= a.WithinS || in == len(entries) && finished(entries) {
			break
		}
		until := a.WithinS
		if in < len(entries) {
			until = min(until, entries[in].batch.InS)
		}
		nearest := func(st stage) float64 {
			d := math.Inf(1)
			for _, e := range entries[:in] {
				d = min(d, e.distance(st))
			}
			return d
		}
		if err := m.next(until, nearest); err != nil {
			return PoolResult{}, err
		}
		slackC := max(0, nearest(now)) * m.landed
		for _, e := range entries[:in] {
			e.write(m.timeS, slackC)
		}
		r.Points = append(r.Points, b.point(m.timeS))
	}
	for i, e := range entries {
		if i < in && !e.done {
			e.close(m.timeS - e.field.enterS)
		}
		if i < in {
			r.Batches[e.index] = e.result
		} else {
			r.Batches[e.index].Passed = unreached(a.MarksC)
		}
	}
	r.Closure = b.closure(m.fields)
	return r, nil
}

// finished says that nothing is on the wrong side any more. Where nothing ever was, it is followed to the end.
func finished(entries []*entry) bool {
	any := false
	for _, e := range entries {
		if !e.follow && !e.done {
			return false
		}
		any = any || !e.follow
	}
	return any
}

func unreached(marksC []float64) []Passing {
	passed := make([]Passing, len(marksC))
	for i, c := range marksC {
		passed[i].TempC = c
	}
	return passed
}

// enter puts a batch into the pool.
func (m *march) enter(e *entry, a *Ask, cooling, halve bool) error {
	f := newField(&e.batch.Body, a.Accuracy.settings(len(e.batch.Body.Axes)).perHalf, halve, cooling)
	f.enterS = m.timeS
	poolC := m.pool.tempC(m.pool.e[now])
	if err := f.meet(m.timeS, poolC); err != nil {
		return err
	}
	m.fields = append(m.fields, f)
	m.pool.count[f] = e.batch.Count
	m.stepS = min(m.stepS, m.scaleS/500)
	e.record = newRecord(f, a, f.along[0].highC)
	return nil
}

func (b *bath) point(timeS float64) PoolPoint {
	e := b.e[now]
	t := b.tempC(e)
	power, _ := b.powerW(t)
	return PoolPoint{timeS, t, power, b.iceKg(e)}
}

// closure compares what pool and bodies stored with what machine, walls and other media brought.
func (b *bath) closure(fields []*field) float64 {
	rest := b.e[now] - b.gainedJ
	sizes := []float64{b.e[now], b.gainedJ}
	for _, f := range fields {
		n := b.count[f]
		stored := n * f.massKg * (f.meanJKg(now) - f.startH)
		away := n * (f.givenJ - f.poolJ)
		rest += stored + away
		sizes = append(sizes, stored, away, n*f.massKg*nothingJKg)
	}
	return misfit(rest, sizes...)
}
