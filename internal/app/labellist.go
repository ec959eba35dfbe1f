package app

import (
	"cmp"
	"context"
	"maps"
	"reflect"
	"slices"
	"time"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/labelrule"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/packlabel"
	"kettlefrost/internal/record"
)

// LabelsSchema names the shape of a LabelList.
const LabelsSchema = "kettlefrost.labels/1"

// LabelList is how the labels of all packs stand, the gravest first.
type LabelList struct {
	Schema  string         `json:"schema"`
	Packs   []LabelState   `json:"packs"`
	Changed []LabelChanged `json:"changed"` // lots in stock whose labels a change in the book touches, those with allergens first
	Judged  bool           `json:"judged"`  // the book's earlier versions are kept, so that such lots can be told
	Says    string         `json:"says"`
}

// LabelState is how the label of one pack stands, as its dish is written.
type LabelState struct {
	Pack     string       `json:"pack"`
	Name     string       `json:"name"`
	Dish     string       `json:"dish"`
	Prints   bool         `json:"prints"`
	Worst    string       `json:"worst"` // stop, caution, note, or "" for nothing open
	Stops    int          `json:"stops"`
	Sides    int          `json:"labels_per_pack"`
	Language string       `json:"language"`
	Stock    string       `json:"stock"`
	Open     finding.List `json:"open"`
	Lots     []LabelLot   `json:"lots"` // packed and on hand, or without as many labels as packs; the last first
}

// LabelLot is a lot with its labels.
type LabelLot struct {
	Lot        record.Lot  `json:"lot"`
	Packed     record.Day  `json:"packed"`
	BestBefore record.Day  `json:"best_before"`
	OnHand     int64       `json:"on_hand"`
	Net        string      `json:"net"`
	Count      LabelCount  `json:"count"`
	Held       []LabelHold `json:"holds"`
}

// LabelChanged is a lot that carries labels which the book would no longer print.
type LabelChanged struct {
	Pack    string        `json:"pack"`
	Name    string        `json:"name"`
	Lot     record.Lot    `json:"lot"`
	OnHand  int64         `json:"on_hand"`
	Labels  int64         `json:"labels"` // that were printed, less those replaced
	Gone    bool          `json:"gone"`   // the pack is no longer in the book
	Worst   string        `json:"worst"`
	Changes []LabelChange `json:"changes"` // the gravest first
}

// LabelChange is what a label said and what it would say today.
type LabelChange struct {
	What     string `json:"what"`
	Was      string `json:"was"`
	Is       string `json:"is"`
	Severity string `json:"severity"`
}

// listedLabels are the labels of all packs of a book, kept for as long as it says the same.
type listedLabels struct {
	book  kitchen.Book
	small labelrule.Business
	made  bool
	all   []LabelState
}

// oldLots is from how many days after packing on a lot that is gone is no longer listed, whatever its labels.
const oldLots = 14

// List is how the labels of all packs stand, for a business of which something is known or nothing. Errors are *store.Error.
func (x *Labels) List(ctx context.Context, book kitchen.Book, small labelrule.Business) (LabelList, error) {
	v := LabelList{Schema: LabelsSchema, Packs: []LabelState{}, Changed: []LabelChanged{}}
	for _, s := range x.states(unstocked(book), small) {
		s.Lots = []LabelLot{}
		v.Packs = append(v.Packs, s)
	}
	if x.records == nil {
		v.Says = "No records are kept here, so no lot can be labelled: there are drafts alone."
		return v, nil
	}
	var there []labelledLot
	err := x.records.Labelled(ctx, func(p *LabelsPrinted, state *lots.State, _ finding.List) error {
		since := x.records.dayOf(record.Instant(x.house.Now().AddDate(0, 0, -oldLots).UnixMilli()))
		for l := range state.All() {
			if l.Sort != lots.Packs {
				continue
			}
			one := x.lotWithLabels(p, l)
			if i := slices.IndexFunc(v.Packs, func(s LabelState) bool { return s.Pack == l.What }); i >= 0 && (one.OnHand > 0 || one.Count.Difference != 0 && one.Packed >= since) {
				v.Packs[i].Lots = append(v.Packs[i].Lots, one)
			}
			if one.OnHand > 0 && one.Count.Standing > 0 {
				there = append(there, labelledLot{one, l.What, lastPrinted(p.Of(l.ID)), wentInto(book, state, l).instead(book)})
			}
		}
		return nil
	})
	if err != nil {
		return v, err
	}
	for i := range v.Packs {
		slices.SortStableFunc(v.Packs[i].Lots, func(a, b LabelLot) int { return cmp.Or(cmp.Compare(b.Packed, a.Packed), cmp.Compare(b.Lot, a.Lot)) })
	}
	return x.withChanged(ctx, book, v, there)
}

func (x *Labels) lotWithLabels(p *LabelsPrinted, l *lots.Lot) LabelLot {
	one := LabelLot{Lot: l.ID, Packed: x.records.dayOf(l.Born), BestBefore: l.BestBefore, OnHand: l.OnHand().Numbers.Count(), Net: l.Label.String(), Count: p.Count(l.ID, l.Numbers.Count()), Held: []LabelHold{}}
	for _, h := range l.Holds {
		if forItsLabel(h) {
			continue
		}
		one.Held = append(one.Held, labelHold(h))
	}
	return one
}

// lastPrinted is the number of the entry by which labels were printed last.
func lastPrinted(all []LabelPrint) (seq uint64) {
	for _, p := range all {
		seq = max(seq, p.Seq)
	}
	return seq
}

// states are the labels of all packs as their dishes are written, the gravest first.
func (x *Labels) states(book kitchen.Book, small labelrule.Business) []LabelState {
	x.mu.Lock()
	defer x.mu.Unlock()
	if x.listed.made && x.listed.small == small && reflect.DeepEqual(x.listed.book, book) {
		return slices.Clone(x.listed.all)
	}
	place, all := x.placer(), []LabelState{}
	for _, id := range slices.Sorted(maps.Keys(book.Packs)) {
		all = append(all, x.state(packlabel.Asked{Book: book, Foods: x.house.Foods(), Pack: id, Business: small, Lot: packlabel.Lot{Code: draftCode, Packed: x.house.Now().Format(time.DateOnly)}}, place))
	}
	slices.SortStableFunc(all, func(a, b LabelState) int { return cmp.Compare(b.rank(), a.rank()) })
	x.listed = listedLabels{book, small, true, all}
	return slices.Clone(all)
}

func (x *Labels) state(asked packlabel.Asked, place func(finding.List) finding.List) LabelState {
	id, book := asked.Pack, asked.Book
	s := LabelState{Pack: string(id), Name: book.Packs[id].Name, Dish: string(book.Packs[id].Dish), Open: finding.List{}}
	l, err := packlabel.Of(asked)
	if err != nil {
		s.Open = append(s.Open, finding.Finding{Code: "label-not-made", Severity: finding.Stop, Where: "pack " + string(id), Path: "packs." + string(id), Message: "its label cannot be made: " + err.Error(), Fix: "correct the dish; kettlefrost check says what is wrong"})
	} else {
		s.Prints, s.Sides, s.Language, s.Stock = !l.Withheld(), len(l.Sides), string(l.Language), l.Stock.Name
		s.Open = allergensFirst(append(s.Open, place(l.Open)...))
	}
	for _, f := range s.Open {
		if f.Severity == finding.Stop {
			s.Stops++
		}
	}
	if worst := s.Open.Worst(); worst > 0 {
		s.Worst = worst.String()
	}
	return s
}

// allergensFirst puts open questions about allergens before all others that are as grave.
func allergensFirst(all finding.List) finding.List {
	slices.SortStableFunc(all, func(a, b finding.Finding) int {
		return cmp.Or(cmp.Compare(b.Severity, a.Severity), cmp.Compare(allergenRank(b), allergenRank(a)))
	})
	return all
}

func allergenRank(f finding.Finding) int {
	switch f.Code {
	case packlabel.CodeAllergens, CodeLabelStranger:
		return 1
	}
	return 0
}

// rank puts a label with an open question about allergens before others that stop, and those before cautions.
func (s LabelState) rank() int {
	worst := int(s.Open.Worst()) * 10
	if slices.ContainsFunc(s.Open, func(f finding.Finding) bool { return f.Severity == finding.Stop && allergenRank(f) > 0 }) {
		worst += 5
	}
	return worst
}

// placer puts findings where the files of the book have them.
func (x *Labels) placer() func(finding.List) finding.List {
	if a := x.app(); a != nil {
		return bookfile.Read(snapshot(a.files())).Place
	}
	return func(found finding.List) finding.List { return found }
}

// app is the App that the house is, or is built on; nil where it is another.
func (x *Labels) app() *App {
	if built, is := x.house.(interface{ itself() *App }); is {
		return built.itself()
	}
	return nil
}

func (a *App) itself() *App { return a }
