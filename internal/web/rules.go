package web

import (
	"cmp"
	"net/http"
	"strings"

	"kettlefrost/internal/hazards"
)

// rulesPage is all that templates/rules.html may show: the rules of food safety as this kitchen holds them.
type rulesPage struct {
	shell
	Whose   string
	Judged  bool
	From    string
	Cooling coolingRule
	Changed []heldOtherwise // what this kitchen holds otherwise, at the top
	Topics  []ruleTopic
	Grave   []reminder // of the book, about its rules
	JSON    string
}

// coolingRule is the rule by which coolings are judged.
type coolingRule struct{ ID, Title, Stages, Scope, Source string }

// ruleTopic is the rules about one thing.
type ruleTopic struct {
	ID, Name string
	Rules    []heldRule
}

// heldOtherwise is a rule that differs from what is published.
type heldOtherwise struct{ Food, Limit, Published, How, Why, Who, Source string }

// heldRule is one rule.
type heldRule struct {
	ID, Food, Limit, Published, Source, Edition, Whose string
	How, Why, Who                                      string // how it differs
	Confirm                                            string
}

var rulesTemplate = parse[rulesPage]("rules")

func (s *server) showRules(w http.ResponseWriter, r *http.Request) {
	book, found := s.house.Book()
	sheet := hazards.SheetOf(book)
	c := sheet.Cooling
	v := rulesPage{shell: s.inShell(r, book.Kitchen, "Rules of food safety", "rules"), Whose: sheet.Jurisdiction, Judged: sheet.Judged, From: sheet.From, Cooling: coolingRule{c.ID, c.Title, strings.Join(c.Stages, "; "), c.Scope, c.Source}, JSON: rulesPath + ".json"}
	for _, f := range found {
		if strings.HasPrefix(f.Path, "safety") {
			v.Grave = append(v.Grave, remind(f))
		}
	}
	for _, topic := range sheet.Topics {
		t := ruleTopic{ID: topic.Topic, Name: strings.ToUpper(topic.Topic[:1]) + topic.Topic[1:]}
		for _, x := range topic.Rules {
			row := viewHeldRule(x)
			if x.Changed != "" {
				v.Changed = append(v.Changed, heldOtherwise{x.Food, x.Limit, x.Published, row.How, row.Why, row.Who, x.Source})
			}
			t.Rules = append(t.Rules, row)
		}
		v.Topics = append(v.Topics, t)
	}
	rulesTemplate.show(w, http.StatusOK, v)
}

func viewHeldRule(x hazards.RuleRow) heldRule {
	v := heldRule{ID: x.ID, Food: x.Food, Limit: x.Limit, Source: x.Source, Edition: x.Edition, Whose: cmp.Or(x.Jurisdiction, "nobody’s law"), Confirm: x.Confirm}
	switch x.Changed {
	case "laxer":
		v.How = "▲ LAXER than published"
	case "stricter":
		v.How = "● stricter than published"
	default:
		return v
	}
	v.Published, v.Why, v.Who = x.Published, cmp.Or(x.Reason, "no reason is given"), x.By
	return v
}
