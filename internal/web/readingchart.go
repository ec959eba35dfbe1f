package web

import (
	"cmp"
	"net/http"
	"slices"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/draw"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// ReadingChart is a probe's day as a chart, by the clock on the wall of a place: what was read and what was measured by hand, with the limit of
// the place that the probe watches, and where it was.
func ReadingChart(d app.ReadingDay, units unit.System, place *time.Location) draw.TempChart {
	name := cmp.Or(d.Name, d.Probe)
	at := func(t record.Instant) float64 { return float64(t-d.From) / 1000 }
	c := draw.TempChart{Title: name + ", " + string(d.Day), Units: units, Zero: time.UnixMilli(int64(d.From)).In(place), Until: at(d.Before)}
	if now := at(d.Now); now < c.Until {
		now = max(0, now)
		c.Now = &now
	}
	trace := draw.Trace{Name: name}
	for _, x := range d.Readings {
		p := draw.Read{TimeS: at(x.At), Blank: x.TempC == nil, Apart: !x.Count}
		if x.TempC != nil {
			p.TempC = *x.TempC
		}
		for _, f := range x.Flags {
			p.Flags = append(p.Flags, app.FlagWords(f))
		}
		trace.Points = append(trace.Points, p)
	}
	c.Traces = append(c.Traces, trace)
	if len(d.Typed) > 0 {
		typed := draw.Trace{Name: "by hand", GapS: 1} // nobody knows what was between two of them
		for _, x := range d.Typed {
			typed.Points = append(typed.Points, draw.Read{TimeS: at(x.At), TempC: x.Temp.C()})
		}
		c.Traces = append(c.Traces, typed)
	}
	if d.Limit != nil {
		c.Limits = append(c.Limits, draw.TempLimit{TempC: d.Limit.TempC, Name: bothScales(d.Limit.TempC, units) + " or colder"})
		for _, x := range d.Limit.Stretches {
			if x.Kind == coldwatch.TooWarm {
				c.Stages = append(c.Stages, draw.TempStage{Name: "over the limit", FromS: at(x.From), UntilS: at(x.Until)})
			}
		}
	}
	for _, x := range d.Stays {
		until := x.Until
		if until == 0 {
			until = min(d.Before, d.Now)
		}
		c.Stages = append(c.Stages, draw.TempStage{Name: string(x.Stage) + ": " + x.Where, FromS: max(0, at(x.From)), UntilS: min(c.Until, at(until))})
	}
	return c
}

func bothScales(c float64, units unit.System) string { return reader{units: units}.readTemp(c).both() }

// showLogChart draws a probe's day.
func (s *server) showLogChart(w http.ResponseWriter, r *http.Request) {
	looks := []look{{}, {narrow: true}, {dark: true}, {narrow: true, dark: true}, {inline: true}}
	i := slices.IndexFunc(looks, func(l look) bool { return "day"+l.suffix() == r.PathValue("file") })
	book, _ := s.house.Book()
	if i < 0 || s.records == nil {
		s.missing(w, r, book, "There is no such drawing.")
		return
	}
	d, book, problem, err := s.dayOfProbe(r)
	switch {
	case err != nil:
		http.Error(w, sentence(err), http.StatusInternalServerError)
		return
	case problem != "":
		s.missing(w, r, book, problem)
		return
	}
	chart := ReadingChart(d, readerOf(book.Kitchen, r).units, s.house.Now().Location())
	chart.Width = looks[i].width()
	looks[i].id = "day"
	writeSVG(w, chart.Picture(), looks[i])
}
