package app

import (
	"cmp"
	"context"
	"maps"
	"slices"

	"kettlefrost/internal/critical"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// SafetySchema names the shape of a Safety.
const SafetySchema = "kettlefrost.safety/1"

// Safety is the critical records of a kitchen as they stand: what is judged, each run, and what is held for it. It says which records meet which
// rules, and nothing else.
type Safety struct {
	Schema       string             `json:"schema"`
	Judged       bool               `json:"judged"` // the book says by what rules
	Jurisdiction string             `json:"jurisdiction,omitempty"`
	From         record.Day         `json:"from,omitempty"` // lots of runs from this day on are judged
	Cooling      string             `json:"cooling,omitempty"`
	Runs         []SafetyRun        `json:"runs"`  // those with the biggest trouble first
	Goods        []critical.Verdict `json:"goods"` // at the door, those that are not as they must be
	GoodsHeld    []SafetyLot        `json:"goods_held"`
}

// SafetyRun is the critical records of one run.
type SafetyRun struct {
	Run      string             `json:"run"`
	Day      record.Day         `json:"day"`
	Open     bool               `json:"open"`
	Judged   bool               `json:"judged"` // it is of a day from which lots are judged
	Outcome  critical.Outcome   `json:"outcome,omitempty"`
	Verdicts []critical.Verdict `json:"records"`
	Lots     []SafetyLot        `json:"lots"`
}

// SafetyLot is a lot with what holds it for its records, and what was decided.
type SafetyLot struct {
	Lot       record.Lot       `json:"lot"`
	Sort      lots.Sort        `json:"sort"`
	What      string           `json:"what,omitempty"`
	Packs     int64            `json:"packs,omitempty"`
	Places    []record.Place   `json:"places,omitempty"`
	Here      bool             `json:"on_hand"`
	Handed    int64            `json:"handed_over,omitempty"` // packs of it that customers have
	Holds     []SafetyHold     `json:"holds,omitempty"`
	Decisions []SafetyDecision `json:"decisions,omitempty"`
}

// SafetyHold is a hold that follows from critical records.
type SafetyHold struct {
	Numbers string             `json:"numbers,omitempty"` // none: all of it
	Why     string             `json:"why"`
	Points  []string           `json:"points"` // each with how it stands, as a decision names it
	Decided record.Disposition `json:"decided,omitempty"`
}

// SafetyDecision is what a named person decided.
type SafetyDecision struct {
	Entry       string             `json:"entry"`
	At          record.Instant     `json:"at_ms"`
	Who         string             `json:"who"`
	Points      []string           `json:"points"`
	Numbers     string             `json:"numbers,omitempty"`
	Disposition record.Disposition `json:"disposition"`
	Why         string             `json:"why"`
}

// Troubles are the records of a run that hold its lots, and Open those that nobody has written down yet of what is still being made.
func (r SafetyRun) Troubles() (troubles, open int) {
	for _, v := range r.Verdicts {
		switch {
		case !v.Troubles():
		case v.Why == critical.WhyNotYet:
			open++
		default:
			troubles++
		}
	}
	return troubles, open
}

// Held are its lots that are held, and not decided on.
func (r SafetyRun) Held() (n int) {
	for _, l := range r.Lots {
		if len(l.Holds) > 0 {
			n++
		}
	}
	return n
}

// Safety is all critical records as they stand.
func (r *Records) Safety(ctx context.Context) (Safety, error) {
	s := Safety{Schema: SafetySchema, Runs: []SafetyRun{}, Goods: []critical.Verdict{}, GoodsHeld: []SafetyLot{}}
	err := r.Lots(ctx, func(state *lots.State, _ finding.List) error {
		j := r.judging
		if j == nil || j.keeper == nil {
			return nil
		}
		rules := j.book.book.Safety
		s.Judged, s.Jurisdiction, s.From, s.Cooling = true, rules.Jurisdiction, record.Day(rules.From), cmp.Or(rules.Cooling, usualCooling)
		of := map[string][]SafetyLot{}
		for l := range state.All() {
			switch l.Sort {
			case lots.Batch, lots.Packs:
				of[l.Run] = append(of[l.Run], safetyLot(l))
			case lots.Goods:
				if x := safetyLot(l); len(x.Holds) > 0 {
					s.GoodsHeld = append(s.GoodsHeld, x)
				}
			}
		}
		for name, run := range j.runs {
			s.Runs = append(s.Runs, run.shown(name, of[name]))
		}
		for _, lot := range slices.Sorted(maps.Keys(j.all.Goods)) {
			if v := j.all.Goods[lot]; v.Troubles() {
				s.Goods = append(s.Goods, v)
			}
		}
		return nil
	})
	slices.SortStableFunc(s.Runs, bigger)
	return s, err
}

// usualCooling is the cooling rule of a book that names none.
const usualCooling = "fda-3-501.14-a"

// shown is a run as it was judged. Verdicts are never changed, only replaced: they are lent for good.
func (x judgedRun) shown(name string, of []SafetyLot) SafetyRun {
	r := SafetyRun{Run: name, Day: record.Day(x.day), Open: x.open, Judged: x.judged, Verdicts: x.verdicts, Lots: of}
	if r.Verdicts == nil {
		r.Verdicts = []critical.Verdict{}
	}
	if r.Lots == nil {
		r.Lots = []SafetyLot{}
	}
	for _, v := range x.verdicts {
		if r.Outcome = cmp.Or(r.Outcome, critical.Pass); v.Gates {
			r.Outcome = critical.Worse(r.Outcome, v.Outcome)
		}
	}
	return r
}

// bigger puts the biggest trouble first: what fails, then what is held, then the latest day.
func bigger(a, b SafetyRun) int {
	at, _ := a.Troubles()
	bt, _ := b.Troubles()
	fails := func(r SafetyRun) int {
		if r.Outcome == critical.Fail && r.Held() > 0 {
			return 1
		}
		return 0
	}
	return cmp.Or(cmp.Compare(fails(b), fails(a)), cmp.Compare(min(b.Held(), 1), min(a.Held(), 1)), cmp.Compare(b.Day, a.Day), cmp.Compare(bt, at), cmp.Compare(a.Run, b.Run))
}

func safetyLot(l *lots.Lot) SafetyLot {
	here := l.OnHand()
	x := SafetyLot{Lot: l.ID, Sort: l.Sort, What: l.What, Packs: l.Numbers.Count(), Here: !here.Numbers.Empty() || here.Mass > 0}
	for _, place := range slices.Sorted(maps.Keys(l.Here)) {
		x.Places = append(x.Places, place)
	}
	for _, h := range l.Handed {
		x.Handed += h.Numbers.Count()
	}
	for _, h := range l.Holds {
		if len(h.Points) > 0 {
			x.Holds = append(x.Holds, SafetyHold{h.Numbers.String(), h.Why, slices.Clone(h.Points), h.Decided})
		}
	}
	for _, d := range l.Decisions {
		x.Decisions = append(x.Decisions, SafetyDecision{d.Entry.String(), d.At, d.Who, slices.Clone(d.Points), d.Numbers.String(), d.Disposition, d.Why})
	}
	return x
}

// Point is the record that a point names, with its run; goods have none.
func (s Safety) Point(point string) (critical.Verdict, SafetyRun, bool) {
	for _, run := range s.Runs {
		for _, v := range run.Verdicts {
			if v.Point == point {
				return v, run, true
			}
		}
	}
	for _, v := range s.Goods {
		if v.Point == point {
			return v, SafetyRun{}, true
		}
	}
	return critical.Verdict{}, SafetyRun{}, false
}

// Short is all of it without the readings, which a run has of its own.
func (s Safety) Short() Safety {
	s.Runs = slices.Clone(s.Runs)
	for i := range s.Runs {
		s.Runs[i].Verdicts = slices.Clone(s.Runs[i].Verdicts)
		for k := range s.Runs[i].Verdicts {
			s.Runs[i].Verdicts[k].Logs = nil
		}
	}
	return s
}

// SafetyRunSchema names the shape of a SafetyRunSheet.
const SafetyRunSchema = "kettlefrost.safety-run/1"

// SafetyRunSheet is one run for programs, with every reading.
type SafetyRunSheet struct {
	Schema string `json:"schema"`
	SafetyRun
}

// Sheet is the run for programs.
func (r SafetyRun) Sheet() SafetyRunSheet { return SafetyRunSheet{SafetyRunSchema, r} }

// SafetyRecordSchema names the shape of a SafetyRecordSheet.
const SafetyRecordSchema = "kettlefrost.safety-record/1"

// SafetyRecordSheet is one critical record for programs.
type SafetyRecordSheet struct {
	Schema string `json:"schema"`
	critical.Verdict
}

// WatchesOf are the probes that are or were in the food of a record.
func (r *Records) WatchesOf(ctx context.Context, v critical.Verdict) (all []critical.Watch, err error) {
	err = r.Lots(ctx, func(*lots.State, finding.List) error {
		if r.judging != nil && r.judging.keeper != nil {
			if p, ok := r.judging.keeper.state.Run(v.Run); ok {
				all = p.WatchesOf(v)
			}
		}
		return nil
	})
	return all, err
}

// AllLots are the lots of all runs, and goods that are held.
func (s Safety) AllLots() []SafetyLot {
	all := slices.Clone(s.GoodsHeld)
	for _, run := range s.Runs {
		all = append(all, run.Lots...)
	}
	return all
}
