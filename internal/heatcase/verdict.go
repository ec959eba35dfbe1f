package heatcase

import (
	"math"

	"kettlefrost/internal/coolrule"
)

// How a cooling stands to a limit, in words. All of it is a prediction.
const (
	wordsWithin   = "within the limits, as predicted, with every coefficient of the band"
	wordsTight    = "within the limits, as predicted, but too slow with the low coefficients"
	wordsTooSlow  = "too slow"
	wordsPerhaps  = "too slow, but within the limits, as predicted, with the high coefficients"
	wordsNotShown = "not shown: it was not followed to the end of the limit"
)

// verdict judges the marks of a cooling by the Food Code's limit for cooked food.
func verdict(fromC float64, marks []Mark) (*Verdict, error) {
	rule := coolrule.FoodCodeCooked()
	v := &Verdict{Rule: rule.Title, Source: rule.Source}
	var judged [3]coolrule.Verdict
	for _, l := range []level{usualFilm, lowFilm, highFilm} {
		var err error
		if judged[l], err = coolrule.Judge(rule, crossings(fromC, marks, l)); err != nil {
			return nil, err
		}
	}
	usual, slow, fast := judged[usualFilm], judged[lowFilm], judged[highFilm]
	v.Usual, v.Slow, v.Fast = usual.Outcome.String(), slow.Outcome.String(), fast.Outcome.String()
	v.Words = words(usual.Outcome, slow.Outcome, fast.Outcome)
	for i, s := range rule.Stages {
		t := StageTime{Name: s.Name, FromC: s.FromC, ToC: s.ToC, LimitS: s.WithinS}
		for _, l := range []level{usualFilm, lowFilm, highFilm} {
			t.put(l, Reach{judged[l].Stages[i].Reached, judged[l].Stages[i].TookS})
		}
		v.Stages = append(v.Stages, t)
	}
	return v, nil
}

func words(usual, slow, fast coolrule.Outcome) string {
	switch {
	case usual == coolrule.TooSlow && fast == coolrule.WithinRule:
		return wordsPerhaps
	case usual == coolrule.TooSlow:
		return wordsTooSlow
	case usual == coolrule.NotShown:
		return wordsNotShown
	case slow == coolrule.WithinRule:
		return wordsWithin
	}
	return wordsTight
}

// crossings answers from the marks of one level. What lies below the last mark is known to be later.
func crossings(fromC float64, marks []Mark, l level) coolrule.Crossings {
	return func(tempC float64) (coolrule.Crossing, error) {
		if tempC >= fromC-sameC {
			return coolrule.Crossing{Reached: true}, nil
		}
		for _, m := range marks {
			if math.Abs(m.TempC-tempC) <= sameC {
				r := m.at(l)
				return coolrule.Crossing{Reached: r.Reached, TimeS: r.TimeS}, nil
			}
		}
		return coolrule.Crossing{TimeS: marks[len(marks)-1].at(l).TimeS}, nil
	}
}

func (b Band) at(l level) Reach {
	switch l {
	case lowFilm:
		return b.Slow
	case highFilm:
		return b.Fast
	}
	return b.Usual
}
