package plan

import (
	"kettlefrost/internal/finding"
	"kettlefrost/internal/unit"
)

// SealSchema names the shape of a Sealing's JSON.
const SealSchema = "kettlefrost.seal/1"

// Sealing is what to fill from what was really weighed.
type Sealing struct {
	Schema   string       `json:"schema"`
	Kitchen  string       `json:"kitchen"`
	Note     string       `json:"note,omitempty"`
	Units    unit.System  `json:"units"`
	Currency string       `json:"currency"`
	Run      string       `json:"run"`
	Day      string       `json:"day,omitempty"`
	Findings finding.List `json:"findings"`
	Outputs  []SealOutput `json:"outputs"`
	Packs    []SealPack   `json:"packs"`
	Uses     []SealUse    `json:"uses"`     // for what is left over, first the packs that could still be filled
	Goals    []string     `json:"goals"`    // by which the counts were chosen, in their order
	Rejected []string     `json:"rejected"` // of each dish the best counts that were turned down, and why
	Worth    unit.Money   `json:"worth"`    // what all packs bring beyond bag and label
	Proof    string       `json:"proof"`    // optimal, or the gap
}

// SealOutput is one thing at the sealing table.
type SealOutput struct {
	Dish     string      `json:"dish"`
	DishName string      `json:"dish_name"`
	ID       string      `json:"id"`
	Name     string      `json:"name"`
	Planned  unit.Mass   `json:"planned_g"`
	There    unit.Mass   `json:"there_g"` // as weighed, or as planned when nobody has
	Volume   unit.Volume `json:"volume_ml"`
	Weighed  bool        `json:"weighed"`
	Pieces   int         `json:"pieces,omitempty"`
	Used     unit.Mass   `json:"used_g"`
	Left     unit.Mass   `json:"left_g"`
	Becomes  string      `json:"becomes"` // what is left: next-run, crew, discard; empty when nothing is
}

// SealPack is one kind of pack.
type SealPack struct {
	Pack    string     `json:"pack"`
	Name    string     `json:"name"`
	Dish    string     `json:"dish"`
	Count   int        `json:"count"`
	Planned int        `json:"planned"`
	Ordered int        `json:"ordered"`
	Short   int        `json:"short"`      // of the orders, the freezer's stock counted
	Frozen  int        `json:"frozen"`     // in the freezer before
	After   int        `json:"after"`      // in the freezer when the orders are taken out
	Keep    int        `json:"keep"`       // that there should be at least
	Worth   unit.Money `json:"worth"`      // what one brings beyond bag and label
	Each    []SealPart `json:"each"`       // in the order of filling
	Label   unit.Mass  `json:"label_g"`    // net weight on the label
	Target  unit.Mass  `json:"target_g"`   // what to fill
	Given   unit.Mass  `json:"given_g"`    // by how much the target is over the label
	GivenAt unit.Money `json:"given_cost"` // of that, each, as food
	Bag     string     `json:"bag"`

	Portions []SealPortion `json:"portions,omitempty"` // how solids and sauce are shared out, where the book limits their ratio

	Stops string `json:"stops"` // what stops one more, in words
}

// SealPart is one component of a pack.
type SealPart struct {
	Output string    `json:"output"`
	Name   string    `json:"name"`
	Label  unit.Mass `json:"label_g"`
	Target unit.Mass `json:"target_g"`
	Pieces int       `json:"pieces,omitempty"`
}

// SealPortion is so many packs filled alike.
type SealPortion struct {
	Count  int       `json:"count"`
	Pieces int       `json:"pieces,omitempty"`
	Solids unit.Mass `json:"solids_g"`
	Sauce  unit.Mass `json:"sauce_g"`
}
