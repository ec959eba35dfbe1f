package cli

import (
	"errors"

	"kettlefrost/internal/heatcase"
	"kettlefrost/internal/heatcase/heatshow"
	"kettlefrost/internal/unit"
)

// heatCalibrateCommand tells a surface coefficient from one logged batch.
type heatCalibrateCommand struct {
	heatCase
	Took heatValue `name:"took" required:"" placeholder:"TIME" help:"The logged time from --from to --to at the core, such as \"3 h 10 min\"."`
	JSON bool      `name:"json" help:"As JSON (kettlefrost.calibration/1)."`
}

// Help is the longer help of the command.
func (heatCalibrateCommand) Help() string {
	return `Log the core of one pan, bag or pot from one temperature to another, and say what it was:

    kettlefrost heat calibrate --of DISH/OUTPUT --pan "2 in" --in walk-in-fan --at "37 °F" \
        --from "190 °F" --to "41 °F" --took "5 h 10 min"

The answer is the surface coefficient with which the simulation takes as long, with the doubt of a thermometer and a clock, as lines for
the book. Of a pot that is stirred all the time (--stir) it is the overall coefficient, for the wall of a way of chilling. What moved
inside an unstirred food counts as a better surface: log what lies still.`
}

func (h heatCalibrateCommand) Run(s *surroundings) error {
	took, err := unit.ParseSpan(h.Took.text)
	if err != nil {
		return failure{badUsage, "--took", err.Error(), `write it like --took "3 h 10 min"`}
	}
	c, file, err := h.load(s, "")
	if err != nil {
		return err
	}
	k, err := c.Calibrate(took)
	if wrong, ok := errors.AsType[*heatcase.CaseError](err); ok {
		return h.refused(wrong.Found, file)
	}
	if _, ok := errors.AsType[*heatcase.UnexplainedError](err); ok {
		return failure{badUsage, "--took", err.Error(), "check the log: was the probe in the core, the layer as deep, the medium as cold, and did nobody stir?"}
	}
	if err != nil {
		return failure{code: badUsage, place: "heat calibrate", what: "this cannot be computed: " + err.Error()}
	}
	if h.JSON {
		return s.showJSON(k)
	}
	return s.show(heatshow.Calibration(k))
}
