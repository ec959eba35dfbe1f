package web

import (
	"maps"
	"slices"
	"strings"

	"kettlefrost/internal/dishgraph"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/spelling"
	"kettlefrost/internal/unit"
)

// dishAs is what was meant by a name that the book has not: an ingredient of the book, a food of the table for a new one, or one of which nothing
// is known.
const dishAs = "as"

// How the choices of what was meant begin.
const (
	meantBook = "book:"
	meantFood = "food:"
	meantNew  = "new"
)

// mostMeant is how many foods are offered for a name.
const mostMeant = 6

// putIn puts an ingredient into a step: one of the book, or a new one on the spot.
func putIn(a dishAsked) (kitchen.Book, string, error) {
	amount, err := unit.ParseAmount(a.said(dishAmount))
	if err != nil {
		return a.book, "", &dishgraph.Refused{Says: "the amount cannot be read: " + err.Error(), Fix: "write it with its unit, such as 2 lb 3 oz, 1/2 cup or 3 each"}
	}
	book, id, err := a.meant()
	if err != nil {
		return a.book, "", err
	}
	now, err := dishgraph.Use(book, a.id, a.said(dishStep), kitchen.Use{Of: id, Amount: amount})
	return now, a.said(dishStep), err
}

// meant is the ingredient that was named, and the book with it in it.
func (a dishAsked) meant() (kitchen.Book, kitchen.IngredientID, error) {
	name, as := a.said(dishOf), a.said(dishAs)
	if id, is := ingredientCalled(a.book, name); is && as == "" {
		return a.book, id, nil
	}
	if id, chosen := strings.CutPrefix(as, meantBook); chosen {
		if _, there := a.book.Ingredients[kitchen.IngredientID(id)]; there {
			return a.book, kitchen.IngredientID(id), nil
		}
	}
	ndb, food := strings.CutPrefix(as, meantFood)
	switch {
	case name == "":
		return a.book, "", &dishgraph.Refused{Says: "nothing says what goes in", Fix: "write the name of an ingredient"}
	case as == "":
		return a.book, "", &dishgraph.Refused{Says: "the book has no ingredient called " + name, Fix: "choose below what is meant; a new one is put into the book with it"}
	case !food:
		ndb = ""
	}
	id := kitchen.IngredientID(dishgraph.IDOf(name, "ingredient", func(id string) bool { _, there := a.book.Ingredients[kitchen.IngredientID(id)]; return there }))
	book := a.book
	book.Ingredients = maps.Clone(book.Ingredients)
	if book.Ingredients == nil {
		book.Ingredients = map[kitchen.IngredientID]kitchen.Ingredient{}
	}
	book.Ingredients[id] = kitchen.Ingredient{Name: name, Food: ndb}
	return book, id, nil
}

// ingredientCalled is the ingredient of that name or id.
func ingredientCalled(b kitchen.Book, name string) (kitchen.IngredientID, bool) {
	if _, there := b.Ingredients[kitchen.IngredientID(name)]; there {
		return kitchen.IngredientID(name), true
	}
	for _, id := range slices.Sorted(maps.Keys(b.Ingredients)) {
		if strings.EqualFold(b.Ingredients[id].Name, name) {
			return id, true
		}
	}
	return "", false
}

// dishPut asks what more goes into a step; when a name is not one of the book, what may be meant by it.
type dishPut struct {
	Of, Amount string
	Choose     []option
	Names      []string // of the book's ingredients
}

func (a dishAsked) putting(foods *foodtable.Table) dishPut {
	v := dishPut{Of: a.said(dishOf), Amount: a.said(dishAmount)}
	for _, id := range slices.Sorted(maps.Keys(a.book.Ingredients)) {
		v.Names = append(v.Names, a.book.Ingredients[id].Name)
	}
	slices.Sort(v.Names)
	if _, is := ingredientCalled(a.book, v.Of); is || v.Of == "" || a.said(dishDo) != "use" {
		return v
	}
	if near := spelling.Nearest(v.Of, v.Names); near != "" {
		if id, is := ingredientCalled(a.book, near); is {
			v.Choose = append(v.Choose, option{meantBook + string(id), near + ", which the book has", false})
		}
	}
	for _, m := range foods.Search(v.Of, mostMeant) {
		v.Choose = append(v.Choose, option{meantFood + m.Food.NDB, "new: " + m.Food.Name, false})
	}
	v.Choose = append(v.Choose, option{meantNew, "new, and nothing is known of what it is made of", false})
	return v
}
