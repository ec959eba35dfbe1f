// Package find finds anything of a kitchen by a few words, a number, a date or what a scanner read. It knows entries with names and words alone,
// and neither where they come from nor where they lead.
//
// An entry is found when every word that is asked for fits one of its words: it is that word, or its beginning, or, where no entry that may be
// seen has such a word, it is a slip of the pen away (one from 4 letters on, two from 8). Capitals and accents make no difference, a plural also
// stands for its singular, and words that tell nothing ("of", "the") count only when nothing else is asked. Of codes, numbers and dates it
// makes no difference how their parts are joined, and they may be begun at any part: 1201-3 finds P-1201-3, and 12-01 finds 2026-12-01.
//
// The best comes first:
//  1. what is called exactly what was asked, by its code or its name;
//  2. what has fewer of the words by a slip of the pen;
//  3. what has more of them in its code or its name than in what else is known of it;
//  4. what has them whole rather than begun;
//  5. what has any in its code, and else, of those with any in their names, whose name has fewer words;
//  6. what is higher in Kinds, then the later day, then by name and code.
//
// Nothing else decides: the same entries and words always give the same list.
package find

import "slices"

// Kind is a sort of thing that can be found.
type Kind string

// The kinds.
const (
	Dish       Kind = "dish"
	Pack       Kind = "pack"
	Run        Kind = "run" // of the book
	Production Kind = "production"
	Ingredient Kind = "ingredient"
	Lot        Kind = "lot"
	Order      Kind = "order"
	Customer   Kind = "customer"
	Invoice    Kind = "invoice"
	Credit     Kind = "credit note"
	Supplier   Kind = "supplier"
	Equipment  Kind = "equipment" // pots, ways to chill, freezers, bags, thermometers
	Place      Kind = "place"
	Person     Kind = "person" // of the book
	Staff      Kind = "staff"  // who may sign in, with a role
	Trial      Kind = "trial"
	Step       Kind = "step"
	Food       Kind = "food" // of the composition table
	Help       Kind = "help" // what explains a figure or a word
)

// Kinds are all kinds, in the order in which they stand where nothing else decides.
var Kinds = []Kind{Dish, Pack, Run, Production, Ingredient, Lot, Order, Customer, Invoice, Credit, Supplier, Equipment, Place, Person, Staff, Trial, Step, Food, Help}

// Entry is one thing that can be found.
type Entry struct {
	Kind  Kind
	ID    string   // its code: what it is called by on labels, in addresses and on the command line
	Of    string   // what it belongs to: a step's dish, a credit note's invoice, the part of the book
	Name  string   // as people say it; "" where the code is all
	About string   // in short what it is: shown, and its words count as other words
	Also  []string // other words by which it is known
	Packs []Span   // numbers of its packs, for #17
	Day   string   // it belongs to, as 2026-12-01: the later comes first
	Area  Area     // who may see it
}

// Equal says whether two entries are the same.
func (e Entry) Equal(o Entry) bool {
	return e.Kind == o.Kind && e.ID == o.ID && e.Of == o.Of && e.Name == o.Name && e.About == o.About && e.Day == o.Day && e.Area == o.Area && slices.Equal(e.Also, o.Also) && slices.Equal(e.Packs, o.Packs)
}

// Span is numbers from First to Last.
type Span struct{ First, Last int64 }

// Area is a part of what there is to see. Areas is several.
type (
	Area  uint8
	Areas uint32
)

// All is every area.
const All = ^Areas(0)

// With is the areas and one more.
func (all Areas) With(a Area) Areas { return all | 1<<a }

// Has says whether an area is among them.
func (all Areas) Has(a Area) bool { return all&(1<<a) != 0 }

// Most is how many results are given. Found.Total says how many there are.
const Most = 500

// Found is what was found.
type Found struct {
	Words  []string // that were looked for, as they count
	Left   bool     // there were more words than count
	Total  int      // how many there are, those beyond Most among them
	Groups []Group  // the one with the best result first
}

// Group is the results of one kind.
type Group struct {
	Kind    Kind
	Results []Result // the best first
	Total   int      // how many there are of the kind
}

// Result is an entry that was found.
type Result struct {
	Entry
	Near bool // one of the words fits only if it was a slip of the pen
}
