package freezing

import (
	"math"

	"kettlefrost/internal/heat"
)

// Kind is a number of equal packs that are to be frozen.
type Kind struct {
	Pack   Pack
	Count  int     // 0 to 20000, of all kinds together too
	ReadyS float64 // when they can go in, from the first day's loading; 0 to 1e7
	// Placing left out is that of each freezer.
	Placing Placing
}

// Want is what a schedule is asked for.
type Want struct {
	Kinds    []Kind
	Freezers []Freezer
	Days     int     // loadings, one a day; 1 to 60
	WaitS    float64 // how long a pack may wait in the refrigerator for its turn, at most 60 days; 0 is UsualWaitS. The caller answers for it.
	HoldC    float64 // refrigerator: what has waited for a later day starts no warmer; 0 is 5 °C (41 °F)
	Limits   Limits
}

const (
	// UsualWaitS is two days, common practice: the keeping time of cooked food in a vacuum pack is ruled by the local code, and is shorter
	// where no approved plan covers it.
	UsualWaitS = 2 * daySeconds
	holdC      = 5
	mostDays   = 60
	mostKinds  = 100
)

// Place is one cabinet.
type Place struct {
	Freezer int // index of Want.Freezers
	Cabinet int // 0 to its Count-1
}

// Entry is packs of one kind going into one cabinet on one day.
type Entry struct {
	Day, Kind int
	Place     Place
	Count     int
	InS       float64 // from the first day's loading
	CoreC     float64 // that is asked of it in this freezer
	FrozenS   float64 // when the core is there, from the first day's loading
	RewarmedC float64 // warmest point of these packs after that
}

// Waiting is what was not placed.
type Waiting struct {
	Kind, Count int
	MassKg      float64
	Why         Reason
}

// Reason is why packs were not placed.
type Reason int

const (
	NoFreezer Reason = iota + 1 // no freezer freezes even one in time without breaking a limit
	NoRoom                      // the freezers are full
	NoDay                       // the days asked for, or the days it may wait, are over before its turn
)

// CabinetLoad is the simulation of everything that goes into one cabinet over all days: the check of the schedule.
type CabinetLoad struct {
	Place Place
	Load  Loaded
}

// Schedule is who goes in where and when. Every cabinet's whole load was simulated: cores in time, old stock and what is already frozen
// within their limit.
type Schedule struct {
	Entries  []Entry
	Waiting  []Waiting
	Cabinets []CabinetLoad // those that get anything
	Days     int           // loadings used
	FrozenS  float64       // when the last core is there
	// LeastDays is a bound: measured by each kind's own daily intake, no schedule that places all has fewer loadings, as long as no cabinet's
	// day is given more than 1.1 by shares. Here none is; where very thick packs lie among thin ones it would bear more. 0 where it says
	// nothing, because something cannot be placed at all.
	LeastDays int
	Placed    int
	Intakes   [][]float64 // packs a day of one kind alone: of each freezer, of each kind; without regard to room
}

// NotPlaced is how many packs are left over, and their mass.
func (s Schedule) NotPlaced() (count int, massKg float64) {
	for _, w := range s.Waiting {
		count += w.Count
		massKg += w.MassKg
	}
	return count, massKg
}

// whole is the want with what was left out put in, checked.
func (w Want) whole() (Want, error) {
	if w.WaitS == 0 {
		w.WaitS = UsualWaitS
	}
	if w.HoldC == 0 {
		w.HoldC = holdC
	}
	err := checkAll(
		limit{"days", "", float64(w.Days), 1, mostDays},
		limit{"wait", "s", w.WaitS, 0, longestLoad},
		limit{"temperature of the refrigerator", "°C", w.HoldC, 0, 10},
		limit{"kinds of packs", "", float64(len(w.Kinds)), 0, mostKinds},
		limit{"kinds of freezers", "", float64(len(w.Freezers)), 0, mostFreezers},
	)
	if err != nil {
		return w, err
	}
	if w.Limits, err = w.Limits.whole(); err != nil {
		return w, err
	}
	if w.Freezers, err = wholeFreezers(w.Freezers); err != nil {
		return w, err
	}
	return w, w.checkKinds()
}

func wholeFreezers(in []Freezer) ([]Freezer, error) {
	out := make([]Freezer, len(in))
	cabinets := 0
	for i, f := range in {
		var err error
		if out[i], err = f.whole(); err != nil {
			return nil, err
		}
		cabinets += out[i].Count
	}
	return out, heat.InRange("cabinets", "", float64(cabinets), 0, mostFreezers)
}

func (w Want) checkKinds() error {
	total := 0
	for _, k := range w.Kinds {
		err := checkAll(
			limit{"number of packs", "", float64(k.Count), 0, mostPacks},
			limit{"time when packs are ready", "s", k.ReadyS, 0, latestInS},
		)
		if err != nil {
			return err
		}
		total += k.Count
		for _, f := range w.Freezers {
			if err := (Batch{Pack: k.Pack, Placing: k.Placing, Count: 1}).check(f, w.Limits.in(f).CoreC); err != nil {
				return err
			}
		}
	}
	return heat.InRange("number of packs", "", float64(total), 0, mostPacks)
}

// Schedule assigns whole packs to cabinets and days: the fewest loadings first, then as many packs as possible on the first day, then on the
// second and so on, because what waits is the hazard; and then tidily: a kind goes into few cabinets on a day, in handfuls.
//
// Each kind uses a share of a cabinet's day, one over what the cabinet takes of that kind alone in a day (simulated). By shares that add up
// to 1 a day is filled: packs that were ready first, of these the kinds of which most go into a day, each into the cabinet that takes the
// most of it, of those that suit it (worths); what then is left of a day may take anything.
//
// Shares are an estimate. Mixed loads were found to be bearable up to a sum of 1 to 1.1, where one kind is very thick and the other thin up to
// 1.2 (pairs in chests and uprights, derived). On days after the first a cabinet takes about a fifth less, because yesterday's packs are held to the limit of the old stock and
// lie in the air as the fresh ones do. So one cabinet after the other, all that has gone into it so far is simulated, and larger and smaller
// loads of that day, until it takes no more; what it does not take is offered to the next. Every load of the schedule was simulated.
//
// It is a heuristic: where it does not come down to LeastDays by little, other orders are tried, but a better schedule than the best of them
// may exist. LeastDays says how far off it can be. A full cabinet is brought near its limits even when others stay empty.
// Errors: *heat.RangeError; *TooColdError where a freezer's air is too warm for the core asked for.
func (w Want) Schedule() (Schedule, error) { return w.schedule(newIntakes()) }

func (w Want) schedule(known intakes) (Schedule, error) {
	w, err := w.whole()
	if err != nil {
		return Schedule{}, err
	}
	p := &planner{want: w, places: w.places(), known: map[string]Loaded{}}
	if p.shares, err = w.shares(known); err != nil {
		return Schedule{}, err
	}
	p.suits, p.least = p.suit(), p.leastDays()
	c, err := p.solve()
	if err != nil {
		return Schedule{}, err
	}
	return p.schedule(c)
}

func (w Want) places() []Place {
	var out []Place
	for i, f := range w.Freezers {
		for c := range f.Count {
			out = append(out, Place{i, c})
		}
	}
	return out
}

// shares are, of each freezer and kind, the share of a day's intake that one pack uses: infinite where it takes none.
func (w Want) shares(known intakes) ([][]float64, error) {
	out := make([][]float64, len(w.Freezers))
	for i, f := range w.Freezers {
		for _, kind := range w.Kinds {
			n, err := known.find(f, kind, w.Limits)
			if err != nil {
				return nil, err
			}
			share := math.Inf(1)
			if n >= 1 {
				share = 1 / n
			}
			out[i] = append(out[i], share)
		}
	}
	return out, nil
}

// sameAs is the first freezer that is like freezer i but for room and number.
func (w Want) sameAs(i int) int {
	like := func(f Freezer) Freezer {
		f.RoomKg, f.Count = 0, 0
		return f
	}
	for j := range i {
		if like(w.Freezers[j]) == like(w.Freezers[i]) {
			return j
		}
	}
	return i
}
