package cli

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

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
	Media  heatMediaCommand `cmd:"" help:"List what food can stand in, with its range of surface coefficients."`
}

// Help is the longer help of the command.
func (heatCommand) Help() string {
	return `How long food of this shape takes in these surroundings, by simulation, with a band for what is not known:

    kettlefrost heat cool --food 16070 --pan "2 in" --in walk-in-fan --from "200 °F"
    kettlefrost heat freeze --food 16070 --bag "1 in" --in freezer-air --at "-18 °C"
    kettlefrost heat cool --food 16070 --pot "22 in x 23 in" --stir thick --in ice-bath-stirred
    kettlefrost heat reheat case.yaml --svg
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
	File string `arg:"" optional:"" help:"A file with the case, YAML; - reads standard input."`
	heatFlags
	JSON bool `name:"json" xor:"as" help:"All of it as JSON (kettlefrost.heat/1)."`
	SVG  bool `name:"svg" xor:"as" help:"The curves as a picture, SVG."`
}

func (h heatAsk) answer(s *surroundings, p heatcase.Process) error {
	file, err := h.read(s)
	if err != nil {
		return err
	}
	c := file.Case
	if c.Process != "" && c.Process != p {
		return failure{badUsage, h.File, fmt.Sprintf("this case is about %s, not %s", c.Process, p), fmt.Sprintf("say kettlefrost heat %s", c.Process)}
	}
	c.Process = p
	if err := h.set(&c); err != nil {
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

// read is the case of the file, or an empty one.
func (h heatAsk) read(s *surroundings) (heatcase.File, error) {
	name, from := h.File, s.stdin
	switch name {
	case "":
		file, _ := heatcase.Read("", nil)
		return file, nil
	case "-":
		name = "standard input"
	default:
		file, err := os.Open(name)
		if err != nil {
			return heatcase.File{}, failure{badUsage, name, "cannot be read: " + reason(err), "name a file with a case, one key on a line, such as pan: 2 in"}
		}
		defer file.Close()
		from = file
	}
	text, err := io.ReadAll(io.LimitReader(from, longestRequest))
	if err != nil {
		return heatcase.File{}, failure{badUsage, name, "cannot be read: " + reason(err), "name a text file"}
	}
	file, found := heatcase.Read(name, text)
	if len(found) > 0 {
		return file, wrongCase(mistakes, name, found)
	}
	return file, nil
}

// refused is a case that makes no sense: the file's mistake, unless a flag says it or there is no file.
func (h heatAsk) refused(found finding.List, file heatcase.File) error {
	flags := map[string]bool{}
	for _, f := range h.given() {
		flags[f[0]] = true
	}
	code, place := badUsage, "the command line"
	if h.File != "" {
		code, place = mistakes, h.File
	}
	located := file.Locate(found)
	for i, f := range located {
		if flags[f.Path] {
			code = badUsage
			located[i].At = nil
		}
		switch {
		case f.Path == "shape":
			located[i].Where = "--pan, --bag, --slab, --pot or --brick"
		case flags[f.Path] || h.File == "":
			located[i].Where = "--" + f.Path
		}
	}
	if len(located) == 1 && located[0].At == nil {
		return failure{code, located[0].Where, located[0].Message, located[0].Fix}
	}
	return wrongCase(code, place, located)
}

func wrongCase(code int, place string, found finding.List) error {
	var lines []string
	for _, f := range found {
		lines = append(lines, f.String())
	}
	return failure{code: code, place: place, what: "mend this first, nothing was computed:\n" + strings.Join(lines, "\n")}
}
