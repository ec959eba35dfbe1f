package thermometers

import (
	"fmt"
	"math"
	"strconv"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// The codes of what is found about thermometers. They are stable, for programs.
const (
	CodeUnreadable = "thermometer-check-unreadable"
	CodeOverdue    = "thermometer-overdue"    // or never checked, and it should be
	CodeOff        = "thermometer-off"        // in use although it reads further wrong than it should
	CodeGone       = "thermometer-withdrawn"  // and the book still has it watch a place
	CodeCoarse     = "thermometer-coarse"     // less right than the code asks of a food thermometer
	CodeUnlisted   = "thermometer-not-listed" // a check names one that the book does not have
)

// Findings are what should be known about thermometers now, the gravest first.
func (b Bench) Findings(now record.Instant, units unit.System) finding.List {
	var found finding.List
	add := func(r Row, code string, severity finding.Severity, message, fix string, figures ...finding.Figure) {
		found = append(found, finding.Finding{Code: code, Severity: severity, Where: "thermometer " + r.ID, Path: "thermometers." + r.ID, Message: message, Fix: fix, Figures: figures})
	}
	for _, r := range b.Rows(now) {
		switch r.Standing {
		case Never:
			add(r, CodeOverdue, finding.Caution, fmt.Sprintf("%s was never checked, and should be every %s: its readings count as wrong by up to %s", r.Name, days(r.EveryDays), Difference(r.Trust.AccuracyC, units)), "check it in ice water", difference("accuracy", r.Trust.AccuracyC, units))
		case Overdue:
			late := int((now - r.Due) / dayMs)
			add(r, CodeOverdue, finding.Caution, fmt.Sprintf("%s should be checked every %s, and was last checked %s ago", r.Name, days(r.EveryDays), days(late+r.EveryDays)), "check it in ice water",
				finding.Figure{Name: "overdue", Value: float64(late), Unit: "days", Text: days(late)})
		case Gone:
			if r.At != "" {
				add(r, CodeGone, finding.Caution, fmt.Sprintf("%s was withdrawn, and the book has it watch %s: nobody knows how warm it is there", r.Name, r.At), "put another there and change the book, or check this one and take it back into use")
			}
		}
		if r.Last != nil && r.Standing != Gone && !r.good(r.Trust.AccuracyC) {
			add(r, CodeOff, finding.Caution, fmt.Sprintf("%s is in use although it reads wrong by up to %s: verdicts count with that", r.Name, Difference(r.Trust.AccuracyC, units)), "adjust it or withdraw it", difference("off", r.Trust.AccuracyC, units), difference("allowed", r.Trust.StatedC, units))
		}
		if r.AccuracyC > CodeAccuracyC+slackC && r.Kind == "handheld" {
			f := difference("accuracy", r.AccuracyC, units)
			add(r, CodeCoarse, finding.Note, fmt.Sprintf("%s is right to ±%s only, by the book", r.Name, f.Text), "take one that is right to "+Difference(CodeAccuracyC, units)+" for food", f)
			found[len(found)-1].Source = CodeSource
		}
		if !r.Listed {
			add(r, CodeUnlisted, finding.Note, "a check names it, and the book does not have it: it counts as right to ±"+Difference(CodeAccuracyC, units)+" at best", "write it into the book after thermometers:, or correct the check")
		}
	}
	found.Sort()
	return found
}

// Difference is how far two temperatures are apart, in words.
func Difference(c float64, units unit.System) string {
	word := " °C"
	if units == unit.US {
		c, word = c*1.8, " °F"
	}
	return strconv.FormatFloat(math.Round(c*10)/10+0, 'f', -1, 64) + word // +0: minus zero is zero
}

func difference(name string, c float64, units unit.System) finding.Figure {
	f := finding.Figure{Name: name, Value: c, Unit: "K", Text: Difference(c, units)}
	if units == unit.US {
		f.Value, f.Unit = c*1.8, "°F"
	}
	return f
}

func days(n int) string {
	if n == 1 {
		return "1 day"
	}
	return fmt.Sprintf("%d days", n)
}
