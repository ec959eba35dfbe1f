package haccp

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/foodcode"
)

// Change is one thing in which two versions of a plan differ, in words.
type Change struct {
	Where string `json:"where"`
	Says  string `json:"says"`
	Basis bool   `json:"basis"` // a control point may rest on it: the plan has to be reviewed again
}

// Changes is what became of a plan from one version to another.
func Changes(was, now Document) []Change {
	c := comparison{}
	c.ingredients(was.Product, now.Product)
	c.steps(was.Product, now.Product)
	c.pack(was.Product, now.Product)
	c.points(was.Plan, now.Plan)
	if was.Plan.Basis != now.Plan.Basis && !slices.ContainsFunc(c.all, func(x Change) bool { return x.Basis }) {
		c.basis("flow", "%s", orderOf(was.Product, now.Product))
	}
	c.hazards(was.Plan, now.Plan)
	c.rest(was.Plan, now.Plan)
	return c.all
}

// orderOf is what is left when no ingredient, step, pack or limit differs by itself.
func orderOf(was, now Product) string {
	same := func(a, b Step) bool { return a.ID == b.ID }
	if !slices.EqualFunc(was.Steps, now.Steps, same) {
		return "the order of the steps is another"
	}
	return "nothing differs in words; a later edition of the program may see more in the same dish: look it through"
}

type comparison struct{ all []Change }

func (c *comparison) basis(where, format string, args ...any) {
	c.all = append(c.all, Change{where, fmt.Sprintf(format, args...), true})
}

func (c *comparison) words(where, format string, args ...any) {
	c.all = append(c.all, Change{where, fmt.Sprintf(format, args...), false})
}

// pairs gives what two lists have under one name: in the order of the new list, then what is gone.
func pairs[T any](was, now []T, name func(T) string, at func(old, is *T)) {
	for i := range now {
		k := slices.IndexFunc(was, func(x T) bool { return name(x) == name(now[i]) })
		if k < 0 {
			at(nil, &now[i])
			continue
		}
		at(&was[k], &now[i])
	}
	for i := range was {
		if !slices.ContainsFunc(now, func(x T) bool { return name(x) == name(was[i]) }) {
			at(&was[i], nil)
		}
	}
}

func (c *comparison) ingredients(was, now Product) {
	pairs(was.Ingredients, now.Ingredients, func(g Ingredient) string { return g.ID }, func(old, is *Ingredient) {
		switch {
		case old == nil:
			c.basis("ingredient "+is.Name, "goes in now (%s)", is.Class)
		case is == nil:
			c.basis("ingredient "+old.Name, "does not go in any more")
		default:
			c.ingredient(*old, *is)
		}
	})
}

func (c *comparison) ingredient(old, is Ingredient) {
	where := "ingredient " + is.Name
	if old.Class != is.Class {
		c.basis(where, "is %s, was %s", is.Class, old.Class)
	}
	if old.Storage != is.Storage {
		c.basis(where, "is kept %s, was %s", said(is.Storage), said(old.Storage))
	}
	if a, b := allergensOf(old), allergensOf(is); a != b {
		c.basis(where, "allergens: %s, was %s", b, a)
	}
	if old.Name != is.Name {
		c.words(where, "was called %s", old.Name)
	}
}

func allergensOf(g Ingredient) string {
	switch {
	case !g.AllergensKnown:
		return "nobody has said"
	case len(g.Allergens) == 0:
		return "none"
	}
	return strings.Join(slices.Sorted(slices.Values(g.Allergens)), ", ")
}

func said(word string) string {
	if word == "" {
		return "nobody says how"
	}
	return word
}

func (c *comparison) steps(was, now Product) {
	pairs(was.Steps, now.Steps, func(s Step) string { return s.ID }, func(old, is *Step) {
		switch {
		case old == nil:
			c.basis("step "+is.ID, "is new: %s", is.Do)
		case is == nil:
			c.basis("step "+old.ID, "is gone: %s", old.Do)
		default:
			c.step(*old, *is)
		}
	})
}

func (c *comparison) step(old, is Step) {
	where := "step " + is.ID
	if old.heat() != is.heat() {
		c.basis(where, "is heated to %s, was %s", hot(is), hot(old))
	}
	if old.HoldS != is.HoldS {
		c.basis(where, "is kept so hot for %s, was %s", heldFor(is), heldFor(old))
	}
	c.list(where, "takes in", old.Uses, is.Uses)
	c.list(where, "takes from", old.From, is.From)
	if old.Blend != is.Blend || old.Cut != is.Cut {
		c.basis(where, "is done with other tools")
	}
	if old.Do != is.Do || old.How != is.How {
		c.words(where, "is described in other words")
	}
	if !slices.Equal(old.Amounts, is.Amounts) {
		c.words(where, "amounts: %s; was %s", strings.Join(is.Amounts, ", "), strings.Join(old.Amounts, ", "))
	}
	if !slices.Equal(old.Equipment, is.Equipment) {
		c.words(where, "done in %s, was %s", strings.Join(is.Equipment, " or "), strings.Join(old.Equipment, " or "))
	}
}

func heldFor(s Step) string {
	if s.HoldS == 0 {
		return "no time that is written"
	}
	return foodcode.Time(s.HoldS)
}

func hot(s Step) string {
	if s.HeatToC == nil {
		return "no temperature that is written"
	}
	return Fahrenheit(*s.HeatToC)
}

func (c *comparison) list(where, does string, was, now []string) {
	var more, less []string
	for _, x := range now {
		if !slices.Contains(was, x) {
			more = append(more, x)
		}
	}
	for _, x := range was {
		if !slices.Contains(now, x) {
			less = append(less, x)
		}
	}
	switch {
	case len(more) > 0 && len(less) > 0:
		c.basis(where, "%s %s, no longer %s", does, strings.Join(more, ", "), strings.Join(less, ", "))
	case len(more) > 0:
		c.basis(where, "%s %s as well", does, strings.Join(more, ", "))
	case len(less) > 0:
		c.basis(where, "%s no longer %s", does, strings.Join(less, ", "))
	case !slices.Equal(was, now):
		c.basis(where, "%s the same in another order", does)
	}
}

func (c *comparison) pack(was, now Product) {
	for _, x := range []struct {
		old, is bool
		yes, no string
	}{{was.Vacuum, now.Vacuum, "is sealed under reduced oxygen now", "is no longer sealed under reduced oxygen"}, {was.Frozen, now.Frozen, "is frozen now", "is no longer frozen"}} {
		if x.old != x.is {
			c.basis("pack", "%s", map[bool]string{true: x.yes, false: x.no}[x.is])
		}
	}
	if was.Packed != now.Packed {
		c.basis("pack", "in %s, was %s", said(now.Packed), said(was.Packed))
	}
	if was.Approval != now.Approval {
		c.words("pack", "approval of the authority: %s, was %s", said(now.Approval), said(was.Approval))
	}
}
