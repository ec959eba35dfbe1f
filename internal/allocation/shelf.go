package allocation

import (
	"cmp"
	"math"
	"slices"
)

// shelf is the lots of one product that may be sold, the oldest first, and the lines that want them.
//
// A line may have every lot from some best-before day on. So what lines may have is nested, and served amounts can all be met if
// and only if, for every best-before day j, those that need day j or later want no more than lies there (Hall's condition for
// nested sets). slack[j] is how much more lies there. As long as no slack is below zero, lines can be promised packs one after
// another without naming a lot: the most a line can get is the least slack at or below its own day, and this is what augmenting
// paths would find. Naming a lot of day c for a line that may have day a on costs the slacks between.
type shelf struct {
	lots   []int // indexes into Stock.Lots
	avail  []int // of each, packs not named yet
	day    []int // of each, which of dates
	dates  []int // best-before days, rising
	slack  []int
	lines  []*line
	scans  int             // arcs that searches for few lots may still look at
	found  map[*line][]int // lots that the last search gave lines that want few
	proved bool
}

// line is a line on its way.
type line struct {
	order, line, product int
	wanted               int
	due                  int
	least                int         // best-before day it needs
	from                 int         // the first of shelf.dates it may have
	mostLots             int         // 0: any
	promised             int         // packs it was promised and can still want
	got                  int         // packs it will get, named or not
	could                int         // packs it could have had, were its order not filled whole or not at all
	named                map[int]int // place on the shelf: packs
	proved               bool
	shelf                *shelf
}

func (l *line) unnamed() int {
	n := l.got
	for _, p := range l.named {
		n -= p
	}
	return n
}

// shelves puts up what may be sold; lines must be in the order they are served.
func shelves(s Stock, lines []*line) []*shelf {
	byProduct := map[int]*shelf{}
	var all []*shelf
	at := func(product int) *shelf {
		if byProduct[product] == nil {
			byProduct[product] = &shelf{scans: cmp.Or(s.Steps, 2_000_000), proved: true, found: map[*line][]int{}}
			all = append(all, byProduct[product])
		}
		return byProduct[product]
	}
	for i, l := range s.Lots {
		if free := l.packs(); !l.Held && l.BestBefore >= s.Today && free > 0 {
			sh := at(l.Product)
			sh.lots = append(sh.lots, i)
		}
	}
	for _, l := range lines {
		l.shelf = at(l.product)
		l.shelf.lines = append(l.shelf.lines, l)
	}
	for _, sh := range all {
		sh.sort(s)
	}
	return all
}

func (l Lot) packs() int {
	if len(l.Free) > 0 {
		return count(l.Free)
	}
	return l.Packs
}

func (sh *shelf) sort(s Stock) {
	slices.SortStableFunc(sh.lots, func(a, b int) int { return cmp.Compare(s.Lots[a].BestBefore, s.Lots[b].BestBefore) })
	for _, i := range sh.lots {
		l := s.Lots[i]
		if n := len(sh.dates); n == 0 || sh.dates[n-1] != l.BestBefore {
			sh.dates = append(sh.dates, l.BestBefore)
		}
		sh.avail = append(sh.avail, l.packs())
		sh.day = append(sh.day, len(sh.dates)-1)
	}
	sh.slack = make([]int, len(sh.dates))
	for k, d := range sh.day {
		sh.slack[d] += sh.avail[k]
	}
	for j := len(sh.slack) - 2; j >= 0; j-- {
		sh.slack[j] += sh.slack[j+1]
	}
	for _, l := range sh.lines {
		l.from, _ = slices.BinarySearch(sh.dates, l.least)
	}
}

// room is the most that l can get beyond what it has, if nobody minds the number of lots.
func (sh *shelf) room(l *line) int {
	if l.from == len(sh.dates) {
		return 0
	}
	return slices.Min(sh.slack[:l.from+1])
}

// grant lets l have n packs more, of any lot; n below zero takes them back.
func (sh *shelf) grant(l *line, n int) {
	l.got += n
	sh.promise(l, n)
}

// promise sets n packs aside for l, of any lot.
func (sh *shelf) promise(l *line, n int) {
	for j := range min(l.from+1, len(sh.slack)) {
		sh.slack[j] -= n
	}
}

// nameable is the most of day d that can be named for packs l has been granted.
func (sh *shelf) nameable(l *line, d int) int {
	return least(sh.slack, l.from+1, d)
}

// least is the least of slack from a to b, both included; the greatest int if there are none.
func least(slack []int, a, b int) int {
	n := math.MaxInt
	for j := a; j <= b; j++ {
		n = min(n, slack[j])
	}
	return n
}

// name gives l n packs of the lot at place k, of those it has been granted.
func (sh *shelf) name(l *line, k, n int) {
	l.named[k] += n
	if l.named[k] == 0 {
		delete(l.named, k)
	}
	sh.pin(l, k, n)
}

// pin takes n packs that were set aside for l out of the lot at place k.
func (sh *shelf) pin(l *line, k, n int) {
	if n == 0 {
		return
	}
	sh.avail[k] -= n
	for j := l.from + 1; j <= sh.day[k]; j++ {
		sh.slack[j] -= n
	}
}
