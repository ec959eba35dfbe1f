package massflow

import (
	"errors"
	"fmt"
	"math"

	"kettlefrost/internal/loads"
)

// Flow is a graph cooked at some scale.
type Flow struct {
	Steps      []StepFlow // in the graph's order
	Order      []int      // the steps such that each comes after those it draws on
	Bought     []float64  // kilograms of each ingredient used, stand-ins and make-up included
	Rounds     int        // passes until nothing changed
	ClosureRel float64    // |in - out - lost| / in over the whole graph
}

// StepFlow is one step of it.
type StepFlow struct {
	Scale     float64 // times the written amounts
	In        []InFlow
	InKg      float64
	VolumeL   float64 // in its vessels, all fillings together, when fullest
	Vessel    int     // index into Vessels, -1 for none
	Split     loads.Split
	Lost      Losses
	ReduceS   float64 // time that reducing takes, 0 when it does not reduce or has no surface
	Out       []OutFlow
	Shortages []Shortfall
	Mixture   Stream // all that went in, before losses
}

// InFlow is one use of a step.
type InFlow struct {
	Kg        float64 // all of it
	StandInKg float64 // of which the bought stand-in
}

// OutFlow is one output of a step.
type OutFlow struct {
	Kg     float64
	LeftKg float64 // that no later step takes: for packs, or surplus
	Stream Stream
}

// StepError says which step cannot be computed.
type StepError struct {
	Step int
	Err  error
}

func (e *StepError) Error() string { return fmt.Sprintf("step %d: %v", e.Step, e.Err) }
func (e *StepError) Unwrap() error { return e.Err }

// ErrDiverges means that each further filling loses more than it holds, so that no number of fillings is enough.
var ErrDiverges = errors.New("each further filling loses about as much as it holds: no number of fillings gives enough")

// ErrGivesNothing means that a step's losses take all of what is wanted from it, at any scale.
var ErrGivesNothing = errors.New("its losses take all of it, however much is cooked")

// most rounds a solution may take; it settles in a handful unless something is wrong.
const mostRounds = 200

// solver carries one graph through its rounds.
type solver struct {
	Graph
	order       []int
	written     []stepResult // at the written scale
	writtenMain []float64
	use         [][]float64 // kilograms of each use at the written scale

	byDemand bool // packs drive the scale of each step
	scale    []float64
	regimes  []regime
	results  []stepResult
	in       [][]InFlow
	left     [][]float64
	parts    [][]Stream // of each use: what it was made of in the last pass
	splits   []loads.Split
}

// Demand solves for the least scale of every step that leaves the wanted kilograms of each output over. By-products drive nothing.
func Demand(g Graph, want map[Ref]float64) (Flow, error) {
	s, err := newSolver(g)
	if err != nil {
		return Flow{}, err
	}
	for r, kg := range want {
		if r.Step < 0 || r.Step >= len(g.Steps) || r.Output < 0 || r.Output >= len(g.Steps[r.Step].Outputs) {
			return Flow{}, fmt.Errorf("wants an output that does not exist")
		}
		if !(kg >= 0) || math.IsInf(kg, 0) {
			return Flow{}, fmt.Errorf("wants %v kg of %s", kg, g.Steps[r.Step].Outputs[r.Output].Name)
		}
	}
	s.byDemand = true
	return s.settle(func() error { return s.backward(want) })
}

// Uniform cooks every step at the same scale.
func Uniform(g Graph, scale float64) (Flow, error) {
	s, err := newSolver(g)
	if err != nil {
		return Flow{}, err
	}
	if !(scale >= 0) || math.IsInf(scale, 0) {
		return Flow{}, fmt.Errorf("a scale of %v cannot be cooked", scale)
	}
	for i := range s.scale {
		s.scale[i] = scale
	}
	return s.settle(func() error { return nil })
}

func newSolver(g Graph) (*solver, error) {
	if err := g.Validate(); err != nil {
		return nil, err
	}
	order, err := g.order()
	if err != nil {
		return nil, err
	}
	n := len(g.Steps)
	s := &solver{Graph: g, order: order, scale: make([]float64, n), regimes: make([]regime, n), results: make([]stepResult, n),
		in: make([][]InFlow, n), left: make([][]float64, n), parts: make([][]Stream, n), use: make([][]float64, n)}
	for i := range s.scale {
		s.scale[i] = 1
	}
	return s, s.writeDown()
}

// writeDown cooks the graph as written, to learn what one "share" or "all" weighs at that scale.
func (s *solver) writeDown() error {
	for i := range s.regimes {
		s.regimes[i] = regime{vessel: -1, loads: 1}
		if len(s.Steps[i].Vessels) > 0 {
			s.regimes[i].vessel = 0
		}
		for _, u := range s.Steps[i].Uses {
			s.use[i] = append(s.use[i], u.Kg)
		}
	}
	if _, err := s.settle(func() error { return nil }); err != nil {
		return fmt.Errorf("at the written scale: %w", err)
	}
	s.written = append([]stepResult(nil), s.results...)
	s.writtenMain = make([]float64, len(s.Steps))
	for i := range s.Steps {
		for k, u := range s.Steps[i].Uses {
			if u.Share > 0 {
				s.use[i][k] = s.in[i][k].Kg
			}
		}
		s.writtenMain[i] = s.results[i].out[s.Steps[i].main()].Kg()
	}
	return nil
}

// settle repeats: scales, then a pass through the graph, then the fillings it needs, until none of them changes. Fillings only go up
// once they have been seen to go up and down, so that it ends.
func (s *solver) settle(rescale func() error) (Flow, error) {
	seen := map[string]bool{}
	onlyUp := false
	for round := 1; round <= mostRounds; round++ {
		before := append([]float64(nil), s.scale...)
		if round > 1 || s.written != nil {
			if err := s.passAndRescale(rescale, round); err != nil {
				return Flow{}, err
			}
		}
		if err := s.forward(); err != nil {
			return Flow{}, err
		}
		next, splits, err := s.choose(s.results)
		if err != nil {
			return Flow{}, s.explain(err)
		}
		if onlyUp {
			s.ratchet(next)
		}
		if same(next, s.regimes) && near(before, s.scale) && round > 1 {
			s.splits = splits
			return s.flow(round), nil
		}
		if key := fmt.Sprint(next); !same(next, s.regimes) {
			onlyUp = onlyUp || seen[key]
			seen[key] = true
		}
		s.regimes = next
	}
	return Flow{}, ErrDiverges
}

// passAndRescale makes sure that there are streams to learn compositions from before the first rescaling.
func (s *solver) passAndRescale(rescale func() error, round int) error {
	if round == 1 {
		if err := s.forward(); err != nil {
			return err
		}
	}
	return rescale()
}

// explain turns a failure to fit the food into fillings into divergence, when losses are what made it grow.
func (s *solver) explain(err error) error {
	var step *StepError
	if errors.As(err, &step) && s.written != nil && s.results[step.Step].inKg > 0 {
		lossKg := s.results[step.Step].lost.Evaporated + s.results[step.Step].lost.Residue
		if s.Steps[step.Step].ReduceTo == 0 && lossKg > 0.5*s.results[step.Step].inKg {
			return &StepError{Step: step.Step, Err: ErrDiverges}
		}
	}
	return err
}

func (s *solver) ratchet(next []regime) {
	for i := range next {
		if next[i].loads < s.regimes[i].loads {
			next[i] = s.regimes[i]
		}
	}
}

func same(a, b []regime) bool {
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

func near(a, b []float64) bool {
	for i := range a {
		if math.Abs(a[i]-b[i]) > 1e-12*max(math.Abs(a[i]), math.Abs(b[i])) {
			return false
		}
	}
	return true
}

// forward cooks every step at its scale with its fillings.
func (s *solver) forward() error {
	for i := range s.Steps {
		s.left[i] = make([]float64, len(s.Steps[i].Outputs))
	}
	for _, i := range s.order {
		rest, inflow, short := s.gather(i)
		step := s.Steps[i]
		if step.MakeUp >= 0 && s.written != nil {
			s.results[i] = s.runMadeUp(step, rest, s.regimes[i], s.scale[i]*s.writtenMain[i])
			inflow[step.MakeUp].Kg = s.results[i].makeUp
		} else {
			s.results[i] = s.run(step, rest, s.regimes[i])
		}
		s.results[i].short = append(s.results[i].short, short...)
		s.in[i] = inflow
		for o := range s.results[i].out {
			s.left[i][o] = s.results[i].out[o].Kg()
		}
		if kg := s.results[i].inKg; math.IsNaN(kg) || math.IsInf(kg, 0) {
			return &StepError{Step: i, Err: ErrDiverges}
		}
	}
	return nil
}
