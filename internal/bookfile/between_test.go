package bookfile_test

import (
	"maps"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// shuffled is some entries of a list in any order, some of them as they are in other lists, and some with another name.
func shuffled(t *rapid.T, all []kitchen.Step) []kitchen.Step {
	var some []kitchen.Step
	for range rapid.IntRange(1, 8).Draw(t, "steps") {
		s := rapid.SampledFrom(all).Draw(t, "step")
		if rapid.Bool().Draw(t, "renamed") {
			s.ID = rapid.StringMatching(`[a-z]{1,3}`).Draw(t, "id")
		}
		if rapid.Bool().Draw(t, "other") {
			s.Time, s.Use = unit.Minute, rapid.Permutation(s.Use).Draw(t, "use")
			s.Loses = rapid.SampledFrom(all).Draw(t, "like").Loses
		}
		some = append(some, s)
	}
	return some
}

// anyBook is the invented book with other steps, and without some of its entries.
func anyBook(t *rapid.T, of kitchen.Book) kitchen.Book {
	var all []kitchen.Step
	for _, id := range slices.Sorted(maps.Keys(of.Dishes)) {
		all = append(all, of.Dishes[id].Steps...)
	}
	b := of
	b.Dishes, b.Packs = map[kitchen.DishID]kitchen.Dish{}, maps.Clone(of.Packs)
	for id, d := range of.Dishes {
		d.Steps = shuffled(t, all)
		b.Dishes[id] = d
	}
	for _, id := range slices.Sorted(maps.Keys(b.Packs)) {
		if rapid.Bool().Draw(t, "gone") {
			delete(b.Packs, id)
		}
	}
	return b
}

// Between any two books: the changes make the one the other, and nothing is changed where nothing differs.
func TestBetweenAnyBooks(t *testing.T) {
	of := bookfile.Read(demo.Book()).Book
	rapid.Check(t, func(t *rapid.T) {
		was, now := anyBook(t, of), anyBook(t, of)
		edited, err := bookfile.Edit(written(t, was), bookfile.Between(was, now)...)
		if err != nil {
			t.Fatal(err)
		}
		if more := bookfile.Between(edited.Book, now); len(more) > 0 {
			t.Errorf("still to change: %v", more)
		}
		if same := bookfile.Between(now, now); len(same) > 0 {
			t.Errorf("nothing differs, and these are to change: %v", same)
		}
	})
}

// One step of nine gets another name and time: two lines of the file change, and its comments stay.
func TestBetweenChangesOnlyWhatDiffers(t *testing.T) {
	was := bookfile.Read(demo.Book()).Book
	now := was
	now.Dishes = maps.Clone(was.Dishes)
	d := now.Dishes["ale-cheddar"]
	d.Steps = slices.Clone(d.Steps)
	d.Steps[6].Time = 12 * unit.Minute
	d.Steps[8].ID = "melt-it"
	now.Dishes["ale-cheddar"] = d
	changes := bookfile.Between(was, now)
	want := []bookfile.Change{bookfile.Set("dishes.ale-cheddar.steps[6].time", 12*unit.Minute), bookfile.Set("dishes.ale-cheddar.steps[8].id", "melt-it")}
	if !reflect.DeepEqual(changes, want) {
		t.Errorf("%v, want %v", changes, want)
	}
}

// The text of a value reads back as the value, whatever it is.
func TestTextReadsBack(t *testing.T) {
	book := bookfile.Read(demo.Book()).Book
	for _, id := range slices.Sorted(maps.Keys(book.Dishes)) {
		text, err := bookfile.Text(book.Dishes[id])
		if err != nil {
			t.Fatal(err)
		}
		edited, err := bookfile.Edit(demo.Book(), bookfile.Set("dishes.again", text))
		if err != nil || !reflect.DeepEqual(edited.Book.Dishes["again"], book.Dishes[id]) {
			t.Errorf("%s: %v\n%s", id, err, text)
		}
	}
	for _, c := range []struct {
		value any
		want  string
	}{{12 * unit.Minute, "12 min"}, {"as typed", "as typed"}, {true, "true"}, {kitchen.Use{Of: "milk", Amount: unit.Amount{Kind: unit.AmountMass, Mass: unit.Pound}}, "{of: milk, amount: 1 lb}"}} {
		if got, err := bookfile.Text(c.value); got != c.want || err != nil {
			t.Errorf("%q, %v, want %q", got, err, c.want)
		}
	}
}
