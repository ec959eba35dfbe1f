package app

import (
	"cmp"
	"context"
	"crypto/sha256"
	"fmt"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/packlabel"
	"kettlefrost/internal/record"
)

// LabelPrint is labels of a lot that were printed at one time.
type LabelPrint struct {
	Entry    record.ID      `json:"entry"`
	Seq      uint64         `json:"seq"`
	At       record.Instant `json:"at_ms"`
	Who      string         `json:"who"`
	Pack     string         `json:"pack"`
	Lot      record.Lot     `json:"lot"`
	Count    int64          `json:"count"`
	Reprint  bool           `json:"reprint"` // in place of labels that were spoilt or lost, or whose time is over
	Why      string         `json:"why,omitempty"`
	Label    record.Hash    `json:"label"` // of what one says and how it looks
	Language string         `json:"language"`
	Stock    string         `json:"stock"`
	Differs  bool           `json:"differs"` // from the label of today
}

// LabelCount is how many labels of a lot there must be.
type LabelCount struct {
	Packs      int64 `json:"packs"`      // of the lot, as they were packed
	Printed    int64 `json:"printed"`    // labels, all
	Replaced   int64 `json:"replaced"`   // of them printed in place of others, which were spoilt or lost
	Standing   int64 `json:"standing"`   // printed less replaced
	Difference int64 `json:"difference"` // standing less packs: below zero so many packs have no label, above it so many labels are too many
}

// LabelsPrinted are the labels that were printed, lot by lot.
type LabelsPrinted struct{ of map[record.Lot][]LabelPrint }

// Of is what was printed of a lot, in the order in which it was.
func (p *LabelsPrinted) Of(lot record.Lot) []LabelPrint { return p.of[lot] }

// Count is how many labels of a lot with so many packs there must be.
func (p *LabelsPrinted) Count(lot record.Lot, packs int64) LabelCount {
	c := LabelCount{Packs: packs}
	for _, x := range p.of[lot] {
		c.Printed += x.Count
		if x.Reprint {
			c.Replaced += x.Count
		}
	}
	c.Standing = c.Printed - c.Replaced
	c.Difference = c.Standing - packs
	return c
}

// take takes an entry in, where its time puts it.
func (p *LabelsPrinted) take(e record.Entry) finding.List {
	body, err := record.Decode(e.Kind, e.Body)
	b, is := body.(record.Labelled)
	if err != nil || !is {
		return finding.List{{Code: "entry-unreadable", Severity: finding.Caution, Where: fmt.Sprintf("entry %d (%s)", e.Seq, e.Kind), Path: "entries." + e.ID.String(), Message: "it cannot be read: its labels are not counted", Fix: "correct the entry"}}
	}
	all := append(p.of[b.Lot], LabelPrint{Entry: e.ID, Seq: e.Seq, At: e.Happened, Who: e.Who, Pack: b.Pack, Lot: b.Lot, Count: b.Count, Reprint: b.Reprint, Why: string(b.Why), Label: b.Label, Language: b.In, Stock: b.Stock})
	slices.SortFunc(all, func(a, b LabelPrint) int { return cmp.Or(cmp.Compare(a.At, b.At), cmp.Compare(a.Seq, b.Seq)) })
	p.of[b.Lot] = all
	return nil
}

func followLabels(r *Records) *follower[*LabelsPrinted] {
	return follow(r, fold[*LabelsPrinted]{empty: func() *LabelsPrinted { return &LabelsPrinted{of: map[record.Lot][]LabelPrint{}} }, take: (*LabelsPrinted).take,
		heeds: func(k record.Kind) bool { return k == record.Labelled{}.Kind() }, late: func(*LabelsPrinted, record.Entry) bool { return true }})
}

// Labelled shows the labels that were printed, with the lots. Both are lent: they are not to be changed, nor kept.
func (r *Records) Labelled(ctx context.Context, at func(*LabelsPrinted, *lots.State, finding.List) error) error {
	if err := r.together(ctx, r.lots); err != nil {
		return err
	}
	return look(ctx, r, r.labels, func(p *LabelsPrinted, found finding.List) error { return at(p, r.lots.state, found) })
}

// labelHash is of what a label says and how it looks.
func labelHash(l packlabel.Label) record.Hash {
	sum := sha256.New()
	fmt.Fprintln(sum, l.Hash)
	for _, side := range l.Sides {
		fmt.Fprintln(sum, side.Laid.Key())
	}
	return record.Hash(sum.Sum(nil))
}
