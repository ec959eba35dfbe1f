package dishgraph

import (
	"fmt"
	"slices"

	"kettlefrost/internal/kitchen"
)

// Join lets an output go into a step: all of it, or what others leave. It is refused where the step takes it already, and where steps would then
// wait for each other.
func Join(b kitchen.Book, dish kitchen.DishID, output kitchen.OutputID, into string) (kitchen.Book, error) {
	w, err := begin(b, dish)
	if err != nil {
		return b, err
	}
	from, err := w.output(output)
	if err != nil {
		return b, err
	}
	i, err := w.step(into)
	if err != nil {
		return b, err
	}
	switch {
	case slices.Contains(Takers(w.d, output), i):
		return b, &Refused{fmt.Sprintf("%s goes into %s already", output, into), "change how much of it"}
	case Before(w.d, i, from):
		return b, &Refused{fmt.Sprintf("%s cannot go into %s, which comes before it", output, into), "a step can only take what is ready before it: choose a later step"}
	}
	use := all(output)
	if left := Left(w.d, output); left > 0 {
		use.Take.Share = left
	}
	w.d.Steps[i].Use = append(w.d.Steps[i].Use, use)
	return w.done()
}

// Use puts something into a step, an ingredient of the book or an output of the dish.
func Use(b kitchen.Book, dish kitchen.DishID, step string, u kitchen.Use) (kitchen.Book, error) {
	return atStep(b, dish, step, func(w *work, i int) error {
		if _, there := b.Ingredients[u.Of]; u.Of != "" && !there {
			return &Refused{fmt.Sprintf("the book has no ingredient %s", u.Of), "choose one of the book, or put it into the book first"}
		}
		w.d.Steps[i].Use = append(w.d.Steps[i].Use, u)
		return nil
	})
}

// Unuse takes one thing that goes into a step out of it, by its place.
func Unuse(b kitchen.Book, dish kitchen.DishID, step string, place int) (kitchen.Book, error) {
	return atStep(b, dish, step, func(w *work, i int) error {
		s := &w.d.Steps[i]
		if place < 0 || place >= len(s.Use) {
			return &Refused{fmt.Sprintf("so many things do not go into %s", step), "it may have been taken out meanwhile: look at the step"}
		}
		s.Use = slices.Delete(s.Use, place, place+1)
		w.settleMakeUp(i)
		w.settleStays(i)
		return nil
	})
}

// Split lets a step give something beside its main product. An id that is empty is made from the name; it is returned.
func Split(b kitchen.Book, dish kitchen.DishID, step string, o kitchen.Output) (kitchen.Book, kitchen.OutputID, error) {
	now, err := atStep(b, dish, step, func(w *work, i int) error {
		if o.Takes <= 0 {
			return &Refused{"nothing says how much of it there is", "write what share of what goes in it takes, such as 20 %"}
		}
		if o.ID == "" {
			o.ID = kitchen.OutputID(IDOf(o.Name, "by-product", w.taken))
		}
		s := &w.d.Steps[i]
		s.Gives = append(slices.Clone(s.Outputs()), o)
		return nil
	})
	return now, o.ID, err
}

// Whole takes out an output that a step gives beside its main product: it stays in that. It is refused while something takes it.
func Whole(b kitchen.Book, dish kitchen.DishID, output kitchen.OutputID) (kitchen.Book, error) {
	i := Giver(b.Dishes[dish], output)
	if i < 0 {
		return b, &Refused{fmt.Sprintf("no step of the dish gives %s", output), "it may have been taken out meanwhile: look at the steps"}
	}
	return atStep(b, dish, b.Dishes[dish].Steps[i].ID, func(w *work, i int) error {
		s := &w.d.Steps[i]
		if main(*s) == output {
			return &Refused{fmt.Sprintf("%s is what the step is for", output), "take the whole step out instead"}
		}
		s.Gives = slices.DeleteFunc(s.Gives, func(o kitchen.Output) bool { return o.ID == output })
		if o := s.Gives; len(o) == 1 && o[0] == (kitchen.Output{ID: kitchen.OutputID(s.ID)}) {
			s.Gives = nil // as it is when nothing is said
		}
		return nil
	})
}

// RenameStep gives a step another id. An output that is named like it because nothing else is said is renamed with it, wherever it is taken and
// filled.
func RenameStep(b kitchen.Book, dish kitchen.DishID, step, to string) (kitchen.Book, error) {
	return atStep(b, dish, step, func(w *work, i int) error {
		if !kitchen.IsID(to) {
			return &Refused{fmt.Sprintf("%q cannot be the id of a step", to), "write a short word in small letters, with hyphens"}
		}
		w.d.Steps[i].ID = to
		if len(w.d.Steps[i].Gives) == 0 {
			w.follow(kitchen.OutputID(step), kitchen.OutputID(to))
		}
		return nil
	})
}

// RenameOutput gives an output another id, wherever it is taken and filled.
func RenameOutput(b kitchen.Book, dish kitchen.DishID, output, to kitchen.OutputID) (kitchen.Book, error) {
	i := Giver(b.Dishes[dish], output)
	if i < 0 || !kitchen.IsID(string(to)) {
		return b, &Refused{fmt.Sprintf("%s cannot be called %q", output, to), "write a short word in small letters, with hyphens"}
	}
	return atStep(b, dish, b.Dishes[dish].Steps[i].ID, func(w *work, i int) error {
		s := &w.d.Steps[i]
		s.Gives = slices.Clone(s.Outputs())
		for k := range s.Gives {
			if s.Gives[k].ID == output {
				s.Gives[k].ID = to
			}
		}
		w.follow(output, to)
		return nil
	})
}

// atStep changes one step that must be there.
func atStep(b kitchen.Book, dish kitchen.DishID, step string, change func(w *work, i int) error) (kitchen.Book, error) {
	w, i, err := beginAt(b, dish, step)
	if err != nil {
		return b, err
	}
	if err := change(w, i); err != nil {
		return b, err
	}
	return w.done()
}
