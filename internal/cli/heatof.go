package cli

import (
	"slices"

	"kettlefrost/internal/app"
	"kettlefrost/internal/heatcase"
	"kettlefrost/internal/plan"
)

// heatOf takes the food from a dish of the book.
type heatOf struct {
	Of heatValue `name:"of" placeholder:"DISH/OUTPUT" help:"The food: what a step of a dish in the book gives. kettlefrost heat foods lists them."`
	bookFlag
}

// foodKeys are the keys that say what the food is; a name and a measured freezing point go with a dish as well.
var foodKeys = []string{"food", "water", "protein", "fat", "carbohydrate", "fibre", "ash", "alcohol"}

// made is the food that --of names; ok is false without it.
func (o heatOf) made(s *surroundings) (m plan.MadeFood, ok bool, err error) {
	if !o.Of.given {
		if o.Book != "" {
			return m, false, failure{badUsage, "--book", "the book is asked for nothing", "name something that it makes after --of"}
		}
		return m, false, nil
	}
	h, err := o.open(s)
	if err != nil {
		return m, false, err
	}
	book, err := h.sound(s)
	if err != nil {
		return m, false, err
	}
	if m, err = app.MadeFood(h.Made(book), o.Of.text); err != nil {
		return m, false, failure{badUsage, "--of", err.Error(), "kettlefrost heat foods lists what it makes"}
	}
	return m, true, nil
}

// hold puts the food that --of names into a case, before its flags. A name and a freezing point of the case's file stay. What is cooled
// starts as warm as it leaves its step, unless the case says. The food is returned, if there is one.
func (o heatOf) hold(s *surroundings, c *heatcase.Case, flags [][2]string) (plan.MadeFood, bool, error) {
	if o.Of.given {
		for _, f := range flags {
			if slices.Contains(foodKeys, f[0]) {
				return plan.MadeFood{}, false, failure{badUsage, "--of", "--of and --" + f[0] + " can't be used together", "keep one of them"}
			}
		}
		if c.Food.Find != "" || c.Food.Composition != (heatcase.Composition{}) {
			return plan.MadeFood{}, false, failure{badUsage, "--of", "the file says what food it is as well", "keep one of them"}
		}
	}
	m, ok, err := o.made(s)
	if err != nil || !ok {
		return m, false, err
	}
	name, freezesAt := c.Name, c.Food.FreezesAt
	c.Hold(m.Name, m.Composition, m.FreezesC)
	if name != "" {
		c.Name = name
	}
	if freezesAt != nil {
		c.Food.FreezesAt = freezesAt
	}
	if c.Process == heatcase.Cool && c.From == nil {
		c.From = &m.From
	}
	return m, true, nil
}
