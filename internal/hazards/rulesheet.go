package hazards

import (
	"kettlefrost/internal/foodcode"
	"kettlefrost/internal/kitchen"
)

// RulesSchema names the shape of a RuleSheet.
const RulesSchema = "kettlefrost.rules/1"

// RuleSheet is every rule as this kitchen holds it, to be shown.
type RuleSheet struct {
	Schema       string     `json:"schema"`
	Kitchen      string     `json:"kitchen"`
	Jurisdiction string     `json:"jurisdiction"` // whose rules are shown
	Judged       bool       `json:"judged"`       // false: the book names no jurisdiction, so nothing is judged by any rule
	From         string     `json:"from,omitempty"`
	Cooling      CoolRow    `json:"cooling"` // by which coolings are judged
	Topics       []TopicRow `json:"topics"`  // in the order of a kitchen's day
}

// CoolRow is the rule by which coolings are judged.
type CoolRow struct {
	ID     string   `json:"id"`
	Title  string   `json:"title"`
	Stages []string `json:"stages"` // in words
	Scope  string   `json:"scope,omitempty"`
	Source string   `json:"source"`
}

// TopicRow is the rules about one thing.
type TopicRow struct {
	Topic string    `json:"topic"`
	Rules []RuleRow `json:"rules"`
}

// RuleRow is one rule.
type RuleRow struct {
	ID           string   `json:"id"`
	Food         string   `json:"food"`
	Limit        string   `json:"limit"`     // as this kitchen holds it
	Published    string   `json:"published"` // in words
	TempF        *float64 `json:"temp_f,omitempty"`
	Seconds      *float64 `json:"seconds,omitempty"` // to be held for where it is at-least, within where it is at-most
	Days         int      `json:"days,omitempty"`
	Sense        string   `json:"sense"`                  // at-least, at-most or state
	Jurisdiction string   `json:"jurisdiction,omitempty"` // left out: nobody's law
	Edition      string   `json:"edition,omitempty"`
	Source       string   `json:"source"`
	Confirm      string   `json:"confirm,omitempty"` // what of it is from memory, to be confirmed by the local authority
	Gate         bool     `json:"gate"`              // something may be stopped by it: nothing of it is from memory
	Changed      string   `json:"changed,omitempty"` // stricter or laxer; left out: as published
	Reason       string   `json:"reason,omitempty"`
	By           string   `json:"by,omitempty"`
}

// SheetOf is the rules of a book.
func SheetOf(book kitchen.Book) RuleSheet {
	rule := CoolRule(book)
	v := RuleSheet{Schema: RulesSchema, Kitchen: book.Kitchen.Name, Jurisdiction: Jurisdiction(book), Judged: book.Safety.Given(), From: book.Safety.From,
		Cooling: CoolRow{ID: rule.ID, Title: rule.Title, Scope: rule.Scope, Source: rule.Source}}
	for _, s := range rule.Stages {
		v.Cooling.Stages = append(v.Cooling.Stages, stageWords(s))
	}
	for _, topic := range foodcode.Topics {
		row := TopicRow{Topic: string(topic)}
		for _, h := range held(book, topic) {
			row.Rules = append(row.Rules, rowOf(h))
		}
		v.Topics = append(v.Topics, row)
	}
	return v
}

func rowOf(h foodcode.Held) RuleRow {
	r := RuleRow{ID: h.ID, Food: h.Food, Limit: h.Figures(), Published: h.Limit, TempF: h.TempF, Seconds: h.Seconds, Days: h.Days, Sense: string(h.Sense), Jurisdiction: h.Jurisdiction,
		Edition: h.Edition, Source: h.Source, Confirm: h.Confirm, Gate: h.Gate(), Reason: h.Reason, By: h.By}
	switch {
	case h.Was == nil:
	case h.Laxer:
		r.Changed = "laxer"
	default:
		r.Changed = "stricter"
	}
	if h.Was != nil {
		r.Published = h.Was.Limit
	}
	return r
}
