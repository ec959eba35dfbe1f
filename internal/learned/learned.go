// Package learned works out of the records of productions what the figures of the book should be: shares lost, evaporation, residue, trim,
// times and paces, how filled packs scatter, and how far a pot turns out otherwise than planned.
//
// Masses. What was weighed of an output is held against what went in: as entered, or as planned where nothing was. Steps between two
// weighings are one stretch. A figure of a stretch is what would explain its weighing if the other figures of the stretch are as the book
// has them today; where it has not most of what the stretch loses, the weighing may as well mean another, which is told (Figure.With).
// What was thrown away before the weighing counts as come out, but for what stuck to the vessel. A loss is seen when it is three times what
// the masses are good for: a thousandth of what was weighed, and a fiftieth of each thing that went in and nobody entered.
//
// Times. From begun to finished, of all loads together. The steps that share a vessel are one task: they teach no time of a step, only by how
// much they take longer than planned together, for the cook to know (Pot). What
// cannot be what the work took is not learned from, and listed with its reason (Excluded): no beginning or no end entered, a break of who
// did it within, begun before what it needs was there, finished in one go with others or at once, another task of the same hands at the
// same time, finished after the run was closed or on another day.
//
// What counts. A run counts for a figure when the steps of its stretch were, in the book that it was opened by, as they are now but for
// figures. Where the figure itself was written anew by hand, runs before that do not count: who wrote it knew them. Where it was accepted
// from runs, those are in it, and it is worth them and what the book was worth before, but at most MostWorth runs, so that a kitchen that
// changes is followed.
//
// Outliers are asked about and counted until somebody leaves them out with a reason. Nothing is changed by anything here.
package learned

import (
	"kettlefrost/internal/board"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/learning"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
)

// Made is one production: what was entered of it, and what it should have come to.
type Made struct {
	Run      *board.Run
	Day      string
	Book     kitchen.Book  // that it was opened by
	Sure     bool          // that it was that book and no other
	Expected plan.Expected // by that book
	Clock    board.Clock
	Goods    map[record.Lot]string // the ingredient that each lot is which went in; of left-overs and opened packs nothing
}

// Kind is what sort of figure it is.
type Kind string

// Kinds of figures.
const (
	Water       Kind = "water"       // share of what goes in, lost as water
	Fat         Kind = "fat"         // share of what goes in, lost as fat
	Drain       Kind = "drain"       // share of what goes in, poured off
	ReduceTo    Kind = "reduce-to"   // share of what goes in that is left
	Evaporation Kind = "evaporation" // kg/m²h
	Residue     Kind = "residue"     // kg of each filling
	Takes       Kind = "takes"       // share of what goes in that a second output takes
	Trim        Kind = "trim"        // share of an ingredient as purchased
	Pace        Kind = "pace"        // s of hands for a kg
	Time        Kind = "time"        // s of each load
	Pot         Kind = "pot"         // times as long as planned, of several steps that are one task
	PackPace    Kind = "pack-pace"   // s of hands for a pack
	Fills       Kind = "fills"       // g, standard deviation of single packs
	Spread      Kind = "spread"      // share, standard deviation of what comes out
)

// Figure is one figure of the book, and what runs say of it.
type Figure struct {
	Key     string // its place in the book: dishes/ale-cheddar/steps/base/loses/evaporation
	Kind    Kind
	Dish    string
	Step    string // none of a pack or an ingredient
	Part    string // the output, the ingredient or the pack, where the figure is of that
	Value   float64
	Before  string   // as the book writes it; empty when it has none
	Source  string   // what the figure before is, and what it is worth
	With    []string // figures that the same weighings could mean as well
	WhyNot  string   // it cannot be put into the book, although something was seen
	State   State
	After   string // as the book would write it
	Rounded float64

	Scale    learning.Scale
	Prior    learning.Prior
	Proposal learning.Proposal // of kinds other than Fills and Spread
	Scatter  learning.Spread   // of those
	Seen     []Seen            // that count, or were left out by somebody
	Excluded []Excluded
	Asked    []Asked
	Said     []Said // what was said of it before, the last first
}

// State is how a figure stands.
type State string

// States of figures.
const (
	Ready     State = "proposed"
	Unchanged State = "as the book has it" // to its last digit, or by less than a hundredth
	TooFew    State = "too few runs"
	Declined  State = "refused"                       // and no new run since
	Waiting   State = "accepted, not in the book yet" // whose files somebody has to write
	NoPlace   State = "not a figure of the book"
)

// LeastRuns is how many runs a proposal needs. MostWorth is how many runs a figure that was learned is worth at most. Both are conventions
// of this program.
const (
	LeastRuns = 3
	MostWorth = 12
)

// Seen is what one run says of a figure.
type Seen struct {
	Run     string
	Day     string
	Value   float64
	Of      string   // what was weighed or timed, in words
	Notes   []string // what was taken for granted
	LeftOut string   // why somebody left it out
	Count   int      // packs weighed, of Fills
}

// Excluded is a run, or a load of one, that says nothing of a figure.
type Excluded struct {
	Run, Why string
}

// Asked is a run that lies far off: whoever made it knows why.
type Asked struct {
	Run     string
	Why     []string
	Without float64 // what would be proposed without it
	Text    string  // the same as the book writes it
}

// Said is what was said of a figure before.
type Said struct {
	Entry record.Entry
	Body  record.Learned
}

// Changes says whether the figure may be accepted.
func (f Figure) Changes() bool { return f.State == Ready }

// Run is how many runs count.
func (f Figure) Counted() int {
	n := 0
	for _, s := range f.Seen {
		if s.LeftOut == "" {
			n++
		}
	}
	return n
}

// Runs are the names of those that count.
func (f Figure) Runs() []string {
	var names []string
	for _, s := range f.Seen {
		if s.LeftOut == "" {
			names = append(names, s.Run)
		}
	}
	return names
}
