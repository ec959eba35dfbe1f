package folder

import (
	"cmp"
	"fmt"
	"math"

	"kettlefrost/internal/critical"
	"kettlefrost/internal/draw"
	"kettlefrost/internal/record"
)

// chart is what was read for a record, with the limits that it is held to.
func (p *printer) chart(r Record) draw.TempChart {
	zero := firstReading(r)
	at := func(t record.Instant) float64 { return float64(t-zero) / 1000 }
	c := draw.TempChart{Title: r.Title, Units: p.Kitchen.Units, Width: chartWidth, Zero: p.clock.Wall(zero)}
	for _, l := range r.logs {
		t := draw.Trace{Name: cmp.Or(l.Where, "where in the food was not written down")}
		for _, x := range l.Readings {
			read := draw.Read{TimeS: at(x.At), TempC: x.TempC}
			if x.Flags != "" {
				read.Flags = []string{x.Flags}
			}
			if x.Unusable {
				read.Flags, read.Apart = append(read.Flags, "thermometer withdrawn"), true
			}
			t.Points = append(t.Points, read)
		}
		c.Traces = append(c.Traces, t)
	}
	for _, rule := range r.Rules {
		if !rule.Decides {
			continue
		}
		for _, s := range rule.Stages {
			c.Limits, c.Marks = append(c.Limits, limit(s, at)), append(c.Marks, mark(p, s, at)...)
		}
	}
	for _, a := range r.Acted {
		c.Moments = append(c.Moments, draw.TempMoment{TimeS: at(a.At), Text: string(a.Did)})
	}
	return c
}

// chartWidth in drawing units fills the measure of a page.
const chartWidth = 800

func firstReading(r Record) record.Instant {
	first := record.Instant(math.MaxInt64)
	for _, l := range r.logs {
		for _, x := range l.Readings {
			first = min(first, x.At)
		}
	}
	return first
}

func limit(s critical.StageVerdict, at func(record.Instant) float64) draw.TempLimit {
	l := draw.TempLimit{TempC: s.ToC}
	if s.Start != 0 && s.Deadline != 0 {
		l.FromS, l.UntilS, l.Gate = at(s.Start), at(s.Deadline), true
	}
	return l
}

func mark(p *printer, s critical.StageVerdict, at func(record.Instant) float64) []draw.TempMark {
	if s.At == 0 || s.TempC == nil {
		return nil
	}
	m := draw.TempMark{TimeS: at(s.At), TempC: *s.TempC, Text: fmt.Sprintf("%s: %s", s.Outcome, p.temp(*s.TempC)), Sign: draw.Missed}
	switch s.Outcome {
	case critical.Pass:
		m.Sign = draw.Met
	case critical.Incomplete:
		m.Sign = draw.Dot
	}
	return []draw.TempMark{m}
}
