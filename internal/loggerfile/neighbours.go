package loggerfile

import (
	"cmp"
	"math"
	"slices"
	"time"
)

// Neighbours flags readings of one probe beside those that came before them: one after another, in the order in which they came.
type Neighbours struct {
	TypicalS float64   // between two readings; 0: not known, so that no gap is told
	Received time.Time // zero: nothing is in the future
	Remember int       // so many times are remembered to tell that one comes twice; 0: as many as a file has

	last   time.Time // of the one before
	lastC  float64
	newest time.Time
	rising []int64        // times seen, each later than all before it
	late   map[int64]bool // and those that were not
}

// rememberedTimes are more than a file has.
const rememberedTimes = 6_000_000

// seen tells whether a time was seen before, and remembers it.
func (n *Neighbours) seen(at int64) bool {
	if len(n.rising)+len(n.late) >= cmp.Or(n.Remember, rememberedTimes) {
		n.rising, n.late = slices.Clone(n.rising[len(n.rising)/2:]), nil
	}
	if len(n.rising) == 0 || at > n.rising[len(n.rising)-1] {
		n.rising = append(n.rising, at)
		return false
	}
	if _, there := slices.BinarySearch(n.rising, at); there || n.late[at] {
		return true
	}
	if n.late == nil {
		n.late = map[int64]bool{}
	}
	n.late[at] = true
	return false
}

// Flag adds what is odd about the next reading.
func (n *Neighbours) Flag(x *Reading) {
	if !x.is(NoNumber) && !x.is(NoUnit) && (x.TempC < coldestC || x.TempC > hottestC) {
		x.Flags = append(x.Flags, Impossible)
	}
	if !x.Valued() {
		return
	}
	if !n.Received.IsZero() && x.At.After(n.Received) {
		x.Flags = append(x.Flags, Future)
	}
	if n.seen(x.At.UnixMilli()) {
		x.Flags = append(x.Flags, Twice)
	}
	if !n.last.IsZero() {
		x.Flags = append(x.Flags, n.beside(*x)...)
	}
	if x.At.After(n.newest) && !x.is(Future) {
		n.newest = x.At
	}
	n.last, n.lastC = x.At, x.TempC
}

// beside is what is odd about a reading next to the one before it.
func (n *Neighbours) beside(x Reading) []Flag {
	var flags []Flag
	gap := x.At.Sub(n.last).Seconds()
	switch {
	case gap < -3600:
		flags = append(flags, TimeBack)
	case x.At.Before(n.newest):
		flags = append(flags, OutOfOrder)
	case n.TypicalS > 0 && !n.newest.IsZero() && x.At.Sub(n.newest).Seconds() > max(300, 3*n.TypicalS):
		flags = append(flags, AfterGap)
	}
	if otherUnit(n.lastC, x.TempC) && math.Abs(gap) <= max(600, 2*n.TypicalS) {
		flags = append(flags, Jump)
	}
	return flags
}
