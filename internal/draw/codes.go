package draw

import (
	"strconv"

	"kettlefrost/internal/plan"
)

// Codes are the short names by which drawings and pages point at the same thing: A for the first dish, A3 for its third step.
type Codes struct {
	dishes map[string]int
	steps  map[[2]string]int
}

// NewCodes gives out letters in the order of the dishes and numbers in the order of their steps.
func NewCodes(dishes []plan.Dish) Codes {
	c := Codes{dishes: map[string]int{}, steps: map[[2]string]int{}}
	for i, d := range dishes {
		c.dishes[d.ID] = i
		for n, s := range d.Steps {
			c.steps[[2]string{d.ID, s.ID}] = n + 1
		}
	}
	return c
}

// Dish is the letter of a dish, "" when it is not known: A, B ... Z, A2, B2 ...
func (c Codes) Dish(id string) string {
	i, ok := c.dishes[id]
	if !ok {
		return ""
	}
	letter := string(rune('A' + i%26))
	if i >= 26 {
		letter += strconv.Itoa(i/26+1) + "."
	}
	return letter
}

// Pattern is the pattern of a dish.
func (c Codes) Pattern(id string) Pattern {
	i, ok := c.dishes[id]
	if !ok {
		return Plain
	}
	return DishPatterns[i%len(DishPatterns)]
}

// Step is the code of a step, the letter alone when the step is not known.
func (c Codes) Step(dish, step string) string {
	if n := c.steps[[2]string{dish, step}]; n > 0 {
		return c.Dish(dish) + strconv.Itoa(n)
	}
	return c.Dish(dish)
}

// Task is the code of a task: A3, A chill, A fill, A wash. An appointment has none.
func (c Codes) Task(t plan.Task) string {
	switch t.Kind {
	case plan.Visit:
		return ""
	case plan.Cool, plan.Filling, plan.Washing:
		if letter := c.Dish(t.Dish); letter != "" {
			return letter + " " + string(t.Kind)
		}
		return string(t.Kind)
	default:
		return c.Step(t.Dish, t.Step)
	}
}
