package coldstore

import (
	"cmp"
	"slices"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Difference is what taking stock of a place found against what the records say.
type Difference struct {
	Place record.Place
	Lines []Compared
	// Lost and Extra count packs that are missing, and that should not be there; Short and Over are masses of what is less and more than the
	// records say, packs included.
	Lost, Extra           int64
	Short, Over           unit.Mass
	ShortWorth, OverWorth unit.Money // of what is less, and of what is more
	ShortSold, OverSold   unit.Money // what the packs among them are sold for, as far as it is known
	NotPriced             int        // lines that differ and of which nobody knows what they are worth
	Unlooked              int        // lots that should be there and that nobody has looked at: counted as nothing if it is finished like this
}

// Compared is one lot: what should be at the place and what is.
type Compared struct {
	Lot      *lots.Lot
	Should   lots.Amount
	Found    Found
	Looked   bool
	Missing  record.Numbers // packs that should be there
	Extra    record.Numbers // packs that should not
	Elsewise string         // of those: what the records say
	Off      unit.Mass      // more than should be there; below 0 for less; packs count as their mean
	Worth    Worth          // of what is off, with its sign
}

// Same says that it is as the records say.
func (c Compared) Same() bool { return c.Looked && c.Missing.Empty() && c.Extra.Empty() && c.Off == 0 }

// Against compares a tally with what the records say is at the place, its parts left out: those are places of their own. First come the lots that
// differ, then those that nobody looked at, then the others; each by name. Price is what a pack of a lot is sold for, 0 where nobody knows.
func (t Tally) Against(s *lots.State, price func(*lots.Lot) unit.Money) Difference {
	d := Difference{Place: t.Place}
	pricer := NewPricer(s, price)
	for l := range s.All() {
		should, here := l.Here[t.Place]
		found, looked := t.found[l.ID]
		if !here && !looked {
			continue
		}
		c := Compared{Lot: l, Should: should, Found: found, Looked: looked}
		c.Missing, c.Extra = should.Numbers.Minus(found.Numbers), found.Numbers.Minus(should.Numbers)
		if !c.Extra.Empty() {
			c.Elsewise = Whereabouts(l, c.Extra)
		}
		less := s.MassOf(l, c.Missing) + max(0, should.Mass-found.Mass)
		more := s.MassOf(l, c.Extra) + max(0, found.Mass-should.Mass)
		c.Off = more - less
		d.add(c, less, more, pricer)
	}
	slices.SortStableFunc(d.Lines, func(a, b Compared) int { return cmp.Compare(a.order(), b.order()) })
	return d
}

func (d *Difference) add(c Compared, less, more unit.Mass, p *Pricer) {
	if !c.Looked {
		d.Unlooked++
	}
	d.Lost, d.Extra = d.Lost+c.Missing.Count(), d.Extra+c.Extra.Count()
	d.Short, d.Over = d.Short+less, d.Over+more
	if less > 0 || more > 0 {
		lost, gained := p.Worth(c.Lot, less, c.Missing.Count()), p.Worth(c.Lot, more, c.Extra.Count())
		d.ShortWorth, d.OverWorth = d.ShortWorth+lost.Money, d.OverWorth+gained.Money
		c.Worth = Worth{gained.Money - lost.Money, cmp.Or(lost.By, gained.By), gained.Sold - lost.Sold}
		d.ShortSold, d.OverSold = d.ShortSold+lost.Sold, d.OverSold+gained.Sold
		if c.Worth.By == NotKnown {
			d.NotPriced++
		}
	}
	d.Lines = append(d.Lines, c)
}

func (c Compared) order() int {
	switch {
	case c.Looked && !c.Same():
		return 0
	case !c.Looked:
		return 1
	}
	return 2
}

// Entries are what to enter when the count is finished: of every lot of the place, what was found of it, or that it is not there.
func (t Tally) Entries(s *lots.State) []record.Body {
	var bodies []record.Body
	for l := range s.All() {
		_, here := l.Here[t.Place]
		f, looked := t.found[l.ID]
		switch {
		case !here && (!looked || f.Nothing):
		case !looked || f.Nothing:
			bodies = append(bodies, record.Counted{Lot: l.ID, Place: t.Place, Nothing: true})
		default:
			bodies = append(bodies, record.Counted{Lot: l.ID, Place: t.Place, Numbers: f.Numbers, Mass: f.Mass})
		}
	}
	return bodies
}
