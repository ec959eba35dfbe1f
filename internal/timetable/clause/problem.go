// Package clause searches timetables completely and learns from each dead end: starts are whole minutes kept as bounds, every
// bound that is pushed knows why, and each conflict becomes a clause over bounds that cuts off all that fails for the same reason
// (lazy clause generation: Ohrimenko, Stuckey and Codish 2009; for cumulative resources Schutt, Feydy, Stuckey and Wallace 2011).
//
// It knows starts, gaps, resources with changeovers, weighted sums of how far gaps are exceeded, and flags (variables from 0 to 1) on
// which gaps and uses hang. Calendars come as minutes that are taken.
package clause

// MaxMinutesOpen bounds the sum of all windows, and by it the memory: 104 bytes a minute at the start (measured), so 0.42 GB at most;
// what is learned comes on top.
const MaxMinutesOpen = 4_000_000

// Problem is what to place. Variables are named by index; a start is a variable and so is the end of everything.
type Problem struct {
	Lo, Hi    []int // first and last value of each variable
	Arcs      []Arc
	Resources []Resource
	Sums      []Sum
	Choices   [][]int // lists of flags: of each at least one must be 1
	End       int     // the variable to make small: by Arcs or a Sum it is at least what it stands for
}

// Arc demands value[To] - value[From] >= Min, if flag If-1 is 1; with If 0 always.
type Arc struct{ From, To, Min, If int }

// Resource is Capacity units; Taken are minutes at which so many of them are away, not overlapping, sorted.
type Resource struct {
	Capacity   int
	Taken      []Taken
	Uses       []Use
	Changeover [][]int // by the families of uses: minutes from the end of one to the begin of a later one; nil: none
}

// Taken says that Amount units are away from minute From up to, not including, To.
type Taken struct{ From, To, Amount int }

// Use says that Amount units are held from From minutes after the value of variable Var up to, not including, To minutes after that of
// Until, mostly the same variable, if flag If-1 is 1; with If 0 always. Uses of one variable on one resource do not overlap. Owner tells
// whose use it is: between uses of one owner there is no changeover.
type Use struct{ Var, Until, From, To, Amount, Family, Owner, If int }

// Sum demands that its terms together are at most the value of variable Total, or at most Most when Total is below 0.
type Sum struct {
	Terms       []Term
	Total, Most int
}

// Term counts Weight for each minute of value[To] - value[From] - Min above 0. A From or To below 0 stands for 0.
type Term struct{ From, To, Min, Weight int }

// Size is the sum of all windows in minutes, which must be at most MaxMinutesOpen.
func (p Problem) Size() int {
	size := 0
	for i := range p.Lo {
		size += max(0, p.Hi[i]-p.Lo[i])
	}
	return size
}
