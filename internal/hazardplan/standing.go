package hazardplan

import (
	"kettlefrost/internal/haccp"
	"kettlefrost/internal/record"
)

// Word is how the plan of a pack stands.
type Word string

const (
	Draft    Word = "draft"     // nobody has entered a version
	InReview Word = "in review" // the last version waits for a review, and none is in force
	Returned Word = "returned"  // the last version was sent back, and none is in force
	Accepted Word = "accepted"  // a version is in force, and the dish is as it was
	Reopened Word = "re-opened" // a version is in force, but something that its points rest on has changed
)

// Standing is how the plan of a pack stands beside the dish as the book has it today.
type Standing struct {
	Word     Word
	Latest   *Version // the last that was entered; nil for none
	InForce  *Version // nil for none
	By       Review   // that put it in force
	Waiting  bool     // the latest is none that was reviewed
	Today    haccp.Document
	Changed  []haccp.Change // from what is in force to today; only where a point may rest on it
	SinceNow []haccp.Change // from the latest version to today
}

// Stand sees how the plan of a product stands as of a time. Errors are *haccp.ProductError: then there is nothing to draft from.
func (s *State) Stand(p haccp.Product, at record.Instant) (Standing, error) {
	x := Standing{Word: Draft}
	if all := s.of[p.ID]; len(all) > 0 {
		x.Latest = &all[len(all)-1]
		_, reviewed := x.Latest.Last()
		x.Waiting = !reviewed
	}
	var edits []haccp.Edit
	if x.Latest != nil {
		edits = x.Latest.Doc.Edits
	}
	today, err := haccp.Write(p, edits)
	if err != nil {
		return x, err
	}
	x.Today = today
	if x.Latest != nil && x.Latest.Bad == "" {
		x.SinceNow = haccp.Changes(x.Latest.Doc, today)
	}
	v, by, ok := s.InForce(p.ID, at)
	switch {
	case ok:
		x.InForce, x.By, x.Word = &v, by, Accepted
		return x, x.compare(p)
	case x.Latest != nil && x.Waiting:
		x.Word = InReview
	case x.Latest != nil:
		x.Word = Returned
	}
	return x, nil
}

// compare holds what is in force against the dish of today. What people changed is not compared: that is a later version, and is reviewed as one.
func (x *Standing) compare(p haccp.Product) error {
	if x.InForce.Basis == x.Today.Plan.Basis {
		return nil
	}
	x.Word = Reopened
	now, err := haccp.Write(p, x.InForce.Doc.Edits)
	if err != nil {
		return err
	}
	for _, c := range haccp.Changes(x.InForce.Doc, now) {
		if c.Basis {
			x.Changed = append(x.Changed, c)
		}
	}
	return nil
}
