package formula

import (
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/storagelife"
	"kettlefrost/internal/unit"
)

// Names of the shapes in which programs get what is here.
const (
	ReportSchema = "kettlefrost.formula/1"
	ListSchema   = "kettlefrost.formulas/1"
)

// Asked is what is to be worked out of a subject.
type Asked struct {
	Subject
	Want      Want
	Store     *float64 // °C; nil: as cold as the kitchen's warmest freezer
	Excursion *storagelife.Stay
}

// Report is all that is to be said of a dish's formula, for pages, text and programs.
type Report struct {
	Schema string `json:"schema"`
	Subject
	Name      string           `json:"name"`
	Written   unit.Mass        `json:"written_g"` // what the dish gives of it as it is written
	PH        float64          `json:"ph"`        // 0: not measured
	Front     FrontShown       `json:"front"`
	Asks      []Ask            `json:"asks"`
	Parts     []PartShown      `json:"parts"`
	Review    ReviewShown      `json:"review"`
	Doses     DosesShown       `json:"doses"`
	Predicted *PredictionShown `json:"predicted,omitempty"`
	Problems  []string         `json:"problems"` // what could not be worked out, and why
}

// FrontShown is how fast a pack freezes.
type FrontShown struct {
	Known     bool        `json:"known"`
	Usual     float64     `json:"usual_mm_h"`
	Slow      float64     `json:"slow_mm_h"`
	Fast      float64     `json:"fast_mm_h"`
	Freezer   string      `json:"freezer"`
	Lies      string      `json:"lies"`
	Thickness unit.Length `json:"thickness_mm"`
	Time      unit.Span   `json:"time_s"`
}

// PartShown is one ingredient of the pot; shares are of what is left of it.
type PartShown struct {
	Ingredient kitchen.IngredientID `json:"ingredient"`
	Name       string               `json:"name"`
	Steps      []string             `json:"steps"`
	PutIn      unit.Mass            `json:"put_in_g"`
	Left       unit.Mass            `json:"left_g"`
	Share      float64              `json:"share"` // of the pot
	Role       string               `json:"role"`
	Guessed    string               `json:"guessed,omitempty"` // what the role was guessed from
	Done       []string             `json:"done"`              // what was done to it, in words
	Water      float64              `json:"water"`
	Fat        float64              `json:"fat"`
	Protein    float64              `json:"protein"`
	Sugars     float64              `json:"sugars"`
	Starch     float64              `json:"starch"`
	SodiumMg   float64              `json:"sodium_mg"` // in all of it
}

// ReviewShown is a review.
type ReviewShown struct {
	Worst    string         `json:"worst"`
	Grade    int            `json:"grade"`         // 0 good to 3 leave out
	Slow     string         `json:"worst_if_slow"` // if it freezes as slowly as the doubt allows
	Findings []FindingShown `json:"findings"`      // the worst first
	Passed   []PassedShown  `json:"passed"`        // what the tables warn of and this pot need not
	Holds    []string       `json:"held_together_by"`
	Weeps    float64        `json:"weep_score"` // 0 to 1, an order and no measurement
	Assumed  []string       `json:"assumed"`
	Unknown  []string       `json:"unknown"`
}

// FindingShown is one thing that goes wrong.
type FindingShown struct {
	Code      string           `json:"code"`
	About     []string         `json:"components"`
	Severity  string           `json:"severity"`
	Grade     int              `json:"grade"`
	ByItself  string           `json:"by_itself"`
	Mechanism string           `json:"mechanism"`
	Because   string           `json:"because,omitempty"`
	Figures   []finding.Figure `json:"figures"`
	Source    string           `json:"source"`
	Confirm   string           `json:"confirm,omitempty"`
	Remedies  []RemedyShown    `json:"remedies"`
}

// RemedyShown is what would help, with its dose in the mass that is asked for.
type RemedyShown struct {
	ID         string    `json:"id"`
	Do         string    `json:"do"`
	Low        float64   `json:"low"` // shares of the basis; both 0 where there is no dose
	High       float64   `json:"high"`
	Basis      string    `json:"basis,omitempty"`
	LowG       unit.Mass `json:"low_g"` // to be added to what is in it
	HighG      unit.Mass `json:"high_g"`
	Source     string    `json:"source"`
	Confirm    string    `json:"confirm,omitempty"`
	After      string    `json:"after,omitempty"` // what is left of the finding then; empty where that could not be tried
	AfterGrade int       `json:"after_grade"`     // 0 good to 3 leave out
}

// PassedShown is a risk that does not count here.
type PassedShown struct {
	Code     string   `json:"code"`
	About    []string `json:"components"`
	ByItself string   `json:"by_itself"`
	Why      string   `json:"why"`
}

// DosesShown are the doses of a mass of finished food.
type DosesShown struct {
	Mass      unit.Mass   `json:"mass_g"`
	Sauce     unit.Mass   `json:"sauce_g"` // without what is in pieces
	Use       string      `json:"use"`
	Thickness string      `json:"thickness"`
	Series    string      `json:"series"`
	Taste     string      `json:"taste"`
	Lines     []LineShown `json:"lines"`
}

// LineShown is one thing that is dosed.
type LineShown struct {
	Key       string               `json:"key"`
	Substance string               `json:"substance"`
	In        string               `json:"in_the_dish,omitempty"`
	Powder    kitchen.IngredientID `json:"ingredient,omitempty"` // the one in the dish, or else the first of the book that is one
	Doses     []DoseShown          `json:"doses"`
	Now       AmountShown          `json:"now"`
	Target    AmountShown          `json:"target"`
	Own       *AmountShown         `json:"own,omitempty"`
	OwnSays   string               `json:"own_says,omitempty"` // what was taken for what was not said of it
	Verdict   string               `json:"verdict"`
	Good      bool                 `json:"good"` // nothing is to be said against what the dish has
	Says      string               `json:"says,omitempty"`
	Found     finding.List         `json:"found"`
}

// DoseShown is a range by one custom.
type DoseShown struct {
	Basis   string     `json:"basis"`
	Base    unit.Mass  `json:"base_g"`
	Low     unit.Share `json:"low"`
	Target  unit.Share `json:"target"`
	High    unit.Share `json:"high"`
	LowG    unit.Mass  `json:"low_g"`
	TargetG unit.Mass  `json:"target_g"`
	HighG   unit.Mass  `json:"high_g"`
	MostG   unit.Mass  `json:"most_g"` // 0: no number is known
	MostIs  string     `json:"most_is,omitempty"`
	Source  string     `json:"source"`
	Confirm string     `json:"confirm,omitempty"`
}

// AmountShown is a mass and how the kitchen's scale shows it.
type AmountShown struct {
	Mass    unit.Mass     `json:"mass_g"`
	Share   float64       `json:"share"`
	Weighed *WeighedShown `json:"weighed,omitempty"`
}

// WeighedShown is a weighing.
type WeighedShown struct {
	Step   unit.Mass   `json:"step_g"`
	Show   unit.Mass   `json:"show_g"`
	Error  float64     `json:"error"` // of what is shown against what is wanted: -0.09 is 9 % low
	Doubt  *float64    `json:"doubt"` // what half a step is of it; null where the scale shows nothing
	Parts  int         `json:"weighings"`
	Within bool        `json:"within"` // 2 %
	Finer  unit.Mass   `json:"finer_g"`
	Stock  *StockShown `json:"stock,omitempty"`
}

// StockShown is a solution or dry mix that is weighed in place of the substance.
type StockShown struct {
	Share unit.Share `json:"share"`
	Make  unit.Mass  `json:"make_g"`
	Holds unit.Mass  `json:"holds_g"`
	Take  unit.Mass  `json:"take_g"`
	Error float64    `json:"error"`
}

// PredictionShown is what becomes of it in the freezer.
type PredictionShown struct {
	StoreC       float64        `json:"store_c"`
	Where        string         `json:"where,omitempty"`
	Assumed      bool           `json:"store_assumed"`
	WarmestC     float64        `json:"freezes_at_c"`
	ColdestC     float64        `json:"freezes_at_least_c"` // not below this, as far as what is known goes
	Lowers       []LowersShown  `json:"lowered_by"`
	LeftOut      string         `json:"left_out"`
	Liquid       float64        `json:"liquid_of_water"`
	LiquidMost   float64        `json:"liquid_of_water_most"`
	Ice          float64        `json:"ice_of_food"`
	Concentrated float64        `json:"concentrated"`
	Salt         float64        `json:"salt_of_food"`
	Brine        float64        `json:"salt_of_brine"`
	Guide        bool           `json:"a_guide"` // so cold that the law is a guide to the order of things
	Life         LifeShown      `json:"life"`
	Excursion    *ExcursionCost `json:"excursion,omitempty"`
}

// LowersShown is what one solute does.
type LowersShown struct {
	Name string  `json:"name"`
	K    float64 `json:"k"`
}

// LifeShown is how long quality lasts, days.
type LifeShown struct {
	Low    float64 `json:"low_days"` // at -18 °C
	High   float64 `json:"high_days"`
	Source string  `json:"source"`
	Own    bool    `json:"own"` // the book says it of this pack
	Least  float64 `json:"least_days_here"`
	From   float64 `json:"from_days_here"`
	To     float64 `json:"to_days_here"`
	Most   float64 `json:"most_days_here"`
	Q10    float64 `json:"q10"`
	Q10Low float64 `json:"q10_low"`
	Q10Hi  float64 `json:"q10_high"`
}

// ExcursionCost is what a time in warmth costs.
type ExcursionCost struct {
	TempC   float64 `json:"temp_c"`
	Hours   float64 `json:"hours"`
	Days    float64 `json:"days_at_18"` // it ages the food as so many days at -18 °C
	Low     float64 `json:"low"`
	High    float64 `json:"high"`
	Lost    float64 `json:"lost_days"` // more than in the freezer
	Share   float64 `json:"share_of_life"`
	TooWarm bool    `json:"too_warm"` // above -5 °C nothing can be reckoned: packs must be looked at
}
