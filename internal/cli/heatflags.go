package cli

import (
	"fmt"
	"reflect"

	"github.com/alecthomas/kong"

	"kettlefrost/internal/heatcase"
)

// heatFoodFlags is what the food is.
type heatFoodFlags struct {
	Name         heatValue `name:"name" placeholder:"NAME" help:"What you call it."`
	Food         heatValue `name:"food" placeholder:"FOOD" help:"A food of the composition table: its number or words of its name."`
	Water        heatValue `name:"water" placeholder:"%" help:"Water, % by weight."`
	Protein      heatValue `name:"protein" placeholder:"%" help:"Protein, %."`
	Fat          heatValue `name:"fat" placeholder:"%" help:"Fat, %."`
	Carbohydrate heatValue `name:"carbohydrate" placeholder:"%" help:"Carbohydrate with fibre, as printed tables have it, %."`
	Fibre        heatValue `name:"fibre" placeholder:"%" help:"Fibre, the part of the carbohydrate that it is, %."`
	Ash          heatValue `name:"ash" placeholder:"%" help:"Ash, salt included, %."`
	Alcohol      heatValue `name:"alcohol" placeholder:"%" help:"Alcohol, %."`
	FreezesAt    heatValue `name:"freezes-at" placeholder:"TEMP" help:"Where it begins to freeze, if you know."`
}

// heatFlags is a case of heat on the command line; each is the key of package heatcase with its name.
type heatFlags struct {
	heatFoodFlags

	Pan      heatValue `name:"pan" xor:"shape" placeholder:"LENGTH" help:"Depth of the food in a pan."`
	Bag      heatValue `name:"bag" xor:"shape" placeholder:"LENGTH" help:"Thickness of a flat bag."`
	Slab     heatValue `name:"slab" xor:"shape" placeholder:"LENGTH" help:"Thickness of a flat layer."`
	Pot      heatValue `name:"pot" xor:"shape" placeholder:"\"D x H\"" help:"A pot or round tub: diameter x depth of the food."`
	Brick    heatValue `name:"brick" xor:"shape" placeholder:"\"L x W x H\"" help:"A box or block: length x width x height."`
	Stack    heatValue `name:"stack" placeholder:"COUNT" help:"So many bags lying on each other."`
	Touching bool      `name:"touching" help:"The bags of the stack touch, with no air between them."`
	Piece    heatValue `name:"piece" placeholder:"MASS" help:"What one bag, pan or slab holds."`

	In        heatValue `name:"in" placeholder:"MEDIUM" help:"What it stands in."`
	At        heatValue `name:"at" placeholder:"TEMP" help:"How cold or hot that is, if not as usual."`
	Film      heatValue `name:"film" placeholder:"W/m2K" help:"Its surface coefficient, if you know it."`
	Below     heatValue `name:"below" placeholder:"MEDIUM" help:"What is under it, if not the same."`
	BelowAt   heatValue `name:"below-at" placeholder:"TEMP" help:"How cold or hot that is."`
	BelowFilm heatValue `name:"below-film" placeholder:"W/m2K" help:"Its surface coefficient."`
	Above     heatValue `name:"above" placeholder:"MEDIUM" help:"What is over it, if not the same."`
	AboveAt   heatValue `name:"above-at" placeholder:"TEMP" help:"How cold or hot that is."`
	AboveFilm heatValue `name:"above-film" placeholder:"W/m2K" help:"Its surface coefficient."`

	Package heatValue `name:"package" placeholder:"KIND" help:"What is around the food: film is usual for a bag."`
	Open    bool      `name:"open" help:"No lid: hot food also cools by what evaporates."`
	Stir    heatValue `name:"stir" placeholder:"KIND" help:"A pot that is stirred all the time: a thin food, or a thick one that is scraped."`
	U       heatValue `name:"u" placeholder:"W/m2K" help:"Overall coefficient of a stirred pot, if you know it."`

	From  heatValue `name:"from" placeholder:"TEMP" help:"How warm the food is at the start."`
	To    heatValue `name:"to" placeholder:"TEMP" help:"How warm its core is to become."`
	Units heatValue `name:"units" placeholder:"us|metric" help:"The units you read."`
}

// heatValue is the text of a flag that may begin with a minus, as temperatures do.
type heatValue struct {
	text  string
	given bool
}

// Decode takes the next word of the command line, whatever it is.
func (v *heatValue) Decode(ctx *kong.DecodeContext) error {
	token := ctx.Scan.Pop()
	if token.IsEOL() {
		return fmt.Errorf("nothing stands after it")
	}
	v.text, v.given = fmt.Sprint(token.Value), true
	return nil
}

// given is the flags that were given, with their texts, in their order.
func (f heatFlags) given() [][2]string { return givenFlags(f) }

// given is the same of a food.
func (f heatFoodFlags) given() [][2]string { return givenFlags(f) }

// givenFlags reads a struct of flags, those of structs within it too.
func givenFlags(flags any) (given [][2]string) {
	v := reflect.ValueOf(flags)
	for _, field := range reflect.VisibleFields(v.Type()) {
		if field.Anonymous {
			continue
		}
		key := field.Tag.Get("name")
		switch x := v.FieldByIndex(field.Index).Interface().(type) {
		case heatValue:
			if x.given {
				given = append(given, [2]string{key, x.text})
			}
		case bool:
			if x {
				given = append(given, [2]string{key, "yes"})
			}
		}
	}
	return given
}

// setFlags puts flags that were given into a case, over what a file says.
func setFlags(c *heatcase.Case, given [][2]string) error {
	for _, flag := range given {
		if err := c.Set(flag[0], flag[1]); err != nil {
			return failure{code: badUsage, place: "--" + flag[0], what: err.Error(), fix: heatExample(flag[0])}
		}
	}
	return nil
}

// heatExample is how a flag is written.
func heatExample(key string) string {
	for _, f := range heatcase.Fields() {
		if f.Key == key && !f.Yes && f.Choices == nil {
			return fmt.Sprintf("write it like --%s %q", key, f.Example)
		}
	}
	return ""
}
