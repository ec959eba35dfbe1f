package dishgraph

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"unicode"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// work is a book of which one dish and its packs are copies that may be changed.
type work struct {
	book kitchen.Book
	id   kitchen.DishID
	d    kitchen.Dish
}

func begin(b kitchen.Book, dish kitchen.DishID) (*work, error) {
	d, there := b.Dishes[dish]
	if !there {
		return nil, &Refused{fmt.Sprintf("there is no dish %s", dish), "look at the list of dishes"}
	}
	w := &work{book: b, id: dish, d: d}
	w.d.Steps = make([]kitchen.Step, len(d.Steps))
	for i, s := range d.Steps {
		s.Use, s.Gives = slices.Clone(s.Use), slices.Clone(s.Gives)
		w.d.Steps[i] = s
	}
	w.book.Packs = maps.Clone(b.Packs)
	for _, id := range PacksOf(b, dish) {
		p := b.Packs[id]
		p.Fill = slices.Clone(p.Fill)
		w.book.Packs[id] = p
	}
	return w, nil
}

// beginAt is begin with the place of a step.
func beginAt(b kitchen.Book, dish kitchen.DishID, step string) (*work, int, error) {
	w, err := begin(b, dish)
	if err != nil {
		return nil, 0, err
	}
	i, err := w.step(step)
	return w, i, err
}

// done is the book with the dish as it is now, if it holds together.
func (w *work) done() (kitchen.Book, error) {
	if err := w.check(); err != nil {
		return kitchen.Book{}, err
	}
	w.book.Dishes = maps.Clone(w.book.Dishes)
	w.book.Dishes[w.id] = w.d
	return w.book, nil
}

// check refuses what would name something that is not there, or make steps wait for each other.
func (w *work) check() error {
	if order, ok := Order(w.d); !ok {
		return &Refused{"steps would wait for each other: " + w.loop(order), "a step can only take what is ready before it"}
	}
	steps, outputs := map[string]bool{}, map[kitchen.OutputID]bool{}
	for _, s := range w.d.Steps {
		if steps[s.ID] {
			return &Refused{fmt.Sprintf("two steps would be called %s", s.ID), "give one of them another name"}
		}
		steps[s.ID] = true
		for _, o := range s.Outputs() {
			if outputs[o.ID] {
				return &Refused{fmt.Sprintf("two things would be called %s", o.ID), "give one of them another name"}
			}
			outputs[o.ID] = true
		}
	}
	for _, s := range w.d.Steps {
		for _, u := range s.Use {
			if u.From != "" && !outputs[u.From] {
				return &Refused{fmt.Sprintf("the step %s would take %s, which no step gives", s.ID, u.From), "take it out of that step first, or join it across"}
			}
		}
	}
	for _, id := range PacksOf(w.book, w.id) {
		for _, f := range w.book.Packs[id].Fill {
			if !outputs[f.Of] {
				return &Refused{fmt.Sprintf("the pack %s would be filled with %s, which no step gives", w.book.Packs[id].Name, f.Of), "fill the pack with something else first, or join it across"}
			}
		}
	}
	return nil
}

// loop names steps that wait for each other: those that Order could not place, as far as they draw on one another.
func (w *work) loop(order []int) string {
	var names []string
	for _, i := range order {
		for _, u := range w.d.Steps[i].Use {
			if k := Giver(w.d, u.From); u.From != "" && k >= 0 && Before(w.d, i, k) {
				names = append(names, w.d.Steps[i].ID)
				break
			}
		}
	}
	return strings.Join(names, ", ")
}

// step is the place of a step that must be there.
func (w *work) step(id string) (int, error) {
	if i := Find(w.d, id); i >= 0 {
		return i, nil
	}
	return -1, &Refused{fmt.Sprintf("the dish has no step %s", id), "it may have been taken out meanwhile: look at the steps"}
}

// output is the step that gives an output which must be there.
func (w *work) output(id kitchen.OutputID) (int, error) {
	if i := Giver(w.d, id); i >= 0 {
		return i, nil
	}
	return -1, &Refused{fmt.Sprintf("no step of the dish gives %s", id), "it may have been taken out meanwhile: look at the steps"}
}

// follow puts another output in place of one, wherever it is taken and filled.
func (w *work) follow(from, to kitchen.OutputID) {
	for i := range w.d.Steps {
		w.followIn(i, from, to)
	}
	for _, id := range PacksOf(w.book, w.id) {
		for k, f := range w.book.Packs[id].Fill {
			if f.Of == from {
				w.book.Packs[id].Fill[k].Of = to
			}
		}
	}
}

func (w *work) followIn(step int, from, to kitchen.OutputID) {
	for k, u := range w.d.Steps[step].Use {
		if u.From == from {
			w.d.Steps[step].Use[k].From = to
		}
	}
}

// all is a use of the whole of an output, or of what others leave.
func all(of kitchen.OutputID) kitchen.Use {
	return kitchen.Use{From: of, Take: kitchen.Take{Given: true, Share: unit.Whole}}
}

// main is the main product of a step.
func main(s kitchen.Step) kitchen.OutputID {
	for _, o := range s.Outputs() {
		if o.Takes == 0 {
			return o.ID
		}
	}
	return s.Outputs()[0].ID
}

// mostID is the most letters of an id that is made from words.
const mostID = 32

// IDOf is a short word for the book made from a few of a sentence's words, unlike those that are taken.
func IDOf(text, otherwise string, taken func(string) bool) string {
	var out strings.Builder
	for _, r := range strings.ToLower(text) {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			out.WriteRune(r)
		case unicode.IsSpace(r) && out.Len() > mostID/2:
			return unlike(out.String(), otherwise, taken)
		case out.Len() > 0 && !strings.HasSuffix(out.String(), "-"):
			out.WriteByte('-')
		}
		if out.Len() >= mostID {
			break
		}
	}
	return unlike(out.String(), otherwise, taken)
}

func unlike(base, otherwise string, taken func(string) bool) string {
	if base = strings.Trim(base, "-"); base == "" {
		base = otherwise
	}
	id := base
	for n := 2; taken(id); n++ {
		id = fmt.Sprintf("%s-%d", base, n)
	}
	return id
}

// taken says whether a step or an output of the dish has a name already.
func (w *work) taken(id string) bool {
	return Find(w.d, id) >= 0 || Giver(w.d, kitchen.OutputID(id)) >= 0
}
