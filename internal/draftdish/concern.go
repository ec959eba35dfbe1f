package draftdish

import (
	"fmt"
	"math"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/formula"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/stability"
	"kettlefrost/internal/unit"
	"kettlefrost/internal/vessel"
)

// pot looks at the finished food as it goes into the freezer: how much there is, and what the freezer does to it.
func (d *drafter) pot(out *Draft, book kitchen.Book) {
	for _, s := range formula.SubjectsOf(book, out.ID) {
		pot, err := formula.PotOf(book, d.foods, s)
		if err != nil {
			out.Concerns = append(out.Concerns, Concern{Severity: finding.Caution, About: "the dish", Says: "it cannot be computed: " + err.Error(), Fix: "answer what is open, or mend its steps in the book"})
			continue
		}
		out.Gives += pot.Mass
		review, err := pot.Review()
		if err != nil {
			continue
		}
		for _, f := range review.Findings {
			c := Concern{Severity: severity(f.Severity), About: "in the freezer", Says: f.Mechanism, Source: f.Source}
			if len(f.Components) > 0 {
				c.About += ": " + strings.Join(f.Components, ", ")
			}
			if f.Because != "" {
				c.Says += " (" + f.Because + ")"
			}
			if len(f.Remedies) > 0 {
				c.Fix = f.Remedies[0].Do
			}
			out.Concerns = append(out.Concerns, c)
		}
		for _, a := range pot.Asks {
			if a.Grave {
				out.Concerns = append(out.Concerns, Concern{Severity: finding.Note, About: a.Where, Says: a.Asks + " Assumed: " + a.Assumed + ".", Fix: "write it at " + a.Path})
			}
		}
	}
}

// severity is how bad something is in a review, in the words of findings. Nothing there stops a kitchen from cooking.
func severity(s stability.Severity) finding.Severity {
	if s >= stability.Change {
		return finding.Caution
	}
	return finding.Note
}

// homePotM2 is the surface of a pot of 10 inches, in which a home mostly cooks a soup.
const homePotM2 = 0.0507

// concerns are what a kitchen that cooks in bulk has to mind and a home has not.
func (d *drafter) concerns(out *Draft) {
	for _, x := range d.steps {
		if x.open && x.heat != nil && boilsDown(x.sentence.verb.does) && x.time >= 10*unit.Minute {
			d.evaporation(out, x)
		}
		if x.sentence.layers || x.Does == string(fries) && x.In == "pan" {
			out.Concerns = append(out.Concerns, Concern{Severity: finding.Note, About: fmt.Sprintf("step %d", x.Number), Says: "what is fried in one layer at home goes in many loads in the kitchen, and each takes as long", Source: "common practice", Fix: "say what one load may hold (load), and look at the day that the plan makes"})
		}
	}
	var noAmount []string
	for _, l := range d.lines {
		if l.Out {
			noAmount = append(noAmount, l.Text)
		}
	}
	if len(noAmount) > 0 {
		out.Concerns = append(out.Concerns, Concern{Severity: finding.Caution, About: "ingredients", Says: "not in the dish, because nothing says how much: " + strings.Join(noAmount, "; "), Fix: "answer how much"})
	}
	if len(d.fresh) > 0 {
		out.Concerns = append(out.Concerns, Concern{Severity: finding.Note, About: "buying", Says: fmt.Sprintf("%d new ingredients have no price, no supplier and no storage yet", len(d.fresh)), Fix: "write buy: and storage: in the book"})
	}
	out.Concerns = append(out.Concerns, Concern{Severity: finding.Note, About: "packs", Says: "no pack is filled from it yet", Fix: "write one: packs"})
}

// homeLoss is the share of what a step holds that goes off at home, from a pot of 10 in: it is kept, so that the food comes out as thick as there.
// The kitchen's larger vessel takes longer for it.
func (d *drafter) homeLoss(x *Step) unit.Share {
	e, err := vessel.StillAirEvaporation(min(x.heat.C(), 98.8))
	kg, water := 0.0, 0.0
	for _, m := range d.allUses(x) {
		kg += m.line.Mass.Kg() * m.share.F()
		water += m.line.Mass.Kg() * m.share.F() * d.waterOf(m.line)
	}
	if err != nil || kg <= 0 {
		return 0
	}
	share := min(e.KgM2H*homePotM2*x.time.S()/3600/kg, mostLoss, water/kg/2)
	return unit.ShareOf(math.Round(1000*share) / 1000)
}

// waterOf is the share of water in a line; four fifths where nothing says it.
func (d *drafter) waterOf(l *Line) float64 {
	ing := d.ingredient(l.Is)
	if ing.Analysis != nil {
		return ing.Analysis.Water / 100
	}
	food, _ := d.foods.Lookup(ing.Food)
	return food.Per100g.WaterG.Or(80) / 100
}

// mostLoss is as much as is taken for lost: more would be another dish.
const mostLoss = 0.3

// evaporation compares what goes off at home with what does in the kitchen's largest vessel.
func (d *drafter) evaporation(out *Draft, x *Step) {
	e, err := vessel.StillAirEvaporation(min(x.heat.C(), 98.8))
	name, areaM2, holdsL := d.largest()
	if err != nil || holdsL <= 0 {
		return
	}
	home, ours := d.homeLoss(x).F(), e.KgM2H*areaM2*x.time.S()/3600/holdsL
	if home-ours < 0.01 {
		return
	}
	out.Concerns = append(out.Concerns, Concern{Severity: finding.Caution, About: fmt.Sprintf("step %d", x.Number), Source: "evaporation from an open surface in still air, by the published table; a home pot of 10 in",
		Says: fmt.Sprintf("with the lid off some %.1f %% of it goes off at home in %s, and is taken for lost here. From the kitchen's %s, full once, some %.1f %% does in that time", 100*home, x.time.Show(unit.US), name, 100*ours),
		Fix:  "let it boil down longer, or write that much less water; once you have weighed it, give evaporation: and make-up:"})
}

// largest is the largest pot, its surface and what it holds when it is filled to four fifths.
func (d *drafter) largest() (name string, areaM2, holdsL float64) {
	for _, id := range d.vessels("pot") {
		e := d.book.Equipment[id]
		r := e.Diameter.M() / 2
		if e.Volume.L() > holdsL && r > 0 {
			name, areaM2, holdsL = strings.TrimPrefix(e.Name, "the "), math.Pi*r*r, e.Volume.L()
		}
	}
	return name, areaM2, holdsL * 0.8
}
