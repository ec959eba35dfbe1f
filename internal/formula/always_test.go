package formula_test

import (
	"encoding/json"
	"fmt"
	"maps"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/formula"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/stability"
	"kettlefrost/internal/unit"
)

// drawDish draws a dish of a few steps, each of which takes some ingredients and all that the one before it gives; some are hot, some in a blender,
// some give pieces, some lose water.
func drawDish(t *rapid.T, book kitchen.Book) kitchen.Dish {
	all := slices.Sorted(maps.Keys(book.Ingredients))
	var dish kitchen.Dish
	dish.Name = rapid.SampledFrom([]string{"a stew", "a sauce", "a soup", "a dip"}).Draw(t, "name")
	dish.PH = rapid.SampledFrom([]float64{0, 4.2, 5.5, 6.8}).Draw(t, "pH")
	for i := range rapid.IntRange(1, 4).Draw(t, "steps") {
		s := kitchen.Step{ID: fmt.Sprintf("step-%d", i), Do: rapid.SampledFrom([]string{"Stir.", "Mash the potatoes.", "Simmer until the lentils fall apart.", "Melt until smooth.", "Boil until al dente."}).Draw(t, "do"),
			In: []kitchen.EquipmentID{rapid.SampledFrom([]kitchen.EquipmentID{"kettle", "blender", "pot-20"}).Draw(t, "in")}, Time: unit.Span(rapid.IntRange(0, 40).Draw(t, "minutes")) * unit.Minute}
		for k, of := range rapid.SliceOfNDistinct(rapid.SampledFrom(all), 1, 4, rapid.ID).Draw(t, "uses") {
			grams := rapid.Int64Range(1, 5000).Draw(t, "grams")
			s.Use = append(s.Use, kitchen.Use{Of: of, Amount: unit.Amount{Kind: unit.AmountMass, Mass: unit.Mass(grams) * unit.Gram}})
			if k == 0 && rapid.Bool().Draw(t, "made up") {
				s.MakeUp = of
			}
		}
		if i > 0 {
			s.Use = append(s.Use, kitchen.Use{From: kitchen.OutputID(fmt.Sprintf("out-%d", i-1)), Take: kitchen.Take{Given: true, Share: unit.Whole}})
		}
		if rapid.Bool().Draw(t, "hot") {
			hot := unit.TempC(float64(rapid.IntRange(40, 100).Draw(t, "°C")))
			s.HeatTo = &hot
		}
		s.Loses.Water = unit.Share(rapid.Int64Range(0, int64(20*unit.PerCent)).Draw(t, "loses"))
		out := kitchen.Output{ID: kitchen.OutputID(fmt.Sprintf("out-%d", i))}
		if rapid.IntRange(0, 5).Draw(t, "pieces") == 0 {
			out.Piece = 40 * unit.Gram
		}
		s.Gives = []kitchen.Output{out}
		dish.Steps = append(dish.Steps, s)
	}
	return dish
}

// Whatever is cooked: the pot weighs what its parts weigh, none weighs more than was put in, a report is made of it that can be written down, a remedy
// that was tried leaves no more than was found, and a range begins before it ends and ends at its maximum.
func TestAnyDish(t *testing.T) {
	book := bookWith(t, larder)
	rapid.Check(t, func(rt *rapid.T) {
		book.Dishes["drawn"] = drawDish(rt, book)
		last := kitchen.OutputID(fmt.Sprintf("out-%d", len(book.Dishes["drawn"].Steps)-1))
		s := formula.Subject{Dish: "drawn", Output: last}
		p, err := formula.PotOf(book, table(t), s)
		if err != nil { // more water is to go than there is
			return
		}
		var kg float64
		for _, x := range p.Parts {
			kg += x.Kg
			if x.Kg > x.PutInKg*(1+1e-9) {
				rt.Fatalf("%s weighs %g kg of %g", x.Name, x.Kg, x.PutInKg)
			}
		}
		if math.Abs(kg-p.Mass.Kg()) > 1e-8*kg+1e-8 {
			rt.Fatalf("parts weigh %g kg, the pot %g", kg, p.Mass.Kg())
		}
		r, err := formula.ReportOf(book, table(t), formula.Asked{Subject: s, Want: formula.Want{Mass: unit.Mass(rapid.Int64Range(1, 1_000_000).Draw(rt, "asked")) * unit.Gram, Thickness: "thick", Use: "soup"}})
		if err != nil {
			rt.Fatal(err)
		}
		if _, err := json.Marshal(r); err != nil {
			rt.Fatal(err)
		}
		for _, f := range r.Review.Findings {
			if f.Grade < int(stability.Note) || f.Mechanism == "" || f.Source == "" {
				rt.Fatalf("%+v", f)
			}
		}
		for _, l := range r.Doses.Lines {
			for _, d := range l.Doses {
				if d.LowG < 0 || d.LowG > d.TargetG || d.TargetG > d.HighG || d.MostG > 0 && d.HighG > d.MostG {
					rt.Fatalf("%s: %+v", l.Key, d)
				}
			}
		}
		if y := r.Predicted; y != nil && !(y.ColdestC <= y.WarmestC && y.WarmestC <= 0 && y.Liquid <= y.LiquidMost+1e-9 && y.Ice >= 0 && y.Ice <= 1 && y.Life.Least <= y.Life.Most) {
			rt.Fatalf("%+v", y)
		}
	})
}

// A long book: a hundred packs are reviewed, each with how it freezes.
func BenchmarkListOf(b *testing.B) {
	book := demoBook(b)
	for i := range 100 {
		book.Packs[kitchen.PackID(fmt.Sprintf("copy-%d", i))] = book.Packs["bean-pot-2lb"]
	}
	for b.Loop() {
		formula.ListOf(book, table(b))
	}
}

func BenchmarkReportOf(b *testing.B) {
	book := demoBook(b)
	for b.Loop() {
		if _, err := formula.ReportOf(book, table(b), formula.Asked{Subject: formula.Subject{Pack: "ale-cheddar-lb"}}); err != nil {
			b.Fatal(err)
		}
	}
}
