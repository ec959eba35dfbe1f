package plan

import (
	"fmt"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/unit"
)

// outages are when pieces of a place cannot be used.
func (p *planner) outages(x place) []outage {
	var list []outage
	for _, o := range p.changes.Out {
		if o.Equipment == x.equipment && x.equipment != "" {
			list = append(list, outage{stretch{int(o.From), p.until(o.Until)}, max(1, o.Count) * max(1, p.book.Equipment[x.equipment].Places)})
		}
	}
	return list
}

// outage is some pieces that cannot be used for a time.
type outage struct {
	stretch
	count int
}

// heldUnderWay is when a vessel that has been filled will be emptied, as planned and as late as anything is. What stands in a vessel that
// fails is still to be taken care of: it counts as standing in one that works.
func (p *planner) heldUnderWay(x place) []stretch {
	if p.was == nil {
		return nil
	}
	var held []stretch
	late := slices.Max(append(p.lateBy(), 0))
	for _, f := range p.day.filled {
		if t := p.day.tasks[f.task]; p.day.places[f.place].key == x.key && t.fixed {
			until := p.was[f.task] + t.length
			for _, e := range f.emptied {
				until = max(until, p.was[e.task]+e.minute+late)
			}
			held = append(held, stretch{p.was[f.task], until})
		}
	}
	return held
}

// inUse is how many of a place are in use at a minute by what has begun.
func (p *planner) inUse(place, minute int) int {
	n := 0
	for k, t := range p.day.tasks {
		for _, h := range t.holds {
			if h.place == place && t.fixed && p.was[k] <= minute && minute < p.was[k]+t.length {
				n += h.amount
			}
		}
	}
	for _, h := range p.heldUnderWay(p.day.places[place]) {
		if h.from <= minute && minute < h.to {
			n++
		}
	}
	return n
}

// judgeOutage finds a place of which more is in use than is left when some of it fails.
func (p *planner) judgeOutage() {
	for _, o := range p.changes.Out {
		i := slices.IndexFunc(p.day.places, func(x place) bool { return x.equipment == o.Equipment })
		if i < 0 {
			continue
		}
		x, at := p.day.places[i], max(int(o.From), int(p.changes.Now))
		inUse := p.inUse(i, at)
		left := max(0, x.count-max(1, o.Count)*max(1, p.book.Equipment[x.equipment].Places))
		if inUse > left {
			p.find(finding.Finding{Code: CodeInUse, Severity: finding.Caution, Where: "equipment " + string(o.Equipment), Path: "equipment." + string(o.Equipment),
				Message: fmt.Sprintf("%d of %s are in use at %s, and %d are left: what is on the rest must go somewhere else now", inUse, x.name, unit.Moment(at), left),
				Figures: []finding.Figure{{Name: "in use", Value: float64(inUse)}, {Name: "left", Value: float64(left)}},
				Fix:     "move it by hand, and say how late that makes it"})
		}
	}
}
