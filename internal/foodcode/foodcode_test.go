package foodcode_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"kettlefrost/internal/coolrule"
	"kettlefrost/internal/foodcode"
)

// The cooling limits are those by which coolings are judged: same temperature, same time.
func TestCoolingAgreesWithWhatJudges(t *testing.T) {
	for id, stage := range map[string]coolrule.Stage{
		"fda-3-501.14-a-1": coolrule.FoodCodeCooked().Stages[0], "fda-3-501.14-a-2": coolrule.FoodCodeCooked().Stages[1],
		"fda-3-501.14-b": coolrule.FoodCodeAmbient().Stages[0], "maine-346-3-12-a-1": coolrule.Maine().Stages[0],
	} {
		r, ok := foodcode.Find(id)
		if !ok || math.Abs((*r.TempF-32)*5/9-stage.ToC) > 1e-6 || *r.Seconds != stage.WithinS {
			t.Errorf("%s: %+v, and coolings are judged by %+v", id, r, stage)
		}
	}
}

// Every rule has words, a source, and a topic with others; one from memory is no gate.
func TestTheTable(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range foodcode.All() {
		if seen[r.ID] || r.Limit == "" || r.Food == "" || r.Source == "" {
			t.Errorf("%+v", r)
		}
		seen[r.ID] = true
		if strings.Contains(r.Limit, " °F") && r.Sense != foodcode.State && r.TempF == nil {
			t.Errorf("%s has words of a temperature and no figure", r.ID)
		}
	}
	for id, gate := range map[string]bool{"fda-3-501.14-a-1": true, "fda-3-401.12": false, "fda-3-202.11": false} { // read in full, or its number from memory
		if r, ok := foodcode.Find(id); !ok || r.Gate() != gate {
			t.Errorf("%s is a gate: %v", id, r.Gate())
		}
	}
	for _, topic := range foodcode.Topics {
		if len(foodcode.Of(topic, "US")) == 0 {
			t.Errorf("nothing about %s", topic)
		}
	}
	if n, state := len(foodcode.Of(foodcode.CoolingDay, "US")), len(foodcode.Of(foodcode.CoolingDay, "US-ME")); n != 3 || state != 4 {
		t.Errorf("%d rules of cooling in the US and %d in Maine", n, state)
	}
}

func num(x float64) *float64 { return &x }

// Stricter is free; laxer takes a reason and a name; what a rule does not have cannot be changed.
func TestOverrides(t *testing.T) {
	for _, c := range []struct {
		name  string
		topic foodcode.Topic
		o     foodcode.Override
		bad   string
		laxer bool
	}{
		{"colder", foodcode.Holding, foodcode.Override{Rule: "fda-3-501.16-a-2", TempF: num(38)}, "", false},
		{"warmer without a reason", foodcode.Holding, foodcode.Override{Rule: "fda-3-501.16-a-2", TempF: num(45)}, "laxer", true},
		{"warmer with one", foodcode.Holding, foodcode.Override{Rule: "fda-3-501.16-a-2", TempF: num(45), Reason: "variance 12", By: "Ada"}, "", true},
		{"hotter", foodcode.Cooking, foodcode.Override{Rule: "fda-3-401.11-a-3", TempF: num(170)}, "", false},
		{"shorter in the pan", foodcode.Cooking, foodcode.Override{Rule: "fda-3-401.11-a-2", Seconds: num(1)}, "laxer", true},
		{"faster cooling", foodcode.CoolingDay, foodcode.Override{Rule: "fda-3-501.14-a-2", Seconds: num(4 * 3600)}, "", false},
		{"fewer days", foodcode.DateMarks, foodcode.Override{Rule: "fda-3-501.17", Days: 5}, "", false},
		{"more days", foodcode.DateMarks, foodcode.Override{Rule: "fda-3-501.17", Days: 9}, "laxer", true},
		{"a figure that it has not", foodcode.Holding, foodcode.Override{Rule: "fda-3-501.16-a-2", Seconds: num(5)}, "no such figure", false},
		{"no figure at all", foodcode.Thawing, foodcode.Override{Rule: "fda-3-501.13-e", TempF: num(40)}, "no figure", false},
		{"no such rule", foodcode.Holding, foodcode.Override{Rule: "mine"}, "no rule of that name", false},
		{"no number", foodcode.Holding, foodcode.Override{Rule: "fda-3-501.16-a-2", TempF: num(math.NaN())}, "no figure", false},
	} {
		held, err := foodcode.Hold(c.topic, "US", []foodcode.Override{c.o})
		if c.bad != "" {
			wrong := (*foodcode.OverrideError)(nil)
			if !errors.As(err, &wrong) || wrong.Fix == "" || !strings.Contains(err.Error(), c.bad) {
				t.Errorf("%s: %v", c.name, err)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
		}
		for _, h := range held {
			if h.ID == c.o.Rule && (h.Was == nil || h.Laxer != c.laxer) {
				t.Errorf("%s: %+v", c.name, h)
			}
		}
	}
}
