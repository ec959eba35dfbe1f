package cli

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/sheet"
	"kettlefrost/internal/spelling"
	"kettlefrost/internal/unit"
)

// fillingCommand reads the check-weights of a filling.
type fillingCommand struct {
	bookFlag
	Pack  string       `arg:"" help:"A pack of the book."`
	Tare  []unit.Mass  `placeholder:"MASS" help:"What empty bags with their labels weigh: \"11.2 g,11.4 g\"; without, the last check-weights of the book are read, or a first belief is used where there are none."`
	Gross []unit.Mass  `placeholder:"MASS" help:"What filled packs weigh, in the order of filling: \"470 g,468 g,473 g\"."`
	Lot   int          `placeholder:"COUNT" help:"How many packs were filled."`
	As    string       `default:"text" enum:"text,json,svg" help:"text, json (kettlefrost.filling/1) or svg (a control chart)."`
	Units *unit.System `placeholder:"metric|us" help:"Units of the text; those of the book when left out."`
}

// Help is the longer help of the command.
func (fillingCommand) Help() string {
	return `How much this kitchen's hands scatter and drift, and what is given away over the label:

    kettlefrost filling ale-cheddar-lb
    kettlefrost filling ale-cheddar-lb --tare "11.2 g,11.4 g" --gross "470 g,468 g,473 g,466 g"
    kettlefrost filling ale-cheddar-lb --as svg > chart.svg`
}

func (c fillingCommand) Run(s *surroundings) error {
	h, err := c.open(s)
	if err != nil {
		return err
	}
	book, err := h.sound(s)
	if err != nil {
		return err
	}
	w, err := c.weighing(book)
	if err != nil {
		return err
	}
	f, err := h.Filling(book, kitchen.PackID(c.Pack), w)
	if err != nil {
		return failure{badUsage, "filling " + c.Pack, err.Error(), "kettlefrost filling --help shows how weights are written"}
	}
	switch c.As {
	case "json":
		return s.showJSON(f)
	case "svg":
		if len(f.Nets) == 0 {
			return failure{badUsage, "filling " + c.Pack, "nobody has weighed it, so that there is nothing to draw", "give --tare and --gross, or write checks: at the pack"}
		}
		return s.show(string(draw.SVG(draw.FillingChart(f))))
	}
	units := f.Units
	if c.Units != nil {
		units = *c.Units
	}
	return s.show(sheet.FillingText(f, units))
}

// weighing is what was typed, or the last check-weights of the book.
func (c fillingCommand) weighing(book kitchen.Book) (kitchen.Weighing, error) {
	pack, ok := book.Packs[kitchen.PackID(c.Pack)]
	if !ok {
		fix := "the book has " + strings.Join(texts(slices.Sorted(maps.Keys(book.Packs))), ", ")
		if near := spelling.Nearest(c.Pack, texts(slices.Collect(maps.Keys(book.Packs)))); near != "" {
			fix = fmt.Sprintf("did you mean %s?", near)
		}
		return kitchen.Weighing{}, failure{badUsage, "filling " + c.Pack, "the book has no such pack", fix}
	}
	if len(c.Tare)+len(c.Gross) > 0 {
		return kitchen.Weighing{Tare: c.Tare, Gross: c.Gross, Lot: c.Lot}, nil
	}
	if len(pack.Checks) == 0 {
		return kitchen.Weighing{Lot: c.Lot}, nil // nobody has weighed it: a first belief must do
	}
	return pack.Checks[len(pack.Checks)-1], nil
}

func texts[T ~string](ids []T) []string {
	list := make([]string, len(ids))
	for i, id := range ids {
		list[i] = string(id)
	}
	return list
}
