package timetable

import (
	"context"
	"fmt"
)

// Solver is anything that answers a Problem.
//
// The error is for a malformed problem (Faults) or a cancelled context; with a cancelled context the Result still holds the
// best schedule so far. That a problem has no schedule is an answer, not an error.
type Solver interface {
	Solve(ctx context.Context, p Problem, o Options) (Result, error)
}

// Options are budgets and a seed. The same problem and options always give the same Result. For each budget 0 means the default,
// which is meant to answer about 60 tasks within 20 to 30 ms, and a negative number means none.
type Options struct {
	Seed uint64
	// Tries is how many schedules are built; by default 36,000 over the number of tasks, within 60 and 1,000.
	Tries int
	// Conflicts is how many dead ends the complete search may meet; four times as many when no schedule is known. By default
	// 60,000 over the number of tasks, at most 2,000.
	Conflicts int
	// Turns is how often both budgets are spent, one after the other, each time going on from what is known; by default once.
	Turns int
	// Near is a schedule, of the same tasks, that may no longer be allowed: where the first goal has terms the search sets out from what it
	// becomes when each task starts then or as soon after as it can. Nil: none.
	Near []int
	// Progress is called with each better schedule; may be nil.
	Progress func(Result)
}

// Status says how the search ended.
type Status int

const (
	Unknown    Status = iota // no schedule found, none excluded
	Optimal                  // no schedule ends earlier; with goals, none is better by them
	Feasible                 // a schedule; a better one is not excluded
	Infeasible               // no schedule exists; Core says why
)

var statusNames = [...]string{"unknown", "optimal", "feasible", "infeasible"}

// String is the status as a word.
func (s Status) String() string { return nameOf(statusNames[:], int(s)) }

// Result is the answer.
type Result struct {
	Status   Status
	Start    []int        // minute each task starts; nil unless Optimal or Feasible
	Ways     []int        // with Start: the way taken of each of Problem.Choices, from 1
	End      int          // minute the last task ends
	Bound    int          // no schedule ends before this minute; meaningless when Infeasible
	BoundWhy BoundWhy     // the argument for Bound
	Goals    []GoalResult // of Problem.Goals
	Core     Core         // when Infeasible: what clashes
	Effort   Effort       // what it took
}

// BoundKind is the kind of argument behind a bound.
type BoundKind int

const (
	NoBound      BoundKind = iota
	LongestChain           // Tasks must follow each other by Lags; the last ends at the bound
	BusyResource           // Tasks hold Resource for so long that it works from From to To at least
	SearchBound            // the complete search went through everything earlier
)

var boundNames = [...]string{"no bound", "longest chain", "busy resource", "search"}

// String is the kind in words.
func (k BoundKind) String() string { return nameOf(boundNames[:], int(k)) }

// BoundWhy is the argument for a bound: the first two kinds can be checked by eye, a search cannot.
type BoundWhy struct {
	Kind     BoundKind
	Tasks    []int // the chain in order, or the tasks that keep the resource busy
	Lags     []int // of a chain
	Held     []int // of a chain, for each task: the resource whose calendar it must wait for, or -1
	Resource int   // of BusyResource
	From, To int   // minutes: nothing of Tasks needs Resource before From; its work ends at To at the earliest, and Bound-To must follow
}

// CoreKind is the kind of clash that makes a problem infeasible.
type CoreKind int

const (
	NoClash      CoreKind = iota
	LagCycle              // Lags close a circle that pushes Tasks later without end
	ChainTooLate          // Lags, with the earliest and latest starts and the calendar, leave Tasks[Late] no start
	NoRoom                // the resources never hold the one task in Tasks within its window, all other work aside
	ResourceFull          // Tasks need more of Resource than there is up to the horizon
	SearchedAll           // the complete search found no schedule for Tasks, nor for anything that has them
)

var coreNames = [...]string{"no clash", "lag cycle", "chain too late", "no room", "resource full", "searched all"}

// String is the kind in words.
func (k CoreKind) String() string { return nameOf(coreNames[:], int(k)) }

// Core is a part of the problem that clashes by itself.
type Core struct {
	Kind     CoreKind
	Tasks    []int
	Lags     []int
	Late     int // ChainTooLate: the place in Tasks of the one that is left no start
	Resource int // NoRoom, ResourceFull: the resource that stands in the way
	From, To int // ResourceFull: the window, minutes; NoRoom: the task's first and last possible start
}

// Effort counts work, so that budgets and tests need no clock.
type Effort struct {
	Schedules int // built to the end or until a window was missed
	Missed    int // of those, how many missed a window
	Conflicts int // of the complete search
}

func nameOf(names []string, i int) string {
	if i < 0 || i >= len(names) {
		return fmt.Sprintf("(%d)", i)
	}
	return names[i]
}
