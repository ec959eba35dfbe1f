// Package foodcode is the published rules of food safety as data: each with its jurisdiction, edition and source, and with what of it was not
// read in a published text. A kitchen chooses rules, and may be stricter freely; to be laxer it gives a reason, which is shown wherever the
// rule is. What is from memory is never a gate: it is shown, to be confirmed by the local authority.
package foodcode

import (
	_ "embed"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/sourced"
)

//go:embed data/rules.csv
var data string

// Topic is what a rule is about.
type Topic string

const (
	Cooking    Topic = "cooking"
	CoolingDay Topic = "cooling"
	Reheating  Topic = "reheating"
	Holding    Topic = "holding"
	DateMarks  Topic = "date-marking"
	Thawing    Topic = "thawing"
	Vacuum     Topic = "vacuum"
	Receiving  Topic = "receiving"
)

// Topics in the order of a kitchen's day.
var Topics = []Topic{Receiving, Cooking, CoolingDay, Vacuum, Holding, DateMarks, Thawing, Reheating}

// Sense says on which side of its temperature food must be.
type Sense string

const (
	AtLeast Sense = "at-least" // as hot, for as long
	AtMost  Sense = "at-most"  // as cold, or within the time
	State   Sense = "state"    // no figure: something to be so
)

// Rule is one published rule.
type Rule struct {
	ID           string
	Topic        Topic
	Jurisdiction string // ISO 3166; "" where it is nobody's law
	Edition      string
	Food         string // what it is for
	Limit        string // in words
	Sense        Sense
	TempF        *float64
	Seconds      *float64 // to be held for (AtLeast), or within (AtMost)
	Days         int      // 0: none
	Source       string
	Confirm      string // what of it is from memory
}

// Gate says whether something may be stopped by this rule: nothing of it is from memory.
func (r Rule) Gate() bool { return r.Confirm == "" }

// All is every rule, in the order of the topics.
func All() []Rule { return slices.Clone(rules) }

// Of are the rules of a topic that hold in a jurisdiction: its own, those of what it is part of (US-ME: US), and those that are nobody's law.
func Of(topic Topic, jurisdiction string) []Rule {
	var found []Rule
	for _, r := range rules {
		if r.Topic == topic && (r.Jurisdiction == "" || r.Jurisdiction == jurisdiction || strings.HasPrefix(jurisdiction, r.Jurisdiction+"-")) {
			found = append(found, r)
		}
	}
	return found
}

// Find is a rule by its ID.
func Find(id string) (Rule, bool) {
	i := slices.IndexFunc(rules, func(r Rule) bool { return r.ID == id })
	if i < 0 {
		return Rule{}, false
	}
	return rules[i], true
}

var rules = inOrder(sourced.MustRead(data, readRule))

func readRule(row sourced.Row) (Rule, error) {
	days, _ := strconv.Atoi(row["days"])
	r := Rule{ID: row["id"], Topic: Topic(row["topic"]), Jurisdiction: row["jurisdiction"], Edition: row["edition"], Food: row["food"], Limit: row["limit"], Sense: Sense(row["sense"]),
		TempF: figure(row["temp_f"]), Seconds: figure(row["within_s"]), Days: days, Source: row["source"], Confirm: row["confirm"]}
	if !slices.Contains(Topics, r.Topic) {
		return r, fmt.Errorf("topic %q", r.Topic)
	}
	return r, nil
}

// inOrder is the rules by their topics, in the order of a day.
func inOrder(all []Rule) []Rule {
	slices.SortStableFunc(all, func(a, b Rule) int { return slices.Index(Topics, a.Topic) - slices.Index(Topics, b.Topic) })
	return all
}

func figure(text string) *float64 {
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return nil
	}
	return &x
}
