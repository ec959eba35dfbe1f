package plan

import (
	"fmt"
	"math"

	"kettlefrost/internal/cooling"
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
	return fmt.Sprintf("at worst %.0f %% of the time for %s to spare", 100*spare, name)
}

func (p *planner) judgeChill(d *cooked, c Chill, options []cooling.Option, err error) {
	f := finding.Finding{Severity: finding.Stop, Where: d.where + ", " + c.Name, Source: c.Source}
	switch {
	case err != nil:
		f.Code, f.Message, f.Fix = CodeChillUnknown, "its cooling cannot be computed: "+err.Error(), "give its ingredients a composition"
	case len(options) == 0:
		f.Code, f.Message, f.Fix = CodeChillUnknown, "the book has no way to chill it", "write the kitchen's ways of chilling into the book"
	case c.Chosen < 0:
		i := nearest(options)
		o, option := options[i], c.Options[i]
		f.Code, f.Message = CodeChillSlow, fmt.Sprintf("no way of chilling meets the limits; the nearest is %s: %s, %s", option.Name, option.Verdict, option.Why)
		if o.Verdict == cooling.NotEnough {
			f.Code = CodeChillNoRoom
		}
		f.Figures = limitFigures(o)
		f.Fix = "split it over more and shallower pans, stir it in an ice bath, or cook less at once; ask your local authority what it accepts"
		if len(option.Fits) > 0 {
			f.Fix = option.Fits[0] + "; ask your local authority what it accepts"
		}
	case options[c.Chosen].Verdict == cooling.Within:
		o := options[c.Chosen]
		f.Code, f.Severity, f.Message = CodeChillTight, finding.Caution, fmt.Sprintf("%s meets the limits as usual, but without a margin: %s", c.Options[c.Chosen].Name, c.Options[c.Chosen].Why)
		f.Figures, f.Fix = limitFigures(o), "fill shallower, stir more, take more ice; and log the temperatures"
	default:
		return
	}
	p.find(f)
}

// nearest is the way that comes nearest to the limits.
func nearest(options []cooling.Option) int {
	best, least := 0, math.Inf(1)
	for i, o := range options {
		share := math.Inf(1)
		if o.Verdict != cooling.Unknown {
			share = 0
			for _, s := range o.UsualRule.Stages {
				took := s.TookS
				if s.Never || !s.Reached {
					took = math.Inf(1)
				}
				share = max(share, took/s.Stage.WithinS)
			}
		}
		if share < least {
			best, least = i, share
		}
	}
	return best
}

func limitFigures(o cooling.Option) []finding.Figure {
	var figures []finding.Figure
	for _, s := range o.UsualRule.Stages {
		if s.Reached && !s.Never {
			figures = append(figures, finding.Figure{Name: fmt.Sprintf("%s (limit %s)", s.Stage.Name, minutes(s.Stage.WithinS).Show(unit.Metric)), Value: s.TookS / 3600, Unit: "h", Text: minutes(s.TookS).Show(unit.Metric)})
		}
	}
	return figures
}

// judgeIce finds that the ways chosen take more ice together than there is.
func (p *planner) judgeIce() {
	have := p.book.Kitchen.Ice
	need := unit.Mass(0)
	for _, c := range p.out.Chill {
		if c.Chosen >= 0 {
			need += c.Options[c.Chosen].Ice
		}
	}
	if have == 0 || need <= have {
		return
	}
	p.find(finding.Finding{Code: CodeIceShort, Severity: finding.Stop, Where: "the ice", Path: "kitchen.ice", Message: fmt.Sprintf("chilling takes %s of ice and there is %s", need.Show(p.out.Units), have.Show(p.out.Units)),
		Figures: []finding.Figure{p.massFigure("needed", need.Kg()), p.massFigure("there", have.Kg())}, Fix: "buy ice for the day, chill some of it in pans, or cook less"})
}
