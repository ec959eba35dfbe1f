package sheet

import (
	"fmt"
	"math"
	"strings"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
	"kettlefrost/internal/thermometers"
	"kettlefrost/internal/unit"
)

// ThermometersText is all thermometers, those first that are to be checked first. Clock says a time in words.
func ThermometersText(b thermometers.Bench, now record.Instant, found finding.List, units unit.System, clock func(record.Instant) string) string {
	found = append(b.Findings(now, units), found...)
	found.Sort()
	w := listWriter("Thermometers, those first that are to be checked first", found, units)
	t := table{columns: []column{{head: "thermometer"}, {head: "what", wraps: true}, {head: "stands"}, {head: "last checked"}, {head: "next due"}, {head: "wrong by up to", right: true}}}
	for _, r := range b.Rows(now) {
		last, due, wrong := "never", "", thermometers.Difference(r.Trust.AccuracyC, units)
		if r.Last != nil {
			last = clock(r.Last.At)
		}
		if r.Due != 0 {
			due = clock(r.Due)
		}
		if r.Trust.Unusable {
			wrong = "proves nothing"
		}
		t.add(r.ID, r.Name, string(r.Standing), last, due, wrong)
	}
	w.table(t)
	if len(t.rows) == 0 {
		w.para(0, "The book has no thermometers, and no check names one.")
	}
	return w.String()
}

// WatchText is what the probes in freezers and walk-ins show, with every time in which one was too warm or nobody knows.
func WatchText(seen []coldwatch.Seen, deeds *coldwatch.Deeds, found finding.List, units unit.System, clock func(record.Instant) string) string {
	w := listWriter("Freezers and walk-ins, as their probes read them", found, units)
	t := table{columns: []column{{head: "place"}, {head: "probe"}, {head: "read last", right: true}, {head: "at"}, {head: "limit", right: true}, {wraps: true}}}
	for _, s := range seen {
		last, at := "nothing", ""
		if s.Last != nil {
			last, at = coldwatch.Degrees(s.Last.TempC, units), clock(s.Last.At)
		}
		t.add(string(s.Place), s.Probe, last, at, coldwatch.Degrees(s.LimitC, units), stateWords(s))
		for _, x := range s.Stretches {
			t.under(2, stretchWords(s, x, deeds, units, clock))
		}
	}
	w.table(t)
	if len(t.rows) == 0 {
		w.para(0, "By the book no thermometer watches a freezer or a walk-in.")
	}
	w.gap()
	w.para(0, coldwatch.Guidance+" Source: "+coldwatch.GuidanceSource+". Your local authority decides.")
	return w.String()
}

func stateWords(s coldwatch.Seen) string {
	x, on := s.Now()
	switch {
	case s.Ms() == 0:
		return "nothing has ever come: not known"
	case on && x.Kind == coldwatch.TooWarm && s.Silent != 0:
		return "too warm, then silent"
	case on && x.Kind == coldwatch.TooWarm:
		return "TOO WARM"
	case s.Silent != 0 && s.Logger:
		return "not known until it is read out"
	case s.Silent != 0:
		return "silent: not known"
	}
	return "as last read, not over its limit"
}

func stretchWords(s coldwatch.Seen, x coldwatch.Stretch, deeds *coldwatch.Deeds, units unit.System, clock func(record.Instant) string) string {
	words := []string{"from " + clock(x.From) + " to " + clock(x.Until)}
	if !x.Ended {
		words[0] = "since " + clock(x.From)
	}
	if x.Kind == coldwatch.NotKnown {
		words = append(words, "not known for "+coldwatch.Length(x.Ms()))
	} else {
		words = append(words, "too warm for up to "+coldwatch.Length(x.Ms()), "at the warmest "+coldwatch.Degrees(x.PeakC, units))
		if x.UnknownMs > 0 {
			words = append(words, coldwatch.Length(x.UnknownMs)+" of it not known")
		}
	}
	switch {
	case deeds.Answered(s.Watch, x):
		words = append(words, "answered")
	case x.Asks():
		words = append(words, "look at what lay there")
	}
	return strings.Join(words, ", ")
}

// ExposedText is what lay in a place while it was too warm or nobody knows, the gravest first.
func ExposedText(s coldwatch.Seen, x coldwatch.Stretch, all []coldwatch.Exposure, units unit.System, clock func(record.Instant) string) string {
	w := listWriter(fmt.Sprintf("What lay in %s from %s to %s", s.PlaceName, clock(x.From), clock(x.Until)), nil, units)
	t := table{columns: []column{{head: "lot"}, {head: "what", wraps: true}, {head: "how much"}, {head: "there for"}, {head: "air, warmest", right: true}, {head: "life it took", right: true}, {head: "do", wraps: true}}}
	for _, e := range all {
		t.add(string(e.Lot.ID), e.Lot.What, w.amountOf(e.Amount), coldwatch.Length(e.Ms), peakWords(e, units), lifeWords(e), e.Advice.String()+heldWords(e))
		if !e.Sure {
			t.under(2, "nobody said just where it lay")
		}
		for _, g := range e.Gone {
			t.under(2, "handed over since: packs "+g.Numbers.String()+" to "+g.Customer)
		}
	}
	w.table(t)
	if len(t.rows) == 0 {
		w.para(0, "By the records nothing lay there.")
	}
	if s.Kind == coldstore.Frozen && len(t.rows) > 0 {
		w.para(0, "inspect and measure: hold them, and look at each. "+coldwatch.VacuumCaution)
	}
	return w.String()
}

func peakWords(e coldwatch.Exposure, units unit.System) string {
	if math.IsNaN(e.PeakC) {
		return "not known"
	}
	return coldwatch.Degrees(e.PeakC, units)
}

func lifeWords(e coldwatch.Exposure) string {
	switch {
	case !e.Reckoned():
		return "-"
	case e.UnknownMs == e.Ms:
		return "not known"
	}
	return fmt.Sprintf("%.1f to %.1f %%", 100*e.Used.Low, 100*e.Used.High)
}

func heldWords(e coldwatch.Exposure) string {
	switch {
	case !e.Advice.Hold():
		return ""
	case e.Kept:
		return " (held)"
	}
	return " (not held)"
}

// calibrated is a check of a thermometer.
func calibrated(b record.Calibrated, units unit.System) string {
	says := fmt.Sprintf("checked the thermometer %s: read %s for %s", b.Instrument, coldwatch.Degrees(b.Read.C(), units), coldwatch.Degrees(b.True.C(), units))
	switch b.Kept {
	case record.Adjusted:
		says += ", adjusted"
		if b.After != nil {
			says += ", then " + coldwatch.Degrees(b.After.C(), units)
		}
	case record.Withdrawn:
		says += ", withdrawn"
	}
	return says
}
