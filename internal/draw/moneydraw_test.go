package draw

import "testing"

// dearInputs are made up: a pack of $4.10 and what it would cost if one thing were cheaper or dearer.
func dearInputs() Tornado {
	return Tornado{Title: "What moves the cost of a pack", Desc: "Cheddar moves it most.", Base: "$4.10", At: 4.10, Rows: []TornadoRow{
		{Name: "cheddar, 10 % cheaper or dearer", Low: 3.86, High: 4.34, LowText: "$3.86", HighText: "$4.34"},
		{Name: "yield, 3 % lower or higher", Low: 4.22, High: 3.98, LowText: "$4.22", HighText: "$3.98"},
		{Name: "hands, 10 % quicker or slower, with a name that is by far too long for one line of this drawing", Low: 4.04, High: 4.16, LowText: "$4.04", HighText: "$4.16"},
		{Name: "salt", Low: 4.10, High: 4.10, LowText: "$4.10", HighText: "$4.10"},
	}}
}

func TestTornadoGolden(t *testing.T) {
	golden(t, "testdata/tornado.svg", SVG(dearInputs().Picture()))
}

func TestTornadoSaysWhatItShows(t *testing.T) {
	d := read(t, SVG(dearInputs().Picture()))
	for _, want := range []string{"$4.10", "$3.86", "$4.34", "cheddar, 10 % cheaper or dearer", "low end", "high end"} {
		if !contains(d.texts, want) {
			t.Errorf("no %q among the texts %q", want, d.texts)
		}
	}
	if d.smallest < 16 {
		t.Errorf("type of %g, want 16 or more", d.smallest)
	}
	SVG(Tornado{Base: "nothing"}.Picture()) // no rows, no range
}

// drifting is a made-up filling that gets lighter.
func drifting() Weights {
	return Weights{Title: "Weights over the filling", Desc: "The last groups are light.", Points: []float64{459.2, 458.8, 459.9, 459.1, 458.2, 457.6, 457.1, 456.0, 455.1}, Centre: 458.4, Lower: 456.1, Upper: 460.7,
		Label: 453.6, Across: "groups of 4 packs, in the order of filling", Decimals: 1, Signals: []WeightSignal{{"beyond a limit", []int{7, 8}}, {"six in a row falling", []int{3, 4, 5, 6, 7, 8}}}}
}

func TestWeightsGolden(t *testing.T) {
	golden(t, "testdata/weights.svg", SVG(drifting().Picture()))
}

func TestWeightsSayWhatTheyShow(t *testing.T) {
	d := read(t, SVG(drifting().Picture()))
	for _, want := range []string{"upper limit", "lower limit", "centre", "label", "453.6 g", "460.7 g", "beyond a limit: 8, 9", "groups of 4 packs, in the order of filling"} {
		if !contains(d.texts, want) {
			t.Errorf("no %q among the texts %q", want, d.texts)
		}
	}
	if d.smallest < 16 {
		t.Errorf("type of %g, want 16 or more", d.smallest)
	}
	SVG(Weights{}.Picture())
}

func TestNumbers(t *testing.T) {
	for want, of := range map[string][]int{"": nil, "7": {7}, "1, 2": {1, 2}, "1 to 3": {1, 2, 3}, "2, 5 to 9, 11, 12": {2, 5, 6, 7, 8, 9, 11, 12}} {
		if got := Numbers(of); got != want {
			t.Errorf("%v: %q, want %q", of, got, want)
		}
	}
}

// On a telephone the chart keeps its lines, limits and type; which points a rule rings is said beside it.
func TestNarrowWeights(t *testing.T) {
	w := drifting()
	w.Width = 360
	d := read(t, SVG(w.Picture()))
	for _, want := range []string{"upper limit", "lower limit", "centre", "453.6 g", "9"} {
		if !contains(d.texts, want) {
			t.Errorf("no %q among the texts %q", want, d.texts)
		}
	}
	if contains(d.texts, "beyond a limit: 8, 9") {
		t.Error("the signals are told in the narrow chart")
	}
	if d.smallest < 16 {
		t.Errorf("type of %g, want 16 or more", d.smallest)
	}
}
