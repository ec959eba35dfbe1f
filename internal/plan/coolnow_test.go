package plan_test

import (
	"testing"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// What is cooled now is cooled as in a run: 13 kg of soup from 95 °C in the same bath take the same time, and one load is one load.
func TestCoolNowIsTheCoolingOfARun(t *testing.T) {
	book := coldKitchen(t)
	run := makePlan(t, book, soups(40)).Chill[0]
	now, err := plan.CoolNow(book, table(t), "soup", "soup", 13*unit.Kilogram, run.From)
	if err != nil {
		t.Fatal(err)
	}
	for i, o := range now.Chill[0].Options {
		if d := o.To41.S() - run.Options[i].To41.S(); o.ID != run.Options[i].ID || d < -61 || d > 61 {
			t.Errorf("%s: %v, in the run %s: %v", o.ID, o.To41, run.Options[i].ID, run.Options[i].To41)
		}
	}
	if many, err := plan.CoolNow(book, table(t), "soup", "soup", 400*unit.Kilogram, run.From); err != nil || many.Findings.Worst() < now.Findings.Worst() || len(many.Findings) == 0 {
		t.Errorf("400 kg: %v, %v", many.Findings, err)
	}
}

func TestCoolNowRefuses(t *testing.T) {
	book := coldKitchen(t)
	hot := unit.TempF(200)
	for what, err := range map[string]error{
		"no dish":   second(plan.CoolNow(book, table(t), "stew", "soup", unit.Kilogram, hot)),
		"no output": second(plan.CoolNow(book, table(t), "soup", "stock", unit.Kilogram, hot)),
		"no mass":   second(plan.CoolNow(book, table(t), "soup", "soup", 0, hot)),
		"cold":      second(plan.CoolNow(book, table(t), "soup", "soup", unit.Kilogram, unit.TempF(40))),
	} {
		if err == nil {
			t.Errorf("%s is taken", what)
		}
	}
}

func second[T any](_ T, err error) error { return err }
