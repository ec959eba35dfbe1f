package conduction

import "math"

// march takes bodies, and the pool around them if there is one, through time with steps that fit.
type march struct {
	fields    []*field
	pool      *bath // nil without
	timeS     float64
	stepS     float64 // wanted next
	longestS  float64 // steps
	scaleS    float64 // rough duration of it all
	tolerance float64
	newtonJKg float64
	steps     int
	landed    float64 // 1 after a step that ended on what was watched, else 0
}

func newMarch(s settings, fields []*field, scaleS float64) *march {
	return &march{fields: fields, scaleS: scaleS, stepS: scaleS / 500, tolerance: s.tolerance, newtonJKg: s.newton}
}

// limit sets the sizes that steps are measured by: the heat a kilogram has to give off, and how long it may take.
func (m *march) limit(heatJKg, withinS float64, steady bool) {
	m.newtonJKg *= max(heatJKg, 1)
	m.longestS = withinS
	if !steady {
		m.longestS = min(withinS, coursedStepS)
	}
}

// settings are what an Accuracy means.
type settings struct {
	perHalf   int     // cells from the middle to a face
	tolerance float64 // by which part of the time one step may be off as one step and two half ones show it; extrapolated it is several times better
	newton    float64 // where Newton's method ends, as a part of the enthalpy a kilogram gives off; what is left is its square
}

// settings are chosen on some 250 bodies, freezing, thawing, reheating and chilling at Biot numbers of 0.05 to 200: the worst is 0.8 and
// 0.07 % off. Bodies of several directions need fewer cells, since less of their heat goes along each.
// TestAccuracy holds them to it.
func (a Accuracy) settings(axes int) settings {
	if a == Fine {
		return settings{perHalf: [...]int{50, 28, 20}[axes-1], tolerance: 1.5e-4, newton: 1e-6}
	}
	return settings{perHalf: [...]int{12, 10, 8}[axes-1], tolerance: 2e-3, newton: 1e-4}
}

const (
	mostSteps    = 200_000
	smallestPart = 1e-12 // of the duration: a step below it is a stall
	mostGrowth   = 2
	leastShrink  = 0.2
	retryShrink  = 0.25
)

// trial computes the state a step further and leaves it in the coarse stage of fields and pool. It returns the error of the step over
// the tolerance; ok is false when Newton's method did not converge.
func (m *march) trial(stepS float64) (excess float64, ok bool, err error) {
	end, mid := m.timeS+stepS, m.timeS+stepS/2
	for _, part := range [...]struct {
		to, from     stage
		stepS, timeS float64
	}{{coarse, now, stepS, end}, {middle, now, stepS / 2, mid}, {fine, middle, stepS / 2, end}} {
		for _, f := range m.fields {
			f.guess(part.to, stepS)
		}
		ok, err := m.implicit(part.to, part.from, part.stepS, part.timeS)
		if err != nil || !ok {
			return 0, false, err
		}
	}
	for _, f := range m.fields {
		excess = max(excess, m.excess(f, stepS))
		f.extrapolate()
	}
	if m.pool != nil {
		excess = max(excess, m.pool.excess()/m.tolerance)
		m.pool.extrapolate()
		for _, f := range m.fields {
			if err := f.meet(end, m.pool.tempC(m.pool.e[coarse])); err != nil {
				return 0, false, err
			}
		}
	}
	for _, f := range m.fields {
		f.findCore(coarse, now)
	}
	return excess, !math.IsNaN(excess), nil
}

// excess is the error of a step as a shift in time, over what is allowed. How far off a state is divided by how fast it changes is how
// late or early it is; that may be a part of the time so far, at the start of a part of the whole.
func (m *march) excess(f *field, stepS float64) float64 {
	difference, change := f.spread()
	late := difference / (change + m.newtonJKg) * stepS
	return late / (m.timeS - f.enterS + stepS + 0.1*m.scaleS) / m.tolerance
}

// implicit solves one step of all fields, with the pool.
func (m *march) implicit(to, from stage, stepS, timeS float64) (bool, error) {
	if m.pool != nil {
		return m.pool.implicit(m, to, from, stepS, timeS)
	}
	for _, f := range m.fields {
		if err := f.meet(timeS, 0); err != nil {
			return false, err
		}
		if !f.relax(to, from, stepS, m.newtonJKg, false) {
			return false, nil
		}
	}
	return true, nil
}

// next takes a step that is within the tolerance, at most untilS, and that ends on the spot where the first of what is watched falls to
// zero. watch is how far the nearest is, of a stage.
func (m *march) next(untilS float64, watch func(stage) float64) error {
	for {
		if m.steps++; m.steps > mostSteps || m.stepS < smallestPart*max(m.scaleS, m.timeS) {
			return &StallError{TimeS: m.timeS, StepS: m.stepS, Steps: m.steps}
		}
		step := min(m.stepS, m.longestS)
		if left := untilS - m.timeS; step > 0.999*left {
			step = left
		} else if step > 0.5*left {
			step = left / 2
		}
		excess, ok, err := m.trial(step)
		if err != nil {
			return err
		}
		if !ok {
			m.stepS = step * retryShrink
			continue
		}
		factor := max(leastShrink, min(mostGrowth, 0.9/math.Sqrt(excess+1e-12)))
		if excess > 1 && step > 1e-9*m.scaleS {
			m.stepS = step * min(factor, 0.8)
			continue
		}
		m.stepS = step * factor
		m.landed = 0
		if watch(coarse) <= 0 {
			m.landed = 1
			if step, err = m.land(step, watch); err != nil {
				return err
			}
		}
		m.accept(step)
		return nil
	}
}

const (
	landTol     = 1e-7 // of the time: how exactly a step ends on a mark
	mostLanding = 60
)

// land finds the step that ends where watch falls to zero, by the Illinois method; every trial is a step of its own from the present
// state, so the landing is as good as any other step.
func (m *march) land(longS float64, watch func(stage) float64) (float64, error) {
	lowS, low := 0.0, watch(now)
	highS, high := longS, watch(coarse)
	stepS, at := longS, high
	side := 0
	for range mostLanding {
		if exact := landTol * (m.timeS + highS); highS-lowS <= exact || math.Abs(at)*(highS-lowS) <= exact*(low-high) {
			break
		}
		stepS = lowS + (highS-lowS)*low/(low-high)
		if !(stepS > lowS && stepS < highS) {
			stepS = (lowS + highS) / 2
		}
		_, ok, err := m.trial(stepS)
		if err != nil {
			return 0, err
		}
		if !ok {
			return 0, &StallError{TimeS: m.timeS, StepS: stepS, Steps: m.steps}
		}
		if at = watch(coarse); at > 0 {
			lowS, low = stepS, at
			if side == 1 {
				high /= 2
			}
			side = 1
		} else {
			highS, high = stepS, at
			if side == -1 {
				low /= 2
			}
			side = -1
		}
	}
	return stepS, nil
}

func (m *march) accept(stepS float64) {
	for _, f := range m.fields {
		f.accept(stepS)
	}
	if m.pool != nil {
		m.pool.accept(stepS)
	}
	m.timeS += stepS
}
