package web

import (
	"math"
	"net/http"
	"net/url"
	"slices"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/coolforecast"
	"kettlefrost/internal/draw"
	"kettlefrost/internal/record"
)

// coolingChart is the address of the picture of a load.
func coolingChart(run, task string, query url.Values) pictureView {
	q := url.Values{"run": {run}, "task": {task}}
	if u := query.Get("units"); u != "" {
		q.Set("units", u)
	}
	return pictures{path: coolingPath, rest: "?" + q.Encode()}.at("chart/food")
}

// showCoolingChart draws what was read of a load, what is to be expected of it, and its limits.
func (s *server) showCoolingChart(w http.ResponseWriter, r *http.Request) {
	looks := []look{{}, {narrow: true}, {dark: true}, {narrow: true, dark: true}}
	i := slices.IndexFunc(looks, func(l look) bool { return "food"+l.suffix() == r.PathValue("file") })
	query := r.URL.Query()
	if i < 0 {
		book, _ := s.house.Book()
		s.missing(w, r, book, "There is no such drawing.")
		return
	}
	p, c, ok := s.coolingOf(w, r, query.Get("run"), query.Get("task"))
	if !ok {
		return
	}
	chart := coolingDrawn(p, c, readerOf(p.Book.Kitchen, r), s.instant(), s.house.Now().Location())
	chart.Width = looks[i].width()
	writeSVG(w, chart.Picture(), looks[i])
}

// coolingDrawn is the chart of a load. Seconds count from the first that was read of it.
func coolingDrawn(p *app.Production, c app.Cooling, rd reader, now record.Instant, zone *time.Location) draw.TempChart {
	zero := c.Zero
	for _, l := range c.Log.Logs {
		for _, r := range l.Readings {
			zero = min(zero, r.At)
		}
	}
	at := func(t record.Instant) float64 { return float64(t-zero) / 1000 }
	shift := at(c.Zero)
	chart := draw.TempChart{Title: c.Log.Title, Units: rd.units, Zero: time.UnixMilli(int64(zero)).In(zone)}
	if !c.Over {
		n := at(now)
		chart.Now = &n
	}
	for _, l := range c.Log.Logs {
		trace := draw.Trace{Name: l.Where}
		if trace.Name == "" {
			trace.Name = "as read"
		}
		for _, x := range l.Readings {
			y := draw.Read{TimeS: at(x.At), TempC: x.TempC, Apart: x.Unusable}
			if x.Flags != "" {
				y.Flags = []string{x.Flags}
			}
			if x.Unusable {
				y.Flags = append(y.Flags, "does not count")
			}
			trace.Points = append(trace.Points, y)
		}
		chart.Traces = append(chart.Traces, trace)
	}
	drawPrior(&chart, c, shift)
	if band := c.Forecast.Band; len(band) > 0 && !c.Over {
		b := draw.Band{Name: "to be expected, nine chances in ten"}
		for _, x := range band {
			b.Low, b.High = append(b.Low, draw.At{TimeS: x.TimeS + shift, TempC: x.LowC}), append(b.High, draw.At{TimeS: x.TimeS + shift, TempC: x.HighC})
		}
		chart.Bands = append(chart.Bands, b)
	}
	for _, l := range c.Forecast.Limits {
		x := draw.TempLimit{Name: bothDegrees(l.Stage.ToC, rd) + " or colder", TempC: l.Stage.ToC}
		if !math.IsNaN(l.DeadlineS) && !math.IsInf(l.DeadlineS, 0) && !math.IsNaN(l.StartS) {
			x.FromS, x.UntilS, x.Gate = l.StartS+shift, l.DeadlineS+shift, true
			x.Name += " by " + p.Clock(c.At(l.DeadlineS)).String()
		}
		chart.Limits = append(chart.Limits, x)
		if l.State == coolforecast.Met {
			chart.Marks = append(chart.Marks, draw.TempMark{TimeS: l.ReachedS.Usual + shift, TempC: l.Stage.ToC, Text: p.Clock(c.At(l.ReachedS.Usual)).String(), Sign: draw.Met})
		}
	}
	for _, a := range c.Log.Acted {
		chart.Moments = append(chart.Moments, draw.TempMoment{TimeS: at(a.At), Text: string(a.Did)})
	}
	return chart
}

// drawPrior draws the curve that was predicted before anything was read.
func drawPrior(chart *draw.TempChart, c app.Cooling, shift float64) {
	m := c.Case.Model
	if m == nil || c.Over {
		return
	}
	last := 0.0
	for _, b := range c.Forecast.Band {
		last = max(last, b.TimeS)
	}
	t := draw.Trace{Name: "as predicted", Computed: true, Kind: draw.Medium}
	for _, x := range m.Curve {
		if at := m.FromS + x.TimeS; last == 0 || at <= last {
			t.Points = append(t.Points, draw.Read{TimeS: at + shift, TempC: x.CoreC})
		}
	}
	if len(t.Points) > 1 {
		chart.Traces = append(chart.Traces, t)
	}
}
