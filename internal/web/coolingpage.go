package web

import (
	"math"
	"net/http"
	"net/url"
	"strconv"

	"kettlefrost/internal/app"
	"kettlefrost/internal/caution"
	"kettlefrost/internal/coolforecast"
)

// coolingPage is all that templates/cooling.html may show: one load that cools, what is to be expected of it, and what can be done.
type coolingPage struct {
	shell
	Events   string
	ClockMs  string
	Clock    string
	Board    string // its address
	Run      string
	Card     coolingCard
	Step     app.CoolStep
	Best     *boardForm // by which the step is entered when it was done
	Careful  []caution.Caution
	Decides  string
	NowC     figure // the warmest point now
	NowBand  string
	Read     boardForm
	Chart    pictureView
	Limits   []coolingLimit
	Rule     string
	Source   string
	Actions  []coolingAction
	Computed string // from what the actions are computed
	Again    *coolingAgain
	Refused  string // why it may not be heated again
	Other    boardForm
	Discard  boardForm
	Done     []toldRow
	Pace     string
	Right    string // how far wrong the thermometers may read
	JSON     string
	Safety   string // where it is judged
}

// coolingLimit is one limit in a row.
type coolingLimit struct {
	Name, Says, Margin, Point string
	Sign, Class, Word         string
}

// coolingAction is something that can be done.
type coolingAction struct {
	Best   bool
	Name   string
	Word   string // what comes of it
	Sign   string
	Class  string
	Says   string
	Latest string
	Ice    figure
	Hands  string
	Short  string
	Notes  []string
	Form   boardForm
}

// coolingAgain is heating it again.
type coolingAgain struct {
	Temp, Says, Source string
	Form               boardForm
}

var coolingTemplate = parse[coolingPage]("cooling")

// mostActions are shown; the others are worse.
const mostActions = 6

func (s *server) showOneCooling(w http.ResponseWriter, r *http.Request, status int, sent coolingSent) {
	query := r.URL.Query()
	run, task := query.Get("run"), query.Get("task")
	if sent.form != nil {
		run, task = sent.form.Get("run"), sent.form.Get("task")
	}
	p, c, ok := s.coolingOf(w, r, run, task)
	if !ok {
		return
	}
	query.Del("did")
	rd := readerOf(p.Book.Kitchen, r)
	voice, now := app.VoiceOf(p), s.instant()
	voice.Units = rd.units
	a := s.boards.Advice(p, c)
	v := coolingPage{shell: s.inShell(r, p.Book.Kitchen, "Cooling: "+c.Log.Title, "cooling"), Board: boardURL(p.Run.Name), Run: p.Run.Name, Clock: s.house.Now().Format("15:04"),
		ClockMs: strconv.FormatInt(int64(now), 10), Events: "/events?" + url.Values{"after": {strconv.FormatUint(p.Seq, 10)}}.Encode(), Card: coolingCardOf(p.Run.Name, c, voice, now), Step: voice.Step(c, a, now),
		Rule: c.Case.Rule.Title, Source: c.Case.Rule.Source, JSON: coolingJSONPath + "?" + url.Values{"run": {run}, "task": {c.Ref()}}.Encode()}
	v.Refresh, v.Safety = refreshS, "/safety/run?"+url.Values{"run": {p.Run.Name}}.Encode()
	f := coolingForms{s: s, p: p, c: c, rd: rd, sent: sent}
	v.Read, v.Other, v.Discard = f.read(), f.other(), f.discard()
	v.Chart = coolingChart(p.Run.Name, c.Ref(), query).saying("What was read of " + c.Log.Title + ", and what is to be expected")
	v.figures(c, rd, voice)
	v.acts(f, a, voice)
	v.Done = coolingTold(p, c, rd)
	coolingTemplate.show(w, status, v)
}

// figures are the limits, and what they rest on.
func (v *coolingPage) figures(c app.Cooling, rd reader, voice app.CoolVoice) {
	for _, l := range c.Forecast.Limits {
		x := coolingLimit{Name: bothDegrees(l.Stage.ToC, rd), Says: voice.Limit(c, l), Point: l.Point}
		if l.State == coolforecast.Ahead {
			x.Margin = voice.Margin(l.MarginS)
		}
		x.Class, x.Sign, x.Word = limitMark(l.Outcome)
		v.Limits = append(v.Limits, x)
	}
	if len(c.Forecast.Band) > 0 {
		v.NowC = degreesFigure(c.Forecast.NowC.Usual, rd)
		v.NowBand = degreesFigure(c.Forecast.NowC.Good, rd).First + " to " + degreesFigure(c.Forecast.NowC.Bad, rd).First
	}
	if p := c.Forecast.Pace; !math.IsNaN(p) && p > 0 && c.Problem == "" && !math.IsNaN(c.Forecast.LastS) {
		v.Pace = paceWords(p)
	}
	if x := c.Log.Accuracy; x != nil {
		v.Right = x.Says
	}
}

func limitMark(o coolforecast.Outcome) (class, sign, word string) {
	switch o {
	case coolforecast.Over:
		return "yes", "✓", "met"
	case coolforecast.Meets:
		return "yes", "●", "in time, at the bad end too"
	case coolforecast.InDoubt:
		return "caution", "▲", "in doubt"
	case coolforecast.Misses:
		return "stop", "■", "too late"
	case coolforecast.Missed:
		return "stop", "■", "missed"
	}
	return "note", "?", "cannot be said"
}

// paceWords is how fast it cools beside what was predicted.
func paceWords(p float64) string {
	percent := int(math.Round(100 * p))
	switch {
	case percent > 108:
		return "It cools " + strconv.Itoa(percent-100) + " % faster than was predicted."
	case percent < 92:
		return "It cools " + strconv.Itoa(100-percent) + " % slower than was predicted."
	}
	return "It cools about as was predicted."
}

// acts are what can be done, each with the form that enters it.
func (v *coolingPage) acts(f coolingForms, a app.CoolAdvice, voice app.CoolVoice) {
	c := f.c
	for _, x := range a.Actions[:min(mostActions, len(a.Actions))] {
		y := coolingAction{Best: a.Now != nil && a.Now.Action.ID == x.Action.ID, Name: x.Name, Says: voice.Comes(c, x), Ice: f.rd.mass(x.Ice), Hands: f.rd.span(x.Hands), Form: f.act(x)}
		y.Class, y.Sign, y.Word = limitMark(x.Outcome)
		if x.Part < 1 && x.Outcome == coolforecast.Meets {
			y.Class, y.Sign, y.Word = "caution", "▲", "in time for "+strconv.Itoa(int(100*x.Part))+" % of it"
		}
		if !math.IsNaN(x.LatestS) {
			y.Latest = f.p.Clock(c.At(x.LatestS)).String()
		}
		y.Short = voice.Fits(x)
		if y.Best && v.Step.Until != "" { // it stands above
			v.Best, y.Form = &y.Form, boardForm{}
			v.Best.Title = "It was done: " + x.Name
		}
		if x.Food {
			y.Notes = append(y.Notes, "Only where that much of its water was held back when it was cooked. The ice is food: of drinking water, handled clean.")
		}
		v.Actions = append(v.Actions, y)
	}
	if len(v.Actions) > 0 || a.Again != nil {
		v.Careful, v.Decides = caution.For(caution.MovingHot), caution.Decides
	}
	if len(v.Actions) > 0 {
		v.Computed = bothDegrees(a.FromC, f.rd) + ", the warmest point as forecast for now"
	}
	v.again(f, a, voice)
}
