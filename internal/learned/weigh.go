package learned

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"kettlefrost/internal/board"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// weighed is what was entered of the masses of one dish in a run.
type weighed struct {
	out     map[kitchen.OutputID]float64 // kg that came out, spills before the weighing put back
	gone    map[kitchen.OutputID]float64 // of that, thrown away: it went no further
	why     map[kitchen.OutputID]string  // what was weighed and cannot be used
	notes   map[kitchen.OutputID][]string
	used    map[useOf]float64 // kg as purchased
	assumed []string          // ingredients that are taken as planned
	spoilt  string            // why no mass of this dish can be used
}

// stuckWords tell that what was thrown away is what stayed in the vessel.
var stuckWords = []string{"stuck", "stick", "pot", "pan", "kettle", "vessel", "scrap", "residue", "bottom", "wall"}

func isStuck(why string) bool {
	why = strings.ToLower(why)
	return slices.ContainsFunc(stuckWords, func(w string) bool { return strings.Contains(why, w) })
}

// weighedOf reads the entries of one dish.
func weighedOf(d *day, dish plan.ExpectedDish) weighed {
	w := weighed{out: map[kitchen.OutputID]float64{}, gone: map[kitchen.OutputID]float64{}, why: map[kitchen.OutputID]string{}, notes: map[kitchen.OutputID][]string{}, used: map[useOf]float64{}}
	w.outputs(d, dish)
	w.thrown(d.made.Run, dish)
	w.entered(d.made, dish)
	for _, s := range dish.Steps {
		for i, key := range s.Tasks {
			if t := d.tasks[key]; t != nil && t.Is == board.Skipped && s.ID == s.Head {
				w.spoilt = fmt.Sprintf("load %d of %s was not cooked: %s", i+1, s.ID, t.Why)
			}
		}
	}
	return w
}

// outputs adds up what was weighed of each output; where nobody weighed, what was made into a lot.
func (w *weighed) outputs(d *day, dish plan.ExpectedDish) {
	for _, s := range dish.Steps {
		for _, o := range s.Out {
			sum, n, last := 0.0, 0, record.Instant(0)
			if kg := spilt(d.made.Run, dish.ID, string(o.ID), math.MaxInt64); kg > 0 {
				w.gone[o.ID] = kg
			}
			add := func(of, output string, mass unit.Mass, at record.Instant) {
				if output == string(o.ID) && (of == dish.ID || of == "" && d.onlyIn(dish.ID, o.ID)) {
					sum, n, last = sum+mass.Kg(), n+1, max(last, at)
				}
			}
			for t, x := range board.Of[record.Weighed](d.made.Run) {
				add(x.Dish, x.Output, x.Net, t.Happened)
			}
			if n == 0 {
				for t, x := range board.Of[record.Made](d.made.Run) {
					add(x.Dish, x.Output, x.Mass, t.Happened)
				}
			}
			switch each := o.Kg / float64(max(1, s.Loads)); {
			case n == 0:
				w.why[o.ID] = string(o.ID) + " was not weighed"
			case n < s.Loads && sum < o.Kg-each/2:
				w.why[o.ID] = fmt.Sprintf("%d of %d loads of %s were weighed", n, s.Loads, o.ID)
			default:
				spilt := spilt(d.made.Run, dish.ID, string(o.ID), last)
				w.out[o.ID] = sum + spilt
				if spilt > 0 {
					w.notes[o.ID] = append(w.notes[o.ID], unit.MassKg(spilt).String()+" thrown away before it was weighed counts as come out")
				}
			}
		}
	}
}

// onlyIn says whether an output of no other dish of the run has the name.
func (d *day) onlyIn(dish string, o kitchen.OutputID) bool {
	for _, x := range d.made.Expected.Dishes {
		for _, s := range x.Steps {
			if x.ID != dish && slices.ContainsFunc(s.Out, func(y plan.ExpectedOut) bool { return y.ID == o }) {
				return false
			}
		}
	}
	return true
}

// spilt is what was thrown away of an output up to a time, but for what stuck to the vessel.
func spilt(r *board.Run, dish, output string, until record.Instant) float64 {
	sum := 0.0
	for t, x := range board.Of[record.Wasted](r) {
		if x.Dish == dish && x.Output == output && t.Happened <= until && !isStuck(x.Why) {
			sum += x.Mass.Kg()
		}
	}
	return sum
}

// thrown refuses the masses of a dish of which something was thrown away that nobody can place.
func (w *weighed) thrown(r *board.Run, dish plan.ExpectedDish) {
	for _, x := range board.Of[record.Wasted](r) {
		if x.Dish == dish.ID && x.Output == "" {
			w.spoilt = fmt.Sprintf("%s of it were thrown away (%s), and nobody entered of which step", x.Mass, x.Why)
		}
	}
}

// madeHere is that a lot was made in the same run: it is in the masses of its step already.
func madeHere(r *board.Run, lot record.Lot) bool {
	for _, x := range board.Of[record.Made](r) {
		if x.Lot == lot {
			return true
		}
	}
	return false
}

// leastEntered is the share of what was planned below which what was entered as used is taken for a part of it.
const leastEntered = 0.7

// entered adds up what went in, as purchased.
func (w *weighed) entered(m Made, dish plan.ExpectedDish) {
	need, in := map[kitchen.IngredientID][]useOf{}, map[useOf]float64{}
	for _, s := range dish.Steps {
		for _, u := range s.In {
			if at := (useOf{s.Index, u.Of}); u.Of != "" {
				if !slices.Contains(need[u.Of], at) {
					need[u.Of] = append(need[u.Of], at)
				}
				in[at] += u.Kg
			}
		}
	}
	for _, x := range board.Of[record.Used](m.Run) {
		if x.Dish != dish.ID || madeHere(m.Run, x.Lot) {
			continue
		}
		of := kitchen.IngredientID(m.Goods[x.Lot])
		places := need[of]
		if x.Step != "" {
			places = slices.DeleteFunc(slices.Clone(places), func(p useOf) bool {
				return !slices.ContainsFunc(dish.Steps, func(s plan.ExpectedStep) bool { return s.Index == p.step && s.ID == x.Step })
			})
		}
		switch {
		case of == "" || len(need[of]) == 0:
			w.spoilt = fmt.Sprintf("%s of lot %s went in, which the plan does not have", x.Mass, x.Lot)
		case len(places) == 1:
			w.used[places[0]] += x.Mass.Kg()
		}
	}
	for at, kg := range in {
		ap := kg / (1 - m.Book.Ingredients[at.of].Trim.F())
		if got, some := w.used[at]; some && got < leastEntered*ap {
			delete(w.used, at)
			w.assumed = append(w.assumed, fmt.Sprintf("of %s only a part was entered: as planned", at.of))
		}
	}
	slices.Sort(w.assumed)
}
