package plan

import (
	"cmp"
	"fmt"
	"slices"

	"kettlefrost/internal/fill"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// SealUse is something that can be done with what is left over at the sealing table.
type SealUse struct {
	Dish   string      `json:"dish"`
	Use    SealUseKind `json:"use"`
	Pack   string      `json:"pack,omitempty"` // of which more can be filled, or a smaller one
	Name   string      `json:"name"`           // of the pack, or of what is left
	Count  int         `json:"count,omitempty"`
	Takes  []SealPart  `json:"takes"`            // what goes into each pack, or all that is left
	Wants  []string    `json:"wants,omitempty"`  // what must be found first: bags, labels
	Brings unit.Money  `json:"brings,omitempty"` // beyond bag and label, all together
}

// SealUseKind is a kind of use.
type SealUseKind string

const (
	UseMore    SealUseKind = "more-packs"
	UseSmaller SealUseKind = "smaller-pack"
	UseNextRun SealUseKind = "next-run"
	UseCrew    SealUseKind = "crew"
	UseDiscard SealUseKind = "discard"
)

// smallestPart is how much of the smallest pack that takes an output a smaller one must hold to be worth a bag: common practice.
const smallestPart = 4

// sealUses offers something for what is left over: more packs if what stops them is found, one smaller pack, and then what the book says becomes
// of the rest.
func (p *planner) sealUses(t sealTable, answer fill.Plan) []SealUse {
	offers := fill.Offers{Lift: true, LiftSupplies: true}
	for _, o := range t.outputs {
		keep, crew := unit.Mass(0), unit.Mass(0)
		switch p.leftUse(t, o) {
		case kitchen.NextRun:
			keep = -1
		case kitchen.Crew:
			crew = -1
		}
		offers.Keep, offers.Crew = append(offers.Keep, keep), append(offers.Crew, crew)
	}
	rest, err := fill.Uses(t.problem, answer, offers)
	if err != nil {
		return nil // what stops the table is found where it is solved
	}
	small := p.smaller(t, rest)
	for _, s := range small {
		offers.Smaller = append(offers.Smaller, s.pack)
	}
	if rest, err = fill.Uses(t.problem, answer, offers); err != nil {
		return nil
	}
	return append(p.packUses(t, rest, small), t.restUses(rest)...)
}

// packUses are more packs of the book, then smaller ones.
func (p *planner) packUses(t sealTable, rest fill.Leftover, small []smallPack) []SealUse {
	var uses []SealUse
	for i, id := range t.packs {
		if n := rest.More[i]; n > 0 {
			uses = append(uses, SealUse{Dish: string(t.dish.id), Use: UseMore, Pack: string(id), Name: p.book.Packs[id].Name, Count: n, Takes: t.targets[id], Wants: append(p.beyond(id), t.wants(t.problem.Packs[i], n, rest)...), Brings: p.worth(id) * unit.Money(n)})
		}
	}
	for i, s := range small {
		if n := rest.Smaller[i]; n > 0 {
			uses = append(uses, SealUse{Dish: string(t.dish.id), Use: UseSmaller, Pack: string(s.of), Name: p.book.Packs[s.of].Name, Count: n, Takes: []SealPart{s.part}, Wants: t.wants(s.pack, n, rest), Brings: unit.Money(s.pack.Value)})
		}
	}
	return uses
}

// beyond says that more of a pack is more than is wanted.
func (p *planner) beyond(id kitchen.PackID) []string {
	if most, limited := p.req.AtMost[id]; limited {
		return []string{fmt.Sprintf("somebody who takes more than %d", most)}
	}
	return nil
}

// restUses is what becomes of what goes into no pack.
func (t sealTable) restUses(rest fill.Leftover) []SealUse {
	var uses []SealUse
	for i, o := range t.outputs {
		r := rest.Outputs[i]
		for _, u := range []struct {
			use  SealUseKind
			mass unit.Mass
		}{{UseNextRun, r.Keep}, {UseCrew, r.Crew}, {UseDiscard, r.Discard}} {
			if u.mass > mass(traceKg) {
				uses = append(uses, SealUse{Dish: string(t.dish.id), Use: u.use, Name: o.Name, Takes: []SealPart{{Output: o.ID, Name: o.Name, Target: u.mass}}})
			}
		}
	}
	return uses
}

// leftUse is what the book says becomes of what no pack takes.
func (p *planner) leftUse(t sealTable, o SealOutput) kitchen.LeftUse {
	return cmp.Or(p.output(t.dish, kitchen.OutputID(o.ID)).Left, kitchen.Crew)
}

// wants are the supplies that so many more of a pack use and that are short; they are counted off.
func (t sealTable) wants(pack fill.Pack, n int, rest fill.Leftover) []string {
	var wants []string
	for _, u := range pack.Uses {
		if short := min(u.Pieces*n, rest.Wanted[u.Supply]); short > 0 {
			rest.Wanted[u.Supply] -= short
			wants = append(wants, fmt.Sprintf("%d × %s", short, t.problem.Supplies[u.Supply].Name))
		}
	}
	return wants
}

// smallPack is one pack of all that is left of an output, labelled with its own weight.
type smallPack struct {
	of   kitchen.PackID // whose bag it is sealed in
	part SealPart
	pack fill.Pack
}

// smaller are the packs that could be filled with less than a pack of the book: of each output one, if enough is left for it.
func (p *planner) smaller(t sealTable, rest fill.Leftover) []smallPack {
	var small []smallPack
	for i, o := range t.outputs {
		id, whole := t.smallest(o.ID)
		left := rest.Outputs[i].Left - rest.Outputs[i].More
		if id == "" || left*smallestPart < whole.Target {
			continue
		}
		s := smallPack{of: id, part: SealPart{Output: o.ID, Name: o.Name, Target: left, Label: left}}
		need := fill.Need{Output: i, Mass: left}
		if piece := t.problem.PieceMass[i]; piece > 0 && whole.Pieces > 0 {
			s.part.Pieces = int(left / piece)
			s.part.Target = piece * unit.Mass(s.part.Pieces)
			s.part.Label = s.part.Target
			need.Mass, need.Pieces = 0, s.part.Pieces
		}
		if s.part.Target <= 0 || s.part.Target >= whole.Target {
			continue // as much as a whole pack: that would be another of the book
		}
		at := slices.Index(t.packs, id)
		s.pack = fill.Pack{Name: "a smaller pack", Needs: []fill.Need{need}, Uses: t.problem.Packs[at].Uses, Max: 1, Value: int64(p.worth(id).Times(int64(s.part.Target/unit.Milligram), int64(whole.Target/unit.Milligram)))}
		small = append(small, s)
	}
	return small
}

// smallest is the pack that takes the least of an output and nothing else; none when it goes into no pack alone.
func (t sealTable) smallest(output string) (kitchen.PackID, SealPart) {
	var best kitchen.PackID
	var part SealPart
	for _, id := range t.packs {
		each := t.targets[id]
		if len(each) == 1 && each[0].Output == output && each[0].Target > 0 && (best == "" || each[0].Target < part.Target) {
			best, part = id, each[0]
		}
	}
	return best, part
}
