// Package clause searches timetables completely and learns from each dead end: starts are whole minutes kept as bounds, every
// bound that is pushed knows why, and each conflict becomes a clause over bounds that cuts off all that fails for the same reason
// (lazy clause generation: Ohrimenko, Stuckey and Codish 2009; for cumulative resources Schutt, Feydy, Stuckey and Wallace 2011).
//
// It knows starts, gaps and resources. Calendars come as minutes that are taken.
package clause

// MaxMinutesOpen bounds the sum of all windows, and by it the memory: 104 bytes a minute at the start (measured), so 0.42 GB at most;
// what is learned comes on top.
const MaxMinutesOpen = 4_000_000

// Problem is what to place. Variables are named by index; a start is a variable and so is the end of everything.
type Problem struct {
	Lo, Hi    []int // first and last value of each variable
	Arcs      []Arc
	Resources []Resource
	End       int // the variable to make small; every other one must be at most so late by Arcs
}

// Arc demands value[To] - value[From] >= Min.
type Arc struct{ From, To, Min int }

// Resource is Capacity units; Taken are minutes at which so many of them are away, not overlapping, sorted.
type Resource struct {
	Capacity int
	Taken    []Taken
	Uses     []Use
}

// Taken says that Amount units are away from minute From up to, not including, To.
type Taken struct{ From, To, Amount int }

// Use says that variable Var holds Amount units from From up to, not including, To minutes after its value. Uses of one
// variable on one resource do not overlap.
type Use struct{ Var, From, To, Amount int }

// Size is the sum of all windows in minutes, which must be at most MaxMinutesOpen.
func (p Problem) Size() int {
	size := 0
	for i := range p.Lo {
		size += max(0, p.Hi[i]-p.Lo[i])
	}
	return size
}
