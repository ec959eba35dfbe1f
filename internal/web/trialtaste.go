package web

import (
	"cmp"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/record"
	"kettlefrost/internal/trials"
)

// tastingPage is all that templates/trialtaste.html may show: a taster says what they think of each code, in the order that the layout gives them.
type tastingPage struct {
	shell
	Action   string
	Entry    string
	Draft    string // what the browser keeps the points under until they are sent
	Trial    string
	Week     string
	WeekKey  string
	Taster   string
	Tasters  []partLink
	Codes    []tasteCode
	Order    string
	Problem  string
	Changes  bool // they have tasted before
	TrialURL string
}

// tasteCode is one of the pots in front of a taster.
type tasteCode struct {
	Nth     string
	Code    string
	Scales  []tasteScale
	Note    string
	Problem string
}

// tasteScale is the points of one figure.
type tasteScale struct {
	Key       string // of the form
	Name      string
	Low, High string // what the ends of the scale are
	Points    []tastePoint
}

// tastePoint is one point of a scale.
type tastePoint struct {
	Value string
	Here  bool
}

var tastingTemplate = parse[tastingPage]("trialtaste")

// tasterOf is who tastes, and in which week.
func (o onTrial) tasterOf(form url.Values) (taster int, week record.Week, ok bool) {
	w, err := strconv.ParseInt(form.Get("week"), 10, 32)
	taster = slices.Index(o.t.Laid.Body.Tasters, form.Get("taster"))
	return taster, record.Week(w), err == nil && taster >= 0 && o.t.HasWeek(record.Week(w)) && o.tastes()
}

func (s *server) showTasting(w http.ResponseWriter, r *http.Request, o onTrial) {
	s.showTasteForm(w, r, o, o.query, nil, http.StatusOK)
}

// scored are the figures that tasters score.
func (o onTrial) scored() []record.Figured {
	return slices.DeleteFunc(slices.Clone(o.t.Laid.Body.Figures), func(f record.Figured) bool { return f.Unit != trials.Points })
}

func scoreKey(code, figure string) string { return "p." + code + "." + figure }

func (s *server) showTasteForm(w http.ResponseWriter, r *http.Request, o onTrial, form url.Values, wrong map[string]string, status int) {
	taster, week, ok := o.tasterOf(form)
	if !ok {
		s.missing(w, r, o.book, "Choose who tastes, and in which week, from the page of the trial.")
		return
	}
	name := o.t.Laid.Body.Tasters[taster]
	v := tastingPage{shell: s.inShell(r, o.book.Kitchen, name+" tastes", "trials"), Action: trialURL(o.t.Name, "taste", o.query), Entry: cmp.Or(form.Get(entryField), newEntryID()), Draft: fmt.Sprintf("kettlefrost-taste-%s-%d-%d", o.t.Name, week, taster), Trial: o.t.Name, Week: weekText(week), WeekKey: fmt.Sprint(week),
		Taster: name, Problem: wrong[""], TrialURL: trialURL(o.t.Name, "", o.query) + fmt.Sprintf("#week-%d", week)}
	for _, other := range o.t.Laid.Body.Tasters {
		v.Tasters = append(v.Tasters, partLink{link{other, trialURL(o.t.Name, "taste", o.query, "week", v.WeekKey, "taster", other)}, other == name})
	}
	codes := o.t.Served(taster, week)
	v.Order = strings.Join(codes, ", then ")
	for i, code := range codes {
		c := tasteCode{Nth: fmt.Sprintf("%d of %d", i+1, len(codes)), Code: code, Problem: wrong[code], Note: tidyLines(form.Get("note." + code))}
		before, done := o.t.ScoreOf(taster, code)
		if done {
			v.Changes = true
			if !form.Has("note." + code) {
				c.Note = string(before.Body.Note)
			}
		}
		for _, f := range o.scored() {
			here := form.Get(scoreKey(code, f.Figure))
			if done && here == "" {
				here = pointsOf(before.Body, f.Figure)
			}
			c.Scales = append(c.Scales, scaleOf(f, code, here))
		}
		v.Codes = append(v.Codes, c)
	}
	tastingTemplate.show(w, status, v)
}

func scaleOf(f record.Figured, code, here string) tasteScale {
	x := tasteScale{Key: scoreKey(code, f.Figure), Name: capital(f.Figure), Low: "0: as bad as can be", High: fmt.Sprintf("%d: as good as can be", trials.MostPoints)}
	for _, k := range knownFigures {
		if k.name == f.Figure {
			x.Low, x.High, _ = strings.Cut(k.hint, ", ")
		}
	}
	for p := range trials.MostPoints + 1 {
		text := strconv.Itoa(p)
		x.Points = append(x.Points, tastePoint{text, text == here})
	}
	return x
}

// pointsOf are the points that were given for a figure; "" for none.
func pointsOf(b record.TrialScored, figure string) string {
	for _, x := range b.Scores {
		if x.Figure == figure {
			return strconv.FormatFloat(decimal(x.Points), 'f', -1, 64)
		}
	}
	return ""
}

// enterTasting enters what a taster said of every code. What was said before and is otherwise now is corrected.
func (s *server) enterTasting(w http.ResponseWriter, r *http.Request, o onTrial) {
	if err := r.ParseForm(); err != nil {
		s.refuse(w, r, http.StatusBadRequest, "This form cannot be read.")
		return
	}
	form, wrong := r.PostForm, map[string]string{}
	taster, week, ok := o.tasterOf(form)
	if !ok {
		s.missing(w, r, o.book, "Choose who tastes, and in which week, from the page of the trial.")
		return
	}
	var said []app.Said
	for _, code := range o.t.Served(taster, week) {
		b := record.TrialScored{Trial: o.t.Name, Week: week, Taster: o.t.Laid.Body.Tasters[taster], Code: code, Note: record.Text(tidyLines(form.Get("note." + code)))}
		if problem := readScores(&b, form, o.scored()); problem != "" {
			wrong[code] = problem
			continue
		}
		before, done := o.t.ScoreOf(taster, code)
		switch {
		case !done:
			said = append(said, app.Said{Body: b})
		case !sameScores(before.Body, b):
			said = append(said, app.Said{Corrects: before.Entry, Body: b})
		}
	}
	switch {
	case len(wrong) > 0:
		wrong[""] = "Nothing was entered yet: " + times(len(wrong), "code has", "codes have") + " no points somewhere."
		s.showTasteForm(w, r, o, form, wrong, http.StatusUnprocessableEntity)
	case len(said) == 0:
		http.Redirect(w, r, trialURL(o.t.Name, "", o.query), http.StatusSeeOther)
	default:
		s.enterSaid(w, r, trialURL(o.t.Name, "taste", o.query, "week", fmt.Sprint(week), "taster", o.nextTaster(taster, week)), said...)
	}
}

// nextTaster is who has not tasted after this one; this one when all have.
func (o onTrial) nextTaster(taster int, week record.Week) string {
	name := o.t.Laid.Body.Tasters[taster]
	for _, waits := range o.opening(week).Tasters {
		if waits != name {
			return waits
		}
	}
	return name
}

// readScores reads the points of a code; what is wrong is returned in words.
func readScores(b *record.TrialScored, form url.Values, figures []record.Figured) string {
	var missing []string
	for _, f := range figures {
		text := tidy(form.Get(scoreKey(b.Code, f.Figure)))
		d, ok := readDecimal(text, trials.Points)
		switch {
		case text == "":
			missing = append(missing, f.Figure)
		case !ok || d < 0 || d > trials.MostPoints*1000:
			return fmt.Sprintf("Points go from 0 to %d.", trials.MostPoints)
		default:
			b.Scores = append(b.Scores, record.Score{Figure: f.Figure, Points: d})
		}
	}
	if len(missing) > 0 {
		return "Touch the points for " + strings.Join(missing, " and ") + "."
	}
	return ""
}

func sameScores(a, b record.TrialScored) bool {
	return a.Note == b.Note && slices.Equal(a.Scores, b.Scores)
}
