package plan

import (
	"errors"
	"fmt"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/massflow"
)

// cook compiles and solves every dish that the request names.
func (p *planner) cook() {
	for _, id := range p.req.Dishes(p.book) {
		d, err := p.compile(id)
		if err == nil {
			p.aimFills(d)
			err = p.solve(d)
		}
		if err != nil {
			p.notPlanned(d, err)
			continue
		}
		d.solved = true
		p.dishes = append(p.dishes, d)
		p.judgeFlow(d)
	}
}

func (p *planner) notPlanned(d *cooked, err error) {
	f := finding.Finding{Code: CodeNotPlanned, Severity: finding.Stop, Where: d.where, Path: "dishes." + string(d.id),
		Message: "cannot be planned: " + p.named(d, err), Fix: "mend the dish or the request as it says"}
	switch {
	case errors.Is(err, massflow.ErrDiverges), errors.Is(err, massflow.ErrGivesNothing), errors.Is(err, errUnreachable):
		f.Code, f.Message = CodeUnreachable, "the target cannot be reached: "+p.named(d, err)
		f.Fix = "ask for less, or give the step a larger vessel, a shorter time or a lid"
	case errors.Is(err, errMixedTargets):
		f.Code, f.Message, f.Fix = CodeMixedTargets, err.Error(), "ask for packs of it, or for one other measure, in one run"
	}
	p.find(f)
}

// named puts the step's name where the computing package has its number.
func (p *planner) named(d *cooked, err error) string {
	var step *massflow.StepError
	if errors.As(err, &step) {
		return fmt.Sprintf("step %s: %v", d.dish.Steps[step.Step].ID, step.Err)
	}
	return err.Error()
}

var (
	errUnreachable  = errors.New("no scale gives it")
	errMixedTargets = errors.New("a dish is wanted both by packs and by another measure, or by two other measures")
)

// output is the noun behind an output's name; the zero Output when no step gives it.
func (p *planner) output(d *cooked, id kitchen.OutputID) kitchen.Output {
	ref, ok := d.outputs[id]
	if !ok {
		return kitchen.Output{}
	}
	return d.dish.Steps[ref.Step].Outputs()[ref.Output]
}
