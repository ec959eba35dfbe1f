package bookform

import (
	"reflect"
	"slices"
	"strings"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/kitchen"
)

// Section is a kind of things that the book holds, or one thing that it holds: the kitchen, the rules of safety, the seller.
type Section struct {
	Key    string
	Name   string // Ingredients
	One    string // ingredient
	About  string // what it is
	Single bool   // there is one of it alone
}

// singles are what one entry of each section is called.
var singles = map[string]string{
	"people": "person", "suppliers": "supplier", "ingredients": "ingredient", "equipment": "piece of equipment", "chilling": "way to cool", "media": "medium", "freezers": "freezer", "places": "place",
	"thermometers": "thermometer", "bags": "bag", "dishes": "dish", "packs": "pack", "tax-rates": "tax rate", "price-lists": "price list", "runs": "run",
}

var sectionNames = map[string]string{"kitchen": "The kitchen", "safety": "Rules of safety", "seller": "The seller", "chilling": "Ways to cool", "media": "Media measured here"}

// Sections are all of them in the order of the book.
func Sections() []Section {
	var all []Section
	for _, k := range bookfile.Keys(bookType) {
		s := Section{Key: k.Name, Name: sectionNames[k.Name], One: singles[k.Name], About: sentence(k.Desc), Single: k.Type.Kind() != reflect.Map}
		if s.Name == "" {
			s.Name = label(k.Name)
		}
		if s.Single {
			s.One = strings.ToLower(s.Name)
		}
		all = append(all, s)
	}
	return all
}

// SectionOf is the section of a key.
func SectionOf(key string) (Section, bool) {
	all := Sections()
	i := slices.IndexFunc(all, func(s Section) bool { return s.Key == key })
	if i < 0 {
		return Section{}, false
	}
	return all[i], true
}

// Entry is one entry of a section.
type Entry struct {
	ID, Name string
	Path     string
	Value    any
}

// Entries are those of a section by their names; of a single thing, that one.
func Entries(book kitchen.Book, section string) []Entry {
	at, err := bookfile.Look(book, section)
	if err != nil {
		return nil
	}
	if at.Value.Kind() != reflect.Map {
		return []Entry{{Path: section, Value: at.Value.Interface()}}
	}
	var all []Entry
	for _, c := range named(at.Value) {
		key := reflect.ValueOf(c.Value).Convert(at.Value.Type().Key())
		all = append(all, Entry{c.Value, c.Name, kitchen.PathTo(section, c.Value), at.Value.MapIndex(key).Interface()})
	}
	return all
}
