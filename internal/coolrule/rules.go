package coolrule

import "kettlefrost/internal/unit"

// Stage is one limit of a rule: from passing FromC to passing ToC within WithinS.
type Stage struct {
	Name     string
	FromC    float64 // where its clock starts; not used with AtTheStart
	ToC      float64
	WithinS  float64
	Start    Start
	Advisory bool // passing it is a caution, not a failure
}

// Start says when the clock of a stage starts.
type Start int

const (
	AtFromC    Start = iota // when the food falls through FromC; at once if it starts colder
	AtTheStart              // when the cooling begins
)

// Rule is a published cooling limit: all its stages must be met.
type Rule struct {
	ID     string // stable, for programs
	Title  string
	Stages []Stage
	Scope  string // for which food or where it is meant; empty if for cooked food in general
	Source string
}

// fahrenheit is f °F in °C.
func fahrenheit(f float64) float64 { return unit.TempF(f).C() }

const hourS = 3600

// FoodCodeCooked is FDA Food Code 3-501.14(A): cooked food, 135 to 70 °F in 2 h and to 41 °F in 6 h in all. Time not used in
// the first stage carries over. Read in the texts of states that adopted it.
func FoodCodeCooked() Rule {
	return Rule{
		ID: "fda-3-501.14-a", Title: "FDA Food Code 3-501.14(A), cooked food",
		Stages: []Stage{
			{Name: "135 to 70 °F", FromC: fahrenheit(135), ToC: fahrenheit(70), WithinS: 2 * hourS},
			{Name: "135 to 41 °F in all", FromC: fahrenheit(135), ToC: fahrenheit(41), WithinS: 6 * hourS},
		},
		Source: "FDA Food Code 3-501.14(A)",
	}
}

// FoodCodeAmbient is FDA Food Code 3-501.14(B): to 41 °F in 4 h if made from ingredients at room temperature.
func FoodCodeAmbient() Rule {
	return Rule{
		ID: "fda-3-501.14-b", Title: "FDA Food Code 3-501.14(B), ingredients at room temperature",
		Stages: []Stage{{Name: "to 41 °F", ToC: fahrenheit(41), WithinS: 4 * hourS, Start: AtTheStart}},
		Scope:  "prepared from ingredients at room temperature",
		Source: "FDA Food Code 3-501.14(B)",
	}
}

// FoodCodeCookChill is FDA Food Code 3-502.12(D)(2)(e)(i): packed cook-chill food, 41 to 34 °F in 48 h.
func FoodCodeCookChill() Rule {
	return Rule{
		ID: "fda-3-502.12-d-2-e", Title: "FDA Food Code 3-502.12(D)(2)(e)(i), cook-chill in reduced-oxygen packs",
		Stages: []Stage{{Name: "41 to 34 °F", FromC: fahrenheit(41), ToC: fahrenheit(34), WithinS: 48 * hourS}},
		Scope:  "cook-chill in reduced-oxygen packs, 30-day option; comes on top of 3-501.14",
		Source: "FDA Food Code 3-502.12(D)(2)(e)(i)",
	}
}

// AppendixBFirst is guideline 1 of FSIS Appendix B (1999).
func AppendixBFirst() Rule {
	return Rule{
		ID: "fsis-b-1999-1", Title: "FSIS Appendix B (1999), guideline 1",
		Stages: []Stage{
			{Name: "130 to 80 °F", FromC: fahrenheit(130), ToC: fahrenheit(80), WithinS: 1.5 * hourS},
			{Name: "80 to 40 °F", FromC: fahrenheit(80), ToC: fahrenheit(40), WithinS: 5 * hourS},
		},
		Scope:  "cooked meat and poultry under federal inspection; a 2021 revision exists",
		Source: "FSIS Appendix B (1999), guideline 1",
	}
}

// AppendixBSecond is guideline 2 of FSIS Appendix B (1999), the older one with less margin. It also asks that chilling begins within
// 90 minutes of the end of cooking and goes on to 40 °F before shipping, which a cooling curve does not show.
func AppendixBSecond() Rule {
	return Rule{
		ID: "fsis-b-1999-2", Title: "FSIS Appendix B (1999), guideline 2",
		Stages: []Stage{
			{Name: "120 to 55 °F", FromC: fahrenheit(120), ToC: fahrenheit(55), WithinS: 6 * hourS},
			{Name: "120 to 80 °F", FromC: fahrenheit(120), ToC: fahrenheit(80), WithinS: 1 * hourS, Advisory: true},
		},
		Scope:  "cooked meat and poultry under federal inspection; chill within 90 min of cooking and on to 40 °F",
		Source: "FSIS Appendix B (1999), guideline 2",
	}
}

// AppendixBCured is guideline 3 of FSIS Appendix B (1999), for cured products only.
func AppendixBCured() Rule {
	return Rule{
		ID: "fsis-b-1999-3", Title: "FSIS Appendix B (1999), guideline 3",
		Stages: []Stage{
			{Name: "130 to 80 °F", FromC: fahrenheit(130), ToC: fahrenheit(80), WithinS: 5 * hourS},
			{Name: "80 to 45 °F", FromC: fahrenheit(80), ToC: fahrenheit(45), WithinS: 10 * hourS},
		},
		Scope:  "cured products only, at least 100 ppm ingoing nitrite",
		Source: "FSIS Appendix B (1999), guideline 3, as restated by the Canadian Food Inspection Agency",
	}
}

// Maine is a state code with a stricter start, as an example of what local rules can ask.
func Maine() Rule {
	return Rule{
		ID: "maine-346-3-12-a", Title: "Maine CMR 01-001 ch. 346 s. 3(12)(A)",
		Stages: []Stage{
			{Name: "140 to 70 °F", FromC: fahrenheit(140), ToC: fahrenheit(70), WithinS: 2 * hourS},
			{Name: "70 to 41 °F", FromC: fahrenheit(70), ToC: fahrenheit(41), WithinS: 4 * hourS},
		},
		Scope:  "one jurisdiction",
		Source: "Maine CMR 01-001 ch. 346 s. 3(12)(A)",
	}
}

// All is every rule of this package, the Food Code's first.
func All() []Rule {
	return []Rule{FoodCodeCooked(), FoodCodeAmbient(), FoodCodeCookChill(), AppendixBFirst(), AppendixBSecond(), AppendixBCured(),
		Maine()}
}
