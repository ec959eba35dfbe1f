package tables

import (
	"fmt"
	"slices"
	"strings"
)

// FieldKind is what a field of a form holds.
type FieldKind int

const (
	Word   FieldKind = iota // a text on one line
	Lines                   // a text that may have several
	Number                  // a whole number
	Mass                    // with its unit in the cell or the header
	Money                   // with or without a currency sign
	Temp                    // with its unit in the cell or the header
	Date
	OneOf // a word of a list
)

// Field is one thing that a form wants of each row.
type Field struct {
	Key      string   // for programs: "best-before"
	Name     string   // what stands above its column: "best before"
	Also     []string // what else may stand there
	Hint     string   // what it is, for people
	Kind     FieldKind
	Required bool
	Words    []WordOf // of OneOf
}

// WordOf is a word that a field may have, and what else people write for it.
type WordOf struct {
	Word string
	Also []string
}

// Form is the fields that are read from a sheet whose columns may stand in any order.
type Form struct {
	Name   string
	Fields []Field
}

// Header is a header that the form reads, with the units that its numbers would have.
func (f Form) Header(mass, temp string) []string {
	var heads []string
	for _, x := range f.Fields {
		unit := map[FieldKind]string{Mass: mass, Temp: temp}[x.Kind]
		heads = append(heads, Column{Name: x.Name, Unit: unit}.Head())
	}
	return heads
}

// match is a column of a sheet that is a field.
type match struct {
	field  Field
	column int    // from 0
	head   string // as it stands there
	unit   string // that the header says, as in "mass (kg)"
}

// matches finds the fields among the columns of a header. Columns that are none are unused.
func (f Form) matches(header []Cell) (found []match, unused []string, wrong []Mistake) {
	for i, cell := range header {
		head := strings.TrimSpace(cell.Text)
		if head == "" {
			continue
		}
		field, unit, ok := f.named(head)
		if !ok {
			unused = append(unused, head)
			continue
		}
		if k := slices.IndexFunc(found, func(m match) bool { return m.field.Key == field.Key }); k >= 0 {
			wrong = append(wrong, Mistake{Row: 1, Column: i + 1, Head: head, Problem: fmt.Sprintf("is the %s a second time: column %s is it already", field.Name, Letters(found[k].column+1)), Fix: "take one of the two columns out, or name it otherwise"})
			continue
		}
		found = append(found, match{field, i, head, unit})
	}
	for _, field := range f.Fields {
		if field.Required && !slices.ContainsFunc(found, func(m match) bool { return m.field.Key == field.Key }) {
			wrong = append(wrong, Mistake{Row: 1, Problem: "no column is the " + field.Name, Fix: "name a column " + strings.Join(append([]string{field.Name}, field.Also...), ", or ")})
		}
	}
	return found, unused, wrong
}

// units that a header may name, as plain words.
var headUnits = map[FieldKind]map[string]string{
	Mass: {"kg": "kg", "kgs": "kg", "kilo": "kg", "kilos": "kg", "kilograms": "kg", "kilogram": "kg", "g": "g", "gram": "g", "grams": "g", "lb": "lb", "lbs": "lb", "pound": "lb", "pounds": "lb", "oz": "oz", "ounce": "oz", "ounces": "oz"},
	Temp: {"c": "c", "°c": "c", "celsius": "c", "f": "f", "°f": "f", "fahrenheit": "f"},
}

// named is the field that a header names, and the unit that it says.
func (f Form) named(head string) (Field, string, bool) {
	name := words(head)
	for _, field := range f.Fields {
		if field.called(name) {
			return field, "", true
		}
	}
	for _, field := range f.Fields { // "net mass (kg)", "mass in kg", "weight_lb"
		if cut := strings.LastIndexByte(name, ' '); cut > 0 {
			unit, known := headUnits[field.Kind][name[cut+1:]]
			if rest := strings.TrimSuffix(name[:cut], " in"); known && field.called(rest) {
				return field, unit, true
			}
		}
	}
	return Field{}, "", false
}

func (f Field) called(name string) bool {
	return name == words(f.Name) || name == words(f.Key) || slices.ContainsFunc(f.Also, func(also string) bool { return name == words(also) })
}

// words is a text in lower-case words with single spaces and without signs but the degree.
func words(text string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !(r >= 'a' && r <= 'z' || isDigit(r) || r == '°' || r > 127) }), " ")
}
