package dishgraph

import (
	"fmt"
	"slices"

	"kettlefrost/internal/kitchen"
)

// Replace puts a step in the place of one, as when somebody wrote it anew. What it gives under other names is followed: what took the main product
// takes the new one's, and what took one of the others takes the one that stands in its place.
func Replace(b kitchen.Book, dish kitchen.DishID, step string, s kitchen.Step) (kitchen.Book, error) {
	return atStep(b, dish, step, func(w *work, i int) error {
		if !kitchen.IsID(s.ID) {
			return &Refused{fmt.Sprintf("%q cannot be the id of a step", s.ID), "write a short word in small letters, with hyphens"}
		}
		was := w.d.Steps[i]
		w.d.Steps[i] = s
		w.settleStays(i)
		for _, r := range renamed(was, s) {
			w.follow(r[0], r[1])
		}
		return nil
	})
}

// renamed are the outputs of a step that have got other names: before and after.
func renamed(was, now kitchen.Step) (all [][2]kitchen.OutputID) {
	before, after := idsOf(was), idsOf(now)
	gone := slices.DeleteFunc(slices.Clone(before), func(id kitchen.OutputID) bool { return slices.Contains(after, id) })
	came := slices.DeleteFunc(slices.Clone(after), func(id kitchen.OutputID) bool { return slices.Contains(before, id) })
	if a, z := main(was), main(now); slices.Contains(gone, a) && slices.Contains(came, z) {
		all = append(all, [2]kitchen.OutputID{a, z})
		gone = slices.DeleteFunc(gone, func(id kitchen.OutputID) bool { return id == a })
		came = slices.DeleteFunc(came, func(id kitchen.OutputID) bool { return id == z })
	}
	for i := range min(len(gone), len(came)) {
		all = append(all, [2]kitchen.OutputID{gone[i], came[i]})
	}
	return all
}

func idsOf(s kitchen.Step) []kitchen.OutputID {
	var ids []kitchen.OutputID
	for _, o := range s.Outputs() {
		ids = append(ids, o.ID)
	}
	return ids
}
