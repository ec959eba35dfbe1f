package freezing

import (
	"math"
	"slices"
)

// Change is something that may make a schedule fit.
type Change int

const (
	FewerPacks Change = iota + 1 // of this kind, Count instead of what was asked; every kind left over has its own, they go together
	MoreDays                     // Days loadings, the last pack waiting WaitS
	MoreRoom                     // MassKg more
	ChillFirst                   // every pack to the temperature of the refrigerator before it goes in
	Thinner                      // packs of this kind ThicknessM thick, of the same mass
	Stronger                     // machines of CoolingW in all, each Factor of what it is now
)

// Remedy is one change, all else being as it was, and what came of it when the schedule was made anew.
type Remedy struct {
	Change     Change
	Kind       int // FewerPacks, Thinner
	Count      int
	Days       int
	WaitS      float64
	MassKg     float64
	ThicknessM float64
	CoolingW   float64
	Factor     float64
	Placed     int  // packs placed with it
	Fits       bool // all of them
}

// Remedies works out what would place everything, when something of the want's schedule was left over: each change by itself, computed by
// making the schedule again. It takes some twenty times as long as a schedule. Errors as Schedule.
func (w Want) Remedies(s Schedule) ([]Remedy, error) {
	if left, _ := s.NotPlaced(); left == 0 {
		return nil, nil
	}
	w, err := w.whole()
	if err != nil {
		return nil, err
	}
	out := w.fewer(s)
	out = append(out, w.moreRoom(s)...)
	known := newIntakes()
	for _, find := range []func(Schedule, intakes) ([]Remedy, error){w.chillFirst, w.moreDays, w.thinner, w.stronger} {
		r, err := find(s, known)
		if err != nil {
			return nil, err
		}
		out = append(out, r...)
	}
	return out, nil
}

func (w Want) fewer(s Schedule) []Remedy {
	var out []Remedy
	for _, left := range s.Waiting {
		if n := w.Kinds[left.Kind].Count - left.Count; n > 0 {
			out = append(out, Remedy{Change: FewerPacks, Kind: left.Kind, Count: n, Placed: s.Placed, Fits: true})
		}
	}
	return out
}

// moreRoom is what all packs have above all room, if they do.
func (w Want) moreRoom(s Schedule) []Remedy {
	short := 0.0
	for _, k := range w.Kinds {
		short += float64(k.Count) * k.Pack.MassKg
	}
	for _, f := range w.Freezers {
		short -= f.RoomKg * float64(f.Count)
	}
	if short <= 0 {
		return nil
	}
	return []Remedy{{Change: MoreRoom, MassKg: short, Placed: s.Placed}}
}

// with is a remedy filled in from the schedule of a changed want.
func (w Want) with(r Remedy, known intakes) (Remedy, Schedule, error) {
	s, err := w.schedule(known)
	left, _ := s.NotPlaced()
	r.Placed, r.Fits = s.Placed, err == nil && left == 0
	return r, s, err
}

func (w Want) chillFirst(_ Schedule, known intakes) ([]Remedy, error) {
	w.Kinds = slices.Clone(w.Kinds)
	warm := false
	for i := range w.Kinds {
		p := &w.Kinds[i].Pack
		warm = warm || p.StartC > w.HoldC
		p.StartC = min(p.StartC, w.HoldC)
	}
	if !warm {
		return nil, nil
	}
	r, s, err := w.with(Remedy{Change: ChillFirst}, known)
	r.Days = s.Days
	return []Remedy{r}, err
}

func (w Want) moreDays(s Schedule, known intakes) ([]Remedy, error) {
	w.Days, w.WaitS = mostDays, longestLoad
	r, longer, err := w.with(Remedy{Change: MoreDays}, known)
	r.Days = longer.Days
	for _, e := range longer.Entries {
		r.WaitS = max(r.WaitS, e.InS-w.Kinds[e.Kind].ReadyS)
	}
	if err != nil || r.Placed <= s.Placed {
		return nil, err
	}
	return []Remedy{r}, nil
}

const (
	bisections = 6    // of a change that costs a schedule each: to a sixtieth of the bracket
	strongest  = 64.0 // times its power is the strongest machine that is looked for
)

// thinner is for kinds that a freezer does not freeze in time though the air stays cold.
func (w Want) thinner(_ Schedule, known intakes) ([]Remedy, error) {
	var out []Remedy
	for k, kind := range w.Kinds {
		if kind.Count == 0 {
			continue
		}
		thickM, err := w.inTimeM(kind)
		if err != nil {
			return nil, err
		}
		if thickM == 0 {
			continue
		}
		r, err := w.thinEnough(k, thickM, known)
		if err != nil {
			return nil, err
		}
		out = append(out, r)
	}
	return out, nil
}

// inTimeM is the thickness at which one pack alone is frozen just in time in a freezer that is too slow for it as it is: the greatest of
// all freezers; 0 where none is too slow, or a millimetre would be.
func (w Want) inTimeM(k Kind) (float64, error) {
	best := 0.0
	for _, f := range w.Freezers {
		inTime := func(thickM float64) (bool, error) {
			p := k.Pack
			p.ThicknessM = thickM
			s, err := aloneS(p, Batch{Placing: k.Placing}.placing(f), f, w.Limits.in(f))
			return s <= w.Limits.WithinS, err
		}
		low, high := thinnestM, k.Pack.ThicknessM
		if already, err := inTime(high); err != nil || already {
			if err != nil {
				return 0, err
			}
			continue
		}
		for high-low > 1e-4 {
			middle := (low + high) / 2
			ok, err := inTime(middle)
			if err != nil {
				return 0, err
			}
			if ok {
				low = middle
			} else {
				high = middle
			}
		}
		if low > thinnestM {
			best = max(best, low)
		}
	}
	return best, nil
}

// thinEnough goes down from the thickness at which a pack alone is in time to that at which all of them are placed. If a quarter of it is
// not enough, thickness is not the trouble, and it is the former with what it places.
func (w Want) thinEnough(k int, aloneM float64, known intakes) (Remedy, error) {
	try := func(m float64) (Remedy, error) {
		t := w
		t.Kinds = slices.Clone(w.Kinds)
		t.Kinds[k].Pack.ThicknessM = m
		r, _, err := t.with(Remedy{Change: Thinner, Kind: k, ThicknessM: m}, known)
		return r, err
	}
	first, err := try(aloneM)
	if err != nil || first.Fits {
		return first, err
	}
	best, err := try(max(thinnestM, aloneM/4))
	if err != nil || !best.Fits {
		return first, err
	}
	low, high := best.ThicknessM, aloneM
	for range bisections {
		r, err := try((low + high) / 2)
		if err != nil {
			return best, err
		}
		if r.Fits {
			best, low = r, r.ThicknessM
		} else {
			high = r.ThicknessM
		}
	}
	return best, nil
}

func (w Want) stronger(_ Schedule, known intakes) ([]Remedy, error) {
	try := func(factor float64) (Remedy, error) {
		t := w
		t.Freezers = slices.Clone(w.Freezers)
		r := Remedy{Change: Stronger, Factor: factor}
		for i := range t.Freezers {
			f := &t.Freezers[i]
			f.CoolingW = min(f.CoolingW*factor, 1e6)
			r.CoolingW += f.CoolingW * float64(f.Count)
		}
		r, _, err := t.with(r, known)
		return r, err
	}
	best, err := try(strongest)
	if err != nil || !best.Fits {
		return []Remedy{best}, err
	}
	low, high := 1.0, strongest
	for range bisections + 2 {
		r, err := try(math.Sqrt(low * high))
		if err != nil {
			return nil, err
		}
		if r.Fits {
			best, high = r, r.Factor
		} else {
			low = r.Factor
		}
	}
	return []Remedy{best}, nil
}
