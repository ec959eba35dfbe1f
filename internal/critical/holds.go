package critical

import (
	"fmt"
	"maps"
	"slices"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// Judgement is all critical records that are judged.
type Judgement struct {
	Runs  map[string][]Verdict
	Goods map[record.Lot]Verdict
	Plans map[string]Plan // of each pack
}

// Holds are the lots that must be held: those with a critical record of their own that is not passed, and what was made of them, but for what a
// named person has released. A decision on a lot is one on what is made of it afterwards too; what is to be reworked or destroyed stays held,
// and so does everything that was made of it.
func Holds(s *lots.State, j Judgement) map[record.Lot][]lots.Hold {
	w := &holding{s: s, j: j, trouble: map[string][]Verdict{}, own: map[*lots.Lot]map[string]Verdict{}, open: map[*lots.Lot]map[string]Verdict{}, reached: map[*lots.Lot]bool{}}
	for run, all := range j.Runs {
		for _, v := range all {
			if v.Troubles() {
				w.trouble[run] = append(w.trouble[run], v)
			}
		}
	}
	for l := range s.All() {
		if own := w.ownOf(l); len(own) > 0 {
			w.own[l] = own
			w.reach(l)
		}
	}
	held := map[record.Lot][]lots.Hold{}
	for l := range w.reached {
		if h := w.hold(l); len(h) > 0 {
			held[l.ID] = h
		}
	}
	return held
}

// holding finds what is held.
type holding struct {
	s       *lots.State
	j       Judgement
	trouble map[string][]Verdict // by run: what is not passed
	own     map[*lots.Lot]map[string]Verdict
	open    map[*lots.Lot]map[string]Verdict // what is not passed and not released, by point: of what was visited
	reached map[*lots.Lot]bool               // what has trouble of its own, or is made of such
}

// reach notes everything that a lot went into.
func (w *holding) reach(from *lots.Lot) {
	todo := []*lots.Lot{from}
	for len(todo) > 0 {
		l := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		if w.reached[l] {
			continue
		}
		w.reached[l] = true
		todo = slices.AppendSeq(todo, w.s.Children(l))
	}
}

// ownOf is what is not passed of a lot's own records. Packs that were filled from a lot in bulk have the records of that from it.
func (w *holding) ownOf(l *lots.Lot) map[string]Verdict {
	own := map[string]Verdict{}
	switch l.Sort {
	case lots.Goods:
		if v, ok := w.j.Goods[l.ID]; ok && v.Troubles() {
			own[v.Point] = v
		}
	case lots.Batch, lots.Packs:
		for _, v := range w.trouble[l.Run] {
			if v.Lot == l.ID || v.Lot == "" && w.j.about(l, v) && !w.fromBulk(l, v) {
				own[v.Point] = v
			}
		}
	}
	return own
}

// fromBulk says whether packs were filled from a lot in bulk that a record is about.
func (w *holding) fromBulk(l *lots.Lot, v Verdict) bool {
	if l.Sort != lots.Packs {
		return false
	}
	for p := range w.s.Parents(l) {
		if p.Sort == lots.Batch && p.Run == l.Run && w.j.about(p, v) {
			return true
		}
	}
	return false
}

// about says whether a record of a load is one of a lot: it is in the plan of a pack that the lot is, or that is filled from it; a cooling, of
// the very output. What no pack is filled from has the records of its whole dish.
func (j Judgement) about(l *lots.Lot, v Verdict) bool {
	if l.Sort == lots.Packs {
		return slices.Contains(v.Packs, l.What)
	}
	if v.Dish != l.Dish {
		return false
	}
	filled := false
	for id, x := range j.Plans {
		if x.Dish == l.Dish && slices.Contains(x.Outputs, l.What) {
			filled = true
			if slices.Contains(v.Packs, id) && (v.Output == "" || v.Output == l.What) {
				return true
			}
		}
	}
	return !filled
}

// left is what is not passed and not released of a lot and of what it is made of.
func (w *holding) left(l *lots.Lot) map[string]Verdict {
	if open, done := w.open[l]; done {
		return open
	}
	w.open[l] = nil // no lot is made of itself: loops are refused
	all := maps.Clone(w.own[l])
	if all == nil {
		all = map[string]Verdict{}
	}
	for p := range w.s.Parents(l) {
		if w.reached[p] {
			maps.Copy(all, w.left(p))
		}
	}
	for point, v := range all {
		if decisionOn(l, v).all {
			delete(all, point)
		}
	}
	w.open[l] = all
	return all
}

// decision is what was decided on a point of a lot, all in all.
type decision struct {
	all      bool           // it is released
	released record.Numbers // else: these packs are
	decided  record.Disposition
}

// decisionOn is what was decided on a point of a lot. Of several decisions the last counts, for the packs that it names.
func decisionOn(l *lots.Lot, v Verdict) (d decision) {
	for _, x := range l.Decisions {
		if !slices.ContainsFunc(x.Points, func(named string) bool {
			point, stood := PointOf(named)
			return point == v.Point && covers(stood, v.Outcome)
		}) {
			continue
		}
		whole, release := x.Numbers.Empty(), x.Disposition == record.ReleaseForUse
		switch {
		case whole:
			d = decision{all: release}
		case release:
			d.released = d.released.Union(x.Numbers)
		case d.all:
			d.all, d.released = false, l.Numbers.Minus(x.Numbers)
		default:
			d.released = d.released.Minus(x.Numbers)
		}
		if !release {
			d.decided = x.Disposition
		}
	}
	return d
}

// hold is what holds a lot, but for packs that are released of every point that is open.
func (w *holding) hold(l *lots.Lot) []lots.Hold {
	open := w.left(l)
	if len(open) == 0 || l.Sort == lots.Pot || l.Sort == lots.Unknown {
		return nil
	}
	h := lots.Hold{Since: l.Born}
	free := l.Numbers
	var worst Verdict
	for _, point := range slices.Sorted(maps.Keys(open)) {
		v := open[point]
		h.Points = append(h.Points, v.Stands())
		d := decisionOn(l, v)
		free = free.Intersect(d.released)
		if d.decided == record.Destroy || h.Decided == "" {
			h.Decided = d.decided
		}
		if worst.Point == "" || Worse(worst.Outcome, v.Outcome) != worst.Outcome {
			worst = v
		}
	}
	if !free.Empty() {
		if h.Numbers = l.Numbers.Minus(free); h.Numbers.Empty() {
			return nil
		}
	}
	h.Why = why(worst, len(open))
	return []lots.Hold{h}
}

// why is what holds a lot, in words.
func why(v Verdict, points int) string {
	text := fmt.Sprintf("critical record %s: %s", inWords[v.Outcome], v.Title)
	if v.Loads > 1 {
		text += fmt.Sprintf(", load %d of %d", v.Load, v.Loads)
	}
	if v.Run != "" {
		text += " (" + v.Run + ")"
	}
	if text += ": " + v.Says; points > 1 {
		text += fmt.Sprintf("; and %d more", points-1)
	}
	return text
}

var inWords = map[Outcome]string{Missing: "missing", Incomplete: "incomplete", Fail: "failed"}
