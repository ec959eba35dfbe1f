package conduction

import (
	"math"

	"kettlefrost/internal/heat"
)

// record follows the core of one field and writes its Result.
type record struct {
	field   *field
	ask     *Ask
	waiting []target // marks and the end, the next first
	result  Result
	done    bool // the core has passed Ask.CoreC
	follow  bool // started beyond it: has no end of its own
}

type target struct {
	tempC float64
	mark  int // index in MarksC, -1 is the end
}

// newRecord begins at the start.
func newRecord(f *field, ask *Ask, mediumC float64) *record {
	r := &record{field: f, ask: ask}
	r.result.Passed = make([]Passing, len(ask.MarksC))
	beyond := func(tempC float64) bool { return f.cooling && tempC > f.startC || !f.cooling && tempC < f.startC }
	r.follow = beyond(ask.CoreC)
	for i, c := range ask.MarksC {
		r.result.Passed[i] = Passing{TempC: c}
		if !beyond(c) {
			r.insert(target{c, i})
		}
	}
	if !r.follow {
		r.insert(target{ask.CoreC, -1})
	}
	r.result.Points = append(make([]Point, 0, 128), Point{0, f.startC, f.startC, f.startC, mediumC})
	p := f.profile(0)
	for i := range p.Places {
		p.Places[i].TempC = f.startC
	}
	r.result.Profiles = append(r.result.Profiles, p)
	r.result.Cells = len(f.h[now])
	r.pass(0, 0)
	return r
}

// thereK is how near to a target is there: less than any step could land on, and than any thermometer reads.
const thereK = 1e-7

// insert keeps the targets in the order in which the core meets them.
func (r *record) insert(t target) {
	i := 0
	for i < len(r.waiting) && !r.before(t, r.waiting[i]) {
		i++
	}
	r.waiting = append(r.waiting, target{})
	copy(r.waiting[i+1:], r.waiting[i:])
	r.waiting[i] = t
}

// before: marks at the temperature of the end come first, since it ends there.
func (r *record) before(a, b target) bool {
	if a.tempC == b.tempC {
		return b.mark < 0
	}
	return (a.tempC > b.tempC) == r.field.cooling
}

// distance is how far the core is from the next target, zero or less when it has passed it.
func (r *record) distance(s stage) float64 {
	if r.done || len(r.waiting) == 0 {
		return math.Inf(1)
	}
	return r.gap(s, r.waiting[0])
}

func (r *record) gap(s stage, t target) float64 {
	if r.field.cooling {
		return r.field.core[s] - t.tempC
	}
	return t.tempC - r.field.core[s]
}

// write notes an accepted step. slack is how far the march may have stopped short of what it landed on.
func (r *record) write(timeS, slackC float64) {
	if r.done {
		return
	}
	f := r.field
	since := timeS - f.enterS
	d := &f.along[0]
	_, end := f.coreLine()
	mean, _, _ := f.m.At(f.meanJKg(now))
	r.result.Points = append(r.result.Points, Point{since, f.core[now], f.surface(0, end, true).surfaceC, mean, d.highC})
	r.result.Steps++
	r.pass(since, slackC)
}

// pass ticks off the targets that the core has reached.
func (r *record) pass(since, slackC float64) {
	profiled := since == 0
	for len(r.waiting) > 0 && r.gap(now, r.waiting[0]) <= max(slackC, thereK) {
		t := r.waiting[0]
		r.waiting = r.waiting[1:]
		if !profiled {
			r.result.Profiles = append(r.result.Profiles, r.field.profile(since))
			profiled = true
		}
		if t.mark < 0 {
			r.result.Reached = true
			r.close(since)
			return
		}
		r.result.Passed[t.mark].Reached, r.result.Passed[t.mark].TimeS = true, since
	}
}

// close ends the record, reached or given up.
func (r *record) close(since float64) {
	f := r.field
	r.done = true
	r.result.TimeS = since
	r.result.GivenOffJ = f.givenJ
	stored := f.massKg * (f.meanJKg(now) - f.startH)
	r.result.Closure = misfit(stored+f.givenJ, stored, f.givenJ, f.massKg*nothingJKg)
	for i := range r.result.Passed {
		if !r.result.Passed[i].Reached {
			r.result.Passed[i].TimeS = since
		}
	}
	if !r.result.Reached && since > 0 {
		r.result.Profiles = append(r.result.Profiles, f.profile(since))
	}
}

// nothingJKg is heat that counts as none, a third of a millikelvin: a balance is not measured against less.
const nothingJKg = 1

func misfit(rest float64, sizes ...float64) float64 {
	largest := 0.0
	for _, s := range sizes {
		largest = max(largest, math.Abs(s))
	}
	if largest == 0 {
		return 0
	}
	return math.Abs(rest) / largest
}

// roughS is about how long a body takes: its heat over what film and half its thickness let through. It only sets the scale of steps.
func roughS(b *Body, mediumC, coreC float64) float64 {
	var wattsPerVolume float64
	coreC = min(max(coreC, min(b.StartC, mediumC)), max(b.StartC, mediumC))
	_, k := b.Material.Potential(min(b.StartC, coreC))
	for i := range b.Axes {
		a := &b.Axes[i]
		faces, film := 2.0, a.High.FilmWM2K
		if a.Shape == heat.Slab {
			film = (a.Low.FilmWM2K + a.High.FilmWM2K) / 2
		}
		if film > 0 {
			wattsPerVolume += float64(a.Shape) * faces / a.SizeM / (1/film + a.SizeM/(4*k))
		}
	}
	heatJKg := math.Abs(b.Material.EnthalpyJKg(b.StartC) - b.Material.EnthalpyJKg(coreC))
	drive := max(1, math.Abs((b.StartC+coreC)/2-mediumC))
	return max(1e-3, heatJKg*b.Material.DensityKgM3()/(wattsPerVolume*drive))
}
