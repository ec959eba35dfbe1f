package unit

import (
	"reflect"
	"testing"
)

func TestTidy(t *testing.T) {
	for _, c := range []struct {
		like any
		text string
		want string
	}{
		{Mass(0), "2.50 lbs", "2.5 lb"}, {Mass(0), "12oz", "12 oz"}, {Mass(0), "2lb3oz", "2 lb 3 oz"}, {Mass(0), "1½ pounds", "1 1/2 lb"},
		{Mass(0), "0012 g", "12 g"}, {Mass(0), ".5 kg", "0.5 kg"}, {Mass(0), "1,250 g", "1250 g"}, {Mass(0), "4/8 oz", "1/2 oz"},
		{Temp(0), "165F", "165 °F"}, {Temp(0), "-18 c", "-18 °C"}, {Temp(0), "50 deg f", "50 °F"},
		{Span(0), "1hr 30mins", "1 h 30 min"}, {Share(0), "12.50%", "12.5 %"}, {Power(0), "30,000 btu/hr", "30000 Btu/h"},
		{Volume(0), "1/2 c", "1/2 cup"}, {Volume(0), "2 c", "2 cups"}, {Length(0), "1 foot 4 inches", "1 ft 4 in"},
		{Amount{}, "2 C, Chopped", "2 cups, chopped"}, {Amount{}, "3 EACH", "3 each"}, {Amount{}, "2 pounds", "2 lb"},
		{Density(0), "1.030 kg/litre", "1.03 kg/L"}, {Film(0), "10 w/m²·K", "10 W/m2K"}, {Pace(0), "3 min/kg", "3 min/kg"},
	} {
		if got, err := Tidy(c.like, c.text); err != nil || got != c.want {
			t.Errorf("Tidy(%T, %q) = %q, %v, want %q", c.like, c.text, got, err, c.want)
		}
	}
	if _, err := Tidy(Mass(0), "2 cups"); err == nil {
		t.Error("a volume is no mass")
	}
}

// What is tidied reads as it did, and stays when it is tidied again.
func FuzzTidy(f *testing.F) {
	for _, s := range []string{"2.50 lbs", "1 1/2 cups, chopped", "165F", "1hr 30", "0.1 g", "12 lb 4 1/2 oz", "-18 C", "3 each", "1e5 g", "½ c", "9/7 h"} {
		f.Add(s)
	}
	likes := []any{Mass(0), Volume(0), Length(0), Temp(0), TempDiff(0), Span(0), Power(0), Share(0), Density(0), AreaLoad(0), Evaporation(0), Pace(0), Film(0), Amount{}}
	f.Fuzz(func(t *testing.T, text string) {
		for _, like := range likes {
			tidy, err := Tidy(like, text)
			if err != nil {
				continue
			}
			was, now := readAs(t, like, text), readAs(t, like, tidy)
			if !reflect.DeepEqual(was, now) {
				t.Errorf("%T: %q is %v, tidied %q is %v", like, text, was, tidy, now)
			}
			if again, err := Tidy(like, tidy); err != nil || again != tidy {
				t.Errorf("%T: %q, tidied again %q, %v", like, tidy, again, err)
			}
		}
	})
}

func readAs(t *testing.T, like any, text string) any {
	t.Helper()
	v := reflect.New(reflect.TypeOf(like))
	if err := v.Interface().(interface{ UnmarshalText([]byte) error }).UnmarshalText([]byte(text)); err != nil {
		t.Fatalf("%T: %q: %v", like, text, err)
	}
	return v.Elem().Interface()
}
