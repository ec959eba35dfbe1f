package web

import (
	"cmp"
	"fmt"
	"net/http"
	"strconv"

	"kettlefrost/internal/app"
	"kettlefrost/internal/draw"
	"kettlefrost/internal/record"
	"kettlefrost/internal/tastetrial"
	"kettlefrost/internal/trials"
)

// trialResultsPage is all that templates/trialresults.html may show: what can be told from a trial so far.
type trialResultsPage struct {
	shell
	Trial, Dish, Asks string
	Closed            string // how it ended
	Nothing           bool
	Variants          []variantNote
	Figures           []figureView
	Supports          []supportView
	Unknown           []string
	Next              *nextTrialView
	NextURL           string
	Shots             []trialShot
	Close             *closeForm
	Links             []link
	Rules             []string
}

// variantNote is a variant and what is otherwise in it.
type variantNote struct{ Name, Change string }

// figureView is what can be told of one figure.
type figureView struct {
	Name, Says string
	Chart      pictureView
	Heads      []string // of the variants
	Weeks      []weekRow
	Pairs      []pairRow
	Overall    string
	Not        string
	Trends     []string
}

// weekRow is a week of all variants.
type weekRow struct {
	Week  string
	Cells []weekCell
}

// weekCell is a mean, with how many values it is of and how far they lie apart.
type weekCell struct{ Head, Mean, Of string }

// pairRow is one variant against another.
type pairRow struct {
	Sign, Class string
	Of, Against string
	Text        string
	Effect      string
	Interval    string
	P           string
	Blocks      string
}

// supportView is for how long a variant has kept.
type supportView struct{ Name, Says, Why string }

// nextTrialView is the size of a next trial.
type nextTrialView struct {
	Says  []string
	Fewer string
	Safer string
}

// closeForm ends a trial.
type closeForm struct {
	Action, Entry string
	Adopted       field
	Why           string
	Problem       string
}

var trialResultsTemplate = parse[trialResultsPage]("trialresults")

func (s *server) showTrialResults(w http.ResponseWriter, r *http.Request, o onTrial) {
	s.showResultsWith(w, r, o, nil, http.StatusOK)
}

func (s *server) showResultsWith(w http.ResponseWriter, r *http.Request, o onTrial, c *closeForm, status int) {
	results := trials.ResultsOf(o.t)
	b := o.t.Laid.Body
	v := trialResultsPage{shell: s.inShell(r, o.book.Kitchen, "Results of "+o.t.Name, "trials"), Trial: o.t.Name, Dish: o.dish(), Asks: string(b.Asks), Nothing: len(results.Opened) == 0, Unknown: results.Unknown,
		NextURL: trialURL(o.t.Name, "results", o.query, "next", "1") + "#next", Close: c}
	for _, x := range b.Variants {
		v.Variants = append(v.Variants, variantNote{x.Name, oneLine(string(x.Change))})
	}
	for i, f := range results.Figures {
		v.Figures = append(v.Figures, o.figureView(results, i, f))
	}
	for _, x := range o.t.Supports(nil) {
		v.Supports = append(v.Supports, viewSupport(x))
	}
	for _, p := range o.t.Pictures {
		v.Shots = append(v.Shots, viewShot(o.t, p, false))
	}
	if o.query.Get("next") != "" {
		v.Next, v.NextURL = viewNextTrial(results.PlanNext(trials.Aimed)), ""
	}
	if x := o.t.Closed; x != nil {
		v.Closed = "Closed " + s.whenText(x.At) + " by " + x.Who + ": " + cmp.Or(x.Body.Adopted, "nothing taken over") + ". " + oneLine(string(x.Body.Why))
	} else if c == nil {
		v.Close = o.closing("", "", "")
	}
	if v.Close != nil {
		v.Close.Entry = cmp.Or(r.PostFormValue(entryField), newEntryID())
	}
	v.Links = []link{{"The trial", trialURL(o.t.Name, "", o.query)}, {"Every value as CSV", trialURL(o.t.Name, "results.csv", o.query)}, {"Everything as JSON", trialURL(o.t.Name, "results.json", o.query)}}
	v.Rules = resultRules
	trialResultsTemplate.show(w, status, v)
}

// resultRules are how it is judged, for whoever wants to know.
var resultRules = []string{
	"Variants are compared within a taster, and within packs that were opened together: paired t for what is measured, Wilcoxon's signed ranks (exact) for points, Friedman's test by permutations for all variants together.",
	"What one taster said in several weeks is averaged first: they are one taster. So weeks do not make up for tasters.",
	"A verdict is read from the interval and from what would matter, never from p alone. All intervals hold together in 95 trials of 100 (Bonferroni); p is adjusted for all that is compared (Holm, and times the figures).",
	"Of what is measured, lines are straight lines by least squares, with the interval of the mean. Of points, each week is shown by its own tasters: they are the same in every week, so that weeks are not independent.",
	"A variant has kept up to the last week opened in which the bad end of its mean (95 %, one-sided) and its mean itself are within the bound, and in every week before.",
}

func (o onTrial) figureView(results trials.Results, i int, f trials.Result) figureView {
	b := o.t.Laid.Body
	v := figureView{Name: capital(f.Figure.Figure), Says: figureWords(f.Figure), Chart: pictures{path: trialURL(o.t.Name, "", nil), rest: coldURL("", o.query)}.at("chart", i).saying(capital(f.Figure.Figure) + " over the weeks"), Not: f.Not}
	for _, x := range b.Variants {
		v.Heads = append(v.Heads, x.Name)
	}
	for _, w := range results.Opened {
		v.Weeks = append(v.Weeks, o.weekRow(f, w))
	}
	for _, p := range f.Pairs {
		v.Pairs = append(v.Pairs, o.pairRow(f.Figure, p))
	}
	if f.Compared != nil && f.Compared.Friedman != nil {
		x := f.Compared.Friedman
		v.Overall = fmt.Sprintf("All variants together: were they all alike, ranks would agree so much by chance with p %s (Friedman, %s; chi-square %.3g; Kendall's W %.2f, where 0 is no agreement and 1 is full agreement).", pText(x.P), times(x.Blocks, "block", "blocks"), x.ChiSquare, x.W)
	}
	for _, x := range f.Series {
		if t := x.Trend; t != nil {
			v.Trends = append(v.Trends, fmt.Sprintf("%s: %s a week (%s to %s), p %s", b.Variants[x.Variant].Name, withSign(f.Figure, t.Slope), withSign(f.Figure, t.SlopeInterval.Low), withSign(f.Figure, t.SlopeInterval.High), pText(t.P)))
		}
	}
	return v
}

func (o onTrial) weekRow(f trials.Result, w record.Week) weekRow {
	row := weekRow{Week: weekText(w)}
	for i, x := range f.Series {
		cell := weekCell{Head: o.t.Laid.Body.Variants[i].Name, Mean: "–"}
		for _, m := range x.Weeks {
			if m.Week == w {
				cell.Mean, cell.Of = trials.Amount(f.Figure, m.Mean), "1 value"
				if m.Values > 1 {
					cell.Of = fmt.Sprintf("%d values, %s", m.Values, trials.Range(f.Figure, m.Least, m.Most))
				}
			}
		}
		row.Cells = append(row.Cells, cell)
	}
	return row
}

func (o onTrial) pairRow(f record.Figured, p trials.Told) pairRow {
	b := o.t.Laid.Body
	v := pairRow{Of: b.Variants[p.Of].Name, Against: b.Variants[p.Against].Name, Text: p.Text, P: pText(p.P) + " alone, " + pText(p.PAmong) + " among all", Blocks: times(p.Blocks, "pair of packs", "pairs of packs")}
	if p.ByRanks {
		v.Blocks = times(p.Blocks, "taster", "tasters")
	}
	if p.Blocks > 0 {
		v.Effect = withSign(f, p.Estimate)
		v.Interval = fmt.Sprintf("%s to %s (%.3g %%)", withSign(f, p.Low), withSign(f, p.High), 100*p.Level)
	}
	switch p.Verdict {
	case tastetrial.MattersMore, tastetrial.MattersLess:
		v.Sign, v.Class = "▼", "worse"
		if p.Better {
			v.Sign, v.Class = "▲", "better"
		}
	case tastetrial.TooSmall:
		v.Sign, v.Class = "=", "same"
	default:
		v.Sign, v.Class = "?", "open"
	}
	return v
}

// withSign is a difference with its sign.
func withSign(f record.Figured, v float64) string {
	text := trials.Difference(f, v)
	if v > 0 {
		return "+" + text
	}
	if v < 0 && text[0] == '-' {
		return "−" + text[1:]
	}
	return text
}

// pText is a p as it is read: never 0.
func pText(p float64) string {
	if p < 0.001 {
		return "below 0.001"
	}
	return strconv.FormatFloat(p, 'g', 2, 64)
}

func viewSupport(x trials.Support) supportView {
	v := supportView{Name: x.Variant, Why: capital(x.Why) + "."}
	switch {
	case !x.Known:
		v.Says = "not known yet"
	case x.Ending == tastetrial.NotSupported:
		v.Says = "not even up to the first week opened"
	default:
		v.Says = times(int(x.Weeks), "week", "weeks")
		if x.Ending == tastetrial.ByLastOpened {
			v.Says += ", and nobody has looked further"
		}
	}
	return v
}

func viewNextTrial(n trials.Next) *nextTrialView {
	v := &nextTrialView{}
	for _, f := range n.Figures {
		v.Says = append(v.Says, capital(f.Figure.Figure)+": "+f.Text()+".")
	}
	size := func(tasters, packs, all int) string {
		return fmt.Sprintf("%s, and %s of each variant in each of %s: %s in all", times(tasters, "taster", "tasters"), times(packs, "pack", "packs"), times(len(n.Weeks), "week", "weeks"), times(all, "pack", "packs"))
	}
	v.Fewer, v.Safer = size(n.Tasters, n.Packs, n.InAll), size(n.SaferTasters, n.SaferPacks, n.SaferInAll)
	return v
}

func (o onTrial) closing(adopted, why, problem string) *closeForm {
	f := field{Key: "adopted", Label: "From now on the dish is made", Hint: "write it into the book as well; the trial then supports the best-before of the dish as it is made from now on", Options: []option{{Value: "", Says: "as before: nothing is taken over", Here: adopted == ""}}}
	for _, v := range o.t.Laid.Body.Variants {
		f.Options = append(f.Options, option{Value: v.Name, Says: "as " + v.Name, Here: adopted == v.Name})
	}
	return &closeForm{Action: trialURL(o.t.Name, "close", o.query), Adopted: f, Why: why, Problem: problem}
}

// closeTrial ends a trial, with its outcome and why.
func (s *server) closeTrial(w http.ResponseWriter, r *http.Request, o onTrial) {
	if err := r.ParseForm(); err != nil {
		s.refuse(w, r, http.StatusBadRequest, "This form cannot be read.")
		return
	}
	adopted, why := r.PostForm.Get("adopted"), tidyLines(r.PostForm.Get("why"))
	switch {
	case o.t.Closed != nil:
		s.refuse(w, r, http.StatusConflict, "The trial was closed before. To close it otherwise, take that back first.")
	case adopted != "" && o.t.VariantOf(adopted) < 0:
		s.refuse(w, r, http.StatusUnprocessableEntity, "The trial has no variant of that name. Nothing was entered.")
	case why == "":
		s.showResultsWith(w, r, o, o.closing(adopted, why, "Write why: it stays in the records under your name."), http.StatusUnprocessableEntity)
	default:
		s.enter(w, r, trialURL(o.t.Name, "", o.query), record.TrialClosed{Trial: o.t.Name, Adopted: adopted, Why: record.Text(why)})
	}
}

func (s *server) showTrialJSON(w http.ResponseWriter, _ *http.Request, o onTrial) {
	writeJSON(w, http.StatusOK, trials.ResultsOf(o.t).Report(o.today))
}

func (s *server) showTrialCSV(w http.ResponseWriter, _ *http.Request, o onTrial) {
	data, err := app.TrialTable(trials.ResultsOf(o.t)).CSV()
	if err != nil {
		writeJSON(w, http.StatusInternalServerError, refusal{Error: err.Error()})
		return
	}
	w.Header().Set("Content-Type", "text/csv; charset=utf-8; header=present")
	w.Header().Set("Content-Disposition", `attachment; filename="`+o.t.Name+`.csv"`)
	w.Header().Set("Cache-Control", "no-store")
	w.Write(data)
}

// showTrialChart draws one figure.
func (s *server) showTrialChart(w http.ResponseWriter, r *http.Request, o onTrial) {
	of, look := numbers(r.PathValue("of"), 1)
	results := trials.ResultsOf(o.t)
	if of == nil || of[0] >= len(results.Figures) {
		s.missing(w, r, o.book, "There is no such drawing.")
		return
	}
	chart := trialChart(results, of[0])
	chart.Width = look.width()
	writeSVG(w, chart.Picture(), look)
}

// trialChart is a figure of a trial as a chart: the line where one can be put through and is about straight, else from mean to mean.
func trialChart(results trials.Results, i int) draw.Weekly {
	f := results.Figures[i]
	of := 1.0
	c := draw.Weekly{Title: capital(f.Figure.Figure) + ", " + results.Trial.Name, Unit: map[string]string{trials.Share: "%", trials.Grams: "g", trials.Points: "points"}[f.Figure.Unit], Across: "weeks in the freezer"}
	if f.Figure.Unit == trials.Share {
		of = 100
	}
	for _, w := range results.Trial.Laid.Body.Weeks {
		c.Weeks = append(c.Weeks, float64(w))
	}
	if f.Figure.Bound != nil {
		bound := decimal(*f.Figure.Bound) * of
		c.Bound, c.BoundName = &bound, "good "+map[record.Better]string{record.LowIsBetter: "up to ", record.HighIsBetter: "from "}[f.Figure.Better]+trials.Amount(f.Figure, decimal(*f.Figure.Bound))
	}
	for _, x := range f.Series {
		l := draw.WeeklyLine{Name: results.Trial.Laid.Body.Variants[x.Variant].Name}
		for _, s := range f.Seen {
			if s.Variant == x.Variant {
				l.Seen = append(l.Seen, draw.WeekValue{Week: float64(s.Week), Value: s.Value * of})
			}
		}
		straight := x.Trend != nil && x.Trend.PLine >= 0.05
		for _, m := range x.Weeks {
			p := draw.WeekMean{Week: float64(m.Week), Mean: m.Mean * of, Low: m.Mean * of, High: m.Mean * of}
			switch {
			case m.Interval == nil || !f.Scored && !straight:
			case m.Line != nil:
				p.Mean, p.Low, p.High = *m.Line*of, m.Interval.Low*of, m.Interval.High*of
			default:
				p.Low, p.High = m.Interval.Low*of, m.Interval.High*of
			}
			l.Points = append(l.Points, p)
		}
		c.Lines = append(c.Lines, l)
	}
	return c
}
