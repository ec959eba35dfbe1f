package keeping

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Opened is a pack that was set aside, opened after so many weeks and tasted.
type Opened struct {
	Lot   string
	Weeks int // whole, since it was packed
	Good  bool
	Found string // the verdict in a word: good, fading, bad
	Old   bool   // it was of the dish as it was before it was changed: it does not count
}

// ofOpened is what packs that were opened support: up to the last week in which one was good, before the first in which one was not. False when
// none was opened.
func ofOpened(all []Opened) (Support, bool) {
	old := len(all)
	all = slices.DeleteFunc(slices.Clone(all), func(o Opened) bool { return o.Old })
	old -= len(all)
	if len(all) == 0 {
		return Support{Basis: ByOpened, Name: "packs kept and opened", Says: packs(old) + " opened, of the dish as it was before it was changed: they do not count", Source: "packs of this kitchen"}, old > 0
	}
	all = slices.SortedStableFunc(slices.Values(all), func(a, b Opened) int { return cmp.Compare(a.Weeks, b.Weeks) })
	s := Support{Basis: ByOpened, Name: "packs kept and opened", Counts: true, Source: "packs of this kitchen: " + lotsOf(all)}
	first := slices.IndexFunc(all, func(o Opened) bool { return !o.Good })
	until := all
	if first >= 0 {
		s.Ends = true
		until = slices.DeleteFunc(slices.Clone(all[:first]), func(o Opened) bool { return o.Weeks == all[first].Weeks })
	}
	for _, o := range until {
		s.Weeks = max(s.Weeks, o.Weeks)
	}
	s.Says = fmt.Sprintf("%s opened after %s", packs(len(all)), weeksText(all))
	switch {
	case first < 0:
		s.Says += fmt.Sprintf(": all good; nobody has opened one later than week %d", s.Weeks)
	case len(until) == 0:
		s.Says += fmt.Sprintf(": after %s one was %s, and none was good before that", weeks(all[first].Weeks), all[first].Found)
	default:
		s.Says += fmt.Sprintf(": good until week %d, and after %s one was %s", s.Weeks, weeks(all[first].Weeks), all[first].Found)
	}
	if len(all) == 1 {
		s.Says += "; one pack is little to go by"
	}
	if old > 0 {
		s.Says += fmt.Sprintf("; %s of the dish as it was before it was changed and do not count", packs(old))
	}
	return s, true
}

func lotsOf(all []Opened) string {
	var names []string
	for _, o := range all {
		names = append(names, o.Lot)
	}
	names = slices.Compact(slices.Sorted(slices.Values(names)))
	if len(names) > 5 {
		return fmt.Sprintf("%s and %d more lots", strings.Join(names[:4], ", "), len(names)-4)
	}
	return strings.Join(names, ", ")
}

func weeksText(all []Opened) string {
	var texts []string
	last := -1
	for _, o := range all {
		if o.Weeks != last {
			texts = append(texts, fmt.Sprint(o.Weeks))
		}
		last = o.Weeks
	}
	if len(texts) == 1 {
		return weeks(last)
	}
	return strings.Join(texts[:len(texts)-1], ", ") + " and " + weeks(last)
}

func weeks(n int) string {
	if n == 1 {
		return "1 week"
	}
	return fmt.Sprintf("%d weeks", n)
}

func packs(n int) string {
	if n == 1 {
		return "1 pack was"
	}
	return fmt.Sprintf("%d packs were", n)
}
