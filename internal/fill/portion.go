package fill

import (
	"fmt"
	"math/bits"
	"sort"

	"kettlefrost/internal/unit"
)

// Portions asks how solids that go in first and the sauce that tops them up are shared out over packs.
type Portions struct {
	Solids unit.Mass // as weighed
	Piece  unit.Mass // one piece of the solids, never cut; 0 when they are weighed into the packs
	Sauce  unit.Mass // as weighed
	// Grain is the step in which the scale at the table weighs: a gram, or a tenth of an ounce.
	Grain unit.Mass
	// Thinnest and Thickest are the limits of solids to sauce in every pack. Thickest with no sauce is no limit.
	Thinnest, Thickest Ratio
	Packs              []PortionPack
}

// Ratio is so much of solids to so much sauce: 1 to 2, or 180 g to 220 g.
type Ratio struct{ Solids, Sauce int64 }

// PortionPack is one size of pack.
type PortionPack struct {
	Name  string
	Count int       // how many of it
	Net   unit.Mass // what it must at least weigh
}

// Portioned is how the packs are filled.
type Portioned struct {
	Fills              []Filling // of each pack that there is of, those with more first
	Thinnest, Thickest Ratio     // of solids to sauce, in ng, among all packs
	SolidsLeft         unit.Mass // broken pieces included
	SauceLeft          unit.Mass
}

// Filling is so many packs of one size that are filled alike.
type Filling struct {
	Pack   int // index into Portions.Packs
	Count  int
	Pieces int // 0 when the solids are weighed
	Solids unit.Mass
	Sauce  unit.Mass
}

// Net is what such a pack weighs.
func (f Filling) Net() unit.Mass { return f.Solids + f.Sauce }

// Obstacle is why packs can't be filled as asked.
type Obstacle int

const (
	NoAmountFits  Obstacle = iota + 1 // no whole amount of solids in a pack keeps to the ratio
	SolidsTooFew                      // even the thinnest packs take more solids than there are
	SauceTooSmall                     // even the thickest packs that the solids allow take more sauce than there is
)

// PortionError says what is in the way, with its figures.
type PortionError struct {
	Obstacle Obstacle
	Pack     int       // for NoAmountFits, else -1
	Below    Filling   // for NoAmountFits: the thickest filling that is too thin
	Above    Filling   // and the thinnest that is too thick; nothing when the pack has no room for more solids
	Need     unit.Mass // for the others
	Have     unit.Mass
}

func (e *PortionError) Error() string {
	switch e.Obstacle {
	case NoAmountFits:
		if e.Above.Solids == 0 {
			return fmt.Sprintf("fill: pack %d: even %.6g kg of solids and %.6g kg of sauce, which fill it, are too thin: widen the ratio or change the net weight", e.Pack, e.Below.Solids.Kg(), e.Below.Sauce.Kg())
		}
		return fmt.Sprintf("fill: pack %d: %.6g kg of solids and %.6g kg of sauce are too thin, %.6g kg and %.6g kg too thick, and nothing is between: widen the ratio or change the net weight",
			e.Pack, e.Below.Solids.Kg(), e.Below.Sauce.Kg(), e.Above.Solids.Kg(), e.Above.Sauce.Kg())
	case SolidsTooFew:
		return fmt.Sprintf("fill: even the thinnest packs take %.6g kg of solids, there are %.6g kg: short by %.6g kg; fill fewer packs", e.Need.Kg(), e.Have.Kg(), (e.Need - e.Have).Kg())
	}
	return fmt.Sprintf("fill: even the thickest packs take %.6g kg of sauce, there are %.6g kg: short by %.6g kg; fill fewer packs", e.Need.Kg(), e.Have.Kg(), (e.Need - e.Have).Kg())
}

// Portion shares the solids out and tops every pack up with sauce to its net weight, in whole grains, so that a pack is over by less
// than a grain. As much of the solids is used as the ratio allows, and they are shared so that all packs are as alike as they can
// be: the thinnest pack is as thick as possible, and packs of one size differ by at most one piece or grain, those with more first.
// It returns *InputError for figures that make no sense and *PortionError when the packs can't be filled.
func Portion(p Portions) (Portioned, error) {
	if err := p.check(); err != nil {
		return Portioned{}, err
	}
	levels := make([]level, len(p.Packs))
	var need, units int64
	for i := range p.Packs {
		l, err := p.levelOf(i)
		if err != nil {
			return Portioned{}, err
		}
		levels[i] = l
		need += l.units * l.count
	}
	if units = int64(p.Solids / p.unit()); need > units {
		return Portioned{}, &PortionError{Obstacle: SolidsTooFew, Pack: -1, Need: unit.Mass(need) * p.unit(), Have: unit.Mass(units) * p.unit()}
	}
	p.pour(levels, units-need)
	return p.result(levels)
}

// unit is what solids are given out in.
func (p Portions) unit() unit.Mass {
	if p.Piece > 0 {
		return p.Piece
	}
	return p.Grain
}

// level is how much solids the packs of one size have: units each, and one more in the first of them.
type level struct {
	count, units, more int64
	most               int64
}

// The finest grain, finer than any scale at a table, and the most of them in a pack, which are gone through one by one.
const (
	leastGrain = unit.Gram / 10
	mostGrains = 5_000_000
)

func (p Portions) check() error {
	bad := func(pack int, reason string) error { return &InputError{Pack: pack, Output: -1, Reason: reason} }
	switch {
	case p.Solids < 0 || p.Sauce < 0 || p.Solids > limit-p.Sauce:
		return bad(-1, "solids and sauce must be 0 or more, and together below 2,300 t")
	case p.Piece < 0:
		return bad(-1, "the mass of a piece is negative")
	case p.Grain < leastGrain:
		return bad(-1, "the grain must be a tenth of a gram or more")
	case p.Thinnest.Solids < 0 || p.Thinnest.Sauce <= 0 || p.Thickest.Solids < 0 || p.Thickest.Sauce < 0 || p.Thickest == Ratio{}:
		return bad(-1, "a ratio is negative, or says nothing")
	case p.Thickest.less(p.Thinnest):
		return bad(-1, "the thickest ratio is thinner than the thinnest")
	}
	var net unit.Mass
	for i, k := range p.Packs {
		switch {
		case k.Count < 0 || k.Net <= 0 || k.Net > limit/unit.Mass(max(1, k.Count))-net:
			return bad(i, "the count must be 0 or more, the net weight more than 0, and all together below 2,300 t")
		case k.Net < p.unit() || k.Net < p.Grain || k.Net > mostGrains*p.Grain:
			return bad(i, "the net weight must be a piece and a grain or more, and not millions of grains")
		}
		net += k.Net * unit.Mass(k.Count)
	}
	return nil
}

// less reports whether r has less solids to its sauce than q. No sauce is thicker than anything.
func (r Ratio) less(q Ratio) bool {
	ah, al := bits.Mul64(uint64(r.Solids), uint64(q.Sauce))
	bh, bl := bits.Mul64(uint64(q.Solids), uint64(r.Sauce))
	return ah < bh || ah == bh && al < bl
}

// filling is a pack of size i with so many units of solids, topped up with sauce.
func (p Portions) filling(i int, units int64) Filling {
	f := Filling{Pack: i, Solids: unit.Mass(units) * p.unit()}
	if p.Piece > 0 {
		f.Pieces = int(units)
	}
	if room := p.Packs[i].Net - f.Solids; room > 0 {
		f.Sauce = (room + p.Grain - 1) / p.Grain * p.Grain
	}
	return f
}

// Ratio is the solids to the sauce of such a pack, in ng.
func (f Filling) Ratio() Ratio { return Ratio{int64(f.Solids), int64(f.Sauce)} }

// levelOf starts a size of pack with the least solids that keep to the ratio. More solids leave less room for sauce, so that what
// keeps to it is one stretch of amounts. Solids alone never overfill a pack.
func (p Portions) levelOf(i int) (level, error) {
	unit := p.unit()
	full := int64(p.Packs[i].Net / unit)
	least := firstOf(full+1, func(n int64) bool { return !p.filling(i, n).Ratio().less(p.Thinnest) })
	most := firstOf(full+1, func(n int64) bool { return p.Thickest.less(p.filling(i, n).Ratio()) }) - 1
	if least > most {
		bad := &PortionError{Obstacle: NoAmountFits, Pack: i, Below: p.filling(i, most)}
		if least <= full {
			bad.Above = p.filling(i, least)
		}
		return level{}, bad
	}
	return level{count: int64(p.Packs[i].Count), units: least, most: most}, nil
}

// firstOf is the first of 0 to end that is true; end when none before it is. What is true stays so.
func firstOf(end int64, is func(int64) bool) int64 {
	return int64(sort.Search(int(end), func(n int) bool { return is(int64(n)) }))
}

// pour gives out so many units, always to the thinnest packs.
func (p Portions) pour(levels []level, units int64) {
	for units > 0 {
		thin := -1
		for i, l := range levels {
			if l.count > 0 && l.units < l.most && (thin < 0 || p.filling(i, l.units).Ratio().less(p.filling(thin, levels[thin].units).Ratio())) {
				thin = i
			}
		}
		if thin < 0 {
			return
		}
		l := &levels[thin]
		if units < l.count {
			l.more = units
			return
		}
		l.units++
		units -= l.count
	}
}

// result adds the packs up.
func (p Portions) result(levels []level) (Portioned, error) {
	out := Portioned{SolidsLeft: p.Solids}
	var sauce unit.Mass
	for i, l := range levels {
		for _, part := range [2]level{{count: l.more, units: l.units + 1}, {count: l.count - l.more, units: l.units}} {
			if part.count == 0 {
				continue
			}
			f := p.filling(i, part.units)
			f.Count = int(part.count)
			out.SolidsLeft -= f.Solids * unit.Mass(f.Count)
			sauce += f.Sauce * unit.Mass(f.Count)
			r := f.Ratio()
			if len(out.Fills) == 0 || r.less(out.Thinnest) {
				out.Thinnest = r
			}
			if len(out.Fills) == 0 || out.Thickest.less(r) {
				out.Thickest = r
			}
			out.Fills = append(out.Fills, f)
		}
	}
	if sauce > p.Sauce {
		return Portioned{}, &PortionError{Obstacle: SauceTooSmall, Pack: -1, Need: sauce, Have: p.Sauce}
	}
	out.SauceLeft = p.Sauce - sauce
	return out, nil
}
