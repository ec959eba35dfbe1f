package cli

import (
	"fmt"

	"kettlefrost/internal/app"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// changed is what has turned out otherwise, as typed.
type changed struct {
	Now    *unit.Moment `placeholder:"TIME" help:"Show what everybody does at this time and next, such as 11:20; on a second day 11:20+1."`
	Late   []string     `sep:"none" placeholder:"TASK=TIME" help:"This task, or all that begin like it, begins or ends so much later: \"bean-pot/simmer/1=25 min\"; may be given several times."`
	Gone   []string     `sep:"none" placeholder:"PERSON=TIME" help:"Not here from then on, or between two times: sam=11:00 or sam=11:00-12:30; may be given several times."`
	Broken []string     `sep:"none" placeholder:"EQUIPMENT=COUNT" help:"So many of this cannot be used: burner=1, burner=1@11:00 or burner=1@11:00-12:30; may be given several times."`
}

// any says whether something has changed; looking at a time is no change.
func (c changed) any() bool { return len(c.Late)+len(c.Gone)+len(c.Broken) > 0 }

// read is the changes to a plan. Without a time given it is the clock's, when the run is on.
func (c changed) read(s *surroundings, book kitchen.Book, p plan.Plan) (kitchen.Changes, error) {
	var changes kitchen.Changes
	if c.Now != nil {
		changes.Now = *c.Now
	} else if now, on := app.MomentOn(p.Day, s.now()); on {
		changes.Now = now
	} else {
		return changes, failure{badUsage, "--now", "what time it is must be said, as the run is not on today", "add a time, such as --now 11:20: what was to begin before has begun"}
	}
	var err error
	if changes.Late, err = readEach("--late", c.Late, kitchen.ParseLate); err != nil {
		return changes, err
	}
	if changes.Gone, err = readEach("--gone", c.Gone, kitchen.ParseGone); err != nil {
		return changes, err
	}
	if changes.Out, err = readEach("--broken", c.Broken, kitchen.ParseOutage); err != nil {
		return changes, err
	}
	changes = changes.FromNow()
	if found := kitchen.CheckChanges(book, changes, app.Keys(p)); found.Worst() == finding.Stop {
		return changes, mistaken("what has changed", found)
	}
	return changes, nil
}

// readEach reads each value of a flag.
func readEach[T any](flag string, texts []string, parse func(string) (T, error)) ([]T, error) {
	var all []T
	for _, text := range texts {
		one, err := parse(text)
		if err != nil {
			return nil, failure{badUsage, fmt.Sprintf("%s %s", flag, text), err.Error(), howWritten(flag)}
		}
		all = append(all, one)
	}
	return all, nil
}

func howWritten(flag string) string {
	if flag == "--late" {
		return "--help shows how it is written; kettlefrost day --as json has the keys of the tasks"
	}
	return "--help shows how it is written"
}
