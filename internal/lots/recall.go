package lots

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"kettlefrost/internal/record"
	"kettlefrost/internal/trace"
	"kettlefrost/internal/unit"
)

// Recall is what has to be fetched back of everything that contains some lots, and whether all of it is accounted for. Package trace does the
// counting; here its numbers get their names.
type Recall struct {
	Lots  []Reached
	Lines []RecallLine
	Packs []PackCount // of each lot in packs
	Bulk  []BulkCount // of each lot in bulk
	Pots  []BulkCount // of each pot: not part of what has to be accounted for, as nobody can weigh what boils away
	Made  trace.Tally // all packs of those lots
	Found trace.Tally // those of them that are in a known place, each counted once
	Told  trace.Tally // all that is told to be in a known place: packs told of twice count twice, and packs never made count too
	Came  unit.Mass   // of the lots in bulk
	Open  unit.Mass   // of the lots in bulk, what is unaccounted, taken without its sign
}

// RecallLine is packs of one lot that are in one place, or with one customer, or gone.
type RecallLine struct {
	State trace.State
	Lot   *Lot
	Packs record.Numbers
	Mass  unit.Mass
	Where string // the place, or the customer's name
	Tell  string // how to reach the customer, on one line

	Place    record.Place    // where they are on hand
	Customer record.Customer // who got them
	At       record.Instant  // when
	Order    string
	TakenBy  string
	Address  record.Text // where they went: the customer's own address when nobody told another
	Doubted  bool        // the records tell of them otherwise as well: sold twice, or never made
}

// PackCount is where the packs of one lot are.
type PackCount struct {
	Lot               *Lot
	Made, Found, Told int64
	Missing           record.Numbers // made, and in no known place
	Twice             record.Numbers // in two known places at once
	Beyond            record.Numbers // in a known place, and never made
}

// Complete says that every pack was made once and is in one known place.
func (p PackCount) Complete() bool {
	return p.Missing.Empty() && p.Twice.Empty() && p.Beyond.Empty()
}

// BulkCount is where one lot in bulk went.
type BulkCount struct {
	Lot *Lot
	trace.Balance
}

// Recall traces some lots forward and tells where every pack is that contains any of them. Errors are *UnknownError and *trace.InputError.
func (s *State) Recall(ids ...record.Lot) (Recall, error) {
	reach, err := s.follow(s.graph.Forward, ids)
	if err != nil {
		return Recall{}, err
	}
	q := recalling{s: s, Recall: Recall{Lots: s.reached(reach)}}
	for _, x := range q.Lots {
		q.add(x.Lot)
	}
	return q.Recall, q.count(reach)
}

// recalling is a recall on its way.
type recalling struct {
	Recall
	s         *State
	stretches []trace.Stretch
	holdings  []trace.Holding
	numbered  map[int]numbering // of each lot in packs, by its number in the graph
}

// add tells package trace where a lot is.
func (q *recalling) add(l *Lot) {
	lines := l.lines(q.s)
	var told record.Numbers
	for _, line := range lines {
		told = told.Union(line.Packs)
	}
	if l.Numbers.Empty() {
		q.neverMade(l, lines, told)
		if l.Sort != Pot {
			q.holdings = append(q.holdings, q.s.holding(l))
		}
		return
	}
	if q.numbered == nil {
		q.numbered = map[int]numbering{}
	}
	n := numberingOf(l.Numbers, told)
	q.numbered[l.node] = n
	for _, line := range lines {
		for _, r := range n.ranks(line.Packs) {
			q.stretches = append(q.stretches, trace.Stretch{Lot: l.node, First: r.First, Last: r.Last, State: line.State, Where: len(q.Lines)})
		}
		q.Lines = append(q.Lines, line)
	}
}

// neverMade notes packs of a lot that nobody packed and that somebody handed over.
func (q *recalling) neverMade(l *Lot, lines []RecallLine, told record.Numbers) {
	if told.Empty() {
		return
	}
	p := PackCount{Lot: l, Beyond: told}
	for _, line := range lines {
		p.Told += line.Packs.Count()
	}
	q.Lines, q.Packs = append(q.Lines, lines...), append(q.Packs, p)
	q.Told.Count += p.Told
}

// count has package trace count, and gives its numbers their names.
func (q *recalling) count(reach trace.Reach) error {
	pots := func(x trace.Reached) bool { return q.s.byNode[x.Lot].Sort == Pot }
	for _, x := range reach.Lots {
		if pots(x) {
			b, err := q.s.graph.Balance(q.s.holding(q.s.byNode[x.Lot]))
			if err != nil {
				return err
			}
			q.Pots = append(q.Pots, BulkCount{q.s.byNode[x.Lot], b})
		}
	}
	reach.Lots = slices.DeleteFunc(reach.Lots, pots)
	counted, err := q.s.graph.Recall(reach, q.stretches, q.holdings)
	if err != nil {
		return err
	}
	for _, line := range counted.Lines {
		q.Lines[line.Where].Mass = line.Mass
	}
	for _, p := range counted.Packs {
		n := q.numbered[p.Lot]
		q.Packs = append(q.Packs, PackCount{Lot: q.s.byNode[p.Lot], Made: p.Made.Count, Found: p.Found.Count, Told: p.Told.Count,
			Missing: n.numbers(p.Missing), Twice: n.numbers(p.Twice), Beyond: n.numbers(p.Beyond)})
	}
	for _, b := range counted.Bulk {
		q.Bulk = append(q.Bulk, BulkCount{q.s.byNode[b.Lot], b})
	}
	q.Made, q.Found, q.Came, q.Open = counted.Made, counted.Found, counted.Came, counted.Open
	q.Told.Count += counted.Told.Count
	q.Told.Mass += counted.Told.Mass
	q.sort()
	return nil
}

// sort puts what was counted in an order that does not depend on which entry came first.
func (q *recalling) sort() {
	slices.SortFunc(q.Packs, func(a, b PackCount) int { return cmp.Compare(a.Lot.ID, b.Lot.ID) })
	for _, list := range [][]BulkCount{q.Bulk, q.Pots} {
		slices.SortFunc(list, func(a, b BulkCount) int { return cmp.Compare(a.Lot.ID, b.Lot.ID) })
	}
}

// Share is how many of the packs that were made are in a known place, as a fraction of one; 1 if none was made.
func (r Recall) Share() float64 {
	if r.Made.Count == 0 {
		return 1
	}
	return float64(r.Found.Count) / float64(r.Made.Count)
}

// Ratio is the effectiveness of the recall by packs, as a fraction of one: (on hand + delivered + accounted losses) over made (NC State
// Extension, recall checklist). Packs told of twice count twice, so that it can be above one: that is a failure too. It is 1 if no pack was
// made or told of, and 0 if some are told of and none was made.
func (r Recall) Ratio() float64 {
	if r.Made.Count == 0 && r.Told.Count > 0 {
		return 0
	}
	return trace.Recall{Made: r.Made, Told: r.Told}.CountRatio()
}

// PacksComplete says that every pack was made once and is in one known place.
func (r Recall) PacksComplete() bool {
	return !slices.ContainsFunc(r.Packs, func(p PackCount) bool { return !p.Complete() })
}

// Complete says that every pack is in one known place, and that nothing in bulk is unaccounted for.
func (r Recall) Complete() bool { return r.PacksComplete() && r.Open == 0 }

// lines are where the packs of a lot are.
func (l *Lot) lines(s *State) []RecallLine {
	var lines []RecallLine
	add := func(line RecallLine) {
		if line.Lot = l; !line.Packs.Empty() {
			lines = append(lines, line)
		}
	}
	for _, place := range slices.Sorted(maps.Keys(l.Here)) {
		add(RecallLine{State: trace.OnHand, Place: place, Where: string(place), Packs: l.Here[place].Numbers})
	}
	for _, list := range []struct {
		handed  []Handing
		doubted bool
	}{{l.Handed, false}, {l.Doubted, true}} {
		for _, h := range list.handed {
			c := s.Customer(h.Customer)
			to := cmp.Or(h.Address, c.Address)
			add(RecallLine{State: trace.Handed, Where: c.Name, Tell: tell(to, c), Customer: c, At: h.At, Order: h.Order, TakenBy: h.TakenBy, Address: to, Packs: h.Numbers, Doubted: list.doubted})
		}
	}
	add(RecallLine{State: trace.WrittenOff, Packs: l.WrittenOff.Numbers})
	add(RecallLine{State: trace.Reused, Packs: l.Reopened})
	add(RecallLine{State: trace.Unknown, Packs: l.Missing})
	return lines
}

// tell is how to reach a customer, on one line.
func tell(address record.Text, c record.Customer) string {
	var words []string
	for line := range strings.Lines(string(address)) {
		words = append(words, strings.TrimSpace(line))
	}
	words = append(words, c.Phone, c.Mail)
	return strings.Join(slices.DeleteFunc(words, func(w string) bool { return w == "" }), ", ")
}
