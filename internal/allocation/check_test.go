package allocation

import (
	"errors"
	"strings"
	"testing"
)

// A plan that was tampered with is found out.
func TestAWrongPlanIsFoundOut(t *testing.T) {
	good := func() (Stock, Plan) {
		s := Stock{Lots: soup(Lot{BestBefore: 20, Free: []Range{{1, 5}}}, Lot{BestBefore: 30, Packs: 5}, Lot{Product: 1, BestBefore: 30, Packs: 9}),
			Orders: []Order{{Due: 1, MostLots: 2, Lines: []Line{{0, 7}}}, {Due: 2, Whole: true, Lines: []Line{{0, 2}}}}}
		return s, allocated(t, s)
	}
	for want, change := range map[string]func(*Stock, *Plan){
		"order 1, line 1, lot 1: it is on hold":                                 func(s *Stock, _ *Plan) { s.Lots[0].Held = true },
		"order 1, line 1, lot 1: it is not good for long enough":                func(s *Stock, _ *Plan) { s.Orders[0].LeastLife = 20 },
		"order 1, line 1, lot 2: it does not hold so many packs":                func(s *Stock, _ *Plan) { s.Lots[1].Packs = 1 },
		"order 1, line 1, lot 1: its numbers are given twice, or are not there": func(_ *Stock, p *Plan) { p.Lines[0].Takes[0].Numbers = []Range{{2, 6}} },
		"order 1, line 1, lot 3: it is of another product":                      func(_ *Stock, p *Plan) { p.Lines[0].Takes[1].Lot = 2 },
		"order 1, line 1: it comes in more lots than the customer takes":        func(s *Stock, _ *Plan) { s.Orders[0].MostLots = 1 },
		"order 1, line 1: what it gets and what is missing do not add up":       func(_ *Stock, p *Plan) { p.Lines[0].Packs-- },
		"order 2: it is to be whole, and is not": func(s *Stock, p *Plan) {
			s.Orders[1].Lines[0].Packs, p.Lines[1].Wanted, p.Lines[1].Short = 3, 3, []Short{{NoneLeft, 1}}
		},
		"plan: lines are missing, or what is left is not what is said": func(_ *Stock, p *Plan) { p.Left[1]++ },
	} {
		s, p := good()
		change(&s, &p)
		var e *PlanError
		if err := Check(s, p); !errors.As(err, &e) || !strings.Contains(err.Error(), want) {
			t.Errorf("got %v, want %s", err, want)
		}
	}
}

func TestReasonsHaveWords(t *testing.T) {
	for want, got := range map[string]string{"only on hold": OnHold.String(), "lot is on hold": LotHeld.String(), "unknown": Why(0).String(), "moved so that others get more": ServesOther.String()} {
		if got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}
