package lots

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"kettlefrost/internal/record"
	"kettlefrost/internal/trace"
	"kettlefrost/internal/unit"
)

// Recall is what has to be fetched back of everything that contains some lots, and whether all of it is accounted for.
type Recall struct {
	Lots  []Reached
	Lines []RecallLine
	Packs []PackCount // of each lot in packs
	Bulk  []BulkCount // of each lot in bulk
	Made  Tally
	Found Tally // in a known place, each pack once
}

// RecallLine is packs of one lot that are in one place, or with one customer, or gone.
type RecallLine struct {
	State trace.State
	Where string // a place, or a customer's name
	Tell  string // how to reach the customer, on one line
	Lot   *Lot
	Packs record.Numbers
	Mass  unit.Mass
}

// Tally is packs by count and by mass.
type Tally struct {
	Count int64
	Mass  unit.Mass
}

// PackCount is where the packs of one lot are.
type PackCount struct {
	Lot         *Lot
	Made, Found int64
	Missing     record.Numbers // made, and in no known place
	Twice       record.Numbers // in two known places at once
}

// BulkCount is where one lot in bulk went.
type BulkCount struct {
	Lot *Lot
	trace.Balance
}

// Recall traces some lots forward and tells where every pack is that contains any of them. Errors are *UnknownError.
func (s *State) Recall(ids ...record.Lot) (Recall, error) {
	reach, err := s.Forward(ids...)
	if err != nil {
		return Recall{}, err
	}
	r := Recall{Lots: reach}
	for _, x := range reach {
		switch x.Sort {
		case Packs:
			r.packs(s, x.Lot)
		case Pot: // what was in the pot is in what came of it
		default:
			b, err := s.Balance(x.ID)
			if err != nil {
				return r, err
			}
			r.Bulk = append(r.Bulk, BulkCount{x.Lot, b})
		}
	}
	return r, nil
}

// packs counts the packs of a lot where they are.
func (r *Recall) packs(s *State, l *Lot) {
	p := PackCount{Lot: l, Made: l.Numbers.Count()}
	var found record.Numbers
	for _, line := range l.lines(s) {
		if line.Packs.Empty() {
			continue
		}
		line.Mass = l.MassOf(line.Packs.Count())
		r.Lines = append(r.Lines, line)
		if line.State != trace.Unknown {
			p.Twice = p.Twice.Union(found.Intersect(line.Packs))
			found = found.Union(line.Packs)
		}
	}
	found = found.Intersect(l.Numbers)
	p.Found, p.Missing = found.Count(), l.Numbers.Minus(found)
	r.Packs = append(r.Packs, p)
	r.Made = r.Made.plus(p.Made, l)
	r.Found = r.Found.plus(p.Found, l)
}

func (t Tally) plus(packs int64, l *Lot) Tally {
	return Tally{t.Count + packs, t.Mass + l.MassOf(packs)}
}

// Ratio is the effectiveness of the recall by packs, as a fraction of one: found over made (NC State Extension, recall checklist, from
// memory); 1 if nothing was made.
func (r Recall) Ratio() float64 {
	if r.Made.Count == 0 {
		return 1
	}
	return float64(r.Found.Count) / float64(r.Made.Count)
}

// Complete says that every pack is in one known place, and that nothing in bulk is unaccounted for.
func (r Recall) Complete() bool {
	return !slices.ContainsFunc(r.Packs, func(p PackCount) bool { return !p.Missing.Empty() || !p.Twice.Empty() }) &&
		!slices.ContainsFunc(r.Bulk, func(b BulkCount) bool { return b.Unaccounted != 0 })
}

// lines are where the packs of a lot are.
func (l *Lot) lines(s *State) []RecallLine {
	var lines []RecallLine
	for _, place := range slices.Sorted(maps.Keys(l.Here)) {
		lines = append(lines, RecallLine{State: trace.OnHand, Where: string(place), Lot: l, Packs: l.Here[place].Numbers})
	}
	for _, h := range l.Handed {
		c := s.Customer(h.Customer)
		lines = append(lines, RecallLine{State: trace.Handed, Where: c.Name, Tell: reach(cmp.Or(h.Address, c.Address), c), Lot: l, Packs: h.Numbers})
	}
	return append(lines, RecallLine{State: trace.WrittenOff, Lot: l, Packs: l.WrittenOff.Numbers}, RecallLine{State: trace.Reused, Lot: l, Packs: l.Reopened}, RecallLine{State: trace.Unknown, Lot: l, Packs: l.Missing})
}

// reach is how to reach a customer, on one line.
func reach(address record.Text, c record.Customer) string {
	var words []string
	for line := range strings.Lines(string(address)) {
		words = append(words, strings.TrimSpace(line))
	}
	words = append(words, c.Phone, c.Mail)
	return strings.Join(slices.DeleteFunc(words, func(w string) bool { return w == "" }), ", ")
}
