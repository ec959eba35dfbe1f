package app_test

import (
	"errors"
	"strings"
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

const baseStep = "dishes/ale-cheddar/steps/base"

// A figure is changed in the book of the records: at once, once, and nothing else of the file with it.
func TestEditBookInTheRecords(t *testing.T) {
	a, r := kitchenOf(t)
	before, _ := textOf(t, r, ale)
	salt := kitchen.Use{Of: "salt", Amount: unit.Amount{Kind: unit.AmountMass, Mass: 20 * unit.Gram}}
	changes := []bookfile.Change{bookfile.Set(baseStep+"/loses/evaporation", "5.2 kg/m2h"), bookfile.Append(baseStep+"/use", salt)}
	for range 2 { // sent twice it is made once
		edit, err := a.EditBook(t.Context(), record.ID{7}, ada, changes...)
		if err != nil || !edit.Saved {
			t.Fatal(edit.Saved, err)
		}
	}
	after, _ := textOf(t, r, ale)
	want := replaced(t, replaced(t, before, "evaporation: 6 kg/m2h", "evaporation: 5.2 kg/m2h"),
		"          - {of: sodium-citrate, amount: 90 g}\n", "          - {of: sodium-citrate, amount: 90 g}\n          - {of: salt, amount: 20 g}\n")
	if after != want {
		t.Error(app.Diff(want, after))
	}
	if book, _ := a.Book(); len(book.Dishes["ale-cheddar"].Steps[6].Use) != 6 {
		t.Error("the change is not in use")
	}
}

// A change that is only looked at, or of a book in a folder, is told and not made.
func TestEditBookInAFolderSaysWhatToWrite(t *testing.T) {
	a, err := app.New(demo.Book(), noon)
	if err != nil {
		t.Fatal(err)
	}
	edit, err := a.EditBook(t.Context(), record.ID{}, ada, bookfile.Set(baseStep+"/loses/evaporation", "5.2 kg/m2h"))
	if err != nil || edit.Saved || len(edit.Files) != 1 {
		t.Fatal(edit, err)
	}
	f := edit.Files[0]
	if added, removed := app.Counts(f.Lines()); f.Name != ale || f.New || f.Removed || added != 1 || removed != 1 {
		t.Errorf("%+v", f)
	}
	if edit.Book.Dishes["ale-cheddar"].Steps[6].Loses.Evaporation == 6 {
		t.Error("the book is as it was")
	}
}

// What cannot be planned with is not saved; what cannot be read is refused with its place.
func TestEditBookRefuses(t *testing.T) {
	a, r := kitchenOf(t)
	before, _ := textOf(t, r, ale)
	_, err := a.EditBook(t.Context(), record.ID{8}, ada, bookfile.Delete("dishes/ale-cheddar/steps/roux"))
	if stops, ok := errors.AsType[*app.StopsError](err); !ok || !strings.Contains(stops.Found[0].Message, "roux") {
		t.Errorf("a step that others need went: %v", err)
	}
	_, err = a.EditBook(t.Context(), record.ID{9}, ada, bookfile.Set(baseStep+"/loses/evaporation", "much"))
	if wrong, ok := errors.AsType[*bookfile.EditError](err); !ok || wrong.At == nil || wrong.At.File != ale || wrong.Fix == "" {
		t.Errorf("got %v", err)
	}
	if after, _ := textOf(t, r, ale); after != before {
		t.Error("the file was changed")
	}
}
