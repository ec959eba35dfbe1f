package formula

import (
	"slices"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/stability"
	"kettlefrost/internal/unit"
)

// Temperatures by which it is told what was done to an ingredient.
const (
	hotC        = 60 // what comes into food so hot is cooked in, or becomes so: judgement
	eggC        = 71 // 160 °F: dishes of egg are cooked through (FDA and FSIS consumer charts, from memory)
	vegetableC  = 85 // vegetables soften (common practice)
	softMinutes = 20 // so long at vegetableC makes them soft, as in a stew: judgement
)

// graph is a dish as who takes from whom.
type graph struct {
	book  kitchen.Book
	dish  kitchen.Dish
	gives map[kitchen.OutputID]int
}

func graphOf(book kitchen.Book, dish kitchen.Dish) graph {
	g := graph{book, dish, map[kitchen.OutputID]int{}}
	for i, s := range dish.Steps {
		for _, o := range s.Outputs() {
			g.gives[o.ID] = i
		}
	}
	return g
}

// way is what is done to what goes into a step on its way to an output: the steps, and whether it ends up in pieces.
type way struct {
	steps  []int
	inside bool
}

// way from a step to an output: the steps that lie between, both ends with them, in the order of the dish.
func (g graph) way(from int, to kitchen.OutputID) way {
	end, ok := g.gives[to]
	if !ok {
		return way{}
	}
	var w way
	leads := make([]int, len(g.dish.Steps)) // 0 not known, 1 leads there, 2 does not
	if !g.between(end, from, leads) {
		return w
	}
	for i, x := range leads {
		if x == 1 {
			w.steps = append(w.steps, i)
		}
	}
	w.inside = slices.ContainsFunc(w.steps, func(i int) bool {
		return slices.ContainsFunc(g.dish.Steps[i].Outputs(), func(o kitchen.Output) bool { return o.Piece > 0 && g.takes(w.steps, to, o.ID) })
	})
	return w
}

// takes says whether an output is one that lies on the way.
func (g graph) takes(steps []int, to, o kitchen.OutputID) bool {
	if o == to {
		return true
	}
	return slices.ContainsFunc(steps, func(i int) bool {
		return slices.ContainsFunc(g.dish.Steps[i].Use, func(u kitchen.Use) bool { return u.From == o })
	})
}

// between marks the steps that lie between two, going back from the later.
func (g graph) between(at, from int, leads []int) bool {
	if leads[at] != 0 {
		return leads[at] == 1
	}
	leads[at] = 2
	found := at == from
	for _, u := range g.dish.Steps[at].Use {
		if i, ok := g.gives[u.From]; ok && u.From != "" && g.between(i, from, leads) {
			found = true
		}
	}
	if found {
		leads[at] = 1
	}
	return found
}

// heat is how hot a step gets, °C; false where it is not heated.
func heat(s kitchen.Step) (float64, bool) {
	var hot float64
	known := false
	for _, t := range []*unit.Temp{s.HeatTo, s.ReadyAt} {
		if t != nil {
			hot, known = max(hot, t.C()), true
		}
	}
	return hot, known && hot >= hotC
}

// warmest is how hot it gets on its way, and for how many minutes it is hot enough to soften vegetables.
func (g graph) warmest(w way) (tempC, softens float64) {
	for _, i := range w.steps {
		s := g.dish.Steps[i]
		t, hot := heat(s)
		if !hot {
			continue
		}
		tempC = max(tempC, t)
		if t >= vegetableC {
			softens += s.Time.S() / 60
		}
	}
	return tempC, softens
}

// says tells whether the words of a step on the way have any of some phrases, and, where about is given, speak of it.
func (g graph) says(w way, phrases string, about string) bool {
	for _, i := range w.steps {
		text := words(g.dish.Steps[i].Do, g.dish.Steps[i].How)
		if hasAny(text, phrases) && (about == "" || mentions(text, about)) {
			return true
		}
	}
	return false
}

// mentions says whether a text has a word of a name, of four letters or more.
func mentions(text, name string) bool {
	for w := range strings.FieldsSeq(words(name)) {
		if w = strings.TrimSuffix(w, "s"); len(w) >= 4 && has(text, w) {
			return true
		}
	}
	return false
}

// blended says whether something is made smooth on its way: in a blender, or by the words of a step. Cheese is, where it melts until smooth.
func (g graph) blended(w way, name string, role stability.Role) bool {
	for _, i := range w.steps {
		for _, id := range g.dish.Steps[i].In {
			if g.book.Equipment[id].Kind == kitchen.Blender {
				return true
			}
		}
	}
	if (role == stability.SoftCheese || role == stability.HardCheese || role == stability.ProcessCheese) && g.says(w, "smooth", "") {
		return true
	}
	return g.says(w, "puree|purée|pureed|blend until smooth|liquidize|liquidise|pass through a sieve", "") ||
		g.says(w, "mash|mashed|fall apart|falls apart|break down|breaks down|dissolve", name)
}

// done is what was done to an ingredient on its way into the pot.
type done struct {
	cooked stability.Cooked
	joins  stability.Joins
	pureed bool
	soft   bool
	inside bool
}

// doneTo reads the steps for an ingredient of a role.
func (g graph) doneTo(w way, name string, role stability.Role) done {
	tempC, softens := g.warmest(w)
	d := done{cooked: stability.Raw, joins: stability.StirredCold, inside: w.inside}
	if tempC >= hotC {
		d.joins = stability.CookedIn
	}
	need := vegetableC
	if role == stability.Egg || role == stability.EggWhite {
		need = eggC
	}
	switch {
	case tempC >= float64(need) && g.says(w, "al dente|underdone|undercook|half done|half cooked|still firm|with a bite", ""):
		d.cooked = stability.Undercooked
	case tempC >= float64(need):
		d.cooked = stability.Through
	}
	d.pureed = smooths[role] && g.blended(w, name, role)
	d.soft = softens >= softMinutes && (role == stability.Vegetable || role == stability.WateryVegetable)
	if !cooks[role] {
		d.cooked = stability.CookingNotSaid
	}
	return d
}

// cooks are the roles of which it matters how far they are cooked, smooths those of which it matters whether they are made smooth.
var (
	cooks = map[stability.Role]bool{stability.Egg: true, stability.EggWhite: true, stability.Potato: true, stability.Pasta: true, stability.Rice: true, stability.Pulses: true,
		stability.Vegetable: true, stability.WateryVegetable: true}
	smooths = map[stability.Role]bool{stability.Potato: true, stability.Pulses: true, stability.Rice: true, stability.Vegetable: true, stability.WateryVegetable: true, stability.SoftCheese: true,
		stability.HardCheese: true, stability.ProcessCheese: true}
)
