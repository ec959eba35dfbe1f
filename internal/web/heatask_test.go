package web

import (
	"net/url"
	"strings"
	"testing"

	"kettlefrost/internal/heatcase"
	"kettlefrost/internal/unit"
)

// was is a form as it was shown, and what the cook changed in it.
func was(shown string, changed ...string) url.Values {
	v, _ := url.ParseQuery(shown)
	v.Set("was", shown)
	for i := 0; i < len(changed); i += 2 {
		v.Set(changed[i], changed[i+1])
	}
	return v
}

const (
	coolPan = "process=cool&shape=pan&pan=2+in&slide=16&in=walk-in-fan&at=38+°F&from=200+°F&to=41+°F&package=none&units=us&food=&water=86+%25&protein=4+%25&fat=3+%25&carbohydrate=6+%25&ash=1+%25&name=soup"
	coolPot = "process=cool&shape=pot&pot=12+in+x+10+in&slide=20&in=ice-bath-still&from=200+°F&to=41+°F&stir=thin&u=200+W/m2K&units=us&food=16070"
)

// The newest change wins; what it makes senseless goes back to what is usual, and what was changed with it stays.
func TestNewestChangeWins(t *testing.T) {
	for _, c := range []struct {
		name  string
		query url.Values
		want  map[string]string // key: text, "" for not given
	}{
		{"nothing changed", was(coolPan), map[string]string{"pan": "2 in", "at": "38 °F", "from": "200 °F", "water": "86 %"}},
		{"another process has other temperatures", was(coolPan, "process", "freeze"), map[string]string{"process": "freeze", "pan": "2 in", "in": "", "at": "", "from": "", "to": "", "water": "86 %"}},
		{"but not those changed with it", was(coolPan, "process", "freeze", "to", "10 °F"), map[string]string{"to": "10 °F", "from": ""}},
		{"another medium has its own temperature", was(coolPan, "in", "ice-bath-still"), map[string]string{"in": "ice-bath-still", "at": "", "from": "200 °F"}},
		{"a thickness goes from pan to bag", was(coolPan, "shape", "bag"), map[string]string{"pan": "", "bag": "2 in", "package": ""}},
		{"a pot has sizes of its own", was(coolPan, "shape", "pot"), map[string]string{"pan": "", "pot": "12 in x 10 in"}},
		{"only a pot is stirred", was(coolPot, "shape", "pan"), map[string]string{"stir": "", "u": "", "pan": "2 in"}},
		{"what freezes is not stirred", was(coolPot, "process", "freeze"), map[string]string{"stir": "", "u": "", "pot": "12 in x 10 in"}},
		{"a food in place of a composition", was(coolPan, "food", "lentil"), map[string]string{"food": "lentil", "water": "", "ash": "", "name": ""}},
		{"a composition in place of a food", was(coolPot, "water", "100 %"), map[string]string{"food": "", "water": "100 %"}},
		{"the slider moves the pan", was(coolPan, "slide", "17"), map[string]string{"pan": "2 1/8 in"}},
		{"the slider wins over the text", was(coolPan, "slide", "8", "pan", "a lot"), map[string]string{"pan": "1 in"}},
		{"the text wins over a slider at rest", was(coolPan, "pan", "70 mm"), map[string]string{"pan": "70 mm"}},
		{"the slider moves the depth of a pot", was(coolPot, "slide", "9"), map[string]string{"pot": "12 in x 4.5 in"}},
		{"the slider stops at its ends", was(coolPan, "slide", "9999"), map[string]string{"pan": "6 in"}},
		{"a slider that says nothing", was(coolPan, "slide", "much"), map[string]string{"pan": "2 in"}},
		{"a slider of the shape before", was(coolPan, "shape", "pot", "slide", "40"), map[string]string{"pot": "12 in x 10 in"}},
		{"metric steps", was(strings.ReplaceAll(coolPan, "units=us", "units=metric"), "units", "metric", "slide", "65"), map[string]string{"pan": "65 mm"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			units, _ := unit.ParseSystem(c.query.Get("units"))
			q := readHeat(c.query, units)
			for key, want := range c.want {
				if got := q.texts[key]; got != want && !sameLengths(got, want) {
					t.Errorf("%s is %q, want %q", key, got, want)
				}
			}
			if len(q.problems) > 0 {
				t.Errorf("found %v", q.problems)
			}
		})
	}
}

// sameLengths compares sizes, however they are written: 4.5 in is 4 1/2 in.
func sameLengths(a, b string) bool {
	as, bs := strings.Split(a, " x "), strings.Split(b, " x ")
	if len(as) != len(bs) {
		return false
	}
	for i := range as {
		x, errX := unit.ParseLength(as[i])
		y, errY := unit.ParseLength(bs[i])
		if errX != nil || errY != nil || x != y {
			return false
		}
	}
	return true
}

// Where the slider stands is where it would bring the shape: untouched it changes nothing.
func TestDialAtRest(t *testing.T) {
	for kind, d := range dials {
		for _, units := range []unit.System{unit.US, unit.Metric} {
			steps := d.steps(units)
			for n := steps.least; n <= steps.most; n++ {
				if got := steps.at(steps.length(n)); got != n {
					t.Errorf("%s: step %d stands at %d", kind, n, got)
				}
			}
			q := readHeat(url.Values{shapeKey: {string(kind)}, "process": {"cool"}, "units": {units.String()}}, units)
			if len(q.problems) > 0 {
				t.Errorf("%s begins with %v", kind, q.problems)
			}
		}
	}
}

// Whatever stands in the address, the page is made, its own form can be sent back, and the address it keeps asks the same.
func FuzzReadHeat(f *testing.F) {
	for _, query := range []string{coolPan, coolPot, "was=%zz&slide=1", "shape=pot&pot=x", "process=\xff&food=\x00", "stack=99999&bag=1+in", "in=closed&below=closed", "from=1e999+C"} {
		f.Add(query)
	}
	f.Fuzz(func(t *testing.T, raw string) {
		query, _ := url.ParseQuery(raw)
		q := readHeat(query, unit.US)
		if q.kind == "" || q.texts["process"] == "" {
			t.Fatalf("no shape or process of %q", raw)
		}
		if len(q.problems) > 0 {
			return
		}
		again := readHeat(q.query(), unit.US)
		if len(again.problems) > 0 || again.query().Encode() != q.query().Encode() {
			t.Errorf("%q is kept as %q, which reads as %q, %v", raw, q.query().Encode(), again.query().Encode(), again.problems)
		}
		if d := q.dial(); d.At < d.Least || d.At > d.Most {
			t.Errorf("the slider stands at %d of %d to %d", d.At, d.Least, d.Most)
		}
	})
}

func TestEveryKeyOfACaseHasAField(t *testing.T) {
	for _, text := range []string{"process=cool&bag=1+in", "process=cool&pot=12+in+x+10+in", "process=cool&pan=2+in"} {
		query, _ := url.ParseQuery(text)
		q := readHeat(query, unit.US)
		f := q.form(demoFoods(t), nil)
		shown := map[string]bool{"process": true, "units": true, f.Size.Key: true, f.Food.Key: true, f.From.Key: true, f.To.Key: true}
		for _, list := range [][]heatField{f.Parts, f.Stands, f.More} {
			for _, field := range list {
				if shown[field.Key] {
					t.Errorf("%s: %s stands there twice", text, field.Key)
				}
				shown[field.Key] = true
			}
		}
		for _, known := range heatcase.Fields() {
			if known.Group == "" && q.fits(known.Key) && !shown[known.Key] {
				t.Errorf("%s: there is no field for %s", text, known.Key)
			}
		}
	}
}
