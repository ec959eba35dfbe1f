package coldstore

import (
	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// ReportSchema is the name of the form of a Report.
const ReportSchema = "kettlefrost.stock/1"

// Report is what is where, for programs. Days are written as 2026-12-01, numbers of packs as 1-12, 15. What is left out nobody knows.
type Report struct {
	Schema   string        `json:"schema"`
	Day      record.Day    `json:"day"`
	Places   []PlaceReport `json:"places"` // each before its parts
	Findings finding.List  `json:"findings"`
}

// PlaceReport is one place.
type PlaceReport struct {
	ID       record.Place  `json:"place"`
	Name     string        `json:"name"`
	Kind     Kind          `json:"kind,omitempty"`
	In       *record.Place `json:"in,omitempty"` // the place that it is a part of
	InBook   bool          `json:"in_book"`
	Reach    int           `json:"reach"`
	Packs    int64         `json:"packs"`  // with those in its parts
	Holds    unit.Mass     `json:"mass_g"` // with its parts
	Room     *unit.Mass    `json:"room_g,omitempty"`
	Left     *unit.Mass    `json:"left_g,omitempty"`
	Over     unit.Mass     `json:"over_g,omitzero"`
	Volume   *unit.Volume  `json:"volume_ml,omitempty"`
	LeftV    *unit.Volume  `json:"left_ml,omitempty"`
	OverV    unit.Volume   `json:"over_ml,omitzero"`
	StowKgL  float64       `json:"stow_kg_l"` // by which the mass takes volume
	Contents []GoodsReport `json:"contents"`  // right in it, the oldest first
}

// GoodsReport is so much of a lot.
type GoodsReport struct {
	Lot     record.Lot `json:"lot"`
	Sort    string     `json:"sort"`
	What    string     `json:"what"`
	Numbers string     `json:"numbers,omitempty"`
	Count   int64      `json:"count,omitzero"`
	Mass    unit.Mass  `json:"mass_g"`
	Until   record.Day `json:"until,omitzero"`
	Held    string     `json:"held,omitempty"`
	Taste   string     `json:"kept_for_tasting,omitempty"`
	AllHeld bool       `json:"all_held"`
	Past    bool       `json:"past"`
	Oldest  bool       `json:"oldest"`
}

// Report is the store as a report, with what should be known about its places and what else was found.
func (s Store) Report(units unit.System, found finding.List) Report {
	r := Report{Schema: ReportSchema, Day: s.Today, Places: []PlaceReport{}, Findings: append(s.Findings(units), found...)}
	if r.Findings == nil {
		r.Findings = finding.List{}
	}
	r.Findings.Sort()
	for _, p := range s.Spots {
		r.Places = append(r.Places, s.report(p))
	}
	return r
}

func (s Store) report(p Spot) PlaceReport {
	r := PlaceReport{ID: p.ID, Name: p.Name, Kind: p.Kind, InBook: p.Listed, Reach: p.Reach, Packs: p.AllPacks, Holds: p.All, Over: p.Rest.OverMass, OverV: p.Rest.OverVolume, StowKgL: float64(p.stow()), Contents: []GoodsReport{}}
	if p.Whole >= 0 {
		r.In = &s.Spots[p.Whole].ID
	}
	if p.Rest.MassKnown {
		r.Room, r.Left = &p.Room, &p.Rest.Mass
	}
	if p.Rest.VolumeKnown {
		r.Volume, r.LeftV = &p.Volume, &p.Rest.Volume
	}
	for _, g := range p.Goods {
		r.Contents = append(r.Contents, GoodsReport{Lot: g.Lot.ID, Sort: string(g.Lot.Sort), What: g.Lot.What, Numbers: g.Numbers.String(), Count: g.Numbers.Count(), Mass: g.Net, Until: g.Lot.Last(), Held: g.Held.String(), Taste: g.Taste.String(), AllHeld: g.Kept, Past: g.Past, Oldest: g.Oldest})
	}
	return r
}

// Only is the report of one place and its parts, with the findings about them; false when there is no such place.
func (r Report) Only(id record.Place) (Report, bool) {
	all := r
	r.Places, r.Findings = []PlaceReport{}, finding.List{}
	mine := map[string]bool{}
	for _, p := range all.Places {
		if up, ok := whole(p.ID); p.ID == id || ok && mine[where(up)] {
			mine[where(p.ID)] = true
			r.Places = append(r.Places, p)
		}
	}
	for _, f := range all.Findings {
		if mine[f.Where] {
			r.Findings = append(r.Findings, f)
		}
	}
	return r, len(r.Places) > 0
}
