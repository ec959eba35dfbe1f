package coldwatch

import (
	"fmt"
	"strings"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
	"kettlefrost/internal/storagelife"
	"kettlefrost/internal/unit"
)

// lateMs is after how long a logger that is read out as a file should have been read out (this program's choice).
const lateMs = 7 * dayMs

const keepShut = "is it shut, and does it run? Keep it shut: a full freezer stays frozen for about 48 hours, a half full one for about 24; if it does not come back, move what is in it"

// Now is the stretch that goes on, if there is one.
func (s Seen) Now() (x Stretch, on bool) {
	for _, x := range s.Stretches {
		if !x.Ended {
			return x, true
		}
	}
	return x, false
}

// Alarms are what is wrong with a place now. Clock says a time in words.
func (s Seen) Alarms(units unit.System, clock func(record.Instant) string) finding.List {
	x, on := s.Now()
	switch {
	case on && x.Kind == TooWarm && s.Silent == 0:
		return finding.List{s.tooWarm(x, units, clock)}
	case on || s.Silent != 0:
		return s.silent(x, on, units, clock)
	case s.Last == nil:
		return finding.List{{Code: CodeSilent, Severity: finding.Note, Where: s.where(), Message: s.name() + " has never sent anything: nobody knows how warm it is there", Fix: s.toHear()}}
	}
	return nil
}

// toHear is what brings readings again.
func (s Seen) toHear() string {
	if s.Logger {
		return "read the logger out and take its file in"
	}
	return "measure there by hand and write it down; then see to the probe: battery, network, is it in its place"
}

// Unanswered are the times that are over in which something was wrong, and nobody wrote down what was done.
func (s Seen) Unanswered(deeds *Deeds, units unit.System, clock func(record.Instant) string) (found finding.List) {
	for _, x := range s.Stretches {
		if x.Ended && x.Asks() && !deeds.Answered(s.Watch, x) {
			found = append(found, s.unanswered(x, units, clock))
		}
	}
	return found
}

func (s Seen) where() string { return "place " + string(s.Place) }

func (s Seen) tooWarm(x Stretch, units unit.System, clock func(record.Instant) string) finding.Finding {
	f := finding.Finding{Code: CodeWarm, Severity: finding.Caution, Where: s.where(), Source: s.LimitSource,
		Message: fmt.Sprintf("it was last read at %s, warmer than %s, since %s at the latest", s.read(units), Degrees(s.LimitC, units), clock(x.From)),
		Fix:     "look at once: " + keepShut, Figures: []finding.Figure{temperature("reads", s.Last.TempC, units), temperature("limit", s.LimitC, units), temperature("warmest", x.PeakC, units)}}
	if s.Kind != coldstore.Frozen {
		f.Fix = "look at once: is it shut, and does it run? Measure what is in it, and move it if it is not cold soon"
	}
	if x.MayC > storagelife.WarmestC && s.Kind == coldstore.Frozen || x.MayC > ThawedC && x.Ms() >= chilledMs {
		f.Severity = finding.Stop
	}
	return f
}

func (s Seen) silent(x Stretch, on bool, units unit.System, clock func(record.Instant) string) finding.List {
	f := finding.Finding{Code: CodeSilent, Severity: finding.Caution, Where: s.where()}
	long := Span{s.Silent, s.Until}.Ms()
	figure := finding.Figure{Name: "silent", Value: float64(long) / minuteMs, Unit: "min", Text: Length(long)}
	switch {
	case s.Logger && long < lateMs && !(on && x.Kind == TooWarm):
		return nil
	case s.Last == nil:
		f.Message = fmt.Sprintf("%s has sent nothing that can be used for %s at least: nobody knows how warm it is there", s.name(), Length(long))
	case on && x.Kind == TooWarm:
		f.Severity = finding.Stop
		f.Message = fmt.Sprintf("the last that came was %s, warmer than %s, at %s, and nothing since: nobody knows how warm it is there", s.read(units), Degrees(s.LimitC, units), clock(s.Last.At))
	default:
		f.Message = fmt.Sprintf("nothing has come from %s for %s, since %s: nobody knows how warm it is there", s.name(), Length(long), clock(s.Silent))
	}
	f.Figures = []finding.Figure{figure}
	f.Fix = s.toHear()
	return finding.List{f}
}

func (s Seen) unanswered(x Stretch, units unit.System, clock func(record.Instant) string) finding.Finding {
	f := finding.Finding{Code: CodeUnlooked, Severity: finding.Caution, Where: s.where(), Fix: "see what lay there, look at it, and write down what was done",
		Figures: []finding.Figure{{Name: "took", Value: float64(x.Ms()) / minuteMs, Unit: "min", Text: Length(x.Ms())}}}
	if x.Kind == NotKnown {
		f.Message = fmt.Sprintf("nobody knows how warm it was for %s, from %s to %s, and nobody wrote down what was done", Length(x.Ms()), clock(x.From), clock(x.Until))
		return f
	}
	f.Message = fmt.Sprintf("it was warmer than %s for up to %s, from %s to %s, at the warmest %s, and nobody wrote down what was done", Degrees(s.LimitC, units), Length(x.Ms()), clock(x.From), clock(x.Until), Degrees(x.PeakC, units))
	f.Figures = append(f.Figures, temperature("warmest", x.PeakC, units))
	return f
}

func (s Seen) name() string {
	if s.Name != "" {
		return s.Name
	}
	return s.Probe
}

func (s Seen) read(units unit.System) string { return Degrees(s.Last.TempC, units) }

// Unwatched finds the cold places in which no thermometer of the book is.
func Unwatched(places []coldstore.Place, watches []Watch) finding.List {
	var bare []string
	for _, p := range places {
		if strings.Contains(string(p.ID), "/") || p.Kind != coldstore.Frozen && p.Kind != coldstore.Chilled {
			continue
		}
		watched := false
		for _, w := range watches {
			watched = watched || w.Place == p.ID || strings.HasPrefix(string(w.Place), string(p.ID)+"/")
		}
		if !watched {
			bare = append(bare, p.Name)
		}
	}
	if len(bare) == 0 {
		return nil
	}
	return finding.List{{Code: CodeUnwatched, Severity: finding.Note, Where: "places", Message: "no thermometer of the book watches " + strings.Join(bare, ", ") + ": when it is too warm there, nobody hears of it",
		Fix: "put a probe there, and write it into the book after thermometers: with at:"}}
}

func temperature(name string, c float64, units unit.System) finding.Figure {
	f := finding.Figure{Name: name, Value: c, Unit: "°C", Text: Degrees(c, units)}
	if units == unit.US {
		f.Value, f.Unit = c*1.8+32, "°F"
	}
	return f
}
