package dispersal

import (
	"fmt"
	"slices"
	"strconv"

	"kettlefrost/internal/dosing"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/stability"
	"kettlefrost/internal/unit"
)

// The codes of what is found of a dish that gets its powder in already.
const (
	CodeAlready        = "disperses-already"
	CodeTooStiff       = "mix-too-stiff"
	CodeFewParts       = "disperser-too-little"
	CodeInBeforeCheese = "citrate-before-cheese"
)

// strongest is from how strong a mix is too stiff for a blender without a strong motor: package dosing has it from 21 CFR 172.695 and common
// practice.
const strongest = 0.015

// Parts of what a powder is in, by its weight, as package dosing has them.
const fewestParts, slurryParts = 5, 2

// alreadyDone says whether the powder's step gets it into liquid already: it is cold, takes nothing from other steps, and all that goes in with
// the powder is liquid or what powders are mixed with.
func (w *work) alreadyDone() {
	if w.line < 0 || w.parts[w.out.Of].Component.Role == stability.EmulsifyingSalt {
		return
	}
	s := w.steps[w.step]
	if s.HeatTo != nil || s.Stays || len(s.Use) < 2 {
		return
	}
	for k, u := range s.Use {
		if p := w.parts[u.Of]; k != w.line && (u.Of == "" || !w.isLiquid(u) && !w.dry(p) && p.Component.Role != stability.Fat) {
			return
		}
	}
	w.by = w.step
}

// check looks at a dish that does it already: whether the mix is too stiff, has enough to be mixed with, and how many jars it takes.
func (w *work) check() error {
	s := &w.steps[w.by]
	w.out.Step = s.ID
	var liquid, fat, dry unit.Mass
	for k, u := range s.Use {
		m, err := plan.Weigh(w.book, w.foods, u.Of, u.Amount)
		switch p := w.parts[u.Of]; {
		case err != nil:
			return err
		case k == w.line:
		case w.isLiquid(u):
			liquid += m
		case p.Component.Role == stability.Fat:
			fat += m
		default:
			dry += m
		}
	}
	w.out.Dispersion = dosing.Dispersion{Mix: w.out.Mass + liquid + fat + dry}
	w.out.Dispersion.Share = float64(w.out.Mass) / float64(w.out.Dispersion.Mix)
	w.out.State = w.same()
	switch {
	case liquid > 0:
		return w.checkMix(liquid)
	case fat > 0:
		w.out.Dispersion.Way = dosing.OilSlurry
		w.checkParts(fat)
	default:
		w.out.Dispersion.Way = dosing.DryBlend
		w.checkParts(dry)
	}
	return nil
}

// checkMix looks at a mix with liquid, and holds more liquid back for one that is too stiff.
func (w *work) checkMix(liquid unit.Mass) error {
	starch := w.parts[w.out.Of].Component.Role != stability.Gum
	w.out.Way = dosing.PreHydrate
	if starch {
		w.out.Way = dosing.ColdSlurry
	}
	share := w.out.Dispersion.Share
	if !starch && share > strongest {
		w.found(finding.Caution, CodeTooStiff, fmt.Sprintf("with the liquid that step %s has, the mix would be %.2f %%: too stiff for a blender without a strong motor", w.out.Step, 100*share), share, "more liquid of the dish is held back, as it says below")
		if err := w.more(unit.MassKg(w.out.Mass.Kg()/0.01) - w.out.Mass - liquid); err != nil {
			w.out.Found[len(w.out.Found)-1].Fix = "hold more liquid back: " + err.Error()
			return w.jars(liquid)
		}
		w.out.State = Mended
		for _, h := range w.out.Held {
			liquid += h.Mass
		}
	} else if starch && liquid < slurryParts*w.out.Mass {
		w.few("step %s stirs it up in %.1f times its weight of liquid", float64(liquid)/float64(w.out.Mass), slurryParts, "stir it up in twice its weight of cold liquid", "common practice")
	} else {
		w.found(finding.Note, CodeAlready, fmt.Sprintf("step %s gets it into %s already: a mix of %.2f %%", w.out.Step, liquid.Show(w.book.Kitchen.Units), 100*share), share, "nothing needs adding")
	}
	return w.jars(liquid)
}

func (w *work) found(severity finding.Severity, code, message string, share float64, fix string) {
	w.out.Found = append(w.out.Found, finding.Finding{Code: code, Severity: severity, Where: "step " + w.out.Step, Message: message, Fix: fix,
		Figures: []finding.Figure{percent("share", share), percent("limit", strongest)},
		Source:  "1 % xanthan is already over 600 cP (21 CFR 172.695, read); 1.5 % as the limit without a strong mixer is common practice"})
}

// jars works out how often the jar is filled, where it is mixed in one.
func (w *work) jars(liquid unit.Mass) error {
	d := &w.out.Dispersion
	d.Way, d.Mix = w.out.Way, w.out.Mass+liquid
	d.Share = float64(w.out.Mass) / float64(d.Mix)
	in := slices.IndexFunc(w.steps[w.by].In, func(id kitchen.EquipmentID) bool { return w.book.Equipment[id].Kind == kitchen.Blender })
	if in < 0 || d.Way != dosing.PreHydrate {
		return nil
	}
	w.out.Jar = w.steps[w.by].In[in]
	jar := w.book.Equipment[w.out.Jar]
	worked, err := dosing.Disperse(dosing.Spread{Substance: w.substance(), Dose: w.out.Mass, Way: dosing.PreHydrate, Share: max(1, unit.ShareOf(d.Share)-1),
		Liquids: []dosing.Pourable{{Portion: dosing.Portion{Name: w.liquidsOf(w.by), Mass: liquid}}}, Jar: dosing.Jar{Volume: jar.Volume, Fill: jar.Working}})
	if err != nil {
		return nil // too stiff, which is told
	}
	d.Loads, d.Steps = worked.Loads, worked.Steps
	return nil
}

// liquidsOf are the names of the liquids of a step.
func (w *work) liquidsOf(step int) string {
	var from []portioned
	for k, u := range w.steps[step].Use {
		if w.isLiquid(u) {
			from = append(from, portioned{source: source{step: step, line: k}})
		}
	}
	return w.names(from)
}

// checkParts looks at a dry mix or a slurry in oil.
func (w *work) checkParts(carrier unit.Mass) {
	w.out.Way = w.out.Dispersion.Way
	parts := float64(carrier) / float64(w.out.Mass)
	const source = "10 parts of a disperser, 5 at least: Handbook of Hydrocolloids, xanthan chapter (read)"
	if parts < fewestParts {
		w.few("step %s mixes it with %.1f times its weight", parts, fewestParts, "mix it with more, or blend it into cold liquid", source)
		return
	}
	w.out.Found = append(w.out.Found, finding.Finding{Code: CodeAlready, Severity: finding.Note, Where: "step " + w.out.Step, Message: fmt.Sprintf("step %s mixes it with %.1f times its weight already", w.out.Step, parts),
		Figures: []finding.Figure{plain("parts", parts), plain("least", fewestParts)}, Fix: "nothing needs adding", Source: source})
}

// few says that there is too little of what the powder is in.
func (w *work) few(says string, parts, least float64, fix, source string) {
	w.out.Found = append(w.out.Found, finding.Finding{Code: CodeFewParts, Severity: finding.Caution, Where: "step " + w.out.Step, Message: fmt.Sprintf(says, w.out.Step, parts),
		Figures: []finding.Figure{plain("parts", parts), plain("least", least)}, Fix: fix, Source: source})
}

func percent(name string, share float64) finding.Figure {
	return finding.Figure{Name: name, Value: share, Unit: "1", Text: strconv.FormatFloat(100*share, 'f', 2, 64) + " %"}
}

func plain(name string, x float64) finding.Figure {
	return finding.Figure{Name: name, Value: x, Text: strconv.FormatFloat(x, 'g', 3, 64)}
}

// more moves liquid from the steps that take the mix to the one that makes it.
func (w *work) more(need unit.Mass) error {
	target := slices.IndexFunc(w.steps, func(s kitchen.Step) bool {
		return slices.ContainsFunc(s.Use, func(u kitchen.Use) bool { i, ok := w.gives[u.From]; return ok && u.From != "" && i == w.by })
	})
	if target < 0 {
		return &InputError{"the mix", "goes into no step", "add it to one"}
	}
	here := w.step
	w.step = target
	all := slices.DeleteFunc(w.liquids(), func(s source) bool { return s.step == w.by })
	w.step = here
	var have unit.Mass
	for _, s := range all {
		have += s.mass
	}
	if have < need {
		return &InputError{"the dish", fmt.Sprintf("has only %s more that could be", have.Show(w.book.Kitchen.Units)), "blend a smaller part of it, or in oil"}
	}
	var from []portioned
	for _, s := range all {
		if need <= 0 {
			break
		}
		p := w.portion(s, min(need, s.mass))
		need -= p.mass
		from = append(from, p)
	}
	for _, p := range from {
		w.move(p)
	}
	w.takeOut(from)
	return nil
}

// move adds what is held back to the step that makes the mix: to its own line of the same, or as a line of its own.
func (w *work) move(p portioned) {
	u := w.steps[p.step].Use[p.line]
	w.out.Held = append(w.out.Held, Held{Of: u.Of, Name: w.nameOf(p.source), From: w.steps[p.step].ID, Amount: p.take, Left: p.left, Mass: p.mass})
	mix := &w.steps[w.by]
	for k, x := range mix.Use {
		if x.Of == u.Of && x.Amount.Kind == p.take.Kind && x.Amount.Measure == p.take.Measure {
			mix.Use[k].Amount.Mass += p.take.Mass
			mix.Use[k].Amount.Volume += p.take.Volume
			return
		}
	}
	mix.Use = append(mix.Use, kitchen.Use{Of: u.Of, Amount: p.take, Instead: u.Instead})
}
