// Package retained folds records into the packs that a kitchen keeps from its runs to see how they last: which are to be opened when, and what was
// found when they were. It is about how food eats, never about whether it is safe.
//
// The order in which entries are taken makes no difference.
package retained

import (
	"cmp"
	"iter"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Codes of what does not fit. They are stable, for programs.
const (
	CodeUnreadable = "entry-unreadable" // a body that cannot be read
	CodeOtherPack  = "kept-of-another"  // packs of a lot are told to be of another kind than they were packed as
)

// Set is packs of a lot that were kept together, and the days on which some of them are to be opened.
type Set struct {
	Entry   record.ID      `json:"entry"`
	Lot     record.Lot     `json:"lot"`
	Pack    string         `json:"pack"`
	Run     string         `json:"run,omitempty"`
	Numbers record.Numbers `json:"numbers"`
	Open    []record.Day   `json:"open"` // the earliest first
	Why     record.Text    `json:"why,omitempty"`
	At      record.Instant `json:"at_ms"`
	Who     string         `json:"who"`
	seq     uint64
}

// Tasting is a pack, or several together, that were opened and tasted.
type Tasting struct {
	Entry      record.ID      `json:"entry"`
	Lot        record.Lot     `json:"lot"`
	Pack       string         `json:"pack"`
	Numbers    record.Numbers `json:"numbers,omitzero"` // none: nobody said which
	Weeks      int            `json:"weeks"`            // whole, since it was packed; -1 when nobody told of that
	Whole      unit.Mass      `json:"whole_g,omitzero"`
	DripG      *float64       `json:"drip_g,omitempty"` // what ran out; left out when nobody weighed
	Separation *unit.Share    `json:"separation,omitempty"`
	Scores     []Score        `json:"scores,omitempty"`
	Verdict    record.Verdict `json:"verdict"`
	Note       record.Text    `json:"note,omitempty"`
	At         record.Instant `json:"at_ms"`
	Who        string         `json:"who"`
	seq        uint64
}

// Score is points for one figure, from 0, the worst, to 10.
type Score struct {
	Figure string  `json:"figure"`
	Points float64 `json:"points"`
}

// DripShare is how much of a pack ran out, as a share of it; false when nobody weighed that.
func (t Tasting) DripShare() (float64, bool) {
	if t.DripG == nil || t.Whole <= 0 {
		return 0, false
	}
	return *t.DripG / (t.Whole.Kg() * 1000), true
}

// State is all packs that were ever kept. The zero State is a kitchen that kept none.
type State struct {
	sets     []Set
	tastings []Tasting
	packed   map[record.Lot]born
}

// born is a lot of packs as it was packed.
type born struct {
	at   record.Instant
	pack string
	seq  uint64
}

// Of folds all entries that stand.
func Of(entries iter.Seq[record.Entry]) (*State, finding.List) {
	s := &State{}
	var found finding.List
	for e := range entries {
		found = append(found, s.Take(e)...)
	}
	return s, found
}

var heeds = map[record.Kind]bool{record.Packed{}.Kind(): true, record.SetAside{}.Kind(): true, record.Tasted{}.Kind(): true}

// Heeds says whether entries of a kind tell of packs that are kept.
func Heeds(k record.Kind) bool { return heeds[k] }

// Commutes says whether an entry may be taken after some that happened later: always.
func (s *State) Commutes(record.Entry) bool { return true }

// Take folds in an entry. Entries of kinds that Heeds does not name change nothing.
func (s *State) Take(e record.Entry) finding.List {
	if !heeds[e.Kind] {
		return nil
	}
	body, err := record.Decode(e.Kind, e.Body)
	if err != nil {
		return finding.List{{Code: CodeUnreadable, Severity: finding.Caution, Where: "entry " + e.ID.String(), Path: "entries." + e.ID.String(), Message: "what it says cannot be read: " + err.Error(), Fix: "correct the entry"}}
	}
	switch b := body.(type) {
	case record.Packed:
		if s.packed == nil {
			s.packed = map[record.Lot]born{}
		}
		x := born{e.Happened, b.Pack, e.Seq}
		if was, twice := s.packed[b.Lot]; !twice || cmp.Or(cmp.Compare(x.at, was.at), cmp.Compare(x.seq, was.seq)) < 0 { // of a name given twice the first counts
			s.packed[b.Lot] = x
		}
	case record.SetAside:
		x := Set{Entry: e.ID, Lot: b.Lot, Pack: b.Pack, Run: b.Run, Numbers: b.Numbers, Open: slices.Sorted(slices.Values(b.Open)), Why: b.Why, At: e.Happened, Who: e.Who, seq: e.Seq}
		s.sets = insert(s.sets, x, Set.compare)
	case record.Tasted:
		x := Tasting{Entry: e.ID, Lot: b.Lot, Pack: b.Pack, Numbers: b.Numbers, Whole: b.Whole, Separation: b.Separation, Verdict: b.Verdict, Note: b.Note, At: e.Happened, Who: e.Who, seq: e.Seq}
		if b.Drip != nil {
			grams := decimal(*b.Drip)
			x.DripG = &grams
		}
		for _, y := range b.Scores {
			x.Scores = append(x.Scores, Score{y.Figure, decimal(y.Points)})
		}
		s.tastings = insert(s.tastings, x, Tasting.compare)
	}
	return nil
}

// decimal is a number to a thousandth.
func decimal(d record.Decimal) float64 { return float64(d) / 1000 }

func (x Set) compare(y Set) int { return cmp.Or(cmp.Compare(x.At, y.At), cmp.Compare(x.seq, y.seq)) }

func (t Tasting) compare(u Tasting) int {
	return cmp.Or(cmp.Compare(t.At, u.At), cmp.Compare(t.seq, u.seq))
}

// insert puts one into a list that is in order.
func insert[T any](all []T, x T, compare func(T, T) int) []T {
	i, _ := slices.BinarySearchFunc(all, x, compare)
	return slices.Insert(all, i, x)
}

// Packed is when a lot was packed; false when nobody told.
func (s *State) Packed(lot record.Lot) (at record.Instant, pack string, ok bool) {
	b, ok := s.packed[lot]
	return b.at, b.pack, ok
}

// Sets are all packs that were kept, in the order in which that was told.
func (s *State) Sets() []Set { return slices.Clone(s.sets) }

// msOfWeek is a week in milliseconds.
const msOfWeek = 7 * 24 * 3600 * 1000

// Tastings are all packs that were opened, the earliest first; of one kind when a kind is given.
func (s *State) Tastings(pack string) []Tasting {
	var all []Tasting
	for _, t := range s.tastings {
		t.Weeks = -1
		if b, ok := s.packed[t.Lot]; ok {
			t.Pack = b.pack
			if t.At >= b.at {
				t.Weeks = int((t.At - b.at) / msOfWeek)
			}
		}
		if pack == "" || t.Pack == pack {
			all = append(all, t)
		}
	}
	return all
}

// Misfits are what does not fit in what was told.
func (s *State) Misfits() finding.List {
	var found finding.List
	odd := func(entry record.ID, lot record.Lot, says string) {
		if b, ok := s.packed[lot]; ok && b.pack != says {
			found = append(found, finding.Finding{Code: CodeOtherPack, Severity: finding.Note, Where: "lot " + string(lot), Path: "entries." + entry.String(), Message: "its packs are told to be " + says + ", and they were packed as " + b.pack, Fix: "check the name of the lot, and correct the entry that is wrong"})
		}
	}
	for _, x := range s.sets {
		odd(x.Entry, x.Lot, x.Pack)
	}
	for _, t := range s.tastings {
		odd(t.Entry, t.Lot, t.Pack)
	}
	return found
}
