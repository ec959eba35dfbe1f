package app

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/spelling"
	"kettlefrost/internal/unit"
)

// Made is every output of every dish of a book, at the scale it is written for.
func (a *App) Made(book kitchen.Book) []plan.MadeFood { return plan.Made(book, a.foods) }

// MadeFood is what a name, "dish/output" or the dish alone when it has one output, says of what a book makes. An unknown name is an error
// that says which are near.
func MadeFood(made []plan.MadeFood, name string) (plan.MadeFood, error) {
	var ids []string
	var ofDish []plan.MadeFood
	for _, m := range made {
		if m.ID() == name {
			return m, nil
		}
		if string(m.Dish) == name {
			ofDish = append(ofDish, m)
		}
		ids = append(ids, m.ID())
	}
	if len(ofDish) == 1 {
		return ofDish[0], nil
	}
	var near []string
	for _, m := range ofDish {
		near = append(near, m.ID())
	}
	if best := spelling.Nearest(name, ids); best != "" && near == nil {
		near = append(near, best)
	}
	if near == nil {
		near = ofName(made, name)
	}
	switch {
	case len(made) == 0:
		return plan.MadeFood{}, fmt.Errorf("the book makes no %q, nor anything else that can be computed", name)
	case near == nil && len(ids) <= mostNamed:
		return plan.MadeFood{}, fmt.Errorf("the book makes no %q; it makes %s", name, strings.Join(ids, ", "))
	case near == nil:
		return plan.MadeFood{}, fmt.Errorf("the book makes no %q", name)
	}
	return plan.MadeFood{}, fmt.Errorf("the book makes no %q; near it are %s", name, strings.Join(near[:min(len(near), mostNamed)], ", "))
}

// mostNamed is how many names an error lists.
const mostNamed = 8

// ofName is the ids of what has a dish or an output of a name, or nearly: of "soup/x", those of soup.
func ofName(made []plan.MadeFood, name string) []string {
	dish, output, _ := strings.Cut(name, "/")
	var parts, ids []string
	for _, m := range made {
		parts = append(parts, string(m.Dish), string(m.Output))
	}
	meant := []string{spelling.Nearest(dish, parts), spelling.Nearest(output, parts)}
	for _, m := range made {
		if slices.Contains(meant, string(m.Dish)) || slices.Contains(meant, string(m.Output)) {
			ids = append(ids, m.ID())
		}
	}
	return ids
}

// MassOf reads an amount of a made food, by mass or by volume; a volume is weighed by the density of the food when hot.
func MassOf(m plan.MadeFood, text string) (unit.Mass, error) {
	mass, err := unit.ParseMass(text)
	if err == nil {
		return mass, nil
	}
	volume, notVolume := unit.ParseVolume(text)
	if notVolume != nil {
		return 0, err
	}
	x, err := m.Composition.At(hotC)
	if err != nil {
		return 0, err
	}
	return unit.MassKg(volume.L() * x.DensityKgM3 / 1000), nil
}

// hotC is where a volume of hot food is weighed.
const hotC = 80

// CoolNow compares all ways of the kitchen to cool so much of a made food, as hot as it is now.
func (a *App) CoolNow(book kitchen.Book, m plan.MadeFood, much unit.Mass, from unit.Temp) (plan.Plan, error) {
	return plan.CoolNow(book, a.foods, m.Dish, m.Output, much, from)
}
