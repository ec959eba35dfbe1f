package allocation

import (
	"fmt"
	"slices"
)

// PlanError says where a plan is not what it says, or gives what must not be given.
type PlanError struct{ Where, Reason string }

func (e *PlanError) Error() string { return "allocation: " + e.Where + ": " + e.Reason }

// Check reads a plan again with none of the code that made it: no held lot, no pack twice, none past its day, no more lots than a
// customer takes, whole orders whole, every count as stated. It does not say that the plan is the best. Errors are *PlanError.
func Check(s Stock, p Plan) error {
	left := make([]int, len(s.Lots))
	for i, l := range s.Lots {
		left[i] = max(l.Packs, count(l.Free))
	}
	given := make([][]Range, len(s.Lots))
	short := make([]bool, len(s.Orders))
	something := make([]bool, len(s.Orders))
	lines := 0
	for _, l := range p.Lines {
		if err := checkServed(s, l, left, given); err != nil {
			return err
		}
		short[l.Order] = short[l.Order] || l.Packs < l.Wanted
		something[l.Order] = something[l.Order] || l.Packs > 0
		lines++
	}
	for i, o := range s.Orders {
		lines -= len(o.Lines)
		if o.Whole && short[i] && something[i] {
			return &PlanError{fmt.Sprintf("order %d", i+1), "it is to be whole, and is not"}
		}
	}
	if lines != 0 || !slices.Equal(left, p.Left) {
		return &PlanError{"plan", "lines are missing, or what is left is not what is said"}
	}
	return nil
}

func checkServed(s Stock, l Served, left []int, given [][]Range) error {
	o := s.Orders[l.Order]
	where := fmt.Sprintf("order %d, line %d", l.Order+1, l.Line+1)
	packs, missing := 0, 0
	for _, t := range l.Takes {
		lot := s.Lots[t.Lot]
		left[t.Lot] -= t.Packs
		packs += t.Packs
		both, _ := common(given[t.Lot], t.Numbers)
		_, strange := common(t.Numbers, lot.Free)
		given[t.Lot] = joined(append(given[t.Lot], t.Numbers...))
		reason := ""
		switch {
		case lot.Product != o.Lines[l.Line].Product:
			reason = "it is of another product"
		case lot.Held:
			reason = "it is on hold"
		case lot.BestBefore < max(o.Due, s.Today)+o.LeastLife:
			reason = "it is not good for long enough"
		case t.Packs <= 0 || left[t.Lot] < 0 || t.Promised > t.Packs:
			reason = "it does not hold so many packs"
		case len(both) > 0 || len(strange) > 0 || len(lot.Free) > 0 && count(t.Numbers) != t.Packs:
			reason = "its numbers are given twice, or are not there"
		}
		if reason != "" {
			return &PlanError{fmt.Sprintf("%s, lot %d", where, t.Lot+1), reason}
		}
	}
	for _, n := range l.Short {
		missing += n.Packs
	}
	switch {
	case o.MostLots > 0 && len(l.Takes) > o.MostLots:
		return &PlanError{where, "it comes in more lots than the customer takes"}
	case packs != l.Packs || l.Wanted != o.Lines[l.Line].Packs || packs+missing != l.Wanted:
		return &PlanError{where, "what it gets and what is missing do not add up to what was ordered"}
	}
	return nil
}
