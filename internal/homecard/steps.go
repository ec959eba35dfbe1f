package homecard

import (
	"cmp"
	"fmt"
	"strings"

	"kettlefrost/internal/kitchen"
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
		show.in(a.Book.Dishes[a.Book.Packs[a.Pack].Dish], s, items, number, a.Book.Kitchen.Units)
		show.with(s, step)
		show.timesText(a.Book.Kitchen.Units, step)
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
func (s *Step) in(dish kitchen.Dish, p plan.Step, items []*Item, number map[string]int, units unit.System) {
	step := stepOf(dish, s.ID)
	for _, x := range items {
		if x.step == s.ID {
			name := x.Name
			if x.Extra {
				name += ", for what a small pot boils off more"
			}
			s.In = append(s.In, x.Amount.Text+" "+name)
		}
	}
	for k, l := range p.In {
		if l.Kind != plan.Earlier || k >= len(step.Use) || l.Mass < traceMass {
			continue
		}
		from := giver(dish, step.Use[k].From)
		text := cmp.Or(outputName(dish, step.Use[k].From), "all of it")
		if n := number[from]; n > 0 {
			text = fmt.Sprintf("what step %d gives", n)
			if name := outputName(dish, step.Use[k].From); name != "" {
				text = fmt.Sprintf("%s (step %d)", name, n)
			}
		}
		if !step.Use[k].Take.Given {
			text = fmt.Sprintf("%s of the %s", grams(l.Mass-l.Short), text)
			s.Notes = append(s.Notes, "take "+text)
		} else if step.Use[k].Take.Share < unit.Whole {
			text = fmt.Sprintf("%s of the %s", step.Use[k].Take.Share.Show(units), text)
		}
		if step.Stays && firstMade(step, k) {
			continue // it is in the pot already
		}
		s.In = append(s.In, text)
	}
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
func (s *Step) with(p plan.Step, step kitchen.Step) {
	tool, ok := toolNamed(p.Equipment)
	if !ok || step.Stays {
		return
	}
	s.With = tool.Name
	switch {
	case tool.Family == "blender" && p.Loads.Volume < tool.Least:
		s.With = "stick blender in a tall cup"
		s.Notes = append(s.Notes, "too little for the jar of a blender: its blades need about "+tool.Least.Show(unit.US))
	case tool.Family == "oven":
		s.With = "oven, " + sheets(p, step, tool)
	}
}

// sheets is how many baking sheets hold it: two of a home's are one full sheet of the kitchen, which is taken for the load that the book gives.
func sheets(p plan.Step, step kitchen.Step, oven Tool) string {
	n := oven.Trays
	if half := step.Load.AtMost / 2; half > 0 && p.Loads.Mass <= half {
		n = 1
	}
	if n == 1 {
		return "one baking sheet"
	}
	return fmt.Sprintf("%d baking sheets", n)
}

// timesText is how long it takes, in words.
func (s *Step) timesText(units unit.System, step kitchen.Step) {
	var parts []string
	each := ""
	if s.Lots > 1 {
		each = " each"
	}
	if step.HeatTo != nil && s.HeatUp.High > 0 {
		parts = append(parts, fmt.Sprintf("%s to %s%s", s.HeatUp.text(), step.HeatTo.Show(units), each))
	} else if step.HeatTo != nil {
		parts = append(parts, "at "+step.HeatTo.Show(units))
	}
	if s.Time.High > 0 {
		parts = append(parts, s.Time.text()+each)
	}
	s.Times = strings.Join(parts, ", then ")
}

// text is a range in whole minutes, one figure where both ends are the same.
func (r Range) text() string {
	low, high := minutesOf(r.Low), minutesOf(r.High)
	switch {
	case high < 1:
		return "under a minute"
	case low >= high:
		return clock(high)
	case low < 1:
		return "up to " + clock(high)
	case high < 60:
		return fmt.Sprintf("%d to %s", low, clock(high))
	}
	return clock(low) + " to " + clock(high)
}

// Text is the range in words.
func (r Range) Text() string { return r.text() }

func minutesOf(s unit.Span) int { return int((s + unit.Minute/2) / unit.Minute) }

func clock(minutes int) string {
	switch {
	case minutes < 60:
		return fmt.Sprintf("%d min", minutes)
	case minutes%60 == 0:
		return fmt.Sprintf("%d h", minutes/60)
	}
	return fmt.Sprintf("%d h %d min", minutes/60, minutes%60)
}

func (s *Step) notes(a Ask, p plan.Step, step kitchen.Step) {
	if s.Lots > 1 {
		why := "more does not fit at once"
		if step.Load.Surface > 0 {
			why = "one layer at a time, so that it browns"
		}
		s.Notes = append(s.Notes, fmt.Sprintf("in %d lots of about %s: %s", s.Lots, grams(p.Loads.Mass), why))
	}
	if own := stepOf(a.Book.Dishes[a.Book.Packs[a.Pack].Dish], step.ID); fanned(a.Book, own) {
		s.Notes = append(s.Notes, fmt.Sprintf("the kitchen bakes with a fan: without one set the oven %.0f °F (14 °C) higher, or bake up to a quarter longer", of("sheet-heat").usual))
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
