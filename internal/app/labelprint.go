package app

import (
	"context"
	"fmt"
	"slices"
	"time"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/draw"
	"kettlefrost/internal/labelmaker"
	"kettlefrost/internal/record"
)

// LabelStop says why a label may not be printed.
type LabelStop struct{ Problem, Fix string }

// Error is one line.
func (e *LabelStop) Error() string { return e.Problem + ": " + e.Fix }

// Stops is why a label may not be printed at all; nil when it may.
func (m *LabelMade) Stops() *LabelStop {
	switch {
	case m.Draft():
		return &LabelStop{"this is a draft, and a draft is never printed", "choose a lot that was packed"}
	case len(m.Held) > 0:
		h := m.Held[0]
		of := "lot " + string(m.Ask.Lot)
		if h.Numbers != "" {
			of = "packs " + h.Numbers + " of " + of
		}
		return &LabelStop{fmt.Sprintf("%s is on hold by %s: %s", of, h.Who, h.Why), h.Decides}
	case m.Withheld():
		worst := append(slices.Clone(m.Found), m.Label.Open...)
		worst.Sort()
		return &LabelStop{"the label is withheld: " + worst[0].Where + ": " + worst[0].Message, worst[0].Fix}
	}
	return nil
}

// LabelJob is labels to be printed, as somebody asked for them.
type LabelJob struct {
	Count int64
	Why   string // what is printed in place of others, or beyond the packs
}

// mostLabelsAtOnce is more than a kitchen fills of a lot.
const mostLabelsAtOnce = 5000

// Print is what is entered when labels are printed. So many as packs have none yet need no reason; what goes beyond is a reprint, with its reason, and
// an entry of its own. Errors are *LabelStop and *coldstore.Refusal.
func (m *LabelMade) Print(job LabelJob, c LabelCount) ([]record.Body, error) {
	if stop := m.Stops(); stop != nil {
		return nil, stop
	}
	if job.Count < 1 || job.Count > mostLabelsAtOnce {
		return nil, &coldstore.Refusal{Field: "count", Problem: fmt.Sprintf("%d labels cannot be printed", job.Count), Fix: fmt.Sprintf("give 1 to %d", mostLabelsAtOnce)}
	}
	first := min(job.Count, max(0, -c.Difference))
	body := record.Labelled{Run: m.Of, Pack: string(m.Ask.Pack), Lot: m.Ask.Lot, Count: first, Label: labelHash(m.Label), In: string(m.Label.Language), Stock: m.Label.Stock.Name}
	var all []record.Body
	if first > 0 {
		all = append(all, body)
	}
	again := job.Count - first
	if again == 0 {
		return all, nil
	}
	if job.Why == "" {
		return nil, &coldstore.Refusal{Field: "why", Problem: fmt.Sprintf("%d packs have no label yet, and %d are to be printed", max(0, -c.Difference), job.Count), Fix: fmt.Sprintf("say why %d are printed again: torn, lost, misprinted; or print fewer", again)}
	}
	body.Count, body.Reprint, body.Why = again, true, record.Text(job.Why)
	return append(all, body), nil
}

// Onto is where on the first sheet labels are printed.
type Onto struct {
	Start int   // the first place; 0 is 1
	Skip  []int // places that are used up or spoilt
}

// Pictures are the sides of a label to be looked at. Below a draft stands that it is one.
func (m *LabelMade) Pictures() []draw.Picture {
	var all []draw.Picture
	for i, side := range m.Label.Sides {
		p := side.Laid.Picture()
		p.Title = fmt.Sprintf("label of %s, %d of %d", m.Label.Name, i+1, len(m.Label.Sides))
		if m.Draft() {
			p = draft(p)
		}
		all = append(all, p)
	}
	return all
}

const draftSays = "DRAFT: not for any pack"

// Heights in points of what stands below a draft.
const (
	draftBand = 26.0
	draftType = 16.0
)

func draft(p draw.Picture) draw.Picture {
	below := p
	below.Height += draftBand
	below.Title, below.Desc = "draft, never printed: "+p.Title, draftSays+". "+p.Desc
	below.Draw = func(c draw.Canvas) {
		p.Draw(c)
		c.Rect(draw.Box{X: 0, Y: p.Height, W: p.Width, H: 2}, draw.Style{Fill: draw.Ink})
		c.Text(draw.Point{X: 6, Y: p.Height + draftBand - 7}, draftSays, draw.Type{Size: min(draftType, p.Width/12), Bold: true, Tone: draw.Ink})
	}
	return below
}

// Sheets is so many labels as a job for the printer. Each pack gets all sides of its label. The error is a *LabelStop or *coldstore.Refusal.
func (m *LabelMade) Sheets(count int64, onto Onto, madeMs int64) (labelmaker.Job, error) {
	if stop := m.Stops(); stop != nil {
		return labelmaker.Job{}, stop
	}
	j := labelmaker.Job{Title: fmt.Sprintf("%s, lot %s", m.Label.Name, m.Ask.Lot), Stock: m.Label.Stock, Start: onto.Start, Skip: onto.Skip, MadeMs: madeMs}
	for range count {
		for _, side := range m.Label.Sides {
			j.Labels = append(j.Labels, side.Laid)
		}
	}
	return j, onto.check(j.Stock)
}

// check says what of it the sheet does not have.
func (o Onto) check(s labelmaker.Stock) error {
	places := s.Per()
	fix := fmt.Sprintf("a sheet of %s has places 1 to %d, row by row", s.Name, places)
	if places == 1 {
		fix = "these are on a roll: leave it empty"
	}
	if o.Start < 0 || o.Start > places {
		return &coldstore.Refusal{Field: "start", Problem: fmt.Sprintf("there is no place %d", o.Start), Fix: fix}
	}
	for _, k := range o.Skip {
		if k < 1 || k > places {
			return &coldstore.Refusal{Field: "skip", Problem: fmt.Sprintf("there is no place %d", k), Fix: fix}
		}
	}
	return nil
}

// printWithin is for how long labels that were entered may be fetched for the printer.
const printWithin = time.Hour

// Printed is the job of labels that were entered as printed: n entries under an ID. The label must still be the one that was entered. Errors are as of
// Make and Sheets.
func (x *Labels) Printed(ctx context.Context, m *LabelMade, first record.ID, n int, onto Onto) (labelmaker.Job, error) {
	var count int64
	for i := range n {
		e, there, err := x.records.Entry(ctx, PartID(first, i))
		if err != nil {
			return labelmaker.Job{}, err
		}
		body, _ := record.Decode(e.Kind, e.Body)
		b, is := body.(record.Labelled)
		if !there || !is || b.Lot != m.Ask.Lot {
			return labelmaker.Job{}, &LabelStop{"there is no such entry of labels of this lot, or it was taken back", "enter the labels and print them from there"}
		}
		if since := x.house.Now().Sub(time.UnixMilli(int64(e.Entered))); since > printWithin {
			return labelmaker.Job{}, &LabelStop{"these labels were entered more than an hour ago", "to print more is a reprint: enter how many and why, so that none goes missing unseen"}
		}
		if b.Label != labelHash(m.Label) {
			return labelmaker.Job{}, &LabelStop{"the label is no longer the one that was entered: the book was changed since", "take the entry back and enter the labels again"}
		}
		count += b.Count
	}
	return m.Sheets(count, onto, int64(x.house.Now().UnixMilli()))
}
