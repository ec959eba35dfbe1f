package heatcase

import (
	"kettlefrost/internal/medium"
	"kettlefrost/internal/unit"
)

// fields is every key of a case.
var fields = []Field{
	choice("process", "What is to happen.", processWords).with(word(func(c *Case) *Process { return &c.Process }, processWords)),
	field("name", "What you call it.", "Friday's soup").with(word(func(c *Case) *string { return &c.Name }, nil)),
	field("food", "A food of the composition table: its number or words of its name.", "16070").with(word(func(c *Case) *string { return &c.Food.Find }, nil)),
	field("water", "Water, % by weight.", "86 %").with(share(func(c *Case) *unit.Share { return &c.Food.Composition.Water })),
	field("protein", "Protein, %.", "3.5 %").with(share(func(c *Case) *unit.Share { return &c.Food.Composition.Protein })),
	field("fat", "Fat, %.", "3 %").with(share(func(c *Case) *unit.Share { return &c.Food.Composition.Fat })),
	field("carbohydrate", "Carbohydrate with fibre, as printed tables have it, %.", "6.5 %").with(share(func(c *Case) *unit.Share { return &c.Food.Composition.Carbohydrate })),
	field("fibre", "Fibre, the part of the carbohydrate that it is, %.", "1 %").with(share(func(c *Case) *unit.Share { return &c.Food.Composition.Fibre })),
	field("ash", "Ash, salt included, %.", "1 %").with(share(func(c *Case) *unit.Share { return &c.Food.Composition.Ash })),
	field("alcohol", "Alcohol, %.", "2 %").with(share(func(c *Case) *unit.Share { return &c.Food.Composition.Alcohol })),
	field("freezes-at", "Where it begins to freeze, if you know.", "-0.8 °C").with(maybe(func(c *Case) **unit.Temp { return &c.Food.FreezesAt })),

	shape("pan", "Depth of the food in a pan.", "2 in").with(sizes(Pan, thickness)),
	shape("bag", "Thickness of a flat bag.", "1 in").with(sizes(Bag, thickness)),
	shape("slab", "Thickness of a flat layer.", "30 mm").with(sizes(Slab, thickness)),
	shape("pot", "A pot or round tub: diameter x depth of the food.", "22 in x 23 in").with(sizes(Pot, func(s *Shape) []*unit.Length { return []*unit.Length{&s.Diameter, &s.Depth} })),
	shape("brick", "A box or block: length x width x height.", "6 in x 6 in x 4 in").with(sizes(Brick, func(s *Shape) []*unit.Length { return []*unit.Length{&s.Length, &s.Width, &s.Height} })),
	field("stack", "So many bags lying on each other.", "4").with(stack()),
	yesNo("touching", "The bags of the stack touch, with no air between them.").with(yes(func(c *Case) *bool { return &c.Shape.Touching })),
	field("piece", "What one bag, pan or slab holds.", "24 oz").with(amount(func(c *Case) *unit.Mass { return &c.Piece })),

	choice("in", "What it stands in.", mediumIDs()).with(word(func(c *Case) *string { return &c.Around.Medium }, mediumIDs())),
	field("at", "How cold or hot that is, if not as usual.", "38 °F").with(maybe(func(c *Case) **unit.Temp { return &c.Around.At })),
	field("film", "Its surface coefficient, if you know it.", "20 W/m2K").with(maybe(func(c *Case) **unit.Film { return &c.Around.Film })),
	choice("below", "What is under it, if not the same.", sideIDs()).with(word(func(c *Case) *string { return &c.Below.Medium }, sideIDs())),
	field("below-at", "How cold or hot that is.", "-18 °C").with(maybe(func(c *Case) **unit.Temp { return &c.Below.At })),
	field("below-film", "Its surface coefficient.", "60 W/m2K").with(maybe(func(c *Case) **unit.Film { return &c.Below.Film })),
	choice("above", "What is over it, if not the same.", sideIDs()).with(word(func(c *Case) *string { return &c.Above.Medium }, sideIDs())),
	field("above-at", "How cold or hot that is.", "3 °C").with(maybe(func(c *Case) **unit.Temp { return &c.Above.At })),
	field("above-film", "Its surface coefficient.", "10 W/m2K").with(maybe(func(c *Case) **unit.Film { return &c.Above.Film })),

	choice("package", "What is around the food: film is usual for a bag.", packages).with(word(func(c *Case) *Package { return &c.Package }, packages)),
	yesNo("open", "No lid: hot food also cools by what evaporates.").with(yes(func(c *Case) *bool { return &c.Open })),
	choice("stir", "A pot that is stirred all the time: a thin food, or a thick one that is scraped.", stirrings).with(word(func(c *Case) *Stirring { return &c.Stir }, stirrings)),
	field("u", "Overall coefficient of a stirred pot, if you know it.", "100 W/m2K").with(maybe(func(c *Case) **unit.Film { return &c.U })),

	field("from", "How warm the food is at the start.", "200 °F").with(maybe(func(c *Case) **unit.Temp { return &c.From })),
	field("to", "How warm its core is to become.", "41 °F").with(maybe(func(c *Case) **unit.Temp { return &c.To })),
	choice("units", "The units you read.", []string{"us", "metric"}).with(unitSystem()),
}

var (
	processWords = []string{string(Cool), string(Freeze), string(Thaw), string(Reheat)}
	packages     = []string{string(NoPackage), string(Film), string(Carton), string(AirGap)}
	stirrings    = []string{string(Unstirred), string(StirredThin), string(StirredThick)}
)

func thickness(s *Shape) []*unit.Length { return []*unit.Length{&s.Thickness} }

func field(key, help, example string) Field { return Field{Key: key, Help: help, Example: example} }

func shape(key, help, example string) Field {
	return Field{Key: key, Help: help, Example: example, Group: "shape"}
}

func choice(key, help string, choices []string) Field {
	return Field{Key: key, Help: help, Example: choices[0], Choices: choices}
}

func yesNo(key, help string) Field { return Field{Key: key, Help: help, Example: "yes", Yes: true} }

func (f Field) with(set func(*Case, string) error, get func(Case) string) Field {
	f.set, f.get = set, get
	return f
}

func unitSystem() (func(*Case, string) error, func(Case) string) {
	set := func(c *Case, text string) error { return c.Units.UnmarshalText([]byte(text)) }
	return set, func(c Case) string { return c.Units.String() }
}

// mediumIDs is every medium that food can stand in; the insides of stirred pots are none.
func mediumIDs() []string {
	var ids []string
	for _, m := range medium.All() {
		if m.ID != string(insideThin) && m.ID != string(insideThick) {
			ids = append(ids, m.ID)
		}
	}
	return ids
}

func sideIDs() []string { return append(mediumIDs(), Closed) }
