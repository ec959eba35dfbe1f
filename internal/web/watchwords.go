package web

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/record"
	"kettlefrost/internal/thermometers"
)

// howNow is how a place is now, in a word and a sentence. Nothing here says that it is well: only what was read.
func (s *server) howNow(x watching, seen coldwatch.Seen) (sign, class, word, says string) {
	stretch, on := seen.Now()
	switch {
	case seen.Last == nil:
		return "▲", "caution", "NOT KNOWN", "nothing that can be used has come"
	case on && stretch.Kind == coldwatch.TooWarm && seen.Silent != 0:
		return "■", "stop", "TOO WARM, THEN SILENT", "nothing has come since " + s.nearText(seen.Silent)
	case on && stretch.Kind == coldwatch.TooWarm:
		return "■", "stop", "TOO WARM", "since " + s.nearText(stretch.From) + " at the latest"
	case seen.Silent != 0 && seen.Logger:
		return "●", "note", "NOT KNOWN SINCE", s.nearText(seen.Silent) + ": it is known once the logger is read out"
	case seen.Silent != 0:
		return "▲", "caution", "SILENT", "since " + s.nearText(seen.Silent) + ": nobody knows how warm it is"
	}
	return "●", "note", "As last read:", "not over its limit"
}

// worthOf is what the readings of a probe are worth, in words.
func worthOf(t thermometers.Trust, rd reader) (words []string) {
	words = append(words, "may read wrong by up to "+together(thermometers.Difference(t.AccuracyC, rd.units)))
	if t.Unusable {
		words = append(words, "withdrawn: what it reads proves nothing")
	}
	if t.Overdue {
		words = append(words, "its check is overdue")
	}
	return words
}

// nearText is a time on the kitchen's clock, without the year where that is clear.
func (s *server) nearText(at record.Instant) string {
	now := s.house.Now()
	t := time.UnixMilli(int64(at)).In(now.Location())
	switch {
	case t.Year() == now.Year() && t.YearDay() == now.YearDay():
		return t.Format("15:04")
	case now.Sub(t).Abs() < 200*24*time.Hour:
		return t.Format("Mon 2 Jan, 15:04")
	}
	return t.Format("2 Jan 2006, 15:04")
}

// fromTo is a time from one instant to another; the day is said once where it is the same.
func (s *server) fromTo(x coldwatch.Span) string {
	zone := s.house.Now().Location()
	from, until := time.UnixMilli(int64(x.From)).In(zone), time.UnixMilli(int64(x.Until)).In(zone)
	if from.Format(time.DateOnly) == until.Format(time.DateOnly) {
		return s.nearText(x.From) + " to " + until.Format("15:04")
	}
	return s.nearText(x.From) + " to " + s.nearText(x.Until)
}

// degreesFigure is a temperature to a tenth in both systems.
func degreesFigure(c float64, rd reader) figure {
	return figure{First: together(coldwatch.Degrees(c, rd.units)), Second: together(coldwatch.Degrees(c, rd.other()))}
}

func bothDegrees(c float64, rd reader) string {
	f := degreesFigure(c, rd)
	return f.First + " (" + f.Second + ")"
}

// signOf is the shape and class of how grave an advice is.
func signOf(a coldwatch.Advice) (sign, class string) {
	switch {
	case a.Hold():
		return "■", "stop"
	case a == coldwatch.Look:
		return "▲", "caution"
	}
	return "●", "note"
}

// adviceWords are what is to be done about packs.
func adviceWords(e coldwatch.Exposure, kind coldstore.Kind) string {
	switch {
	case e.Advice == coldwatch.Measure:
		return "Look at each pack and measure the warmest. Hold them until then."
	case e.Advice == coldwatch.Inspect:
		return "Look at each pack for ice crystals. Hold them until then."
	case e.Advice == coldwatch.Look && kind == coldstore.Frozen:
		return "Look at some: nobody knows how warm it was."
	case e.Advice == coldwatch.Look:
		return "Measure some: it was over the limit, or nobody knows."
	}
	return "The air stayed at -5 °C (23 °F) or colder as far as it was read: it took quality."
}

// shareWords is a share of life with its range, in whole per cents where they matter.
func shareWords(share, low, high float64) string {
	percent := func(x float64) string {
		switch p := 100 * x; {
		case p < 0.05:
			return "less than 0.1"
		case p < 9.95:
			return strings.TrimSuffix(strconv.FormatFloat(p, 'f', 1, 64), ".0")
		default:
			return strconv.FormatFloat(p, 'f', 0, 64)
		}
	}
	switch {
	case high < 0.0005:
		return percent(high) + " %"
	case percent(low) == percent(high):
		return "about " + percent(share) + " %"
	}
	return fmt.Sprintf("about %s %% (%s to %s %%)", percent(share), percent(low), percent(high))
}
