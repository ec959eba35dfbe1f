package lots

import (
	"iter"
	"slices"

	"kettlefrost/internal/record"
)

// Drill is a recall that was begun, in earnest or to practise, and what it came to. It is one entry: what it came to corrects it, so that the
// chain keeps when the store took in that it began.
type Drill struct {
	Entry record.ID
	Who   string
	began mark
	record.Drilled
}

// Open says that it has not been finished.
func (d Drill) Open() bool { return d.Ended == 0 }

// Minutes is how long it took, in minutes; until now if it is open.
func (d Drill) Minutes(now record.Instant) float64 {
	end := d.Ended
	if d.Open() {
		end = now
	}
	return float64(end-d.Began) / 60_000
}

// drilled puts a drill where it belongs by its time.
func (s *State) drilled(e record.Entry, b record.Drilled) {
	d := Drill{Entry: e.ID, Who: e.Who, began: markOf(e), Drilled: b}
	at, _ := slices.BinarySearchFunc(s.drills, d, func(a, b Drill) int { return a.began.compare(b.began) })
	s.drills = slices.Insert(s.drills, at, d)
}

// Drills are all recalls that were begun, the latest first.
func (s *State) Drills() iter.Seq[Drill] {
	return func(yield func(Drill) bool) {
		for _, d := range slices.Backward(s.drills) {
			if !yield(d) {
				return
			}
		}
	}
}

// Drill is a drill by the entry that began it.
func (s *State) Drill(id record.ID) (Drill, bool) {
	i := slices.IndexFunc(s.drills, func(d Drill) bool { return d.Entry == id })
	if i < 0 {
		return Drill{}, false
	}
	return s.drills[i], true
}
