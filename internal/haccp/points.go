package haccp

import "strings"

func entryRecords(more ...string) []string {
	return append([]string{"the value read, not a tick; time, lot, instrument and who"}, more...)
}

// verifyAll is who looks again: the person in charge (FDA Food Code 8-201.14(D)(4)), and never who made the record.
func verifyAll(more ...string) []string {
	return append([]string{inCharge + ", or somebody they name, who did not make the records reads them before the lot is sold, and signs", "thermometers are checked in crushed ice and water (32 °F within 2 °F), and when they fell"}, more...)
}

func cookingPoint(s Step, limit Limit, who []string) Point {
	corrective := []string{"go on heating until it is reached, and measure again", "if it cannot be reached: hold the lot, and decide with a reason whether it is thrown away"}
	if limit.Rule == "" {
		corrective = []string{"go on boiling", "if they did not boil: hold the lot, and decide with a reason whether it is thrown away"}
	}
	return Point{Step: s.ID, Stage: CookingStage, Key: s.ID + "/" + string(CookingStage), Limit: limit,
		Why:        "it is the step that is written to heat " + strings.Join(who, ", ") + " through; what it does not undo, nothing later is relied on to undo",
		Watch:      Watch{"the temperature at the coldest point", "a checked probe in the middle of the largest piece, or of the pot after stirring", "every load, when its time is over", whoWatches},
		Corrective: corrective, Verify: verifyAll(), Records: entryRecords("load of the kettle")}
}

func coolingPoint(limit Limit) Point {
	return Point{Step: Cooling, Stage: CoolingStage, Key: Cooling + "/" + string(CoolingStage), Limit: limit,
		Why:   "spores live through cooking, and only fast cooling keeps them from growing; freezing and heating again do not undo what grew",
		Watch: Watch{"the temperature at the warmest point", "a checked probe, or a logger, in the middle of the deepest vessel", "at the start, every hour, and at the end of each stage", whoWatches},
		Corrective: []string{"the first stage missed: heat to 165 °F for 15 s within 2 h and cool again, once only, or throw it away",
			"the last stage missed: throw it away (from memory: confirm with the authority)", "hold the lot until a named person has decided, and write down why"},
		Verify: verifyAll("a cooling is logged from beginning to end in each vessel and depth that is used, and again when one changes"), Records: entryRecords("vessel and depth", "how it was cooled")}
}

func labelPoint(names []string) Point {
	return Point{Step: Labelling, Stage: LabellingStage, Key: Labelling + "/" + string(LabellingStage), Limit: labelLimit,
		Why:        "the label is all that a person with an allergy has, and nothing after it puts a wrong one right",
		Watch:      Watch{"that the label is that of the dish and declares " + strings.Join(names, ", "), "read against the dish's ingredients as they were used on the day", "the first and last pack of every roll and of every lot", whoWatches},
		Corrective: []string{"hold the lot; take the labels off and label anew", "if any was sold: recall it, and tell the authority"},
		Verify:     []string{inCharge + " reads the kept label of each lot before it is sold, and signs", "the list of allergens is held against suppliers' labels whenever goods are received"}, Records: entryRecords("one label kept with the lot")}
}

func frozenPoint(p Product) Point {
	c := []string{"thawed, or over 41 °F for more than 2 h: throw it away", "still frozen or with ice in it and 40 °F or colder: hold it; a named person decides, pack by pack"}
	why := "while it is frozen nothing grows"
	if p.Vacuum {
		c = append(c, "a vacuum pack that thawed is not frozen again without the authority's agreement")
		why += "; in a vacuum pack that thaws, botulism can"
	}
	return Point{Step: Selling, Stage: FrozenStage, Key: Selling + "/" + string(FrozenStage), Limit: p.keptFrozen(), Why: why,
		Watch:      Watch{"the temperature of the freezer", "a logger, or read by eye", "without a break, or twice a day", whoWatches},
		Corrective: c, Verify: verifyAll("the words “keep frozen until use” stand on every pack"), Records: entryRecords("freezer and place")}
}

func cautions(p Product) []string {
	c := []string{"Hot liquids burn: carry pots together, fill bags cool.", "Your local code and a licensed professional decide."}
	if p.Vacuum {
		c = append([]string{"Without air Clostridium botulinum can grow where a vacuum pack gets warm: keep the packs frozen until use, and never thaw them on a counter.",
			"Vacuum packing of cooked food usually needs an approved plan or a variance: ask the authority before you sell any (FDA Food Code 3-502.11 and .12)."}, c...)
	}
	for _, s := range p.Steps {
		if s.Blend && s.HeatToC != nil {
			return append([]string{"Hot liquid climbs in a blender: fill it a third, hold the lid with a cloth."}, c...)
		}
	}
	return c
}
