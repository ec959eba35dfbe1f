package hazards

import (
	"fmt"
	"strings"

	"kettlefrost/internal/coolrule"
	"kettlefrost/internal/foodcode"
	"kettlefrost/internal/haccp"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// published is whose rules are shown where a book names no jurisdiction: they judge nothing then.
const published = "US"

// Jurisdiction is whose rules hold by the book; where it names none, whose are shown.
func Jurisdiction(book kitchen.Book) string {
	if book.Safety.Given() {
		return book.Safety.Jurisdiction
	}
	return published
}

// Rules are the published rules of every topic, in the order of a kitchen's day, as this kitchen holds them. A change that may not be made is
// left out: the check of the book stops it, with its line.
func Rules(book kitchen.Book) []foodcode.Held {
	var all []foodcode.Held
	for _, topic := range foodcode.Topics {
		all = append(all, held(book, topic)...)
	}
	return all
}

func held(book kitchen.Book, topic foodcode.Topic) []foodcode.Held {
	var fit []foodcode.Override
	for _, change := range book.Safety.Rules {
		o := change.Override()
		if _, err := foodcode.Hold(topic, Jurisdiction(book), []foodcode.Override{o}); err == nil {
			fit = append(fit, o)
		}
	}
	rules, err := foodcode.Hold(topic, Jurisdiction(book), fit)
	if err != nil { // each of them was taken alone
		rules, _ = foodcode.Hold(topic, Jurisdiction(book), nil)
	}
	return rules
}

// stageOf is which stage of which cooling rule a rule of the food code is about.
var stageOf = map[string]struct {
	rule  string
	stage int
}{
	"fda-3-501.14-a-1":   {"fda-3-501.14-a", 0},
	"fda-3-501.14-a-2":   {"fda-3-501.14-a", 1},
	"fda-3-501.14-b":     {"fda-3-501.14-b", 0},
	"maine-346-3-12-a-1": {"maine-346-3-12-a", 0},
}

// CoolRule is the rule by which this kitchen's coolings are judged, with its own figures: the one that the book names, or the Food Code's for
// cooked food.
func CoolRule(book kitchen.Book) coolrule.Rule {
	rule := coolrule.FoodCodeCooked()
	for _, r := range coolrule.All() {
		if r.ID == book.Safety.Cooling {
			rule = r
		}
	}
	changes := changesOf(book, rule)
	for _, h := range changes {
		i := stageOf[h.ID].stage
		rule.Stages[i] = changed(rule.Stages[i], h)
	}
	if len(changes) > 0 {
		rule.Title += ", as this kitchen holds it"
	}
	return rule
}

// changesOf are the rules of the food code that this kitchen holds otherwise and that a cooling rule is about.
func changesOf(book kitchen.Book, rule coolrule.Rule) []foodcode.Held {
	var all []foodcode.Held
	for _, h := range held(book, foodcode.CoolingDay) {
		if at, ok := stageOf[h.ID]; ok && h.Was != nil && at.rule == rule.ID {
			all = append(all, h)
		}
	}
	return all
}

// changed is a stage with the kitchen's figures, and its name with them.
func changed(s coolrule.Stage, h foodcode.Held) coolrule.Stage {
	s.Name = strings.Replace(s.Name, degrees(*h.Was.TempF), degrees(*h.TempF), 1)
	s.ToC, s.WithinS = unit.TempF(*h.TempF).C(), *h.Seconds
	return s
}

func degrees(f float64) string { return fmt.Sprintf("%g °F", f) }

// coolingLimit is the cooling rule as a limit of a hazard plan.
func coolingLimit(book kitchen.Book) haccp.Limit {
	rule := CoolRule(book)
	l := haccp.Limit{Rule: rule.ID, Source: rule.Source}
	for _, s := range rule.Stages {
		if s.Advisory {
			continue
		}
		words := stageWords(s)
		if l.Text != "" {
			l.Text += ", and "
		}
		l.Text += words
		l.Figures = append(l.Figures, haccp.Figure{Words: words, Sense: foodcode.AtMost, TempC: s.ToC, Seconds: s.WithinS})
	}
	for _, h := range changesOf(book, rule) {
		l.Text += " (published: " + h.Was.Limit + ")"
		l.Reason, l.Laxer = h.Reason, l.Laxer || h.Laxer
	}
	return l
}

func stageWords(s coolrule.Stage) string {
	from, inAll := strings.CutSuffix(s.Name, " in all")
	words := from + " within " + foodcode.Time(s.WithinS)
	if inAll {
		words += " in all"
	}
	if s.Advisory {
		words += " (a caution only)"
	}
	return words
}
