package app

import (
	"path/filepath"
	"slices"
	"testing"
	"time"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// journal is a fold whose state is the order in which it was told of things.
type journal struct{ lots []record.Lot }

func journalOf() fold[*journal] {
	return fold[*journal]{
		empty: func() *journal { return &journal{} },
		take: func(j *journal, e record.Entry) finding.List {
			b, err := record.Decode(e.Kind, e.Body)
			if err != nil {
				return finding.List{{Code: "unread"}}
			}
			j.lots = append(j.lots, b.(record.Received).Lot)
			return nil
		},
		heeds: func(k record.Kind) bool { return k == record.Received{}.Kind() },
	}
}

// A state that is kept up is what folding all of it in the order of happening gives: after entries that came late, corrections and
// what was taken back.
func TestAStateIsKeptUp(t *testing.T) {
	for _, c := range []struct {
		name string
		late func(*journal, record.Entry) bool
		want []record.Lot
	}{
		{"the order matters", nil, []record.Lot{"late", "first!", "third"}},
		{"the order does not matter until something is corrected", func(*journal, record.Entry) bool { return true }, []record.Lot{"late", "first!", "third"}},
	} {
		r, err := OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), time.Now)
		if err != nil {
			t.Fatal(err)
		}
		defer r.Close()
		f := journalOf()
		f.late = c.late
		j := follow(r, f)
		received := func(minute int, lot record.Lot, corrects record.ID) record.ID {
			t.Helper()
			e, err := r.Enter(t.Context(), Said{Who: "Ada", At: time.Unix(1_790_000_000+int64(60*minute), 0), Corrects: corrects, Body: record.Received{Lot: lot, Ingredient: "x", Supplier: "y", Mass: unit.Gram}})
			if err != nil {
				t.Fatal(err)
			}
			return e[0].ID
		}
		shows := func(want ...record.Lot) {
			t.Helper()
			err := look(t.Context(), r, j, func(j *journal, _ finding.List) error {
				if !slices.Equal(j.lots, want) {
					t.Errorf("%s: %v, want %v", c.name, j.lots, want)
				}
				return nil
			})
			if err != nil {
				t.Fatal(err)
			}
		}
		first := received(10, "first", record.ID{})
		second := received(20, "second", record.ID{})
		received(30, "third", record.ID{})
		shows("first", "second", "third")
		received(5, "late", record.ID{})
		if c.late == nil {
			shows("late", "first", "second", "third")
		} else {
			shows("first", "second", "third", "late")
		}
		received(99, "first!", first)
		if _, err := r.Enter(t.Context(), Said{Who: "Ada", At: time.Unix(1_790_009_000, 0), Corrects: second, Body: record.Voided{Why: "a slip"}}); err != nil {
			t.Fatal(err)
		}
		shows(c.want...)
	}
}

// What is sent twice is taken in once, a correction of what is not there is refused, and a correction sent twice is answered.
func TestWhatIsEnteredOnce(t *testing.T) {
	r, err := OpenRecords(t.Context(), filepath.Join(t.TempDir(), "kitchen.records"), time.Now)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	note := Said{ID: record.ID{1}, Who: "Ada", At: time.Unix(1_790_000_000, 0), Body: record.Noted{Text: "once"}}
	void := Said{ID: record.ID{2}, Who: "Ada", At: time.Unix(1_790_000_060, 0), Corrects: record.ID{1}, Body: record.Voided{Why: "a slip"}}
	if _, err := r.Enter(t.Context(), void); err == nil {
		t.Error("something that was never entered is taken back")
	}
	for range 2 {
		for i, said := range []Said{note, void} {
			e, err := r.Enter(t.Context(), said)
			if err != nil || e[0].Seq != uint64(i+1) {
				t.Errorf("%v, %v; want entry %d", e, err, i+1)
			}
		}
	}
	if _, there, err := r.Entry(t.Context(), record.ID{1}); there || err != nil {
		t.Errorf("there: %v (%v), and it was taken back", there, err)
	}
}
