package cli

import (
	"errors"

	"kettlefrost/internal/heatcase"
	"kettlefrost/internal/heatcase/heatshow"
	"kettlefrost/internal/unit"
)

// heatPropertiesCommand shows a food by temperature.
type heatPropertiesCommand struct {
	heatOf
	heatFoodFlags
	Units unit.System `default:"us" placeholder:"us|metric" help:"The units of the temperatures."`
	JSON  bool        `name:"json" help:"As JSON (kettlefrost.properties/1)."`
}

func (h heatPropertiesCommand) Run(s *surroundings) error {
	c := heatcase.Case{}
	m, ofBook, err := h.hold(s, &c, h.given())
	if err != nil {
		return err
	}
	if err := setFlags(&c, h.given()); err != nil {
		return err
	}
	p, err := c.Food.Properties()
	if wrong, ok := errors.AsType[*heatcase.CaseError](err); ok {
		return heatCase{heatOf: h.heatOf}.refused(wrong.Found, heatcase.File{})
	} else if err != nil {
		return failure{code: badUsage, place: "heat properties", what: "this cannot be computed: " + err.Error()}
	}
	if c.Name != "" {
		p.Name = c.Name
	}
	if ofBook {
		p.Source = "composition of " + m.ID() + " in the book, at the scale it is written for"
		p.Sources[0] = p.Source
		if !h.FreezesAt.given {
			p.FreezesAtFrom, p.FreezesAtAssumed = "from the salt, sugars and alcohol in it (Raoult's law); acids and minerals lower it by some tenths more", m.Assumed
			if m.Assumed {
				p.FreezesAtFrom = "usual for a soup; its salt and sugars are not known"
			}
		}
	}
	if h.JSON {
		return s.showJSON(p)
	}
	return s.show(heatshow.Properties(p, h.Units))
}
