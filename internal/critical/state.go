package critical

import (
	"cmp"
	"iter"
	"maps"
	"slices"
	"strings"

	"kettlefrost/internal/record"
)

// State is everything that was entered of productions and goods, as far as critical records go. Entries may come in any order and be taken back:
// it never folds again. The zero State is empty.
type State struct {
	runs  map[string]*Run
	goods map[record.Lot]*Goods
	signs map[string][]Told // by what they are about
	where map[record.ID][]holder
	count int
}

// holder is something that keeps entries.
type holder interface{ drop(id record.ID) }

// Run is one production: what was entered of it, as it happened.
type Run struct {
	Name    string
	Version int // grows whenever anything is entered or taken back
	told    []Told
	state   *State
}

// Goods is one delivery.
type Goods struct {
	Lot     record.Lot
	Version int
	told    []Told // that it was received, and when nobody corrects it there is one
	state   *State
}

// Told is one entry that stands.
type Told struct {
	record.Entry
	Says record.Body
}

// Heeds says whether entries of a kind are of any matter here.
func Heeds(k record.Kind) bool { return kinds[k] }

var kinds = map[record.Kind]bool{
	record.Opened{}.Kind(): true, record.Closed{}.Kind(): true, record.Started{}.Kind(): true, record.Finished{}.Kind(): true, record.Skipped{}.Kind(): true,
	record.Measured{}.Kind(): true, record.Watched{}.Kind(): true, record.Acted{}.Kind(): true, record.Made{}.Kind(): true, record.Packed{}.Kind(): true,
	record.Signed{}.Kind(): true, record.Received{}.Kind(): true,
}

// Put takes an entry in, in place of one with its ID that is there, and tells what changed: runs by their names, goods by their lots. An
// entry that cannot be read changes nothing here: others find it.
func (s *State) Put(e record.Entry) (runs []string, goods []record.Lot) {
	if !Heeds(e.Kind) {
		return nil, nil
	}
	runs, goods = s.Drop(e.ID)
	body, err := record.Decode(e.Kind, e.Body)
	if err != nil {
		return runs, goods
	}
	if s.runs == nil {
		s.runs, s.goods, s.signs, s.where = map[string]*Run{}, map[record.Lot]*Goods{}, map[string][]Told{}, map[record.ID][]holder{}
	}
	t := Told{e, body}
	switch b := body.(type) {
	case record.Signed:
		s.signs[b.About] = insert(s.signs[b.About], t)
		s.where[e.ID] = append(s.where[e.ID], signing{s, b.About})
		runs = append(runs, s.signedOf(b.About)...)
	case record.Received:
		g := s.goods[b.Lot]
		if g == nil {
			g = &Goods{Lot: b.Lot, state: s}
			s.goods[b.Lot] = g
		}
		g.told = insert(g.told, t)
		g.Version = s.next()
		s.where[e.ID] = append(s.where[e.ID], g)
		goods = append(goods, b.Lot)
	default:
		if name := record.RunOf(body); name != "" {
			s.run(name).put(t)
			runs = append(runs, name)
		}
	}
	return runs, goods
}

// Drop takes an entry out: it was taken back. It tells what changed.
func (s *State) Drop(id record.ID) (runs []string, goods []record.Lot) {
	for _, h := range s.where[id] {
		h.drop(id)
		switch h := h.(type) {
		case *Run:
			runs = append(runs, h.Name)
		case *Goods:
			goods = append(goods, h.Lot)
		case signing:
			runs = append(runs, s.signedOf(h.about)...)
		}
	}
	delete(s.where, id)
	return runs, goods
}

// signing is what was signed of one thing.
type signing struct {
	s     *State
	about string
}

func (x signing) drop(id record.ID) { x.s.signs[x.about] = without(x.s.signs[x.about], id) }

// signedOf are the runs that something that was signed is about: its name begins with theirs.
func (s *State) signedOf(about string) (names []string) {
	for name, r := range s.runs {
		if strings.HasPrefix(about, name+"/") {
			r.Version = s.next()
			names = append(names, name)
		}
	}
	return names
}

func (s *State) run(name string) *Run {
	r := s.runs[name]
	if r == nil {
		r = &Run{Name: name, state: s}
		s.runs[name] = r
	}
	return r
}

func (s *State) next() int { s.count++; return s.count }

func (r *Run) put(t Told) {
	r.told = insert(r.told, t)
	r.Version = r.state.next()
	r.state.where[t.ID] = append(r.state.where[t.ID], r)
}

func (r *Run) drop(id record.ID) {
	r.told, r.Version = without(r.told, id), r.state.next()
	if len(r.told) == 0 {
		delete(r.state.runs, r.Name)
	}
}

func (g *Goods) drop(id record.ID) {
	g.told, g.Version = without(g.told, id), g.state.next()
	if len(g.told) == 0 {
		delete(g.state.goods, g.Lot)
	}
}

// insert keeps entries in the order in which things happened; of the same millisecond, one that does not depend on which came first.
func insert(all []Told, t Told) []Told {
	at, _ := slices.BinarySearchFunc(all, t, func(a, b Told) int {
		return cmp.Or(cmp.Compare(a.Happened, b.Happened), slices.Compare(a.ID[:], b.ID[:]))
	})
	return slices.Insert(all, at, t)
}

func without(all []Told, id record.ID) []Told {
	return slices.DeleteFunc(all, func(t Told) bool { return t.ID == id })
}

// Runs are the names of all productions, in their order.
func (s *State) Runs() []string { return slices.Sorted(maps.Keys(s.runs)) }

// Run is a production as it stands, which later entries do not change, with what was signed of it; false when nothing was entered of it.
func (s *State) Run(name string) (Production, bool) {
	r := s.runs[name]
	if r == nil {
		return Production{}, false
	}
	p := Production{Name: name, Version: r.Version, told: slices.Clone(r.told), signed: map[string][]Told{}}
	for about, t := range s.signs {
		if strings.HasPrefix(about, name+"/") && len(t) > 0 {
			p.signed[about] = slices.Clone(t)
		}
	}
	return p, true
}

// Goods are all deliveries, in the order of their names.
func (s *State) Goods() iter.Seq[Delivery] {
	return func(yield func(Delivery) bool) {
		for _, lot := range slices.Sorted(maps.Keys(s.goods)) {
			if g := s.goods[lot]; !yield(Delivery{lot, g.Version, g.told[0]}) {
				return
			}
		}
	}
}
