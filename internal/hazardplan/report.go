package hazardplan

import (
	"kettlefrost/internal/finding"
	"kettlefrost/internal/haccp"
	"kettlefrost/internal/record"
)

// ReportSchema names the shape of a Report.
const ReportSchema = "kettlefrost.hazards/1"

// Report is how the plans of all packs stand.
type Report struct {
	Schema  string       `json:"schema"`
	Kitchen string       `json:"kitchen"`
	Judged  bool         `json:"judged"` // false: the book names no jurisdiction, so nothing is judged
	Packs   []Row        `json:"packs"`
	Misfits finding.List `json:"misfits,omitempty"` // about entries that do not fit
}

// Row is how the plan of one pack stands.
type Row struct {
	Pack     string         `json:"pack"`
	Name     string         `json:"name"`
	Stands   Word           `json:"stands"`
	Versions int            `json:"versions"`           // that were entered
	Waiting  bool           `json:"waiting,omitempty"`  // the last one was not reviewed yet
	InForce  *Force         `json:"in_force,omitempty"` // what was accepted last
	Basis    string         `json:"basis,omitempty"`    // of the dish as it is today
	Points   int            `json:"points"`
	Changed  []haccp.Change `json:"changed,omitempty"` // what opened it again
	Open     []haccp.Open   `json:"open,omitempty"`
	Asked    finding.List   `json:"asked,omitempty"` // what nobody has said of its ingredients
	Bad      string         `json:"bad,omitempty"`   // why nothing can be drafted
}

// Force is a version that was accepted.
type Force struct {
	Version   int            `json:"version"`
	Entry     string         `json:"entry"` // the version's, by its ID
	At        record.Instant `json:"at_ms"` // when it was accepted
	Reviewer  string         `json:"reviewer"`
	Qualified string         `json:"qualified"`
	Authority string         `json:"authority,omitempty"`
	EnteredBy string         `json:"entered_by"`
}

// Row is a standing as a row.
func (x Standing) Row(pack, name string, versions int) Row {
	r := Row{Pack: pack, Name: name, Stands: x.Word, Versions: versions, Waiting: x.Waiting && versions > 0, Basis: x.Today.Plan.Basis, Points: len(x.Today.Plan.Points), Changed: x.Changed, Open: x.Today.Plan.Open}
	if x.InForce != nil {
		r.InForce = &Force{Version: x.InForce.Number, Entry: x.InForce.Entry.String(), At: x.By.At, Reviewer: x.By.Reviewer, Qualified: x.By.Qualified, Authority: x.By.Authority, EnteredBy: x.By.Who}
	}
	return r
}

// Shown is the version that a reader should see first: what is in force, as long as it is the last and the dish is as it was; else what the plan
// would be today, which is a draft.
func (x Standing) Shown() (doc haccp.Document, inForce bool) {
	if x.Word == Accepted && x.Latest != nil && x.InForce.Entry == x.Latest.Entry {
		return x.InForce.Doc, true
	}
	return x.Today, false
}
