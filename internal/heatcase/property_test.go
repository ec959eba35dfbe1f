package heatcase

import (
	"cmp"
	"encoding/json"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/unit"
)

// kitchens draws cases that a kitchen could ask, of one process, flat so that they are quick.
func kitchens(t *rapid.T) Case {
	c := Example(rapid.SampledFrom(Processes()).Draw(t, "process"))
	c.From, c.To = nil, nil
	c.Around = Surroundings{}
	c.Shape = Shape{Kind: rapid.SampledFrom([]Kind{Pan, Bag, Slab}).Draw(t, "kind"), Thickness: unit.LengthM(rapid.Float64Range(0.005, 0.15).Draw(t, "thickness"))}
	if c.Shape.Kind == Bag {
		c.Shape.Stack = rapid.IntRange(0, 5).Draw(t, "stack")
		c.Package = rapid.SampledFrom([]Package{"", NoPackage, Film, Carton}).Draw(t, "package")
	}
	film := unit.Film(rapid.Float64Range(3, 800).Draw(t, "film"))
	c.Around.Film = &film
	water := rapid.IntRange(40, 93).Draw(t, "water")
	rest := 100 - water
	fat := rapid.IntRange(0, rest).Draw(t, "fat")
	c.Food.Composition = Composition{Water: unit.Share(water) * unit.PerCent, Fat: unit.Share(fat) * unit.PerCent, Carbohydrate: unit.Share(rest-fat) * unit.PerCent}
	c.Open = c.Process == Cool && c.Shape.Kind != Bag && rapid.Bool().Draw(t, "open")
	return c.WithDefaults()
}

func timeOf(t *rapid.T, c Case) float64 {
	q, err := c.question()
	if err != nil {
		t.Fatalf("%v: %v", c.Given(), err)
	}
	run, _, err := q.simulate(usualFilm)
	if err != nil {
		t.Fatalf("%v: %v", c.Given(), err)
	}
	if !run.Reached {
		t.Skip("it takes longer than a month")
	}
	return run.TimeS
}

// slack is twice the 1 % that the simulation promises of each time.
const slack = 0.02

func TestThickerIsNeverSooner(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := kitchens(t)
		thin := timeOf(t, c)
		c.Shape.Thickness += unit.Length(float64(c.Shape.Thickness) * rapid.Float64Range(0.01, 1).Draw(t, "thicker"))
		if thick := timeOf(t, c); thick < thin*(1-slack) {
			t.Fatalf("%v takes %g s, thinner %g s", c.Given(), thick, thin)
		}
	})
}

func TestBetterFilmIsNeverLater(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := kitchens(t)
		c.Open = false // a wet surface can be colder than the air, which a better film then warms
		slow := timeOf(t, c)
		better := *c.Around.Film * unit.Film(rapid.Float64Range(1, 4).Draw(t, "better"))
		c.Around.Film = &better
		if fast := timeOf(t, c); fast > slow*(1+slack) {
			t.Fatalf("%v takes %g s, with less film %g s", c.Given(), fast, slow)
		}
	})
}

// A medium farther from the target is never slower, and a gap or a package never makes it faster.
func TestHelpHelps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := kitchens(t)
		plain := timeOf(t, c)
		farther, hindered := c, c
		around, _, _ := c.sides()
		k := rapid.Float64Range(0.5, 20).Draw(t, "kelvin")
		if c.Process.chills() {
			k = -k
		}
		farther.Around.At = new(unit.TempC(around.tempC + k))
		if fast := timeOf(t, farther); fast > plain*(1+slack) {
			t.Fatalf("%v takes %g s, nearer to the target %g s", farther.Given(), fast, plain)
		}
		hindered.Package = AirGap
		hindered.Open = false
		if slow := timeOf(t, hindered); slow < plain*(1-slack) {
			t.Fatalf("%v takes %g s, without a package %g s", hindered.Given(), slow, plain)
		}
	})
}

// Whatever is drawn is answered in finite numbers that JSON can carry, in time order, the band around the usual.
func TestAnswersAreWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, err := kitchens(t).Answer()
		if err != nil {
			t.Fatal(err)
		}
		whole(t, a)
	})
}

// checker is what both testing.T and rapid.T do.
type failing interface {
	Helper()
	Fatalf(string, ...any)
}

func whole(t failing, a Answer) {
	t.Helper()
	if _, err := json.Marshal(a); err != nil { // JSON carries neither NaN nor infinities
		t.Fatalf("%s: %v", a.Question, err)
	}
	if b := a.Time; b.Fast.compare(b.Usual) > 0 || b.Usual.compare(b.Slow) > 0 {
		t.Fatalf("%s: the band is %+v", a.Question, b)
	}
	for i, m := range a.Marks {
		if i > 0 && m.Usual.TimeS < a.Marks[i-1].Usual.TimeS {
			t.Fatalf("%s: %g °C is passed before %g °C", a.Question, m.TempC, a.Marks[i-1].TempC)
		}
	}
	for _, r := range a.Runs {
		if len(r.Curve) < 2 || len(r.Curve) > curvePoints+1 || r.Curve[0].TimeS != 0 || r.Curve[len(r.Curve)-1].TimeS != r.TimeS {
			t.Fatalf("%s: %d points of %g s", a.Question, len(r.Curve), r.TimeS)
		}
		if r.Closure > roughClosure {
			t.Fatalf("%s: energy is open by %g", a.Question, r.Closure)
		}
		for _, p := range r.Profiles {
			rises := slices.IsSortedFunc(p.Places, func(a, b PlaceAt) int { return cmp.Compare(a.DepthMm, b.DepthMm) })
			if n := len(p.Places); n < 2 || n > profilePlaces || !rises || p.Places[0].DepthMm != 0 {
				t.Fatalf("%s: a profile of %d places: %v", a.Question, n, p.Places)
			}
		}
		for i, p := range r.Curve {
			if i > 0 && p.TimeS <= r.Curve[i-1].TimeS || math.Abs(p.CoreC) > 200 {
				t.Fatalf("%s: point %d is %+v", a.Question, i, p)
			}
		}
	}
}

// What a case says of itself can be told to another, which then is the same.
func TestTextAndSetAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := kitchens(t)
		var again Case
		for key, text := range c.Given() {
			if err := again.Set(key, text); err != nil {
				t.Fatalf("%s %q: %v", key, text, err)
			}
		}
		for _, f := range Fields() {
			if a, b := c.Text(f.Key), again.Text(f.Key); a != b {
				t.Fatalf("%s is %q, then %q", f.Key, a, b)
			}
		}
	})
}
