package lots

import (
	"iter"
	"slices"

	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Drill is a recall that was begun, in earnest or to practise, and what it came to. It is one entry: what it came to corrects it, so that the
// chain keeps when the store took in that it began.
type Drill struct {
	Entry record.ID
	Who   string
	began mark
	record.Drilled
}

// Running says that it has not been finished.
func (d Drill) Running() bool { return d.Ended == 0 }

// What a recall is held to, in hours.
const (
	RecallHours   = 2 // NC State Extension, recall checklist: a shortfall is over 2 h or under 100 %
	BothWaysHours = 4 // a benchmark common to certifications for a full trace both ways (legal and trade pages on mock recalls)
	millisPerHour = 3_600_000
)

// Verdict is how a recall came out.
type Verdict struct {
	Whole   bool // every pack was found, and none was told of twice or was never made; of a recall without packs, all in bulk
	InTime  bool // within RecallHours
	InFour  bool // within BothWaysHours
	Pass    bool // whole and in time
	Ratio   float64
	Missing int64 // packs
}

// Verdict judges a recall by what it came to; one that is running by what it takes until now, and never as passed.
func (d Drill) Verdict(now record.Instant) Verdict {
	v := Verdict{Whole: d.Found == d.Packs && d.Told == d.Packs, Ratio: 1, Missing: d.Packs - d.Found}
	if d.Packs > 0 {
		v.Ratio = float64(d.Told) / float64(d.Packs)
	} else {
		v.Whole = v.Whole && d.Open == 0
	}
	end := d.Ended
	if d.Running() {
		end = now
	}
	took := end - d.Began
	v.InTime, v.InFour = took <= RecallHours*millisPerHour, took <= BothWaysHours*millisPerHour
	v.Pass = v.Whole && v.InTime && !d.Running()
	return v
}

// Minutes is how long it took, in minutes; until now if it is running.
func (d Drill) Minutes(now record.Instant) float64 {
	end := d.Ended
	if d.Running() {
		end = now
	}
	return float64(end-d.Began) / 60_000
}

// Outcome is what a recall came to, for the drill that it ends.
func (r Report) Outcome(d record.Drilled, ended record.Instant) record.Drilled {
	a := r.Account
	d.Lots, d.Asked, d.Ended = r.Of, r.Asked, ended
	d.Packs, d.Found, d.Told, d.Bulk, d.Open, d.Calls = a.Made, a.Found, a.Told, a.BulkMass, a.BulkOpen, int64(len(r.Calls))
	if a.MadeMass > 0 {
		d.Share = unit.Share(float64(a.FoundMass) / float64(a.MadeMass) * float64(unit.Whole))
	}
	return d
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
