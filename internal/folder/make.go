package folder

import (
	"cmp"
	"slices"

	"kettlefrost/internal/coldwatch"
	"kettlefrost/internal/critical"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodcode"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/thermometers"
	"kettlefrost/internal/unit"
)

// Material is what a folder is made of: what was entered, and what others say of it. What is lent by others is not changed.
type Material struct {
	Asked, About string
	AsOf         record.Instant
	Kitchen      Kitchen
	Reach        Reach
	State        *lots.State
	Fits         finding.List // what does not fit about the lots
	Rules        []foodcode.Held
	Judged       []critical.Verdict // of the runs and goods, and maybe of others
	NotJudged    []Missing          // runs that are not judged, and why
	Bench        thermometers.Bench
	Watched      func(record.Place) bool // a thermometer of the book watches it, or a part of it
	Cold         []ColdLog               // of the places that the lots lay in, over their life there
	Answered     func(coldwatch.Seen, coldwatch.Stretch) bool
	Says         func(record.Body) string // an entry in words
	Clock        func(record.Instant) string
	Day          func(record.Instant) record.Day
}

// Make puts a folder together. Errors are *tables.CellError.
func Make(m Material) (Contents, error) {
	c := Contents{Schema: Schema, About: m.About, Asked: m.Asked, AsOf: m.AsOf, Kitchen: m.Kitchen, Flows: m.Reach.Flows}
	c.Lots = m.lots()
	c.Rules = m.rules()
	c.Plans = m.plans()
	c.Records = m.records()
	c.Actions = m.actions()
	c.Holds = m.holds()
	c.Thermometers = m.thermometers()
	c.Cold = m.cold()
	c.Corrections = m.corrections()
	c.Signatures = m.signatures()
	c.Entries = m.entries()
	c.Missing = m.missing(&c)
	var err error
	c.csv, err = c.readings()
	return c.whole(), err
}

// whole has a list, if an empty one, wherever there is none.
func (c Contents) whole() Contents {
	full(&c.Missing)
	full(&c.Lots)
	full(&c.Flows)
	full(&c.Rules)
	full(&c.Plans)
	full(&c.Records)
	full(&c.Actions)
	full(&c.Holds)
	full(&c.Thermometers)
	full(&c.Cold)
	full(&c.Corrections)
	full(&c.Signatures)
	full(&c.Entries)
	return c
}

func full[T any](list *[]T) {
	if *list == nil {
		*list = []T{}
	}
}

// of are the entries of a kind of body that stand, as they happened.
func of[B record.Body](m Material, at func(record.Entry, B)) {
	type told struct {
		e    record.Entry
		says B
	}
	var all []told
	for _, g := range m.Reach.Groups {
		if says, is := g.Says.(B); is && g.Holds != nil {
			all = append(all, told{*g.Holds, says})
		}
	}
	slices.SortFunc(all, func(a, b told) int { return record.Compare(a.e, b.e) })
	for _, t := range all {
		at(t.e, t.says)
	}
}

func (m Material) rules() (rules []Rule) {
	for _, h := range m.Rules {
		r := Rule{ID: h.ID, Topic: string(h.Topic), Food: h.Food, Limit: h.Words(), Source: h.Source, Laxer: h.Laxer, Confirm: h.Confirm}
		if h.Was != nil {
			r.Changed = cmp.Or(h.Reason, "no reason was written down")
		}
		rules = append(rules, r)
	}
	return rules
}

func (m Material) actions() (actions []Action) {
	of(m, func(e record.Entry, b record.Acted) {
		a := Action{Entry: e.ID, At: e.Happened, Who: e.Who, Where: where(b), Code: b.Code, Did: string(b.Did), Text: string(b.Text)}
		if b.Temp != nil {
			c := b.Temp.C()
			a.TempC = &c
		}
		actions = append(actions, a)
	})
	return actions
}

func where(b record.Acted) string {
	if b.Task != "" {
		return b.Run + "/" + b.Task
	}
	return cmp.Or(string(b.Lot), string(b.Place))
}

func (m Material) holds() (holds []Hold) {
	add := func(h Hold) { holds = append(holds, h) }
	of(m, func(e record.Entry, b record.Held) {
		add(Hold{Entry: e.ID, At: e.Happened, Who: e.Who, Lot: b.Lot, Numbers: b.Numbers.String(), Why: b.Why, Standing: m.stands(b.Lot, e.Happened, b.Why)})
	})
	of(m, func(e record.Entry, b record.Released) {
		add(Hold{Entry: e.ID, At: e.Happened, Who: e.Who, Lot: b.Lot, Numbers: b.Numbers.String(), Decided: string(b.Disposition), Points: b.Points, Why: b.Why})
	})
	for _, id := range m.Reach.Asked {
		l := m.State.Lot(id)
		if l == nil {
			continue
		}
		for _, h := range l.Holds {
			if len(h.Points) > 0 {
				add(Hold{At: h.Since, Who: h.Who, Lot: id, Numbers: h.Numbers.String(), Points: h.Points, Decided: string(h.Decided), Why: h.Why, Standing: true})
			}
		}
	}
	slices.SortStableFunc(holds, func(a, b Hold) int { return cmp.Or(cmp.Compare(a.Lot, b.Lot), cmp.Compare(a.At, b.At)) })
	return holds
}

// stands says whether a hold by hand stands still, as a whole or in part.
func (m Material) stands(lot record.Lot, since record.Instant, why string) bool {
	l := m.State.Lot(lot)
	return l != nil && slices.ContainsFunc(l.Holds, func(h lots.Hold) bool { return h.Since == since && h.Why == why })
}

func (m Material) signatures() (all []SignatureRow) {
	of(m, func(e record.Entry, b record.Signed) {
		s := SignatureRow{Entry: e.ID, At: e.Happened, Who: e.Who, As: string(b.As), About: b.About, Text: string(b.Text)}
		if b.Hash != (record.Hash{}) {
			s.Hash = b.Hash.String()
		}
		all = append(all, s)
	})
	return all
}

// entries are all that the folder rests on, corrections among them.
func (m Material) entries() (all []Entry) {
	for _, g := range m.Reach.Groups {
		for _, e := range append([]record.Entry{g.First}, g.Later...) {
			x := Entry{Seq: e.Seq, ID: e.ID, Kind: e.Kind, Happened: e.Happened, Entered: e.Entered, Who: e.Who, Device: e.Device, Hash: e.Hash, Says: "it cannot be read"}
			if body, err := record.Decode(e.Kind, e.Body); err == nil {
				x.Says = m.Says(body)
			}
			x.Standing = g.Holds != nil && e.Kind == g.First.Kind && string(e.Body) == string(g.Holds.Body)
			all = append(all, x)
		}
	}
	slices.SortFunc(all, func(a, b Entry) int { return cmp.Compare(a.Seq, b.Seq) })
	return all
}

func degrees(c float64, units unit.System) string { return coldwatch.Degrees(c, units) }
