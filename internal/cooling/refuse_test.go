package cooling

import (
	"errors"
	"math"
	"reflect"
	"testing"

	"kettlefrost/internal/coolrule"
	"kettlefrost/internal/heat"
	"kettlefrost/internal/medium"
)

// Every number of every way, in turn made nothing a kitchen has: an error, never a panic and never a verdict.
func TestNonsenseIsRefused(t *testing.T) {
	rule := coolrule.FoodCodeCooked()
	refused := func(what string, f Food, p Plan) {
		o := Compare(f, []Plan{p}, rule)[0]
		var r *heat.RangeError
		if o.Verdict != Unknown || !errors.As(o.Err, &r) {
			t.Errorf("%s: %v, %v", what, o.Verdict, o.Err)
		}
	}
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1e7, 1e12} {
		for i, p := range ways() {
			for s := range p.Stages {
				way := reflect.ValueOf(p.Stages[s].Way)
				for _, path := range numbers(way.Type()) {
					broken := reflect.New(way.Type()).Elem()
					broken.Set(way)
					if of := broken.FieldByIndex(path); idle(broken, way.Type(), path) {
						continue
					} else {
						of.SetFloat(bad)
					}
					stages := append([]Stage(nil), p.Stages...)
					stages[s].Way = broken.Interface().(Way)
					refused(way.Type().FieldByIndex(path).Name, stew(), Plan{stages})
					_ = i
				}
			}
		}
		for what, change := range map[string]func(*Food){
			"mass": func(f *Food) { f.MassKg = bad }, "start": func(f *Food) { f.StartC = bad }, "water": func(f *Food) { f.AddedWaterKg = bad },
			"density": func(f *Food) { f.Props.DensityKgM3 = bad },
		} {
			f := stew()
			change(&f)
			refused(what, f, ways()[0])
		}
	}
	none := stew()
	none.MassKg = 0
	refused("no food", none, ways()[0])
	cold := stew()
	cold.StartC = 4
	refused("cold food", cold, ways()[0])
	refused("no stage", stew(), Plan{})
}

// idle is a number that nobody reads: those of paddles that there are not.
func idle(way reflect.Value, in reflect.Type, path []int) bool {
	return len(path) > 1 && in.Field(path[0]).Name == "Paddles" && way.Field(path[0]).FieldByName("Have").Int() == 0
}

// numbers is the paths to all floats of a struct.
func numbers(t reflect.Type) (paths [][]int) {
	for i := range t.NumField() {
		switch f := t.Field(i); f.Type.Kind() {
		case reflect.Float64:
			paths = append(paths, []int{i})
		case reflect.Struct:
			for _, below := range numbers(f.Type) {
				paths = append(paths, append([]int{i}, below...))
			}
		}
	}
	return paths
}

func TestSenselessPlans(t *testing.T) {
	pieces := stew()
	pieces.Pieces = true
	o := Compare(pieces, []Plan{one(stewPot()), one(hotelPans(0.05))}, coolrule.FoodCodeCooked())
	var p *PiecesError
	if !errors.As(o[0].Err, &p) || o[1].Err != nil {
		t.Errorf("pieces: stirred %v, in pans %v", o[0].Err, o[1].Err)
	}
	for what, plan := range map[string]Plan{
		"no way":   {[]Stage{{}}},
		"late ice": {[]Stage{{Way: stewPot(), UntilC: 50}, {Way: HeldIce{Share: 1}}}},
		"crooked":  one(Pot{DiameterM: 0.3, FillM3: 1, Have: 1, Wall: medium.Film{LowWM2K: 20, UsualWM2K: 10, HighWM2K: 30}}),
	} {
		if o := Compare(stew(), []Plan{plan}, coolrule.FoodCodeCooked())[0]; o.Err == nil || o.Verdict != Unknown {
			t.Errorf("%s: %v", what, o.Verdict)
		}
	}
	if o := Compare(stew(), ways()[:1], coolrule.Rule{})[0]; o.Err == nil {
		t.Errorf("no rule: %v", o.Verdict)
	}
}

func FuzzCompare(f *testing.F) {
	f.Add(117.0, 93.3, 0.05, 20.0, 12.0, 3.0, 0.5, 3000.0, 0.5, 100.0, 80.0, 40.0, 20.0, uint8(7))
	f.Add(10.0, 60.0, 0.1, 8.0, 0.0, -30.0, 0.0, 0.0, 0.3, 50.0, 5.0, 0.0, 0.0, uint8(2))
	f.Fuzz(func(t *testing.T, kg, startC, depthM, top, bottom, airC, wet, coolingW, diameterM, wall, iceKg, waterKg, lossWK float64, kinds uint8) {
		food := Food{MassKg: kg, Props: soup, StartC: startC, AddedWaterKg: kg / 5}
		pans := Pans{LengthM: 0.5, WidthM: 0.3, DepthM: depthM, Have: 30, Top: same(top), Bottom: same(bottom), AirC: airC, Wet: wet, CoolingW: coolingW}
		pot := Pot{DiameterM: diameterM, FillM3: 0.1, Have: 2, Wall: same(wall), Top: same(top), AirC: airC, Wet: wet,
			Bath: Bath{Ice: Ice(kinds % 4), TempC: airC, IceKg: iceKg, IceC: -5, WaterKg: waterKg, WaterC: 15, LossWK: lossWK, AmbientC: airC}}
		if kinds&4 != 0 {
			pot.Paddles = Paddles{Have: int(kinds >> 4), Together: 1 + int(kinds>>6), WaterKg: depthM * 50, AreaM2: depthM, Film: same(wall), StartC: -18, RefreezeS: lossWK * 100}
		}
		ice := HeldIce{Share: wet, IceC: -10, MeltS: lossWK}
		for i, o := range Compare(food, []Plan{one(pans), one(pot), {[]Stage{{Way: ice}, {Way: pot, UntilC: 30, AtMostS: lossWK * 10}, {Way: pans}}}}, coolrule.FoodCodeCooked()) {
			if (o.Err == nil) == (o.Verdict == Unknown) {
				t.Fatalf("%d: %v, %v", i, o.Verdict, o.Err)
			}
			finite(t, reflect.ValueOf(o))
		}
	})
}

// finite fails on any number in a value that is none.
func finite(t *testing.T, v reflect.Value) {
	switch v.Kind() {
	case reflect.Float64:
		if x := v.Float(); math.IsNaN(x) || math.IsInf(x, 0) {
			t.Fatalf("%v in an option", x)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			finite(t, v.Field(i))
		}
	case reflect.Slice:
		for i := range v.Len() {
			finite(t, v.Index(i))
		}
	}
}
