package web

import (
	"cmp"
	"maps"
	"net/http"
	"net/url"
	"slices"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/dishgraph"
	"kettlefrost/internal/kitchen"
)

// dishNewPath is where a dish begins.
const dishNewPath = dishPath + "/new"

// newDishPage is all that templates/dishnew.html may show: the ways to a new dish.
type newDishPage struct {
	shell
	Problem string
	Name    string
	Like    []option
	Links   []link
	Dishes  []link
}

var newDishTemplate = parse[newDishPage]("dishnew")

// newDish asks what a dish is called and what it is like, and leads to it: it is in its address until it is saved.
func (s *server) newDish(w http.ResponseWriter, r *http.Request) {
	book, _ := s.house.Book()
	name, from := tidy(r.URL.Query().Get(dishNamed)), kitchen.DishID(tidy(r.URL.Query().Get("from")))
	v := newDishPage{shell: s.inShell(r, book.Kitchen, "A new dish", "book"), Name: name, Like: []option{{"", "nothing: from the beginning", from == ""}},
		Links: []link{{"From a home recipe", draftPath}, {"Led through it, question by question", dishFirstPath}}}
	for _, id := range slices.Sorted(maps.Keys(book.Dishes)) {
		says := cmp.Or(book.Dishes[id].Name, string(id))
		v.Like = append(v.Like, option{string(id), says, from == id})
		v.Dishes = append(v.Dishes, link{says, dishPath + "/" + url.PathEscape(string(id))})
	}
	like, there := book.Dishes[from]
	switch {
	case !r.URL.Query().Has(dishNamed):
	case name == "":
		v.Problem = "Nothing says what it is called."
	case from != "" && !there:
		v.Problem = "The book has no dish to begin with under that name."
	default:
		http.Redirect(w, r, s.beginDish(book, name, like), http.StatusSeeOther)
		return
	}
	newDishTemplate.show(w, map[bool]int{true: http.StatusOK, false: http.StatusUnprocessableEntity}[v.Problem == ""], v)
}

// beginDish is the address of a new dish, like another or without steps.
func (s *server) beginDish(book kitchen.Book, name string, like kitchen.Dish) string {
	id := kitchen.DishID(dishgraph.IDOf(name, "dish", func(id string) bool {
		_, there := book.Dishes[kitchen.DishID(id)]
		return there || id == "new" || id == "first"
	}))
	like.Name = name
	if like.Steps == nil {
		like.Steps = []kitchen.Step{}
	}
	d := dishDraft{changes: []bookfile.Change{bookfile.Set(kitchen.PathTo("dishes", string(id)), like)}}
	return dishURL(id, d, "", nil) + "#add"
}
