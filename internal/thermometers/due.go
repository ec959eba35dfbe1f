package thermometers

import (
	"cmp"
	"slices"

	"kettlefrost/internal/record"
)

// Standing is where a thermometer stands with its checks.
type Standing string

const (
	Never     Standing = "never-checked" // and it should be
	Overdue   Standing = "overdue"
	DueSoon   Standing = "due-soon"
	Checked   Standing = "checked"
	Unplanned Standing = "no-interval" // nobody said how often it is checked
	Gone      Standing = "withdrawn"
)

// order is in which order thermometers are shown: those to be checked first.
var order = []Standing{Never, Overdue, DueSoon, Checked, Unplanned, Gone}

// soonDays before it is due, a check is announced.
const soonDays = 3

// Row is a thermometer as it stands now.
type Row struct {
	Instrument
	Listed   bool
	Standing Standing
	Last     *Check
	Due      record.Instant // 0: it was never checked, or nobody said how often
	Trust    Trust          // now
}

// Rows are all thermometers, those first that are to be checked first.
func (b Bench) Rows(now record.Instant) []Row {
	var rows []Row
	for _, x := range b.All() {
		r := Row{Instrument: x, Trust: b.Trust(x.ID, now)}
		r.Listed, r.Last = r.Trust.Listed, r.Trust.Before
		if r.Last != nil && x.EveryDays > 0 && !r.Trust.Unusable {
			r.Due = x.dueAfter(*r.Last)
		}
		r.Standing = r.standing(now)
		rows = append(rows, r)
	}
	slices.SortStableFunc(rows, func(a, b Row) int {
		return cmp.Or(cmp.Compare(slices.Index(order, a.Standing), slices.Index(order, b.Standing)), cmp.Compare(a.Due, b.Due), cmp.Compare(a.ID, b.ID))
	})
	return rows
}

func (r Row) standing(now record.Instant) Standing {
	switch {
	case r.Trust.Unusable:
		return Gone
	case r.EveryDays == 0:
		return Unplanned
	case r.Last == nil:
		return Never
	case now >= r.Due:
		return Overdue
	case now >= r.Due-soonDays*dayMs:
		return DueSoon
	}
	return Checked
}

// Outcome is what a check shows before it is entered.
type Outcome struct {
	OffC     float64 // above 0: it reads too warm
	AllowedC float64
	Good     bool // it stays in use as it is; otherwise somebody adjusts it, counts on its error or withdraws it
}

// Judge says what a check shows.
func (x Instrument) Judge(readC, trueC float64) Outcome {
	return Outcome{OffC: readC - trueC, AllowedC: x.Stated(), Good: x.good(readC - trueC)}
}
