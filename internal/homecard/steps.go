package homecard

import (
	"cmp"
	"strconv"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/language"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// leaveOut is what a book says of a step that is not done at home.
const leaveOut = "leave out"

// numbers are the numbers of the steps on the card. A step that is left out at home has the number of the one that takes what it gives, unless
// something goes in there: then it is done after all.
func (t settled) numbers(items []*Item) (of map[string]int, hidden map[string]bool) {
	of, hidden = map[string]int{}, map[string]bool{}
	for _, s := range t.steps() {
		if strings.EqualFold(strings.TrimSuffix(strings.TrimSpace(stepOf(t.dish, s.ID).AtHome), "."), leaveOut) && !anyIn(items, s.ID) {
			hidden[s.ID] = true
			continue
		}
		of[s.ID] = len(of) + 1
	}
	return of, hidden
}

func anyIn(items []*Item, step string) bool {
	for _, x := range items {
		if x.step == step {
			return true
		}
	}
	return false
}

// cardSteps are the steps as a home does them.
func (a Ask) cardSteps(t settled, items []*Item, times timed) []Step {
	number, hidden := t.numbers(items)
	for _, x := range items {
		x.Step = number[x.step]
	}
	all := []Step{}
	for _, s := range t.steps() {
		if hidden[s.ID] {
			continue
		}
		step := stepOf(t.dish, s.ID)
		show := Step{Number: number[s.ID], ID: s.ID, Lots: max(1, s.Loads.Count), In: []string{}}
		show.say(step, a.Book)
		show.HeatUp, show.Time = times.of(s.ID)
		show.in(a, s, items, number)
		show.with(a.speaker(), s, step)
		show.timesText(a.speaker(), a.Book.Kitchen.Units, step)
		show.notes(a, s, step)
		all = append(all, show)
	}
	return all
}

// say puts the step into a home's words: those that the book gives for it, else its own, cleaned.
func (s *Step) say(step kitchen.Step, book kitchen.Book) {
	if step.AtHome != "" && !strings.EqualFold(strings.TrimSuffix(step.AtHome, "."), leaveOut) {
		s.Do = step.AtHome
		return
	}
	var left []string
	s.Do, left = atHome(step.Do)
	if s.Do == "" {
		s.Do, left = step.Do, nil
	}
	s.How, s.Left = atHome(step.How)
	s.Left = append(left, s.Left...)
}

// in lists what goes in: what is new with its amount, and what was made before by its step.
func (s *Step) in(a Ask, p plan.Step, items []*Item, number map[string]int) {
	dish, in := a.Book.Dishes[a.Book.Packs[a.Pack].Dish], a.speaker()
	step := stepOf(dish, s.ID)
	for _, x := range items {
		if x.step == s.ID {
			s.In = append(s.In, x.Amount.Text+" "+x.Called(in))
		}
	}
	for k, l := range p.In {
		if l.Kind != plan.Earlier || k >= len(step.Use) || l.Mass < traceMass {
			continue
		}
		text := madeBefore(in, dish, step.Use[k].From, number)
		if take := step.Use[k].Take; !take.Given {
			text = in.Say("%s of the %s", grams(in, l.Mass-l.Short), text)
			s.Notes = append(s.Notes, in.Say("take %s", text))
		} else if take.Share < unit.Whole {
			text = in.Say("%s of the %s", in.Measure(take.Share.Show(a.Book.Kitchen.Units)), text)
		}
		if step.Stays && firstMade(step, k) {
			continue // it is in the pot already
		}
		s.In = append(s.In, text)
	}
}

// madeBefore is what an earlier step gives, by its name or its step.
func madeBefore(in language.Speaker, dish kitchen.Dish, id kitchen.OutputID, number map[string]int) string {
	name, n := outputName(dish, id), number[giver(dish, id)]
	switch {
	case n > 0 && name != "":
		return in.Say("%s (step %s)", name, strconv.Itoa(n))
	case n > 0:
		return in.Say("what step %s gives", strconv.Itoa(n))
	}
	return cmp.Or(name, in.Say("all of it"))
}

// firstMade says that a use is the first of what was made before: the one whose vessel a step stays in.
func firstMade(step kitchen.Step, k int) bool {
	for i, u := range step.Use {
		if u.From != "" {
			return i == k
		}
	}
	return false
}

func giver(dish kitchen.Dish, id kitchen.OutputID) string {
	for _, s := range dish.Steps {
		for _, o := range s.Outputs() {
			if o.ID == id {
				return s.ID
			}
		}
	}
	return ""
}

func outputName(dish kitchen.Dish, id kitchen.OutputID) string {
	for _, s := range dish.Steps {
		for _, o := range s.Outputs() {
			if o.ID == id {
				return o.Name
			}
		}
	}
	return ""
}

// with is what the step is done in. A blender whose blades so little would not reach gives way to a stick blender.
func (s *Step) with(in language.Speaker, p plan.Step, step kitchen.Step) {
	tool, ok := toolNamed(p.Equipment)
	if !ok || step.Stays {
		return
	}
	s.With = in.Say(tool.Name)
	switch {
	case tool.Family == "blender" && p.Loads.Volume < tool.Least:
		s.With = in.Say("stick blender in a tall cup")
		s.Notes = append(s.Notes, in.Say("too little for the jar of a blender: its blades need about %s", in.Measure(tool.Least.Show(unit.US))))
	case tool.Family == "oven":
		s.With = sheets(in, p, step, tool)
	}
}

// sheets is how many baking sheets hold it: two of a home's are one full sheet of the kitchen, which is taken for the load that the book gives.
func sheets(in language.Speaker, p plan.Step, step kitchen.Step, oven Tool) string {
	n := oven.Trays
	if half := step.Load.AtMost / 2; half > 0 && p.Loads.Mass <= half {
		n = 1
	}
	if n == 1 {
		return in.Say("oven, one baking sheet")
	}
	return in.Say("oven, %s baking sheets", strconv.Itoa(n))
}

func (s *Step) notes(a Ask, p plan.Step, step kitchen.Step) {
	in := a.speaker()
	if s.Lots > 1 {
		why := in.Say("more does not fit at once")
		if step.Load.Surface > 0 {
			why = in.Say("one layer at a time, so that it browns")
		}
		s.Notes = append(s.Notes, in.Say("in %s lots of about %s: %s", strconv.Itoa(s.Lots), grams(in, p.Loads.Mass), why))
	}
	if own := stepOf(a.Book.Dishes[a.Book.Packs[a.Pack].Dish], step.ID); fanned(a.Book, own) {
		s.Notes = append(s.Notes, in.Say("the kitchen bakes with a fan: without one set the oven %s °F (14 °C) higher, or bake up to a quarter longer", in.Number(of("sheet-heat").usual, 0)))
	}
}

func fanned(book kitchen.Book, step kitchen.Step) bool {
	for _, id := range step.In {
		if e := book.Equipment[id]; e.Kind == kitchen.Oven && hasAny(strings.ToLower(e.Name), "convection", "fan", "combi") {
			return true
		}
	}
	return false
}
