package web

import (
	"context"
	"fmt"
	"net/http"

	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/plan"
)

// weekPage is all that templates/week.html may show: what a week is best spent on.
type weekPage struct {
	shell
	Note      string
	Blocked   findingsView // what is wrong with the book, when it cannot be planned with
	Findings  findingsView
	Leaves    string
	Sure      string
	Heads     []string // a step of each resource
	Packs     []weekPackView
	Resources []weekResourceView
}

type weekPackView struct {
	Name    string
	Batches string
	Count   int
	Leaves  string
	AtMost  bool
	Per     []string
	Stops   string
}

type weekResourceView struct{ Name, Used, Have, More, Less, Pays string }

func (s *server) showWeek(w http.ResponseWriter, r *http.Request) {
	book, found := s.house.Book()
	v := weekPage{shell: s.inShell(r, book.Kitchen, "The week", "week"), Note: book.Kitchen.Note}
	if found.Worst() >= finding.Stop {
		v.Blocked = viewFindings(found)
		weekTemplate.show(w, http.StatusUnprocessableEntity, v)
		return
	}
	ask := app.JobAsk{Key: keyOf("week", book), Name: "Working out the week", Lane: app.PlanLane, Keep: true}
	week, err, ok := long(s, w, r, ask, func(ctx context.Context) (plan.Week, error) { return s.house.Week(ctx, book), ctx.Err() })
	if !ok {
		return
	}
	if err != nil {
		s.refuse(w, r, http.StatusInternalServerError, sentence(err))
		return
	}
	v.add(week, readerOf(book.Kitchen, r))
	weekTemplate.show(w, http.StatusOK, v)
}

// add puts the choice on the page.
func (v *weekPage) add(x plan.Week, rd reader) {
	v.Findings, v.Leaves, v.Sure = viewFindings(x.Findings), rd.money(x.Contribution), "It is proved that no mix leaves more."
	if x.Gap > 0 {
		v.Sure = "A better mix could leave at most " + rd.money(x.Gap) + " more."
	}
	for _, res := range x.Resources {
		v.Heads = append(v.Heads, "For 1 "+res.Unit+" of "+res.Name)
		pays := "nothing up to 8 more"
		if res.Pays > 0 {
			pays = fmt.Sprintf("%d %s more: %s", res.Pays, res.Unit, rd.money(res.Earn))
		}
		v.Resources = append(v.Resources, weekResourceView{res.Name, fmt.Sprintf("%.1f %s", res.Used, res.Unit), fmt.Sprintf("%.1f %s", res.Have, res.Unit), rd.money(res.More), rd.money(res.Less), pays})
	}
	for _, p := range x.Packs {
		row := weekPackView{Name: p.Name, Batches: fmt.Sprintf("%d of %d", p.Batches, p.Batch), Count: p.Count, Leaves: rd.money(p.Contribution), AtMost: p.AtMost, Stops: p.Stops}
		for _, per := range p.Per {
			text := "–"
			if per != 0 {
				text = rd.money(per)
			}
			row.Per = append(row.Per, text)
		}
		v.Packs = append(v.Packs, row)
	}
}
