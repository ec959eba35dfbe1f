package bookform

import (
	"fmt"
	"maps"
	"reflect"
	"slices"
	"strings"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/foodcode"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/medium"
	"kettlefrost/internal/spelling"
)

var (
	outputType  = reflect.TypeFor[kitchen.OutputID]()
	mediumType  = reflect.TypeFor[kitchen.MediumID]()
	aimType     = reflect.TypeFor[kitchen.Aim]()
	packType    = reflect.TypeFor[kitchen.PackID]()
	placeType   = reflect.TypeFor[kitchen.PlaceID]()
	ruleType    = reflect.TypeFor[kitchen.RuleChange]()
	skillType   = reflect.TypeFor[kitchen.Skill]()
	bookType    = reflect.TypeFor[kitchen.Book]()
	likeNeeded  = map[string]bool{"aisle": true, "function": true, "made-from": true, "appliance": true, "who": true, "by": true}
	placeFields = "thermometers."
)

// choices are what may stand after a key, nil when anything may: its words, or entries of the book.
func (w *walker) choices(k bookfile.Key, path string) []Choice {
	t := plain(k.Type)
	if t.Kind() == reflect.Slice {
		t = t.Elem()
	}
	switch {
	case t == aimType: // their order counts: they are written
		return nil
	case k.Choices != nil:
		return wordChoices(k.Choices)
	case t == systemType:
		return wordChoices([]string{"metric", "us"})
	case t == outputType && k.Name != "id":
		return w.outputs(path)
	case t == mediumType:
		return w.media()
	case k.Name == "at" && strings.HasPrefix(path, placeFields):
		return w.places()
	case k.Name == "rule" && t.Kind() == reflect.String:
		return ruleChoices()
	case t.Kind() == reflect.String && t != outputType:
		return w.entries(t)
	}
	return nil
}

func wordChoices(words []string) []Choice {
	all := make([]Choice, len(words))
	for i, x := range words {
		all[i] = Choice{Value: x, Name: strings.ReplaceAll(x, "-", " ")}
	}
	return all
}

// entries are those of the section whose entries have ids of a type; nil when no section has.
func (w *walker) entries(t reflect.Type) []Choice {
	book := reflect.ValueOf(w.book)
	for i := range book.NumField() {
		if m := book.Field(i); m.Kind() == reflect.Map && m.Type().Key() == t && t != reflect.TypeFor[string]() {
			return named(m)
		}
	}
	return nil
}

// named are the entries of a section by their names.
func named(m reflect.Value) []Choice {
	all := []Choice{}
	for _, key := range m.MapKeys() {
		c := Choice{Value: key.String(), Name: key.String()}
		if name := m.MapIndex(key).FieldByName("Name"); name.IsValid() && name.String() != "" {
			c.Name = name.String()
		}
		all = append(all, c)
	}
	slices.SortFunc(all, func(a, b Choice) int {
		if c := strings.Compare(strings.ToLower(a.Name), strings.ToLower(b.Name)); c != 0 {
			return c
		}
		return strings.Compare(a.Value, b.Value)
	})
	return all
}

// outputs are those of the dish that a pack is filled from, or that a step belongs to.
func (w *walker) outputs(path string) []Choice {
	steps := strings.FieldsFunc(path, func(r rune) bool { return r == '.' || r == '[' })
	id := kitchen.DishID("")
	switch {
	case len(steps) < 2:
	case steps[0] == "dishes":
		id = kitchen.DishID(steps[1])
	case w.typed.Has(".dish"):
		id = kitchen.DishID(w.typed.Get(".dish"))
	default:
		id = w.book.Packs[kitchen.PackID(steps[1])].Dish
	}
	all := []Choice{}
	for _, s := range w.book.Dishes[id].Steps {
		for _, o := range s.Outputs() {
			c := Choice{Value: string(o.ID), Name: string(o.ID)}
			if o.Name != "" {
				c.Name = o.Name
			}
			all = append(all, c)
		}
	}
	return all
}

func (w *walker) media() []Choice {
	all := []Choice{}
	for _, m := range medium.All() {
		all = append(all, Choice{Value: m.ID, Name: strings.ReplaceAll(m.ID, "-", " ")})
	}
	for _, c := range named(reflect.ValueOf(w.book.Media)) {
		if !has(all, c.Value) {
			all = append(all, c)
		}
	}
	return all
}

// places are all places with their shelves and boxes, as records name them.
func (w *walker) places() []Choice {
	all := named(reflect.ValueOf(w.book.Freezers))
	for _, id := range slices.Sorted(maps.Keys(w.book.Places)) {
		p := w.book.Places[id]
		all = append(all, Choice{Value: string(id), Name: p.Name})
		for _, shelf := range slices.Sorted(maps.Keys(p.Shelves)) {
			s := p.Shelves[shelf]
			on := string(id) + "/" + string(shelf)
			all = append(all, Choice{Value: on, Name: p.Name + ", " + s.Name})
			for _, box := range slices.Sorted(maps.Keys(s.Boxes)) {
				all = append(all, Choice{Value: on + "/" + string(box), Name: p.Name + ", " + s.Name + ", " + s.Boxes[box].Name})
			}
		}
	}
	return all
}

func ruleChoices() []Choice {
	var all []Choice
	for _, r := range foodcode.All() {
		all = append(all, Choice{Value: r.ID, Name: r.ID})
	}
	return all
}

// keyChoices are the keys that the rows of a table may have; nil when any may.
func (w *walker) keyChoices(t reflect.Type) []Choice {
	if t.Key() == packType {
		return w.entries(packType)
	}
	return nil
}

func has(all []Choice, value string) bool {
	return slices.ContainsFunc(all, func(c Choice) bool { return c.Value == value })
}

// offered are choices with the one that is chosen marked; one that is not among them stands there as it is. Nothing can be chosen unless it must be.
func offered(refs []Choice, value string, must bool) []Choice {
	if refs == nil {
		return nil
	}
	var all []Choice
	if !must {
		all = append(all, Choice{Name: "nothing chosen", Chosen: value == ""})
	}
	if value != "" && !has(refs, value) {
		all = append(all, Choice{Value: value, Name: value + " (not in the book)", Chosen: true})
	}
	return append(all, picked(refs, []string{value})...)
}

func notThere(f Field, refs []Choice) error {
	var ids []string
	for _, c := range refs {
		ids = append(ids, c.Value)
	}
	fix := "add it first, or choose one that is there"
	if near := spelling.Nearest(f.Typed, ids); near != "" {
		fix = "did you mean " + near + "?"
	}
	return fmt.Errorf("%.40q is not in the book: %s", squeezed(f.Typed), fix)
}

// suggest are words that the book already has for the same thing.
func (w *walker) suggest(k bookfile.Key) []string {
	t := plain(k.Type)
	if t.Kind() == reflect.Slice {
		t = t.Elem()
	}
	switch {
	case t == skillType:
		return w.skills()
	case t == aimType:
		return nil
	case t == reflect.TypeFor[string]() && likeNeeded[k.Name]:
		return w.alike(k.Name)
	}
	return nil
}

func (w *walker) skills() []string {
	all := map[string]bool{}
	for _, p := range w.book.People {
		for _, s := range p.Can {
			all[string(s)] = true
		}
	}
	return slices.Sorted(maps.Keys(all))
}

// alike are the texts of all ingredients after a key.
func (w *walker) alike(key string) []string {
	all := map[string]bool{}
	for _, g := range w.book.Ingredients {
		switch key {
		case "aisle":
			all[g.Aisle] = true
		case "function":
			all[g.Function] = true
		case "made-from":
			all[g.Source] = true
		}
	}
	delete(all, "")
	return slices.Sorted(maps.Keys(all))
}
