package web

import "kettlefrost/internal/plan"

// labelsView is the text of the labels.
type labelsView struct {
	Grave  []reminder
	Labels []labelView
}

type labelView struct {
	URL       string // of the label itself
	Name      string
	Net       figure
	Statement string
	Contains  string
	Withheld  bool
	Missing   []string
	NearTies  []string
	Cautions  []string
}

func viewLabels(p plan.Plan, r reader) labelsView {
	v := labelsView{Grave: graveFor(p, atLabels)}
	for _, l := range p.Labels {
		v.Labels = append(v.Labels, labelView{Name: l.Name, Net: r.fig(l.Net), Statement: l.Statement, Contains: l.Contains, Withheld: l.Withheld,
			Missing: l.Missing, NearTies: l.NearTies, Cautions: l.Cautions})
	}
	return v
}
