package plan

import (
	"fmt"
	"math"
	"slices"

	"kettlefrost/internal/coolrule"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/unit"
)

func whyTooSlow(v coolrule.Verdict) string {
	for _, s := range v.Stages {
		if s.Outcome != coolrule.WithinRule && !s.Stage.Advisory {
			if s.Never {
				return s.Stage.Name + ": never reached"
			}
			return fmt.Sprintf("%s takes %s, %s allowed", s.Stage.Name, minutes(s.TookS).Show(unit.Metric), minutes(s.Stage.WithinS).Show(unit.Metric))
		}
	}
	return ""
}

func whyWithin(v coolrule.Verdict) string {
	spare := math.Inf(1)
	name := ""
	for _, s := range v.Stages {
		if s.MarginS/s.Stage.WithinS < spare {
			spare, name = s.MarginS/s.Stage.WithinS, s.Stage.Name
		}
	}
	return fmt.Sprintf("%.0f %% of the time for %s to spare", 100*spare, name)
}

func (p *planner) judgeChill(d *cooked, c Chill, ways []way) {
	f := finding.Finding{Severity: finding.Stop, Where: d.where + ", " + c.Name, Source: c.Source}
	switch {
	case len(ways) == 0:
		f.Code, f.Message, f.Fix = CodeChillUnknown, "the book has no way to chill it", "write the kitchen's ways of chilling into the book"
	case c.Chosen < 0:
		w, option := nearest(ways), c.Options[0]
		for i := range ways {
			if ways[i] == w {
				option = c.Options[i]
			}
		}
		f.Code, f.Message = CodeChillSlow, fmt.Sprintf("no way of chilling meets the limits; the nearest is %s: %s, %s", option.Name, w.verdict, w.why)
		if w.verdict == noRoom {
			f.Code = CodeChillNoRoom
		}
		f.Figures = limitFigures(w)
		f.Fix = "split it over more and shallower pans, stir it in an ice bath, or cook less at once; ask your local authority what it accepts"
	case !ways[c.Chosen].roomy():
		w := ways[c.Chosen]
		f.Code, f.Severity, f.Message = CodeChillTight, finding.Caution, fmt.Sprintf("%s meets the limits with little to spare: %s", c.Options[c.Chosen].Name, w.why)
		f.Figures, f.Fix = limitFigures(w), "fill shallower, stir more, take more ice; and log the temperatures"
	default:
		return
	}
	p.find(f)
}

// nearest is the way that comes nearest to the limits.
func nearest(ways []way) way {
	score := func(w way) float64 {
		if !w.reached41 || w.verdict == unknown {
			return math.Inf(1)
		}
		return max(w.to70S/2, w.to41S/6)
	}
	return slices.MinFunc(ways, func(a, b way) int {
		switch x, y := score(a), score(b); {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return 0
	})
}

func limitFigures(w way) []finding.Figure {
	var figures []finding.Figure
	if w.reached70 {
		figures = append(figures, timeFigure("135 to 70 °F (limit 2 h)", w.to70S))
	}
	if w.reached41 {
		figures = append(figures, timeFigure("135 to 41 °F (limit 6 h)", w.to41S))
	}
	return figures
}

func timeFigure(name string, s float64) finding.Figure {
	return finding.Figure{Name: name, Value: s / 3600, Unit: "h", Text: minutes(s).Show(unit.Metric)}
}
