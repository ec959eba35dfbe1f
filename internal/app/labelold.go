package app

import (
	"cmp"
	"context"
	"fmt"
	"reflect"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/learned"
	"kettlefrost/internal/packlabel"
)

// labelledLot is a lot in stock that carries labels.
type labelledLot struct {
	LabelLot
	pack    string
	seq     uint64 // of the entry by which they were printed
	instead []packlabel.Instead
}

// touchedLabels is what was last found, and for which lots and book.
type touchedLabels struct {
	book  kitchen.Book
	of    string
	touch []LabelChanged
}

// withChanged adds the lots that carry labels of an earlier book. A book in a folder keeps no versions: then that is said.
func (x *Labels) withChanged(ctx context.Context, book kitchen.Book, v LabelList, there []labelledLot) (LabelList, error) {
	house := x.app()
	if v.Judged = house != nil && house.InRecords(); !v.Judged {
		v.Says = "The book is a folder, which keeps no earlier versions: after a change look at each lot yourself. A book in the records tells which lots carry old labels."
		return v, nil
	}
	now := unstocked(book)
	x.mu.Lock()
	last := x.past
	x.mu.Unlock()
	key := ""
	for _, lot := range there {
		key += fmt.Sprintln(lot.Lot, lot.seq, lot.instead)
	}
	if last.of != key || !reflect.DeepEqual(last.book, now) {
		touch, err := x.touched(ctx, house, now, there)
		if err != nil {
			return v, err
		}
		last = touchedLabels{now, key, touch}
		x.mu.Lock()
		x.past = last
		x.mu.Unlock()
	}
	for _, c := range last.touch {
		i := slices.IndexFunc(there, func(lot labelledLot) bool { return lot.Lot == c.Lot })
		c.OnHand, c.Labels = there[i].OnHand, there[i].Count.Standing
		v.Changed = append(v.Changed, c)
	}
	return v, nil
}

func (x *Labels) touched(ctx context.Context, house *App, now kitchen.Book, there []labelledLot) ([]LabelChanged, error) {
	past, err := (&Learning{house: house, records: x.records}).books(ctx, now, nil, &learned.Told{})
	if err != nil {
		return nil, err
	}
	var all []LabelChanged
	for _, lot := range there {
		before, known := past.at(lot.seq)
		if !known || reflect.DeepEqual(before, now) {
			continue
		}
		one := before
		one.Packs = map[kitchen.PackID]kitchen.Pack{kitchen.PackID(lot.pack): before.Packs[kitchen.PackID(lot.pack)]}
		if _, had := before.Packs[kitchen.PackID(lot.pack)]; !had {
			continue
		}
		for _, t := range packlabel.Touched(one, now, x.house.Foods(), []packlabel.Made{{Code: string(lot.Lot), Pack: kitchen.PackID(lot.pack), Instead: lot.instead}}) {
			if slices.Contains(t.Lots, string(lot.Lot)) {
				all = append(all, changedOf(now, lot, t))
			}
		}
	}
	slices.SortStableFunc(all, func(a, b LabelChanged) int { return cmp.Compare(worstRank[b.Worst], worstRank[a.Worst]) })
	return all, nil
}

var worstRank = map[string]int{"stop": 3, "caution": 2, "note": 1}

func changedOf(book kitchen.Book, lot labelledLot, t packlabel.Touch) LabelChanged {
	c := LabelChanged{Pack: lot.pack, Name: packName(book, lot.pack), Lot: lot.Lot, Gone: t.Gone, Worst: finding.Note.String(), Changes: []LabelChange{}}
	worst := finding.Note
	for _, x := range t.Changes {
		worst = max(worst, x.Severity)
		c.Changes = append(c.Changes, LabelChange{x.What, x.Was, x.Is, x.Severity.String()})
	}
	if t.Gone {
		worst = max(worst, finding.Caution)
	}
	c.Worst = worst.String()
	return c
}

// Says is a change in a line.
func (c LabelChange) Says() string {
	return fmt.Sprintf("%s: was %s; is %s", c.What, orNothing(c.Was), orNothing(c.Is))
}

func orNothing(text string) string {
	if strings.TrimSpace(text) == "" {
		return "nothing"
	}
	return text
}
