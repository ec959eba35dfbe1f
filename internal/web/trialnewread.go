package web

import (
	"fmt"
	"math"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"kettlefrost/internal/record"
	"kettlefrost/internal/trials"
)

// typedTrial is a trial as it was typed, read.
type typedTrial struct {
	laid        record.TrialLaid
	variantRows []int // the row of the form of each variant
	figureRows  []int // and of each figure
	scatter     map[string]float64
	problems    []trials.Problem // found while reading
}

// knownFigure is a figure that the form offers, with what is usual to begin with.
type knownFigure struct {
	name, unit     string
	better         record.Better
	hint           string
	matters, bound string
}

// knownFigures are usual for sauces and soups that are frozen. What matters is the kitchen's to say; these are a beginning.
var knownFigures = []knownFigure{
	{trials.Separation, trials.Share, record.LowIsBetter, "of the thawed pack, in % of its height", "2", "5"},
	{trials.Drip, trials.Grams, record.LowIsBetter, "what runs out of the thawed pack, in g", "5", ""},
	{"texture", trials.Points, record.HighIsBetter, "0 broken and grainy, 10 as on the day it was made", "1", "6"},
	{"flavour", trials.Points, record.HighIsBetter, "0 off, 10 as on the day it was made", "1", "6"},
}

// unitWords are units as a form shows them.
var unitWords = map[string]string{trials.Share: "%", trials.Grams: "g", trials.Points: "points"}

// figureAt is the figure of a row: one that is offered, or one of the kitchen's own, which is scored.
func figureAt(form url.Values, i int) knownFigure {
	if i < len(knownFigures) {
		return knownFigures[i]
	}
	return knownFigure{name: strings.ToLower(tidy(form.Get(fmt.Sprintf("figure.%d", i)))), unit: trials.Points, better: record.HighIsBetter, hint: "a word of your own, scored 0 to 10: more is better"}
}

func figureRows(form url.Values, typed typedTrial, said func(string) string) []figureRow {
	var rows []figureRow
	for i := range len(knownFigures) + ownFigures {
		k := figureAt(form, i)
		row := figureRow{N: i, Name: k.name, Own: i >= len(knownFigures), Hint: k.hint, On: slices.Contains(form["on"], strconv.Itoa(i)), Unit: unitWords[k.unit],
			Matters: tidy(form.Get(fmt.Sprintf("matters.%d", i))), Bound: tidy(form.Get(fmt.Sprintf("bound.%d", i))), Scatter: tidy(form.Get(fmt.Sprintf("scatter.%d", i))), BoundIs: "at most"}
		if k.better == record.HighIsBetter {
			row.BoundIs = "at least"
		}
		var wrong []string
		if at := slices.Index(typed.figureRows, i); at >= 0 {
			for _, part := range []string{"", ".matters", ".bound", ".scatter"} {
				if text := said(fmt.Sprintf("figures[%d]%s", at, part)); text != "" {
					wrong = append(wrong, map[string]string{"": "", ".matters": "What matters: ", ".bound": "The bound: ", ".scatter": "The scatter: "}[part]+text)
				}
			}
		}
		row.Problem = strings.Join(wrong, " ")
		rows = append(rows, row)
	}
	return rows
}

// readTrial reads what was typed. What cannot be read is a problem.
func readTrial(form url.Values) typedTrial {
	t := typedTrial{laid: record.TrialLaid{Trial: tidy(form.Get("trial")), Dish: tidy(form.Get("dish")), Pack: tidy(form.Get("pack")), Asks: record.Text(tidyLines(form.Get("asks"))), Note: record.Text(tidyLines(form.Get("note")))}, scatter: map[string]float64{}}
	for i := range variantRows {
		name, change := tidy(nth(form["variant"], i)), tidyLines(nth(form["change"], i))
		if name == "" && change == "" {
			continue
		}
		t.laid.Variants = append(t.laid.Variants, record.Variant{Name: name, Change: record.Text(change), Base: form.Get("base") == strconv.Itoa(i)})
		t.variantRows = append(t.variantRows, i)
	}
	for i := range len(knownFigures) + ownFigures {
		if slices.Contains(form["on"], strconv.Itoa(i)) {
			t.figure(form, i)
		}
	}
	t.laid.Tasters = strings.FieldsFunc(tidyLines(form.Get("tasters")), func(c rune) bool { return c == '\n' })
	for _, word := range strings.FieldsFunc(form.Get("weeks"), func(c rune) bool { return c == ',' || c == ';' || unicode.IsSpace(c) }) {
		n, err := strconv.Atoi(word)
		if err != nil || n < 0 || n > 520 {
			t.wrong("weeks", fmt.Sprintf("have %.20q, which is no number of weeks", word), "write numbers with commas between, such as 1, 4, 8, 12")
			continue
		}
		t.laid.Weeks = append(t.laid.Weeks, record.Week(n))
	}
	if text := tidy(form.Get("packs")); text != "" {
		n, err := strconv.ParseInt(text, 10, 32)
		if err != nil {
			t.wrong("packs", "is no whole number", "write how many, such as 2")
		}
		t.laid.Packs = n
	}
	return t
}

func (t *typedTrial) wrong(field, problem, fix string) {
	t.problems = append(t.problems, trials.Problem{Field: field, Problem: problem, Fix: fix})
}

func (t *typedTrial) figure(form url.Values, i int) {
	k := figureAt(form, i)
	at := fmt.Sprintf("figures[%d]", len(t.laid.Figures))
	f := record.Figured{Figure: k.name, Unit: k.unit, Better: k.better}
	read := func(key string) (record.Decimal, bool) {
		text := tidy(form.Get(fmt.Sprintf("%s.%d", key, i)))
		if text == "" {
			return 0, false
		}
		d, ok := readDecimal(text, k.unit)
		if !ok {
			t.wrong(at+"."+key, fmt.Sprintf("is %.20q", text), "write a number of "+unitWords[k.unit])
		}
		return d, ok
	}
	f.Matters, _ = read("matters")
	if bound, ok := read("bound"); ok {
		f.Bound = &bound
	}
	if sd, ok := read("scatter"); ok && sd > 0 {
		t.scatter[k.name] = decimal(sd)
	}
	t.laid.Figures, t.figureRows = append(t.laid.Figures, f), append(t.figureRows, i)
}

// readDecimal reads a number of a unit, with the unit behind it or not. Shares are written in per cent.
func readDecimal(text, of string) (record.Decimal, bool) {
	text = strings.ReplaceAll(strings.TrimSpace(text), ",", ".")
	for _, word := range []string{unitWords[of], "grams", "point", "per cent", "percent"} {
		text = strings.TrimSpace(strings.TrimSuffix(text, word))
	}
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsNaN(v) || math.Abs(v) > 1e9 {
		return 0, false
	}
	if of == trials.Share {
		v /= 100
	}
	return record.Decimal(math.Round(v * 1000)), true
}
