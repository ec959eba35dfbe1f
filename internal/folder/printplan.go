package folder

import (
	"strings"

	"kettlefrost/internal/haccp"
	"kettlefrost/internal/pdf"
)

// points are the control points of a plan, as principles 2 to 7 ask for them.
func points(plan haccp.Plan) pdf.Table {
	t := pdf.Table{Name: "Control points", Columns: []pdf.Column{{Name: "point"}, {Name: "hazards"}, {Name: "limit"}, {Name: "watched"}, {Name: "when it is missed"}}}
	for _, x := range plan.Points {
		limit := lines(x.Limit.Text, x.Limit.Source, prefixed("not read in a published text: ", x.Limit.Confirm), prefixed("differs from what is published: ", x.Limit.Reason))
		t.Rows = append(t.Rows, pdf.Row{Cells: []string{lines(x.Number, x.Step), strings.Join(x.Hazards, "\n"), limit, lines(x.Watch.What, x.Watch.How, x.Watch.Often, x.Watch.Who), strings.Join(x.Corrective, "\n")}})
	}
	return t
}

// opens is what a plan leaves to be settled.
func opens(plan haccp.Plan) pdf.Table {
	t := pdf.Table{Name: "Open", Columns: []pdf.Column{{Name: "where"}, {Name: "what"}, {Name: "what would settle it"}}}
	for _, o := range plan.Open {
		t.Rows = append(t.Rows, pdf.Row{Cells: []string{o.Where, o.Says, o.Fix}, Strong: o.Stop})
	}
	return t
}
