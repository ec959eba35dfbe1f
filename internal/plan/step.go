package plan

import (
	"fmt"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/massflow"
	"kettlefrost/internal/unit"
)

// showStep tells one step of a flow in the book's words. Times and starts are filled in with the timetable.
func (p *planner) showStep(d *cooked, i int) Step {
	s, f := d.dish.Steps[i], d.flow.Steps[i]
	n := max(1, f.Split.N)
	show := Step{ID: s.ID, Do: s.Do, How: s.How, Scale: f.Scale, HeatTo: s.HeatTo, In: []Line{}, Out: []Line{}, Losses: []Loss{}, Starts: []unit.Moment{},
		Loads: Loads{Count: f.Split.N, Mass: mass(f.Split.EachKg), Volume: unit.VolumeL(f.Split.EachL), Limit: f.Split.Binding.String(), Full: unit.ShareOf(f.Split.Full)}}
	if v := d.vesselOf(i); v != "" {
		show.Equipment = p.book.Equipment[v].Name
	}
	for k, u := range s.Use {
		show.In = append(show.In, p.inLine(d, u, f.In[k], k == d.graph.Steps[i].MakeUp, n))
	}
	for o, out := range s.Outputs() {
		show.Out = append(show.Out, p.outLine(d, out.ID, f.Out[o].Kg))
	}
	for _, l := range []struct {
		cause string
		kg    float64
	}{{"evaporation", f.Lost.Evaporated}, {"cooking water", f.Lost.CookWater}, {"rendered fat", f.Lost.CookFat}, {"drained", f.Lost.Drained}, {"residue", f.Lost.Residue}} {
		if l.kg > traceKg {
			show.Losses = append(show.Losses, Loss{Cause: l.cause, Mass: mass(l.kg)})
		}
	}
	return show
}

// vesselOf is the equipment that step i is done in; empty for none.
func (d *cooked) vesselOf(i int) kitchen.EquipmentID {
	if v := d.flow.Steps[i].Vessel; v >= 0 && v < len(d.vessels[i]) {
		return d.vessels[i][v]
	}
	return ""
}

func (p *planner) inLine(d *cooked, u kitchen.Use, in massflow.InFlow, makeUp bool, loads int) Line {
	if u.Of == "" {
		line := p.outLine(d, u.From, in.Kg)
		line.Kind, line.Each = Earlier, mass(in.Kg/float64(loads))
		if in.StandInKg > traceKg {
			line.StandIn, line.Short = p.book.Ingredients[u.Or].Name, mass(in.StandInKg)
		}
		return line
	}
	ing := p.book.Ingredients[u.Of]
	line := Line{ID: string(u.Of), Name: ing.Name, Mass: mass(in.Kg), Each: mass(in.Kg / float64(loads)), Kind: Fresh}
	if makeUp {
		line.Kind = MadeUp
	}
	if u.Amount.Kind == unit.AmountVolume && ing.Density > 0 {
		line.Volume = unit.VolumeL(in.Kg / float64(ing.Density))
	}
	return line
}

// judgeFlow finds what is wrong or worth knowing in a solved flow.
func (p *planner) judgeFlow(d *cooked) {
	if d.flow.ClosureRel > 1e-9 {
		p.find(finding.Finding{Code: CodeMassOpen, Severity: finding.Stop, Where: d.where, Message: "the computed masses do not add up",
			Figures: []finding.Figure{{Name: "difference", Value: d.flow.ClosureRel, Unit: "of what went in", Text: fmt.Sprintf("%.2g", d.flow.ClosureRel)}},
			Fix:     "do not use this plan; report the dish"})
	}
	for i, f := range d.flow.Steps {
		for _, s := range f.Shortages {
			p.find(p.shortage(d, i, s))
		}
	}
	for i := range d.ingredients {
		if kg := d.standIns(i); kg > traceKg {
			p.find(finding.Finding{Code: CodeStandIn, Severity: finding.Note, Where: d.where,
				Message: fmt.Sprintf("a by-product falls short: %s of %s stands in", mass(kg).Show(p.out.Units), p.book.Ingredients[d.ingredients[i]].Name),
				Figures: []finding.Figure{p.massFigure("stands in", kg)}})
		}
	}
}

func (p *planner) shortage(d *cooked, i int, s massflow.Shortfall) finding.Finding {
	step := d.dish.Steps[i]
	f := finding.Finding{Code: CodeDriesOut, Severity: finding.Stop, Where: d.where + ", step " + step.ID, Path: fmt.Sprintf("dishes.%s.steps[%d]", d.id, i),
		Figures: []finding.Figure{p.massFigure("wanted", s.WantKg), p.massFigure("there", s.HaveKg)}}
	switch s.Cause {
	case massflow.DriedOut:
		f.Message, f.Fix = "more water would evaporate than there is: it burns", "shorten the time, put the lid on, or use a narrower vessel"
	case massflow.NoFatLeft:
		f.Message, f.Fix = "more fat is to come out than there is in it", "lower the share of fat, or check the composition"
	case massflow.NoWaterLeft:
		f.Message, f.Fix = "more water is to run off than there is in it", "lower the share of water or the drain, or check the composition"
	case massflow.NothingLeft:
		f.Message, f.Fix = "what sticks to the vessel is all there is", "cook more at once, or check the residue"
	case massflow.InputShort:
		f.Code = CodeInputShort
		f.Message = fmt.Sprintf("there is not enough %s for it and nothing may stand in", step.Use[s.Use].From)
		f.Fix = "name what may be bought instead (or), or make more of what gives it"
	case massflow.MakeUpClamped:
		f.Code, f.Severity = CodeTooThin, finding.Caution
		f.Message = fmt.Sprintf("even without any %s it is thinner than written, because a large vessel evaporates less", step.MakeUp)
		f.Fix = "simmer longer, or start with less liquid in an earlier step"
	}
	return f
}

// surplus finds what nothing takes.
func (p *planner) surplus(d *cooked, line Line) {
	f := finding.Finding{Code: CodeSurplus, Severity: finding.Note, Where: d.where,
		Message: fmt.Sprintf("%s of %s is left over", line.Mass.Show(p.out.Units), line.Name),
		Figures: []finding.Figure{p.massFigure("left over", line.Mass.Kg())}, Fix: "keep it for another dish, or pack it"}
	p.find(f)
}

func (p *planner) massFigure(name string, kg float64) finding.Figure {
	return finding.Figure{Name: name, Value: kg, Unit: "kg", Text: mass(kg).Show(p.out.Units)}
}
