package cli

import (
	"encoding"
	"errors"

	"kettlefrost/internal/heatcase"
	"kettlefrost/internal/heatcase/heatshow"
	"kettlefrost/internal/unit"
)

// heatKettleCommand is how long a pot takes on its burner.
type heatKettleCommand struct {
	heatOf
	heatFoodFlags
	Mass       heatValue   `name:"mass" placeholder:"MASS" help:"How much food is in the pot."`
	Diameter   heatValue   `name:"diameter" placeholder:"LENGTH" help:"Of the pot, inside."`
	Power      heatValue   `name:"power" placeholder:"POWER" help:"Rated power of the burner or element, such as 30000 Btu/h or 24 kW."`
	Efficiency heatValue   `name:"efficiency" placeholder:"%" help:"Share of it that reaches the food; 40 % when left out."`
	From       heatValue   `name:"from" placeholder:"TEMP" help:"How warm the food is at the start; 68 °F when left out."`
	To         heatValue   `name:"to" placeholder:"TEMP" help:"How hot it is to become; 205 °F, a simmer, when left out."`
	Air        heatValue   `name:"air" placeholder:"TEMP" help:"The kitchen's air; 70 °F when left out."`
	Units      unit.System `default:"us" placeholder:"us|metric" help:"The units you read."`
	JSON       bool        `name:"json" help:"As JSON (kettlefrost.kettle/1)."`
}

func (h heatKettleCommand) Run(s *surroundings) error {
	c := heatcase.Case{}
	if _, _, err := h.hold(s, &c, h.given()); err != nil {
		return err
	}
	if err := setFlags(&c, h.given()); err != nil {
		return err
	}
	k := heatcase.Kettle{Food: c.Food, From: unit.TempF(68), To: unit.TempF(205), Air: unit.TempF(70)}
	for _, f := range []struct {
		flag    string
		text    heatValue
		into    encoding.TextUnmarshaler
		example string
	}{
		{"--mass", h.Mass, &k.Mass, "120 lb"}, {"--diameter", h.Diameter, &k.Diameter, "26 in"}, {"--power", h.Power, &k.Power, "24 kW"}, {"--efficiency", h.Efficiency, &k.Efficiency, "40 %"},
		{"--from", h.From, &k.From, "60 °F"}, {"--to", h.To, &k.To, "205 °F"}, {"--air", h.Air, &k.Air, "70 °F"},
	} {
		if !f.text.given {
			continue
		}
		if err := f.into.UnmarshalText([]byte(f.text.text)); err != nil {
			return failure{badUsage, f.flag, err.Error(), "write it like " + f.flag + " \"" + f.example + "\""}
		}
	}
	a, err := k.Answer()
	if wrong, ok := errors.AsType[*heatcase.CaseError](err); ok {
		return heatCase{heatOf: h.heatOf}.refused(wrong.Found, heatcase.File{})
	} else if err != nil {
		return failure{code: badUsage, place: "heat kettle", what: "this cannot be computed: " + err.Error()}
	}
	if c.Name != "" {
		a.Food = c.Name
	}
	if h.JSON {
		return s.showJSON(a)
	}
	return s.show(heatshow.Kettle(a, h.Units))
}
