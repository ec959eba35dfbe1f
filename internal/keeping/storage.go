package keeping

import (
	"fmt"
	"math"
)

// Storage is how fast life goes in the freezers that packs lie in, against 0 °F (-18 °C): 1.2 takes six days' life in five. Low and High are its
// range over how fast quality goes when it is warmer.
type Storage struct {
	Rate, Low, High float64
	ReadDays        float64 // that the rate is from
	WarmDays        float64 // of them above -5 °C, which are in no rate
	UnreadDays      float64 // nobody knows
	Lots            int
}

// storageSource is the rule that the rate is by.
const storageSource = "time-temperature tolerance of frozen food (IIR 1986): quality goes 3 times as fast 10 °C warmer, 2 to 4 in doubt; an assumption, as nothing was found published of soups and sauces"

// leaves is how many whole weeks in these freezers use up what so many weeks at -18 °C do, at the bad end; never more than those.
func (s *Storage) leaves(weeks int) int {
	if s == nil || !(s.High > 1) {
		return weeks
	}
	return int(math.Floor(float64(weeks)/s.High + 1e-9))
}

func (s *Storage) support(of int) Support {
	left := s.leaves(of)
	x := Support{Basis: ByStorage, Name: "how warm the freezers were", Weeks: left, Ends: left < of, Counts: true, Source: storageSource}
	x.Says = fmt.Sprintf("over %.0f days read, life went %.2f times as fast as at 0 °F (%.2f to %.2f)", s.ReadDays, s.Rate, s.Low, s.High)
	if x.Ends {
		x.Says += fmt.Sprintf(", which leaves %d of %s at the bad end", left, weeks(of))
	} else {
		x.Says += ": it takes nothing off, and nothing is added for it"
	}
	if s.UnreadDays >= 0.5 {
		x.Says += fmt.Sprintf("; %.0f days were not read and are in nothing", s.UnreadDays)
	}
	if s.WarmDays > 0 {
		x.Says += fmt.Sprintf("; %.1f days above -5 °C (23 °F) are in nothing: look at those packs", s.WarmDays)
	}
	return x
}
