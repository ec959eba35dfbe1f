package haccp

import (
	"slices"
	"strings"
)

func (d *drafter) packing() {
	d.hazard("hands", Hazard{Step: Packing, Kind: Biological, What: "Listeria, norovirus and Staphylococcus aureus from hands and tools", Why: "it is handled after it was cooked, and the customer's heating does not undo what Staphylococcus made", Significant: true, Control: "clean hands and tools, sick people stay away, cold when it is filled", Programme: "Hands and health"})
	d.hazard("bag", Hazard{Step: Packing, Kind: Chemical, What: "what a bag gives off when it is heated", Why: "it is heated in its pack by the customer", Control: "bags with the maker's letter for freezing and heating in them", Programme: "Suppliers and the door"})
	if !d.p.Vacuum {
		return
	}
	d.hazard("botulism", Hazard{Step: Packing, Kind: Biological, What: "Clostridium botulinum and Listeria, which grow without air and in the cold", Why: "it is sealed under reduced oxygen", Significant: true, Control: "frozen at once and kept so; keep-frozen words on the label", later: FrozenStage})
	if !d.p.Frozen {
		d.open(Open{NotFrozen, true, "pack", "it is under vacuum and not frozen", "freeze it, or have the authority approve a plan for chilled vacuum packs"})
	}
	if d.p.Approval == "" {
		d.open(Open{NoApproval, false, "pack", "cooked food under vacuum usually needs an approved plan or a variance, and none is written into the book", "ask the authority, and write its reference into the book"})
	}
	if slices.ContainsFunc(d.p.Ingredients, func(g Ingredient) bool { return g.Class == Fish }) {
		d.open(Open{FishInVacuum, false, "label", "fish under vacuum must be taken out of its pack before it thaws (FDA Food Code 3-501.13(E))", "print it on the label: open the pack before thawing"})
	}
}

func (d *drafter) label() {
	names := d.p.allergens()
	if len(names) == 0 {
		return
	}
	d.hazard("allergen", Hazard{Step: Labelling, Kind: Chemical, What: "undeclared allergen: " + strings.Join(names, ", "), Why: "a wrong label goes on, or a supplier changes a recipe", Significant: true, Control: labelLimit.Text, later: LabellingStage})
	d.point(labelPoint(names))
}

func (d *drafter) cold() {
	if d.p.Frozen {
		d.hazard("slow", Hazard{Step: Freezing, Kind: Biological, What: "growth while it freezes slowly", Why: "packs that are warm, or many at once, freeze slowly and warm what lies beside them", Control: "cold before they go in, apart, in the order of the loading plan", Programme: "Cold stores"})
		d.hazard("thawing", Hazard{Step: Selling, Kind: Biological, What: "growth when it thaws", Why: "a freezer can fail, and customers thaw packs", Significant: true, Control: d.p.keptFrozen().Text, later: FrozenStage})
		d.point(frozenPoint(d.p))
	}
}
