package forecast

import (
	"math"
	"slices"
)

// try runs one method through the past. It also gives the errors, count less forecast, of the totals that were asked for.
func try(m Method, counts []float64, from int, opt Options) (Trial, []float64) {
	t := Trial{Method: m, From: from}
	model := m.model(opt.Season)
	var totals []float64
	for i, y := range counts {
		if i >= from {
			now := model.models[model.best()]
			t.Said = append(t.Said, say(now, 1))
			if i+opt.Ahead <= len(counts) {
				off := 0.0
				for h := range opt.Ahead {
					off += counts[i+h] - say(now, h+1)
				}
				totals = append(totals, off)
			}
		}
		model.learn(y)
	}
	best := model.best()
	t.Setting = model.settings[best]
	for h := range opt.Ahead {
		t.Next = append(t.Next, say(model.models[best], h+1))
	}
	t.Error = measure(counts, t.Said)
	return t, totals
}

// measure holds what was said for the last periods against their counts.
func measure(counts, said []float64) Measure {
	m := Measure{Origins: len(said)}
	if len(said) == 0 {
		return m
	}
	for i, f := range said {
		e := f - counts[len(counts)-len(said)+i]
		m.RMSE += e * e
		m.MAE += math.Abs(e)
		m.Bias += e
	}
	n := float64(len(said))
	m.RMSE, m.MAE, m.Bias = math.Sqrt(m.RMSE/n), m.MAE/n, m.Bias/n
	if change := meanChange(counts); change > 0 {
		m.MASE = m.MAE / change
	}
	return m
}

// meanChange is the mean distance of a count to the one before it.
func meanChange(counts []float64) float64 {
	sum := 0.0
	for i := 1; i < len(counts); i++ {
		sum += math.Abs(counts[i] - counts[i-1])
	}
	return sum / float64(max(1, len(counts)-1))
}

// take is the simplest method within Tie of the least error. Where nothing could be measured it is the mean of all.
func take(tried []Trial) int {
	least := math.Inf(1)
	for _, t := range tried {
		least = math.Min(least, t.Error.RMSE)
	}
	return slices.IndexFunc(tried, func(t Trial) bool {
		return t.Error.RMSE <= Tie*least && (t.Error.Origins > 0 || t.Method == Mean)
	})
}
