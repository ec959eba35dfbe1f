package bookform

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"
	"unicode"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/kitchen"
)

// New is the path of an entry that a section has not yet, called by its name: "Smoked paprika" of the ingredients is ingredients.smoked-paprika,
// or with a number behind it where that is taken.
func New(book kitchen.Book, section, name string) string {
	id := idOf(name)
	for n := 1; ; n++ {
		path := kitchen.PathTo(section, id)
		if n > 1 {
			path = kitchen.PathTo(section, id+"-"+strconv.Itoa(n))
		}
		if at, err := bookfile.Look(book, path); err != nil || !at.There {
			return path
		}
	}
}

// accents are letters that are written otherwise in an id.
var accents = strings.NewReplacer("ä", "ae", "ö", "oe", "ü", "ue", "ß", "ss", "à", "a", "á", "a", "â", "a", "ã", "a", "å", "a", "ç", "c", "è", "e", "é", "e", "ê", "e", "ë", "e",
	"ì", "i", "í", "i", "î", "i", "ï", "i", "ñ", "n", "ò", "o", "ó", "o", "ô", "o", "õ", "o", "ø", "o", "ù", "u", "ú", "u", "û", "u", "ý", "y", "&", " and ")

// idOf is a name as an id: lower-case letters, digits and single hyphens. What has none of them is called entry.
func idOf(name string) string {
	words := strings.FieldsFunc(accents.Replace(strings.ToLower(name)), func(r rune) bool { return r > unicode.MaxASCII || !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	id := strings.Join(words, "-")
	if len(id) > 40 {
		id = strings.Trim(id[:40], "-")
	}
	if id == "" {
		return "entry"
	}
	return id
}

// ofItself is what belongs to one thing alone, and does not go to a copy of it: what is on hand, its number, what was weighed and tried.
var ofItself = map[string][]string{
	"ingredients": {"stock", "lots"}, "packs": {"gtin", "frozen", "labels", "checks", "trials", "best-before"}, "bags": {"stock"}, "freezers": {"holds"}, "runs": {"orders"},
}

// Left says in words what a copy of an entry of a section is made without; "" when it is all there.
func Left(section string) string {
	t := entryType(section)
	var words []string
	for _, key := range ofItself[section] {
		words = append(words, strings.ToLower(labelOf(t, key)[:1])+labelOf(t, key)[1:])
	}
	return strings.Join(words, ", ")
}

// Copy makes an entry with what another has, but for what belongs to that alone. name is its name, "" for the same one. Errors are a path that is
// no entry, or one that is taken.
func Copy(book kitchen.Book, from, to, name string) ([]bookfile.Change, error) {
	was, err := bookfile.Look(book, from)
	if err != nil {
		return nil, err
	}
	section, _, ok := entryOf(was.Path)
	there, err := bookfile.Look(book, to)
	switch {
	case err != nil:
		return nil, err
	case !ok || !was.There:
		return nil, fmt.Errorf("there is nothing to copy at %s", from)
	case there.There:
		return nil, fmt.Errorf("%s is there already", to)
	}
	one := reflect.New(was.Value.Type()).Elem()
	one.Set(was.Value)
	for _, k := range bookfile.Keys(one.Type()) {
		for _, key := range ofItself[section] {
			if k.Name == key {
				one.Field(k.Index).SetZero()
			}
		}
		if k.Name == "name" && name != "" {
			one.Field(k.Index).SetString(name)
		}
	}
	return []bookfile.Change{bookfile.Set(there.Path, one.Interface())}, nil
}

// entryType is the type of the entries of a section, or of the section itself where it is one thing.
func entryType(section string) reflect.Type {
	for _, k := range bookfile.Keys(bookType) {
		if k.Name == section {
			if k.Type.Kind() == reflect.Map {
				return k.Type.Elem()
			}
			return k.Type
		}
	}
	return nil
}
