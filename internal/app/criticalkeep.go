package app

import (
	"kettlefrost/internal/critical"
	"kettlefrost/internal/record"
)

// criticalKeeper keeps up what was entered, and what has to be judged again.
type criticalKeeper struct {
	state  critical.State
	dirty  map[string]bool
	goods  map[record.Lot]bool
	judged *judging
}

func (k *criticalKeeper) changed(c record.Change) {
	about := c.Is
	if about == nil {
		about = c.Was
	}
	if about == nil {
		return
	}
	switch about.Kind {
	case record.Calibrated{}.Kind(), record.Logged{}.Kind():
		k.touched(about)
		return
	case record.HazardPlan{}.Kind(), record.PlanReviewed{}.Kind():
		for run, j := range k.judged.runs {
			if j.began >= about.Happened {
				k.dirty[run] = true
			}
		}
		return
	}
	runs, goods := k.state.Drop(about.ID)
	if c.Is != nil {
		r, g := k.state.Put(*c.Is)
		runs, goods = append(runs, r...), append(goods, g...)
	}
	for _, run := range runs {
		k.dirty[run] = true
	}
	for _, lot := range goods {
		k.goods[lot] = true
	}
}

// touched marks the runs that a check of a thermometer, or a file of a logger, is about.
func (k *criticalKeeper) touched(e *record.Entry) {
	body, err := record.Decode(e.Kind, e.Body)
	if err != nil {
		return
	}
	var names []string
	switch b := body.(type) {
	case record.Calibrated:
		names = []string{b.Instrument}
	case record.Logged:
		names = b.Probes
	}
	for run, j := range k.judged.runs {
		for _, name := range names {
			k.dirty[run] = k.dirty[run] || j.with[name]
		}
		if !k.dirty[run] {
			delete(k.dirty, run)
		}
	}
}

func (k *criticalKeeper) due() bool { return false }

func (k *criticalKeeper) bring(*record.Standing) {}
