package thermometers

import (
	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// ReportSchema is the name of the form of a Report.
const ReportSchema = "kettlefrost.thermometers/1"

// Report is all thermometers, for programs: those first that are to be checked first. Times are milliseconds since 1970 UTC.
type Report struct {
	Schema       string         `json:"schema"`
	Now          record.Instant `json:"now_ms"`
	Thermometers []RowReport    `json:"thermometers"`
	Findings     finding.List   `json:"findings"`
}

// RowReport is one thermometer.
type RowReport struct {
	ID        string          `json:"id"`
	Name      string          `json:"name"`
	Kind      string          `json:"kind,omitempty"`
	At        record.Place    `json:"at,omitempty"`
	InBook    bool            `json:"in_book"`
	StatedC   float64         `json:"stated_c"`   // how far wrong it may read, by the book or the code
	AccuracyC float64         `json:"accuracy_c"` // how far wrong it may read now
	EveryDays int             `json:"every_days,omitzero"`
	Standing  Standing        `json:"standing"`
	Due       *record.Instant `json:"due_ms,omitempty"`
	Checks    []CheckReport   `json:"checks"` // the earliest first
}

// CheckReport is one check.
type CheckReport struct {
	Entry  string             `json:"entry"`
	At     record.Instant     `json:"at_ms"`
	Who    string             `json:"who"`
	Method record.CheckMethod `json:"method"`
	ReadC  float64            `json:"read_c"`
	TrueC  float64            `json:"true_c"`
	AfterC *float64           `json:"after_c,omitempty"`
	Kept   record.CheckResult `json:"kept"`
	Note   record.Text        `json:"note,omitempty"`
}

// Report is the bench as a report, with what should be known and what else was found.
func (b Bench) Report(now record.Instant, units unit.System, found finding.List) Report {
	r := Report{Schema: ReportSchema, Now: now, Thermometers: []RowReport{}, Findings: append(b.Findings(now, units), found...)}
	if r.Findings == nil {
		r.Findings = finding.List{}
	}
	r.Findings.Sort()
	for _, x := range b.Rows(now) {
		row := RowReport{ID: x.ID, Name: x.Name, Kind: x.Kind, At: x.At, InBook: x.Listed, StatedC: x.Trust.StatedC, AccuracyC: x.Trust.AccuracyC, EveryDays: x.EveryDays, Standing: x.Standing, Checks: []CheckReport{}}
		if x.Due != 0 {
			row.Due = &x.Due
		}
		for _, c := range b.Checks(x.ID) {
			row.Checks = append(row.Checks, CheckReport{c.Entry.String(), c.At, c.Who, c.Method, c.ReadC, c.TrueC, c.AfterC, c.Kept, c.Note})
		}
		r.Thermometers = append(r.Thermometers, row)
	}
	return r
}
