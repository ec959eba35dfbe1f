package coolforecast

import "math"

// Due is when the food must be read next.
type Due struct {
	AtS float64 // NaN when it need not be read any more
	Why DueWhy
}

// DueWhy says why it must be read then. The codes are stable, for programs.
type DueWhy string

// Why food must be read.
const (
	DueFirst  DueWhy = "first"      // nobody has read it
	DueClock  DueWhy = "the-clock"  // soon it falls through the temperature where the clock starts: a reading before that shows when
	DueLimit  DueWhy = "the-limit"  // only a reading at or under the limit, in time, shows that it is met
	DueHourly DueWhy = "hourly"     // published cooling logs ask for a reading at least every hour
	DueDoubt  DueWhy = "doubt"      // every half hour while it is in doubt
	DueUnread DueWhy = "time-is-up" // a limit's time is over unread
	NotDue    DueWhy = "over"
)

const (
	hourlyS, doubtS = 3600, 1800 // at least hourly is on published forms; each half hour in doubt is common practice
	soonestS        = 600        // nobody reads more often than this
	beforeS         = 300        // so long before a deadline it is read at the latest
)

// due works out when to read next.
func (c Case) due(f Forecast) Due {
	if math.IsNaN(f.LastS) {
		return Due{c.NowS, DueFirst}
	}
	if f.Outcome == Over || f.Outcome == Missed {
		return Due{math.NaN(), NotDue}
	}
	due := Due{f.LastS + hourlyS, DueHourly}
	if f.Outcome != Meets {
		due = Due{f.LastS + doubtS, DueDoubt}
	}
	earlier := func(atS float64, why DueWhy) {
		if atS = max(atS, f.LastS+soonestS); atS < due.AtS {
			due = Due{atS, why}
		}
	}
	for _, x := range f.Limits {
		switch {
		case x.Stage.Advisory:
		case x.State == Open && f.LastS < x.DeadlineS:
			return Due{x.DeadlineS, DueUnread}
		case x.State != Ahead || math.IsNaN(x.DeadlineS):
		case !x.Started:
			earlier(x.StartS-beforeS, DueClock)
		default:
			earlier(min(x.ReachedS.Bad, x.DeadlineS-beforeS), DueLimit)
		}
	}
	return due
}
