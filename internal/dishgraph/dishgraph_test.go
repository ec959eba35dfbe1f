package dishgraph_test

import (
	"errors"
	"reflect"
	"slices"
	"testing"
	"testing/fstest"

	"pgregory.net/rapid"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/dishgraph"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// operate does one operation with anything that may be named.
func operate(t *rapid.T, b kitchen.Book, dish kitchen.DishID) (kitchen.Book, error) {
	d := b.Dishes[dish]
	steps, outputs := []string{"no-such-step"}, []kitchen.OutputID{"no-such-output"}
	for _, s := range d.Steps {
		steps = append(steps, s.ID)
		for _, o := range s.Outputs() {
			outputs = append(outputs, o.ID)
		}
	}
	step, output := rapid.SampledFrom(steps).Draw(t, "step"), rapid.SampledFrom(outputs).Draw(t, "output")
	fresh := kitchen.Step{Do: rapid.SampledFrom([]string{"Stir.", "Boil it", "步", ""}).Draw(t, "do"), Use: []kitchen.Use{{Of: "onion", Amount: unit.Amount{Kind: unit.AmountMass, Mass: unit.Pound}}}}
	id := rapid.SampledFrom([]string{"a", "b", "c", "Not an id", step}).Draw(t, "id")
	var err error
	switch op := rapid.IntRange(0, 12).Draw(t, "operation"); op {
	case 0:
		b, _, err = dishgraph.Add(b, dish, fresh)
	case 1:
		b, _, err = dishgraph.After(b, dish, output, fresh)
	case 2:
		b, _, err = dishgraph.Between(b, dish, output, step, fresh)
	case 3:
		b, _, err = dishgraph.Ahead(b, dish, step, []int{rapid.IntRange(-1, 3).Draw(t, "use")}, fresh)
	case 4:
		b, err = dishgraph.Move(b, dish, step, rapid.IntRange(-3, 3).Draw(t, "by"))
	case 5:
		b, _, err = dishgraph.Copy(b, dish, step)
	case 6, 7:
		b, err = dishgraph.Remove(b, dish, step, op == 6)
	case 8:
		b, err = dishgraph.Join(b, dish, output, step)
	case 9:
		b, err = dishgraph.Unuse(b, dish, step, rapid.IntRange(-1, 3).Draw(t, "use"))
	case 10:
		b, _, err = dishgraph.Split(b, dish, step, kitchen.Output{Name: "the fat", Takes: unit.Share(rapid.IntRange(0, 1).Draw(t, "tenth")) * unit.Whole / 10, Part: kitchen.Fat, ByProduct: true})
	case 11:
		b, err = dishgraph.Whole(b, dish, output)
	case 12:
		b, err = dishgraph.RenameStep(b, dish, step, id)
	}
	return b, err
}

// holds says what is wrong with a dish as a graph: told apart from the package's own checks, by following every mention.
func holds(b kitchen.Book, dish kitchen.DishID) string {
	given := map[kitchen.OutputID]string{}
	for _, s := range b.Dishes[dish].Steps {
		for _, o := range s.Outputs() {
			if _, twice := given[o.ID]; twice {
				return "two outputs " + string(o.ID)
			}
			given[o.ID] = s.ID
		}
	}
	needs := map[string][]string{}
	for _, s := range b.Dishes[dish].Steps {
		for _, u := range s.Use {
			if u.From == "" {
				continue
			}
			if given[u.From] == "" {
				return s.ID + " takes " + string(u.From)
			}
			needs[s.ID] = append(needs[s.ID], given[u.From])
		}
	}
	for _, p := range b.Packs {
		for _, f := range p.Fill {
			if p.Dish == dish && given[f.Of] == "" {
				return "a pack is filled with " + string(f.Of)
			}
		}
	}
	for len(needs) > 0 { // take away what needs nothing that is left
		before := len(needs)
		for id, of := range needs {
			if !slices.ContainsFunc(of, func(x string) bool { return needs[x] != nil }) {
				delete(needs, id)
			}
		}
		if len(needs) == before {
			return "a loop"
		}
	}
	return ""
}

func files(t interface{ Fatal(...any) }, edited bookfile.Edited, of fstest.MapFS) fstest.MapFS {
	all := fstest.MapFS{}
	for name, f := range of {
		all[name] = f
	}
	for name, text := range edited.Files {
		if text == nil {
			delete(all, name)
			continue
		}
		all[name] = &fstest.MapFile{Data: text}
	}
	return all
}

// After any operations that are done the graph has no loop and every mention is there; nothing else of the book is changed; what was refused
// changed nothing; the text of the book says what the operations made of it, and taking them back gives the book as it was.
func TestAnyOperations(t *testing.T) {
	was := bookfile.Read(demo.Book()).Book
	texts, err := bookfile.Write(was)
	if err != nil {
		t.Fatal(err)
	}
	begun := fstest.MapFS{}
	for name, text := range texts {
		begun[name] = &fstest.MapFile{Data: text}
	}
	rapid.Check(t, func(t *rapid.T) {
		dish := rapid.SampledFrom([]kitchen.DishID{"ale-cheddar", "turkey-meatballs", "bean-pot"}).Draw(t, "dish")
		now := was
		for range rapid.IntRange(1, 12).Draw(t, "operations") {
			next, err := operate(t, now, dish)
			if refused := (*dishgraph.Refused)(nil); err != nil && (!errors.As(err, &refused) || refused.Says == "" || refused.Fix == "") {
				t.Fatalf("refused without a reason: %v", err)
			}
			if err != nil {
				continue
			}
			now = next
			if wrong := holds(now, dish); wrong != "" {
				t.Fatal(wrong)
			}
		}
		apart := now
		apart.Dishes, apart.Packs = was.Dishes, was.Packs
		if !reflect.DeepEqual(apart, was) {
			t.Error("something else of the book was changed")
		}
		for id, d := range was.Dishes {
			if id != dish && !reflect.DeepEqual(now.Dishes[id], d) {
				t.Errorf("the dish %s was changed", id)
			}
		}
		edited, err := bookfile.Edit(begun, bookfile.Between(was, now)...)
		if err != nil {
			t.Fatal(err)
		}
		if more := bookfile.Between(edited.Book, now); len(more) > 0 {
			t.Errorf("the text of the book says something else: %v", more)
		}
		back, err := bookfile.Edit(files(t, edited, begun), bookfile.Between(now, was)...)
		if err != nil {
			t.Fatal(err)
		}
		if left := bookfile.Between(back.Book, was); len(left) > 0 {
			t.Errorf("not taken back: %v", left)
		}
	})
	if again := bookfile.Read(demo.Book()).Book; !reflect.DeepEqual(was, again) {
		t.Error("the book that operations began with was changed")
	}
}
