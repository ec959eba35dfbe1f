// Package timetable places tasks in time: whole minutes, resources with a capacity that changes over the day, gaps of at least
// or at most so many minutes, vessels held until they are emptied, changeovers between families, other ways to do the same. It knows no
// food; it makes the end of the last task as early as it can, or whatever else its goals say, one after another, and says how far from a
// proven bound it is.
//
// The problem is the resource-constrained project problem with minimum and maximum time lags (Bartusch, Möhring and
// Radermacher 1988), with calendars, with a demand profile inside each task and with modes. With maximum lags already the question
// whether any schedule exists is NP-complete, so "no schedule found" and "no schedule exists" are different answers here.
package timetable

// Limits of a valid problem. They keep every sum inside an int64 with room to spare.
const (
	MaxMinutes = 10_000_000 // of the horizon, a duration, a lag or a step
	MaxAmount  = 1_000_000  // of a capacity, a demand or a weight
	MaxWays    = 1_000      // of a choice
)

// Problem is what has to be placed. Tasks, resources and lags are named by their index.
type Problem struct {
	Horizon   int // minutes; no task and no hold ends later
	Resources []Resource
	Tasks     []Task
	Lags      []Lag
	Holds     []Hold
	Choices   []int  // of each choice: how many ways there are
	Goals     []Goal // what to make small, most important first; none: the end of the last task
}

// Resource is a number of equal units: cooks, burners, chiller places.
type Resource struct {
	Name     string
	Capacity []Step // sorted by From, no two alike; 0 before the first
	// Changeover[f][g] is how many minutes must lie between a use by a task of family f and a later one by a task of family g. Nil:
	// none. Only a resource that never has more than one unit can have it.
	Changeover [][]int
}

// Step says that from minute From on, Amount units are there, until the next step.
type Step struct{ From, Amount int }

// Constant is the capacity of n units all day.
func Constant(n int) []Step { return []Step{{From: 0, Amount: n}} }

// Task is one thing to place. Once begun it runs through.
type Task struct {
	Name     string
	Duration int // minutes, 0 or more
	Uses     []Use
	Earliest int // first minute it may start
	Latest   int // last minute it may start; below 0: any. Mind that 0 means at once
	Family   int // for changeovers
}

// Use says that the task holds Amount units of a resource from minute From up to, not including, minute To after its own
// start. Several uses make a profile: hands at the start and the end, the vessel throughout.
type Use struct{ Resource, From, To, Amount int }

// Lag demands Start[To] - Start[From] >= Min. "To at most m minutes after From" is the lag from To to From with Min = -m.
type Lag struct {
	From, To, Min int
	If            If
}

// Hold says that Amount units are taken from one moment until another, however far that is: a pot from its filling until it is
// emptied. Nothing is held when To does not come after From. A hold counts for the family of From's task.
type Hold struct {
	Resource, Amount int
	From, To         Moment
	If               If
}

// Moment is a minute after the start of a task, be it after its end.
type Moment struct{ Task, Minute int }

// Goal is something to make small: the end of the last task, or the sum of its terms.
type Goal struct {
	Name  string
	Terms []Term // none: the end
	Give  int    // how much worse than its best it may get for the sake of later goals
}

// Term costs Weight for each minute of Start[To] - Start[From] - Min above 0. A From or To below 0 stands for minute 0.
type Term struct{ From, To, Min, Weight int }
