package draftdish

import (
	"slices"
	"strings"
)

// Ask is something that the recipe leaves open.
type Ask struct {
	Key      string   `json:"key"`   // under which it is answered
	About    string   `json:"about"` // the line or the sentence
	Question string   `json:"question"`
	Assumed  string   `json:"assumed"` // what is reckoned with until it is answered; "" if nothing is
	Source   string   `json:"source,omitempty"`
	Grave    bool     `json:"grave"`             // something stays out of the dish, or off its label, until it is answered
	Options  []Option `json:"options,omitempty"` // what may be answered; anything of the kind when empty
	Answer   string   `json:"answer"`            // as it was typed
	Problem  string   `json:"problem,omitempty"` // why the answer cannot be taken
	Answered bool     `json:"answered"`
	Kind     Topic    `json:"kind"`
}

// Option is an answer to choose.
type Option struct {
	Is   string `json:"is"`
	Says string `json:"says"`
}

// Topic is what an ask is about.
type Topic string

// Topics of asks.
const (
	AskWhat      Topic = "what"      // which food it is
	AskMuch      Topic = "much"      // how much of it
	AskDensity   Topic = "density"   // what a cup of it weighs
	AskWhere     Topic = "where"     // into which step it goes
	AskTime      Topic = "time"      // how long
	AskHeat      Topic = "heat"      // how hot
	AskVessel    Topic = "vessel"    // in what
	AskLid       Topic = "lid"       // open or covered
	AskAllergens Topic = "allergens" // of a new ingredient
	AskClass     Topic = "class"     // what it is as far as hazards go
	AskMakes     Topic = "makes"     // how much there is in the end
	AskName      Topic = "name"
)

// Answers are texts by the keys of asks.
type Answers map[string]string

// asks collects what is open, with what was answered.
type asks struct {
	given Answers
	all   []Ask
	used  map[string]bool
}

// put asks something; the answer, if there is one, is its second result.
func (a *asks) put(q Ask) (int, string) {
	q.Answer = strings.TrimSpace(a.given[q.Key])
	q.Answered = q.Answer != ""
	a.used[q.Key] = true
	a.all = append(a.all, q)
	return len(a.all) - 1, q.Answer
}

// refuse says why an answer cannot be taken; what was assumed holds on.
func (a *asks) refuse(i int, problem string) {
	a.all[i].Problem, a.all[i].Answered = problem, false
}

// Open are the asks that are not answered, the grave ones first.
func (d Draft) Open() []Ask {
	var open []Ask
	for _, q := range d.Asks {
		if !q.Answered {
			open = append(open, q)
		}
	}
	slices.SortStableFunc(open, func(x, y Ask) int {
		switch {
		case x.Grave == y.Grave:
			return 0
		case x.Grave:
			return -1
		}
		return 1
	})
	return open
}
