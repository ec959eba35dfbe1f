package trials

import (
	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
)

// Schemas of the reports.
const (
	ListSchema   = "kettlefrost.trials/1"
	ReportSchema = "kettlefrost.trial/1"
)

// ListReport is how all trials stand.
type ListReport struct {
	Schema  string       `json:"schema"`
	Day     record.Day   `json:"day"`
	Trials  []ListRow    `json:"trials"`
	Misfits finding.List `json:"misfits,omitempty"` // entries of trials that nobody laid out
}

// ListRow is a trial in short.
type ListRow struct {
	Trial    string          `json:"trial"`
	Dish     string          `json:"dish"`
	Pack     string          `json:"pack,omitempty"`
	Asks     string          `json:"asks"`
	LaidMs   record.Instant  `json:"laid_ms"`
	Variants int             `json:"variants"`
	Frozen   record.Day      `json:"frozen,omitempty"` // from which weeks count; left out as long as a batch is missing
	Openings []OpeningReport `json:"openings"`
	Closed   bool            `json:"closed"`
	Adopted  string          `json:"adopted,omitempty"`
}

// OpeningReport is a week in which packs are opened.
type OpeningReport struct {
	Week     record.Week `json:"week"`
	Due      record.Day  `json:"due,omitempty"`
	Stands   Stands      `json:"stands"`
	Measured int         `json:"measured"`
	Packs    int         `json:"packs"`             // to be measured
	Waiting  []string    `json:"waiting,omitempty"` // tasters who have not tasted all
}

// Row is a trial in short, as it stands on a day.
func (t Trial) Row(today record.Day) ListRow {
	b := t.Laid.Body
	r := ListRow{Trial: t.Name, Dish: b.Dish, Pack: b.Pack, Asks: string(b.Asks), LaidMs: t.Laid.At, Variants: len(b.Variants), Frozen: t.Frozen(), Closed: t.Closed != nil, Openings: []OpeningReport{}}
	if t.Closed != nil {
		r.Adopted = t.Closed.Body.Adopted
	}
	for _, o := range t.Openings(today) {
		r.Openings = append(r.Openings, OpeningReport{o.Week, o.Due, o.Stands, o.Measured, o.Packs, o.Tasters})
	}
	return r
}

// Report is all that is known of a trial.
type Report struct {
	Schema string `json:"schema"`
	ListRow
	Why      string          `json:"why,omitempty"` // it was closed
	Level    float64         `json:"level"`         // of the intervals: all comparisons together, each trend alone
	Arms     []ArmReport     `json:"arms"`
	Tasters  []string        `json:"tasters"`
	Figures  []FigureReport  `json:"figures"`
	Supports []SupportReport `json:"supports"`
	Pictures []PictureReport `json:"pictures,omitempty"`
	Unknown  []string        `json:"unknown"` // what is not known yet
	Findings finding.List    `json:"findings,omitempty"`
}

// ArmReport is a variant and its batch.
type ArmReport struct {
	Variant string     `json:"variant"`
	Change  string     `json:"change"`
	Base    bool       `json:"base"`
	Frozen  record.Day `json:"frozen,omitempty"`
	MassG   float64    `json:"mass_g,omitempty"`
	Packs   int64      `json:"packs,omitempty"`
	EachG   float64    `json:"each_g,omitempty"`
	Lot     record.Lot `json:"lot,omitempty"`
}

// FigureReport is what can be told of a figure. Values of a share are parts of 1.
type FigureReport struct {
	Figure  string         `json:"figure"`
	Unit    string         `json:"unit"`
	Better  record.Better  `json:"better"`
	Matters float64        `json:"matters"`
	Bound   *float64       `json:"bound,omitempty"`
	Scored  bool           `json:"scored"`
	Values  []ValueReport  `json:"values"`
	Means   []MeanReport   `json:"means"`
	Trends  []TrendReport  `json:"trends"`
	Pairs   []PairReport   `json:"pairs"`
	Overall *OverallReport `json:"overall,omitempty"` // three variants or more, tested together
	Not     string         `json:"not_compared,omitempty"`
}

// ValueReport is one value.
type ValueReport struct {
	Variant string      `json:"variant"`
	Week    record.Week `json:"week"`
	Taster  string      `json:"taster,omitempty"`
	Pack    int64       `json:"pack,omitempty"`
	Value   float64     `json:"value"`
	Entry   string      `json:"entry"`
}

// MeanReport is a week of a variant.
type MeanReport struct {
	Variant string      `json:"variant"`
	Week    record.Week `json:"week"`
	Values  int         `json:"values"`
	Mean    float64     `json:"mean"`
	Line    *float64    `json:"line,omitempty"` // by the straight line, with its interval
	Low     *float64    `json:"low,omitempty"`
	High    *float64    `json:"high,omitempty"`
}

// TrendReport is the straight line through a variant.
type TrendReport struct {
	Variant  string  `json:"variant"`
	Values   int     `json:"values"`
	Slope    float64 `json:"slope_per_week"`
	Low      float64 `json:"low"`
	High     float64 `json:"high"`
	P        float64 `json:"p"`
	Straight float64 `json:"p_straight"` // how likely weeks lie as far off it, if it is straight
}

// PairReport is one variant against another.
type PairReport struct {
	Of       string  `json:"of"`
	Against  string  `json:"against"`
	Blocks   int     `json:"blocks"` // tasters, or pairs of packs
	Estimate float64 `json:"estimate"`
	Low      float64 `json:"low"`
	High     float64 `json:"high"`
	Level    float64 `json:"level"` // that the interval attains
	P        float64 `json:"p"`
	PAmong   float64 `json:"p_adjusted"` // for all that is compared in the trial (Holm, Bonferroni)
	Ranks    bool    `json:"by_ranks"`
	Verdict  string  `json:"verdict"`
	Text     string  `json:"text"`
}

// OverallReport is Friedman's test.
type OverallReport struct {
	Blocks    int     `json:"blocks"`
	ChiSquare float64 `json:"chi_square"`
	P         float64 `json:"p"` // by permutations
	W         float64 `json:"w"`
}

// SupportReport is for how long a variant has kept.
type SupportReport struct {
	Variant string      `json:"variant"`
	Known   bool        `json:"known"`
	Weeks   float64     `json:"weeks"`
	Ending  string      `json:"ending,omitempty"`
	By      string      `json:"by,omitempty"`
	Last    record.Week `json:"last_opened"`
	Why     string      `json:"why"`
}

// PictureReport is a picture, by its hash.
type PictureReport struct {
	Hash    string       `json:"hash"`
	Type    string       `json:"type"`
	Bytes   int64        `json:"bytes"`
	Variant string       `json:"variant,omitempty"`
	Week    *record.Week `json:"week,omitempty"`
	Caption string       `json:"caption,omitempty"`
}
