package learned

import (
	"cmp"
	"maps"
	"math"
	"slices"

	"kettlefrost/internal/board"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/learning"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// gathering is what all runs say of all figures.
type gathering struct {
	book    kitchen.Book
	figures map[place]*Figure
	floors  map[place][]float64
	shared  map[place]map[place]bool
	rates   map[place]float64 // of what evaporates where the book has no figure: as the plan had it last
}

func (g *gathering) figure(at place) *Figure {
	f := g.figures[at]
	if f == nil {
		f = &Figure{Key: at.key(), Kind: at.kind, Dish: string(at.dish), Step: at.step, Part: at.part}
		g.figures[at] = f
	}
	return f
}

func (g *gathering) see(at place, m Made, x Seen) {
	if !m.Sure {
		x.Notes = append(x.Notes, "the book that it was opened by is not kept: masses and times are held against the book of today")
	}
	g.figure(at).Seen = append(g.figure(at).Seen, x)
}

func (g *gathering) exclude(at place, m Made, why string) {
	f := g.figure(at)
	if x := (Excluded{m.Run.Name, why}); !slices.Contains(f.Excluded, x) {
		f.Excluded = append(f.Excluded, x)
	}
}

// also keeps what else the weighing could mean, and how well it shows the figure.
func (g *gathering) also(at place, c candidate) {
	g.floors[at] = append(g.floors[at], c.floor)
	for _, other := range c.with {
		if g.shared[at] == nil {
			g.shared[at] = map[place]bool{}
		}
		g.shared[at][other] = true
	}
}

// turnsOut observes how far an output that packs are filled with came out otherwise than the book has it.
func (g *gathering) turnsOut(d *day, m *masses, o kitchen.OutputID, ratio, expectedKg float64) {
	if !slices.Contains(g.book.PackedOf(m.dish), o) {
		return
	}
	at := place{Spread, m.dish, m.steps[m.of[o]].step.ID, string(o)}
	g.see(at, d.made, Seen{Run: d.made.Run.Name, Day: d.made.Day, Value: ratio - 1, Of: g.weighedWords(m, o, ratio*expectedKg, expectedKg)})
}

// fills observes how the weights of filled packs scatter.
func (g *gathering) fills(m Made) {
	for _, x := range board.Of[record.CheckWeighed](m.Run) {
		pack, there := g.book.Packs[kitchen.PackID(x.Pack)]
		if !there {
			continue
		}
		at := place{kind: Fills, dish: pack.Dish, part: x.Pack}
		switch {
		case len(x.Gross) < 2:
			g.exclude(at, m, "one pack was weighed: it scatters about nothing")
		case slices.ContainsFunc(pack.Checks, func(w kitchen.Weighing) bool { return slices.Equal(w.Gross, x.Gross) }):
			g.exclude(at, m, "its weights are in the book already")
		case slices.ContainsFunc(g.figure(at).Seen, func(s Seen) bool { return s.Run == m.Run.Name }):
			g.exclude(at, m, "packs were check-weighed more than once: the first counts")
		default:
			sd := deviation(x.Gross)
			g.see(at, m, Seen{Run: m.Run.Name, Day: m.Day, Value: sd, Count: len(x.Gross), Of: packsWord(len(x.Gross))})
		}
	}
}

// weighings are the check-weights of a pack that count, as the book keeps them.
func (m Made) weighings(pack string) []kitchen.Weighing {
	for t, x := range board.Of[record.CheckWeighed](m.Run) {
		if x.Pack == pack && len(x.Gross) > 1 {
			return []kitchen.Weighing{{Date: m.Day, Lot: packedOf(m.Run, pack), Who: t.Who, Tare: x.Tares, Gross: x.Gross}}
		}
	}
	return nil
}

func packsWord(n int) string { return unit.Count(n).String() + " packs check-weighed" }

// deviation is the standard deviation of masses, g.
func deviation(masses []unit.Mass) float64 {
	mean, squares := 0.0, 0.0
	for _, m := range masses {
		mean += m.Kg() * 1000 / float64(len(masses))
	}
	for _, m := range masses {
		squares += (m.Kg()*1000 - mean) * (m.Kg()*1000 - mean)
	}
	return math.Sqrt(squares / float64(len(masses)-1))
}

// Observed is what one run says of all figures of a book.
type Observed struct {
	Made Made
	by   *gathering
}

func gatheringOf(book kitchen.Book) *gathering {
	return &gathering{book: book, figures: map[place]*Figure{}, floors: map[place][]float64{}, shared: map[place]map[place]bool{}, rates: map[place]float64{}}
}

// Observe reads one run. It is the same for as long as neither the run nor the book changes.
func Observe(book kitchen.Book, m Made) Observed {
	g := gatheringOf(book)
	d := dayOf(m)
	for _, dish := range m.Expected.Dishes {
		g.dishMasses(d, dish)
		g.stepTimes(d, dish)
	}
	g.packTimes(d)
	g.fills(m)
	return Observed{m, g}
}

// and adds what another run says.
func (g *gathering) and(o Observed) {
	for at, x := range o.by.figures {
		f := g.figure(at)
		f.Seen, f.Excluded = append(f.Seen, x.Seen...), append(f.Excluded, x.Excluded...)
		f.WhyNot = x.WhyNot
	}
	for at, floors := range o.by.floors {
		g.floors[at] = append(g.floors[at], floors...)
	}
	for at, with := range o.by.shared {
		if g.shared[at] == nil {
			g.shared[at] = map[place]bool{}
		}
		maps.Copy(g.shared[at], with)
	}
	maps.Copy(g.rates, o.by.rates)
}

// Of is every figure of which runs say something, or could and do not, by dish and place in the book. Runs are in the order in which they
// were opened. Errors are of figures that are no numbers.
func Of(book kitchen.Book, runs []Observed, told Told) ([]Figure, error) {
	g, made := gatheringOf(book), map[string]Made{}
	for _, o := range runs {
		g.and(o)
		made[o.Made.Run.Name] = o.Made
	}
	all := make([]Figure, 0, len(g.figures))
	for at, f := range g.figures {
		if err := g.propose(at, f, made, told); err != nil {
			return nil, err
		}
		all = append(all, *f)
	}
	slices.SortFunc(all, func(a, b Figure) int {
		return cmp.Or(cmp.Compare(a.Dish, b.Dish), cmp.Compare(a.Key, b.Key))
	})
	return all, nil
}

// options are the same for all figures but for the scale.
func options(s learning.Scale) learning.Options {
	return learning.Options{Scale: s, Least: 0.01, Cover: Cover}
}
