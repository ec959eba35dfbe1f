// Package allocation says which packs in the freezer go to which orders: the oldest first, none past its date, earlier orders never
// worse off for later ones. Everything is whole packs and whole days.
//
// Days are whole numbers counted from any fixed day. A best-before day is the last day a pack is good.
package allocation

// Stock is what lies in the freezer, what is ordered, and what has been promised already.
type Stock struct {
	Today    int
	Lots     []Lot
	Orders   []Order   // in the order they came in
	Promises []Promise // of an earlier plan; the packs are still among the free ones of their lot
	Keep     Keep      // what of a promise stands first
	Sells    []int     // of each product, packs that sell in seven days beside these orders; products beyond its end sell none
	WarnTo   int       // lots with a best-before day after it are not warned of; 0: all are
	Steps    int       // bounds the search for customers that want few lots, for each product; 0: 2 million, some 30 ms
}

// Lot is packs of one product with one best-before day.
type Lot struct {
	Product    int // from 0
	BestBefore int
	Packs      int     // free packs; with Free given it is their count, or 0
	Free       []Range // their numbers, if they are known: disjoint, rising
	Place      int
	Held       bool // on hold: not to be given to anybody
}

// Range is pack numbers from First to Last.
type Range struct{ First, Last int }

// Order is what one customer wants on one day. Orders due earlier come first, of the same day the one that came in first.
type Order struct {
	Due       int  // a day before today counts as today
	LeastLife int  // days the packs must still be good on the due day: a best-before day of Due+LeastLife will do
	Whole     bool // all lines in full, or nothing
	MostLots  int  // most lots in one line; 1: one lot only; 0: any number
	Lines     []Line
}

// Line is packs of one product.
type Line struct{ Product, Packs int }

// Promise is packs of a lot that a line was told it would get.
type Promise struct {
	Order, Line, Lot, Packs int
	Numbers                 []Range // if they were told; Packs is their count, or 0
}

// Keep is what stands first when a promise and a better plan do not agree.
type Keep int

const (
	// KeepLots leaves every promised pack where it was promised, unless that cannot be.
	KeepLots Keep = iota
	// KeepCounts leaves every line the packs it was promised, and moves them to another lot if that serves more; no more than needed.
	KeepCounts
)

// Plan is who gets what.
type Plan struct {
	Lines  []Served // all lines, the first to be served first
	Left   []int    // of each lot, free packs nobody gets, held ones too
	Moves  []Move   // promises that could not stand as they were
	Unsold []Unsold // lots that pass their best-before day, the first first
	Proved bool     // no earlier line can get more; false if the search for few lots ran out of steps
}

// Served is what one line gets. Packs and the packs of Short add up to Wanted.
type Served struct {
	Order, Line   int
	Wanted, Packs int
	Takes         []Take // the oldest first
	Short         []Short
	Passed        []Passed // older lots that would have done and were not taken from
	Proved        bool     // it cannot get more unless an earlier line gets less
}

// Take is packs of one lot.
type Take struct {
	Lot, Packs int
	Promised   int     // how many of them were promised from this lot
	Numbers    []Range // if the numbers of the lot are known
}

// Short is packs that are missing, and why.
type Short struct {
	Why   Why
	Packs int
}

// Why says why packs are missing.
type Why int

const (
	NoneLeft    Why = iota + 1 // no pack of the product is left for it
	OnHold                     // packs lie there that would do, on hold
	TooShort                   // packs lie there that are not good for long enough
	TooManyLots                // packs lie there, in more lots than the customer takes
	NotWhole                   // packs lie there, but the order cannot be filled whole
)

var whyNames = [...]string{NoneLeft: "none left", OnHold: "only on hold", TooShort: "too short-dated", TooManyLots: "in too many lots", NotWhole: "order cannot be filled whole"}

func (w Why) String() string { return name(whyNames[:], int(w)) }

// Passed is an older lot that a line could have had packs of.
type Passed struct {
	Lot   int
	For   int // order that gets its packs instead; -1: they are left because this customer takes few lots
	Packs int
}

// Move is promised packs that a line does not get from the lot they were promised from.
type Move struct {
	Promise int // which of Stock.Promises
	Packs   int
	Why     MoveWhy
}

// MoveWhy says why a promise did not stand.
type MoveWhy int

const (
	LotHeld     MoveWhy = iota + 1 // the lot is on hold
	LotGone                        // the lot holds fewer packs than were promised from it
	LotTooOld                      // it is not good for long enough on the day that is due now
	OrderLess                      // the order is for fewer packs now
	OrderOff                       // the order cannot be filled whole, so that it gets nothing
	LotsCapped                     // the customer takes fewer lots than were promised
	ServesOther                    // another lot serves this line, so that others get more
)

var moveNames = [...]string{LotHeld: "lot is on hold", LotGone: "lot holds fewer", LotTooOld: "lot is not good for long enough", OrderLess: "order is for fewer",
	OrderOff: "order cannot be filled whole", LotsCapped: "customer takes fewer lots", ServesOther: "moved so that others get more"}

func (w MoveWhy) String() string { return name(moveNames[:], int(w)) }

// Unsold is packs of a lot that nobody is expected to have bought by its best-before day.
type Unsold struct {
	Lot, Packs int
	Days       int  // from today to the best-before day; below 0: it has passed
	Held       bool // they are on hold, so that they could not be sold
}

func name(names []string, i int) string {
	if i > 0 && i < len(names) {
		return names[i]
	}
	return "unknown"
}
