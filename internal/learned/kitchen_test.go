package learned

import (
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/board"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/history"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/learned/truth"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

func demoBook(t testing.TB) (kitchen.Book, *foodtable.Table) {
	t.Helper()
	foods, err := foodtable.Default()
	if err != nil {
		t.Fatal(err)
	}
	return bookfile.Read(demo.Book()).Book, foods
}

func kitchenOf(t testing.TB, request string, seed uint64) *truth.Kitchen {
	book, foods := demoBook(t)
	return truth.New(t.Context(), book, foods, request, seed)
}

// clockFrom counts minutes from the midnight before a morning of six.
func clockFrom(morning record.Instant) board.Clock {
	return func(i record.Instant) unit.Moment { return unit.Moment((i - morning + 6*60*minuteMs) / minuteMs) }
}

// runOf is what was told of a production.
func runOf(t testing.TB, entries []record.Entry, name string) *board.Run {
	t.Helper()
	var s board.State
	for _, e := range entries {
		s.Put(e)
	}
	return s.Run(name)
}

// read tells a day and reads it as the program does.
func read(t testing.TB, k *truth.Kitchen, w history.Worked, seed uint64, oneIn int) (Made, map[string]history.Slip) {
	t.Helper()
	entries, slips, err := w.Tell(seed, oneIn)
	if err != nil {
		t.Fatal(err)
	}
	return Made{Run: runOf(t, entries, w.Opened.Run), Day: string(w.Opened.Day), Book: k.Book, Sure: true, Expected: k.Expected, Clock: clockFrom(w.Start)}, slips
}

// of is the figures of runs, nothing said of them.
func of(t testing.TB, book kitchen.Book, told Told, runs ...Made) []Figure {
	t.Helper()
	var observed []Observed
	for _, m := range runs {
		observed = append(observed, Observe(book, m))
	}
	all, err := Of(book, observed, told)
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// figureOf is the figure of a key.
func figureOf(t testing.TB, all []Figure, key string) Figure {
	t.Helper()
	for _, f := range all {
		if f.Key == key {
			return f
		}
	}
	t.Fatalf("there is no figure %s", key)
	return Figure{}
}
