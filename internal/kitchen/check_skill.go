package kitchen

import (
	"fmt"
	"slices"
	"strings"
)

// skills checks what a person can do.
func (c *checker) skills(at spot, can []Skill) {
	for i, s := range can {
		here := at.item("can", i, string(s))
		switch {
		case strings.TrimSpace(string(s)) == "":
			c.stop(EmptyText, here, "a skill is empty", "write a word for it, such as kettle, or take it out")
		case slices.Contains(can[:i], s):
			c.stop(SkillTwice, here, fmt.Sprintf("%s stands here twice", s), "take one of them out")
		}
	}
}

// canBeDone checks that somebody has the skill that is asked for.
func (c *checker) canBeDone(at spot, skill Skill) {
	if skill == "" {
		return
	}
	var known []string
	for _, p := range inOrder(c.book.People) {
		for _, s := range p.Can {
			known = append(known, string(s))
		}
	}
	slices.Sort(known)
	if known = slices.Compact(known); !slices.Contains(known, string(skill)) {
		c.stop(NobodyCan, at.key("skill"), fmt.Sprintf("nobody can do %s", skill), nearestOf("skill under can: of a person", string(skill), known))
	}
}

// atOnce checks that a step that must start at once is not told that it may wait.
func (c *checker) atOnce(at spot, s Step) {
	if s.AtOnce && s.Within > 0 {
		c.stop(WithinAndAtOnce, at.key("at-once"), "this step must start at once, and within: says that it may wait", "take at-once: or within: out")
	}
}

// washing checks how long something takes to clean between two dishes.
func (c *checker) washing(at spot, e Equipment) {
	c.within(at, "wash", inHours(e.Wash), halfDay)
	c.within(at, "wash-down", inHours(e.WashDown), halfDay)
	if e.WashDown > 0 && e.WashDown < e.Wash {
		c.stop(WashShorter, at.key("wash-down"), "the wash-down takes less time than the usual wash", "a wash-down after an allergen takes at least as long: correct one of them")
	}
	if (e.Wash > 0 || e.WashDown > 0) && e.Kind == Burner {
		c.caution(WashMeansNothing, at, "no food goes onto a burner, so no time is planned for washing it", "write wash: at what the food is in")
	}
}
