package trials

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/record"
	"kettlefrost/internal/tastetrial"
)

// unknown is what is not known yet, in sentences: what a reader might take for granted.
func (r Results) unknown() []string {
	var all []string
	t := r.Trial
	var ahead []string
	for _, w := range t.Laid.Body.Weeks {
		if !slices.Contains(r.Opened, w) {
			ahead = append(ahead, fmt.Sprint(w))
		}
	}
	if len(ahead) > 0 {
		all = append(all, "Of week "+strings.Join(ahead, ", ")+" nothing was entered yet.")
	}
	if n := len(r.Opened); n > 0 {
		all = append(all, fmt.Sprintf("After week %d nobody has looked.", r.Opened[n-1]))
	}
	for _, f := range r.Figures {
		all = append(all, r.open(f)...)
	}
	return append(all, "None of this says that food is safe: it says how it keeps and eats.")
}

// open is what is not known of one figure.
func (r Results) open(f Result) []string {
	var all []string
	name := f.Figure.Figure
	if f.Not != "" {
		return []string{fmt.Sprintf("%s: nothing can be compared: %s.", capital(name), f.Not)}
	}
	for _, p := range f.Pairs {
		if p.Verdict == tastetrial.CannotTell || p.Verdict == tastetrial.Some {
			all = append(all, fmt.Sprintf("%s, %s against %s: %s.", capital(name), r.variant(p.Of), r.variant(p.Against), p.Text))
		}
	}
	if f.Figure.Bound == nil {
		all = append(all, fmt.Sprintf("%s: nobody has said how far it may go before a pack is no longer good, so it says nothing about a best-before.", capital(name)))
	}
	for _, s := range f.Series {
		if s.Trend != nil && s.Trend.PLine < 0.05 {
			all = append(all, fmt.Sprintf("%s of %s does not run straight over the weeks (p %.2g), so its line and interval are rough; look at the weeks one by one.", capital(name), r.variant(s.Variant), s.Trend.PLine))
		}
	}
	if f.Scored && r.changing(f) {
		all = append(all, fmt.Sprintf("%s: not the same tasters came in every week, so its means over the weeks may differ by who tasted.", capital(name)))
	}
	return all
}

// changing says whether weeks were tasted by different people.
func (r Results) changing(f Result) bool {
	came := map[record.Week]map[int]bool{}
	for _, s := range f.Seen {
		if came[s.Week] == nil {
			came[s.Week] = map[int]bool{}
		}
		came[s.Week][s.Taster] = true
	}
	most := map[int]bool{}
	for _, who := range came {
		for t := range who {
			most[t] = true
		}
	}
	for _, who := range came {
		if len(who) != len(most) {
			return true
		}
	}
	return false
}

func (r Results) variant(i int) string { return r.Trial.Laid.Body.Variants[i].Name }

func capital(text string) string {
	if text == "" {
		return ""
	}
	return strings.ToUpper(text[:1]) + text[1:]
}
