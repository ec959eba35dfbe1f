package app

import (
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/learned"
	"kettlefrost/internal/record"
)

// LearnedSchema names the shape of what was learned; its number goes up when a reader of the old one could be misled.
const LearnedSchema = "kettlefrost.learned/1"

// LearnedReport is what the runs say of the figures of the book, for programs. Values are shares, kg/m²h, kg, s/kg, s or g, by the kind.
type LearnedReport struct {
	Schema   string             `json:"schema"`
	Kitchen  string             `json:"kitchen"`
	Findings finding.List       `json:"findings"`
	Runs     []string           `json:"runs"` // that were read
	Unread   []LearnedExcluded  `json:"unread"`
	Figures  []LearnedFigure    `json:"figures"`
	Rule     LearnedConventions `json:"rule"`
}

// LearnedConventions are the program's own.
type LearnedConventions struct {
	LeastRuns int     `json:"least_runs"`
	MostWorth int     `json:"most_worth_runs"`
	Cover     float64 `json:"cover"`
}

// LearnedFigure is one figure.
type LearnedFigure struct {
	Figure    string            `json:"figure"`
	Kind      learned.Kind      `json:"kind"`
	Dish      string            `json:"dish,omitempty"`
	Step      string            `json:"step,omitempty"`
	Part      string            `json:"part,omitempty"` // output, ingredient or pack
	Unit      string            `json:"unit"`
	State     learned.State     `json:"state"`
	WhyNot    string            `json:"why_not,omitempty"`
	Before    string            `json:"before,omitempty"` // as the book writes it
	After     string            `json:"after,omitempty"`
	Was       float64           `json:"was"`
	Is        float64           `json:"is"`
	Low       float64           `json:"low"` // where it truly is, with the chance in rule
	High      float64           `json:"high"`
	OfRuns    float64           `json:"of_runs"` // of the runs alone
	Worth     float64           `json:"worth"`   // of the book, in runs; of fills in packs weighed
	Weight    float64           `json:"weight"`  // of the runs
	Source    string            `json:"source,omitempty"`
	Counted   int               `json:"counted"`
	With      []string          `json:"or,omitempty"` // figures that the same weighings could mean
	Seen      []LearnedSeen     `json:"seen"`
	Asked     []LearnedAsked    `json:"asked"`
	Excluded  []LearnedExcluded `json:"excluded"`
	Decisions []LearnedDecision `json:"decisions"`
}

// LearnedSeen is what a run says.
type LearnedSeen struct {
	Run     string   `json:"run"`
	Day     string   `json:"day"`
	Value   float64  `json:"value"`
	Of      string   `json:"of"`
	Notes   []string `json:"notes,omitempty"`
	LeftOut string   `json:"left_out,omitempty"`
}

// LearnedAsked is a run that lies far off.
type LearnedAsked struct {
	Run     string   `json:"run"`
	Why     []string `json:"why"`
	Without float64  `json:"without"`
}

// LearnedExcluded is a run that says nothing, and why.
type LearnedExcluded struct {
	Run string `json:"run"`
	Why string `json:"why"`
}

// LearnedDecision is what somebody said of a figure before.
type LearnedDecision struct {
	Outcome record.LearnedWord `json:"outcome"`
	Before  string             `json:"before"`
	After   string             `json:"after"`
	Runs    []string           `json:"runs"`
	Who     string             `json:"who"`
	When    record.Instant     `json:"when_ms"`
}

// Report is the lessons for programs; of one dish, when it is named.
func (x Lessons) Report(dish string) LearnedReport {
	r := LearnedReport{Schema: LearnedSchema, Kitchen: x.Book.Kitchen.Name, Findings: append(finding.List{}, x.Found...), Runs: []string{}, Unread: excludedReport(x.Unread), Figures: []LearnedFigure{},
		Rule: LearnedConventions{learned.LeastRuns, learned.MostWorth, learned.Cover}}
	for _, m := range x.Runs {
		r.Runs = append(r.Runs, m.Run.Name)
	}
	for _, f := range x.Figures {
		if dish == "" || f.Dish == dish || f.Dish == "" {
			r.Figures = append(r.Figures, figureReport(f))
		}
	}
	return r
}

// One is the report of one figure.
func (x Lessons) One(key string) LearnedReport {
	r := x.Report("")
	r.Figures = slices.DeleteFunc(r.Figures, func(f LearnedFigure) bool { return f.Figure != key })
	return r
}

func excludedReport(all []learned.Excluded) []LearnedExcluded {
	out := []LearnedExcluded{}
	for _, e := range all {
		out = append(out, LearnedExcluded(e))
	}
	return out
}

func figureReport(f learned.Figure) LearnedFigure {
	low, high, _ := f.True()
	r := LearnedFigure{Figure: f.Key, Kind: f.Kind, Dish: f.Dish, Step: f.Step, Part: f.Part, Unit: f.Kind.Unit(), State: f.State, WhyNot: f.WhyNot, Before: f.Before, After: f.After, Was: f.Value, Is: f.Mean(), Low: low, High: high,
		OfRuns: f.OfRuns(), Worth: f.Worth(), Weight: f.Weight(), Source: f.Source, Counted: f.Counted(), With: f.With, Seen: []LearnedSeen{}, Asked: []LearnedAsked{}, Excluded: excludedReport(f.Excluded), Decisions: []LearnedDecision{}}
	for _, s := range f.Seen {
		r.Seen = append(r.Seen, LearnedSeen{s.Run, s.Day, s.Value, s.Of, s.Notes, s.LeftOut})
	}
	for _, a := range f.Asked {
		r.Asked = append(r.Asked, LearnedAsked{a.Run, a.Why, a.Without})
	}
	for _, s := range f.Said {
		r.Decisions = append(r.Decisions, LearnedDecision{s.Body.Outcome, s.Body.Before, s.Body.After, append([]string{}, s.Body.Runs...), s.Entry.Who, s.Entry.Happened})
	}
	return r
}
