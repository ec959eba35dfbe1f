package app

import (
	"context"
	"errors"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"kettlefrost/demo"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/learned"
	"kettlefrost/internal/learned/truth"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

const bakeWater = "dishes/turkey-meatballs/steps/bake/loses/water"

// learningKitchen is the demo kitchen, whose meatballs lose 16 % in truth, with its book in the records or in a folder, and some Tuesdays.
type learningKitchen struct {
	house    *App
	records  *Records
	learning *Learning
	truth    *truth.Kitchen
	days     int
}

func newLearningKitchen(t testing.TB, folder fs.FS) *learningKitchen {
	t.Helper()
	now := func() time.Time { return time.Date(2026, 12, 20, 12, 0, 0, 0, time.UTC) }
	records, err := OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), now)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { records.Close() })
	if folder == nil {
		if _, err := records.ImportBook(t.Context(), demo.Book(), Author{Who: "Ines", Device: "office", At: now()}); err != nil {
			t.Fatal(err)
		}
		folder = records.Book()
	}
	house, err := New(folder, now)
	if err != nil {
		t.Fatal(err)
	}
	book, _ := house.written()
	k := &learningKitchen{house: house, records: records, learning: NewLearning(records, house, NewBoards(records, house)), truth: truth.New(t.Context(), book, house.foods, "tuesday", 1)}
	k.truth.True[bakeWater] = 0.16
	return k
}

// works makes so many Tuesdays by the book as it is.
func (k *learningKitchen) works(t testing.TB, days int) {
	t.Helper()
	for range days {
		book, _ := k.house.written()
		req, err := Request(book, "tuesday")
		if err != nil {
			t.Fatal(err)
		}
		w := k.truth.Work(7*k.days, record.Hash{})
		req.Day = string(w.Opened.Day)
		if w.Opened.Plan, err = PlanHash(book, req); err != nil {
			t.Fatal(err)
		}
		entries, _, err := w.Tell(uint64(k.days), 0)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := k.records.store.Append(context.Background(), entries); err != nil {
			t.Fatal(err)
		}
		k.days++
	}
}

func (k *learningKitchen) figure(t *testing.T, key string) learned.Figure {
	t.Helper()
	x, err := k.learning.Lessons(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	f, err := x.Figure(key)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

var byInes = Author{Who: "Ines", Device: "office", At: time.Date(2026, 12, 20, 12, 0, 0, 0, time.UTC)}

// A figure is learned, accepted and stands in the book's text; nothing else of the text changes. Runs before and after it go on counting.
func TestLearnedIntoTheBook(t *testing.T) {
	k := newLearningKitchen(t, nil)
	k.works(t, 4)
	f := k.figure(t, bakeWater)
	if f.State != learned.Ready || f.Before != "12 %" || f.After != "14 %" || f.Counted() != 4 || len(f.Seen[0].Notes) > 1 {
		t.Fatalf("%s: %s to %s from %d runs %+v", f.State, f.Before, f.After, f.Counted(), f.Seen)
	}
	file := "dishes/turkey-meatballs.yaml"
	before, _, err := k.records.Version(t.Context(), file, 1)
	if err != nil {
		t.Fatal(err)
	}
	id := record.ID{7}
	if _, _, err := k.learning.Accept(t.Context(), id, byInes, bakeWater, "13.9 %"); !errors.As(err, new(*LessonError)) {
		t.Fatalf("another proposal than there is was accepted: %v", err)
	}
	for range 2 { // a form may come twice
		if _, edit, err := k.learning.Accept(t.Context(), id, byInes, bakeWater, "14 %"); err != nil || !edit.Saved {
			t.Fatalf("not accepted: %v, saved %v", err, edit.Saved)
		}
	}
	after, there, err := k.records.Version(t.Context(), file, 2)
	if err != nil || !there || after.Text != strings.Replace(before.Text, "loses: {water: 12 %, fat: 2 %}", "loses: {water: 14 %, fat: 2 %}", 1) {
		t.Fatalf("the text is otherwise changed (%v, %v):\n%v", there, err, Diff(before.Text, after.Text))
	}
	if _, third, _ := k.records.Version(t.Context(), file, 3); third {
		t.Error("it was changed twice")
	}
	f = k.figure(t, bakeWater)
	if f.State != learned.TooFew || f.Before != "14 %" || f.Counted() != 0 || f.Prior.Runs != 8 || len(f.Said) != 1 || f.Said[0].Entry.Who != "Ines" {
		t.Errorf("after it: %s, %s from %d runs, worth %g, %+v", f.State, f.Before, f.Counted(), f.Prior.Runs, f.Said)
	}
	other := k.figure(t, "dishes/turkey-meatballs/steps/sweat/loses/water")
	if other.Counted() != 4 || len(other.Seen[0].Notes) != 1 { // what went in was not entered; the book is found among its versions
		t.Errorf("another figure of the same runs: %d count, %+v", other.Counted(), other.Seen)
	}
	k.works(t, 4)
	if f = k.figure(t, bakeWater); f.Counted() != 4 || f.After != "14.7 %" { // by hand: (8 × 14 + 4 × 16) / 12
		t.Errorf("four more: %s to %s from %d runs", f.Before, f.After, f.Counted())
	}
}

// A book in a folder is not written: what was accepted waits, and the files say what to change. When somebody has changed them, the runs before
// are held against the book as it was.
func TestLearnedOfAFolder(t *testing.T) {
	folder := fstest.MapFS{}
	if err := fs.WalkDir(demo.Book(), ".", func(name string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			text, readErr := fs.ReadFile(demo.Book(), name)
			folder[name], err = &fstest.MapFile{Data: text}, readErr
		}
		return err
	}); err != nil {
		t.Fatal(err)
	}
	k := newLearningKitchen(t, folder)
	k.works(t, 4)
	_, edit, err := k.learning.Accept(t.Context(), record.ID{8}, byInes, bakeWater, "14 %")
	if err != nil || edit.Saved || len(edit.Files) != 1 {
		t.Fatalf("%v, saved %v, %d files", err, edit.Saved, len(edit.Files))
	}
	if f := k.figure(t, bakeWater); f.State != learned.Waiting || f.Before != "12 %" {
		t.Errorf("before the file is written: %s, %s", f.State, f.Before)
	}
	if _, _, again, err := k.learning.Try(t.Context(), bakeWater); err != nil || len(again.Files) != 1 || again.Files[0].After != edit.Files[0].After {
		t.Errorf("what is to be written cannot be seen again: %v", err)
	}
	folder[edit.Files[0].Name] = &fstest.MapFile{Data: []byte(edit.Files[0].After)}
	if f := k.figure(t, bakeWater); f.Before != "14 %" || f.Counted() != 0 || f.Prior.Runs != 8 {
		t.Errorf("after: %s, %d count, worth %g", f.Before, f.Counted(), f.Prior.Runs)
	}
	if f := k.figure(t, "dishes/turkey-meatballs/steps/sweat/loses/water"); f.Counted() != 4 || len(f.Seen[0].Notes) != 1 {
		t.Errorf("another figure: %d count, %+v", f.Counted(), f.Seen)
	}
}

// What was accepted is entered first: when the book could not be changed after that, it waits, and can be put there.
func TestLearnedWaits(t *testing.T) {
	k := newLearningKitchen(t, nil)
	k.works(t, 4)
	said, err := k.figure(t, bakeWater).Entry(record.TakenOver)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := k.records.Enter(t.Context(), Said{ID: record.ID{6}, Who: "Ines", Device: "office", At: byInes.At, Body: said}); err != nil {
		t.Fatal(err)
	}
	if f := k.figure(t, bakeWater); f.State != learned.Waiting {
		t.Fatalf("%s", f.State)
	}
	if _, edit, err := k.learning.Accept(t.Context(), record.ID{7}, byInes, bakeWater, ""); err != nil || !edit.Saved {
		t.Fatalf("%v", err)
	}
	if f := k.figure(t, bakeWater); f.Before != "14 %" || f.Prior.Runs != 8 || len(f.Said) != 1 {
		t.Errorf("%s, worth %g, said %d times", f.Before, f.Prior.Runs, len(f.Said))
	}
}

// What is refused or left out is entered by the same words as anything, and taken back like it.
func TestLearnedRefusedAndLeftOut(t *testing.T) {
	k := newLearningKitchen(t, nil)
	k.works(t, 4)
	x, err := k.learning.Lessons(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	enter := func(id record.ID, corrects record.ID, body record.Body) {
		t.Helper()
		if _, err := k.records.Enter(t.Context(), Said{ID: id, Who: "Ines", Device: "office", At: byInes.At, Corrects: corrects, Body: body}); err != nil {
			t.Fatal(err)
		}
	}
	run := x.Runs[3].Run.Name
	left, err := x.Leaving(bakeWater, run, "a tray was dropped")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := x.Leaving(bakeWater, run, ""); err == nil {
		t.Error("a run was left out without a reason")
	}
	enter(record.ID{1}, record.ID{}, left)
	if f := k.figure(t, bakeWater); f.Counted() != 3 {
		t.Errorf("%d count with one left out", f.Counted())
	}
	enter(record.ID{2}, record.ID{1}, record.Voided{Why: "it was another tray"})
	if f := k.figure(t, bakeWater); f.Counted() != 4 {
		t.Errorf("%d count when that was taken back", f.Counted())
	}
	no, err := x.Refusal(bakeWater)
	if err != nil {
		t.Fatal(err)
	}
	enter(record.ID{3}, record.ID{}, no)
	if f := k.figure(t, bakeWater); f.State != learned.Declined || f.Before != "12 %" {
		t.Errorf("refused: %s, %s", f.State, f.Before)
	}
	k.works(t, 1)
	if f := k.figure(t, bakeWater); f.State != learned.Ready {
		t.Errorf("with a new run: %s", f.State)
	}
	report := k.reported(t)
	if len(report.Figures) < 40 || len(report.Runs) != 5 || report.Schema != LearnedSchema {
		t.Errorf("the report has %d figures of %d runs", len(report.Figures), len(report.Runs))
	}
}

func (k *learningKitchen) reported(t *testing.T) LearnedReport {
	x, err := k.learning.Lessons(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	return x.Report("")
}

// Check-weights of a filling go into the book as they were weighed, after what is there; then they are in it.
func TestLearnedFillings(t *testing.T) {
	const checks = "packs/ale-cheddar-lb/checks"
	k := newLearningKitchen(t, nil)
	k.works(t, 1)
	x, err := k.learning.Lessons(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	g := unit.Gram
	weighed := record.CheckWeighed{Run: x.Runs[0].Run.Name, Pack: "ale-cheddar-lb", Tares: []unit.Mass{11 * g, 12 * g}, Gross: []unit.Mass{468 * g, 473 * g, 479 * g, 466 * g, 470 * g, 475 * g}}
	if _, err := k.records.Enter(t.Context(), Said{ID: record.ID{4}, Who: "Sam", Device: "tablet", At: byInes.At, Body: weighed}); err != nil {
		t.Fatal(err)
	}
	f := k.figure(t, checks)
	if _, edit, err := k.learning.Accept(t.Context(), record.ID{5}, byInes, checks, f.After); err != nil || !edit.Saved {
		t.Fatalf("%s, %s to %s: %v", f.State, f.Before, f.After, err)
	}
	book, found := k.house.written()
	all := book.Packs["ale-cheddar-lb"].Checks
	if len(all) != 2 || !slices.Equal(all[1].Gross, weighed.Gross) || all[1].Who != "Sam" || all[1].Date != x.Runs[0].Day || found.Worst() == finding.Stop {
		t.Errorf("in the book: %+v (%v)", all, found)
	}
	if f := k.figure(t, checks); f.Counted() != 0 || f.State == learned.Ready {
		t.Errorf("after it: %s, %d count", f.State, f.Counted())
	}
	if f := k.figure(t, "dishes/turkey-meatballs/steps/bake/loses/water"); f.Counted() != 1 || len(f.Seen[0].Notes) != 0 {
		t.Errorf("another figure of the run: %+v", f.Seen)
	}
}

// A run whose book is not kept any more, and cannot be found by taking back what was learned, is held against the book of today, and says so.
func TestLearnedOfAnotherBook(t *testing.T) {
	k := newLearningKitchen(t, demo.Book())
	k.works(t, 3)
	entries, _, err := k.truth.Work(70, record.Hash{1, 2}).Tell(9, 0)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := k.records.store.Append(t.Context(), entries); err != nil {
		t.Fatal(err)
	}
	f := k.figure(t, bakeWater)
	if f.Counted() != 4 || len(f.Seen[3].Notes) != 1 || !strings.Contains(f.Seen[3].Notes[0], "is not kept") || len(f.Seen[2].Notes) != 0 {
		t.Errorf("%+v", f.Seen)
	}
}
