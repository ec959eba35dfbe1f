package web

import (
	"net/http"
	"slices"
	"strings"
	"time"

	"kettlefrost/internal/app"
	"kettlefrost/internal/critical"
	"kettlefrost/internal/draw"
	"kettlefrost/internal/record"
)

// showSafetyChart draws what was read of a record, with its limits.
func (s *server) showSafetyChart(w http.ResponseWriter, r *http.Request) {
	looks := []look{{}, {narrow: true}, {dark: true}, {narrow: true, dark: true}}
	i := slices.IndexFunc(looks, func(l look) bool { return "log"+l.suffix() == r.PathValue("file") })
	if i < 0 {
		book, _ := s.house.Book()
		s.missing(w, r, book, "There is no such drawing.")
		return
	}
	v, _, ok := s.pointOf(w, r, r.URL.Query().Get("point"))
	if !ok {
		return
	}
	book, _ := s.house.Book()
	chart := recordChart(v, readerOf(book.Kitchen, r), s.house.Now())
	chart.Width = looks[i].width()
	writeSVG(w, chart.Picture(), looks[i])
}

// recordChart is a record drawn: every point that was read, the limits of the rule that decides, and the reading that decides.
func recordChart(v critical.Verdict, rd reader, now time.Time) draw.TempChart {
	chart := draw.TempChart{Title: titleOf(v), Units: rd.units}
	first, last := record.Instant(0), record.Instant(0)
	for _, l := range v.Logs {
		for _, x := range l.Readings {
			if first == 0 || x.At < first {
				first = x.At
			}
			last = max(last, x.At)
		}
	}
	if first == 0 {
		return chart
	}
	at := func(i record.Instant) float64 { return float64(i-first) / 1000 }
	chart.Zero = time.UnixMilli(int64(first)).In(now.Location())
	if ends := at(record.Instant(now.UnixMilli())); v.Outcome != critical.Pass && ends-at(last) < 12*3600 {
		chart.Now = &ends
	}
	for _, l := range v.Logs {
		t := draw.Trace{Name: l.Where}
		if t.Name == "" {
			t.Name = "typed"
		}
		for _, x := range l.Readings {
			p := draw.Read{TimeS: at(x.At), TempC: x.TempC, Apart: x.Unusable}
			for flag := range strings.FieldsSeq(x.Flags) {
				p.Flags = append(p.Flags, app.FlagWords(flag))
			}
			t.Points = append(t.Points, p)
		}
		chart.Traces = append(chart.Traces, t)
	}
	chart.Limits = limitsOf(v, rd, at)
	if v.TempC != nil && v.At != 0 {
		sign := draw.Missed
		if v.Outcome == critical.Pass {
			sign = draw.Met
		}
		chart.Marks = append(chart.Marks, draw.TempMark{TimeS: at(v.At), TempC: *v.TempC, Text: degrees(*v.TempC, rd), Sign: sign})
	}
	for _, a := range v.Acted {
		chart.Moments = append(chart.Moments, draw.TempMoment{TimeS: at(a.At), Text: deeds[a.Did]})
	}
	return chart
}

// limitsOf are the limits of the rule that decides: of a cooling, each from when its clock starts to when its time is over.
func limitsOf(v critical.Verdict, rd reader, at func(record.Instant) float64) (all []draw.TempLimit) {
	for _, r := range v.Rules {
		for _, t := range r.Stages {
			if !r.Decides {
				continue
			}
			l := draw.TempLimit{Name: bothDegrees(t.ToC, rd) + " within " + spanText(t.WithinS), TempC: t.ToC}
			if t.Start != 0 {
				l.FromS, l.UntilS, l.Gate = at(t.Start), at(t.Deadline), true
			}
			all = append(all, l)
		}
	}
	if v.What == critical.Cooking && v.LimitC != nil {
		all = append(all, draw.TempLimit{Name: bothDegrees(*v.LimitC, rd) + " or hotter", TempC: *v.LimitC, Warming: true})
	}
	return all
}
