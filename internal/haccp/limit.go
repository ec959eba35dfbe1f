package haccp

import (
	"math"

	"kettlefrost/internal/foodcode"
	"kettlefrost/internal/unit"
)

// Limit is a critical limit, with where it comes from. All of its figures must be met.
type Limit struct {
	Rule    string   `json:"rule,omitempty"` // of package foodcode, or of coolrule for a cooling; "" for what no rule of theirs says
	Text    string   `json:"text"`
	Figures []Figure `json:"figures,omitempty"` // none where nothing is measured
	Source  string   `json:"source"`
	Confirm string   `json:"confirm,omitempty"` // what of it was not read in a published text: then it stops nothing until the authority confirms it
	Reason  string   `json:"reason,omitempty"`  // why this kitchen's differs from what is published
	Laxer   bool     `json:"laxer,omitempty"`   // than published, or than drafted
	Was     string   `json:"was,omitempty"`     // as drafted, where a person changed it
}

// Figure is one temperature of a limit with its time.
type Figure struct {
	Words   string         `json:"words"`   // "135 to 70 °F within 2 h"
	Sense   foodcode.Sense `json:"sense"`   // at-least: as hot, for so long; at-most: as cold, within the time
	TempC   float64        `json:"temp_c"`  // all parts of the food
	Seconds float64        `json:"seconds"` // 0: at once, or at all times where it is at-most
}

// Gate says whether something may be stopped by this limit: nothing of it is from memory.
func (l Limit) Gate() bool { return l.Confirm == "" }

// Hot is how hot and how long, for a limit of cooking.
func (l Limit) Hot() (tempC, holdS float64, ok bool) {
	if len(l.Figures) != 1 || l.Figures[0].Sense != foodcode.AtLeast {
		return 0, 0, false
	}
	return l.Figures[0].TempC, l.Figures[0].Seconds, true
}

func f(tempF float64) float64 { return unit.TempF(tempF).C() }

// cookedBy is the rule by which each class must be heated, all parts of it. FDA Food Code 3-401.11, in the texts of states that adopted it.
var cookedBy = map[Class]string{
	Fish:       "fda-3-401.11-a-1",
	IntactMeat: "fda-3-401.11-a-1",
	GroundMeat: "fda-3-401.11-a-2",
	Eggs:       "fda-3-401.11-a-2", // pooled eggs
	Poultry:    "fda-3-401.11-a-3",
}

// beansBoiled undoes what raw beans have. It is no rule of a code.
var beansBoiled = Limit{Text: "a rolling boil for 30 min, after soaking for 5 h, the water thrown away",
	Figures: []Figure{{"boiling for 30 min", foodcode.AtLeast, 99, 30 * 60}},
	Source:  "FDA, phytohaemagglutinin in beans", Confirm: "the time and the soaking"}

// cooking is how far a class must be heated, as the kitchen holds the rule; false for what need not be.
func (p Product) cooking(c Class) (Limit, bool) {
	if c == Beans {
		return beansBoiled, true
	}
	id, ok := cookedBy[c]
	if !ok {
		return Limit{}, false
	}
	return p.limit(id), true
}

// limit is a rule of the food code as a limit: as the kitchen holds it, or as published.
func (p Product) limit(id string) Limit {
	h := foodcode.Held{}
	h.Rule, _ = foodcode.Find(id)
	for _, held := range p.Rules {
		if held.ID == id {
			h = held
		}
	}
	l := Limit{Rule: h.ID, Text: h.Words(), Source: h.Source, Confirm: h.Confirm, Reason: h.Reason, Laxer: h.Laxer}
	if h.TempF != nil {
		fig := Figure{Words: l.Text, Sense: h.Sense, TempC: f(*h.TempF)}
		if h.Seconds != nil {
			fig.Seconds = *h.Seconds
		}
		l.Figures = []Figure{fig}
	}
	return l
}

// stricter is which of two limits of cooking meets the other as well.
func stricter(a, b Limit) Limit {
	aC, aS, _ := a.Hot()
	bC, bS, _ := b.Hot()
	if bC > aC || bC == aC && bS > aS {
		return b
	}
	return a
}

// meets says whether a step's heat is enough for a limit: as hot and as long, or so much hotter that no pot can miss the time.
func (s Step) meets(l Limit) bool {
	const slackC = 1e-9
	tempC, holdS, ok := l.Hot()
	return ok && s.HeatToC != nil && *s.HeatToC >= tempC-slackC && (s.HoldS >= holdS || l.atOnce(*s.HeatToC-tempC))
}

// A limit's time falls tenfold with each fallsC that the food is hotter, and below missedS no pot, which takes minutes to heat, can miss it.
// 5.56 °C (10 °F) is the fit of the 6.5-log column of FSIS Appendix A; FDA Food Code 3-401.11(A)(2) itself goes faster, from 17 s at 155 °F to
// under 1 s at 158 °F. Beans keep their time: what it undoes is no bacterium.
const (
	fallsC  = 5.56
	missedS = 2
)

func (l Limit) atOnce(hotterC float64) bool {
	_, holdS, _ := l.Hot()
	return l.Rule != "" && holdS*math.Pow(10, -hotterC/fallsC) < missedS
}

// foodCodeCooling is how cooked food is cooled where the kitchen holds no other rule.
func foodCodeCooling() Limit {
	return Limit{Rule: "fda-3-501.14-a", Text: "135 to 70 °F within 2 h, and to 41 °F within 6 h in all", Source: "FDA Food Code 3-501.14(A)", Figures: []Figure{
		{"135 to 70 °F within 2 h", foodcode.AtMost, f(70), 2 * 3600}, {"135 to 41 °F within 6 h in all", foodcode.AtMost, f(41), 6 * 3600}}}
}

// keptFrozen names a temperature as the trade does; the code names none.
func (p Product) keptFrozen() Limit {
	l := p.limit("fda-3-501.11")
	trade := p.limit("trade-0f")
	return Limit{Rule: l.Rule, Text: "kept frozen; " + trade.Text + " is what the trade keeps", Figures: trade.Figures, Reason: trade.Reason, Laxer: trade.Laxer,
		Source: l.Source + " (“maintained frozen”, no temperature); the figure is " + trade.Source}
}

var labelLimit = Limit{Text: "every allergen of the dish stands on the label, and the label is that of the dish", Source: "21 USC 343(w)", Confirm: "the section"}
