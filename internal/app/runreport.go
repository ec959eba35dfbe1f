package app

import (
	"context"
	"slices"

	"kettlefrost/internal/board"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/language"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/papers"
	"kettlefrost/internal/pdf"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// RunReport is what a production came to, beside its plan, and the production itself. Errors are as of Production.
func (b *Boards) RunReport(ctx context.Context, name string) (papers.Report, *Production, error) {
	p, err := b.Production(ctx, name, false)
	if err != nil {
		return papers.Report{}, nil, err
	}
	r := papers.Report{Plan: p.First, Open: p.Open, Weighed: weighedOf(p), Thrown: thrownOf(p)}
	for _, t := range p.First.Timetable.Tasks {
		if t.Kind != plan.Visit && t.Kind != plan.Washing {
			r.Tasks = append(r.Tasks, p.wentOf(t))
		}
	}
	err = b.records.Lots(ctx, func(s *lots.State, _ finding.List) error {
		actual, filled := board.Actual(p.Run, p.First, func(id record.Lot) (board.Goods, bool) {
			l := s.Lot(id)
			if l == nil || l.Sort != lots.Goods {
				return board.Goods{}, false
			}
			return board.Goods{Ingredient: kitchen.IngredientID(l.What), Mass: l.Came, Paid: l.Paid}, true
		})
		if filled {
			after := b.liveOf(name).after(actual)
			r.After = &after
		}
		return nil
	})
	return r, p, err
}

// ReportFor is for whom a production's report is printed: by the units of its book, with the version of the plan that it was opened with.
func ReportFor(p *Production, in language.Language) papers.Options {
	o := papers.Options{Units: p.Book.Kitchen.Units, In: language.In(in), Paper: pdf.A4, Version: p.Opened.Plan.String()[:versionLength]}
	if o.Units == unit.US {
		o.Paper = pdf.Letter
	}
	return o
}

// after compares what was made with what it should have cost.
func (l *live) after(a kitchen.Actual) plan.After {
	l.mu.Lock()
	run := l.run
	l.mu.Unlock()
	return run.After(a)
}

// wentOf is how a task went.
func (p *Production) wentOf(t plan.Task) papers.Went {
	w := papers.Went{Task: t}
	x := p.Board.Tasks[t.Key]
	if x == nil || x.Is == board.ToDo {
		return w
	}
	at := func(i record.Instant) *unit.Moment {
		m := p.Clock(i)
		return &m
	}
	w.Is, w.Who, w.Why = string(x.Is), who(x), x.Why
	if x.Is == board.Begun {
		w.Is, w.Who = "under way", x.Who
	}
	if !x.Unmarked {
		w.Began = at(x.Began)
	}
	if x.Is == board.Done {
		w.Ended = at(x.Ended)
	}
	return w
}

// weighedOf is what was weighed of outputs against what the plan has of them; of an output that was weighed in parts, all of them.
func weighedOf(p *Production) (all []papers.Weighed) {
	type key struct{ dish, output string }
	at := map[key]int{}
	for _, d := range p.First.Dishes {
		for _, s := range d.Steps {
			for _, l := range s.Out {
				at[key{d.ID, l.ID}] = len(all)
				all = append(all, papers.Weighed{Name: l.Name, Planned: l.Mass})
			}
		}
	}
	for _, w := range board.Of[record.Weighed](p.Run) {
		if i, planned := at[key{w.Dish, w.Output}]; planned {
			all[i].Real += w.Net
		}
	}
	return slices.DeleteFunc(all, func(w papers.Weighed) bool { return w.Real == 0 })
}

func thrownOf(p *Production) (all []papers.Thrown) {
	for _, w := range board.Of[record.Wasted](p.Run) {
		what := w.Output
		if what == "" {
			what = w.Dish
		}
		all = append(all, papers.Thrown{What: what, Mass: w.Mass, Why: w.Why})
	}
	return all
}
