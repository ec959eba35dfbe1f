package plan

import (
	"fmt"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/timetable"
	"kettlefrost/internal/unit"
)

// mostClash is how many of the tasks that clash are named.
const mostClash = 10

func (p *planner) noTimetable(problem timetable.Problem, r timetable.Result, err error) {
	f := finding.Finding{Code: CodeNoTimetable, Severity: finding.Stop, Where: "the day", Fix: "cook less at once, allow longer gaps (within), or add equipment or people"}
	p.out.Timetable.Status = r.Status.String()
	switch {
	case err != nil:
		f.Message = "no timetable: " + err.Error()
	case r.Status == timetable.Infeasible:
		for k, t := range r.Core.Tasks {
			if k == mostClash {
				p.out.Timetable.Clash = append(p.out.Timetable.Clash, fmt.Sprintf("and %d more", len(r.Core.Tasks)-k))
				break
			}
			p.out.Timetable.Clash = append(p.out.Timetable.Clash, problem.Tasks[t].Name)
		}
		f.Message = "it cannot be done even with nobody going home: " + clash(problem, r.Core)
		if len(p.out.Timetable.Clash) > 0 {
			f.Message += ": " + strings.Join(p.out.Timetable.Clash, "; ")
		}
	default:
		f.Message = "no timetable was found, though none is ruled out"
	}
	p.out.Timetable.Remedies, f.Fix = p.wanting, p.fixOf(f.Fix)
	p.find(f)
}

// clash is what stands in the way of the tasks of a core, in words.
func clash(problem timetable.Problem, c timetable.Core) string {
	switch c.Kind {
	case timetable.LagCycle:
		return "the gaps between these contradict each other"
	case timetable.ChainTooLate:
		return fmt.Sprintf("these must follow each other, and that leaves no time for “%s”", problem.Tasks[c.Tasks[c.Late]].Name)
	case timetable.NoRoom:
		return fmt.Sprintf("%s: never enough of it for this between %s and %s", problem.Resources[c.Resource].Name, unit.Moment(c.From), unit.Moment(c.To))
	case timetable.ResourceFull:
		return fmt.Sprintf("%s: these need more of it than there is between %s and %s", problem.Resources[c.Resource].Name, unit.Moment(c.From), unit.Moment(c.To))
	default:
		return "no order of these works"
	}
}

// boundWhy is the argument for the bound, in words.
func (p *planner) boundWhy(problem timetable.Problem, r timetable.Result) string {
	why := r.BoundWhy
	switch why.Kind {
	case timetable.LongestChain:
		if len(why.Tasks) == 0 {
			return "a chain of tasks that must follow each other"
		}
		return fmt.Sprintf("the chain from “%s” to “%s” cannot be shorter", problem.Tasks[why.Tasks[0]].Name, problem.Tasks[why.Tasks[len(why.Tasks)-1]].Name)
	case timetable.BusyResource:
		return fmt.Sprintf("%s: busy from %s to %s at the least", problem.Resources[why.Resource].Name, unit.Moment(why.From), unit.Moment(why.To))
	case timetable.SearchBound:
		return "every earlier end was searched"
	default:
		return "no useful bound"
	}
}

// judgeDay finds a day that is too long and hot food that waits.
func (p *planner) judgeDay(crew []member, r timetable.Result) {
	p.out.Timetable.Remedies = p.wanting
	if until := p.deadline(); r.End > until {
		p.find(finding.Finding{Code: CodeDayTooLong, Severity: finding.Stop, Where: "the day",
			Message: fmt.Sprintf("the last task found ends at %s, with everybody staying on: %s after the day should be over", unit.Moment(r.End), (unit.Span(r.End-until) * unit.Minute).Show(unit.Metric)),
			Figures: []finding.Figure{{Name: "ends", Value: float64(r.End), Unit: "min", Text: unit.Moment(r.End).String()}, {Name: "should end", Value: float64(until), Unit: "min", Text: unit.Moment(until).String()},
				{Name: "cannot end before", Value: float64(r.Bound), Unit: "min", Text: unit.Moment(r.Bound).String()}},
			Fix: p.fixOf("ask for fewer packs, start earlier, or move a dish to another day")})
	}
	p.judgeLimits()
	for _, d := range p.dishes {
		for step := range d.dish.Steps {
			p.judgeWaiting(d, step, r.Start)
		}
	}
}
