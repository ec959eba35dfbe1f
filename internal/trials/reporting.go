package trials

import (
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Report is all that can be told, as it stands on a day.
func (r Results) Report(today record.Day) Report {
	t := r.Trial
	x := Report{Schema: ReportSchema, ListRow: t.Row(today), Level: Level, Tasters: t.Laid.Body.Tasters, Unknown: r.Unknown, Findings: t.Found, Arms: t.arms(), Figures: []FigureReport{}, Supports: []SupportReport{}}
	if t.Closed != nil {
		x.Why = string(t.Closed.Body.Why)
	}
	for _, f := range r.Figures {
		x.Figures = append(x.Figures, r.figure(f))
	}
	for _, s := range t.Supports(nil) {
		row := SupportReport{Variant: s.Variant, Known: s.Known, Weeks: s.Weeks, By: s.By, Last: s.Last, Why: s.Why}
		if s.Known {
			row.Ending = s.Ending.String()
		}
		x.Supports = append(x.Supports, row)
	}
	for _, p := range t.Pictures {
		row := PictureReport{Hash: p.Body.Hash.String(), Type: string(p.Body.Type), Bytes: p.Body.Bytes, Variant: p.Variant, Caption: string(p.Body.Caption)}
		if p.HasWeek {
			row.Week = &p.Week
		}
		x.Pictures = append(x.Pictures, row)
	}
	return x
}

func (t Trial) arms() []ArmReport {
	var all []ArmReport
	for _, v := range t.Laid.Body.Variants {
		a := ArmReport{Variant: v.Name, Change: string(v.Change), Base: v.Base}
		if m, ok := t.Batch(v.Name); ok {
			a.Frozen, a.MassG, a.Packs, a.EachG, a.Lot = m.Body.Frozen, grams(m.Body.Mass), m.Body.Packs, grams(m.Body.Each), m.Body.Lot
		}
		all = append(all, a)
	}
	return all
}

func grams(m unit.Mass) float64 { return float64(m) / float64(unit.Gram) }

// Batch is the batch of a variant; false as long as there is none.
func (t Trial) Batch(variant string) (Said[record.TrialMade], bool) {
	for _, m := range t.Made {
		if m.Body.Variant == variant {
			return m, true
		}
	}
	return Said[record.TrialMade]{}, false
}

func (r Results) figure(f Result) FigureReport {
	x := FigureReport{Figure: f.Figure.Figure, Unit: f.Figure.Unit, Better: f.Figure.Better, Matters: number(f.Figure.Matters), Scored: f.Scored, Not: f.Not, Values: []ValueReport{}, Means: []MeanReport{}, Trends: []TrendReport{}, Pairs: []PairReport{}}
	if f.Figure.Bound != nil {
		bound := number(*f.Figure.Bound)
		x.Bound = &bound
	}
	for _, s := range f.Seen {
		v := ValueReport{Variant: r.variant(s.Variant), Week: s.Week, Pack: s.Number, Value: s.Value, Entry: s.Entry.String()}
		if s.Taster >= 0 {
			v.Taster = r.Trial.Laid.Body.Tasters[s.Taster]
		}
		x.Values = append(x.Values, v)
	}
	for _, s := range f.Series {
		x.Means = append(x.Means, r.means(s)...)
		if t := s.Trend; t != nil {
			x.Trends = append(x.Trends, TrendReport{r.variant(s.Variant), t.Values, t.Slope, t.SlopeInterval.Low, t.SlopeInterval.High, t.P, t.PLine})
		}
	}
	for _, p := range f.Pairs {
		x.Pairs = append(x.Pairs, PairReport{r.variant(p.Of), r.variant(p.Against), p.Blocks, p.Estimate, p.Low, p.High, p.Level, p.P, p.PAmong, p.ByRanks, p.Verdict.String(), p.Text})
	}
	if f.Compared != nil && f.Compared.Friedman != nil {
		o := f.Compared.Friedman
		x.Overall = &OverallReport{o.Blocks, o.ChiSquare, o.P, o.W}
	}
	return x
}

func (r Results) means(s Series) []MeanReport {
	var all []MeanReport
	for _, w := range s.Weeks {
		m := MeanReport{Variant: r.variant(s.Variant), Week: w.Week, Values: w.Values, Mean: w.Mean, Line: w.Line}
		if w.Interval != nil {
			m.Low, m.High = &w.Interval.Low, &w.Interval.High
		}
		all = append(all, m)
	}
	return all
}
