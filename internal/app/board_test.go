package app

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"
	_ "time/tzdata"

	"kettlefrost/demo"
	"kettlefrost/internal/board"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// hand is a clock that is set by hand.
type hand struct{ ms atomic.Int64 }

func (h *hand) now() time.Time { return time.UnixMilli(h.ms.Load()).UTC() }

func (h *hand) set(clock string) {
	t, err := time.Parse("2006-01-02 15:04", "2026-12-01 "+clock)
	if err != nil {
		panic(err)
	}
	h.ms.Store(t.UnixMilli())
}

// kettleDay is the demo kitchen on the day on which its kettle is filled once, with the production opened.
func kettleDay(t testing.TB) (*Boards, *Records, *hand) {
	t.Helper()
	h := &hand{}
	h.set("05:30")
	house, err := New(demo.Book(), h.now)
	if err != nil {
		t.Fatal(err)
	}
	records, err := OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), h.now)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { records.Close() })
	boards := NewBoards(records, house)
	opened, err := boards.Opening(t.Context(), "kettle", "2026-12-01", "")
	if err != nil {
		t.Fatal(err)
	}
	say(t, records, h, opened)
	return boards, records, h
}

func say(t testing.TB, r *Records, h *hand, body record.Body) record.Entry {
	t.Helper()
	entries, err := r.Enter(context.Background(), Said{Who: "Nora", Device: "tablet", At: h.now(), Body: body})
	if err != nil {
		t.Fatal(err)
	}
	return entries[0]
}

func look1(t testing.TB, b *Boards, name string) *Production {
	t.Helper()
	p, err := b.Production(context.Background(), name, true)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// A production is opened with the hash of its book and request, is timed again as things happen, and what is begun early, late or skipped
// moves the rest; taking it back puts it as it was.
func TestAProduction(t *testing.T) {
	boards, records, h := kettleDay(t)
	const name = "kettle-2026-12-01"
	p := look1(t, boards, name)
	if !p.Open || len(p.Found) > 0 || len(p.First.Timetable.Tasks) == 0 || p.Now != 5*60+30 || !p.Fresh {
		t.Fatalf("open %v, found %v, %d tasks, now %s", p.Open, p.Found, len(p.First.Timetable.Tasks), p.Now)
	}
	first := p.First.Timetable.Tasks[0]
	end, _ := p.Ends()
	h.set(first.Start.String())
	began := say(t, records, h, record.Started{Run: name, Task: first.Key})
	h.set((first.End + 45).String())
	p = look1(t, boards, name)
	if late, planned := p.Ends(); late <= end || planned != end {
		t.Errorf("three quarters of an hour late, it ends at %s, planned %s", late, planned)
	}
	if x := p.Board.Tasks[first.Key]; x.Is != board.Begun {
		t.Errorf("%s is %q", first.Key, x.Is)
	}
	if len(p.Timed.Timetable.Moves) == 0 {
		t.Error("nothing moved")
	}
	if _, err := records.Enter(t.Context(), Said{Who: "Nora", Device: "tablet", At: h.now(), Corrects: began.ID, Body: record.Voided{Why: "a slip"}}); err != nil {
		t.Fatal(err)
	}
	if x := look1(t, boards, name).Board.Tasks[first.Key]; x.Is != board.ToDo {
		t.Errorf("taken back, and %q", x.Is)
	}
	say(t, records, h, record.Closed{Run: name})
	if p := look1(t, boards, name); p.Open {
		t.Error("closed, and open")
	}
}

// Other records of other devices are followed whoever began to look first, and what is not there is named with what is.
func TestProductionsThereAre(t *testing.T) {
	boards, records, h := kettleDay(t)
	again := NewBoards(records, boards.house)
	say(t, records, h, record.Weighed{Run: "kettle-2026-12-01", Dish: "bean-pot", Output: "beans", Net: 12 * unit.Kilogram})
	for _, b := range []*Boards{boards, again} {
		all, err := b.Runs(t.Context())
		if err != nil || len(all) != 1 || len(all[0].All()) != 2 {
			t.Fatalf("%v, %v", all, err)
		}
	}
	_, err := boards.Production(t.Context(), "kettel", false)
	if unknown := (*UnknownRunError)(nil); !errors.As(err, &unknown) || !strings.Contains(err.Error(), "kettle-2026-12-01") {
		t.Errorf("%v", err)
	}
	if _, err := boards.Opening(t.Context(), "kettle", "2026-12-01", ""); err == nil || !strings.Contains(err.Error(), "open already") {
		t.Errorf("opened twice: %v", err)
	}
	if _, err := boards.Opening(t.Context(), "nothing", "", ""); err == nil {
		t.Error("opened what is not in the book")
	}
}

// What is entered or taken back stands there at once, and does not change what somebody has looked at.
func TestProductionsAreThoseOfNow(t *testing.T) {
	boards, records, h := kettleDay(t)
	const name = "kettle-2026-12-01"
	weighed := record.Weighed{Run: name, Dish: "bean-pot", Output: "beans", Net: 12 * unit.Kilogram}
	var before []*board.Run
	for _, step := range []struct {
		at      string
		says    record.Body
		entries int
		open    bool
	}{{"06:00", weighed, 2, true}, {"06:10", record.Customer{Customer: "cafe", Name: "Café"}, 2, true}, {"06:20", record.Closed{Run: name}, 3, false}} {
		h.set(step.at)
		say(t, records, h, step.says)
		all, err := boards.Runs(t.Context())
		if err != nil || len(all) != 1 || len(all[0].All()) != step.entries || all[0].Open() != step.open {
			t.Fatalf("after %s: %v, %v", step.says.Kind(), all, err)
		}
		before = append(before, all[0])
	}
	if n := len(before[0].All()); n != 2 || !before[0].Open() {
		t.Errorf("what was looked at has %d entries now", n)
	}
	closed := before[2].All()[2]
	if _, err := records.Enter(t.Context(), Said{Who: "Nora", Device: "tablet", At: h.now(), Corrects: closed.ID, Body: record.Voided{Why: "not yet"}}); err != nil {
		t.Fatal(err)
	}
	if all, err := boards.Runs(t.Context()); err != nil || len(all) != 1 || !all[0].Open() {
		t.Errorf("closed, and taken back: %v, %v", all, err)
	}
}

// A book that was changed since is told of, and so is a run that is no longer in it.
func TestABookThatWasChanged(t *testing.T) {
	boards, records, h := kettleDay(t)
	opened, err := boards.Opening(t.Context(), "kettle", "2026-12-01", "other")
	if err != nil {
		t.Fatal(err)
	}
	opened.Plan[0]++
	say(t, records, h, opened)
	opened.Run, opened.Request = "third", "no-such-run"
	say(t, records, h, opened)
	for run, want := range map[string]string{"other": "book-changed", "third": "request-gone", "kettle-2026-12-01": ""} {
		var codes []string
		for _, f := range look1(t, boards, run).Found {
			codes = append(codes, f.Code)
		}
		if got := strings.Join(codes, " "); got != want {
			t.Errorf("%s: found %q, want %q", run, got, want)
		}
	}
}

// The board is there at once, with the last timetable, while twenty devices look and enter; nothing of what they enter is lost.
func TestManyDevices(t *testing.T) {
	boards, records, h := kettleDay(t)
	const name = "kettle-2026-12-01"
	h.set("09:00")
	tasks := look1(t, boards, name).First.Timetable.Tasks
	var all sync.WaitGroup
	for device := range 20 {
		all.Go(func() {
			task := tasks[device%len(tasks)].Key
			if _, err := records.Enter(context.Background(), Said{Who: fmt.Sprint("cook ", device), Device: "tablet", At: h.now(), Body: record.Started{Run: name, Task: task}}); err != nil {
				t.Error(err)
			}
			if _, err := boards.Production(context.Background(), name, false); err != nil {
				t.Error(err)
			}
		})
	}
	all.Wait()
	p := look1(t, boards, name)
	if !p.Fresh || len(p.Run.All()) != 21 {
		t.Errorf("fresh %v, %d entries", p.Fresh, len(p.Run.All()))
	}
}

// The times of a run are those of the clock on the wall, also on the day on which it is put back.
func TestWallClock(t *testing.T) {
	place, err := time.LoadLocation("America/New_York")
	if err != nil {
		t.Fatal(err)
	}
	clock := wallClock("2026-11-01", place) // clocks go back at 02:00
	for _, c := range []struct {
		at   time.Time
		want unit.Moment
	}{
		{time.Date(2026, 11, 1, 0, 30, 0, 0, place), 30},
		{time.Date(2026, 11, 1, 9, 15, 0, 0, place), 9*60 + 15},
		{time.Date(2026, 11, 2, 0, 5, 0, 0, place), 24*60 + 5},
		{time.Date(2026, 10, 31, 12, 0, 0, 0, place), 0},
	} {
		if got := clock(record.Instant(c.at.UnixMilli())); got != c.want {
			t.Errorf("%s is %s, want %s", c.at, got, c.want)
		}
	}
}
