package heatcase

import (
	"math"
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/coolrule"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/unit"
)

// What is wrong with a case is said at its key, with a way out.
func TestCheckSaysWhereAndHow(t *testing.T) {
	for _, r := range []struct {
		name     string
		process  Process
		keys     []string
		path     string
		says     string
		foodless bool
	}{
		{name: "no shape", process: Cool, path: "shape", says: "what shape"},
		{name: "no thickness", process: Cool, keys: []string{"pan", "0 in"}, path: "pan", says: "0 mm"},
		{name: "far too thick", process: Cool, keys: []string{"pan", "10 ft"}, path: "pan", says: "cannot be computed"},
		{name: "medium at the target", process: Cool, keys: []string{"pan", "2 in", "at", "41 °F"}, path: "at", says: "not colder than the target, 41.0 °F"},
		{name: "medium warmer than the target", process: Cool, keys: []string{"pan", "2 in", "in", "room-air"}, path: "at", says: "69.8 °F, which is not colder"},
		{name: "one side warmer than the food", process: Cool, keys: []string{"pan", "2 in", "from", "120 °F", "below", "simmering-water"}, path: "below-at", says: "the wrong way"},
		{name: "water not hotter than the target", process: Reheat, keys: []string{"bag", "1 in", "at", "160 °F"}, path: "at", says: "not warmer than the target"},
		{name: "cooling upwards", process: Cool, keys: []string{"pan", "2 in", "from", "40 °F"}, path: "to", says: "not colder than the start"},
		{name: "cooling into ice", process: Cool, keys: []string{"pan", "2 in", "to", "20 °F", "at", "-20 °C"}, path: "to", says: "begins to freeze"},
		{name: "thawing what is not frozen", process: Thaw, keys: []string{"bag", "1 in", "from", "2 °C", "to", "2.5 °C"}, path: "from", says: "not frozen"},
		{name: "closed all round", process: Cool, keys: []string{"pan", "2 in", "below", "closed", "above", "closed"}, path: "below", says: "nothing passes"},
		{name: "a stack of pans", process: Cool, keys: []string{"pan", "2 in", "stack", "3"}, path: "stack", says: "only bags"},
		{name: "a stirred bag", process: Cool, keys: []string{"bag", "1 in", "stir", "thin"}, path: "stir", says: "only a pot"},
		{name: "an open bag", process: Cool, keys: []string{"bag", "1 in", "open", "yes"}, path: "open", says: "no lid"},
		{name: "a coefficient of nothing", process: Cool, keys: []string{"pan", "2 in", "film", "0 W/m2K"}, path: "film", says: "no surface coefficient"},
		{name: "no food", process: Cool, keys: []string{"pan", "2 in"}, path: "food", says: "what food", foodless: true},
		{name: "two foods", process: Cool, keys: []string{"pan", "2 in", "food", "16070"}, path: "food", says: "both"},
		{name: "a food that is not there", process: Cool, keys: []string{"pan", "2 in", "food", "qwertzuiop"}, path: "food", says: "has no food", foodless: true},
		{name: "a novel for a food", process: Cool, keys: []string{"pan", "2 in", "food", strings.Repeat("lentil", 50)}, path: "food", says: "no name of a food", foodless: true},
		{name: "a composition that does not add up", process: Cool, keys: []string{"pan", "2 in", "water", "80"}, path: "water", says: "adds up to 94 %"},
		{name: "more fibre than carbohydrate", process: Cool, keys: []string{"pan", "2 in", "fibre", "7"}, path: "fibre", says: "more fibre"},
		{name: "a spirit", process: Cool, keys: []string{"pan", "2 in", "water", "46", "alcohol", "40"}, path: "alcohol", says: "40 % of alcohol"},
		{name: "an impossible freezing point", process: Freeze, keys: []string{"bag", "1 in", "freezes-at", "-20 °C", "at", "-40 °C", "to", "-30 °C"}, path: "freezes-at", says: "-20 °C"},
	} {
		c := ask(t, r.process, r.keys...)
		if r.foodless {
			c.Food.Composition = Composition{}
		}
		found := c.Check()
		i := slices.IndexFunc(found, func(f finding.Finding) bool { return f.Path == r.path && strings.Contains(f.Message, r.says) })
		if i < 0 || found[i].Fix == "" {
			t.Errorf("%s: want %s: ... %s ... with a fix, found %v", r.name, r.path, r.says, found)
		}
		if _, err := c.Answer(); err == nil {
			t.Errorf("%s: it was answered", r.name)
		}
	}
}

// The questions that sliders start from are not refused.
func TestExamplesAreSound(t *testing.T) {
	for _, p := range Processes() {
		if found := Example(p).Check(); len(found) > 0 {
			t.Errorf("%s: %v", p, found)
		}
	}
}

func answerOf(t *testing.T, p Process, keys ...string) Answer {
	t.Helper()
	a, err := ask(t, p, keys...).Answer()
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func has(a Answer, code string) bool {
	return slices.ContainsFunc(a.Findings, func(f finding.Finding) bool { return f.Code == code })
}

// The limit of 135 to 70 °F in 2 h and to 41 °F in 6 h (FDA Food Code 3-501.14(A)). The reference has 2 in pans left still and covered at
// 4.1 and 11.9 h, and blast-chilled ones at 1.1 and 2.0 h (derived).
func TestVerdicts(t *testing.T) {
	slow := answerOf(t, Cool, append(pan("2 in", "10", "8", "3"), "from", "135 °F", "to", "41 °F")...)
	if slow.Verdict.Words != wordsTooSlow || slow.Findings.Worst() != finding.Stop || !has(slow, CodeTooSlow) {
		t.Errorf("a covered pan in still air: %s, %v", slow.Verdict.Words, slow.Findings)
	}
	if s := slow.Verdict.Stages; s[0].LimitS != 7200 || s[1].LimitS != 21600 || math.Abs(s[1].Usual.TimeS/(11.8556*3600)-1) > 0.02 {
		t.Errorf("stages %+v", s)
	}
	fast := answerOf(t, Cool, append(pan("2 in", "35", "35", "-10"), "from", "135 °F", "to", "41 °F")...)
	if fast.Verdict.Words != wordsWithin || fast.Findings.Worst() > finding.Caution || has(fast, CodeTooSlow) {
		t.Errorf("a pan in a blast chiller: %s, %v", fast.Verdict.Words, fast.Findings)
	}
	short := answerOf(t, Cool, append(pan("2 in", "35", "35", "-10"), "to", "50 °F")...)
	if short.Verdict.Words != wordsNotShown || !has(short, CodeNotShown) {
		t.Errorf("a cooling that ends at 50 °F: %s", short.Verdict.Words)
	}
	// Its clock begins when the core falls through 135 °F, not at the start.
	late := answerOf(t, Cool, append(pan("2 in", "35", "35", "-10"), "from", "200 °F", "to", "41 °F")...)
	if took, whole := late.Verdict.Stages[1].Usual.TimeS, late.Time.Usual.TimeS; math.Abs(whole-took-late.Marks[0].Usual.TimeS) > 1 {
		t.Errorf("%g s in all, %g s counted, 135 °F at %g s", whole, took, late.Marks[0].Usual.TimeS)
	}
}

func TestWordsOfABand(t *testing.T) {
	const yes, no, open = coolrule.WithinRule, coolrule.TooSlow, coolrule.NotShown
	for _, r := range []struct {
		usual, slow, fast coolrule.Outcome
		want              string
	}{{yes, yes, yes, wordsWithin}, {yes, no, yes, wordsTight}, {no, no, yes, wordsPerhaps}, {no, no, no, wordsTooSlow}, {open, no, yes, wordsNotShown}, {no, no, open, wordsTooSlow}} {
		if got := words(r.usual, r.slow, r.fast); got != r.want {
			t.Errorf("%v, %v, %v: %s, want %s", r.usual, r.slow, r.fast, got, r.want)
		}
		for _, word := range []string{"safe", "fine", "OK"} {
			if strings.Contains(r.want, word) {
				t.Errorf("%q promises what a prediction cannot", r.want)
			}
		}
	}
}

// The exact series and the simulation are two ways to the same answer where nothing freezes or evaporates.
func TestSeriesAgrees(t *testing.T) {
	for _, keys := range [][]string{
		pan("2 in", "10", "8", "3"), pan("4 in", "20", "15", "3"), append(pan("2 in", "20", "20", "3"), "below", "closed"),
		{"pot", "0.57 m x 0.59 m", "film", "10 W/m2K"}, {"brick", "160 mm x 100 mm x 60 mm", "film", "20 W/m2K"},
		{"pot", "0.3 m x 0.2 m", "film", "20 W/m2K", "below", "closed"},
	} {
		a := answerOf(t, Cool, keys...)
		if m := a.Methods[0]; !m.Applies || math.Abs(m.OffPct) > 1 {
			t.Errorf("%v: series %+v", keys, m)
		}
	}
	for _, keys := range [][]string{
		append(pan("2 in", "10", "8", "3"), "above-at", "4 °C"), {"pot", "0.3 m x 0.2 m", "film", "20 W/m2K", "below-film", "60 W/m2K"},
		{"bag", "1 in", "stack", "2"},
	} {
		if m := answerOf(t, Cool, keys...).Methods[0]; m.Applies || m.Note == "" {
			t.Errorf("%v: the series cannot hold: %+v", keys, m)
		}
	}
}

// Pham 0.91 to 1.12 and Plank 0.69 to 0.87 of a full solution (derived, 27 slabs of 24 to 100 mm, 8 to 300 W/(m²·K), -18 to -35 °C, to -10
// or -18 °C).
func TestFreezingFormulas(t *testing.T) {
	for _, keys := range [][]string{bag("25.4 mm", "30", "-30", "10", "-10"), bag("50 mm", "25", "-30", "10", "-10"), bag("100 mm", "100", "-35", "20", "-18")} {
		a := answerOf(t, Freeze, keys...)
		pham, plank := 1+a.Methods[0].OffPct/100, 1+a.Methods[1].OffPct/100
		if pham < 0.91 || pham > 1.12 || plank < 0.66 || plank > 0.87 {
			t.Errorf("%v: Pham %.3f, Plank %.3f of the simulation", keys, pham, plank)
		}
	}
	for _, keys := range [][]string{{"pot", "100 mm x 100 mm"}, {"bag", "1 in", "below", "cold-plate"}, {"bag", "1 in", "stack", "2"}} {
		for _, m := range answerOf(t, Freeze, keys...).Methods {
			if m.Applies || m.Note == "" {
				t.Errorf("%v: %s cannot hold", keys, m.Name)
			}
		}
	}
}

// A closed face is a mirror: half the thickness on one closed side is the whole with both open.
func TestClosedFaceIsAMirror(t *testing.T) {
	whole, half := answerOf(t, Freeze, "slab", "50 mm"), answerOf(t, Freeze, "slab", "25 mm", "below", "closed")
	if a, b := whole.Time.Usual.TimeS, half.Time.Usual.TimeS; math.Abs(a/b-1) > 0.01 {
		t.Errorf("%g s and %g s", a, b)
	}
	if a, b := whole.Methods[0].TimeS, half.Methods[0].TimeS; math.Abs(a/b-1) > 1e-9 {
		t.Errorf("Pham %g s and %g s", a, b)
	}
}

// Heat that the soup of the reference gives off from 5 to -15 °C: 318 kJ/kg (derived with constants rounded to 1 %).
func TestHeatOfOnePiece(t *testing.T) {
	a := answerOf(t, Freeze, append(bag("25.4 mm", "8", "-18", "5", "-15"), "piece", "680 g")...)
	if math.Abs(a.Heat.KJKg/318.258-1) > 0.01 || math.Abs(a.Heat.PieceKJ-0.68*a.Heat.KJKg) > 0.01 {
		t.Errorf("heat %+v", a.Heat)
	}
	// 0.68 kg in 10.6 h are some 5.7 W (derived: 20 bags are 113 W).
	if math.Abs(a.Heat.MeanW/(113.0/20)-1) > 0.03 {
		t.Errorf("%.2f W of one bag, want 5.65", a.Heat.MeanW)
	}
	if back := answerOf(t, Reheat, bag("25.4 mm", "435", "95", "-18", "73.9")...); math.Abs(-back.Heat.KJKg/592.15-1) > 0.01 {
		t.Errorf("reheating takes %+v, want 592 kJ/kg", back.Heat)
	}
}

func TestUsualsOfFreezing(t *testing.T) {
	// In air of 0 °F a core never gets to 0 °F: it is asked for 1 °C above the air, and that is said.
	a := answerOf(t, Freeze, "bag", "1 in", "at", "0 °F")
	if math.Abs(a.ToC-(unit.TempF(0).C()+1)) > 1e-6 || !has(a, CodeAirTarget) {
		t.Errorf("to %g °C, %v", a.ToC, a.Findings)
	}
	if a := answerOf(t, Freeze, "bag", "1 in", "at", "-30 °C"); a.ToC != unit.TempF(0).C() || has(a, CodeAirTarget) {
		t.Errorf("in a blast freezer to %g °C", a.ToC)
	}
	// Its film is not counted twice: the coefficients of simmering water are those through a bag already.
	if s := answerOf(t, Reheat, "bag", "1 in").Sides; len(s) != 1 || s[0].UsualW != 435 {
		t.Errorf("simmering water meets %+v", s)
	}
	if s := answerOf(t, Reheat, "bag", "1 in", "film", "500 W/m2K").Sides; math.Abs(s[0].UsualW-435) > 1 { // 500 through 0.1 mm of film is 435 (derived)
		t.Errorf("a known film meets %+v", s)
	}
}

func TestFindings(t *testing.T) {
	for _, r := range []struct {
		code    string
		process Process
		keys    []string
	}{
		{CodeThermometer, Cool, []string{"pan", "2 in"}},
		{CodeHolds, Freeze, []string{"bag", "1 in"}},
		{CodeUnstirred, Cool, []string{"pot", "22 in x 23 in"}},
		{CodeStirring, Cool, []string{"pot", "22 in x 23 in", "stir", "thick", "in", "ice-bath-stirred"}},
		{CodeOpen, Cool, []string{"pan", "2 in", "open", "yes"}},
		{CodeFreezesAt, Freeze, []string{"bag", "1 in"}},
		{CodeSum, Cool, []string{"pan", "2 in", "water", "87"}},
		{CodeSkin, Cool, []string{"pan", "4 in", "in", "blast-chiller"}},
		{CodeThawWarm, Thaw, []string{"bag", "1 in", "in", "room-air"}},
		{CodeReheat, Reheat, []string{"bag", "1 in", "to", "140 °F"}},
		{CodeSlowReheat, Reheat, []string{"bag", "6 in"}},
		{CodeBeyondFit, Freeze, []string{"bag", "1 in", "at", "-50 °C"}},
		{CodeNever, Cool, []string{"pot", "2 m x 2 m"}},
	} {
		if a := answerOf(t, r.process, r.keys...); !has(a, r.code) {
			t.Errorf("%v: no %s in %v", r.keys, r.code, a.Findings)
		}
	}
	quiet := answerOf(t, Cool, "pan", "2 in", "in", "blast-chiller")
	for _, code := range []string{CodeUnstirred, CodeOpen, CodeSum, CodeNever, CodeThawWarm, CodeEnergyOpen} {
		if has(quiet, code) {
			t.Errorf("a covered pan: %s in %v", code, quiet.Findings)
		}
	}
}

// A core that will not get there says where it is.
func TestWhatNeverGetsThere(t *testing.T) {
	a := answerOf(t, Cool, "pan", "2 in", "in", "still-air", "above", "room-air", "above-at", "60 °F")
	run := a.Of("usual")
	// Two films of 8 W/(m²·K) in series with the food between them carry (15.6 - 3) / (1/8 + 0.0508/k + 1/8) W/m² for good (Ohm's law);
	// the warmest place is the upper face.
	k := a.Food.UnfrozenConductivityWMK
	air := unit.TempF(60).C()
	ends := air - (air-3)/(1.0/8+0.0508/k+1.0/8)/8
	if run.Reached || math.Abs(run.EndCoreC-ends) > 0.1 || !has(a, CodeNever) || len(a.Methods) != 0 {
		t.Errorf("it ends at %g °C, want %g; reached %t: %v", run.EndCoreC, ends, run.Reached, a.Findings)
	}
}

func TestCookTime(t *testing.T) {
	for _, r := range []struct {
		s    float64
		want unit.Span
	}{{0, 0}, {math.NaN(), 0}, {math.Inf(1), 0}, {-5, 0}, {61, 70}, {1386, 24 * 60}, {3600, 3600}, {3601, 65 * 60}, {14660, 4*3600 + 5*60}, {32698, 9*3600 + 10*60}, {60672, 17 * 3600}, {90001, 26 * 3600}} {
		if got := CookTime(r.s); got != r.want {
			t.Errorf("%g s is %s, want %s", r.s, got, r.want)
		}
	}
}
