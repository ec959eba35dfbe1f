package kitchen

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/unit"
)

// Weighed is what really came out of the pot, weighed or measured at the sealing table.
type Weighed struct {
	Dish   DishID
	Output OutputID
	Amount unit.Amount // a mass, a volume, or pieces
}

// ParseWeighed reads what was weighed: "ale-cheddar/sauce=71 lb"; "sauce=29 gal" where no other dish of the run gives a sauce.
func ParseWeighed(text string) (Weighed, error) {
	const write = `write an output, = and an amount, such as sauce=71 lb or "ale-cheddar/sauce=29 gal"`
	name, amount, _ := cut(text, "=")
	if name == "" || amount == "" {
		return Weighed{}, fmt.Errorf("%.40q does not say what was weighed: %s", text, write)
	}
	w := Weighed{Output: OutputID(name)}
	if dish, output, both := cut(name, "/"); both {
		w.Dish, w.Output = DishID(dish), OutputID(output)
	}
	var err error
	if w.Amount, err = ParseWeight(amount); err != nil {
		return Weighed{}, fmt.Errorf("%w: %s", err, write)
	}
	return w, nil
}

// ParseWeight reads how much was weighed. A bare number is not taken: nobody can tell pounds from kilograms.
func ParseWeight(text string) (unit.Amount, error) {
	if text = strings.TrimSpace(text); text != "" && strings.Trim(text, "0123456789.,/ ") == "" {
		return unit.Amount{}, fmt.Errorf("%.40q has no unit: write lb, oz, kg, gal or pieces after it", text)
	}
	return unit.ParseAmount(text)
}

// PackedOf are the outputs of a dish that its packs are filled with, in the order of the packs' names and of filling.
func (b Book) PackedOf(dish DishID) []OutputID {
	var ids []OutputID
	for _, p := range inOrder(b.Packs) {
		for _, f := range p.Fill {
			if p.Dish == dish && !slices.Contains(ids, f.Of) {
				ids = append(ids, f.Of)
			}
		}
	}
	return ids
}

// CheckWeighed gives each weight the dish that it belongs to, of those that are cooked, and reports what fits none or more than one.
func CheckWeighed(book Book, weighed []Weighed, dishes []DishID) ([]Weighed, finding.List) {
	c := &checker{book: book}
	weighed = slices.Clone(weighed)
	for i := range weighed {
		w := &weighed[i]
		at := spot{where: "what was weighed"}.item("weighed", i, string(w.Output))
		c.weighedOf(at, w, dishes)
		if slices.ContainsFunc(weighed[:i], func(o Weighed) bool { return o.Dish == w.Dish && o.Output == w.Output && w.Dish != "" }) {
			c.stop(WeighedTwice, at, fmt.Sprintf("%s of %s is weighed twice", w.Output, w.Dish), "add the two up, and write their sum once")
		}
		if a := w.Amount; a.Mass < 0 || a.Volume < 0 || a.Count < 0 {
			c.stop(OutOfRange, at.key("amount"), "the amount is less than nothing", "write what the scale says, less the tare")
		}
	}
	return weighed, c.found
}

// weighedOf finds the dish whose output was weighed.
func (c *checker) weighedOf(at spot, w *Weighed, dishes []DishID) {
	var givers []DishID
	var known []string
	for _, d := range dishes {
		for _, o := range c.book.PackedOf(d) {
			known = append(known, string(o))
			if o == w.Output && (w.Dish == "" || w.Dish == d) {
				givers = append(givers, d)
			}
		}
	}
	switch {
	case w.Dish != "" && !slices.Contains(dishes, w.Dish):
		c.refers(at.key("dish"), "dish in this run", string(w.Dish), texts(dishes))
	case len(givers) == 0:
		c.refers(at.key("output"), "output to be packed", string(w.Output), known)
	case len(givers) > 1:
		c.stop(WeighedOfWhich, at.key("output"), fmt.Sprintf("%d dishes of this run give %s", len(givers), w.Output), fmt.Sprintf("write %s/%s= or %s/%s=", givers[0], w.Output, givers[1], w.Output))
	default:
		w.Dish = givers[0]
	}
}

func texts[T ~string](ids []T) []string {
	list := make([]string, len(ids))
	for i, id := range ids {
		list[i] = string(id)
	}
	return list
}
