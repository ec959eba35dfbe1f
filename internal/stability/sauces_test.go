package stability_test

import (
	"math"
	"slices"
	"testing"

	"kettlefrost/internal/dosing"
	"kettlefrost/internal/stability"
)

// A white sauce by the home series, 6.4 % flour: it may curdle or separate, is fine if quickly frozen, waxy starch and xanthan help (USDA Home and
// Garden Bulletin 40, Sanz et al. 2009, Ferrero et al. 1993).
func TestWhiteSauce(t *testing.T) {
	white := func(more ...stability.Component) pot {
		return pot{Components: append([]stability.Component{kg(milk, 1), kg(flour, 0.064), kg(butter, 0.064)}, more...), FrontMMH: 0.4}
	}
	f, ok := found(review(t, white()), "starch-weeps")
	if !ok || f.Severity != stability.Change || f.Source == "" || f.Confirm == "" {
		t.Fatalf("%+v", f)
	}
	if len(f.Remedies) != 5 || f.Remedies[0].After != stability.Good {
		t.Errorf("%+v", f.Remedies)
	}
	for _, m := range f.Remedies {
		if helps := m.ID == "xanthan" || m.ID == "waxy" || m.ID == "faster"; helps != m.Tried || helps && m.After >= f.Severity {
			t.Errorf("%+v", m)
		}
		if m.ID == "xanthan" && (m.Low != 0.0015 || m.High != 0.003 || m.Basis == "") {
			t.Errorf("%+v", m)
		}
	}
	fast := white()
	fast.FrontMMH = 2
	f, ok = found(review(t, fast), "starch-weeps")
	if !ok || f.Severity != stability.Note || f.Because == "" {
		t.Errorf("quickly frozen: %+v", f)
	}
	fast.Weeks = 20
	if _, ok = found(review(t, fast), "starch-kept-long"); !ok {
		t.Error("20 weeks are more than 2 to 3 months")
	}
	waxy := pot{Components: []stability.Component{kg(milk, 1), kg(waxyRice, 0.06), kg(butter, 0.06)}, FrontMMH: 0.4}
	if f, ok = found(review(t, waxy), "starch-weeps"); ok {
		t.Errorf("waxy rice flour: %+v", f)
	}
	unknown := white()
	unknown.FrontMMH = 0
	if r := review(t, unknown); len(r.Assumed) != 1 || r.Worst() != stability.Change {
		t.Errorf("%+v", r)
	}
}

// A stew that is half meat: its corn starch is 2 % of the pot and 4 % of the sauce that it thickens.
func TestStarchIsOfTheSauce(t *testing.T) {
	meat := stability.Component{Name: "beef", Role: stability.Meat, MassKg: 0.5, Facts: stability.Facts{Water: 0.6, Fat: 0.15, Protein: 0.25}}
	stew := review(t, pot{Components: []stability.Component{meat, kg(water, 0.478), kg(cornStarch, 0.022)}})
	if f, ok := found(stew, "starch-weeps"); !ok || f.Severity != stability.Change || math.Abs(stew.Protection.Starch-0.0396) > 1e-4 {
		t.Errorf("%+v", stew)
	}
	thin := review(t, pot{Components: []stability.Component{kg(water, 0.978), kg(cornStarch, 0.022)}})
	if f, ok := found(thin, "starch-weeps"); !ok || f.Severity != stability.Note {
		t.Errorf("%+v", thin.Findings)
	}
}

// Fluid cream separates when it goes in cold, less where it is rich (web pages); cooked cream vegetables keep a few weeks only (Oregon State).
func TestCreams(t *testing.T) {
	cream := func(fat float64) stability.Component {
		return stability.Component{Name: "cream", Role: stability.Cream, Joins: stability.StirredCold, MassKg: 0.2, Facts: stability.Facts{Water: 0.95 - fat, Fat: fat}}
	}
	for _, c := range []struct {
		fat  float64
		want stability.Severity
	}{{0.18, stability.Change}, {0.36, stability.Note}} {
		if r := review(t, pot{Components: []stability.Component{kg(water, 0.8), cream(c.fat)}}); r.Worst() != c.want {
			t.Errorf("%g: %+v", c.fat, r.Findings)
		}
	}
	spinach := stability.Component{Name: "spinach", Role: stability.Vegetable, Pureed: true, MassKg: 0.6, Facts: stability.Facts{Water: 0.92}}
	for _, c := range []struct {
		weeks float64
		want  stability.Severity
	}{{0, stability.Note}, {3, stability.Good}, {12, stability.Change}} {
		r := review(t, pot{Components: []stability.Component{spinach, cream(0.36)}, Weeks: c.weeks})
		if f, _ := found(r, "creamed-vegetables"); f.Severity != c.want {
			t.Errorf("%g weeks: %+v", c.weeks, r.Findings)
		}
	}
}

// Doses of remedies are those of the tables of internal/dosing.
func TestRemediesAreDosed(t *testing.T) {
	r := review(t, pot{Components: []stability.Component{kg(milk, 1), kg(cheddar, 0.3), kg(cornStarch, 0.01)}})
	doses := map[string]stability.Remedy{}
	for _, f := range r.Findings {
		for _, m := range f.Remedies {
			doses[m.ID] = m
		}
	}
	for id, of := range map[string]struct {
		substance, use string
		basis          dosing.Basis
	}{"xanthan": {dosing.Xanthan, "sauce", dosing.OfFinished}, "citrate": {"trisodium citrate", "cheese sauce", dosing.OfCheese}} {
		i := slices.IndexFunc(dosing.Levels(), func(l dosing.Level) bool {
			return l.Substance == of.substance && l.Use == of.use && l.Basis == of.basis
		})
		if i < 0 {
			t.Fatal(of)
		}
		l, m := dosing.Levels()[i], doses[id]
		if math.Abs(m.Low-l.Low.F()) > 1e-9 || math.Abs(m.High-l.High.F()) > 1e-9 || m.Basis != string(l.Basis) {
			t.Errorf("%s: %+v, want %+v", id, m, l)
		}
	}
}

// Macaroni and cheese: without an emulsifying salt or starch its sauce breaks, with citrate it need not; the pasta stays what it is.
func TestCheeseSauce(t *testing.T) {
	bare := pot{Components: []stability.Component{kg(milk, 0.93), kg(cheddar, 1), kg(pasta, 2)}}
	r := review(t, bare)
	f, ok := found(r, "cheese-sauce-breaks")
	if !ok || f.Severity != stability.Change || f.Remedies[0].ID != "citrate" || f.Remedies[0].After != stability.Good || f.Remedies[0].Low != 0.02 {
		t.Fatalf("%+v", f)
	}
	if p := r.Protection; math.Abs(p.LiquidCheese-0.93) > 1e-9 || math.Abs(p.FatOfPot-(0.93*0.0325+0.33)/3.93) > 1e-9 {
		t.Errorf("%+v", p)
	}
	salted := bare
	salted.Components = append(slices.Clone(bare.Components), kg(citrate, 0.0372))
	r = review(t, salted)
	if _, ok := found(r, "cheese-sauce-breaks"); ok {
		t.Errorf("%+v", r.Findings)
	}
	mornay := pot{Components: []stability.Component{kg(milk, 0.8), kg(cheddar, 0.15), kg(flour, 0.05)}, FrontMMH: 2}
	if r := review(t, mornay); !slices.ContainsFunc(r.Passed, func(x stability.Passed) bool { return x.Code == "cheese-sauce-breaks" }) {
		t.Errorf("flour holds it: %+v", r)
	}
	thin := pot{Components: []stability.Component{kg(milk, 0.85), kg(cheddar, 0.15)}}
	if _, ok := found(review(t, thin), "cheese-sauce-breaks"); !ok {
		t.Error("15 % of cheese in milk was passed")
	}
	if f, ok := found(r, "pasta"); !ok || f.Severity != stability.Change {
		t.Errorf("%+v", r.Findings)
	}
	salted.PH = 5.2 // samples fractured at 5.3 (Lu et al. 2008)
	if _, ok := found(review(t, salted), "cheese-sauce-breaks"); !ok {
		t.Error("a sour cheese sauce was passed")
	}
}

func TestSourDairyGumsAndPack(t *testing.T) {
	lemon := stability.Component{Name: "lemon juice", Role: stability.Acid, MassKg: 0.15, Facts: stability.Facts{Water: 0.92}}
	r := review(t, pot{Components: []stability.Component{kg(milk, 0.85), lemon}, PH: 4.4, AirInPack: true})
	if f, ok := found(r, "acid-curdles-dairy"); !ok || f.Severity != stability.Change || f.Remedies[0].ID != "acid-later" || f.Remedies[0].After != stability.Good {
		t.Errorf("%+v", f)
	}
	if f, ok := found(r, "freezer-burn"); !ok || f.Severity != stability.Note {
		t.Errorf("%+v", f)
	}
	if f, ok := found(review(t, pot{Components: []stability.Component{kg(milk, 0.85), lemon}}), "acid-curdles-dairy"); !ok || f.Severity != stability.Note {
		t.Errorf("pH not known: %+v", f)
	}
	lbg := stability.Component{Name: "locust bean gum", Role: stability.Gum, Gum: stability.LocustBean, MassKg: 0.0002}
	if _, ok := found(review(t, pot{Components: []stability.Component{kg(water, 1), lbg, kg(xanthan, 0.0002)}}), "gums-gel"); !ok {
		t.Error("0.04 % of xanthan and locust bean gum set to a gel")
	}
}

// Meatballs in tomato sauce: the milk, egg and flour that bind the balls are set in them; they neither curdle in the tomato nor thicken it. The same
// milk stirred into the sauce would (common practice).
func TestWhatIsSetWithinPieces(t *testing.T) {
	set := func(c stability.Component) stability.Component {
		c.Inside, c.Cooked, c.Joins = true, stability.Through, stability.CookedIn
		return c
	}
	turkey := stability.Component{Name: "turkey", Role: stability.Meat, MassKg: 0.8, Facts: stability.Facts{Water: 0.7, Protein: 0.2}}
	tomato := stability.Component{Name: "tomato", Role: stability.Acid, MassKg: 1, Facts: stability.Facts{Water: 0.9}}
	balls := pot{Components: []stability.Component{set(turkey), set(kg(milk, 0.2)), set(kg(flour, 0.15)), tomato}, PH: 4.3}
	r := review(t, balls)
	if len(r.Findings) != 0 || r.Protection.Starch != 0 {
		t.Errorf("%+v", r)
	}
	if !slices.ContainsFunc(r.Passed, func(x stability.Passed) bool { return x.Code == "milk" && x.Why != "" }) {
		t.Errorf("%+v", r.Passed)
	}
	loose := pot{Components: []stability.Component{turkey, kg(milk, 0.2), kg(flour, 0.15), tomato}, PH: 4.3}
	if _, ok := found(review(t, loose), "acid-curdles-dairy"); !ok {
		t.Error("milk in a sour sauce was passed")
	}
}

// Coconut milk in tomato: nothing in it curdles in acid (it has no casein), and it separates as cream does.
func TestCoconutMilkDoesNotCurdle(t *testing.T) {
	tomato := stability.Component{Name: "tomato", Role: stability.Acid, MassKg: 0.5, Facts: stability.Facts{Water: 0.9}}
	coconut := stability.Component{Name: "coconut milk", Role: stability.Cream, Plant: true, Joins: stability.StirredCold, MassKg: 0.5, Facts: stability.Facts{Water: 0.7, Fat: 0.2}}
	r := review(t, pot{Components: []stability.Component{tomato, coconut}, PH: 4.4})
	if _, ok := found(r, "acid-curdles-dairy"); ok {
		t.Errorf("%+v", r.Findings)
	}
	if f, ok := found(r, "cream"); !ok || f.Severity != stability.Change {
		t.Errorf("%+v", r.Findings)
	}
}

// A stew of carrots that are simmered until soft loses nothing by thawing soft; the same carrots as a side dish do (USDA Home and Garden Bulletin 40
// says to undercook vegetables that are to be frozen; that it does not matter in a stew is common practice).
func TestWhatIsSoftAnyway(t *testing.T) {
	carrots := stability.Component{Name: "carrots", Role: stability.Vegetable, MassKg: 0.3, Cooked: stability.Through, Facts: stability.Facts{Water: 0.88}}
	stew := pot{Components: []stability.Component{kg(water, 0.7), carrots}}
	if f, ok := found(review(t, stew), "vegetables-soft"); !ok || f.Severity != stability.Note {
		t.Errorf("%+v", f)
	}
	stew.Components[1].Soft = true
	if r := review(t, stew); len(r.Findings) != 0 || len(r.Passed) != 1 {
		t.Errorf("%+v", r)
	}
}
