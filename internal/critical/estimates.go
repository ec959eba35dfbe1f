package critical

import (
	"slices"

	"kettlefrost/internal/coollog"
	"kettlefrost/internal/growth"
	"kettlefrost/internal/haccp"
	"kettlefrost/internal/lethality"
)

// Growth is how far Clostridium perfringens may have grown while a load cooled: an estimate that releases nothing.
type Growth struct {
	Where  string          `json:"where,omitempty"` // the point in the food with the most
	Least  float64         `json:"least_log10"`
	Most   float64         `json:"most_log10"`
	Each   []GrowthProduct `json:"each"`
	Source string          `json:"source"`
	Doubts string          `json:"doubts"`
	Note   string          `json:"note"`
}

// GrowthProduct is what the model says of one product.
type GrowthProduct struct {
	Product string  `json:"product"`
	Log10   float64 `json:"log10"`
}

// growthNote stands beside every figure of growth.
const growthNote = "an estimate, which releases nothing: limits for cooling are judged by the rules above"

// grows estimates growth at the point where there is most. Doubtful readings count.
func (c *cooled) grows(v *Verdict) {
	for _, l := range c.series(true) {
		var readings []growth.Reading
		for _, r := range l.Readings {
			readings = append(readings, growth.Reading(r))
		}
		g, err := growth.Cooling(readings)
		if err != nil || len(readings) < 2 || v.Growth != nil && v.Growth.Most >= g.Most {
			continue
		}
		v.Growth = &Growth{Where: l.Point, Least: g.Least, Most: g.Most, Source: g.Source, Doubts: g.Doubts, Note: growthNote}
		for _, p := range g.Each {
			v.Growth.Each = append(v.Growth.Each, GrowthProduct{p.Product, p.Total})
		}
	}
}

// Lethality is what heat did at the coldest point of a load.
type Lethality struct {
	Where   string   `json:"where,omitempty"`
	Tables  []Table  `json:"tables"`  // of the classes of product that the dish has, each by its own
	Targets []Target `json:"targets"` // accumulated, beside the tables
	Without []string `json:"without,omitempty"`
	Assumes []string `json:"assumes"`
}

// Table is how a heating stands against a published table.
type Table struct {
	Class     string   `json:"class"`
	Met       bool     `json:"met"`
	RowF      float64  `json:"row_f"` // met first, or nearest
	HoldS     float64  `json:"hold_s"`
	HeldS     float64  `json:"held_s"`
	Fractions float64  `json:"fractions"` // adds up shares of rows: it supports, and does not decide
	Source    string   `json:"source"`
	Assumes   []string `json:"assumes"`
}

// Target is how a heating stands against an accumulated lethality.
type Target struct {
	Name    string  `json:"name"`
	RefC    float64 `json:"ref_c"`
	NeedS   float64 `json:"need_s"`
	SafeS   float64 `json:"safe_s"` // each interval at its colder end: this decides
	ExactS  float64 `json:"exact_s"`
	Log10   float64 `json:"log10"`
	Reached bool    `json:"reached"`
	Source  string  `json:"source"`
	Confirm string  `json:"confirm,omitempty"`
}

// tablesFor are the published tables for a class. Meat and poultry have tables of their own, and one is never used for the other. Of poultry
// nobody has said whether it is chicken or turkey: both are shown.
func tablesFor(c haccp.Class) []lethality.Class {
	switch c {
	case haccp.IntactMeat, haccp.GroundMeat:
		return []lethality.Class{lethality.MeatRoast}
	case haccp.Poultry:
		return []lethality.Class{lethality.Chicken, lethality.Turkey}
	}
	return nil
}

// killed is what heat did by the readings of the point that is coldest: where the first target came to least.
func killed(logs []coollog.Log, classes []haccp.Class) *Lethality {
	var worst *Lethality
	for _, l := range logs {
		var readings []lethality.Reading
		for _, r := range l.Readings {
			readings = append(readings, lethality.Reading(r))
		}
		x := lethalityOf(readings, classes)
		if x != nil && (worst == nil || x.Targets[0].SafeS < worst.Targets[0].SafeS) {
			x.Where = l.Point
			worst = x
		}
	}
	return worst
}

// lethalityOf is nil where there are too few readings to add up.
func lethalityOf(readings []lethality.Reading, classes []haccp.Class) *Lethality {
	x := &Lethality{Tables: []Table{}}
	for _, t := range []lethality.Target{lethality.Listeria, lethality.ColdBotulinum} {
		a, err := lethality.Accumulate(t, readings)
		if err != nil {
			return nil
		}
		x.Targets = append(x.Targets, Target{Name: t.Name, RefC: t.RefC, NeedS: t.NeedS, SafeS: a.SafeS, ExactS: a.ExactS, Log10: a.Logs, Reached: a.Reached, Source: t.Source, Confirm: t.Confirm})
		for _, s := range a.Assumes {
			if !slices.Contains(x.Assumes, s) {
				x.Assumes = append(x.Assumes, s)
			}
		}
	}
	seen := map[lethality.Class]bool{}
	for _, c := range classes {
		for _, class := range tablesFor(c) {
			t, ok := lethality.TableOf(class)
			if h, err := lethality.Hold(t, readings); ok && err == nil && !seen[class] {
				seen[class] = true
				x.Tables = append(x.Tables, Table{Class: string(class), Met: h.Met, RowF: h.Row.TempF, HoldS: h.Row.HoldS, HeldS: h.HeldS, Fractions: h.Fractions, Source: t.Source, Assumes: h.Assumes})
			}
		}
		if c.Animal() && len(tablesFor(c)) == 0 {
			x.Without = append(x.Without, string(c))
		}
	}
	return x
}
