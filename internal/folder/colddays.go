package folder

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/draw"
	"kettlefrost/internal/pdf"
	"kettlefrost/internal/record"
)

// ColdLog is what a probe showed in a place while the lots lay there.
type ColdLog struct {
	coldwatch.Seen
	Days []ColdDay
}

// ColdDay is the readings of one day, or of one month, of the clock on the wall.
type ColdDay struct {
	Day   string  `json:"day"` // 2026-12-01; of a month 2026-12
	Count int     `json:"count"`
	Odd   int     `json:"odd"` // more, which have no temperature or one that proves nothing: not in the figures
	LowC  float64 `json:"low_c"`
	MeanC float64 `json:"mean_c"`
	HighC float64 `json:"high_c"`
}

// ColdDays are readings day by day. Days without any are missing.
func ColdDays(readings []coldwatch.Reading, day func(record.Instant) record.Day) []ColdDay {
	days := map[string]*ColdDay{}
	for _, r := range readings {
		at := string(day(r.At))
		d := days[at]
		if d == nil {
			d = &ColdDay{Day: at, LowC: math.Inf(1), HighC: math.Inf(-1)}
			days[at] = d
		}
		if !r.Valued || r.Odd {
			d.Odd++
			continue
		}
		d.Count++
		d.LowC, d.HighC, d.MeanC = min(d.LowC, r.TempC), max(d.HighC, r.TempC), d.MeanC+r.TempC
	}
	all := make([]ColdDay, 0, len(days))
	for _, d := range days {
		if d.Count > 0 {
			d.MeanC = math.Round(d.MeanC/float64(d.Count)*1000) / 1000
		} else {
			d.LowC, d.HighC = 0, 0
		}
		all = append(all, *d)
	}
	slices.SortFunc(all, func(a, b ColdDay) int { return strings.Compare(a.Day, b.Day) })
	return all
}

// months puts days together by month.
func months(days []ColdDay) (all []ColdDay) {
	for _, d := range days {
		month := d.Day[:min(len(d.Day), len("2026-12"))]
		if len(all) == 0 || all[len(all)-1].Day != month {
			all = append(all, ColdDay{Day: month, LowC: d.LowC, HighC: d.HighC})
		}
		m := &all[len(all)-1]
		m.Odd += d.Odd
		if d.Count == 0 {
			continue
		}
		if m.Count == 0 {
			m.LowC, m.HighC = d.LowC, d.HighC
		}
		m.LowC, m.HighC = min(m.LowC, d.LowC), max(m.HighC, d.HighC)
		m.MeanC = (m.MeanC*float64(m.Count) + d.MeanC*float64(d.Count)) / float64(m.Count+d.Count)
		m.Count += d.Count
	}
	return all
}

// mostDays are printed one by one; more by months.
const mostDays = 31

// coldDays is a place day by day, with a chart where there are some days.
func (p *printer) coldDays(c Cold) {
	if len(c.Days) > 2 {
		p.add(pdf.Figure{Picture: p.coldChart(c).Picture(), Caption: c.Name + ": the warmest and the coldest reading of each day, and the limit."})
	}
	days, name := c.Days, "day"
	if len(days) > mostDays {
		days, name = months(days), "month"
	}
	t := pdf.Table{Name: c.Name + ", by " + name, Columns: []pdf.Column{{Name: name}, {Name: "readings", Figure: true}, {Name: "coldest", Figure: true}, {Name: "mean", Figure: true}, {Name: "warmest", Figure: true}, {Name: "odd", Figure: true}}}
	for _, d := range days {
		row := []string{d.Day, whole(d.Count), "", "", "", whole(d.Odd)}
		if d.Count > 0 {
			row[2], row[3], row[4] = p.temp(d.LowC), p.temp(d.MeanC), p.temp(d.HighC)
		}
		t.Rows = append(t.Rows, pdf.Row{Cells: row, Strong: d.Count > 0 && d.HighC > c.LimitC})
	}
	p.add(t)
}

const dayS = 24 * 3600

// coldChart draws days at even distances; a day without readings is a gap.
func (p *printer) coldChart(c Cold) draw.TempChart {
	chart := draw.TempChart{Title: c.Name, Units: p.Kitchen.Units, Width: chartWidth, Zero: p.clock.Wall(c.From), Limits: []draw.TempLimit{{TempC: c.LimitC}}}
	warm, cold := draw.Trace{Name: "warmest of the day", GapS: 1.5 * dayS}, draw.Trace{Name: "coldest of the day", Kind: draw.Surface, GapS: 1.5 * dayS}
	for _, d := range c.Days {
		if d.Count == 0 {
			continue
		}
		at := float64(daysBetween(c.Days[0].Day, d.Day)) * dayS
		warm.Points = append(warm.Points, draw.Read{TimeS: at, TempC: d.HighC})
		cold.Points = append(cold.Points, draw.Read{TimeS: at, TempC: d.LowC})
	}
	chart.Traces = []draw.Trace{warm, cold}
	return chart
}

// daysBetween counts the days from one to another, as they stand in the calendar.
func daysBetween(from, to string) int {
	a, err := time.Parse(time.DateOnly, from)
	b, err2 := time.Parse(time.DateOnly, to)
	if err != nil || err2 != nil {
		return 0
	}
	return int(b.Sub(a).Hours() / 24)
}

func whole(n int) string { return strconv.Itoa(n) }
