package app_test

import (
	"errors"
	"io/fs"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
	"kettlefrost/internal/store"
	"kettlefrost/internal/unit"
)

// kitchenOf is the demo kitchen with its book in the records.
func kitchenOf(t *testing.T) (*app.App, *app.Records) {
	t.Helper()
	r := emptyRecords(t)
	if has, err := r.HasBook(t.Context()); err != nil || has {
		t.Fatalf("empty records have a book: %v, %v", has, err)
	}
	if _, err := r.ImportBook(t.Context(), demo.Book(), ada); err != nil {
		t.Fatal(err)
	}
	if has, err := r.HasBook(t.Context()); err != nil || !has {
		t.Fatalf("there is no book: %v", err)
	}
	a, err := app.New(r.Book(), noon)
	if err != nil {
		t.Fatal(err)
	}
	return a, r
}

var ada = app.Author{Who: "Ada", Device: "laptop", At: noon()}

// textOf is a file of the book as it is now, and its version.
func textOf(t *testing.T, r *app.Records, file string) (string, uint64) {
	t.Helper()
	book, err := r.BookFiles(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	v, _ := book.Version(file)
	return v.Text, v.Seq
}

// cheaper is the demo's ale dish with another price, or with something else put into it.
func replaced(t *testing.T, text, old, by string) string {
	t.Helper()
	if strings.Count(text, old) != 1 {
		t.Fatalf("%q stands there %d times", old, strings.Count(text, old))
	}
	return strings.Replace(text, old, by, 1)
}

const ale = "dishes/ale-cheddar.yaml"

// The book in the records is in use: a change shows at once in what is planned with, and goes out to a folder byte for byte.
func TestTheBookInTheRecordsIsInUse(t *testing.T) {
	a, r := kitchenOf(t)
	book, found := a.Book()
	if found.Worst() == finding.Stop || book.Packs["ale-cheddar-lb"].Price != 975*unit.Cent {
		t.Fatal(found)
	}
	files, err := r.BookFiles(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	same(t, files, demo.Book())
	text, base := textOf(t, r, ale)
	edit := app.Edit{Path: ale, Text: replaced(t, text, "price: $9.75", "price: $9.95"), Base: base}
	for range 2 { // sent twice it is made once
		if err := a.SaveBook(t.Context(), r, record.ID{1}, ada, edit); err != nil {
			t.Fatal(err)
		}
	}
	if book, _ := a.Book(); book.Packs["ale-cheddar-lb"].Price != 995*unit.Cent {
		t.Error("the change is not in use")
	}
	log, err := r.BookLog(t.Context(), ale)
	if err != nil || len(log) != 2 || log[0].Number != 2 || log[0].Who != "Ada" || log[1].Text != text {
		t.Errorf("log %+v, %v", log, err)
	}
	err = a.SaveBook(t.Context(), r, record.ID{2}, ada, app.Edit{Path: ale, Text: text, Base: base})
	if late, ok := errors.AsType[*store.ChangedError](err); !ok || late.Now.Number != 2 {
		t.Errorf("a change of what was changed meanwhile: %v", err)
	}
	old, there, err := r.Version(t.Context(), ale, 1)
	if err != nil || !there || old.Text != text {
		t.Fatalf("version 1: %v, %v", there, err)
	}
	if _, there, _ := r.Version(t.Context(), ale, 3); there {
		t.Error("there is a version that was never written")
	}
}

// A change that would put the book out of use is refused, names what is wrong, and can be kept as a draft; drafts go into use together.
func TestDraftsOfTheBook(t *testing.T) {
	a, r := kitchenOf(t)
	text, base := textOf(t, r, ale)
	renamed := app.Edit{Path: ale, Text: strings.ReplaceAll(text, "bag-6x9", "bag-small"), Base: base}
	err := a.SaveBook(t.Context(), r, record.ID{1}, ada, renamed)
	stops, ok := errors.AsType[*app.StopsError](err)
	if !ok || stops.Found.Worst() != finding.Stop || stops.Found[0].At == nil || stops.Found[0].At.File != ale {
		t.Fatalf("a bag that is not there: %v", err)
	}
	renamed.Base = 0 // of the draft
	if err := r.KeepDraft(t.Context(), record.ID{2}, ada, renamed); err != nil {
		t.Fatal(err)
	}
	if now, _ := textOf(t, r, ale); now != text {
		t.Error("a draft is in use")
	}
	if err := a.UseDrafts(t.Context(), r, record.ID{3}, ada); !errors.As(err, &stops) {
		t.Errorf("half of a change goes into use: %v", err)
	}
	bags, _ := textOf(t, r, "equipment.yaml")
	if err := r.KeepDraft(t.Context(), record.ID{4}, ada, app.Edit{Path: "equipment.yaml", Text: strings.ReplaceAll(bags, "bag-6x9", "bag-small")}); err != nil {
		t.Fatal(err)
	}
	if drafts, err := r.Drafts(t.Context()); err != nil || len(drafts) != 2 || drafts[0].File != ale || drafts[0].Late() {
		t.Errorf("drafts %v, %v", drafts, err)
	}
	all := map[string]bool{ale: true, "equipment.yaml": true}
	for _, name := range []string{"dishes/turkey-meatballs.yaml", "dishes/bean-pot.yaml", "dishes/lentil-squash.yaml", "dishes/mushroom-filling.yaml", "kitchen.yaml", "runs.yaml", "freezing.yaml"} {
		if text, _ := textOf(t, r, name); strings.Contains(text, "bag-6x9") && !all[name] {
			if err := r.KeepDraft(t.Context(), record.ID{5, byte(len(name))}, ada, app.Edit{Path: name, Text: strings.ReplaceAll(text, "bag-6x9", "bag-small")}); err != nil {
				t.Fatal(err)
			}
		}
	}
	if _, err := r.ImportBook(t.Context(), demo.Book(), ada); err != nil { // drafts are no part of the folder
		t.Fatal(err)
	}
	if err := a.UseDrafts(t.Context(), r, record.ID{6}, ada); err != nil {
		t.Fatal(err)
	}
	if now, _ := textOf(t, r, ale); now != renamed.Text {
		t.Error("the drafts are not in use")
	}
	if drafts, err := r.Drafts(t.Context()); err != nil || len(drafts) != 0 {
		t.Errorf("drafts are left: %v, %v", drafts, err)
	}
}

// A draft of a file that somebody else changed since does not take the place of what that was.
func TestALateDraft(t *testing.T) {
	a, r := kitchenOf(t)
	text, base := textOf(t, r, ale)
	if err := r.KeepDraft(t.Context(), record.ID{1}, ada, app.Edit{Path: ale, Text: text + "# draft\n"}); err != nil {
		t.Fatal(err)
	}
	if err := r.KeepDraft(t.Context(), record.ID{2}, ada, app.Edit{Path: "dishes/new.yaml", Text: "# nothing yet\n"}); err != nil {
		t.Fatal(err)
	}
	other, err := app.New(r.Book(), noon)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := r.ImportBook(t.Context(), with(demo.Book(), ale, text+"# Bo\n"), app.Author{Who: "Bo", Device: "laptop", At: noon()}); err != nil {
		t.Fatal(err)
	}
	err = other.UseDrafts(t.Context(), r, record.ID{3}, ada)
	if late, ok := errors.AsType[*store.ChangedError](err); !ok || late.Now.Who != "Bo" || late.Now.Seq <= base {
		t.Errorf("a late draft: %v", err)
	}
	if drafts, err := r.Drafts(t.Context()); err != nil || len(drafts) != 2 || !drafts[0].Late() {
		t.Errorf("drafts %+v, %v", drafts, err)
	}
	if err := a.SaveBook(t.Context(), r, record.ID{4}, ada, app.Edit{Path: "dishes/new.yaml", Text: "# nothing yet\n"}); err != nil {
		t.Fatal(err)
	}
	if drafts, err := r.Drafts(t.Context()); err != nil || len(drafts) != 1 {
		t.Errorf("a draft of what was saved is left: %v, %v", drafts, err)
	}
}

// with is a folder with another text in a file.
func with(folder fs.FS, file, text string) fs.FS {
	all := fstest.MapFS{}
	fs.WalkDir(folder, ".", func(name string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			data, _ := fs.ReadFile(folder, name)
			all[name] = &fstest.MapFile{Data: data}
		}
		return err
	})
	all[file] = &fstest.MapFile{Data: []byte(text)}
	return all
}

// A book that cannot be planned with already may be changed step by step, and a book in a folder goes in and out without a byte changed.
func TestMendingABrokenBook(t *testing.T) {
	r := emptyRecords(t)
	odd := fstest.MapFS{"a.yaml": {Data: []byte("\ufeffkitchen: [\r\n")}, "notes.txt": {Data: []byte("no newline")}, "deep/er/ü b.yaml": {Data: []byte("# tab\t\n")}}
	if _, err := r.ImportBook(t.Context(), odd, ada); err != nil {
		t.Fatal(err)
	}
	out := t.TempDir() + "/out"
	files, err := r.BookFiles(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	if err := os.CopyFS(out, files); err != nil {
		t.Fatal(err)
	}
	same(t, os.DirFS(out), odd)
	a, err := app.New(r.Book(), noon)
	if err != nil {
		t.Fatal(err)
	}
	_, base := textOf(t, r, "a.yaml")
	if err := a.SaveBook(t.Context(), r, record.ID{1}, ada, app.Edit{Path: "a.yaml", Text: "kitchen: {}\n", Base: base}); err != nil {
		t.Errorf("a step on the way to a good book is refused: %v", err)
	}
	for name, want := range map[string]bool{"a.yaml": true, "dishes/a.yaml": true, "a.yml": false, ".a.yaml": false, "x/.y/a.yaml": false, "../a.yaml": false, "": false} {
		if got := app.IsBookFile(name); got != want {
			t.Errorf("%q is a file of the book: %v", name, got)
		}
	}
}
