package draw

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// wordsBeneath are those that stand beneath in any case: what is flagged, what has no temperature, where nothing was read, what the bands are.
func (h *tempLayout) wordsBeneath() {
	for _, b := range h.Bands {
		if b.Name != "" {
			h.beneath.add(item{sign: swatch, wide: 36, text: b.Name, fresh: true})
		}
	}
	for _, t := range h.traces {
		whose := ""
		if len(h.traces) > 1 {
			whose = t.Name + ": "
		}
		if t.flagged > 0 {
			h.beneath.add(item{sign: flagSample, text: fmt.Sprintf("%s%d flagged:", whose, t.flagged), fresh: true})
			for _, words := range t.whyFlagged() {
				h.beneath.add(item{text: words})
			}
		}
		if t.blank > 0 {
			h.beneath.add(item{sign: blankSign, text: whose + counted(t.blank, "reading") + " without a temperature", fresh: true})
		}
	}
	if words := h.gapWords(); words != "" {
		h.beneath.add(item{sign: hatchSample, wide: 36, text: words, fresh: true})
	}
}

// flagWords is how many readings are flagged, and why.
func (t tempTrace) flagWords() string {
	if t.flagged == 0 {
		return ""
	}
	return fmt.Sprintf("%d flagged: %s", t.flagged, strings.Join(t.whyFlagged(), ", "))
}

// whyFlagged is each flag with how often it was given.
func (t tempTrace) whyFlagged() (why []string) {
	for _, f := range slices.Sorted(maps.Keys(t.flags)) {
		why = append(why, fmt.Sprintf("%s %d", f, t.flags[f]))
	}
	return why
}

// gapWords is how long nothing was read.
func (h tempLayout) gapWords() string {
	if len(h.gaps) == 0 {
		return ""
	}
	sum, longest := 0.0, reach{}
	for _, g := range h.gaps {
		sum += g.high - g.low
		if g.high-g.low > longest.high-longest.low {
			longest = g
		}
	}
	if len(h.gaps) == 1 {
		return fmt.Sprintf("nothing read for %s, from %s to %s", lasting(sum), h.clock(longest.low), h.clock(longest.high))
	}
	return fmt.Sprintf("%d gaps, nothing read for %s in all, the longest from %s to %s", len(h.gaps), lasting(sum), h.clock(longest.low), h.clock(longest.high))
}

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// said is the chart in words.
func (h tempLayout) said() string {
	var all []string
	if h.Desc != "" {
		all = append(all, h.Desc)
	}
	for _, t := range h.traces {
		all = append(all, h.spoken(t)+".")
		if words := t.flagWords(); words != "" {
			all = append(all, t.Name+": "+words+".")
		}
	}
	if words := h.gapWords(); words != "" {
		all = append(all, strings.ToUpper(words[:1])+words[1:]+".")
	}
	for _, l := range h.Limits {
		all = append(all, "Limit: "+l.Name+".")
	}
	for _, s := range h.Stages {
		all = append(all, fmt.Sprintf("%s: %s to %s.", s.Name, h.clock(s.FromS), h.clock(s.UntilS)))
	}
	for _, m := range h.Marks {
		all = append(all, fmt.Sprintf("%s: %s at %s.", m.Text, bothTenths(m.TempC, h.Units), h.clock(m.TimeS)))
	}
	for _, m := range h.moments() {
		all = append(all, fmt.Sprintf("%s at %s.", m.Text, h.clock(m.TimeS)))
	}
	return strings.Join(all, " ")
}

// unread is what there is to say of a chart that has no temperature to show.
func (h tempLayout) unread() string {
	var all []string
	for _, t := range h.traces {
		if n := len(t.all) + t.undrawn; n > 0 {
			all = append(all, h.spoken(t)+".")
		}
	}
	return strings.Join(all, " ")
}

// spoken is a trace in few words.
func (h tempLayout) spoken(t tempTrace) string {
	low, high, ok := t.extremes()
	if !ok {
		return fmt.Sprintf("%s: %s, none with a temperature", t.Name, counted(len(t.all)+t.undrawn, "reading"))
	}
	if t.Computed {
		return fmt.Sprintf("%s, computed: lowest %s at %s, highest %s at %s", t.Name, bothTenths(low.TempC, h.Units), h.clock(low.TimeS), bothTenths(high.TempC, h.Units), h.clock(high.TimeS))
	}
	text := fmt.Sprintf("%s: %s from %s to %s, lowest %s at %s, highest %s at %s", t.Name, counted(len(t.all), "reading"), h.clock(t.all[0].TimeS), h.clock(t.all[len(t.all)-1].TimeS),
		bothTenths(low.TempC, h.Units), h.clock(low.TimeS), bothTenths(high.TempC, h.Units), h.clock(high.TimeS))
	if t.blank > 0 {
		text += fmt.Sprintf(", %d without a temperature", t.blank)
	}
	if t.undrawn > 0 {
		text += fmt.Sprintf(", %d that cannot be drawn", t.undrawn)
	}
	return text
}

// Table is what was read between the ticks of the chart: of each trace the lowest, the highest and the number of readings, and what stands at
// which time. Nothing in it is interpolated.
func (t TempChart) Table() Table {
	c := t.cleaned()
	table := Table{Head: []string{"from"}}
	for _, trace := range c.traces {
		table.Head = append(table.Head, trace.Name+", lowest", trace.Name+", highest", trace.Name+", readings")
	}
	table.Head = append(table.Head, "note")
	h := tempLayout{tempChart: c}
	if h.empty() {
		return table
	}
	starts := []float64{c.From}
	for _, k := range h.timeTicks(24) {
		if k.at > c.From+1 && k.at < c.Until-1 {
			starts = append(starts, k.at)
		}
	}
	for i, from := range starts {
		until := c.Until + 1
		if i+1 < len(starts) {
			until = starts[i+1]
		}
		row := []string{c.clock(from)}
		for _, trace := range c.traces {
			row = append(row, c.between(trace, from, until)...)
		}
		table.Rows = append(table.Rows, append(row, h.notes(from, until)))
	}
	return table
}

func (c tempChart) between(t tempTrace, from, until float64) []string {
	some := tempTrace{}
	for _, p := range t.all {
		if p.TimeS >= from && p.TimeS < until {
			some.all = append(some.all, p)
		}
	}
	low, high, ok := some.extremes()
	if !ok {
		return []string{none, none, fmt.Sprint(len(some.all))}
	}
	return []string{tenthDegrees(low.TempC, c.Units), tenthDegrees(high.TempC, c.Units), fmt.Sprint(len(some.all))}
}

// notes are what stands between two times: limits to be met, marks, moments, flags.
func (h tempLayout) notes(from, until float64) string {
	within := func(timeS float64) bool { return timeS >= from && timeS < until }
	var all []string
	for _, l := range h.Limits {
		if l.Gate && within(l.UntilS) {
			all = append(all, "limit: "+l.Name)
		}
	}
	for _, m := range h.Marks {
		if within(m.TimeS) {
			all = append(all, m.Text)
		}
	}
	for _, m := range h.moments() {
		if within(m.TimeS) {
			all = append(all, m.Text)
		}
	}
	odd := 0
	for _, t := range h.traces {
		for _, p := range t.odd {
			if within(p.TimeS) {
				odd++
			}
		}
	}
	if odd > 0 {
		all = append(all, fmt.Sprintf("%d marked as odd", odd))
	}
	return strings.Join(all, "; ")
}
