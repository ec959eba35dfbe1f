package app

import (
	"context"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/orders"
	"kettlefrost/internal/record"
	"kettlefrost/internal/retained"
	"kettlefrost/internal/unit"
)

// KeepAsk is packs that somebody wants to keep for tasting, as typed.
type KeepAsk struct {
	Code  string // of the lot, or of packs
	Which string // next 3, or numbers; not needed when the code has some
	Open  string // when: weeks after packing (4, 8, 13) or days (2027-01-05)
	Place string // where they are put; "" leaves them where they are
	Why   string
}

// refusal is a typed value that cannot be used, beside its field.
func refusal(field, problem, fix string) error {
	return &coldstore.Refusal{Field: field, Problem: problem, Fix: fix}
}

// KeepForTasting is what to enter when packs are kept to be opened and tasted. Errors are *coldstore.Refusal.
func (r *Records) KeepForTasting(ctx context.Context, a KeepAsk, today record.Day) (body record.SetAside, err error) {
	err = r.Desk(ctx, today, func(d Desk) error {
		l, n, err := coldstore.Ask{Code: a.Code, Which: a.Which}.Packs(d.Stock)
		if err != nil {
			return err
		}
		if err := d.free(l, n); err != nil {
			return err
		}
		if kept := l.Kept(n); !kept.Empty() {
			return refusal("which", packsText(kept)+" of "+string(l.ID)+" is kept already", "choose others")
		}
		days, err := OpeningDays(a.Open, r.dayOf(l.Born), today)
		if err != nil {
			return err
		}
		body = record.SetAside{Run: l.Run, Pack: l.What, Lot: l.ID, Numbers: n, Open: days, Place: record.Place(a.Place), Why: record.Text(a.Why)}
		return nil
	})
	return body, err
}

// free refuses packs that are set aside for an order.
func (d Desk) free(l *lots.Lot, n record.Numbers) error {
	for _, o := range d.Live(d.Today, orders.Plus(d.Today, Horizon)) {
		for _, p := range o.Aside {
			if both := p.Numbers.Intersect(n); p.Lot == l.ID && !both.Empty() {
				return refusal("which", packsText(both)+" of "+string(l.ID)+" is set aside for order "+o.ID, "choose others, or take it out of the box of the order first")
			}
		}
	}
	return nil
}

// mostOpenings is more days than anybody opens packs of one lot on.
const mostOpenings = 52

// OpeningDays reads when packs are to be opened: weeks after they were packed, or days, with commas between them. None may be before today. Errors
// are *coldstore.Refusal.
func OpeningDays(text string, packed, today record.Day) ([]record.Day, error) {
	const how = "write weeks after packing, such as 4, 8, 13, or days, such as 2027-01-05"
	var days []record.Day
	for part := range strings.FieldsFuncSeq(text, func(r rune) bool { return strings.ContainsRune(",; \t\n", r) }) {
		day := record.Day(part)
		if weeks, err := strconv.Atoi(part); err == nil && weeks >= 0 && weeks <= 520 {
			day = orders.Plus(packed, 7*weeks)
		} else if orders.Plus(orders.Plus(day, 1), -1) != day || orders.Plus(day, 1) == day {
			return nil, refusal("open", fmt.Sprintf("%.20q is neither a number of weeks nor a day", part), how)
		}
		if day < today {
			return nil, refusal("open", fmt.Sprintf("%s is over: %s", part, day), "leave it out")
		}
		days = append(days, day)
	}
	slices.Sort(days)
	days = slices.Compact(days)
	switch {
	case len(days) == 0:
		return nil, refusal("open", "it is not said when they are to be opened", how)
	case len(days) > mostOpenings:
		return nil, refusal("open", fmt.Sprintf("those are %d days", len(days)), "choose fewer")
	}
	return days, nil
}

// TasteAsk is what was found in a pack that was opened, as typed.
type TasteAsk struct {
	Code, Which string // of the pack, or of several that were opened together
	Whole       string // what it weighed before, net
	Drip        string // what ran out; grams when nothing else is said
	Separation  string // how much of it has separated, in percent
	Scores      []TypedScore
	Verdict     string
	Note        string
	Units       unit.System
}

// TypedScore is points for one figure, as typed: from 0, the worst, to 10.
type TypedScore struct{ Figure, Points string }

// Taste is what to enter of packs that were opened and tasted. Errors are *coldstore.Refusal.
func (r *Records) Taste(ctx context.Context, a TasteAsk, today record.Day) (body record.Tasted, err error) {
	err = r.Desk(ctx, today, func(d Desk) error {
		l, n, err := coldstore.Ask{Code: a.Code, Which: a.Which}.Packs(d.Stock)
		if err != nil {
			return err
		}
		if err := d.free(l, n); err != nil {
			return err
		}
		body = record.Tasted{Lot: l.ID, Numbers: n, Pack: l.What, Verdict: record.Verdict(a.Verdict), Note: record.Text(a.Note)}
		return a.read(&body)
	})
	return body, err
}

// read reads what was measured and scored.
func (a TasteAsk) read(b *record.Tasted) error {
	if !slices.Contains([]record.Verdict{record.StillGood, record.Fading, record.Bad}, b.Verdict) {
		return refusal("verdict", "it is not said how it has kept", "choose good, fading or bad")
	}
	usual := map[unit.System]string{unit.US: " lb", unit.Metric: " kg"}[a.Units]
	var err error
	if a.Whole != "" {
		if b.Whole, err = unit.ParseMass(bare(a.Whole, usual)); err != nil || b.Whole <= 0 {
			return refusal("whole", fmt.Sprintf("%.20q is no weight", a.Whole), "write it with its unit: 457 g, 1 lb 2 oz")
		}
	}
	if a.Drip != "" {
		drip, err := unit.ParseMass(bare(a.Drip, " g"))
		switch {
		case err != nil || drip < 0:
			return refusal("drip", fmt.Sprintf("%.20q is no weight", a.Drip), "write grams: 12.5")
		case b.Whole == 0:
			return refusal("whole", "what ran out is weighed, and the pack is not", "write what the pack weighed, or leave what ran out empty")
		case drip > b.Whole:
			return refusal("drip", fmt.Sprintf("%s ran out of a pack of %s", drip, b.Whole), "weigh again")
		}
		x := record.Decimal(drip / (unit.Gram / 1000))
		b.Drip = &x
	}
	if a.Separation != "" {
		share, err := unit.ParseShare(bare(a.Separation, " %"))
		if err != nil || share < 0 || share > 100*unit.PerCent {
			return refusal("separation", fmt.Sprintf("%.20q is no part of a pack", a.Separation), "write percent, from 0 to 100")
		}
		b.Separation = &share
	}
	for _, s := range a.Scores {
		if s.Points == "" {
			continue
		}
		p, err := strconv.ParseFloat(strings.ReplaceAll(s.Points, ",", "."), 64)
		if err != nil || !(p >= 0 && p <= 10) {
			return refusal("score-"+s.Figure, fmt.Sprintf("%.20q is no score", s.Points), "write points from 0, the worst, to 10")
		}
		b.Scores = append(b.Scores, record.Score{Figure: s.Figure, Points: record.Decimal(p*1000 + 0.5)})
	}
	return nil
}

// bare puts a unit behind a number that has none.
func bare(text, suffix string) string {
	text = strings.TrimSpace(text)
	if strings.Trim(text, "0123456789.,") == "" {
		return strings.ReplaceAll(text, ",", ".") + suffix
	}
	return text
}

// GiveBack is what to enter, in place of the entry that kept them, when packs of a set that were not opened go back into the stock and may be sold.
// Errors are *coldstore.Refusal.
func (r *Records) GiveBack(ctx context.Context, set record.ID, why string) (said Said, err error) {
	err = r.Kept(ctx, func(s *retained.State, stock *lots.State, _ finding.List) error {
		i := slices.IndexFunc(s.Sets(), func(x retained.Set) bool { return x.Entry == set })
		if i < 0 {
			return refusal("set", "no such packs are kept any more", "load the page again")
		}
		x := s.Sets()[i]
		opened := x.Numbers.Intersect(stock.Lot(x.Lot).Tasted)
		said = Said{Corrects: set, Body: record.Voided{Why: why}}
		if !opened.Empty() {
			said.Body = record.SetAside{Run: x.Run, Pack: x.Pack, Lot: x.Lot, Numbers: opened, Open: x.Open, Why: x.Why}
		}
		return nil
	})
	return said, err
}
