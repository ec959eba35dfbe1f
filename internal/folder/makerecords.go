package folder

import (
	"cmp"
	"slices"

	"kettlefrost/internal/critical"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// records are the critical records that are about the lots, in the order of the work.
func (m Material) records() (all []Record) {
	for _, v := range m.Judged {
		about := m.aboutLots(v)
		if len(about) == 0 && !m.Reach.whole[v.Run] {
			continue
		}
		x := Record{Verdict: v, Lots: about, logs: v.Logs}
		x.Logs = nil
		for _, l := range v.Logs {
			x.Traces = append(x.Traces, trace(l))
		}
		x.Decided = m.decided(v.Point, about)
		all = append(all, x)
	}
	slices.SortStableFunc(all, func(a, b Record) int {
		return cmp.Or(cmp.Compare(a.Run, b.Run), cmp.Compare(stageNo(a.What), stageNo(b.What)), cmp.Compare(a.Dish, b.Dish), cmp.Compare(a.Point, b.Point))
	})
	return all
}

func stageNo(w critical.What) int {
	return slices.Index([]critical.What{critical.Door, critical.Unplanned, critical.Cooking, critical.Cooling, critical.Label, critical.Frozen}, w)
}

// aboutLots are the lots of the folder that a record is about: the lot that it names, or those of the dish in the run.
func (m Material) aboutLots(v critical.Verdict) (about []record.Lot) {
	about = []record.Lot{}
	if v.Lot != "" {
		if m.Reach.lots[v.Lot] {
			about = append(about, v.Lot)
		}
		return about
	}
	if !slices.Contains(m.Reach.Runs, v.Run) || v.Dish != "" && !m.Reach.dishes[potKey(v.Run, v.Dish)] && m.Reach.anyDish(v.Run) {
		return about
	}
	for _, id := range slices.Concat(m.Reach.Asked, m.Reach.Behind) {
		l := m.State.Lot(id)
		if l != nil && l.Run == v.Run && (l.Sort == lots.Packs && slices.Contains(v.Packs, l.What) && m.fedBy(id, v.Run, v.Dish) || l.Sort == lots.Batch && l.Dish == v.Dish) {
			about = append(about, id)
		}
	}
	return about
}

// fedBy says whether a lot of packs was filled from a dish of a run; where nobody said from what, it may have been.
func (m Material) fedBy(id record.Lot, run, dish string) bool {
	told := false
	for _, f := range m.Reach.Flows {
		if f.To != id {
			continue
		}
		told = true
		if l := m.State.Lot(f.From); l == nil || l.Run == run && (l.Dish == dish || dish == "") {
			return true
		}
	}
	return !told
}

func trace(l critical.Log) Trace {
	t := Trace{Where: l.Where, Count: len(l.Readings)}
	for i, r := range l.Readings {
		if i == 0 || r.TempC < t.LowC {
			t.LowC = r.TempC
		}
		if i == 0 || r.TempC > t.HighC {
			t.HighC = r.TempC
		}
		if i == 0 {
			t.From = r.At
		}
		t.Until = r.At
		if r.Entry != "" {
			t.Typed++
		}
		if r.Flags != "" {
			t.Flagged++
		}
		if !slices.Contains(t.Instruments, r.Instrument) && r.Instrument != "" {
			t.Instruments = append(t.Instruments, r.Instrument)
		}
	}
	slices.Sort(t.Instruments)
	return t
}

// decided is what was decided on a record of the lots.
func (m Material) decided(point string, about []record.Lot) (all []Decision) {
	for _, id := range slices.Concat(about, m.Reach.Asked) {
		l := m.State.Lot(id)
		if l == nil {
			continue
		}
		for _, d := range l.Decisions {
			for _, named := range d.Points {
				if name, stood := critical.PointOf(named); name == point && !slices.ContainsFunc(all, func(x Decision) bool { return x.Entry == d.Entry }) {
					all = append(all, Decision{d.Entry, d.At, d.Who, id, d.Disposition, stood, d.Why})
				}
			}
		}
	}
	slices.SortFunc(all, func(a, b Decision) int {
		return cmp.Or(cmp.Compare(a.At, b.At), slices.Compare(a.Entry[:], b.Entry[:]))
	})
	return all
}
