package app

import (
	"context"
	"fmt"
	"path"
	"slices"
	"strings"

	"kettlefrost/internal/coldstore"
	"kettlefrost/internal/critical"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/record"
)

// lotOf is what the records know of a lot of packs.
func (x *Labels) lotOf(ctx context.Context, book kitchen.Book, id record.Lot) (lot lotToLabel, err error) {
	if x.records == nil {
		return lot, &coldstore.Refusal{Field: "lot", Problem: "no records are kept here, so no lot is known", Fix: "start with --records FILE"}
	}
	err = x.records.Lots(ctx, func(state *lots.State, _ finding.List) error {
		l := state.Lot(id)
		switch {
		case l == nil:
			return &coldstore.Refusal{Field: "lot", Problem: fmt.Sprintf("no entry names a lot %q", id), Fix: "choose a lot that was packed"}
		case l.Sort != lots.Packs:
			return &coldstore.Refusal{Field: "lot", Problem: fmt.Sprintf("lot %s is no lot of packs", id), Fix: "choose a lot that was packed"}
		}
		lot = lotToLabel{pack: kitchen.PackID(l.What), run: l.Run, packed: x.records.dayOf(l.Born), bestBefore: l.BestBefore, numbers: l.Numbers}
		in := wentInto(book, state, l)
		lot.instead, lot.found = in.instead(book), in.strangers(book, string(id))
		for _, h := range l.Holds {
			if forItsLabel(h) {
				lot.found = append(lot.found, toBeLookedAt(id))
			} else {
				lot.held = append(lot.held, labelHold(h))
			}
		}
		return nil
	})
	return lot, err
}

func labelHold(h lots.Hold) LabelHold {
	out := LabelHold{Numbers: h.Numbers.String(), Why: h.Why, Who: h.Who, Since: h.Since, Decides: "an owner decides, at the lot"}
	if len(h.Points) > 0 {
		out.Who, out.Decides = "its critical records", "it ends when the missing records are entered, at Safety, or when an owner decides, at the lot"
	}
	return out
}

// CodeLabelLook is a lot that stays on hold until somebody has looked at its label.
const CodeLabelLook = "label-to-be-looked-at"

// forItsLabel says whether a lot is held for nothing but that nobody has looked at its label: it must be printed for that.
func forItsLabel(h lots.Hold) bool {
	return len(h.Points) > 0 && !slices.ContainsFunc(h.Points, func(point string) bool {
		record, _, _ := strings.Cut(point, "=")
		return path.Base(record) != string(critical.Label)
	})
}

func toBeLookedAt(lot record.Lot) finding.Finding {
	return finding.Finding{Code: CodeLabelLook, Severity: finding.Note, Where: "lot " + string(lot), Message: "its packs stay on hold until somebody signs that the label on them was looked at", Fix: "print it, hold it against the packs, and sign at Safety"}
}
