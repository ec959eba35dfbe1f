package app

import (
	"fmt"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/hazardplan"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
)

// The codes of what is told of plans. They are stable, for programs.
const (
	CodePlanReopened = "hazard-plan-reopened"
	CodePlanMissing  = "hazard-plan-missing"
	CodePlanApproval = "hazard-plan-not-approved" // accepted, and no authority is named for vacuum packing
	CodePlanOld      = "hazard-plan-old"          // accepted more than a year ago
)

// reviewDays is how long a review stands: a year (common practice; 9 CFR 417.4(a)(3) for inspected plants, from memory).
const reviewDays = 365

// PlanFindings is what a kitchen that is judged should know of its plans: those that were opened again by a change, each with what changed, and
// those that nobody has accepted, in one.
func PlanFindings(book kitchen.Book, all []HazardPlan, now record.Instant) finding.List {
	if !book.Safety.Given() {
		return nil
	}
	var found finding.List
	var without, unapproved, old []string
	for _, x := range all {
		if f := x.Standing.InForce; f != nil && f.Doc.Product.Vacuum && x.Standing.By.Authority == "" && x.Product.Approval == "" {
			unapproved = append(unapproved, x.Name)
		}
		if x.Standing.InForce != nil && now-x.Standing.By.At > reviewDays*dayMs {
			old = append(old, x.Name)
		}
		switch {
		case x.Standing.Word == hazardplan.Reopened:
			found = append(found, finding.Finding{Code: CodePlanReopened, Severity: finding.Caution, Where: "hazard plan of " + x.Name, Path: "packs." + string(x.Pack),
				Message: fmt.Sprintf("what was accepted (version %d, by %s) is open again, since what it rests on has changed: %s", x.Standing.InForce.Number, x.Standing.By.Reviewer, changesText(x.Standing.Changed)),
				Fix:     "look the plan through, enter a new version, and have it reviewed"})
		case x.Standing.InForce == nil:
			without = append(without, x.Name)
		}
	}
	if len(without) > 0 {
		found = append(found, finding.Finding{Code: CodePlanMissing, Severity: finding.Caution, Where: "hazard plans", Path: "packs",
			Message: withoutPlan(without, len(all)),
			Source:  "FDA Food Code 3-502.11 and .12: vacuum packing of cooked food usually needs an approved plan or a variance; your authority decides",
			Fix:     "look the drafts through, and have them reviewed"})
	}
	if len(unapproved) > 0 {
		found = append(found, finding.Finding{Code: CodePlanApproval, Severity: finding.Caution, Where: "hazard plans", Path: "kitchen.vacuum-approval",
			Message: "accepted, and no approval of the authority is named for packing cooked food under vacuum: " + strings.Join(unapproved, "; "),
			Source:  "FDA Food Code 3-502.11 and .12", Fix: "ask the authority, and write its reference into the book or the review"})
	}
	if len(old) > 0 {
		found = append(found, finding.Finding{Code: CodePlanOld, Severity: finding.Note, Where: "hazard plans", Path: "packs", Message: "accepted more than a year ago: " + strings.Join(old, "; "),
			Source: "a review once a year is common practice; 9 CFR 417.4(a)(3) asks it of inspected plants (from memory)", Fix: "look them through, and have them reviewed"})
	}
	return found
}

// HazardReport is how the plans of a book stand, as one value.
func HazardReport(book kitchen.Book, all []HazardPlan, misfits finding.List) hazardplan.Report {
	v := hazardplan.Report{Schema: hazardplan.ReportSchema, Kitchen: book.Kitchen.Name, Judged: book.Safety.Given(), Packs: []hazardplan.Row{}, Misfits: misfits}
	for _, x := range all {
		row := x.Standing.Row(string(x.Pack), x.Name, len(x.Versions))
		row.Asked, row.Bad = x.Asked, x.Bad
		v.Packs = append(v.Packs, row)
	}
	return v
}

func withoutPlan(without []string, all int) string {
	if len(without) == all {
		return "no pack has a hazard plan that a qualified person has accepted"
	}
	return fmt.Sprintf("%d of %d packs have no hazard plan that a qualified person has accepted: %s", len(without), all, strings.Join(without, "; "))
}
