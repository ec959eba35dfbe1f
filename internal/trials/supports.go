package trials

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"

	"kettlefrost/internal/record"
	"kettlefrost/internal/tastetrial"
	"kettlefrost/internal/unit"
)

// Support is for how many weeks a variant of a trial is known to have kept. It says nothing of safety.
type Support struct {
	Trial   string
	Dish    string
	Pack    string // "" when the trial named none
	Variant string
	Change  string // against the book, in words
	Base    bool
	Adopted bool           // the trial was closed with it, and it is not the base: the dish is made so from then on
	Each    unit.Mass      // of a pack of the trial; 0 when no batch was entered
	Since   record.Instant // from when on the dish is so: when the trial was laid out, or closed with this variant
	Past    bool           // a later trial was closed with another variant: the dish is no longer so

	Known  bool // otherwise too little was opened: Why says what is missing
	Weeks  float64
	Ending tastetrial.Ending
	Beyond bool   // in a later week the figure was found beyond its bound, not only within reach of it
	By     string // the figure that ends it, or was looked at last
	Last   record.Week
	Level  float64
	Why    string // in a sentence
}

// Ends says whether something was found that speaks against longer; else nobody has looked further, or too little was seen then to tell.
func (s Support) Ends() bool { return s.Known && s.Beyond }

// Supports is for how long the variants of a trial have kept: of all figures with a bound the one that ends soonest. What is published ends
// it too (nil for nothing).
func (t Trial) Supports(published *tastetrial.Published) []Support {
	var all []Support
	for i, v := range t.Laid.Body.Variants {
		s := Support{Trial: t.Name, Dish: t.Laid.Body.Dish, Pack: t.Laid.Body.Pack, Variant: v.Name, Change: string(v.Change), Base: v.Base, Since: t.Laid.At, Level: Level}
		for _, m := range t.Made {
			if m.Body.Variant == v.Name {
				s.Each = m.Body.Each
			}
		}
		if t.adopts() && t.Closed.Body.Adopted == v.Name {
			s.Adopted, s.Since = true, t.Closed.At
		}
		t.support(&s, i, published)
		all = append(all, s)
	}
	return all
}

func (t Trial) support(s *Support, variant int, published *tastetrial.Published) {
	bounded := 0
	for _, f := range t.Laid.Body.Figures {
		if f.Bound == nil {
			continue
		}
		bounded++
		seen := t.SeenOf(f)
		if weeks, _ := valuesOf(seen, variant, everyWeek); len(weeks) > 0 {
			s.Last = max(s.Last, record.Week(slices.Max(weeks)))
		}
		l := lasting(f, seen, variant, published)
		switch {
		case l.Best == nil:
			s.Known, s.Why = false, fmt.Sprintf("of %s too little was seen: %s", f.Figure, l.Not)
			return
		case l.Best.Ending == tastetrial.NotSupported && !l.Best.Beyond:
			s.Known, s.Why = false, fmt.Sprintf("of %s too little was seen to tell: already in the first week opened it may be %s, beyond %s, though that was not found", f.Figure, Amount(f, l.Best.Worst), Amount(f, number(*f.Bound)))
			return
		case !s.Known || l.Best.Weeks < s.Weeks || l.Best.Weeks == s.Weeks && l.Best.Beyond:
			s.Known, s.Weeks, s.Ending, s.Beyond, s.By = true, l.Best.Weeks, l.Best.Ending, l.Best.Beyond, f.Figure
			s.Why = why(f, *l.Best)
		}
	}
	if bounded == 0 {
		s.Why = "no figure has a bound: it was not said when a pack is no longer good"
	}
}

// why is a best-before in a sentence.
func why(f record.Figured, b tastetrial.BestBefore) string {
	worst, bound := Amount(f, b.Worst), Amount(f, number(*f.Bound))
	weeks := strconv.FormatFloat(b.Weeks, 'f', -1, 64)
	switch b.Ending {
	case tastetrial.ByQuality:
		later := "the next time it was opened it may be beyond, though that was not found: too little was seen to tell"
		if b.Beyond {
			later = "the next time it was opened it was beyond"
		}
		return fmt.Sprintf("in week %s %s may be %s, within %s; %s", weeks, f.Figure, worst, bound, later)
	case tastetrial.ByLastOpened:
		return fmt.Sprintf("in week %s, the last opened, %s may be %s, within %s; nobody has looked later", weeks, f.Figure, worst, bound)
	case tastetrial.ByPublished:
		return fmt.Sprintf("what is published (%s) ends at week %s, before %s does", b.Published.Source, weeks, f.Figure)
	}
	return fmt.Sprintf("already in the first week opened %s was beyond %s (it may be %s)", f.Figure, bound, worst)
}

// Supports are those of all trials of a dish for the dish as it is made: of each trial the variant that it was closed with, or else the base.
// A trial that was laid out for another pack is left out when a pack is named. The latest comes first.
func Supports(all []Trial, dish, pack string, published *tastetrial.Published) []Support {
	var found []Support
	for _, t := range all {
		if b := t.Laid.Body; b.Dish != dish || pack != "" && b.Pack != "" && b.Pack != pack {
			continue
		}
		for _, s := range t.Supports(published) {
			if s.Adopted || s.Base && !t.adopts() {
				found = append(found, s)
			}
		}
	}
	slices.SortStableFunc(found, func(a, b Support) int { return cmp.Compare(b.Since, a.Since) })
	changed := Changed(all, dish)
	for i := range found {
		found[i].Past = found[i].Since < changed
	}
	return found
}

// Changed is when a trial of a dish was last closed with a variant: from then on the dish is made so. It is 0 when none was.
func Changed(all []Trial, dish string) (at record.Instant) {
	for _, t := range all {
		if t.Laid.Body.Dish == dish && t.adopts() {
			at = max(at, t.Closed.At)
		}
	}
	return at
}

// adopts says whether a trial was closed with a variant: the dish is then made so. Closed with the base, it stays as it is.
func (t Trial) adopts() bool {
	if t.Closed == nil {
		return false
	}
	v := t.VariantOf(t.Closed.Body.Adopted)
	return v >= 0 && v != t.Base()
}

// Together is what several trials of a dish support: where any of them saw the quality end, the soonest end; otherwise the most weeks that any
// of them has seen. It is false when none of them knows anything.
func Together(all []Support) (together Support, known bool) {
	ended := false
	for _, s := range all {
		if !s.Known || s.Past {
			continue
		}
		ends := s.Ends()
		switch {
		case !known, ends && !ended, ends && s.Weeks < together.Weeks, !ends && !ended && s.Weeks > together.Weeks:
			together = s
		}
		known, ended = true, ended || ends
	}
	return together, known
}
