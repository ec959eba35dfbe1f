package kitchen

import "kettlefrost/internal/unit"

// Safety is by what rules of food safety a kitchen's lots are judged. A book without it judges nothing.
type Safety struct {
	Jurisdiction string       `yaml:"jurisdiction" desc:"whose rules hold: US, or a state of it such as US-VT"`
	From         string       `yaml:"from,omitempty" desc:"lots of runs from this day on are judged, such as 2026-12-01; all when left out"`
	Cooling      string       `yaml:"cooling,omitempty" desc:"the cooling rule, such as fda-3-501.14-a; that one when left out"`
	Rules        []RuleChange `yaml:"rules,omitempty" desc:"rules that this kitchen holds otherwise than published: stricter freely, laxer with a reason and a name"`
}

// Given tells whether a book has rules at all.
func (s Safety) Given() bool { return s.Jurisdiction != "" }

// RuleChange is a published rule with other figures. What is left out stays as published.
type RuleChange struct {
	Rule   string     `yaml:"rule" desc:"which rule, such as fda-3-401.11-a-3; kettlefrost rules lists them"`
	Temp   *unit.Temp `yaml:"temp,omitempty" desc:"its temperature here"`
	Time   unit.Span  `yaml:"time,omitempty" desc:"its time here"`
	Days   int        `yaml:"days,omitempty" desc:"its days here"`
	Reason string     `yaml:"reason,omitempty" desc:"why; needed when it is laxer"`
	By     string     `yaml:"by,omitempty" desc:"who decided; needed when it is laxer"`
}

// Thermometer is an instrument that measures temperatures.
type Thermometer struct {
	Name     string          `yaml:"name" desc:"what the crew calls it"`
	Kind     ThermometerKind `yaml:"kind,omitempty" desc:"handheld, probe (sends by itself) or logger (read out as a file); handheld when left out" enum:"handheld,probe,logger"`
	At       string          `yaml:"at,omitempty" desc:"the place that it watches for good, such as chest-1"`
	Accuracy unit.TempDiff   `yaml:"accuracy,omitempty" desc:"how far it may read wrong, as its maker or its last check says; 2 °F (1 °C) when left out, the most that the Food Code allows"`
	Check    int             `yaml:"check-every,omitempty" desc:"days between two checks; 30 when left out"`
	Warmest  *unit.Temp      `yaml:"warmest,omitempty" desc:"warmest that its place should be; 0 °F in a freezer and 41 °F in a walk-in when left out"`
}

// ThermometerKind is how an instrument gives what it reads.
type ThermometerKind string

// Kinds of thermometers.
const (
	Handheld ThermometerKind = "handheld"
	Probe    ThermometerKind = "probe"
	Logger   ThermometerKind = "logger"
)

// IngredientClass is what an ingredient is as far as hazards go.
type IngredientClass string
