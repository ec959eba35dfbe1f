package web

import (
	"net/url"
	"slices"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/heatcase"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// ofKey names a food of the book in an address: dish/output. It is replaced by what that food is, so that the address holds on its own
// when the book changes.
const ofKey = "of"

// madeFoods is what the book's dishes give; none when the book has mistakes.
func (s *server) madeFoods(book kitchen.Book, found finding.List) []plan.MadeFood {
	if found.Worst() >= finding.Stop {
		return nil
	}
	return s.house.Made(book)
}

// fillFood is a query with the food that it names by ofKey written out; what was wrong with that name stands at the food.
func fillFood(query url.Values, made []plan.MadeFood, units unit.System) (url.Values, *heatProblem) {
	name := tidy(query.Get(ofKey))
	if name == "" {
		return query, nil
	}
	m, err := app.MadeFood(made, name)
	if err != nil {
		return query, &heatProblem{"food", capital(err.Error()) + "."}
	}
	filled := url.Values{}
	for key, texts := range query {
		filled[key] = slices.Clone(texts)
	}
	c := heatcase.New(heatcase.Cool)
	c.Hold(m.Name, m.Composition, m.FreezesC)
	for _, key := range slices.Concat([]string{ofKey, wasKey, "food"}, partKeys, []string{"name", "freezes-at"}) {
		filled.Del(key)
		if text := c.Text(key); text != "" {
			filled.Set(key, text)
		}
	}
	cools := query.Get("process") == "" || query.Get("process") == string(heatcase.Cool)
	if cools && tidy(query.Get("from")) == "" {
		filled.Set("from", readableTemp(m.From, units))
	}
	return filled, nil
}

// bookFoods is what one dish of the book gives.
type bookFoods struct {
	dish  kitchen.DishID
	Dish  string
	Foods []foodLink
}

// fromBook is links that ask the same about what the book's dishes give: what has a name of its own, which is what goes on to be chilled,
// or every step's where a dish names nothing.
func (q heatQuestion) fromBook(made []plan.MadeFood) []bookFoods {
	rest := q.query()
	for _, key := range append([]string{"food", "name", "freezes-at"}, partKeys...) {
		rest.Del(key)
	}
	if q.texts["process"] == string(heatcase.Cool) {
		rest.Del("from") // it starts as warm as it leaves its step
	}
	address := heatPath + "?" + rest.Encode() + "&" + ofKey + "="
	names := map[kitchen.DishID]bool{}
	for _, m := range made {
		names[m.Dish] = names[m.Dish] || ownName(m)
	}
	var dishes []bookFoods
	for _, m := range made {
		if names[m.Dish] && !ownName(m) {
			continue
		}
		if n := len(dishes); n == 0 || dishes[n-1].dish != m.Dish {
			dishes = append(dishes, bookFoods{dish: m.Dish, Dish: m.DishName})
		}
		last := &dishes[len(dishes)-1]
		last.Foods = append(last.Foods, foodLink{Name: strings.TrimPrefix(m.Name, m.DishName+": "), URL: address + url.QueryEscape(m.ID())})
	}
	return dishes
}

// ownName says that an output is not called after its dish and step.
func ownName(m plan.MadeFood) bool { return !strings.HasPrefix(m.Name, m.DishName+": ") }
