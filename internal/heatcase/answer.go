package heatcase

import (
	"kettlefrost/internal/finding"
	"kettlefrost/internal/unit"
)

// Schema is the name of an Answer as JSON.
const Schema = "kettlefrost.heat/1"

// Answer is what is computed for a case. Figures are SI with the unit at the end of their JSON name, times count from the start.
type Answer struct {
	Schema   string            `json:"schema"`
	Process  Process           `json:"process"`
	Question string            `json:"question"` // in one line of words
	Case     map[string]string `json:"case"`     // as asked, defaults filled in; each can be given to Set
	Units    unit.System       `json:"units"`
	Findings finding.List      `json:"findings"` // gravest first
	FromC    float64           `json:"from_c"`
	ToC      float64           `json:"to_c"`
	Time     Band              `json:"time"`  // until the core is at ToC
	Marks    []Mark            `json:"marks"` // what the core passes on the way, in that order, and ToC
	Verdict  *Verdict          `json:"verdict,omitempty"`
	By       string            `json:"by"` // how it was computed, in words
	Methods  []Method          `json:"methods"`
	Heat     Heat              `json:"heat"`
	Food     FoodUsed          `json:"food"`
	Sides    []SideUsed        `json:"sides"`
	Runs     []Run             `json:"runs"` // with the usual, the low and the high surface coefficients
	Sources  []string          `json:"sources"`
}

// Reach is when something is reached, or how long it was followed in vain.
type Reach struct {
	Reached bool    `json:"reached"`
	TimeS   float64 `json:"time_s"`
}

// Band is a time with the low, usual and high surface coefficients.
type Band struct {
	Slow  Reach `json:"slow"`
	Usual Reach `json:"usual"`
	Fast  Reach `json:"fast"`
}

// Mark is a temperature that the core passes.
type Mark struct {
	Name  string  `json:"name"` // what it means, without the temperature; may be empty
	TempC float64 `json:"temp_c"`
	Band
}

// Verdict holds a cooling against a published limit.
type Verdict struct {
	Rule   string      `json:"rule"`
	Source string      `json:"source"`
	Words  string      `json:"words"` // the whole of it
	Slow   string      `json:"slow"`  // at each film, as package coolrule says it
	Usual  string      `json:"usual"`
	Fast   string      `json:"fast"`
	Stages []StageTime `json:"stages"`
}

// StageTime is one stage of a limit and how long it takes. Not reached is longer than the time that stands there.
type StageTime struct {
	Name   string  `json:"name"`
	FromC  float64 `json:"from_c"`
	ToC    float64 `json:"to_c"`
	LimitS float64 `json:"limit_s"` // since the core passes FromC, or since the start when that is colder
	Band
}

// Method is a handbook formula for the same question at the usual film, or why it does not apply.
type Method struct {
	Name    string  `json:"name"`
	Applies bool    `json:"applies"`
	TimeS   float64 `json:"time_s,omitempty"`
	OffPct  float64 `json:"off_pct,omitempty"` // against the simulation: negative is sooner
	Note    string  `json:"note"`              // what to know of it, or why it does not apply
	Source  string  `json:"source"`
}

// Heat is what leaves the food on its way throughout from FromC to ToC; negative is what goes in.
type Heat struct {
	KJKg    float64 `json:"kj_per_kg"`
	PieceKg float64 `json:"piece_kg,omitempty"` // of one piece, when its mass is known
	PieceKJ float64 `json:"piece_kj,omitempty"`
	MeanW   float64 `json:"mean_w,omitempty"` // of one piece, over the usual time
	IceKg   float64 `json:"ice_kg,omitempty"` // that one piece melts in an ice bath, losses to the room not counted
}

// FoodUsed is the food as it was computed.
type FoodUsed struct {
	Name                    string    `json:"name"`
	Source                  string    `json:"source"`
	Composition             Fractions `json:"composition"`
	DensityKgM3             float64   `json:"density_kg_m3"`
	UnfrozenHeatKJKgK       float64   `json:"unfrozen_heat_kj_kg_k"`
	FrozenHeatKJKgK         float64   `json:"frozen_heat_kj_kg_k"` // sensible
	FreezableKJKg           float64   `json:"freezable_kj_kg"`
	UnfrozenConductivityWMK float64   `json:"unfrozen_conductivity_w_m_k"`
	FrozenConductivityWMK   float64   `json:"frozen_conductivity_w_m_k"`
	FreezesAtC              float64   `json:"freezes_at_c"`
	FreezesAtFrom           string    `json:"freezes_at_from"`
	FreezesAtAssumed        bool      `json:"freezes_at_assumed"`
	IceShare                float64   `json:"ice_share"` // by mass, at the colder of FromC and ToC
	ValidFromC              float64   `json:"valid_from_c"`
	ValidToC                float64   `json:"valid_to_c"`
}

// Fractions is parts of the whole by weight, adding up to 1.
type Fractions struct {
	Water   float64 `json:"water"`
	Protein float64 `json:"protein"`
	Fat     float64 `json:"fat"`
	Carb    float64 `json:"carbohydrate_without_fibre"`
	Fibre   float64 `json:"fibre"`
	Ash     float64 `json:"ash"`
	Alcohol float64 `json:"alcohol"`
}

// SideUsed is what one side of the food meets, its package included in the film.
type SideUsed struct {
	Name   string  `json:"name"` // all round, below, above
	Medium string  `json:"medium"`
	Words  string  `json:"words"`
	TempC  float64 `json:"temp_c"`
	LowW   float64 `json:"low_film_w_m2_k"`
	UsualW float64 `json:"usual_film_w_m2_k"`
	HighW  float64 `json:"high_film_w_m2_k"`
	Given  bool    `json:"given"` // the film is the cook's own, 30 % either way
	Note   string  `json:"note,omitempty"`
	Source string  `json:"source"`
}

// Run is the computation with one of the three films.
type Run struct {
	Film     string         `json:"film"` // usual, low, high
	Reached  bool           `json:"reached"`
	TimeS    float64        `json:"time_s"`
	EndCoreC float64        `json:"end_core_c"`
	Closure  float64        `json:"energy_closure"` // what of the energy is unaccounted for, as a part of it
	Cells    int            `json:"cells,omitempty"`
	Steps    int            `json:"steps,omitempty"`
	Curve    []CurvePoint   `json:"curve"`
	Profiles []ProfileTimes `json:"profiles,omitempty"` // at the start, at each mark and at the end, along the upright or only axis
}

// CurvePoint is one moment.
type CurvePoint struct {
	TimeS    float64 `json:"time_s"`
	CoreC    float64 `json:"core_c"`
	SurfaceC float64 `json:"surface_c"`
	MeanC    float64 `json:"mean_c"`
	MediumC  float64 `json:"medium_c"`
}

// ProfileTimes is the temperatures from bottom to top through the core at one time.
type ProfileTimes struct {
	TimeS  float64   `json:"time_s"`
	Places []PlaceAt `json:"places"`
}

// PlaceAt is one temperature.
type PlaceAt struct {
	DepthMm float64 `json:"depth_mm"` // above the lower face
	TempC   float64 `json:"temp_c"`
}

// Of is the computation with one film: usual, low or high. The zero Run if there is none.
func (a Answer) Of(film string) Run {
	for _, r := range a.Runs {
		if r.Film == film {
			return r
		}
	}
	return Run{}
}
