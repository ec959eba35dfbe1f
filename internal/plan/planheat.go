package plan

import (
	"kettlefrost/internal/reheating"
	"kettlefrost/internal/unit"
)

// Chill is how one hot output is cooled.
type Chill struct {
	Dish    string        `json:"dish"`
	Output  string        `json:"output"`
	Name    string        `json:"name"`
	Mass    unit.Mass     `json:"mass_g"`
	From    unit.Temp     `json:"from_c"`
	Options []ChillOption `json:"options"` // as the book lists them
	Chosen  int           `json:"chosen"`  // index into Options, -1 when none is safe
	Rule    string        `json:"rule"`
	Source  string        `json:"source"`
}

// ChillOption is one way to do it, with the time that the hottest point takes.
type ChillOption struct {
	ID      string       `json:"id"`
	Name    string       `json:"name"`
	Stages  []ChillStage `json:"stages"`             // one after another; one when it is simple
	To70    *unit.Span   `json:"to_70f_s,omitempty"` // from 135 °F; nil when never
	To41    *unit.Span   `json:"to_41f_s,omitempty"` // from 135 °F; nil when never
	Slow70  *unit.Span   `json:"slow_70f_s,omitempty"`
	Slow41  *unit.Span   `json:"slow_41f_s,omitempty"` // the same at the lowest surface coefficient
	Fast70  *unit.Span   `json:"fast_70f_s,omitempty"`
	Fast41  *unit.Span   `json:"fast_41f_s,omitempty"` // and at the highest
	Verdict ChillVerdict `json:"verdict"`
	Ice     unit.Mass    `json:"ice_g"` // to have ready: at the surface coefficient that takes most
	HandsOn unit.Span    `json:"hands_on_s"`
	Space   unit.Area    `json:"space_m2"` // that its pots or pans take, side by side
	PeakKW  float64      `json:"peak_kw"`  // heat that leaves one load at most
	Why     string       `json:"why"`
	Notes   []string     `json:"notes"`     // what to look at
	Fits    []string     `json:"would_fit"` // what would make it fit, each by itself
	Curve   Curve        `json:"curve"`     // of one load
}

// ChillStage is one stage of a way, for one load.
type ChillStage struct {
	Name    string    `json:"name"`
	Vessels int       `json:"vessels"` // pots or pans needed
	Have    int       `json:"have"`    // that the kitchen has
	Time    unit.Span `json:"time_s"`
	End     unit.Temp `json:"end_c"` // hottest point
	Ice     unit.Mass `json:"ice_g"`
	Formula string    `json:"formula"`
}

// ChillVerdict is what the prediction says. A thermometer in the food decides.
type ChillVerdict string

const (
	ChillRoomy   ChillVerdict = "within the limits, as predicted" // even at the lowest surface coefficient
	ChillTight   ChillVerdict = "within the limits, but tight"    // as usual, not at the lowest
	ChillSlow    ChillVerdict = "too slow"
	ChillNever   ChillVerdict = "never gets there"
	ChillNoRoom  ChillVerdict = "not enough of them"
	ChillUnknown ChillVerdict = "cannot be computed"
)

// InTime says that the limits are met at the usual surface coefficient.
func (v ChillVerdict) InTime() bool { return v == ChillRoomy || v == ChillTight }

// Freeze is what the freezers have to do.
type Freeze struct {
	Packs    []PackFreeze    `json:"packs"`
	Freezers []FreezerIntake `json:"freezers"`
	Schedule FreezeSchedule  `json:"schedule"`
	Load     unit.Mass       `json:"load_g"`     // of this run
	PerDay   unit.Mass       `json:"per_day_g"`  // that all freezers take, by heat alone
	RuleLow  unit.Mass       `json:"rule_low_g"` // by the household rule
	RuleHigh unit.Mass       `json:"rule_high_g"`
	Room     unit.Mass       `json:"room_g"` // left for storing
	Source   string          `json:"source"`
}

// PackFreeze is the freezing time of one pack by itself in one freezer, as packs lie there, in air that stays cold.
type PackFreeze struct {
	Pack      string      `json:"pack"`
	Name      string      `json:"name"`
	Freezer   string      `json:"freezer"`
	Lies      string      `json:"lies"` // apart, on a plate, stacked 4 high
	Thickness unit.Length `json:"thickness_mm"`
	From      unit.Temp   `json:"from_c"`
	To        unit.Temp   `json:"to_c"`   // core
	Time      unit.Span   `json:"time_s"` // simulated
	Slow      unit.Span   `json:"slow_s"` // at the lowest surface coefficient
	Fast      unit.Span   `json:"fast_s"` // and at the highest
	Pham      unit.Span   `json:"pham_s"` // handbook formulas, beside it; 0 where one does not know the case
	Plank     unit.Span   `json:"plank_s"`
	Otherwise []Lying     `json:"otherwise"` // how long it would take lying in other ways
	Begins    unit.Temp   `json:"freezing_point_c"`
	Curve     Curve       `json:"curve"`
}

// Lying is a time for packs that lie in another way.
type Lying struct {
	Lies string    `json:"lies"`
	Time unit.Span `json:"time_s"`
}

// FreezerIntake is what one kind of freezer takes in a day.
type FreezerIntake struct {
	ID       string    `json:"id"`
	Name     string    `json:"name"`
	ByHeat   unit.Mass `json:"by_heat_g"`
	RuleLow  unit.Mass `json:"rule_low_g"`
	RuleHigh unit.Mass `json:"rule_high_g"`
	Room     unit.Mass `json:"room_g"`
	// Alone is how many packs of one kind alone one such freezer takes in a day, as simulated: all cores frozen within 24 h and the old stock
	// below its limit.
	Alone []PackCount `json:"alone"`
}

// PackCount is so many packs of one kind.
type PackCount struct {
	Pack  string `json:"pack"`
	Name  string `json:"name"`
	Count int    `json:"count"`
}

// FreezeSchedule is which packs go into which freezer when, each freezer simulated with all that goes in and its old stock.
type FreezeSchedule struct {
	Entries  []FreezeEntry `json:"entries"` // by day, then freezer
	Cabinets []CabinetDay  `json:"cabinets"`
	Days     int           `json:"days"` // loadings, one a day
	Left     int           `json:"left"` // packs that find no place
	LeftMass unit.Mass     `json:"left_g"`
	Last     unit.Span     `json:"last_s"`    // from the first loading until the last core is there
	Remedies []string      `json:"would_fit"` // what would place the rest, each by itself, computed
}

// FreezeEntry is packs of one kind going into one freezer on one day.
type FreezeEntry struct {
	Day     int       `json:"day"` // from 1
	Freezer string    `json:"freezer"`
	Pack    string    `json:"pack"`
	Name    string    `json:"name"`
	Count   int       `json:"count"`
	Takes   unit.Span `json:"takes_s"` // until their cores are frozen
}

// CabinetDay is how a freezer fares with its loads.
type CabinetDay struct {
	Freezer   string    `json:"freezer"`
	AirPeak   unit.Temp `json:"air_peak_c"`
	StockPeak unit.Temp `json:"stock_peak_c"` // warmest point of the old stock
	FullPower unit.Span `json:"full_power_s"`
	Curve     Curve     `json:"curve"` // from the first loading: the warmest point of the old stock, the air, and where there is no old stock the air alone
}

// Card is the heating card of one pack, and what its figures rest on.
type Card struct {
	Pack      string         `json:"pack"`
	Name      string         `json:"name"`
	Net       unit.Mass      `json:"net_g"`
	Bag       string         `json:"bag"`
	Thickness unit.Length    `json:"thickness_mm"`
	Thinnest  unit.Length    `json:"thinnest_mm"`
	Thickest  unit.Length    `json:"thickest_mm"`
	Water     unit.Temp      `json:"water_c"` // simmering, as high as the customers live
	Frozen    CardTime       `json:"from_frozen"`
	Thawed    CardTime       `json:"from_thawed"`
	Measured  []MeasuredTime `json:"measured"` // of ways that are never computed
	Lines     []CardLine     `json:"lines"`
	Missing   []string       `json:"missing,omitempty"` // what must be answered before the card may be printed

	Said []reheating.Line `json:"-"` // the same lines, to be said in other languages
}

// CardTime is the time from one state.
type CardTime struct {
	Verdict string    `json:"verdict"`           // done-well, uneven, too-thick, water-dips or never-hot
	Minutes int       `json:"minutes,omitempty"` // to print; none unless it is done well
	Worst   unit.Span `json:"worst_s"`           // thickest bag, least heat from the water, without margin; 0 when never
	Nominal unit.Span `json:"nominal_s"`
	Curve   Curve     `json:"curve"`
}

// MeasuredTime is what a pack's own trials say of one way of heating it.
type MeasuredTime struct {
	Method  string   `json:"method"`            // microwave, oven or simmering water
	Minutes int      `json:"minutes,omitempty"` // to print; none while something lacks
	Runs    int      `json:"runs"`              // that count
	Lacks   []string `json:"lacks"`
}

// CardLine is one sentence of a card.
type CardLine struct {
	Code    string `json:"code"`
	Section string `json:"section"` // steps, check, caution; kitchen is for those who make the card
	Text    string `json:"text"`    // in the kitchen's units
}

// Curve is a predicted course of temperature, to be drawn: the core, and where it is with the worst and the best surface coefficient.
type Curve []CurvePoint

// CurvePoint is one moment of a curve. What is not known is nil.
type CurvePoint struct {
	Time    unit.Span  `json:"time_s"`
	Core    unit.Temp  `json:"core_c"`
	Slow    *unit.Temp `json:"slow_c,omitempty"` // of the core, at the lowest surface coefficient
	Fast    *unit.Temp `json:"fast_c,omitempty"`
	Surface *unit.Temp `json:"surface_c,omitempty"`
	Medium  *unit.Temp `json:"medium_c,omitempty"`
}
