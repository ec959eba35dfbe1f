package netcontents

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"kettlefrost/internal/unit"
)

// RoomError says that the parts that may be overfilled have less room than the overfill takes.
type RoomError struct {
	Over unit.Mass // what a pack must be overfilled by
	Room unit.Mass // of all free parts
}

// Error is one line.
func (e *RoomError) Error() string {
	return fmt.Sprintf("netcontents: a pack must be overfilled by %s, the free parts have room for %s; free another part, or fill with less spread", e.Over, e.Room)
}

func (a Aim) check() error {
	if err := checkConfidence(a.Confidence); err != nil {
		return err
	}
	if a.Step < 0 || a.Step > a.Terms.Label {
		return &InputError{"Step", "is below 0 or above the label", "give the smallest step of the scale"}
	}
	sum, last := unit.Mass(0), 0
	for _, p := range a.Parts {
		if err := p.check(a.Terms.Label); err != nil {
			return err
		}
		sum += p.Mass
		if p.TopsUp {
			last++
		}
	}
	switch {
	case len(a.Parts) == 0 || sum != a.Terms.Label:
		return &InputError{"Parts", "add up to " + sum.String() + " and not to the label", "give each part its share of " + a.Terms.Label.String()}
	case last > 1:
		return &InputError{"Parts", fmt.Sprintf("has %d that top up", last), "only one can go in last"}
	}
	return nil
}

func (p Part) check(label unit.Mass) error {
	wrong := func(reason, fix string) error { return &InputError{"part " + p.Name, reason, fix} }
	switch {
	case p.Mass <= 0 || p.Mass > label:
		return wrong("is no part of the label", "give it a mass above 0")
	case !(p.SpreadG >= 0 && p.SpreadG < grams(p.Mass)/3):
		return wrong(fmt.Sprintf("scatters by %g g", p.SpreadG), "give 0 or more and less than a third of its mass: beyond that it is not normal")
	case p.PricePerKg < 0:
		return wrong("has a price below 0", "give 0 or more")
	case p.Room < 0:
		return wrong("has room below 0", "give 0 for as much as it takes")
	}
	return nil
}

// spreadOf is that of a whole pack.
func spreadOf(parts []Part) float64 {
	squares := 0.0
	for _, p := range parts {
		if p.TopsUp {
			return p.SpreadG
		}
		squares += p.SpreadG * p.SpreadG
	}
	return math.Sqrt(squares)
}

// split puts the overfill onto the cheapest parts. That is the least cost: whatever else is moved from a cheaper part to a dearer one costs
// more.
func split(parts []Part, over unit.Mass) ([]PartTarget, error) {
	targets := make([]PartTarget, len(parts))
	var free []int
	for i, p := range parts {
		targets[i].Mean = p.Mass
		if p.Free {
			free = append(free, i)
		}
	}
	slices.SortStableFunc(free, func(i, j int) int { return cmp.Compare(parts[i].PricePerKg, parts[j].PricePerKg) })
	left := over
	for _, i := range free {
		take := left
		if parts[i].Room > 0 {
			take = min(left, parts[i].Room)
		}
		targets[i] = PartTarget{Mean: parts[i].Mass + take, Over: take, Cost: unit.PriceOf(parts[i].PricePerKg, unit.Kilogram, take)}
		left -= take
	}
	if left > 0 {
		return nil, &RoomError{Over: over, Room: over - left}
	}
	return targets, nil
}
