package kitchen

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
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

// canBeDone checks that as many people have the skill that is asked for as the work takes.
func (c *checker) canBeDone(at spot, skill Skill, takes int) {
	if skill == "" {
		return
	}
	can, known := 0, []string{}
	for _, p := range c.book.People {
		if slices.Contains(p.Can, skill) {
			can++
		}
		for _, s := range p.Can {
			known = append(known, string(s))
		}
	}
	slices.Sort(known)
	switch {
	case can == 0:
		c.stop(NobodyCan, at.key("skill"), fmt.Sprintf("nobody can do %s", skill), nearestOf("skill under can: of a person", string(skill), slices.Compact(known)))
	case can < takes:
		c.report(finding.Stop, TooFewCan, at.key("skill"), fmt.Sprintf("it takes %d people who can do %s, but %d can", takes, skill, can), "let fewer people do it, or add the word to can: of somebody who learns it",
			finding.Figure{Name: "needed", Value: float64(takes)}, finding.Figure{Name: "can", Value: float64(can)})
	}
}

// atOnce checks that a step that must start at once is not told that it may wait, and has something to start after.
func (c *checker) atOnce(at spot, s Step) {
	if !s.AtOnce {
		return
	}
	if len(s.Use) > 0 && !slices.ContainsFunc(s.Use, func(u Use) bool { return u.From != "" }) {
		c.caution(AtOnceAfterNothing, at.key("at-once"), "this step must start at once, but uses nothing that a step gives: there is nothing to start after", "take at-once: out, or add what an earlier step gives to use: with from:")
	}
	if s.Within > 0 {
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
		c.caution(WashMeansNothing, at, "no food goes onto a burner, but the next dish would wait for it to be washed", "write wash: at what the food is in")
	}
}
