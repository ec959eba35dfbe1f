package web

import (
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/draw"
	"kettlefrost/internal/record"
)

// watchChart is the picture of what a probe read in a time.
func watchChart(query url.Values, seen coldwatch.Seen, from, until record.Instant) pictureView {
	rest := coldURL("", query, "probe", seen.Probe, "from", strconv.FormatInt(int64(from), 10), "until", strconv.FormatInt(int64(until), 10))
	return pictures{path: watchPath, rest: rest}.at("chart/air").saying("What " + seen.Name + " read in " + seen.PlaceName)
}

// widest is the longest time that a chart spans, in days.
const widest = 40

// showWatchChart draws what a probe read.
func (s *server) showWatchChart(w http.ResponseWriter, r *http.Request) {
	looks := []look{{}, {narrow: true}, {dark: true}, {narrow: true, dark: true}}
	i := slices.IndexFunc(looks, func(l look) bool { return "air"+l.suffix() == r.PathValue("file") })
	query := r.URL.Query()
	from, errFrom := strconv.ParseInt(query.Get("from"), 10, 64)
	until, errUntil := strconv.ParseInt(query.Get("until"), 10, 64)
	if i < 0 || s.records == nil || errFrom != nil || errUntil != nil || from < 0 || until <= from || until-from > widest*dayMillis {
		book, _ := s.house.Book()
		s.missing(w, r, book, "There is no such drawing.")
		return
	}
	book, _ := s.house.Book()
	rd := readerOf(book.Kitchen, r)
	seen, readings, known, err := s.records.WatchOne(r.Context(), book, query.Get("probe"), record.Instant(from), min(record.Instant(until), s.instant()))
	switch {
	case err != nil:
		s.refuse(w, r, http.StatusInternalServerError, sentence(err))
		return
	case !known:
		s.missing(w, r, book, "No probe of that name watches a freezer or a walk-in.")
		return
	}
	zone := s.house.Now().Location()
	chart := draw.TempChart{Title: seen.Name + ", " + seen.PlaceName, Units: rd.units, Zero: time.UnixMilli(from).In(zone), Until: float64(until-from) / 1000, Width: looks[i].width(),
		Limits: []draw.TempLimit{{Name: bothDegrees(seen.LimitC, rd) + " or colder", TempC: seen.LimitC}}}
	at := func(t record.Instant) float64 { return float64(int64(t)-from) / 1000 }
	now := at(s.instant())
	chart.Now = &now
	trace := draw.Trace{Name: seen.Name, GapS: float64(seen.GapMs) / 1000}
	for _, x := range readings {
		if x.Hand != "" {
			chart.Marks = append(chart.Marks, draw.TempMark{TimeS: at(x.At), TempC: x.TempC, Text: "by hand"})
			continue
		}
		p := draw.Read{TimeS: at(x.At), TempC: x.TempC, Blank: !x.Valued, Apart: x.Odd}
		for flag := range strings.FieldsSeq(x.Flags) {
			p.Flags = append(p.Flags, app.FlagWords(flag))
		}
		trace.Points = append(trace.Points, p)
	}
	chart.Traces = []draw.Trace{trace}
	for _, x := range seen.Stretches {
		if x.Kind == coldwatch.TooWarm && x.MayC > seen.LimitC && x.PeakC > seen.LimitC {
			chart.Stages = append(chart.Stages, draw.TempStage{Name: "too warm", FromS: max(0, at(x.From)), UntilS: at(x.Until)})
		}
	}
	writeSVG(w, chart.Picture(), looks[i])
}
