package plan

import (
	"cmp"
	"errors"
	"fmt"
	"maps"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/freezing"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// freezeDays is how many days packs are put into the freezers: the first, and as long as they may wait cold.
const freezeDays = 3

func emptySchedule() FreezeSchedule {
	return FreezeSchedule{Entries: []FreezeEntry{}, Cabinets: []CabinetDay{}, Remedies: []string{}}
}

var errNoFreezer = errors.New("the book has no freezer")

// scheduleFreezing puts all packs into the freezers, over several days when one does not do.
func (p *planner) scheduleFreezing(packs []frozenPack) error {
	ids := slices.Sorted(maps.Keys(p.book.Freezers))
	if len(ids) == 0 {
		return errNoFreezer
	}
	want := freezing.Want{Days: freezeDays, Limits: freezing.Limits{CoreC: coreC, Relax: true, StockC: freezing.UsualStockLimitC}}
	for _, id := range ids {
		f := p.book.Freezers[id]
		want.Freezers = append(want.Freezers, p.cabinet(f))
		want.Limits.StockC = max(want.Limits.StockC, f.Air.C()+2*airGap)
	}
	for _, x := range packs {
		want.Kinds = append(want.Kinds, freezing.Kind{Pack: x.pack, Count: x.fill.Count})
	}
	s, err := p.gentle(want)
	if err != nil {
		return err
	}
	p.showSchedule(s, packs, ids)
	if left, _ := s.NotPlaced(); left == 0 || p.trial {
		return nil
	}
	remedies, err := want.Remedies(s)
	for _, r := range remedies {
		if r.Fits {
			p.out.Freeze.Schedule.Remedies = append(p.out.Freeze.Schedule.Remedies, p.remedy(r, packs))
		}
	}
	return err
}

// gentler are limits of the old stock, °C, that are tried where one day does for all packs: a run that leaves freezers half empty should be
// spread over them rather than fill one to its limit.
var gentler = []float64{-18.5, -17.5, -16}

// gentle is the schedule that warms the old stock least among those of one day; otherwise the one of fewest days.
func (p *planner) gentle(want freezing.Want) (freezing.Schedule, error) {
	s, err := want.Schedule()
	left, _ := s.NotPlaced()
	if err != nil || p.trial || left > 0 || s.Days > 1 {
		return s, err
	}
	for _, stockC := range gentler {
		if stockC >= want.Limits.StockC {
			break
		}
		strict := want
		strict.Limits.StockC = stockC
		colder, err := strict.Schedule()
		if left, _ := colder.NotPlaced(); err == nil && left == 0 && colder.Days <= s.Days {
			return colder, nil
		}
	}
	return s, nil
}

// cabinet is one of a kind of freezer: what the book says of all of them is shared out evenly.
func (p *planner) cabinet(f kitchen.Freezer) freezing.Freezer {
	n := float64(f.Count)
	return freezing.Freezer{Count: f.Count, VolumeM3: f.Volume.L() / 1000, SetC: f.Air.C(), CoolingW: f.Cooling.W(), Film: p.freezerFilm(f), Placing: p.placing(f),
		RoomKg: max(0, f.Room-f.Holds).Kg() / n, Stock: freezing.Stock{MassKg: f.Holds.Kg() / n}}
}

func (p *planner) showSchedule(s freezing.Schedule, packs []frozenPack, ids []kitchen.FreezerID) {
	name := func(at freezing.Place) string {
		f := p.book.Freezers[ids[at.Freezer]]
		if f.Count > 1 {
			return fmt.Sprintf("%s, no. %d", f.Name, at.Cabinet+1)
		}
		return f.Name
	}
	show := emptySchedule()
	show.Days, show.Last = s.Days, minutes(s.FrozenS)
	for _, e := range s.Entries {
		x := packs[e.Kind].fill
		show.Entries = append(show.Entries, FreezeEntry{Day: e.Day + 1, Freezer: name(e.Place), Pack: x.Pack, Name: x.Name, Count: e.Count, Takes: minutes(e.FrozenS - e.InS)})
	}
	slices.SortStableFunc(show.Entries, func(a, b FreezeEntry) int {
		return cmp.Or(cmp.Compare(a.Day, b.Day), cmp.Compare(a.Freezer, b.Freezer))
	})
	for _, c := range s.Cabinets {
		show.Cabinets = append(show.Cabinets, CabinetDay{Freezer: name(c.Place), AirPeak: tenth(c.Load.AirPeakC), StockPeak: tenth(c.Load.StockPeakC), FullPower: minutes(c.Load.FullPowerS), Curve: cabinetCurve(c.Load)})
	}
	for i := range s.Intakes {
		for k, n := range s.Intakes[i] {
			x := packs[k].fill
			p.out.Freeze.Freezers[i].Alone = append(p.out.Freeze.Freezers[i].Alone, PackCount{Pack: x.Pack, Name: x.Name, Count: int(n)})
		}
	}
	left, kg := s.NotPlaced()
	show.Left, show.LeftMass = left, mass(kg)
	p.out.Freeze.Schedule = show
}

// remedy is one change that places everything, in words.
func (p *planner) remedy(r freezing.Remedy, packs []frozenPack) string {
	switch r.Change {
	case freezing.FewerPacks:
		return fmt.Sprintf("%d of %s instead of %d", r.Count, packs[r.Kind].fill.Name, packs[r.Kind].fill.Count)
	case freezing.MoreDays:
		return fmt.Sprintf("%d days of loading, the last pack waiting cold for %s", r.Days, minutes(r.WaitS).Show(unit.Metric))
	case freezing.MoreRoom:
		return "room for " + mass(r.MassKg).Show(p.out.Units) + " more"
	case freezing.ChillFirst:
		return "every pack chilled to 41 °F before it goes in"
	case freezing.Thinner:
		return packs[r.Kind].fill.Name + " lying " + p.atMostDeep(r.ThicknessM).Show(p.out.Units) + " thick"
	}
	return fmt.Sprintf("machines of %.1f times the power", r.Factor)
}

func (p *planner) judgeFreeze(err error) {
	fr, s := p.out.Freeze, p.out.Freeze.Schedule
	figures := []finding.Figure{p.massFigure("this run", fr.Load.Kg()), p.massFigure("a day by heat alone", fr.PerDay.Kg()), p.massFigure("a day by the household rule, at most", fr.RuleHigh.Kg()), p.massFigure("room", fr.Room.Kg())}
	f := finding.Finding{Where: "the freezers", Path: "freezers", Figures: figures, Source: householdRule}
	switch {
	case errors.Is(err, errNoFreezer):
		f.Code, f.Severity, f.Message, f.Fix, f.Figures = CodeNoFreezer, finding.Stop, err.Error(), "write the freezers into the book", nil
	case fr.Load > fr.Room:
		f.Code, f.Severity, f.Message = CodeFreezerFull, finding.Stop, "the packs do not fit into the freezers"
		f.Fix = fmt.Sprintf("make room for %s more, or pack less", (fr.Load - fr.Room).Show(p.out.Units))
	case err != nil:
		f.Code, f.Severity, f.Message, f.Fix = CodeFreezeUnknown, finding.Caution, "how the freezers cope cannot be computed: "+err.Error(), "check air, cooling, film and the packs' thickness"
	case s.Left > 0:
		f.Code, f.Severity, f.Message = CodeFreezerSlow, finding.Stop, fmt.Sprintf("%d packs (%s) cannot be frozen within %d days without warming the old stock too far", s.Left, s.LeftMass.Show(p.out.Units), freezeDays)
		f.Fix = "pack less, freeze thinner bags, or use a stronger freezer"
		if len(s.Remedies) > 0 {
			f.Fix = "what would do, each by itself: " + s.Remedies[0]
			for _, r := range s.Remedies[1:] {
				f.Fix += "; or " + r
			}
		}
	case s.Days > 1:
		f.Code, f.Severity, f.Message = CodeFreezerSlow, finding.Caution, fmt.Sprintf("the freezers cannot take it in a day: it takes %d, and what waits must stay at 41 °F or below", s.Days)
		f.Fix = "follow the loading schedule; how long cooked food may wait under vacuum is ruled by your local code"
	case fr.Load > fr.RuleHigh:
		f.Code, f.Severity, f.Message = CodeFreezerRule, finding.Caution, fmt.Sprintf("as simulated the freezers manage in a day, but it is %.2f times what the household rule allows", float64(fr.Load)/float64(fr.RuleHigh))
		f.Fix = "lay the bags apart against cold surfaces, set the freezers colder a day ahead, or freeze it over two days; log the core of one bag"
	default:
		return
	}
	p.find(f)
}
