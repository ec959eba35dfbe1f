package cli

import (
	"errors"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/heatcase"
	"kettlefrost/internal/heatcase/heatshow"
)

// heatCommand asks one question about heat.
type heatCommand struct {
	Cool   heatCool         `cmd:"" help:"How long hot food takes to cool, and what the cooling limits say."`
	Freeze heatFreeze       `cmd:"" help:"How long food takes to freeze."`
	Thaw   heatThaw         `cmd:"" help:"How long frozen food takes to thaw."`
	Reheat heatReheat       `cmd:"" help:"How long frozen or chilled food takes to be hot."`
	Ways   heatWaysCommand  `cmd:"" help:"All that the kitchen can do to cool so much of a dish now, compared."`
	Foods  heatFoodsCommand `cmd:"" help:"List what the dishes of a book give, to be named by --of."`

	Properties heatPropertiesCommand `cmd:"" help:"Properties of a food from frozen to hot."`
	Calibrate  heatCalibrateCommand  `cmd:"" help:"The surface coefficient that one logged batch tells, for the book."`
	Kettle     heatKettleCommand     `cmd:"" help:"How long a pot takes on its burner, lid on and off, and the energy."`
	Form       heatFormCommand       `cmd:"" help:"The form by which a heating time is measured, for ways that are never computed."`
	Media      heatMediaCommand      `cmd:"" help:"List what food can stand in, with its range of surface coefficients."`
}

// Help is the longer help of the command.
func (heatCommand) Help() string {
	return `How long food of this shape takes in these surroundings, by simulation, with a band for what is not known:

    kettlefrost heat cool --food 16070 --pan "2 in" --in walk-in-fan --from "200 °F"
    kettlefrost heat freeze --food 16070 --bag "1 in" --in freezer-air --at "-18 °C"
    kettlefrost heat cool --food 16070 --pot "22 in x 23 in" --stir thick --in ice-bath-stirred
    kettlefrost heat reheat case.yaml --svg
    kettlefrost heat cool --of DISH/OUTPUT --book DIR --pan "2 in"
    kettlefrost heat ways --of DISH/OUTPUT --book DIR --much "30 gal" --from "200 °F"
    kettlefrost heat properties --food 16070
    kettlefrost heat calibrate --food 16070 --pan "2 in" --in walk-in-fan --from "190 °F" --to "41 °F" --took "5 h 10 min"
    kettlefrost heat media

A file has the same names as the flags, one on a line: pan: 2 in. What a flag says goes before what the file says. A thermometer in the
food decides.`
}

type (
	heatCool   struct{ heatAsk }
	heatFreeze struct{ heatAsk }
	heatThaw   struct{ heatAsk }
	heatReheat struct{ heatAsk }
)

func (c heatCool) Run(s *surroundings) error   { return c.answer(s, heatcase.Cool) }
func (c heatFreeze) Run(s *surroundings) error { return c.answer(s, heatcase.Freeze) }
func (c heatThaw) Run(s *surroundings) error   { return c.answer(s, heatcase.Thaw) }
func (c heatReheat) Run(s *surroundings) error { return c.answer(s, heatcase.Reheat) }

// heatAsk is a question and how its answer is shown.
type heatAsk struct {
	heatCase
	JSON bool `name:"json" xor:"as" help:"All of it as JSON (kettlefrost.heat/1)."`
	SVG  bool `name:"svg" xor:"as" help:"The curves as a picture, SVG."`
}

func (h heatAsk) answer(s *surroundings, p heatcase.Process) error {
	c, file, err := h.load(s, p)
	if err != nil {
		return err
	}
	a, err := c.Answer()
	if wrong, ok := errors.AsType[*heatcase.CaseError](err); ok {
		return h.refused(wrong.Found, file)
	} else if err != nil {
		return failure{code: badUsage, place: "heat " + string(p), what: "this cannot be computed: " + err.Error()}
	}
	return h.show(s, a)
}

func (h heatAsk) show(s *surroundings, a heatcase.Answer) error {
	var err error
	switch {
	case h.JSON:
		err = s.showJSON(a)
	case h.SVG:
		err = s.show(string(draw.SVG(heatshow.Curves(a).Picture())))
	default:
		err = s.show(heatshow.Text(a))
	}
	if err == nil && a.Findings.Worst() == finding.Stop {
		return failure{code: stopped, what: "computed, but do not start like this: " + tally(a.Findings), fix: "what is marked stop says why"}
	}
	return err
}
