package haccp

// carried is what each class brings in. NACMCF and Codex leave the list to the kitchen: these are the usual ones, common practice. The key
// is the last word of the hazard's; cooks marks what the ingredient's own cooking undoes.
var carried = map[Class][]struct {
	name  string
	cooks bool
	Hazard
}{
	IntactMeat: {{"pathogens", true, Hazard{Kind: Biological, What: "Salmonella, E. coli O157, Listeria", Why: "raw meat", Significant: true, Control: "cooked through later"}}, {"bone", false, Hazard{Kind: Physical, What: "bone", Why: "cut meat", Control: "looked through by hand", Programme: "Tools"}}},
	GroundMeat: {{"pathogens", true, Hazard{Kind: Biological, What: "Salmonella, E. coli O157, Listeria", Why: "raw ground meat: they are inside", Significant: true, Control: "cooked through later"}}, {"bone", false, Hazard{Kind: Physical, What: "bone chips, metal", Why: "ground meat", Control: "from a supplier who looks for them", Programme: "Suppliers and the door"}}},
	Poultry:    {{"pathogens", true, Hazard{Kind: Biological, What: "Salmonella, Campylobacter", Why: "raw poultry", Significant: true, Control: "cooked through later"}}, {"bone", false, Hazard{Kind: Physical, What: "bone", Why: "cut poultry", Control: "looked through by hand", Programme: "Tools"}}},
	Fish: {{"pathogens", true, Hazard{Kind: Biological, What: "Vibrio, parasites, Listeria", Why: "raw fish", Significant: true, Control: "cooked through later"}}, {"bone", false, Hazard{Kind: Physical, What: "bone, shell", Why: "fish", Control: "looked through by hand", Programme: "Tools"}},
		{"histamine", false, Hazard{Kind: Chemical, What: "histamine", Why: "some fish that was not kept cold; heat does not undo it", Significant: true, Control: "cold at the door, from a supplier with a plan of its own", Programme: "Suppliers and the door"}}},
	Eggs:    {{"pathogens", true, Hazard{Kind: Biological, What: "Salmonella", Why: "raw eggs", Significant: true, Control: "cooked through later"}}},
	Cooked:  {{"pathogens", false, Hazard{Kind: Biological, What: "Listeria", Why: "handled after it was cooked", Significant: true, Control: "cold at the door, from a supplier with a plan of its own", Programme: "Suppliers and the door"}}},
	Dairy:   {{"pathogens", false, Hazard{Kind: Biological, What: "Listeria", Why: "pasteurised, and can be handled badly after it", Control: "cold at the door, pasteurised only", Programme: "Suppliers and the door"}}},
	Produce: {{"pathogens", false, Hazard{Kind: Biological, What: "Salmonella, Listeria, spores from soil", Why: "grown on the ground", Control: "washed, cooked", Programme: "Cleaning"}}, {"stones", false, Hazard{Kind: Physical, What: "stones, soil", Why: "grown on the ground", Control: "washed and looked through", Programme: "Tools"}}},
	Beans: {{"lectin", true, Hazard{Kind: Chemical, What: "lectin (phytohaemagglutinin)", Why: "raw beans, red kidney beans above all; a slow cooker does not undo it", Significant: true, Control: "soaked and boiled"}},
		{"spores", false, Hazard{Kind: Biological, What: "spores of Bacillus cereus", Why: "dried beans", Control: "cooled fast", later: CoolingStage}}, {"stones", false, Hazard{Kind: Physical, What: "stones", Why: "dried beans", Control: "looked through", Programme: "Tools"}}},
	Starch: {{"spores", false, Hazard{Kind: Biological, What: "spores of Bacillus cereus", Why: "starch", Control: "cooled fast", later: CoolingStage}}},
	Dry:    {{"spores", false, Hazard{Kind: Biological, What: "spores; Salmonella in spices; what grows in a swollen or leaking tin", Why: "kept dry, or in tins", Control: "cooked, or treated spices; swollen or badly dented tins go back", Programme: "Suppliers and the door"}}},
}

const (
	whoWatches = "the person at the step, named in the entry"
	inCharge   = "the person in charge"
	eachDay    = "each day of work"
)

// programmes are those without which no plan holds; common practice where no source is named.
func programmes(p Product) []Programme {
	all := []Programme{
		{Name: "Hands and health", What: "Clean hands, sick people stay away, clothes and hair; no bare hands on what is eaten as it is", Often: eachDay, Who: inCharge},
		{Name: "Cleaning", What: "Cleaned and disinfected by a written list of machines and surfaces; chemicals kept and used apart from food", Often: "after each use, and by the list", Who: "who used it; " + inCharge + " looks"},
		{Name: "House", What: "Pests, water, waste, maintenance, light and glass", Often: "each week", Who: inCharge},
		{Name: "Suppliers and the door", What: "Suppliers that are approved; cold goods 41 °F or colder, frozen goods without signs of thawing, packs whole, in date; what fails goes back", Often: "each delivery", Who: "who receives, named in the entry"},
		{Name: "Cold stores", What: "41 °F or colder, raw below what is ready to eat, the oldest first, dated", Often: "read at the beginning and the end of the day, or logged", Who: whoWatches},
		{Name: "Thermometers", What: "Checked in crushed ice and water: 32 °F within 2 °F (0 °C within 1 °C); one that is off is adjusted or not used", Often: "as the book has it for each, and when it fell", Who: inCharge},
		{Name: "Allergens", What: "Kept apart; the order of the day's dishes; washed down after each; labels held against suppliers' lists", Often: eachDay, Who: inCharge},
		{Name: "Tools", What: "Blades, seals, screens and whisks looked at for missing pieces", Often: "before and after each use", Who: "who uses it"},
		{Name: "Lots and recall", What: "Lots traced both ways, and a recall that was practised", Often: "a drill twice a year", Who: inCharge},
	}
	if p.Vacuum {
		all = append(all, Programme{Name: "Vacuum packing", What: "A place of its own for it, apart from raw food; only trained people; seals looked at; the words “keep frozen until use” on each pack", Often: "each filling", Who: inCharge, Confirm: "that a place of its own is asked for (FDA Food Code 3-502.12(B))"})
	}
	return all
}

// training is who must have learned what before they work by the plan (FDA Food Code 8-201.14(C): a training plan).
func training(p Product) []Training {
	all := []Training{
		{"everybody at a control point", "why it is one, its limit, how to measure in the coldest or warmest place, what to do when it is missed, and to write down the value that was read", "before the first time, and when the plan changes"},
		{"everybody", "hands, sickness, allergens, cleaning", "before the first day, and each year"},
		{"who looks at the records", "what a record must hold, what an interrupted or missing one means, and that a lot stays on hold until it is settled", "before the first time"},
	}
	if p.Vacuum {
		all = append(all, Training{"who seals", "what grows without air and why packs stay frozen, the machine, what a bad seal looks like", "before the first time, and each year"})
	}
	return all
}
