package freezing

import (
	"fmt"

	"kettlefrost/internal/conduction"
	"kettlefrost/internal/heat"
	"kettlefrost/internal/medium"
)

// Lie is how packs lie in a freezer.
type Lie int

const (
	Apart   Lie = iota + 1 // free: both faces in the air
	OnPlate                // one face on a cold shelf, the other in the air
	Stacked                // on each other and buried among others: only the top and the bottom of the stack in the air
	Block                  // on each other and alone: all six sides in the air, or in a carton; for Times only, it is slow
)

var lies = [...]string{Apart: "apart", OnPlate: "on a plate", Stacked: "stacked", Block: "in a block"}

// String is "apart", "on a plate", "stacked" or "in a block".
func (l Lie) String() string {
	if l < Apart || l > Block {
		return fmt.Sprintf("lie(%d)", int(l))
	}
	return lies[l]
}

// Placing is how packs lie. Edges count for nothing except in a Block: a free edge shortens the time of a flat bag by a sixth (derived in
// three dimensions), but which edge is free is chance.
type Placing struct {
	Lie       Lie
	High      int         // packs on each other in a stack or block, 1 to 50
	GapM2KW   float64     // resistance between two of them, 0 to 1; medium.AirGapM2KW for bags with ripples
	Plate     medium.Film // contact of pack and plate; the plate is as cold as the air
	CoverM2KW float64     // of a carton round a block, 0 to 1; medium.CartonM2KW for a millimetre
}

// StackOf is a stack of bags with the usual air between them, buried among others.
func StackOf(high int) Placing {
	return Placing{Lie: Stacked, High: high, GapM2KW: medium.AirGapM2KW}
}

// OnShelf is a bag that lies flat on a shelf with this contact.
func OnShelf(contact medium.Film) Placing { return Placing{Lie: OnPlate, Plate: contact} }

const highest = 50

func (at Placing) check(p Pack) error {
	if err := heat.InRange("way of lying", "", float64(at.Lie), float64(Apart), float64(Block)); err != nil {
		return err
	}
	if at.Lie == OnPlate {
		return checkFilm("contact with the plate", at.Plate)
	}
	if at.Lie == Apart {
		return nil
	}
	err := checkAll(
		limit{"packs on each other", "", float64(at.High), 1, highest},
		limit{"resistance between packs", "m²·K/W", at.GapM2KW, 0, mostResistanceM2KW},
		limit{"resistance of the carton", "m²·K/W", at.CoverM2KW, 0, mostResistanceM2KW},
		limit{"thickness of the stack", "m", p.ThicknessM * float64(at.High), thinnestM, heat.LargestM},
	)
	if err != nil || at.Lie == Stacked {
		return err
	}
	return checkAll(
		limit{"length of the pack", "m", p.LengthM, thinnestM, heat.LargestM},
		limit{"width of the pack", "m", p.WidthM, thinnestM, heat.LargestM},
	)
}

// layers is how many packs lie on each other.
func (at Placing) layers() int {
	if at.Lie == Stacked || at.Lie == Block {
		return at.High
	}
	return 1
}

// thickM is the thickness of what freezes as one.
func (at Placing) thickM(p Pack) float64 { return p.ThicknessM * float64(at.layers()) }

// body is the pack, or the stack of them, in air of a surface coefficient. air is nil where the body meets a pool.
func (at Placing) body(p Pack, m conduction.Material, film medium.Film, side Side, air conduction.Course) conduction.Body {
	face := func(f medium.Film) conduction.Face {
		return conduction.Face{FilmWM2K: side.of(f.Through(p.PackageM2KW + at.cover())), Medium: air}
	}
	free := face(film)
	first := conduction.Both(at.thickM(p), free)
	switch at.Lie {
	case OnPlate:
		first.Low = face(at.Plate)
	case Stacked, Block:
		first.Layers, first.GapM2KW = at.High, at.GapM2KW
	}
	axes := []conduction.Axis{first}
	if at.Lie == Block {
		axes = append(axes, conduction.Both(p.LengthM, free), conduction.Both(p.WidthM, free))
	}
	return conduction.Body{Material: m, Axes: axes, StartC: p.StartC}
}

// sameFilm says that a side of the range is the usual value.
func (at Placing) sameFilm(film medium.Film, side Side) bool {
	return side.of(film) == Usual.of(film) && (at.Lie != OnPlate || side.of(at.Plate) == Usual.of(at.Plate))
}

func (at Placing) cover() float64 {
	if at.Lie == Block {
		return at.CoverM2KW
	}
	return 0
}

// bodies is how many of those bodies count packs are: m² of face for a slab. A stack that is not full counts as a part of a full one.
func (at Placing) bodies(p Pack, count float64) float64 {
	stacks := count * p.faceM2() / float64(at.layers())
	if at.Lie == Block {
		return stacks / (p.LengthM * p.WidthM)
	}
	return stacks
}
