package web

import (
	"cmp"
	"fmt"
	"net/http"
	"strings"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/haccp"
	"kettlefrost/internal/hazardplan"
)

// hazardPlanPage is all that templates/hazardplan.html may show: one plan.
type hazardPlanPage struct {
	shell
	Name     string
	State    verdictView
	Stands   []string // sentences
	Draft    string   // what stands on it until it is accepted; "" then
	Links    []link
	Enter    *hazardEnter // to enter it as a version; nil where nothing can be entered, or an old version is read
	Changed  []hazardChange
	Since    string // what the changes are from
	Plan     hazardView
	Flow     pictureView
	Versions []hazardVersion

	AddHazard, AddPoint, AddProgramme, AddTraining string // addresses of forms; nothing where nothing can be entered
}

// hazardEnter is the form that enters the plan of today as a version.
type hazardEnter struct {
	Action, Entry, Says string
	Kept                []kept
}

// hazardChange is one change in words.
type hazardChange struct {
	Where, Says string
	Basis       bool
}

// hazardVersion is one version with what was said of it.
type hazardVersion struct {
	writtenVersion
	URL    string
	Review string // address of the form for one
}

// writtenVersion is what is to be read of a version.
type writtenVersion struct {
	Title, When, Who, Note, Bad string
	Changed                     []hazardChange // from the one before
	Reviews                     []string
}

var hazardPlanTemplate = parse[hazardPlanPage]("hazardplan")

func (s *server) showHazardPlan(w http.ResponseWriter, r *http.Request) {
	a := s.hazardOf(w, r)
	if a == nil {
		return
	}
	pack := string(a.Pack)
	v := hazardPlanPage{shell: s.inShell(r, a.book.Kitchen, "Hazard plan", "hazards"), Name: a.Name, State: hazardState(a.Standing.Word), Stands: s.hazardStands(a)}
	v.Links = []link{{"Print it", hazardURL(hazardPrintPath, pack, a.number())}, {"As PDF", hazardURL(hazardPlanPath+".pdf", pack, a.number())}, {"As data (JSON)", hazardURL(hazardPlanPath+".json", pack, a.number())}, {"All plans", hazardsPath}, {"The rules", rulesPath}}
	if a.old {
		v.Links = append(v.Links, link{"The plan as it would be today", hazardURL(hazardPlanPath, pack, 0)})
	}
	v.Draft = a.draft()
	v.Plan = viewHazards(a, s.records != nil && !a.old)
	v.Flow = hazardFlow(pack, a.number())
	v.Changed, v.Since = a.changed()
	if s.records != nil && !a.old {
		v.Enter = a.enterForm()
		v.AddHazard, v.AddPoint, v.AddProgramme, v.AddTraining = a.editURL(haccp.AddHazard, ""), a.editURL(haccp.AddPoint, ""), a.editURL(haccp.SetProgramme, ""), a.editURL(haccp.AddTraining, "")
	}
	for i := range a.Versions {
		v.Versions = append(v.Versions, s.hazardVersion(a, len(a.Versions)-1-i))
	}
	hazardPlanTemplate.show(w, http.StatusOK, v)
}

// draft is what stands on a plan that is not accepted.
func (a *hazardAsked) draft() string {
	if a.inForce {
		return ""
	}
	return a.doc.Plan.Draft
}

// number is the version that is shown; 0 for what it would be today.
func (a *hazardAsked) number() int {
	if a.version == nil {
		return 0
	}
	return a.version.Number
}

// hazardStands is how a plan stands, in sentences.
func (s *server) hazardStands(a *hazardAsked) (says []string) {
	x := a.Standing
	switch {
	case a.version == nil:
		says = append(says, "This is what the plan would be today: a draft from the dish as the book has it"+map[bool]string{true: ", with what people changed in it.", false: "."}[len(a.doc.Edits) > 0])
	case a.inForce:
		says = append(says, fmt.Sprintf("This is version %d.", a.version.Number))
	default:
		says = append(says, fmt.Sprintf("This is version %d, as it was entered %s by %s.", a.version.Number, s.recallTime(a.version.At), a.version.Who))
	}
	if x.InForce != nil {
		says = append(says, s.acceptedWords(a.Standing))
	}
	if x.Waiting {
		says = append(says, fmt.Sprintf("Version %d waits for a review.", x.Latest.Number))
	}
	if x.Word == hazardplan.Reopened {
		says = append(says, "Since then something has changed that its control points rest on: look the plan through, enter a new version, and have it reviewed.")
	}
	return says
}

// acceptedWords is who accepted what is in force, and when.
func (s *server) acceptedWords(x hazardplan.Standing) string {
	text := fmt.Sprintf("Version %d was accepted %s by %s (%s), entered by %s", x.InForce.Number, s.recallTime(x.By.At), x.By.Reviewer, x.By.Qualified, x.By.Who)
	if strings.EqualFold(x.By.Reviewer, x.InForce.Who) {
		text += ", who also wrote it"
	}
	if x.By.Authority == "" {
		return text + "; no approval of an authority is named."
	}
	return text + "; approval of the authority: " + x.By.Authority + "."
}

// changed is what became of the plan: from what is in force, where that opened it again, or else from the version that was entered last.
func (a *hazardAsked) changed() (all []hazardChange, since string) {
	x := a.Standing
	switch {
	case a.old:
		return viewChanges(haccp.Changes(a.doc, x.Today)), fmt.Sprintf("from version %d to today", a.version.Number)
	case x.Word == hazardplan.Reopened:
		return viewChanges(x.Changed), fmt.Sprintf("since version %d, which was accepted", x.InForce.Number)
	case x.Latest != nil:
		return viewChanges(x.SinceNow), fmt.Sprintf("since version %d", x.Latest.Number)
	}
	return nil, ""
}

func viewChanges(all []haccp.Change) (out []hazardChange) {
	for _, c := range all {
		out = append(out, hazardChange{c.Where, c.Says, c.Basis})
	}
	return out
}

// enterForm enters what the plan would be today, where that differs from the last version or there is none.
func (a *hazardAsked) enterForm() *hazardEnter {
	x := a.Standing
	if x.Latest != nil && x.Latest.Bad == "" && len(x.SinceNow) == 0 {
		return nil
	}
	return &hazardEnter{Action: hazardEnterPath, Entry: newEntryID(), Says: fmt.Sprintf("Enter it as version %d, to be reviewed", len(a.Versions)+1), Kept: a.kept()}
}

// kept is what every form about a plan says of itself.
func (a *hazardAsked) kept() []kept {
	return []kept{{packKey, string(a.Pack)}, {fromVersionKey, fmt.Sprint(len(a.Versions))}}
}

func (s *server) hazardVersion(a *hazardAsked, i int) hazardVersion {
	x, pack := a.Versions[i], string(a.Pack)
	v := hazardVersion{URL: hazardURL(hazardPlanPath, pack, x.Number), writtenVersion: writtenVersion{Title: fmt.Sprintf("Version %d", x.Number), When: s.recallTime(x.At), Who: x.Who, Note: x.Note, Bad: x.Bad}}
	if x.Bad != "" {
		v.URL = ""
	} else if s.records != nil {
		v.Review = hazardURL(hazardReviewPath, pack, x.Number)
	}
	if i > 0 {
		v.Changed = viewChanges(haccp.Changes(a.Versions[i-1].Doc, x.Doc))
	}
	for _, o := range x.Reviews {
		v.Reviews = append(v.Reviews, s.reviewWords(o))
	}
	return v
}

// reviewWords is a review in a sentence.
func (s *server) reviewWords(o hazardplan.Review) string {
	word := "■ Sent back"
	if o.Accepted {
		word = "● Accepted"
	}
	parts := []string{fmt.Sprintf("%s %s by %s (%s), entered by %s", word, s.recallTime(o.At), o.Reviewer, o.Qualified, o.Who)}
	if o.Authority != "" {
		parts = append(parts, "authority: "+o.Authority)
	}
	if o.Why != "" {
		parts = append(parts, o.Why)
	}
	return strings.Join(parts, "; ")
}

// hazardFlow is the picture of the flow.
func hazardFlow(pack string, version int) pictureView {
	at := func(look string) string { return hazardURL(hazardFlowPath, pack, version, "look", look) }
	return pictureView{Src: at("light"), Narrow: at("narrow"), Night: at("dark"), NarrowDim: at("narrow-dark"), Alt: "Flow of the steps with the control points; the list below it says the same"}
}

func (s *server) showHazardFlow(w http.ResponseWriter, r *http.Request) {
	a := s.hazardOf(w, r)
	if a == nil {
		return
	}
	asked := cmp.Or(r.FormValue("look"), "light")
	l := look{narrow: strings.HasPrefix(asked, "narrow"), dark: strings.HasSuffix(asked, "dark")}
	wide := 820.0
	if l.narrow {
		wide = 360
	}
	writeSVG(w, draw.HazardFlow(a.doc.Plan, wide), l)
}
