// Package hazardplan folds the versions of hazard plans and their reviews out of the entries: what was written by whom and when, what a
// qualified person said to it, and which version was in force at a time. A version is never changed; another one follows it.
package hazardplan

import (
	"fmt"
	"maps"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/haccp"
	"kettlefrost/internal/record"
)

// The codes of what does not fit. They are stable, for programs.
const (
	CodeUnreadable = "hazard-plan-unreadable"
	CodeNoVersion  = "hazard-plan-review-of-none" // a review names no version of that pack
)

// Version is one version of the plan of a pack.
type Version struct {
	Number  int // from 1, for the pack
	Entry   record.ID
	At      record.Instant
	Who     string
	Device  string
	Note    string
	Basis   string
	Text    string         // as it was entered
	Doc     haccp.Document // of the text
	Bad     string         // why the text cannot be read; then there is no document
	Reviews []Review       // in order
}

// Review is what a qualified person said to a version.
type Review struct {
	Entry     record.ID
	At        record.Instant
	Who       string // who entered it
	Reviewer  string
	Qualified string
	Accepted  bool
	Authority string
	Why       string
}

// Last is the last review of a version, if there is any.
func (v Version) Last() (Review, bool) {
	if len(v.Reviews) == 0 {
		return Review{}, false
	}
	return v.Reviews[len(v.Reviews)-1], true
}

// State is the plans of all packs. The zero State is empty.
type State struct {
	of map[string][]Version
}

// Copy is a state of its own that is the same.
func (s *State) Copy() *State {
	c := &State{of: map[string][]Version{}}
	for pack, versions := range s.of {
		c.of[pack] = slices.Clone(versions)
		for i := range c.of[pack] {
			c.of[pack][i].Reviews = slices.Clone(c.of[pack][i].Reviews)
		}
	}
	return c
}

// Heeds says whether a kind of entry changes the state.
func Heeds(k record.Kind) bool {
	return k == record.HazardPlan{}.Kind() || k == record.PlanReviewed{}.Kind()
}

// Take folds in the next entry, in the order in which things happened, and tells what does not fit.
func (s *State) Take(e record.Entry) finding.List {
	if !Heeds(e.Kind) {
		return nil
	}
	body, err := record.Decode(e.Kind, e.Body)
	if err != nil {
		return misfit(e, CodeUnreadable, "what it says cannot be read: "+err.Error())
	}
	switch b := body.(type) {
	case record.HazardPlan:
		return s.version(e, b)
	case record.PlanReviewed:
		return s.review(e, b)
	}
	return nil
}

func misfit(e record.Entry, code, says string) finding.List {
	return finding.List{{Code: code, Severity: finding.Caution, Where: fmt.Sprintf("entry %d (%s)", e.Seq, e.Kind), Path: "entries." + e.ID.String(), Message: says, Fix: "take it back, and enter it again"}}
}

func (s *State) version(e record.Entry, b record.HazardPlan) (found finding.List) {
	if s.of == nil {
		s.of = map[string][]Version{}
	}
	v := Version{Number: len(s.of[b.Pack]) + 1, Entry: e.ID, At: e.Happened, Who: e.Who, Device: e.Device, Note: string(b.Note), Basis: b.Basis, Text: string(b.Text)}
	doc, err := haccp.Read(v.Text)
	switch {
	case err != nil:
		v.Bad = err.Error()
	case doc.Plan.Basis != b.Basis || doc.Product.ID != b.Pack:
		v.Bad = "its text is of another plan than the entry says"
	default:
		v.Doc = doc
	}
	if v.Bad != "" {
		found = misfit(e, CodeUnreadable, v.Bad)
	}
	s.of[b.Pack] = append(s.of[b.Pack], v)
	return found
}

func (s *State) review(e record.Entry, b record.PlanReviewed) finding.List {
	versions := s.of[b.Pack]
	i := slices.IndexFunc(versions, func(v Version) bool { return v.Entry == b.Plan })
	if i < 0 {
		return misfit(e, CodeNoVersion, fmt.Sprintf("it reviews a version of the plan of %s that is not there", b.Pack))
	}
	versions[i].Reviews = append(versions[i].Reviews, Review{Entry: e.ID, At: e.Happened, Who: e.Who, Reviewer: b.Reviewer, Qualified: b.Qualified,
		Accepted: b.Outcome == record.Accepted, Authority: b.Authority, Why: string(b.Why)})
	return nil
}

// Packs are those that have a plan, in the order of their names.
func (s *State) Packs() []string { return slices.Sorted(maps.Keys(s.of)) }

// Versions are those of a pack, the first one first. They are lent.
func (s *State) Versions(pack string) []Version { return s.of[pack] }

// Version is one of a pack by its number.
func (s *State) Version(pack string, number int) (Version, bool) {
	if number < 1 || number > len(s.of[pack]) {
		return Version{}, false
	}
	return s.of[pack][number-1], true
}

// InForce is the version that was accepted at a time: that of the last review until then that accepted one, unless a later review sent it back.
func (s *State) InForce(pack string, at record.Instant) (v Version, by Review, ok bool) {
	for _, x := range s.of[pack] {
		var last *Review
		for i := range x.Reviews {
			if x.Reviews[i].At <= at {
				last = &x.Reviews[i]
			}
		}
		if last != nil && last.Accepted && (!ok || last.At >= by.At) {
			v, by, ok = x, *last, true
		}
	}
	return v, by, ok
}

// Points are the control points that lots of a product are judged by at a time: those of the dish as the book has it, with what people changed in
// the version that was in force; a limit that they made stricter holds. Version is its number, 0 where none was in force: then they are those of
// the draft. Errors are *haccp.ProductError.
func (s *State) Points(p haccp.Product, at record.Instant) (points []haccp.Point, version int, err error) {
	v, _, _ := s.InForce(p.ID, at)
	plan, _, err := haccp.With(p, v.Doc.Edits)
	return plan.Points, v.Number, err
}
