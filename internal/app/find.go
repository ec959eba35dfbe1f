package app

import (
	"context"
	"crypto/sha256"
	"slices"
	"sync"

	"kettlefrost/internal/find"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/people"
	"kettlefrost/internal/record"
)

// Finder finds anything of a kitchen: what its book says, what its records tell, the foods of the composition table.
type Finder struct {
	house   BookHouse
	records *Records // nil when none are kept
	boards  *Boards  // of the same records

	mu      sync.Mutex
	shelves map[string]findShelf
}

// findShelf is what can be found of one part, made ready month by month, and of which state of the part that is.
type findShelf struct {
	of     any
	months map[string]findMonth
}

// findMonth is what can be found of a month; what has no day is of none.
type findMonth struct {
	entries []find.Entry
	index   *find.Index
}

// NewFinder finds what is in a house, and in its records if there are any.
func NewFinder(house BookHouse, records *Records, boards *Boards) *Finder {
	return &Finder{house: house, records: records, boards: boards, shelves: map[string]findShelf{}}
}

// FindAsk is what somebody looks for.
type FindAsk struct {
	Words string
	Kind  find.Kind              // only these; all when empty
	Sees  func(people.Area) bool // what whoever asks may see; nil is everything
}

// seenAreas are the areas in the order of the numbers that the index has for them.
var seenAreas = []people.Area{people.Kitchen, people.Money, people.Office, people.Managing}

const (
	ofKitchen find.Area = iota
	ofMoney
	ofOffice
	ofManaging
)

func (a FindAsk) areas() find.Areas {
	if a.Sees == nil {
		return find.All
	}
	var all find.Areas
	for i, area := range seenAreas {
		if a.Sees(area) {
			all = all.With(find.Area(i))
		}
	}
	return all
}

// Find is everything that the words fit and whoever asks may see. What a scanner read is looked for by what it says.
func (f *Finder) Find(ctx context.Context, a FindAsk) (FoundSheet, error) {
	v := FoundSheet{Schema: FoundSchema, Asked: a.Words, Groups: []FoundGroup{}}
	words := a.Words
	if scan, is := find.Scanned(words); is {
		v.Scanned = &scan
		if words = scan.Lot; words == "" {
			words = scan.GTIN
		}
	}
	indexes, err := f.indexes(ctx)
	if err != nil {
		return v, err
	}
	if v.Lot, err = f.lotOf(ctx, a, v.Scanned); err != nil {
		return v, err
	}
	if v.Scanned == nil { // a lot that nobody knows is no question
		indexes = append(indexes, f.shelf("help", nil, helpEntries)...)
	}
	v.take(find.Search(words, a.areas(), a.Kind, indexes...))
	return v, nil
}

// lotOf is the lot, or the pack of one, that a scanner read or somebody typed with the number of the pack; "" for anything else.
func (f *Finder) lotOf(ctx context.Context, a FindAsk, scan *find.Scan) (code string, err error) {
	if f.records == nil || !a.areas().Has(ofKitchen) {
		return "", nil
	}
	text := a.Words
	if scan != nil {
		text = scan.Code()
	}
	err = f.records.Lots(ctx, func(s *lots.State, _ finding.List) error {
		c, l, err := s.ReadCode(text)
		if err != nil && scan != nil { // the number on the pack may not be that of the records
			c, l, err = s.ReadCode(scan.Lot)
		}
		if err == nil && l != nil && (scan != nil || !c.Numbers.Empty()) {
			code = c.String()
		}
		return nil // what is no code is words
	})
	return code, err
}

// indexes are all parts, each made ready again only when it has changed.
func (f *Finder) indexes(ctx context.Context) ([]*find.Index, error) {
	book, _ := f.house.Book()
	sum, known := f.bookSum()
	if !known {
		f.forget("book")
	}
	all := f.shelf("foods", nil, func() []find.Entry { return foodEntries(f.house.Foods()) })
	all = append(all, f.shelf("book", sum, func() []find.Entry { return bookEntries(book, f.files()) })...)
	if f.records == nil {
		return all, nil
	}
	kept, err := f.keptIndexes(ctx, book, sum)
	return append(all, kept...), err
}

// bookSum is one number for the book as it is written; false when it cannot be told, and the book may be another each time.
func (f *Finder) bookSum() (sum [sha256.Size]byte, known bool) {
	house, can := f.house.(interface{ writtenSum() [sha256.Size]byte })
	if can {
		sum = house.writtenSum()
	}
	return sum, sum != [sha256.Size]byte{}
}

// shelf is a part as it is in a state. A month in which nothing has changed is not made ready again: what is entered is mostly about the last.
func (f *Finder) shelf(part string, of any, entries func() []find.Entry) []*find.Index {
	f.mu.Lock()
	defer f.mu.Unlock()
	s, there := f.shelves[part]
	if !there || s.of != of {
		s = findShelf{of, monthsOf(entries(), s.months)}
		f.shelves[part] = s
	}
	var all []*find.Index
	for _, m := range s.months {
		all = append(all, m.index)
	}
	return all
}

// monthsOf are entries by their month, those as before made ready already.
func monthsOf(entries []find.Entry, before map[string]findMonth) map[string]findMonth {
	months := map[string]findMonth{}
	for _, e := range entries {
		name := e.Day[:min(len(e.Day), len("2026-12"))]
		m := months[name]
		m.entries = append(m.entries, e)
		months[name] = m
	}
	for name, m := range months {
		if m.index = before[name].index; m.index == nil || !slices.EqualFunc(m.entries, before[name].entries, find.Entry.Equal) {
			m.index = find.NewIndex(m.entries)
		}
		months[name] = m
	}
	return months
}

func (f *Finder) forget(parts ...string) {
	f.mu.Lock()
	defer f.mu.Unlock()
	for _, p := range parts {
		delete(f.shelves, p)
	}
}

// turned is the state of a part that is followed.
type turned struct {
	turn  int
	book  [sha256.Size]byte
	today record.Day
}
