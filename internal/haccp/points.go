package haccp

import "strings"

// carried is what each class brings in. NACMCF and Codex leave the list to the kitchen: these are the usual ones, common practice.
var carried = map[Class][]Hazard{
	IntactMeat: {{Kind: Biological, What: "Salmonella, E. coli O157, Listeria", Why: "raw meat", Significant: true, Control: "cooked through later"}, {Kind: Physical, What: "bone", Why: "cut meat", Control: "looked through by hand"}},
	GroundMeat: {{Kind: Biological, What: "Salmonella, E. coli O157, Listeria", Why: "raw ground meat: they are inside", Significant: true, Control: "cooked through later"}},
	Poultry:    {{Kind: Biological, What: "Salmonella, Campylobacter", Why: "raw poultry", Significant: true, Control: "cooked through later"}, {Kind: Physical, What: "bone", Why: "cut poultry", Control: "looked through by hand"}},
	Fish:       {{Kind: Biological, What: "Vibrio, parasites, Listeria", Why: "raw fish", Significant: true, Control: "cooked through later"}, {Kind: Chemical, What: "histamine", Why: "some fish that was not kept cold; heat does not undo it", Significant: true, Control: "cold at the door, from a supplier with a plan of its own"}},
	Eggs:       {{Kind: Biological, What: "Salmonella", Why: "raw eggs", Significant: true, Control: "cooked through later"}},
	Cooked:     {{Kind: Biological, What: "Listeria", Why: "handled after it was cooked", Significant: true, Control: "cold at the door, from a supplier with a plan of its own"}},
	Dairy:      {{Kind: Biological, What: "Listeria", Why: "pasteurised, and can be handled badly after it", Control: "cold at the door, pasteurised only"}},
	Produce:    {{Kind: Biological, What: "Salmonella, Listeria, spores from soil", Why: "grown on the ground", Control: "washed, cooked"}, {Kind: Physical, What: "stones, soil", Why: "grown on the ground", Control: "washed and looked through"}},
	Beans:      {{Kind: Chemical, What: "lectin (phytohaemagglutinin)", Why: "raw beans, red kidney beans above all; a slow cooker does not undo it", Significant: true, Control: "soaked and boiled"}, {Kind: Biological, What: "spores of Bacillus cereus", Why: "dried beans", Control: "cooled fast"}, {Kind: Physical, What: "stones", Why: "dried beans", Control: "looked through"}},
	Starch:     {{Kind: Biological, What: "spores of Bacillus cereus", Why: "starch", Control: "cooled fast"}},
	Dry:        {{Kind: Biological, What: "spores; Salmonella in spices", Why: "dried", Control: "cooked, or treated spices"}},
}

// before are the programmes without which no plan holds.
var before = []string{
	"Clean hands, sick people stay away, clothes and hair",
	"Cleaning, with its chemicals kept and used apart from food",
	"Pests, water, waste, maintenance",
	"Suppliers that are approved; goods looked at at the door",
	"Cold stores and freezers watched; thermometers checked in ice and water",
	"Allergens kept apart; the order of dishes of a day; washing down after each",
	"People trained for what they do, with a record of it",
	"Lots traced both ways, and a recall that was practised",
}

const whoWatches = "the person at the step, named in the entry"

func entryRecords(more ...string) []string {
	return append([]string{"the value read, not a tick; time, lot, instrument and who"}, more...)
}

var verifyAll = []string{"somebody else reads the records before the lot is sold, and signs", "thermometers are checked in crushed ice and water (0 °C, within 1 °C), and when they fell"}

func cookingPoint(s Step, limit Limit) Point {
	return Point{Step: s.ID, Limit: limit,
		Watch:      Watch{"the temperature at the coldest point", "a checked probe in the middle of the largest piece, or of the pot after stirring", "every load, when its time is over", whoWatches},
		Corrective: []string{"go on heating until it is reached, and measure again", "if it cannot be reached: hold the lot, and decide with a reason whether it is thrown away"},
		Verify:     verifyAll, Records: entryRecords("load of the kettle")}
}

func coolingPoint(p Product) Point {
	limit := coolingLimit
	if p.Vacuum && p.Frozen {
		limit.Text += "; packs are frozen once they are cold"
	}
	return Point{Step: Cooling, Limit: limit,
		Watch: Watch{"the temperature at the warmest point", "a checked probe, or a logger, in the middle of the deepest vessel", "at 135 °F, every hour, at 2 h and at 6 h", whoWatches},
		Corrective: []string{"over 70 °F after 2 h: heat to 165 °F for 15 s within 2 h and cool again, once only, or throw it away",
			"over 41 °F after 6 h: throw it away (from memory: confirm with the authority)", "hold the lot until a named person has decided, and write down why"},
		Verify: append(append([]string{}, verifyAll...), "a cooling is logged from beginning to end in each vessel and depth that is used, and again when one changes"), Records: entryRecords("vessel and depth", "how it was cooled")}
}

func labelPoint(names []string) Point {
	return Point{Step: Labelling, Limit: labelLimit,
		Watch:      Watch{"that the label is that of the dish and declares " + strings.Join(names, ", "), "read against the dish's ingredients as they were used on the day", "the first and last pack of every roll and of every lot", whoWatches},
		Corrective: []string{"hold the lot; take the labels off and label anew", "if any was sold: recall it, and tell the authority"},
		Verify:     []string{"the list of allergens is held against suppliers' labels whenever goods are received"}, Records: entryRecords("one label kept with the lot")}
}

func frozenPoint(p Product) Point {
	c := []string{"thawed, or over 41 °F for more than 2 h: throw it away", "still frozen or with ice in it and 40 °F or colder: hold it; a named person decides, pack by pack"}
	if p.Vacuum {
		c = append(c, "a vacuum pack that thawed is not frozen again without the authority's agreement")
	}
	return Point{Step: Selling, Limit: keptFrozen,
		Watch:      Watch{"the temperature of the freezer", "a logger, or read by eye", "without a break, or twice a day", whoWatches},
		Corrective: c, Verify: append(append([]string{}, verifyAll...), "the words “keep frozen until use” stand on every pack"), Records: entryRecords("freezer and place")}
}

func cautions(p Product) []string {
	c := []string{"Hot liquids burn: carry pots together, fill bags cool.", "Your local code and a licensed professional decide."}
	if p.Vacuum {
		c = append([]string{"Vacuum packs keep air out and let botulism in: keep them frozen until use, and never thaw them on a counter."}, c...)
	}
	for _, s := range p.Steps {
		if s.Blend && s.HeatToC != nil {
			return append([]string{"Hot liquid climbs in a blender: fill it a third, hold the lid with a cloth."}, c...)
		}
	}
	return c
}
