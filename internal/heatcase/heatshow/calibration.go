package heatshow

import (
	"fmt"
	"strconv"
	"strings"

	"kettlefrost/internal/heatcase"
	"kettlefrost/internal/unit"
)

// Calibration is what a log tells of a surface, with the lines that a book takes.
func Calibration(k heatcase.Calibration) string {
	w := writer{}
	took := unit.SpanS(k.TookS).Show(unit.Metric)
	w.hang("", capital(k.Question)+", took "+took)
	what := "surface coefficient of " + k.Words
	if k.Overall {
		what = "overall coefficient of the stirred pot"
	}
	w.hang("  ", fmt.Sprintf("%s W/m²·K  (%s to %s)  %s", figure(k.UsualW), lowWords(k), highWords(k), what))
	w.hang("  ", fmt.Sprintf("computed with otherwise: %s W/m²·K (%s to %s)", figure(k.PublishedUsualW), figure(k.PublishedLowW), figure(k.PublishedHighW)))
	w.heading("for the book")
	w.text.WriteString(BookLines(k))
	w.heading("know this")
	w.hang("  ", fmt.Sprintf("the range is that of %g °C and %g s of doubt in every reading, all pulling one way; whether what it stood in kept its temperature, whether the probe was in the core and "+
		"whether the next batch is like this one is not in it", k.DoubtK, k.DoubtS))
	if k.LowOpen || k.HighOpen {
		w.hang("  ", "the log leaves an end of the range open: the food sets the pace here, not its surface; a thinner layer tells more")
	}
	w.hang("  ", "log a second batch before you rely on it; a thermometer in the food decides each time")
	return w.text.String()
}

func lowWords(k heatcase.Calibration) string { return openEnd(k.LowW, k.LowOpen, "or less") }

func highWords(k heatcase.Calibration) string { return openEnd(k.HighW, k.HighOpen, "or more") }

func openEnd(w float64, open bool, words string) string {
	if open {
		return figure(w) + " " + words
	}
	return figure(w)
}

// BookLines is the YAML for a book: an entry of its media, or the wall of a way of chilling.
func BookLines(k heatcase.Calibration) string {
	note := fmt.Sprintf("one log: %s, took %s", k.Question, unit.SpanS(k.TookS).Show(unit.Metric))
	if k.Overall {
		scale := k.WallW / k.UsualW
		return fmt.Sprintf("# below the way of chilling that was logged\nwall: %s # %s to %s; %s\n", filmWords(k.WallW), figure(k.LowW*scale), figure(k.HighW*scale), strings.Join(strings.Fields(note), " "))
	}
	return fmt.Sprintf("media:\n  %s:\n    low: %s\n    usual: %s\n    high: %s\n    note: %s\n", k.Medium, filmWords(k.LowW), filmWords(k.UsualW), filmWords(k.HighW), strconv.Quote(note))
}

// filmWords is a coefficient to three figures, as a book has it.
func filmWords(w float64) string { return figure(w) + " W/m2K" }
