package board

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"kettlefrost/internal/record"
)

// told draws the entries of one device: anything, of any task, at any time, also out of turn.
func told(t *rapid.T, device byte) []record.Entry {
	var all []record.Entry
	for n := range rapid.IntRange(0, 12).Draw(t, "entries") {
		task := rapid.SampledFrom([]string{"broth/chop/1", "wash/jars/1", "broth/boil/1", "broth/fill/1", "stew/fry/1"}).Draw(t, "task")
		body := rapid.SampledFrom([]record.Body{started(task), finished(task), record.Skipped{Run: "r", Task: task, Why: "no time"}, record.Closed{Run: "r"}, record.Opened{Run: "r", Request: "broth", Day: "2026-09-21", Plan: record.Hash{1}}}).Draw(t, "body")
		when := at(7, 0) + record.Instant(rapid.IntRange(0, 8).Draw(t, "minutes"))*60_000
		e, err := record.Say(record.ID{device, byte(n)}, when, fmt.Sprintf("cook %d", device), "tablet", body)
		if err != nil {
			t.Fatal(err)
		}
		e.Entered = when
		all = append(all, e)
	}
	return all
}

// interleaved mixes the entries of two devices, each in its order, and gives them their place in the chain.
func interleaved(t *rapid.T, a, b []record.Entry) []record.Entry {
	var all []record.Entry
	for len(a)+len(b) > 0 {
		if len(b) == 0 || len(a) > 0 && rapid.Bool().Draw(t, "a first") {
			all, a = append(all, a[0]), a[1:]
		} else {
			all, b = append(all, b[0]), b[1:]
		}
		all[len(all)-1].Seq = uint64(len(all))
	}
	return all
}

// shown is all of a board that does not name places in the chain.
func shown(entries []record.Entry) string {
	s := &State{}
	for _, e := range entries {
		s.Put(e)
	}
	r := s.Run("r")
	if r == nil {
		return "nothing"
	}
	p, needs := broth()
	b := Read(r, p, needs)
	text := fmt.Sprint(r.Open(), "\n")
	for _, t := range p.Timetable.Tasks {
		x := b.Tasks[t.Key]
		text += fmt.Sprintln(x.Key, x.Is, x.Began, x.Ended, x.Who, x.EndedBy, x.Why, x.Unmarked)
	}
	for _, f := range b.Found {
		text += fmt.Sprintln(f.Code, f.Path, f.Message)
	}
	return text + says(b.Outlook(p, p, 428))
}

// However the entries of two tablets are mixed on their way, the board is the same when all have come; one that comes twice changes nothing.
func TestWhicheverTabletIsLate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := told(t, 1), told(t, 2)
		first, second := interleaved(t, a, b), interleaved(t, a, b)
		want := shown(first)

		if diff := cmp.Diff(want, shown(second)); diff != "" {
			t.Fatalf("the order of arrival shows (-one +other):\n%s", diff)
		}
		twice := append(first[:len(first):len(first)], first...)
		if diff := cmp.Diff(want, shown(twice)); diff != "" {
			t.Fatalf("what came twice shows:\n%s", diff)
		}
	})
}

// What was taken back was never there.
func TestTakenBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, extra := told(t, 1), told(t, 2)
		s := &State{}
		for _, e := range interleaved(t, a, extra) {
			s.Put(e)
		}
		for _, e := range extra {
			s.Drop(e.ID)
		}
		var kept []record.Entry
		if r := s.Run("r"); r != nil {
			for _, x := range r.All() {
				kept = append(kept, x.Entry)
			}
		}
		if diff := cmp.Diff(shown(a), shown(kept)); diff != "" {
			t.Fatalf("%s", diff)
		}
	})
}
