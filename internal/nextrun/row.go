package nextrun

import (
	"fmt"
	"math"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/forecast"
	"kettlefrost/internal/kitchen"
)

// rowOf works one pack out.
func rowOf(id kitchen.PackID, pack kitchen.Pack, ask Ask, p Proposal, planned int64) (Row, finding.List, error) {
	r := Row{Pack: id, Name: pack.Name, Dish: pack.Dish, Keep: int64(max(0, pack.Keep)), OnHand: int64(max(0, pack.Frozen)), Planned: planned, Batch: int64(max(1, pack.Batch))}
	var found finding.List
	for _, w := range ask.Open {
		switch {
		case w.Pack != id || w.Count <= 0:
		case w.Due > p.Until:
			r.Later += w.Count
		default:
			r.Ordered += w.Count
			if r.First == "" || w.Due < r.First {
				r.First = w.Due
			}
		}
	}
	r.Sold = byWeek(ask.Sold, id, ask.Today)
	where := "pack " + string(id)
	if len(r.Sold) >= ShortestHistory {
		f, err := forecast.Make(r.Sold, forecast.Options{Ahead: p.Weeks, Season: yearInWeeks})
		if err != nil {
			return r, nil, err
		}
		r.Forecast = &f
		r.Expected = expected(f, ask.Sure)
		for _, d := range f.Doubts {
			if d.Why != forecast.SeasonUnseen { // said once, for all packs, by the length of the history
				found = append(found, finding.Finding{Code: "forecast-doubt", Severity: finding.Note, Where: where, Message: d.String(), Fix: "look at its weeks before you trust the number", Source: "package forecast"})
			}
		}
	}
	next, err := forecast.ToMake(forecast.Stock{Demand: float64(max(0, r.Expected-r.Ordered)), Open: r.Ordered, Keep: r.Keep, OnHand: r.OnHand, Planned: r.Planned, Batch: r.Batch})
	r.Need, r.Make = next.Need, next.Make
	return r, found, err
}

// expected is a forecast in whole packs: what is needed must be there, so it counts up.
func expected(f forecast.Forecast, sure bool) int64 {
	total := f.Total
	if sure {
		total = f.Range.High
	}
	return int64(math.Ceil(total * (1 - 1e-12))) // what rounding added to a sum is no pack
}

// byWeek counts what was sold of a pack in weeks of seven days that end yesterday, since the week in which it was first sold. What came back
// comes off the week in which it did; no week is below 0.
func byWeek(sold []Sale, id kitchen.PackID, today string) []float64 {
	weeks := map[int]int64{}
	first := -1
	for _, s := range sold {
		ago, ok := kitchen.DaysUntil(s.Day, today)
		if s.Pack != id || !ok || ago < 1 {
			continue
		}
		week := (ago - 1) / 7
		weeks[week] += s.Count
		if s.Count > 0 {
			first = max(first, week)
		}
	}
	var counts []float64
	for week := first; week >= 0; week-- {
		counts = append(counts, float64(max(0, weeks[week])))
	}
	return counts
}

// Error is how far off the forecast would have been, in words and figures; "" without one.
func (r Row) Error() string {
	if r.Forecast == nil || r.Forecast.Error.Origins == 0 {
		return ""
	}
	e := r.Forecast.Error
	method := r.Forecast.Method.String()
	if set := r.Forecast.Setting.String(); set != "" {
		method += " (" + set + ")"
	}
	text := fmt.Sprintf("The %s, held against the last %d weeks: off by %s packs a week on average, where %s a week were sold", method, e.Origins, figure(e.MAE), figure(mean(r.Sold[len(r.Sold)-e.Origins:])))
	switch {
	case e.Bias > 0.05:
		text += fmt.Sprintf("; %s a week too many on the whole", figure(e.Bias))
	case e.Bias < -0.05:
		text += fmt.Sprintf("; %s a week too few on the whole", figure(-e.Bias))
	}
	return text + "."
}

// leastCover is the share of cases below which a range is no help to anybody.
const leastCover = 0.5

// Range is between what the sales of the weeks ahead will probably be, in words; "" without a forecast.
func (r Row) Range() string {
	if r.Forecast == nil {
		return ""
	}
	g := r.Forecast.Range
	if g.Cover < leastCover {
		return fmt.Sprintf("About %s; too few weeks to say how far off it may be.", figure(r.Forecast.Total))
	}
	return fmt.Sprintf("About %s, and in %.0f of 100 cases between %s and %s, if the weeks to come err like those of the past.", figure(r.Forecast.Total), 100*g.Cover, figure(g.Low), figure(g.High))
}

// Sum is the sum that the number to make comes from, in words.
func (r Row) Sum() string {
	ahead := "no forecast"
	if r.Forecast != nil {
		ahead = fmt.Sprintf("%d expected to be sold", r.Expected)
	}
	text := fmt.Sprintf("%s, %d of it ordered", ahead, r.Ordered)
	switch {
	case r.Forecast == nil:
		text = fmt.Sprintf("%d ordered", r.Ordered)
	case r.Ordered > r.Expected:
		text = fmt.Sprintf("%d ordered, more than the %d expected", r.Ordered, r.Expected)
	}
	text += fmt.Sprintf("; %d to remain; %d on hand; %d planned: ", r.Keep, r.OnHand, r.Planned)
	if r.Need <= 0 {
		return text + fmt.Sprintf("%d more than needed", -r.Need)
	}
	text += fmt.Sprintf("%d needed", r.Need)
	if r.Make > r.Need {
		text += fmt.Sprintf(", %d in batches of %d", r.Make, r.Batch)
	}
	return text
}

func mean(counts []float64) float64 {
	sum := 0.0
	for _, c := range counts {
		sum += c
	}
	return sum / float64(max(1, len(counts)))
}

// figure is a number of packs as it is said: to a tenth below ten.
func figure(x float64) string {
	if x < 10 {
		return fmt.Sprintf("%.1f", x)
	}
	return fmt.Sprintf("%.0f", x)
}
