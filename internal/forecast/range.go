package forecast

import (
	"math"
	"slices"
)

// rangeOf adds the errors of the past to a total of so many periods. Of k errors in order, the next falls between the i-th and the j-th in
// (j-i) of k+1 cases if all orders are equally likely, however they are distributed (Wilks, 1941; the rank argument of conformal
// prediction). The ranks are those that promise the cover, alike at both ends; if there are too few errors, it is all of them and what
// they promise. Totals of several periods begin one period apart and overlap, so that they tell less than their number: no more is
// promised than all of as many as share no period.
func rangeOf(total float64, errors []float64, ahead int, cover float64) Range {
	k := len(errors)
	r := Range{Low: total, High: total, Errors: k}
	if k == 0 {
		return r
	}
	r.Apart = (k + ahead - 1) / ahead
	sorted := slices.Sorted(slices.Values(errors))
	low := int(math.Floor((1-cover)/2*float64(k+1) + 1e-9)) // the small addition is for a cover that is no exact binary fraction
	low = max(1, low)
	high := k + 1 - low
	r.Low = math.Max(0, total+sorted[low-1])
	r.High = math.Max(r.Low, total+sorted[high-1])
	r.Cover = min(float64(high-low)/float64(k+1), float64(r.Apart-1)/float64(r.Apart+1))
	return r
}
