package app

import (
	"cmp"
	"context"
	"fmt"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
	"kettlefrost/internal/retained"
)

// followKept keeps up which packs are kept to be tasted.
func followKept(r *Records) *follower[*retained.State] {
	return follow(r, fold[*retained.State]{empty: func() *retained.State { return &retained.State{} }, take: (*retained.State).Take, heeds: retained.Heeds, late: (*retained.State).Commutes})
}

// Kept shows the packs that are kept to be opened and tasted, with the lots. Both are lent: they are not to be changed, nor kept.
func (r *Records) Kept(ctx context.Context, at func(*retained.State, *lots.State, finding.List) error) error {
	if err := r.together(ctx, r.lots); err != nil {
		return err
	}
	return look(ctx, r, r.keeps, func(s *retained.State, found finding.List) error {
		return at(s, r.lots.state, append(found[:len(found):len(found)], s.Misfits()...))
	})
}

func (r *Records) keptOpenings(ctx context.Context, book kitchen.Book, today record.Day) (all []Opening, err error) {
	err = r.Kept(ctx, func(s *retained.State, stock *lots.State, _ finding.List) error {
		for _, o := range s.DueOn(today, stock) {
			all = append(all, Opening{Of: OfKept, Name: string(o.Set.Lot), Says: packsText(o.Which) + " of " + packName(book, o.Set.Pack), Due: o.Day, Packs: o.Packs - o.Gone, Numbers: o.Which, Places: o.Places})
		}
		return nil
	})
	return all, err
}

// packName is what the book calls a pack, or its ID.
func packName(book kitchen.Book, id string) string {
	return cmp.Or(book.Packs[kitchen.PackID(id)].Name, id)
}

// packsText is packs by their numbers: pack 17, packs 1-3.
func packsText(n record.Numbers) string {
	if n.Count() == 1 {
		return "pack " + n.String()
	}
	return fmt.Sprintf("packs %s", n)
}

// RetainedSchema names the shape of a RetainedSheet.
const RetainedSchema = "kettlefrost.retained/1"

// RetainedSheet is every pack that is kept to be tasted and what was found in those that were, as one value. Times are milliseconds since 1970 UTC.
type RetainedSheet struct {
	Schema   string             `json:"schema"`
	Day      record.Day         `json:"day"`
	Due      []retained.Opening `json:"due"`   // on the day or before it
	Ahead    []retained.Opening `json:"ahead"` // after it
	Lost     []retained.Opening `json:"lost"`  // for which no pack is left
	Tasted   []retained.Tasting `json:"tasted"`
	Findings finding.List       `json:"findings"`
}

// Retained is what is kept and what was found, as of a day; of one kind of pack when one is named.
func (r *Records) Retained(ctx context.Context, today record.Day, pack string) (RetainedSheet, error) {
	v := RetainedSheet{Schema: RetainedSchema, Day: today, Due: []retained.Opening{}, Ahead: []retained.Opening{}, Lost: []retained.Opening{}, Tasted: []retained.Tasting{}, Findings: finding.List{}}
	err := r.Kept(ctx, func(s *retained.State, stock *lots.State, found finding.List) error {
		for _, o := range s.Openings(stock) {
			switch {
			case pack != "" && o.Set.Pack != pack:
			case o.Which.Empty():
				v.Lost = append(v.Lost, o)
			case o.Day <= today:
				v.Due = append(v.Due, o)
			default:
				v.Ahead = append(v.Ahead, o)
			}
		}
		v.Tasted = append(v.Tasted, s.Tastings(pack)...)
		v.Findings = append(v.Findings, found...)
		return nil
	})
	return v, err
}
