package web

import (
	"html/template"
	"strconv"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// freezeView is what the freezers have to do.
type freezeView struct {
	Grave    []reminder
	Packs    []packFreeze
	Days     []freezeDay
	Cabinets []cabinetView
	Left     string // packs that find no place; "" when all do
	Remedies []string
	Freezers []freezerView
	Load     figure
	Rule     figure
	RuleLow  figure
	Room     figure
	Last     string
	Source   string
	Picture  template.HTML // what goes into the freezers
}

// freezeDay is what goes into the freezers on one day.
type freezeDay struct {
	Name    string
	Entries []freezeEntry
}

type freezeEntry struct{ Freezer, Count, Name, Takes string }

type cabinetView struct {
	Name      string
	AirPeak   figure
	StockPeak figure
	FullPower string
	Curve     pictureView
}

type packFreeze struct {
	Name        string
	Freezer     string
	Lies        string
	Thickness   figure
	From, To    figure
	Time, Band  string
	Pham, Plank string
	Begins      figure
	Otherwise   []otherwise
	Curve       pictureView
}

type otherwise struct{ Lies, Time string }

type freezerView struct {
	Name            string
	ByHeat          figure
	RuleLow, RuleHi figure
	Room            figure
	Alone           []string // packs of one kind in a day
}

func viewFreeze(p plan.Plan, r reader, at pictures) freezeView {
	f, s := p.Freeze, p.Freeze.Schedule
	v := freezeView{Grave: graveFor(p, atFreeze), Load: r.fig(f.Load), Rule: r.fig(f.RuleHigh), RuleLow: r.fig(f.RuleLow),
		Room: r.fig(f.Room), Source: f.Source, Days: viewFreezeDays(s, r), Remedies: s.Remedies, Picture: freezerShares(p, r)}
	if s.Last > 0 {
		v.Last = r.span(s.Last)
	}
	if s.Left > 0 {
		v.Left = strconv.Itoa(s.Left)
	}
	for i, c := range s.Cabinets {
		v.Cabinets = append(v.Cabinets, cabinetView{Name: c.Freezer, AirPeak: r.fig(c.AirPeak), StockPeak: r.fig(c.StockPeak), FullPower: r.span(c.FullPower), Curve: at.cabinet(i)})
	}
	for i, k := range f.Packs {
		pv := packFreeze{Name: k.Name, Freezer: k.Freezer, Lies: k.Lies, Thickness: r.fig(k.Thickness), From: r.fig(k.From), To: r.fig(k.To),
			Time: r.span(k.Time), Band: r.band(&k.Fast, &k.Slow), Pham: handbook(k.Pham, k.Time, r), Plank: handbook(k.Plank, k.Time, r), Begins: r.fig(k.Begins), Curve: at.freezing(i)}
		for _, o := range k.Otherwise {
			pv.Otherwise = append(pv.Otherwise, otherwise{o.Lies, r.span(o.Time)})
		}
		v.Packs = append(v.Packs, pv)
	}
	for _, z := range f.Freezers {
		fv := freezerView{Name: z.Name, ByHeat: r.fig(z.ByHeat), RuleLow: r.fig(z.RuleLow), RuleHi: r.fig(z.RuleHigh), Room: r.fig(z.Room)}
		for _, a := range z.Alone {
			fv.Alone = append(fv.Alone, strconv.Itoa(a.Count)+" × "+a.Name)
		}
		v.Freezers = append(v.Freezers, fv)
	}
	return v
}

func viewFreezeDays(s plan.FreezeSchedule, r reader) []freezeDay {
	var days []freezeDay
	for _, e := range s.Entries {
		if name := "Day " + strconv.Itoa(e.Day); len(days) == 0 || days[len(days)-1].Name != name {
			days = append(days, freezeDay{Name: name})
		}
		d := &days[len(days)-1]
		d.Entries = append(d.Entries, freezeEntry{e.Freezer, strconv.Itoa(e.Count), e.Name, r.span(e.Takes)})
	}
	return days
}

// handbook is what a formula says, with its difference from the simulation; "" when it does not know the case.
func handbook(formula, simulated unit.Span, r reader) string {
	if formula == 0 || simulated == 0 {
		return ""
	}
	off := 100 * (formula.S()/simulated.S() - 1)
	return r.span(formula) + " (" + signed(off) + " %)"
}

func signed(x float64) string {
	text := strconv.FormatFloat(x, 'f', 0, 64)
	if x > 0 {
		return "+" + text
	}
	return text
}
