package web

import (
	"fmt"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/plan"
)

// fillView is the sealing table.
type fillView struct {
	Grave []reminder
	Care  bool // the finding about vacuum packs is not there to say it
	Packs []packView
	Table string // address of the sealing table
}

type packView struct {
	Name  string
	Count int
	Range string // "148 – 165, by how yields turn out"
	Asked string
	Over  string     // what to fill to, where it is over the label
	Each  []partView // in the order of filling
	Net   figure
	Bag   string
	Time  string
	Proof string
}

func viewFill(p plan.Plan, r reader) fillView {
	v := fillView{Grave: graveFor(p, atFill), Care: !slices.ContainsFunc(p.Findings, func(f finding.Finding) bool { return f.Code == plan.CodeVacuum })}
	for _, f := range p.Fill {
		pv := packView{Name: f.Name, Count: f.Count, Each: viewParts(f.Each, r), Net: r.fig(f.Net), Bag: f.Bag, Time: r.span(f.Time), Proof: f.Proof}
		if f.Low != f.Count || f.High != f.Count {
			pv.Range = fmt.Sprintf("%d to %d, by how the yields turn out", f.Low, f.High)
		}
		if f.Over > 0 {
			pv.Over = overfilled(f.Net+f.Over, f.Over)
		}
		if f.Wanted > 0 && f.Wanted != f.Count {
			pv.Asked = fmt.Sprintf("%d were asked for", f.Wanted)
		}
		v.Packs = append(v.Packs, pv)
	}
	return v
}
