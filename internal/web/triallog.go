package web

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/trials"
	"kettlefrost/internal/unit"
)

// trialLog is what was entered of a trial, the latest first, each to be corrected or taken back, and how many more there are. What was tasted is
// told by its code.
func (s *server) trialLog(o onTrial) ([]trialEntry, int) {
	type dated struct {
		at record.Instant
		trialEntry
	}
	var all []dated
	name, back := o.t.Name, trialURL(o.t.Name, "", o.query)
	add := func(entry record.ID, at record.Instant, who, says, fix string) {
		all = append(all, dated{at, trialEntry{When: s.whenText(at), Who: who, Says: says, Fix: fix, Entry: entry.String() + "-1", Back: back}})
	}
	for _, m := range o.t.Made {
		add(m.Entry, m.At, m.Who, fmt.Sprintf("%s frozen: %s of %s", m.Body.Variant, times(int(m.Body.Packs), "pack", "packs"), o.rd.fig(m.Body.Each).First), trialURL(name, "made", o.query, "variant", m.Body.Variant))
	}
	for _, x := range o.t.Opened {
		code := o.t.CodeOf(o.t.VariantOf(x.Body.Variant), x.Body.Week)
		add(x.Entry, x.At, x.Who, fmt.Sprintf("week %d, %s: %s", x.Body.Week, packName(code, x.Body.Number, o.t.Laid.Body.Packs), packText(x.Body)), trialURL(name, "open", o.query, "week", fmt.Sprint(x.Body.Week), "code", code, "number", fmt.Sprint(x.Body.Number)))
	}
	for _, x := range o.t.Scored {
		add(x.Entry, x.At, x.Who, fmt.Sprintf("week %d, %s tasted %s", x.Body.Week, x.Body.Taster, x.Body.Code), trialURL(name, "taste", o.query, "week", fmt.Sprint(x.Body.Week), "taster", x.Body.Taster))
	}
	for _, p := range o.t.Pictures {
		add(p.Entry, p.At, p.Who, "picture "+p.Body.File, "")
	}
	if c := o.t.Closed; c != nil {
		add(c.Entry, c.At, c.Who, "closed: "+oneLine(string(c.Body.Why)), "")
	}
	slices.SortStableFunc(all, func(a, b dated) int { return cmp.Compare(b.at, a.at) })
	entries := make([]trialEntry, min(len(all), mostOfTrial))
	for i := range entries {
		entries[i] = all[i].trialEntry
	}
	return entries, len(all) - len(entries)
}

// mostOfTrial is how many entries a page lists: packs and tasters lead to the others.
const mostOfTrial = 60

// packText is what was measured of a pack.
func packText(b record.TrialOpened) string {
	var words []string
	if b.Drip != nil {
		words = append(words, trials.Amount(record.Figured{Unit: trials.Grams}, decimal(*b.Drip))+" ran out of "+gramText(b.Whole))
	}
	if b.Separation != nil {
		words = append(words, trials.Amount(record.Figured{Unit: trials.Share}, b.Separation.F())+" separated")
	}
	if b.Note != "" {
		words = append(words, oneLine(string(b.Note)))
	}
	return strings.Join(words, "; ")
}

func gramText(m unit.Mass) string { return together(m.Fine()) }

func kitchenPlace(p record.Place) kitchen.PlaceID { return kitchen.PlaceID(p) }

// sortSteps puts steps in the order of their codes, so that no order tells which variant is which.
func sortSteps(steps []trialStep) {
	slices.SortStableFunc(steps, func(a, b trialStep) int { return cmp.Compare(a.Name, b.Name) })
}
