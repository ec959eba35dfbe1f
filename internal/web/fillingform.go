package web

import (
	"errors"
	"fmt"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// fillingForm asks for check-weights; nothing of it is stored.
type fillingForm struct {
	Action  string
	Reset   string // address with the weights of the book
	Kept    []kept
	Tare    weightsField
	Gross   weightsField
	Lot, In field  // how many were filled, and what a bare number means
	Problem string // of all of it together
	Open    bool
	Wrong   bool
	scale   scale
}

// weightsField is several weights, one beside the other or one on a line.
type weightsField struct{ Key, Label, Hint, Value, Problem string }

// scale is the unit in which a kitchen weighs its packs.
type scale struct{ unit unit.Mass }

// show is a weight as that scale shows it; ounces with the grams that everything is reckoned in.
func (s scale) show(m unit.Mass) string {
	if s.unit == unit.Ounce {
		return fmt.Sprintf("%.2f oz (%s)", float64(m)/float64(unit.Ounce), m.Fine())
	}
	return m.Fine()
}

func (s scale) symbol() string {
	if s.unit == unit.Ounce {
		return " oz"
	}
	return " g"
}

// fields are those in which something may be wrong.
func (f fillingForm) fields() []field {
	return []field{{Key: f.Tare.Key, Value: f.Tare.Value, Problem: f.Tare.Problem}, {Key: f.Gross.Key, Value: f.Gross.Value, Problem: f.Gross.Problem}, f.Lot}
}

// typed says whether any weight was typed.
func (f fillingForm) typed() bool { return f.Tare.Value+f.Gross.Value != "" }

// of says what the weights are of.
func (f fillingForm) of(pack kitchen.Pack) string {
	switch n := len(pack.Checks); {
	case f.typed():
		return "as typed here; nothing is stored"
	case n == 0:
		return "nobody has weighed this pack: what follows is a first belief"
	default:
		return "of " + pack.Checks[n-1].Date + ", from the book"
	}
}

// errWeights is why weights are not looked at: the reasons stand beside their fields.
var errWeights = errors.New("the weights cannot be read")

// readFilling reads what was typed, or else takes the last check-weights of the book.
func readFilling(pack kitchen.Pack, id kitchen.PackID, query url.Values) (fillingForm, kitchen.Weighing, error) {
	f := askFilling(id, query)
	w := kitchen.Weighing{Tare: f.Tare.read(f.scale), Gross: f.Gross.read(f.scale)}
	if f.Lot.Value != "" {
		n, err := strconv.Atoi(strings.ReplaceAll(f.Lot.Value, ",", ""))
		if err != nil || n < 1 || n > mostPacks {
			f.Lot.Problem = "Write how many packs were filled, such as 150."
		}
		w.Lot = n
	}
	if f.typed() {
		f.compare(w)
	}
	f.Wrong = wrong(f.fields())
	f.Open = f.Wrong || f.typed() || f.Lot.Value != ""
	if f.Wrong {
		return f, w, errWeights
	}
	if n := len(pack.Checks); !f.typed() && n > 0 {
		last := pack.Checks[n-1]
		if w.Lot > 0 {
			last.Lot = w.Lot
		}
		w = last
	}
	return f, w, nil
}

// askFilling is the form as a query fills it.
func askFilling(id kitchen.PackID, query url.Values) fillingForm {
	rest := across(query)
	keys := []string{"tare", "gross", "lot", "in"}
	for _, key := range keys {
		rest.Del(key)
	}
	f := fillingForm{Action: fillingURL(id), Reset: fillingURL(id) + queryOf(rest), Kept: keep(query, keys...), scale: scale{unit.Gram},
		Tare:  weightsField{Key: "tare", Label: "Empty bags with their labels", Hint: "two at least, such as 11.2, 11.4; 0, 0 where the scale took the bag off", Value: tidyLines(query.Get("tare"))},
		Gross: weightsField{Key: "gross", Label: "Filled packs, in the order of filling", Hint: "one on a line, or with commas between", Value: tidyLines(query.Get("gross"))},
		Lot:   field{Key: "lot", Label: "How many were filled", Hint: "the whole lot", Value: tidy(query.Get("lot")), Number: true}}
	if query.Get("in") == "oz" {
		f.scale.unit = unit.Ounce
	}
	f.In = field{Key: "in", Label: "A number without a unit is", Hint: "as your scale shows", Options: []option{{Value: "g", Says: "grams", Here: f.scale.unit == unit.Gram}, {Value: "oz", Says: "ounces", Here: f.scale.unit == unit.Ounce}}}
	return f
}

const (
	leastWeights  = 2   // of bags and of packs: one alone is no mean and does not scatter
	mostWeights   = 200 // more than anybody weighs of one filling
	heaviestGross = 50 * unit.Kilogram
)

// compare says beside the fields what the weights have to say about each other.
func (f *fillingForm) compare(w kitchen.Weighing) {
	if f.Tare.Problem == "" && len(w.Tare) < leastWeights {
		f.Tare.Problem = "Weigh two empty bags at least: what one of them weighs is no mean."
	}
	if f.Gross.Problem == "" && len(w.Gross) < leastWeights {
		f.Gross.Problem = "Weigh two filled packs at least: one alone does not say how they scatter."
	}
	if f.Tare.Problem+f.Gross.Problem != "" {
		return
	}
	heaviest := slices.Max(w.Tare)
	for i, m := range w.Gross {
		switch {
		case m <= heaviest:
			f.Gross.Problem = fmt.Sprintf("Pack %d, %s, is no heavier than an empty bag of %s: look at the figure and its unit.", i+1, f.scale.show(m), f.scale.show(heaviest))
			return
		case m > heaviestGross:
			f.Gross.Problem = fmt.Sprintf("Pack %d, %s, is more than any pack weighs: look at the figure and its unit.", i+1, f.scale.show(m))
			return
		}
	}
}

// farOff is how many times the label packs may hold, or the label the packs, before it is taken for a slip with the unit.
const farOff = 3

// doubt refuses weights that are nowhere near the label.
func (f *fillingForm) doubt(w plan.LotWeights) error {
	if !f.typed() || (w.Mean <= farOff*w.Label && w.Label <= farOff*w.Mean) {
		return nil
	}
	f.Gross.Problem = fmt.Sprintf("These packs hold %s on average, and their label says %s: look at the unit.", f.scale.show(w.Mean), f.scale.show(w.Label))
	f.Wrong = true
	return errWeights
}

// read takes several weights apart; a number without a unit is in that of the scale.
func (f *weightsField) read(s scale) []unit.Mass {
	var masses []unit.Mass
	for _, word := range weightWords(f.Value) {
		m, err := s.read(word)
		if err != nil {
			f.Problem = fmt.Sprintf("The %s: %s", ordinal(len(masses)+1), sentence(err))
			return nil
		}
		masses = append(masses, m)
	}
	if len(masses) > mostWeights {
		f.Problem = fmt.Sprintf("These are %d weights: at most %d of one filling are read.", len(masses), mostWeights)
		return nil
	}
	return masses
}

// weightWords are the weights in a text: between commas and line ends, and numbers alone may stand beside each other.
func weightWords(text string) []string {
	var words []string
	for _, piece := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ';' || r == '\n' || r == '\t' }) {
		if strings.Trim(piece, "0123456789. ") == "" {
			words = append(words, strings.Fields(piece)...)
		} else if piece = strings.TrimSpace(piece); piece != "" {
			words = append(words, piece)
		}
	}
	return words
}

func (s scale) read(word string) (unit.Mass, error) {
	if strings.Trim(word, "0123456789.") == "" {
		word += s.symbol()
	}
	return unit.ParseMass(word)
}

func ordinal(n int) string {
	switch {
	case n%100/10 == 1:
	case n%10 == 1:
		return fmt.Sprintf("%dst", n)
	case n%10 == 2:
		return fmt.Sprintf("%dnd", n)
	case n%10 == 3:
		return fmt.Sprintf("%drd", n)
	}
	return fmt.Sprintf("%dth", n)
}

// tidyLines is what was typed into several lines, without what no weight has.
func tidyLines(text string) string {
	if len(text) > 20_000 {
		text = text[:20_000]
	}
	var lines []string
	for line := range strings.Lines(strings.ToValidUTF8(strings.ReplaceAll(text, "\r", "\n"), "")) {
		if line = strings.TrimSpace(line); line != "" {
			lines = append(lines, line)
		}
	}
	return strings.Join(lines, "\n")
}
