// Package firstdish leads through the first dish of a kitchen, one question after another: what was answered so far becomes a dish with its
// ingredients, a pot, a way of cooling, a bag, a pack, somebody who works and a run, and what is still missing is said. It is pure: answers and a
// book go in, a book comes out.
package firstdish

// Field is something that is asked.
type Field struct {
	Key, Label, Hint string
	Usual            string // what stands there until something else is typed
	Lines            bool   // several lines may be typed
	May              bool   // it may be left empty
	Choices          []Choice
}

// Choice is an answer to choose.
type Choice struct{ Is, Says string }

// Screen is one question, with the fields that answer it.
type Screen struct {
	Key, Asks, Why string
	Fields         []Field
}

// Answers are texts by the keys of fields. Answers about lines have the keys of draftdish.
type Answers map[string]string

// Keys of the fields.
const (
	Name    = "name"
	Lines   = "lines"
	PotName = "pot"
	Holds   = "holds"
	Across  = "across"
	Power   = "power"
	Hot     = "hot"
	Time    = "time"
	Lid     = "lid"
	Cooling = "cooling"
	Deep    = "deep"
	Fill    = "fill"
	BagLong = "bag-long"
	BagWide = "bag-wide"
	Price   = "price"
	Who     = "who"
	From    = "from"
	To      = "to"
	Count   = "count"
)

// Ways of cooling that are asked for.
const (
	IceBath = "ice-bath"
	Pans    = "pans"
)

// Screens are the questions in their order.
var Screens = []Screen{
	{Key: "name", Asks: "What is it called?", Why: "A dish is cooked once and filled into packs. Take one that you know by heart.", Fields: []Field{{Key: Name, Label: "The dish", Hint: "as the kitchen calls it, such as lentil soup"}}},
	{Key: "lines", Asks: "What goes in?", Why: "Write it as on paper, one thing on a line with how much of it. The size of the batch does not matter: it is scaled.", Fields: []Field{{Key: Lines, Label: "Ingredients, one on a line", Hint: "such as 3 lb lentils, 2 gal water, 2 onions", Lines: true}}},
	{Key: "pot", Asks: "In what pot?", Why: "How much it holds says how many loads there are; how wide it is, how much boils away; what heats it, how long it takes to get hot.", Fields: []Field{
		{Key: PotName, Label: "The pot", Hint: "what the crew calls it", Usual: "the big pot"}, {Key: Holds, Label: "It holds, to the brim", Hint: "such as 60 qt or 57 L"}, {Key: Across, Label: "Across, inside", Hint: "such as 16 in or 40 cm"}, {Key: Power, Label: "Heat it is given", Hint: "of the burner or the element, such as 30,000 Btu/h or 9 kW"}}},
	{Key: "time", Asks: "How hot, and how long?", Why: "The time to get hot is computed; what boils away follows from the pot.", Fields: []Field{
		{Key: Hot, Label: "It is brought to", Hint: "such as 200 °F or 95 °C", Usual: "200 °F"}, {Key: Time, Label: "Then it cooks for", Hint: "such as 45 min or 1 h 20 min"}, {Key: Lid, Label: "The lid", Hint: "with it off, water boils away", Choices: []Choice{{"on", "on"}, {"off", "off"}}}}},
	{Key: "cooling", Asks: "How is it cooled?", Why: "Hot food has to be cold in time. Your local code decides what time that is; the plan says how long it is predicted to take.", Fields: []Field{
		{Key: Cooling, Label: "It is cooled", Hint: "more ways can be written later, and are compared", Choices: []Choice{{IceBath, "in the pot, in ice water, stirred"}, {Pans, "in shallow pans in the walk-in"}}}, {Key: Deep, Label: "In pans: how deep", Hint: "such as 2 in or 5 cm", Usual: "2 in"}}},
	{Key: "pack", Asks: "What is it sold in?", Why: "The plan fills whole packs, and says what is left over.", Fields: []Field{
		{Key: Fill, Label: "In each pack", Hint: "such as 1 lb or 500 g"}, {Key: BagLong, Label: "The bag is long", Hint: "inside, below the seal, such as 8 in", Usual: "8 in"}, {Key: BagWide, Label: "and wide", Hint: "such as 6 in", Usual: "6 in"}, {Key: Price, Label: "A customer pays", Hint: "may stay empty", May: true}}},
	{Key: "day", Asks: "Who cooks, and how many packs?", Why: "The day is planned around who is there.", Fields: []Field{
		{Key: Who, Label: "Who cooks", Hint: "a first name"}, {Key: From, Label: "From", Hint: "such as 08:00", Usual: "08:00"}, {Key: To, Label: "to", Hint: "such as 16:00", Usual: "16:00"}, {Key: Count, Label: "Packs", Hint: "a number"}}},
}
