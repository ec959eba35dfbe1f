package plan

import (
	"fmt"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/purchase"
)

// BuyLate is how much too late something would come.
type BuyLate struct {
	Lead int `json:"lead_days"` // from the order to the delivery, of the soonest who would bring it
	Left int `json:"days_left"` // from the order to the run
}

// days tells the basket how long there is until the run, when it is known when the orders go out. Goods may come on the day it starts.
func (s *shopper) days() {
	if left, ok := kitchen.DaysUntil(s.p.req.Today, s.p.req.Day); ok {
		s.basket.Today, s.basket.NeededBy = 1, 1+max(0, left)
	}
}

// late is how much too late supplier j would come; nil if it is in time, or if nobody says when the orders go out.
func (s *shopper) late(j int) *BuyLate {
	l := BuyLate{Lead: s.basket.Suppliers[j].LeadDays, Left: s.basket.NeededBy - s.basket.Today}
	if s.basket.Today == 0 || l.Lead <= l.Left {
		return nil
	}
	return &l
}

// soonest is the least late of some suppliers; nil if none of them is late.
func (s *shopper) soonest(suppliers []int) *BuyLate {
	var soonest *BuyLate
	for _, j := range suppliers {
		if l := s.late(j); l != nil && (soonest == nil || l.Lead < soonest.Lead) {
			soonest = l
		}
	}
	return soonest
}

// lateWords is why a line cannot be bought in time.
func (s *shopper) lateWords(u purchase.Unmet, l BuyLate) string {
	words := fmt.Sprintf("nobody brings it in less than %s, and it is %s", dayCount(l.Lead), dayCount(l.Left))
	if u.Have > 0 {
		words = fmt.Sprintf("only %s can be had in time; more takes %s, and it is %s", u.Have.Show(s.p.out.Units), dayCount(l.Lead), dayCount(l.Left))
	}
	return words + " until " + s.p.req.Day
}

func dayCount(n int) string {
	if n == 1 {
		return "1 day"
	}
	return fmt.Sprintf("%d days", n)
}

func (l BuyLate) figures() []finding.Figure {
	return []finding.Figure{{Name: "days from order to delivery", Value: float64(l.Lead), Unit: "d", Text: dayCount(l.Lead)}, {Name: "days left", Value: float64(l.Left), Unit: "d", Text: dayCount(l.Left)}}
}

// tellLate says who is left out because a delivery would come after the day of the run.
func (s *shopper) tellLate() {
	for j, id := range s.suppliers {
		l := s.late(j)
		if l == nil {
			continue
		}
		name, req := s.basket.Suppliers[j].Name, s.p.req
		s.p.find(finding.Finding{Code: CodeTooLate, Severity: finding.Caution, Where: "supplier " + string(id), Path: "suppliers." + string(id) + ".lead-days",
			Message: fmt.Sprintf("nothing is bought from %s: it takes %s from the order, and from %s it is %s to %s", name, dayCount(l.Lead), req.Today, dayCount(l.Left), req.Day),
			Figures: l.figures(), Fix: fmt.Sprintf("order from it by %s, or start on %s or later", kitchen.DaysBefore(req.Day, l.Lead), kitchen.DaysBefore(req.Today, -l.Lead))})
	}
}
