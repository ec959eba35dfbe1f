package folder

import (
	"slices"
	"strings"

	"kettlefrost/internal/record"
)

// heeds are the kinds of entries that a folder can rest on.
var heeds = map[record.Kind]bool{
	record.Received{}.Kind(): true, record.Used{}.Kind(): true, record.Made{}.Kind(): true, record.Packed{}.Kind(): true, record.Moved{}.Kind(): true, record.Counted{}.Kind(): true,
	record.WrittenOff{}.Kind(): true, record.Held{}.Kind(): true, record.Released{}.Kind(): true, record.HandedOver{}.Kind(): true, record.Returned{}.Kind(): true, record.Wasted{}.Kind(): true,
	record.SetAside{}.Kind(): true, record.Tasted{}.Kind(): true,
	record.Opened{}.Kind(): true, record.Closed{}.Kind(): true, record.Started{}.Kind(): true, record.Finished{}.Kind(): true, record.Skipped{}.Kind(): true,
	record.Measured{}.Kind(): true, record.Watched{}.Kind(): true, record.Acted{}.Kind(): true, record.Calibrated{}.Kind(): true, record.Logged{}.Kind(): true,
	record.HazardPlan{}.Kind(): true, record.PlanReviewed{}.Kind(): true, record.Signed{}.Kind(): true, record.Noted{}.Kind(): true,
}

// ofFood says whether an entry is about the lots, what went into them, or the work on them. Of what went into them only where it came from, what
// of it went in here, and what it was held for: not where the rest of it went.
func (r *Reach) ofFood(body record.Body, _ record.Entry) bool {
	switch b := body.(type) {
	case record.Received:
		return r.lots[b.Lot]
	case record.Made:
		return r.lots[b.Lot]
	case record.Packed:
		return r.lots[b.Lot]
	case record.Used:
		return r.dishes[potKey(b.Run, b.Dish)] || r.asked[b.Lot]
	case record.Wasted:
		return r.dishes[potKey(b.Run, b.Dish)]
	case record.Held:
		return r.lots[b.Lot]
	case record.Released:
		return r.lots[b.Lot]
	case record.Moved:
		return r.asked[b.Lot]
	case record.Counted:
		return r.asked[b.Lot]
	case record.WrittenOff:
		return r.asked[b.Lot]
	case record.SetAside:
		return r.asked[b.Lot]
	case record.Tasted:
		return r.asked[b.Lot]
	case record.HandedOver:
		return r.asked[b.Lot]
	case record.Returned:
		return r.asked[b.Lot]
	}
	return r.ofWork(body)
}

// ofWork says whether an entry is about the work on the dishes, or about papers of it.
func (r *Reach) ofWork(body record.Body) bool {
	run := func(name string) bool { return slices.Contains(r.Runs, name) }
	switch b := body.(type) {
	case record.Opened:
		return run(b.Run)
	case record.Closed:
		return run(b.Run)
	case record.Started:
		return r.task(b.Run, b.Task)
	case record.Finished:
		return r.task(b.Run, b.Task)
	case record.Skipped:
		return r.task(b.Run, b.Task)
	case record.Measured:
		return r.work(b.Run, b.Dish, b.Task)
	case record.Watched:
		return r.lots[b.Lot] || r.work(b.Run, b.Dish, b.Task)
	case record.Acted:
		return r.lots[b.Lot] || r.task(b.Run, b.Task)
	case record.HazardPlan:
		return slices.Contains(r.Packs, b.Pack)
	case record.PlanReviewed:
		return slices.Contains(r.Packs, b.Pack)
	case record.Signed:
		return r.about(b.About)
	case record.Noted:
		return r.about(b.About)
	}
	return false
}

// task says whether a task of a run is on one of the dishes: tasks are called dish/step/load, and what is called otherwise is of all of them.
func (r *Reach) task(run, task string) bool {
	if !slices.Contains(r.Runs, run) || task == "" {
		return false
	}
	if r.whole[run] {
		return true
	}
	dish, _, named := strings.Cut(task, "/")
	return !named || r.dishes[potKey(run, dish)] || !r.anyDish(run)
}

// anyDish says whether it is known which dishes of a run the lots are of.
func (r *Reach) anyDish(run string) bool {
	for d := range r.dishes {
		if strings.HasPrefix(d, run+"/") {
			return true
		}
	}
	return false
}

func (r *Reach) work(run, dish, task string) bool {
	return run != "" && (r.whole[run] || dish != "" && r.dishes[potKey(run, dish)] || r.task(run, task))
}

// about says whether a name is that of a lot or a run, or of something in one.
func (r *Reach) about(name string) bool {
	if r.lots[record.Lot(name)] || slices.Contains(r.Runs, name) {
		return true
	}
	return slices.ContainsFunc(r.Runs, func(run string) bool {
		rest, in := strings.CutPrefix(name, run+"/")
		part, _, _ := strings.Cut(rest, "/")
		return in && (r.lots[record.Lot(part)] || r.dishes[potKey(run, part)])
	})
}

// ofPlaces says whether something was read or done where the lots lay, or a file of readings was taken in.
func (r *Reach) ofPlaces(body record.Body, e record.Entry) bool {
	during := e.Happened >= r.From && e.Happened <= r.Until
	switch b := body.(type) {
	case record.Measured:
		return during && b.Place != "" && b.Run == "" && slices.Contains(r.Places, Outermost(b.Place))
	case record.Watched:
		return b.Place != "" && slices.Contains(r.Places, Outermost(b.Place))
	case record.Acted:
		return during && b.Place != "" && slices.Contains(r.Places, Outermost(b.Place))
	}
	return false
}

// ofInstruments says whether an entry is a check of an instrument that something was read with, or the file that its readings came in.
func (r *Reach) ofInstruments(body record.Body, _ record.Entry) bool {
	switch b := body.(type) {
	case record.Calibrated:
		_, used := r.found[b.Instrument]
		return used
	case record.Logged:
		return slices.ContainsFunc(b.Probes, func(p string) bool { _, used := r.found[p]; return used })
	}
	return false
}

// placed is a lot and where an entry puts it.
func placed(body record.Body) (record.Lot, record.Place) {
	switch b := body.(type) {
	case record.Received:
		return b.Lot, b.Place
	case record.Made:
		return b.Lot, b.Place
	case record.Packed:
		return b.Lot, b.Place
	case record.Moved:
		return b.Lot, b.To
	case record.Counted:
		return b.Lot, b.Place
	}
	return "", ""
}

// read is the instrument that something was read with.
func read(body record.Body) string {
	switch b := body.(type) {
	case record.Measured:
		return b.Instrument
	case record.Watched:
		return b.Probe
	}
	return ""
}
