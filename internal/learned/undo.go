package learned

import (
	"slices"

	"kettlefrost/internal/board"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Undo is the book as it was before a proposal was accepted, if it is as it was after that: so the book that a run was opened by can be found
// again where only its hash was kept. Runs are those of the records, for check-weights.
func Undo(b kitchen.Book, x record.Learned, runs map[string]*board.Run) kitchen.Book {
	p, ok := placeOf(x.Figure)
	if !ok || x.Outcome != record.TakenOver {
		return b
	}
	if p.kind == Fills {
		return undoFills(b, p, x, runs)
	}
	before, err := p.kind.read(x.Before)
	if err != nil {
		return b
	}
	if undone, ok := Put(b, x.Figure, before); ok {
		return undone
	}
	return b
}

func undoFills(b kitchen.Book, p place, x record.Learned, runs map[string]*board.Run) kitchen.Book {
	var added [][]unit.Mass
	for _, name := range x.Runs {
		if r := runs[name]; r != nil {
			for _, w := range board.Of[record.CheckWeighed](r) {
				if w.Pack == p.part {
					added = append(added, w.Gross)
				}
			}
		}
	}
	pack, there := b.Packs[kitchen.PackID(p.part)]
	if !there {
		return b
	}
	pack.Checks = slices.DeleteFunc(slices.Clone(pack.Checks), func(w kitchen.Weighing) bool {
		return slices.ContainsFunc(added, func(g []unit.Mass) bool { return slices.Equal(g, w.Gross) })
	})
	if len(pack.Checks) == 0 {
		pack.Checks = nil
	}
	b.Packs = with(b.Packs, kitchen.PackID(p.part), pack)
	return b
}
