package trials

import (
	"slices"
	"strings"
	"time"

	"kettlefrost/internal/record"
)

// Opening is a week of a trial in which packs are opened.
type Opening struct {
	Trial    string
	Dish     string
	Week     record.Week
	Due      record.Day // "" as long as a batch is missing
	Stands   Stands
	Measured int      // packs of that week that were measured
	Packs    int      // to be measured
	Left     []Left   // packs that were not measured
	Tasters  []string // who have not tasted all
}

// Left is a pack that was not measured.
type Left struct {
	Variant string
	Number  int64
}

// Stands is how an opening stands on a day.
type Stands string

// How openings stand.
const (
	NotFrozen Stands = "not frozen" // not every batch was made
	Ahead     Stands = "ahead"
	DueToday  Stands = "due today"
	Overdue   Stands = "overdue"
	Done      Stands = "done"
	Ended     Stands = "ended" // the trial was closed before
)

// Frozen is the day from which weeks count: the last on which a batch went into the freezer; "" as long as one is missing.
func (t Trial) Frozen() record.Day {
	if len(t.Made) < len(t.Laid.Body.Variants) {
		return ""
	}
	var last record.Day
	for _, m := range t.Made {
		last = max(last, m.Body.Frozen)
	}
	return last
}

// after is the day so many weeks later; "" for no day.
func after(day record.Day, weeks record.Week) record.Day {
	at, err := time.Parse(time.DateOnly, string(day))
	if err != nil {
		return ""
	}
	return record.Day(at.AddDate(0, 0, 7*int(weeks)).Format(time.DateOnly))
}

// midnight is the beginning of a day in UTC, in milliseconds since 1970; false for no day.
func midnight(day record.Day) (int64, bool) {
	at, err := time.Parse(time.DateOnly, string(day))
	return at.UnixMilli(), err == nil
}

// Openings are the weeks of a trial as they stand on a day.
func (t Trial) Openings(today record.Day) []Opening {
	var all []Opening
	for _, w := range t.Laid.Body.Weeks {
		o := Opening{Trial: t.Name, Dish: t.Laid.Body.Dish, Week: w}
		if t.measures() {
			o.Packs = len(t.Laid.Body.Variants) * int(t.Laid.Body.Packs)
		}
		if frozen := t.Frozen(); frozen != "" {
			o.Due = after(frozen, w)
		}
		o.Left = t.left(w)
		o.Measured = o.Packs - len(o.Left)
		if t.tastes() {
			o.Tasters = t.waitingFor(w)
		}
		o.Stands = o.stands(today, t.Closed != nil)
		all = append(all, o)
	}
	return all
}

func (o Opening) stands(today record.Day, closed bool) Stands {
	switch {
	case len(o.Left) == 0 && len(o.Tasters) == 0:
		return Done
	case closed:
		return Ended
	case o.Due == "":
		return NotFrozen
	case o.Due < today:
		return Overdue
	case o.Due == today:
		return DueToday
	}
	return Ahead
}

// measures says whether something is measured of each pack, tastes whether something is scored.
func (t Trial) measures() bool {
	return slices.ContainsFunc(t.Laid.Body.Figures, func(f record.Figured) bool { return !isScored(f) })
}
func (t Trial) tastes() bool { return slices.ContainsFunc(t.Laid.Body.Figures, isScored) }

// left are the packs of a week that were not measured; none where nothing is measured.
func (t Trial) left(w record.Week) []Left {
	if !t.measures() {
		return nil
	}
	var all []Left
	for number := int64(1); number <= t.Laid.Body.Packs; number++ {
		for _, v := range t.Laid.Body.Variants {
			if _, done := t.Pack(v.Name, w, number); !done {
				all = append(all, Left{v.Name, number})
			}
		}
	}
	return all
}

// Pack is the entry of a pack that was measured; false when it was not.
func (t Trial) Pack(variant string, w record.Week, number int64) (Said[record.TrialOpened], bool) {
	for _, o := range t.Opened {
		if o.Body.Variant == variant && o.Body.Week == w && o.Body.Number == number {
			return o, true
		}
	}
	return Said[record.TrialOpened]{}, false
}

// ScoreOf is what a taster said of a code; false when they have not.
func (t Trial) ScoreOf(taster int, code string) (Scored, bool) {
	for _, s := range t.Scored {
		if s.Taster == taster && s.Body.Code == code {
			return s, true
		}
	}
	return Scored{}, false
}

// waitingFor are the tasters who have not scored every code of a week.
func (t Trial) waitingFor(w record.Week) []string {
	var all []string
	for i, name := range t.Laid.Body.Tasters {
		if slices.ContainsFunc(t.Served(i, w), func(code string) bool { _, done := t.ScoreOf(i, code); return !done }) {
			all = append(all, name)
		}
	}
	return all
}

// mostNamed is how many people are named, rather than counted.
const mostNamed = 4

// Waiting are people in a few words: by their names, or how many they are.
func Waiting(names []string) string {
	if len(names) > mostNamed {
		return counted(len(names), "person", "people")
	}
	return strings.Join(names, ", ")
}

// Due are the openings of all trials that are due today or overdue, the earliest first.
func Due(all []Trial, today record.Day) []Opening {
	var due []Opening
	for _, t := range all {
		for _, o := range t.Openings(today) {
			if o.Stands == DueToday || o.Stands == Overdue {
				due = append(due, o)
			}
		}
	}
	slices.SortStableFunc(due, func(a, b Opening) int {
		switch {
		case a.Due < b.Due:
			return -1
		case a.Due > b.Due:
			return 1
		}
		return 0
	})
	return due
}
