package packlabel

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
)

// crossContact is advice from the order of the day: what was on the same equipment before, with an allergen that this dish has not. It is never
// printed: "may contain" is voluntary and takes the place of nothing.
func (m *maker) crossContact() {
	mine := m.carriedBy(string(m.pack.Dish), "")
	brings := map[[2]string][]string{} // by dish and step: what they have and this dish has not
	seen := map[[2]string]bool{}       // dish and equipment
	for _, here := range m.Plan.Timetable.Tasks {
		if here.Dish != string(m.pack.Dish) {
			continue
		}
		for _, before := range m.Plan.Timetable.Tasks {
			if before.Dish == "" || before.Dish == here.Dish || before.End > here.Start {
				continue
			}
			for _, on := range before.On {
				if seen[[2]string{before.Dish, on}] || !slices.Contains(here.On, on) {
					continue
				}
				of := [2]string{before.Dish, before.Step}
				if before.Kind == plan.Filling {
					of[1] = before.Key
				}
				if _, known := brings[of]; !known {
					brings[of] = slices.DeleteFunc(m.carriedIn(before), func(a string) bool { return slices.Contains(mine, a) })
				}
				if len(brings[of]) > 0 {
					seen[[2]string{before.Dish, on}] = true
					m.carried(before, here, on, strings.Join(brings[of], ", "))
				}
			}
		}
	}
}

func (m *maker) carried(before, here plan.Task, on, brings string) {
	f := finding.Finding{Code: CodeCrossContact, Severity: finding.Note, Where: on, Path: "dishes." + string(m.pack.Dish), Source: "the timetable of the run; FDA Food Code 3-302.11",
		Message: fmt.Sprintf("%s: %s is on it until %s (%s); it is washed before %s", brings, m.Book.Dishes[kitchen.DishID(before.Dish)].Name, before.End, strings.TrimSuffix(before.Label, "."), here.Start),
		Fix:     "look that it is clean, and wash hands and cloths too"}
	if !m.washedBetween(before, here, on) {
		f.Severity = finding.Caution
		f.Message = fmt.Sprintf("%s: %s is on it until %s (%s), and no washing is planned before %s", brings, m.Book.Dishes[kitchen.DishID(before.Dish)].Name, before.End, strings.TrimSuffix(before.Label, "."), here.Start)
		f.Fix = "wash it in between, or cook the dish without the allergen first"
	}
	m.advise(f)
}

func (m *maker) washedBetween(before, here plan.Task, on string) bool {
	return slices.ContainsFunc(m.Plan.Timetable.Tasks, func(t plan.Task) bool {
		return t.Kind == plan.Washing && t.Start >= before.End && t.End <= here.Start && (slices.Contains(t.On, on) || strings.HasSuffix(t.Label, on))
	})
}

// carriedIn is which allergens a task has in hand: filling has those of what goes into its pack.
func (m *maker) carriedIn(t plan.Task) []string {
	id, _, _ := strings.Cut(t.Key, "/")
	pack, there := m.Book.Packs[kitchen.PackID(id)]
	if t.Kind != plan.Filling || !there {
		return m.carriedBy(t.Dish, t.Step)
	}
	var all []string
	for _, f := range pack.Fill {
		for _, s := range m.Book.Dishes[pack.Dish].Steps {
			if gives(s, f.Of) {
				all = append(all, m.carriedBy(t.Dish, s.ID)...)
			}
		}
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// carriedBy is which allergens are in the food at a step of a dish, by all that has gone into it up to there; of the whole dish for a step that it
// does not have.
func (m *maker) carriedBy(dish, step string) []string {
	steps := m.Book.Dishes[kitchen.DishID(dish)].Steps
	at := slices.IndexFunc(steps, func(s kitchen.Step) bool { return s.ID == step })
	var all []string
	if at < 0 {
		for _, s := range steps {
			all = append(all, m.putIn(s)...)
		}
	} else {
		all = m.upTo(steps, at, map[int]bool{})
	}
	slices.Sort(all)
	return slices.Compact(all)
}

// gives says whether an output comes from a step.
func gives(s kitchen.Step, id kitchen.OutputID) bool {
	return slices.ContainsFunc(s.Outputs(), func(o kitchen.Output) bool { return o.ID == id })
}

// upTo is the allergens of a step and of all that it draws on.
func (m *maker) upTo(steps []kitchen.Step, at int, been map[int]bool) []string {
	if been[at] {
		return nil
	}
	been[at] = true
	all := m.putIn(steps[at])
	for _, u := range steps[at].Use {
		for i, s := range steps {
			if u.From != "" && gives(s, u.From) {
				all = append(all, m.upTo(steps, i, been)...)
			}
		}
	}
	return all
}

// putIn is the allergens of what a step is the first to take. Of an ingredient that nobody answered it says so.
func (m *maker) putIn(s kitchen.Step) []string {
	var all []string
	for _, u := range s.Use {
		for _, id := range []kitchen.IngredientID{u.Of, u.Or} {
			ing, there := m.Book.Ingredients[id]
			if !there {
				continue
			}
			all = append(all, ing.Allergens.Names...)
			if !ing.Allergens.Answered {
				all = append(all, "what nobody answered of "+ing.Name)
			}
			for _, sub := range ing.Contains {
				all = append(all, sub.Allergens.Names...)
			}
		}
	}
	return all
}
