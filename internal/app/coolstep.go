package app

import (
	"fmt"
	"math"
	"strings"

	"kettlefrost/internal/coolforecast"
	"kettlefrost/internal/critical"
	"kettlefrost/internal/record"
)

// CoolStep is the one thing to do now.
type CoolStep struct {
	Do    string // in a few words
	Why   string
	Until string // the latest time for it; "" when there is none
}

// Step is the one thing to do about a load now.
func (v CoolVoice) Step(c Cooling, a CoolAdvice, now record.Instant) CoolStep {
	due, why, late := v.Due(c, now)
	switch f := c.Forecast; {
	case c.Over:
		return CoolStep{Do: "It is no longer cooling", Why: "Its work is done: how it was judged stands with the safety records."}
	case c.Log.Why == critical.WhyReheated:
		return CoolStep{Do: "Throw it away", Why: capital(c.Problem) + "."}
	case c.Problem != "":
		return CoolStep{Do: "Stop, and ask who decides", Why: capital(c.Problem) + "."}
	case f.Outcome == coolforecast.Missed:
		return v.missed(c, a)
	case f.Outcome == coolforecast.Over:
		return CoolStep{Do: "Go on to the next step", Why: "These readings meet " + c.Case.Rule.Title + "."}
	case f.Why == coolforecast.NotRead || f.Why == coolforecast.NoReadings || late:
		return CoolStep{Do: "Read it now", Why: "In its warmest spot: " + why + "."}
	case a.Now != nil && c.waits(*a.Now):
		return v.waiting(c, *a.Now, due)
	case a.Now != nil:
		return v.act(c, *a.Now)
	case f.Outcome == coolforecast.Misses || f.Outcome == coolforecast.InDoubt:
		s := CoolStep{Do: "Go on, and read it again soon", Why: "No way of this kitchen that was computed makes it surer. " + due + "."}
		if a.Again != nil {
			s.Why += " Or heat it to " + v.temp(coolforecast.ReheatC) + " once and begin again."
		}
		return s
	case f.Why == coolforecast.NoClock:
		return CoolStep{Do: "Go on, and write when it began", Why: "No reading is over " + v.temp(c.startC()) + ": without the time when it was so, its readings show nothing. Who decides must decide."}
	}
	return CoolStep{Do: "Go on as it is", Why: due + ": " + why + "."}
}

// waits says whether there is time to read it once more before something is done: it is only in doubt, and what can be done helps until after that.
func (c Cooling) waits(a CoolAction) bool {
	if c.Forecast.Outcome != coolforecast.InDoubt {
		return false
	}
	i := c.Forecast.Decides
	return i >= 0 && !c.Forecast.Limits[i].Started || a.LatestS > c.Forecast.Due.AtS+graceMs/1000
}

func (v CoolVoice) waiting(c Cooling, a CoolAction, due string) CoolStep {
	s := CoolStep{Do: "Have it ready: " + a.Name, Why: "It is not clear yet. " + due + ", then decide. " + v.Comes(c, a)}
	if !math.IsNaN(a.LatestS) {
		s.Until = v.until(c, a.LatestS)
	}
	return s
}

func (v CoolVoice) act(c Cooling, a CoolAction) CoolStep {
	do := map[record.Deed]string{record.MoreIce: "More ice", record.Stirred: "Stir it", record.Shallower: "Spread it", record.Relocated: "Move it"}[a.Did]
	s := CoolStep{Do: do + ": " + a.Name, Why: v.Comes(c, a)}
	if a.Part < 1 {
		s.Do, s.Why = do+", as much of it as fits: "+a.Name, v.Fits(a)+" "+s.Why
	}
	if !math.IsNaN(a.LatestS) {
		s.Until = v.until(c, a.LatestS)
	}
	return s
}

// Fits says for how much of a load there are vessels and ice; "" for all of it.
func (v CoolVoice) Fits(a CoolAction) string {
	if a.Part >= 1 {
		return ""
	}
	of := "vessels"
	if a.Ice > 0 {
		of = "vessels and ice"
	}
	return fmt.Sprintf("There are %s for %d %% of it; the rest needs another way.", of, int(100*a.Part))
}

// Comes is what comes of an action, in words.
func (v CoolVoice) Comes(c Cooling, a CoolAction) string {
	var says []string
	for _, l := range a.Limits {
		if !l.Stage.Advisory {
			says = append(says, fmt.Sprintf("%s %s, due by %s", v.temp(l.Stage.ToC), v.between(c, l.ReachedS), v.until(c, l.DeadlineS)))
		}
	}
	return strings.Join(says, "; ") + "."
}

func (v CoolVoice) missed(c Cooling, a CoolAdvice) CoolStep {
	if len(a.Allowed) == 0 {
		return CoolStep{Do: "Stop, and ask who decides", Why: "Nothing is published with this rule of what may become of it."}
	}
	x := a.Allowed[0]
	s := CoolStep{Why: x.Source + "."}
	switch x.Remedy {
	case coolforecast.ReheatOnce:
		s.Do = "Heat it to " + v.temp(coolforecast.ReheatC) + " for 15 s and begin again, or throw it away"
		s.Until = v.until(c, c.missedS()+coolforecast.ReheatWithinS)
	case coolforecast.Discard:
		s.Do = "Throw it away"
		if x.Memory {
			s.Why += " This figure is from memory: ask your authority; a named person decides."
		}
	default:
		s.Do, s.Why = "Stop, and ask who decides", "Nothing is published with this rule of what may become of it: a named person and the authority decide."
	}
	return s
}

// missedS is when the first limit that was missed was over.
func (c Cooling) missedS() float64 {
	for _, l := range c.Forecast.Limits {
		if l.State == coolforecast.Late {
			return l.DeadlineS
		}
	}
	return math.NaN()
}
