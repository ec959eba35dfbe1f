package dishgraph

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/kitchen"
)

// Add puts a step in as a new start: it draws on no other step, and nothing takes what it gives yet. It is written last. An id that is empty is
// made from what it does; the id it has is returned.
func Add(b kitchen.Book, dish kitchen.DishID, s kitchen.Step) (kitchen.Book, string, error) {
	return insert(b, dish, s, func(w *work, _ *kitchen.Step) (int, error) { return len(w.d.Steps), nil })
}

// After puts a step in that takes all of an output: whatever took the output, steps and packs, takes what the new step gives.
func After(b kitchen.Book, dish kitchen.DishID, output kitchen.OutputID, s kitchen.Step) (kitchen.Book, string, error) {
	return insert(b, dish, s, func(w *work, s *kitchen.Step) (int, error) {
		i, err := w.output(output)
		if err != nil {
			return 0, err
		}
		w.follow(output, main(*s))
		s.Use = append([]kitchen.Use{all(output)}, s.Use...)
		return i + 1, nil
	})
}

// Between puts a step in between an output and one step that takes it: what that step took of the output, the new one takes now.
func Between(b kitchen.Book, dish kitchen.DishID, output kitchen.OutputID, into string, s kitchen.Step) (kitchen.Book, string, error) {
	return insert(b, dish, s, func(w *work, s *kitchen.Step) (int, error) {
		i, err := w.step(into)
		if err != nil {
			return 0, err
		}
		k := slices.IndexFunc(w.d.Steps[i].Use, func(u kitchen.Use) bool { return u.From == output })
		if k < 0 {
			return 0, &Refused{fmt.Sprintf("the step %s does not take %s", into, output), "choose a step that takes it"}
		}
		s.Use = append([]kitchen.Use{w.d.Steps[i].Use[k]}, s.Use...)
		w.d.Steps[i].Use[k] = all(main(*s))
		return i, nil
	})
}

// Ahead puts a step in before another: it takes over some of what goes into that one, by their places, and all it gives goes there.
func Ahead(b kitchen.Book, dish kitchen.DishID, of string, uses []int, s kitchen.Step) (kitchen.Book, string, error) {
	return insert(b, dish, s, func(w *work, s *kitchen.Step) (int, error) {
		i, err := w.step(of)
		if err != nil {
			return 0, err
		}
		next := &w.d.Steps[i]
		var stay []kitchen.Use
		for k, u := range next.Use {
			if slices.Contains(uses, k) {
				s.Use = append(s.Use, u)
			} else {
				stay = append(stay, u)
			}
		}
		next.Use = append(stay, all(main(*s)))
		w.settleMakeUp(i)
		return i, nil
	})
}

// insert names a step, lets it be joined to the others and writes it where that says.
func insert(b kitchen.Book, dish kitchen.DishID, s kitchen.Step, join func(*work, *kitchen.Step) (int, error)) (kitchen.Book, string, error) {
	w, err := begin(b, dish)
	if err != nil {
		return b, "", err
	}
	if strings.TrimSpace(s.Do) == "" {
		return b, "", &Refused{"a step says what is done", "write it in one short sentence, such as \"Simmer until smooth.\""}
	}
	if s.ID == "" {
		s.ID = IDOf(s.Do, "step", w.taken)
	}
	at, err := join(w, &s)
	if err != nil {
		return b, "", err
	}
	w.d.Steps = slices.Insert(w.d.Steps, at, s)
	now, err := w.done()
	return now, s.ID, err
}

// settleMakeUp takes out what makes up for losses where it does not go into the step any more.
func (w *work) settleMakeUp(i int) {
	s := &w.d.Steps[i]
	if !slices.ContainsFunc(s.Use, func(u kitchen.Use) bool { return u.Of == s.MakeUp }) {
		s.MakeUp = ""
	}
}

// Move writes a step so many places later, or earlier by a number below 0, as far as there are places. What flows where stays as it is.
func Move(b kitchen.Book, dish kitchen.DishID, step string, by int) (kitchen.Book, error) {
	w, i, err := beginAt(b, dish, step)
	if err != nil {
		return b, err
	}
	s := w.d.Steps[i]
	w.d.Steps = slices.Delete(w.d.Steps, i, i+1)
	w.d.Steps = slices.Insert(w.d.Steps, min(max(0, i+by), len(w.d.Steps)), s)
	return w.done()
}

// Copy puts a step in that does the same with the same ingredients, written after it. What the first took of earlier steps it does not take: there
// is only one of that. The new step's id is returned.
func Copy(b kitchen.Book, dish kitchen.DishID, step string) (kitchen.Book, string, error) {
	w, err := begin(b, dish)
	if err != nil {
		return b, "", err
	}
	i, err := w.step(step)
	if err != nil {
		return b, "", err
	}
	s := w.d.Steps[i]
	s.ID = unlike(s.ID, "step", w.taken)
	s.Use = slices.DeleteFunc(slices.Clone(s.Use), func(u kitchen.Use) bool { return u.From != "" })
	s.Stays = false // there is no earlier vessel to go on in
	s.Gives = slices.Clone(s.Gives)
	for k, o := range s.Gives {
		s.Gives[k].ID = kitchen.OutputID(unlike(string(o.ID), "output", func(id string) bool { return id == s.ID || w.taken(id) }))
	}
	w.d.Steps = slices.Insert(w.d.Steps, i+1, s)
	now, err := w.done()
	return now, s.ID, err
}

// Hanging is something that takes what a step gives.
type Hanging struct {
	Output kitchen.OutputID
	Step   string         // that takes it
	Pack   kitchen.PackID // or that is filled with it
}

// Hangs is all that takes what a step gives, output by output.
func Hangs(b kitchen.Book, dish kitchen.DishID, step string) []Hanging {
	d := b.Dishes[dish]
	i := Find(d, step)
	if i < 0 {
		return nil
	}
	var hangs []Hanging
	for _, o := range d.Steps[i].Outputs() {
		for _, k := range Takers(d, o.ID) {
			hangs = append(hangs, Hanging{Output: o.ID, Step: d.Steps[k].ID})
		}
		for _, id := range PacksWith(b, dish, o.ID) {
			hangs = append(hangs, Hanging{Output: o.ID, Pack: id})
		}
	}
	return hangs
}

// Remove takes a step out. Across, what took its main product takes what the step took of earlier steps instead; other steps just lose what it
// gave. It is refused when a pack would be filled with nothing that is there.
func Remove(b kitchen.Book, dish kitchen.DishID, step string, across bool) (kitchen.Book, error) {
	w, i, err := beginAt(b, dish, step)
	if err != nil {
		return b, err
	}
	gone := w.d.Steps[i]
	w.d.Steps = slices.Delete(w.d.Steps, i, i+1)
	if across {
		w.across(gone)
	}
	for k := range w.d.Steps {
		for _, o := range gone.Outputs() {
			w.d.Steps[k].Use = slices.DeleteFunc(w.d.Steps[k].Use, func(u kitchen.Use) bool { return u.From == o.ID })
		}
		w.settleStays(k)
	}
	return w.done()
}

// across gives what took a step's main product what the step took of earlier steps.
func (w *work) across(gone kitchen.Step) {
	var earlier []kitchen.Use
	for _, u := range gone.Use {
		if u.From != "" {
			earlier = append(earlier, u)
		}
	}
	if len(earlier) == 0 {
		return
	}
	given := main(gone)
	for k := range w.d.Steps {
		at := slices.IndexFunc(w.d.Steps[k].Use, func(u kitchen.Use) bool { return u.From == given })
		if at < 0 {
			continue
		}
		uses := slices.Delete(w.d.Steps[k].Use, at, at+1)
		for _, u := range earlier {
			if !slices.ContainsFunc(uses, func(x kitchen.Use) bool { return x.From == u.From }) {
				uses = slices.Insert(uses, at, u)
			}
		}
		w.d.Steps[k].Use = uses
	}
	for _, id := range PacksOf(w.book, w.id) {
		for k, f := range w.book.Packs[id].Fill {
			if f.Of == given {
				w.book.Packs[id].Fill[k].Of = earlier[0].From
			}
		}
	}
}

// settleStays lets a step that draws on no other any more go on in no vessel.
func (w *work) settleStays(i int) {
	if !slices.ContainsFunc(w.d.Steps[i].Use, func(u kitchen.Use) bool { return u.From != "" }) {
		w.d.Steps[i].Stays = false
	}
}
