package firstdish

import (
	"fmt"
	"maps"
	"strconv"
	"strings"

	"kettlefrost/internal/dishgraph"
	"kettlefrost/internal/draftdish"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// Fact is something that was understood.
type Fact struct{ About, Says string }

// Missing is something that is not answered yet, or cannot be read.
type Missing struct {
	Screen, Key, Label string
	Says               string // why what was typed cannot be read; empty where nothing was
}

// Reading is what the answers come to so far.
type Reading struct {
	Facts   []Fact
	Missing []Missing
	Draft   *draftdish.Draft // of the lines; nil while there are none
	Book    kitchen.Book     // the book with all of it; only when nothing is missing
	Dish    kitchen.DishID
	Pack    kitchen.PackID
	Run     string // its key in the book
}

// reading goes through the answers.
type reading struct {
	Reading
	answers Answers
	book    kitchen.Book
}

// usual is what an answer counts as while nothing was typed.
var usual = func() map[string]string {
	all := map[string]string{}
	for _, s := range Screens {
		for _, f := range s.Fields {
			all[f.Key] = f.Usual
			if len(f.Choices) > 0 {
				all[f.Key] = f.Choices[0].Is
			}
		}
	}
	return all
}()

// Value is what stands in a field: what was typed, or what is usual.
func (a Answers) Value(key string) string {
	if text, typed := a[key]; typed {
		return strings.TrimSpace(text)
	}
	return usual[key]
}

// Read makes of the answers what can be made of them.
func Read(answers Answers, book kitchen.Book, foods *foodtable.Table) Reading {
	r := &reading{answers: answers, book: book}
	for _, s := range Screens {
		for _, f := range s.Fields {
			if !f.May && answers.Value(f.Key) == "" {
				r.Missing = append(r.Missing, Missing{Screen: s.Key, Key: f.Key, Label: f.Label})
			}
		}
	}
	r.lines(foods)
	dish, made := r.make()
	if len(r.Missing) == 0 && made {
		r.Book = dish
	}
	return r.Reading
}

// wrong tells that an answer cannot be read.
func (r *reading) wrong(key string, err error) {
	for _, s := range Screens {
		for _, f := range s.Fields {
			if f.Key == key {
				r.Missing = append(r.Missing, Missing{Screen: s.Key, Key: key, Label: f.Label, Says: err.Error()})
			}
		}
	}
}

// shown is anything with its unit.
type shown interface{ Show(unit.System) string }

// quantity reads an answer, and says how it was understood.
func quantity[T shown](r *reading, key, about string, parse func(string) (T, error)) T {
	var none T
	text := r.answers.Value(key)
	if text == "" {
		return none
	}
	v, err := parse(text)
	if err != nil {
		r.wrong(key, err)
		return none
	}
	if about != "" {
		r.Facts = append(r.Facts, Fact{about, v.Show(r.book.Kitchen.Units)})
	}
	return v
}

// lines reads what goes in, as a home recipe of one pot.
func (r *reading) lines(foods *foodtable.Table) {
	name, lines := r.answers.Value(Name), r.answers.Value(Lines)
	if name != "" {
		r.Facts = append(r.Facts, Fact{"The dish", name})
	}
	if lines == "" {
		return
	}
	given := draftdish.Answers{}
	for key, text := range r.answers {
		given[key] = text
	}
	d, err := draftdish.Make(draftdish.Recipe{Title: name, Ingredients: lines, Method: "Put everything into the pot and simmer for 30 minutes."}, given, r.book, foods)
	if err != nil {
		r.wrong(Lines, err)
		return
	}
	r.Draft = &d
	for _, l := range d.Lines {
		if l.Problem != "" {
			r.wrong(Lines, fmt.Errorf("%s", l.Problem))
		}
	}
	r.Facts = append(r.Facts, Fact{"Goes in", fmt.Sprintf("%d of %d lines are understood", len(d.Lines)-len(outOf(d)), len(d.Lines))})
}

// outOf are the lines that are in no step, as nothing says how much of them goes in.
func outOf(d draftdish.Draft) []*draftdish.Line {
	var out []*draftdish.Line
	for _, l := range d.Lines {
		if l.Out {
			out = append(out, l)
		}
	}
	return out
}

// free is an id that a section has not.
func free[K ~string, V any](name, otherwise string, section map[K]V) K {
	return K(dishgraph.IDOf(name, otherwise, func(id string) bool { _, there := section[K(id)]; return there }))
}

// add is a section with one entry more; the section itself stays as it is.
func add[K ~string, V any](section map[K]V, id K, v V) map[K]V {
	all := maps.Clone(section)
	if all == nil {
		all = map[K]V{}
	}
	all[id] = v
	return all
}

// count reads how many packs there are to be.
func (r *reading) count() int {
	text := r.answers.Value(Count)
	n, err := strconv.Atoi(text)
	if text != "" && (err != nil || n < 1) {
		r.wrong(Count, fmt.Errorf("%q is no number of packs", text))
	}
	return n
}
