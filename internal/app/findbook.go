package app

import (
	"cmp"
	"io/fs"
	"strings"

	"kettlefrost/internal/barcode"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/find"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
)

// files says in which file of the book something is written; "" when that cannot be told.
func (f *Finder) files() func(path string) string {
	house, can := f.house.(interface{ bookFolder() fs.FS })
	if !can {
		return func(string) string { return "" }
	}
	at := bookfile.Read(snapshot(house.bookFolder())).Positions
	return func(path string) string { return at[path].File }
}

// bookFolder is where the book is read from.
func (a *App) bookFolder() fs.FS { return a.files() }

// bookEntries is what can be found in a book.
func bookEntries(book kitchen.Book, file func(path string) string) []find.Entry {
	s := &bookShelf{book: book, file: file}
	for id, d := range book.Dishes {
		s.dish(id, d)
	}
	for id, p := range book.Packs {
		s.pack(id, p)
	}
	for name, r := range book.Runs {
		s.run(name, r)
	}
	for id, x := range book.Ingredients {
		s.ingredient(id, x)
	}
	for id, x := range book.Suppliers {
		s.put(find.Supplier, "suppliers", string(id), x.Name, "", x.Note)
	}
	for id, x := range book.People {
		s.put(find.Person, "people", string(id), x.Name, skills(x.Can))
	}
	s.equipment()
	s.places()
	return s.all
}

// bookShelf gathers what can be found in a book.
type bookShelf struct {
	book kitchen.Book
	file func(path string) string
	all  []find.Entry
}

// put adds something that the book lists by its ID.
func (s *bookShelf) put(kind find.Kind, part, id, name, about string, also ...string) {
	s.all = append(s.all, find.Entry{Kind: kind, ID: id, Of: s.file(kitchen.PathTo(part, id)), Name: name, About: about, Also: also})
}

func (s *bookShelf) dish(id kitchen.DishID, d kitchen.Dish) {
	s.all = append(s.all, find.Entry{Kind: find.Dish, ID: string(id), Name: d.Name, About: d.About})
	for _, step := range d.Steps {
		e := find.Entry{Kind: find.Step, ID: string(id) + "/" + step.ID, Of: string(id), Name: step.Do, About: d.Name, Also: []string{step.How}}
		for _, out := range step.Gives {
			e.Also = append(e.Also, out.Name, string(out.ID))
		}
		for _, use := range step.Use {
			e.Also = append(e.Also, string(use.Of), s.book.Ingredients[use.Of].Name)
		}
		s.all = append(s.all, e)
	}
}

func (s *bookShelf) pack(id kitchen.PackID, p kitchen.Pack) {
	e := find.Entry{Kind: find.Pack, ID: string(id), Name: p.Name, About: s.book.Dishes[p.Dish].Name, Also: []string{p.Identity, p.GTIN}}
	if number, err := barcode.ParseGTIN(p.GTIN); err == nil {
		e.Also = append(e.Also, string(number))
	}
	s.all = append(s.all, e)
}

func (s *bookShelf) run(name string, r kitchen.Request) {
	var wanted []string
	for _, w := range r.Want {
		switch {
		case w.Pack != "":
			wanted = append(wanted, s.packName(string(w.Pack)))
		case w.Dish != "":
			wanted = append(wanted, cmp.Or(s.book.Dishes[w.Dish].Name, string(w.Dish)))
		}
	}
	s.all = append(s.all, find.Entry{Kind: find.Run, ID: name, Name: r.Name, About: strings.Join(wanted, ", "), Day: r.Day})
}

func (s *bookShelf) packName(id string) string {
	return cmp.Or(s.book.Packs[kitchen.PackID(id)].Name, id)
}

func (s *bookShelf) ingredient(id kitchen.IngredientID, x kitchen.Ingredient) {
	also := []string{x.Label, x.Food, x.Aisle}
	var sold []string
	for _, o := range x.Buy {
		also = append(also, o.Name)
		if name := s.book.Suppliers[o.Supplier].Name; name != "" {
			sold = append(sold, name)
		}
	}
	s.put(find.Ingredient, "ingredients", string(id), x.Name, strings.Join(sold, ", "), also...)
}

func (s *bookShelf) equipment() {
	for id, x := range s.book.Equipment {
		s.put(find.Equipment, "equipment", string(id), x.Name, string(x.Kind))
	}
	for id, x := range s.book.Chilling {
		s.put(find.Equipment, "chilling", string(id), x.Name, "a way to chill: "+string(x.Method))
	}
	for id, x := range s.book.Freezers {
		s.put(find.Equipment, "freezers", string(id), x.Name, "freezer")
	}
	for id, x := range s.book.Thermometers {
		s.put(find.Equipment, "thermometers", string(id), x.Name, "thermometer", string(x.Kind), x.At)
	}
	for id, x := range s.book.Bags {
		s.put(find.Equipment, "bags", string(id), x.Name, "bag")
	}
}

// places are those of the book, named as records name them.
func (s *bookShelf) places() {
	for _, p := range PlacesOf(s.book).Places() {
		s.all = append(s.all, find.Entry{Kind: find.Place, ID: string(p.ID), Name: p.Name, About: string(p.Kind)})
	}
}

func skills(all []kitchen.Skill) string {
	var words []string
	for _, s := range all {
		words = append(words, string(s))
	}
	return strings.Join(words, ", ")
}

// foodEntries are the foods of the composition table.
func foodEntries(table *foodtable.Table) []find.Entry {
	var all []find.Entry
	for _, x := range table.Foods() {
		all = append(all, find.Entry{Kind: find.Food, ID: x.NDB, Name: x.Name, About: x.Group, Also: []string{x.Description}})
	}
	return all
}
