package plan

import (
	"cmp"
	"context"
	"fmt"
	"math"

	"kettlefrost/internal/controlchart"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// FillingSchema names the shape of LotWeights.
const FillingSchema = "kettlefrost.filling/1"

// LotWeights is the check-weights of one filling of a pack.
type LotWeights struct {
	Schema   string      `json:"schema"`
	Kitchen  string      `json:"kitchen"`
	Note     string      `json:"note,omitempty"`
	Units    unit.System `json:"units"`
	Currency string      `json:"currency"`
	Pack     string      `json:"pack"`
	Name     string      `json:"name"`
	Date     string      `json:"date,omitempty"`
	Lot      int         `json:"lot,omitempty"` // packs filled
	Label    unit.Mass   `json:"label_g"`
	Tare     unit.Mass   `json:"tare_g"` // mean
	Nets     []unit.Mass `json:"nets_g"` // in the order of filling
	Mean     unit.Mass   `json:"mean_g"`
	SD       unit.Mass   `json:"sd_g"`    // of single packs
	Given    unit.Mass   `json:"given_g"` // mean less label, each
	Below    int         `json:"below"`   // packs weighed that are below the label
	Lower    unit.Mass   `json:"lower_g"` // control limits of single packs
	Upper    unit.Mass   `json:"upper_g"`
	Signals  []Drift     `json:"signals"`
	TooFew   bool        `json:"too_few"` // for limits that can be relied on
	Net      NetContents `json:"net_contents"`
}

// Drift is a pattern that chance alone seldom makes.
type Drift struct {
	Rule   string `json:"rule"`
	Side   string `json:"side"`
	Points []int  `json:"points"` // counted from 1
}

// reliedOn is how many weights are customary before control limits are relied on: common practice.
const reliedOn = 20

// WeighFilling reads check-weights: net weights, how they scatter, and whether they drift. Without any weights it says how to fill a pack that
// nobody has weighed. An error says what cannot be read.
func WeighFilling(book kitchen.Book, foods *foodtable.Table, id kitchen.PackID, w kitchen.Weighing) (LotWeights, error) {
	pack, ok := book.Packs[id]
	if !ok {
		return LotWeights{}, fmt.Errorf("the book has no pack %s", id)
	}
	p := newPlanner(context.Background(), book, foods, kitchen.Request{})
	d, err := p.compile(pack.Dish)
	if err != nil {
		return LotWeights{}, fmt.Errorf("dish %s: %w", pack.Dish, err)
	}
	f := LotWeights{Schema: FillingSchema, Kitchen: book.Kitchen.Name, Note: book.Kitchen.Note, Units: book.Kitchen.Units, Currency: p.out.Currency, Pack: string(id), Name: pack.Name, Date: w.Date, Lot: w.Lot, Label: p.labelMass(d, id), Nets: []unit.Mass{}, Signals: []Drift{}}
	switch {
	case len(w.Tare)+len(w.Gross) == 0:
		f.Lot = cmp.Or(w.Lot, p.lotOf(id))
	case len(w.Tare) < 2 || len(w.Gross) < 2:
		return f, fmt.Errorf("%d empty bags and %d packs were weighed: weigh two bags and two packs at least", len(w.Tare), len(w.Gross))
	default:
		if err := f.chart(w); err != nil {
			return f, err
		}
	}
	f.Net = p.netContents(d, id, w)
	return f, nil
}

// chart takes the bags off and looks for drift.
func (f *LotWeights) chart(w kitchen.Weighing) error {
	for _, m := range w.Tare {
		f.Tare += m
	}
	f.Tare /= unit.Mass(len(w.Tare))
	var grams []float64
	sum := unit.Mass(0)
	for _, m := range w.Gross {
		net := m - f.Tare
		f.Nets, sum = append(f.Nets, net), sum+net
		grams = append(grams, net.Kg()*1000)
		if net < f.Label {
			f.Below++
		}
	}
	f.Mean = sum / unit.Mass(len(f.Nets))
	f.Given = f.Mean - f.Label
	f.SD = unit.MassKg(deviation(grams) / 1000)
	standard, err := controlchart.Learn(controlchart.Individuals, controlchart.Singles(grams))
	if err != nil {
		return err
	}
	chart, err := standard.Plot(controlchart.Singles(grams), controlchart.Nelson)
	if err != nil {
		return err
	}
	f.Lower, f.Upper = unit.MassKg(chart.Location.Lower/1000), unit.MassKg(chart.Location.Upper/1000)
	f.TooFew = len(grams) < reliedOn
	for _, s := range chart.Location.Signals {
		d := Drift{Rule: s.Rule.String(), Side: s.Side.String()}
		for _, i := range s.Points {
			d.Points = append(d.Points, i+1)
		}
		f.Signals = append(f.Signals, d)
	}
	return nil
}

// deviation is the sample standard deviation.
func deviation(x []float64) float64 {
	mean, squares := 0.0, 0.0
	for _, v := range x {
		mean += v / float64(len(x))
	}
	for _, v := range x {
		squares += (v - mean) * (v - mean)
	}
	return math.Sqrt(squares / float64(len(x)-1))
}
