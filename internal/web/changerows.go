package web

import (
	"fmt"

	"kettlefrost/internal/kitchen"
)

func (r *changeReader) late(i int) {
	var late kitchen.Late
	row := lateRow{
		Task: r.ask(field{Key: "late", Label: "Late task", Hint: "choose from the list"}, i, func(text string) error { late.Task = text; return nil }),
		By:   r.ask(field{Key: "by", Label: "Late by", Hint: "such as 25 min; -10 min is early"}, i, func(text string) (err error) { late.By, err = kitchen.ParseDelay(text); return err }),
	}
	needs(&row.By, row.Task.Value, "Write by how much it is late, such as 25 min.")
	needs(&row.Task, row.By.Value, "Choose the task that is late.")
	if row.Task.Value != "" {
		r.check(kitchen.Changes{Late: []kitchen.Late{late}}, map[string]*field{"late[0].task": &row.Task, "late[0].by": &row.By})
		r.changes.Late = append(r.changes.Late, late)
	}
	r.form.Late = append(r.form.Late, row)
}

func (r *changeReader) gone(i int) {
	var gone kitchen.Gone
	row := goneRow{}
	row.Who = r.ask(field{Key: "gone", Label: "Not here", Hint: "who went home"}, i, func(text string) error { gone.Person = kitchen.PersonID(text); return nil })
	row.Who.Options = options(r.day.book.People, row.Who.Value, func(p kitchen.Person) string { return p.Name })
	row.From = r.ask(field{Key: "gone-from", Label: "From", Hint: "now when empty"}, i, momentInto(&gone.From))
	row.Back = r.ask(field{Key: "gone-back", Label: "Back at", Hint: "empty: not on this run"}, i, endInto(&gone.Until))
	needs(&row.Who, row.From.Value+row.Back.Value, "Choose who is not here.")
	if row.Who.Value != "" {
		r.check(kitchen.Changes{Gone: []kitchen.Gone{gone}}, map[string]*field{"gone[0].person": &row.Who, "gone[0].from": &row.From, "gone[0].until": &row.Back})
		r.changes.Gone = append(r.changes.Gone, gone)
	}
	r.form.Gone = append(r.form.Gone, row)
}

func (r *changeReader) out(i int) {
	var out kitchen.Outage
	row := outRow{}
	row.What = r.ask(field{Key: "out", Label: "Out of order", Hint: "what cannot be used"}, i, func(text string) error { out.Equipment = kitchen.EquipmentID(text); return nil })
	row.What.Options = options(r.day.book.Equipment, row.What.Value, func(e kitchen.Equipment) string { return e.Name })
	row.Count = r.ask(field{Key: "out-count", Label: "How many", Hint: "1 when empty", Number: true}, i, func(text string) (err error) {
		if out.Count, err = kitchen.ParsePieces(text); err != nil {
			err = fmt.Errorf("%w: write for example 1", err)
		}
		return err
	})
	row.From = r.ask(field{Key: "out-from", Label: "From", Hint: "now when empty"}, i, momentInto(&out.From))
	row.Back = r.ask(field{Key: "out-back", Label: "Works again at", Hint: "empty: not on this run"}, i, endInto(&out.Until))
	needs(&row.What, row.Count.Value+row.From.Value+row.Back.Value, "Choose what is out of order.")
	if row.What.Value != "" {
		r.check(kitchen.Changes{Out: []kitchen.Outage{out}}, map[string]*field{"out[0].equipment": &row.What, "out[0].count": &row.Count, "out[0].from": &row.From, "out[0].until": &row.Back})
		r.changes.Out = append(r.changes.Out, out)
	}
	r.form.Out = append(r.form.Out, row)
}
