package nutrition

import (
	"fmt"
	"math"
	"strconv"

	"kettlefrost/internal/unit"
)

// Serving is one serving as a panel says it.
type Serving struct {
	Household string    `json:"household"` // "1 cup", "2 pieces"
	Mass      unit.Mass `json:"mass_g"`    // the grams that are printed, which the amounts of the panel are of
	Text      string    `json:"text"`      // "1 cup (245 g)"
	Source    string    `json:"source"`
	Confirm   string    `json:"confirm,omitempty"`
}

// Millilitres of the measures of a label, 21 CFR 101.9(b)(5)(viii); not those of a kitchen (a cup there is 236.6 ml).
const (
	labelTsp, labelTbsp, labelCup = 5, 15, 240
	labelOunce                    = 28 * unit.Gram
)

const servingSource = "21 CFR 101.9(b)(5), (b)(7) (read in 9 CFR 317.309(b)(7)-(9) and FDA's NLEA guide, attachment 6)"

// size is a measure that may be said, in quarters of a teaspoon, which all of them are whole numbers of.
type size struct {
	quarters int
	text     string
}

const quarterTsp = labelTsp / 4.0

// sizes are quarters of a teaspoon up to 1; teaspoons up to a tablespoon; 1, 1 1/3, 1 1/2, 1 2/3, 2 and 3 tablespoons; from 1/4 cup quarters
// and thirds of a cup. The least first.
var sizes = func() []size {
	all := []size{{1, "1/4 tsp"}, {2, "1/2 tsp"}, {3, "3/4 tsp"}, {4, "1 tsp"}, {8, "2 tsp"}, {12, "1 tbsp"}, {16, "1 1/3 tbsp"}, {18, "1 1/2 tbsp"},
		{20, "1 2/3 tbsp"}, {24, "2 tbsp"}, {36, "3 tbsp"}}
	const cup = 4 * labelCup / labelTsp
	for twelfths := 3; twelfths <= 20*12; twelfths++ {
		if part := twelfths % 12; part%3 == 0 || part%4 == 0 {
			all = append(all, size{twelfths * cup / 12, plural(mixed(twelfths/12, map[int]string{0: "", 3: "1/4", 4: "1/3", 6: "1/2", 8: "2/3", 9: "3/4"}[part]), twelfths > 12, "cup")})
		}
	}
	return all
}()

func mixed(whole int, part string) string {
	switch {
	case part == "":
		return strconv.Itoa(whole)
	case whole == 0:
		return part
	}
	return strconv.Itoa(whole) + " " + part
}

func plural(number string, many bool, what string) string {
	if many {
		return number + " " + what + "s"
	}
	return number + " " + what
}

// ByMeasure is the serving in spoons or cups that comes closest to the reference amount; halfway between two it is the larger. The product
// weighs gPerML grams a millilitre. Errors are *InputError.
func (r Reference) ByMeasure(gPerML float64) (Serving, error) {
	m, err := r.Weighs(gPerML)
	if err != nil {
		return Serving{}, err
	}
	if err := checkDensity(gPerML); err != nil { // a reference amount that is a mass is said in cups by the same figure
		return Serving{}, err
	}
	want := m.Kg() * 1000 / gPerML
	best := sizes[0]
	for _, s := range sizes {
		if microOf(math.Abs(float64(s.quarters)*quarterTsp-want)) <= microOf(math.Abs(float64(best.quarters)*quarterTsp-want)) {
			best = s
		}
	}
	return saying(best.text, float64(best.quarters)*quarterTsp*gPerML), nil
}

// ByPieces are the servings that may be said of a product in pieces of this mass, the usual first: as many as come closest if a piece is half
// the reference amount or less; 1 or 2 if it is under 67 %; 1 if it is under 200 %; above, 1 if one person can eat it at once, or else the
// fraction of it that comes closest (1/2 to 1/6, and halves and thirds of those). Errors are *InputError.
func (r Reference) ByPieces(each unit.Mass, what string, eatenAtOnce bool) ([]Serving, error) {
	if r.Mass <= 0 || each <= 0 {
		return nil, &InputError{"a serving by pieces", "needs a reference amount and a piece that weigh something", "give what a piece weighs, or use a measure"}
	}
	pieces := func(n int) Serving { return saying(plural(strconv.Itoa(n), n > 1, what), float64(n)*each.Kg()*1000) }
	switch {
	case 2*each <= r.Mass:
		return []Serving{pieces(int((2*r.Mass + each) / (2 * each)))}, nil
	case 100*each < 67*r.Mass:
		if 2*each-r.Mass < r.Mass-each {
			return []Serving{pieces(2), pieces(1)}, nil
		}
		return []Serving{pieces(1), pieces(2)}, nil
	case each < 2*r.Mass || eatenAtOnce:
		return []Serving{pieces(1)}, nil
	}
	best := 2
	for _, parts := range []int{2, 3, 4, 5, 6, 8, 9, 10, 12, 15, 18} {
		if off := each.Kg()/float64(parts) - r.Mass.Kg(); microOf(1000*math.Abs(off)) < microOf(1000*math.Abs(each.Kg()/float64(best)-r.Mass.Kg())) {
			best = parts
		}
	}
	return []Serving{saying("1/"+strconv.Itoa(best)+" "+what, each.Kg()*1000/float64(best))}, nil
}

// ByOunces is the last resort, for what no cup measures and what comes in no pieces: half ounces.
func (r Reference) ByOunces() (Serving, error) {
	if r.Mass <= 0 {
		return Serving{}, &InputError{"a serving by ounces", "needs a reference amount that is a mass", "use a measure"}
	}
	halves := max(1, (4*r.Mass+labelOunce)/(2*labelOunce))
	return saying(fmt.Sprintf("about %s oz", strconv.FormatFloat(float64(halves)/2, 'f', -1, 64)), r.Mass.Kg()*1000), nil
}

// Whole is a pack that is one serving. Its grams are those of the net quantity statement, which are rounded down.
func Whole(net unit.Mass, what string) Serving {
	if net > 5*unit.Gram {
		net -= net % unit.Gram
	}
	return saying("1 "+what, net.Kg()*1000)
}

// saying puts the grams in brackets: whole, under 5 g to a half, under 2 g to a tenth.
func saying(household string, g float64) Serving {
	s := Serving{Household: household, Text: household, Source: servingSource}
	if p := Allowed("serving_metric_equivalent", g); len(p) > 0 {
		s.Mass = unit.MassKg(p[0].Amount / 1000)
		s.Text += " (" + p[0].Text + " g)"
	}
	return s
}

// Count is how many servings a pack holds.
type Count struct {
	Servings float64 `json:"servings"` // as printed
	Actual   float64 `json:"actual"`
	About    bool    `json:"about"`
	Text     string  `json:"text"` // "about 3 servings per container"
}

// ServingsIn is how many servings a pack is said to hold: whole ones, from 2 to 5 halves, with "about" where that is rounded.
func ServingsIn(pack unit.Mass, s Serving) (Count, error) {
	if pack <= 0 || s.Mass <= 0 {
		return Count{}, &InputError{"servings", "need a pack and a serving that weigh something", "give both"}
	}
	c := Count{Actual: pack.Kg() / s.Mass.Kg()}
	p := Allowed("servings_per_container", c.Actual)
	if len(p) == 0 {
		return Count{}, &InputError{"servings", fmt.Sprintf("are %.3g", c.Actual), "correct the pack or the serving"}
	}
	c.Servings = max(1, p[0].Amount)
	c.About = microOf(c.Servings) != microOf(c.Actual)
	c.Text = plural(strconv.FormatFloat(c.Servings, 'f', -1, 64), c.Servings != 1, "serving") + " per container"
	if c.About {
		c.Text = "about " + c.Text
	}
	return c, nil
}

// OuterPack is the servings of a pack of packs, each of which is one serving and labelled as such.
func OuterPack(packs int) Count {
	return Count{Servings: float64(packs), Actual: float64(packs), Text: plural(strconv.Itoa(packs), packs != 1, "serving") + " per container"}
}
