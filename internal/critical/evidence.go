package critical

import (
	"cmp"
	"slices"
	"strings"

	"kettlefrost/internal/record"
	"kettlefrost/internal/thermometers"
)

// evidence is what was read in one load, and what was done about it.
type evidence struct {
	logs  []Log // by where in the food, that which nobody named first
	vague int   // entries that may be about this load and do not say which they are about
	inNow bool  // a probe is in it still
	acts  []Act
	worst Accuracy
}

// evidence gathers what was typed and what probes read for a load.
func (p Production) evidence(n need, set Setting) evidence {
	var e evidence
	by := map[string][]Reading{}
	outputs := p.outputsOf()
	for _, t := range p.told {
		switch b := t.Says.(type) {
		case record.Measured:
			switch mine, vague := n.about(b.Task, b.Dish, b.Output); {
			case vague:
				e.vague++
			case mine:
				where := cmp.Or(b.Point, string(b.Place))
				by[where] = append(by[where], Reading{At: t.Happened, TempC: b.Temp.C(), Instrument: b.Instrument, Entry: t.ID.String(), Who: t.Who})
			}
		case record.Watched:
			if !n.stage(b.Stage) {
				continue
			}
			dish, output := b.Dish, b.Output
			if x, made := outputs[b.Lot]; made && output == "" && b.Task == "" {
				dish, output = x.Dish, x.Output
			}
			switch mine, vague := n.about(b.Task, dish, output); {
			case vague:
				e.vague++
			case mine:
				where := cmp.Or(b.Point, "probe "+b.Probe)
				by[where] = append(by[where], set.Read[t.ID]...)
				e.inNow = e.inNow || b.Until == 0
			}
		case record.Acted:
			if under(b.Task, n.v.Task) {
				e.acts = append(e.acts, Act{t.Happened, t.Who, b.Did, b.Temp, b.Text})
			}
		}
	}
	e.lay(by)
	e.trust(set)
	return e
}

// about says whether something that names a task, or an output of a dish, is about a load; and whether it may be about another load as well.
func (n need) about(task, dish, output string) (mine, vague bool) {
	if task != "" {
		return under(task, n.v.Task), false
	}
	mine = dish == n.v.Dish && output != "" && (output == n.v.Output || slices.Contains(n.gives, output))
	if mine && n.v.Loads > 1 {
		return false, true
	}
	return mine, false
}

// stage says whether what happened to the food is what the record is about.
func (n need) stage(s record.Stage) bool {
	if n.v.What == Cooling {
		return s == record.StageCooling || s == record.StageReheating
	}
	return s == record.StageCooking
}

// outputsOf are the lots that were made, with the output of which dish each is.
func (p Production) outputsOf() map[record.Lot]record.Made {
	all := map[record.Lot]record.Made{}
	for _, b := range of[record.Made](p) {
		all[b.Lot] = b
	}
	return all
}

// lay puts readings in order, by where they were taken. What nobody said the place of is taken to be of the one other place there is.
func (e *evidence) lay(by map[string][]Reading) {
	var wheres []string
	for where, readings := range by {
		if len(readings) > 0 {
			wheres = append(wheres, where)
		}
	}
	slices.Sort(wheres)
	if len(wheres) == 2 && wheres[0] == "" {
		by[wheres[1]] = append(by[wheres[1]], by[""]...)
		wheres = wheres[1:]
	}
	for _, where := range wheres {
		l := Log{Where: where, Readings: by[where]}
		slices.SortStableFunc(l.Readings, func(a, b Reading) int { return cmp.Compare(a.At, b.At) })
		e.logs = append(e.logs, l)
	}
}

// trust marks what was read with a thermometer that was withdrawn, and finds how far wrong the others may have read.
func (e *evidence) trust(set Setting) {
	say := func(t thermometers.Trust, name string) string {
		was := thermometers.Difference(max(t.AccuracyC, codeC(t)), set.Units)
		switch {
		case t.Doubt:
			return name + " was found wrong when it was checked later: it counts as wrong by up to " + was
		case t.Overdue:
			return "the check of " + name + " was overdue or never made: it counts as wrong by up to " + was + ", which is at least what " + thermometers.CodeSource + " allows"
		case !t.Said:
			return "nobody wrote down how right " + name + " is: it counts as wrong by up to " + was + ", as " + thermometers.CodeSource + " allows"
		}
		return name + " counts as right to " + was
	}
	for i := range e.logs {
		for k := range e.logs[i].Readings {
			r := &e.logs[i].Readings[k]
			t := set.Trust(r.Instrument, r.At)
			r.Unusable = r.Unusable || t.Unusable
			if c := max(t.AccuracyC, codeC(t)); !r.Unusable && (c > e.worst.C || e.worst.Says == "") {
				e.worst = Accuracy{c, say(t, cmp.Or(r.Instrument, "a thermometer that nobody named"))}
			}
		}
	}
}

// codeC is the least that an overdue thermometer counts as wrong by.
func codeC(t thermometers.Trust) float64 {
	if t.Overdue {
		return thermometers.CodeAccuracyC
	}
	return 0
}

// empty says whether nothing was read.
func (e evidence) empty() bool { return len(e.logs) == 0 }

// usable says whether anything was read that counts.
func (e evidence) usable() bool {
	return slices.ContainsFunc(e.logs, func(l Log) bool {
		return slices.ContainsFunc(l.Readings, func(r Reading) bool { return !r.Unusable })
	})
}

// doubtful is how many readings no verdict may turn on.
func (e evidence) doubtful() (n int) {
	for _, l := range e.logs {
		for _, r := range l.Readings {
			if r.Doubtful {
				n++
			}
		}
	}
	return n
}

// nothing is the verdict where nothing was read.
func (n need) nothing(e evidence, what string) Verdict {
	v := n.v
	v.Outcome, v.Acted = Missing, e.acts
	switch {
	case e.vague > 0:
		v.Outcome, v.Why = Incomplete, WhyWhichLoad
		v.Says, v.Fix = "what was written down does not say of which load it is", "correct it, and name the load"
	case n.skip != "":
		v.Why, v.Says, v.Fix = WhySkipped, "it was skipped: "+n.skip, "if it was done after all, enter "+what
	case n.ended:
		v.Why, v.Says, v.Fix = WhyNothing, "it is done, and no temperature was written down", "enter "+what+", from paper if need be; otherwise a named person decides what becomes of the lots"
	default:
		v.Why, v.Says, v.Fix = WhyNotYet, "nothing is written down yet", "enter "+what
	}
	return v
}

// words joins what is to be said.
func words(parts ...string) string {
	return strings.Join(slices.DeleteFunc(parts, func(s string) bool { return s == "" }), "; ")
}

// nothingCounts is why readings that are there show nothing.
const nothingCounts = "nothing that was read counts: the thermometer was withdrawn, or the figures are no temperatures of food"

// Watch is a probe that is or was in the food of a record.
type Watch struct {
	Entry string // that says so
	record.Watched
}

// WatchesOf are the probes that are or were in the food of a record, the first first.
func (p Production) WatchesOf(v Verdict) []Watch {
	n := need{v: v}
	var all []Watch
	for t, b := range of[record.Watched](p) {
		if mine, _ := n.about(b.Task, b.Dish, b.Output); mine && n.stage(b.Stage) {
			all = append(all, Watch{t.ID.String(), b})
		}
	}
	return all
}
