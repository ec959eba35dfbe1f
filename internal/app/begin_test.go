package app_test

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"
	"sync"
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// shown is a house that shows the demo until the records hold a book.
func shown(t *testing.T) (*app.App, *app.Records) {
	t.Helper()
	r := emptyRecords(t)
	a, err := app.New(demo.Book(), noon)
	if err != nil {
		t.Fatal(err)
	}
	a.Follow(r)
	a.UntilOwn()
	return a, r
}

func ownBook(t *testing.T, name string) map[string]string {
	t.Helper()
	files, err := app.EmptyBook(kitchen.Kitchen{Name: name, Place: "Springfield", Units: unit.Metric, Currency: "€"})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

// An empty kitchen is in use at once, can be planned with, is begun once, and nobody begins another in its place.
func TestAnEmptyKitchenBegins(t *testing.T) {
	a, r := shown(t)
	if !a.MayBegin() || !a.Demo() || a.InRecords() {
		t.Fatal("the demo is not what is shown first")
	}
	hostile := "Ada's: \"pot\" #1\n- {x: y} \\u0000 <b>"
	for range 2 { // sent twice
		if err := a.Begin(t.Context(), record.ID{1}, ada, false, ownBook(t, hostile)); err != nil {
			t.Fatal(err)
		}
	}
	book, found := a.Book()
	if found.Worst() >= finding.Stop || book.Kitchen.Name != hostile || book.Kitchen.Currency != "€" || len(book.Dishes) != 0 {
		t.Errorf("%+v, %v", book.Kitchen, found)
	}
	if a.MayBegin() || a.Demo() || !a.InRecords() {
		t.Error("the demo is still shown")
	}
	if _, err := a.EditBook(t.Context(), record.ID{3}, ada); err != nil {
		t.Error(err)
	}
	begun := (*app.BegunError)(nil)
	if err := a.Begin(t.Context(), record.ID{2}, ada, false, ownBook(t, "another")); !errors.As(err, &begun) || begun.Kitchen != hostile {
		t.Errorf("another kitchen began: %v", err)
	}
	if err := a.BeginDemo(t.Context(), record.ID{4}, ada, false); !errors.As(err, &begun) {
		t.Errorf("the demo was put over a kitchen: %v", err)
	}
	if log, err := r.BookLog(t.Context(), ""); err != nil || len(log) != 1 {
		t.Errorf("%d versions, %v", len(log), err)
	}
}

// The demo goes into the records byte for byte, is the demo still, and can be changed then.
func TestTheDemoBegins(t *testing.T) {
	a, r := shown(t)
	if err := a.BeginDemo(t.Context(), record.ID{1}, ada, false); err != nil {
		t.Fatal(err)
	}
	files, err := r.BookFiles(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	same(t, files, demo.Book())
	if !a.Demo() || !a.InRecords() {
		t.Error("it is not the demo in the records")
	}
}

// Entries made while the demo was shown keep a kitchen of one's own out until somebody says that they are its own; who works here is no such entry.
func TestEntriesOfTheDemoDoNotMix(t *testing.T) {
	a, r := shown(t)
	for i, b := range []record.Body{record.Person{Person: "ada", Name: "Ada", Role: "owner", Since: "2026-01-01"}, record.Noted{Text: "tried the board"}} {
		if _, err := r.Enter(t.Context(), app.Said{ID: record.ID{9, byte(i)}, Who: "Ada", Device: "laptop", At: noon(), Body: b}); err != nil {
			t.Fatal(err)
		}
	}
	who := app.Author{Who: "ada", Device: "laptop", At: noon()}
	mixed := (*app.MixedError)(nil)
	if err := a.Begin(t.Context(), record.ID{1}, who, false, ownBook(t, "mine")); !errors.As(err, &mixed) || mixed.Entries != 1 {
		t.Fatalf("%v", err)
	}
	if a.InRecords() {
		t.Fatal("it began")
	}
	if err := a.Begin(t.Context(), record.ID{1}, who, true, ownBook(t, "mine")); err != nil || !a.InRecords() {
		t.Errorf("%v", err)
	}
}

// Of many who begin at once one is heard, and who reads the book meanwhile sees the demo or that kitchen, whole.
func TestManyBeginAtOnce(t *testing.T) {
	a, r := shown(t)
	var all sync.WaitGroup
	stop := make(chan struct{})
	for range 3 {
		all.Go(func() {
			for {
				select {
				case <-stop:
					return
				default:
				}
				book, found := a.Book()
				isDemo, isOwn := book.Kitchen.Name == "Thistle Yard Kitchen", strings.HasPrefix(book.Kitchen.Name, "kitchen ")
				if !isDemo && !isOwn || isDemo != (len(book.Dishes) > 0) || found.Worst() >= finding.Stop {
					t.Errorf("%q with %d dishes: %v", book.Kitchen.Name, len(book.Dishes), found)
					return
				}
				a.Demo()
				a.MayBegin()
			}
		})
	}
	began := make(chan string, 8)
	var beginners sync.WaitGroup
	for i := range 8 {
		beginners.Go(func() {
			name := fmt.Sprintf("kitchen %d", i)
			err := a.Begin(t.Context(), record.ID{1, byte(i)}, ada, false, ownBook(t, name))
			if begun := (*app.BegunError)(nil); err == nil {
				began <- name
			} else if !errors.As(err, &begun) {
				t.Error(err)
			}
		})
	}
	beginners.Wait()
	close(stop)
	all.Wait()
	close(began)
	name := <-began
	if _, second := <-began; second || name == "" {
		t.Error("not one kitchen began")
	}
	if book, _ := a.Book(); book.Kitchen.Name != name {
		t.Errorf("%q began, and %q is in use", name, book.Kitchen.Name)
	}
	if log, err := r.BookLog(t.Context(), ""); err != nil || len(log) != 1 {
		t.Errorf("%d versions, %v", len(log), err)
	}
}

// zipOf packs files.
func zipOf(t *testing.T, files map[string]string) []byte {
	t.Helper()
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for name, text := range files {
		w, err := z.Create(name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := w.Write([]byte(text)); err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// What is sent is sorted out: names that lead elsewhere, are there twice or are too large are refused with a fix, what is no part of a book is left.
func TestReadSent(t *testing.T) {
	const kitchenText = "kitchen: {name: Mine}\n"
	bomb := strings.Repeat("# 0123456789\n", (4<<20)/13+1)
	for _, c := range []struct {
		name  string
		sent  []app.SentFile
		files string // their names
		left  string
		codes string
	}{
		{"a folder", []app.SentFile{{"kitchen.zip", zipOf(t, map[string]string{"mine/kitchen.yaml": kitchenText, "mine/dishes/a.yaml": "# a\n", "mine/notes.txt": "x", "__MACOSX/mine/._kitchen.yaml": "x", "mine/.git/x.yaml": "x"})}}, "dishes/a.yaml kitchen.yaml", ".git/x.yaml notes.txt", ""},
		{"no folder", []app.SentFile{{"k.ZIP", zipOf(t, map[string]string{"kitchen.yaml": kitchenText, "dishes/a.yaml": ""})}}, "dishes/a.yaml kitchen.yaml", "", ""},
		{"everything", []app.SentFile{{"all.zip", zipOf(t, map[string]string{"entries.jsonl": "{}", "book/kitchen.yaml": kitchenText, "tables/lots.csv": "", "README.txt": ""})}}, "kitchen.yaml", "README.txt tables/lots.csv", ""},
		{"single files", []app.SentFile{{"C:\\books\\kitchen.yaml", []byte(kitchenText)}, {"dal.yml", []byte("")}}, "dal.yaml kitchen.yaml", "", ""},
		{"out of the folder", []app.SentFile{{"k.zip", zipOf(t, map[string]string{"kitchen.yaml": kitchenText, "../../etc/evil.yaml": "x", "a\\..\\..\\evil.yaml": "x"})}}, "kitchen.yaml", "", "sent-name sent-name"},
		{"absolute", []app.SentFile{{"k.zip", zipOf(t, map[string]string{"kitchen.yaml": kitchenText, "/etc/evil.yaml": "x"})}}, "kitchen.yaml", "", "sent-name"},
		{"odd names", []app.SentFile{{"k.zip", zipOf(t, map[string]string{"kitchen.yaml": kitchenText, "a\nb.yaml": "x", "con:x.yaml": "x", strings.Repeat("a", 300) + ".yaml": "x", "\xff.yaml": "x"})}}, "kitchen.yaml", "", "sent-name sent-name sent-name sent-name"},
		{"twice", []app.SentFile{{"kitchen.yaml", []byte(kitchenText)}, {"Kitchen.yaml", []byte(kitchenText)}}, "kitchen.yaml", "", "sent-twice"},
		{"a bomb", []app.SentFile{{"k.zip", zipOf(t, map[string]string{"kitchen.yaml": kitchenText, "bomb.yaml": bomb})}}, "kitchen.yaml", "", "sent-too-large"},
		{"no zip", []app.SentFile{{"k.zip", []byte("PK, but no zip")}}, "", "", "sent-no-zip"},
		{"nothing", []app.SentFile{{"photo.jpg", []byte("x")}}, "", "photo.jpg", "sent-nothing"},
		{"nobody", nil, "", "", "sent-nothing"},
	} {
		s := app.ReadSent(c.sent)
		var codes []string
		for _, f := range s.Found {
			if codes = append(codes, f.Code); f.Fix == "" || f.Severity != finding.Stop {
				t.Errorf("%s: %v has no fix or is no stop", c.name, f)
			}
		}
		if got := strings.Join(slices.Sorted(maps.Keys(s.Files)), " "); got != c.files || strings.Join(s.Left, " ") != c.left || strings.Join(codes, " ") != c.codes {
			t.Errorf("%s: files %q, left %q, found %q; want %q, %q, %q", c.name, got, s.Left, codes, c.files, c.left, c.codes)
		}
		if s.HasEntries() != (c.name == "everything") {
			t.Errorf("%s: entries %v", c.name, s.HasEntries())
		}
	}
}

// Mistakes in what was sent are told by file, line and column, and nothing is taken; a file in another encoding is one.
func TestMistakesKeepABookOut(t *testing.T) {
	a, _ := shown(t)
	for text, want := range map[string]string{
		"kitchen: {name: Mine}\ndishes:\n  dal:\n    name: Dal\n    steps: []\n    stepps: []\n": "kitchen.yaml:6:5",
		"kitchen:\n\tname: Mine\n": "kitchen.yaml:2:1",
		"kitchen:\n  name: \xe9\n": "kitchen.yaml:2:9",
		"\xff\xfek\x00i\x00t\x00c": "kitchen.yaml:1:1",
	} {
		err := a.Begin(t.Context(), record.ID{1}, ada, false, map[string]string{"kitchen.yaml": text})
		stops := (*app.StopsError)(nil)
		if !errors.As(err, &stops) || stops.Found[0].At == nil || stops.Found[0].At.String() != want {
			t.Errorf("%q: %v, want it at %s", text, err, want)
			if stops != nil {
				t.Log(stops.Found)
			}
		}
	}
	if a.InRecords() {
		t.Error("something was taken")
	}
}

// Everything that one kitchen's records hold goes into the empty records of another; into records with entries it does not.
func TestEverythingIsRestored(t *testing.T) {
	from := fullDiary(t)
	if _, err := from.ImportBook(t.Context(), demo.Book(), ada); err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	z := app.NewZip(&out, noon())
	x, err := from.ExportAll(t.Context(), z)
	if err != nil || z.Close() != nil {
		t.Fatal(err)
	}
	sent := app.ReadSent([]app.SentFile{{Name: "everything.zip", Data: out.Bytes()}})
	if len(sent.Found) > 0 || !sent.HasEntries() || sent.Files["kitchen.yaml"] == "" {
		t.Fatalf("%v, %d files", sent.Found, len(sent.Files))
	}
	a, r := shown(t)
	if head, err := a.Restore(t.Context(), ada, sent); err != nil || head != x.Head {
		t.Fatalf("%v, %v; want %v", head, err, x.Head)
	}
	if !a.InRecords() {
		t.Error("its book is not in use")
	}
	if head, err := r.Verify(t.Context()); err != nil || head != x.Head {
		t.Errorf("%v, %v", head, err)
	}
	begun := (*app.BegunError)(nil)
	if _, err := a.Restore(t.Context(), ada, sent); !errors.As(err, &begun) {
		t.Errorf("restored twice: %v", err)
	}
	other, r2 := shown(t)
	if _, err := r2.Enter(t.Context(), app.Said{ID: record.ID{9}, Who: "Ada", Device: "laptop", At: noon(), Body: record.Noted{Text: "tried"}}); err != nil {
		t.Fatal(err)
	}
	mixed := (*app.MixedError)(nil)
	if _, err := other.Restore(t.Context(), ada, sent); !errors.As(err, &mixed) {
		t.Errorf("restored over entries: %v", err)
	}
}

// Whatever bytes are called a zip, reading them ends, and every file that is taken has a name within the folder of the book.
func FuzzReadSent(f *testing.F) {
	f.Add("k.zip", []byte("PK\x03\x04"))
	f.Add("a.yaml", []byte("kitchen: {}"))
	f.Fuzz(func(t *testing.T, name string, data []byte) {
		s := app.ReadSent([]app.SentFile{{Name: name, Data: data}})
		for name := range s.Files {
			if !app.IsBookFile(name) {
				t.Errorf("%q was taken", name)
			}
		}
		if len(s.Files) == 0 && len(s.Found) == 0 {
			t.Error("nothing was taken, and nothing is said about it")
		}
	})
}
