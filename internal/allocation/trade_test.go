package allocation

import (
	"errors"
	"reflect"
	"testing"
)

// soup is one product; the lots are named by their place in the list.
func soup(lots ...Lot) []Lot { return lots }

func TestWhoGetsWhichLot(t *testing.T) {
	for _, c := range []struct {
		name   string
		s      Stock
		takes  [][]Take  // of the lines as they are served
		short  [][]Short // the same
		unsold []Unsold
		moves  []Move
	}{
		{
			name:  "the oldest first, and what is left over of it to the next order",
			s:     Stock{Lots: soup(Lot{BestBefore: 90, Packs: 10}, Lot{BestBefore: 60, Packs: 10}), Orders: []Order{{Due: 3, Lines: []Line{{0, 6}}}, {Due: 2, Lines: []Line{{0, 8}}}}},
			takes: [][]Take{{{Lot: 1, Packs: 8}}, {{Lot: 1, Packs: 2}, {Lot: 0, Packs: 4}}}, short: [][]Short{nil, nil},
			unsold: []Unsold{{Lot: 0, Packs: 6, Days: 90}},
		}, {
			name:  "the oldest to the first in line would leave the shop without: it wants 30 days",
			s:     Stock{Lots: soup(Lot{BestBefore: 20, Packs: 5}, Lot{BestBefore: 60, Packs: 5}), Orders: []Order{{Due: 1, Lines: []Line{{0, 5}}}, {Due: 2, LeastLife: 30, Lines: []Line{{0, 5}}}}},
			takes: [][]Take{{{Lot: 0, Packs: 5}}, {{Lot: 1, Packs: 5}}}, short: [][]Short{nil, nil},
		}, {
			name:  "a lot on hold, one that is too short-dated, and then none",
			s:     Stock{Lots: soup(Lot{BestBefore: 60, Packs: 3, Held: true}, Lot{BestBefore: 20, Packs: 2}, Lot{BestBefore: 60, Packs: 4}), Orders: []Order{{Due: 1, LeastLife: 30, Lines: []Line{{0, 10}}}}},
			takes: [][]Take{{{Lot: 2, Packs: 4}}}, short: [][]Short{{{OnHold, 3}, {TooShort, 2}, {NoneLeft, 1}}},
			unsold: []Unsold{{Lot: 1, Packs: 2, Days: 20}, {Lot: 0, Packs: 3, Days: 60, Held: true}},
		}, {
			name:  "one lot only: the oldest that is enough",
			s:     Stock{Lots: soup(Lot{BestBefore: 20, Packs: 5}, Lot{BestBefore: 30, Packs: 9}, Lot{BestBefore: 40, Packs: 8}), Orders: []Order{{Due: 1, MostLots: 1, Lines: []Line{{0, 7}}}}},
			takes: [][]Take{{{Lot: 1, Packs: 7}}}, short: [][]Short{nil},
			unsold: []Unsold{{Lot: 0, Packs: 5, Days: 20}, {Lot: 1, Packs: 2, Days: 30}, {Lot: 2, Packs: 8, Days: 40}},
		}, {
			name:  "one lot only, and none is enough",
			s:     Stock{Lots: soup(Lot{BestBefore: 20, Packs: 5}, Lot{BestBefore: 30, Packs: 4}), Orders: []Order{{Due: 1, MostLots: 1, Lines: []Line{{0, 7}}}}},
			takes: [][]Take{{{Lot: 0, Packs: 5}}}, short: [][]Short{{{TooManyLots, 2}}}, unsold: []Unsold{{Lot: 1, Packs: 4, Days: 30}},
		}, {
			name: "all or nothing: a wedding with a dish too few is not delivered, and its soup goes to the next",
			s: Stock{Lots: soup(Lot{BestBefore: 20, Packs: 5}, Lot{Product: 1, BestBefore: 20, Packs: 1}), Orders: []Order{
				{Due: 1, Whole: true, Lines: []Line{{0, 5}, {1, 2}}}, {Due: 1, Lines: []Line{{0, 4}}}}},
			takes: [][]Take{nil, nil, {{Lot: 0, Packs: 4}}}, short: [][]Short{{{NotWhole, 5}}, {{NotWhole, 1}, {NoneLeft, 1}}, nil},
			unsold: []Unsold{{Lot: 0, Packs: 1, Days: 20}, {Lot: 1, Packs: 1, Days: 20}},
		}, {
			name: "due the same day and of the same age: each gets one lot",
			s: Stock{Lots: soup(Lot{BestBefore: 20, Packs: 4}, Lot{BestBefore: 20, Packs: 6}), Orders: []Order{
				{Due: 1, Lines: []Line{{0, 6}}}, {Due: 1, Lines: []Line{{0, 4}}}}},
			takes: [][]Take{{{Lot: 1, Packs: 6}}, {{Lot: 0, Packs: 4}}}, short: [][]Short{nil, nil},
		}, {
			name: "an order of yesterday counts as today's, and a lot of yesterday is not sold",
			s: Stock{Today: 10, Lots: soup(Lot{BestBefore: 9, Packs: 4}, Lot{BestBefore: 10, Packs: 1}), Orders: []Order{
				{Due: 8, Lines: []Line{{0, 2}}}}},
			takes: [][]Take{{{Lot: 1, Packs: 1}}}, short: [][]Short{{{TooShort, 1}}}, unsold: []Unsold{{Lot: 0, Packs: 4, Days: -1}},
		}, {
			name: "numbers: the promised ones, then the lowest",
			s: Stock{Lots: soup(Lot{BestBefore: 20, Free: []Range{{1, 4}, {9, 12}}}), Orders: []Order{{Due: 2, Lines: []Line{{0, 3}}}, {Due: 1, Lines: []Line{{0, 4}}}},
				Promises: []Promise{{Order: 0, Lot: 0, Numbers: []Range{{2, 3}}}}},
			takes: [][]Take{{{Lot: 0, Packs: 4, Numbers: []Range{{1, 1}, {4, 4}, {9, 10}}}}, {{Lot: 0, Packs: 3, Promised: 2, Numbers: []Range{{2, 3}, {11, 11}}}}}, short: [][]Short{nil, nil},
			unsold: []Unsold{{Lot: 0, Packs: 1, Days: 20}},
		}, {
			name:   "what sells by then is not warned of",
			s:      Stock{Lots: soup(Lot{BestBefore: 13, Packs: 30}, Lot{BestBefore: 20, Packs: 15}), Sells: []int{14}}, // 28 by day 13, 42 by day 20
			unsold: []Unsold{{Lot: 0, Packs: 2, Days: 13}, {Lot: 1, Packs: 1, Days: 20}},
		}, {
			name:  "a promise stands against an order that is due before",
			s:     Stock{Lots: soup(Lot{BestBefore: 20, Packs: 5}), Orders: []Order{{Due: 2, Lines: []Line{{0, 4}}}, {Due: 1, Lines: []Line{{0, 4}}}}, Promises: []Promise{{Order: 0, Lot: 0, Packs: 4}}},
			takes: [][]Take{{{Lot: 0, Packs: 1}}, {{Lot: 0, Packs: 4, Promised: 4}}}, short: [][]Short{{{NoneLeft, 3}}, nil},
		}, {
			name: "the promised lot is put on hold: the count stands, from another lot",
			s: Stock{Lots: soup(Lot{BestBefore: 20, Packs: 5, Held: true}, Lot{BestBefore: 30, Packs: 5}), Orders: []Order{{Due: 2, Lines: []Line{{0, 4}}}, {Due: 1, Lines: []Line{{0, 4}}}},
				Promises: []Promise{{Order: 0, Lot: 0, Packs: 4}}},
			takes: [][]Take{{{Lot: 1, Packs: 1}}, {{Lot: 1, Packs: 4}}}, short: [][]Short{{{OnHold, 3}}, nil},
			unsold: []Unsold{{Lot: 0, Packs: 5, Days: 20, Held: true}}, moves: []Move{{0, 4, LotHeld}},
		}, {
			name: "a promise from the young lot shuts out the shop that wants 30 days",
			s: Stock{Lots: soup(Lot{BestBefore: 20, Packs: 5}, Lot{BestBefore: 60, Packs: 5}), Orders: []Order{{Due: 1, Lines: []Line{{0, 5}}}, {Due: 2, LeastLife: 30, Lines: []Line{{0, 3}}}},
				Promises: []Promise{{Order: 0, Lot: 1, Packs: 5}}},
			takes: [][]Take{{{Lot: 1, Packs: 5, Promised: 5}}, nil}, short: [][]Short{nil, {{TooShort, 3}}}, unsold: []Unsold{{Lot: 0, Packs: 5, Days: 20}},
		}, {
			name: "unless counts alone are kept: then no more is moved than the shop needs",
			s: Stock{Keep: KeepCounts, Lots: soup(Lot{BestBefore: 20, Packs: 5}, Lot{BestBefore: 60, Packs: 5}), Orders: []Order{{Due: 1, Lines: []Line{{0, 5}}}, {Due: 2, LeastLife: 30, Lines: []Line{{0, 3}}}},
				Promises: []Promise{{Order: 0, Lot: 1, Packs: 5}}},
			takes: [][]Take{{{Lot: 0, Packs: 3}, {Lot: 1, Packs: 2, Promised: 2}}, {{Lot: 1, Packs: 3}}}, short: [][]Short{nil, nil},
			unsold: []Unsold{{Lot: 0, Packs: 2, Days: 20}}, moves: []Move{{0, 3, ServesOther}},
		}, {
			name: "a smaller order, a lot counted short and an order put off too far",
			s: Stock{Lots: soup(Lot{BestBefore: 20, Packs: 3}, Lot{BestBefore: 30, Packs: 9}), Orders: []Order{{Due: 1, Lines: []Line{{0, 4}}}, {Due: 25, Lines: []Line{{0, 2}}}},
				Promises: []Promise{{Order: 0, Lot: 0, Packs: 6}, {Order: 1, Lot: 0, Packs: 2}}},
			takes: [][]Take{{{Lot: 0, Packs: 3, Promised: 3}, {Lot: 1, Packs: 1}}, {{Lot: 1, Packs: 2}}}, short: [][]Short{nil, nil},
			unsold: []Unsold{{Lot: 1, Packs: 6, Days: 30}}, moves: []Move{{0, 2, OrderLess}, {0, 1, LotGone}, {1, 2, LotTooOld}},
		}, {
			name: "a whole order loses its promise when a lot on hold breaks it",
			s: Stock{Lots: soup(Lot{BestBefore: 20, Packs: 3}, Lot{BestBefore: 30, Packs: 3, Held: true}), Orders: []Order{{Due: 2, Whole: true, Lines: []Line{{0, 5}}}, {Due: 1, Lines: []Line{{0, 2}}}},
				Promises: []Promise{{Order: 0, Lot: 0, Packs: 3}, {Order: 0, Lot: 1, Packs: 2}}},
			takes: [][]Take{{{Lot: 0, Packs: 2}}, nil}, short: [][]Short{nil, {{NotWhole, 1}, {OnHold, 3}, {NoneLeft, 1}}},
			unsold: []Unsold{{Lot: 0, Packs: 1, Days: 20}, {Lot: 1, Packs: 3, Days: 30, Held: true}}, moves: []Move{{0, 3, OrderOff}, {1, 2, OrderOff}},
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, err := Allocate(c.s)
			if err != nil {
				t.Fatal(err)
			}
			if err := Check(c.s, p); err != nil {
				t.Error(err)
			}
			var takes [][]Take
			var short [][]Short
			for _, l := range p.Lines {
				takes, short = append(takes, l.Takes), append(short, l.Short)
			}
			for _, x := range []struct{ got, want any }{{takes, c.takes}, {short, c.short}, {p.Unsold, c.unsold}, {p.Moves, c.moves}} {
				if !reflect.DeepEqual(x.got, x.want) {
					t.Errorf("got  %+v\nwant %+v", x.got, x.want)
				}
			}
		})
	}
}

func TestWhatWaitsForLaterOrders(t *testing.T) {
	s := Stock{Lots: soup(Lot{BestBefore: 20, Packs: 5}, Lot{BestBefore: 60, Packs: 5}), Orders: []Order{
		{Due: 1, MostLots: 1, Lines: []Line{{0, 4}}}, {Due: 5, Lines: []Line{{0, 1}}}, {Due: 1, LeastLife: 30, Lines: []Line{{0, 2}}}}}
	p, err := Allocate(s)
	if err != nil {
		t.Fatal(err)
	}
	if got, want := p.Reserved(s, 1), []int{1, 0}; !reflect.DeepEqual(got, want) {
		t.Errorf("reserved %v, want %v", got, want)
	}
	s.Orders[0].Lines[0].Packs = 8
	s.Orders[0].MostLots = 2
	if p, err = Allocate(s); err != nil {
		t.Fatal(err)
	}
	if got := p.Lines[0].Takes; !reflect.DeepEqual(got, []Take{{Lot: 0, Packs: 5}, {Lot: 1, Packs: 3}}) {
		t.Errorf("two lots: %+v", got)
	}
}

func TestAnOlderLotIsPassedOverForAReason(t *testing.T) {
	s := Stock{Lots: soup(Lot{BestBefore: 20, Packs: 2}, Lot{BestBefore: 60, Packs: 9}), Orders: []Order{
		{Due: 1, MostLots: 1, Lines: []Line{{0, 4}}}, {Due: 5, Lines: []Line{{0, 1}}}}}
	p, err := Allocate(s)
	if err != nil {
		t.Fatal(err)
	}
	if want := []Passed{{Lot: 0, For: 1, Packs: 1}, {Lot: 0, For: -1, Packs: 1}}; !reflect.DeepEqual(p.Lines[0].Passed, want) {
		t.Errorf("passed %+v, want %+v", p.Lines[0].Passed, want)
	}
}

func TestAStockThatCannotBe(t *testing.T) {
	for want, s := range map[string]Stock{
		"allocation: lot 1: its product, packs or best-before day is out of range; give a product and packs of 0 or more":                   {Lots: []Lot{{Packs: -1}}},
		"allocation: lot 1: its numbers 3 to 5 overlap, fall or are out of range; give disjoint ranges, the lowest first":                   {Lots: []Lot{{Free: []Range{{1, 3}, {3, 5}}}}},
		"allocation: lot 1: its numbers are 3 packs, not 4; leave the packs at 0, or count again":                                           {Lots: []Lot{{Packs: 4, Free: []Range{{1, 3}}}}},
		"allocation: order 1, line 1: its product or packs are below zero or too many; give a product and packs of 0 or more":               {Orders: []Order{{Lines: []Line{{0, -1}}}}},
		"allocation: order 1: its due day, least life or number of lots is out of range; give days and lots of 0 or more":                   {Orders: []Order{{LeastLife: -1}}},
		"allocation: promise 1: it is for an order, a line or of a lot that is not there; leave out promises to orders that were cancelled": {Promises: []Promise{{}}},
		"allocation: promise 1: the lot is of another product than the line; name a lot of the product that is ordered":                     {Lots: []Lot{{Product: 1}}, Orders: []Order{{Lines: []Line{{0, 1}}}}, Promises: []Promise{{}}},
	} {
		_, err := Allocate(s)
		var e *StockError
		if !errors.As(err, &e) || err.Error() != want {
			t.Errorf("got %v, want %s", err, want)
		}
	}
}
