package cli

import (
	"kettlefrost/internal/heatcase/heatshow"
	"kettlefrost/internal/reheating"
	"kettlefrost/internal/unit"
)

// heatFormCommand prints the form by which a heating time is measured, for ways that are never computed.
type heatFormCommand struct {
	Method string      `arg:"" enum:"microwave,oven,water" help:"microwave, oven, or water for simmering water."`
	Pack   string      `default:"the largest pack" help:"What the pack is called."`
	Mass   heatValue   `required:"" name:"mass" placeholder:"MASS" help:"Of the largest pack, such as 2 lb."`
	Cold   heatValue   `name:"coldest" placeholder:"TEMP" help:"How warm it may be at the start at most; 5 °F when left out."`
	Units  unit.System `default:"us" placeholder:"us|metric" help:"The units you read."`
	JSON   bool        `name:"json" help:"As JSON (kettlefrost.form/1)."`
}

// HeatingForm is the form as JSON.
type HeatingForm struct {
	Schema    string      `json:"schema"`
	Pack      string      `json:"pack"`
	Method    string      `json:"method"`
	LargestKg float64     `json:"largest_kg"` // every run with a pack at least this heavy
	ColdestC  float64     `json:"coldest_c"`  // and at most this warm at the start
	LeastRuns int         `json:"least_runs"`
	AcceptC   float64     `json:"accept_c"` // in every spot
	StandMin  float64     `json:"stand_min"`
	Margin    float64     `json:"margin"` // put on the longest run that counts
	Spots     []string    `json:"spots"`
	Fields    []FormField `json:"fields"`
	Rules     []string    `json:"rules"`
	Source    string      `json:"source"`
}

// FormField is what is written down of each run.
type FormField struct {
	ID    string `json:"id"`
	Label string `json:"label"`
	Unit  string `json:"unit,omitempty"`
}

func (h heatFormCommand) json(f reheating.Form) HeatingForm {
	j := HeatingForm{Schema: formSchema, Pack: h.Pack, Method: f.Method.String(), LargestKg: f.LargestKg, ColdestC: f.ColdestC, LeastRuns: f.LeastRuns, AcceptC: f.AcceptC, StandMin: f.StandMin,
		Margin: f.Margin, Spots: f.Spots, Source: f.Source}
	for _, x := range f.Fields {
		j.Fields = append(j.Fields, FormField(x))
	}
	for _, r := range f.Rules {
		j.Rules = append(j.Rules, r.English(h.Units))
	}
	return j
}

func (h heatFormCommand) Run(s *surroundings) error {
	mass, err := unit.ParseMass(h.Mass.text)
	if err != nil {
		return failure{badUsage, "--mass", err.Error(), `write it like --mass "2 lb"`}
	}
	cold := unit.TempF(5)
	if h.Cold.given {
		if cold, err = unit.ParseTemp(h.Cold.text); err != nil {
			return failure{badUsage, "--coldest", err.Error(), `write it like --coldest "5 °F"`}
		}
	}
	method := map[string]reheating.Method{"microwave": reheating.Microwave, "oven": reheating.Oven, "water": reheating.Simmering}[h.Method]
	form, err := reheating.ValidationForm(method, mass.Kg(), cold.C())
	if err != nil {
		return failure{badUsage, "heat form", err.Error(), "give the mass of one pack and a temperature of a freezer"}
	}
	if h.JSON {
		return s.showJSON(h.json(form))
	}
	return s.show(heatshow.Form(form, h.Pack, h.Units))
}
