package cli

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"kettlefrost/internal/app"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/spelling"
	"kettlefrost/internal/unit"
)

// changed is what has turned out otherwise, as typed.
type changed struct {
	Now    *unit.Moment `placeholder:"TIME" help:"Show what everybody does at this time and next, such as 11:20; on a second day 11:20+1."`
	Late   []string     `sep:"none" placeholder:"TASK=TIME" help:"This task begins or ends so much later: \"bean-pot/simmer/1=25 min\"; may be given several times."`
	Gone   []string     `sep:"none" placeholder:"PERSON=TIME" help:"Not here from then on, or between two times: sam=11:00 or sam=11:00-12:30; may be given several times."`
	Broken []string     `sep:"none" placeholder:"EQUIPMENT=COUNT" help:"So many of this cannot be used: burner=1, burner=1@11:00 or burner=1@11:00-12:30; may be given several times."`
}

// any says whether something has changed; looking at a time is no change.
func (c changed) any() bool { return len(c.Late)+len(c.Gone)+len(c.Broken) > 0 }

// read is the changes to a plan. Without a time given it is the clock's, when the run is on.
func (c changed) read(s *surroundings, book kitchen.Book, p plan.Plan) (kitchen.Changes, error) {
	changes := kitchen.Changes{}
	if c.Now != nil {
		changes.Now = *c.Now
	} else if now, on := app.MomentOn(p.Day, s.now()); on {
		changes.Now = now
	} else {
		return changes, failure{badUsage, "--now", "what time it is must be said, as the run is not on today", "add a time, such as --now 11:20: what was to begin before has begun"}
	}
	if err := c.lates(&changes, p.Timetable.Tasks); err != nil {
		return changes, err
	}
	if err := c.gones(&changes, book); err != nil {
		return changes, err
	}
	return changes, c.outages(&changes, book)
}

func (c changed) lates(changes *kitchen.Changes, tasks []plan.Task) error {
	var keys []string
	for _, t := range tasks {
		keys = append(keys, t.Key)
	}
	for _, text := range c.Late {
		name, span, _ := strings.Cut(text, "=")
		by, err := app.Delay(span)
		if err != nil {
			return failure{badUsage, "--late " + text, err.Error(), `write a task, = and a time, such as --late "bean-pot/simmer/1=25 min"`}
		}
		key, err := app.Task(keys, name)
		if err != nil {
			return failure{mistakes, "--late " + text, err.Error(), "kettlefrost day --as json has the keys of the tasks"}
		}
		changes.Late = append(changes.Late, kitchen.Late{Task: key, By: by})
	}
	return nil
}

func (c changed) gones(changes *kitchen.Changes, book kitchen.Book) error {
	for _, text := range c.Gone {
		name, times, found := strings.Cut(text, "=")
		gone := kitchen.Gone{Person: kitchen.PersonID(strings.TrimSpace(name)), From: changes.Now}
		if err := named("--gone "+text, "person", gone.Person, book.People); err != nil {
			return err
		}
		if found {
			if err := between(times, &gone.From, &gone.Until); err != nil {
				return failure{badUsage, "--gone " + text, err.Error(), "write a person, = and a time, such as --gone sam=11:00"}
			}
		}
		changes.Gone = append(changes.Gone, gone)
	}
	return nil
}

func (c changed) outages(changes *kitchen.Changes, book kitchen.Book) error {
	for _, text := range c.Broken {
		what, times, timed := strings.Cut(text, "@")
		name, number, counted := strings.Cut(what, "=")
		out := kitchen.Outage{Equipment: kitchen.EquipmentID(strings.TrimSpace(name)), Count: 1, From: changes.Now}
		err := named("--broken "+text, "equipment", out.Equipment, book.Equipment)
		if err != nil {
			return err
		}
		if counted {
			out.Count, err = app.Pieces(number, book.Equipment[out.Equipment].Count)
		}
		if timed && err == nil {
			err = between(times, &out.From, &out.Until)
		}
		if err != nil {
			return failure{badUsage, "--broken " + text, err.Error(), "write equipment, = and how many, such as --broken burner=1 or --broken burner=1@11:00"}
		}
		changes.Out = append(changes.Out, out)
	}
	return nil
}

// named fails when the book has no such thing.
func named[K ~string, V any](place, kind string, id K, all map[K]V) error {
	if _, ok := all[id]; ok {
		return nil
	}
	var ids []string
	for _, known := range slices.Sorted(maps.Keys(all)) {
		ids = append(ids, string(known))
	}
	fix := "it has " + strings.Join(ids, ", ")
	if near := spelling.Nearest(string(id), ids); near != "" {
		fix = fmt.Sprintf("did you mean %s?", near)
	}
	return failure{mistakes, place, fmt.Sprintf("the book has no %s %q", kind, string(id)), fix}
}

// between reads a time, or two with a dash between them.
func between(text string, from, until *unit.Moment) (err error) {
	first, second, two := strings.Cut(text, "-")
	if *from, err = app.Moment(first); err != nil || !two {
		return err
	}
	if *until, err = app.Moment(second); err == nil && *until <= *from {
		err = fmt.Errorf("%s is not after %s", *until, *from)
	}
	return err
}
