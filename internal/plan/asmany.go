package plan

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
)

// mostSets is where the search for as many as possible stops: beyond it no small kitchen sets the limit.
const mostSets = 1 << 14

// asMany plans the largest number of sets of packs (as the mix says) for which no limit of the kitchen is broken, and names the limit
// that stops one more; when one set breaks a limit already, that is a stop. Limits are taken to be of the kind that more packs break and fewer do not.
func asMany(ctx context.Context, book kitchen.Book, foods *foodtable.Table, req kitchen.Request) Plan {
	at := slices.IndexFunc(req.Want, func(w kitchen.Want) bool { return w.Most })
	set, err := oneSet(book, req.Want[at])
	if err == nil && slices.ContainsFunc(req.Want[at+1:], func(w kitchen.Want) bool { return w.Most }) {
		err = errors.New("only one dish in a run can be made as many as possible")
	}
	if err != nil {
		p := newPlanner(ctx, book, foods, req)
		p.find(finding.Finding{Code: CodeUnreachable, Severity: finding.Stop, Where: "the request", Path: fmt.Sprintf("want[%d]", at), Message: err.Error(), Fix: "say how its packs stand to each other (mix), in one target"})
		p.out.Timetable = Timetable{Status: "empty", Tasks: []Task{}, Rows: []Row{}}
		p.out.Freeze = Freeze{Packs: []PackFreeze{}, Freezers: []FreezerIntake{}, Schedule: emptySchedule()}
		return p.out
	}
	whole := func(sets int, trial bool) Plan {
		p := newPlanner(ctx, book, foods, withSets(req, at, set, sets))
		p.trial = trial
		return p.make()
	}
	try := func(sets int) Plan { return whole(sets, true) }
	fits, next := 0, 1
	over := try(1)
	for len(broken(over)) == 0 && next < mostSets {
		fits = next
		next *= 2
		over = try(next)
	}
	for next-fits > 1 && ctx.Err() == nil {
		mid := (fits + next) / 2
		if plan := try(mid); len(broken(plan)) == 0 {
			fits = mid
		} else {
			next, over = mid, plan
		}
	}
	if fits == 0 {
		return told(whole(1, false), set, 1, "even one set is stopped by ")
	}
	best := whole(fits, false)
	for i := range best.Dishes {
		if best.Dishes[i].ID == string(req.Want[at].Dish) {
			best.Dishes[i].Limit = limitWords(over)
			best.Dishes[i].Target = "as many as the kitchen can make: " + best.Dishes[i].Target
		}
	}
	best.Findings = append(best.Findings, finding.Finding{Code: "limit", Severity: finding.Note, Where: "dish " + string(req.Want[at].Dish),
		Message: fmt.Sprintf("one set of packs more is stopped by %s", limitWords(over)), Figures: figuresOf(over)})
	best.Findings.Sort()
	return best
}

// oneSet is the packs of one set.
func oneSet(book kitchen.Book, w kitchen.Want) (map[kitchen.PackID]int, error) {
	if len(w.Mix) > 0 {
		return w.Mix, nil
	}
	set := map[kitchen.PackID]int{}
	for id, p := range book.Packs {
		if p.Dish == w.Dish {
			set[id] = 1
		}
	}
	if len(set) != 1 {
		return nil, fmt.Errorf("as many of dish %s as possible could be any of %d packs", w.Dish, len(set))
	}
	return set, nil
}

// withSets is the request with the open target replaced by so many sets.
func withSets(req kitchen.Request, at int, set map[kitchen.PackID]int, sets int) kitchen.Request {
	want := slices.Clone(req.Want[:at])
	for _, id := range slices.Sorted(maps.Keys(set)) {
		want = append(want, kitchen.Want{Pack: id, Count: set[id] * sets})
	}
	req.Want = append(want, req.Want[at+1:]...)
	return req
}

// broken is the findings of a plan that are limits: at caution or worse, and waiting food at stop only.
func broken(p Plan) finding.List {
	var list finding.List
	for _, f := range p.Findings {
		from := finding.Caution
		if f.Code == CodeHeldHot || f.Code == CodeHeldWarm {
			from = finding.Stop
		}
		if _, ok := limits[f.Code]; ok && f.Severity >= from {
			list = append(list, f)
		}
	}
	return list
}

func limitWords(over Plan) string {
	var words []string
	for _, f := range broken(over) {
		if w := limits[f.Code]; !slices.Contains(words, w) {
			words = append(words, w)
		}
	}
	if len(words) == 0 {
		return fmt.Sprintf("nothing up to %d sets", mostSets)
	}
	return strings.Join(words, " and ")
}

func figuresOf(over Plan) []finding.Figure {
	if b := broken(over); len(b) > 0 {
		return b[0].Figures
	}
	return nil
}

func told(over Plan, set map[kitchen.PackID]int, sets int, what string) Plan {
	over.Findings = append(over.Findings, finding.Finding{Code: CodeUnreachable, Severity: finding.Stop, Where: "the request", Message: what + limitWords(over), Figures: figuresOf(over), Fix: "see the findings beside it"})
	over.Findings.Sort()
	return over
}
