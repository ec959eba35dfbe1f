package find

import (
	"cmp"
	"slices"
	"strings"
)

// fit says how well a word of a question fits, the better the higher. It has room in bitsOfFit.
type fit uint64

const (
	slipElsewhere fit = iota + 1 // of the pen, in what else is known
	slipInName
	slipInCode
	begunElsewhere
	wholeElsewhere
	begunInName
	begunInCode
	wholeInName
	wholeInCode
)

const bitsOfFit = 4

// How a word fits, by where it stands.
var (
	slipped = [...]fit{elsewhere: slipElsewhere, inName: slipInName, inCode: slipInCode}
	begins  = [...]fit{elsewhere: begunElsewhere, inName: begunInName, inCode: begunInCode}
	is      = [...]fit{elsewhere: wholeElsewhere, inName: wholeInName, inCode: wholeInCode}
)

// hit is an entry that answers so far.
type hit struct {
	words int // that fit
	fits  fit // of each word, the last behind the others
}

// answer is an entry that answers, with what decides its place, in this order.
type answer struct {
	index, entry                int
	isCalled                    bool
	near, called, whole, others int
	inCode, inName              bool
}

// Search is what is found of some indexes by those who may see some areas. Of one kind alone if a kind is given.
func Search(text string, see Areas, only Kind, indexes ...*Index) Found {
	words, more := ask(text)
	found := Found{Left: more}
	s := search{see: see, indexes: indexes}
	for i := range indexes {
		s.hits = append(s.hits, make([]hit, len(indexes[i].entries)))
	}
	for i, w := range words {
		found.Words = append(found.Words, w.forms[0])
		s.take(i, w)
	}
	return s.grouped(found, s.answers(called(text), len(words), only))
}

// answers are the entries that all words fit.
func (s *search) answers(name string, words int, only Kind) []answer {
	var all []answer
	for i, x := range s.indexes {
		for e, h := range s.hits[i] {
			if words == 0 || h.words < words || !s.see.Has(x.entries[e].Area) || only != "" && x.entries[e].Kind != only {
				continue
			}
			a := answer{index: i, entry: e, isCalled: slices.Contains(x.called[e][:], name)}
			for ; h.fits > 0; h.fits >>= bitsOfFit {
				a.count(h.fits & (1<<bitsOfFit - 1))
			}
			if a.inName && !a.inCode {
				a.others = x.others[e]
			}
			all = append(all, a)
		}
	}
	return all
}

func (a *answer) count(f fit) {
	switch f {
	case slipElsewhere, slipInName, slipInCode:
		a.near++
	case wholeElsewhere, wholeInName, wholeInCode:
		a.whole++
	}
	name, code := f == slipInName || f == begunInName || f == wholeInName, f == slipInCode || f == begunInCode || f == wholeInCode
	if name || code {
		a.called++
	}
	a.inName, a.inCode = a.inName || name, a.inCode || code
}

// search is a question under way.
type search struct {
	see     Areas
	indexes []*Index
	hits    [][]hit // of each index, by entry
}

// take takes the next word of the question: of those that answer so far, those that answer it too.
func (s *search) take(nth int, a asked) {
	found := false
	for i, x := range s.indexes {
		for k, form := range a.forms {
			from, before := x.begun(form)
			for w := from; w < before; w++ {
				same := x.words[w] == form
				if strings.HasPrefix(form, "#") && !same { // #1 is not #17
					continue
				}
				found = found || x.seen(w, s.see)
				if same && k == 0 {
					s.mark(i, w, nth, is)
				} else {
					s.mark(i, w, nth, begins)
				}
			}
		}
		if a.number > 0 {
			found = s.markPacks(i, nth, a.number) || found
		}
	}
	if found || slips(a.forms[0]) == 0 {
		return
	}
	for i, x := range s.indexes {
		for w, known := range x.words {
			if near(a.forms[0], known) {
				s.mark(i, w, nth, slipped)
			}
		}
	}
}

// mark notes that a word of an index fits.
func (s *search) mark(index, word, nth int, how [3]fit) {
	for _, p := range s.indexes[index].places[word] {
		s.hits[index][p.entry].better(nth, how[p.where])
	}
}

// better counts how the word in turn fits, unless it fits better elsewhere, or one of those before does not.
func (h *hit) better(nth int, how fit) {
	if h.words < nth {
		return
	}
	if h.words == nth {
		h.words, h.fits = nth+1, h.fits<<bitsOfFit
	}
	before := h.fits >> bitsOfFit << bitsOfFit
	h.fits = before | max(h.fits-before, how)
}

// markPacks notes the entries that have a pack of a number, and says whether any may be seen.
func (s *search) markPacks(index, nth int, number int64) (found bool) {
	for e, entry := range s.indexes[index].entries {
		if slices.ContainsFunc(entry.Packs, func(p Span) bool { return p.First <= number && number <= p.Last }) {
			s.hits[index][e].better(nth, begunElsewhere)
			found = found || s.see.Has(entry.Area)
		}
	}
	return found
}

// compare puts the better answer first.
func (s *search) compare(a, b answer) int {
	x, y := s.entry(a), s.entry(b)
	return cmp.Or(trueFirst(a.isCalled, b.isCalled), cmp.Compare(a.near, b.near), cmp.Compare(b.called, a.called), cmp.Compare(b.whole, a.whole), cmp.Compare(a.others, b.others),
		cmp.Compare(slices.Index(Kinds, x.Kind), slices.Index(Kinds, y.Kind)), cmp.Compare(y.Day, x.Day), cmp.Compare(x.Name, y.Name), cmp.Compare(x.ID, y.ID), cmp.Compare(x.Of, y.Of))
}

func trueFirst(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return -1
	}
	return 1
}

func (s *search) entry(a answer) *Entry { return &s.indexes[a.index].entries[a.entry] }

// grouped puts the best answers into groups of their kinds.
func (s *search) grouped(f Found, all []answer) Found {
	slices.SortFunc(all, s.compare)
	at, totals := map[Kind]int{}, map[Kind]int{}
	for i, a := range all {
		e := s.entry(a)
		totals[e.Kind]++
		if i >= Most {
			continue
		}
		if _, there := at[e.Kind]; !there {
			at[e.Kind] = len(f.Groups)
			f.Groups = append(f.Groups, Group{Kind: e.Kind})
		}
		g := &f.Groups[at[e.Kind]]
		g.Results = append(g.Results, Result{*e, a.near > 0})
	}
	for i := range f.Groups {
		f.Groups[i].Total = totals[f.Groups[i].Kind]
	}
	f.Total = len(all)
	return f
}
